"""What the Plans sheet shows, field by field."""

from __future__ import annotations

from dataclasses import dataclass, field

from boomwright.web.sheets.context_parts import helped


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """A plan of the folder."""

    name: str = field(metadata=helped("File name."))
    title: str = field(metadata=helped("Its title; empty when it cannot be read."))
    changed: str = field(metadata=helped("When it was last written, local time."))
    here: bool = field(metadata=helped("Whether it lies on the desk."))


@dataclass(frozen=True, slots=True, kw_only=True)
class RecentRow:
    """A plan opened lately."""

    name: str = field(metadata=helped("File name."))
    opened: str = field(metadata=helped("When it was opened last, local time."))
    command: str = field(
        metadata=helped("What opens it when it lies in another folder; empty for one of this.")
    )
    here: bool = field(metadata=helped("Whether it lies on the desk."))


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonRow:
    """A lesson."""

    name: str = field(metadata=helped("Short stable name."))
    title: str = field(metadata=helped("Its title."))
    aim: str = field(metadata=helped("What it shows, in one sentence."))
    here: bool = field(metadata=helped("Whether it is under way."))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlansContext:
    """Everything the Plans sheet shows."""

    folder: str = field(metadata=helped("Name of the folder; empty when only one plan is shown."))
    plans: tuple[PlanRow, ...] = field(metadata=helped("Plans of the folder, newest first."))
    recent: tuple[RecentRow, ...] = field(
        metadata=helped("Plans opened lately that are still there, the last first.")
    )
    lessons: tuple[LessonRow, ...] = field(metadata=helped("Lessons in order."))
    bands: tuple[str, ...] = field(metadata=helped("Amateur bands a wish may name."))
    grounds: tuple[str, ...] = field(metadata=helped("Ground classes a wish may name."))
