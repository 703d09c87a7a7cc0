"""Bill of quantities: what to buy and hire, how much, and what drives each figure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import Final

from boomwright.base import METRES_PER_INCH, Notice
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase, write
from boomwright.base.records import dataclass, replace
from boomwright.cost.packing import Bar, Packing, pack
from boomwright.cost.pieces import TubePiece, tube_pieces
from boomwright.parts import Block, Part, TubeKind

#: 12 ft and 6 ft, the lengths sold in the United States [m] {common-practice-tubing}
DEFAULT_STOCK: Final = (12 * 0.3048, 6 * 0.3048)
#: most marks that a line of the bill lists
_MOST_MARKS: Final = 6
#: roles of plates that are bought with their clamps, and what comes with one of them
_CLAMPED: Final = frozenset({"element plate", "mast plate"})
_COMES_WITH: Final = {"U-bolt": "U-bolt", "saddle": "saddle", "shell": "shell"}
#: roles of what is cut from the roll
_WIRE: Final = frozenset({"wire", "radial"})
#: bought over needed for wire [-] {common-practice-estimating}
WIRE_WASTE: Final = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class BillLine:
    """One line of the bill."""

    group: str  #: heading it stands under
    name: Value  #: what it is
    quantity: float  #: how much, waste included [unit of the line]
    unit: str  #: unit it is counted in
    driver: Value  #: what the quantity follows from, with the figures; of an open one what to say
    #: whether the owner has not said how much; such a line has no quantity and no price
    is_open: bool = False

    @property
    def item(self) -> str:
        """Its name as the key into the price list, in metric sizes."""
        return write(self.name, system="metric")


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


def counted(number: float, noun: str) -> str:
    """Write a number with its noun.

    Args:
        number: [-]
    """
    return f"{number:g} {noun}" if number == 1 else f"{number:g} {noun}s"


def _bought(stock: tuple[float, ...], pieces: list[TubePiece]) -> tuple[float, ...]:
    """Lengths to buy; a tube wanted longer than the stock is bought to its length [m]."""
    longest = max(piece.length for piece in pieces)
    return stock if longest <= max(stock) else (*stock, longest)


def _tube_lines(order: TubeOrder) -> list[BillLine]:
    bars = order.packing.bars
    lines: list[BillLine] = []
    for length in sorted({bar.stock_length for bar in bars}, reverse=True):
        mine = [bar for bar in bars if bar.stock_length == length]
        cuts = sum(len(bar.cuts) for bar in mine)
        lines.append(
            BillLine(
                group="Tube",
                name=order.kind.stock(length),
                quantity=float(len(mine)),
                unit="length",
                driver=phrase(
                    "{pieces}; {needed} of {bought} used",
                    pieces=counted(cuts, "piece"),
                    needed=Quantity(sum(sum(bar.cuts) for bar in mine), "bought length"),
                    bought=Quantity(length * len(mine), "bought length"),
                ),
            )
        )
    return lines


def _hardware_lines(parts: list[Part], sawn: frozenset[str]) -> list[BillLine]:
    """Lines of what is bought by the piece, and of the fasteners that come with no piece."""
    found: dict[str, list[Part]] = {}
    for part in parts:
        if part.price_key and part.mark not in sawn and part.role not in _WIRE:
            found.setdefault(part.price_key, []).append(part)
    lines = [
        BillLine(group="Hardware", name=item, quantity=sum(part.quantity for part in mine),
                 unit=mine[0].unit, driver=_with_clamps(mine, parts))
        for item, mine in found.items()
    ]  # fmt: skip
    return [*lines, *_fastener_lines([part for part in parts if part.unit == "m"])]


def _with_clamps(mine: list[Part], parts: list[Part]) -> str:
    """Marks of some parts, and what comes with them and is counted on the build sheets."""
    groups = {(part.carrier, part.group) for part in mine if part.role in _CLAMPED}
    with_them = [part for part in parts if (part.carrier, part.group) in groups]
    words = [
        counted(sum(part.role == role for part in with_them), name)
        for role, name in _COMES_WITH.items()
        if any(part.role == role for part in with_them)
    ]
    nuts = sum(each.count for part in with_them if part.role == "U-bolt" for each in part.fasteners)
    words += [counted(nuts, "nut")] if nuts else []
    # A strap is bought with its clips; what lies under the short of a hairpin comes with it.
    straps = [part for part in mine if part.role == "match"]
    clips = sum(each.count for part in straps for each in part.fasteners) // 2
    words += [counted(clips, "clip"), counted(clips, "clip screw")] if clips else []
    words += [f"block {part.mark}" for part in parts if part.role == "block" and straps]
    return f"{told_marks(mine)}{', with ' if words else ''}{', '.join(words)}"


def _fastener_lines(parts: list[Part]) -> list[BillLine]:
    """Lines of what holds parts that are bought by their length; a bought piece has its own."""
    counts, told = Counter[str](), dict[str, PerSystem | str]()
    marks: dict[str, list[Part]] = {}
    for part in parts:
        for each in part.fasteners:
            key = write(each.told, system="metric")
            counts[key] += each.count
            told.setdefault(key, each.told)
            marks.setdefault(key, []).append(part)
    return [
        BillLine(group="Hardware", name=told[key], quantity=float(count), unit="each",
                 driver=told_marks(marks[key]))
        for key, count in counts.items()
    ]  # fmt: skip


def told_marks(parts: list[Part]) -> str:
    """Name the marks of some parts, the first few of many."""
    shown = [part.mark for part in parts[:_MOST_MARKS]]
    more = f" and {len(parts) - _MOST_MARKS} more" if len(parts) > _MOST_MARKS else ""
    return f"{'mark' if len(parts) == 1 else 'marks'} {', '.join(shown)}{more}"


def _wire_lines(parts: list[Part]) -> list[BillLine]:
    return [
        BillLine(
            group="Wire",
            name=_wire_name(part),
            quantity=part.quantity * (1.0 + WIRE_WASTE),
            unit=part.unit,
            driver=phrase(
                "{wire}: {length} and {waste} waste",
                wire=part.name,
                length=Quantity(part.quantity, "bought length"),
                waste=Quantity(WIRE_WASTE, "share"),
            ),
        )
        for part in parts
        if part.role in _WIRE
    ]


def _wire_name(part: Part) -> PerSystem:
    inches = (
        max(bar.diameter for bar in part.solids if not isinstance(bar, Block)) / METRES_PER_INCH
    )
    return PerSystem(metric=part.price_key, us=f"wire {inches:.3f} in")


def beam_bill(
    parts: Iterable[Part],
    *,
    stock_lengths: tuple[float, ...] = DEFAULT_STOCK,
    kerf: float = 0.003,
) -> Bill:
    """Bill of one beam: tubes packed into stock lengths, hardware and wire.

    Args:
        stock_lengths: lengths that can be bought [m] (n_stock,)
        kerf: length lost in a saw cut [m]
    """
    all_parts = list(parts)
    listed = tube_pieces(all_parts)
    sorted_out: dict[TubeKind, list[TubePiece]] = {}
    for piece in listed.pieces:
        sorted_out.setdefault(piece.kind, []).append(piece)
    orders = tuple(
        TubeOrder(
            kind=kind,
            packing=pack(
                tuple(piece.length for piece in mine),
                stock_lengths=_bought(stock_lengths, mine),
                kerf=kerf,
            ),
            pieces=tuple(mine),
        )
        for kind, mine in sorted(sorted_out.items(), key=lambda pair: -pair[0].diameter)
    )
    lines = [line for order in orders for line in _tube_lines(order)]
    sawn = frozenset(piece.mark for piece in listed.pieces)
    lines += _hardware_lines(all_parts, sawn)
    lines += _wire_lines(all_parts)
    return Bill(lines=tuple(lines), tubes=orders, labour_hours=0.0, notices=listed.notices)


def join_bills(bills: Iterable[Bill]) -> Bill:
    """Put several bills together; equal items of equal unit become one line, groups stay whole."""
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
                else replace(
                    line,
                    quantity=old.quantity + line.quantity,
                    driver=phrase("{one}; {other}", one=old.driver, other=line.driver),
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
