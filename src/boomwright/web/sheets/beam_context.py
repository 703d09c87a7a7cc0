"""What the Beam sheet shows, field by field: the page and its JSON are both made of this."""

from __future__ import annotations

from boomwright.base import Notice
from boomwright.base.records import dataclass, field
from boomwright.web.pictures import Key
from boomwright.web.sheets.context_parts import Table, helped


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamContext:
    """Everything the Beam sheet shows."""

    figures: dict[str, str] = field(
        metadata=helped("SVG by name; those of the whole band are absent until computed.")
    )
    keys: dict[str, tuple[Key, ...]] = field(
        metadata=helped("What the curves of the round figures are, by figure.")
    )
    tables: dict[str, Table] = field(metadata=helped("Numbers behind the figures, by name."))
    notices: tuple[Notice, ...] = field(metadata=helped("Doubts and cautions."))
