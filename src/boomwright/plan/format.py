"""Numbers back to text: in SI at any precision, or in the unit an owner already uses."""

from __future__ import annotations

from decimal import Decimal

from boomwright.base import feet_inches_sixteenths, inches_sixteenths
from boomwright.plan.quantity import written_unit
from boomwright.plan.units import SI_UNIT, UNITS, UNITS_OF, Dimension

# Finest step worth writing, so that a rewrite gives "2.71 m" and not sixteen digits.
_STEP: dict[Dimension, float] = {
    "length": 1e-4,
    "frequency": 1.0,
    "angle": 1e-5,
    "speed": 1e-3,
    "capacitance": 1e-14,
    "inductance": 1e-10,
}


def decimal_text(value: float, *, digits: int = 12) -> str:
    """Write a number without trailing zeros, and without exponent unless it is minute or vast.

    Args:
        value: number [-]
    """
    if value != 0.0 and not 1e-12 <= abs(value) < 1e15:
        return f"{value:.{digits}g}"
    return _trimmed(format(Decimal(f"{value:.{digits}g}"), "f"))


def _trimmed(text: str) -> str:
    trimmed = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if trimmed == "-0" else trimmed


def quantity_text(value: float, unit: str, *, digits: int = 12) -> str:
    """Write an SI value in a unit.

    Args:
        value: [SI]
        unit: unit of the table, e.g. ``mm``
    """
    return f"{decimal_text(value / float(UNITS[unit][1]), digits=digits)} {unit}"


def stepped_text(value: float, unit: str, *, dimension: Dimension) -> str:
    """Write an SI value in a unit, to the finest step worth writing.

    Args:
        value: [SI]
    """
    in_unit = value / float(UNITS[unit][1])
    step = _STEP.get(dimension)
    if step is None:
        return quantity_text(value, unit, digits=9)
    places = 0
    while 10.0**-places > step / float(UNITS[unit][1]) * (1 + 1e-9) and places < 12:
        places += 1
    return f"{_trimmed(f'{in_unit:.{places}f}')} {unit}"


#: what a new value is written in, where that is not its SI unit
_USUAL: dict[Dimension, str] = {
    "frequency": "MHz",
    "angle": "deg",
    "turning speed": "rpm",
    "capacitance": "pF",
    "inductance": "uH",
}


def default_unit(value: float, dimension: Dimension) -> str:
    """Choose the unit a new value is written in, ``mm`` below 0.1 m; empty for a pure ratio.

    Args:
        value: [SI]
    """
    if dimension == "length" and 0.0 < abs(value) < 0.1:
        return "mm"
    return _USUAL.get(dimension, SI_UNIT[dimension])


#: what feet and inches are written to [m]
SIXTEENTH = 0.0254 / 16.0
#: on shorter waves a sixteenth of an inch is too coarse for an element [m]
_SIXTEENTHS_DOWN_TO = 1.5


_INCHES = {"in", "inch", "inches", '"'}
_FEET = {"ft in", "ft", "foot", "feet", "'"}


def in_feet_or_inches(before: str) -> bool:
    """Whether the owner writes a length in feet, inches or both."""
    return written_unit(before) in _INCHES | _FEET


def in_sixteenths(before: str) -> bool:
    """Whether the owner writes a length in feet and inches, or in inches without decimals."""
    unit = written_unit(before)
    return unit == "ft in" or (unit in _INCHES and "." not in before)


def sixteenths_suffice(wavelength: float | None) -> bool:
    """Whether an element may be cut to a sixteenth of an inch.

    Args:
        wavelength: at the design frequency, None when unknown [m]
    """
    return wavelength is None or wavelength >= _SIXTEENTHS_DOWN_TO


def owners_text(
    value: float,
    before: str,
    dimension: Dimension,
    *,
    wavelength: float | None = None,
    of_element: bool = False,
) -> str:
    """Write an SI value the way the owner wrote the one it replaces.

    Args:
        value: new value [SI]
        wavelength: what ``wl`` stands for, None when unknown [m]
        of_element: whether the length is one of an element or its feed

    Returns:
        feet and inches or fractions to the nearest sixteenth, in decimal inches where that is too
        coarse for an element; else the owner's unit with decimals to 0.1 mm; the usual unit when
        the owner's cannot be told
    """
    unit = written_unit(before)
    if dimension == "length" and in_sixteenths(before):
        if of_element and not sixteenths_suffice(wavelength):
            return stepped_text(value, "in", dimension=dimension)
        return feet_inches_sixteenths(value) if unit == "ft in" else inches_sixteenths(value)
    if dimension == "length" and unit == "wl" and wavelength:
        return f"{decimal_text(round(value / wavelength, 6))} wl"
    if unit not in UNITS_OF[dimension]:
        unit = default_unit(value, dimension)
    return stepped_text(value, unit, dimension=dimension) if unit else decimal_text(value)
