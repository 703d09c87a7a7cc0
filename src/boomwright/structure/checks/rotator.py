"""Ledger lines for the rotator: torque, weight and side force against its maker's ratings.

A ring around the support on which a beam turns is held as a rotator too.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from math import degrees
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase, settled
from boomwright.base.records import replace
from boomwright.structure.beam.torque import braking_torque_by_angle
from boomwright.structure.checks.findings import NO_GUST, Findings, SiteLoads
from boomwright.structure.checks.gust import mast_response
from boomwright.structure.checks.mast import mast_loads, misplaced, offsets_of, total_torque
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.report import BeamReport
from boomwright.structure.support.mast import Mast, mast_bending
from boomwright.structure.support.rotator import HOLDING_FACTOR, RingMount, Rotator, RotatorDemand
from boomwright.structure.wording import force, moment, span, speed

_ASK = "ask its maker"


def _change(rotator: Rotator, rated: float | None, first: str = "") -> str:
    if rated is None:
        return _ASK
    if rotator.place == "ring":
        return f"{first}or take a stronger ring mount" if first else "take a stronger ring mount"
    return f"{first}add a thrust bearing or take a stronger rotator"


def _demand(
    rotator: Rotator, beams: Sequence[BeamReport], torque: float, mast: Mast | None, site: SiteLoads
) -> tuple[RotatorDemand, float | None]:
    """What the beams ask of the rotator, and the side force at the bearing above it [N]."""
    turning, stopping, side, bearing = None, None, None, None
    inertia = sum(beam.inertia or 0.0 for beam in beams)
    if rotator.turning_gust is not None and site.nominal is not None:
        share = (rotator.turning_gust / site.nominal.gust) ** 2
        turning = torque * share + rotator.friction
    if rotator.turning_rate is not None:
        stopping = braking_torque_by_angle(
            inertia=inertia, rate=rotator.turning_rate, angle=rotator.stop_angle
        )
    if rotator.place == "ring":
        side = sum(beam.force or 0.0 for beam in beams)
    if mast is not None:
        pressure = site.nominal_pressure(height=mast.middle)
        if pressure is not None and rotator.place == "inside tower":
            gusts = mast_response(site=site, beams=beams, nominal=True)
            bent = mast_bending(
                mast=mast,
                loads=mast_loads(mast=mast, beams=beams, site=site, nominal=True, gusts=gusts),
                pressure=gusts.factor * pressure.for_force,
            )
            if not gusts.missing:
                side, bearing = bent.rotator_reaction, bent.bearing_reaction
    weight = sum(beam.weight or 0.0 for beam in beams) + (0.0 if mast is None else mast.weight)
    demand = RotatorDemand(
        survival_torque=torque,
        turning_torque=turning,
        stopping_torque=stopping,
        inertia=inertia,
        vertical_load=weight,
        side_force=side,
    )
    return demand, bearing


def none_turns(beams: Sequence[BeamReport]) -> bool:
    """Whether there are beams, and ropes hold every one, so that nothing needs a rotator."""
    return bool(beams) and not any(beam.turns for beam in beams)


def check_rotator(
    *, beams: Sequence[BeamReport], torque: float | None, site: SiteLoads, findings: Findings
) -> RotatorDemand | None:
    """Hold what the beams ask against the rotator's ratings, no factor on wind; None unchecked.

    Args:
        torque: wind torque, nominal; None when not known [N m]
    """
    rotator, mast = site.inputs.rotator, site.inputs.mast
    if rotator is None and none_turns(beams):
        if mast is not None and mast.rotator_below is None:
            findings.skip(
                "mast: hold below its bearing",
                "how far the mast reaches down to where it is held is not given",
                change=settled("enter it", "support.mast", "rotator_below"),
            )
        return None
    if rotator is None:
        findings.skip("rotator: holding torque", "no rotator is given")
        return None
    if mast is not None:
        _clamp_lines(rotator, mast, findings)
    reason: Value = ""
    if torque is None or site.nominal is None:
        reason = "the wind torque needs wind, boom tube and tube walls of every beam"
    elif mast is not None:
        reason = misplaced(mast, beams, site.inputs)
    elif rotator.place == "inside tower":
        reason = "no mast is given, so nobody knows how far the booms stand beside its axis"
    if reason or torque is None:
        findings.skip(f"{rotator.name}: holding torque", reason)
        return None
    demand, bearing = _demand(rotator, beams, torque, mast, site)
    basis = "" if site.nominal is None else site.nominal.text
    _room_lines(rotator, site.inputs, bearing, basis, findings)
    _rating_lines(rotator, demand, basis, findings)
    _iced_lines(rotator, beams, site, findings)
    _area_line(rotator, beams, findings)
    return demand


#: usual size of a rotator across and high [m] {common-practice-hardware}
_USUAL_SIZE: Final = (0.19, 0.30)


def _room_lines(
    rotator: Rotator,
    inputs: StructureInputs,
    bearing: float | None,
    basis: Value,
    findings: Findings,
) -> None:
    """Hold a rotator, and the side force at its bearing, against its pole or cage."""
    mast, tube = inputs.mast, inputs.tube
    if mast is None or tube is None or rotator.place != "inside tower":
        return
    across, high = rotator.size or _USUAL_SIZE
    cage, bore = tube.cage, tube.diameter - 2.0 * tube.wall
    name = f"{rotator.name}: room in the pole"
    if cage is None:
        if across >= bore:
            findings.skip(
                name,
                phrase(
                    "{across} across, it does not go into a pole of {bore} bore",
                    across=Quantity(across, "diameter"), bore=Quantity(bore, "diameter"),
                ),
                change=settled("set it in a cage on top and enter that", "support.tube", "cage"),
            )  # fmt: skip
        return
    if mast.rotator_below is None:
        findings.skip(name, "how far it stands below the bearing is not given")
        return
    if mast.rotator_below + high > cage.height:
        findings.hold(
            name="cage: room for the rotator",
            demand=mast.rotator_below + high,
            capacity=cage.height,
            unit="m",
            basis="from the bearing to under the rotator",
            change="take a higher cage",
        )
    if bearing is None:
        findings.skip("cage: side force", "it needs the wind on mast and beams")
        return
    findings.hold(
        name="cage: side force",
        demand=bearing,
        capacity=cage.side_force,
        unit="N",
        basis=phrase(
            "{basis}; at the bearing, the cage taken to be as stiff as the pole", basis=basis
        ),
        change=phrase("ask its maker whether it stands {load}", load=force(bearing)),
        missing="its maker's rating for side force is not given",
    )


def _rating_lines(
    rotator: Rotator, demand: RotatorDemand, basis: Value, findings: Findings
) -> None:
    gust, rate = "no gust in which it shall turn is given", "its turning rate is not given"
    bearing = "it needs mast and bearing spacing (a mast-mounted rotator carries all bending)"
    holding = phrase(
        "{basis}; factor {by} (common practice)", basis=basis, by=f"{HOLDING_FACTOR:g}"
    )
    turning = phrase(
        "{basis}, scaled to a gust of {speed}; friction {friction}", basis=basis,
        speed=speed(rotator.turning_gust or 0.0), friction=moment(rotator.friction),
    )  # fmt: skip
    stopping = phrase(
        "{inertia} stopped within {degrees} deg, no wind",
        inertia=Quantity(demand.inertia, "inertia"), degrees=f"{degrees(rotator.stop_angle):.2g}",
    )  # fmt: skip
    held = HOLDING_FACTOR * demand.survival_torque
    stops, pushed = demand.stopping_torque, demand.side_force
    lines: tuple[tuple[str, float | None, float | None, str, Value, str], ...] = (
        ("holding torque", held, rotator.holding_torque, "N m", holding, ""),
        ("turning torque", demand.turning_torque, rotator.turning_torque, "N m", turning, gust),
        ("start and stop torque", stops, rotator.start_stop_torque, "N m", stopping, rate),
        ("vertical load", demand.vertical_load, rotator.vertical_load, "N", "dead weight", ""),
        ("side force", pushed, rotator.side_force, "N", basis, bearing),
    )
    for what, asked, rated, unit, text, reason in lines:
        name = f"{rotator.name}: {what}"
        if asked is None:
            findings.skip(name, reason)
            continue
        change: Value = _change(rotator, rated, "balance the boom, ")
        if rated is None:
            load = force(asked) if unit == "N" else moment(asked)
            change = phrase("ask its maker whether it stands {load}", load=load)
        findings.hold(
            name=name,
            demand=asked,
            capacity=rated,
            unit=unit,
            basis=text,
            change=change,
            missing=f"its maker's rating for {what} is not given",
        )


def _iced_lines(
    rotator: Rotator, beams: Sequence[BeamReport], site: SiteLoads, findings: Findings
) -> None:
    mast = site.inputs.mast
    coat = site.coat(height=max((beam.height for beam in beams), default=0.0))
    if coat is None:
        return
    carried = sum(beam.iced_weight or beam.weight or 0.0 for beam in beams)
    if mast is not None:
        carried += mast.weight + mast.ice_weight(ice=coat)
    name = f"{rotator.name}: holding torque, ice with its wind"
    torque = total_torque(beams=beams, offsets=offsets_of(site), iced=True)
    if torque is None or site.nominal is None or site.ice_gust is None:
        findings.skip(name, NO_GUST)
    else:
        findings.hold(
            name=name,
            demand=HOLDING_FACTOR * torque,
            capacity=rotator.holding_torque,
            unit="N m",
            basis=phrase(
                "{nominal}, gust for this case {ice_gust}; {coat}; factor {holding_factor} "
                "(common practice)", nominal=site.nominal.text, ice_gust=speed(site.ice_gust),
                coat=coat.text, holding_factor=f"{HOLDING_FACTOR:g}",
            ),
            change=_change(rotator, rotator.holding_torque, "balance the boom, "),
            missing="its maker's rating for holding torque is not given",
        )  # fmt: skip
    findings.hold(
        name=f"{rotator.name}: vertical load with ice",
        demand=carried,
        capacity=rotator.vertical_load,
        unit="N",
        basis=phrase("dead weight and {coat}, no wind", coat=coat.text),
        change=_change(rotator, rotator.vertical_load),
        missing="its maker's rating for vertical load is not given",
    )


def _area_line(rotator: Rotator, beams: Sequence[BeamReport], findings: Findings) -> None:
    where = "" if rotator.place == "ring" else f" ({rotator.place})"
    name = f"{rotator.name}: wind area{where}"
    if rotator.area_rule is None or rotator.rated_area is None:
        reason = "its rated area for this mounting, or what kind of area, is not given"
        findings.skip(name, reason, change=_ASK)
        return
    rule = rotator.area_rule
    findings.hold(
        name=name,
        demand=sum(beam.wind.worst.by_rule(rule) for beam in beams),
        capacity=rotator.rated_area,
        unit="m2",
        basis=f"{rule} area; area ratings alone say little about torque",
        change="look at the torque lines first",
    )


def _clamp_lines(rotator: Rotator, mast: Mast, findings: Findings) -> None:
    hold = partial(findings.hold, unit="mm", basis="outer diameter")
    if rotator.greatest_mast is not None:
        hold(
            name=f"{rotator.name}: mast fits its clamp",
            demand=mast.diameter * 1000.0,
            capacity=rotator.greatest_mast * 1000.0,
            change="a tube and a pipe of the same name differ in diameter: look at both",
        )
    if rotator.least_mast is not None:
        hold(
            name=f"{rotator.name}: clamp closes on the mast",
            demand=rotator.least_mast * 1000.0,
            capacity=mast.diameter * 1000.0,
            change="use the maker's adapter",
        )


def off_rings(
    *, beams: Sequence[BeamReport | None], site: SiteLoads
) -> tuple[list[BeamReport | None], SiteLoads]:
    """Leave out beams on a ring: what was found of the others, and the site with them (2,)."""
    inputs = site.inputs
    riding = {ring.beam for ring in inputs.rings}
    kept = [
        (mounted, found)
        for mounted, found in zip(inputs.beams, beams, strict=True)
        if mounted.beam.name not in riding
    ]
    alone = replace(inputs, beams=tuple(mounted for mounted, _ in kept))
    return [found for _, found in kept], replace(site, inputs=alone)


def check_rings(*, beams: Sequence[BeamReport | None], site: SiteLoads, findings: Findings) -> None:
    """Hold every ring against its maker's ratings, and ask for the support around it.

    Args:
        beams: what was found of each beam of the inputs; None where its sizes make no beam
            (n_beams,)
    """
    inputs = site.inputs
    found = {each.beam.name: (each, one) for each, one in zip(inputs.beams, beams, strict=True)}
    for ring in inputs.rings:
        _support_line(ring, inputs, findings)
        mounted, report = found.get(ring.beam, (None, None))
        if mounted is None or report is None:
            reason = f"no beam called {ring.beam} is known well enough"
            findings.skip(f"{ring.name}: holding torque", reason)
            continue
        alone = replace(inputs, beams=(mounted,), mast=None, rotator=ring)
        there = replace(site, inputs=alone)
        torque = total_torque(beams=(report,), offsets=offsets_of(there))
        check_rotator(beams=(report,), torque=torque, site=there, findings=findings)
        if ring.mass is None or ring.drag_area is None:
            findings.doubt(
                "ring-own",
                f"The weight or the wind area of the {ring.name} itself is not given, so "
                "the support is checked without it. Ask its maker.",
            )


def _support_line(ring: RingMount, inputs: StructureInputs, findings: Findings) -> None:
    name, here = f"{ring.name}: on the support", span(ring.height)
    support = inputs.tower or inputs.tube
    if support is not None and ring.height > support.height:
        reason = phrase("it sits at {height}, above the support's top at ", height=here)
        said = phrase("{reason}{height}", reason=reason, height=span(support.height))
        findings.skip(name, said, change="correct the heights")
    elif not ring.said_by:
        reason = phrase("nobody says that the support may carry a ring at {height}", height=here)
        findings.skip(
            name,
            phrase("{reason}, with its side pull and its torque", reason=reason),
            change="ask the maker of the support, and the maker of the ring",
        )
    else:
        findings.note(
            "ring-agreed",
            phrase(
                "That the support may carry the {rotator} at {height} is taken from: {said_by}.",
                rotator=ring.name, height=here, said_by=ring.said_by,
            ),
        )  # fmt: skip
