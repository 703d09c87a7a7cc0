"""The pictures of fields where people are, as page and book both show them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownTable
from boomwright.report.reach.drawing import length_unit, length_words
from boomwright.study.reach_results import BeamReach, ExposureReading, ReachResult

Floats = NDArray[np.float64]


def people_pictures(
    result: ReachResult,
    exposure: ExposureReading,
    each: BeamReach,
    *,
    palette: Palette,
    system: UnitSystem,
    width: float,
) -> list[ShownPicture]:
    """Draw the fields at head height and through the heading.

    Parameters
    ----------
    width
        width of a picture [user units]
    """
    power = max(
        exposure.power[limit.averaging_time]
        for limit in exposure.limits
        if limit.group == "general"
    )
    limit = f"strictest limit for the public, {power:.0f} W average power"
    root = math.sqrt(power)
    places = _places(result, each)
    made = []
    for grid, share, spots, words in (
        (exposure.level, exposure.level_share, places[0], "Fields at head height, from above"),
        (exposure.upright, exposure.upright_share, places[1], "Fields through the heading"),
    ):
        svg = charts.people_map(
            plane=grid.plane,
            across=grid.across,
            up=grid.up,
            share=share,
            electric=grid.electric * root,
            magnetic=grid.magnetic * root,
            limit_name=limit,
            places=spots,
            boom_height=each.beam.height,
            palette=palette,
            system=system,
            width=width,
        )
        made.append(
            ShownPicture(
                name=f"people-{grid.plane}",
                words=words,
                svg=svg,
                caption=(
                    "Part of the limit that the computed near field uses, E and H both "
                    f"counted: {limit}."
                    + (
                        f" Head height {length_words(grid.at, system)} above ground, the beam "
                        f"points right. The most here is {_percent(share)} % "
                        "of the limit."
                        if grid.plane == "level"
                        else ""
                    )
                ),
                behind=ShownTable(
                    name=f"people-{grid.plane}",
                    caption="Part of the limit used, percent",
                    table=_share_table(grid.across, grid.up, share, system),
                ),
                units=width,
            )
        )
    return made


def _percent(share: Floats) -> str:
    """Write the greatest share of a limit: a picture far below it all is blank."""
    most = 100.0 * float(np.nanmax(share))
    return f"{most:.2g}" if most < 10.0 else f"{most:.0f}"


def _places(
    result: ReachResult, each: BeamReach
) -> tuple[list[tuple[str, float, float]], list[tuple[str, float, float]]]:
    """Places with people on the level and, where they lie ahead or behind, upright picture."""
    level, upright = [], []
    for place in result.plan.permits.exposure if result.plan.permits else ():
        bearing = each.beam.heading if place.bearing is None else place.bearing
        angle = each.beam.heading - bearing
        x, y = place.distance * math.cos(angle), place.distance * math.sin(angle)
        level.append((place.place, x, y))
        if abs(y) < 2.0:
            upright.append((place.place, x, place.height))
    return level, upright


def _share_table(across: Floats, up: Floats, share: Floats, system: UnitSystem) -> ReadingTable:
    unit, name = length_unit(system)
    columns = range(0, len(across), 4)
    return ReadingTable(
        header=(name, *(f"{across[i] / unit:.0f}".replace("-", "−") for i in columns)),
        rows=tuple(
            (
                f"{up[row] / unit:.1f}".replace("-", "−"),
                *(
                    "wire" if math.isnan(share[row, i]) else f"{100.0 * share[row, i]:.1f}"
                    for i in columns
                ),
            )
            for row in range(len(up) - 1, -1, -2)
        ),
    )
