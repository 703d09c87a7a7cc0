"""From a plan to what its height gives, where it goes, and who stands near it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from functools import lru_cache
from importlib import resources
from itertools import pairwise, product
from typing import Literal

import numpy as np

from boomwright import reach
from boomwright.base import BoomwrightError, Notice, PlanError
from boomwright.base.array_types import Floats
from boomwright.base.files import ReadFile, no_files
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import (
    ground_zones,
    layers,
    stacked_beams,
    station_place,
    target_places,
)
from boomwright.plan.resolve.further import in_further_bands
from boomwright.reach import PlainAntenna, TerrainPattern, TerrainProfile, ZonedGround
from boomwright.solver import Ground, PatternCut, Preparer, prepare_run, remembering
from boomwright.study.effort import refuse_long_work
from boomwright.study.height_costs import height_costs
from boomwright.study.reach_parts.exposure import read_exposure
from boomwright.study.reach_parts.notices import reach_notices
from boomwright.study.reach_parts.results import BeamReach, HopGain, PathReading, ReachResult
from boomwright.study.reach_parts.stack import read_isolation, read_ring, read_stack
from boomwright.study.reach_parts.terrain import read_terrain
from boomwright.study.reach_parts.terrain_grid import is_grid, profile_from_grid

#: below this a layer is a low one, off which many hops in a row lose too much [m]
_LOW_LAYER, _MOST_LOW_HOPS = 200e3, 4
#: solutions of a beam in free space that all heights and fields are worth
_SOLUTIONS = 150
#: elevations whose gain is followed against height when no target asks for others [deg]
USUAL_WANTED_DEG = (5.0, 10.0, 15.0, 20.0, 30.0)


@lru_cache(maxsize=1)
def read_coastlines() -> tuple[Floats, ...]:
    """Read the coastlines the package carries.

    Returns:
        longitude and latitude of the points of each line [rad] (n_points, 2)
    """
    source = resources.files("boomwright.reach") / "data" / "coastline.npz"
    with resources.as_file(source) as path, np.load(path) as data:
        starts, points = data["starts"], np.radians(data["points"].astype(float) / 100.0)
    return tuple(points[low:high] for low, high in pairwise(starts))


def reach_over_ground(plan: Plan, *, files: ReadFile) -> ReachResult | None:
    """Compute reach as :func:`reach_plan` does; None in free space."""
    return None if plan.site.ground.kind == "free space" else reach_plan(plan, files=files)


def reach_plan(
    plan: Plan, *, files: ReadFile = no_files, prepare: Preparer = prepare_run
) -> ReachResult:
    """Compute height, paths, stacks, terrain and fields of a plan.

    Raises:
        BoomwrightError: in free space, or when the terrain file cannot be read
        SolverError: when a geometry is refused
    """
    ground = plan.site.ground
    if ground.kind == "free space":
        raise BoomwrightError(
            "reach needs a ground: the plan says free space, where no lobes are. "
            'Write [site] ground = "medium dry" or another'
        )
    refuse_long_work(
        plan.beams,
        ground=ground,
        solutions=_SOLUTIONS,
        asked="at sixty heights",
        remedy="take out elements",
    )
    prepare = remembering(prepare)
    beams = tuple(
        replace(
            _beam_reach(plan, beam, files=files, prepare=prepare),
            further=tuple(
                _beam_reach(plan, each, files=files, prepare=prepare)
                for each in _in_further_bands(plan, beam)
            ),
        )
        for beam in plan.beams
    )
    together = stacked_beams(plan)
    stack = None
    if len(together) > 1:
        stack = read_stack(plan, together, wanted_deg=beams[0].wanted_deg, prepare=prepare)
    return ReachResult(
        plan=plan,
        station=station_place(plan),
        beams=beams,
        stack=stack,
        ring=read_ring(plan, prepare=prepare),
        isolation=read_isolation(plan, prepare=prepare),
        notices=reach_notices(plan, beams, stack),
    )


def _in_further_bands(plan: Plan, beam: Beam) -> tuple[Beam, ...]:
    """None where the wish does not say which; the notices say so."""
    with suppress(PlanError):
        return in_further_bands(plan, beam)
    return ()


def exceeded_reach_limits(result: ReachResult) -> tuple[Notice, ...]:
    """Pick the notices that say a stated limit is exceeded."""
    return tuple(notice for notice in result.notices if notice.severity == "limit")


def _cut(
    beam: Beam, ground: Ground, far: ZonedGround | None, prepare: Preparer
) -> tuple[PatternCut, PatternCut, float]:
    """Elevation cut, azimuth cut at the take-off angle, and that angle."""
    solution = reach.solve_at_height(beam=beam, ground=ground, height=beam.height, prepare=prepare)

    def gain(azimuth: Floats, elevation: Floats) -> Floats:
        return reach.layered_gain_dbi(
            solution=solution,
            azimuth=azimuth,
            elevation=elevation,
            ground=ground,
            height=beam.height,
            far_ground=far,
        )

    angle = np.arange(0.0, 180.0 + 1e-9, 0.25)
    radians = np.radians(angle)
    level = gain(np.where(angle > 90.0, np.pi, 0.0), np.arcsin(np.sin(radians)))
    lobes, _ = reach.forward_lobes(elevation_deg=angle, gain_dbi=level)
    front = angle <= 90.0
    take_off = (
        max(lobes, key=lambda lobe: lobe[1])[0]
        if lobes
        else float(angle[front][int(np.argmax(level[front]))])
    )
    around = np.arange(0.0, 360.5, 1.0)
    flat = gain(np.radians(around), np.full(len(around), math.radians(take_off)))
    return (
        PatternCut(plane="elevation", at_deg=0.0, angle_deg=angle, gain_dbi=level),
        PatternCut(plane="azimuth", at_deg=take_off, angle_deg=around, gain_dbi=flat),
        take_off,
    )


def _beam_reach(plan: Plan, beam: Beam, *, files: ReadFile, prepare: Preparer) -> BeamReach:
    ground, far = plan.site.ground, ground_zones(plan)
    # First, so that nobody waits for the heights to hear that a file is not there.
    terrain = _terrain(plan, beam, files=files, prepare=prepare)
    scan = reach.scan_heights(beam=beam, ground=ground, far_ground=far, prepare=prepare)
    cut, azimuth, take_off = _cut(beam, ground, far, prepare)
    plain = reach.plain_antennas(
        frequency=beam.design_frequency,
        height=beam.height,
        ground=ground,
        elevation_deg=scan.elevation_deg,
        far_ground=far,
        prepare=prepare,
    )
    paths = _paths(plan, beam, cut, azimuth, plain)
    wanted = wanted_angles(plan, paths)
    footprint = None
    if station_place(plan) is not None:
        layer = max(layers(plan), key=lambda each: each.highest)
        footprint = reach.trace_footprint(
            beam=beam, ground=ground, layer=layer, far_ground=far, prepare=prepare
        )
    return BeamReach(
        beam=beam,
        scan=scan,
        cut=cut,
        azimuth=azimuth,
        take_off_deg=take_off,
        plain=plain,
        advantages=tuple(
            each
            for angle in wanted
            for each in reach.advantages(cut=cut, plain=plain, elevation_deg=angle)
        ),
        wanted_deg=wanted,
        costs=height_costs(plan, beam, heights=scan.heights, files=files),
        pointing=reach.pointing_losses(azimuth),
        paths=paths,
        footprint=footprint,
        terrain=terrain,
        exposure=read_exposure(plan, beam, prepare=prepare),
    )


def wanted_angles(plan: Plan, paths: Sequence[PathReading]) -> tuple[float, ...]:
    """Choose the elevations followed against height.

    Returns:
        the owner's, else the middle ones of each target's fewest hops, else the usual [deg] (n,)
    """
    if plan.reach is not None and plan.reach.wanted:
        return tuple(sorted(round(math.degrees(angle), 6) for angle in plan.reach.wanted))
    asked = sorted(
        {
            float(round(0.5 * (h.hop.lowest_elevation_deg + h.hop.highest_elevation_deg)))
            for path in paths
            if path.path.way == "short"
            for h in path.hops[:1]
        }
    )
    return tuple(asked[:5]) or USUAL_WANTED_DEG


def _paths(
    plan: Plan, beam: Beam, cut: PatternCut, azimuth: PatternCut, plain: tuple[PlainAntenna, ...]
) -> tuple[PathReading, ...]:
    station = station_place(plan)
    if station is None:
        return ()
    support = plan.support
    speed = support.rotator.turning_rate if support and support.rotator else None
    ahead = float(np.interp(0.0, azimuth.angle_deg, azimuth.gain_dbi))
    ways: tuple[Literal["short", "long"], ...] = ("short", "long")
    found = []
    for (name, place), way in product(target_places(plan), ways):
        path = reach.great_circle(station=station, target=place, way=way)
        if path.distance <= 0.0:
            continue
        off = math.remainder(beam.heading - path.bearing, math.tau)
        there = float(
            np.interp(math.degrees(off), azimuth.angle_deg, azimuth.gain_dbi, period=360.0)
        )
        turn_time = None
        if speed:
            turn_time = reach.turn_time(
                start=beam.heading, end=path.bearing, seconds_per_turn=math.tau / speed
            )
        found.append(
            PathReading(
                target=name,
                place=place,
                path=path,
                off_heading_deg=math.degrees(off),
                off_heading_db=ahead - there,
                turn_time=turn_time,
                hops=_hop_gains(plan, path.distance, cut, plain),
            )
        )
    return tuple(found)


def _hop_gains(
    plan: Plan, distance: float, cut: PatternCut, plain: tuple[PlainAntenna, ...]
) -> tuple[HopGain, ...]:
    found = []
    for layer in reversed(layers(plan)):
        low_layer = layer.highest < _LOW_LAYER
        if low_layer and reach.fewest_hops(distance=distance, layer=layer) > _MOST_LOW_HOPS:
            continue
        for hop in reach.hops_for_path(distance=distance, layer=layer, cut=cut, extra_hops=1):
            middle = 0.5 * (hop.lowest_elevation_deg + hop.highest_elevation_deg)
            advantages = reach.advantages(cut=cut, plain=plain, elevation_deg=middle)
            found.append(HopGain(hop=hop, advantages=advantages))
    return tuple(found)


def profile_towards(plan: Plan, *, bearing: float, files: ReadFile) -> TerrainProfile | None:
    """Read the terrain that a plan names, or cut it out of a grid of heights.

    Args:
        bearing: direction that a grid is cut along, clockwise from true north [rad]

    Returns:
        None where the plan names none

    Raises:
        BoomwrightError: when the file cannot be read, or a grid has no place for the mast
    """
    name = plan.reach.terrain if plan.reach else ""
    if not name:
        return None
    if not is_grid(name):
        return read_terrain(name, files=files)
    station = station_place(plan)
    if station is None:
        msg = 'reach.terrain: a height grid needs [site] position = "52.2 N, 0.1 E"'
        raise BoomwrightError(msg)
    return profile_from_grid(name, files=files, station=station, bearing=bearing)


def _terrain(
    plan: Plan, beam: Beam, *, files: ReadFile, prepare: Preparer
) -> TerrainPattern | None:
    profile = profile_towards(plan, bearing=beam.heading, files=files)
    if profile is None:
        return None
    return reach.gain_over_terrain(
        profile=profile,
        height=beam.height,
        frequency=beam.design_frequency,
        ground=plan.site.ground,
        elevation_deg=np.arange(0.0, 60.25, 0.5),
        free_space=reach.free_space_elevation(beam=beam, prepare=prepare),
    )
