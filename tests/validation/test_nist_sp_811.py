"""Units against NIST Special Publication 811 (2008), Appendix B.8, factors from memory.

The appendix prints exact factors in bold and others to seven digits, hence the tolerance.
"""

from __future__ import annotations

import math

import pytest

from boomwright.plan import parse_quantity


@pytest.mark.parametrize(
    ("text", "dimension", "printed"),
    [
        ("1 in", "length", 2.54e-2),
        ("1 ft", "length", 3.048e-1),
        ("1 yd", "length", 9.144e-1),
        ("1 mi", "length", 1.609344e3),
        ("1 mph", "speed", 4.4704e-1),
        ("1 kn", "speed", 5.144444e-1),
        ("1 ft/s", "speed", 3.048e-1),
        ("1 lb", "mass", 4.535924e-1),
        ("1 oz", "mass", 2.834952e-2),
        ("1 lbf", "force", 4.448222),
        ("1 kgf", "force", 9.80665),
        ("1 psi", "pressure", 6.894757e3),
        ("1 ksi", "pressure", 6.894757e6),
        ("1 psf", "pressure", 4.788026e1),
        ("1 lbf ft", "torque", 1.355818),
        ("1 lbf in", "torque", 1.129848e-1),
        ("1 lb/ft", "mass per length", 1.488164),
        ("1 ft2", "area", 9.290304e-2),
        ("1 ft3", "volume", 2.831685e-2),
        ("1 yd3", "volume", 7.645549e-1),
        ("1 deg", "angle", 1.745329e-2),
    ],
)
def test_factor_is_the_printed_one(text: str, dimension: str, printed: float) -> None:
    assert math.isclose(parse_quantity(text, dimension), printed, rel_tol=5e-7)  # type: ignore[arg-type]
