"""Coaxial lines by military designation.

Typical losses, for want of an open standard that prints them: {common-practice-coax} for
RG-58C and RG-213 at four frequencies, {coax-compilation} for the others at 10 MHz. Voltage
limits and diameters are those of {mil-c-17}, from memory, the lower where editions differ.
A real make may be 15 % better or worse; give its own data sheet to
:func:`boomwright.feed.coax.fit_attenuation`.
"""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed.coax import DECIBELS_PER_NEPER, CoaxType, fit_attenuation

_FEET_100 = 30.48
_MHZ = (1e6, 10e6, 30e6, 100e6)

# name, dB per 100 m at 1, 10, 30, 100 MHz, V, mm {common-practice-coax}, {mil-c-17}
_FOUR_POINTS = (
    ("RG-58C", (1.4, 4.6, 8.2, 16.1), 1400.0, 4.95),
    ("RG-213", (0.6, 1.9, 3.4, 6.7), 3700.0, 10.29),
)

# name, ohm, dB per 100 ft at 10 MHz, velocity factor, V, mm {coax-compilation}, {mil-c-17}
_ONE_POINT = (
    ("RG-8A", 52.0, 0.5, 0.66, 3700.0, 10.29),
    ("RG-58", 53.5, 1.2, 0.66, 1400.0, 4.95),
    ("RG-174", 50.0, 3.3, 0.66, 1100.0, 2.79),
    ("RG-223", 50.0, 1.2, 0.66, 1400.0, 5.38),
    ("RG-11A", 75.0, 0.7, 0.66, 3700.0, 10.29),
    ("RG-59B", 75.0, 1.1, 0.66, 1700.0, 6.15),
    ("RG-141", 50.0, 1.1, 0.70, 1400.0, 4.83),
)

# Loss tangent of solid polyethylene and PTFE {common-practice-coax}.
_LOSS_TANGENT = 2e-4


def _from_four_points(
    *, name: str, losses: tuple[float, ...], volts: float, millimetres: float
) -> CoaxType:
    k1, k2 = fit_attenuation(frequency=_MHZ, attenuation_db=[loss / 100.0 for loss in losses])
    return CoaxType(
        name=name,
        impedance=50.0,
        velocity_factor=0.66,
        k1=k1,
        k2=k2,
        voltage_limit=volts,
        outer_diameter=millimetres / 1e3,
    )


def _from_one_point(
    *, name: str, ohms: float, loss: float, velocity: float, volts: float, millimetres: float
) -> CoaxType:
    # One point cannot part the two losses: the dielectric's follows from its loss tangent.
    k2 = math.pi * _LOSS_TANGENT / (velocity * SPEED_OF_LIGHT) * DECIBELS_PER_NEPER
    k1 = (loss / _FEET_100 - k2 * 10e6) / math.sqrt(10e6)
    return CoaxType(
        name=name,
        impedance=ohms,
        velocity_factor=velocity,
        k1=k1,
        k2=k2,
        voltage_limit=volts,
        outer_diameter=millimetres / 1e3,
    )


#: coaxial lines by the name a plan uses
COAX_TYPES: dict[str, CoaxType] = {
    line.name: line
    for line in (
        *(
            _from_four_points(name=name, losses=losses, volts=volts, millimetres=mm)
            for name, losses, volts, mm in _FOUR_POINTS
        ),
        *(
            _from_one_point(
                name=name, ohms=ohms, loss=loss, velocity=velocity, volts=volts, millimetres=mm
            )
            for name, ohms, loss, velocity, volts, mm in _ONE_POINT
        ),
    )
}
