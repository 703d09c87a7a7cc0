"""Examples, usual values and limits of the declaration in the units of whoever reads them."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem, feet_inches_sixteenths, inches_sixteenths
from boomwright.base import quantity_text as read_text
from boomwright.plan.fields import LONGEST
from boomwright.plan.format import decimal_text, default_unit, quantity_text
from boomwright.plan.kinds import Kind
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.plan.units import EXAMPLES, PHYSICAL, UNITS, UNITS_OF, Dimension

#: lengths below it are read in millimetres and inches [m]
_SMALL = 0.3
#: a length that ends here is that of a small part: its example is the second one [m]
_SMALL_PART = 3.0
#: from here on a limit is written in whole feet [m]
_LONG = 30.0
#: a number that ends here has no limit that says anything
_MILLION = 1e6
#: walls and the like below it are read in thousandths of an inch [m]
_THIN = 0.01
#: metric unit that the reader's writer turns into the other system, where it has one
_METRIC: dict[Dimension, str] = {
    "speed": "m/s",
    "mass": "kg",
    "force": "N",
    "torque": "N m",
    "area": "m2",
    "volume": "m3",
    "density": "kg/m3",
}
#: written in the unit that leaves the fewest zeros
_HANDY: tuple[Dimension, ...] = ("capacitance", "inductance", "power", "voltage", "time")


def quantity_said(
    value: float, dimension: Dimension, *, system: UnitSystem, digits: int = 6
) -> str:
    """Write a quantity as its reader would type it.

    Args:
        value: [SI]
    """
    if system == "us" and dimension == "length" and value:
        if abs(value) < _THIN:
            return f"{value / float(UNITS['in'][1]):.3g} in"
        return inches_sixteenths(value) if abs(value) < _SMALL else feet_inches_sixteenths(value)
    if system == "us" and dimension == "pressure" and value:
        unit, size = ("MPa", 1e-6) if abs(value) > 1e6 else ("kPa", 1e-3)
        return read_text(value * size, unit=unit, system="us", form=".3g")
    if system == "us" and dimension in _METRIC:
        return read_text(value, unit=_METRIC[dimension], system="us", form=".3g")
    unit = "deg/s" if dimension == "turning speed" else default_unit(value, dimension)
    if dimension in _HANDY and value:
        fits = [each for each in UNITS_OF[dimension] if abs(value) >= float(UNITS[each][1])]
        unit = max(fits or UNITS_OF[dimension][-1:], key=lambda each: UNITS[each][1])
    return quantity_text(value, unit, digits=digits) if unit else decimal_text(value, digits=6)


def _rounded(value: float, dimension: Dimension, *, system: UnitSystem) -> str:
    """Write a limit: no sixteenths where feet will do [SI]."""
    if not math.isfinite(value):
        return ""
    if system == "us" and dimension == "length" and abs(value) >= _SMALL:
        form = ".0f" if abs(value) >= _LONG else ".3g"
        return read_text(value, unit="m", system="us", form=form)
    whole = dimension in {"angle", "turning speed"}
    return quantity_said(value, dimension, system=system, digits=3 if whole else 6)


def native_text(text: str, kind: Kind, *, system: UnitSystem) -> str:
    """Write an example of the declaration for its reader; what holds no quantity stays as it is."""
    if system == "metric" or not isinstance(kind, Quantity):
        return text
    try:
        value = parse_quantity(text, kind.dimension)
    except (QuantityError, ValueError):
        return text
    said = quantity_said(value, kind.dimension, system=system)
    plain = quantity_said(value, kind.dimension, system="metric")
    return text if said == plain else said


def example_text(kind: Kind, *, system: UnitSystem) -> str:
    """Example of a kind without one of its own, or empty."""
    if isinstance(kind, Quantity):
        small = kind.dimension == "length" and kind.high <= _SMALL_PART
        return native_text(EXAMPLES[kind.dimension][small], kind, system=system)
    return getattr(kind, "example", "") if not isinstance(kind, Number) else ""


def limits_text(kind: Kind, *, system: UnitSystem) -> str:
    """Say what may be written: limits with their unit; empty where nothing limits it."""
    if isinstance(kind, Number):
        low, high, word = kind.low, kind.high, "whole number" if kind.whole else "number"
        # A limit that only keeps out mistyped figures says nothing to whoever types.
        if math.isfinite(low) and high < _MILLION:
            return f"{word}, {decimal_text(low)} to {decimal_text(high)}"
        return word
    if not isinstance(kind, Quantity):
        return ""
    # A limit that only keeps out mistyped units says nothing to whoever types.
    widest = LONGEST if kind.dimension == "length" else PHYSICAL[kind.dimension][1]
    said = [_rounded(value, kind.dimension, system=system) for value in (kind.low, kind.high)]
    parts = []
    if kind.low == 0.0:
        parts.append("more than 0" if kind.above_low else "0 or more")
    elif -widest < kind.low:
        parts.append(f"{'more than' if kind.above_low else 'at least'} {said[0]}")
    if kind.high < widest:
        parts.append(f"at most {said[1]}")
    return ", ".join(parts)
