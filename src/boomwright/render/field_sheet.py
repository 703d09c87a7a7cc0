"""A sheet for the field in blocks, which page and book lay out: to read, tick off and fill in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from boomwright.base.quantity import write
from boomwright.charts import ReadingTable
from boomwright.charts.blocks import Block, Facts, Grid, Heading, SheetPicture, Words
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
                caption=write(part.caption, system=canvas.system),
                units=canvas.width,
            )
        case Table():
            caption = _words(part.caption, canvas)
            if caption:
                yield Heading(text=caption)
            yield _grid(part, canvas)
        case _:
            yield part


def _words(said: Any, canvas: Canvas) -> str:
    return first_upper(clean(write(said, system=canvas.system)))


def _grid(table: Table[Any], canvas: Canvas) -> Facts | Grid:
    written = text_table(table, system=canvas.system)
    written = replace(
        written, rows=tuple(tuple(clean(cell) for cell in row) for row in written.rows)
    )
    if not any(written.header):
        return Facts(rows=tuple((label, value) for label, value in written.rows))
    heads = ReadingTable(
        header=tuple(first_upper(head) for head in written.header), rows=written.rows
    )
    shares, numeric = column_widths(heads)
    return Grid(
        columns=heads.header,
        rows=heads.rows,
        align="".join("r" if each else "l" for each in numeric),
        shares=shares,
        note=write(table.note, system=canvas.system),
        large=table.large,
    )
