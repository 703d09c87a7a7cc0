"""Everything the program tells of a handful of plans, as files that can be held side by side.

    python tools/told.py write FOLDER      terminal, JSON, sheets, book and drawings of each plan
    python tools/told.py compare OLD NEW   what differs between two such folders

A change that should change nothing a reader sees is held against the folder written before it.
The plans are the demo, the worked stations and the bare plan that ``new`` writes, each in both
unit systems. Book pages are kept as the contents that the type engine gets.
"""

from __future__ import annotations

import contextlib
import dataclasses
import difflib
import io
import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from boomwright.base import UnitSystem
from boomwright.cli import run

ROOT = Path(__file__).resolve().parent.parent
SYSTEMS: tuple[UnitSystem, UnitSystem] = ("metric", "us")
DAY = ("--date", "2026-06-01")
COMMANDS: dict[str, tuple[str, ...]] = {
    "check": (),
    "compute": ("--points", "5"),
    "feed": (),
    "reach": (),
    "structure": (),
    "permits": (),
    "cost": DAY,
    "raise": DAY,
    "frontier": (),
    "tune": (),
}
WITHOUT_SYSTEM = {"frontier"}


def plans(folder: Path) -> dict[str, Path]:
    """Gather the plans, writing those that the program itself makes."""
    found = {path.stem: path for path in sorted((ROOT / "examples/stations").glob("*.toml"))}
    found["tuning"] = ROOT / "examples/tuning/three-elements-20m.toml"
    bare = folder / "bare.toml"
    if not bare.exists():
        told("new", str(bare), "--band", "20 m", "--elements", "3", "--boom", "6 m")
    made = folder / "demo"
    if not made.exists():
        told("demo", str(made))
    return {**found, "bare": bare, "demo": made / "plan.toml"}


def told(*words: str) -> str:
    """Run a command in this process and return all that it prints, with its status."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
        try:
            status = run(list(words), open_page=lambda **_: None)
        except SystemExit as end:
            status = end.code if isinstance(end.code, int) else 0
    return f"{out.getvalue()}\n[status {status}]\n"


def plain(value: object) -> Any:
    """Turn a context of a sheet into what JSON can hold."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        names = [field.name for field in dataclasses.fields(value)]
        return {name: plain(getattr(value, name)) for name in names}
    if isinstance(value, dict):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(each) for each in value]
    return value if isinstance(value, str | int | float | bool | None) else str(value)


def sheets(path: Path, system: UnitSystem) -> Iterator[tuple[str, Any]]:
    """Build the context of every sheet of the page."""
    from boomwright.session.plan_session import PlanSession
    from boomwright.web import PlanDesk
    from boomwright.web.sheets import SHEETS
    from boomwright.web.view import View

    text = path.read_text(encoding="utf-8")
    desk = PlanDesk(session=PlanSession(path, state=None), name=path.name, text=text)
    for sheet in SHEETS:
        yield sheet.slug, plain(sheet.context(desk, View(system=system), whole=True))


def book(path: Path, system: UnitSystem, into: Path) -> Any:
    """Return the contents of the book as the type engine gets them."""
    from boomwright.render.book import typesetting

    kept: dict[str, Any] = {}

    def keep(templates: Sequence[str], contents: Mapping[str, Any]) -> bytes:
        kept.update(contents)
        return b""

    original = typesetting.typeset
    typesetting.typeset = keep
    try:
        words = ("book", str(path), "-o", str(into / "book.pdf"), "--system", system)
        kept["printed"] = told(*words).replace(str(into), "")
    finally:
        typesetting.typeset = original
        for each in into.glob("book*.pdf"):
            each.unlink()
    return kept


def write(folder: Path) -> int:
    """Write everything told."""
    folder.mkdir(parents=True, exist_ok=True)
    for name, path in plans(folder).items():
        for system in SYSTEMS:
            into = folder / "told" / name / system
            into.mkdir(parents=True, exist_ok=True)
            for command, more in COMMANDS.items():
                units = () if command in WITHOUT_SYSTEM else ("--system", system)
                for form in ((), ("--json",)):
                    words = (command, str(path), *more, *units, *form)
                    ending = "json" if form else "txt"
                    (into / f"{command}.{ending}").write_text(told(*words), encoding="utf-8")
            for slug, context in (*sheets(path, system), ("book", book(path, system, into))):
                text = json.dumps(context, indent=1, ensure_ascii=False, sort_keys=True)
                (into / f"sheet-{slug}.json").write_text(text, encoding="utf-8")
            print(f"{name} {system}", flush=True)
    return 0


def lines(path: Path) -> list[str]:
    """Read a file's lines; none where there is no file."""
    return path.read_text(encoding="utf-8").splitlines() if path.is_file() else []


def compare(old: Path, new: Path) -> int:
    """Print what differs; status 1 when anything does."""
    files = {path.relative_to(top) for top in (old, new) for path in top.glob("told/**/*.*")}
    differing = 0
    for file in sorted(files):
        before, after = lines(old / file), lines(new / file)
        found = list(difflib.unified_diff(before, after, str(file), str(file), lineterm="", n=0))
        if found:
            differing += 1
            print("\n".join(line[:300] for line in found[:40]))
    print(f"{differing} of {len(files)} files differ")
    return 1 if differing else 0


def main(words: list[str]) -> int:
    """Write or compare."""
    if len(words) == 2 and words[0] == "write":
        return write(Path(words[1]).resolve())
    if len(words) == 3 and words[0] == "compare":
        return compare(Path(words[1]), Path(words[2]))
    print(__doc__)
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
