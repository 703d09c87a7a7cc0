"""Kinds of list a plan field can hold: alike members, or a row of different ones."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.plan.faults import Place
from boomwright.plan.kinds import Kind, Schema, wrong_type


@dataclass(frozen=True, slots=True, kw_only=True)
class ListOf:
    """A list whose members are all of one kind."""

    item: Kind  #: kind of every member
    least: int = 1  #: fewest and most members
    most: int = 1000
    example: str  #: how to write it

    def read(self, raw: Any, at: Place) -> list[Any] | None:
        """Read every member [SI]; those at fault stand as None in their place."""
        if not isinstance(raw, list):
            at.fault(wrong_type(raw, "a list"), remedy=f"write it as {self.example}")
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
        """Kind of a member; None when nothing lies there."""
        return self.item if isinstance(step, int) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A short list whose members each have their own kind."""

    items: tuple[Kind, ...]  #: kind of each member
    least: int  #: fewest members; the last ones may be left out
    example: str  #: how to write it
    names: tuple[str, ...] = ()  #: what each member is, in a word or two
    #: what the model holds, made of the members; None for them in a row
    makes: Callable[..., Any] | None = None

    def read(self, raw: Any, at: Place) -> list[Any] | None:
        """Read each member by its kind [SI]; None when it is no such list."""
        if not isinstance(raw, list) or not self.least <= len(raw) <= len(self.items):
            span = f"{self.least} to {len(self.items)}"
            if self.least == len(self.items):
                span = f"{self.least}"
            message: Value = wrong_type(raw, f"a list of {span}")
            if isinstance(raw, list):
                message = f"the list has {len(raw)} members, {span} are wanted"
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
        """Kind of one member; None when nothing lies there."""
        inside = isinstance(step, int) and step < len(self.items)
        return self.items[int(step)] if inside else None
