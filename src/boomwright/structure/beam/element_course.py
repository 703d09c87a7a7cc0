"""Stress and droop from place to place along an element half, for pictures."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.structure.beam.stepped import (
    Segment,
    cantilever_course,
    weight_loads,
    wind_loads,
)
from boomwright.structure.checks.findings import SiteLoads
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import VelocityPressure


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ElementCourse(ReadOnlyArrays):
    """One element half from the boom to the tip; a step stands twice, inner tube first."""

    place: Floats  #: distance from the boom [m] (n_places,)
    bare_stress: Floats  #: bending stress in wind, bare [Pa] (n_places,)
    #: bending stress with ice and its wind; that of the bare weight without ice [Pa] (n_places,)
    iced_stress: Floats
    dead_droop: Floats  #: droop in still air, bare [m] (n_places,)
    iced_droop: Floats  #: droop in still air, with ice [m] (n_places,)


def element_course(*, segments: Sequence[Segment], site: SiteLoads, height: float) -> ElementCourse:
    """Follow stress and droop along one element half."""
    coat = site.coat(height=height)
    bare = _bent(segments, site.pressure(height=height), None, site.dead_factor)
    iced = _bent(segments, site.ice_pressure(height=height), coat, site.dead_factor)
    return ElementCourse(
        place=bare[0],
        bare_stress=bare[1],
        iced_stress=iced[1],
        dead_droop=bare[2],
        iced_droop=iced[2],
    )


def _bent(
    segments: Sequence[Segment],
    pressure: VelocityPressure | None,
    ice: IceCoat | None,
    dead_factor: float,
) -> tuple[Floats, Floats, Floats]:
    """Places, stress of weight and wind, droop of the weight alone."""
    force = 0.0 if pressure is None else pressure.for_force
    dead = cantilever_course(segments=segments, loads=weight_loads(segments=segments, ice=ice))
    wind = cantilever_course(
        segments=segments,
        loads=wind_loads(segments=segments, pressure=force, ice=ice),
    )
    stress = np.hypot(dead_factor * dead.stress, wind.stress)
    return dead.place, stress, dead.deflection
