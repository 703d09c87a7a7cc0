"""Ledger lines for the rotator: torque, weight and side force against its maker's ratings."""

from __future__ import annotations

from collections.abc import Sequence
from math import degrees
from typing import Final

from boomwright.base.quantity import Quantity, Value, phrase, settled
from boomwright.structure.beam.torque import braking_torque_by_angle
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.gust import mast_response
from boomwright.structure.checks.margins import margin
from boomwright.structure.checks.mast import mast_loads, misplaced, offsets_of, total_torque
from boomwright.structure.report import BeamReport
from boomwright.structure.support.mast import Mast, mast_bending
from boomwright.structure.support.rotator import HOLDING_FACTOR, Rotator, RotatorDemand
from boomwright.structure.weather.drag import ROUND_DRAG
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.wording import force, moment, speed

_ASK = "ask its maker"


def _change(rotator: Rotator, rated: float | None, first: str = "") -> str:
    if rated is None:
        return _ASK
    if rotator.place == "ring":
        return f"{first}or take a stronger ring mount" if first else "take a stronger ring mount"
    return f"{first}add a thrust bearing or take a stronger rotator"


def _demand(
    rotator: Rotator,
    beams: Sequence[BeamReport],
    torque: float,
    mast: Mast | None,
    site: SiteLoads,
) -> tuple[RotatorDemand, float | None]:
    """What the beams ask of the rotator, and the side force at the bearing above it [N]."""
    bearing = None
    inertia = sum(beam.inertia or 0.0 for beam in beams)
    turning = None
    if rotator.turning_gust is not None and site.nominal is not None:
        share = (rotator.turning_gust / site.nominal.gust) ** 2
        turning = torque * share + rotator.friction
    stopping = None
    if rotator.turning_rate is not None:
        stopping = braking_torque_by_angle(
            inertia=inertia, rate=rotator.turning_rate, angle=rotator.stop_angle
        )
    side = sum(beam.force or 0.0 for beam in beams) if rotator.place == "ring" else None
    if mast is not None:
        pressure = site.nominal_pressure(height=(mast.bearing_height + mast.top_height) / 2.0)
        if pressure is not None and rotator.place == "inside tower":
            gusts = mast_response(site=site, beams=beams, nominal=True)
            bent = mast_bending(
                mast=mast,
                loads=mast_loads(mast=mast, beams=beams, site=site, nominal=True, gusts=gusts),
                pressure=gusts.factor * pressure.for_force,
                drag=ROUND_DRAG,
            )
            if not gusts.missing:
                side, bearing = bent.rotator_reaction, bent.bearing_reaction
    demand = RotatorDemand(
        survival_torque=torque,
        turning_torque=turning,
        stopping_torque=stopping,
        inertia=inertia,
        vertical_load=_dead_weight(beams, mast),
        side_force=side,
    )
    return demand, bearing


def _dead_weight(beams: Sequence[BeamReport], mast: Mast | None) -> float:
    return sum(beam.weight or 0.0 for beam in beams) + (0.0 if mast is None else mast.weight)


def none_turns(beams: Sequence[BeamReport]) -> bool:
    """Whether there are beams, and ropes hold every one, so that nothing needs a rotator."""
    return bool(beams) and not any(beam.turns for beam in beams)


def check_rotator(
    *, beams: Sequence[BeamReport], torque: float | None, site: SiteLoads, findings: Findings
) -> RotatorDemand | None:
    """Hold what the beams ask against the rotator's ratings, with wind that has no factor on it.

    Args:
        torque: wind torque, nominal; None when not known [N m]

    Returns:
        demands; None when not checked
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
    if torque is None or site.nominal is None:
        reason = "the wind torque needs wind, boom tube and tube walls of every beam"
        findings.skip(f"{rotator.name}: holding torque", reason)
        return None
    if mast is None and rotator.place == "inside tower":
        reason = "no mast is given, so nobody knows how far the booms stand beside its axis"
        findings.skip(f"{rotator.name}: holding torque", reason)
        return None
    astray = "" if mast is None else misplaced(mast, beams, site.inputs)
    if astray:
        findings.skip(f"{rotator.name}: holding torque", astray)
        return None
    demand, bearing = _demand(rotator, beams, torque, mast, site)
    _room_lines(rotator, site, bearing, findings)
    _rating_lines(rotator, demand, site, findings)
    _iced_lines(rotator, beams, site, findings)
    _area_line(rotator, beams, findings)
    return demand


#: usual size of a rotator across and high [m] {common-practice-hardware}
_USUAL_SIZE: Final = (0.19, 0.30)


def _room_lines(
    rotator: Rotator, site: SiteLoads, bearing: float | None, findings: Findings
) -> None:
    """Hold a rotator under its bearing against the pole that it stands in, or its cage.

    Args:
        bearing: side force at the top bearing; None while not known [N]
    """
    mast, tube = site.inputs.mast, site.inputs.tube
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
        findings.add(
        margin(name="cage: room for the rotator", demand=mast.rotator_below + high,
               capacity=cage.height, unit="m", basis="from the bearing to under the rotator",
               change="take a higher cage")
        )  # fmt: skip
    if bearing is None:
        findings.skip("cage: side force", "it needs the wind on mast and beams")
        return
    findings.add(
        margin(
            name="cage: side force", demand=bearing, capacity=cage.side_force, unit="N",
            basis="" if site.nominal is None else phrase(
                "{basis}; at the bearing, the cage taken to be as stiff as the pole",
                basis=site.nominal.text,
            ),
            change=phrase("ask its maker whether it stands {load}", load=force(bearing)),
            missing="its maker's rating for side force is not given",
        )
    )  # fmt: skip


def _rating_lines(
    rotator: Rotator, demand: RotatorDemand, site: SiteLoads, findings: Findings
) -> None:
    basis = "" if site.nominal is None else site.nominal.text
    side_reason = "it needs mast and bearing spacing (a mast-mounted rotator carries all bending)"
    turning_reason = "no gust in which it shall turn is given"
    lines: tuple[tuple[str, float | None, float | None, str, Value, str], ...] = (
        (
            "holding torque",
            HOLDING_FACTOR * demand.survival_torque,
            rotator.holding_torque,
            "N m",
            phrase("{basis}; factor {by} (common practice)", basis=basis, by=f"{HOLDING_FACTOR:g}"),
            "",
        ),
        (
            "turning torque",
            demand.turning_torque,
            rotator.turning_torque,
            "N m",
            phrase(
                "{basis}, scaled to a gust of {speed}; friction {friction}", basis=basis,
                speed=speed(rotator.turning_gust or 0.0), friction=moment(rotator.friction),
            ),
            turning_reason,
        ),
        (
            "start and stop torque",
            demand.stopping_torque,
            rotator.start_stop_torque,
            "N m",
            phrase(
                "{inertia} stopped within {degrees} deg, no wind",
                inertia=Quantity(demand.inertia, "inertia"),
                degrees=f"{degrees(rotator.stop_angle):.2g}",
            ),
            "its turning rate is not given",
        ),
        ("vertical load", demand.vertical_load, rotator.vertical_load, "N", "dead weight", ""),
        ("side force", demand.side_force, rotator.side_force, "N", basis, side_reason),
    )  # fmt: skip
    for what, asked, rated, unit, text, reason in lines:
        name = f"{rotator.name}: {what}"
        if asked is None:
            findings.skip(name, reason)
            continue
        if rated is None:
            load = force(asked) if unit == "N" else moment(asked)
            change: Value = phrase("ask its maker whether it stands {load}", load=load)
        else:
            change = _change(rotator, rated, "balance the boom, ")
        missing = f"its maker's rating for {what} is not given"
        findings.add(margin(name=name, demand=asked, capacity=rated, unit=unit, basis=text,
                            change=change, missing=missing))  # fmt: skip


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
    _iced_torque_line(rotator, beams, site, coat, findings)
    findings.add(
        margin(
            name=f"{rotator.name}: vertical load with ice",
            demand=carried,
            capacity=rotator.vertical_load,
            unit="N",
            basis=phrase("dead weight and {coat}, no wind", coat=coat.text),
            change=_change(rotator, rotator.vertical_load),
            missing="its maker's rating for vertical load is not given",
        )
    )


def _iced_torque_line(
    rotator: Rotator,
    beams: Sequence[BeamReport],
    site: SiteLoads,
    coat: IceCoat,
    findings: Findings,
) -> None:
    name = f"{rotator.name}: holding torque, ice with its wind"
    torque = total_torque(beams=beams, offsets=offsets_of(site), iced=True)
    if torque is None or site.nominal is None or site.ice_gust is None:
        findings.skip(name, "the gust that comes with the ice is not given")
        return
    findings.add(
        margin(
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
        )
    )  # fmt: skip


def _area_line(rotator: Rotator, beams: Sequence[BeamReport], findings: Findings) -> None:
    where = "" if rotator.place == "ring" else f" ({rotator.place})"
    name = f"{rotator.name}: wind area{where}"
    if rotator.area_rule is None or rotator.rated_area is None:
        reason = "its rated area for this mounting, or what kind of area, is not given"
        findings.skip(name, reason, change=_ASK)
        return
    rule = rotator.area_rule
    findings.add(
        margin(
            name=name,
            demand=sum(beam.wind.worst.by_rule(rule) for beam in beams),
            capacity=rotator.rated_area,
            unit="m2",
            basis=f"{rule} area; area ratings alone say little about torque",
            change="look at the torque lines first",
        )
    )


def _clamp_lines(rotator: Rotator, mast: Mast, findings: Findings) -> None:
    if rotator.greatest_mast is not None:
        findings.add(
            margin(
                name=f"{rotator.name}: mast fits its clamp",
                demand=mast.diameter * 1000.0,
                capacity=rotator.greatest_mast * 1000.0,
                unit="mm",
                basis="outer diameter",
                change="a tube and a pipe of the same name differ in diameter: look at both",
            )
        )
    if rotator.least_mast is not None:
        findings.add(
            margin(
                name=f"{rotator.name}: clamp closes on the mast",
                demand=rotator.least_mast * 1000.0,
                capacity=mast.diameter * 1000.0,
                unit="mm",
                basis="outer diameter",
                change="use the maker's adapter",
            )
        )
