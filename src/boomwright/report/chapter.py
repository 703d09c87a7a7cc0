"""A chapter made of blocks, for page and book."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from boomwright.base import Notice
from boomwright.charts.blocks import Block

#: before the notices, or after the method, where the computing is shown
ChapterPlace = Literal["body", "appendix"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One chapter."""

    title: str
    blocks: tuple[Block, ...]  #: its blocks (n_blocks,)
    notices: tuple[Notice, ...] = ()  #: what it adds to the notices of the book
    place: ChapterPlace = "body"  #: ``body`` or ``appendix``
