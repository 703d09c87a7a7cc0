"""Doubts and cautions as data: shown alike on the page, the command line and in the book."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from boomwright.base.quantity import PAPER, Citing, InPlan, Value, places_in, uncited, write
from boomwright.base.records import dataclass, replace
from boomwright.base.unit_text import UnitSystem

Severity = Literal["note", "doubt", "caution", "limit"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One thing the reader must know about a figure or a piece of work.

    ``note`` informs, ``doubt`` says a figure may be off, ``caution`` concerns people's
    health, ``limit`` says a stated limit is exceeded (exit status 3 under ``--strict``).
    """

    code: str  #: short stable name such as ``solver.error-band-wide``
    text: Value  #: one or two plain sentences with what was seen and what to do
    severity: Severity = "note"  #: one of ``note``, ``doubt``, ``caution``, ``limit``
    value: Value = ""  #: what was seen, or empty
    limit: Value = ""  #: what it was held against, or empty
    source: str = ""  #: key in ``docs/sources.toml`` or empty
    how: Value = ""  #: lines for the plan file that settle it; a reader with a form needs none
    places: tuple[InPlan, ...] = ()  #: where in the plan it is settled, once it is written

    def written(self, system: UnitSystem, *, cite: Citing = uncited, forms: bool = False) -> Notice:
        """Write its figures for a reader; one with ``forms`` is not told what to write."""
        text = write(self.text, system=system, cite=cite, forms=forms)
        how = "" if forms or PAPER.get() else write(self.how, system=system, cite=cite)
        return replace(
            self,
            text=f"{text} {how}" if how else text,
            how="",
            value=write(self.value, system=system, forms=forms),
            limit=write(self.limit, system=system, forms=forms),
            places=places_in(self.text, self.how) if forms else (),
        )

    def said(self, system: UnitSystem) -> str:
        """Say it in one line, with what was seen and what that was held against."""
        text, value, limit = (
            write(each, system=system) for each in (self.text, self.value, self.limit)
        )
        if self.how:
            text = f"{text} {write(self.how, system=system)}"
        held = f"{value}, limit {limit}" if limit else value
        return f"{text} ({held})" if held else text


def written_notices(
    notices: Iterable[Notice], *, system: UnitSystem, cite: Citing = uncited, forms: bool = False
) -> tuple[Notice, ...]:
    """Write what notices say for a reader: all their values become text."""
    return tuple(each.written(system, cite=cite, forms=forms) for each in notices)
