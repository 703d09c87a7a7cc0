"""How the structure's figures are written, in the units of the reader."""

from __future__ import annotations

from boomwright.base import (
    METRES_PER_INCH,
    STANDARD_GRAVITY,
    UnitSystem,
    in_system,
    length_text,
    quantity_text,
)
from boomwright.study.element_fixes import FixOffer


def span_text(length: float, *, system: UnitSystem) -> str:
    """Write a length of the station.

    Parameters
    ----------
    length
        length [m]
    system
        ``metric`` or ``us``
    """
    return f"{length:.2f} m" if system == "metric" else length_text(length, system=system)


def tube_text(diameter: float, wall: float, *, system: UnitSystem) -> str:
    """Write the size of a tube.

    Parameters
    ----------
    diameter
        outer diameter [m]
    wall
        wall [m]
    system
        ``metric`` or ``us``
    """
    if system == "metric":
        return f"{diameter * 1e3:.1f} × {wall * 1e3:.2f}"
    return f"{diameter / METRES_PER_INCH:.3f} × {wall / METRES_PER_INCH:.3f}"


def speed_text(speed: float, *, system: UnitSystem, form: str = ".0f") -> str:
    """Write a wind speed.

    Parameters
    ----------
    speed
        speed [m/s]
    system
        ``metric`` or ``us``
    """
    if speed == float("inf"):
        return "no limit"
    return quantity_text(speed, unit="m/s", system=system, form=form)


def stress_change(fix: FixOffer, *, system: UnitSystem) -> str:
    """Say what a fix does to the highest stress.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    before, _ = in_system(fix.stress_before / 1e6, unit="MPa", system=system)
    form = ".0f" if system == "metric" else ".1f"
    after = quantity_text(fix.stress_after / 1e6, unit="MPa", system=system, form=form)
    return f"{before:{form}} to {after}"


def weight_change(fix: FixOffer, *, system: UnitSystem) -> str:
    """Say what a fix weighs.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    mass = fix.weight_change / STANDARD_GRAVITY
    return quantity_text(mass, unit="kg", system=system, form="+.1f")


def electrical_text(fix: FixOffer, *, system: UnitSystem) -> str:
    """Say what a fix does to the electrical length.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    if fix.electrical is None:
        return "unchanged, outer sizes stay"
    form = "+.0f" if system == "metric" else "+.2f"
    trim = quantity_text(fix.electrical.trim * 1e3, unit="mm", system=system, form=form)
    return (
        f"reactance {fix.electrical.reactance_change:+.1f} ohm, {trim} at each tip brings it back"
    )
