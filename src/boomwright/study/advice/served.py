"""Decibels towards what is wanted: over the angles that reach each target, after every loss."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright import reach
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import ground_zones, layers, station_place, target_places
from boomwright.reach.hops import fewest_hops, hop_elevation
from boomwright.solver import Preparer, prepare_run
from boomwright.study.as_measured import measure_beam
from boomwright.study.feed_parts.results import NotMeasured
from boomwright.study.reach import USUAL_WANTED_DEG

Floats = NDArray[np.float64]

#: elevations taken from the lowest to the highest that reach a target
_ANGLES = 9
#: headings tried for an antenna that does not turn [deg]
_HEADING_STEP = 5.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Wanted:
    """A target by what the antenna must serve."""

    name: str
    bearing: float | None  #: clockwise from true north; None for any direction [rad]
    elevation: Floats  #: elevations that reach it [rad] (n,)


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """What an antenna gives towards the targets."""

    heading: float  #: heading it is given, clockwise from true north [rad]
    #: mean power gain over the angles that reach each target, what the line loses taken off
    #: [dBi] (n_targets,)
    gains_dbi: tuple[float, ...]
    #: standing wave ratio at the radio at the design frequency; None while no match is solved [-]
    swr: float | None
    line_loss_db: float  #: what the line loses, 0 while no match is solved [dB]

    @property
    def mean_dbi(self) -> float:
        """Mean over the targets [dBi]."""
        return float(np.mean(self.gains_dbi))

    @property
    def worst_dbi(self) -> float:
        """The worst served target [dBi]."""
        return min(self.gains_dbi)


def wanted_targets(plan: Plan) -> tuple[Wanted, ...]:
    """List what the plan wants to reach.

    Elevations are those of the fewest hops off the highest layer, over its usual heights. Without
    targets, or without a position to see them from, the wanted elevations count in any direction.

    Returns:
        the targets (n_targets,)
    """
    station, layer = station_place(plan), max(layers(plan), key=lambda each: each.highest)
    found = []
    for name, place in target_places(plan):
        if station is None:
            continue
        path = reach.great_circle(station=station, target=place, way="short")
        if path.distance <= 0.0:
            continue
        length = path.distance / fewest_hops(distance=path.distance, layer=layer)
        low, high = (
            max(0.0, hop_elevation(hop_length=length, layer_height=height))
            for height in (layer.lowest, layer.highest)
        )
        found.append(
            Wanted(name=name, bearing=path.bearing, elevation=np.linspace(low, high, _ANGLES))
        )
    if found:
        return tuple(found)
    angles = plan.reach.wanted if plan.reach is not None and plan.reach.wanted else ()
    wanted = np.array(angles or np.radians(USUAL_WANTED_DEG))
    return (Wanted(name="", bearing=None, elevation=wanted),)


def serve(
    plan: Plan, wanted: tuple[Wanted, ...], *, turns: bool, prepare: Preparer = prepare_run
) -> Served:
    """Compute what the one antenna of a plan gives towards each target.

    Args:
        wanted: the targets (n_targets,)
        turns: whether it is turned to each; otherwise the one heading that is best for the worst
            served target is found
        prepare: prepares one run of wire; pass one that remembers to save time

    Raises:
        SolverError: when a geometry is refused
    """
    beam = plan.beams[0]
    measured = measure_beam(plan, beam, prepare=prepare)
    loss, swr = 0.0, None
    if not isinstance(measured, NotMeasured):
        swr = measured.swr_design
        if measured.line is not None:
            line = measured.line
            loss = float(np.interp(beam.design_frequency, line.frequency, line.loss_db))
    fixed = not turns and any(each.bearing is not None for each in wanted)
    offsets = np.arange(0.0, 360.0, _HEADING_STEP) if fixed else np.zeros(1)
    rose = _mean_gains(plan, beam, wanted, np.radians(offsets), prepare)
    heading, gains = _best_heading(wanted, rose, offsets)
    return Served(
        heading=heading,
        gains_dbi=tuple(float(gain - loss) for gain in gains),
        swr=swr,
        line_loss_db=loss,
    )


def _mean_gains(
    plan: Plan, beam: Beam, wanted: tuple[Wanted, ...], azimuth: Floats, prepare: Preparer
) -> Floats:
    """Mean power gain over each target's angles, for every azimuth [dBi] (n_targets, n_azimuth)."""
    ground = plan.site.ground
    solution = reach.solve_at_height(beam=beam, ground=ground, height=beam.height, prepare=prepare)
    found = []
    for each in wanted:
        across, up = np.meshgrid(azimuth, each.elevation, indexing="ij")
        level = reach.layered_gain_dbi(
            solution=solution,
            azimuth=across.ravel(),
            elevation=up.ravel(),
            ground=ground,
            height=beam.height,
            far_ground=ground_zones(plan),
        ).reshape(across.shape)
        found.append(10.0 * np.log10(np.mean(10.0 ** (level / 10.0), axis=1)))
    return np.array(found)


def _best_heading(
    wanted: tuple[Wanted, ...], rose: Floats, offsets_deg: Floats
) -> tuple[float, Floats]:
    """The heading that serves the worst target best, and the gain towards each [dBi] (n,)."""
    bearings = [each.bearing for each in wanted]
    first = next((bearing for bearing in bearings if bearing is not None), 0.0)
    if len(offsets_deg) == 1:
        return first, rose[:, 0]
    headings = np.radians(offsets_deg)
    # Azimuth turns counter-clockwise from the heading.
    gains = np.array(
        [
            np.interp(np.degrees(headings - (bearing or 0.0)) % 360.0, offsets_deg, row, period=360)
            for bearing, row in zip(bearings, rose, strict=True)
        ]
    )
    best = int(np.argmax(gains.min(axis=0)))
    return float(headings[best]), gains[:, best]
