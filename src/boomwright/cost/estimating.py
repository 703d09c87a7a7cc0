"""From bill and price list to an estimate: three points, what is not priced, what is old."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Final, Literal

from boomwright.base import Notice
from boomwright.base.days import day_number
from boomwright.base.quantity import Phrase, Quantity, Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.cost.bill import Bill, BillLine, counted
from boomwright.cost.prices import Price, listed_price, price_key, unmatched_prices
from boomwright.cost.station_bill import SERVICES

#: a price older than this is flagged [day] {common-practice-estimating}
OLD_AFTER_DAYS: Final = 180
#: share added for what nobody thought of [-] {common-practice-estimating}
CONTINGENCY: Final = 0.15

BudgetVerdict = Literal["within", "over", "cannot tell", "no budget"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """Three amounts."""

    low: float  #: least [currency]
    likely: float  #: likely [currency]
    high: float  #: most [currency]


@dataclass(frozen=True, slots=True, kw_only=True)
class EstimateLine:
    """One bill line with its price."""

    bill: BillLine
    price: Price | None  #: price used; None when not priced
    #: quantity times price; None when not priced, never zero instead [currency]
    amounts: Amounts | None
    remark: str  #: ``not priced``, age of an old price, or empty
    old: bool  #: True when the price is older than allowed


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """The estimate."""

    lines: tuple[EstimateLine, ...]  #: all lines, priced or not (n_lines,)
    currency: str  #: currency of all amounts
    priced: Amounts  #: sums of the priced lines: all low, all likely, all high [currency]
    tax: float  #: tax on the likely sum [currency]
    contingency: float  #: added to the likely sum with its tax [currency]
    total: Amounts  #: likely sum with both and its root-sum-square band, taxed alike [currency]
    unpriced: tuple[str, ...]  #: items without a price
    unsaid: tuple[str, ...]  #: what is paid for besides, of which nobody has said how much
    old: tuple[str, ...]  #: items with an old price
    labour_hours: float  #: owner's own hours, not priced [h]
    budget: float | None  #: owner's budget; None when none was given [currency]
    budget_verdict: BudgetVerdict  #: ``within``, ``over``, ``cannot tell`` or ``no budget``
    notices: tuple[Notice, ...]  #: doubts and limits

    @property
    def nothing_priced(self) -> bool:
        """Whether no line has a price, so that there is no sum."""
        return all(line.amounts is None for line in self.lines)


#: so many lines without a price are named in a notice; the bill shows them all [-]
_NAMED: Final = 6


def _line(
    bill: BillLine,
    found: tuple[Price, float] | None,
    *,
    currency: str,
    today: int,
    old_after_days: int,
) -> EstimateLine:
    if bill.is_open:
        return EstimateLine(bill=bill, price=None, amounts=None, remark="not said", old=False)
    price, quantity = (None, 0.0) if found is None else (found[0], bill.quantity * found[1])
    if price is None or price.currency != currency:
        remark = "not priced" if price is None else f"not priced in {currency}, only in "
        remark += "" if price is None else price.currency
        return EstimateLine(bill=bill, price=None, amounts=None, remark=remark, old=False)
    age = today - day_number(price.dated)
    old = age > old_after_days
    remark = ""
    if old:
        remark = f"price is {age} days old: ask again"
    elif age < 0:
        remark = f"price is dated {-age} days ahead"
    return EstimateLine(
        bill=bill,
        price=price,
        amounts=Amounts(
            low=quantity * price.low,
            likely=quantity * price.likely,
            high=quantity * price.high,
        ),
        remark=remark,
        old=old,
    )


def _totals(
    lines: tuple[EstimateLine, ...], share: float, tax: float
) -> tuple[Amounts, float, float, Amounts]:
    amounts = [line.amounts for line in lines if line.amounts is not None]
    priced = Amounts(
        low=sum(a.low for a in amounts),
        likely=sum(a.likely for a in amounts),
        high=sum(a.high for a in amounts),
    )
    added = tax * priced.likely
    contingency = share * (priced.likely + added)
    centre = priced.likely + added + contingency
    down = (1.0 + tax) * math.sqrt(sum((a.likely - a.low) ** 2 for a in amounts))
    up = (1.0 + tax) * math.sqrt(sum((a.high - a.likely) ** 2 for a in amounts))
    return priced, added, contingency, Amounts(low=centre - down, likely=centre, high=centre + up)


def _budget_verdict(budget: float | None, total: Amounts, *, complete: bool) -> BudgetVerdict:
    if budget is None:
        return "no budget"
    if total.likely > budget:
        return "over"
    # A part of the bill without a price, or a band that crosses the budget, settles nothing.
    return "within" if complete and total.high <= budget else "cannot tell"


def in_currency(amount: float, currency: str) -> Phrase:
    """Name an amount of money.

    Args:
        amount: [currency]
    """
    return phrase("{amount} {currency}", amount=Quantity(amount, "money"), currency=currency)


def _notices(
    *,
    unpriced: Sequence[Value],
    old: Sequence[Value],
    verdict: BudgetVerdict,
    total: Amounts,
    budget: float | None,
    currency: str,
    old_after_days: int,
) -> tuple[Notice, ...]:
    notices: list[Notice] = []
    if unpriced:
        named = list(unpriced[:_NAMED])
        if len(unpriced) > _NAMED:
            named.append(f"and {len(unpriced) - _NAMED} more")
        notices.append(
            Notice(
                code="cost.not-priced",
                text=phrase(
                    "{count} lines have no price and are not in the total: {items}.",
                    count=len(unpriced),
                    items=listed(named, between="; "),
                ),
                severity="doubt",
            )
        )
    if old:
        notices.append(
            Notice(
                code="cost.old-price",
                text=phrase(
                    "{count} prices are old; ask again: {items}.",
                    count=len(old),
                    items=listed(old, between="; "),
                ),
                severity="doubt",
                limit=f"{old_after_days} days",
            )
        )
    if verdict == "over":
        notices.append(
            Notice(
                code="cost.over-budget",
                text="The likely total is over the budget.",
                severity="limit",
                value=in_currency(total.likely, currency),
                limit=in_currency(budget or 0.0, currency),
            )
        )
    return tuple(notices)


def estimate(
    bill: Bill,
    *,
    prices: tuple[Price, ...],
    currency: str,
    today: str,
    budget: float | None = None,
    contingency: float = CONTINGENCY,
    tax: float = 0.0,
    old_after_days: int = OLD_AFTER_DAYS,
) -> Estimate:
    """Price a bill.

    Args:
        currency: currency to sum in; prices in another one count as not priced
        today: day the ages are counted to, ``2026-01-31``
        budget: owner's budget, or None [currency]
        contingency: share added to the likely sum [-]
        tax: share added to every price [-]
        old_after_days: age at which a price is flagged [day]
    """
    table = {price_key(price.item, price.unit): price for price in prices}
    lines = tuple(
        _line(
            line,
            listed_price(table, line.name, line.unit),
            currency=currency,
            today=day_number(today),
            old_after_days=old_after_days,
        )
        for line in bill.lines
    )
    priced, taxed, added, total = _totals(lines, contingency, tax)
    unpriced = [line.bill for line in lines if line.amounts is None and not line.bill.is_open]
    unsaid = [line.item for line in bill.lines if line.is_open]
    old = [line.bill for line in lines if line.old]
    verdict = _budget_verdict(budget, total, complete=not (unpriced or unsaid))
    notices = _notices(
        unpriced=[bill.name for bill in unpriced],
        old=[bill.name for bill in old],
        verdict=verdict,
        total=total,
        budget=budget,
        currency=currency,
        old_after_days=old_after_days,
    )
    return Estimate(
        lines=lines,
        currency=currency,
        priced=priced,
        tax=taxed,
        contingency=added,
        total=total,
        unpriced=tuple(bill.item for bill in unpriced),
        unsaid=tuple(unsaid),
        old=tuple(bill.item for bill in old),
        labour_hours=bill.labour_hours,
        budget=budget,
        budget_verdict=verdict,
        notices=(*bill.notices, *notices, *_unmatched(bill, prices)),
    )


def _unmatched(bill: Bill, prices: tuple[Price, ...]) -> tuple[Notice, ...]:
    """Name rows of the price list that nothing takes; other stock lengths of a tube may be cut."""
    found = unmatched_prices(
        prices,
        [(line.name, line.unit) for line in bill.lines if not line.is_open],
        known=(*SERVICES, *(phrase("{tube},", tube=order.kind.told) for order in bill.tubes)),
    )
    if not found:
        return ()
    rows = [
        phrase(
            "{place}: {item} ({unit}){meant}", place=price.place or "a row", item=price.item,
            unit=price.unit, meant=f", perhaps {meant}" if meant else "",
        )
        for price, meant in found
    ]  # fmt: skip
    return (
        Notice(
            code="cost.price-matches-nothing",
            text=phrase(
                "Not found in the bill, {count} of the price list: {rows}. Write item and unit "
                "as the bill does, or leave them for another plan.",
                count=counted(len(found), "row"), rows=listed(rows, between="; "),
            ),
            severity="doubt",
        ),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """What a small change of one choice costs."""

    name: str  #: choice that was changed
    step: float  #: by how much [unit of the choice]
    change: Amounts  #: change of the total, low, likely and high [currency]
    #: lines without a price more or fewer; other than 0 the change is not the whole one
    unpriced_change: int


def sensitivities(
    run: Callable[[Mapping[str, float]], Estimate],
    *,
    planned: Estimate,
    base: Mapping[str, float],
    steps: Mapping[str, float],
) -> tuple[Sensitivity, ...]:
    """Cost of one more metre, one more square metre, and the like, by estimating again.

    Args:
        run: makes an estimate from named choices, such as ``tower_height``
        planned: the estimate of the choices as planned
        base: choices as planned [own units]
        steps: how much to change each, one at a time [own units]
    """
    found: list[Sensitivity] = []
    for name, step in steps.items():
        changed = run({**base, name: base[name] + step})
        found.append(
            Sensitivity(
                name=name,
                step=step,
                change=Amounts(
                    low=changed.total.low - planned.total.low,
                    likely=changed.total.likely - planned.total.likely,
                    high=changed.total.high - planned.total.high,
                ),
                unpriced_change=len(changed.unpriced) - len(planned.unpriced),
            )
        )
    return tuple(sorted(found, key=lambda item: -abs(item.change.likely)))
