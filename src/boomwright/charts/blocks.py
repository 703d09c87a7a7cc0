"""Blocks of a work sheet: headings, words, facts, grids, pictures, steps to tick off.

A work sheet is written once and laid out twice, on the page and in the book.
"""

from __future__ import annotations

from typing import Any, ClassVar, Final, Literal

from boomwright.base import Finding, Notice
from boomwright.base.quantity import InPlan, Value
from boomwright.base.records import asdict, dataclass, replace
from boomwright.charts.shown import ShownStep

#: a cell to tick
TICK: Final = "☐"


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading inside a sheet."""

    kind: ClassVar[str] = "heading"
    text: str  #: the heading
    level: int = 2  #: 2 or 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """A paragraph."""

    kind: ClassVar[str] = "words"
    text: str  #: the words
    #: ``plain``, ``quiet``, ``loud``, which no reader may miss, or ``stamp``, which stands against
    #: the whole sheet
    tone: Literal["plain", "quiet", "loud", "stamp"] = "plain"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Labels with their values."""

    kind: ClassVar[str] = "facts"
    rows: tuple[tuple[str, str], ...]  #: label and value (n_rows, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """A table."""

    kind: ClassVar[str] = "grid"
    columns: tuple[str, ...]  #: headings, with units (n_columns,)
    #: cells (n_rows, n_columns); a row of one cell is a heading across
    rows: tuple[tuple[str, ...], ...]
    align: str  #: ``l`` or ``r`` for each column (n_columns,)
    shares: tuple[float, ...]  #: widths on paper [-] (n_columns,)
    caption: str = ""  #: what it holds, or empty
    note: str = ""  #: a sentence below it, or empty
    large: bool = False  #: whether its letters are to be read at arm's length
    foot: bool = False  #: whether the last row is the foot of the table: its sums
    places: tuple[InPlan, ...] = ()  #: where in the plan its cells are settled


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPicture:
    """A picture."""

    kind: ClassVar[str] = "picture"
    name: str  #: short name, fit for an address
    svg: str  #: the picture
    caption: str  #: a sentence below it
    units: float  #: its width [user units]
    true_size: bool = False  #: whether one unit is one millimetre on paper


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Steps in order, each with a box to tick and room for initials."""

    kind: ClassVar[str] = "steps"
    title: str  #: what they do
    items: tuple[Value, ...]  #: the steps; written once a page is laid out (n_items,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanks:
    """Lines to fill in by hand."""

    kind: ClassVar[str] = "blanks"
    labels: tuple[str, ...]  #: what goes there (n_labels,)


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """Start of a new page on paper; nothing on the screen."""

    kind: ClassVar[str] = "page"


Block = Heading | Words | Facts | Grid | SheetPicture | Steps | Blanks | NewPage


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkSheet:
    """One work sheet."""

    title: str
    blocks: tuple[Block, ...]  #: its blocks (n_blocks,)
    notices: tuple[Notice, ...]  #: doubts, cautions, exceeded limits
    findings: tuple[Finding, ...] = ()  #: what its checks found
    steps: tuple[ShownStep, ...] = ()  #: what to do next, most pressing first


def stamped_sheet(sheet: WorkSheet, stamp: str) -> WorkSheet:
    """Put a stamp above a sheet; an empty one leaves it as it is."""
    if not stamp:
        return sheet
    return replace(sheet, blocks=(Words(text=f"{stamp}.", tone="stamp"), *sheet.blocks))


def block_data(block: Block) -> dict[str, Any]:
    """Turn a block into plain data that names its kind."""
    data = {"kind": block.kind, **asdict(block)}
    return data | {"places": block.places} if isinstance(block, Grid) else data
