"""Ledger lines for the support tube, guys and anchors, with wind that has no factor on it."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Value, phrase
from boomwright.structure.checks.brackets import check_brackets
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.columns import check_braces, check_tube_column, stouter
from boomwright.structure.checks.findings import NO_YIELD, Findings
from boomwright.structure.checks.margins import margin
from boomwright.structure.faults import StructureInputError
from boomwright.structure.ground.anchors import (
    ANCHOR_FACTOR,
    AnchorPull,
    anchor_pulls,
    block_slide,
    block_uplift,
)
from boomwright.structure.report import BeamReport, GuyReport
from boomwright.structure.support.columns import wall_text
from boomwright.structure.support.guy_solver import GuyedState, GuySolverError
from boomwright.structure.support.guys import INITIAL_SHARE, GuyLevel, untensioned
from boomwright.structure.support.tube_support import (
    TubeBending,
    TubularSupport,
    bracketed_tube,
    free_tube,
    guyed_tube,
)
from boomwright.structure.wording import force, span


def check_tube(
    *, tube: TubularSupport, beams: Sequence[BeamReport], case: LoadCase, findings: Findings
) -> TubeBending | None:
    """Bend a tubular support, alone or guyed, and write its ledger line; None when not checked."""
    name, nominal = f"support tube: bending{case.suffix}", case.site.nominal
    weight = case.carried_weight(beams=beams)
    reason = case.missing or _tube_trouble(tube, case)
    if not reason and weight is None:
        reason = "the weight of a beam on it is not known"
    if reason or nominal is None or weight is None:
        findings.skip(name, reason)
        return None
    try:
        bent = _bend(tube, beams, case, weight)
    except (StructureInputError, GuySolverError) as error:
        findings.skip(name, error.said)
        return None
    if tube.brackets is not None:
        check_brackets(brackets=tube.brackets, bent=bent, case=case, findings=findings)
    if tube.yield_strength is None:
        findings.skip(name, NO_YIELD)
        return bent
    limit = case.site.limit(
        yield_strength=tube.yield_strength,
        steel=tube.steel,
        ultimate=tube.ultimate_strength,
        known=tube.yield_known,
        below=True,
    )
    findings.add(
        margin(
            name=name,
            demand=bent.stress / 1e6,
            capacity=limit.value / 1e6,
            unit="MPa",
            basis=phrase(
                "{basis}; {rule}; moment grown x {amplification} by 1.6 times the weight "
                "on 0.8 of the stiffness{wall_text}", basis=case.basis(height=tube.height),
                rule=limit.rule, amplification=f"{bent.amplification:.2f}",
                wall_text=wall_text(tube.wall_share),
            ),
            change=stouter(tube),
            load_kind=nominal.kind,
            limit_kind=limit.kind,
        )
    )  # fmt: skip
    check_tube_column(tube=tube, bent=bent, case=case, findings=findings)
    return bent


def _tube_trouble(tube: TubularSupport, case: LoadCase) -> Value:
    levels = case.site.inputs.guying
    if tube.brackets is not None:
        both = "guys and house brackets hold it together: how they share is for an engineer"
        return both if levels else ""
    if not levels and not tube.fixed:
        return "a tube that can tilt at its foot stands only with guys"
    return untensioned(levels)


def _bend(
    tube: TubularSupport,
    beams: Sequence[BeamReport],
    case: LoadCase,
    weight: float,
) -> TubeBending:
    def line_load(height: float) -> float:
        return case.line_load(diameter=tube.diameter, height=height)

    levels = case.site.inputs.guying
    coat = case.coat(height=tube.height)
    ice = 0.0
    if coat is not None:
        ice = coat.mass_per_length(diameter=tube.diameter) * tube.length * STANDARD_GRAVITY
    loads = case.side_loads(beams=beams)
    if tube.brackets is not None:
        return bracketed_tube(
            tube=tube,
            brackets=tube.brackets,
            loads=loads,
            line_load=line_load,
            weight_on_top=weight,
            ice_weight=ice,
        )
    if not levels:
        return free_tube(
            tube=tube, loads=loads, line_load=line_load, weight_on_top=weight, ice_weight=ice
        )
    return guyed_tube(
        tube=tube,
        levels=levels,
        loads=loads,
        line_load=line_load,
        weight_on_top=weight,
        ice_weight=ice,
        guy_loads=tuple(case.guy_load(level=level) for level in levels),
    )


def check_guys(
    *,
    states: tuple[GuyedState, ...],
    below: Sequence[float],
    buckles: bool,
    case: LoadCase,
    findings: Findings,
) -> GuyReport | None:
    """Hold guy tensions and anchor pulls against their strengths; None without equilibria.

    Args:
        below: largest force down the support just below each ring [N] (n_levels,)
    """
    levels = case.site.inputs.guying
    if not states or case.missing:
        return None
    highest = tuple(
        max(max(state.tensions[number]) for state in states) for number in range(len(levels))
    )
    factor, words = case.site.guy_factor
    for level, tension in zip(levels, highest, strict=True):
        strand = level.strand
        known = phrase("; stiffness {known}", known=strand.known) if strand.known else ""
        findings.add(
            margin(
                name=level.check(f"tension{case.suffix}"),
                demand=tension,
                capacity=strand.breaking_strength / factor,
                unit="N",
                basis=phrase(
                    "{guy_basis}; {strand}, breaking / {words}{known}",
                    guy_basis=_guy_basis(case, level), strand=strand.name, words=words,
                    known=known,
                ),
                change="take heavier strand or set the anchors further out",
                part=level.part,
            )
        )  # fmt: skip
        if not case.iced:
            _guy_doubts(level, findings)
    check_braces(levels=levels, tensions=highest, below=below, case=case, findings=findings)
    if any(state.slack for state in states):
        findings.doubt(
            "slack-guy-iced" if case.iced else "slack-guy",
            f"A lee guy goes slack in some wind directions{case.suffix}; the figures allow for "
            "it. More initial tension within the tower's rating keeps it taut.",
            value=f"{max(state.slack for state in states)} slack at once",
        )
    pulls = anchor_pulls(levels=levels, states=states)
    for pull in pulls:
        _anchor_lines(pull, case, findings)
    return GuyReport(
        states=states,
        highest_tensions=highest,
        compression=max(state.compression for state in states),
        anchors=pulls,
        buckles=buckles,
    )


def _guy_basis(case: LoadCase, level: GuyLevel) -> Value:
    return phrase(
        "{basis}; every wind direction by 10 deg; guys hang as cables with their "
        "own weight and wind",
        basis=case.basis(height=level.height / 2.0),
    )


def _guy_doubts(level: GuyLevel, findings: Findings) -> None:
    share = (level.initial_tension or 0.0) / level.strand.breaking_strength
    low, _, high = INITIAL_SHARE
    if not low <= share <= high:
        findings.doubt(
            "initial-tension",
            phrase(
                "The guys at {height} are set outside the usual range at 15 C.",
                height=span(level.height),
            ),
            value=f"{share * 100:.0f} % of breaking",
            limit=f"{low * 100:.0f} to {high * 100:.0f} % (common practice)",
        )


def _anchor_lines(pull: AnchorPull, case: LoadCase, findings: Findings) -> None:
    block, soil = case.site.inputs.anchor, case.site.inputs.soil
    uplift, slide = (
        phrase(
            "anchor at {radius}: {what}{suffix}", radius=span(pull.radius), what=what,
            suffix=case.suffix,
        )
        for what in ("uplift", "slide")
    )  # fmt: skip
    if block is None or soil is None:
        for name, pulled in ((uplift, pull.uplift), (slide, pull.slide)):
            findings.skip(
                name,
                phrase(
                    "anchor block or soil is not given (it is pulled with {pull}); "
                    "screw anchors count only with a torque record",
                    pull=force(pulled),
                ),
            )
        return
    highest = max(case.site.inputs.guying, key=lambda level: level.height)
    basis, change = _guy_basis(case, highest), "make the block larger or bury it deeper"
    findings.add(
        margin(
            name=uplift,
            demand=ANCHOR_FACTOR * pull.uplift,
            capacity=block_uplift(block=block, soil=soil),
            unit="N",
            basis=phrase(
                "{basis}; factor {anchor_factor}; block and soil straight above, no wedge",
                basis=basis,
                anchor_factor=f"{ANCHOR_FACTOR:g}",
            ),
            change=change,
        )
    )
    findings.add(
        margin(
            name=slide,
            demand=pull.slide,
            capacity=block_slide(block=block, soil=soil),
            unit="N",
            basis=phrase(
                "{basis}; allowable lateral bearing of {soil}", basis=basis, soil=soil.name
            ),
            change=change,
            missing=f"{soil.name} has no lateral value",
        )
    )
