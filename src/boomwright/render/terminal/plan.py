"""What a faultless plan says, for a terminal."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, listed
from boomwright.parts import Beam
from boomwright.plan import Plan, plan_notices
from boomwright.render.terminal.lines import make_console, print_notices, words
from boomwright.render.terminal.report import print_table
from boomwright.report.model import Table, column


def print_plan(plan: Plan, *, system: UnitSystem = "metric") -> None:
    """Print what a faultless plan says."""
    console = make_console()
    console.print(words(plan.title, style="bold"))
    console.print("The plan is in order.")
    console.print("Next: boomwright compute says what its beams do.")
    console.print()
    print_table(console, _beams(plan), system=system)
    print_notices(console, plan_notices(plan), system=system)


def _beams(plan: Plan) -> Table[Beam]:
    def band(beam: Beam) -> object:
        return listed([Quantity(edge, "frequency") for edge in beam.band], between=" to ")

    return Table(
        name="beams",
        caption="Beams",
        columns=(
            column("beam", lambda beam: beam.name),
            column("elements", lambda beam: len(beam.elements)),
            column("boom", lambda beam: Quantity(beam.boom_length, "span")),
            column("height", lambda beam: Quantity(beam.height, "span")),
            column("heading", lambda beam: math.degrees(beam.heading), kind="whole angle"),
            column("band", band, kind="frequency"),
            column("design", lambda beam: beam.design_frequency, kind="frequency"),
        ),
        items=plan.beams,
    )
