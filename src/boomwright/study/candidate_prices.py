"""What a candidate costs, against the budget wished for."""

from __future__ import annotations

import re

from boomwright.base import BoomwrightError
from boomwright.base.files import FileRefusedError, ReadFile
from boomwright.plan import Plan
from boomwright.plan.model_work import PricesPlan
from boomwright.study.cost import Costing, price_plan
from boomwright.study.requests import RequestError

_BUDGET = re.compile(r"(?:([A-Za-z]{3})\s*)?([0-9]+(?:\.[0-9]+)?)(?:\s*([A-Za-z]{3}))?")


def prices_text(budget: str, prices: PricesPlan | None) -> str:
    """Write the [prices] table of new plans: the desk's currency and list, and the budget.

    Args:
        budget: budget as typed, or empty
        prices: currency and price list of the plan on the desk; None when none is known

    Returns:
        TOML text, empty when neither is known

    Raises:
        RequestError: when the budget is no sum of money, or in no currency or another one
    """
    amount, currency = _budget(budget)
    known = prices.currency if prices is not None else ""
    if amount is not None and not (currency or known):
        message = f'budget: in which currency? ({budget}) -> write it with its code, "{budget} EUR"'
        raise RequestError(message)
    if currency and known and currency != known:
        message = (
            f"budget: {currency} is not the currency of the plan on the desk, {known} -> say the "
            f"budget in {known}"
        )
        raise RequestError(message)
    if not (currency or known):
        return ""
    lines = ["", "[prices]", f'currency = "{currency or known}"']
    if amount is not None:
        lines.append(f"budget = {amount:g}")
    if prices is not None and prices.price_list:
        lines.append(f"list = {_quoted(prices.price_list)}")
    return "\n".join([*lines, ""])


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _budget(text: str) -> tuple[float | None, str]:
    if not text.strip():
        return None, ""
    found = _BUDGET.fullmatch(text.strip().replace(",", ""))
    if found is None or (found[1] and found[3]):
        message = f'budget: this is no sum of money ({text[:40]}) -> write it like "800 EUR"'
        raise RequestError(message)
    return float(found[2]), (found[1] or found[3] or "").upper()


def priced(plan: Plan, files: ReadFile) -> Costing | str:
    """Price a plan, or say why that cannot be."""
    if plan.prices is None:
        return "the plan on the desk has no [prices] table with a list"
    if not plan.prices.price_list:
        return "the plan on the desk names no price list: name one as list in its [prices]"
    try:
        costing = price_plan(plan, files=files)
    except FileRefusedError as error:
        return str(error)
    except BoomwrightError as error:
        return f"the price list has faults: {error}"
    except OSError as error:
        return f"the price list cannot be read: {error.strerror or type(error).__name__}"
    if not costing.price_list:
        return f"the price list {plan.prices.price_list} is not beside the plans"
    if costing.estimate is None or costing.estimate.priced.likely <= 0.0:
        return f"{costing.price_list} holds no price in {plan.prices.currency} for its parts"
    return costing


def within(costing: Costing | str) -> bool:
    """Tell whether a plan is not known to cost more than its budget.

    Returns:
        False when it is over
    """
    if isinstance(costing, str) or costing.estimate is None:
        return True
    return costing.estimate.budget_verdict != "over"


def price_words(costing: Costing | str, budget: str) -> str:
    """Say what a plan costs against its budget.

    Args:
        budget: budget as typed, or empty
    """
    if isinstance(costing, str) or costing.estimate is None:
        against = f", so not compared with the budget of {budget}" if budget else ""
        return f"not priced, because {costing}{against}"
    estimate = costing.estimate
    total, unit = estimate.total, estimate.currency
    words = (
        f"about {total.likely:.0f} {unit} ({total.low:.0f} to {total.high:.0f}) for the beam "
        f"alone, by {costing.price_list}; mast, rotator, line, freight, tax and papers come on top"
    )
    if estimate.unpriced:
        count = len(estimate.unpriced)
        words += f"; {count} part{'s' if count > 1 else ''} without a price not counted"
    if estimate.budget is None:
        return words
    budget_text = f"the budget of {estimate.budget:.0f} {unit}"
    if estimate.budget_verdict == "over":
        return f"{words}. Over {budget_text}"
    if not estimate.unpriced and total.high <= estimate.budget:
        return f"{words}. Within {budget_text}"
    return f"{words}. Whether that keeps {budget_text} cannot be told from it"
