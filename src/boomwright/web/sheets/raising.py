"""The Raising sheet: ways up, loads, people, weather, hold points, and what follows the lift."""

from __future__ import annotations

from boomwright.base import quantity_text
from boomwright.base.quantity import PerSystem
from boomwright.plan import Plan
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import AskedField, Lack, asked_fields
from boomwright.web.sheets.work_context import WorkContext, work_context
from boomwright.web.view import View


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    job = plan.raising

    def told(value: float | None, unit: str) -> str:
        return "" if value is None else quantity_text(value, unit=unit, system=view.system)

    gust = told(job.forecast_gust if job else None, "m/s")
    mass = told(job.mass if job else None, "kg")
    calm = PerSystem(
        metric="for the hours of the lift: 4 m/s", us="for the hours of the lift: 9 mph"
    )
    rows = (
        ("Weight as weighed", "raising.mass", mass, "with balun, coax, clamp, bridle and hook"),
        ("Gust forecast", "raising.forecast_gust", gust, calm),
    )
    return asked_fields(rows, view)


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    found = []
    if plan.raising is None:
        text = "Nothing is said about who raises it, with what, and where."
        ways = ("lift truck", "crane", "gin pole", "tram", "tilt")
        gear = tuple((f"raising.{way.replace(' ', '_')}", f"Add the {way}") for way in ways)
        forms = (("raising", "Enter crew and answers"), *gear)
        found.append(Lack(text=text, forms=forms))
    if plan.support is None:
        text = "The plan does not say what carries the beam."
        forms = (("support.tower", "Add the tower"), ("support.tube", "Add the tube"))
        found.append(Lack(text=text, forms=forms))
    if plan.permits is None or plan.permits.boundary is None:
        text = (
            "Nothing says how far the foot is from the boundary. The ground kept empty ends there."
        )
        found.append(Lack(text=text, forms=(("permits.boundary", "Enter the boundary"),)))
    if plan.permits is None or not plan.permits.lines_surveyed:
        text = "Nobody has said that they looked for power lines. Walk the place, then sign."
        found.append(Lack(text=text, forms=(("permits.power_lines_surveyed", "Sign the survey"),)))
    return tuple(found)


def context(desk: PlanDesk, view: View, *, whole: bool) -> WorkContext:
    """Build the context of the Raising sheet."""
    return work_context(desk, view, subject="raising", whole=whole, lacks=_lacks, asked=_asked)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    if desk.plan.raising is None:
        return Mark(state="missing", text="the plan says nothing about the raising")
    if _lacks(desk.plan):
        return Mark(state="doubtful", text="support, boundary or power lines are not given")
    return Mark(state="done", text="the job is described; people on the spot decide")


RAISING = Sheet(
    noun="Raising",
    slug="raising",
    template="work.html",
    doing="Planning the way up",
    context=context,
    mark=mark,
)
