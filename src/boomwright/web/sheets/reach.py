"""The Reach sheet: what the height gives, where it goes, and who stands near it."""

from __future__ import annotations

from boomwright.plan import Plan
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.reach_asked import asked_of_reach, named_lists
from boomwright.web.sheets.reach_context import ReachContext
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import beam_subject, subject_parts
from boomwright.web.view import View

#: parts of the sheet
_GROUPS = (
    ("height", "What the height gives", "Gain at low angles for every height, and what it costs"),
    ("paths", "Where it goes", "Angles and gain towards each place, and who hears the back"),
    ("stack", "Beams together", "Gain and angle of the beams fed as one"),
    ("people", "Who stands near it", "Fields where people are, and how far to stay away"),
)


def context(desk: PlanDesk, view: View, *, whole: bool) -> ReachContext:
    """Build the context of the Reach sheet."""
    plan = desk.plan
    found = beam_subject(desk, view, name="reach", compute=desk.session.reach, whole=whole)
    return ReachContext(
        asked=asked_of_reach(plan, view),
        named=named_lists(plan, view),
        lacking=bool(_lacks(plan)),
        **subject_parts(found, system=view.system, groups=_GROUPS),
    )


def _lacks(plan: Plan) -> list[str]:
    lacking = []
    if plan.reach is None or not plan.reach.target:
        lacking.append("no place to be reached")
    if plan.permits is None or not plan.permits.exposure or plan.transmitter is None:
        lacking.append("no place with people held against limits")
    return lacking


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    plan = desk.plan
    if plan.site.ground.kind == "free space":
        return Mark(state="missing", text="the plan says free space: no ground, no lobes")
    lacking = _lacks(plan)
    if lacking:
        return Mark(state="doubtful", text="; ".join(lacking))
    return Mark(state="done", text="targets and places with people are named")


REACH = Sheet(
    noun="Reach",
    slug="reach",
    template="reach.html",
    doing="Computing heights, paths and fields",
    context=context,
    mark=mark,
)
