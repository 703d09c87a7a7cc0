"""Keep the register of sources: assemble it, and hold every citation to it.

Each room writes what it cites to ``docs/sources.d/<room>.toml``, one table per key. This tool
assembles them into the register ``docs/sources.toml`` and the copy the package carries for the
book. Run from anywhere::

    python tools/sources.py --write    assemble the register
    python tools/sources.py --check    fail on a key cited but not registered, registered but
                                       not cited, registered twice, badly described, or on a
                                       register that is not current

A citation is ``{key}`` or ``{key, eq. 12}`` in a docstring or comment, ``source="key"`` in the
code, or the name of a file ``tests/validation/test_<key with underscores>.py``.
"""

from __future__ import annotations

import ast
import io
import re
import sys
import tokenize
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
KEY = re.compile(r"[a-z0-9]+(-[a-z0-9]+)+")
CITATION = re.compile(r"\{([a-z0-9]+(?:-[a-z0-9]+)+)(?:,[^{}]*)?\}")
FIELDS = ("reference", "edition", "url", "licence", "seen")
MAY_BE_EMPTY = {"edition", "url", "licence"}
WAYS_OF_KNOWING = {"read", "from memory", "common practice"}
HEADER = "# Assembled from docs/sources.d by tools/sources.py: change the room's file there.\n"

Register = dict[str, dict[str, str]]


def registers(root: Path) -> tuple[Path, Path]:
    """Where the assembled register is kept: for readers, and in the package for the book."""
    return root / "docs" / "sources.toml", root / "src/boomwright/session/data/sources.toml"


def read_rooms(root: Path) -> tuple[Register, list[str]]:
    """Read every room's file; return the register and the faults found in it."""
    register: Register = {}
    home: dict[str, str] = {}
    faults: list[str] = []
    for path in sorted((root / "docs" / "sources.d").glob("*.toml")):
        place = path.relative_to(root).as_posix()
        try:
            tables = tomllib.loads(path.read_text(encoding="utf-8"))
        except tomllib.TOMLDecodeError as fault:
            faults.append(f"{place}: {fault}")
            continue
        for key, entry in tables.items():
            if key in register:
                faults.append(f"{place}: {key} is registered twice, first in {home[key]}")
                continue
            wrong = [f"{place}: {key}: {fault}" for fault in entry_faults(key, entry)]
            faults += wrong
            if not wrong:
                register[key], home[key] = entry, place
    return register, faults


def entry_faults(key: str, entry: object) -> Iterator[str]:
    """Say what is wrong with one entry of the register."""
    if not KEY.fullmatch(key):
        yield "a key is lower-case words, digits and at least one hyphen, like itu-p527"
    if not isinstance(entry, dict):
        yield f"write it as a table [{key}]"
        return
    for field in FIELDS:
        value = entry.get(field)
        if not isinstance(value, str):
            yield f'{field} is missing; write {field} = "..."'
        elif not value.strip() and field not in MAY_BE_EMPTY:
            yield f"{field} is empty"
    yield from (f"{field} is unknown" for field in entry.keys() - set(FIELDS))
    if isinstance(entry.get("seen"), str) and entry["seen"] not in WAYS_OF_KNOWING:
        yield f"seen is one of {', '.join(sorted(WAYS_OF_KNOWING))}; found {entry['seen']}"


def prose(text: str) -> Iterator[tuple[int, str]]:
    """Yield the comments and docstrings of a Python file with the lines they start on."""
    for token in tokenize.generate_tokens(io.StringIO(text).readline):
        if token.type == tokenize.COMMENT:
            yield token.start[0], token.string
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef | ast.AsyncFunctionDef):
            docstring = ast.get_docstring(node, clean=False)
            if docstring:
                yield node.body[0].lineno, docstring


def named_sources(text: str) -> Iterator[tuple[int, str]]:
    """Yield what is passed as ``source="key"``, with its line."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.keyword) and node.arg == "source":
            value = node.value.value if isinstance(node.value, ast.Constant) else None
            if isinstance(value, str) and KEY.fullmatch(value):
                yield node.value.lineno, value


def citations(root: Path, register: Register) -> Iterator[tuple[str, str]]:
    """Yield every citation as place and key."""
    for folder in ("src", "tests"):
        for path in sorted((root / folder).rglob("*.py")):
            place = path.relative_to(root).as_posix()
            text = path.read_text(encoding="utf-8")
            for line, piece in prose(text):
                for found in CITATION.finditer(piece):
                    yield f"{place}:{line + piece.count(chr(10), 0, found.start())}", found[1]
            for line, key in named_sources(text) if folder == "src" else ():
                yield f"{place}:{line}", key
    for path in sorted((root / "tests" / "validation").glob("test_*.py")):
        name = path.stem.removeprefix("test_").replace("_", "-")
        fitting = [key for key in register if name == key or name.startswith(f"{key}-")]
        yield path.relative_to(root).as_posix(), max(fitting, key=len, default=name)


def assembled(register: Register, cited: Iterable[tuple[str, str]]) -> str:
    """Write the register as TOML, keys in order, each with the rooms whose code cites it."""
    rooms: dict[str, set[str]] = {key: set() for key in register}
    for place, key in cited:
        if place.startswith("src/boomwright/") and key in rooms:
            rooms[key].add(place.split("/")[2])
    tables = [HEADER]
    for key in sorted(register):
        lines = [f"[{key}]", *(f"{name} = {quoted(register[key][name])}" for name in FIELDS)]
        lines.append(f"rooms = [{', '.join(map(quoted, sorted(rooms[key])))}]")
        tables.append("\n".join(lines) + "\n")
    return "\n".join(tables)


def quoted(text: str) -> str:
    """Write a TOML basic string."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")
    return f'"{escaped}"'


def faults_of(root: Path) -> list[str]:
    """Say everything that is wrong with the register and the citations."""
    register, faults = read_rooms(root)
    cited = list(citations(root, register))
    faults += [
        f"{place}: {key} is not in the register; add [{key}] to docs/sources.d/<room>.toml"
        for place, key in cited
        if key not in register
    ]
    unused = sorted(register.keys() - {key for _, key in cited})
    faults += [f"docs/sources.d: {key} is cited nowhere; cite it or remove it" for key in unused]
    if not faults:
        text = assembled(register, cited)
        faults += [
            f"{path.relative_to(root).as_posix()}: not current; run tools/sources.py --write"
            for path in registers(root)
            if not path.exists() or path.read_text(encoding="utf-8") != text
        ]
    return faults


def write(root: Path) -> list[str]:
    """Assemble the register from what is in order, and return the faults left out of it."""
    register, faults = read_rooms(root)
    text = assembled(register, citations(root, register))
    for path in registers(root):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return faults


def main(arguments: list[str]) -> int:
    """Write or check, in the project or in the folder named last, and return the status."""
    match arguments:
        case ["--write", *folder]:
            faults = write(Path(*folder) if folder else ROOT)
        case ["--check", *folder]:
            faults = faults_of(Path(*folder) if folder else ROOT)
        case _:
            print(__doc__)
            return 2
    print("\n".join(faults) if faults else "sources: register and citations in order")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
