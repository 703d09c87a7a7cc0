"""Chapters of the book made of work-sheet blocks, as plain data for the template."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from boomwright.charts.blocks import TICK, Block, Grid, SheetPicture, block_data
from boomwright.render.book.pictures import print_svg
from boomwright.report.chapter import Chapter, ChapterPlace

_POINTS_PER_UNIT = 0.8
_POINTS_PER_MM = 72.0 / 25.4


def chapter_data(chapters: Sequence[Chapter], *, place: ChapterPlace) -> list[dict[str, Any]]:
    """Turn chapters into plain data."""
    return [
        {
            "title": chapter.title,
            "reader": chapter.reader,
            "blocks": [_data(block) for block in chapter.blocks],
        }
        for chapter in chapters
        if chapter.place == place
    ]


def _data(block: Block) -> dict[str, Any]:
    data = block_data(block)
    if isinstance(block, Grid):
        # The book's fonts hold no box to tick: the template draws one.
        data["rows"] = [
            [{"tick": True} if cell == TICK else cell for cell in row] for row in block.rows
        ]
    if isinstance(block, SheetPicture):
        per_unit = _POINTS_PER_MM if block.true_size else _POINTS_PER_UNIT
        data["svg"] = print_svg(block.svg)
        data["width"] = block.units * per_unit
        data["alt"] = block.caption
    return data
