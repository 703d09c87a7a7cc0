"""Quantities as people write them: ``5.18 m``, ``17 ft 0 in``, ``3-3/8 in``, ``0.2 wl``.

The field says which dimension it wants; anything else is refused with a remedy. Numbers
are kept as exact fractions up to the last step, so ``25.4 mm`` is exactly the float 0.0254.
"""

from __future__ import annotations

import difflib
import math
import re
from fractions import Fraction
from functools import lru_cache
from typing import Final

from boomwright.base import BoomwrightError
from boomwright.plan.units import DIMENSIONS, EXAMPLES, UNITS, UNITS_OF, Dimension

_LONGEST = 64

#: quantities that need their unit, because a bare number is meant in any of these
UNIT_ASKED: Final[dict[Dimension, str]] = {
    "angle": "degrees or radians",
    "speed": "miles an hour, kilometres an hour or metres a second",
}

#: highest gust ever measured at 10 m outside a tornado {wmo-gust-record} [m/s]
RECORD_GUST: Final = 113.3

# What word processors and keyboards put in place of the plain characters.
_PLAIN = str.maketrans(
    {
        "\u2212": "-",
        "\u2032": "'",
        "\u2019": "'",
        "\u2033": '"',
        "\u201d": '"',
        "\u00a0": " ",
        "\u202f": " ",
        "\u00b0": "deg",
        "\u00b5": "u",
        "\u03bc": "u",
        "\u03a9": "ohm",
        "\u2126": "ohm",
        "\u00b7": " ",
        "\u22c5": " ",
        "*": " ",
        "\u00b2": "2",
        "\u00b3": "3",
        "^": "",
    }
)

_DECIMAL = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,3})?"
_FRACTION = r"(?:[0-9]+(?:\s*-\s*|\s+))?[0-9]+\s*/\s*[0-9]+"
_NUMBER = rf"{_FRACTION}|{_DECIMAL}"
_FEET_INCHES = re.compile(
    rf"(?P<feet>{_DECIMAL})\s*(?:ft|foot|feet|')\s*-?\s*(?P<inches>{_NUMBER})\s*"
    rf"(?P<unit>in|inch|inches|\"|'')?"
)
_SINGLE = re.compile(rf"(?P<number>{_NUMBER})\s*(?P<unit>\D.*|)", re.DOTALL)
_COMMA = re.compile(r"[+-]?[0-9]+,[0-9]+")


class QuantityError(BoomwrightError, ValueError):
    """A quantity that cannot be read.

    Args:
        message: what is wrong, in one sentence
        remedy: what to write instead
    """

    def __init__(self, message: str, remedy: str) -> None:
        super().__init__(message, remedy=remedy)
        self.message = message


def examples_text(dimension: Dimension) -> str:
    """Name two or three ways to write a quantity."""
    quoted = [f'"{example}"' for example in EXAMPLES[dimension]]
    listed = " or ".join([", ".join(quoted[:-1]), quoted[-1]] if quoted[1:] else quoted)
    return f"write {_article(dimension)} with its unit, such as {listed}"


def _article(dimension: str) -> str:
    return f"{'an' if dimension[0] in 'aeiou' else 'a'} {dimension}"


def _fraction(text: str) -> Fraction:
    """Read a decimal or a whole-and-fraction such as ``3-3/8``."""
    if "/" not in text:
        return Fraction(text)
    left, below = text.split("/")
    denominator = int(below)
    if denominator == 0:
        message = "the fraction has a zero below the line"
        raise QuantityError(message, 'write a fraction such as "3-3/8 in"')
    parts = re.split(r"[\s-]+", left.strip())
    whole = int(parts[0]) if len(parts) > 1 else 0
    return whole + Fraction(int(parts[-1]), denominator)


def _feet_inches(match: re.Match[str]) -> Fraction:
    feet = Fraction(match["feet"])
    inches = _fraction(match["inches"])
    if match["unit"] is None:
        message = "the figure after the feet has no unit"
        raise QuantityError(message, f'write "{match["feet"]} ft {match["inches"]} in"')
    if feet.denominator != 1:
        message = "feet with a decimal part cannot be followed by inches"
        raise QuantityError(message, 'write whole feet and inches, such as "5 ft 6-1/2 in"')
    if inches >= 12:
        message = "the inches after the feet come to a foot or more"
        raise QuantityError(message, 'carry the inches over, such as "6 ft 2 in"')
    return (12 * feet + inches) * UNITS["in"][1]


def _unit_text(unit: str) -> str:
    """Bring a unit to the spelling of the table: one blank, none around a slash."""
    joined = re.sub(r"\s*/\s*", "/", " ".join(unit.split()))
    return re.sub(r"/100\s*(?=[a-z])", "/100 ", joined)


def _unit_factor(unit: str, dimension: Dimension, wavelength: float | None) -> Fraction:
    if unit == "wl" and dimension == "length":
        if wavelength is None:
            message = "wl (wavelengths) has no meaning here, no design frequency applies"
            raise QuantityError(message, 'write a length such as "5.18 m" or "17 ft 0 in"')
        return Fraction(wavelength)
    found = UNITS.get(unit)
    if found is not None and found[0] == dimension:
        return found[1]
    remedy = examples_text(dimension)
    if found is not None or unit == "wl":
        is_a = found[0] if found else "length"
        message = f'the unit "{unit}" makes this {_article(is_a)}, but {_article(dimension)} is'
        message = f"{message} wanted here"
        if dimension == "force" and is_a == "mass":
            remedy = f'write the force, such as "500 N", "112 {unit}f" or "50 kgf"'
        raise QuantityError(message, remedy)
    message = f'"{unit[:20]}" is not a unit known here'
    close = _closest_unit(unit, dimension)
    raise QuantityError(message, f'did you mean "{close}"? Otherwise {remedy}' if close else remedy)


def _closest_unit(unit: str, dimension: Dimension) -> str:
    lowered = {known.lower(): known for known in reversed(UNITS_OF[dimension])}
    if dimension == "length":
        lowered["wl"] = "wl"
    close = difflib.get_close_matches(unit.lower(), list(lowered), n=1, cutoff=0.5)
    return lowered[close[0]] if close else ""


def _plain_number(value: float, dimension: Dimension) -> float:
    if isinstance(value, bool):
        message = f"true or false stands where {_article(dimension)} is wanted"
        raise QuantityError(message, examples_text(dimension))
    try:
        number = float(value)
    except OverflowError:
        number = math.inf
    if not math.isfinite(number):
        raise QuantityError("the number is not finite", examples_text(dimension))
    # A bare 300 would be 300 radians; nobody means that, and a bare 5 would pass unseen. So
    # would a bare wind of 40, in miles an hour as often as in metres a second.
    if dimension in UNIT_ASKED and number != 0.0:
        message = f"{_article(dimension)} without a unit could be {UNIT_ASKED[dimension]}"
        raise QuantityError(message, _which_unit(str(value), dimension))
    return number


def _which_unit(number: str, dimension: Dimension) -> str:
    """Ask which unit was meant, saying of a speed what each would come to."""
    if dimension == "angle":
        return f'write "{number} deg" or "{number} rad"'
    metres = float(_fraction(number))
    metric = [
        f'"{number} {unit}" ({metres * float(UNITS[unit][1]):.1f} m/s)' for unit in ("mph", "km/h")
    ]
    miles = f"{metres / float(UNITS['mph'][1]):.0f} mph"
    if metres > RECORD_GUST:
        miles += ", more than any gust ever measured"
    return f'write what it is: {", ".join(metric)} or "{number} m/s" ({miles})'


def _cleaned(text: str, dimension: Dimension) -> str:
    if len(text) > _LONGEST:
        raise QuantityError(f"the text is {len(text)} characters long", examples_text(dimension))
    plain = text.translate(_PLAIN).strip()
    if not plain:
        raise QuantityError("the text is empty", examples_text(dimension))
    if not plain.isascii() or not plain.isprintable():
        odd = next(ch for ch in plain if not (ch.isascii() and ch.isprintable()))
        message = f"the character U+{ord(odd):04X} is not used in a quantity"
        remedy = f"use the digits 0 to 9 and plain letters: {EXAMPLES[dimension][0]}"
        raise QuantityError(message, remedy)
    return plain


def parse_quantity(
    value: str | float, dimension: Dimension, *, wavelength: float | None = None
) -> float:
    """Read a quantity, to the float nearest to what was written [SI unit of the dimension].

    Args:
        value: text with its unit, or a plain number taken as SI [-]
        dimension: what the field wants, e.g. ``length``
        wavelength: the wavelength that ``wl`` stands for; None where ``wl`` has no meaning [m]

    Raises:
        QuantityError: no unit, an unknown unit, a unit of another dimension, no number, not finite
    """
    if dimension not in DIMENSIONS:
        raise ValueError(f"no dimension is called {dimension!r}")
    if not isinstance(value, str):
        return _plain_number(value, dimension)
    return _parsed(value, dimension, wavelength)


# While a hand drags, all the plan's other quantities are read again and again.
@lru_cache(maxsize=1024)
def _parsed(value: str, dimension: Dimension, wavelength: float | None) -> float:
    text = _cleaned(value, dimension)
    negative = text.startswith("-")
    body = text[1:].lstrip() if text[0] in "+-" else text
    if dimension == "length" and (match := _FEET_INCHES.fullmatch(body)):
        exact = _feet_inches(match)
    else:
        exact = _single(body, dimension, wavelength)
    try:
        result = float(exact)
    except OverflowError:
        raise QuantityError("the number is too large", examples_text(dimension)) from None
    return -result if negative else result


def _single(body: str, dimension: Dimension, wavelength: float | None) -> Fraction:
    if comma := _COMMA.match(body):
        message = "the number holds a comma"
        remedy = f'write a decimal point: "{body.replace(",", ".", 1)}"'
        if comma.end() - body.index(",") > 3:
            remedy = f"{remedy}; leave thousands unmarked"
        raise QuantityError(message, remedy)
    match = _SINGLE.fullmatch(body)
    if match is None:
        message = "there is no number at the start, or more than one"
        raise QuantityError(message, examples_text(dimension))
    number = _fraction(match["number"])
    unit = _unit_text(match["unit"])
    if unit:
        return number * _unit_factor(unit, dimension, wavelength)
    if dimension == "ratio":
        return number
    message = "the unit is missing"
    shown = match["number"]
    if dimension in UNIT_ASKED:
        raise QuantityError(message, _which_unit(shown, dimension))
    remedy = f'write "{shown} {UNITS_OF[dimension][0]}", or the unit that was meant'
    if dimension == "length":
        remedy = f'write "{shown} m" or "{shown} ft", whichever was meant'
    raise QuantityError(message, remedy)


def written_unit(text: str) -> str:
    """Tell the unit a quantity is written in, ``ft in`` for feet and inches together; or empty."""
    plain = text[:_LONGEST].translate(_PLAIN).strip().lstrip("+-").lstrip()
    if _FEET_INCHES.fullmatch(plain):
        return "ft in"
    match = _SINGLE.fullmatch(plain)
    return _unit_text(match["unit"]) if match else ""
