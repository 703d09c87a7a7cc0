"""The lines of the bill with their prices, and the sums."""

from __future__ import annotations

from typing import Any, Final

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.cost import Amounts, BillLine, Estimate, EstimateLine
from boomwright.report.model import Column, Fact, Report, Table, column
from boomwright.study.cost import Costing

#: units of a bill that a reader has in a system of his own, each with its kind
_KINDS: Final = {"m": "span", "m3": "volume", "kg": "mass"}


def cost_report(result: Costing) -> Report:
    """Say what to buy and hire, and what the priced part of it costs."""
    made = result.estimate
    tables: tuple[Table[Any], ...] = (_bill(result.bill.lines),)
    if made is not None:
        tables = (_priced(made), _sums(made, result))
    return Report(
        subject="cost",
        title=f"Cost of {result.plan.title}",
        answer=_answer(result),
        tables=tables,
        notices=result.notices,
    )


def _answer(result: Costing) -> tuple[Fact, ...]:
    made = result.estimate
    if made is None:
        return (Fact(label="Estimate", value="none: the plan has no [prices]"),)
    total = phrase(
        "{likely} {currency}, from {low} to {high}",
        likely=_money(made.total.likely),
        low=_money(made.total.low),
        high=_money(made.total.high),
        currency=made.currency,
    )
    return (
        Fact(label="Estimate of the priced lines, with contingency", value=total),
        Fact(label="Lines without a price, not in the total", value=len(made.unpriced)),
        Fact(label="Budget", value=made.budget_verdict),
    )


def _money(value: float) -> Quantity:
    return Quantity(value, "money")


def _quantity(line: BillLine) -> Value:
    if line.unit in _KINDS:
        return Quantity(line.quantity, _KINDS[line.unit])
    return phrase("{count} {unit}", count=Quantity(line.quantity, "amount"), unit=line.unit)


def _bill(lines: tuple[BillLine, ...]) -> Table[BillLine]:
    return Table(
        name="bill",
        caption="What to buy and hire",
        columns=(
            column("group", lambda line: line.group, key="group"),
            column("item", lambda line: line.item, key="item"),
            column("quantity", _quantity),
            column("follows from", lambda line: line.driver, key="driver", full=True),
        ),
        items=lines,
        sentences=True,
    )


def _amounts(get: Any, currency: str) -> tuple[Column[Any], ...]:
    """Columns of three amounts; an item without any says so in the first."""

    def cell(name: str, otherwise: str) -> Any:
        def told(item: Any) -> Value:
            amounts: Amounts | None = get(item)
            return otherwise if amounts is None else _money(getattr(amounts, name))

        return told

    return (
        column(f"low, {currency}", cell("low", "not priced")),
        column(f"likely, {currency}", cell("likely", "")),
        column(f"high, {currency}", cell("high", "")),
    )


def _priced(made: Estimate) -> Table[EstimateLine]:
    return Table(
        name="bill",
        caption="What to buy and hire, with its price",
        columns=(
            column("group", lambda line: line.bill.group),
            column("item", lambda line: line.bill.item),
            column("quantity", lambda line: _quantity(line.bill)),
            *_amounts(lambda line: line.amounts, made.currency),
            column("priced on", lambda line: line.price.dated if line.price else ""),
            column("remark", lambda line: line.remark),
        ),
        items=made.lines,
    )


def _sums(made: Estimate, result: Costing) -> Table[tuple[str, Amounts]]:
    sums = [("Priced lines", made.priced), ("Estimate, with contingency", made.total)]
    sums += [(f"More for {change.name}", change.change) for change in result.changes]
    return Table(
        name="sums",
        caption="Sums, and what one step more of a choice costs",
        columns=(
            column("sum", lambda item: item[0]),
            *_amounts(lambda item: item[1], made.currency),
        ),
        items=sums,
        note="Lines without a price are not in the total.",
    )
