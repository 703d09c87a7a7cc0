"""Documents and settings agree with each other: links, reasons, lock."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

LINK = re.compile(r"\]\(([^)#]+?)(?:#[^)]*)?\)")


def test_every_link_between_documents_leads_somewhere(root: Path) -> None:
    pages = [root / "README.md", root / "CHANGELOG.md", *sorted((root / "docs").rglob("*.md"))]
    broken = [
        f"{page.relative_to(root)}: {target}"
        for page in pages
        for target in LINK.findall(page.read_text(encoding="utf-8"))
        if "://" not in target and not (page.parent / target).exists()
    ]
    assert not broken, broken


def test_the_house_in_the_readme_is_the_ladder(root: Path) -> None:
    """Step by step, the same rooms."""
    text = (root / "README.md").read_text(encoding="utf-8")
    drawing = text.split("```text\n")[1].split("```")[0]
    contracts = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    ladder = next(
        item for item in contracts["tool"]["importlinter"]["contracts"] if item["id"] == "ladder"
    )["layers"]
    steps = [set(re.findall(r"\w+", layer)) for layer in ladder if layer != "__main__"]
    lines = (re.split(r" {5,}", line)[0] for line in drawing.strip().splitlines())
    shown = [set(re.findall(r"\w+", line)) for line in lines]
    assert shown == steps


def requirements(root: Path, *, without: set[str] = frozenset()) -> set[str]:
    """Names of all packages pyproject.toml asks for, some extras left out."""
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = [*project["dependencies"]]
    for name, extra in project.get("optional-dependencies", {}).items():
        lines += [] if name in without else extra
    return {re.split(r"[<>=!~\[; ]", line)[0] for line in lines}


def test_every_package_asked_for_has_a_reason_and_no_other_has(root: Path) -> None:
    page = (root / "docs/decisions/0001-stack.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| ([\w-]+(?:, [\w-]+)*) \|", page, re.MULTILINE)
    given = {name for row in rows for name in row.split(", ")} - {"Package"}
    assert given == requirements(root)


def imported(*folders: Path) -> set[str]:
    """Packages imported by the code in these folders, by the name they are installed under."""
    homes = packages_distributions()
    found = set()
    for path in (path for folder in folders for path in folder.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom) and node.module:
                names = [node.module]
            tops = {name.split(".")[0] for name in names} - {"boomwright"}
            found |= {home.lower() for top in tops for home in homes.get(top, [])}
    return found


def test_the_program_asks_for_what_it_uses_and_nothing_else(root: Path) -> None:
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    asked = {re.split(r"[<>=!~]", line)[0].lower() for line in project["dependencies"]}
    # Loaded by name: the socket protocol by uvicorn, the type files by the book.
    used = imported(root / "src") | {"websockets", "font-roboto"}
    assert asked <= used
    assert used <= {name.lower() for name in requirements(root, without={"dev"})}


def test_tests_and_tools_use_only_what_is_asked_for(root: Path) -> None:
    used = imported(root / "tests", root / "tools", root / "benchmarks")
    assert used <= {name.lower() for name in requirements(root)}


def test_every_package_asked_for_is_locked(root: Path) -> None:
    lock = (root / "requirements.lock").read_text(encoding="utf-8")
    locked = set(re.findall(r"^([a-z0-9-]+)==", lock, re.MULTILINE))
    # The extras on request are not part of the environment of the project itself.
    own = requirements(root, without={"cluster", "gpu", "terrain"})
    assert {name.lower() for name in own} <= locked


def test_lock_has_hashes_and_names_no_host(root: Path) -> None:
    lock = (root / "requirements.lock").read_text(encoding="utf-8")
    for package in re.split(r"^(?=[a-z])", lock, flags=re.MULTILINE)[1:]:
        assert "--hash=sha256:" in package, package
    assert "://" not in lock
    assert "index" not in lock


def test_runs_from_a_clean_checkout_name_the_front_door(root: Path) -> None:
    assert "make.py test" in (root / ".ci" / "run").read_text(encoding="utf-8")
    readme = (root / "README.md").read_text(encoding="utf-8")
    assert "python3 make.py demo" in readme
    assert "python3 make.py test" in readme


def test_front_door_explains_itself_without_installing(root: Path) -> None:
    run = [sys.executable, root / "make.py"]
    helped = subprocess.run([*run, "help"], capture_output=True, text=True, check=False)
    assert helped.returncode == 0
    assert "make.py demo" in helped.stdout
    assert subprocess.run([*run, "dmeo"], capture_output=True, check=False).returncode == 2
