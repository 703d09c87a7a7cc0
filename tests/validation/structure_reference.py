"""Reads the copied check values of the structural room."""

from __future__ import annotations

from typing import Any

from check_values import checks

from boomwright.parts import Element, TubeSection
from boomwright.structure.support import guy_solver

_CHECKS = checks("structure_checks.toml", "column_checks.toml", "wind_checks.toml")

INCH = 0.0254
FOOT = 0.3048
POUND = 4.4482216152605
PSF = POUND / FOOT**2
KSI = 6.894757293168361e6
MPH = 0.44704

#: the worked half element: 1.000/0.875/0.750/0.625 x 0.058 in, 1.5+1.2+1.2+1.2 m
WORKED = Element(
    role="driven",
    position=0.0,
    half=tuple(
        TubeSection(diameter=diameter * INCH, length=length, wall=0.058 * INCH)
        for diameter, length in ((1.0, 1.5), (0.875, 1.2), (0.75, 1.2), (0.625, 1.2))
    ),
)


def expected(name: str) -> Any:
    """Give the expected value or values of one check."""
    return _CHECKS[name]["expected"]


def solve_guyed_mast(*, mast, loads, wind_deg, line_load=lambda _height: 0.0):
    """One wind direction of those that ``scan_wind`` solves."""
    return guy_solver._settled(guy_solver._setting(mast, loads, line_load), (wind_deg,))[0]
