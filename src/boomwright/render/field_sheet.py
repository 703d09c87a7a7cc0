"""A sheet for the field in blocks, which page and book lay out: to read, tick off and fill in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from boomwright.charts.blocks import TICK, Block, Facts, Grid, Heading, SheetPicture, Steps, Words
from boomwright.render.rows import column_widths, text_table
from boomwright.report.model import Canvas, Part, Picture, Report, Said, Table
from boomwright.report.wording import clean, first_upper


def sheet_blocks(report: Report, *, canvas: Canvas) -> tuple[Block, ...]:
    """Write the sheet of a report."""
    return part_blocks(report.sheet, canvas=canvas)


def part_blocks(parts: Iterable[Part], *, canvas: Canvas) -> tuple[Block, ...]:
    """Write parts of a sheet."""
    return tuple(block for part in parts for block in _blocks(part, canvas))


def _blocks(part: Part, canvas: Canvas) -> Iterator[Block]:
    match part:
        case Said():
            yield Words(text=_words(part.text, canvas), tone=part.tone)
        case Picture():
            yield SheetPicture(
                name=part.name,
                svg=part.draw(canvas),
                caption=canvas.write(part.caption),
                units=canvas.width,
            )
        case Table():
            caption = _words(part.caption, canvas)
            grid = _grid(part, canvas)
            if part.under_heading and isinstance(grid, Grid):
                yield replace(grid, caption=caption)
                return
            if caption:
                yield Heading(text=caption)
            yield grid
        case Steps():
            yield replace(part, items=tuple(canvas.write(step) for step in part.items))
        case _:
            yield part


def _words(said: Any, canvas: Canvas) -> str:
    return first_upper(clean(canvas.write(said)))


def _grid(table: Table[Any], canvas: Canvas) -> Facts | Grid:
    """Write a table for paper, what belongs below a first cell set there."""
    beside = replace(table, columns=tuple(one for one in table.columns if not one.below))
    below = replace(table, columns=tuple(one for one in table.columns if one.below), under=None)
    reader: dict[str, Any] = {"system": canvas.system, "cite": canvas.cite, "forms": canvas.forms}
    written = text_table(beside, **reader)
    if len(written.header) == 2 and not any(written.header):
        return Facts(rows=tuple((clean(label), clean(value)) for label, value in written.rows))
    beneath = text_table(below, **reader)
    small = iter(beneath.rows)
    rows: list[tuple[str, ...]] = []
    last = len(written.rows) - 1
    for number, (first, *others) in enumerate(written.rows):
        alone = number in written.headings or (written.foot and number == last)
        lines = [first] if alone else [first, *next(small)]
        rows.append(("\n".join(clean(line) for line in lines if line), *map(clean, others)))
    heads = replace(written, header=tuple(map(first_upper, written.header)), rows=tuple(rows))
    shares, numeric = column_widths(heads)
    align = "".join("r" if each else "l" for each in numeric)
    tick = (TICK,) if table.tick else ()
    return Grid(
        columns=(*heads.header, *([table.tick] if tick else [])),
        rows=tuple(
            row[:1]
            if number in heads.headings
            else (*row, *("" if written.foot and number == last else each for each in tick))
            for number, row in enumerate(rows)
        ),
        align=align + "l" * len(tick),
        shares=(*shares, *(float(len(table.tick)) for _ in tick)),
        note=canvas.write(table.around),
        large=table.large,
        foot=written.foot,
        places=(*written.places, *beneath.places),
    )
