"""The scale of a plan view and where the beam stands on the sheet."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from boomwright.base.records import dataclass
from boomwright.charts.labels import text_width
from boomwright.parts import Bar, Beam, Part, from_above

#: where the band of the elements' names begins [user units]
TOP = 30.0
_LEFT, _RIGHT = 64.0, 128.0
_LEVEL_BAND, _UPRIGHT_BAND = 34.0, 86.0
#: how thick tubes are drawn at most, by their role [user units]
_TUBE_WIDTHS: Final = {"element tube": 7.0, "boom": 14.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFrame:
    """Mapping from the beam's axes to the sheet: x to the right, y upwards, one scale."""

    scale: float  #: user units per metre [1/m]
    origin_x: float  #: place of x = 0 [user units]
    origin_y: float  #: place of y = 0, the boom [user units]
    #: factor by which tube diameters are drawn larger; 0 where there is nothing but wire [-]
    thickening: float
    foot: float  #: lower edge of what is drawn [user units]
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


def plan_frame(
    *, beam: Beam, parts: Sequence[Part], width: float, drawing_height: float
) -> PlanFrame:
    """Choose the greatest scale at which the beam fits, and where it stands.

    Args:
        beam: the beam, at least one element
        drawing_height: most height the elements may take [user units]
    """
    corners = [(x, y) for element in beam.elements for x, y, _ in element.outline]
    corners += [corner for part in parts for solid in part.solids for corner in from_above(solid)]
    xs = [x for x, _ in corners]
    reach = max(abs(y) for _, y in corners)
    span = max(xs) - min(xs)
    room = width - _LEFT - _RIGHT
    scale = min(room / max(span, 1e-9), drawing_height / (2.0 * max(reach, 1e-9)))
    thick = {role: thickest(parts, role) * scale for role in _TUBE_WIDTHS}
    thickening = 1.0 if any(thick.values()) else 0.0
    for factor in (2.0, 5.0, 10.0, 20.0, 50.0):
        if thickening and all(thick[role] * factor <= _TUBE_WIDTHS[role] for role in thick):
            thickening = factor
    level = _labels_lie_level(beam=beam, scale=scale)
    band = _LEVEL_BAND if level else _UPRIGHT_BAND
    return PlanFrame(
        scale=scale,
        origin_x=_LEFT + 0.5 * (room - span * scale) - min(xs) * scale,
        origin_y=TOP + band + reach * scale,
        thickening=thickening,
        foot=TOP + band + 2.0 * reach * scale,
        level=level,
        band=band,
    )


def thickest(parts: Sequence[Part], role: str) -> float:
    """Diameter of the thickest bar among parts of one role [m]."""
    bars = (solid for part in parts if part.role == role for solid in part.solids)
    return max((bar.diameter for bar in bars if isinstance(bar, Bar)), default=0.0)


def _labels_lie_level(*, beam: Beam, scale: float) -> bool:
    placed = sorted(
        (element.position * scale, text_width(label, size=10.5))
        for element, label in zip(beam.elements, beam.element_labels, strict=True)
    )
    return all(
        after[0] - before[0] >= 0.5 * (before[1] + after[1]) + 6.0
        for before, after in pairwise(placed)
    )


def element_labels(beam: Beam) -> tuple[str, ...]:
    """Name the elements: a role alone when it is the only one, directors always numbered."""
    return beam.element_labels
