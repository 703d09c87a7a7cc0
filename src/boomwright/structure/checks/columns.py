"""Ledger lines for tubes in compression, and for guys as braces of what they hold."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import Source, Value, phrase
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import Findings
from boomwright.structure.checks.margins import margin
from boomwright.structure.faults import StructureInputError
from boomwright.structure.support.columns import (
    MOST_SLENDER,
    TubeStrength,
    brace_force,
    brace_stiffness,
    wall_text,
)
from boomwright.structure.support.guys import GuyLevel, ring_stiffness, tension_worst
from boomwright.structure.support.tube_support import HeldLength, TubeBending, TubularSupport
from boomwright.structure.wording import large_force, span

#: share of a column's strength from which it counts as a column first {aisc-360-22, H1.1}
_MOSTLY_COLUMN = 0.2


def check_tube_column(
    *, tube: TubularSupport, bent: TubeBending, case: LoadCase, findings: Findings
) -> None:
    """Hold a support tube against its column strength, alone and beside the bending."""
    column = f"support tube: column{case.suffix}"
    both = f"support tube: column and bending together{case.suffix}"
    if tube.yield_strength is None:  # said once, with its bending
        return
    try:
        strengths = [
            case.site.column(
                shape=tube.shape,
                column_length=length.column_length,
                yield_strength=tube.yield_strength,
                elastic_modulus=tube.elastic_modulus,
                steel=tube.steel,
                below=True,
            )
            for length in bent.lengths
        ]
    except StructureInputError as error:
        findings.skip(column, error.said)
        return
    pairs = list(zip(bent.lengths, strengths, strict=True))
    length, strength = max(pairs, key=lambda pair: pair[0].axial / pair[1].axial)
    change = stouter(tube)
    findings.add(
        margin(
            name=column,
            demand=length.axial,
            capacity=strength.axial,
            unit="N",
            basis=phrase(
                "{basis}; {where}; {rule}; weight and the pull of all guys in wind{wall_text}",
                basis=case.basis(height=tube.height), where=_where(length), rule=strength.rule,
                wall_text=wall_text(tube.wall_share),
            ),
            change=change,
            load_kind=case.site.service_kind,
            limit_kind=strength.kind,
        )
    )  # fmt: skip
    _slender(length, strength, case, findings)
    used = [each.used(axial=held.axial, moment=held.moment) for held, each in pairs]
    worst = max(range(len(pairs)), key=used.__getitem__)
    length, strength = pairs[worst]
    findings.add(
        margin(
            name=both,
            demand=used[worst],
            capacity=1.0,
            unit="",
            basis=phrase(
                "{basis}; {where}; {rule}; bending strength and sum of both by the same; "
                "moments grown by 1.6 times the weight on 0.8 of the stiffness{wall_text}",
                basis=case.basis(height=tube.height), where=_where(length), rule=strength.rule,
                wall_text=wall_text(tube.wall_share),
            ),
            change=change,
            load_kind=case.site.service_kind,
            limit_kind=strength.kind,
        )
    )  # fmt: skip


def stouter(tube: TubularSupport) -> str:
    """What helps a support tube that bends or buckles."""
    if tube.brackets is None:
        return "guy it at more heights, shorten it, or take a larger or thicker tube"
    return "set the brackets higher and further apart, or take a shorter, larger or thicker tube"


def _where(length: HeldLength) -> Value:
    return phrase(
        "from {low} to {high}, column length {column_length}", low=span(length.low),
        high=span(length.high), column_length=span(length.column_length),
    )  # fmt: skip


def _slender(
    length: HeldLength, strength: TubeStrength, case: LoadCase, findings: Findings
) -> None:
    if case.iced or strength.slenderness <= MOST_SLENDER:
        return
    if length.axial >= _MOSTLY_COLUMN * strength.axial:
        findings.doubt(
            "slender-column",
            phrase(
                "The support tube is very slender {where}: a little lean or a dent costs "
                "it much of its strength.",
                where=_where(length),
            ),
            value=f"slenderness {strength.slenderness:.0f}",
            limit=f"{MOST_SLENDER:.0f}",
        )


def check_braces(
    *,
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
        gaps = [abs(level.height - place) for place in places if place != level.height]
        basis = case.basis(height=level.height / 2.0)
        load = case.guy_load(level=level)
        strand = replace(level.strand, mass_per_length=load.weight_per_length / STANDARD_GRAVITY)
        findings.add(
            margin(
                name=level.check(f"strength as a brace{case.suffix}"),
                demand=tension
                + tension_worst(
                    load=brace_force(axial=axial), angle=level.angle, count=level.count
                ),
                capacity=strand.breaking_strength / factor,
                unit="N",
                basis=phrase(
                    "{basis}; tension in wind and 1 % of {kilonewtons} down the support (AISC "
                    "360-22, appendix 6.2); {strand}, breaking / {words}", basis=basis,
                    kilonewtons=large_force(axial), strand=strand.name, words=words,
                ),
                change="take heavier strand or set the anchors further out",
                part=level.part,
            )
        )  # fmt: skip
        findings.add(
            margin(
                name=level.check(f"stiffness as a brace{case.suffix}"),
                demand=brace_stiffness(axial=axial, length=min(gaps)) / 1e3,
                capacity=ring_stiffness(level=replace(level, strand=strand)) / 1e3,
                unit="kN/m",
                basis=phrase(
                    "{basis}; 16 times {kilonewtons} over {span} to the next held point (AISC "
                    "360-22, appendix 6.2); guys at their initial tension, with sag{source}",
                    basis=basis, kilonewtons=large_force(axial), span=span(min(gaps)),
                    source=Source("ernst-modulus"),
                ),
                change="tighten the guys within their range, take heavier strand or set the "
                "anchors further out",
            )
        )  # fmt: skip
