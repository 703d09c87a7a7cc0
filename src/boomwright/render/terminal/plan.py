"""What a faultless plan says, for a terminal."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem
from boomwright.plan import Plan, plan_notices
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    megahertz,
    print_notices,
    span_text,
    words,
)


def print_plan(plan: Plan, *, system: UnitSystem = "metric") -> None:
    """Print what a faultless plan says."""
    console = make_console()
    console.print(words(plan.title, style="bold"))
    table = make_table(
        "beam", "elements", "first to last", "height", "heading", "band, MHz", "design, MHz"
    )
    for beam in plan.beams:
        low, high = (megahertz(edge) for edge in beam.band)
        table.add_row(
            words(beam.name),
            str(len(beam.elements)),
            span_text(beam.boom_length, system=system),
            span_text(beam.height, system=system),
            f"{math.degrees(beam.heading):.0f}°",
            f"{low} to {high}",
            megahertz(beam.design_frequency),
        )
    console.print(table)
    print_notices(console, plan_notices(plan), system=system)
    console.print(
        "No fault found. Looked at: every key and value of the plan, and how they fit together. "
        "Not looked at: whether the beam stands."
    )
    console.print(
        "Next: boomwright compute says what its beams do, boomwright structure gives the verdict."
    )
