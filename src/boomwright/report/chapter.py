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
    """One chapter.

    Parameters
    ----------
    blocks
        its blocks (n_blocks,)
    notices
        what it adds to the notices of the book
    place
        ``body`` or ``appendix``
    """

    title: str
    blocks: tuple[Block, ...]
    notices: tuple[Notice, ...] = ()
    place: ChapterPlace = "body"
