"""What stands near a station, and how far, as a table."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem, length_text
from boomwright.charts.tables import ReadingTable
from boomwright.permits import Installation, fall_gap, least_clearance, standing_gap


def clearance_table(installation: Installation, *, system: UnitSystem = "metric") -> ReadingTable:
    """Write the clearances to power lines and edges as a table.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """

    def span(length: float | None) -> str:
        if length is None:
            return "not given"
        return length_text(length, system=system) if system == "us" else f"{length:.2f} m"

    heights, around = installation.heights, installation.around
    fall = math.hypot(heights.permanent_top, around.swing_radius)
    rows = [
        ("boundary", span(around.boundary_distance), "", span(fall), span(around.swing_radius)),
        ("public way", span(around.walkway_distance), "", span(fall), span(around.swing_radius)),
    ]
    for each in installation.power_lines:
        high, swing = heights.highest, around.swing_radius
        rows.append(
            (
                each.name,
                span(each.distance),
                span(least_clearance(voltage=each.voltage).distance),
                span(fall_gap(line=each, height=high, swing_radius=swing)),
                span(standing_gap(line=each, height=high, swing_radius=swing)),
            )
        )
    return ReadingTable(
        header=(
            "what is near", "distance", "least clearance", "fall circle, or gap to it",
            "swing circle, or gap standing",
        ),
        rows=tuple(rows),
    )  # fmt: skip
