"""The one entry of the room: everything the owner gave, checked and put into a ledger."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from boomwright.base import Notice
from boomwright.base.quantity import Source, cited, listed, phrase, settled
from boomwright.base.records import dataclass, replace
from boomwright.structure.checks.base import check_base
from boomwright.structure.checks.beams import check_beam
from boomwright.structure.checks.cases import LoadCase, load_cases
from boomwright.structure.checks.clearance import check_clearance
from boomwright.structure.checks.findings import Findings, SiteLoads, site_loads
from boomwright.structure.checks.frame import frame_unsaid
from boomwright.structure.checks.margins import Margin, worst_first
from boomwright.structure.checks.mast import check_mast, offsets_of, total_torque
from boomwright.structure.checks.ring import check_rings, off_rings
from boomwright.structure.checks.rotator import check_rotator, none_turns
from boomwright.structure.checks.sections import HeldSupport, check_held_tower
from boomwright.structure.checks.support import check_guys, check_tube
from boomwright.structure.checks.tower import check_tower, check_tower_base
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.memory import FROM_MEMORY, recalled_keys
from boomwright.structure.reminders import CAUTIONS, LATTICE_CAUTION, REMINDERS
from boomwright.structure.report import (
    BaseReport,
    BeamReport,
    GuyReport,
    IcedReport,
    StructureReport,
)
from boomwright.structure.support.held_beam import SupportCourse
from boomwright.structure.support.mast import MastBending
from boomwright.structure.support.rotator import RotatorDemand
from boomwright.structure.support.tower_rating import RatedArea
from boomwright.structure.support.tube_support import TubeBending
from boomwright.structure.weather.en_wind import EnWind
from boomwright.structure.wording import speed, thickness


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """What stands below the beams in one case of wind."""

    tower_area: RatedArea | None = None
    tube: TubeBending | None = None
    guys: GuyReport | None = None
    base: BaseReport | None = None
    tower_course: SupportCourse | None = None


# Every sheet and command asks for the verdict; most edits change nothing that bears a load.
@lru_cache(maxsize=8)
def check_structure(*, inputs: StructureInputs) -> StructureReport:
    """Check boom, elements, mast, rotator, tower, guys and base as far as they are known.

    Whatever is missing becomes a line ``not checked, because ...`` and never a pass.
    """
    findings = Findings()
    site = site_loads(inputs=inputs)
    _site_notices(site, findings)
    if not inputs.beams:
        findings.skip("beam: strength", "no beam is given")
    found = [check_beam(mounted=each, site=site, findings=findings) for each in inputs.beams]
    check_clearance(beams=found, site=site, findings=findings)
    beams = tuple(report for report in found if report is not None)
    alone = _stands_by_itself(inputs)
    mast, rotator = (None, None) if alone else _check_mast_and_rotator(found, site, findings)
    check_rings(beams=found, site=site, findings=findings)
    gap = _unknown_area(inputs=inputs, known=len(beams))
    if gap:
        _skip_support(inputs, gap, findings)
    cases = () if alone else load_cases(site=site, beams=beams)
    stands = [_check_case(beams, gap, case, findings) for case in cases]
    stand = stands[0] if stands else _Standing()
    ice = _ice_notice(cases)
    ledger = worst_first(findings.lines)
    return StructureReport(
        inputs=inputs,
        basis=site.missing if site.member is None else site.member.text,
        below="" if site.nominal is None else site.nominal.text,
        beams=beams,
        mast=mast,
        rotator=rotator,
        tower_area=stand.tower_area,
        tube=stand.tube,
        guys=stand.guys,
        base=stand.base,
        tower_course=stand.tower_course,
        iced=_iced_report(cases, stands),
        ledger=ledger,
        notices=(*findings.notices, *ice, *_sing(beams), *_recalled(ledger)),
        cautions=CAUTIONS if inputs.tower is None else (*CAUTIONS, LATTICE_CAUTION),
        reminders=REMINDERS,
        gusts=cases[0].gusts if cases and site.nominal is not None else None,
    )


def _stands_by_itself(inputs: StructureInputs) -> bool:
    """Whether nothing but wire is given, which hangs in ropes: from trees, or upright in a lawn.

    What the ropes are tied to, the high points among them, is a check of its own.
    """
    given = (inputs.mast, inputs.rotator, inputs.tower, inputs.tube, inputs.base)
    if any(part is not None for part in given) or inputs.guying or not inputs.beams:
        return False
    frames = [each.beam.frame for each in inputs.beams]
    return all(frame is not None and frame.held for frame in frames)


def _check_mast_and_rotator(
    found: Sequence[BeamReport | None], site: SiteLoads, findings: Findings
) -> tuple[MastBending | None, RotatorDemand | None]:
    """Check what turns the beams that are on no ring, with what is known of those alone."""
    kept, site = off_rings(beams=found, site=site)
    beams = tuple(report for report in kept if report is not None)
    gap = _unknown_area(inputs=site.inputs, known=len(beams))
    if gap:
        findings.skip("mast: bending at the top bearing", gap)
        findings.skip("rotator: holding torque", gap)
        return None, None
    if site.inputs.rings and not kept and site.inputs.mast is None and site.inputs.rotator is None:
        return None, None
    torque = total_torque(beams=beams, offsets=offsets_of(site))
    mast = None
    if site.inputs.mast is not None or not none_turns(beams):
        mast = check_mast(beams=beams, torque=torque, site=site, findings=findings)
    with findings.asked_of("maker of the rotator"):
        return mast, check_rotator(beams=beams, torque=torque, site=site, findings=findings)


def _unknown_area(*, inputs: StructureInputs, known: int) -> str:
    # An area that is left out would make everything below look better than it is.
    if known < len(inputs.beams):
        return "the wind area of a beam on it is not known"
    for each in inputs.beams:
        held = frame_unsaid(beam=each.beam, on_boom=each.boom is not None)
        if held:
            return f"{each.beam.name}: {held}"
        if each.boom is None and not each.beam.bent:
            return f"the boom of {each.beam.name} is not given, so its wind area is not known"
    return ""


def _skip_support(inputs: StructureInputs, gap: str, findings: Findings) -> None:
    names = [
        "tower: antenna area against the maker's rating"
        if inputs.tube is None
        else "support tube: bending",
    ]
    if inputs.guying or (inputs.tower is not None and inputs.tower.kind == "guyed"):
        names.append("guys: tension")
    for name in names:
        findings.skip(name, gap)


def _check_case(
    beams: tuple[BeamReport, ...], gap: str, case: LoadCase, findings: Findings
) -> _Standing:
    inputs = case.site.inputs
    if gap:
        base = check_base(beams=beams, tube=None, guys=None, gap=gap, case=case, findings=findings)
        return _Standing(base=base)
    tube, tower_area, held = None, None, HeldSupport()
    if inputs.tube is not None:
        tube = check_tube(tube=inputs.tube, beams=beams, case=case, findings=findings)
        if tube is not None:
            held = HeldSupport(states=tube.states, below=tube.below, buckles=tube.course is None)
    elif inputs.tower is not None:
        with findings.asked_of("maker of the tower"):
            tower_area = check_tower(tower=inputs.tower, beams=beams, case=case, findings=findings)
            held = check_held_tower(tower=inputs.tower, beams=beams, case=case, findings=findings)
    elif not case.iced:
        findings.skip("support: strength", "neither a tower nor a support tube is given")
    guys = check_guys(
        states=held.states, below=held.below, buckles=held.buckles, case=case, findings=findings
    )
    if inputs.tower is not None:
        with findings.asked_of("maker of the tower"):
            check_tower_base(
                tower=inputs.tower, beams=beams, guys=guys, case=case, findings=findings
            )
    base = check_base(beams=beams, tube=tube, guys=guys, gap="", case=case, findings=findings)
    return _Standing(
        tower_area=tower_area, tube=tube, guys=guys, base=base, tower_course=held.course
    )


def _top_of(case: LoadCase) -> float:
    return max((each.beam.height for each in case.site.inputs.beams), default=0.0)


def _iced_report(cases: Sequence[LoadCase], stands: Sequence[_Standing]) -> IcedReport | None:
    if len(cases) < 2 or cases[1].windless:
        return None
    stand = stands[1]
    return IcedReport(
        basis=cases[1].basis(height=_top_of(cases[1])),
        tower_area=stand.tower_area,
        tube=stand.tube,
        guys=stand.guys,
        base=stand.base,
        tower_course=stand.tower_course,
        gusts=cases[1].gusts,
    )


def _ice_notice(cases: Sequence[LoadCase]) -> tuple[Notice, ...]:
    if len(cases) < 2:
        return ()
    return (
        Notice(
            code="structure.ice-cases",
            text=phrase(
                "Ice is looked at alone and with its own gust: weight, weight of ice and wind on "
                "the iced areas, ice and its wind in full{full}. Allowable design may take 0.7 of "
                "both{share}; that share is not taken. Ice counts as weight where it presses "
                "down, not where it would hold a footing.",
                full=Source("tia-222-combinations"),
                share=Source("asce-7-ice-combinations"),
            ),
            source="tia-222-combinations",
        ),
    )


def _recalled(ledger: Sequence[Margin]) -> tuple[Notice, ...]:
    keys = recalled_keys(line.basis for line in ledger)
    if not keys:
        return ()
    told = listed([cited(FROM_MEMORY[key], key) for key in keys], between="; ")
    return (
        Notice(
            code="structure.from-memory",
            text=phrase(
                "Values from memory: {told}. Compare them with the edition named before you rely "
                "on a check that uses them.",
                told=told,
            ),
            severity="doubt",
        ),
    )


def _site_notices(site: SiteLoads, findings: Findings) -> None:
    wind = site.inputs.wind
    if wind is None:
        return
    _ice_doubt(site, findings)
    if wind.topography is None:
        findings.skip(
            "wind: hills and bluffs near",
            "nobody said whether a hill or bluff is near; flat ground is taken, and close to a "
            "crest the pressure can more than double",
            change=settled(
                "enter topography, or orography by EN 1991-1-4: 1 for flat ground",
                "site.wind_basis",
                "topography",
            ),
        )
    if wind.kind == "ultimate" and site.nominal is not None:
        findings.notices.append(
            Notice(
                code="structure.nominal-from-ultimate",
                text="The ultimate speed was turned into a nominal one by the square root of 0.6 "
                "wherever allowable stresses or footing factors are used.",
                value=phrase(
                    "{gust} nominal from {gust2}",
                    gust=speed(site.nominal.gust),
                    gust2=speed(wind.gust),
                ),
                source="ibc-nominal-speed",
            )
        )
    if isinstance(wind, EnWind):
        findings.notices.append(
            Notice(
                code="structure.national-annex",
                text="EN 1991-1-4 is used with its recommended values. The national annex may "
                "change the basic speed, the growth with height and the factors: enter what it "
                "gives, or the peak pressure from an engineer.",
                source="en-1991-1-4",
            )
        )
    findings.notices.append(
        Notice(
            code="structure.no-shelter",
            text="No element shelters another, and the wind is taken square to the worst "
            "direction of each beam at once.",
        )
    )


def _ice_doubt(site: SiteLoads, findings: Findings) -> None:
    """Say what both readings of the ice come to, while nobody said whether it is mapped."""
    ice = site.inputs.ice
    if ice is None or ice.thickness == 0.0 or ice.mapped is not None:
        return
    top = max((each.beam.height for each in site.inputs.beams), default=0.0)
    read = replace(site.inputs, ice=replace(ice, mapped=True))
    mapped = replace(site, inputs=read).coat(height=top)
    if mapped is not None:
        findings.doubt(
            "ice-mapped-unsaid",
            "Nobody said whether the ice thickness is read from a code map, which must still grow, "
            "or is the ice on the beam itself. The larger of both is taken.",
            value=phrase(
                "{thickness} at the top from a map, {thickness2} as entered",
                thickness=thickness(mapped.thickness),
                thickness2=thickness(ice.thickness),
            ),
        )


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
                    value=phrase(
                        "{speed} to {speed2}", speed=speed(min(winds)), speed2=speed(max(winds))
                    ),
                    source="blevins-strouhal",
                )
            )
    return tuple(notices)
