"""The sheet of quantities and cost: bill, estimate, what a change costs, cutting plans."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import Final

from boomwright.base import UnitSystem, feet_inches_sixteenths
from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.charts.blocks import TICK, Block, Facts, Grid, Heading, Words
from boomwright.cost import (
    Amounts,
    Bill,
    BillLine,
    Estimate,
    EstimateLine,
    Sensitivity,
    TubeOrder,
)
from boomwright.parts import TubeKind
from boomwright.report.build.dimensions import cut_length
from boomwright.report.build.shop_drawings import both_texts
from boomwright.report.wording import clean, first_upper, metres_and_feet

#: the US unit that each metric one is sold in, exact {nist-sp-811}
_US_UNITS: Final = {
    "m": (0.3048, "ft"),
    "m3": (0.9144**3, "yd3"),
    "kg": (0.45359237, "lb"),
}


def cost_blocks(
    *,
    bill: Bill,
    estimate: Estimate | None,
    changes: Sequence[Sensitivity],
    price_list: str,
    today: str,
) -> tuple[Block, ...]:
    """Write the sheet of quantities and cost.

    Parameters
    ----------
    estimate
        the estimate; None without a [prices] table
    price_list
        name of the price list, or empty
    """
    if estimate is None:
        return (
            Words(
                text="The plan has no [prices] table, so quantities stand here without money.",
            ),
            _bill_grid(bill),
        )
    return (
        Facts(rows=_sums(estimate, price_list, today)),
        Words(
            text="Amounts are low, likely and high as written in the owner's price list. The "
            "estimate adds what is set aside to the likely sum; its low and high combine the lines "
            "as if independent (root of the sum of squares). A line without a price is in no sum.",
            tone="quiet",
        ),
        _estimate_grid(estimate, bill),
        *_change_blocks(changes, estimate.currency),
    )


def _sums(made: Estimate, price_list: str, today: str) -> tuple[tuple[str, str], ...]:
    total = made.total
    rows = [
        ("Estimate", f"{_money(total.likely)} {made.currency}, between {_money(total.low)} and "
         f"{_money(total.high)}"),
        ("Priced lines", f"{_money(made.priced.likely)} {made.currency}"),
        ("Set aside", f"{_money(made.contingency)} {made.currency} for what nobody thought of"),
    ]  # fmt: skip
    if made.budget is not None:
        verdict = {
            "within": "the estimate stays within it",
            "over": "the likely estimate is over it",
            "cannot tell": "the estimate's band reaches across it, or lines have no price",
        }.get(made.budget_verdict, "")
        rows.append(("Budget", f"{_money(made.budget)} {made.currency}: {verdict}"))
    if made.unpriced:
        rows.append(("Not priced", f"{len(made.unpriced)} lines, in no sum"))
    if made.labour_hours:
        rows.append(("Own time", f"{made.labour_hours:g} h, not priced"))
    where = clean(price_list) if price_list else "none"
    rows.append(("Price list", f"{where}; ages counted to {today}"))
    return tuple(rows)


def _money(amount: float) -> str:
    return f"{amount:,.0f}".replace(",", "\u202f")


def _cells(amounts: Amounts | None) -> tuple[str, str, str]:
    if amounts is None:
        return "–", "not priced", "–"
    return _money(amounts.low), _money(amounts.likely), _money(amounts.high)


def _quantity(value: float) -> str:
    return f"{value:.0f}" if abs(value - round(value)) < 1e-9 else f"{value:.2f}"


def _second_quantity(line: BillLine) -> str:
    """Write the same quantity in the US unit it is sold in; empty where units are counted."""
    if line.unit not in _US_UNITS:
        return ""
    each, name = _US_UNITS[line.unit]
    return f"\n{line.quantity / each:.1f} {name}"


def _item_cell(line: BillLine, inches: Mapping[str, str]) -> str:
    second = ""
    for name, size in inches.items():
        if line.item.startswith(name):
            metres = float(line.item.removeprefix(name).removesuffix(" m"))
            second = f"\n{size}, {feet_inches_sixteenths(metres)}"
    return f"{clean(line.item)}{second}\n{clean(line.driver)}"


def _inches(bill: Bill) -> dict[str, str]:
    """Sizes of the tubes in inches by their name in the bill."""
    found = {}
    for order in bill.tubes:
        found[f"{order.kind.name}, "] = _inch_size(order.kind)
    return found


def _inch_size(kind: TubeKind) -> str:
    wall = f" x {kind.wall / METRES_PER_INCH:.3f}" if kind.wall else ""
    return f"{kind.diameter / METRES_PER_INCH:.3f}{wall} in"


def _estimate_grid(made: Estimate, bill: Bill) -> Grid:
    rows: list[tuple[str, ...]] = []
    inches = _inches(bill)
    for group, members in groupby(made.lines, key=lambda line: line.bill.group):
        rows.append((group,))
        rows += [_estimate_row(line, inches) for line in members]
    return Grid(
        columns=("Item and what drives it", "Quantity", "Unit", "Low", "Likely", "High", "Priced",
                 "Here"),
        rows=tuple(rows),
        align="lrlrrrll",
        shares=(5.0, 1.1, 0.8, 0.85, 1.05, 0.85, 1.35, 0.6),
        caption=f"Bill of quantities with prices, {made.currency}",
        note="Here: ticked when it lies in the workshop and was measured.",
    )  # fmt: skip


def _estimate_row(line: EstimateLine, inches: Mapping[str, str]) -> tuple[str, ...]:
    bill = line.bill
    dated = "" if line.price is None else line.price.dated
    if line.old:
        dated += " old"
    return (
        _item_cell(bill, inches),
        f"{_quantity(bill.quantity)}{_second_quantity(bill)}",
        bill.unit,
        *_cells(line.amounts),
        dated,
        TICK,
    )


def _bill_grid(bill: Bill) -> Grid:
    rows: list[tuple[str, ...]] = []
    inches = _inches(bill)
    for group, members in groupby(bill.lines, key=lambda line: line.group):
        rows.append((group,))
        rows += [
            (
                _item_cell(line, inches),
                f"{_quantity(line.quantity)}{_second_quantity(line)}",
                line.unit,
                TICK,
            )
            for line in members
        ]
    return Grid(
        columns=("Item and what drives it", "Quantity", "Unit", "Here"),
        rows=tuple(rows),
        align="lrll",
        shares=(7.0, 1.2, 1.2, 0.6),
        caption="Bill of quantities",
    )


def _change_blocks(changes: Sequence[Sensitivity], currency: str) -> tuple[Block, ...]:
    if not changes:
        return ()
    rows = []
    for change in changes:
        note = f" ({change.unpriced_change:+d} lines not priced)" if change.unpriced_change else ""
        rows.append((f"{change.name}{note}", *_cells(change.change)))
    return (
        Heading(text="What a change costs"),
        Grid(
            columns=("Change", "Low", "Likely", "High"),
            rows=tuple(rows),
            align="lrrr",
            shares=(4.0, 1.0, 1.0, 1.0),
            caption=f"More to pay, {currency}",
            note="The bill is made again for the changed plan. Strength, permits and the field "
            "are not looked at again: do that before deciding.",
        ),
    )


def cutting_blocks(bill: Bill, *, system: UnitSystem) -> tuple[Block, ...]:
    """Write the cutting plan: which pieces come out of which bought length.

    Parameters
    ----------
    system
        unit system shown first
    """
    return tuple(_order_grid(order, system) for order in bill.tubes)


def _inch_caption(order: TubeOrder) -> str:
    kind = order.kind
    return f"Tube {_inch_size(kind)} {clean(kind.material)} ({kind.name})"


def _order_grid(order: TubeOrder, system: UnitSystem) -> Grid:
    rows = []
    for number, (bar, pieces) in enumerate(order.marked_bars(), start=1):
        cuts = "   ".join(
            f"{piece.mark}: {both_texts(cut_length(piece.length), system=system)[0]}"
            for piece in pieces
        )
        stock, rest = cut_length(bar.stock_length), cut_length(bar.rest)
        rows.append(
            (
                str(number),
                both_texts(stock, system=system)[0],
                cuts,
                both_texts(rest, system=system)[0],
            )
        )
    packing = order.packing
    return Grid(
        columns=("Bar", "Bought", "Saw in this order, with the mark to write on", "Left over"),
        rows=tuple(rows),
        align="lrlr",
        shares=(0.4, 1.2, 5.8, 1.15),
        caption=first_upper(order.kind.name) if system == "metric" else _inch_caption(order),
        note=f"{metres_and_feet(packing.needed, system=system)} needed, "
        f"{metres_and_feet(packing.bought, system=system)} bought, "
        f"{100.0 * packing.over_bound:.1f} % over the least that any cutting plan can reach.",
        large=True,
    )
