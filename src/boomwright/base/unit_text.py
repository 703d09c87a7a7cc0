"""Lengths as text for people: millimetres, and feet and inches to the nearest sixteenth."""

from __future__ import annotations

import math
from math import gcd
from typing import Literal

UnitSystem = Literal["metric", "us"]

#: one inch in metres, exact by definition {nist-sp-811}
METRES_PER_INCH = 0.0254


def _sixteenths(length: float) -> int:
    return round(length / METRES_PER_INCH * 16)


def _inch_part(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, 16)
    if part == 0:
        return f"{whole}"
    common = gcd(part, 16)
    fraction = f"{part // common}/{16 // common}"
    return f"{whole}-{fraction}" if whole else fraction


def inches_sixteenths(length: float) -> str:
    """Write a length in inches to the nearest sixteenth, e.g. ``5-3/16 in`` [in]."""
    count = _sixteenths(abs(length))
    sign = "-" if length < 0 and count else ""
    return f"{sign}{_inch_part(count)} in"


def feet_inches_sixteenths(length: float) -> str:
    """Write a length in feet, inches and sixteenths, e.g. ``17 ft 3/8 in`` [ft, in]."""
    count = _sixteenths(abs(length))
    sign = "-" if length < 0 and count else ""
    feet, rest = divmod(count, 12 * 16)
    if feet == 0:
        return f"{sign}{_inch_part(rest)} in"
    return f"{sign}{feet} ft {_inch_part(rest)} in"


def feet_inches(length: float) -> str:
    """Write a length that is paced or taped in feet and whole inches, e.g. ``52 ft 6 in`` [ft, in].

    Below a foot a sixteenth still counts.
    """
    whole = round(abs(length) / METRES_PER_INCH)
    if whole < 12:
        return feet_inches_sixteenths(length)
    return feet_inches_sixteenths(math.copysign(whole * METRES_PER_INCH, length))


def millimetres(length: float) -> str:
    """Write a length in whole millimetres, e.g. ``5180 mm`` [mm]."""
    return f"{round(length * 1000)} mm"


def length_text(length: float, *, system: UnitSystem) -> str:
    """Write a length in the reader's unit system."""
    return millimetres(length) if system == "metric" else feet_inches_sixteenths(length)
