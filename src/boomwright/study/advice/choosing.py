"""What follows the advice: the price list to fill in, and the plan of the station chosen."""

from __future__ import annotations

from typing import Final

from boomwright.base import UnitSystem
from boomwright.base.files import ReadFile, no_files
from boomwright.cost import blank_prices
from boomwright.plan import write_plan
from boomwright.plan.forms import restated
from boomwright.plan.resolve import plan_bill
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.judged import Candidate
from boomwright.study.cost import listed_prices

_HEAD: Final = """\
# {name}, one of {count} stations tried for this place.
# Assumed, because the place does not say it:
{assumed}
# Before anything is built: boomwright check, structure, permits and raise name what is open.

"""


def prices_to_fill(advice: Advice, *, system: UnitSystem, files: ReadFile = no_files) -> str:
    """Write the price list that all candidates together ask for; known prices stand."""
    place = advice.plan
    known = listed_prices(place, files=files)
    bills = (
        plan_bill(each.plan) if each.costing is None else each.costing.bill
        for each in advice.candidates
    )
    rows = {
        (line.group, line.name, line.unit): None
        for bill in bills
        for line in bill.lines
        if not line.is_open
    }
    return blank_prices(
        [*rows],
        prices=() if known is None else known.prices,
        currency="" if place.prices is None else place.prices.currency,
        system=system,
    )


def chosen_text(advice: Advice, candidate: Candidate) -> str:
    """Write the plan of a chosen station; what was assumed stands first."""
    lines = "\n".join(f"#  - {each}" for each in candidate.assumed or ("nothing",))
    head = _HEAD.format(name=candidate.name, count=len(advice.candidates), assumed=lines)
    return head + restated(write_plan(candidate.plan), system=advice.system)
