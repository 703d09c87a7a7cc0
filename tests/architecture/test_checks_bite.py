"""Every configured check is run once on a small project with a planted fault and must fail.

The small project has the real pyproject.toml and tools, and rooms that hold a docstring each.
The same project without the fault must pass, so that a failure is the fault's doing.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

SCRIPTS = Path(sys.executable).parent
ROOM = '"""A room of the small project, with nothing in it."""\n'
CITING = '"""A room citing one source {made-up-2020, eq. 3}."""\n'
ENTRY = """[made-up-2020]
reference = "A. N. Author, A title"
edition = ""
url = ""
licence = ""
seen = "from memory"
"""


@pytest.fixture
def small(root: Path, tmp_path: Path) -> Path:
    """A small project that passes every check."""
    settings = (root / "pyproject.toml").read_text(encoding="utf-8")
    contracts = tomllib.loads(settings)["tool"]["importlinter"]["contracts"]
    names = {"boomwright"}
    for contract in contracts:
        names.update(contract.get("source_modules", ()))
        for layer in contract.get("layers", ()):
            rooms = [room.strip() for room in layer.split("|")]
            names.update(f"boomwright.{room}" for room in rooms if not room.startswith("("))
    for name in names:
        write(tmp_path, f"src/{name.replace('.', '/')}/__init__.py", ROOM)
    write(tmp_path, "src/boomwright/parts/__init__.py", CITING)
    write(tmp_path, "docs/sources.d/parts.toml", ENTRY)
    write(tmp_path, "pyproject.toml", settings)
    for name in ("check_docstrings.py", "sources.py"):
        (tmp_path / "tools").mkdir(exist_ok=True)
        shutil.copy(root / "tools" / name, tmp_path / "tools" / name)
    shutil.copy(root / "make.py", tmp_path / "make.py")
    assert run(tmp_path, "python", "tools/sources.py", "--write", ".").returncode == 0
    return tmp_path


def write(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def run(folder: Path, program: str, *arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [SCRIPTS / program, *arguments],
        cwd=folder, env={**os.environ, "PYTHONPATH": str(folder / "src")},
        capture_output=True, text=True, check=False,
    )  # fmt: skip


def held(done: subprocess.CompletedProcess[str], *, words: str) -> None:
    """Assert that a check failed, and for the planted reason."""
    assert done.returncode == 1, done.stdout + done.stderr
    assert words in done.stdout + done.stderr


def test_format(small: Path) -> None:
    assert run(small, "ruff", "format", "--check", "src").returncode == 0
    write(small, "src/boomwright/base/odd.py", "x = { 'a':1 }\n")
    held(run(small, "ruff", "format", "--check", "src"), words="odd.py")


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        ("F401", '"""Doc."""\n\nimport math\n'),
        ("F811", '"""Doc."""\n\n\ndef a() -> int:\n    ...\n\n\ndef a() -> int:\n    ...\n'),
        ("E501", '"""Doc."""\n\nx = "' + 100 * "a" + '"\n'),
        ("I001", '"""Doc."""\n\nimport os\nimport math\n\nprint(os, math)\n'),
        ("D103", '"""Doc."""\n\n\ndef f() -> int:\n    return 1\n'),
        ("T201", '"""Doc."""\n\nprint(1)\n'),
        ("PTH123", '"""Doc."""\n\nopen("x")\n'),
        ("NPY002", '"""Doc."""\n\nimport numpy as np\n\nnp.random.rand(3)\n'),
        ("S307", '"""Doc."""\n\neval("1")\n'),
        ("ANN001", '"""Doc."""\n\n\ndef _f(x) -> int:\n    return 1\n'),
        ("TID252", '"""Doc."""\n\nfrom .other import x\n'),
        ("B006", '"""Doc."""\n\n\ndef _f(x: list[int] = []) -> None:\n    """Doc."""\n'),
        ("UP006", '"""Doc."""\n\nfrom typing import List\n\nx: List[int] = []\n'),
        ("N801", '"""Doc."""\n\n\nclass lower:\n    """Doc."""\n'),
        ("RUF100", '"""Doc."""\n\nx = 1  # noqa: E501\n'),
    ],
)  # fmt: skip
def test_lint(small: Path, rule: str, code: str) -> None:
    assert run(small, "ruff", "check", "src").returncode == 0
    write(small, "src/boomwright/base/odd.py", code)
    done = run(small, "ruff", "check", "--output-format", "json", "src")
    assert done.returncode == 1
    assert rule in {fault["code"] for fault in json.loads(done.stdout)}


def test_types(small: Path) -> None:
    clean = run(small, "mypy", "--cache-dir", "types")
    assert clean.returncode == 0, clean.stdout + clean.stderr
    write(
        small, "src/boomwright/base/odd.py", '"""Doc."""\n\n\ndef f(x: int) -> str:\n    return x\n'
    )
    held(run(small, "mypy", "--cache-dir", "types"), words="Incompatible return value")
    write(small, "src/boomwright/base/odd.py", '"""Doc."""\n\n\ndef f(x):\n    return x\n')
    held(run(small, "mypy", "--cache-dir", "types"), words="missing a type annotation")


CONTRACTS = ("lint-imports", "--no-logo", "--no-cache")


def test_contracts_hold_without_a_fault(small: Path) -> None:
    clean = run(small, *CONTRACTS)
    assert clean.returncode == 0, clean.stdout + clean.stderr


@pytest.mark.parametrize(
    ("place", "code", "words"),
    [
        ("base", "import boomwright.parts\n", "Rooms import downwards"),
        ("solver", "from boomwright.study import x\n", "Rooms import downwards"),
        ("web", "import boomwright.cli\n", "Rooms import downwards"),
        ("attic", "", "boomwright.attic"),
        ("parts", "import pathlib\n", "Physics knows no disk"),
        ("base", "import time\n", "Physics knows no disk"),
        ("solver", "from matplotlib import pyplot\n", "Physics knows no disk"),
        ("reach", "from datetime import datetime\n", "Physics knows no disk"),
        ("charts", "import os\n", "Plan, study"),
        ("charts", "import rich\n", "Only the shells"),
    ],
)
def test_contracts(small: Path, place: str, code: str, words: str) -> None:
    write(small, f"src/boomwright/{place}/__init__.py", ROOM + code)
    done = run(small, *CONTRACTS)
    assert done.returncode == 1
    broken = [line for line in done.stdout.splitlines() if "BROKEN" in line or "attic" in line]
    assert any(words in line for line in broken), done.stdout


FUNCTION = '''"""Doc."""


def f(*, depth: {annotation}) -> {result}:
    """Return something.

    Args:
        {entry}

    Returns:
        {answer}
    """
'''
GOOD = {
    "annotation": "float",
    "result": "float",
    "entry": "depth: how long [m]",
    "answer": "something [-]",
}
FIELDS = '''"""Doc."""

from dataclasses import dataclass


@dataclass
class C:
    """A value."""

    length: float  #: how long [m]
    width: float{comment}
'''


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (FUNCTION.format(**{**GOOD, "entry": "depth: how long"}), "depth has no [unit]"),
        (FUNCTION.format(**{**GOOD, "entry": "width: [m]"}), "depth is not described"),
        (FUNCTION.format(**{**GOOD, "entry": "width: [m]"}), "width describes no argument"),
        (FUNCTION.format(**{**GOOD, "annotation": "NDArray"}), "depth has no (shape)"),
        (FUNCTION.format(**{**GOOD, "answer": "something"}), "result has no [unit]"),
        (FUNCTION.format(**{**GOOD, "result": "NDArray"}), "array result has no (shape)"),
        (FIELDS.format(comment=""), "C: width is not described"),
        (FIELDS.format(comment="  #: how wide"), "C: width has no [unit]"),
        ('"""Doc."""\n\n\ndef f() -> None:\n    pass\n', "f: no docstring"),
        ("x = 1\n", "no docstring at the top"),
    ],
)
def test_docstrings(small: Path, code: str, words: str) -> None:
    check = ("python", "tools/check_docstrings.py", "src")
    write(small, "src/boomwright/base/odd.py", FUNCTION.format(**GOOD))
    assert run(small, *check).returncode == 0
    write(small, "src/boomwright/base/odd.py", code)
    held(run(small, *check), words=words)


@pytest.mark.parametrize("argument", ["name: str", "frequency: float", "tilt_deg: float"])
def test_docstrings_ask_nothing_that_name_and_type_say(small: Path, argument: str) -> None:
    code = f'"""Doc."""\n\n\ndef f(*, {argument}) -> bool:\n    """Whether it is taken."""\n'
    write(small, "src/boomwright/base/odd.py", code)
    assert run(small, "python", "tools/check_docstrings.py", "src").returncode == 0


@pytest.mark.parametrize(
    ("name", "text", "words"),
    [
        ("src/boomwright/base/odd.py", '"""As {no-such-key}."""\n', "no-such-key is not in"),
        ("src/boomwright/base/odd.py", "x = 1  # {no-such-key, p. 2}\n", "no-such-key is not in"),
        ("src/boomwright/base/odd.py", 'f(source="no-such-key")\n', "no-such-key is not in"),
        ("tests/validation/test_no_such_key.py", '"""Doc."""\n', "no-such-key is not in"),
        ("docs/sources.d/base.toml", ENTRY, "registered twice"),
        (
            "docs/sources.d/base.toml",
            ENTRY.replace("made-up", "idle"),
            "idle-2020 is cited nowhere",
        ),
        ("docs/sources.d/base.toml", ENTRY.replace("from memory", "heard"), "seen is one of"),
        ("docs/sources.d/base.toml", ENTRY.replace('edition = ""', ""), "edition is missing"),
        ("docs/sources.d/base.toml", ENTRY.replace("made-up-2020", "madeup"), "one hyphen"),
        ("docs/sources.d/base.toml", "[made-up", "sources.d/base.toml"),
        ("docs/sources.toml", "", "not current"),
        ("src/boomwright/session/data/sources.toml", "", "not current"),
    ],
)
def test_sources(small: Path, name: str, text: str, words: str) -> None:
    check = ("python", "tools/sources.py", "--check", ".")
    clean = run(small, *check)
    assert clean.returncode == 0, clean.stdout
    write(small, name, text)
    held(run(small, *check), words=words)


def test_command_pages(root: Path, tmp_path: Path) -> None:
    for name in ("tools/command_pages.py", "docs/cli.md"):
        write(tmp_path, name, (root / name).read_text(encoding="utf-8"))
    check = [SCRIPTS / "python", "tools/command_pages.py", "--check"]
    assert subprocess.run(check, cwd=tmp_path, check=False, capture_output=True).returncode == 0
    with (tmp_path / "docs/cli.md").open("a", encoding="utf-8") as page:
        page.write("One more line.\n")
    assert subprocess.run(check, cwd=tmp_path, check=False, capture_output=True).returncode == 1


def test_test_settings(small: Path) -> None:
    check = ("pytest", "-q", "-p", "no:cacheprovider", "tests")
    write(small, "tests/test_small.py", "def test_a():\n    pass\n")
    assert run(small, *check).returncode == 0
    planted = {
        "UserWarning": "import warnings\n\ndef test_b():\n    warnings.warn('x')\n",
        "XPASS(strict)": "import pytest\n\n@pytest.mark.xfail\ndef test_c():\n    pass\n",
        "assert 1 == 2": "def test_d():\n    assert 1 == 2\n",
    }
    for number, code in enumerate(planted.values()):
        write(small, f"tests/test_planted_{number}.py", code)
    done = run(small, *check)
    for words in (*planted, "3 failed, 1 passed"):
        held(done, words=words)
