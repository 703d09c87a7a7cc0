"""What there is to say of what to buy and hire, of what it costs, and of what is cut from what."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Final

from boomwright.base.quantity import PerReader, Quantity, Value, listed, phrase, places_in, settled
from boomwright.cost import (
    Amounts,
    Bar,
    BillLine,
    BudgetVerdict,
    Estimate,
    EstimateLine,
    TubeOrder,
    TubePiece,
    in_currency,
)
from boomwright.report.model import Column, Fact, Report, Table, column, fact, facts_table
from boomwright.study.cost import ONE_METRE_MORE, Costing

#: units of a bill that a reader has in a system of his own, each with its kind
_KINDS: Final = {"m": "bought length", "m3": "volume", "kg": "mass"}
#: what several of a counted unit are called
_SEVERAL: Final = {
    "length": "lengths", "day": "days", "delivery": "deliveries", "set": "sets", "year": "years",
}  # fmt: skip
_BUDGET: Final[dict[BudgetVerdict, str]] = {
    "within": "the estimate is within it",
    "over": "the likely estimate is over it",
    "cannot tell": "cannot tell: the estimate may be above or below it",
    "no budget": "",
}


def cost_report(result: Costing) -> Report:
    """Say what to buy and hire, and what the priced part of it costs."""
    made, answer = result.estimate, _answer(result)
    tables: tuple[Table[Any], ...] = (_bill(result),)
    if made is not None and not made.nothing_priced:
        tables = (*tables, _sums(made, result))
    return Report(
        subject="cost",
        title="Quantities and cost",
        answer=answer,
        # The build sheets have the cutting plans, beside the saw.
        sheet=(facts_table("answer", "", answer), *tables),
        tables=(*tables, *map(cutting_table, result.bill.tubes)),
        brief=(_dearest(tables[0]),),
        next=tuple(_steps(result)),
        findings=result.findings,
        notices=result.notices,
    )


def _answer(result: Costing) -> tuple[Fact, ...]:
    made = result.estimate
    if made is None:
        return (fact("Estimate", "none: the plan names no prices"),)
    facts = [fact("Estimate", estimate_told(made))]
    if made.budget is not None:
        budget = in_currency(made.budget, made.currency)
        held = phrase("{budget}: {held}", budget=budget, held=_BUDGET[made.budget_verdict])
        facts.append(fact("Budget", held))
    if made.unpriced:
        facts.append(fact("Lines without a price", len(made.unpriced)))
    if made.labour_hours:
        hours = phrase("{hours:number} h, not priced", hours=made.labour_hours)
        facts.append(fact("Own time", hours))
    if not made.nothing_priced:
        facts.append(fact("Not in the estimate", _LEFT_OUT))
    dated = f"{result.price_list or 'none'}; age of prices counted to {result.today}"
    return (*facts, fact("Price list", dated))


#: what a station also needs and no bill here holds
_LEFT_OUT: Final = (
    "tools; compound, tape and ties; slings, ropes and personal gear; anything bought for the shack"
)


def estimate_told(made: Estimate) -> Value:
    """Say what the station costs, and what the total does not hold."""
    if made.nothing_priced:
        return "nothing priced yet"
    total = phrase(
        "{likely}, from {low} to {high}",
        likely=in_currency(made.total.likely, made.currency),
        low=_money(made.total.low),
        high=_money(made.total.high),
    )
    return phrase("{total}{without}", total=total, without=_without(made))


def _without(made: Estimate) -> Value:
    """What a total does not hold; empty when it holds everything."""
    lacks: list[Value] = list(made.unsaid)
    if made.unpriced:
        lines = "line" if len(made.unpriced) == 1 else "lines"
        lacks.append(f"{len(made.unpriced)} {lines} that have no price")
    if not lacks:
        return ""
    *first, last = lacks
    named = phrase("{first} and {last}", first=listed(first), last=last) if first else last
    return phrase(", without {named}", named=named)


def _money(value: float) -> Quantity:
    return Quantity(value, "money")


def _quantity(line: BillLine) -> Value:
    if line.is_open:
        return "not said"
    if line.unit in _KINDS:
        return Quantity(line.quantity, _KINDS[line.unit])
    unit = line.unit if line.quantity == 1.0 else _SEVERAL.get(line.unit, line.unit)
    return listed([Quantity(line.quantity, "amount"), unit], between=" ")


def _amounts(get: Any, total: Amounts | None = None) -> tuple[Column[Any], ...]:
    """Columns of three amounts; an item without any says so in the second.

    Args:
        total: what stands in the foot; None without a foot
    """

    def cell(name: str, otherwise: str) -> Any:
        def told(item: Any) -> Value:
            amounts: Amounts | None = get(item)
            if amounts is None:
                return otherwise
            amount = getattr(amounts, name)
            return "" if math.isnan(amount) else _money(amount)

        return told

    def foot(name: str) -> Value:
        return None if total is None else _money(getattr(total, name))

    return (
        column("low", cell("low", ""), kind="money", full=True, foot=foot("low")),
        column("likely", cell("likely", "not priced"), kind="money", foot=foot("likely")),
        column("high", cell("high", ""), kind="money", full=True, foot=foot("high")),
    )


def _bill(result: Costing) -> Table[Any]:
    """List what to buy and hire, with prices where the plan has any."""
    made = result.estimate
    caption = "What to buy and hire"
    prices: tuple[Column[Any], ...] = ()
    foot: Value = None
    if made is not None:
        caption = f"{caption}, amounts in {made.currency}"
        total = None if made.nothing_priced else made.total
        prices = (*_amounts(lambda line: line.amounts, total), column("priced", _priced))
        added = "tax and contingency" if made.tax else "contingency"
        if total is not None:
            foot = phrase("Total with {added}{without}", added=added, without=_without(made))
    return Table(
        name="bill",
        caption=caption,
        columns=(
            column("item", lambda line: _of(line).name, foot=foot),
            column("follows from", lambda line: _of(line).driver, full=True, below=True),
            column("quantity", lambda line: _quantity(_of(line))),
            *prices,
        ),
        items=result.bill.lines if made is None else made.lines,
        under=lambda line: _of(line).group,
        tick="Came",
        under_heading=True,
    )


def _dearest(bill: Table[Any]) -> Table[Any]:
    """Put the dearest lines first; lines without a price keep their order behind them."""

    def likely(line: BillLine | EstimateLine) -> float:
        amounts = line.amounts if isinstance(line, EstimateLine) else None
        return 0.0 if amounts is None else -amounts.likely

    priced = any(map(likely, bill.items))
    caption = phrase("{bill}, dearest first", bill=bill.caption) if priced else bill.caption
    return replace(bill, caption=caption, items=sorted(bill.items, key=likely), under=None)


def _steps(result: Costing) -> Iterator[Value]:
    made = result.estimate
    if made is None:
        yield settled("name a price list of your own", "prices", "list")
        return
    order = (
        "ask the offices named under Permits and settle what the verdict names as not checked; "
        "then order the tube by the cutting plans"
    )
    if made.unpriced:
        yield phrase(
            "write your own prices into the price list: {count} are missing{at}",
            count=len(made.unpriced),
            at=PerReader(file="", forms="", sheet="cost#price-list"),
        )
    if made.unsaid:
        named = ", ".join(made.unsaid)
        asked = places_in(*(line.driver for line in result.bill.lines if line.is_open))
        yield phrase(
            "enter how much, 0 where there is none: {named}{at}",
            named=named,
            at=PerReader(file="", forms=listed(asked, between="")),
        )
    yield order


def _of(line: BillLine | EstimateLine) -> BillLine:
    return line.bill if isinstance(line, EstimateLine) else line


def _priced(line: EstimateLine) -> Value:
    if line.price is None:
        return "" if line.remark in {"not priced", "not said"} else line.remark
    return f"{line.price.dated}, old" if line.old else line.price.dated


def _sums(made: Estimate, result: Costing) -> Table[tuple[Value, Amounts]]:
    added = Amounts(low=math.nan, likely=made.contingency, high=math.nan)
    sums: list[tuple[Value, Amounts]] = [("Priced lines", made.priced)]
    if made.tax:
        sums.append(("Tax", Amounts(low=math.nan, likely=made.tax, high=math.nan)))
    total = phrase("Estimate{without}", without=_without(made))
    sums += [("Contingency", added), (total, made.total)]
    for change in result.changes:
        name: Value = change.name
        if change.name == ONE_METRE_MORE:
            name = phrase("{step:bought length} more height", step=change.step)
        lines = phrase(" ({more:count change} lines not priced)", more=change.unpriced_change)
        more = lines if change.unpriced_change else ""
        sums.append((phrase("More for {name}{more}", name=name, more=more), change.change))
    return Table(
        name="sums",
        under_heading=True,
        caption=f"Sums, and what one step more of a choice costs, in {made.currency}",
        columns=(column("sum", lambda item: item[0]), *_amounts(lambda item: item[1])),
        items=sums,
        note=f"The estimate adds {'tax and ' if made.tax else ''}contingency to the likely sum. "
        "Its low is the estimate less, its high the estimate plus, the root of the sum of squares "
        "of what each line may differ: hardly ever is all cheap or all dear. For one step more "
        "the bill is made again. For more height the guys keep their slope and about their "
        "spacing, and footing and anchor blocks grow with it. Strength, permits and the field "
        "are not checked again: do that before deciding.",
    )


def cutting_table(order: TubeOrder) -> Table[tuple[int, Bar, tuple[TubePiece, ...]]]:
    """Say which pieces come out of which bought length of one kind of tube."""
    packing = order.packing
    bars = [(number, *marked) for number, marked in enumerate(order.marked_bars(), start=1)]

    def cuts(item: tuple[int, Bar, tuple[TubePiece, ...]]) -> Value:
        pieces = [
            phrase("{mark}: {length}", mark=each.mark, length=_sawn(each.length))
            for each in item[2]
        ]
        return listed(pieces, between="   ")

    return Table(
        name="cutting",
        caption=phrase("Cutting plan: {tube}", tube=order.kind.told),
        columns=(
            column("bar", lambda item: item[0]),
            column("bought", lambda item: _sawn(item[1].stock_length), key="stock_m"),
            column("saw in this order, with the mark to write on", cuts),
            column("left over", lambda item: _sawn(item[1].rest), key="rest_m"),
        ),
        items=bars,
        note=phrase(
            "{needed:bought length} needed, {bought:bought length} bought{best}.",
            needed=packing.needed,
            bought=packing.bought,
            best="; no cutting plan needs less"
            if math.isclose(packing.over_bound, 0.0, abs_tol=1e-9)
            else phrase(
                ", {over:exact share} over the least that any cutting plan can reach",
                over=packing.over_bound,
            ),
        ),
        large=True,
        under_heading=True,
    )


def _sawn(length: float) -> Quantity:
    return Quantity(length, "sawn length")
