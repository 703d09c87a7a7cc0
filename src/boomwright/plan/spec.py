"""Tables of the plan, declared once: reading, unknown keys and JSON Schema all follow.

A further table is one file under ``plan/tables``: a ``TableSpec`` with its fields, a
``check`` for what only shows across fields, and a function that builds the frozen value.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from functools import cache
from importlib import import_module
from typing import Any, Literal

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.quantity import PerReader, phrase
from boomwright.base.records import dataclass, field, replace
from boomwright.plan.faults import Place, written
from boomwright.plan.kinds import Kind, Schema, nearest, wrong_type

Values = dict[str, Any]

# More unknown keys than this in one table are no misspellings: it is another kind of file.
_MOST_UNKNOWN = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """What the trade takes where nobody has measured or looked it up."""

    text: str  #: value as it would be typed, in metric units
    basis: str  #: where it is from, in the owner's words


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One key of a table."""

    key: str  #: as written in the plan
    kind: Kind  #: what it holds
    help: str  #: what it means, one sentence for editors and manuals
    required: bool = False  #: whether a plan without it is at fault
    example: str = ""  #: TOML to write when it is missing
    attribute: str = ""  #: field of the model it fills, when that is not named like the key
    usual: Usual | None = None  #: what the trade takes; None where there is no such value
    #: part of the plan that it names: a beam by its name, or an element by its number; with the
    #: number of the first; None where it names none
    refers: tuple[Literal["beam", "element"], int] | None = None

    def usually(self, text: str, basis: str = "common practice") -> Field:
        """Say what the trade takes where nobody looked it up."""
        return replace(self, usual=Usual(text=text, basis=basis))

    def names(self, part: Literal["beam", "element"], first: int = 0) -> Field:
        """Say which part of the plan it names, and how the first of them is counted."""
        return replace(self, refers=(part, first))

    def fills(self, attribute: str) -> Field:
        """Say which field of the model it fills."""
        return replace(self, attribute=attribute)


@cache
def at_home(place: str) -> Any:
    """Load what a room holds when it is first needed.

    Args:
        place: ``module:name``
    """
    module, _, name = place.partition(":")
    return getattr(import_module(f"boomwright.{module}"), name)


def _no_check(values: Values, at: Place) -> None:
    return


@dataclass(frozen=True, slots=True, kw_only=True)
class TableSpec:
    """A table: its keys and what must hold between them."""

    noun: str  #: what one such table is called, e.g. ``element``
    fields: tuple[Field, ...]  #: keys in the order they are read and written
    #: reports faults between fields; a value is None when written but itself at fault, absent when
    #: not written
    check: Callable[[Values, Place], None] = field(default=_no_check)
    #: keys of older plans that no longer say enough, each with what to write instead; ``false``
    #: said nothing and still reads
    gone: tuple[tuple[str, str], ...] = ()
    #: keys that go with each choice of one key: that key, and by its choice the others; a key that
    #: stands nowhere here goes with all
    only: tuple[str, Mapping[str, tuple[str, ...]]] | None = None
    #: key of the frequency that ``wl`` belongs to in this table and below, or empty
    wavelength_key: str = ""
    #: frozen class with a field for each key, for ``building`` and ``writing``, or its
    #: ``module:name`` in a room that reading alone shall not load; None when a builder of its own
    #: makes the value
    model: type[Any] | str | None = None
    #: what every such table says without a key, by field of the model
    always: tuple[tuple[str, Any], ...] = ()

    def read(self, raw: Any, at: Place) -> Values | None:
        """Read a table into SI values by key; None when it is none [SI].

        What is at fault is None, what is not written absent.
        """
        if not isinstance(raw, dict):
            at.fault(wrong_type(raw, "a table"), remedy=f"write a table with {self._keys_text()}")
            return None
        self._unknown_keys(raw, at)
        values: Values = {}
        for entry in self.fields:
            if entry.key in raw:
                values[entry.key] = entry.kind.read(raw[entry.key], at.child(entry.key))
            elif entry.required:
                at.child(entry.key).fault(
                    phrase(f"{{key}} is missing in this {self.noun}", key=written(entry.key)),
                    remedy=phrase("add {entry}", entry=_example(entry)),
                    missing=True,
                )
            if entry.key == self.wavelength_key:
                frequency = values.get(entry.key) or math.nan
                at = replace(at, wavelength=SPEED_OF_LIGHT / frequency)
        self.check(values, at)
        return values

    def _keys_text(self) -> str:
        return ", ".join(entry.key for entry in self.fields)

    def _unknown_keys(self, raw: dict[str, Any], at: Place) -> None:
        known = [entry.key for entry in self.fields]
        gone = dict(self.gone)
        unknown = [key for key in raw if key not in known and key not in gone]
        for key in gone:
            if raw.get(key, False) is not False:
                at.child(key).fault("this key no longer says enough", remedy=gone[key])
        if len(unknown) > _MOST_UNKNOWN:
            message = f"{len(unknown)} keys here are not known in a {self.noun}"
            at.fault(message, remedy=f"remove them; known here: {self._keys_text()}")
            return
        for key in unknown:
            close = nearest(key, [name for name in known if name not in raw] or known)
            remedy = f"known here: {self._keys_text()}"
            if close:
                remedy = f'did you mean "{close}"? Otherwise remove it; {remedy}'
            at.child(key).fault(f"this key is not known in a {self.noun}", remedy=remedy)

    def schema(self) -> Schema:
        """Describe the table as a JSON object without further keys."""
        properties = {
            entry.key: {**entry.kind.schema(), "description": entry.help} for entry in self.fields
        }
        return {
            "type": "object",
            "properties": properties,
            "required": [entry.key for entry in self.fields if entry.required],
            "additionalProperties": False,
        }

    def below(self, step: str | int) -> Kind | None:
        """Kind of the value under a key; None when the table has no such key."""
        return next((entry.kind for entry in self.fields if entry.key == step), None)


def _example(entry: Field) -> PerReader:
    """How a missing key is written, as a file and as a form has it."""
    key, _, value = (entry.example or entry.key).partition(" = ")
    return written(key, value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """Several tables of one sort: ``[[beam]]``, ``[[beam.element]]``."""

    spec: TableSpec
    header: str  #: how one opens in the plan, e.g. ``[[beam]]``
    least: int = 1  #: fewest and most
    most: int = 100

    def read(self, raw: Any, at: Place) -> list[Values] | None:
        """Read each table; None when this is no list of tables [SI] (n_tables,)."""
        remedy = f"write {self.header} with double brackets above each {self.spec.noun}"
        if not isinstance(raw, list):
            at.fault(wrong_type(raw, "a list of tables"), remedy=remedy)
            return None
        if not self.least <= len(raw) <= self.most:
            message = f"{len(raw)} {self.spec.noun} tables, {self.least} to {self.most} are wanted"
            at.fault(message, remedy=remedy)
            return None
        read = [self.spec.read(member, at.child(index)) for index, member in enumerate(raw)]
        return [values if values is not None else {} for values in read]

    def schema(self) -> Schema:
        """Describe the list."""
        return {
            "type": "array",
            "items": self.spec.schema(),
            "minItems": self.least,
            "maxItems": self.most,
        }

    def below(self, step: str | int) -> Kind | None:
        """Kind of one table."""
        return self.spec if isinstance(step, int) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class NameOrTable:
    """Either a plain value or a table: ``ground = "medium dry"`` or ``{ ... }``."""

    name: Kind  #: kind of the short form
    table: TableSpec  #: the long form
    #: ``module:name`` of the mapping from the short form to the value it stands for; empty when it
    #: stands for itself
    named: str = ""

    def read(self, raw: Any, at: Place) -> Any:
        """Read whichever form is there [SI]."""
        return (self.table if isinstance(raw, dict) else self.name).read(raw, at)

    def schema(self) -> Schema:
        """Describe both forms."""
        return {"anyOf": [self.name.schema(), self.table.schema()]}

    def below(self, step: str | int) -> Kind | None:
        """Kind under a key of the long form; None when there is no such key."""
        return self.table.below(step)
