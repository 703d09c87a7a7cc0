"""The Plans sheet: the plans of the folder, new ones from wishes, lessons."""

from __future__ import annotations

from boomwright.plan.bands import AMATEUR_BANDS
from boomwright.solver import GROUND_CLASSES
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.plans_context import LessonRow, PlanRow, PlansContext, RecentRow
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.view import View


def context(desk: PlanDesk, view: View, *, whole: bool) -> PlansContext:
    """Build the context of the Plans sheet."""
    library = desk.library
    bands = tuple(AMATEUR_BANDS)
    grounds = ("free space", "perfect", *GROUND_CLASSES)
    if library is None:
        return PlansContext(
            folder="",
            plans=(),
            recent=(),
            lessons=(),
            bands=bands,
            grounds=grounds,
        )
    return PlansContext(
        folder=library.folder_name,
        plans=tuple(
            PlanRow(
                name=plan.name,
                title=plan.title,
                changed=f"{plan.changed:%Y-%m-%d %H:%M}",
                here=desk.lesson is None and plan.name == desk.name,
            )
            for plan in library.plans()
        ),
        recent=tuple(
            RecentRow(
                name=plan.name,
                opened=f"{plan.opened:%Y-%m-%d %H:%M}",
                command=plan.command,
                here=desk.lesson is None and not plan.command and plan.name == desk.name,
            )
            for plan in library.recent()
        ),
        lessons=tuple(
            LessonRow(
                name=lesson.name,
                title=lesson.title,
                aim=lesson.aim,
                here=desk.lesson is not None and lesson.name == desk.lesson.name,
            )
            for lesson in library.lessons()
        ),
        bands=bands,
        grounds=grounds,
    )


def full(desk: PlanDesk, view: View) -> Paint:
    """Paint nothing: what is typed on this sheet must stay."""
    return {}


PLANS = Sheet(noun="Plans", slug="plans", template="plans.html", context=context, full=full)
