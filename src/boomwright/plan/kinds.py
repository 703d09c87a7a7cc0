"""Kinds of value a plan field can hold. Each reads, and describes itself as JSON Schema.

``read`` gives the value, or None after reporting what is wrong (TOML has no null).
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable
from typing import Any, Final, Protocol

from boomwright.base.days import day_number
from boomwright.base.quantity import PerReader
from boomwright.base.records import dataclass
from boomwright.plan.faults import Place
from boomwright.plan.quantity import QuantityError

Schema = dict[str, Any]


class Kind(Protocol):
    """What a field holds."""

    def read(self, raw: Any, at: Place) -> Any:
        """Read a raw TOML value, or report and give None [SI]."""

    def schema(self) -> Schema:
        """Describe the values accepted, as JSON Schema."""

    def below(self, step: str | int) -> Kind | None:
        """Kind of the value under a key or index, None when there is none."""


class Leaf:
    """A kind with nothing below it."""

    __slots__ = ()

    def below(self, step: str | int) -> Kind | None:
        """Nothing lies below a single value; None when nothing lies there."""
        return None


def nearest(word: str, known: Iterable[str]) -> str:
    """Find the known word a misspelt one most likely meant; empty when none is close."""
    names = {name.lower(): name for name in known}
    close = difflib.get_close_matches(word[:80].lower(), list(names), n=1, cutoff=0.6)
    return names[close[0]] if close else ""


_FLAG: Final = "true or false"


def type_name(raw: Any) -> str:
    """Name what a TOML value is, for a message."""
    names = {bool: _FLAG, int: "a number", float: "a number", str: "a text"}
    names |= {list: "a list", dict: "a table"}
    return names.get(type(raw), "a date or time")


def wrong_type(raw: Any, wanted: str) -> PerReader:
    """Say that a value of another sort is wanted, in the words of a file and of a form.

    Args:
        raw: the value as TOML gave it
        wanted: with its article: ``a number``
    """
    forms = "yes or no is wanted" if wanted == _FLAG else f"this is not {wanted}"
    return PerReader(file=f"{type_name(raw)} stands where {wanted} is wanted", forms=forms)


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(Leaf):
    """A line of text."""

    longest: int = 200  #: most characters allowed

    def read(self, raw: Any, at: Place) -> str | None:
        """Read a non-empty printable line; None when at fault."""
        if not isinstance(raw, str):
            at.fault(wrong_type(raw, "a text"), remedy="put it in quotes")
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
class Choice(Leaf):
    """One word out of a list."""

    options: tuple[str, ...]  #: what may be written
    noun: str  #: what the options are, for messages

    def read(self, raw: Any, at: Place) -> str | None:
        """Read one of the options, spelt exactly; None when at fault."""
        if isinstance(raw, str) and raw in self.options:
            return raw
        listed = ", ".join(f'"{option}"' for option in self.options)
        remedy = f"write one of {listed}"
        if not isinstance(raw, str):
            at.fault(wrong_type(raw, f"a {self.noun}"), remedy=remedy)
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
class Parsed(Leaf):
    """A text in a form of its own, read by a function."""

    parse: Callable[[str], Any]  #: text to value; raises ``QuantityError`` with message and remedy
    example: str  #: how to write it
    pattern: str = ""  #: regular expression for the schema, or empty
    write: Callable[[Any], str] = str  #: value to text, the inverse of ``parse``

    def read(self, raw: Any, at: Place) -> Any:
        """Read a text with the function; None when at fault [SI]."""
        if not isinstance(raw, str):
            at.fault(wrong_type(raw, "a text"), remedy=f'write it as "{self.example}"')
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
class Flag(Leaf):
    """Yes or no."""

    def read(self, raw: Any, at: Place) -> bool | None:
        """Read true or false; None when at fault."""
        if isinstance(raw, bool):
            return raw
        remedy = PerReader(file=f"write {_FLAG}, without quotes", forms="choose yes or no")
        at.fault(wrong_type(raw, _FLAG), remedy=remedy)
        return None

    def schema(self) -> Schema:
        """A JSON boolean."""
        return {"type": "boolean"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Day(Leaf):
    """A day of the calendar, as a text or as TOML writes days."""

    def read(self, raw: Any, at: Place) -> str | None:
        """Read year, month and day; None when at fault."""
        # TOML has days of its own; their text form is the one wanted here.
        text = raw.strip() if isinstance(raw, str) else str(raw)
        try:
            day_number(text)
        except ValueError:
            at.fault("this is not a day of the calendar", remedy='write it as "2026-01-31"')
            return None
        return text

    def schema(self) -> Schema:
        """A string of that form."""
        return {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
