"""The costing as text for a terminal: lines by group, the sum, cutting plans, changes."""

from __future__ import annotations

from itertools import groupby

from rich.console import Console
from rich.padding import Padding

from boomwright.base import UnitSystem
from boomwright.cost import Amounts, BillLine, Estimate, TubeOrder
from boomwright.render.terminal.lines import (
    make_console,
    make_table,
    print_notices,
    span_text,
    words,
)
from boomwright.study.cost import Costing


def print_cost(result: Costing, *, system: UnitSystem) -> None:
    """Print bill, estimate and cutting plans."""
    console = make_console()
    console.print(words(result.plan.title, style="bold"))
    if result.estimate is None:
        _print_bill(console, result.bill.lines)
    else:
        _print_estimate(console, result.estimate, result)
    for order in result.bill.tubes:
        _print_order(console, order, system=system)
    console.print()
    print_notices(console, result.notices)


def quantity_text(line: BillLine) -> str:
    """Write a quantity with its unit."""
    return f"{line.quantity:.4g} {line.unit}"


def _print_bill(console: Console, lines: tuple[BillLine, ...]) -> None:
    for group, members in groupby(lines, key=lambda line: line.group):
        console.print()
        console.print(words(group, style="bold"))
        for line in members:
            console.print(words(f"{quantity_text(line)}  {line.item}"))
            console.print(Padding(words(line.driver, style="dim"), (0, 0, 0, 4)))


def _print_estimate(console: Console, made: Estimate, result: Costing) -> None:
    where = f"prices from {result.price_list}" if result.price_list else "no price list"
    console.print(words(f"Amounts in {made.currency}, {where}, ages counted to {result.today}"))
    table = make_table("item", "quantity", "low", "likely", "high", "priced on")
    for group, members in groupby(made.lines, key=lambda line: line.bill.group):
        table.add_row(words(group, style="bold"), "", "", "", "", "")
        for line in members:
            cells = ("not priced", "", "") if line.amounts is None else _cells(line.amounts)
            dated = "" if line.price is None else line.price.dated
            mark = " old" if line.old else ""
            table.add_row(words(line.bill.item), quantity_text(line.bill), *cells, f"{dated}{mark}")
    console.print(table)
    console.print()
    sums = make_table("", "low", "likely", "high")
    sums.add_row("Sum of the priced lines", *_cells(made.priced))
    sums.add_row("Set aside for what nobody thought of", "", f"{made.contingency:,.0f}", "")
    sums.add_row(words("Estimate", style="bold"), *_cells(made.total))
    if made.budget is not None:
        sums.add_row(f"Budget ({made.budget_verdict})", "", f"{made.budget:,.0f}", "")
    for change in result.changes:
        note = f", {change.unpriced_change:+d} lines not priced" if change.unpriced_change else ""
        sums.add_row(f"More for {change.name}{note}", *_cells(change.change))
    console.print(sums)
    if made.labour_hours:
        console.print(f"Own time, not priced: {made.labour_hours:g} h.")


def _cells(amounts: Amounts) -> tuple[str, str, str]:
    return f"{amounts.low:,.0f}", f"{amounts.likely:,.0f}", f"{amounts.high:,.0f}"


def _print_order(console: Console, order: TubeOrder, *, system: UnitSystem) -> None:
    packing = order.packing
    console.print()
    console.print(
        words(
            f"{order.kind.name}: {packing.bought:.2f} m bought, {packing.needed:.2f} m needed, "
            f"{packing.over_bound:.1%} over the proven least",
            style="bold",
        )
    )
    for bar, pieces in order.marked_bars():
        cuts = ", ".join(
            f"{piece.mark} {span_text(piece.length, system=system)}" for piece in pieces
        )
        rest = span_text(bar.rest, system=system)
        stock = span_text(bar.stock_length, system=system)
        console.print(Padding(words(f"{stock}: {cuts}; rest {rest}"), (0, 0, 0, 2)))
