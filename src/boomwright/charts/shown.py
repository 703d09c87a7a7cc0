"""What a subject shows: pictures with their tables, further tables, sentences and notices.

The page and the book lay out the same values; whoever computes a subject fills them in.
"""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.charts.tables import ReadingTable


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownTable:
    """A table with its caption.

    Parameters
    ----------
    name
        short name, fit for an address
    caption
        what it holds
    table
        header and rows
    note
        a sentence below it, or empty
    """

    name: str
    caption: str
    table: ReadingTable
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPicture:
    """A picture with the numbers behind it.

    Parameters
    ----------
    name
        short name, fit for an address
    words
        its title
    svg
        the picture
    caption
        a sentence below it
    behind
        the numbers behind it
    units
        width it was drawn in [user units]
    """

    name: str
    words: str
    svg: str
    caption: str
    behind: ShownTable
    units: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownChange:
    """A change of one element that is offered and may be taken with one key.

    Parameters
    ----------
    beam
        number of the beam, from 0
    element
        number of the element, from 0
    number
        number of the change among those of the element, from 0
    label
        the element's name
    text
        what is done
    gain
        what it gains and costs
    """

    beam: int
    element: int
    number: int
    label: str
    text: str
    gain: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownSubject:
    """Everything one subject shows of one beam, or of the whole plan.

    Parameters
    ----------
    title
        what it is about
    facts
        label and value of the figures that count most (n_facts, 2)
    pictures
        pictures in order
    tables
        tables in order
    notices
        doubts, cautions, exceeded limits
    changes
        changes offered
    """

    title: str
    facts: tuple[tuple[str, str], ...]
    pictures: tuple[ShownPicture, ...]
    tables: tuple[ShownTable, ...]
    notices: tuple[Notice, ...]
    changes: tuple[ShownChange, ...] = ()
