"""What a report is made of: facts, tables and pictures, still as numbers and codes.

A report says what there is to say of one subject. Readers (``render``) turn it into lines of a
terminal, a sheet of the page, a chapter of the book or plain data; only they turn a number into
text, and they know nothing of antennas.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from boomwright.base import Finding, Notice, UnitSystem
from boomwright.base.quantity import Quantity, Value
from boomwright.charts import Palette, ReadingTable

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A figure with its name.

    Parameters
    ----------
    key
        its name in plain data; empty leaves it out there
    """

    label: str
    value: Value
    key: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column(Generic[Item]):
    """One column of a table: how it is headed, and how an item gives its value.

    Parameters
    ----------
    head
        heading, without its unit
    get
        takes an item, gives its cell
    kind
        kind of all its quantities, so that the head names the unit; empty where cells differ
    key
        its name in plain data; empty leaves it out there
    full
        whether only the full account shows it
    """

    head: str
    get: Callable[[Item], Value]
    kind: str = ""
    key: str = ""
    full: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table(Generic[Item]):
    """Items told column by column.

    Parameters
    ----------
    name
        short name, fit for an address
    caption
        what it holds
    columns
        how each item is told (n_columns,)
    items
        what is told, a row each (n_items,)
    note
        a sentence below it
    group
        part of the sheet it belongs to
    sentences
        whether its cells are sentences, which want lines of their own where room is short
    folded
        whether a quick look leaves it out
    """

    name: str
    caption: Value
    columns: tuple[Column[Item], ...]
    items: Sequence[Item]
    note: Value = None
    group: str = ""
    sentences: bool = False
    folded: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Canvas:
    """What a picture is drawn for.

    Parameters
    ----------
    width
        width to draw in [user units]
    """

    palette: Palette
    system: UnitSystem
    width: float = 520.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture to be drawn when somebody looks, with the numbers behind it.

    Parameters
    ----------
    name
        short name, fit for an address
    title
        what it shows
    draw
        draws it as SVG
    behind
        the numbers behind it; a chart's own table takes the reader's units
    caption
        a sentence below it
    group
        part of the sheet it belongs to
    """

    name: str
    title: str
    draw: Callable[[Canvas], str]
    behind: Table[Any] | Callable[[UnitSystem], ReadingTable]
    caption: Value = None
    group: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """Everything there is to say of one subject.

    Parameters
    ----------
    subject
        its short name: ``feed``, ``structure`` ...
    title
        what it is about
    answer
        the figures that count most, at most five of them first
    pictures
        pictures in order
    tables
        tables in order
    findings
        what its checks found
    notices
        doubts, cautions, exceeded limits
    """

    subject: str
    title: str
    answer: tuple[Fact, ...] = ()
    pictures: tuple[Picture, ...] = ()
    tables: tuple[Table[Any], ...] = ()
    findings: tuple[Finding, ...] = ()
    notices: tuple[Notice, ...] = ()


def measured(kind: str, get: Callable[[Item], float | complex]) -> Callable[[Item], Value]:
    """Turn a plain figure of an item into a cell of its kind."""
    return lambda item: Quantity(get(item), kind)


def column(
    head: str, get: Callable[[Item], Any], *, kind: str = "", key: str = "", full: bool = False
) -> Column[Item]:
    """Make a column; with a kind, ``get`` gives the bare figure.

    Parameters
    ----------
    get
        takes an item; gives its figure in SI, or a value where there is no kind [-]
    """
    told = measured(kind, get) if kind else get
    return Column(head=head, get=told, kind=kind, key=key, full=full)
