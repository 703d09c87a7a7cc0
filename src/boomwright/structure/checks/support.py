"""Ledger lines for the support tube and its house brackets, wind with no factor on it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Final

from boomwright.base import STANDARD_GRAVITY
from boomwright.base.quantity import InPlan, Value, phrase, settled
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import NO_YIELD, Findings
from boomwright.structure.faults import StructureInputError
from boomwright.structure.report import BeamReport
from boomwright.structure.support.columns import MOST_SLENDER, TubeStrength, wall_text
from boomwright.structure.support.guy_solver import GuySolverError
from boomwright.structure.support.guys import untensioned
from boomwright.structure.support.house_brackets import HouseBrackets
from boomwright.structure.support.tube_support import (
    HeldLength,
    TubeBending,
    TubularSupport,
    bracketed_tube,
    free_tube,
    guyed_tube,
)
from boomwright.structure.weather.ice import coat_mass
from boomwright.structure.wording import force, span

#: share of a column's strength from which it counts as a column first {aisc-360-22, H1.1}
_MOSTLY_COLUMN = 0.2
_BRACKETS: Final = "support.tube.brackets"


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
    hold = partial(findings.hold, change=_stouter(tube), load_kind=nominal.kind)
    limit = case.site.tube_limit(tube, yield_strength=tube.yield_strength, below=True)
    hold(
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
        limit_kind=limit.kind,
    )  # fmt: skip
    _column_lines(tube, tube.yield_strength, bent, case, findings)
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
    tube: TubularSupport, beams: Sequence[BeamReport], case: LoadCase, weight: float
) -> TubeBending:
    def line_load(height: float) -> float:
        return case.line_load(diameter=tube.diameter, height=height)

    levels, loads = case.site.inputs.guying, case.side_loads(beams=beams)
    ice = coat_mass(tube.diameter, case.coat(height=tube.height)) * tube.length * STANDARD_GRAVITY
    weights = {"weight_on_top": weight, "ice_weight": ice}
    if tube.brackets is not None:
        return bracketed_tube(
            tube=tube, brackets=tube.brackets, loads=loads, line_load=line_load, **weights
        )
    if not levels:
        return free_tube(tube=tube, loads=loads, line_load=line_load, **weights)
    guy_loads = tuple(case.guy_load(level=level) for level in levels)
    return guyed_tube(
        tube=tube, levels=levels, loads=loads, line_load=line_load, guy_loads=guy_loads, **weights
    )


def _column_lines(
    tube: TubularSupport,
    yield_strength: float,
    bent: TubeBending,
    case: LoadCase,
    findings: Findings,
) -> None:
    """Hold a support tube against its column strength, alone and beside the bending."""
    column = f"support tube: column{case.suffix}"
    strength_of = partial(case.site.column, tube, yield_strength=yield_strength, below=True)
    try:
        pairs = [(each, strength_of(column_length=each.column_length)) for each in bent.lengths]
    except StructureInputError as error:
        findings.skip(column, error.said)
        return
    hold = partial(findings.hold, change=_stouter(tube), load_kind=case.site.service_kind)
    basis = partial(
        phrase, basis=case.basis(height=tube.height), wall_text=wall_text(tube.wall_share)
    )
    length, strength = max(pairs, key=lambda pair: pair[0].axial / pair[1].axial)
    hold(
        name=column,
        demand=length.axial,
        capacity=strength.axial,
        unit="N",
        basis=basis(
            "{basis}; {where}; {rule}; weight and the pull of all guys in wind{wall_text}",
            where=_where(length),
            rule=strength.rule,
        ),
        limit_kind=strength.kind,
    )
    _slender(length, strength, case, findings)
    used = [each.used(axial=held.axial, moment=held.moment) for held, each in pairs]
    worst = max(range(len(pairs)), key=used.__getitem__)
    length, strength = pairs[worst]
    hold(
        name=f"support tube: column and bending together{case.suffix}",
        demand=used[worst],
        capacity=1.0,
        unit="",
        basis=basis(
            "{basis}; {where}; {rule}; bending strength and sum of both by the same; "
            "moments grown by 1.6 times the weight on 0.8 of the stiffness{wall_text}",
            where=_where(length),
            rule=strength.rule,
        ),
        limit_kind=strength.kind,
    )


def _stouter(tube: TubularSupport) -> str:
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


def check_brackets(
    *, brackets: HouseBrackets, bent: TubeBending, case: LoadCase, findings: Findings
) -> None:
    """Hold the forces on every bracket against its fixings, and ask for the wall behind it."""
    buckles = bent.course is None
    worst = max(range(len(brackets.heights)), key=bent.bracket_forces.__getitem__)
    pull = bent.bracket_forces[worst]
    told: Value = "the tube buckles first" if buckles else force(pull)
    name = f"support tube: force on a house bracket{case.suffix}"
    if buckles:
        findings.skip(name, told)
    else:
        findings.hold(
            name=name,
            demand=pull,
            capacity=brackets.side_force,
            unit="N",
            basis=phrase(
                "{basis}; bracket at {height}, couple of the brackets; wind from any side "
                "pulls, pushes and shears; fixings as rated",
                basis=case.basis(height=brackets.top),
                height=span(brackets.heights[worst]),
            ),
            change="set the brackets further apart, or take more and stronger fixings",
            missing=phrase(
                "what the wall fixings of one bracket are rated for is not given: it is asked "
                "to hold {told}. Ask its maker, and enter it{place}",
                told=told,
                place=InPlan(_BRACKETS, ("side_force",)),
            ),
        )
    if not brackets.stands:
        findings.hold(
            name=f"support tube: load straight down on its brackets{case.suffix}",
            demand=bent.axial,
            capacity=brackets.vertical_load,
            unit="N",
            basis="weight of the tube and of all on it; nothing below the brackets bears it",
            change="take stronger brackets, or let the tube stand on the ground",
            missing=settled(
                "what the brackets are rated to carry together is not given",
                _BRACKETS,
                "vertical_load",
            ),
        )
    if not case.iced:
        _wall(brackets, told, findings)


def _wall(brackets: HouseBrackets, told: Value, findings: Findings) -> None:
    """Take the wall from whoever looked at it; nobody's word leaves it open."""
    if brackets.said_by:
        findings.note(
            "wall-agreed",
            "That the wall or roof holds what its brackets pull is taken from: "
            f"{brackets.said_by}.",
        )
        return
    findings.skip(
        "support tube: wall behind its brackets",
        phrase(
            "nobody says that the wall holds what its bracket pulls ({told}): ask a licensed "
            "structural engineer or builder",
            told=told,
        ),
        change=settled("enter who looked at it, and when", _BRACKETS, "said_by"),
    )
