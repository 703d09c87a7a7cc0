"""The shop dimensions of a beam as tables: places, lengths, tubes, wires."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any

from boomwright.base.quantity import PerSystem, Quantity
from boomwright.base.records import dataclass
from boomwright.parts import Wire
from boomwright.report.build.dimensions import CutLength, cut_length
from boomwright.report.build.shop import ElementCut, ShopElement, ShopTube
from boomwright.report.model import Column, Table, column


def _length(head: str, get: Callable[[Any], CutLength | None]) -> Column[Any]:
    """A column of shop lengths: whole millimetres, or feet and inches to the sixteenth."""

    def told(item: Any) -> PerSystem:
        cut = get(item)
        if cut is None:
            return PerSystem(metric="–", us="–")
        return PerSystem(metric=str(cut.millimetres), us=cut.us_text)

    return column(PerSystem(metric=f"{head}, mm", us=head), told)


def boom_table(cuts: Sequence[ElementCut]) -> Table[ElementCut]:
    """Places of the elements along the boom.

    Args:
        cuts: shop dimensions, rear to front (n_elements,)
    """
    return Table(
        name="along-boom",
        caption="Along the boom",
        columns=(
            column("No.", lambda cut: cut.number),
            column("Element", lambda cut: cut.label),
            _length("Tape, from the rear end", lambda cut: cut.tape),
            _length("From rearmost element", lambda cut: cut.from_rear),
            _length("From foremost element", lambda cut: cut.from_front),
            _length("To next", lambda cut: cut.to_next),
        ),
        items=cuts,
    )


def length_table(cuts: Sequence[ElementCut]) -> Table[ElementCut]:
    """Half and full lengths of the elements; of upright wires the one that they have.

    Args:
        cuts: shop dimensions, rear to front (n_elements,)
    """
    lengths: tuple[Column[Any], ...] = (
        _length("Boom to tip", lambda cut: cut.half_length),
        _length("Tip to tip", lambda cut: cut.full_length),
    )
    if all(cut.upright for cut in cuts):
        lengths = (_length("Foot to top", lambda cut: cut.full_length),)
    return Table(
        name="element-lengths",
        caption="Element lengths",
        columns=(
            column("No.", lambda cut: cut.number),
            column("Element", lambda cut: cut.label),
            *lengths,
        ),
        items=cuts,
    )


def tube_table(element: ShopElement) -> Table[ShopTube]:
    """Tubes of one element half, from the boom outwards."""
    walls = any(tube.kind.wall for tube in element.tubes)
    wall: Column[ShopTube] = column("Wall", lambda tube: tube.kind.wall or None, kind="wall")
    return Table(
        name="tubes",
        caption="Tubes",
        columns=(
            column("Tube", lambda tube: tube.section),
            column("Outer diameter", lambda tube: tube.kind.diameter, kind="diameter"),
            *((wall,) if walls else ()),
            _length("Exposed length", lambda tube: tube.exposed),
            _length("Reaches from boom", lambda tube: tube.reaches),
        ),
        items=element.tubes,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corner:
    """One corner of a further wire."""

    wire: Wire
    number: int  #: counted along the wire, from 1
    along: float  #: length of wire up to it [m]

    @property
    def first(self) -> bool:
        return self.number == 1

    def place(self, axis: int) -> float:
        """Its place along one axis [m]."""
        return float(self.wire.points[self.number - 1][axis])


def wire_table(wires: Sequence[Wire]) -> Table[_Corner]:
    """Corner points of the plan's further wires."""
    corners = []
    for wire in wires:
        along = 0.0
        for number, point in enumerate(wire.points, start=1):
            if number > 1:
                along += math.dist(point, wire.points[number - 2])
            corners.append(_Corner(wire=wire, number=number, along=along))
    return Table(
        name="further-wires",
        caption="Further wires",
        columns=(
            column("Wire", lambda corner: corner.wire.name if corner.first else ""),
            column(
                "Diameter",
                lambda corner: Quantity(corner.wire.diameter, "wire size") if corner.first else "",
            ),
            column("Corner", lambda corner: corner.number),
            column("x", lambda corner: corner.place(0), kind="place"),
            column("y", lambda corner: corner.place(1), kind="place"),
            column("z", lambda corner: corner.place(2), kind="place"),
            _length("Along the wire", lambda corner: cut_length(corner.along)),
        ),
        items=corners,
    )
