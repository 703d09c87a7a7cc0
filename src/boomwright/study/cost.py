"""What it takes and what it costs: the bill of a plan, priced from the owner's own list."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import partial
from typing import Any

from boomwright.base import BoomwrightError, Fault, Finding, Notice, PlanError, UnitSystem
from boomwright.base.files import PRICE_LIST, ReadFile, last_part, no_files
from boomwright.base.records import dataclass, replace
from boomwright.cost import (
    AskedPrice,
    Bill,
    Estimate,
    Price,
    Sensitivity,
    asked_prices,
    blank_prices,
    read_price_tables,
    read_prices,
    sensitivities,
)
from boomwright.plan import Plan
from boomwright.plan.read import parse_toml
from boomwright.study.declination import middle_of_model

_PRICE_TABLE = re.compile(r"^[ \t]*(?:\[\[[ \t]*price[ \t]*\]\]|price[ \t]*=)", re.MULTILINE)
#: what is changed to see what it costs: choice, step in its unit
ONE_METRE_MORE = "height, one metre more"
_STEPS = {ONE_METRE_MORE: 1.0, "one element more": 1.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class Costing:
    """The bill of a plan and what it costs."""

    plan: Plan
    bill: Bill  #: the bill of quantities
    estimate: Estimate | None  #: the estimate; None when there is no [prices] table
    changes: tuple[Sensitivity, ...]  #: what one metre more height and one element more cost
    price_list: str  #: name of the price list, or empty when there is none
    today: str  #: day the ages of prices are counted to, ``2026-01-31``
    notices: tuple[Notice, ...]  #: everything missing, doubtful or over the budget

    @property
    def exceeded(self) -> tuple[Notice, ...]:
        """Limits passed: the budget."""
        return tuple(notice for notice in self.notices if notice.severity == "limit")

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What counts of it in the verdict of the plan: nothing where no budget is given."""
        made = self.estimate
        return () if made is None or made.budget is None else (_budget_finding(made),)


def day_without_clock(plan: Plan, *, prices: Iterable[Price] = ()) -> str:
    """Day to count to where nobody names one: the plan's, else that of its newest price.

    Returns:
        the day, ``2026-01-31``; the middle of the years of the declination without either
    """
    return plan.dated or _newest(prices) or middle_of_model()


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceList:
    """A price list as it was read."""

    name: str  #: name of its file
    prices: tuple[Price, ...]  #: the prices (n_prices,)


def read_price_list(content: bytes, *, name: str) -> PriceList:
    """Read a price list, CSV or TOML by its name.

    Raises:
        PlanError: with every fault found
    """
    text, source = content.decode("utf-8-sig", errors="replace"), last_part(name)
    if not name.lower().endswith(".toml"):
        return PriceList(name=name, prices=read_prices(text, source=source))
    remedy = "write [[price]] tables, texts in quotes"
    if _PRICE_TABLE.search(text) is None:
        # Nothing is said of what stands in a file that is no price list.
        fault = Fault(path="price", message="this is no price list", remedy=remedy)
        raise PlanError((fault,), source=source)
    try:
        found = parse_toml(text, source=source)
    except PlanError as error:
        faults = tuple(replace(each, path="price", remedy=remedy) for each in error.faults)
        raise PlanError(faults, source=source) from None
    return PriceList(name=name, prices=read_price_tables(found, source=source))


def listed_prices(plan: Plan, *, files: ReadFile) -> PriceList | None:
    """Read the price list that a plan names.

    Returns:
        None when the plan names no list, or there is no such file
    """
    listed = plan.prices.price_list if plan.prices is not None else ""
    if not listed:
        return None
    try:
        content = files(listed, "prices.list", PRICE_LIST)
    except FileNotFoundError:
        return None
    return read_price_list(content, name=listed)


def newest_price_day(plan: Plan, *, files: ReadFile) -> str:
    """Find the day of the newest price in the plan's own list.

    Returns:
        the day, ``2026-01-31``; empty without prices
    """
    found = listed_prices(plan, files=files)
    return _newest(found.prices) if found else ""


def _newest(prices: Iterable[Price]) -> str:
    return max((price.dated for price in prices), default="")


def price_plan(
    plan: Plan,
    *,
    files: ReadFile = no_files,
    prices: PriceList | None = None,
    today: str = "",
    changed: bool = True,
) -> Costing:
    """Take a plan apart into what must be bought, and price it.

    Args:
        prices: a price list in place of the plan's
        today: day the ages of prices are counted to; when empty the plan's, else that of the
            newest price
        changed: whether to price some small changes of the plan too
    """
    from boomwright.plan.resolve import plan_bill, plan_estimate

    found, name, notices = _prices_of(plan, files, prices)
    day = today or day_without_clock(plan, prices=found)
    bill = plan_bill(plan)
    made = plan_estimate(plan, prices=found, today=day, bill=bill)
    notices += [_NO_CURRENCY, *bill.notices] if made is None else made.notices
    return Costing(
        plan=plan,
        bill=bill,
        estimate=made,
        changes=_changes(plan, made, found, day) if changed and made is not None and found else (),
        price_list=name,
        today=day,
        notices=tuple(notices),
    )


_NO_CURRENCY = Notice(
    code="cost.no-currency",
    text="The plan has no currency and no price list, so nothing can be summed.",
    how='Add [prices] with currency = "EUR" or your own, and list = "prices.csv".',
    severity="doubt",
)


def blank_price_list(
    plan: Plan, *, files: ReadFile = no_files, prices: PriceList | None = None, system: UnitSystem
) -> str:
    """Write the price list that a plan asks for, with every price that is known already.

    Args:
        prices: a price list in place of the plan's
    """
    return blank_prices(**_asked(plan, files, prices), system=system)


def asked_price_rows(
    plan: Plan, *, files: ReadFile = no_files, system: UnitSystem
) -> tuple[AskedPrice, ...]:
    """Ask for the price of every line of a plan's bill; what its list knows stands in its row."""
    return asked_prices(**_asked(plan, files, None), system=system)


def _asked(plan: Plan, files: ReadFile, prices: PriceList | None) -> dict[str, Any]:
    """Lines of a plan's bill that have a price or want one, the prices known, and the currency."""
    from boomwright.plan.resolve import plan_bill

    found, _, _ = _prices_of(plan, files, prices)
    lines = [line for line in plan_bill(plan).lines if not line.is_open]
    return {
        "bill": [(line.group, line.name, line.unit) for line in lines],
        "prices": found,
        "currency": "" if plan.prices is None else plan.prices.currency,
    }


def _prices_of(
    plan: Plan, files: ReadFile, given: PriceList | None
) -> tuple[tuple[Price, ...], str, list[Notice]]:
    found = given or listed_prices(plan, files=files)
    if found is not None:
        return found.prices, found.name, []
    if plan.prices is None:
        return (), "", []
    listed = plan.prices.price_list
    if not listed:
        return (), "", [_missing("The plan names no price list, so no line has a price")]
    return (), "", [_missing(f"The price list {listed} is not beside the plan")]


def _missing(text: str) -> Notice:
    return Notice(
        code="cost.no-price-list",
        text=f"{text}. No prices come with this program.",
        how="Write your own dated prices into a file and name it as list in [prices]; "
        "cost --blank prices.csv writes the rows to fill in.",
        severity="doubt",
    )


def _changes(
    plan: Plan, planned: Estimate, prices: tuple[Price, ...], today: str
) -> tuple[Sensitivity, ...]:
    from boomwright.plan.resolve import longer_plan, plan_estimate, taller_plan

    taller, longer = _STEPS

    def run(choices: Mapping[str, float]) -> Estimate:
        changed = plan
        if choices[taller]:
            changed = taller_plan(changed, step=choices[taller])
        if choices[longer]:
            changed = longer_plan(changed)
        made = plan_estimate(changed, prices=prices, today=today)
        if made is None:
            raise BoomwrightError("a changed plan has lost its [prices] table")
        return made

    steps = dict(_STEPS)
    if len(plan.beams[0].elements) < 2:
        del steps[longer]
    try:
        return sensitivities(run, planned=planned, base=dict.fromkeys(_STEPS, 0.0), steps=steps)
    except PlanError:
        # A taller mast may contradict another value of the plan; then nothing is said.
        return ()


def _budget_finding(made: Estimate) -> Finding:
    """Hold the estimate against the budget."""
    found = partial(Finding, subject="cost", name="Estimate against the budget")
    use = made.total.likely / made.budget if made.budget else None
    if made.budget_verdict == "over":
        return found(
            verdict="exceeded",
            use=use,
            change="find cheaper ones for the dearest lines, or set a higher budget",
        )
    if made.budget_verdict == "within":
        return found(verdict="within", use=use)
    if made.unpriced:
        return found(
            verdict="not checked",
            reason="lines of the bill have no price",
            change="price every line of the bill",
        )
    if made.unsaid:
        return found(
            verdict="not checked",
            reason=f"nobody has said how much of: {', '.join(made.unsaid)}",
            change="say it under [prices], 0 where there is none",
        )
    return found(
        verdict="ask",
        reason="The estimate may be above or below the budget",
        change="ask for firm prices of the dearest lines",
    )
