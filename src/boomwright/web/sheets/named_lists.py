"""Lists of the plan to which a sheet adds, and from which it takes out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from boomwright.web.sheets.context_parts import helped


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedEntry:
    """One thing named in a list of the plan."""

    number: int = field(metadata=helped("Its number in the list, from 0."))
    text: str = field(metadata=helped("What the plan says about it."))


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedField:
    """A value to type for one thing more."""

    key: str = field(metadata=helped("Its key."))
    label: str = field(metadata=helped("Its name."))
    hint: str = field(metadata=helped("How to write it."))
    options: tuple[str, ...] = field(metadata=helped("What may be chosen; empty to type."))


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedList:
    """A list of the plan to which the sheet adds."""

    place: str = field(metadata=helped("The list in the plan."))
    heading: str = field(metadata=helped("What stands in it."))
    entries: tuple[NamedEntry, ...] = field(metadata=helped("What is named already."))
    fields: tuple[NamedField, ...] = field(metadata=helped("What to type for one more."))
    button: str = field(metadata=helped("Words of the key that adds it."))


def named_entries(texts: Iterable[str]) -> tuple[NamedEntry, ...]:
    """Number what a list of the plan names."""
    return tuple(NamedEntry(number=number, text=text) for number, text in enumerate(texts))


def typed_field(key: str, label: str, hint: str) -> NamedField:
    """Make a value to type."""
    return NamedField(key=key, label=label, hint=hint, options=())
