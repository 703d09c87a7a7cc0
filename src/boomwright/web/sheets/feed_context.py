"""What the Feed sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.shown_context import Lack, SubjectContext


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedContext(SubjectContext):
    """Everything the Feed sheet shows."""

    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
    adopt: int | None = field(
        metadata=helped("Beam whose proposed match can be adopted; none when there is none.")
    )
    cautions: tuple[Notice, ...] = field(
        metadata=helped("What can hurt people at the feed; shown before anything is computed.")
    )
