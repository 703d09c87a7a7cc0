"""The Build sheet: cut list, elements, boom, plates, feed, order of assembly."""

from __future__ import annotations

from boomwright.plan import Plan
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import AskedField, Lack
from boomwright.web.sheets.work_context import WorkContext, work_context
from boomwright.web.view import View

_BOOM_EXAMPLE = """  [beam.boom]
  diameter = "51 mm"
  wall = "3.2 mm"
  length = "6.2 m"
  rear_end = "-0.1 m"
  material = "6061-T6"
"""


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    return ()


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    found = []
    if len(plan.booms) < len(plan.beams):
        text = "The boom's tube is not given, so its stations and plates cannot be drawn. Add:"
        found.append(Lack(text=text, example=_BOOM_EXAMPLE.rstrip()))
    if plan.support is None or plan.support.mast is None:
        text = "The mast is not given, so its plate cannot be drawn. Add [support.mast]:"
        example = '[support.mast]\ndiameter = "60.3 mm"\nwall = "5.5 mm"\nbearing = "15 m"\n'
        example += 'top = "16.4 m"\nmaterial = "A500 B round"'
        found.append(Lack(text=text, example=example))
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> WorkContext:
    """Build the context of the Build sheet.

    Args:
        whole: whether to compute; otherwise only what is known already is shown
    """
    return work_context(desk, view, subject="build", whole=whole, lacks=_lacks, asked=_asked)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    if _lacks(desk.plan):
        return Mark(state="doubtful", text="boom or mast are not given")
    return Mark(state="done", text="every part has its sheet")


BUILD = Sheet(noun="Build", slug="build", template="work.html", context=context, mark=mark)
