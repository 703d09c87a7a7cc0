"""What the Permits sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.shown_context import Lack, SubjectContext


@dataclass(frozen=True, slots=True, kw_only=True)
class PermitsContext(SubjectContext):
    """Everything the Permits sheet shows."""

    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
