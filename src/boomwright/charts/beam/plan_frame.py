"""The scale of a plan view and where the beam stands on the sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from boomwright.charts.beam.element_names import element_labels
from boomwright.charts.labels import text_width
from boomwright.parts import Beam

#: where the band of the elements' names begins [user units]
TOP = 30.0
_LEFT, _RIGHT = 64.0, 128.0
_LEVEL_BAND, _UPRIGHT_BAND = 34.0, 86.0
_TUBE_WIDTH = 7.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFrame:
    """Mapping from the beam's axes to the sheet: x to the right, y upwards, one scale."""

    scale: float  #: user units per metre [1/m]
    origin_x: float  #: place of x = 0 [user units]
    origin_y: float  #: place of y = 0, the boom [user units]
    thickening: float  #: factor by which tube diameters are drawn larger [-]
    level: bool  #: whether the elements' names lie level, else they read upwards
    band: float  #: height of the band that holds the elements' names [user units]

    def x(self, place: float) -> float:
        """Find the place of a coordinate along the boom.

        Args:
            place: coordinate along the boom [m]

        Returns:
            horizontal place on the sheet [user units]
        """
        return self.origin_x + self.scale * place

    def y(self, across: float) -> float:
        """Find the place of a coordinate along the elements.

        Args:
            across: coordinate along the elements [m]

        Returns:
            vertical place on the sheet [user units]
        """
        return self.origin_y - self.scale * across


def plan_frame(*, beam: Beam, width: float, drawing_height: float) -> PlanFrame:
    """Choose the greatest scale at which the beam fits, and where it stands.

    Args:
        beam: the beam, at least one element
        width: width of the picture [user units]
        drawing_height: most height the elements may take [user units]
    """
    corners = [(float(x), float(y)) for wire in beam.wires for x, y, _ in wire.points]
    corners += [(x, y) for element in beam.elements for x, y, _ in element.outline]
    corners += [(x, y) for spoke in spokes(beam) for x, y in spoke]
    xs = [x for x, _ in corners]
    reach = max(abs(y) for _, y in corners)
    span = max(xs) - min(xs)
    room = width - _LEFT - _RIGHT
    scale = min(room / max(span, 1e-9), drawing_height / (2.0 * max(reach, 1e-9)))
    thickest = max((s.diameter for e in beam.elements for s in e.half), default=0.0)
    thickening = 1.0
    for factor in (2.0, 5.0, 10.0, 20.0, 50.0):
        if thickest * scale * factor <= _TUBE_WIDTH:
            thickening = factor
    level = _labels_lie_level(beam=beam, scale=scale)
    band = _LEVEL_BAND if level else _UPRIGHT_BAND
    return PlanFrame(
        scale=scale,
        origin_x=_LEFT + 0.5 * (room - span * scale) - min(xs) * scale,
        origin_y=TOP + band + reach * scale,
        thickening=thickening,
        level=level,
        band=band,
    )


def spokes(beam: Beam) -> tuple[tuple[tuple[float, float], tuple[float, float]], ...]:
    """Radials of upright elements from above, foot and end of each [m] (n, 2, 2)."""
    radials = beam.radials
    if radials is None:
        return ()
    long = radials.length * math.cos(radials.slope)
    turns = [2.0 * math.pi * number / radials.count for number in range(radials.count)]
    return tuple(
        (
            (element.position, 0.0),
            (element.position + long * math.cos(turn), long * math.sin(turn)),
        )
        for element in beam.elements
        for turn in turns
    )


def _labels_lie_level(*, beam: Beam, scale: float) -> bool:
    placed = sorted(
        (element.position * scale, text_width(label, size=10.5))
        for element, label in zip(beam.elements, element_labels(beam), strict=True)
    )
    return all(
        after[0] - before[0] >= 0.5 * (before[1] + after[1]) + 6.0
        for before, after in pairwise(placed)
    )
