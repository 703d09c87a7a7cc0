"""What a builder counts out before the work: bought parts, holes and fasteners, by their marks."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Final

from boomwright.base import METRES_PER_INCH, inches_sixteenths
from boomwright.base.quantity import PerSystem, Value, phrase, write
from boomwright.base.records import dataclass
from boomwright.parts import Bar, Block, Fastener, Hole, Part

#: roles without which nothing of a beam is cut right
_CUT_FROM: Final = frozenset({"element tube", "boom", "insulator", "sleeve", "match", "spreader"})
#: forms that are made by the builder of a sheet, sawn or drilled
_MADE: Final = frozenset({"plate"})
#: whose solids only stand for a shape that its maker knows
_SHAPE_OF_ITS_MAKER: Final = frozenset({"hub"})
_NO_SHAPE: Final = "its shape is not known"
#: most marks that a stamp names
_MOST_MARKS: Final = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """Things that are alike, with the marks of the parts that they are of or belong to."""

    name: PerSystem | str
    count: int  #: how many
    marks: tuple[str, ...]  #: marks of the parts (n_parts,)
    part: Part  #: one of the parts
    through: Value = ""  #: what fasteners go through; empty where that is not known


@dataclass(frozen=True, slots=True, kw_only=True)
class Drilled:
    """Holes that are drilled alike."""

    hole: Hole  #: one of them
    count: int  #: how many
    marks: tuple[str, ...]  #: marks of the parts (n_parts,)


def _short(part: Part) -> str:
    """Name of a part without the element that it belongs to, which its mark says."""
    of_element = part.mark[:1].isdigit() and part.role != "radial"
    return part.name.split(", ", 1)[-1] if of_element else part.name


def _sides(*sides: float) -> PerSystem:
    """Write sides one after the other, as a shop has them."""
    # Sides that differ by less than any tool sees are written alike.
    metric = " x ".join(f"{round(1e3 * side, 6):.1f}".removesuffix(".0") for side in sides)
    us = " x ".join(f"{side / METRES_PER_INCH:.2f}" for side in sides)
    return PerSystem(metric=f"{metric} mm", us=f"{us} in")


def size_to_buy(part: Part) -> Value:
    """Size that a part is bought by, read off its solids; empty where they do not say it."""
    solids = part.solids
    if not solids or part.role in _SHAPE_OF_ITS_MAKER or part.basis == _NO_SHAPE:
        return ""
    first, last = solids[0], solids[-1]
    if part.role == "U-bolt" and isinstance(first, Bar) and isinstance(last, Bar):
        inside = math.dist(first.start, last.end) - first.diameter
        thread = PerSystem(metric=f"{1e3 * first.diameter:g} mm",
                           us=inches_sixteenths(first.diameter))  # fmt: skip
        return phrase("thread {thread}, {inside} inside, legs {legs} at least", thread=thread,
                      inside=_sides(inside), legs=_sides(first.length))  # fmt: skip
    if isinstance(first, Block):
        return _sides(*first.size)
    if part.unit == "m":
        return phrase("Ø {}, {:span}", _sides(first.diameter), part.quantity)
    if first.bore:
        return phrase("Ø {outer}, bore {bore}, {long} long", outer=_sides(first.diameter),
                      bore=_sides(first.bore), long=_sides(first.length))  # fmt: skip
    return phrase("Ø {}, {} long", _sides(first.diameter), _sides(first.length))


def bought_parts(parts: Iterable[Part]) -> tuple[Counted, ...]:
    """List the parts that are neither sawn nor cut from plate, alike ones together."""
    found: dict[tuple[str, ...], list[Part]] = {}
    for part in parts:
        if part.cut is None and part.form not in _MADE:
            size = write(size_to_buy(part), system="metric")
            found.setdefault((_short(part), part.material, part.known, size), []).append(part)
    return tuple(
        Counted(name=name, count=len(mine), marks=tuple(part.mark for part in mine), part=mine[0])
        for (name, *_), mine in found.items()
    )


def fastener_list(parts: Iterable[Part]) -> tuple[Counted, ...]:
    """List every fastener, those of one kind and size together."""
    found: dict[tuple[str, float], list[tuple[Part, Fastener]]] = {}
    for part in parts:
        for each in part.fasteners:
            key = (write(each.told, system="metric"), round(each.grip, 4))
            found.setdefault(key, []).append((part, each))
    return tuple(
        Counted(name=mine[0][1].told, count=sum(each.count for _, each in mine),
                marks=tuple(dict.fromkeys(part.mark for part, _ in mine)), part=mine[0][0],
                through=_sides(grip) if grip else "")
        for (_, grip), mine in found.items()
    )  # fmt: skip


def hole_list(parts: Iterable[Part]) -> tuple[Drilled, ...]:
    """List every hole, those of one size and purpose together."""
    found: dict[tuple[float, str, str], list[tuple[Part, Hole]]] = {}
    for part in parts:
        for hole in part.holes:
            found.setdefault((hole.diameter, hole.purpose, hole.way), []).append((part, hole))
    return tuple(
        Drilled(hole=mine[0][1], count=sum(hole.count for _, hole in mine),
                marks=tuple(dict.fromkeys(part.mark for part, _ in mine)))
        for mine in found.values()
    )  # fmt: skip


def lacking(parts: Iterable[Part]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Say what is missing before anything is cut: the reason, and the marks of the parts."""
    found: dict[str, list[str]] = {}
    for part in parts:
        if part.known == "unknown" and part.role in _CUT_FROM:
            found.setdefault(part.basis, []).append(part.mark)
    return tuple((basis, tuple(marks)) for basis, marks in found.items())


def cutting_stamp(parts: Sequence[Part]) -> str:
    """Stamp of the build sheets of a beam that lacks sizes; empty when it lacks none."""
    told = []
    for basis, marks in lacking(parts):
        more = f" and {len(marks) - _MOST_MARKS} more" if len(marks) > _MOST_MARKS else ""
        told.append(f"{basis} ({', '.join(marks[:_MOST_MARKS])}{more})")
    return f"Not to be cut from: {'; '.join(told)}" if told else ""
