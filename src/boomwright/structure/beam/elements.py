"""One element half under weight, ice and wind: stress at each step, droop, yield speeds."""

from __future__ import annotations

from math import hypot, sqrt

from boomwright.base.records import dataclass
from boomwright.parts import Element, Material
from boomwright.structure.beam.stepped import (
    Alongside,
    CantileverState,
    cantilever,
    half_segments,
    weight_loads,
    wind_loads,
)
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import PRESSURE_CONSTANT


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionStrength:
    """One tube section of an element half, at its inner end where stress peaks."""

    index: int  #: section, counted from the boom
    from_boom: float  #: distance of that inner end from the boom [m]
    diameter: float  #: outer diameter [m]
    wall: float  #: wall thickness [m]
    dead_stress: float  #: stress from own weight [Pa]
    ice_stress: float  #: stress from own weight and ice, no wind [Pa]
    wind_stress: float  #: stress from the wind alone, bare [Pa]
    bare_stress: float  #: weight and wind together [Pa]
    iced_stress: float  #: weight, ice and the wind that comes with it together [Pa]
    #: local wind speed at which this section yields, bare; 0 when weight alone does [m/s]
    yield_speed_bare: float
    yield_speed_iced: float  #: the same with ice on [m/s]
    slenderness: float  #: diameter over wall [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementStrength:
    """What weight, ice and wind do to one half of an element."""

    sections: tuple[SectionStrength, ...]  #: every section, from the boom outwards (n_sections,)
    half_weight: float  #: weight of the half, bare [N]
    iced_half_weight: float  #: weight of the half with ice [N]
    dead_droop: float  #: droop of the tip at no wind [m]
    iced_droop: float  #: droop of the tip with ice, small-deflection figure [m]
    wind_root_moment: float  #: bending moment of the wind at the boom, bare [N m]
    weakest_bare: int  #: section that reaches the limit first, bare
    weakest_iced: int  #: section with the highest stress with ice and its wind
    #: True when the droop or the wind bends the tube past the small-deflection range
    large_deflection: bool

    @property
    def worst_bare(self) -> SectionStrength:
        """The section that governs without ice."""
        return self.sections[self.weakest_bare]

    @property
    def worst_iced(self) -> SectionStrength:
        """The section that governs with ice."""
        return self.sections[self.weakest_iced]


def speed_at_stress(*, limit: float, weight_stress: float, wind_stress_per_pascal: float) -> float:
    """Local wind speed at which weight and wind reach a stress, 0 when weight alone does [m/s].

    Weight bends downwards and wind sideways, so the two add as squares.

    Args:
        limit: stress to be reached [Pa]
        weight_stress: stress from weight, and ice when it is on [Pa]
        wind_stress_per_pascal: stress of the wind for each pascal of velocity pressure [-]
    """
    left = limit**2 - weight_stress**2
    if left <= 0.0 or wind_stress_per_pascal <= 0.0:
        return 0.0
    return sqrt(sqrt(left) / wind_stress_per_pascal / PRESSURE_CONSTANT)


def element_strength(
    *,
    element: Element,
    material: Material,
    pressure: float,
    ice: IceCoat | None = None,
    ice_pressure: float = 0.0,
    dead_factor: float = 1.0,
    beside: Alongside | None = None,
) -> ElementStrength:
    """Work out one element half, clamped at the boom.

    Overlaps count as the outer tube only, and the tube is taken as a small-deflection
    beam, which overstates the wind stress (``elastica`` gives the other figure).

    Args:
        pressure: velocity pressure at its height [Pa]
        ice_pressure: velocity pressure that comes with the ice [Pa]
        dead_factor: load factor on weight and ice, 1 for allowable stresses [-]
        beside: what hangs along the half, or None
    """
    segments = half_segments(element=element, material=material, beside=beside)
    dead = cantilever(segments=segments, loads=weight_loads(segments=segments))
    iced = cantilever(segments=segments, loads=weight_loads(segments=segments, ice=ice))
    unit, unit_iced = (
        cantilever(segments=segments, loads=wind_loads(segments=segments, pressure=1.0, ice=coat))
        for coat in (None, ice)
    )
    sections: list[SectionStrength] = []
    from_boom, numbers = 0.0, [each.section for each in segments]
    for index, section in enumerate(element.half):
        # A section may be parted; its stress peaks at its inner end.
        i, limit = numbers.index(index), material.minimum_yield(wall=section.wall)
        blown, iced_blown = unit.stresses[i] * pressure, unit_iced.stresses[i] * ice_pressure
        sections.append(
            SectionStrength(
                index=index,
                from_boom=from_boom,
                diameter=section.diameter,
                wall=section.wall,
                dead_stress=dead.stresses[i],
                ice_stress=iced.stresses[i],
                wind_stress=blown,
                bare_stress=hypot(dead_factor * dead.stresses[i], blown),
                iced_stress=hypot(dead_factor * iced.stresses[i], iced_blown),
                yield_speed_bare=_speed(limit, dead, unit, i),
                yield_speed_iced=_speed(limit, iced, unit_iced, i),
                slenderness=section.diameter / section.wall,
            )
        )
        from_boom += section.length
    wind_tip = unit.tip_deflection * pressure
    return ElementStrength(
        sections=tuple(sections),
        half_weight=dead.total_load,
        iced_half_weight=iced.total_load,
        dead_droop=dead.tip_deflection,
        iced_droop=iced.tip_deflection,
        wind_root_moment=unit.root_moments[0] * pressure,
        weakest_bare=max(range(len(sections)), key=lambda k: sections[k].bare_stress),
        weakest_iced=max(range(len(sections)), key=lambda k: sections[k].iced_stress),
        large_deflection=max(iced.tip_deflection, wind_tip) > 0.1 * element.half_length,
    )


def _speed(limit: float, weight: CantileverState, wind: CantileverState, index: int) -> float:
    return speed_at_stress(
        limit=limit,
        weight_stress=weight.stresses[index],
        wind_stress_per_pascal=wind.stresses[index],
    )
