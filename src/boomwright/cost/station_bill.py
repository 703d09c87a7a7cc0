"""Bill of everything besides the beams: what the assembly holds, and hired people and machines."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from typing import Final

from boomwright.base import METRES_PER_INCH
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase, settled
from boomwright.cost.bill import Bill, BillLine, told_marks
from boomwright.cost.services import Services
from boomwright.parts import Block, Part

#: ordered over computed, by the role of a part [-] {common-practice-estimating}
WASTE: Final = {"concrete": 0.08, "guy": 0.05, "line": 0.10, "control cable": 0.10}
#: headings of the bill in the order of the work, and the groups of parts under each; the rest
#: stands under the first
_HEADINGS: Final = {
    "Support": (),
    "Guys": ("guy", "guy grip", "guy ring", "turnbuckle"),
    "Ground": ("anchor", "concrete", "reinforcement", "anchor bolts"),
    "Line and earth": (
        "line", "control cable", "connector", "lightning arrester", "ferrite core", "earth rod",
        "earth",
    ),
}  # fmt: skip


#: heading of what is paid for besides parts
BESIDES: Final = "Freight, hire and papers"
#: what is hired or paid for: unit, and what one and several of it are called
SERVICES: Final = {
    "freight": ("delivery", "delivery", "deliveries"),
    "lift truck": ("day", "day, hired by the half", "days, hired by the half"),
    "crane with operator": ("day", "day, hired by the half", "days, hired by the half"),
    "trained climbing crew": ("day", "crew day", "crew days"),
    "permit or notice": ("each", "application", "applications"),
    "engineer's stamp": ("each", "drawing", "drawings"),
    "insurance rider": ("year", "year", "years"),
}
#: what nearly every job pays for, each with its name while nobody has said how much, and the key
_UNSAID: Final = {
    "freight": ("freight", "deliveries", "0 where all is fetched"),
    "permit or notice": ("permits", "permits", "0 where none is paid for"),
    "engineer's stamp": ("engineer", "engineer_stamps", "0 where none is asked"),
}


def open_line(name: str, *, say: Value) -> BillLine:
    """Stand for something to pay of which the owner has not said how much.

    Args:
        say: what to write where there is none, and where in the plan
    """
    return BillLine(group=BESIDES, name=name, quantity=0.0, unit="",
                    driver=phrase("say how much: {say}", say=say), is_open=True)  # fmt: skip


def parts_bill(parts: Iterable[Part]) -> Bill:
    """Bill of what stands, turns and runs: parts of one price key are one line."""
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
        driver = "every block, from the ground down to its underside"
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


def services_bill(services: Services, *, truck: Value = "") -> Bill:
    """Bill of freight, hire, crews, papers, and the owner's own hours.

    What nearly every job pays for is named even where nobody has said how much.

    Args:
        truck: what the platform of a lift truck must reach and carry; empty where not planned

    Returns:
        lines with their drivers; the owner's hours stand beside them, without a price
    """
    lift, crane = services.lift_truck_days, services.crane_days
    machine = None if lift is None and crane is None else (lift or 0.0) + (crane or 0.0)
    amounts = (
        services.deliveries, lift, crane, services.climber_days, services.permits,
        services.engineer_stamps, services.insurance_years,
    )  # fmt: skip
    lines: list[BillLine] = []
    for (name, (unit, one, many)), much in zip(SERVICES.items(), amounts, strict=True):
        if much is None and name in _UNSAID:
            called, key, none = _UNSAID[name]
            lines.append(open_line(called, say=settled(none, "prices.hire", key)))
        elif name == "lift truck" and machine is None:
            say = settled("0 where none comes", "prices.hire", "crane_days", "lift_truck_days")
            lines.append(open_line("crane or lift truck", say=say))
        elif much:
            quantity = math.ceil(2.0 * much - 1e-9) / 2.0 if "half" in many else float(much)
            driver: Value = f"{much:g} {one if much == 1 else many}"
            if name == "lift truck" and truck:
                driver = phrase("{driver}; {truck}", driver=driver, truck=truck)
            lines.append(BillLine(group=BESIDES, name=name, quantity=quantity, unit=unit,
                                  driver=driver))  # fmt: skip
    return Bill(lines=tuple(lines), tubes=(), labour_hours=services.own_time / 3600.0, notices=())
