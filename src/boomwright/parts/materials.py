"""Conductors: what the field solver and the structure room need to know of a metal."""

from __future__ import annotations

import math

from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A conductor."""

    name: str  #: designation of an open standard, e.g. ``6061-T6``
    conductivity: float  #: electrical conductivity, infinite for the ideal conductor [S/m]
    density: float  #: mass density [kg/m^3]
    elastic_modulus: float  #: Young's modulus [Pa]
    yield_strength: float  #: minimum tensile yield strength, 0 when unknown [Pa]
    ultimate_strength: float  #: minimum tensile ultimate strength, 0 when unknown [Pa]
    #: higher minimum yield of thin drawn walls, 0 where there is no such row [Pa]
    thin_drawn_yield: float = 0.0
    recalled_strength: str = ""  #: source of the ultimate strength, where it is from memory only

    def minimum_yield(self, *, wall: float) -> float:
        """Minimum tensile yield of a tube of this metal {astm-b210}; 0 when unknown [Pa].

        Args:
            wall: wall thickness, 0 when unknown [m]
        """
        least, most = THIN_DRAWN_WALL
        if self.thin_drawn_yield > 0.0 and least <= wall < most:
            return self.thin_drawn_yield
        return self.yield_strength


#: walls the thin row of drawn tube holds for, 0.025 to 0.049 in {astm-b210} [m]
THIN_DRAWN_WALL = (0.025 * 0.0254, 0.0495 * 0.0254)

# Conductivities: 43 % IACS for 6061-T6, 53 % for 6063, 45 % for 6082-T6 {common-practice-alloys};
# strengths are the specified minima of ASTM B210/B221 {astm-b210}, {astm-b221}.
_KNOWN = (
    Material(
        name="perfect",
        conductivity=math.inf,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=0.0,
        ultimate_strength=0.0,
    ),
    Material(
        name="6061-T6",
        conductivity=24.9e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=241e6,
        ultimate_strength=262e6,
    ),
    Material(
        name="6063-T832",
        conductivity=30.7e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=241e6,
        ultimate_strength=276e6,
        thin_drawn_yield=248e6,
        recalled_strength="astm-b210",
    ),
    Material(
        name="6063-T6",
        conductivity=30.7e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=172e6,
        ultimate_strength=207e6,
    ),
    Material(
        name="6063-T5",
        conductivity=30.7e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=110e6,
        ultimate_strength=152e6,
    ),
    Material(
        name="6005A-T61",
        conductivity=28.0e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=241e6,
        ultimate_strength=262e6,
    ),
    Material(
        name="6005A-T5",
        conductivity=28.0e6,
        density=2700.0,
        elastic_modulus=69e9,
        yield_strength=214e6,
        ultimate_strength=262e6,
    ),
    Material(
        name="6082-T6",
        conductivity=26.1e6,
        density=2700.0,
        elastic_modulus=70e9,
        yield_strength=250e6,
        ultimate_strength=295e6,
    ),
    Material(
        name="copper",
        conductivity=58.0e6,
        density=8930.0,
        elastic_modulus=117e9,
        yield_strength=69e6,
        ultimate_strength=220e6,
    ),
    Material(
        name="stainless steel",
        conductivity=1.37e6,
        density=7930.0,
        elastic_modulus=193e9,
        yield_strength=205e6,
        ultimate_strength=515e6,
    ),
)

#: materials by the name a plan uses
MATERIALS: dict[str, Material] = {material.name: material for material in _KNOWN}
