"""The one front door: from a fresh machine to a result, or to every check.

Needs Python 3.11 or newer and nothing else::

    python3 make.py demo     install what it needs, then run the main job on the demo plan
    python3 make.py test     install the rest, then every check and every test
    python3 make.py check    the same checks, without installing first
    python3 make.py lint     the checks that take seconds: everything but the tests
    python3 make.py write    bring the generated documents up to date
    python3 make.py lock     bring requirements.lock in line with pyproject.toml
    python3 make.py upgrade  choose every locked version anew

``test`` looks for Chromium on the PATH, or where BOOMWRIGHT_BROWSER says. Without one it installs
it where it may (root on Debian; ``--no-install`` leaves that out), else runs all else and says what
it left out. ``--strict`` fails without a browser.
"""

from __future__ import annotations

import hashlib
import os
import re
import shutil
import subprocess
import sys
import tomllib
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
#: what a browser for the tests may be called on the PATH
BROWSERS = ("chromium", "chromium-browser", "chrome")
#: loads every module of the program, so that Python keeps each one compiled
LOAD_ALL = """
import importlib, pkgutil, boomwright
for module in pkgutil.walk_packages(boomwright.__path__, "boomwright."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
"""
BROWSER_COMMAND = "apt-get install --no-install-recommends chromium"

LINT: dict[str, list[str]] = {
    "format": ["ruff", "format", "--check", "."],
    "ruff": ["ruff", "check", "."],
    "types": ["mypy"],
    "rooms": ["lint-imports", "--no-logo", "--no-cache"],
    "docstrings": ["python", "tools/check_docstrings.py"],
    "sources": ["python", "tools/sources.py", "--check"],
    "command pages": ["python", "tools/command_pages.py", "--check"],
}
# Each process takes neighbouring tests, so that what a file prepares is prepared once.
TESTS: dict[str, list[str]] = {
    "tests": ["pytest", "-q", "-n", "2", "--dist", "worksteal", "-m", "not browser"]
}
# No file but these holds a test with a browser, so no other is read for them.
BROWSER_FILES = ["pytest", "-q", "-m", "browser", "-o", "python_files=test_browser_*.py"]
# A window waits more than it computes, so two share the machine. Two Chromium on a small machine
# may run out of time at random: what failed is asked once more, alone, and has to pass then.
BROWSER_TESTS: dict[str, list[str]] = {
    "browser tests": [*BROWSER_FILES, "-n", "2", "--dist", "worksteal", "tests/shell"]
}
ALONE: dict[str, list[str]] = {"browser tests": [*BROWSER_FILES, "--last-failed", "tests/shell"]}


def say(text: str) -> None:
    print(f"== {text}", flush=True)


def run(*command: str | Path) -> int:
    return subprocess.run([str(part) for part in command], cwd=ROOT, check=False).returncode


def must(*command: str | Path) -> None:
    status = run(*command)
    if status:
        line = " ".join(str(part) for part in command)
        sys.exit(f"make.py: this command ended with status {status}: {line}")


def installed_from(*, whole: bool) -> str:
    """Digest of everything the environment is made from."""
    digest = hashlib.sha256(f"{sys.version} {whole}".encode())
    for path in (LOCK, ROOT / "pyproject.toml"):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def locked_entries() -> dict[str, str]:
    """Return each package's lines of the lock, all its versions together, by its name."""
    text = LOCK.read_text(encoding="utf-8")
    entries: dict[str, str] = {}
    for found in re.finditer(r"^([\w.-]+)==.*\n(?:[ ].*\n)*", text, re.MULTILINE):
        entries[found[1]] = entries.get(found[1], "") + found[0]
    return entries


def plain_name(requirement: str) -> str:
    """Name of a package in a requirement, written as the lock writes it."""
    return re.split(r"[^\w.-]", requirement, maxsplit=1)[0].lower().replace("_", "-")


def asked_by(first: set[str]) -> set[str]:
    """Names in the lock that these packages come down to: each says which packages ask for it."""
    asked = {
        name: set(re.findall(r"^ +#(?: via)? +([\w.-]+)", lines, re.MULTILINE))
        for name, lines in locked_entries().items()
    }
    needed = first & set(asked)
    while more := {name for name, by in asked.items() if by & needed} - needed:
        needed |= more
    return needed


def needed_to_run() -> set[str]:
    """Names of the packages that the program itself needs."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return asked_by({plain_name(each) for each in settings["project"]["dependencies"]})


def needed_to_build() -> set[str]:
    """Names of the packages that the installation needs: one package is published as source."""
    settings = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    backend = {plain_name(each) for each in settings["build-system"]["requires"]}
    return asked_by(backend | {"editables", "setuptools"})


def leave_what_runs(builders: set[str]) -> None:
    """Take away what only the installation needed, and keep compiled what the program loads.

    Compiling everything would take a quarter of the room again, for modules nothing ever loads.
    """
    must(PYTHON, "-m", "pip", "uninstall", "--quiet", "--yes", *sorted(builders))
    for compiled in VENV.rglob("__pycache__"):
        shutil.rmtree(compiled, ignore_errors=True)
    must(PYTHON, "-c", LOAD_ALL)


def install(*, whole: bool) -> None:
    """Bring .venv to the locked versions, unless it is there already.

    Without ``whole`` it gets what the program itself needs, and no tool of its developers.
    """
    wanted = {installed_from(whole=True), installed_from(whole=whole)}
    if STAMP.exists() and STAMP.read_text(encoding="utf-8") in wanted:
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
    entries = locked_entries()
    builders, running = needed_to_build(), needed_to_run()
    for name, packages in (("building", builders), ("running", running)):
        lines = "".join(entries[package] for package in sorted(packages))
        (VENV / f"{name}.lock").write_text(lines, encoding="utf-8")
    if whole:
        must(*locked, "-r", VENV / "building.lock")
        must(*locked, "-r", LOCK)
    else:
        must(*locked, "--no-compile", "-r", VENV / "building.lock")
        must(*locked, "--no-compile", "-r", VENV / "running.lock")
    must(*pip, "--no-deps", "--no-build-isolation", "-e", ROOT)
    if not whole:
        leave_what_runs(builders - running)
    STAMP.write_text(installed_from(whole=whole), encoding="utf-8")


def run_all(checks: dict[str, list[str]]) -> int:
    """Run every check, also after one has failed, and say which failed."""
    failed = []
    for name, command in checks.items():
        say(name)
        program, *arguments = command
        if not run(SCRIPTS / program, *arguments):
            continue
        if name in ALONE:
            say(f"{name} that failed, alone")
            program, *arguments = ALONE[name]
            if not run(SCRIPTS / program, *arguments):
                continue
        failed.append(name)
    say(f"failed: {', '.join(failed)}" if failed else "all passed")
    return 1 if failed else 0


def found_browser() -> str:
    """Path of a browser for the tests; empty when there is none."""
    named = os.environ.get("BOOMWRIGHT_BROWSER", "")
    found = (shutil.which(name) for name in ([named] if named else BROWSERS))
    return next((path for path in found if path), "")


def bring_browser(*, install_it: bool) -> bool:
    """Look for a browser, and install one where that is allowed; whether there is one."""
    apt = shutil.which("apt-get")
    root = hasattr(os, "geteuid") and os.geteuid() == 0
    if apt and root and install_it and not found_browser():
        say("no Chromium here: installing Debian's, for the browser tests (--no-install: without)")
        quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
        for words in ("update -qq", "install -y -qq --no-install-recommends chromium"):
            subprocess.run([apt, *words.split()], env=quiet, check=False)
    return bool(found_browser())


def run_tests(*, install_it: bool, strict: bool) -> int:
    """Run every check and test; what has no browser is left out and said, or fails."""
    there = bring_browser(install_it=install_it)
    status = run_all({**LINT, **TESTS, **(BROWSER_TESTS if there else {})})
    if there:
        return status
    say("not run: the browser tests, for want of Chromium. Where you may install packages:")
    say(f"    {BROWSER_COMMAND}    (or name one in BOOMWRIGHT_BROWSER), then test again")
    return 1 if strict else status


def demo() -> int:
    install(whole=False)
    boomwright = SCRIPTS / "boomwright"
    status = run(boomwright, "demo", "demo")
    if status == 0:
        shown = boomwright.relative_to(ROOT)
        say("done: the book is demo/book.pdf")
        say(f"to see and change the beam on a page in your browser: {shown} open demo/plan.toml")
    return status


def test() -> int:
    install(whole=True)
    return check()


def check() -> int:
    options = set(sys.argv[2:])
    return run_tests(install_it="--no-install" not in options, strict="--strict" in options)


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
    options = "--no-emit-find-links --no-header --python-version 3.11"
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
    # What is loaded for the first time is kept compiled: the tests start many a command.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    name, options = (sys.argv[1] if len(sys.argv) > 1 else ""), set(sys.argv[2:])
    known = {"--no-install", "--strict"} if name in {"test", "check"} else set()
    if name not in TASKS or options - known:
        print(__doc__)
        return 0 if name in {"help", "--help", "-h"} else 2
    return TASKS[name]()


if __name__ == "__main__":
    sys.exit(main())
