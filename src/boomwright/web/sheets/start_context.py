"""What the Start sheet shows, field by field."""

from __future__ import annotations

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """A plan of the folder."""

    name: str = field(metadata=helped("File name."))
    title: str = field(metadata=helped("Its title; empty when it cannot be read."))
    changed: str = field(metadata=helped("When it was last written, local time."))
    here: bool = field(metadata=helped("Whether it lies on the desk."))
    place: bool = field(metadata=helped("Whether it is a place that has no antenna yet."))


@dataclass(frozen=True, slots=True, kw_only=True)
class RecentRow:
    """A plan opened lately."""

    name: str = field(metadata=helped("File name."))
    opened: str = field(metadata=helped("When it was opened last, local time."))
    folder: str = field(metadata=helped("Folder it lies in; empty for the folder shown."))
    here: bool = field(metadata=helped("Whether it lies on the desk."))


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonRow:
    """A lesson."""

    name: str = field(metadata=helped("Short stable name."))
    title: str = field(metadata=helped("Its title."))
    aim: str = field(metadata=helped("What it shows, in one sentence."))
    here: bool = field(metadata=helped("Whether it is under way."))


@dataclass(frozen=True, slots=True, kw_only=True)
class StartContext:
    """Everything the Start sheet shows."""

    folder: str = field(metadata=helped("Name of the folder; empty when only one plan is shown."))
    title: str = field(metadata=helped("Title of the plan on the desk; empty while none is."))
    own: bool = field(metadata=helped("Whether the plan on the desk is a file of the owner's."))
    plans: tuple[PlanRow, ...] = field(metadata=helped("Plans of the folder, newest first."))
    recent: tuple[RecentRow, ...] = field(
        metadata=helped("Plans opened lately that are still there, the last first.")
    )
    lessons: tuple[LessonRow, ...] = field(metadata=helped("Lessons in order."))
    bands: tuple[str, ...] = field(metadata=helped("Amateur bands a plan may be for."))
    shapes: tuple[tuple[str, str], ...] = field(
        metadata=helped("Shapes of wire: the name that a plan starts by, and what it is.")
    )
    grounds: tuple[str, ...] = field(metadata=helped("Ground classes."))
    supports: tuple[str, ...] = field(metadata=helped("Kinds of support that may stand there."))
    rows: tuple[int, ...] = field(metadata=helped("Numbers of the rows of supports and targets."))
    place_map: str = field(metadata=helped("SVG of the coasts, to point at a place."))
