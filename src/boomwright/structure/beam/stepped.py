"""A stepped tube clamped at its root under line loads: exact moments and deflections.

The march runs from the tip for shear and moment, then from the root for slope and
deflection, with the exact polynomial of every segment; there is no mesh.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import STANDARD_GRAVITY, ReadOnlyArrays
from boomwright.base.records import dataclass, replace
from boomwright.parts import Element, Material, Trap
from boomwright.structure.beam.tubing import TubeShape
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat, coat_mass, seen_diameter


@dataclass(frozen=True, slots=True, kw_only=True)
class Alongside:
    """What hangs along an element half: a second conductor with its spacers and its end bar."""

    mass: float  #: mass of a metre, couplings and spacers spread over it [kg/m]
    diameter: float  #: diameter that wind and ice find [m]
    bar: float = 0.0  #: mass of the bar at the tip [kg]
    wide: float = 0.0  #: how far that bar reaches inwards from the tip [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One exposed length of tube."""

    shape: TubeShape  #: cross section
    length: float  #: exposed length [m]
    elastic_modulus: float  #: Young's modulus [Pa]
    density: float  #: mass density [kg/m^3]
    beside: Alongside | None = None  #: what hangs along it; None for nothing
    section: int = 0  #: tube of the half that it is part of, counted from the boom

    @property
    def stiffness(self) -> float:
        """Bending stiffness EI [N m^2]."""
        return self.elastic_modulus * self.shape.second_moment

    @property
    def mass_per_length(self) -> float:
        """Mass of a metre of tube and of what hangs along it [kg/m]."""
        beside = 0.0 if self.beside is None else self.beside.mass
        return self.shape.area * self.density + beside

    def weight_per_length(self, *, ice: IceCoat | None = None) -> float:
        """Weight of a metre, with ice when there is any [N/m]."""
        coats = sum(coat_mass(each, ice) for each in self._diameters)
        return (self.mass_per_length + coats) * STANDARD_GRAVITY

    @property
    def _diameters(self) -> tuple[float, ...]:
        beside = () if self.beside is None else (self.beside.diameter,)
        return (self.shape.diameter, *beside)

    def wind_diameter(self, *, ice: IceCoat | None = None) -> float:
        """Diameter the wind sees, of what hangs along it too: nothing shelters it [m]."""
        return sum(seen_diameter(each, ice) for each in self._diameters)


@dataclass(frozen=True, slots=True, kw_only=True)
class CantileverState:
    """What line loads do to a stepped tube clamped at its root."""

    total_load: float  #: sum of all loads [N]
    #: bending moment at the inner end of each segment [N m] (n_segments,)
    root_moments: tuple[float, ...]
    stresses: tuple[float, ...]  #: bending stress there [Pa] (n_segments,)
    tip_deflection: float  #: deflection of the tip [m]


def half_segments(
    *, element: Element, material: Material, beside: Alongside | None = None
) -> tuple[Segment, ...]:
    """Read the tubes of one element half, parted where traps and a bar at the tip begin and end.

    A trap bends as the tube that it replaces.

    Args:
        element: the element; every section must have a wall
    """
    segments = []
    reached = 0.0
    for number, section in enumerate(element.half):
        outer = reached + section.length
        tube = Segment(
            shape=TubeShape(diameter=section.diameter, wall=section.wall),
            length=section.length,
            elastic_modulus=material.elastic_modulus,
            density=material.density,
            beside=beside,
            section=number,
        )
        for trap in element.traps:
            if reached < trap.place < outer:
                near, far = trap.place - 0.5 * trap.long, trap.place + 0.5 * trap.long
                near, far = max(near, reached), min(far, outer)
                segments += [replace(tube, length=near - reached)] if near > reached else []
                segments.append(_with_trap(replace(tube, length=far - near), trap))
                reached = far
        segments += [replace(tube, length=outer - reached)] if outer > reached else []
        reached = outer
    if beside is not None and beside.bar > 0.0:
        wide = min(beside.wide, 0.5 * segments[-1].length)
        heavy = replace(beside, mass=beside.mass + beside.bar / wide)
        tip = replace(segments[-1], length=wide, beside=heavy)
        segments[-1:] = [replace(segments[-1], length=segments[-1].length - wide), tip]
    return tuple(segments)


def _with_trap(tube: Segment, trap: Trap) -> Segment:
    """A tube with a trap around it: heavier, and as wide for the wind as the trap."""
    beside = tube.beside or Alongside(mass=0.0, diameter=0.0)
    return replace(
        tube,
        beside=replace(
            beside,
            mass=beside.mass + trap.weighs / tube.length,
            diameter=beside.diameter + max(0.0, trap.wide - tube.shape.diameter),
        ),
    )


def cantilever(
    *, segments: Sequence[Segment], loads: Sequence[float], tip: float = 0.0
) -> CantileverState:
    """March shear and moment from the tip, then slope and deflection from the root.

    Args:
        segments: segments from the clamp outwards (n_segments,)
        loads: even load on each segment, across the tube [N/m] (n_segments,)
        tip: load at the tip, across the tube [N]
    """
    shear, moment = tip, 0.0
    roots: list[tuple[float, float]] = []
    for segment, load in zip(reversed(segments), reversed(loads), strict=True):
        moment += shear * segment.length + load * segment.length**2 / 2.0
        shear += load * segment.length
        roots.append((shear, moment))
    roots.reverse()
    slope = deflection = 0.0
    for segment, load, (root_shear, root_moment) in zip(segments, loads, roots, strict=True):
        s, stiffness = segment.length, segment.stiffness
        bent = root_moment * s**2 / 2.0 - root_shear * s**3 / 6.0 + load * s**4 / 24.0
        turned = root_moment * s - root_shear * s**2 / 2.0 + load * s**3 / 6.0
        deflection += slope * s + bent / stiffness
        slope += turned / stiffness
    moments = tuple(root_moment for _, root_moment in roots)
    return CantileverState(
        total_load=shear,
        root_moments=moments,
        stresses=tuple(m / s.shape.modulus for m, s in zip(moments, segments, strict=True)),
        tip_deflection=deflection,
    )


def moment_at(*, segments: Sequence[Segment], loads: Sequence[float], place: float) -> float:
    """Bending moment of the line loads further out than a place [N m].

    Args:
        loads: even load on each segment, across the tube [N/m] (n_segments,)
        place: distance from the clamp [m]
    """
    moment = near = 0.0
    for segment, load in zip(segments, loads, strict=True):
        far = near + segment.length
        first = max(near, place)
        if far > first:
            moment += load * ((far - place) ** 2 - (first - place) ** 2) / 2.0
        near = far
    return moment


def weight_loads(*, segments: Sequence[Segment], ice: IceCoat | None = None) -> tuple[float, ...]:
    """Weight of each segment as a line load [N/m] (n_segments,)."""
    return tuple(segment.weight_per_length(ice=ice) for segment in segments)


def wind_loads(
    *, segments: Sequence[Segment], pressure: float, ice: IceCoat | None = None
) -> tuple[float, ...]:
    """Wind square to the tube as a line load on each segment [N/m] (n_segments,)."""
    return tuple(pressure * ROUND_DRAG * segment.wind_diameter(ice=ice) for segment in segments)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CantileverCourse(ReadOnlyArrays):
    """A loaded stepped tube from its clamp outwards; a step stands twice."""

    place: NDArray[np.float64]  #: distance from the clamp [m] (n_places,)
    stress: NDArray[np.float64]  #: bending stress [Pa] (n_places,)
    deflection: NDArray[np.float64]  #: deflection [m] (n_places,)


def cantilever_course(*, segments: Sequence[Segment], loads: Sequence[float]) -> CantileverCourse:
    """Follow a loaded stepped tube from place to place; each segment's own exact curve.

    Args:
        loads: even load on each segment, across the tube [N/m] (n_segments,)
    """
    shear = sum(load * segment.length for segment, load in zip(segments, loads, strict=True))
    moment = cantilever(segments=segments, loads=loads).root_moments
    start = slope = deflection = 0.0
    places, stresses, deflections = [], [], []
    for segment, load, root in zip(segments, loads, moment, strict=True):
        s = np.linspace(0.0, segment.length, 12 + 1)
        here = root - shear * s + load * s**2 / 2.0
        bent = root * s**2 / 2.0 - shear * s**3 / 6.0 + load * s**4 / 24.0
        turned = root * s - shear * s**2 / 2.0 + load * s**3 / 6.0
        curve = deflection + slope * s + bent / segment.stiffness
        places.append(start + s)
        stresses.append(np.abs(here) / segment.shape.modulus)
        deflections.append(curve)
        start += segment.length
        shear -= load * segment.length
        slope += float(turned[-1]) / segment.stiffness
        deflection = float(curve[-1])
    return CantileverCourse(
        place=np.concatenate(places),
        stress=np.concatenate(stresses),
        deflection=np.concatenate(deflections),
    )
