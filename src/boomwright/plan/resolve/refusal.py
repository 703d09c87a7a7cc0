"""A room's refusal of a value of the plan, told as a fault of the plan with its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from boomwright.base import BoomwrightError, place_error
from boomwright.base.quantity import Value

Made = TypeVar("Made")


def made_at(path: str, make: Callable[[], Made], *, remedy: Value) -> Made:
    """Make a room's value; a refusal becomes a fault at the place of the plan it came from.

    Args:
        path: place in the plan, e.g. ``site.wind_basis.edition``

    Raises:
        PlanError: when the room refuses
    """
    try:
        return make()
    except (BoomwrightError, ValueError) as error:
        said = error.said if isinstance(error, BoomwrightError) else str(error)
        raise place_error(path, said, remedy=remedy) from error
