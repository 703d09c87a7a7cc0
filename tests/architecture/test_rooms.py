"""The rooms of the package keep their rules: imports, size, docstrings, no side effects."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

LONGEST_FUNCTION = 60
MOST_FILES = 40
# Steps 0 to 4 of the ladder: the rooms the contract "pure" must name once they exist.
PURE = {
    "base", "parts", "solver", "feed", "structure", "reach",
    "design", "tuning", "permits", "cost", "raising",
}  # fmt: skip
SHELLS = {"session", "cli", "web"}
HEAVY = (
    "ezdxf", "geographiclib", "jinja2", "jsonschema", "matplotlib", "numpy",
    "pandas", "pydantic", "scipy", "skrf", "starlette", "tomlkit", "typst", "uvicorn",
)  # fmt: skip
# Rooms that compute or draw: reading a plan needs none of them, and of those whose classes it
# makes only the modules where they stand.
COMPUTING = {"charts", "export", "feed", "reach", "report", "web"}
CHECKS = {
    "structure.check", "structure.checks", "raising.lift_plan", "permits.sheet", "cost.estimating",
    "tuning.causes",
}  # fmt: skip


def trees(package: Path, *words: str) -> Iterator[tuple[Path, ast.Module]]:
    """Every file parsed; with words only those that hold one: to parse them all takes seconds."""
    for path in sorted(package.rglob("*.py")):
        text = path.read_text(encoding="utf-8")
        if not words or any(word in text for word in words):
            yield path, ast.parse(text)


def contracts(root: Path) -> dict[str, dict[str, list[str]]]:
    settings = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    return {item["id"]: item for item in settings["tool"]["importlinter"]["contracts"]}


def rooms(package: Path) -> set[str]:
    return {path.parent.name for path in package.glob("*/__init__.py")}


def test_import_contracts_hold(root: Path) -> None:
    lint_imports = Path(sys.executable).parent / "lint-imports"
    done = subprocess.run(
        [lint_imports, "--no-logo", "--no-cache"],
        cwd=root, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_physics_room_is_under_the_purity_contract(root: Path, package: Path) -> None:
    named = set(contracts(root)["pure"]["source_modules"])
    assert named == {f"boomwright.{room}" for room in rooms(package) & PURE}


def test_rooms_but_shells_and_readers_are_kept_from_their_kits(root: Path, package: Path) -> None:
    inner = {f"boomwright.{room}" for room in rooms(package) - {"cli", "web", "render"}}
    assert set(contracts(root)["shells-own-their-kits"]["source_modules"]) == inner


def test_every_folder_of_code_is_a_room_with_a_readme_docstring(package: Path) -> None:
    folders = {path.parent for path in package.rglob("*.py")}
    for folder in sorted(folders):
        front = folder / "__init__.py"
        assert front.exists(), f"{folder} has code but no __init__.py"
        docstring = ast.get_docstring(ast.parse(front.read_text(encoding="utf-8"))) or ""
        assert len(docstring.split()) >= 8, f"{front}: write a docstring a newcomer can read"


def test_no_folder_needs_scrolling(package: Path) -> None:
    full = {
        str(folder.relative_to(package)): count
        for folder in package.rglob("*")
        if folder.is_dir() and (count := len(list(folder.glob("*.py")))) > MOST_FILES
    }
    assert not full, f"more than {MOST_FILES} files flat in {full}; give them folders"


def test_a_name_loaded_when_first_used_is_no_file_of_its_room(package: Path) -> None:
    """Importing a file puts it under its name into the room, in place of what the face gives."""
    for front in package.rglob("__init__.py"):
        text = front.read_text(encoding="utf-8")
        if "= on_demand(" not in text:
            continue
        imports = [each for each in ast.walk(ast.parse(text)) if isinstance(each, ast.ImportFrom)]
        names = {name.asname or name.name for each in imports for name in each.names}
        assert names
        assert not names & {path.stem for path in front.parent.iterdir()}, front


def test_functions_are_short(package: Path) -> None:
    long = []
    for path, tree in trees(package):
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                start = node.body[1] if ast.get_docstring(node) and node.body[1:] else node
                count = (node.end_lineno or 0) - start.lineno + 1
                if count >= LONGEST_FUNCTION:
                    long.append(f"{path}:{node.lineno}: {node.name}: {count} lines")
    assert not long, "\n".join(long)


def test_libraries_neither_print_nor_log_nor_exit_nor_open(package: Path) -> None:
    """Only the command line prints and exits; only the app room opens files."""
    found = []
    for path, tree in trees(package):
        room = path.relative_to(package).parts[0]
        banned = {"print", "input", "breakpoint", "exit", "quit"} - (
            {"input"} if room == "cli" else set()
        )
        if room not in SHELLS:
            banned.add("open")
        for node in ast.walk(tree):
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Name)
                and node.func.id in banned
            ):
                found.append(f"{path}:{node.lineno}: {node.func.id}()")
            if isinstance(node, ast.Import | ast.ImportFrom):
                names = [getattr(node, "module", None) or "", *(alias.name for alias in node.names)]
                if "logging" in names:
                    found.append(f"{path}:{node.lineno}: logging")
            if room != "cli" and isinstance(node, ast.Name) and node.id == "SystemExit":
                found.append(f"{path}:{node.lineno}: SystemExit")
    assert not found, "\n".join(found)


@pytest.mark.parametrize("module", ["boomwright", "boomwright.cli"])
def test_starting_up_loads_nothing_heavy(module: str) -> None:
    code = f"import sys, {module}; print(*sorted({{name.split('.')[0] for name in sys.modules}}))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert not set(HEAVY) & set(done.stdout.split())


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_checking_a_plan_loads_no_room_that_computes(package: Path, more: list[str]) -> None:
    """Reading a plan takes milliseconds; what is loaded for it must not take a second."""
    plan = package / "session/data/demo.toml"
    code = (
        "import sys; from boomwright.cli import run; "
        f"run(['check', {str(plan)!r}, *{more!r}], open_page=None); "
        "print('loaded', *sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = done.stdout.rpartition("loaded ")[2].split()
    tops = {name.split(".")[0] for name in loaded}
    rooms_loaded = {name.split(".")[1] for name in loaded if name.startswith("boomwright.")}
    assert not set(HEAVY) - {"numpy"} & tops, "numpy holds the wires of a beam"
    assert not rooms_loaded & COMPUTING
    assert not {f"boomwright.{module}" for module in CHECKS} & set(loaded)
    assert "numpy" in tops, "the test looks where something is loaded"


def test_no_test_is_a_race_against_the_clock(root: Path) -> None:
    """Times are measured in benchmarks/, as ratios; here they would fail at random."""
    stopwatches = {"perf_counter", "process_time", "thread_time", "perf_counter_ns"}
    found = [
        f"{path.relative_to(root)}: {node.attr}"
        for path, tree in trees(root / "tests", *stopwatches)
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and node.attr in stopwatches
    ]
    assert found == []


def test_no_circle_between_files(package: Path) -> None:
    """Imports for types count too: whoever reads one of a circle must read them all."""
    names = {
        ".".join(path.relative_to(package.parent).with_suffix("").parts).removesuffix(".__init__")
        for path in package.rglob("*.py")
    }
    needs: dict[str, set[str]] = {name: set() for name in names}
    for path, tree in trees(package):
        own = ".".join(path.relative_to(package.parent).with_suffix("").parts)
        own = own.removesuffix(".__init__")
        for node in ast.walk(tree):
            if isinstance(node, ast.ImportFrom) and node.module:
                asked = [f"{node.module}.{alias.name}" for alias in node.names]
                found = {name if name in names else node.module for name in asked}
                needs[own] |= (found & names) - {own}
    # Raises with the circle when there is one.
    order = list(TopologicalSorter(needs).static_order())
    assert len(order) == len(names)


def test_no_face_gives_a_name_that_is_a_module_too(package):
    """Whoever imports the module first would put it where the name is looked up."""
    clashes = []
    for face in package.rglob("__init__.py"):
        text = face.read_text(encoding="utf-8")
        if "on_demand(" not in text:
            continue
        below = {each.stem for each in face.parent.iterdir()}
        given = re.findall(r"import \w+ as (\w+)", text)
        clashes += [f"{face.parent.name}: {name}" for name in given if name in below]
    assert not clashes
