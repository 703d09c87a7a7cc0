"""The Permits sheet: may it stand, and whom to ask."""

from __future__ import annotations

from boomwright.base.quantity import PerSystem
from boomwright.charts import ShownSubject
from boomwright.plan import Plan
from boomwright.report.model import Canvas
from boomwright.web.colours import page_palette
from boomwright.web.readout import long_length
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.permits_context import PermitsContext
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import (
    AskedField,
    Lack,
    asked_fields,
    known_subject,
    subject_parts,
)
from boomwright.web.view import View

_PALETTE = page_palette()
_GROUPS = (
    ("pictures", "What stands near", "Map of lines, ways and boundary; slopes of the airports"),
    ("findings", "Findings", "Each rule: what it asks of you, and which office decides"),
)


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    given = plan.permits

    def length(value: float | None) -> str:
        return "" if value is None else long_length(value, system=view.system)

    rows = (
        ("Country", "permits.country", given.country if given else "", "two letters: GB, US"),
        ("Boundary", "permits.boundary", length(given.boundary if given else None),
         "foot of the support to the nearest boundary"),
        ("Public way", "permits.walkway", length(given.walkway if given else None),
         "foot of the support to the nearest public way"),
        ("Crane", "permits.crane", length(given.crane if given and given.crane else None),
         "its highest position, 0 when none comes"),
        ("Lightning rod", "permits.lightning_rod",
         length(given.lightning_rod if given and given.lightning_rod else None),
         "its tip above ground, 0 when there is none"),
        ("Ground above sea", "site.elevation", length(plan.site.elevation),
         PerSystem(metric="such as 22 m", us="such as 72 ft")),
    )  # fmt: skip
    return asked_fields(rows, view)


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    found = []
    given = plan.permits
    if plan.site.latitude is None:
        text = "The plan gives no position, so no airport around can be looked up."
        found.append(Lack(text=text, forms=(("site.position", "Enter the position"),)))
    if given is None:
        text = "Nothing is said about the surroundings. Type what you know here."
        found.append(Lack(text=text, forms=(("permits", "Enter the surroundings"),)))
    elif not given.country:
        text = "No country is entered. The finding Country tells where the position lies."
        found.append(Lack(text=text, forms=(("permits.country", "Enter the country"),)))
    if given is not None and not given.lines_surveyed:
        text = (
            "Nobody has said that they looked for power lines. Walk the place, add every line, "
            "then sign that you looked."
        )
        new = f"permits.power_line[{len(given.power_line)}]"
        forms = ((new, "Add a power line"), ("permits.power_lines_surveyed", "Sign the survey"))
        found.append(Lack(text=text, forms=forms))
    if given is not None and not (given.exposure and plan.transmitter):
        text = (
            "Fields where people are can be computed once the plan lists those places and the "
            "transmitter."
        )
        people = [(f"permits.exposure[{len(given.exposure)}]", "Add a place with people")]
        if plan.transmitter is None:
            people.append(("transmitter", "Add the transmitter"))
        found.append(Lack(text=text, forms=tuple(people)))
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> PermitsContext:
    """Build the context of the Permits sheet."""
    _, plan = desk.snapshot()

    def make(width: float) -> ShownSubject:
        canvas = Canvas(palette=_PALETTE, system=view.system, width=width, forms=True)
        return desk.session.permits(plan, canvas=canvas)

    found = known_subject(desk, view, name="permits", make=make, whole=whole)
    parts = subject_parts(found, system=view.system, groups=_GROUPS)
    # The sheet begins with it.
    parts["facts"] = tuple(each for each in parts["facts"] if each.label != "Note")
    return PermitsContext(lacks=_lacks(plan), asked=_asked(plan, view), **parts)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    given = desk.plan.permits
    if given is None:
        return Mark(state="missing", text="the plan says nothing about the surroundings")
    if _lacks(desk.plan) or given.boundary is None or not given.country:
        return Mark(state="doubtful", text="position, country, boundary or power lines are lacking")
    return Mark(state="done", text="the surroundings are given; each finding names whom to ask")


PERMITS = Sheet(
    noun="Permits",
    slug="permits",
    template="permits.html",
    doing="Looking up rules and airports",
    context=context,
    mark=mark,
)
