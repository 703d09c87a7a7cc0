"""Fields around a beam, and the places with people held against the limits."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np

from boomwright import permits, reach
from boomwright.base import VACUUM_IMPEDANCE
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.permits import PlaceField
from boomwright.plan import Plan
from boomwright.plan.resolve import average_power_told, average_transmitter_power, turning_axis
from boomwright.plan.resolve.places import turned
from boomwright.solver import Preparer
from boomwright.study.reach_parts.results import ExposureReading, LimitDistance
from boomwright.study.reach_parts.terrain_grid import between

#: height at which fields around the station are drawn: a tall person's head [m]
HEAD_HEIGHT = 2.0
#: directions off the heading in which the distance to a limit is told [deg]
_AROUND_DEG = (45.0, 90.0, 135.0, 180.0)
#: stands for the part of a limit that is used within arm's length of a wire [-]
_AT_WIRE = 1e9
#: least half width of the grids around the station [m]
_LEAST_REACH = 25.0


def read_exposure(plan: Plan, beam: Beam, *, prepare: Preparer) -> ExposureReading | None:
    """Compute the fields around a beam; None without a transmitter in the plan."""
    places = read_places(plan, beam, prepare=prepare)
    if places is None:
        return None
    radiator, limits, power = places.radiator, places.limits, places.power
    size = max(2.0 * max(e.half_length for e in beam.elements), beam.boom_length)
    farthest = max(
        [place.distance for place in plan.permits.exposure] if plan.permits else [], default=0.0
    )
    side = max(_LEAST_REACH, 1.25 * farthest, 1.6 * beam.height)
    level = reach.level_grid(radiator, height=HEAD_HEIGHT, reach=side, count=33)
    upright = reach.upright_grid(radiator, reach=side, top=1.3 * beam.height + 2.0, counts=(49, 19))
    return ExposureReading(
        power=power,
        power_told="; ".join(average_power_told(plan, averaging_time=time) for time in power),
        peak_gain_dbi=radiator.peak_gain_dbi,
        checks=places.checks,
        level=level,
        upright=upright,
        level_share=_share(level, limits, power),
        upright_share=_share(upright, limits, power),
        limits=limits,
        distances=_distances(radiator, limits, power=power, side=side, level=level),
        near_distance=reach.near_field_ends(frequency=beam.design_frequency, size=size),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PlacesReading:
    """Places with people held against the limits, before any picture of the fields."""

    radiator: reach.Radiator  #: the beam, ready to be asked for its near field
    limits: tuple[permits.ExposureLimit, ...]
    power: dict[float, float]  #: average power by averaging time of the limits, [s] and [W] [-]
    checks: tuple[permits.LimitCheck, ...]  #: every place against every limit


def read_places(plan: Plan, beam: Beam, *, prepare: Preparer) -> PlacesReading | None:
    """Hold the places with people against the limits, by both methods.

    Returns:
        None without a transmitter in the plan
    """
    if plan.transmitter is None:
        return None
    limits = permits.every_limit(frequency=beam.design_frequency)
    power = {
        limit.averaging_time: average_transmitter_power(plan, averaging_time=limit.averaging_time)
        or 0.0
        for limit in limits
    }
    radiator = reach.make_radiator(
        beam=beam, ground=plan.site.ground, axis=turning_axis(plan, beam), prepare=prepare
    )
    checks = tuple(
        check
        for place in _place_fields(plan, radiator)
        for check in permits.check_place(
            place,
            frequency=beam.design_frequency,
            peak_gain_dbi=radiator.peak_gain_dbi,
            average_power=power.__getitem__,
            limits=limits,
        )
    )
    return PlacesReading(radiator=radiator, limits=limits, power=power, checks=checks)


def _share(
    grid: reach.FieldGrid, limits: Sequence[permits.ExposureLimit], power: Mapping[float, float]
) -> Floats:
    return permits.strictest_share(
        electric=grid.electric,
        magnetic=grid.magnetic,
        limits=[limit for limit in limits if limit.group == "general"],
        power=power,
    )


def _distances(
    radiator: reach.Radiator,
    limits: Sequence[permits.ExposureLimit],
    *,
    power: Mapping[float, float],
    side: float,
    level: reach.FieldGrid,
) -> tuple[LimitDistance, ...]:
    """Farthest place in front of the mast, at head height, where each limit is met."""
    along = np.linspace(0.0, 2.0 * side, 81)
    points = np.column_stack((along, np.zeros(len(along)), np.full(len(along), HEAD_HEIGHT)))
    found = reach.fields_at(radiator, points=points)
    made = []
    for limit in limits:
        mean = power[limit.averaging_time]
        ratio = _ratio(found.electric, found.magnetic, limit, mean)
        # Where a table has no power density the plane wave of its electric field stands for it.
        density = limit.power_density or (limit.electric_field or 0.0) ** 2 / VACUUM_IMPEDANCE
        made.append(
            LimitDistance(
                limit=limit,
                near=_last_crossing(along, ratio),
                around=distances_around(level, _ratio(level.electric, level.magnetic, limit, mean)),
                far=permits.distance_to_limit(
                    power=mean,
                    gain_dbi=radiator.peak_gain_dbi,
                    power_density=density,
                    reflection="partial",
                ),
            )
        )
    return tuple(made)


def _ratio(
    electric: Floats, magnetic: Floats, limit: permits.ExposureLimit, power: float
) -> Floats:
    return power * np.maximum(
        (electric / (limit.electric_field or np.inf)) ** 2,
        (magnetic / (limit.magnetic_field or np.inf)) ** 2,
    )


def distances_around(level: reach.FieldGrid, ratio: Floats) -> tuple[tuple[float, float], ...]:
    """Find how far out a limit is met off the heading, read off the level grid.

    Args:
        ratio: part of the limit used on it, 1 at the limit, NaN at a wire (ny, nx)

    Returns:
        direction off the heading [deg] and farthest such place on the worse side [m] (n, 2)
    """
    along = np.linspace(0.0, float(level.across[-1]), 81)
    step = float(level.across[1] - level.across[0])
    filled = np.nan_to_num(ratio, nan=_AT_WIRE)
    found = []
    for angle in _AROUND_DEG:
        sides = []
        for side in (1.0, -1.0):
            turn = math.radians(side * angle)
            x = (along * math.cos(turn) - level.across[0]) / step
            y = (along * math.sin(turn) - level.up[0]) / step
            sides.append(_last_crossing(along, between(filled, y, x)))
        found.append((angle, max(sides)))
    return tuple(found)


def _last_crossing(along: Floats, ratio: Floats) -> float:
    """Farthest place where a falling ratio meets 1; 0 when it never does."""
    over = np.flatnonzero(ratio >= 1.0)
    if len(over) == 0:
        return 0.0
    last = int(over[-1])
    if last + 1 == len(along):
        return float(along[last])
    share = (ratio[last] - 1.0) / (ratio[last] - ratio[last + 1])
    return float(along[last] + share * (along[last + 1] - along[last]))


def _place_fields(plan: Plan, radiator: reach.Radiator) -> list[PlaceField]:
    beam = radiator.beam
    found = []
    for each in plan.permits.exposure if plan.permits else ():
        bearing = beam.heading if each.bearing is None else each.bearing
        along, across = turned(bearing, beam.heading)
        body = reach.fields_at(
            radiator,
            points=reach.body_points(
                distance=each.distance, head=each.height, azimuth=math.atan2(across, along)
            ),
        )
        electric_mean, magnetic_mean = reach.body_average(body)
        gap = body.points - np.array([0.0, 0.0, beam.height])
        found.append(
            PlaceField(
                place=each.place,
                group="occupational" if each.group == "occupational" else "general",
                distance=each.distance,
                slant=float(np.sqrt((gap**2).sum(axis=1)).min()),
                electric=float(body.electric.max()),
                magnetic=float(body.magnetic.max()),
                electric_mean=electric_mean,
                magnetic_mean=magnetic_mean,
            )
        )
    return found
