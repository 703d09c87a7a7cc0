"""Refusals of this room: each names the place, the value and the remedy."""

from __future__ import annotations

import math

from boomwright.base import BoomwrightError


class StructureInputError(BoomwrightError):
    """An input that cannot describe a real structure."""


class BucklesError(BoomwrightError):
    """A support that cannot bear its weight and the pull of its guys."""


class BasisMixError(BoomwrightError):
    """Ultimate and nominal wind figures brought together in one comparison."""


def require_positive(*, place: str, value: float, unit: str) -> None:
    """Refuse anything but a finite number above zero.

    Args:
        value: the number given [any unit]

    Raises:
        StructureInputError: when the value is not finite or not above zero
    """
    if not (math.isfinite(value) and value > 0.0):
        raise StructureInputError(f"{place} is {value} {unit}: give a number above zero in {unit}")


def require_not_negative(*, place: str, value: float, unit: str) -> None:
    """Refuse anything but a finite number of at least zero.

    Args:
        value: the number given [any unit]

    Raises:
        StructureInputError: when the value is not finite or below zero
    """
    if not (math.isfinite(value) and value >= 0.0):
        msg = f"{place} is {value} {unit}: give zero or a number above it in {unit}"
        raise StructureInputError(msg)


def require_each(of: str, *figures: tuple[str, float | None, str]) -> None:
    """Refuse anything but finite numbers above zero, or what is not given.

    Args:
        of: what they belong to, or empty
        figures: name, value and unit of each, the value None when it is not given [any unit]

    Raises:
        StructureInputError: when a value is not finite or not above zero
    """
    for name, value, unit in figures:
        if value is not None:
            require_positive(place=f"{of} {name}".lstrip(), value=value, unit=unit)


def require_tube(*, place: str, diameter: float, wall: float) -> None:
    """Refuse a tube whose wall does not fit into its diameter.

    Args:
        diameter: outer diameter [m]
        wall: wall thickness [m]

    Raises:
        StructureInputError: when a size is not above zero or the wall is over half the diameter
    """
    require_each(place, ("diameter", diameter, "m"), ("wall", wall, "m"))
    if 2.0 * wall > diameter:
        msg = f"{place} wall {wall} m is over half of its diameter {diameter} m: check both"
        raise StructureInputError(msg)
