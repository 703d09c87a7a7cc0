"""Sweeps as text in columns: frequency with R and X, or with SWR or return loss alone."""

from __future__ import annotations

import re
from typing import Literal

import numpy as np

from boomwright.base import Notice
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.sweep import Sweep, make_sweep, refuse_gaps

FrequencyUnit = Literal["Hz", "kHz", "MHz", "GHz"]

_FACTOR: dict[str, float] = {"hz": 1.0, "khz": 1e3, "mhz": 1e6, "ghz": 1e9}
_NAMES = {
    "frequency": ("frequency", "freq", "f", "hz", "khz", "mhz", "ghz"),
    "resistance": ("r", "rs", "resistance", "re z", "re(z)"),
    "reactance": ("x", "xs", "reactance", "im z", "im(z)"),
    "swr": ("swr", "vswr", "standing wave ratio"),
    "loss": ("return loss", "rl", "s11", "|s11|"),
}
#: what a head may say of the unit; the sign of the ohm is a small omega in lower case
_SAID = r"hz|khz|mhz|ghz|ohms?|ω|db"
#: below this a plain number is taken for MHz, below the next for kHz, else Hz
_LARGEST_MHZ = 1e3
_LARGEST_KHZ = 1e6
#: two numbers or more with nothing but blanks between them, a decimal comma allowed
_BLANKS = re.compile(r"[-+]?[\d.]*(,?\d+)(\s+[-+]?[\d.]*(,?\d+))+")


def read_sweep_table(
    *,
    text: str,
    name: str,
    reference: float = 50.0,
    frequency_unit: FrequencyUnit | None = None,
    noise: float = 0.0,
) -> Sweep:
    """Read a table with a header such as ``frequency (MHz),R,X``, or without one.

    Columns are parted by comma, semicolon, tab or blanks; with all but the first a decimal comma
    is understood. Without a header three columns are frequency, R and X, two are frequency and
    SWR. A return loss in decibels may have either sign. Lines that begin with ``#`` or ``!`` are
    left out.

    Args:
        reference: real reference resistance [ohm]
        frequency_unit: unit when the header does not say; None guesses it from the size
        noise: standard deviation of one part of a reading [-]

    Returns:
        the sweep; without phase when the file holds SWR or return loss alone

    Raises:
        MeasurementError: for missing columns, missing or extra cells, cells that are not
            numbers, and more
            than a few readings that no antenna gives; the message names the line, never what
            stands there
    """
    rows = [
        (number, line.strip())
        for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), start=1)
        if line.strip() and not line.lstrip().startswith(("#", "!"))
    ]
    if not rows:
        raise MeasurementError(f"{name}: is empty; save the sweep again")
    separator = next((mark for mark in (";", "\t") if mark in rows[0][1]), ",")
    if separator == "," and _BLANKS.fullmatch(rows[-1][1]):
        separator = " "
    header = _cells(rows[0][1], separator)
    columns, unit = _columns(header, name, rows[0][0])
    if not _is_number(header[0], separator):
        rows = rows[1:]
    table = np.array([_row(line, separator, len(header), name, number) for number, line in rows])
    if not len(table):
        raise MeasurementError(f"{name}: has a header and no readings; save the sweep again")
    lines = [number for number, _ in rows]
    refuse_gaps(*(table[:, column] for column in columns.values()), place=name, lines=lines)
    hertz, notices = _hertz(table[:, columns["frequency"]], unit or frequency_unit, name)
    if "resistance" in columns:
        ratio = table[:, columns["resistance"]] + 1j * table[:, columns["reactance"]]
        by = reference
    elif "swr" in columns:
        ratio, by = table[:, columns["swr"]], 1.0
    else:
        size = 10.0 ** (-np.abs(table[:, columns["loss"]]) / 20.0)
        ratio, by = (1.0 + size) / np.maximum(1.0 - size, 1e-12), 1.0
    # No antenna has minus its reference; a hair beside it is as impossible. What is too large to
    # be computed with is no number afterwards, and refused as such.
    with np.errstate(over="ignore", invalid="ignore"):
        below = np.where(ratio + by == 0.0, 1e-9 * by, ratio + by)
        reflection = (ratio - by) / below
    return make_sweep(
        frequencies=hertz,
        reflection=reflection,
        reference=reference,
        phase_known="resistance" in columns,
        place=name,
        notices=notices,
        lines=lines,
        noise=noise,
    )


def _cells(line: str, separator: str) -> list[str]:
    if separator == " ":
        # The unit in its brackets belongs to the word before it.
        return re.sub(r"\s+([\[(])", r"\1", line).split()
    return [cell.strip().strip('"').strip() for cell in line.split(separator)]


def _number(cell: str, separator: str) -> float:
    return float(cell.replace(",", ".") if separator != "," else cell)


def _is_number(cell: str, separator: str) -> bool:
    try:
        _number(cell, separator)
    except ValueError:
        return False
    return True


def _columns(header: list[str], name: str, number: int) -> tuple[dict[str, int], str | None]:
    if _is_number(header[0], ";"):
        if len(header) == 2:
            return {"frequency": 0, "swr": 1}, None
        if len(header) == 3:
            return {"frequency": 0, "resistance": 1, "reactance": 2}, None
        msg = f"{name}: {len(header)} columns without a header; begin with 'frequency (MHz),R,X'"
        raise MeasurementError(msg)
    columns: dict[str, int] = {}
    unit = None
    for place, cell in enumerate(header):
        plain = re.sub(rf"[\[(]\s*({_SAID})?\s*[\])]", "", cell.lower()).strip()
        plain = re.sub(rf"[\s/_]+({_SAID})$", "", plain).strip()
        for key, names in _NAMES.items():
            # What is reflected may also be a plain share; only decibels are a loss.
            decibels = key != "loss" or "db" in cell.lower() or plain == "return loss"
            if plain in names and key not in columns and decibels:
                columns[key] = place
                found = re.search(r"(khz|mhz|ghz|hz)", cell.lower())
                unit = found.group(1) if key == "frequency" and found else unit
    complete = {"resistance", "reactance"} <= columns.keys() or {"swr", "loss"} & columns.keys()
    if "frequency" not in columns or not complete:
        raise MeasurementError(
            f"{name}, line {number}: no columns for frequency with R and X, with SWR, or with "
            "return loss; begin with 'frequency (MHz),R,X', 'frequency (MHz),SWR' or "
            "'frequency (MHz),return loss (dB)'"
        )
    if "reactance" not in columns:
        columns.pop("resistance", None)
    return columns, unit


def _row(line: str, separator: str, width: int, name: str, number: int) -> list[float]:
    cells = _cells(line, separator)
    if len(cells) != width:
        raise MeasurementError(
            f"{name}, line {number}: {len(cells)} cells where the first line has {width}; the file "
            "was cut off or uses another separator"
        )
    values = [_number(cell, separator) if _is_number(cell, separator) else np.nan for cell in cells]
    if all(np.isnan(values)):
        raise MeasurementError(f"{name}, line {number}: holds no number; save the sweep again")
    return values


def _hertz(
    values: np.ndarray[tuple[int, ...], np.dtype[np.float64]], unit: str | None, name: str
) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.float64]], tuple[Notice, ...]]:
    if unit is not None:
        with np.errstate(over="ignore"):
            return values * _FACTOR[unit.lower()], ()
    largest = float(np.nanmax(np.abs(values)))
    guess = "MHz" if largest < _LARGEST_MHZ else "kHz" if largest < _LARGEST_KHZ else "Hz"
    notice = Notice(
        code="tuning.frequency-unit",
        severity="doubt",
        text=f"{name}: does not say the unit of frequency; {guess} is taken from its size.",
        value=f"{largest:g}",
    )
    return values * _FACTOR[guess.lower()], (notice,)
