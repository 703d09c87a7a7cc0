"""What a window asks for to name something more in the plan, or to take it out again."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

#: lists a window may add to -> the keys of one entry
ADDABLE: Final[dict[str, tuple[str, ...]]] = {
    "reach.target": ("name", "where"),
    "reach.far_ground": ("distance", "ground"),
    "permits.exposure": ("place", "distance", "height"),
    "measured.probe": ("element", "ratio", "within"),
    "measured.front_to_back": ("ratio", "within"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """Name one more place, ground or the like."""

    place: str  #: the list in the plan it goes to
    values: tuple[tuple[str, str], ...]  #: its values as typed, by key; empty ones are left out


@dataclass(frozen=True, slots=True, kw_only=True)
class Drop:
    """Take one entry of a list out of the plan."""

    place: str  #: the list in the plan
    number: int  #: number of the entry, from 0
