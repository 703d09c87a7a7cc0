"""Blocks of a work sheet: headings, words, facts, grids, pictures, steps to tick off.

A work sheet is written once and laid out twice, on the page and in the book.
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, replace
from typing import Any, ClassVar, Final, Literal

from boomwright.base import Notice

#: a cell to tick
TICK: Final = "☐"


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading inside a sheet.

    Parameters
    ----------
    text
        the heading
    level
        2 or 3
    """

    kind: ClassVar[str] = "heading"
    text: str
    level: int = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph.

    Parameters
    ----------
    text
        the words
    tone
        ``plain``, ``quiet``, ``loud``, which no reader may miss, or ``stamp``, which stands
        against the whole sheet
    """

    kind: ClassVar[str] = "words"
    text: str
    tone: Literal["plain", "quiet", "loud", "stamp"] = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Labels with their values.

    Parameters
    ----------
    rows
        label and value (n_rows, 2)
    """

    kind: ClassVar[str] = "facts"
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table.

    Parameters
    ----------
    columns
        headings, with units (n_columns,)
    rows
        cells (n_rows, n_columns); a row of one cell is a heading across
    align
        ``l`` or ``r`` for each column (n_columns,)
    shares
        widths on paper [-] (n_columns,)
    caption
        what it holds, or empty
    note
        a sentence below it, or empty
    large
        whether its letters are to be read at arm's length
    """

    kind: ClassVar[str] = "grid"
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    align: str
    shares: tuple[float, ...]
    caption: str = ""
    note: str = ""
    large: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPicture:
    """A picture.

    Parameters
    ----------
    name
        short name, fit for an address
    svg
        the picture
    caption
        a sentence below it
    units
        its width [user units]
    true_size
        whether one unit is one millimetre on paper
    """

    kind: ClassVar[str] = "picture"
    name: str
    svg: str
    caption: str
    units: float
    true_size: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Steps in order, each with a box to tick and room for initials.

    Parameters
    ----------
    title
        what they do
    items
        the steps (n_items,)
    """

    kind: ClassVar[str] = "steps"
    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """Lines to fill in by hand.

    Parameters
    ----------
    labels
        what goes there (n_labels,)
    """

    kind: ClassVar[str] = "blanks"
    labels: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """Start of a new page on paper; nothing on the screen."""

    kind: ClassVar[str] = "page"


Block = Heading | Words | Facts | Grid | SheetPicture | Steps | Blanks | NewPage


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkSheet:
    """One work sheet.

    Parameters
    ----------
    blocks
        its blocks (n_blocks,)
    notices
        doubts, cautions, exceeded limits
    """

    title: str
    blocks: tuple[Block, ...]
    notices: tuple[Notice, ...]


def stamped_sheet(sheet: WorkSheet, stamp: str) -> WorkSheet:
    """Put a stamp above a sheet; an empty one leaves it as it is."""
    if not stamp:
        return sheet
    return replace(sheet, blocks=(Words(text=f"{stamp}.", tone="stamp"), *sheet.blocks))


def block_data(block: Block) -> dict[str, Any]:
    """Turn a block into plain data that names its kind."""
    return {"kind": block.kind, **asdict(block)}
