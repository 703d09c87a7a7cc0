"""A report laid out in text and SVG for one reader: units, colours and width are chosen here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.charts import ReadingTable, ShownPicture, ShownSubject, ShownTable
from boomwright.charts.blocks import TICK, Block, Facts, Grid
from boomwright.render.rows import capital_head, column_shares, text_table, to_the_right
from boomwright.report.chapter import Part
from boomwright.report.model import Canvas, Picture, Report, Table
from boomwright.report.wording import clean

#: tables already written, by their columns and items
Kept = dict[tuple[int, int], ReadingTable]


def lay_out(report: Report, *, canvas: Canvas) -> ShownSubject:
    """Lay a report out for the page or the book."""
    kept: Kept = {}
    return ShownSubject(
        title=report.title,
        about=report.subject,
        facts=tuple(
            (write(fact.label, system=canvas.system), write(fact.value, system=canvas.system))
            for fact in report.answer
        ),
        pictures=tuple(_picture(each, canvas, kept) for each in report.pictures),
        tables=tuple(_table(each, canvas, kept) for each in report.tables),
        notices=tuple(notice.written(canvas.system) for notice in report.notices),
    )


def laid_blocks(parts: Iterable[Part], *, system: UnitSystem) -> tuple[Block, ...]:
    """Lay out the parts of a chapter for one reader."""
    found: list[Block] = []
    for part in parts:
        if isinstance(part, Report):
            rows = tuple(
                (write(fact.label, system=system), clean(write(fact.value, system=system)))
                for fact in part.answer
            )
            found += [Facts(rows=rows), *(_grid(table, system) for table in part.tables)]
        else:
            found.append(_grid(part, system) if isinstance(part, Table) else part)
    return tuple(found)


def _grid(table: Table[Any], system: UnitSystem) -> Grid:
    """Write a table for paper, what belongs below a first cell set there."""
    beside = replace(table, columns=tuple(one for one in table.columns if not one.below))
    below = replace(table, columns=tuple(one for one in table.columns if one.below), under=None)
    shown = text_table(beside, system=system)
    small = iter(text_table(below, system=system).rows)
    tick = (TICK,) if table.tick else ()
    rows: list[tuple[str, ...]] = []
    for number, (first, *others) in enumerate(shown.rows):
        if number in shown.headings:
            rows.append((clean(first),))
        else:
            lines = [clean(cell) for cell in (first, *next(small)) if cell]
            rows.append(("\n".join(lines), *map(clean, others), *tick))
    header = [*map(capital_head, shown.header), *([table.tick] if tick else [])]
    sides = ["r" if right else "l" for right in to_the_right(shown)]
    return Grid(
        columns=tuple(header),
        rows=tuple(rows),
        align="".join((*sides, *("l" for _ in tick))),
        shares=column_shares(header, [row for row in rows if len(row) > 1]),
        caption=clean(write(table.caption, system=system)),
        note=write(table.note, system=system),
        large=table.large,
    )


def _picture(picture: Picture, canvas: Canvas, kept: Kept) -> ShownPicture:
    return ShownPicture(
        name=picture.name,
        words=picture.title,
        svg=picture.draw(canvas),
        caption=write(picture.caption, system=canvas.system),
        behind=_behind(picture, canvas, kept),
        units=canvas.width,
        group=picture.group,
    )


def _behind(picture: Picture, canvas: Canvas, kept: Kept) -> ShownTable:
    if isinstance(picture.behind, Table):
        return _table(picture.behind, canvas, kept)
    rows = picture.behind(canvas.system)
    return ShownTable(name=picture.name, caption=picture.title, table=rows)


def _table(table: Table[object], canvas: Canvas, kept: Kept) -> ShownTable:
    # Several pictures may stand on the same numbers.
    same = (id(table.columns), id(table.items))
    if same not in kept:
        kept[same] = text_table(table, system=canvas.system)
    return ShownTable(
        name=table.name,
        caption=write(table.caption, system=canvas.system),
        table=kept[same],
        note=write(table.note, system=canvas.system),
        group=table.group,
        folded=table.folded,
    )
