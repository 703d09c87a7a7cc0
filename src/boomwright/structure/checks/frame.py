"""Ledger lines for wire on a frame: its spreaders, its wires, what ropes hold."""

from __future__ import annotations

from functools import partial
from math import pi
from operator import attrgetter
from typing import Final

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import InPlan, Quantity, Value, phrase, settled
from boomwright.base.records import replace
from boomwright.parts import Beam, Frame, Spreader
from boomwright.structure.beam.boom import mass_of, moment_of_inertia
from boomwright.structure.beam.frame import (
    WirePull,
    hardest_pull,
    rope_pull,
    spreader_bending,
    spreader_points,
    still_droops,
    support_pull,
)
from boomwright.structure.beam.torque import WindTorque
from boomwright.structure.checks.boom import weight_trouble
from boomwright.structure.checks.findings import Blow, Findings, SiteLoads
from boomwright.structure.inputs import MountedBeam
from boomwright.structure.report import BeamReport
from boomwright.structure.weather.frame_wind import frame_rise, frame_torque

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
    """Say why what holds the wires is not known; empty for straight elements on a boom."""
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


def check_frame(
    *, mounted: MountedBeam, report: BeamReport, trouble: Value, site: SiteLoads, findings: Findings
) -> BeamReport:
    """Add weight, torque and pulls of a frame to a beam's report, and write its ledger lines.

    Args:
        trouble: why what holds the wires is not known, or empty
    """
    beam = mounted.beam
    frame = beam.frame or Frame()
    blows = site.blows(height=beam.height + frame_rise(mounted.strung), nominal=True)
    if frame.spreader is not None:
        for blow in blows:
            _spreader_line(beam, frame, frame.spreader, blow, trouble, findings)
    pulls = [(0.0, 0.0), (0.0, 0.0)]
    for number, blow in enumerate(blows):
        hard = _wire_line(beam, frame, blow, findings)
        if frame.held:
            _rope_line(beam, frame, hard, blow, findings)
            if hard is not None and frame.pull is not None:
                still, most = frame.pull, hard.tension
                pulls[number] = support_pull(beam=beam, still=still, hard=most)
    if trouble and frame.spreader is None:
        findings.skip(f"{beam.name}: what holds the wires", trouble)
    if frame.held:
        _ropes_doubt(beam, frame, findings)
        _tied_line(beam, frame, findings)
    report = replace(report, clamp=beam.boom_middle, pull=pulls[0], iced_pull=pulls[1])
    if trouble:
        return report
    _droop_note(beam, frame, findings)
    # The second of each is with ice, and not there without.
    weights = [mass_of(mounted.weighed(ice=each.coat)) * STANDARD_GRAVITY for each in blows]
    torques = [_torque(mounted, each) for each in blows]
    return replace(
        report,
        weight=weights[0],
        iced_weight=weights[1] if len(blows) > 1 else None,
        inertia=moment_of_inertia(masses=mounted.masses, axis=beam.boom_middle),
        torque=torques[0],
        iced_torque=torques[1] if len(blows) > 1 else None,
    )


def _torque(mounted: MountedBeam, blow: Blow) -> WindTorque | None:
    if blow.pressure is None:
        return None
    axis = mounted.beam.boom_middle
    return frame_torque(strung=mounted.strung, pressure=blow.force, axis=axis, ice=blow.coat)


def _name(beam: Beam, what: str, blow: Blow) -> str:
    return f"{beam.name}: {what} {'in wind' if blow.coat is None else 'with ice and its wind'}"


def _spreader_line(
    beam: Beam, frame: Frame, spreader: Spreader, blow: Blow, trouble: Value, findings: Findings
) -> None:
    reason: Value = trouble
    if not _pulls_known(beam, *beam.carried):
        reason = reason or _NO_PULL
    if not spreader.strength:
        reason = reason or "the bending strength of the spreaders is not given"
    if reason or blow.pressure is None:
        findings.skip(_name(beam, "spreaders", blow), reason or blow.missing)
        return
    bend = partial(
        spreader_bending,
        beam=beam,
        frame=frame,
        spreader=spreader,
        pressure=blow.force,
        ice=blow.coat,
    )
    bent = max((bend(point=each) for each in spreader_points(frame)), key=attrgetter("stress"))
    number = bent.stresses.index(bent.stress) + 1
    findings.hold(
        name=_name(beam, "spreaders", blow),
        demand=bent.stress / 1e6,
        capacity=spreader.strength / SPREADER_FACTOR / 1e6,
        unit="MPa",
        basis=phrase(
            "{pressure}; maker's strength over {factor} (common practice); weakest {which}",
            pressure=blow.pressure.text,
            factor=f"{SPREADER_FACTOR:g}",
            which=f"section {number} of the spreader to {bent.name}",
        ),
        change="take thicker spreaders, let the inner tubes reach further out, or slacken the "
        "wires",
    )


def _wire_line(beam: Beam, frame: Frame, blow: Blow, findings: Findings) -> WirePull | None:
    """Write the line of the hardest strained wire; None when it is not known."""
    name, material = _name(beam, "wires", blow), beam.material
    reason: Value = ""
    if frame.pull is None:
        reason = _NO_PULL
    elif blow.pressure is None:
        reason = blow.missing
    elif not (material.ultimate_strength > 0.0 and material.elastic_modulus > 0.0):
        reason = f"strength or stiffness of {material.name} is not known"
    if reason or frame.pull is None or blow.pressure is None:
        findings.skip(name, reason)
        return None
    hard = hardest_pull(beam=beam, still=frame.pull, pressure=blow.force, ice=blow.coat)
    findings.hold(
        name=name,
        demand=hard.tension,
        capacity=material.ultimate_strength * (pi / 4.0 * hard.diameter**2) / WIRE_FACTOR,
        unit="N",
        basis=phrase(
            "{pressure}; breaking strength of soft {metal} over {factor} (common practice); "
            "corners taken as fixed; longest piece {span}",
            pressure=blow.pressure.text,
            metal=material.name,
            factor=f"{WIRE_FACTOR:g}",
            span=Quantity(hard.span, "span"),
        ),
        change="slacken the wires, or take thicker ones",
    )
    return hard


def _rope_line(
    beam: Beam, frame: Frame, hard: WirePull | None, blow: Blow, findings: Findings
) -> None:
    name = _name(beam, "ropes", blow)
    if hard is None or blow.pressure is None:
        findings.skip(name, "the hardest pull of the wires is not known")
        return
    rope = frame.rope_strength
    findings.hold(
        name=name,
        demand=rope_pull(beam=beam, frame=frame, hard=hard.tension),
        capacity=None if rope is None else rope / ROPE_FACTOR,
        unit="N",
        basis=phrase(
            "{pressure}; breaking strength of the ropes over {factor} (common practice)",
            pressure=blow.pressure.text,
            factor=f"{ROPE_FACTOR:g}",
        ),
        change="take stronger ropes, or slacken the wires",
        missing=settled(
            "the breaking strength of the ropes is not given", "beam.frame", "rope_strength"
        ),
    )


def _tied_line(beam: Beam, frame: Frame, findings: Findings) -> None:
    """Take trees, roofs and poles from whoever looked at them; nobody's word leaves them open."""
    if frame.said_by:
        findings.note(
            "ropes-agreed",
            f"{beam.name}: that what the ropes are tied to holds their pull, the high "
            f"points that no tower or tube carries among them, is taken from: {frame.said_by}.",
        )
        return
    findings.skip(
        f"{beam.name}: what the ropes are tied to",
        "nobody says that trees, roof or poles hold what the ropes pull",
        change=settled("enter who looked at it, and when", "beam.frame", "said_by"),
    )


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
    findings.note(
        "frame-droop",
        f"{beam.name}: of the spreaders, that to {name} {way} most in still air. Currents "
        "and SWR are computed for the shape that hangs.",
        value=phrase("{droop}", droop=Quantity(abs(most), "sawn length")),
    )
    if frame.pull is not None:
        still = hardest_pull(beam=beam, still=frame.pull)
        findings.note(
            "wire-sag",
            f"{beam.name}: the longest piece of wire hangs through between its corners.",
            value=phrase("{sag}", sag=Quantity(still.sag, "tube size")),
        )
