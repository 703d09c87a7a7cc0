"""A room's refusal of a value of the plan, told as a fault of the plan with its place."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from boomwright.base import BoomwrightError, Fault, PlanError

Made = TypeVar("Made")


def made_at(path: str, make: Callable[[], Made], *, remedy: str) -> Made:
    """Make a room's value; a refusal becomes a fault at the place of the plan it came from.

    Args:
        path: place in the plan, e.g. ``site.wind_basis.edition``

    Raises:
        PlanError: when the room refuses
    """
    try:
        return make()
    except (BoomwrightError, ValueError) as error:
        raise PlanError((Fault(path=path, message=str(error), remedy=remedy),)) from error
