"""What every report shows, by name: a heading, a column, a unit or a fact changes on purpose only.

``data/reports.txt`` lists facts, tables, columns and pictures of a result of every kind, with the
units of both systems. After a change on purpose it is written anew with
``BOOMWRIGHT_WRITE=1 pytest tests/unit/render/test_inventory.py`` and read through.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from boomwright.base.quantity import PerSystem, Phrase, Quantity, unit_of, write
from boomwright.render.written import report_on
from boomwright.report.model import Column, Picture, Report, Said, Table, column

INVENTORY = Path(__file__).parent / "data" / "reports.txt"
#: rows looked at for the kinds of figures in a column
ROWS = 8


def kinds_in(value: Any) -> Iterator[str]:
    """Kinds of all figures in a value."""
    if isinstance(value, Quantity):
        yield value.kind
    elif isinstance(value, Phrase):
        for each in value.values.values():
            yield from kinds_in(each)
    elif isinstance(value, PerSystem):
        yield from kinds_in(value.metric)


def units(kinds: Iterator[str]) -> str:
    """Kinds, each with how 1 of it in SI is written, metric and US."""
    told = []
    for kind in dict.fromkeys(kinds):
        both = (
            write(Quantity(1.0, kind), system="metric"),
            write(Quantity(1.0, kind), system="us"),
        )
        told.append(f"{kind} [{' = '.join(dict.fromkeys(both))}]")
    return "; ".join(told)


def plain(said: Any) -> str:
    """Words without their figures, which the physics may move."""
    return re.sub(r"\d[\d.,:]*", "#", write(said, system="metric"))


def column_line(one: Column[Any], items: Any) -> str:
    heads = write(one.head, system="metric")
    cells = (one.get(item) for item in list(items)[:ROWS])
    inside = [kind for cell in cells for kind in kinds_in(cell)]
    told = units(iter([one.kind] if one.kind else inside))
    more = [name for name in ("full", "below") if getattr(one, name)]
    in_head = unit_of(one.kind, system="metric") if one.kind else ""
    parts = [heads or "(no head)", told, f"in head: {in_head}" if in_head else "", one.key, *more]
    return " | ".join(part for part in parts if part)


def table_lines(table: Table[Any], kind: str) -> Iterator[str]:
    yield f"  {kind} {table.name}: {plain(table.caption)}"
    yield from (f"    {column_line(one, table.items)}" for one in table.columns)


def report_lines(report: Report) -> Iterator[str]:
    behind: set[tuple[str, ...]] = set()
    for fact in report.answer:
        told = units(kinds_in(fact.value))
        yield f"  fact {plain(fact.label)}{f' | {told}' if told else ''}"
    for table in report.tables:
        yield from table_lines(table, "table")
    for picture in report.pictures:
        yield f"  picture {picture.name}: {plain(picture.title)}"
        if isinstance(picture.behind, Table):
            # Several pictures may stand on the same numbers.
            lines = tuple(table_lines(picture.behind, "behind"))
            yield from () if lines in behind else lines
            behind.add(lines)
    for part in report.sheet:
        if isinstance(part, Table) and part not in report.tables:
            yield from table_lines(part, "sheet")
        elif isinstance(part, Picture):
            yield f"  sheet picture {part.name}"
        elif not isinstance(part, Table | Said):
            yield f"  sheet {type(part).__name__.lower()}"


def inventory(results: dict[str, Any]) -> str:
    lines = []
    for name, result in results.items():
        report = report_on(result).reports[0]
        lines += [f"{name}: {plain(report.title)}", *report_lines(report), ""]
    return "\n".join(lines)


@pytest.fixture(scope="module")
def listed(results: dict[str, Any]) -> str:
    return inventory(results)


def test_every_report_shows_what_it_showed(listed: str) -> None:
    if os.environ.get("BOOMWRIGHT_WRITE"):
        INVENTORY.parent.mkdir(exist_ok=True)
        INVENTORY.write_text(listed, encoding="utf-8")
    assert listed.splitlines() == INVENTORY.read_text(encoding="utf-8").splitlines()


def test_a_heading_a_column_and_a_unit_are_in_it(results: dict[str, Any], listed: str) -> None:
    """The list itself bites: each change of a table changes its lines."""
    table = report_on(results["reach"]).reports[0].tables[0]
    before = list(table_lines(table, "table"))
    first, second, *others = table.columns
    changed = (
        replace(table, columns=(replace(first, head="another head"), second, *others)),
        replace(table, columns=(first, *others)),
        replace(table, columns=(second, first, *others)),
        replace(table, columns=(first, column("gain", lambda _row: 1.0, kind="ratio"), *others)),
        replace(table, caption="another caption"),
    )
    assert "\n".join(before) in listed
    assert all(list(table_lines(each, "table")) != before for each in changed)
