"""What a subject shows: pictures with their tables, further tables, sentences and notices.

The page and the book lay out the same values; whoever computes a subject fills them in.
"""

from __future__ import annotations

from boomwright.base import Finding, Notice
from boomwright.base.quantity import InPlan, Value
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingTable:
    """A small table of text."""

    header: tuple[str, ...]  #: heads of the columns, with units (n_columns,)
    rows: tuple[tuple[str, ...], ...]  #: rows, as many texts as heads (n_rows, n_columns)
    headings: frozenset[int] = frozenset()  #: rows that are headings across, in their first cell
    #: which columns hold nothing but figures; empty where all but the first do (n_columns,)
    figures: tuple[bool, ...] = ()
    foot: bool = False  #: whether the last row is the foot of the table: its sums
    places: tuple[InPlan, ...] = ()  #: where in the plan its cells are settled


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownStep:
    """Something to do next."""

    text: str  #: what is done
    places: tuple[InPlan, ...] = ()  #: where in the plan it is done
    sheet: str = ""  #: address of the sheet on which it is done; empty for this one


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownTable:
    """A table with its caption."""

    name: str  #: short name, fit for an address
    caption: str  #: what it holds
    table: ReadingTable  #: header and rows
    note: str = ""  #: a sentence below it, or empty
    group: str = ""  #: part of the sheet it belongs to
    folded: bool = False  #: whether a quick look leaves it out


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPicture:
    """A picture with the numbers behind it."""

    name: str  #: short name, fit for an address
    words: str  #: its title
    svg: str  #: the picture
    caption: str  #: a sentence below it
    behind: ShownTable  #: the numbers behind it
    units: float  #: width it was drawn in [user units]
    group: str = ""  #: part of the sheet it belongs to


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change of one element that is offered and may be taken into the plan."""

    beam: int  #: number of the beam, from 0
    element: int  #: number of the element, from 0
    number: int  #: number of the change among those of the element, from 0
    label: Value  #: the element's name
    text: Value  #: what is done
    gain: Value  #: what it gains and costs


@dataclass(frozen=True, slots=True, kw_only=True)
class Offered:
    """A value of the plan that is proposed and may be taken."""

    text: Value  #: what is done, and why
    place: str  #: dotted place in the plan
    value: Value  #: what is written there


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownSubject:
    """Everything one subject shows of one beam, or of the whole plan."""

    title: str  #: what it is about
    #: label and value of the figures that count most (n_facts, 2)
    facts: tuple[tuple[str, str], ...]
    pictures: tuple[ShownPicture, ...]  #: pictures in order
    tables: tuple[ShownTable, ...]  #: tables in order
    notices: tuple[Notice, ...]  #: doubts, cautions, exceeded limits
    about: str = ""  #: its subject in one word, as notices name it; empty for its title
    changes: tuple[Change, ...] = ()  #: changes offered
    offers: tuple[Offered, ...] = ()  #: values offered, most useful first
    findings: tuple[Finding, ...] = ()  #: what its checks found
    steps: tuple[ShownStep, ...] = ()  #: what to do next, most pressing first
