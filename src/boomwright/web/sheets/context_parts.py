"""Pieces every sheet's context is made of: fields, sliders, tables, each with its help."""

from __future__ import annotations

from boomwright.base.records import dataclass, field


def helped(text: str) -> dict[str, str]:
    """Attach the help text of a context field."""
    return {"help": text}


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """A value that is pulled or typed."""

    value: float = field(metadata=helped("Value in SI."))
    low: float = field(metadata=helped("Left end in SI."))
    high: float = field(metadata=helped("Right end in SI."))
    step: float = field(metadata=helped("Step of an arrow key in SI."))
    text: str = field(metadata=helped("Value with its unit, as it may be typed."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A typed value with its unit."""

    place: str = field(metadata=helped("Dotted place in the plan file."))
    label: str = field(metadata=helped("What a screen reader calls it."))
    text: str = field(metadata=helped("Value with its unit, in the units shown."))


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The numbers behind a figure."""

    caption: str = field(metadata=helped("What the table holds."))
    columns: tuple[str, ...] = field(metadata=helped("Headings with units."))
    rows: tuple[tuple[str, ...], ...] = field(metadata=helped("Cells as text, row by row."))
