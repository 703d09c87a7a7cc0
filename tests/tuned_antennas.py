"""A beam with hairpin and line that several tuning tests measure."""

from dataclasses import replace

import numpy as np

from antennas import beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import COAX_TYPES, ShuntStub
from boomwright.solver import FREE_SPACE
from boomwright.tuning import Installation

DESIGN = 14.175e6
BAND = (14.0e6, 14.35e6)
FREQUENCIES = np.linspace(*BAND, 31)


def station(*, ground=FREE_SPACE, height=14.0, line_length=18.0, line="RG-213"):
    """Three elements, matched to better than 1.05 at the design frequency in free space."""
    wavelength = SPEED_OF_LIGHT / DESIGN
    lengths = [length * wavelength for length in (0.494, 0.4657, 0.445)]
    three = beam(
        lengths=lengths,
        places=[place * wavelength for place in (0.0, 0.14, 0.30)],
        diameter=0.022,
        driven=1,
        frequency=DESIGN,
        height=height,
        material="6061-T6",
    )
    return Installation(
        beam=in_band(three),
        ground=ground,
        stages=(ShuntStub(impedance=300.0, length=0.577, end="short"),),
        line=COAX_TYPES[line] if line else None,
        line_length=line_length if line else 0.0,
    )


def in_band(three):
    """The beam with the band of these tests."""
    return replace(three, band=BAND)
