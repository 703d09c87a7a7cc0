"""Forces, stresses, weights and the like as text in the reader's unit system."""

from __future__ import annotations

from typing import Final

from boomwright.base.constants import STANDARD_GRAVITY
from boomwright.base.unit_text import METRES_PER_INCH, UnitSystem

_FOOT: Final = 12.0 * METRES_PER_INCH
_POUND: Final = 0.45359237  # kg, exact {nist-sp-811}
_POUND_FORCE: Final = _POUND * STANDARD_GRAVITY

#: what a reader of US units gets for each metric unit, and how much of it one is {nist-sp-811}
_US: Final = {
    "m": ("ft", 1.0 / _FOOT),
    "mm": ("in", 1e-3 / METRES_PER_INCH),
    "km": ("mi", 1e3 / (5280.0 * _FOOT)),
    "m2": ("ft2", _FOOT**-2),
    "m3": ("yd3", (3.0 * _FOOT) ** -3),
    "m/s": ("mph", 3600.0 / (5280.0 * _FOOT)),
    "kg": ("lb", 1.0 / _POUND),
    "kg/m3": ("lb/ft3", _FOOT**3 / _POUND),
    "kg m2": ("lb ft2", 1.0 / (_POUND * _FOOT**2)),
    "N": ("lbf", 1.0 / _POUND_FORCE),
    "kN": ("lbf", 1e3 / _POUND_FORCE),
    "kN/m": ("lbf/ft", 1e3 * _FOOT / _POUND_FORCE),
    "N m": ("lbf ft", 1.0 / (_POUND_FORCE * _FOOT)),
    "kN m": ("lbf ft", 1e3 / (_POUND_FORCE * _FOOT)),
    "kPa": ("psf", 1e3 * _FOOT**2 / _POUND_FORCE),
    "MPa": ("ksi", 1e3 * METRES_PER_INCH**2 / _POUND_FORCE),
}

#: powers as print has them; no unit has other figures 2 and 3 in its name
_RAISED: Final = str.maketrans("23", "\u00b2\u00b3")


def in_system(value: float, *, unit: str, system: UnitSystem) -> tuple[float, str]:
    """Bring a value in a metric unit to the reader's system.

    Args:
        value: [unit]
        unit: metric unit, such as ``kN m``; one of both systems, such as ``deg``, stays

    Returns:
        the value and its unit {nist-sp-811} [-]
    """
    if system == "metric" or unit not in _US:
        return value, unit.translate(_RAISED)
    name, factor = _US[unit]
    return value * factor, name.translate(_RAISED)


def quantity_text(value: float, *, unit: str, system: UnitSystem, form: str = ".4g") -> str:
    """Write a value in a metric unit for a reader of either system.

    Args:
        value: [unit]
        unit: metric unit, such as ``kN m``
    """
    converted, name = in_system(value, unit=unit, system=system)
    # Four figures of a large number would come with an exponent.
    shown = f"{converted:.0f}" if form == ".4g" and abs(converted) >= 1e4 else f"{converted:{form}}"
    return f"{shown} {name}".rstrip()


def both_quantities(value: float, *, unit: str, form: str = ".0f", us_form: str = "") -> str:
    """Write a value for readers of either system, e.g. ``71 N (16 lbf)``.

    Args:
        value: [unit]
        unit: metric unit, such as ``kN m``
        us_form: format of the number in US units, when it is another
    """
    metric = quantity_text(value, unit=unit, system="metric", form=form)
    return f"{metric} ({quantity_text(value, unit=unit, system='us', form=us_form or form)})"
