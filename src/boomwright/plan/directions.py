"""Where and whither: latitude and longitude, locator squares, headings as people write them."""

from __future__ import annotations

import math
import re
from typing import Final, Literal

from boomwright.plan.quantity import QuantityError, parse_quantity

POSITION_EXAMPLE: Final = "52.20 N, 0.10 E"
LOCATOR_EXAMPLE: Final = "JO02be"
HEADING_EXAMPLE: Final = "300 deg"

_PART = r"(?:[\s:]+([0-9]{1,2}(?:\.[0-9]{1,12})?))?"
_DMS = rf"([0-9]{{1,3}}(?:\.[0-9]{{1,14}})?){_PART}{_PART}"
_POSITION = re.compile(rf"{_DMS}\s*([NS])[\s,;]+{_DMS}\s*([EW])", re.IGNORECASE)
_MARKS = str.maketrans(dict.fromkeys("°′″’”'\"\xa0", " "))
_LOCATOR = re.compile(r"[A-R]{2}(?:[0-9]{2}(?:[A-X]{2}(?:[0-9]{2})?)?)?", re.IGNORECASE)
#: longest locator written by hand [characters]
_LOCATOR_LONGEST = 10
_POINTS = (
    "N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW".split()  # noqa: SIM905
)


def _degrees(parts: tuple[str | None, str | None, str | None], limit: float, name: str) -> float:
    whole, minutes, seconds = (float(part) if part else 0.0 for part in parts)
    remedy = f'write degrees, or degrees minutes seconds, such as "{POSITION_EXAMPLE}"'
    if minutes >= 60 or seconds >= 60:
        raise QuantityError(f"the minutes or seconds of the {name} come to 60 or more", remedy)
    if parts[1] is not None and whole != int(whole):
        raise QuantityError(f"the {name} has a decimal part and minutes as well", remedy)
    degrees = whole + minutes / 60 + seconds / 3600
    if degrees > limit:
        raise QuantityError(f"the {name} is more than {limit:g} degrees", remedy)
    return degrees


def parse_position(text: str) -> tuple[float, float]:
    """Read a latitude, north positive, and a longitude, east positive [rad] (2,).

    Args:
        text: ``52.20 N, 0.10 E`` or ``52 12 0 N, 0 6 0 E``; degree and minute marks allowed

    Raises:
        QuantityError: not a position, or outside the globe
    """
    match = _POSITION.fullmatch(text[:120].translate(_MARKS).strip())
    if match is None:
        message = "this is not a latitude and longitude with N or S and E or W"
        raise QuantityError(message, f'write it as "{POSITION_EXAMPLE}"')
    groups = match.groups()
    latitude = _degrees((groups[0], groups[1], groups[2]), 90.0, "latitude")
    longitude = _degrees((groups[4], groups[5], groups[6]), 180.0, "longitude")
    north = 1.0 if groups[3].upper() == "N" else -1.0
    east = 1.0 if groups[7].upper() == "E" else -1.0
    return math.radians(north * latitude), math.radians(east * longitude)


def where_key(text: str) -> Literal["locator", "position"]:
    """Name the key of a table that a place belongs to, as it is typed."""
    return "locator" if text.isalnum() and len(text) <= _LOCATOR_LONGEST else "position"


def locator_square(text: str) -> tuple[float, float, float, float]:
    """South, west, north and east edge of the square of a locator {iaru-locator} [rad] (4,).

    Args:
        text: 2, 4, 6 or 8 characters such as ``JO02be``

    Raises:
        QuantityError: not a locator

    Notes:
        Pairs of longitude and latitude: letters A-R (20 by 10 degrees), digits (2 by 1),
        letters A-X (5 by 2.5 minutes), digits (a tenth of that), counted from 180 W, 90 S.
    """
    plain = text.strip()
    if not plain.isascii() or _LOCATOR.fullmatch(plain) is None:
        message = "this is not a locator"
        remedy = f'write two letters, two digits, two letters, such as "{LOCATOR_EXAMPLE}"'
        raise QuantityError(message, remedy)
    west, south, width, height = -180.0, -90.0, 360.0, 180.0
    for start, parts in zip(range(0, len(plain), 2), (18, 10, 24, 10), strict=False):
        width, height = width / parts, height / parts
        origin = "A" if plain[start].isalpha() else "0"
        west += (ord(plain[start].upper()) - ord(origin)) * width
        south += (ord(plain[start + 1].upper()) - ord(origin)) * height
    south_west_north_east = (south, west, south + height, west + width)
    rad = [math.radians(edge) for edge in south_west_north_east]
    return rad[0], rad[1], rad[2], rad[3]


def locator_centre(text: str) -> tuple[float, float]:
    """Latitude and longitude of the centre of a locator square {iaru-locator} [rad] (2,).

    Args:
        text: 2, 4, 6 or 8 characters such as ``JO02be``
    """
    south, west, north, east = locator_square(text)
    return (south + north) / 2, (west + east) / 2


def checked_locator(text: str) -> str:
    """Read a locator and keep it as a text.

    Args:
        text: 2, 4, 6 or 8 characters such as ``JO02be``
    """
    locator_square(text)
    return text.strip()


def position_text(position: tuple[float, float]) -> str:
    """Write a latitude and longitude, the inverse of ``parse_position``.

    Args:
        position: latitude, north positive, and longitude, east positive [rad] (2,)
    """
    parts = []
    for angle, letters in zip(position, ("NS", "EW"), strict=True):
        degrees = f"{abs(math.degrees(angle)):.11f}".rstrip("0").rstrip(".")
        parts.append(f"{degrees} {letters[angle < 0]}")
    return ", ".join(parts)


def parse_heading(text: str) -> float:
    """Read a direction of fire, from 0 up to, not including, a full turn [rad].

    Args:
        text: an angle clockwise from true north, ``300 deg``, or a compass point, ``WNW``

    Raises:
        QuantityError: neither, or more than a full turn
    """
    word = text.strip().upper()
    if word in _POINTS:
        return _POINTS.index(word) * math.tau / len(_POINTS)
    if word.isascii() and word.isalpha():
        message = "this is not a compass point"
        raise QuantityError(message, f'write "{HEADING_EXAMPLE}", or a point such as "WNW"')
    angle = parse_quantity(text, "angle")
    if abs(angle) > math.tau * (1 + 1e-12):
        message = "the heading is more than a full turn"
        raise QuantityError(message, "write an angle from 0 deg to 360 deg")
    turned = angle % math.tau
    return 0.0 if math.isclose(turned, math.tau, rel_tol=1e-15) else turned
