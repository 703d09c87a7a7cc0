"""What the height gives: the elevation pattern of one beam at many heights.

The currents are solved over the ground at every height; nothing is carried over from free
space. Only between two neighbouring heights, to find where a lobe splits, are the currents
of the nearer one kept.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.reach.at_height import layered_gain_dbi, solve_at_height
from boomwright.reach.ground_zones import ZonedGround
from boomwright.reach.lobes import forward_lobes
from boomwright.reach.readings import Lobe
from boomwright.solver import (
    BeamSolution,
    Ground,
    Preparer,
    prepare_run,
    remembering,
)

#: step of the elevations, fine enough for the lobes at two wavelengths [deg]
_ELEVATION_STEP_DEG = 0.5
#: heights looked at when nothing else is asked [-]
USUAL_HEIGHTS = 60
#: lowest and highest height looked at when nothing else is asked [wavelengths]
_LOWEST_WAVELENGTHS, _HIGHEST_WAVELENGTHS = 0.15, 2.0
#: ripples of a border between grounds that are told from lobes [dB]
_RIPPLE_DB = 1.0
#: halvings that narrow a height where a lobe splits [-]
_HALVINGS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """A height at which the elevation pattern gets one more lobe."""

    height: float  #: boom above ground [m]
    lobes: int  #: lobes from there on
    null_deg: float  #: elevation of the new minimum [deg]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HeightScan(ReadOnlyArrays):
    """Elevation pattern towards the heading at many heights."""

    beam: Beam  #: the beam, at the height of its plan
    ground: Ground  #: ground below it
    far_ground: ZonedGround | None  #: zones further out; None when all is alike
    heights: NDArray[np.float64]  #: boom above ground, rising [m] (h,)
    elevation_deg: NDArray[np.float64]  #: elevations from 0 to 90 [deg] (e,)
    gain_dbi: NDArray[np.float64]  #: gain at each height and elevation [dBi] (h, e)
    impedance: NDArray[np.complex128]  #: feed-point impedance over the ground [ohm] (h,)
    lobes: tuple[tuple[Lobe, ...], ...]  #: lobes at each height, lowest first (h,)
    #: minima between lobes at each height, lowest first [deg] (h,)
    nulls_deg: tuple[tuple[float, ...], ...]
    splits: tuple[Split, ...]  #: heights at which one more lobe appears, rising (n_splits,)

    def gain_at(self, *, elevation_deg: float) -> Floats:
        """Gain at one elevation against height.

        Returns:
            gain at each height, linear in dB between elevations [dBi] (h,)
        """
        return np.array(
            [np.interp(elevation_deg, self.elevation_deg, row) for row in self.gain_dbi]
        )


def usual_heights(*, beam: Beam) -> Floats:
    """Choose heights to look at: 0.15 to 2 wavelengths, further when the beam stands higher.

    What stands on the ground has one height.

    Returns:
        rising heights [m] (count,)
    """
    if beam.stands_on_ground:
        return np.array([beam.height])
    wavelength = SPEED_OF_LIGHT / beam.design_frequency
    lowest = _LOWEST_WAVELENGTHS * wavelength
    deepest = min(
        [float(w.points[:, 2].min()) for w in beam.wires]
        + [z for element in beam.elements for _, _, z in element.corners]
    ) - (0.0 if beam.radials is None else beam.radials.fall)
    highest = max(_HIGHEST_WAVELENGTHS * wavelength, 1.25 * beam.height)
    return np.linspace(lowest - min(deepest, 0.0), highest, USUAL_HEIGHTS)


def scan_heights(
    *,
    beam: Beam,
    ground: Ground,
    heights: ArrayLike | None = None,
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> HeightScan:
    """Compute the elevation pattern at many heights, of the beam by itself.

    Args:
        heights: boom above ground, rising; None for :func:`usual_heights` [m] (h,)

    Raises:
        BoomwrightError: in free space, or when heights do not rise from above 0
        SolverError: when a wire comes too near to real ground
    """
    if ground.kind == "free space":
        msg = 'height scan: the plan says free space; name a ground, such as "medium dry"'
        raise BoomwrightError(msg)
    beam = beam.alone
    chosen = np.atleast_1d(
        np.asarray(usual_heights(beam=beam) if heights is None else heights, dtype=float)
    )
    if chosen[0] <= 0.0 or (np.diff(chosen) <= 0.0).any():
        msg = f"height scan: heights {chosen[0]:g} to {chosen[-1]:g} m; give rising heights above 0"
        raise BoomwrightError(msg)
    prepare = remembering(prepare)
    look = _Look(beam=beam, ground=ground, far_ground=far_ground, prepare=prepare)
    solved = [look.solve(float(height)) for height in chosen]
    gain = np.array([look.gain(s, float(h)) for s, h in zip(solved, chosen, strict=True)])
    found = [look.lobes(row) for row in gain]
    return HeightScan(
        beam=beam,
        ground=ground,
        far_ground=far_ground,
        heights=chosen,
        elevation_deg=look.front_deg,
        gain_dbi=gain[:, : len(look.front_deg)],
        impedance=np.array([each.impedance[0] for each in solved]),
        lobes=tuple(
            tuple(Lobe(elevation_deg=e, gain_dbi=g) for e, g in lobes) for lobes, _ in found
        ),
        nulls_deg=tuple(tuple(nulls) for _, nulls in found),
        splits=_splits(look, chosen, solved, [nulls for _, nulls in found]),
    )


class _Look:
    """One beam over one ground, looked at from the horizon over the zenith."""

    def __init__(
        self, *, beam: Beam, ground: Ground, far_ground: ZonedGround | None, prepare: Preparer
    ) -> None:
        self.beam, self.ground, self.far_ground, self.prepare = beam, ground, far_ground, prepare
        # A little past the zenith, so that a maximum there is seen as one.
        self.angle_deg = np.arange(0.0, 100.0 + 1e-9, _ELEVATION_STEP_DEG)
        self.front_deg = self.angle_deg[self.angle_deg <= 90.0]

    def solve(self, height: float) -> BeamSolution:
        return solve_at_height(
            beam=self.beam, ground=self.ground, height=height, prepare=self.prepare
        )

    def gain(self, solution: BeamSolution, height: float) -> Floats:
        radians = np.radians(self.angle_deg)
        return layered_gain_dbi(
            solution=solution,
            azimuth=np.where(self.angle_deg > 90.0, np.pi, 0.0),
            elevation=np.arcsin(np.sin(radians)),
            ground=self.ground,
            height=height,
            far_ground=self.far_ground,
        )

    def lobes(self, gain: Floats) -> tuple[list[tuple[float, float]], list[float]]:
        # A border between grounds leaves ripples, and those are no lobes.
        depth = 0.0 if self.far_ground is None else _RIPPLE_DB
        return forward_lobes(elevation_deg=self.angle_deg, gain_dbi=gain, least_depth_db=depth)


def _splits(
    look: _Look, heights: Floats, solved: list[BeamSolution], nulls: list[list[float]]
) -> tuple[Split, ...]:
    """Heights where the number of minima grows past any number seen below, narrowed down."""
    found = []
    most = len(nulls[0])
    for number in range(1, len(heights)):
        if len(nulls[number]) <= most:
            continue
        low, high = float(heights[number - 1]), float(heights[number])
        seen = nulls[number]
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            nearer = (
                number if heights[number] - middle < middle - heights[number - 1] else number - 1
            )
            _, here = look.lobes(look.gain(solved[nearer], middle))
            if len(here) > most:
                high, seen = middle, here
            else:
                low = middle
        most = len(nulls[number])
        found.append(Split(height=high, lobes=most + 1, null_deg=_newest(seen, nulls[number - 1])))
    return tuple(found)


def _newest(nulls: list[float], before: list[float]) -> float:
    """The minimum that has no neighbour among those of the height below."""
    if not before:
        return nulls[-1]
    return max(nulls, key=lambda null: min(abs(null - old) for old in before))
