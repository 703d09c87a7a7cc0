"""Lists of the plan that a sheet shows, each with the forms that change it."""

from __future__ import annotations

from collections.abc import Iterable

from boomwright.base.records import dataclass, field
from boomwright.web.sheets.context_parts import helped


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedEntry:
    """One thing named in a list of the plan."""

    place: str = field(metadata=helped("Its place in the plan."))
    text: str = field(metadata=helped("What the plan says about it."))


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedList:
    """A list of the plan to which the sheet adds."""

    heading: str = field(metadata=helped("What stands in it."))
    entries: tuple[NamedEntry, ...] = field(metadata=helped("What is named already."))
    more: str = field(metadata=helped("Place in the plan of one more."))
    button: str = field(metadata=helped("Words of the key that adds it."))


def named_list(place: str, heading: str, texts: Iterable[str], *, button: str) -> NamedList:
    """Lay out a list of the plan.

    Args:
        place: the list in the plan
        texts: what is said of each of its entries (n_entries,)
    """
    entries = tuple(
        NamedEntry(place=f"{place}[{number}]", text=text) for number, text in enumerate(texts)
    )
    return NamedList(
        heading=heading, entries=entries, more=f"{place}[{len(entries)}]", button=button
    )
