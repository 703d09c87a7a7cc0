"""Ledger lines for wire on a frame: its spreaders, its wires, what ropes hold."""

from __future__ import annotations

from math import pi
from typing import Final

from boomwright.base import STANDARD_GRAVITY, Notice
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam, Frame, Spreader
from boomwright.structure.beam.beam_masses import beam_masses
from boomwright.structure.beam.boom import moment_of_inertia
from boomwright.structure.beam.frame import (
    SpreaderBending,
    WirePull,
    hardest_pull,
    spreader_bending,
    spreader_points,
    still_droops,
)
from boomwright.structure.beam.torque import WindTorque
from boomwright.structure.checks.boom import BoomFindings
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.margins import margin
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.weather.beam_wind import frame_torque
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import VelocityPressure

#: what a maker's bending strength of a fibreglass pole, and what the breaking strength of wire, is
#: divided by {common-practice-wire-factors}
SPREADER_FACTOR: Final = 2.0
WIRE_FACTOR: Final = 2.0


def frame_unsaid(*, beam: Beam) -> str:
    """Say why what holds the wires is not known, or nothing.

    Returns:
        reason in words; empty for straight elements, which sit on a boom
    """
    if not beam.bent:
        return ""
    frame = beam.frame
    if frame is None or (frame.spreader is None and not frame.held and not beam.upright):
        return (
            "the plan does not say what holds the wires: [beam.frame.spreader], or held = "
            '"ropes" in [beam.frame]'
        )
    if frame.spreader is not None and not frame.spreader.known:
        return "elastic_modulus and density of the spreaders are not given"
    if beam.upright and frame.spreader is None and not frame.held:
        return "what holds the upright wire is not given"
    return ""


def check_frame(*, mounted: MountedBeam, site: SiteLoads, findings: Findings) -> BoomFindings:
    """Work out wires and spreaders of one beam and write their ledger lines.

    Returns:
        what is known of a beam without a boom
    """
    beam = mounted.beam
    frame = beam.frame or Frame()
    trouble = frame_unsaid(beam=beam)
    if frame.spreader is not None:
        for ice in _cases(beam, site):
            _spreader_line(beam, frame, frame.spreader, ice, trouble, site, findings)
    for ice in _cases(beam, site):
        _wire_line(beam, frame, ice, site, findings)
    if trouble and frame.spreader is None:
        findings.skip(f"{beam.name}: what holds the wires", trouble)
    if frame.held:
        _ropes_doubt(beam, findings)
    if not trouble:
        _droop_note(beam, frame, findings)
    coat = site.coat(height=beam.height)
    masses = (*beam_masses(beam=beam), *mounted.hung)
    iced = sum(point.mass for point in (*beam_masses(beam=beam, ice=coat), *mounted.hung))
    iced += sum(each.ice_mass(coat) for each in mounted.exposed)
    whole = [sum(point.mass for point in masses) * STANDARD_GRAVITY, iced * STANDARD_GRAVITY]
    return BoomFindings(
        weight=None if trouble else whole[0],
        iced_weight=None if trouble or coat is None else whole[1],
        clamp=beam.boom_middle,
        inertia=None if trouble else moment_of_inertia(masses=masses, axis=beam.boom_middle),
        torque=_torque(beam, site.nominal_pressure(height=beam.height), None, trouble),
        iced_torque=None
        if coat is None
        else _torque(beam, site.nominal_ice_pressure(height=beam.height), coat, trouble),
    )


def _torque(
    beam: Beam, pressure: VelocityPressure | None, ice: IceCoat | None, trouble: str
) -> WindTorque | None:
    if trouble or pressure is None:
        return None
    return frame_torque(beam=beam, pressure=pressure.for_force, ice=ice)


def _cases(beam: Beam, site: SiteLoads) -> tuple[IceCoat | None, ...]:
    coat = site.coat(height=beam.height)
    return (None,) if coat is None else (None, coat)


def _pressure(beam: Beam, ice: IceCoat | None, site: SiteLoads) -> VelocityPressure | None:
    if ice is None:
        return site.nominal_pressure(height=beam.height)
    return site.nominal_ice_pressure(height=beam.height)


def _missing(ice: IceCoat | None, site: SiteLoads) -> Value:
    if ice is None:
        return site.missing
    return site.missing or "the gust that comes with the ice is not given"


def _spreader_line(
    beam: Beam,
    frame: Frame,
    spreader: Spreader,
    ice: IceCoat | None,
    trouble: str,
    site: SiteLoads,
    findings: Findings,
) -> None:
    name = f"{beam.name}: spreaders {'in wind' if ice is None else 'with ice and its wind'}"
    pressure = _pressure(beam, ice, site)
    reason = trouble
    if frame.pull is None:
        reason = reason or "the pull in the wires is not given: pull in [beam.frame]"
    if not spreader.strength:
        reason = reason or "the bending strength of the spreaders is not given"
    if reason or pressure is None:
        findings.skip(name, reason or _missing(ice, site))
        return
    bent = max(
        (
            spreader_bending(
                beam=beam,
                frame=frame,
                spreader=spreader,
                point=point,
                pressure=pressure.for_force,
                ice=ice,
            )
            for point in spreader_points(frame)
        ),
        key=lambda each: each.stress,
    )
    findings.add(
        margin(
            name=name,
            demand=bent.stress / 1e6,
            capacity=spreader.strength / SPREADER_FACTOR / 1e6,
            unit="MPa",
            basis=phrase(
                "{pressure}; maker's strength over {factor} (common practice); weakest {which}",
                pressure=pressure.text,
                factor=f"{SPREADER_FACTOR:g}",
                which=_weakest(bent),
            ),
            change="take thicker spreaders, let the inner tubes reach further out, or slacken the "
            "wires",
            load_kind=pressure.kind,
            limit_kind=pressure.kind,
        )
    )


def _weakest(bent: SpreaderBending) -> str:
    number = bent.stresses.index(bent.stress) + 1
    return f"section {number} of the spreader to {bent.name}"


def _wire_line(
    beam: Beam, frame: Frame, ice: IceCoat | None, site: SiteLoads, findings: Findings
) -> None:
    name = f"{beam.name}: wires {'in wind' if ice is None else 'with ice and its wind'}"
    pressure = _pressure(beam, ice, site)
    material = beam.material
    if frame.pull is None:
        findings.skip(name, "the pull in the wires is not given: pull in [beam.frame]")
        return
    if pressure is None:
        findings.skip(name, _missing(ice, site))
        return
    if not (material.ultimate_strength > 0.0 and material.elastic_modulus > 0.0):
        findings.skip(name, f"strength or stiffness of {material.name} is not known")
        return
    hard = hardest_pull(beam=beam, still=frame.pull, pressure=pressure.for_force, ice=ice)
    findings.add(
        margin(
            name=name,
            demand=hard.tension,
            capacity=material.ultimate_strength * _area(hard) / WIRE_FACTOR,
            unit="N",
            basis=phrase(
                "{pressure}; breaking strength of soft {metal} over {factor} (common practice); "
                "corners taken as fixed; longest piece {span}",
                pressure=pressure.text,
                metal=material.name,
                factor=f"{WIRE_FACTOR:g}",
                span=Quantity(hard.span, "span"),
            ),
            change="slacken the wires, or take thicker ones",
            load_kind=pressure.kind,
            limit_kind=pressure.kind,
        )
    )


def _area(wire: WirePull) -> float:
    return pi / 4.0 * wire.diameter**2


def _ropes_doubt(beam: Beam, findings: Findings) -> None:
    findings.doubt(
        "rope-ends",
        f"{beam.name}: trees sway and ropes shrink, and neither is modelled. Run each rope over a "
        "pulley to a weight, or leave slack enough for the tree; see that no rope can reach a "
        "power line when it breaks. A rope that breaks also lets the other wire pull the support "
        "sideways: that is not in the checks of the support.",
    )


def _droop_note(beam: Beam, frame: Frame, findings: Findings) -> None:
    droops = still_droops(beam=beam, frame=frame)
    if not droops:
        return
    name, most = max(droops.items(), key=lambda each: each[1])
    findings.notices.append(
        Notice(
            code="structure.frame-droop",
            text=f"{beam.name}: the spreader to {name} hangs down most in still air. Currents and "
            "SWR are computed for the shape that hangs.",
            value=phrase("{droop}", droop=Quantity(most, "sawn length")),
        )
    )
    pull = frame.pull
    if pull is not None:
        still = hardest_pull(beam=beam, still=pull)
        findings.notices.append(
            Notice(
                code="structure.wire-sag",
                text=f"{beam.name}: the longest piece of wire hangs through between its corners.",
                value=phrase("{sag}", sag=Quantity(still.sag, "tube size")),
            )
        )
