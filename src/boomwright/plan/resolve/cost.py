"""What the cost room needs of a plan: the whole bill, and its estimate."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, Value, phrase, settled
from boomwright.cost import (
    DEFAULT_STOCK,
    Bill,
    BillLine,
    Estimate,
    Price,
    Services,
    beam_bill,
    estimate,
    join_bills,
    open_line,
    parts_bill,
    services_bill,
)
from boomwright.cost.estimating import CONTINGENCY, OLD_AFTER_DAYS
from boomwright.parts import GROUND, MAST, Assembly, Beam
from boomwright.plan.model import Plan
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.resolve.assembly import DEFAULT_DROP, DEFAULT_SECTION, station_assembly

_DAY = 86400.0


def plan_bill(plan: Plan) -> Bill:
    """Bill of all the plan speaks of and the owner has not got; its notices say what lacks."""
    paid = plan.prices or PricesPlan(currency="")
    assembly = station_assembly(plan)
    bills = [_beam_bill(plan, assembly, beam) for beam in plan.beams]
    had = {role for owned in paid.owned for role in _OWNED.get(owned, ())}
    # Radials are billed with the wire of their beam.
    standing = (*assembly.of(GROUND), *assembly.of(MAST))
    bills.append(parts_bill(part for part in standing if part.role not in had | {"radial"}))
    bills.append(services_bill(paid.hire or Services(), truck=_truck(plan)))
    bills.append(Bill(lines=(), tubes=(), labour_hours=0.0, notices=_gaps(plan)))
    bill = join_bills(bills)
    lines = tuple(_delivered(line, paid.concrete_minimum) for line in bill.lines)
    return replace(bill, lines=(*lines, *_unsaid(lines, paid)))


def _truck(plan: Plan) -> Value:
    """What a lift truck must reach and carry, as the raising has it."""
    truck = None if plan.raising is None else plan.raising.lift_truck
    if truck is None:
        return ""
    told = phrase(
        "platform floor to {floor}, {out} sideways",
        floor=Quantity(truck.platform_height, "span"), out=Quantity(truck.outreach, "span"),
    )  # fmt: skip
    rated = truck.platform_capacity
    return told if rated is None else phrase("{told}, rated {load}", told=told,
                                             load=Quantity(rated, "mass"))  # fmt: skip


def _delivered(line: BillLine, least: float | None) -> BillLine:
    """Concrete comes by the truck: no less than the supplier's minimum order."""
    if line.item != "concrete" or least is None or line.quantity >= least:
        return line
    driver = phrase("{driver}; minimum order of the supplier", driver=line.driver)
    return replace(line, quantity=least, driver=driver)


def _unsaid(lines: tuple[BillLine, ...], paid: PricesPlan) -> list[BillLine]:
    found = []
    if paid.concrete_minimum is None and any(line.item == "concrete" for line in lines):
        say = settled("0 where it is mixed by hand", "prices", "concrete_minimum")
        found.append(open_line("minimum order of concrete", say=say))
    if paid.tax is None:
        say = settled("0 where the prices hold it", "prices", "tax")
        found.append(open_line("tax", say=say))
    return found


def beam_cutting(plan: Plan, beam: Beam) -> Bill:
    """Bill of one beam alone, so that its cutting plan holds its own marks only."""
    return _beam_bill(plan, station_assembly(plan), beam)


def _beam_bill(plan: Plan, assembly: Assembly, beam: Beam) -> Bill:
    paid = plan.prices or PricesPlan(currency="")
    cut = {} if paid.kerf is None else {"kerf": paid.kerf}
    return beam_bill(assembly.built(beam.name), stock_lengths=paid.stock or DEFAULT_STOCK, **cut)


def plan_estimate(
    plan: Plan, *, prices: tuple[Price, ...], today: str, bill: Bill | None = None
) -> Estimate | None:
    """Price the bill of a plan.

    Args:
        bill: that bill; None to make it
        today: day the ages are counted to, ``2026-01-31``

    Returns:
        None when the plan has no [prices] table, so no currency to sum in
    """
    paid = plan.prices
    if paid is None:
        return None
    old = OLD_AFTER_DAYS if paid.old_after is None else round(paid.old_after / _DAY)
    return estimate(
        bill or plan_bill(plan),
        prices=prices,
        currency=paid.currency,
        today=today,
        budget=paid.budget,
        contingency=CONTINGENCY if paid.contingency is None else paid.contingency,
        tax=paid.tax or 0.0,
        old_after_days=old,
    )


#: roles of the parts that an owner has when the plan says so
_OWNED = {
    "tower": ("tower section", "tower outline", "pole", "house bracket", "bearing", "shelf"),
    "mast": ("mast",),
    "rotator": ("rotator",),
    "ring": ("ring mount",),
    "guys": ("guy", "guy grip", "guy ring", "turnbuckle", "anchor"),
    "footing": ("concrete", "reinforcement", "anchor bolts"),
    "line": (
        "line", "control cable", "connector", "lightning arrester", "ferrite core", "earth rod",
        "earth",
    ),
}  # fmt: skip


def _gaps(plan: Plan) -> tuple[Notice, ...]:
    paid = plan.prices or PricesPlan(currency="")
    support = plan.support
    missing: list[Value] = []
    if support is None:
        missing.append(
            settled("tower or tube, mast, rotator and footing: none is given", "support")
        )
    else:
        if support.tower is not None and "tower" not in paid.owned:
            if support.tower.section is None:
                counted = Quantity(DEFAULT_SECTION, "bought length")
                words = "the length of a tower section: sections of {length} are counted"
                missing.append(phrase(words, length=counted))
            if support.tower.legs is None and plan.line is not None:
                missing.append("the legs of the tower: earth rods at its legs are not counted")
        if (
            support.mast is not None
            and support.mast.rotator_below is None
            and "mast" not in paid.owned
        ):
            words = (
                "how far the mast goes down to its rotator: {length} below its bearing are counted"
            )
            missing.append(phrase(words, length=Quantity(DEFAULT_DROP, "bought length")))
        if support.base is None and "footing" not in paid.owned:
            missing.append("the footing")
        if support.guy and support.anchor is None and "footing" not in paid.owned:
            missing.append("the blocks of the guy anchors")
    if plan.line is None and "line" not in paid.owned:
        missing.append(settled("feed line and earth: no line is given", "line"))
    return tuple(
        Notice(
            code="plan.bill-incomplete",
            text=phrase("The bill lacks {text}.", text=text),
            severity="doubt",
        )
        for text in missing
    )
