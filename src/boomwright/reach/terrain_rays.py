"""Rays over a profile of straight facets: direct, reflected, diffracted, and pairs of these.

Each ray leaves the antenna, meets at most two facets or corners, and goes off to the far
field at a given elevation. Fields are relative to the direct field of an isotropic antenna,
with the phase counted from the origin of the profile.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from boomwright.base import read_only
from boomwright.base.records import dataclass
from boomwright.reach.terrain_facets import (
    CLEARANCE,
    Facets,
    above,
    bends,
    hit,
    mirrored,
    sees,
    sees_far,
    turned_down,
)
from boomwright.reach.wedge import (
    Complex,
    FaceWeights,
    Real,
    Reflection,
    face_weights,
    wedge_coefficient,
)

Amplitude = Callable[[Real], Real]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """All that the rays share."""

    facets: Facets  #: the ground
    source: Real  #: place of the antenna, x and z [m] (2,)
    elevation: Real  #: elevations of the far field, above 0 and up to pi/2 [rad] (n,)
    wavenumber: float  #: 2 pi over the wavelength [rad/m]
    #: reflection coefficient by grazing angle, -1 or +1 for a perfect conductor
    reflection: Reflection
    #: field strength of the antenna by direction, counter-clockwise from the heading
    amplitude: Amplitude

    def __post_init__(self) -> None:
        object.__setattr__(self, "source", read_only(self.source))
        object.__setattr__(self, "elevation", read_only(self.elevation))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Origin:
    """Where a ray seems to come from: the antenna itself or its image in one facet."""

    place: Real  #: x and z [m] (2,)
    mirror: int  #: facet that made the image, -1 for the antenna itself

    def __post_init__(self) -> None:
        object.__setattr__(self, "place", read_only(self.place))


def to_far(scene: Scene, direction: Real, place: Real) -> Complex:
    """Phase of the way from a place to the far field, against the way from the origin.

    Args:
        direction: [rad] (n,)
        place: x and z of the places [m] (n, 2)
    """
    along = place[..., 0] * np.cos(direction) + place[..., 1] * np.sin(direction)
    return np.asarray(np.exp(1j * scene.wavenumber * along))


def direct(scene: Scene) -> Complex:
    """Field of the ray that meets nothing."""
    angle = scene.elevation
    place = np.broadcast_to(scene.source, (*angle.shape, 2))
    free = sees_far(scene.facets, place=place, direction=angle)
    return np.asarray(free * scene.amplitude(angle) * to_far(scene, angle, place))


def reflected(scene: Scene) -> Complex:
    """Field of the rays reflected once or twice."""
    facets, angle = scene.facets, scene.elevation
    total = np.zeros(angle.shape, dtype=complex)
    lit = [i for i in range(facets.count + 1) if above(facets, i, scene.source) > CLEARANCE]
    for i in lit:
        image = mirrored(facets, i, scene.source)
        point, good = hit(facets, i, image=image, direction=angle)
        good &= sees(facets, start=scene.source, end=point) & sees_far(
            facets, place=point, direction=angle
        )
        down = turned_down(facets, i, angle)
        strength = scene.reflection(np.abs(angle - facets.slope[i])) * scene.amplitude(down)
        total += np.where(good, strength * to_far(scene, angle, image), 0.0)
        for j in range(facets.count + 1):
            if j != i and above(facets, j, image) > CLEARANCE:
                total += _reflected_twice(scene, first=i, second=j, image=image)
    return total


def _reflected_twice(scene: Scene, *, first: int, second: int, image: Real) -> Complex:
    facets, angle = scene.facets, scene.elevation
    twice = mirrored(facets, second, image)
    end, good = hit(facets, second, image=twice, direction=angle)
    middle_angle = turned_down(facets, second, angle)
    start, struck = hit(facets, first, image=image, direction=middle_angle)
    good &= struck
    if not np.any(good):
        return np.zeros(angle.shape, dtype=complex)
    # The second point must lie ahead of the first along the ray between them.
    ahead = (end - start)[..., 0] * np.cos(middle_angle) + (end - start)[..., 1] * np.sin(
        middle_angle
    )
    good &= (ahead > 0.0) & sees(facets, start=scene.source, end=start)
    good &= sees(facets, start=start, end=end) & sees_far(facets, place=end, direction=angle)
    strength = (
        scene.reflection(np.abs(angle - facets.slope[second]))
        * scene.reflection(np.abs(middle_angle - facets.slope[first]))
        * scene.amplitude(turned_down(facets, first, middle_angle))
    )
    return np.asarray(np.where(good, strength * to_far(scene, angle, twice), 0.0))


def corner_weights(scene: Scene, c: int, *, incidence: Real, departure: Real) -> FaceWeights:
    """Reflection of a corner's facets, for its diffraction coefficient.

    Args:
        incidence: angle of the direction to the source, from the left facet [rad] (n,)
        departure: angle of the direction to the observer, from the left facet [rad] (n,)
    """
    return face_weights(
        n=scene.facets.open_angle(c) / math.pi,
        incidence=incidence,
        departure=departure,
        reflection=scene.reflection,
    )


def corner_coefficient(
    scene: Scene,
    c: int,
    *,
    distance: float,
    incidence: Real,
    departure: Real,
) -> Complex:
    """Diffraction coefficient of a corner [m^0.5] (n,).

    Args:
        distance: distance parameter [m]
        incidence: angle of the direction to the source, from the left facet [rad] (n,)
        departure: angle of the direction to the observer, from the left facet [rad] (n,)
    """
    return wedge_coefficient(
        wavenumber=scene.wavenumber,
        distance=distance,
        n=scene.facets.open_angle(c) / math.pi,
        incidence=incidence,
        departure=departure,
        weights=corner_weights(scene, c, incidence=incidence, departure=departure),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lit:
    """A corner lit by the antenna or by its image."""

    corner: int  #: index of the corner
    incidence: float  #: angle of the direction to the source, from the left facet [rad]
    distance: float  #: length of the way from the source [m]
    field: complex  #: field of the antenna there times that distance [-]


def lit_corners(scene: Scene) -> list[Lit]:
    """Find the corners that the antenna lights, straight or by one reflection."""
    facets = scene.facets
    origins = [Origin(place=scene.source, mirror=-1)]
    origins += [
        Origin(place=mirrored(facets, i, scene.source), mirror=i)
        for i in range(facets.count + 1)
        if above(facets, i, scene.source) > CLEARANCE
    ]
    found = []
    for c in range(facets.count):
        if not bends(facets, c):
            continue
        for origin in origins:
            # A reflection in a corner's own facet is part of its diffraction coefficient.
            if origin.mirror in {c, c + 1}:
                continue
            entry = _light(scene, c, origin)
            if entry is not None:
                found.append(entry)
    return found


def _light(scene: Scene, c: int, origin: Origin) -> Lit | None:
    facets = scene.facets
    step = facets.corner[c] - origin.place
    distance = float(np.hypot(*step))
    travel = math.atan2(step[1], step[0])
    incidence = float(facets.angle_from_left(c, travel + math.pi))
    if distance < 1e-6 or not 0.0 < incidence < facets.open_angle(c):
        return None
    strength = complex(np.exp(-1j * scene.wavenumber * distance))
    leaving = travel
    if origin.mirror < 0:
        free = bool(sees(facets, start=scene.source, end=facets.corner[c]))
    else:
        i = origin.mirror
        point, struck = hit(facets, i, image=origin.place, direction=np.array(travel))
        leaving = float(turned_down(facets, i, np.array(travel)))
        strength *= complex(scene.reflection(np.abs(np.array(travel - facets.slope[i]))))
        reached = float(np.hypot(*(point - origin.place))) < distance
        free = bool(
            struck
            and reached
            and sees(facets, start=scene.source, end=point)
            and sees(facets, start=point, end=facets.corner[c])
        )
    if not free:
        return None
    field = strength * float(scene.amplitude(np.array(leaving)))
    return Lit(corner=c, incidence=incidence, distance=distance, field=field)
