"""The Cost sheet: what to buy and hire, from the owner's own dated prices."""

from __future__ import annotations

from boomwright.plan import Plan
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Sheet
from boomwright.web.sheets.shown_context import AskedField, Lack, asked_fields
from boomwright.web.sheets.work_context import WorkContext, work_context
from boomwright.web.view import View


def _asked(plan: Plan, view: View) -> tuple[AskedField, ...]:
    paid = plan.prices
    budget = "" if paid is None or paid.budget is None else f"{paid.budget:g}"
    rows = (
        ("Currency", "prices.currency", paid.currency if paid else "", "three letters: EUR, USD"),
        ("Budget", "prices.budget", budget, "a plain number in that currency"),
        ("Price list", "prices.list", paid.price_list if paid else "", "file beside the plan"),
    )
    return asked_fields(rows, view)


def _lacks(plan: Plan) -> tuple[Lack, ...]:
    if plan.prices is None:
        text = "Nothing can be summed without a currency."
        return (Lack(text=text, forms=(("prices", "Enter currency and price list"),)),)
    if not plan.prices.price_list:
        text = (
            "No prices come with this program. Write your own, dated, into a file beside the plan; "
            "every line that has a price is summed."
        )
        return (Lack(text=text, forms=(("prices.list", "Name the price list"),)),)
    return ()


def context(desk: PlanDesk, view: View, *, whole: bool) -> WorkContext:
    """Build the context of the Cost sheet."""
    return work_context(desk, view, subject="cost", whole=whole, lacks=_lacks, asked=_asked)


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the subject has come."""
    paid = desk.plan.prices
    if paid is None:
        return Mark(state="missing", text="the plan has no prices")
    if not paid.price_list:
        return Mark(state="doubtful", text="there is no price list")
    return Mark(state="done", text="priced from the owner's list")


COST = Sheet(
    noun="Cost",
    slug="cost",
    template="work.html",
    doing="Counting what to buy",
    context=context,
    mark=mark,
)
