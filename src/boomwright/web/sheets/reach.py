"""The Reach sheet: what the height gives, where it goes, and who stands near it."""

from __future__ import annotations

from typing import Any

from boomwright.base import BoomwrightError
from boomwright.charts import ShownSubject, ShownTable
from boomwright.plan import Plan
from boomwright.web.colours import page_palette
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.context_parts import Table
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.reach_asked import asked_fields, named_lists
from boomwright.web.sheets.reach_context import Fact, ReachContext, ReachPicture, ReachTable
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.view import View

_PALETTE = page_palette()
_WIDTH, _NARROW_WIDTH = 500.0, 390.0

#: parts of the sheet, and what belongs to each
_GROUPS = (
    ("height", "What the height gives"),
    ("paths", "Where it goes"),
    ("stack", "Beams together"),
    ("people", "Who stands near it"),
)
_GROUP_OF = {
    "heights": "height",
    "height-costs": "height",
    "lobe-steps": "height",
    "terrain-profile": "height",
    "height-map": "height",
    "plain-antennas": "height",
    "terrain": "height",
    "advantages": "height",
    "map": "paths",
    "paths": "paths",
    "hops": "paths",
    "hop-angles": "paths",
    "pointing": "paths",
}


def _group(name: str) -> str:
    if name.startswith("stack"):
        return "stack"
    return _GROUP_OF.get(name, "people")


def _table(shown: ShownTable) -> Table:
    return Table(caption=shown.caption, columns=shown.table.header, rows=shown.table.rows)


def _subject(desk: PlanDesk, view: View) -> ShownSubject | str:
    """Compute once for each state of the plan; words when it cannot be."""
    revision, plan = desk.snapshot()
    name = ("reach", view.beam, view.system, view.narrow, revision)
    kept = desk.looks.get(name)
    if isinstance(kept, (ShownSubject, str)):
        return kept
    try:
        found: ShownSubject | str = desk.tools.reach(
            plan,
            number=min(view.beam, len(plan.beams) - 1),
            system=view.system,
            palette=_PALETTE,
            width=_NARROW_WIDTH if view.narrow else _WIDTH,
        )
    except BoomwrightError as error:
        found = str(error)
    desk.looks.put(name, found)
    return found


def context(desk: PlanDesk, view: View, *, whole: bool) -> ReachContext:
    """Build the context of the Reach sheet.

    Parameters
    ----------
    whole
        whether to compute; otherwise only what is known already is shown
    """
    name = ("reach", view.beam, view.system, view.narrow, desk.revision)
    found = _subject(desk, view) if whole else desk.looks.get(name)
    plan = desk.plan
    shown = found if isinstance(found, ShownSubject) else None
    trouble = found if isinstance(found, str) else ""
    return ReachContext(
        asked=asked_fields(plan, view),
        named=named_lists(plan, view),
        lacking=bool(_lacks(plan)),
        **(_empty(trouble) if shown is None else _filled(shown)),
    )


def _empty(trouble: str) -> dict[str, Any]:
    return {
        "ready": bool(trouble),
        "trouble": trouble,
        "facts": (),
        "groups": (),
        "pictures": (),
        "figures": {},
        "tables": {},
        "lists": (),
        "notices": (),
    }


def _filled(subject: ShownSubject) -> dict[str, Any]:
    used = {_group(each.name) for each in subject.pictures}
    used |= {_group(each.name) for each in subject.tables}
    return {
        "ready": True,
        "trouble": "",
        "facts": tuple(Fact(label=label, value=value) for label, value in subject.facts),
        "groups": tuple(group for group in _GROUPS if group[0] in used),
        "pictures": tuple(
            ReachPicture(
                name=each.name,
                words=each.words,
                caption=each.caption,
                group=_group(each.name),
            )
            for each in subject.pictures
        ),
        "figures": {each.name: each.svg for each in subject.pictures},
        "tables": {each.name: _table(each.behind) for each in subject.pictures},
        "lists": tuple(
            ReachTable(name=each.name, group=_group(each.name), table=_table(each), note=each.note)
            for each in subject.tables
        ),
        "notices": subject.notices,
    }


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


REACH = Sheet(noun="Reach", slug="reach", template="reach.html", context=context, mark=mark)
