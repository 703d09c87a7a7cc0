"""Kinds of value a plan field can hold. Each reads, and describes itself as JSON Schema.

``read`` gives the value, or None after reporting what is wrong (TOML has no null).
"""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, Protocol

from boomwright.plan.faults import Place
from boomwright.plan.quantity import QuantityError, examples_text, parse_quantity
from boomwright.plan.units import EXAMPLES, SI_UNIT, UNITS_OF, Dimension

Schema = dict[str, Any]


class Kind(Protocol):
    """What a field holds."""

    def read(self, raw: Any, at: Place) -> Any:
        """Read a raw TOML value, or report and give None."""

    def schema(self) -> Schema:
        """Describe the values accepted, as JSON Schema."""

    def below(self, step: str | int) -> Kind | None:
        """Kind of the value under a key or index, None when there is none."""


class _Leaf:
    def below(self, step: str | int) -> Kind | None:  # noqa: ARG002
        """Nothing lies below a single value."""
        return None


def nearest(word: str, known: Iterable[str]) -> str:
    """Find the known word a misspelt one most likely meant.

    Parameters
    ----------
    word
        as written [-]
    known
        words that are right [-]

    Returns
    -------
    str
        the closest, or empty when none is close [-]
    """
    names = {name.lower(): name for name in known}
    close = difflib.get_close_matches(word[:80].lower(), list(names), n=1, cutoff=0.6)
    return names[close[0]] if close else ""


def type_name(raw: Any) -> str:
    """Name what a TOML value is, for a message.

    Parameters
    ----------
    raw
        value as TOML gave it [-]

    Returns
    -------
    str
        for instance ``a list`` [-]
    """
    names = {bool: "true or false", int: "a number", float: "a number", str: "a text"}
    names |= {list: "a list", dict: "a table"}
    return names.get(type(raw), "a date or time")


def _number_text(value: float) -> str:
    return f"{value:.6g}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity(_Leaf):
    """A number with a unit.

    Parameters
    ----------
    dimension
        what is wanted [-]
    low, high
        limits, both allowed unless ``above_low`` [SI unit of the dimension]
    above_low
        whether the value must lie above ``low``, not on it [-]
    """

    dimension: Dimension
    low: float = -math.inf
    high: float = math.inf
    above_low: bool = False

    def read(self, raw: Any, at: Place) -> float | None:
        """Read a text with unit or a plain SI number."""
        if not isinstance(raw, str | int | float):
            message = f"{type_name(raw)} stands where a {self.dimension} is wanted"
            at.fault(message, remedy=examples_text(self.dimension))
            return None
        try:
            value = parse_quantity(raw, self.dimension, wavelength=at.wavelength or None)
        except QuantityError as error:
            at.fault(error.message, remedy=error.remedy)
            return None
        except ValueError:  # a wavelength of NaN: its own fault is already listed
            return None
        return value if self._within(value, raw, at) else None

    def _within(self, value: float, raw: Any, at: Place) -> bool:
        unit = SI_UNIT[self.dimension]
        too_low = value <= self.low if self.above_low else value < self.low
        if not too_low and value <= self.high:
            return True
        if too_low:
            word = "greater than" if self.above_low else "at least"
            limit = self.low
        else:
            word, limit = "at most", self.high
        message = f"the {self.dimension} must be {word} {_number_text(limit)} {unit}".rstrip()
        remedy = examples_text(self.dimension)
        if not isinstance(raw, str) and value > self.high:
            remedy = f"a number without a unit is taken in {unit}: was the unit forgotten? {remedy}"
        at.fault(message, remedy=remedy)
        return False

    def schema(self) -> Schema:
        """Text with one of the units, or a number."""
        number: Schema = {"type": "number"}
        if self.dimension == "angle":
            number = {"const": 0}
        elif math.isfinite(self.low):
            number["exclusiveMinimum" if self.above_low else "minimum"] = self.low
        if self.dimension != "angle" and math.isfinite(self.high):
            number["maximum"] = self.high
        units = sorted(UNITS_OF[self.dimension], key=len, reverse=True)
        if self.dimension == "length":
            units.append("wl")
        any_unit = "|".join(re.escape(unit) for unit in units)
        if self.dimension == "ratio":
            any_unit += "|"
        sign = r"[+-]?\s*" if self.low < 0 else r"\+?\s*"
        text = {"type": "string", "pattern": rf"^\s*{sign}[0-9.].*?({any_unit})\s*$"}
        return {"anyOf": [text, number], "examples": list(EXAMPLES[self.dimension])}


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(_Leaf):
    """A pure number.

    Parameters
    ----------
    low, high
        limits, both allowed [-]
    whole
        whether only whole numbers will do [-]
    """

    low: float = -math.inf
    high: float = math.inf
    whole: bool = False

    def read(self, raw: Any, at: Place) -> float | None:
        """Read a TOML number."""
        wanted = "whole number" if self.whole else "number"
        wrong_type = isinstance(raw, bool) or not isinstance(
            raw, int if self.whole else int | float
        )
        remedy = f"write a {wanted} without quotes"
        if math.isfinite(self.low) and math.isfinite(self.high):
            span = f"{_number_text(self.low)} to {_number_text(self.high)}"
            remedy = f"write a {wanted} from {span} without quotes"
        if wrong_type:
            at.fault(f"{type_name(raw)} stands where a {wanted} is wanted", remedy=remedy)
            return None
        if not self.low <= raw <= self.high or raw != raw or abs(raw) > 1e300:  # noqa: PLR0124
            at.fault("the number is out of range", remedy=remedy)
            return None
        return raw if self.whole else float(raw)

    def schema(self) -> Schema:
        """A JSON number within the limits."""
        schema: Schema = {"type": "integer" if self.whole else "number"}
        if math.isfinite(self.low):
            schema["minimum"] = self.low
        if math.isfinite(self.high):
            schema["maximum"] = self.high
        return schema


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(_Leaf):
    """A line of text.

    Parameters
    ----------
    longest
        most characters allowed [-]
    """

    longest: int = 200

    def read(self, raw: Any, at: Place) -> str | None:
        """Read a non-empty printable line."""
        if not isinstance(raw, str):
            at.fault(f"{type_name(raw)} stands where a text is wanted", remedy="put it in quotes")
        elif not raw.strip():
            at.fault("the text is empty", remedy="write at least one character")
        elif len(raw) > self.longest:
            message = f"the text has {len(raw)} characters"
            at.fault(message, remedy=f"shorten it to {self.longest} characters")
        elif not raw.isprintable():
            at.fault("the text holds characters that do not print", remedy="write one plain line")
        else:
            return raw.strip()
        return None

    def schema(self) -> Schema:
        """A string of limited length."""
        return {"type": "string", "minLength": 1, "maxLength": self.longest}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(_Leaf):
    """One word out of a list.

    Parameters
    ----------
    options
        what may be written [-]
    noun
        what the options are, for messages [-]
    """

    options: tuple[str, ...]
    noun: str

    def read(self, raw: Any, at: Place) -> str | None:
        """Read one of the options, spelt exactly."""
        if isinstance(raw, str) and raw in self.options:
            return raw
        listed = ", ".join(f'"{option}"' for option in self.options)
        remedy = f"write one of {listed}"
        if not isinstance(raw, str):
            at.fault(f"{type_name(raw)} stands where a {self.noun} is wanted", remedy=remedy)
            return None
        close = nearest(raw, self.options)
        if close:
            remedy = f'did you mean "{close}"? Otherwise {remedy}'
        at.fault(f"this {self.noun} is not known", remedy=remedy)
        return None

    def schema(self) -> Schema:
        """An enumeration."""
        return {"enum": list(self.options)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Parsed(_Leaf):
    """A text in a form of its own, read by a function.

    Parameters
    ----------
    parse
        text to value; raises ``QuantityError`` with message and remedy [-]
    example
        how to write it [-]
    pattern
        regular expression for the schema, or empty [-]
    """

    parse: Callable[[str], Any]
    example: str
    pattern: str = ""

    def read(self, raw: Any, at: Place) -> Any:
        """Read a text with the function."""
        if not isinstance(raw, str):
            message = f"{type_name(raw)} stands where a text is wanted"
            at.fault(message, remedy=f'write it as "{self.example}"')
            return None
        try:
            return self.parse(raw)
        except QuantityError as error:
            at.fault(error.message, remedy=error.remedy)
            return None

    def schema(self) -> Schema:
        """A string of that form."""
        schema: Schema = {"type": "string", "examples": [self.example]}
        if self.pattern:
            schema["pattern"] = self.pattern
        return schema


@dataclass(frozen=True, slots=True, kw_only=True)
class ListOf:
    """A list whose members are all of one kind.

    Parameters
    ----------
    item
        kind of every member [-]
    least, most
        fewest and most members [-]
    example
        how to write it [-]
    """

    item: Kind
    least: int = 1
    most: int = 1000
    example: str

    def read(self, raw: Any, at: Place) -> list[Any] | None:
        """Read every member; those at fault stand as None in their place."""
        if not isinstance(raw, list):
            message = f"{type_name(raw)} stands where a list is wanted"
            at.fault(message, remedy=f"write it as {self.example}")
            return None
        if not self.least <= len(raw) <= self.most:
            span = f"{self.least} to {self.most}" if self.least != self.most else f"{self.least}"
            message = f"the list has {len(raw)} members, {span} are wanted"
            at.fault(message, remedy=f"write it as {self.example}")
            return None
        return [self.item.read(member, at.child(index)) for index, member in enumerate(raw)]

    def schema(self) -> Schema:
        """An array."""
        return {
            "type": "array",
            "items": self.item.schema(),
            "minItems": self.least,
            "maxItems": self.most,
        }

    def below(self, step: str | int) -> Kind | None:
        """Kind of a member."""
        return self.item if isinstance(step, int) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A short list whose members each have their own kind.

    Parameters
    ----------
    items
        kind of each member [-]
    least
        fewest members; the last ones may be left out [-]
    example
        how to write it [-]
    """

    items: tuple[Kind, ...]
    least: int
    example: str

    def read(self, raw: Any, at: Place) -> list[Any] | None:
        """Read each member by its kind."""
        if not isinstance(raw, list) or not self.least <= len(raw) <= len(self.items):
            found = f"a list of {len(raw)}" if isinstance(raw, list) else type_name(raw)
            span = f"{self.least} to {len(self.items)}"
            if self.least == len(self.items):
                span = f"{self.least}"
            message = f"{found} stands where a list of {span} is wanted"
            at.fault(message, remedy=f"write it as {self.example}")
            return None
        pairs = zip(self.items, raw, strict=False)
        return [kind.read(member, at.child(i)) for i, (kind, member) in enumerate(pairs)]

    def schema(self) -> Schema:
        """An array with its members described one by one."""
        return {
            "type": "array",
            "prefixItems": [kind.schema() for kind in self.items],
            "items": False,
            "minItems": self.least,
            "maxItems": len(self.items),
        }

    def below(self, step: str | int) -> Kind | None:
        """Kind of one member."""
        inside = isinstance(step, int) and step < len(self.items)
        return self.items[int(step)] if inside else None
