"""Drag coefficients of round members, and the ways of counting wind area."""

from __future__ import annotations

from dataclasses import dataclass
from math import log10, pow, sqrt
from typing import Literal

#: coefficient used for every element, boom and mast {asce-7-10, fig. 29.5-1}, {tia-222-g}:
#: the low value past the drag crisis is never claimed for them
ROUND_DRAG = 1.2
#: coefficient of plates and boxes: square, up to seven times as high as wide, wind straight on
#: a face {asce-7-10, fig. 29.5-1}
PLATE_DRAG = 1.4
#: old flat-equivalent share of the projected area of round members (common practice)
FLAT_EQUIVALENT = 2.0 / 3.0
#: limit of the flow regime by D sqrt(q) {asce-7-10, fig. 29.5-1} [m sqrt(Pa)]
ASCE_REGIME_LIMIT = 5.3
#: limits of the flow regime by C {tia-222-g-regimes, table 2-7} (from memory) [m^2/s]
TIA_REGIME_LIMITS = (4.4, 8.7)

AreaRule = Literal["projected", "drag", "flat"]


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaConventions:
    """One area in the three conventions that tower and rotator ratings use."""

    projected: float  #: sum of diameter times length [m^2]
    drag: float  #: 1.2 times that, with drag included [m^2]
    flat: float  #: two thirds of it, the old flat equivalent [m^2]

    def by_rule(self, rule: AreaRule) -> float:
        """Pick one convention [m^2].

        Args:
            rule: ``projected``, ``drag`` or ``flat``
        """
        return {"projected": self.projected, "drag": self.drag, "flat": self.flat}[rule]


def area_conventions(*, projected: float) -> AreaConventions:
    """Write a projected area of round members in all three conventions [m^2].

    Args:
        projected: sum of diameter times length [m^2]
    """
    return AreaConventions(
        projected=projected, drag=ROUND_DRAG * projected, flat=FLAT_EQUIVALENT * projected
    )


def round_drag_asce(*, diameter: float, pressure: float) -> float:
    """Coefficient of a long, moderately smooth round member {asce-7-10, fig. 29.5-1}.

    Args:
        diameter: outer diameter [m]
        pressure: velocity pressure [Pa]

    Returns:
        drag coefficient at a height over diameter of 25 [-]
    """
    return 1.2 if diameter * sqrt(pressure) <= ASCE_REGIME_LIMIT else 0.7


def lattice_round_drag_asce(*, diameter: float, pressure: float) -> float:
    """Coefficient of round bars in an open lattice of solidity under 0.1 {asce-7-10, fig. 29.5-2}.

    Args:
        diameter: outer diameter of a bar [m]
        pressure: velocity pressure [Pa]

    Returns:
        drag coefficient [-]
    """
    return 1.2 if diameter * sqrt(pressure) <= ASCE_REGIME_LIMIT else 0.8


def tia_regime_number(
    *,
    speed: float,
    diameter: float,
    height_coefficient: float,
    topography: float = 1.0,
    importance: float = 1.0,
) -> float:
    """Number that decides the round-member coefficient, sqrt(I Kzt Kz) V D {tia-222-g, table 2-7}.

    Args:
        speed: 3 s gust [m/s]
        diameter: outer diameter [m]
        height_coefficient: Kz [-]
        topography: Kzt [-]
        importance: I [-]

    Returns:
        C [m^2/s]
    """
    return sqrt(importance * topography * height_coefficient) * speed * diameter


def en_cylinder_drag(
    *,
    diameter: float,
    speed: float,
    roughness: float = 0.0002,
    viscosity: float = 15e-6,
) -> float:
    """Coefficient of an endless cylinder past a Reynolds number of 1.8e5 {en-1991-1-4, fig. 7.28}.

    Args:
        diameter: outer diameter [m]
        speed: peak speed at the height [m/s]
        roughness: surface roughness, 0.2 mm galvanized [m]
        viscosity: kinematic viscosity of air [m^2/s]

    Returns:
        force coefficient without end effect; 1.2 below the Reynolds number above [-]
    """
    reynolds = diameter * speed / viscosity
    if reynolds < 1.8e5:
        return ROUND_DRAG
    smooth = 0.11 / pow(reynolds / 1e6, 1.4)
    rough = 1.2 + 0.18 * log10(10.0 * roughness / diameter) / (1.0 + 0.4 * log10(reynolds / 1e6))
    return max(smooth, rough)


def wind_force(*, pressure: float, drag_area: float, gust_factor: float = 1.0) -> float:
    """Force on a part, q G CdA {asce-7-10, sec. 29.5} [N].

    Args:
        pressure: velocity pressure [Pa]
        drag_area: drag coefficient times projected area [m^2]
        gust_factor: 1 for something small enough to be wholly inside one gust (common practice) [-]
    """
    return pressure * gust_factor * drag_area
