"""The step of a lesson as the page shows it."""

from __future__ import annotations

from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.web.service import PlanDesk


def step_card(desk: PlanDesk, *, system: UnitSystem) -> dict[str, Any] | None:
    """Give the lesson's step as the page shows it.

    Returns:
        the card; None when the plan belongs to no lesson
    """
    if desk.lesson is None:
        return None
    step = desk.lesson.steps[desk.lesson_step]
    return {
        "title": desk.lesson.title,
        "number": desk.lesson_step + 1,
        "count": len(desk.lesson.steps),
        "say": write(step.say, system=system),
        "do": write(step.do, system=system),
        "look": step.look,
        "beam": step.beam,
    }
