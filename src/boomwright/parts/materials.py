"""Conductors: what the field solver and the structure room need to know of a metal."""

from __future__ import annotations

import math
from typing import Any, Final

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
_COLUMNS: Final = (
    "conductivity",
    "density",
    "elastic_modulus",
    "yield_strength",
    "ultimate_strength",
    "thin_drawn_yield",
    "recalled_strength",
)
_ROWS: dict[str, tuple[Any, ...]] = {
    "perfect": (math.inf, 2700.0, 69e9, 0.0, 0.0),
    "6061-T6": (24.9e6, 2700.0, 69e9, 241e6, 262e6),
    "6063-T832": (30.7e6, 2700.0, 69e9, 241e6, 276e6, 248e6, "astm-b210"),
    "6063-T6": (30.7e6, 2700.0, 69e9, 172e6, 207e6),
    "6063-T5": (30.7e6, 2700.0, 69e9, 110e6, 152e6),
    "6005A-T61": (28.0e6, 2700.0, 69e9, 241e6, 262e6),
    "6005A-T5": (28.0e6, 2700.0, 69e9, 214e6, 262e6),
    "6082-T6": (26.1e6, 2700.0, 70e9, 250e6, 295e6),
    "copper": (58.0e6, 8930.0, 117e9, 69e6, 220e6),
    "stainless steel": (1.37e6, 7930.0, 193e9, 205e6, 515e6),
}

#: materials by the name a plan uses
MATERIALS: dict[str, Material] = {
    name: Material(name=name, **dict(zip(_COLUMNS, row, strict=False)))
    for name, row in _ROWS.items()
}
