"""The owner's dated price list, read from comma-separated text {rfc-4180} or TOML {toml-1-0}."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from difflib import get_close_matches
from typing import Final, get_args

from boomwright.base import Fault, PlanError, UnitSystem, in_system
from boomwright.base.days import day_number
from boomwright.base.quantity import Value, write
from boomwright.base.records import dataclass, field

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
    place: str = field(default="", compare=False)  #: where it stands in its list


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


def unmatched_prices(
    prices: Iterable[Price], lines: Iterable[tuple[Value, str]], *, known: Iterable[Value] = ()
) -> tuple[tuple[Price, str], ...]:
    """Find the rows of a price list that no line of a bill can take.

    Args:
        lines: name and unit of each line (n_lines, 2)
        known: names that a bill may have, or what they begin with (n_known,)

    Returns:
        each with what the bill may call it and count it in, or an empty text (n_rows, 2)
    """
    units: dict[str, set[str]] = {}
    shown: dict[str, str] = {}
    begun: list[str] = []
    for system in get_args(UnitSystem):
        for name, unit in lines:
            said = write(name, system=system)
            key = price_key(said, "")[0]
            units.setdefault(key, set()).update({unit, _SOLD_IN.get(unit, unit)})
            shown.setdefault(key, f"{said} ({unit_for(unit, system=system)})")
        begun += [price_key(write(name, system=system), "")[0] for name in known]
    found = []
    for price in prices:
        item, unit = price_key(price.item, price.unit)
        if unit in units.get(item, ()) or item.startswith(tuple(begun)):
            continue
        close = [item] if item in shown else get_close_matches(item, list(shown), n=1, cutoff=0.8)
        found.append((price, shown[close[0]] if close else ""))
    return tuple(found)


def unit_for(unit: str, *, system: UnitSystem) -> str:
    """Unit that a line of a bill is sold in."""
    return _SOLD_IN.get(unit, unit) if system == "us" else unit


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedPrice:
    """A row of the price list that a bill asks for."""

    group: str  #: heading it stands under in the bill; empty for a row that no line takes
    cells: tuple[str, ...]  #: its cells in the order of ``COLUMNS``; no amounts where none is known

    @property
    def waits(self) -> bool:
        """Whether it has no price yet."""
        return not any(self.cells[2:5])


def asked_prices(
    bill: Iterable[tuple[str, Value, str]], *, prices: Iterable[Price], currency: str,
    system: UnitSystem,
) -> tuple[AskedPrice, ...]:  # fmt: skip
    """Ask for the price of every line of a bill; what is known already stands in its row.

    Args:
        bill: heading, name and unit of each line (n_lines, 3)

    Returns:
        rows in the order of the bill, then those that it has no line for (n_rows,)
    """
    table = {price_key(price.item, price.unit): price for price in prices}
    written: dict[tuple[str, str], AskedPrice] = {}
    for group, name, unit in bill:
        found = listed_price(table, name, unit)
        item, sold_in = write(name, system=system), unit_for(unit, system=system)
        cells: tuple[str, ...] = (item, sold_in, "", "", "", currency, "", "")
        if found is not None:
            cells = _cells(found[0])
        written.setdefault(price_key(cells[0], cells[1]), AskedPrice(group=group, cells=cells))
    others = [price for key, price in table.items() if key not in written]
    return (*written.values(), *(AskedPrice(group="", cells=_cells(each)) for each in others))


def blank_prices(
    bill: Iterable[tuple[str, Value, str]], *, prices: Iterable[Price], currency: str,
    system: UnitSystem,
) -> str:  # fmt: skip
    """Write the price list that a bill asks for, as :func:`asked_prices` says.

    Returns:
        comma-separated text for :func:`read_prices`, in which a row without amounts waits
    """
    text = io.StringIO()
    rows = csv.writer(text, lineterminator="\n")
    text.write("# Fill in low, likely and high, and the day; a row without amounts has no price.\n")
    rows.writerow(COLUMNS)
    heading = ""
    for row in asked_prices(bill, prices=prices, currency=currency, system=system):
        group = row.group or "Not in this bill"
        if group != heading:
            text.write(f"# {group}\n")
            heading = group
        rows.writerow(row.cells)
    return text.getvalue()


def with_price(text: str, typed: Mapping[str, str], *, source: str = "prices") -> str:
    """Write one row of a price list anew, or add it; every other line stays to the letter.

    Args:
        text: the list; empty for a new one
        typed: cells by the names of ``COLUMNS``; further columns of the owner stay, and so does
            the currency of a row that is there

    Raises:
        PlanError: the list cannot be read, or not with this row in it
    """
    text = text or ",".join(COLUMNS) + "\n"
    lines = text.splitlines(keepends=True)
    key = price_key(typed["item"], typed["unit"])
    numbers = [
        number for number, row in _rows(text, source) if price_key(row["item"], row["unit"]) == key
    ]
    head = next(line for line in lines if line.strip() and not line.lstrip().startswith("#"))
    names = [name.strip().casefold() for name in next(csv.reader([head.removeprefix("\ufeff")]))]
    end = "\r\n" if head.endswith("\r\n") else "\n"
    before = [""] * len(names)
    if numbers:
        before = next(csv.reader([lines[numbers[0] - 1]]))
        before += [""] * (len(names) - len(before))
        if price_key(before[names.index("item")], before[names.index("unit")]) != key:
            fault = Fault(
                path=f"line {numbers[0]}",
                message="this row runs over several lines",
                remedy="change it in the file itself",
                line=numbers[0],
            )
            raise PlanError((fault,), source=source)
    kept = {"currency"} if numbers else set()
    cells = [
        old if name in kept and old else typed.get(name, old)
        for name, old in zip(names, before, strict=False)
    ]
    made = io.StringIO()
    csv.writer(made, lineterminator=end).writerow(cells)
    if numbers:
        lines[numbers[0] - 1] = made.getvalue()
    else:
        if lines and not lines[-1].endswith(("\n", "\r")):
            lines[-1] += end
        lines.append(made.getvalue())
    new = "".join(lines)
    read_prices(new, source=source)
    return new


def _cells(price: Price) -> tuple[str, ...]:
    amounts = (f"{each:.15g}" for each in (price.low, price.likely, price.high))
    texts = (price.item, price.unit, *amounts, price.currency, price.supplier, price.dated)
    # A remark begins a line, so no cell may hold the end of one.
    return tuple(" ".join(text.splitlines()) for text in texts)


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
    if "\0" in text:
        fault = Fault(path="line 1", message="no text in UTF-8", remedy="save it as CSV, UTF-8")
        raise PlanError((fault,), source=source)
    kept = [
        (number, line)
        for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    # Where the comma is in the numbers, the program that saved the list parts cells by semicolons.
    comma = bool(kept) and ";" in kept[0][1] and "," not in kept[0][1]
    lines = io.StringIO("\n".join(line for _, line in kept))
    reader = csv.reader(lines, delimiter=";" if comma else ",", strict=True)
    table: list[tuple[int, list[str]]] = []
    try:
        # A cell in quotes may hold the end of a line.
        table.extend(
            (kept[reader.line_num - 1][0], [cell.strip() for cell in row]) for row in reader
        )
    except csv.Error:
        fault = Fault(
            path=f"after line {table[-1][0] if table else 0}",
            message="a cell without end, or with a quotation mark inside",
            remedy="look for a single quotation mark there: close it, take it out or double it",
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
    rows = [
        (number, {name: dict(zip(header, cells, strict=False)).get(name, "") for name in COLUMNS})
        for number, cells in table[1:]
    ]
    for _, row in rows if comma else ():
        row.update({name: row[name].replace(",", ".") for name in ("low", "likely", "high")})
    return rows


def read_prices(text: str, *, source: str = "prices") -> tuple[Price, ...]:
    """Read a price list; lines that start with ``#`` are remarks, rows without amounts wait."""
    rows = [(f"line {line}", line, row) for line, row in _rows(text, source)]
    return _prices(rows, source=source)


def _waits(row: dict[str, str]) -> bool:
    """Whether a row has no amounts yet."""
    return bool(row["item"]) and not any(row[name] for name in ("low", "likely", "high"))


def _prices(rows: list[tuple[str, int, dict[str, str]]], *, source: str) -> tuple[Price, ...]:
    rows = [each for each in rows if not _waits(each[2])]
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
            place=where,
        )
        for where, _, row in rows
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
