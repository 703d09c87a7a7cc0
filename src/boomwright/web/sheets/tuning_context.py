"""What the Tuning sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped
from boomwright.web.sheets.named_lists import NamedList
from boomwright.web.sheets.shown_context import Lack, SubjectContext


@dataclass(frozen=True, slots=True, kw_only=True)
class TuningContext(SubjectContext):
    """Everything the Tuning sheet shows."""

    lacks: tuple[Lack, ...] = field(metadata=helped("What the plan does not say yet."))
    cautions: tuple[Notice, ...] = field(
        metadata=helped("What can hurt people while tuning; shown before anything is computed.")
    )
    beside: tuple[NamedList, ...] = field(
        metadata=helped("Readings beside the sweeps, to add to; none before the first sweep.")
    )
    takes: bool = field(metadata=helped("Whether a sweep can be put beside the plan from here."))
    measured: bool = field(metadata=helped("Whether the plan names a measured sweep already."))
    advised: bool = field(metadata=helped("Whether moves are advised that a trial may follow."))
    moves: str = field(
        metadata=helped("Why the moves of the trials cannot be taken into the plan, or empty.")
    )
    lined: bool = field(metadata=helped("Whether the plan names a line to the meter already."))
    lines: tuple[str, ...] = field(metadata=helped("Types of line to choose from."))
    searching: bool = field(
        metadata=helped("Whether a fault is not looked for yet; asked again, it is.")
    )
