"""The owner's dated price list, read from comma-separated text {rfc-4180} or TOML {toml-1-0}."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, get_args

from boomwright.base import Fault, PlanError, UnitSystem, in_system
from boomwright.base.days import day_number
from boomwright.base.quantity import Value, write

COLUMNS: Final = ("item", "unit", "low", "likely", "high", "currency", "supplier", "dated")


#: largest amount taken [currency]
_MOST: Final = 1e12


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """One price."""

    item: str  #: name as in the bill
    unit: str  #: unit it is for, as in the bill
    low: float  #: least it may cost [currency]
    likely: float  #: what it will likely cost [currency]
    high: float  #: most it may cost [currency]
    currency: str  #: currency as text, e.g. ``EUR``
    supplier: str  #: owner's note where it is from
    dated: str  #: day of the price, ``2026-01-31``


def price_key(item: str, unit: str) -> tuple[str, str]:
    """Key that matches bill and price list whatever the case and spacing."""
    return " ".join(item.casefold().split()), " ".join(unit.casefold().split())


#: units of a bill that US suppliers sell in another
_SOLD_IN: Final = {"m": "ft", "m3": "yd3", "kg": "lb"}


def listed_price(
    prices: Mapping[tuple[str, str], Price], name: Value, unit: str
) -> tuple[Price, float] | None:
    """Look up a line of the bill by its name and unit in either unit system.

    Returns:
        the price, and how many of its units one unit of the line is [-]
    """
    more = in_system(1.0, unit=unit, system="us")[0]
    for system in get_args(UnitSystem):
        item = write(name, system=system)
        for sold_in, factor in ((unit, 1.0), (_SOLD_IN.get(unit, unit), more)):
            price = prices.get(price_key(item, sold_in))
            if price is not None:
                return price, factor
    return None


def _amount(text: str) -> float | None:
    try:
        value = float(text)
    except ValueError:
        return None
    return value if 0.0 <= value <= _MOST else None


def _row_faults(row: dict[str, str], where: str, line: int) -> list[Fault]:
    faults = [
        Fault(
            path=f"{where}.{name}",
            message="empty",
            remedy=f"write the {name}",
            line=line,
        )
        for name in ("item", "unit", "currency", "dated")
        if not row[name]
    ]
    amounts = {name: _amount(row[name]) for name in ("low", "likely", "high")}
    faults += [
        Fault(
            path=f"{where}.{name}",
            message=f"not an amount from 0 to {_MOST:,.0f}",
            value=row[name],
            remedy="write a plain number such as 12.50; remove the line when there is no price",
            line=line,
        )
        for name, value in amounts.items()
        if value is None
    ]
    low, likely, high = amounts.values()
    ordered = low is None or likely is None or high is None or low <= likely <= high
    if not ordered:
        faults.append(
            Fault(
                path=f"{where}.likely",
                message="low, likely and high are not in rising order",
                value=f"{row['low']}, {row['likely']}, {row['high']}",
                remedy="put the three amounts in rising order",
                line=line,
            )
        )
    if row["dated"]:
        try:
            day_number(row["dated"])
        except ValueError:
            faults.append(
                Fault(
                    path=f"{where}.dated",
                    message="not a day",
                    value=row["dated"],
                    remedy="write it as 2026-01-31",
                    line=line,
                )
            )
    return faults


def _rows(text: str, source: str) -> list[tuple[int, dict[str, str]]]:
    kept = [
        (number, line)
        for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    reader = csv.reader(io.StringIO("\n".join(line for _, line in kept)))
    table: list[tuple[int, list[str]]] = []
    try:
        # A cell in quotes may hold the end of a line.
        table.extend(
            (kept[reader.line_num - 1][0], [cell.strip() for cell in row]) for row in reader
        )
    except csv.Error:
        fault = Fault(
            path=f"after line {table[-1][0] if table else 0}",
            message="a cell without end",
            remedy="look for a single quotation mark there, and take it out or close it",
        )
        raise PlanError((fault,), source=source) from None
    header = [name.casefold() for name in table[0][1]] if table else []
    missing = [name for name in COLUMNS if name not in header]
    if missing:
        fault = Fault(
            path="line 1",
            message="columns missing",
            value=", ".join(missing),
            remedy="first line: " + ",".join(COLUMNS),
        )
        raise PlanError((fault,), source=source)
    return [
        (number, {name: dict(zip(header, cells, strict=False)).get(name, "") for name in COLUMNS})
        for number, cells in table[1:]
    ]


def read_prices(text: str, *, source: str = "prices") -> tuple[Price, ...]:
    """Read a price list; lines that start with ``#`` are remarks.

    Raises:
        PlanError: with every fault found, each with line, value and remedy
    """
    rows = [(f"line {line}", line, row) for line, row in _rows(text, source)]
    return _prices(rows, source=source)


def _prices(rows: list[tuple[str, int, dict[str, str]]], *, source: str) -> tuple[Price, ...]:
    faults = [fault for where, line, row in rows for fault in _row_faults(row, where, line)]
    seen: dict[tuple[str, str], str] = {}
    for where, line, row in rows:
        key = price_key(row["item"], row["unit"])
        if key in seen and row["item"]:
            faults.append(
                Fault(
                    path=f"{where}.item",
                    message=f"the same item and unit as at {seen[key]}",
                    value=row["item"],
                    remedy="keep one of them",
                    line=line,
                )
            )
        seen.setdefault(key, where)
    if faults:
        raise PlanError(tuple(faults), source=source)
    return tuple(
        Price(
            item=row["item"],
            unit=row["unit"],
            low=float(row["low"]),
            likely=float(row["likely"]),
            high=float(row["high"]),
            currency=row["currency"],
            supplier=row["supplier"],
            dated=row["dated"],
        )
        for _, _, row in rows
    )


def read_price_tables(found: Mapping[str, object], *, source: str = "prices") -> tuple[Price, ...]:
    """Read a price list from the tables ``price`` of a TOML file, keys as the columns.

    ``currency``, ``supplier`` and ``dated`` may stand once at the top for all.

    Raises:
        PlanError: with every fault found, each with place, value and remedy
    """
    listed = found.get("price", [])
    shared = {key: found[key] for key in ("currency", "supplier", "dated") if key in found}
    if not isinstance(listed, list) or not all(isinstance(each, dict) for each in listed):
        fault = Fault(path="price", message="no list of tables", remedy="write [[price]] tables")
        raise PlanError((fault,), source=source)
    rows = []
    for number, each in enumerate(listed):
        row = {name: str({**shared, **each}.get(name, "")).strip() for name in COLUMNS}
        rows.append((f"price[{number}]", 0, row))
    return _prices(rows, source=source)
