"""The one entry of the room: everything the owner gave, checked and put into a ledger."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from boomwright.base.quantity import Source, cited, listed, phrase, settled
from boomwright.base.records import replace
from boomwright.structure.checks.base import check_base
from boomwright.structure.checks.beams import check_beam
from boomwright.structure.checks.cases import LoadCase, load_cases
from boomwright.structure.checks.clearance import check_clearance
from boomwright.structure.checks.findings import Findings, SiteLoads, site_loads
from boomwright.structure.checks.frame import frame_unsaid
from boomwright.structure.checks.guys import check_guys
from boomwright.structure.checks.margins import Margin, worst_first
from boomwright.structure.checks.mast import check_mast, offsets_of, total_torque
from boomwright.structure.checks.rotator import check_rings, check_rotator, none_turns, off_rings
from boomwright.structure.checks.sections import HeldSupport, check_held_tower
from boomwright.structure.checks.support import check_tube
from boomwright.structure.checks.tower import check_tower, check_tower_base
from boomwright.structure.inputs import StructureInputs
from boomwright.structure.memory import FROM_MEMORY, recalled_keys
from boomwright.structure.reminders import CAUTIONS, LATTICE_CAUTION, REMINDERS
from boomwright.structure.report import BeamReport, StructureReport, SupportReport
from boomwright.structure.support.mast import MastBending
from boomwright.structure.support.rotator import RotatorDemand
from boomwright.structure.weather.en_wind import EnWind
from boomwright.structure.wording import speed, thickness


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
    gap = _unknown_area(inputs, beams)
    if gap:
        _skip_support(inputs, gap, findings)
    cases = () if alone else load_cases(site=site, beams=beams)
    stands = [_check_case(beams, gap, case, findings) for case in cases]
    stand = stands[0] if stands else SupportReport()
    if len(cases) > 1:
        _ice_note(findings)
    _sing(beams, findings)
    ledger = worst_first(findings.lines)
    _recalled(ledger, findings)
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
        iced=stands[1] if len(cases) > 1 and not cases[1].windless else None,
        ledger=ledger,
        notices=tuple(findings.notices),
        cautions=CAUTIONS if inputs.tower is None else (*CAUTIONS, LATTICE_CAUTION),
        reminders=REMINDERS,
        gusts=stand.gusts if site.nominal is not None else None,
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
    gap = _unknown_area(site.inputs, beams)
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


def _unknown_area(inputs: StructureInputs, known: Sequence[BeamReport]) -> str:
    # An area that is left out would make everything below look better than it is.
    if len(known) < len(inputs.beams):
        return "the wind area of a beam on it is not known"
    for each in inputs.beams:
        held = frame_unsaid(beam=each.beam, on_boom=each.boom is not None)
        if held:
            return f"{each.beam.name}: {held}"
        if each.boom is None and not each.beam.bent:
            return f"the boom of {each.beam.name} is not given, so its wind area is not known"
    return ""


def _skip_support(inputs: StructureInputs, gap: str, findings: Findings) -> None:
    area = "tower: antenna area against the maker's rating"
    findings.skip(area if inputs.tube is None else "support tube: bending", gap)
    if inputs.guying or (inputs.tower is not None and inputs.tower.kind == "guyed"):
        findings.skip("guys: tension", gap)


def _check_case(
    beams: tuple[BeamReport, ...], gap: str, case: LoadCase, findings: Findings
) -> SupportReport:
    inputs = case.site.inputs
    top = max((each.beam.height for each in inputs.beams), default=0.0)
    found = SupportReport(basis=case.basis(height=top) if case.iced else "", gusts=case.gusts)
    if not gap:
        found = _check_support(found, beams, case, findings)
    base = check_base(beams=beams, found=found, gap=gap, case=case, findings=findings)
    return replace(found, base=base)


def _check_support(
    found: SupportReport, beams: tuple[BeamReport, ...], case: LoadCase, findings: Findings
) -> SupportReport:
    inputs, held = case.site.inputs, HeldSupport()
    if inputs.tube is not None:
        tube = check_tube(tube=inputs.tube, beams=beams, case=case, findings=findings)
        found = replace(found, tube=tube)
        if tube is not None:
            held = HeldSupport(states=tube.states, below=tube.below, buckles=tube.course is None)
    elif inputs.tower is not None:
        with findings.asked_of("maker of the tower"):
            area = check_tower(tower=inputs.tower, beams=beams, case=case, findings=findings)
            held = check_held_tower(tower=inputs.tower, beams=beams, case=case, findings=findings)
        found = replace(found, tower_area=area, tower_course=held.course)
    elif not case.iced:
        findings.skip("support: strength", "neither a tower nor a support tube is given")
    guys = check_guys(held=held, case=case, findings=findings)
    if inputs.tower is not None:
        with findings.asked_of("maker of the tower"):
            check_tower_base(
                tower=inputs.tower, beams=beams, guys=guys, case=case, findings=findings
            )
    return replace(found, guys=guys)


def _ice_note(findings: Findings) -> None:
    findings.note(
        "ice-cases",
        phrase(
            "Ice is looked at alone and with its own gust: weight, weight of ice and wind on "
            "the iced areas, ice and its wind in full{full}. Allowable design may take 0.7 of "
            "both{share}; that share is not taken. Ice counts as weight where it presses "
            "down, not where it would hold a footing.",
            full=Source("tia-222-combinations"),
            share=Source("asce-7-ice-combinations"),
        ),
        source="tia-222-combinations",
    )


def _recalled(ledger: Sequence[Margin], findings: Findings) -> None:
    keys = recalled_keys(line.basis for line in ledger)
    if keys:
        told = listed([cited(FROM_MEMORY[key], key) for key in keys], between="; ")
        text = phrase(
            "Values from memory: {told}. Compare them with the edition named before you rely "
            "on a check that uses them.",
            told=told,
        )
        findings.doubt("from-memory", text)


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
        findings.note(
            "nominal-from-ultimate",
            "The ultimate speed was turned into a nominal one by the square root of 0.6 "
            "wherever allowable stresses or footing factors are used.",
            value=phrase(
                "{gust} nominal from {gust2}", gust=speed(site.nominal.gust), gust2=speed(wind.gust)
            ),
            source="ibc-nominal-speed",
        )
    if isinstance(wind, EnWind):
        findings.note(
            "national-annex",
            "EN 1991-1-4 is used with its recommended values. The national annex may "
            "change the basic speed, the growth with height and the factors: enter what it "
            "gives, or the peak pressure from an engineer.",
            source="en-1991-1-4",
        )
    findings.note(
        "no-shelter",
        "No element shelters another, and the wind is taken square to the worst "
        "direction of each beam at once.",
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


def _sing(beams: tuple[BeamReport, ...], findings: Findings) -> None:
    for beam in beams:
        winds = [mode.critical_wind for each in beam.elements for mode in each.modes[:6]]
        if winds:
            low, high = speed(min(winds)), speed(max(winds))
            findings.note(
                "element-vibration",
                f"{beam.name}: light winds can make the elements sing; the buzz is in "
                "the higher modes. See the damping list.",
                value=phrase("{speed} to {speed2}", speed=low, speed2=high),
                source="blevins-strouhal",
            )
