"""Ledger lines for guys, as what holds and braces the support, and for their anchors."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Source, Value, phrase
from boomwright.base.records import replace
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import Findings
from boomwright.structure.checks.sections import HeldSupport
from boomwright.structure.ground.anchors import (
    ANCHOR_FACTOR,
    AnchorPull,
    anchor_pulls,
    block_slide,
    block_uplift,
)
from boomwright.structure.report import GuyReport
from boomwright.structure.support.columns import brace_force, brace_stiffness
from boomwright.structure.support.guys import INITIAL_SHARE, GuyLevel, ring_stiffness, tension_worst
from boomwright.structure.wording import force, large_force, span

_HEAVIER: Final = "take heavier strand or set the anchors further out"


def check_guys(*, held: HeldSupport, case: LoadCase, findings: Findings) -> GuyReport | None:
    """Hold guy tensions and anchor pulls against their strengths; None without equilibria."""
    states = held.states
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
        findings.hold(
            name=level.check(f"tension{case.suffix}"),
            demand=tension,
            capacity=strand.breaking_strength / factor,
            unit="N",
            basis=phrase(
                "{guy_basis}; {strand}, breaking / {words}{known}",
                guy_basis=_guy_basis(case, level), strand=strand.name, words=words, known=known,
            ),
            change=_HEAVIER,
            part=level.part,
        )  # fmt: skip
        if not case.iced:
            _guy_doubts(level, findings)
    _brace_lines(levels, highest, held.below, case, findings)
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
        buckles=held.buckles,
    )


def _brace_lines(
    levels: Sequence[GuyLevel],
    tensions: Sequence[float],
    below: Sequence[float],
    case: LoadCase,
    findings: Findings,
) -> None:
    """Hold every ring of guys against what makes it a support of the column it holds.

    Args:
        tensions: highest tension of each ring in wind [N] (n_levels,)
        below: largest force down the support just below each ring [N] (n_levels,)
    """
    factor, words = case.site.guy_factor
    places = sorted({0.0, *(level.height for level in levels)})
    for level, tension, axial in zip(levels, tensions, below, strict=True):
        gap = min(abs(level.height - place) for place in places if place != level.height)
        basis, pressed = case.basis(height=level.height / 2.0), large_force(axial)
        weight = case.guy_weight(level=level)
        strand = replace(level.strand, mass_per_length=weight / STANDARD_GRAVITY)
        braced = brace_force(axial=axial)
        findings.hold(
            name=level.check(f"strength as a brace{case.suffix}"),
            demand=tension + tension_worst(load=braced, angle=level.angle, count=level.count),
            capacity=strand.breaking_strength / factor,
            unit="N",
            basis=phrase(
                "{basis}; tension in wind and 1 % of {kilonewtons} down the support (AISC "
                "360-22, appendix 6.2); {strand}, breaking / {words}", basis=basis,
                kilonewtons=pressed, strand=strand.name, words=words,
            ),
            change=_HEAVIER,
            part=level.part,
        )  # fmt: skip
        findings.hold(
            name=level.check(f"stiffness as a brace{case.suffix}"),
            demand=brace_stiffness(axial=axial, length=gap) / 1e3,
            capacity=ring_stiffness(level=replace(level, strand=strand)) / 1e3,
            unit="kN/m",
            basis=phrase(
                "{basis}; 16 times {kilonewtons} over {span} to the next held point (AISC "
                "360-22, appendix 6.2); guys at their initial tension, with sag{source}",
                basis=basis, kilonewtons=pressed, span=span(gap), source=Source("ernst-modulus"),
            ),
            change=f"tighten the guys within their range, {_HEAVIER}",
        )  # fmt: skip


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
            reason = phrase(
                "anchor block or soil is not given (it is pulled with {pull}); "
                "screw anchors count only with a torque record",
                pull=force(pulled),
            )
            findings.skip(name, reason)
        return
    highest = max(case.site.inputs.guying, key=lambda level: level.height)
    basis = _guy_basis(case, highest)
    hold = partial(findings.hold, unit="N", change="make the block larger or bury it deeper")
    hold(
        name=uplift,
        demand=ANCHOR_FACTOR * pull.uplift,
        capacity=block_uplift(block=block, soil=soil),
        basis=phrase(
            "{basis}; factor {anchor_factor}; block and soil straight above, no wedge",
            basis=basis,
            anchor_factor=f"{ANCHOR_FACTOR:g}",
        ),
    )
    hold(
        name=slide,
        demand=pull.slide,
        capacity=block_slide(block=block, soil=soil),
        basis=phrase("{basis}; allowable lateral bearing of {soil}", basis=basis, soil=soil.name),
        missing=f"{soil.name} has no lateral value",
    )
