"""What the terrain along the heading does to the low lobes.

A two-dimensional ray method over the profile: reflection off its facets and diffraction at
its corners, up to two of these in a ray. The ground is taken to run level across the heading.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError, Notice, ReadOnlyArrays
from boomwright.base.records import dataclass
from boomwright.reach.ground_reflection import ground_coefficients
from boomwright.reach.terrain_diffraction import diffracted, diffracted_twice
from boomwright.reach.terrain_facets import facets_of
from boomwright.reach.terrain_profile import (
    TerrainProfile,
    significant_profile,
    tolerated_error,
    with_mast_foot,
)
from boomwright.reach.terrain_rays import (
    Amplitude,
    Scene,
    direct,
    lit_corners,
    reflected,
)
from boomwright.reach.wedge import Reflection
from boomwright.solver import Ground, PatternCut

Polarisation = Literal["horizontal", "vertical"]

#: most corners kept; the work grows with their square
MOST_CORNERS = 48
# Keeps every elevation off the exact shadow boundaries, where which side counts is a matter
# of rounding [rad].
_OFF_BOUNDARY = 1e-7


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TerrainPattern(ReadOnlyArrays):
    """Elevation pattern over a terrain profile."""

    elevation_deg: NDArray[np.float64]  #: elevation towards the heading [deg] (n,)
    gain_dbi: NDArray[np.float64]  #: gain over the terrain, floored at -60 [dBi] (n,)
    profile: TerrainProfile  #: the simplified profile that was used
    notices: tuple[Notice, ...]  #: doubts about it


def field_over_facets(scene: Scene) -> NDArray[np.complex128]:
    """Add up all rays over a profile of facets.

    Returns:
        field relative to the direct field of an isotropic antenna [-] (n,)
    """
    lit = lit_corners(scene)
    total = direct(scene) + reflected(scene) + diffracted(scene, lit) + diffracted_twice(scene, lit)
    return np.asarray(total)


def terrain_reflection(
    *, ground: Ground, frequency: float, polarisation: Polarisation
) -> Reflection:
    """Make the reflection coefficient of the ground, by grazing angle.

    Args:
        polarisation: ``horizontal`` or ``vertical``

    Returns:
        function of the grazing angle; angles beyond pi/2 graze from the other side
    """

    def coefficient(grazing: NDArray[np.float64]) -> NDArray[np.complex128]:
        elevation = np.arcsin(np.minimum(np.abs(np.sin(grazing)), 1.0))
        horizontal, vertical = ground_coefficients(
            ground=ground, elevation=elevation, frequency=frequency
        )
        return horizontal if polarisation == "horizontal" else vertical

    return coefficient


def _amplitude(free_space: PatternCut | None) -> Amplitude:
    if free_space is None:
        return lambda direction: np.ones(np.shape(direction))
    if free_space.plane != "elevation":
        msg = f"terrain: plane {free_space.plane!r}; give the free-space elevation cut"
        raise BoomwrightError(msg)
    field = 10.0 ** (free_space.gain_dbi / 20.0)
    angle_deg = free_space.angle_deg

    def strength(direction: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.asarray(np.interp(np.degrees(direction), angle_deg, field, period=360.0))

    return strength


def _notices(*, widened: float, points: int) -> tuple[Notice, ...]:
    found = [
        Notice(
            code="reach.terrain-model",
            text=(
                "Two-dimensional rays with at most two bends, terrain level across the heading, "
                "input resistance as over flat ground. Judge differences of a few decibels "
                "between sites or heights, not single decibels, and not deep shadow."
            ),
        )
    ]
    if widened > 1.0:
        found.append(
            Notice(
                code="reach.terrain-coarse",
                text=(
                    f"The profile has too many corners; it was smoothed to {points} points with "
                    "a wider tolerance. Shorten it to judge the fine structure."
                ),
                severity="doubt",
                value=f"{widened:.2g} times the tolerance",
                limit="1",
            )
        )
    return tuple(found)


def _checked(elevation_deg: ArrayLike, *, height: float, frequency: float) -> NDArray[np.float64]:
    angle = np.atleast_1d(np.asarray(elevation_deg, dtype=float))
    if np.any((angle < 0.0) | (angle > 90.0)):
        msg = f"terrain: elevation {angle.min():g} to {angle.max():g} deg; ask within 0 to 90 deg"
        raise BoomwrightError(msg)
    if not (height > 0.0 and frequency > 0.0):
        msg = f"terrain: height {height:g} m, frequency {frequency:g} Hz; give both above 0"
        raise BoomwrightError(msg)
    return angle


def _simplified(
    profile: TerrainProfile, *, height: float, wavelength: float
) -> tuple[TerrainProfile, float]:
    footed = with_mast_foot(profile)
    tolerance = tolerated_error(distance=footed.distance, height=height, wavelength=wavelength)
    return significant_profile(footed, tolerance=tolerance, most_points=MOST_CORNERS + 1)


def gain_over_terrain(
    *,
    profile: TerrainProfile,
    height: float,
    frequency: float,
    ground: Ground,
    elevation_deg: ArrayLike,
    free_space: PatternCut | None = None,
    polarisation: Polarisation = "horizontal",
) -> TerrainPattern:
    """Elevation pattern of an antenna over a terrain profile.

    Args:
        height: height of the antenna above the ground at the mast, above 0 [m]
        elevation_deg: elevations wanted, 0 to 90 [deg] (n,)
        free_space: elevation cut in free space, 0 to 360 degrees; None for an isotropic antenna
        polarisation: ``horizontal`` or ``vertical``

    Returns:
        gain over the terrain; on a flat profile the two-ray pattern of flat ground
            {kouyoumjian-pathak-1974}, {luebbers-1984}
    """
    angle_deg = _checked(elevation_deg, height=height, frequency=frequency)
    wavelength = SPEED_OF_LIGHT / frequency
    simple, widened = _simplified(profile, height=height, wavelength=wavelength)
    scene = Scene(
        facets=facets_of(distance=simple.distance, height=simple.height),
        # Counted from the simplified ground, so that no simplification moves the antenna.
        source=np.array([0.0, simple.height_at_mast + height]),
        elevation=np.minimum(np.radians(angle_deg) + _OFF_BOUNDARY, math.pi / 2),
        wavenumber=2.0 * math.pi / wavelength,
        reflection=terrain_reflection(
            ground=ground, frequency=frequency, polarisation=polarisation
        ),
        amplitude=_amplitude(free_space),
    )
    return TerrainPattern(
        elevation_deg=angle_deg,
        gain_dbi=20.0 * np.log10(np.maximum(np.abs(field_over_facets(scene)), 1e-3)),
        profile=simple,
        notices=_notices(widened=widened, points=len(simple.distance)),
    )
