"""What the Reach sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.named_lists import NamedList
from boomwright.web.sheets.shown_context import SubjectContext


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachContext(SubjectContext):
    """Everything the Reach sheet shows."""

    named: tuple[NamedList, ...] = field(metadata=helped("Lists of the plan, to add to."))
    lacking: bool = field(metadata=helped("Whether the plan names neither places nor people."))
