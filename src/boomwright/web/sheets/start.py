"""The Start sheet: a new plan, which station suits a place, recent plans, lessons."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from boomwright import charts
from boomwright.base import UnitSystem, written_notices
from boomwright.plan.bands import AMATEUR_BANDS
from boomwright.plan.shapes import shape_nouns
from boomwright.plan.vocabulary import SUPPORT_KINDS
from boomwright.report.model import Canvas
from boomwright.solver import GROUND_CLASSES
from boomwright.study.advice.wishing import ROWS
from boomwright.web.colours import page_palette
from boomwright.web.desk_plans import DeskPlans
from boomwright.web.sheets.start_context import LessonRow, PlanRow, RecentRow, StartContext
from boomwright.web.stations import Stations

if TYPE_CHECKING:
    from boomwright.charts import ShownSubject

#: widths of the stations' pictures on a wide and on a narrow window [user units]
_WIDE, _NARROW = 760.0, 350.0
#: what the form has for a notice that names keys of the file, by the notice's code
_ON_THE_FORM = {
    "advise.no-targets": "Fill in Place and What to reach, and ask again.",
    "advise.no-standing": "Name it under What stands there already, and ask again.",
    "advise.no-crew": "Fill in People on the ground under Crew, power and money, and ask again.",
}


@lru_cache(maxsize=1)
def _place_map() -> str:
    from boomwright.study.reach import read_coastlines

    return charts.place_map(coastlines=read_coastlines(), palette=page_palette())


def start_context(plans: DeskPlans) -> StartContext:
    """Build the context of the Start sheet."""
    library, desk = plans.known_library, plans.desk
    here = "" if desk is None or desk.lesson is not None else desk.name
    lesson = "" if desk is None or desk.lesson is None else desk.lesson.name
    return StartContext(
        folder="" if library is None else library.folder_name,
        title="" if desk is None else desk.plan.title,
        own=bool(here),
        plans=tuple(
            PlanRow(
                name=plan.name,
                title=plan.title,
                changed=f"{plan.changed:%Y-%m-%d %H:%M}",
                here=plan.name == here,
                place=plan.place,
            )
            for plan in (() if library is None else library.plans())
        ),
        recent=tuple(
            RecentRow(
                name=plan.name,
                opened=f"{plan.opened:%Y-%m-%d %H:%M}",
                folder=plan.folder,
                here=not plan.folder and plan.name == here,
            )
            for plan in (() if library is None else library.recent())
        ),
        lessons=tuple(
            LessonRow(name=each.name, title=each.title, aim=each.aim, here=each.name == lesson)
            for each in (() if library is None else library.lessons())
        ),
        bands=tuple(AMATEUR_BANDS),
        shapes=shape_nouns(),
        grounds=tuple(GROUND_CLASSES),
        supports=tuple(SUPPORT_KINDS),
        rows=tuple(range(ROWS)),
        place_map=_place_map(),
    )


def stations_shown(stations: Stations, *, system: UnitSystem, narrow: bool) -> ShownSubject | None:
    """Lay out the stations that were found last; None when there are none."""
    if stations.advice is None:
        return None
    from boomwright.render.laid import lay_out
    from boomwright.report.advice import advice_report

    width = _NARROW if narrow else _WIDE
    canvas = Canvas(palette=page_palette(), system=system, width=width)
    found = lay_out(advice_report(stations.advice), canvas=canvas)
    notices = (
        replace(each, how=_ON_THE_FORM.get(each.code, "")) for each in stations.advice.notices
    )
    return replace(found, notices=written_notices(notices, system=system))
