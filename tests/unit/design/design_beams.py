"""Beams that the tests of the design room share."""

from __future__ import annotations

from dataclasses import replace

from antennas import beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import TubeSection


def three_elements(*, width=0.025, boom=0.3, radius=1e-3):
    """Three plain elements at a wavelength of one metre, by the trade's first guess."""
    made = beam(
        lengths=[0.497, 0.473, 0.449],
        places=[0.0, boom / 2, boom],
        diameter=2 * radius,
        driven=1,
        frequency=SPEED_OF_LIGHT,
    )
    low, high = (SPEED_OF_LIGHT * (1.0 + sign * width / 2.0) for sign in (-1.0, 1.0))
    return replace(made, band=(low, high))


def stepped_for_20m():
    """Three elements of telescoping tube for 20 m."""
    made = beam(
        lengths=[10.9, 10.3, 9.8],
        places=[0.0, 3.2, 6.4],
        diameter=0.0254,
        driven=1,
        frequency=14.175e6,
        material="6061-T6",
        gap=0.04,
    )
    tubes = ((0.0254, 1.83), (0.0222, 1.22))
    elements = tuple(
        replace(
            element,
            half=(
                *(TubeSection(diameter=d, length=length) for d, length in tubes),
                TubeSection(diameter=0.019, length=element.half_length - 3.05),
            ),
        )
        for element in made.elements
    )
    return replace(made, band=(14.0e6, 14.35e6), elements=elements)
