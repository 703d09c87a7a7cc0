"""A chapter made of blocks, for page and book."""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.charts.blocks import Block

#: in the book; in the annex, where the computing is shown; on a sheet of its own for the pocket
ChapterPlace = Literal["body", "appendix", "pocket"]
#: the book of the job, the annex with what it rests on, the sheets that go into a pocket
Part = Literal["book", "annex", "pocket"]
PARTS: Final[tuple[Part, ...]] = ("book", "annex", "pocket")


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """One chapter."""

    title: str
    blocks: tuple[Block, ...]  #: its blocks (n_blocks,)
    notices: tuple[Notice, ...] = ()  #: what it adds to the notices of the book
    reader: str = ""  #: who works from it, in a few words; empty for nobody in particular
    place: ChapterPlace = "body"  #: where it is printed
