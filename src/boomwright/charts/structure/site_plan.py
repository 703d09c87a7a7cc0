"""The site from above, for whoever gives the permission: what stands where, and what it reaches."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.charts.ground_view import Circle, distance_text, ground_view
from boomwright.charts.palette import LIGHT, Palette
from boomwright.permits import Installation

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel


def site_plan(
    installation: Installation,
    *,
    guys: Sequence[GuyLevel] = (),
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw the site from above, to scale, north up."""
    circles = _circles(installation, palette)
    reach = max([each.radius for each in circles] + [ring.anchor_radius for ring in guys]) * 1.06
    return ground_view(
        circles,
        guys=guys,
        reach=reach,
        kind="site-plan",
        title="Site from above, to scale",
        description="; ".join(
            f"{each.words}: {distance_text(each.radius, system)}" for each in circles
        ),
        palette=palette,
        system=system,
        width=width,
    )


def _circles(held: Installation, palette: Palette) -> list[Circle]:
    around = held.around
    found = [
        Circle(radius=around.swing_radius, words="turning radius",
               colour=palette.series[0], dash="3 3", opacity=0.08),
        Circle(radius=math.hypot(held.heights.permanent_top, around.swing_radius),
               words="fall circle", colour=palette.accent, dash="8 4"),
    ]  # fmt: skip
    edges = (
        ("boundary at this distance", around.boundary_distance, "boundary"),
        ("public way at this distance", around.walkway_distance, "way"),
    )
    found += [
        Circle(radius=away, words=words, colour=palette.ink, dash="2 3", part=part)
        for words, away, part in edges
        if away is not None
    ]
    found += [
        Circle(radius=near.distance, words=f"power line {near.name}",
               colour=palette.series[2], dash="9 3 2 3", part="power-line")
        for near in held.power_lines
    ]  # fmt: skip
    return found
