"""Decibels towards what is wanted: over the angles that reach each target, after every loss."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np

from boomwright import reach
from boomwright.base.array_types import Floats
from boomwright.base.constants import DECIBELS_PER_S_UNIT
from boomwright.base.files import ReadFile, no_files
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import feed_line, ground_zones, layers, station_place, target_places
from boomwright.reach import TerrainProfile, gain_over_terrain
from boomwright.reach.hops import fewest_hops, hop_elevation
from boomwright.solver import Ground, Preparer, prepare_run
from boomwright.study.advice.antennas import Duty
from boomwright.study.as_measured import measure_beam
from boomwright.study.feed_parts.results import NotMeasured
from boomwright.study.reach import USUAL_WANTED_DEG, profile_towards
from boomwright.study.reach_parts.terrain_grid import is_grid

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
    terrain: TerrainProfile | None = None  #: ground towards it; None for flat


@dataclass(frozen=True, slots=True, kw_only=True)
class BandServed:
    """What a station gives towards the targets on one band."""

    band: str  #: amateur band
    beam: str  #: name of the antenna that serves it
    #: mean power gain over the angles that reach each target, what the line loses taken off
    #: [dBi] (n_targets,)
    gains_dbi: tuple[float, ...]
    dipole_dbi: tuple[float, ...]  #: the same of a flat dipole at 10 m [dBi] (n_targets,)
    #: standing wave ratio at the radio at the design frequency; None while no match is solved [-]
    swr: float | None
    line_loss_db: float  #: what the line loses, 0 while no match is solved [dB]

    @property
    def over_db(self) -> tuple[float, ...]:
        """What it gives more than the dipole towards each target [dB] (n_targets,)."""
        return tuple(
            one - other for one, other in zip(self.gains_dbi, self.dipole_dbi, strict=True)
        )

    @property
    def mean_db(self) -> float:
        """Mean over the targets against the dipole [dB]."""
        return float(np.mean(self.over_db))

    @property
    def worst_db(self) -> float:
        """The worst served target against the dipole [dB]."""
        return min(self.over_db)


@dataclass(frozen=True, slots=True, kw_only=True)
class Served:
    """What a station gives towards the targets on every band."""

    #: heading of each antenna in plan order, clockwise from true north [rad] (n_beams,)
    headings: tuple[float, ...]
    bands: tuple[BandServed, ...]  #: in the order they are wanted (n_bands,)
    #: whether guys, mast and feed are counted in; otherwise the line is taken as matched
    in_full: bool

    @property
    def mean_db(self) -> float:
        """Mean over bands and targets against a flat dipole at 10 m [dB]."""
        return float(np.mean([each.mean_db for each in self.bands]))

    @property
    def worst_db(self) -> float:
        """The worst served target on the worst band against that dipole [dB]."""
        return min(each.worst_db for each in self.bands)

    @property
    def s_units(self) -> float:
        """The mean in S-units of 6 dB {iaru-r1-r1} [-]."""
        return self.mean_db / DECIBELS_PER_S_UNIT


def wanted_targets(plan: Plan, *, files: ReadFile = no_files) -> tuple[Wanted, ...]:
    """List what the plan wants to reach.

    Elevations are those of the fewest hops off the highest layer, over its usual heights. Without
    targets, or without a position to see them from, the wanted elevations count in any direction.
    A grid of heights gives the terrain towards every target, a profile that towards the first.

    Returns:
        the targets (n_targets,)
    """
    station, layer = station_place(plan), max(layers(plan), key=lambda each: each.highest)
    found: list[Wanted] = []
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
        known = plan.reach is not None and (not found or is_grid(plan.reach.terrain))
        found.append(
            Wanted(
                name=name,
                bearing=path.bearing,
                elevation=np.linspace(low, high, _ANGLES),
                terrain=profile_towards(plan, bearing=path.bearing, files=files) if known else None,
            )
        )
    if found:
        return tuple(found)
    angles = plan.reach.wanted if plan.reach is not None and plan.reach.wanted else ()
    wanted = np.array(angles or np.radians(USUAL_WANTED_DEG))
    return (Wanted(name="", bearing=None, elevation=wanted),)


def serve(
    plan: Plan,
    wanted: tuple[Wanted, ...],
    *,
    duties: Sequence[Sequence[Duty]],
    turns: Sequence[bool],
    dipole: Mapping[str, tuple[float, ...]],
    prepare: Preparer = prepare_run,
) -> Served:
    """Estimate what the antennas of a plan give towards each target on the bands they serve.

    Other antennas are counted in; guys and mast are not, and the line is taken as matched.

    Args:
        wanted: the targets (n_targets,)
        duties: the bands of each antenna of the station (n_antennas, n_bands)
        turns: whether each is turned to every target; otherwise the one heading that is best for
            the worst served target is found (n_antennas,)
        dipole: for each band, what a flat dipole at 10 m gives towards each target
            [dBi] (n_targets,)
    """
    headings: dict[str, float] = {}
    found: dict[str, BandServed] = {}
    for group, free in zip(duties, turns, strict=True):
        fixed = not free and any(each.bearing is not None for each in wanted)
        offsets = np.arange(0.0, 360.0, _HEADING_STEP) if fixed else np.zeros(1)
        roses = []
        for duty in group:
            bare = replace(duty.of(plan), conductors=())
            levels = _mean_gains(plan, bare, wanted, np.radians(offsets), prepare)
            roses.append(levels - np.array(dipole[duty.band])[:, None])
        heading, over = _best_heading(wanted, roses, offsets)
        headings.update({duty.beam: heading for duty in group})
        for duty, gains in zip(group, over, strict=True):
            before = gains + np.array(dipole[duty.band])
            fed = None, _matched_loss(plan, duty.of(plan))
            found[duty.band] = _band_served(duty, before, dipole, fed)
    return Served(
        headings=tuple(headings[beam.name] for beam in plan.beams),
        bands=tuple(found[band] for band in dipole),
        in_full=False,
    )


def serve_in_full(
    plan: Plan,
    wanted: tuple[Wanted, ...],
    *,
    duties: Sequence[Sequence[Duty]],
    turns: Sequence[bool],
    dipole: Mapping[str, tuple[float, ...]],
    prepare: Preparer = prepare_run,
) -> Served:
    """Compute what the antennas of a plan give with their feeds, guys and mast, as headed.

    Args:
        wanted, duties, turns: as :func:`serve` has them
        dipole: as :func:`serve` has it [dBi] (n_targets,)
    """
    found: dict[str, BandServed] = {}
    for group, free in zip(duties, turns, strict=True):
        for duty in group:
            beam = duty.of(plan)
            ahead = [0.0 if free or each.bearing is None else beam.heading - each.bearing
                     for each in wanted]  # fmt: skip
            gains = np.diag(_mean_gains(plan, beam, wanted, np.array(ahead), prepare))
            found[duty.band] = _band_served(duty, gains, dipole, _fed(plan, beam, prepare))
    return Served(
        headings=tuple(beam.heading for beam in plan.beams),
        bands=tuple(found[band] for band in dipole),
        in_full=True,
    )


def _band_served(
    duty: Duty,
    gains: Floats,
    dipole: Mapping[str, tuple[float, ...]],
    fed: tuple[float | None, float],
) -> BandServed:
    """What a duty gives.

    Args:
        gains: before the line [dBi] (n_targets,)
        fed: standing wave ratio at the radio, and what the line loses [dB] (2,)
    """
    swr, loss = fed
    return BandServed(
        band=duty.band,
        beam=duty.beam,
        gains_dbi=tuple(float(gain) for gain in gains - loss),
        dipole_dbi=dipole[duty.band],
        swr=swr,
        line_loss_db=loss,
    )


def _matched_loss(plan: Plan, beam: Beam) -> float:
    """What the line loses into a matched load [dB]."""
    line = feed_line(plan)
    if line is None:
        return 0.0
    return line[0].attenuation_db(frequency=beam.design_frequency) * line[1]


def _fed(plan: Plan, beam: Beam, prepare: Preparer) -> tuple[float | None, float]:
    """Standing wave ratio at the radio, None while no match is solved, and the line's loss [dB]."""
    measured = measure_beam(plan, beam, prepare=prepare, at_design=True)
    if isinstance(measured, NotMeasured):
        return None, _matched_loss(plan, beam)
    line = measured.line
    loss = 0.0
    if line is not None:
        loss = float(np.interp(beam.design_frequency, line.frequency, line.loss_db))
    return measured.swr_design, loss


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
        if each.terrain is not None:
            level = level + _terrain_change(beam, ground, each.terrain, each.elevation)
        found.append(10.0 * np.log10(np.mean(10.0 ** (level / 10.0), axis=1)))
    return np.array(found)


def _terrain_change(
    beam: Beam, ground: Ground, terrain: TerrainProfile, elevation: Floats
) -> Floats:
    """What terrain brings over flat ground at each elevation [dB] (n,).

    Both by rays and edges {kouyoumjian-pathak-1974} from the middle of the antenna, which sends
    alike to all elevations: its own pattern is that over flat ground, by the full field.
    """
    height, upright = beam.height, beam.upright
    if upright:
        height += 0.5 * max(element.half_length for element in beam.elements)
    flat = TerrainProfile(distance=np.array([0.0, 1.0]), height=np.zeros(2))
    over, even = (
        gain_over_terrain(
            profile=profile,
            height=height,
            frequency=beam.design_frequency,
            ground=ground,
            elevation_deg=np.degrees(elevation),
            polarisation="vertical" if upright else "horizontal",
        ).gain_dbi
        for profile in (terrain, flat)
    )
    return over - even


def _best_heading(
    wanted: tuple[Wanted, ...], roses: Sequence[Floats], offsets_deg: Floats
) -> tuple[float, Floats]:
    """The heading that serves the worst target on the worst band best, and what it gives.

    Args:
        roses: for every band, each target's level in every direction from the heading
            [dB] (n_bands, n_targets, n_azimuth)

    Returns:
        the heading [rad], and the level on each band towards each target [dB] (n_bands, n_targets)
    """
    bearings = [each.bearing for each in wanted]
    first = next((bearing for bearing in bearings if bearing is not None), 0.0)
    if len(offsets_deg) == 1:
        return first, np.array(roses)[:, :, 0]
    headings = np.radians(offsets_deg)
    # Azimuth turns counter-clockwise from the heading.
    levels = np.array(
        [
            [
                np.interp(
                    np.degrees(headings - (bearing or 0.0)) % 360.0, offsets_deg, row, period=360
                )
                for bearing, row in zip(bearings, rose, strict=True)
            ]
            for rose in roses
        ]
    )
    best = int(np.argmax(levels.min(axis=(0, 1))))
    return float(headings[best]), levels[:, :, best]
