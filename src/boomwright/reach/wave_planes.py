"""The two planes a wave is shown on, and the field of every sender on them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.reach.wave_field import CLOSE_WAVELENGTHS, field_along, ground_rest
from boomwright.solver import Ground, Sources
from boomwright.solver.half_space import image_factor

#: how far the level picture reaches behind, ahead and to each side of the beam [wavelengths]
_BEHIND, _AHEAD, _ASIDE = 1.1, 2.1, 1.0
#: height of the upright picture above the beam, and ahead of it [wavelengths]
_ABOVE, _UPRIGHT_AHEAD = 1.5, 3.0
#: points of a picture on each wavelength
_POINTS = 26
#: the level picture lies this far above the elements, clear of their close field [wavelengths]
_CLEARANCE = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WavePlane(ReadOnlyArrays):
    """The field component along the elements on a grid."""

    #: ``level`` (seen from above) or ``upright`` (through boom and heading)
    kind: Literal["level", "upright"]
    along: Floats  #: places along the heading, from the boom's zero [m] (u,)
    #: level: places to the left of the heading; upright: heights above ground, or above the boom in
    #: free space [m] (v,)
    across: Floats
    height: float  #: height of a level plane above ground, or above the boom in free space [m]
    shares: Complexes  #: field of each share, peak, for ``PICTURE_POWER`` [V/m] (n_shares, v, u)


def level_plane(beam: Beam, boom: float, wavelength: float) -> WavePlane:
    """Lay the level plane out, still without fields.

    Args:
        boom: height of the boom above ground, 0 in free space [m]
    """
    places = [element.position for element in beam.elements]
    start, end = min(places) - _BEHIND * wavelength, max(places) + _AHEAD * wavelength
    side = _ASIDE * wavelength
    step = wavelength / _POINTS
    along = np.linspace(start, end, int((end - start) / step) + 1)
    across = np.linspace(-side, side, 2 * int(side / step) + 1)
    return WavePlane(
        kind="level",
        along=along,
        across=across,
        height=boom + _CLEARANCE * wavelength,
        shares=np.zeros((0, len(across), len(along)), dtype=complex),
    )


def upright_plane(beam: Beam, boom: float, wavelength: float, *, in_the_air: bool) -> WavePlane:
    """Lay the upright plane out, still without fields.

    Args:
        boom: height of the boom above ground, 0 in free space [m]
        in_the_air: whether there is a ground, where the plane then starts
    """
    places = [element.position for element in beam.elements]
    start = min(places) - _BEHIND * wavelength
    end = max(places) + _UPRIGHT_AHEAD * wavelength
    low = 0.0 if in_the_air else -_ASIDE * wavelength
    high = boom + _ABOVE * wavelength if in_the_air else _ASIDE * wavelength
    step = wavelength / _POINTS
    along = np.linspace(start, end, int((end - start) / step) + 1)
    across = np.linspace(low, high, int((high - low) / step) + 1)
    return WavePlane(
        kind="upright",
        along=along,
        across=across,
        height=boom,
        shares=np.zeros((0, len(across), len(along)), dtype=complex),
    )


def _grid(plane: WavePlane, clear: float, places: list[float]) -> Floats:
    """Points of a plane, those in a wire pushed out to its clearance."""
    along, across = np.meshgrid(plane.along, plane.across)
    points = np.zeros((along.size, 3))
    points[:, 0] = along.ravel()
    if plane.kind == "level":
        points[:, 1], points[:, 2] = across.ravel(), plane.height
        return points
    points[:, 2] = across.ravel()
    for place in places:
        away = points[:, [0, 2]] - [place, plane.height]
        reach = np.hypot(away[:, 0], away[:, 1])
        inside = reach < clear
        ray = np.where(reach[:, None] > 0.0, away / np.maximum(reach, 1e-12)[:, None], [0.0, 1.0])
        points[inside] = np.column_stack(
            [
                place + clear * ray[inside, 0],
                np.zeros(inside.sum()),
                plane.height + clear * ray[inside, 1],
            ]
        )
    return points


def fill_planes(
    planes: tuple[WavePlane, ...],
    lays: list[Callable[[float], Sources]],
    ground: Ground,
    wavelength: float,
    strength: float,
) -> list[WavePlane]:
    """Compute the field of every sender on the planes.

    Args:
        lays: sources of the senders (n_senders,)
        strength: current at the feed the fields are for [A]
    """
    clear = _CLEARANCE * wavelength
    coarse = [lay(CLOSE_WAVELENGTHS * wavelength) for lay in lays]
    places = [float(each.points[:, 0].mean()) for each in coarse]
    clouds = [_grid(plane, clear, places) for plane in planes]
    image: complex = 0.0 if ground.kind == "free space" else 1.0
    rest = None
    if ground.kind == "real":
        image = image_factor(ground=ground, frequency=coarse[0].frequency)
        rest = ground_rest(sources=coarse, points=clouds, ground=ground)
    filled = []
    for plane, points in zip(planes, clouds, strict=True):
        fields = [
            field_along(
                lay=lay,
                points=points,
                clearance=clear,
                wavelength=wavelength,
                image=image,
                rest=rest,
            ).reshape(len(plane.across), len(plane.along))
            for lay in lays
        ]
        filled.append(replace(plane, shares=strength * np.stack(fields)))
    return filled
