"""Fields where people are: E and H close to the antenna, on a grid and at places.

Fields are those for one watt accepted by the antenna, so that power, duty and averaging can
be changed without solving again. Over real ground the image and the Sommerfeld rest are in
them. Whether they are within a limit is the business of the permits room.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.reach.at_height import solve_at_height
from boomwright.solver import (
    FREE_SPACE,
    PERFECT_GROUND,
    BeamSolution,
    Ground,
    Preparer,
    Sources,
    gain_dbi,
    near_field,
    near_sources,
    prepare_run,
)

#: nearer to a wire than this no field is computed: nobody may be there [m]
NEAREST = 0.5
#: points computed at a time, which bounds memory [-]
_CHUNK = 192
#: further from every wire than this the coarse sources stand for it: 1e-10 of the field [m]
_COARSE = 4.0
#: lowest point above the ground [m]
_LOWEST = 0.05


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FieldPoints(ReadOnlyArrays):
    """Fields at points, for one watt accepted."""

    points: NDArray[np.float64]  #: x towards the heading, y to the left, z above ground [m] (n, 3)
    #: effective value of the electric field, all components [V/m] (n,)
    electric: NDArray[np.float64]
    #: effective value of the magnetic field, all components [A/m] (n,)
    magnetic: NDArray[np.float64]
    distance: NDArray[np.float64]  #: distance to the nearest point of a wire [m] (n,)

    @property
    def power_density(self) -> Floats:
        """Larger of E^2/eta and eta H^2, the plane wave that is as strong [W/m^2] (n,)."""
        return np.maximum(self.electric**2 / VACUUM_IMPEDANCE, self.magnetic**2 * VACUUM_IMPEDANCE)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FieldGrid(ReadOnlyArrays):
    """Fields on a rectangular grid, for one watt accepted."""

    plane: str  #: ``level`` at one height, or ``upright`` through the heading
    at: float  #: the height of a level grid above ground, 0 for an upright one [m]
    across: NDArray[np.float64]  #: x towards the heading [m] (nx,)
    up: NDArray[np.float64]  #: y to the left of a level grid, z of an upright one [m] (ny,)
    #: effective electric field; NaN nearer to a wire than 0.5 m [V/m] (ny, nx)
    electric: NDArray[np.float64]
    #: effective magnetic field; NaN nearer to a wire than 0.5 m [A/m] (ny, nx)
    magnetic: NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Radiator:
    """A beam over its ground, ready to be asked for its near field."""

    beam: Beam
    ground: Ground  #: ground below it
    frequency: float  #: frequency [Hz]
    #: short currents for one watt accepted, peak, for points near to a wire and beyond 4 m
    fine: Sources
    coarse: Sources
    #: greatest free-space gain in any direction, for the far-field formula [dBi]
    peak_gain_dbi: float


def make_radiator(
    *,
    beam: Beam,
    ground: Ground,
    axis: tuple[float, float] | None = None,
    prepare: Preparer = prepare_run,
) -> Radiator:
    """Solve a beam for its near field, at its design frequency.

    Args:
        ground: ground below it; in free space there is none to reflect
        axis: where what it turns about stands along and across the boom; None for the middle of
            the elements [m] (2,)
    """
    if beam.stands_on_ground and ground.kind == "real":
        # A wire in the soil has no near field in the model; a perfect plane gives the larger one.
        ground = PERFECT_GROUND
    solution = solve_at_height(beam=beam, ground=ground, height=beam.height, prepare=prepare)
    stands = (beam.boom_middle, 0.0) if axis is None else axis
    return Radiator(
        beam=beam,
        ground=ground,
        frequency=beam.design_frequency,
        fine=_laid(solution, ground, axis=stands, nearest=NEAREST),
        coarse=_laid(solution, ground, axis=stands, nearest=_COARSE),
        peak_gain_dbi=_peak_gain(beam, prepare),
    )


def _laid(
    solution: BeamSolution, ground: Ground, *, axis: tuple[float, float], nearest: float
) -> Sources:
    """Sources for one watt, counted from the mast, heights above ground."""
    beam = solution.beam
    laid = near_sources(
        assembly=solution.currents.assembly,
        unknowns=solution.currents.unknowns[0, :, 0] * solution.impedance[0],
        frequency=beam.design_frequency,
        nearest=nearest,
    )
    # Only real ground lifts the sources by itself.
    lift = beam.height if ground.kind != "real" else 0.0
    return Sources(
        points=laid.points + np.array([-axis[0], -axis[1], lift]),
        moments=laid.moments / math.sqrt(solution.accepted[0]),
        frequency=beam.design_frequency,
    )


def _peak_gain(beam: Beam, prepare: Preparer) -> float:
    free = solve_at_height(beam=beam, ground=FREE_SPACE, height=beam.height, prepare=prepare)
    return _greatest(free)


def _greatest(free: BeamSolution) -> float:
    azimuth, elevation = np.meshgrid(
        np.radians(np.arange(0.0, 181.0, 5.0)), np.radians(np.arange(-90.0, 91.0, 5.0))
    )
    gain = gain_dbi(solution=free, azimuth=azimuth.ravel(), elevation=elevation.ravel())
    return float(gain.max())


def fields_at(radiator: Radiator, *, points: ArrayLike) -> FieldPoints:
    """Compute the fields at points.

    Args:
        points: x towards the heading from the mast, y to the left, z above ground [m] (n, 3)

    Returns:
        effective values for one watt accepted; points nearer to a wire than 0.5 m hold the
        field at about
            0.5 m at most and are marked by their distance

    Raises:
        BoomwrightError: for points below the ground
    """
    where = np.atleast_2d(np.asarray(points, dtype=float)).copy()
    if radiator.ground.kind != "free space":
        if (where[:, 2] < 0.0).any():
            raise BoomwrightError(
                f"exposure: a place at height {where[:, 2].min():.3g} m lies below the ground; "
                "give its height above the ground at the support"
            )
        where[:, 2] = np.maximum(where[:, 2], _LOWEST)
    electric = np.empty(len(where))
    magnetic, nearest = np.empty_like(electric), np.empty_like(electric)
    # Points of one height together: the tables of real ground then stay small.
    order = np.lexsort((where[:, 0], where[:, 2]))
    edges = np.flatnonzero(np.diff(where[order, 2]) > 0.0) + 1
    for level in np.split(order, edges):
        for start in range(0, len(level), _CHUNK):
            rows = level[start : start + _CHUNK]
            gap = where[rows][:, None, :] - radiator.fine.points[None, :, :]
            nearest[rows] = np.sqrt((gap**2).sum(axis=2).min(axis=1))
            e, h = _fields(radiator, where[rows], nearest[rows])
            electric[rows] = np.sqrt((np.abs(e) ** 2).sum(axis=1) / 2.0)
            magnetic[rows] = np.sqrt((np.abs(h) ** 2).sum(axis=1) / 2.0)
    return FieldPoints(points=where, electric=electric, magnetic=magnetic, distance=nearest)


def _fields(radiator: Radiator, points: Floats, nearest: Floats) -> tuple[Complexes, Complexes]:
    """Complex fields: coarse sources everywhere, their direct part replaced close by."""
    electric, magnetic = near_field(sources=radiator.coarse, points=points, ground=radiator.ground)
    close = nearest < _COARSE
    if close.any():
        coarse = near_field(sources=radiator.coarse, points=points[close])
        fine = near_field(sources=radiator.fine, points=points[close])
        electric[close] += fine[0] - coarse[0]
        magnetic[close] += fine[1] - coarse[1]
    return electric, magnetic


def _grid(radiator: Radiator, *, plane: str, at: float, across: Floats, up: Floats) -> FieldGrid:
    grid_x, grid_y = np.meshgrid(across, up)
    flat = np.full(grid_x.size, at if plane == "level" else 0.0)
    second, third = (grid_y.ravel(), flat) if plane == "level" else (flat, grid_y.ravel())
    found = fields_at(radiator, points=np.column_stack((grid_x.ravel(), second, third)))
    near = found.distance < NEAREST
    return FieldGrid(
        plane=plane,
        at=at,
        across=across,
        up=up,
        electric=np.where(near, np.nan, found.electric).reshape(grid_x.shape),
        magnetic=np.where(near, np.nan, found.magnetic).reshape(grid_x.shape),
    )


def level_grid(radiator: Radiator, *, height: float, reach: float, count: int = 41) -> FieldGrid:
    """Compute the fields at one height all around the station.

    Args:
        reach: half the side of the square [m]
        count: points along a side, odd so that the middle is one
    """
    side = np.linspace(-reach, reach, count)
    # The antenna is the same left and right, unless further wires or neighbours say otherwise.
    beam = radiator.beam
    if (
        beam.wires
        or beam.conductors
        or any(other.wires or other.heading != beam.heading for other in beam.neighbours)
    ):
        return _grid(radiator, plane="level", at=height, across=side, up=side)
    half = _grid(radiator, plane="level", at=height, across=side, up=side[count // 2 :])
    return FieldGrid(
        plane="level",
        at=height,
        across=side,
        up=side,
        electric=np.concatenate([half.electric[:0:-1], half.electric]),
        magnetic=np.concatenate([half.magnetic[:0:-1], half.magnetic]),
    )


def upright_grid(
    radiator: Radiator, *, reach: float, top: float, counts: tuple[int, int] = (61, 31)
) -> FieldGrid:
    """Compute the fields in the upright plane through the heading.

    Args:
        reach: how far in front of the mast and behind it [m]
        top: upper edge above ground [m]
        counts: points across and up (2,)
    """
    return _grid(
        radiator,
        plane="upright",
        at=0.0,
        across=np.linspace(-reach, reach, counts[0]),
        up=np.linspace(_LOWEST, top, counts[1]),
    )


def near_field_ends(*, frequency: float, size: float) -> float:
    """Distance from an antenna beyond which E and H are tied together well enough.

    Args:
        size: greatest extent of the antenna [m]

    Returns:
        larger of one wavelength and 2 size^2 / wavelength {oet-65} [m]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    return max(wavelength, 2.0 * size**2 / wavelength)
