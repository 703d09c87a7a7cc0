"""What so many elements on such a boom can reach, read at once from the table shipped."""

from __future__ import annotations

import io
import math
from functools import cache
from importlib import resources
from typing import Any

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.records import dataclass
from boomwright.design import FrontierPoint, FrontierTable, WishError, frontier_at, frontier_table
from boomwright.design.frontier import BOOMS_WL, COUNTS, REARS_DB, boom_numbers
from boomwright.study.requests import RequestError

#: diameter of elements when none is given, over the wavelength: telescoping tube on HF
_USUAL_DIAMETER_WL = 1e-3


def frontier_bytes() -> bytes:
    """Read the file of the shipped frontier."""
    return (resources.files("boomwright.design") / "data" / "frontier.npz").read_bytes()


@cache
def read_frontier() -> FrontierTable:
    """Read the shipped frontier."""
    with np.load(io.BytesIO(frontier_bytes())) as data:
        return frontier_table(data)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FrontierRow:
    """What one boom can reach under one demand on the rear."""

    boom: float  #: boom from first to last element [m]
    rear_db: float  #: front-to-rear ratio demanded over the band, 0 for none [dB]
    point: FrontierPoint  #: what can be reached, and a design in wavelengths


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TradeOff:
    """The trade-off of gain, boom and front-to-rear ratio for a number of elements."""

    elements: int  #: number of elements
    band: tuple[float, float]  #: lowest and highest frequency [Hz] (2,)
    boom: float  #: boom asked for [m]
    diameter: float  #: diameter of plain elements [m]
    wavelength: float  #: wavelength at mid-band [m]
    #: what the boom asked for reaches under each demand on the rear (n_demands,)
    asked: tuple[FrontierRow, ...]
    curve: tuple[FrontierRow, ...]  #: the same for every boom of the table (n_booms * n_demands,)


def read_trade_off(
    *, elements: int, boom: float, band: tuple[float, float], diameter: float | None = None
) -> TradeOff:
    """Read the trade-off for a number of elements from the shipped frontier.

    Args:
        boom: boom from first to last element [m]
        band: lowest and highest frequency [Hz] (2,)
        diameter: diameter of plain elements; None for a thousandth of the wavelength [m]

    Raises:
        RequestError: when the frontier does not reach there
    """
    wavelength = 2.0 * SPEED_OF_LIGHT / sum(band)
    thick = _USUAL_DIAMETER_WL * wavelength if diameter is None else diameter
    width = (band[1] - band[0]) / (sum(band) / 2.0)
    if elements not in COUNTS:
        raise RequestError(
            f"the frontier holds {COUNTS[0]} to {COUNTS[-1]} elements ({elements})",
            remedy="ask for one of these",
        )
    table = read_frontier()

    def row(at: float, rear: float) -> FrontierRow:
        point = frontier_at(
            table=table, count=elements, boom_wl=at / wavelength,
            diameter_wl=thick / wavelength, bandwidth=width, front_to_rear_db=rear,
        )  # fmt: skip
        return FrontierRow(boom=at, rear_db=rear, point=point)

    booms = [BOOMS_WL[i] * wavelength for i in boom_numbers(count=elements)]
    if not math.isfinite(boom) or boom < booms[0] * (1.0 - 1e-9):
        raise RequestError(
            f"{elements} elements on this band need a boom of {booms[0]:.2f} m or more "
            f"({boom:.2f} m)",
            remedy="allow a longer boom, or fewer elements",
        )
    try:
        asked = tuple(row(boom, rear) for rear in REARS_DB)
        curve = tuple(row(at, rear) for at in booms for rear in REARS_DB)
    except WishError as error:
        raise RequestError(error.fault, remedy=error.remedy) from None
    return TradeOff(
        elements=elements, band=band, boom=boom, diameter=thick, wavelength=wavelength,
        asked=asked, curve=curve,
    )  # fmt: skip


def trade_off_document(made: TradeOff) -> dict[str, Any]:
    """Turn a trade-off into plain data."""
    return {
        "elements": made.elements,
        "band_hz": list(made.band),
        "boom_m": made.boom,
        "diameter_m": made.diameter,
        "asked": [_row_document(row, made.wavelength, design=True) for row in made.asked],
        "curve": [_row_document(row, made.wavelength, design=False) for row in made.curve],
    }


def _row_document(row: FrontierRow, wavelength: float, *, design: bool) -> dict[str, Any]:
    point = row.point
    found: dict[str, Any] = {
        "boom_m": row.boom,
        "front_to_rear_wanted_db": row.rear_db,
        "kept": point.kept,
        "gain_dbi": point.gain_dbi,
        "front_to_rear_db": point.front_to_rear_db,
        "swr": point.swr,
        "resistance_ohm": point.resistance,
    }
    if design:
        found["at_m"] = [float(at * wavelength) for at in point.positions]
        found["length_m"] = [float(2.0 * half * wavelength) for half in point.half_lengths]
    return found
