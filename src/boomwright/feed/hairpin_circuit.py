"""A hairpin as it is joined: its rods meet the element half a spacing from the middle."""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed.field_model import mean_diameter
from boomwright.feed.lumped_matches import parallel_line_impedance
from boomwright.feed.stages import ElementTrim, SeriesInductor, ShuntStub, Stage
from boomwright.parts import Element

#: what the circuit's impedance may differ from the field's, as a share
HAIRPIN_SHARE = 0.125


def hairpin_stages(
    *,
    element: Element,
    gap: float,
    spacing: float,
    diameter: float,
    length: float,
    frequency: float,
) -> tuple[Stage, ...]:
    """Pieces of a hairpin with given dimensions.

    The published circuit ties the hairpin to the feed itself. Built, some of the element lies
    between the feed and the rods: its inductance moves from the antenna's side of the hairpin
    to the line's. With it the circuit meets the field within :data:`HAIRPIN_SHARE` for
    spacings up to 0.006 wavelengths.

    Args:
        gap: width of the split [m]
        spacing: distance between the axes of the rods [m]
        diameter: diameter of the rods [m]
        length: length from the element to the short [m]
        frequency: design frequency [Hz]

    Returns:
        from the antenna outwards: what the element loses, hairpin, what lies before it, with k
        Zc / 2 of
            reactance a metre and Zc = 120 (ln(2h/a) - 1) {common-practice-open-line}
    """
    stub = ShuntStub(
        impedance=parallel_line_impedance(spacing=spacing, diameter=diameter),
        length=length,
        end="short",
    )
    half = element.half_length
    radius = mean_diameter(element=element, length=spacing) / 2.0
    angular = 2.0 * math.pi * frequency
    line = 60.0 * (math.log(2.0 * half / radius) - 1.0)
    reactance = angular / SPEED_OF_LIGHT * line * max(spacing - gap, 0.0)
    if reactance == 0.0:
        return (stub,)
    return (
        ElementTrim(reactance=-reactance),
        stub,
        SeriesInductor(inductance=reactance / angular),
    )
