"""What the Compare sheet shows, field by field."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import Table, helped


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareContext:
    """Everything the Compare sheet shows."""

    other: str = field(metadata=helped("File name of the other plan; empty when none is chosen."))
    others: tuple[str, ...] = field(metadata=helped("File names that may be chosen."))
    problem: str = field(metadata=helped("Why the other plan cannot be compared, or empty."))
    figures: dict[str, str] = field(metadata=helped("SVG of both plans over one another."))
    plan_views: tuple[str, ...] = field(metadata=helped("SVG of each plan view, this one first."))
    table: Table | None = field(metadata=helped("Figures of both, and what parts them."))
