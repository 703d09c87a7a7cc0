"""What the cost room needs of a plan: the whole bill, and its estimate."""

from __future__ import annotations

from typing import Any

from boomwright.base import METRES_PER_INCH, Notice
from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.cost import (
    DEFAULT_STOCK,
    Bill,
    Estimate,
    GuyLevel,
    LineParts,
    Price,
    Services,
    SupportParts,
    beam_bill,
    estimate,
    join_bills,
    line_bill,
    services_bill,
    support_bill,
)
from boomwright.cost.estimate import CONTINGENCY, OLD_AFTER_DAYS
from boomwright.parts import Assembly, Beam
from boomwright.plan.model import Plan
from boomwright.plan.model_support import GuyPlan, SupportPlan
from boomwright.plan.model_work import PricesPlan
from boomwright.plan.resolve.assembly import station_assembly
from boomwright.plan.resolve.structure import structure_inputs
from boomwright.structure import PadBase

_DAY = 86400.0


def plan_bill(plan: Plan) -> Bill:
    """Bill of everything the plan speaks of and the owner has not got yet.

    Returns:
        beams, support, footing, line, hire; what the plan does not say is in its notices
    """
    paid = plan.prices or PricesPlan(currency="")
    assembly = station_assembly(plan)
    bills = [_beam_bill(plan, assembly, beam) for beam in plan.beams]
    if plan.support is not None:
        bills += _support_bills(plan, plan.support, paid.owned)
    if plan.line is not None and "line" not in paid.owned:
        bills.append(line_bill(_line_parts(plan)))
    if paid.hire is not None:
        bills.append(services_bill(_services(paid)))
    bills.append(Bill(lines=(), tubes=(), labour_hours=0.0, notices=_gaps(plan)))
    return join_bills(bills)


def beam_cutting(plan: Plan, beam: Beam) -> Bill:
    """Bill of one beam alone, so that its cutting plan holds its own marks only."""
    return _beam_bill(plan, station_assembly(plan), beam)


def _beam_bill(plan: Plan, assembly: Assembly, beam: Beam) -> Bill:
    paid = plan.prices or PricesPlan(currency="")
    cut = {} if paid.kerf is None else {"kerf": paid.kerf}
    return beam_bill(assembly.of(beam.name), stock_lengths=paid.stock or DEFAULT_STOCK, **cut)


def plan_estimate(plan: Plan, *, prices: tuple[Price, ...], today: str) -> Estimate | None:
    """Price the bill of a plan.

    Args:
        prices: owner's price list (n_prices,)
        today: day the ages are counted to, ``2026-01-31``

    Returns:
        None when the plan has no [prices] table, so no currency to sum in
    """
    paid = plan.prices
    if paid is None:
        return None
    old = OLD_AFTER_DAYS if paid.old_after is None else round(paid.old_after / _DAY)
    return estimate(
        plan_bill(plan),
        prices=prices,
        currency=paid.currency,
        today=today,
        budget=paid.budget,
        contingency=CONTINGENCY if paid.contingency is None else paid.contingency,
        old_after_days=old,
    )


def _support_bills(plan: Plan, support: SupportPlan, owned: tuple[str, ...]) -> list[Bill]:
    tower = None if "tower" in owned else support.tower
    tube = None if "tower" in owned else support.tube
    mast = None if "mast" in owned else support.mast
    guys = () if "guys" in owned else support.guy
    footing, dug = (0.0, 0.0) if "footing" in owned else _ground_works(plan, support)
    section: dict[str, Any] = (
        {} if tower is None or tower.section is None else {"section_length": tower.section}
    )
    bills = [
        support_bill(
            SupportParts(
                tower_height=0.0 if tower is None else tower.height,
                mast_length=0.0
                if mast is None
                else mast.top - mast.bearing + (mast.rotator_below or 0.0),
                mast="mast tube" if mast is None else _tube_name("mast", mast.diameter, mast.wall),
                guy_levels=tuple(_guy_level(ring) for ring in guys),
                anchors=0 if "guys" in owned else _anchors(support),
                footing_volume=footing,
                excavation_volume=dug,
                rotator=support.rotator is not None and "rotator" not in owned,
                rings=0 if "ring" in owned else len(plan.rings),
                **section,
            )
        )
    ]
    if tube is not None:
        name, held = _tube_name("support tube", tube.diameter, tube.wall), tube.brackets
        bills.append(
            support_bill(
                SupportParts(
                    mast_length=tube.height - (0.0 if held is None else held.foot),
                    mast=name,
                    brackets=0 if held is None else len(held.heights),
                )
            )
        )
    return bills


def _tube_name(use: str, diameter: float, wall: float) -> PerSystem:
    inches = f"{diameter / METRES_PER_INCH:.3f} x {wall / METRES_PER_INCH:.3f} in"
    return PerSystem(
        metric=f"{use} {1000 * diameter:.1f} x {1000 * wall:.1f} mm", us=f"{use} {inches}"
    )


def _guy_level(ring: GuyPlan) -> GuyLevel:
    return GuyLevel(
        height=ring.height - ring.anchor_height,
        anchor_distance=ring.radius,
        guys=ring.count,
        strand=f"guy strand {ring.strand.name}",
    )


def _anchors(support: SupportPlan) -> int:
    # Rings that end at the same places share their anchors.
    places = {(ring.radius, ring.first, ring.anchor_height, ring.count) for ring in support.guy}
    return sum(count for _, _, _, count in places)


def _ground_works(plan: Plan, support: SupportPlan) -> tuple[float, float]:
    """Concrete and soil dug, of the footing and of all anchor blocks."""
    inputs = structure_inputs(plan)
    concrete = dug = 0.0
    if inputs.base is not None:
        concrete = dug = inputs.base.concrete.volume
        if isinstance(inputs.base, PadBase):
            dug = inputs.base.side**2 * inputs.base.depth
    if inputs.anchor is not None:
        count, block = _anchors(support), inputs.anchor
        concrete += count * block.volume
        dug += count * block.length * block.width * (block.thickness + block.cover)
    return concrete, dug


def _line_parts(plan: Plan) -> LineParts:
    line, support = plan.line, plan.support
    if line is None:
        return LineParts()
    tower = None if support is None else support.tower
    name = line.line_type if isinstance(line.line_type, str) else line.line_type.name
    return LineParts(
        run=line.length - line.loop,
        loop=line.loop,
        line=f"feed line {name}",
        connectors=line.connectors,
        control_run=line.control_cable,
        tower_legs=0 if tower is None else tower.legs or 0,
        rods=line.earth_rods,
        bonding_length=line.bonding,
        arresters=line.arresters,
        choke_cores=line.choke_cores,
    )


def _services(paid: PricesPlan) -> Services:
    hire = paid.hire
    if hire is None:
        return Services()
    return Services(
        lift_truck_days=hire.lift_truck_days,
        crane_days=hire.crane_days,
        climber_days=hire.climber_days,
        permits=hire.permits,
        engineer_stamps=hire.engineer_stamps,
        insurance_years=hire.insurance_years,
        owner_hours=hire.own_time / 3600.0,
    )


def _gaps(plan: Plan) -> tuple[Notice, ...]:
    paid = plan.prices or PricesPlan(currency="")
    support = plan.support
    missing: list[Value] = []
    if support is None:
        missing.append("tower or tube, mast, rotator and footing: there is no [support] table")
    else:
        if support.tower is not None and "tower" not in paid.owned:
            if support.tower.section is None:
                counted = Quantity(SupportParts().section_length, "bought length")
                words = "the length of a tower section: sections of {length} are counted"
                missing.append(phrase(words, length=counted))
            if support.tower.legs is None and plan.line is not None:
                missing.append("the legs of the tower: earth rods at its legs are not counted")
        if (
            support.mast is not None
            and support.mast.rotator_below is None
            and "mast" not in paid.owned
        ):
            missing.append("how far the mast goes down to its rotator: only its upper part counts")
        if support.base is None and "footing" not in paid.owned:
            missing.append("the footing")
        if support.guy and support.anchor is None and "footing" not in paid.owned:
            missing.append("the blocks of the guy anchors")
    if plan.line is None and "line" not in paid.owned:
        missing.append("feed line and earth: there is no [line] table")
    return tuple(
        Notice(
            code="plan.bill-incomplete",
            text=phrase("The bill lacks {text}.", text=text),
            severity="doubt",
        )
        for text in missing
    )
