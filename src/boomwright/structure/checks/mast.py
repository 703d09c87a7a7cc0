"""Ledger lines for the mast."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from boomwright.base.quantity import InPlan, Value, phrase
from boomwright.base.records import replace
from boomwright.structure.checks.findings import NO_YIELD, Blow, Findings, SiteLoads
from boomwright.structure.checks.gust import mast_response
from boomwright.structure.faults import StructureInputError
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.report import BeamReport
from boomwright.structure.support.columns import AMPLIFIED_AT, wall_text
from boomwright.structure.support.mast import (
    BEARING_ABOVE,
    Mast,
    MastBending,
    MastLoad,
    mast_bending,
)
from boomwright.structure.support.tube_support import TubularSupport
from boomwright.structure.weather.gust import GustResponse
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import VelocityPressure
from boomwright.structure.wording import moment, span, stretch

#: a beam may hang so far above the top of a tube that carries it without a mast [m]
#: (common practice)
ON_TUBE = 0.1
#: names of the checks of its bending and as a column, bare and with ice
_NAMES: Final = (
    ("mast: bending at the top bearing", "mast: column, bending and torsion together"),
    (
        "mast: bending, ice with its wind",
        "mast: column, bending and torsion together, ice with its wind",
    ),
)


def mast_loads(
    *,
    mast: Mast,
    beams: Sequence[BeamReport],
    site: SiteLoads,
    gusts: GustResponse,
    nominal: bool = False,
    iced: bool = False,
) -> tuple[MastLoad, ...]:
    """Wind and weight of every beam on the mast, each from its own worst direction."""
    # Pulls of wires on ropes are nominal; strength design holds them at its own level of wind.
    level = 1.0 if nominal else _level(site, iced)
    loads = []
    for beam in beams:
        pressure = site.blow(height=beam.centre, nominal=nominal, iced=iced).force
        area, (side, down) = beam.areas(iced=iced).worst.drag, beam.pulls(iced=iced)
        wind = gusts.factor * pressure * area if iced else gusts.factor * (pressure * area)
        loads.append(
            MastLoad(
                name=beam.name,
                height=beam.centre - mast.bearing_height,
                force=wind + side * level,
                weight=(beam.weighs(iced=iced) or beam.weight or 0.0) + down,
            )
        )
    return tuple(loads)


def _level(site: SiteLoads, iced: bool) -> float:
    """What nominal pulls and torques are held at beside the wind of the method [-]."""
    if not iced:
        return site.level
    # The gust with ice is one and the same for both winds; only a factor on it differs.
    return 1.0 if site.member is None else site.member.load_factor


def offsets_of(site: SiteLoads) -> list[float]:
    """How far each boom axis stands beside the mast, by sign; 0 if unknown [m] (n_beams,)."""
    return [0.0 if each.boom is None else each.boom.offset for each in site.inputs.beams]


def total_torque(
    *, beams: Sequence[BeamReport], offsets: Sequence[float], iced: bool = False
) -> float | None:
    """Wind torque of all beams on one mast, nominal; None when that of one is not known [N m].

    Torques of booms hung on opposite sides of the mast cancel; all others are added.

    Args:
        offsets: boom axis beside the mast, by sign [m] (n_beams,)
    """
    torques = [beam.iced_torque if iced else beam.torque for beam in beams]
    known = [torque for torque in torques if torque is not None]
    if not known or len(known) < len(torques):
        return None
    signed = sum(
        torque.offset if offset >= 0.0 else -torque.offset
        for torque, offset in zip(known, offsets, strict=True)
    )
    along = abs(signed) + sum(torque.gust_elements for torque in known)
    across = sum(torque.boom + torque.gust_boom for torque in known)
    return max(along, across)


def misplaced(mast: Mast, beams: Sequence[BeamReport], inputs: StructureInputs) -> Value:
    """Say what holds the mast nowhere, or which beam hangs off it, or nothing."""
    stands = inputs.tower or inputs.tube
    if stands is not None and mast.bearing_height > stands.height + BEARING_ABOVE:
        return phrase(
            "its top bearing at {bearing} lies above the support, which ends at {top}",
            bearing=span(mast.bearing_height),
            top=span(stands.height),
        )
    for beam in beams:
        if not mast.bearing_height <= beam.height <= mast.top_height + beam.over_top:
            return phrase(
                "{beam} hangs at {height}, off the mast between {bearing_height} and "
                "{top_height}; a beam that turns on a ring is named with it{ring}",
                ring=InPlan("support.ring", many=True),
                beam=beam.name, height=span(beam.height), bearing_height=span(mast.bearing_height),
                top_height=span(mast.top_height),
            )  # fmt: skip
    return ""


def _bare_tube(tube: TubularSupport | None, beams: Sequence[BeamReport]) -> Value:
    """Say why beams need a mast that is not given, or nothing: a tube carries them by itself."""
    if tube is None:
        return "no mast is given"
    over = [beam for beam in beams if beam.height > tube.height + ON_TUBE]
    if not over:
        return ""
    return phrase(
        "{beam} hangs at {height} over a tube that ends at {top}, and no mast is given",
        beam=over[0].name,
        height=span(over[0].height),
        top=span(tube.height),
    )


def check_mast(
    *, beams: Sequence[BeamReport], torque: float | None, site: SiteLoads, findings: Findings
) -> MastBending | None:
    """Bend the mast and write its ledger line; None when not checked.

    Args:
        torque: wind torque, nominal; None when not known [N m]
    """
    mast, (name, _) = site.inputs.mast, _NAMES[0]
    if mast is None:
        missing = _bare_tube(site.inputs.tube, beams)
        if missing:
            findings.skip(name, missing)
        return None
    trouble = site.missing or misplaced(mast, beams, site.inputs)
    if not trouble and not beams:
        trouble = "no beam with a wind area hangs on it"
    weightless = [beam.name for beam in beams if beam.weight is None]
    if not trouble and weightless:
        trouble = f"the weight of {weightless[0]} is not known"
    if not trouble and torque is None:
        trouble = "the wind torque of a beam on it is not known"
    if trouble or torque is None:
        findings.skip(name, trouble)
        return None
    bent = _bend(mast, beams, torque, site.blow(height=mast.middle), site, findings)
    coat = site.coat(height=mast.top_height)
    if bent is not None and coat is not None:
        twist = total_torque(beams=beams, offsets=offsets_of(site), iced=True) or 0.0
        iced = replace(site.blow(height=mast.middle, iced=True), coat=coat)
        _bend(mast, beams, twist, iced, site, findings)
    lean = None if bent is None else bent.top_deflection
    if lean is not None and lean > 0.1 * mast.proud:
        findings.doubt(
            "mast-lean",
            "The mast leans far in the wind, more than a tenth of its length above the bearing.",
            value=stretch(lean),
            limit=stretch(0.1 * mast.proud),
        )
    return bent


def _bend(
    mast: Mast,
    beams: Sequence[BeamReport],
    torque: float,
    blow: Blow,
    site: SiteLoads,
    findings: Findings,
) -> MastBending | None:
    """Bend the mast in one case of wind, its torque nominal, and write its lines."""
    iced = blow.coat is not None
    name, _ = _NAMES[iced]
    if blow.pressure is None:
        findings.skip(name, blow.missing)
        return None
    gusts = mast_response(site=site, beams=beams, iced=iced)
    if gusts.missing:
        findings.skip(name, gusts.missing)
        return None
    pressure = blow.pressure.with_gusts(gusts)
    # Where loads carry factors of their own, the weight that bends the mast does too.
    factored = site.factors is not None or site.kind == "ultimate"
    # Torque is nominal; strength design holds it at its own level of wind.
    bent = mast_bending(
        mast=mast,
        loads=mast_loads(mast=mast, beams=beams, site=site, gusts=gusts, iced=iced),
        pressure=pressure.for_force,
        torque=torque * _level(site, iced),
        ice=blow.coat,
        dead_factor=site.dead_factor,
        amplified_at=site.dead_factor if factored else AMPLIFIED_AT,
    )
    if mast.yield_strength is None:
        findings.skip(name, NO_YIELD)
    else:
        _lines(mast, mast.yield_strength, bent, pressure, blow.coat, site, findings)
    return bent


def _lines(
    mast: Mast,
    yield_strength: float,
    bent: MastBending,
    pressure: VelocityPressure,
    coat: IceCoat | None,
    site: SiteLoads,
    findings: Findings,
) -> None:
    name, column = _NAMES[coat is not None]
    ice = "" if coat is None else phrase("; {coat}, D + Di + Wi in full", coat=coat.text)
    told = {"wall_text": wall_text(mast.wall_share), "ice": ice}
    hold = partial(
        findings.hold,
        change="take a stronger or thicker tube, or hang the beams lower",
        part="mast",
        load_kind=pressure.kind,
    )
    limit = site.tube_limit(mast, yield_strength=yield_strength)
    hold(
        name=name,
        demand=bent.stress / 1e6,
        capacity=limit.value / 1e6,
        unit="MPa",
        basis=phrase(
            "{pressure}; {rule}; {moment} at the bearing, grown "
            "x {growth} by the weights{wall_text}{ice}", pressure=pressure.text,
            rule=limit.rule, moment=moment(bent.moment), growth=f"{bent.growth:.2f}", **told,
        ),
        limit_kind=limit.kind,
    )  # fmt: skip
    try:
        strength = site.column(
            mast, column_length=mast.column_length, yield_strength=yield_strength
        )
    except StructureInputError as error:
        findings.skip(column, error.said)
        return
    hold(
        name=column,
        demand=strength.used(
            axial=site.dead_factor * bent.weight,
            moment=bent.moment * bent.growth,
            torque=bent.torsion_stress * mast.shape.torsion_modulus,
        ),
        capacity=1.0,
        unit="",
        basis=phrase(
            "{pressure}; {rule}; bending and torsion strength and sum of all by the "
            "same{wall_text}{ice}", pressure=pressure.text, rule=strength.rule, **told,
        ),
        limit_kind=strength.kind,
    )  # fmt: skip
