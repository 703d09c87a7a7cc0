"""A chapter made of blocks, reports and their tables, for page and book."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

from boomwright.base import Notice
from boomwright.charts.blocks import Block, Words
from boomwright.report.model import Report, Table

#: before the notices, or after the method, where the computing is shown
ChapterPlace = Literal["body", "appendix"]

#: what a chapter is made of; a report is laid out as its facts and its tables
Part = Block | Table[Any] | Report


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One chapter of the book, or one work sheet of the page."""

    title: str
    blocks: tuple[Part, ...]  #: its parts (n_blocks,)
    notices: tuple[Notice, ...] = ()  #: doubts, cautions, exceeded limits
    place: ChapterPlace = "body"  #: ``body`` or ``appendix``


def stamped_chapter(chapter: Chapter, stamp: str) -> Chapter:
    """Put a stamp above a chapter; an empty one leaves it as it is."""
    if not stamp:
        return chapter
    return replace(chapter, blocks=(Words(text=f"{stamp}.", tone="stamp"), *chapter.blocks))
