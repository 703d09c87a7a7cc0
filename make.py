"""The one front door: from a fresh machine to a result, or to every check.

Needs Python 3.11 or newer and nothing else::

    python3 make.py demo     install, then run the main job on the demo plan
    python3 make.py test     install, then every check and every test
    python3 make.py check    the same checks, without installing first
    python3 make.py lint     the checks that take seconds: everything but the tests
    python3 make.py write    bring the generated documents up to date
    python3 make.py lock     bring requirements.lock in line with pyproject.toml
    python3 make.py upgrade  choose every locked version anew
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
import venv
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
LOCK = ROOT / "requirements.lock"
SCRIPTS = VENV / ("Scripts" if os.name == "nt" else "bin")
PYTHON = SCRIPTS / ("python.exe" if os.name == "nt" else "python")
STAMP = VENV / "installed-from"
OLDEST = (3, 11)

LINT: dict[str, list[str]] = {
    "format": ["ruff", "format", "--check", "."],
    "ruff": ["ruff", "check", "."],
    "types": ["mypy"],
    "rooms": ["lint-imports", "--no-logo", "--no-cache"],
    "docstrings": ["python", "tools/check_docstrings.py"],
    "sources": ["python", "tools/sources.py", "--check"],
    "command pages": ["python", "tools/command_pages.py", "--check"],
}
# Browser tests run alone: two Chromium at once on a small machine time out at random.
TESTS: dict[str, list[str]] = {
    "tests": ["pytest", "-q", "-n", "2", "-m", "not browser"],
    "browser tests": ["pytest", "-q", "-m", "browser"],
}


def say(text: str) -> None:
    print(f"== {text}", flush=True)


def run(*command: str | Path) -> int:
    return subprocess.run([str(part) for part in command], cwd=ROOT, check=False).returncode


def must(*command: str | Path) -> None:
    status = run(*command)
    if status:
        line = " ".join(str(part) for part in command)
        sys.exit(f"make.py: this command ended with status {status}: {line}")


def installed_from() -> str:
    """Digest of everything the environment is made from."""
    digest = hashlib.sha256(sys.version.encode())
    for path in (LOCK, ROOT / "pyproject.toml"):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def locked_entry(package: str) -> str:
    """Return a package's lines of the lock."""
    text = LOCK.read_text(encoding="utf-8")
    return "".join(re.findall(rf"^{package}==.*\n(?:[ ].*\n)*", text, re.MULTILINE))


def install() -> None:
    """Bring .venv to the locked versions, unless it is there already."""
    wanted = installed_from()
    if STAMP.exists() and STAMP.read_text(encoding="utf-8") == wanted:
        return
    if not PYTHON.exists():
        say("making .venv")
        try:
            venv.create(VENV, with_pip=True)
        except (subprocess.CalledProcessError, OSError) as fault:
            shutil.rmtree(VENV, ignore_errors=True)
            sys.exit(
                f"make.py: Python cannot make a virtual environment here ({fault}).\n"
                "On Debian and its relatives: apt-get install python3-venv"
            )
    say("installing the locked environment")
    pip = (PYTHON, "-m", "pip", "--disable-pip-version-check", "install", "--quiet")
    # Without isolation a build uses what the lock holds; with it pip would fetch unlocked tools.
    locked = (*pip, "--require-hashes", "--no-build-isolation")
    builder = VENV / "builder.lock"
    builder.write_text(locked_entry("setuptools"), encoding="utf-8")
    must(*locked, "-r", builder)
    must(*locked, "-r", LOCK)
    must(*pip, "--no-deps", "--no-build-isolation", "-e", ROOT)
    STAMP.write_text(wanted, encoding="utf-8")


def run_all(checks: dict[str, list[str]]) -> int:
    """Run every check, also after one has failed, and say which failed."""
    failed = []
    for name, command in checks.items():
        say(name)
        program, *arguments = command
        if run(SCRIPTS / program, *arguments):
            failed.append(name)
    say(f"failed: {', '.join(failed)}" if failed else "all passed")
    return 1 if failed else 0


def demo() -> int:
    install()
    boomwright = SCRIPTS / "boomwright"
    status = run(boomwright, "demo", "demo")
    if status == 0:
        shown = boomwright.relative_to(ROOT)
        say("done: the book is demo/book.pdf")
        say(f"to see and change the beam on a page in your browser: {shown} open demo/plan.toml")
    return status


def test() -> int:
    install()
    return run_all({**LINT, **TESTS})


def check() -> int:
    return run_all({**LINT, **TESTS})


def lint() -> int:
    return run_all(LINT)


def write() -> int:
    return run_all(
        {
            "sources": ["python", "tools/sources.py", "--write"],
            "command pages": ["python", "tools/command_pages.py", "--write"],
            "worked stations": ["python", "tools/station_table.py"],
        }
    )


def lock(*more: str) -> int:
    command = "pip compile --quiet --universal --generate-hashes --no-emit-index-url"
    options = "--no-emit-find-links --no-header --no-annotate --python-version 3.11"
    inputs = "--extra dev pyproject.toml --output-file requirements.lock"
    return run(SCRIPTS / "uv", *f"{command} {options} {inputs}".split(), *more)


def upgrade() -> int:
    return lock("--upgrade")


TASKS: dict[str, Callable[[], int]] = {
    task.__name__: task for task in (demo, test, check, lint, write, lock, upgrade)
}


def main() -> int:
    if sys.version_info < OLDEST:
        sys.exit(
            f"make.py: boomwright needs Python 3.11 or newer; this is {sys.version.split()[0]}"
        )
    name = sys.argv[1] if len(sys.argv) == 2 else ""
    if name not in TASKS:
        print(__doc__)
        return 0 if name in {"help", "--help", "-h"} else 2
    return TASKS[name]()


if __name__ == "__main__":
    sys.exit(main())
