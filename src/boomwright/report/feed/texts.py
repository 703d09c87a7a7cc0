"""Values of the feed in words: SWR, lengths, impedances, differences."""

from __future__ import annotations

import math

from boomwright.base import UnitSystem, length_text
from boomwright.feed import Comparison


def swr_text(swr: float) -> str:
    """Write a standing wave ratio.

    Parameters
    ----------
    swr
        standing wave ratio [-]
    """
    if math.isnan(swr) or math.isinf(swr):
        return "none"
    return "above 20" if swr > 20.0 else f"{swr:.2f}"


def value_text(value: float, *, unit: str, system: UnitSystem) -> str:
    """Write a value of a comparison.

    Parameters
    ----------
    value
        the value, NaN when there is none [m, F or ohm]
    unit
        ``m``, ``F`` or ``ohm``
    """
    if math.isnan(value):
        return "none"
    if unit == "m":
        return length_text(value, system=system)
    return f"{value * 1e12:.0f} pF" if unit == "F" else f"{value:.1f} ohm"


def ohms(impedance: complex) -> str:
    """Write an impedance in rectangular form.

    Parameters
    ----------
    impedance
        impedance [ohm]

    Returns
    -------
    str
        for instance ``35.0 − j2.6`` [ohm]
    """
    sign = "+" if impedance.imag >= 0.0 else "−"
    return f"{impedance.real:.1f} {sign} j{abs(impedance.imag):.1f}"


def difference_text(each: Comparison) -> str:
    """Write how far the field is from the circuit equations.

    Returns
    -------
    str
        percent of the circuit's value [%]
    """
    if math.isnan(each.circuit) or each.circuit == 0.0:
        return "–"
    return f"{100.0 * each.difference / each.circuit:+.1f} %".replace("-", "−")
