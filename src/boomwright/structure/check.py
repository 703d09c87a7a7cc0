"""The one entry of the room: everything the owner gave, checked and put into a ledger."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.structure.check_base import check_base
from boomwright.structure.check_beams import check_beam
from boomwright.structure.check_mast import check_mast, total_torque
from boomwright.structure.check_rotator import check_rotator
from boomwright.structure.check_support import check_guyed_tower, check_guys, check_tube
from boomwright.structure.check_tower import check_tower, check_tower_base
from boomwright.structure.findings import Findings, SiteLoads, site_loads
from boomwright.structure.guy_solver import GuyedState
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.margins import worst_first
from boomwright.structure.mast import MastBending
from boomwright.structure.reminders import CAUTIONS, REMINDERS
from boomwright.structure.report import BeamReport, GuyReport, StructureReport
from boomwright.structure.rotator import RotatorDemand
from boomwright.structure.tower import RatedArea
from boomwright.structure.tube_support import TubeBending


@dataclass(frozen=True, slots=True, kw_only=True)
class _Support:
    mast: MastBending | None = None
    rotator: RotatorDemand | None = None
    tower_area: RatedArea | None = None
    tube: TubeBending | None = None
    guys: GuyReport | None = None


def check_structure(*, inputs: StructureInputs) -> StructureReport:
    """Check boom, elements, mast, rotator, tower, guys and base as far as they are known.

    Whatever is missing becomes a line ``not checked, because ...`` and never a pass.

    Parameters
    ----------
    inputs
        what the owner knows [-]

    Returns
    -------
    StructureReport
        results, ledger worst first, notices, cautions and reminders [-]
    """
    findings = Findings()
    site = site_loads(inputs=inputs)
    _site_notices(site, findings)
    if not inputs.beams:
        findings.skip("beam: strength", "no beam is given")
    found = [check_beam(mounted=each, site=site, findings=findings) for each in inputs.beams]
    beams = tuple(report for report in found if report is not None)
    gap = _unknown_area(inputs=inputs, known=len(beams))
    _iced_support(site, findings)
    support = _Support()
    if gap:
        _skip_support(inputs, gap, findings)
    else:
        support = _check_support(beams, site, findings)
    base = check_base(
        beams=beams, tube=support.tube, guys=support.guys, gap=gap, site=site, findings=findings
    )
    return StructureReport(
        inputs=inputs,
        basis=site.missing if site.member is None else site.member.text,
        beams=beams,
        mast=support.mast,
        rotator=support.rotator,
        tower_area=support.tower_area,
        tube=support.tube,
        guys=support.guys,
        base=base,
        ledger=worst_first(findings.lines),
        notices=(*findings.notices, *_sing(beams)),
        cautions=CAUTIONS,
        reminders=REMINDERS,
    )


def _unknown_area(*, inputs: StructureInputs, known: int) -> str:
    # An area that is left out would make everything below look better than it is.
    if known < len(inputs.beams):
        return "the wind area of a beam on it is not known"
    for each in inputs.beams:
        if each.boom is None:
            return f"the boom of {each.beam.name} is not given, so its wind area is not known"
    return ""


def _skip_support(inputs: StructureInputs, gap: str, findings: Findings) -> None:
    names = [
        "mast: bending at the top bearing",
        "rotator: holding torque",
        "tower: antenna area against the maker's rating"
        if inputs.tube is None
        else "support tube: bending",
    ]
    if inputs.guying or (inputs.tower is not None and inputs.tower.kind == "guyed"):
        names.append("guys: tension")
    for name in names:
        findings.skip(name, gap)


def _check_support(beams: tuple[BeamReport, ...], site: SiteLoads, findings: Findings) -> _Support:
    inputs = site.inputs
    offsets = [0.0 if each.boom is None else each.boom.offset for each in inputs.beams]
    torque = total_torque(beams=beams, offsets=offsets)
    mast = check_mast(beams=beams, torque=torque, site=site, findings=findings)
    rotator = check_rotator(beams=beams, torque=torque, site=site, findings=findings)
    tube, tower_area = None, None
    states: tuple[GuyedState, ...] = ()
    if inputs.tube is not None:
        tube = check_tube(tube=inputs.tube, beams=beams, site=site, findings=findings)
        states = () if tube is None else tube.states
    elif inputs.tower is not None:
        tower_area = check_tower(tower=inputs.tower, beams=beams, site=site, findings=findings)
        if inputs.guying:
            states = check_guyed_tower(
                tower=inputs.tower, beams=beams, site=site, findings=findings
            )
    else:
        findings.skip("support: strength", "neither a tower nor a support tube is given")
    guys = check_guys(states=states, site=site, findings=findings)
    if inputs.tower is not None:
        check_tower_base(tower=inputs.tower, beams=beams, guys=guys, site=site, findings=findings)
    return _Support(mast=mast, rotator=rotator, tower_area=tower_area, tube=tube, guys=guys)


def _iced_support(site: SiteLoads, findings: Findings) -> None:
    inputs = site.inputs
    if inputs.ice is None or inputs.ice.thickness == 0.0:
        return
    findings.notices.append(
        Notice(
            code="structure.ice-cases",
            text="Ice is looked at alone and with its own gust, on elements, boom, mast and the "
            "load on the rotator. The code's further combinations of ice, weight and wind are "
            "not formed.",
        )
    )
    reason = "iced wind areas of {} are for its maker or an engineer: ask them"
    if inputs.tower is not None:
        findings.skip("iced tower in wind", reason.format("the lattice"))
    if inputs.tube is not None:
        findings.skip("iced support tube in wind", reason.format("tube and fittings"))
    if inputs.guying:
        findings.skip("iced guys in wind", reason.format("iced strand"))
    if inputs.base is not None:
        findings.skip("iced footing in wind", "the iced support above it is not checked")


def _site_notices(site: SiteLoads, findings: Findings) -> None:
    wind = site.inputs.wind
    if wind is None:
        return
    if wind.topography is None:
        findings.doubt(
            "topography",
            "Nobody said whether a hill or bluff is near; flat ground is taken. Close to a crest "
            "the pressure can more than double.",
        )
    if wind.kind == "ultimate" and site.nominal is not None:
        findings.notices.append(
            Notice(
                code="structure.nominal-from-ultimate",
                text="The ultimate speed was turned into a nominal one by the square root of 0.6 "
                "(from memory) wherever allowable stresses or footing factors are used.",
                value=f"{site.nominal.speed.gust:.1f} m/s nominal from {wind.speed.gust:.1f} m/s",
                source="ibc-1609",
            )
        )
    for code, text in (
        (
            "factors-from-memory",
            "Directionality and some exposure floors are from memory: hold "
            "them against the edition named before they count.",
        ),
        (
            "no-shelter",
            "No element shelters another, and the wind is taken square to the worst "
            "direction of each beam at once.",
        ),
    ):
        findings.notices.append(Notice(code=f"structure.{code}", text=text))


def _sing(beams: tuple[BeamReport, ...]) -> tuple[Notice, ...]:
    notices = []
    for beam in beams:
        winds = [mode.critical_wind for each in beam.elements for mode in each.modes[:6]]
        if winds:
            notices.append(
                Notice(
                    code="structure.element-vibration",
                    text=f"{beam.name}: light winds can make the elements sing; the buzz is in "
                    "the higher modes. See the damping list.",
                    value=f"{min(winds):.1f} to {max(winds):.1f} m/s",
                    source="blevins-strouhal",
                )
            )
    return tuple(notices)
