"""The costing as one plain document: what ``cost --json`` prints."""

from __future__ import annotations

from typing import Any

from boomwright.cost import Amounts, BillLine, EstimateLine, TubeOrder
from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.cost import cutting_table
from boomwright.study.cost import Costing


def cost_document(result: Costing) -> dict[str, Any]:
    """Write bill and estimate as numbers, texts, lists and dictionaries only.

    Returns:
        the document; a line without a price has None where its amounts would be
    """
    made = result.estimate
    return {
        **fields(result, "today", "price_list"),
        "currency": made.currency if made else None,
        "lines": [_priced(line) for line in made.lines]
        if made
        else [_line(line) | {"amounts": None} for line in result.bill.lines],
        "cutting": [_order(order) for order in result.bill.tubes],
        "priced": _amounts(made.priced) if made else None,
        "tax": made.tax if made else None,
        "contingency": made.contingency if made else None,
        "total": _amounts(made.total) if made else None,
        "budget": made.budget if made else None,
        "budget_verdict": made.budget_verdict if made else None,
        "unpriced": list(made.unpriced)
        if made
        else [line.item for line in result.bill.lines if not line.is_open],
        "unsaid": [line.item for line in result.bill.lines if line.is_open],
        "old": list(made.old) if made else [],
        "own_hours": result.bill.labour_hours,
        "changes": [
            {
                **fields(change, "name", "step"),
                "change": _amounts(change.change),
                "unpriced_change": change.unpriced_change,
            }
            for change in result.changes
        ],
        "notices": notice_rows(result.notices),
    }


def _amounts(amounts: Amounts) -> list[float]:
    return [amounts.low, amounts.likely, amounts.high]


def _line(line: BillLine) -> dict[str, Any]:
    names = ("group", "item", "quantity", "unit", "driver")
    row = {name: plain(getattr(line, name)) for name in names}
    return row | {"quantity": None} if line.is_open else row


def _priced(line: EstimateLine) -> dict[str, Any]:
    return _line(line.bill) | {
        "amounts": None if line.amounts is None else _amounts(line.amounts),
        "dated": None if line.price is None else line.price.dated,
        "remark": line.remark,
    }


def _order(order: TubeOrder) -> dict[str, Any]:
    table = cutting_table(order)
    return {
        "tube": order.kind.name,
        "bought_m": order.packing.bought,
        "needed_m": order.packing.needed,
        "over_proven_least": order.packing.over_bound,
        "bars": [
            row | {"cuts": [{"mark": piece.mark, "length_m": piece.length} for piece in pieces]}
            for row, (_, _, pieces) in zip(plain_rows(table), table.items, strict=True)
        ],
    }
