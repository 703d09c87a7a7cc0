"""Ledger lines for the mast."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base.quantity import InPlan, Value, phrase
from boomwright.structure.checks.findings import NO_YIELD, Findings, SiteLoads
from boomwright.structure.checks.gust import mast_response
from boomwright.structure.checks.margins import margin
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
from boomwright.structure.weather.wind import VelocityPressure
from boomwright.structure.wording import moment, span, stretch

#: a beam may hang so far above the top of a tube that carries it without a mast [m]
#: (common practice)
ON_TUBE = 0.1
COLUMN = "mast: column, bending and torsion together"


def mast_loads(
    *,
    mast: Mast,
    beams: Sequence[BeamReport],
    site: SiteLoads,
    nominal: bool,
    gusts: GustResponse,
) -> tuple[MastLoad, ...]:
    """Wind and weight of every beam on the mast, each from its own worst direction."""
    loads = []
    for beam in beams:
        pressure = (
            site.nominal_pressure(height=beam.centre)
            if nominal
            else site.pressure(height=beam.centre)
        )
        force = 0.0 if pressure is None else pressure.for_force * beam.wind.worst.drag
        # Pulls of wires on ropes are nominal; strength design holds them at its own level of wind.
        side, down = beam.pull
        loads.append(
            MastLoad(
                name=beam.name,
                height=beam.centre - mast.bearing_height,
                force=gusts.factor * force + side * (1.0 if nominal else site.level),
                weight=(beam.weight or 0.0) + down,
            )
        )
    return tuple(loads)


def offsets_of(site: SiteLoads) -> list[float]:
    """List how far each boom axis stands beside the mast.

    Returns:
        offsets by sign, 0 for an unknown boom [m] (n_beams,)
    """
    return [0.0 if each.boom is None else each.boom.offset for each in site.inputs.beams]


def total_torque(
    *, beams: Sequence[BeamReport], offsets: Sequence[float], iced: bool = False
) -> float | None:
    """Wind torque of all beams on one mast, nominal.

    Torques of booms hung on opposite sides of the mast cancel; all others are added.

    Args:
        offsets: boom axis beside the mast, by sign [m] (n_beams,)

    Returns:
        torque; None when one of them is not known [N m]
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
    mast, name = site.inputs.mast, "mast: bending at the top bearing"
    if mast is None:
        missing = _bare_tube(site.inputs.tube, beams)
        if missing:
            findings.skip(name, missing)
        return None
    pressure = site.pressure(height=(mast.bearing_height + mast.top_height) / 2.0)
    trouble = site.missing or misplaced(mast, beams, site.inputs)
    if not trouble and not beams:
        trouble = "no beam with a wind area hangs on it"
    weightless = [beam.name for beam in beams if beam.weight is None]
    if not trouble and weightless:
        trouble = f"the weight of {weightless[0]} is not known"
    if not trouble and torque is None:
        trouble = "the wind torque of a beam on it is not known"
    if trouble or pressure is None or torque is None:
        findings.skip(name, trouble)
        return None
    gusts = mast_response(site=site, beams=beams)
    if gusts.missing:
        findings.skip(name, gusts.missing)
        return None
    pressure = pressure.with_gusts(gusts)
    # Torque is nominal; strength design holds it at its own level of wind.
    bent = mast_bending(
        mast=mast,
        loads=mast_loads(mast=mast, beams=beams, site=site, nominal=False, gusts=gusts),
        pressure=pressure.for_force,
        torque=torque * site.level,
        dead_factor=site.dead_factor,
        amplified_at=_amplified_at(site),
    )
    _stress_line(name, mast, bent, pressure, site, findings)
    _column_line(COLUMN, mast, bent, pressure, site, findings)
    _iced_line(mast, beams, site, findings)
    if bent.top_deflection is not None and bent.top_deflection > 0.1 * mast.proud:
        findings.doubt(
            "mast-lean",
            "The mast leans far in the wind, more than a tenth of its length above the bearing.",
            value=stretch(bent.top_deflection),
            limit=stretch(0.1 * mast.proud),
        )
    return bent


def _stress_line(
    name: str,
    mast: Mast,
    bent: MastBending,
    pressure: VelocityPressure,
    site: SiteLoads,
    findings: Findings,
    ice: Value = "",
) -> None:
    if mast.yield_strength is None:
        findings.skip(name, NO_YIELD)
        return
    limit = site.limit(
        yield_strength=mast.yield_strength,
        steel=mast.steel,
        ultimate=mast.ultimate_strength,
        known=mast.yield_known,
    )
    findings.add(
        margin(
            name=name,
            demand=bent.stress / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=phrase(
                "{pressure}; {rule}; {moment} at the bearing, grown "
                "x {growth} by the weights{wall_text}{ice}", pressure=pressure.text,
                rule=limit.rule, moment=moment(bent.moment), growth=f"{bent.growth:.2f}",
                wall_text=wall_text(mast.wall_share), ice=ice,
            ),
            change="take a stronger or thicker tube, or hang the beams lower",
            part="mast",
            load_kind=pressure.kind,
            limit_kind=limit.kind,
        )
    )  # fmt: skip


def _column_line(
    name: str,
    mast: Mast,
    bent: MastBending,
    pressure: VelocityPressure,
    site: SiteLoads,
    findings: Findings,
    ice: Value = "",
) -> None:
    if mast.yield_strength is None:  # said once, with its bending
        return
    try:
        strength = site.column(
            shape=mast.shape,
            column_length=mast.column_length,
            yield_strength=mast.yield_strength,
            elastic_modulus=mast.elastic_modulus,
            steel=mast.steel,
        )
    except StructureInputError as error:
        findings.skip(name, error.said)
        return
    findings.add(
        margin(
            name=name,
            demand=strength.used(
                axial=site.dead_factor * bent.weight,
                moment=bent.moment * bent.growth,
                torque=bent.torsion_stress * mast.shape.torsion_modulus,
            ),
            capacity=1.0,
            unit="",
            basis=phrase(
                "{pressure}; {rule}; bending and torsion strength and sum of all by the "
                "same{wall_text}{ice}", pressure=pressure.text, rule=strength.rule,
                wall_text=wall_text(mast.wall_share), ice=ice,
            ),
            change="take a stronger or thicker tube, or hang the beams lower",
            part="mast",
            load_kind=pressure.kind,
            limit_kind=strength.kind,
        )
    )  # fmt: skip


def _amplified_at(site: SiteLoads) -> float:
    # Where loads carry factors of their own, the weight that bends the mast does too.
    factored = site.factors is not None or site.kind == "ultimate"
    return site.dead_factor if factored else AMPLIFIED_AT


def _iced_line(
    mast: Mast, beams: Sequence[BeamReport], site: SiteLoads, findings: Findings
) -> None:
    coat = site.coat(height=mast.top_height)
    if coat is None:
        return
    name = "mast: bending, ice with its wind"
    pressure = site.ice_pressure(height=(mast.bearing_height + mast.top_height) / 2.0)
    if pressure is None:
        findings.skip(name, site.missing or "the gust that comes with the ice is not given")
        return
    gusts = mast_response(site=site, beams=beams, iced=True)
    if gusts.missing:
        findings.skip(name, gusts.missing)
        return
    pressure = pressure.with_gusts(gusts)
    loads = []
    for beam in beams:
        here = site.ice_pressure(height=beam.centre)
        side, down = beam.iced_pull
        wind = beam.wind if beam.iced_wind is None else beam.iced_wind
        loads.append(
            MastLoad(
                name=beam.name,
                height=beam.centre - mast.bearing_height,
                force=side * _iced_level(site)
                + (0.0 if here is None else gusts.factor * here.for_force * wind.worst.drag),
                weight=(beam.iced_weight or beam.weight or 0.0) + down,
            )
        )
    bent = mast_bending(
        mast=mast,
        loads=loads,
        pressure=pressure.for_force,
        torque=(total_torque(beams=beams, offsets=offsets_of(site), iced=True) or 0.0)
        * _iced_level(site),
        ice=coat,
        dead_factor=site.dead_factor,
        amplified_at=_amplified_at(site),
    )
    iced = phrase("; {coat}, D + Di + Wi in full", coat=coat.text)
    _stress_line(name, mast, bent, pressure, site, findings, iced)
    _column_line(f"{COLUMN}, ice with its wind", mast, bent, pressure, site, findings, iced)


def _iced_level(site: SiteLoads) -> float:
    """The gust with ice is one and the same for both winds; only a factor on it differs [-]."""
    return 1.0 if site.member is None else site.member.load_factor
