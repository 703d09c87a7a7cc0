"""What a report is made of: facts, tables and pictures, still as numbers and codes.

A report says what there is to say of one subject. Readers (``render``) turn it into lines of a
terminal, a sheet of the page, a chapter of the book or plain data; only they turn a number into
text, and they know nothing of antennas.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from operator import itemgetter
from typing import Any, Generic, Literal, TypeVar

from boomwright.base import Finding, Notice, UnitSystem, plan_verdict
from boomwright.base.quantity import (
    Citing,
    PerSystem,
    Phrase,
    Quantity,
    Value,
    phrase,
    uncited,
    write,
)
from boomwright.base.records import dataclass
from boomwright.charts import Palette, ReadingTable
from boomwright.charts.blocks import Block
from boomwright.charts.shown import Change, Offered

Item = TypeVar("Item")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A figure with its name."""

    label: Value
    value: Value
    key: str = ""  #: its name in plain data; empty leaves it out there


@dataclass(frozen=True, slots=True, kw_only=True)
class Column(Generic[Item]):
    """One column of a table: how it is headed, and how an item gives its value."""

    head: Value  #: heading, without its unit
    get: Callable[[Item], Value]  #: takes an item, gives its cell
    #: kind of all its quantities, so that the head names the unit; empty where cells differ
    kind: str = ""
    key: str = ""  #: its name in plain data; empty leaves it out there
    full: bool = False  #: whether only the full account shows it
    below: bool = False  #: whether paper sets it small below the first cell of its row
    foot: Value = None  #: its cell in the foot of the table; without any the table has no foot


@dataclass(frozen=True, slots=True, kw_only=True)
class Table(Generic[Item]):
    """Items told column by column."""

    name: str  #: short name, fit for an address
    caption: Value  #: what it holds
    columns: tuple[Column[Item], ...]  #: how each item is told (n_columns,)
    items: Sequence[Item]  #: what is told, a row each (n_items,)
    basis: Value = None  #: what all its rows rest on, said once above them
    note: Value = None  #: a sentence below it
    group: str = ""  #: part of the sheet it belongs to
    #: whether its cells are sentences, which want lines of their own where room is short
    sentences: bool = False
    folded: bool = False  #: whether a quick look leaves it out
    large: bool = False  #: whether on paper it is read at arm's length
    #: rows that a terminal, which has no pictures, prints of a table behind a picture [-]
    rows: int = 0
    #: heading that an item stands under; items of one heading lie next to each other
    under: Callable[[Item], Value] | None = None
    under_heading: bool = False  #: whether a heading of its sheet stands above it already
    tick: str = ""  #: head of a column to tick by hand on paper; empty for none

    @property
    def around(self) -> Value:
        """What is said beside its rows by a reader that has one place for it: basis and note."""
        if self.basis is None or self.note is None:
            return self.basis or self.note
        return phrase("{basis} {note}", basis=self.basis, note=self.note)


@dataclass(frozen=True, slots=True, kw_only=True)
class Canvas:
    """What a picture is drawn for."""

    palette: Palette
    system: UnitSystem
    width: float = 520.0  #: width to draw in [user units]
    cite: Citing = uncited  #: gives what stands for a source
    forms: bool = False  #: whether its reader has a form where others write into the plan file

    def write(self, value: Value) -> str:
        """Write a value for whom this is drawn."""
        return write(value, system=self.system, cite=self.cite, forms=self.forms)


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture to be drawn when somebody looks, with the numbers behind it."""

    name: str  #: short name, fit for an address
    title: str  #: what it shows
    draw: Callable[[Canvas], str]  #: draws it as SVG
    #: the numbers behind it; a chart's own table takes the reader's units
    behind: Table[Any] | Callable[[UnitSystem], ReadingTable]
    caption: Value = None  #: a sentence below it
    group: str = ""  #: part of the sheet it belongs to


@dataclass(frozen=True, slots=True)
class Said:
    """A paragraph of a sheet for the field."""

    text: Value  #: what is said
    tone: Literal["plain", "quiet", "loud"] = "plain"  #: a loud one no reader may miss


#: what a sheet for the field is made of
Part = Table[Any] | Picture | Said | Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """Everything there is to say of one subject."""

    subject: str  #: its short name: ``feed``, ``structure`` ...
    title: str  #: what it is about
    answer: tuple[Fact, ...] = ()  #: the figures that count most, at most five of them first
    next: tuple[Value, ...] = ()  #: what to do next, most pressing first
    #: what a quick look shows: tables in order, the rows that matter first
    brief: tuple[Table[Any], ...] = ()
    pictures: tuple[Picture, ...] = ()  #: pictures in order
    tables: tuple[Table[Any], ...] = ()  #: tables in order
    changes: tuple[Change, ...] = ()  #: changes offered
    offers: tuple[Offered, ...] = ()  #: values offered, most useful first
    sheet: tuple[Part, ...] = ()  #: its sheet for the field, in order
    findings: tuple[Finding, ...] = ()  #: what its checks found
    notices: tuple[Notice, ...] = ()  #: doubts, cautions, exceeded limits
    #: whether its tables tell all that its notices say, so that nobody lists them a second time
    notices_in_tables: bool = False

    @property
    def steps(self) -> tuple[Value, ...]:
        """What to do next: as it says itself, or what would settle its checks, worst first."""
        worst = () if self.next else plan_verdict(self.findings).worst
        mend = ["change what is exceeded; each check above says how"]
        return self.next or (
            *mend[: any(one.verdict == "exceeded" for one in worst)],
            *(
                phrase("{name} ({change})", name=one.name, change=one.change)
                for one in worst
                if one.change and one.verdict != "exceeded"
            ),
        )

    @property
    def further_notices(self) -> tuple[Notice, ...]:
        """Notices that its tables do not tell."""
        return () if self.notices_in_tables else self.notices

    def table(self, name: str) -> Table[Any]:
        """The table of that name."""
        return next(table for table in self.tables if table.name == name)


def fact(label: Value, value: Value, *, key: str = "") -> Fact:
    """Make a figure with its name."""
    return Fact(label=label, value=value, key=key)


def drawing(chart: Callable[..., str], /, *about: Any, units: bool = True, **given: Any) -> Any:
    """Let a chart draw what is given, in the colours, units and width of each canvas.

    Args:
        units: whether the chart takes a unit system
        given: what it takes; a value with quantities in it is written for who sees the picture
    """

    def draw(canvas: Canvas) -> str:
        told = {
            name: canvas.write(each) if isinstance(each, (Phrase, PerSystem)) else each
            for name, each in given.items()
        }
        system = {"system": canvas.system} if units else {}
        return chart(*about, **told, **system, palette=canvas.palette, width=canvas.width)

    return draw


def measured(kind: str, get: Callable[[Item], Any]) -> Callable[[Item], Value]:
    """Turn a plain figure of an item into a cell of its kind; what is told already stays."""

    def told(item: Item) -> Value:
        value = get(item)
        if value is None or isinstance(value, (int, float, complex)):
            return Quantity(math.nan if value is None else value, kind)
        return value  # type: ignore[no-any-return]

    return told


def column(
    head: Value,
    get: Callable[[Item], Any],
    *,
    kind: str = "",
    key: str = "",
    full: bool = False,
    below: bool = False,
    foot: Value = None,
) -> Column[Item]:
    """Make a column; with a kind, ``get`` gives the bare figure.

    Args:
        get: takes an item; gives its figure in SI, None where there is none, or a value
        foot: its cell in the foot of the table
    """
    told = measured(kind, get) if kind else get
    return Column(head=head, get=told, kind=kind, key=key, full=full, below=below, foot=foot)


def cells(*heads: Value) -> tuple[Column[Any], ...]:
    """Columns of rows that hold a told cell for each head."""
    return tuple(column(head, itemgetter(place)) for place, head in enumerate(heads))


def thinned(items: Sequence[Item], count: int) -> tuple[Item, ...]:
    """Take so many items spread evenly, the first and the last among them."""
    last, steps = len(items) - 1, max(count - 1, 1)
    if last < count:
        return tuple(items)
    return tuple(items[round(number * last / steps)] for number in range(count))


def facts_table(
    name: str, caption: Value, facts: Sequence[Fact | tuple[Value, Value]]
) -> Table[Fact]:
    """Put facts below one another in a table without heads."""
    told = [each if isinstance(each, Fact) else fact(*each) for each in facts]
    return Table(
        name=name,
        caption=caption,
        columns=(column("", lambda each: each.label), column("", lambda each: each.value)),
        items=told,
        sentences=True,
    )
