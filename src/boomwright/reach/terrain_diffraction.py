"""Diffracted rays over a profile: once, once and reflected, twice.

A ray diffracted at one corner and again at the next along the facet between them needs the
slope of the field, since the field itself vanishes along real ground: the slope term of
{hwang-kouyoumjian-1974} is added to every pair.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from boomwright.base.records import dataclass
from boomwright.reach.terrain_facets import (
    CLEARANCE,
    above,
    bends,
    hit,
    mirrored,
    sees,
    sees_far,
    turned_down,
)
from boomwright.reach.terrain_rays import (
    Lit,
    Scene,
    corner_coefficient,
    corner_weights,
    to_far,
)
from boomwright.reach.wedge import Complex, Real, wedge_coefficient


def diffracted(scene: Scene, lit: list[Lit]) -> Complex:
    """Field of the rays diffracted once, straight to the far field or by one reflection.

    Returns:
        relative field {kouyoumjian-pathak-1974, eq. 20} (n,)
    """
    total = np.zeros(scene.elevation.shape, dtype=complex)
    for entry in lit:
        strength = entry.field / math.sqrt(entry.distance)
        total += strength * _leaving(scene, entry)
    return total


def _leaving(scene: Scene, entry: Lit) -> Complex:
    facets, angle, c = scene.facets, scene.elevation, entry.corner
    place = np.broadcast_to(facets.corner[c], (*angle.shape, 2))
    departure = facets.angle_from_left(c, angle)
    free = sees_far(facets, place=place, direction=angle) & (departure < facets.open_angle(c))
    total = np.zeros(angle.shape, dtype=complex)
    if np.any(free):
        spread = corner_coefficient(
            scene,
            c,
            distance=entry.distance,
            incidence=np.array(entry.incidence),
            departure=departure,
        )
        total += np.where(free, spread * to_far(scene, angle, place), 0.0)
    for j in range(facets.count + 1):
        if j not in {c, c + 1} and above(facets, j, facets.corner[c]) > CLEARANCE:
            total += _reflected_after(scene, entry, facet=j)
    return total


def _reflected_after(scene: Scene, entry: Lit, *, facet: int) -> Complex:
    facets, angle, c = scene.facets, scene.elevation, entry.corner
    image = mirrored(facets, facet, facets.corner[c])
    point, good = hit(facets, facet, image=image, direction=angle)
    if np.any(good):
        good &= sees(facets, start=facets.corner[c], end=point) & sees_far(
            facets, place=point, direction=angle
        )
    down = turned_down(facets, facet, angle)
    departure = facets.angle_from_left(c, down)
    good &= (departure > 0.0) & (departure < facets.open_angle(c))
    if not np.any(good):
        return np.zeros(angle.shape, dtype=complex)
    spread = corner_coefficient(
        scene, c, distance=entry.distance, incidence=np.array(entry.incidence), departure=departure
    )
    strength = spread * scene.reflection(np.abs(angle - facets.slope[facet]))
    return np.asarray(np.where(good, strength * to_far(scene, angle, image), 0.0))


def diffracted_twice(scene: Scene, lit: list[Lit]) -> Complex:
    """Field of the rays diffracted at two corners.

    Returns:
        relative field {kouyoumjian-pathak-1974, eq. 20}, {hwang-kouyoumjian-1974} (n,)
    """
    facets, angle = scene.facets, scene.elevation
    total = np.zeros(angle.shape, dtype=complex)
    for c in range(facets.count):
        place = np.broadcast_to(facets.corner[c], (*angle.shape, 2))
        departure = facets.angle_from_left(c, angle)
        free = sees_far(facets, place=place, direction=angle) & (departure < facets.open_angle(c))
        if not bends(facets, c) or not np.any(free):
            continue
        spread = np.zeros(angle.shape, dtype=complex)
        for entry in lit:
            if entry.corner != c and sees(
                facets, start=facets.corner[entry.corner], end=facets.corner[c]
            ):
                spread += _second(scene, entry, c, departure)
        total += np.where(free, spread * to_far(scene, angle, place), 0.0)
    return total


def _second(scene: Scene, entry: Lit, c: int, departure: Real) -> Complex:
    """Spread from corner c of the field that an earlier corner sends there."""
    facets, k = scene.facets, scene.wavenumber
    step = facets.corner[c] - facets.corner[entry.corner]
    between = float(np.hypot(*step))
    travel = math.atan2(step[1], step[0])
    away = float(facets.angle_from_left(entry.corner, travel))
    back = float(facets.angle_from_left(c, travel + math.pi))
    # Along the facet shared by two neighbours the incident and reflected fields are one:
    # half of the total counts as incident {kouyoumjian-pathak-1974, section IV}.
    along_facet = abs(entry.corner - c) == 1
    share = 0.5 if along_facet else 1.0
    first_length = entry.distance * between / (entry.distance + between)
    first = _Corner(
        scene=scene,
        c=entry.corner,
        distance=first_length,
        incidence=np.array(entry.incidence),
        departure=np.array(away),
    )
    second = _Corner(
        scene=scene, c=c, distance=between, incidence=np.array(back), departure=departure
    )
    # Moving the far corner towards greater angle of its incoming ray lessens the angle at
    # which that ray leaves the near one, hence the minus.
    slope = -first.slope(by="departure") * second.slope(by="incidence") / (1j * k * between)
    strength = entry.field / math.sqrt(entry.distance * between)
    wave = strength * share * np.exp(-1j * k * between)
    return np.asarray(wave * (first.coefficient() * second.coefficient() + slope))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Corner:
    """One corner of a pair, with all that its coefficient and slope need."""

    scene: Scene
    c: int
    distance: float
    incidence: Real
    departure: Real

    def coefficient(self) -> Complex:
        return corner_coefficient(
            self.scene,
            self.c,
            distance=self.distance,
            incidence=self.incidence,
            departure=self.departure,
        )

    def slope(self, *, by: Literal["incidence", "departure"]) -> Complex:
        return wedge_coefficient(
            wavenumber=self.scene.wavenumber,
            distance=self.distance,
            n=self.scene.facets.open_angle(self.c) / math.pi,
            incidence=self.incidence,
            departure=self.departure,
            weights=corner_weights(
                self.scene, self.c, incidence=self.incidence, departure=self.departure
            ),
            slope_by=by,
        )
