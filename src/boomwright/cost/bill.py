"""Bill of quantities: what to buy and hire, how much, and what drives each figure."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from boomwright.base import Notice
from boomwright.cost.counting import counted
from boomwright.cost.packing import Bar, Packing, pack
from boomwright.cost.pieces import BoomTube, Joints, TubeKind, TubePiece, tube_pieces
from boomwright.parts import Beam

#: 12 ft and 6 ft, the lengths sold in the United States [m] {common-practice-tubing}
DEFAULT_STOCK: Final = (12 * 0.3048, 6 * 0.3048)
#: bought over needed for wire [-] {common-practice-estimating}
WIRE_WASTE: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class BillLine:
    """One line of the bill."""

    group: str  #: heading it stands under
    item: str  #: name, the key into the price list
    quantity: float  #: how much, waste included [unit of the line]
    unit: str  #: unit it is counted in
    driver: str  #: what the quantity follows from, with the figures


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeOrder:
    """Cutting plan of one kind of tube."""

    kind: TubeKind
    packing: Packing  #: bars to buy and cut, with the proven bound
    pieces: tuple[TubePiece, ...]  #: pieces that the bars are cut into (n_pieces,)

    def marked_bars(self) -> tuple[tuple[Bar, tuple[TubePiece, ...]], ...]:
        """Say which piece is cut from which bar."""
        waiting: dict[float, list[TubePiece]] = {}
        for piece in self.pieces:
            waiting.setdefault(piece.length, []).append(piece)
        return tuple(
            (bar, tuple(waiting[length].pop(0) for length in bar.cuts)) for bar in self.packing.bars
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Bill:
    """The bill of quantities."""

    lines: tuple[BillLine, ...]  #: lines in the order of the work (n_lines,)
    tubes: tuple[TubeOrder, ...]  #: cutting plan of each tube
    labour_hours: float  #: owner's own hours [h]
    notices: tuple[Notice, ...]  #: what is missing or doubtful


def _tube_lines(order: TubeOrder) -> list[BillLine]:
    bars = order.packing.bars
    lines: list[BillLine] = []
    for length in sorted({bar.stock_length for bar in bars}, reverse=True):
        mine = [bar for bar in bars if bar.stock_length == length]
        cuts = sum(len(bar.cuts) for bar in mine)
        lines.append(
            BillLine(
                group="Tube",
                item=f"{order.kind.name}, {length:.3f} m",
                quantity=float(len(mine)),
                unit="length",
                driver=f"{counted(cuts, 'piece')} packed into stock lengths; all of this tube "
                f"{order.packing.needed:.2f} m needed, {order.packing.bought:.2f} m bought, "
                f"{order.packing.over_bound:.1%} over the proven least",
            )
        )
    return lines


def _hardware_lines(beam: Beam, *, joints: int, sleeves: int) -> list[BillLine]:
    count = len(beam.elements)
    split = sum(1 for e in beam.elements if e.role == "driven" and beam.feed.cuts_element)
    rows = (
        ("element bracket with clamps", count, counted(count, "element")),
        ("boom to mast plate with clamps", 1, "one beam"),
        ("insulated element mount", split, "driven element cut in two"),
        (
            "tube joint hardware set",
            joints,
            f"{counted(joints, 'place')} where tubes slide together",
        ),
        ("sleeve", sleeves, f"{counted(sleeves, 'joint')} of runs longer than the stock"),
        ("tip plug", 2 * count, f"two tips of {counted(count, 'element')}"),
    )
    return [
        BillLine(group="Hardware", item=item, quantity=float(n), unit="each", driver=driver)
        for item, n, driver in rows
        if n > 0
    ]


def _wire_lines(beam: Beam) -> list[BillLine]:
    lines: list[BillLine] = []
    for wire in beam.wires:
        length = sum(
            math.dist(a, b) for a, b in zip(wire.points[:-1], wire.points[1:], strict=True)
        )
        lines.append(
            BillLine(
                group="Wire",
                item=f"wire {wire.diameter * 1000.0:.2f} mm",
                quantity=length * (1.0 + WIRE_WASTE),
                unit="m",
                driver=f"{wire.name}: {length:.2f} m and {WIRE_WASTE:.0%} waste",
            )
        )
    return lines


def beam_bill(
    beam: Beam,
    *,
    boom: BoomTube | None = None,
    stock_lengths: tuple[float, ...] = DEFAULT_STOCK,
    kerf: float = 0.003,
    joints: Joints | None = None,
) -> Bill:
    """Bill of one beam: tubes packed into stock lengths, hardware and wire.

    Parameters
    ----------
    boom
        boom tube; None leaves it out with a notice
    stock_lengths
        lengths that can be bought [m] (n_stock,)
    kerf
        length lost in a saw cut [m]
    joints
        overlaps; None for the defaults
    """
    listed = tube_pieces(beam, longest_stock=max(stock_lengths), boom=boom, joints=joints)
    sorted_out: dict[TubeKind, list[TubePiece]] = {}
    for piece in listed.pieces:
        sorted_out.setdefault(piece.kind, []).append(piece)
    orders = tuple(
        TubeOrder(
            kind=kind,
            packing=pack(
                tuple(piece.length for piece in mine), stock_lengths=stock_lengths, kerf=kerf
            ),
            pieces=tuple(mine),
        )
        for kind, mine in sorted(sorted_out.items(), key=lambda pair: -pair[0].diameter)
    )
    lines = [line for order in orders for line in _tube_lines(order)]
    sleeves = sum(count for _, count in listed.sleeves)
    lines += _hardware_lines(beam, joints=listed.tube_joints, sleeves=sleeves)
    lines += _wire_lines(beam)
    return Bill(lines=tuple(lines), tubes=orders, labour_hours=0.0, notices=listed.notices)


def join_bills(bills: Iterable[Bill]) -> Bill:
    """Put several bills together; equal items of equal unit become one line, groups stay whole.

    Parameters
    ----------
    bills
        bills in the order of the work
    """
    lines: dict[tuple[str, str, str], BillLine] = {}
    tubes: list[TubeOrder] = []
    notices: dict[Notice, None] = {}
    hours = 0.0
    for bill in bills:
        for line in bill.lines:
            key = (line.group, line.item, line.unit)
            old = lines.get(key)
            lines[key] = (
                line
                if old is None
                else BillLine(
                    group=line.group,
                    item=line.item,
                    quantity=old.quantity + line.quantity,
                    unit=line.unit,
                    driver=f"{old.driver}; {line.driver}",
                )
            )
        tubes += bill.tubes
        hours += bill.labour_hours
        notices.update(dict.fromkeys(bill.notices))
    groups = list(dict.fromkeys(line.group for line in lines.values()))
    return Bill(
        lines=tuple(sorted(lines.values(), key=lambda line: groups.index(line.group))),
        tubes=tuple(tubes),
        labour_hours=hours,
        notices=tuple(notices),
    )
