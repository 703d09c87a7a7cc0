"""A small table of text: what stands behind a picture."""

from __future__ import annotations

from boomwright.base.quantity import InPlan
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
