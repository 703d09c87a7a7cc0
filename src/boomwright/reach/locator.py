"""The locator of amateur stations: letters and figures for a small rectangle of the earth.

Pairs of characters divide the globe by turns into 18, 10, 24, 10 and 24 parts each way,
longitude first, counted from 180 W and 90 S {iaru-locator}.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from boomwright.base import BoomwrightError
from boomwright.reach.geodesy import Place

_PARTS = (18, 10, 24, 10, 24)
_LENGTHS = (4, 6, 8, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class LocatorCell:
    """The rectangle a locator stands for."""

    centre: Place  #: middle of the rectangle
    half_height: float  #: half its extent in latitude [rad]
    half_width: float  #: half its extent in longitude [rad]


def _symbol(*, index: int, pair: int) -> str:
    if _PARTS[pair] == 10:
        return str(index)
    return chr(ord("A" if pair == 0 else "a") + index)


def _index(*, symbol: str, pair: int, locator: str) -> int:
    base = "0" if _PARTS[pair] == 10 else "A"
    index = ord(symbol.upper()) - ord(base)
    if not 0 <= index < _PARTS[pair]:
        last = chr(ord(base) + _PARTS[pair] - 1)
        msg = (
            f"locator {locator!r}: character {symbol!r} in pair {pair + 1} is out of range; "
            f"use {base} to {last} there"
        )
        raise BoomwrightError(msg)
    return index


def cell_from_locator(locator: str) -> LocatorCell:
    """Read a locator.

    Args:
        locator: 4, 6, 8 or 10 characters, large or small

    Returns:
        the rectangle, with its centre as the best guess of the place {iaru-locator}

    Raises:
        BoomwrightError: when the length or a character is wrong
    """
    text = locator.strip()
    if len(text) not in _LENGTHS:
        msg = f"locator {locator!r}: {len(text)} characters; write 4, 6, 8 or 10, e.g. JN58td"
        raise BoomwrightError(msg)
    east, north, width, height = 0.0, 0.0, 360.0, 180.0
    for pair in range(len(text) // 2):
        width /= _PARTS[pair]
        height /= _PARTS[pair]
        east += width * _index(symbol=text[2 * pair], pair=pair, locator=text)
        north += height * _index(symbol=text[2 * pair + 1], pair=pair, locator=text)
    return LocatorCell(
        centre=Place.from_degrees(
            latitude_deg=north + height / 2 - 90.0, longitude_deg=east + width / 2 - 180.0
        ),
        half_height=math.radians(height / 2),
        half_width=math.radians(width / 2),
    )
