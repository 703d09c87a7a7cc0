"""Drag coefficients of round members, and the ways of counting wind area."""

from __future__ import annotations

from typing import Literal

from boomwright.base.records import dataclass

#: coefficient used for every element, boom and mast {asce-7-10, fig. 29.5-1}, {tia-222-g}:
#: the low value past the drag crisis is never claimed for them
ROUND_DRAG = 1.2
#: coefficient of plates and boxes: square, up to seven times as high as wide, wind straight on
#: a face {asce-7-10, fig. 29.5-1}
PLATE_DRAG = 1.4
#: old flat-equivalent share of the projected area of round members (common practice)
FLAT_EQUIVALENT = 2.0 / 3.0

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
