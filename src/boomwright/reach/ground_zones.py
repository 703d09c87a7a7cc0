"""Ground that changes with the distance: near ground, far ground, the sea.

The wave towards a low elevation is reflected far out, towards a high one near by, and nowhere
by a point: the first Fresnel zone reaches over borders. So each zone counts with its part of the
Kirchhoff integral over the ground, and the pattern runs smoothly from one ground to the next. A
ruler-straight border would leave ripples at all angles; no shore is one, so the part is averaged
over borders up to 15 % nearer and farther.
"""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.reach.ground_reflection import reflection_distance
from boomwright.solver import Ground, Moments, far_field

#: borders averaged over, as shares of the distance, and their triangular weights [-]
_RAGGED = np.linspace(0.85, 1.15, 13)
_SHARES = 1.0 - np.abs(_RAGGED - 1.0) / 0.175
_SHARES /= _SHARES.sum()


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundZone:
    """Ground that begins at some distance from the mast."""

    ground: Ground  #: the ground there, e.g. the sea
    begins: float  #: distance of its border from the mast, towards the heading [m]
    drop: float = 0.0  #: how much lower it lies than the ground at the mast, at least 0 [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class ZonedGround:
    """Ground that changes with the distance from the mast.

    Raises:
        BoomwrightError: when a zone is free space, or borders do not rise, or a drop is below 0
    """

    near: Ground  #: ground from the mast to the first border
    beyond: tuple[GroundZone, ...]  #: zones further out, nearest first (n_zones - 1,)

    def __post_init__(self) -> None:
        if "free space" in {self.near.kind, *(zone.ground.kind for zone in self.beyond)}:
            msg = "ground zones: a zone is free space; name a ground for every zone"
            raise BoomwrightError(msg)
        borders = [zone.begins for zone in self.beyond]
        if not borders or borders[0] < 0.0 or any(b <= a for a, b in pairwise(borders)):
            told = ", ".join(f"{border:g} m" for border in borders) or "none"
            msg = f"ground zones: borders at {told}; give them from 0 m up, the nearest first"
            raise BoomwrightError(msg)
        if any(zone.drop < 0.0 for zone in self.beyond):
            msg = "ground zones: a drop is below 0 m; give how much lower the zone lies, 0 or more"
            raise BoomwrightError(msg)

    @property
    def grounds(self) -> tuple[tuple[Ground, float], ...]:
        """Ground and drop of every zone, nearest first [m] (n_zones, 2)."""
        return ((self.near, 0.0), *((zone.ground, zone.drop) for zone in self.beyond))


def beyond_border(
    *, border: float, height: float, elevation: ArrayLike, wavelength: float
) -> Complexes:
    """Part of the reflected wave that comes from the ground beyond a border.

    Args:
        border: distance of the border from the mast [m]
        height: height of the antenna above the ground before it [m]
        elevation: elevation, 0 to pi/2 [rad] (n,)

    Returns:
        (1+j)/2 times the Fresnel integral from v to infinity {itu-p526}: 1 when all of the
        reflecting
            ground lies beyond, 0 when none does, half at the border (n,)

    Notes:
        v = 2 sqrt(extra / wavelength), extra the path over the border less the path over the
        reflection point, and negative when that point lies beyond the border.
    """
    from scipy.special import fresnel

    angle = np.atleast_1d(np.asarray(elevation, dtype=float))
    extra = math.hypot(border, height) - border * np.cos(angle) - height * np.sin(angle)
    inward = np.where(reflection_distance(height=height, elevation=angle) > border, -1.0, 1.0)
    v = inward * 2.0 * np.sqrt(np.maximum(extra, 0.0) / wavelength)
    sine, cosine = fresnel(v)
    return np.asarray((0.5 + 0.5j) * ((0.5 - cosine) - 1j * (0.5 - sine)))


def zone_weights(
    ground: ZonedGround, *, height: float, elevation: ArrayLike, wavelength: float
) -> Complexes:
    """Part of the reflected wave that comes from each zone.

    Args:
        height: height of the antenna above the ground at the mast, above 0 [m]
        elevation: elevation, 0 to pi/2 [rad] (n,)

    Raises:
        BoomwrightError: when the height is not above 0
    """
    if height <= 0.0:
        raise BoomwrightError(f"ground zones: antenna height {height:g} m; give a height above 0 m")
    angle = np.atleast_1d(np.asarray(elevation, dtype=float))
    drops = [drop for _, drop in ground.grounds]
    parts = [np.ones(len(angle), dtype=complex)]
    for zone, drop in zip(ground.beyond, drops, strict=False):
        ragged = [
            share
            * beyond_border(
                border=float(zone.begins * at),
                height=height + drop,
                elevation=angle,
                wavelength=wavelength,
            )
            for at, share in zip(_RAGGED, _SHARES, strict=True)
        ]
        parts.append(np.sum(ragged, axis=0))
    parts.append(np.zeros(len(angle), dtype=complex))
    return np.array([inner - outer for inner, outer in pairwise(parts)])


def zoned_far_field(
    source: Moments,
    *,
    azimuth: Floats,
    elevation: Floats,
    ground: ZonedGround,
    height: float,
) -> tuple[Complexes, Complexes]:
    """Far field over zones, the currents those over the near ground.

    Args:
        azimuth: counter-clockwise from the heading [rad] (d,)
        elevation: above the horizon [rad] (d,)
        height: height that the reflection points are counted from [m]

    Returns:
        vertical and horizontal component [V] (1, d)

    Notes:
        Over each zone the field is direct plus reflected; as the weights sum to 1, the weighted
        sum of those fields is the direct field plus the weighted reflections.
    """
    frequency = float(source.frequencies[0])
    wavelength = SPEED_OF_LIGHT / frequency
    weights = zone_weights(
        ground, height=height, elevation=np.maximum(elevation, 0.0), wavelength=wavelength
    )
    vertical = np.zeros((1, len(azimuth)), dtype=complex)
    horizontal = np.zeros_like(vertical)
    for weight, (each, drop) in zip(weights, ground.grounds, strict=True):
        found = far_field(
            source=source.lifted(height=drop), azimuth=azimuth, elevation=elevation, ground=each
        )
        # Heights count from the zone's own ground; the phase goes back to that at the mast.
        back = weight * np.exp(-2j * math.pi * drop / wavelength * np.sin(elevation))
        vertical += back * found[0]
        horizontal += back * found[1]
    return vertical, horizontal
