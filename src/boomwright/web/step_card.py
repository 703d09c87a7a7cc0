"""The step of a lesson as the page shows it."""

from __future__ import annotations

from typing import Any

from boomwright.base import UnitSystem
from boomwright.base.quantity import write
from boomwright.web.service import PlanDesk


def step_card(desk: PlanDesk, *, system: UnitSystem) -> dict[str, Any] | None:
    """Give the lesson's step as the page shows it; None when the plan belongs to no lesson."""
    if desk.lesson is None:
        return None
    # Lessons load the rooms that write plans, which a plan of the owner's must not wait for.
    from boomwright.session.lessons import lessons

    lesson, everyone = desk.lesson, lessons()
    step, last = lesson.steps[desk.lesson_step], desk.lesson_step + 1 == len(lesson.steps)
    place = [each.name for each in everyone].index(lesson.name) + 1
    following = everyone[place] if place < len(everyone) else None
    return {
        "try": lesson.then_try if last else "",
        "next": following.name if following and last else "",
        "next_title": following.title if following and last else "",
        "title": desk.lesson.title,
        "number": desk.lesson_step + 1,
        "count": len(desk.lesson.steps),
        "say": write(step.say, system=system),
        "do": write(step.do, system=system),
        "look": step.look,
        "beam": step.beam,
    }
