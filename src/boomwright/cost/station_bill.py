"""Bill of everything besides the beams: what the assembly holds, and hired people and machines."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from boomwright.base import METRES_PER_INCH
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.cost.bill import Bill, BillLine, told_marks
from boomwright.cost.counting import counted
from boomwright.parts import Block, Part

#: ordered over computed, by the role of a part [-] {common-practice-estimating}
WASTE: Final = {"concrete": 0.08, "guy": 0.05, "line": 0.10, "control cable": 0.10}
#: headings of the bill in the order of the work, and the groups of parts under each; the rest
#: stands under the first
_HEADINGS: Final = {
    "Support": (),
    "Guys": ("guy", "guy grip", "turnbuckle"),
    "Ground": ("anchor", "concrete", "reinforcement", "anchor bolts"),
    "Line and earth": (
        "line", "control cable", "connector", "lightning arrester", "ferrite core", "earth rod",
        "earth",
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Services:
    """Hired machines, people, papers and the owner's own hours."""

    lift_truck_days: float = 0.0  #: days of a lift truck, in half days [day]
    crane_days: float = 0.0  #: days of a crane, in half days [day]
    climber_days: float = 0.0  #: days of a trained climbing crew [day]
    permits: int = 0  #: permits and notices
    engineer_stamps: int = 0  #: engineer's stamps
    insurance_years: float = 0.0  #: years of insurance rider counted in [year]
    owner_hours: float = 0.0  #: owner's own hours [h]


def _lines(group: str, rows: tuple[tuple[Value, float, str, Value], ...]) -> list[BillLine]:
    return [
        BillLine(group=group, name=item, quantity=quantity, unit=unit, driver=driver)
        for item, quantity, unit, driver in rows
        if quantity > 0.0
    ]


def parts_bill(parts: Iterable[Part]) -> Bill:
    """Bill of what stands, turns and runs: parts of one price key are one line.

    Args:
        parts: parts of the ground and of the mast, from the assembly
    """
    grouped: dict[str, list[Part]] = {}
    for part in parts:
        if part.price_key:
            grouped.setdefault(part.price_key, []).append(part)
    lines = [_part_line(mine) for mine in grouped.values()]
    every = [part for mine in grouped.values() for part in mine]
    fixed = Counter[str]()
    for part in every:
        fixed.update({each.name: each.count for each in part.fasteners})
    for name, count in fixed.items():
        mine = [part for part in every if name in {each.name for each in part.fasteners}]
        lines.append(BillLine(group=_heading(mine[0]), name=name, quantity=float(count),
                              unit="each", driver=told_marks(mine)))  # fmt: skip
    dug = sum(_dug(part) for part in every)
    if dug:
        driver = phrase("{volume} dug", volume=Quantity(dug, "volume"))
        lines.append(
            BillLine(group="Ground", name="excavation and spoil", quantity=dug, unit="m3",
                     driver=driver)
        )  # fmt: skip
    order = list(_HEADINGS)
    lines.sort(key=lambda line: order.index(line.group))
    return Bill(lines=tuple(lines), tubes=(), labour_hours=0.0, notices=())


def _heading(part: Part) -> str:
    return next((name for name, roles in _HEADINGS.items() if part.role in roles), "Support")


def _part_line(mine: list[Part]) -> BillLine:
    first, total = mine[0], sum(part.quantity for part in mine)
    waste = WASTE.get(first.role, 0.0)
    amount: Value = told_marks(mine)
    if first.unit == "m":
        amount = phrase("{marks}: {total}", marks=amount,
                        total=Quantity(total, "bought length"))  # fmt: skip
    elif first.unit == "m3":
        amount = phrase("{marks}: {total}", marks=amount, total=Quantity(total, "volume"))
    if waste:
        amount = phrase("{amount} and {waste}", amount=amount, waste=Quantity(waste, "share"))
    if first.role == "reinforcement":
        amount = phrase("{amount}; the maker's drawing decides", amount=amount)
    return BillLine(
        group=_heading(first), name=_name(first), quantity=total * (1.0 + waste), unit=first.unit,
        driver=amount,
    )  # fmt: skip


def _name(part: Part) -> Value:
    if part.role not in {"mast", "pole"} or part.cut is None:
        return part.price_key
    use = part.price_key.rsplit(" ", 4)[0]
    kind = part.cut.kind
    inches = f"{kind.diameter / METRES_PER_INCH:.3f} x {kind.wall / METRES_PER_INCH:.3f} in"
    return PerSystem(metric=part.price_key, us=f"{use} {inches}")


def _dug(part: Part) -> float:
    """Soil that makes room for a block of concrete, from the ground down to its underside [m^3]."""
    if part.role != "concrete":
        return 0.0
    (solid,) = part.solids
    if isinstance(solid, Block):
        high, low = solid.size[2], solid.middle[2] - 0.5 * solid.size[2]
    else:
        high, low = solid.length, min(solid.start[2], solid.end[2])
    return solid.volume / high * max(0.0, -low) if high > 0.0 else 0.0


def services_bill(services: Services) -> Bill:
    """Bill of hire, crews, papers, and the owner's own hours.

    Returns:
        lines with their drivers; the owner's hours stand beside them, without a price
    """

    def half_days(days: float) -> float:
        return math.ceil(2.0 * days - 1e-9) / 2.0

    lines = _lines(
        "Hire and papers",
        (
            (
                "lift truck",
                half_days(services.lift_truck_days),
                "day",
                f"{counted(services.lift_truck_days, 'day')}, in half days",
            ),
            (
                "crane with operator",
                half_days(services.crane_days),
                "day",
                f"{counted(services.crane_days, 'day')}, in half days",
            ),
            (
                "trained climbing crew",
                services.climber_days,
                "day",
                counted(services.climber_days, "crew day"),
            ),
            (
                "permit or notice",
                services.permits,
                "each",
                counted(services.permits, "application"),
            ),
            (
                "engineer's stamp",
                services.engineer_stamps,
                "each",
                counted(services.engineer_stamps, "drawing"),
            ),
            (
                "insurance rider",
                services.insurance_years,
                "year",
                counted(services.insurance_years, "year"),
            ),
        ),
    )
    return Bill(lines=tuple(lines), tubes=(), labour_hours=services.owner_hours, notices=())
