"""The step of a lesson as the page shows it."""

from __future__ import annotations

import re
from typing import Any

from boomwright.base import UnitSystem, feet_inches_sixteenths
from boomwright.web.service import PlanDesk

#: lengths as lessons write them, with decimals; names of bands have none
_LENGTH = re.compile(r"(\d+\.\d+) m\b|(\d+) mm\b")


def step_card(desk: PlanDesk, *, system: UnitSystem) -> dict[str, Any] | None:
    """Give the lesson's step as the page shows it.

    Returns
    -------
    dict[str, Any] | None
        the card; None when the plan belongs to no lesson
    """
    if desk.lesson is None:
        return None
    step = desk.lesson.steps[desk.lesson_step]
    return {
        "title": desk.lesson.title,
        "number": desk.lesson_step + 1,
        "count": len(desk.lesson.steps),
        "say": in_units(step.say, system=system),
        "do": in_units(step.do, system=system),
        "look": step.look,
        "beam": step.beam,
    }


def in_units(words: str, *, system: UnitSystem) -> str:
    """Give the lengths in a lesson's words in the reader's units.

    Parameters
    ----------
    system
        ``metric`` or ``us``
    """
    if system == "metric":
        return words

    def told(found: re.Match[str]) -> str:
        metres, millimetres = found.groups()
        return feet_inches_sixteenths(float(metres) if metres else float(millimetres) / 1e3)

    return _LENGTH.sub(told, words)
