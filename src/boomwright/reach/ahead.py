"""Where a beam fires ahead, and how much less it sends to the rear."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.reach.lobes import forward_lobes
from boomwright.reach.pattern_cuts import elevation_cut
from boomwright.reach.readings import Lobe
from boomwright.solver import FREE_SPACE, BeamSolution, Ground, PatternCut, gain_dbi

#: step of the elevation cut over ground, fine enough for the lobes of a high beam [deg]
LOBE_STEP_DEG = 0.25
#: step of the search for the strongest gain in the rear half-plane [deg]
_REAR_STEP_DEG = 2.5


def take_off(solution: BeamSolution, at: int, *, ground: Ground) -> Lobe:
    """Find the strongest lobe ahead; in free space, what goes along the horizon.

    Args:
        at: number of the frequency, from 0
    """
    if ground.kind == "free space":
        one = solution.at_frequency(number=at)
        ahead = gain_dbi(solution=one, azimuth=np.zeros(1), elevation=np.zeros(1))
        return Lobe(elevation_deg=0.0, gain_dbi=float(ahead[0, 0]))
    cut = elevation_cut(
        solution, at, ground=ground, height=solution.beam.height, step=LOBE_STEP_DEG, last=180.0
    )
    lobes, _ = forward_lobes(elevation_deg=cut.angle_deg, gain_dbi=cut.gain_dbi)
    found = tuple(Lobe(elevation_deg=place, gain_dbi=level) for place, level in lobes)
    return strongest_ahead(found, cut)


def strongest_ahead(lobes: tuple[Lobe, ...], cut: PatternCut) -> Lobe:
    """Pick the strongest lobe ahead, or the strongest place of a cut that has no lobe there."""
    if lobes:
        return max(lobes, key=lambda lobe: lobe.gain_dbi)
    front = cut.angle_deg <= 90.0
    best = int(np.argmax(cut.gain_dbi[front]))
    return Lobe(elevation_deg=float(cut.angle_deg[best]), gain_dbi=float(cut.gain_dbi[best]))


def front_to_rear(
    solution: BeamSolution, *, ground: Ground = FREE_SPACE, elevation_deg: float = 0.0
) -> NDArray[np.float64]:
    """Gain ahead over the strongest in the rear half-plane, at one elevation [dB] (f,).

    Args:
        elevation_deg: elevation of both [deg]
    """
    rear = np.radians(np.arange(90.0, 180.0 + _REAR_STEP_DEG / 2.0, _REAR_STEP_DEG))
    around = rear if solution.symmetric else np.concatenate([rear, -rear])
    azimuth = np.append(0.0, around)
    gain = gain_dbi(
        solution=solution,
        azimuth=azimuth,
        elevation=np.full(len(azimuth), np.radians(elevation_deg)),
        ground=ground,
        height=0.0 if ground.kind == "free space" else solution.beam.height,
    )
    return np.asarray(gain[:, 0] - gain[:, 1:].max(axis=1))
