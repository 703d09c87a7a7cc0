"""The wave in the air around a beam: who sends what, and how it adds up.

A picture is a grid of complex field values for every element on its own; the total is their
sum. The phase is held against the current at the feed, the strength belongs to a stated power.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.pattern_grid import PatternGrid, pattern_grid
from boomwright.reach.wave_planes import WavePlane, fill_planes, level_plane, upright_plane
from boomwright.reach.wave_senders import Share, element_shares, find_senders, laying
from boomwright.solver import (
    BeamSolution,
    Ground,
    Preparer,
    gain_dbi,
    prepare_run,
    solve_beam,
    working_detail,
)

#: power at the feed the pictures hold for [W]
PICTURE_POWER = 100.0
#: step of the cut the lobes are read from [deg]
_LOBE_STEP = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WavePicture:
    """The wave around a beam at one frequency."""

    beam: Beam
    ground: Ground  #: the ground below it
    frequency: float  #: frequency [Hz]
    power: float  #: power at the feed the fields hold for [W]
    shares: tuple[Share, ...]  #: each element's part, in plan order, further wires last (n_shares,)
    level: WavePlane  #: seen from above
    upright: WavePlane  #: cut through boom and heading
    pattern: PatternGrid  #: gain in all directions
    #: elevation [deg] and gain [dBi] of the lobes forward, lowest first; none in free space
    #: (n_lobes, 2)
    lobes: tuple[tuple[float, float], ...]


def wave_picture(
    *, beam: Beam, ground: Ground, frequency: float, prepare: Preparer = prepare_run
) -> WavePicture:
    """Compute the wave around a beam."""
    solution = solve_beam(
        beam=beam,
        frequencies=np.array([frequency]),
        detail=working_detail(frequency=max(*beam.band, frequency)),
        ground=ground,
        prepare=prepare,
    )
    senders = find_senders(solution)
    wavelength = SPEED_OF_LIGHT / frequency
    lift = 0.0 if np.isfinite(solution.currents.assembly.system.ground_height) else beam.height
    in_the_air = ground.kind != "free space"
    boom = beam.height if in_the_air else 0.0
    strength = float(np.sqrt(PICTURE_POWER / solution.accepted[0]))
    lays = [laying(solution, sender, lift if in_the_air else 0.0) for sender in senders]
    level, upright = fill_planes(
        (
            level_plane(beam, boom, wavelength),
            upright_plane(beam, boom, wavelength, in_the_air=in_the_air),
        ),
        lays,
        ground,
        wavelength,
        strength,
    )
    return WavePicture(
        beam=beam,
        ground=ground,
        frequency=frequency,
        power=PICTURE_POWER,
        shares=element_shares(beam, senders, lays, wavelength, solution),
        level=level,
        upright=upright,
        pattern=pattern_grid(solution=solution, ground=ground, height=beam.height),
        lobes=_lobes(solution, ground, beam.height) if in_the_air else (),
    )


def _lobes(
    solution: BeamSolution, ground: Ground, height: float
) -> tuple[tuple[float, float], ...]:
    angle = np.arange(0.0, 90.0 + _LOBE_STEP / 2.0, _LOBE_STEP)
    gain = gain_dbi(
        solution=solution,
        azimuth=np.zeros(len(angle)),
        elevation=np.radians(angle),
        ground=ground,
        height=height,
    )[0]
    lobes, _ = forward_lobes(elevation_deg=angle, gain_dbi=gain)
    return tuple((float(place), float(level)) for place, level in lobes)
