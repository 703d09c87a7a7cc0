"""What the Structure sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.shown_context import Lack, SubjectChange, SubjectContext


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureContext(SubjectContext):
    """Everything the Structure sheet shows."""

    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
    changes: tuple[SubjectChange, ...] = field(
        metadata=helped("Fixes for weak elements, each taken with one key.")
    )
