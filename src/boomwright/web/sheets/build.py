"""The Build sheet: cut list, elements, boom, plates, feed, order of assembly."""

from __future__ import annotations

from boomwright.plan import Plan
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import AskedField, Lack
from boomwright.web.sheets.work_context import WorkContext, work_context
from boomwright.web.view import View


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    return ()


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    found = []
    names = {number: each.name for number, each in enumerate(plan.beams) if not each.boomless}
    bare = {number: name for number, name in names.items() if plan.boom_of(name) is None}
    if bare:
        text = "The boom's tube is not given, so its stations and plates cannot be drawn."
        forms = tuple(
            (f"beam[{number}].boom", f"Add the boom of {name}") for number, name in bare.items()
        )
        found.append(Lack(text=text, forms=forms))
    if names and (plan.support is None or plan.support.mast is None):
        text = "The mast is not given, so its plate cannot be drawn."
        found.append(Lack(text=text, forms=(("support.mast", "Add the mast"),)))
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> WorkContext:
    """Build the context of the Build sheet."""
    return work_context(desk, view, subject="build", whole=whole, lacks=_lacks, asked=_asked)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    if _lacks(desk.plan):
        return Mark(state="doubtful", text="boom or mast are not given")
    return Mark(state="done", text="every part has its sheet")


BUILD = Sheet(
    noun="Build",
    slug="build",
    template="work.html",
    doing="Working out the drawings",
    context=context,
    mark=mark,
)
