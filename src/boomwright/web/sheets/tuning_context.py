"""What the Tuning sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from dataclasses import dataclass, field

from boomwright.base import Notice
from boomwright.web.sheets.context_parts import Table, helped
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    SubjectFact,
    SubjectList,
    SubjectPicture,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TuningContext:
    """Everything the Tuning sheet shows."""

    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
    asked: tuple[AskedField, ...] = field(metadata=helped("Values of the plan asked for here."))
    cautions: tuple[Notice, ...] = field(
        metadata=helped("What can hurt people while tuning; shown before anything is computed.")
    )
    ready: bool = field(metadata=helped("Whether the figures are computed."))
    searching: bool = field(
        metadata=helped("Whether a fault is not looked for yet; asked again, it is.")
    )
    trouble: str = field(metadata=helped("Why nothing can be computed, or empty."))
    facts: tuple[SubjectFact, ...] = field(metadata=helped("Figures that count most."))
    groups: tuple[tuple[str, str], ...] = field(
        metadata=helped("Parts of the sheet in order: short name and heading.")
    )
    pictures: tuple[SubjectPicture, ...] = field(metadata=helped("Pictures in order."))
    figures: dict[str, str] = field(metadata=helped("SVG by name."))
    tables: dict[str, Table] = field(metadata=helped("Numbers behind the pictures, by name."))
    lists: tuple[SubjectList, ...] = field(metadata=helped("Further tables in order."))
    notices: tuple[Notice, ...] = field(metadata=helped("Doubts, cautions, exceeded limits."))
