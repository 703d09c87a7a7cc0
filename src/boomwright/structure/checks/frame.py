"""Ledger lines for wire on a frame: its spreaders, its wires, what ropes hold."""

from __future__ import annotations

from math import pi
from typing import Final

from boomwright.base import STANDARD_GRAVITY, Notice
from boomwright.base.quantity import InPlan, Quantity, Value, phrase, settled
from boomwright.base.records import dataclass, field
from boomwright.parts import Beam, Frame, Spreader
from boomwright.structure.beam.boom import moment_of_inertia
from boomwright.structure.beam.frame import (
    SpreaderBending,
    WirePull,
    hardest_pull,
    rope_pull,
    spreader_bending,
    spreader_points,
    still_droops,
    support_pull,
)
from boomwright.structure.beam.torque import WindTorque
from boomwright.structure.checks.boom import BoomFindings, weight_trouble
from boomwright.structure.checks.findings import Findings, SiteLoads
from boomwright.structure.checks.margins import margin
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.weather.frame_wind import frame_rise, frame_torque
from boomwright.structure.weather.ice import IceCoat
from boomwright.structure.weather.wind import VelocityPressure

#: what a maker's bending strength of a fibreglass pole, and what the breaking strength of wire, is
#: divided by {common-practice-wire-factors}
SPREADER_FACTOR: Final = 2.0
WIRE_FACTOR: Final = 2.0
#: what the breaking strength of a rope that holds wire is divided by {common-practice-wire-factors}
ROPE_FACTOR: Final = 5.0
#: hub or insulator of a frame may stand so far above the top of its mast [m]
#: {common-practice-wire-factors}
HUB_OVER_TOP: Final = 0.1
_NO_PULL: Final = settled("the pull in the wires is not given", "beam.frame", "pull")


def frame_unsaid(*, beam: Beam, on_boom: bool) -> Value:
    """Say why what holds the wires is not known, or nothing.

    Returns:
        reason in words; empty for straight elements, which sit on a boom
    """
    if not beam.bent:
        return ""
    frame = beam.frame
    if beam.carrier is not None:
        held = frame_unsaid(beam=beam.carrier, on_boom=True)
        return held or ("" if _pulls_known(beam) else _NO_PULL) or weight_trouble(beam=beam)
    if frame is None or (frame.spreader is None and not frame.held and not beam.upright):
        return phrase(
            "the plan does not say what holds the wires: spreaders{spreader} or ropes{held}",
            spreader=InPlan("beam.frame.spreader"), held=InPlan("beam.frame", ("held",)),
        )  # fmt: skip
    if frame.spreader is not None and not frame.spreader.known:
        return settled(
            "elasticity and density of the spreaders are not given",
            "beam.frame.spreader", "elastic_modulus", "density",
        )  # fmt: skip
    if beam.upright and frame.spreader is None and not frame.held:
        return "what holds the upright wire is not given"
    if frame.held and frame.pull is None:
        return _NO_PULL
    if not on_boom and frame.spreader is not None and frame.hub is None:
        return phrase(
            "its spreaders start from a boom{boom} or a hub{hub}, and none is given",
            boom=InPlan("beam.boom"), hub=InPlan("beam.frame", ("hub",)),
        )  # fmt: skip
    if frame.spreader is not None and frame.hub is not None and not frame.hub_mass:
        return settled("the mass of the hub is not given", "beam.frame", "hub_mass")
    if not on_boom and not all(element.bent for element in beam.elements):
        return settled("its straight elements sit on a boom, and none is given", "beam.boom")
    return weight_trouble(beam=beam)


def _pulls_known(*beams: Beam) -> bool:
    return all(beam.frame is not None and beam.frame.pull is not None for beam in beams)


def turns(beam: Beam) -> bool:
    """Whether it is a beam to be turned: not wire on ropes, nor upright."""
    return not beam.upright and not beam.hung


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameFindings:
    """What is known of wire on a frame."""

    beam: BoomFindings = field(default_factory=BoomFindings)  #: as of a beam without a boom
    #: what wires on ropes pull on the support, sideways and down [N] (2,)
    pull: tuple[float, float] = (0.0, 0.0)
    iced_pull: tuple[float, float] = (0.0, 0.0)  #: the same with ice [N] (2,)


def check_frame(
    *, mounted: MountedBeam, trouble: Value, site: SiteLoads, findings: Findings
) -> FrameFindings:
    """Work out wires, spreaders and ropes of one beam and write their ledger lines.

    Args:
        trouble: why what holds the wires is not known, or empty
    """
    beam = mounted.beam
    frame = beam.frame or Frame()
    top = beam.height + frame_rise(mounted.strung)
    coat = site.coat(height=top)
    cases = (None,) if coat is None else (None, coat)
    if frame.spreader is not None:
        for ice in cases:
            _spreader_line(beam, frame, frame.spreader, ice, top, trouble, site, findings)
    pulls = [(0.0, 0.0), (0.0, 0.0)]
    for number, ice in enumerate(cases):
        hard = _wire_line(beam, frame, ice, top, site, findings)
        if frame.held:
            _rope_line(beam, frame, hard, ice, top, site, findings)
            if hard is not None and frame.pull is not None:
                still, most = frame.pull, hard.tension
                pulls[number] = support_pull(beam=beam, still=still, hard=most)
    if trouble and frame.spreader is None:
        findings.skip(f"{beam.name}: what holds the wires", trouble)
    if frame.held:
        _ropes_doubt(beam, frame, findings)
        _tied_line(beam, frame, findings)
    if not trouble:
        _droop_note(beam, frame, findings)
    whole = [
        sum(point.mass for point in mounted.weighed(ice=ice)) * STANDARD_GRAVITY
        for ice in (None, coat)
    ]
    known = BoomFindings(
        weight=None if trouble else whole[0],
        iced_weight=None if trouble or coat is None else whole[1],
        clamp=beam.boom_middle,
        inertia=None
        if trouble
        else moment_of_inertia(masses=mounted.masses, axis=beam.boom_middle),
        torque=_torque(mounted, site.nominal_pressure(height=top), None, trouble),
        iced_torque=None
        if coat is None
        else _torque(mounted, site.nominal_ice_pressure(height=top), coat, trouble),
    )
    return FrameFindings(beam=known, pull=pulls[0], iced_pull=pulls[1])


def _torque(
    mounted: MountedBeam, pressure: VelocityPressure | None, ice: IceCoat | None, trouble: Value
) -> WindTorque | None:
    if trouble or pressure is None:
        return None
    return frame_torque(
        strung=mounted.strung, pressure=pressure.for_force, axis=mounted.beam.boom_middle, ice=ice
    )


def _pressure(ice: IceCoat | None, top: float, site: SiteLoads) -> VelocityPressure | None:
    if ice is None:
        return site.nominal_pressure(height=top)
    return site.nominal_ice_pressure(height=top)


def _missing(ice: IceCoat | None, site: SiteLoads) -> Value:
    if ice is None:
        return site.missing
    return site.missing or "the gust that comes with the ice is not given"


def _spreader_line(
    beam: Beam,
    frame: Frame,
    spreader: Spreader,
    ice: IceCoat | None,
    top: float,
    trouble: Value,
    site: SiteLoads,
    findings: Findings,
) -> None:
    name = f"{beam.name}: spreaders {'in wind' if ice is None else 'with ice and its wind'}"
    pressure = _pressure(ice, top, site)
    reason: Value = trouble
    if not _pulls_known(beam, *beam.carried):
        reason = reason or _NO_PULL
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
    beam: Beam, frame: Frame, ice: IceCoat | None, top: float, site: SiteLoads, findings: Findings
) -> WirePull | None:
    """Write the line of the hardest strained wire; None when it is not known."""
    name = f"{beam.name}: wires {'in wind' if ice is None else 'with ice and its wind'}"
    pressure = _pressure(ice, top, site)
    material = beam.material
    if frame.pull is None:
        findings.skip(name, _NO_PULL)
        return None
    if pressure is None:
        findings.skip(name, _missing(ice, site))
        return None
    if not (material.ultimate_strength > 0.0 and material.elastic_modulus > 0.0):
        findings.skip(name, f"strength or stiffness of {material.name} is not known")
        return None
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
    return hard


def _rope_line(
    beam: Beam,
    frame: Frame,
    hard: WirePull | None,
    ice: IceCoat | None,
    top: float,
    site: SiteLoads,
    findings: Findings,
) -> None:
    name = f"{beam.name}: ropes {'in wind' if ice is None else 'with ice and its wind'}"
    pressure = _pressure(ice, top, site)
    if hard is None or pressure is None:
        findings.skip(name, "the hardest pull of the wires is not known")
        return
    rope = frame.rope_strength
    findings.add(
        margin(
            name=name,
            demand=rope_pull(beam=beam, frame=frame, hard=hard.tension),
            capacity=None if rope is None else rope / ROPE_FACTOR,
            unit="N",
            basis=phrase(
                "{pressure}; breaking strength of the ropes over {factor} (common practice)",
                pressure=pressure.text,
                factor=f"{ROPE_FACTOR:g}",
            ),
            change="take stronger ropes, or slacken the wires",
            load_kind=pressure.kind,
            limit_kind=pressure.kind,
            missing=settled(
                "the breaking strength of the ropes is not given", "beam.frame", "rope_strength"
            ),
        )
    )


def _tied_line(beam: Beam, frame: Frame, findings: Findings) -> None:
    """Take trees, roofs and poles from whoever looked at them; nobody's word leaves them open."""
    if frame.said_by:
        findings.notices.append(
            Notice(
                code="structure.ropes-agreed",
                text=f"{beam.name}: that what the ropes are tied to holds their pull, the high "
                f"points that no tower or tube carries among them, is taken from: {frame.said_by}.",
            )
        )
        return
    findings.skip(
        f"{beam.name}: what the ropes are tied to",
        "nobody says that trees, roof or poles hold what the ropes pull",
        change=settled("enter who looked at it, and when", "beam.frame", "said_by"),
    )


def _area(wire: WirePull) -> float:
    return pi / 4.0 * wire.diameter**2


def _ropes_doubt(beam: Beam, frame: Frame, findings: Findings) -> None:
    """Say what is not modelled of trees, and the weight on a pulley that takes up their sway."""
    weight: Value = "a weight"
    if frame.pull is not None:
        still = rope_pull(beam=beam, frame=frame, hard=frame.pull)
        weight = phrase("a weight of {mass}", mass=Quantity(still / STANDARD_GRAVITY, "mass"))
    findings.doubt(
        "rope-ends",
        phrase(
            "{name}: trees sway and ropes shrink, and neither is modelled. Run each rope that goes "
            "to a tree over a pulley to {weight}: it rises and falls with the tree, and the pull "
            "stays the planned one. A rope tied fast needs slack enough for the tree. See that no "
            "rope can reach a power line when it breaks. A rope that breaks lets the other wires "
            "pull the support sideways: its checks hold it against that pull.",
            name=beam.name,
            weight=weight,
        ),
    )


def _droop_note(beam: Beam, frame: Frame, findings: Findings) -> None:
    droops = {} if frame.spreader is None else still_droops(beam=beam)
    if not droops:
        return
    name, most = max(droops.items(), key=lambda each: abs(each[1]))
    way = "hangs down" if most >= 0.0 else "is pulled up by its wires"
    findings.notices.append(
        Notice(
            code="structure.frame-droop",
            text=f"{beam.name}: of the spreaders, that to {name} {way} most in still air. Currents "
            "and SWR are computed for the shape that hangs.",
            value=phrase("{droop}", droop=Quantity(abs(most), "sawn length")),
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
