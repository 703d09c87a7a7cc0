"""Ledger lines for the footing, with wind that has no factor on it and a factor on what tips."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from boomwright.base.quantity import Value, phrase
from boomwright.base.records import replace
from boomwright.structure.checks.cases import LoadCase
from boomwright.structure.checks.findings import Findings
from boomwright.structure.checks.tower import standing_moment, tower_weight
from boomwright.structure.ground.pads import PadBase, PadCheck, check_pad
from boomwright.structure.ground.piers import PierBase, PierCheck, check_pier
from boomwright.structure.ground.soils import Soil
from boomwright.structure.inputs import BaseReactions
from boomwright.structure.report import BaseReport, BeamReport, GuyReport, SupportReport
from boomwright.structure.support.tower import Tower
from boomwright.structure.support.tube_support import TubeBending
from boomwright.structure.wording import force, moment, soil_pressure, span

#: times the entered load up to which a computed one agrees with it (common practice)
_AGREE = 1.05
_BUCKLES = "the support buckles before its footing is reached"


def _base_reactions(
    beams: Sequence[BeamReport], found: SupportReport, gap: str, case: LoadCase, findings: Findings
) -> tuple[BaseReactions | None, Value]:
    """Loads on the footing: the larger of what the maker states and what is computed.

    Entered loads never take the place of computed ones; where both disagree it is said, and
    what the maker's loads do not cover stays not checked.

    Returns:
        reactions or None, and why not in words (2,)
    """
    given = case.site.inputs.base_reactions
    computed, reason = _computed(beams, found, gap, case)
    if given is None:
        return computed, reason
    wanted, unfit = case.site.service_kind, ""
    other = given.kind != wanted
    if other:
        unfit = (
            f"the maker's base reactions are for {given.kind} wind and a footing with its own "
            f"factor needs {wanted} ones"
        )
    elif case.iced:
        unfit = "the maker's base reactions are entered and say nothing of ice: ask them"
    if computed is None:
        if unfit or reason == _BUCKLES:
            return None, unfit or reason
        words = "{given}; not computed beside it, because {reason}"
        return replace(given, text=phrase(words, given=given.text, reason=reason)), ""
    if other:
        if not case.iced:
            findings.skip("base: loads as the maker states them", unfit)
        return computed, ""
    if not case.iced:
        _conflict(given, computed, findings)
    return _larger(given, computed), ""


def _larger(given: BaseReactions, computed: BaseReactions) -> BaseReactions:
    words = "the larger of both, each: {given}; {computed}"
    return BaseReactions(
        moment=max(given.moment, computed.moment),
        shear=max(given.shear, computed.shear),
        axial=max(given.axial, computed.axial),
        least_axial=min(given.axial, computed.least),
        kind=computed.kind,
        text=phrase(words, given=given.text, computed=computed.text),
    )


def _conflict(given: BaseReactions, computed: BaseReactions, findings: Findings) -> None:
    pairs = (
        ("moment", given.moment, computed.moment, moment),
        ("shear", given.shear, computed.shear, force),
        ("load straight down", given.axial, computed.axial, force),
    )
    for what, entered, found, kind in pairs:
        if found > _AGREE * entered:
            value, limit = (kind(each) for each in (found, entered))
            findings.doubt(
                "base-loads-conflict",
                phrase(
                    "Footing, {what}: computed {value}, entered {limit}. The computed one "
                    "counts. Ask whether the maker's sheet is for this height, wind and "
                    "antennas.", what=what, value=value, limit=limit,
                ),
                value=value,
                limit=limit,
            )  # fmt: skip


def _computed(
    beams: Sequence[BeamReport], found: SupportReport, gap: str, case: LoadCase
) -> tuple[BaseReactions | None, Value]:
    inputs, tube = case.site.inputs, found.tube
    if gap or case.missing:
        return None, gap or case.missing
    stands = inputs.tower or inputs.tube
    top = 0.0 if stands is None else stands.height
    text = phrase("computed with {basis}", basis=case.basis(height=top))
    if tube is not None and inputs.tube is not None:
        if tube.course is None:
            return None, _BUCKLES
        pulls = [state.compression for state in tube.states]
        light = tube.axial - (max(pulls) - min(pulls)) if pulls else tube.axial
        # Ice may fall off one-sidedly: what holds the footing down counts without it.
        light -= _ice_held(beams, case, tube)
        return _reactions(case, tube.base_moment, tube.base_shear, (tube.axial, light), text), ""
    if inputs.tower is None:
        return None, "neither the maker's base reactions nor a checked support is given"
    return _tower_reactions(inputs.tower, beams, found.guys, case, text)


def _ice_held(beams: Sequence[BeamReport], case: LoadCase, tube: TubeBending) -> float:
    iced, plain = (each.carried_weight(beams=beams) for each in (case, LoadCase(site=case.site)))
    return tube.ice_weight + (0.0 if iced is None or plain is None else iced - plain)


def _tower_reactions(
    tower: Tower, beams: Sequence[BeamReport], guys: GuyReport | None, case: LoadCase, text: Value
) -> tuple[BaseReactions | None, Value]:
    if tower.weight is None:
        return None, "the tower's weight is not given"
    light = tower_weight(tower=tower, beams=beams, case=LoadCase(site=case.site))
    if light is None:
        return None, "the weight of a beam on it is not known"
    weight = tower_weight(tower=tower, beams=beams, case=case)
    if weight is None:
        return None, tower.wind_trouble(iced=case.iced) or "the weight of its ice is not known"
    if case.site.inputs.guying:
        if guys is None:
            return None, "the guys were not checked"
        if guys.buckles:
            return None, _BUCKLES
        shear = max(state.base_shear for state in guys.states)
        moment = max(state.base_moment for state in guys.states)
        least = min(state.compression for state in guys.states)
        axial = weight + guys.compression, light + least
        return _reactions(case, moment, shear, axial, text), ""
    found = standing_moment(tower=tower, beams=beams, case=case)
    if found is None or tower.kind == "bracketed":
        return None, "the loads at the tower's foot are not known: ask the maker or an engineer"
    return _reactions(case, found[0], found[1], (weight, light), text), ""


def _reactions(
    case: LoadCase, moment: float, shear: float, axial: tuple[float, float], text: Value
) -> BaseReactions:
    return BaseReactions(
        moment=moment,
        shear=shear,
        axial=axial[0],
        least_axial=max(0.0, axial[1]),
        kind=case.site.service_kind,
        text=text,
    )


def check_base(
    *,
    beams: Sequence[BeamReport],
    found: SupportReport,
    gap: str,
    case: LoadCase,
    findings: Findings,
) -> BaseReport | None:
    """Check pad or pier and write its ledger lines; None when not checked.

    Args:
        found: what stands on it in this case
        gap: why the load on the support is not known, or empty
    """
    inputs = case.site.inputs
    base, soil = inputs.base, inputs.soil
    brackets = None if inputs.tube is None else inputs.tube.brackets
    if brackets is not None and not brackets.stands:
        return None
    name = f"base: overturning{case.suffix}"
    if base is not None and not case.iced:
        _frost(base, inputs.frost_depth, findings)
    if base is None or soil is None:
        if not case.iced:
            missing = "no footing is given" if base is None else "the soil is not given"
            findings.skip(name, missing)
        return None
    reactions, reason = _base_reactions(beams, found, gap, case, findings)
    if reactions is None:
        findings.skip(name, reason)
        return None
    if soil.presumptive and not case.iced:
        findings.doubt(
            "presumptive-soil",
            f"{soil.name} stands with a presumed strength nobody tested; soft, organic, filled "
            "or wet ground has none.",
        )
    if isinstance(base, PadBase):
        # Guys press a pad down: their least pull counts where weight helps, their largest
        # where it presses on the soil.
        loads = {"moment": reactions.moment, "shear": reactions.shear}
        pad, heavy = (
            check_pad(pad=base, soil=soil, axial=axial, **loads)
            for axial in (reactions.least, reactions.axial)
        )
        _pad_lines(base, pad, heavy, soil, reactions, case, findings)
        return BaseReport(reactions=reactions, concrete=base.concrete, pad=pad, pier=None)
    if soil.lateral is None:
        name = f"base: depth of the block{case.suffix}"
        findings.skip(name, f"{soil.name} has no lateral value: test it")
        return None
    pier = check_pier(pier=base, soil=soil, moment=reactions.moment, shear=reactions.shear)
    _pier_line(base, pier, soil, reactions, case, findings)
    return BaseReport(reactions=reactions, concrete=base.concrete, pad=None, pier=pier)


def _frost(base: PadBase | PierBase, depth: float | None, findings: Findings) -> None:
    name = "base: below the frost"
    if depth is None:
        findings.skip(name, "the local frost depth is not given: the building office knows it")
    elif depth > 0.0:
        findings.hold(
            name=name,
            demand=depth,
            capacity=base.depth,
            unit="m",
            basis="local frost depth as entered",
            change="found deeper",
        )


def _pad_lines(
    base: PadBase,
    pad: PadCheck,
    heavy: PadCheck,
    soil: Soil,
    reactions: BaseReactions,
    case: LoadCase,
    findings: Findings,
) -> None:
    suffix, (factor, words) = case.suffix, case.site.footing_factor
    basis = phrase("{reactions}; factor {words}", reactions=reactions.text, words=words)
    worst = max((pad, heavy), key=lambda each: each.pressure)
    hold = partial(
        findings.hold,
        change="make the pad wider, or thicker, or cover it with soil",
        load_kind=reactions.kind,
        limit_kind=case.site.service_kind,
    )
    hold(
        name=f"base: overturning{suffix}",
        demand=factor * pad.moment,
        capacity=pad.weight * base.side / 2.0,
        unit="N m",
        basis=basis,
    )
    hold(
        name=f"base: pressure on the soil{suffix}",
        demand=worst.pressure / 1000.0,
        capacity=None if soil.bearing is None else soil.bearing / 1000.0,
        unit="kPa",
        basis=phrase(
            "{reactions}; straight {square}, diagonal {diagonal}; allowable bearing of {soil}",
            reactions=reactions.text, square=soil_pressure(worst.pressure_square),
            diagonal=soil_pressure(worst.pressure_diagonal), soil=soil.name,
        ),
        missing=f"{soil.name} has no bearing value: have it tested",
    )  # fmt: skip
    holds = None if pad.sliding_factor is None else min(pad.sliding_factor * reactions.shear, 1e300)
    if reactions.shear > 0.0:
        held = "{basis}; friction or cohesion of {soil}, soil beside it not counted"
        hold(
            name=f"base: sliding{suffix}",
            demand=factor * reactions.shear,
            capacity=holds,
            unit="N",
            basis=phrase(held, basis=basis, soil=soil.name),
            missing=f"{soil.name} has neither friction nor cohesion",
        )


def _pier_line(
    base: PierBase,
    pier: PierCheck,
    soil: Soil,
    reactions: BaseReactions,
    case: LoadCase,
    findings: Findings,
) -> None:
    hold = partial(findings.hold, load_kind=reactions.kind, limit_kind=case.site.service_kind)
    area = base.concrete.volume / base.depth
    hold(
        name=f"base: pressure under the block{case.suffix}",
        demand=(reactions.axial + base.concrete.weight) / area / 1000.0,
        capacity=None if soil.bearing is None else soil.bearing / 1000.0,
        unit="kPa",
        basis=phrase(
            "{reactions}; friction at the sides not counted; bearing of {soil}",
            reactions=reactions.text,
            soil=soil.name,
        ),
        change="make the block wider",
        missing=f"{soil.name} has no bearing value: have it tested",
    )
    doubled = "doubled for a post that may move" if base.may_move else "as tabulated"
    hold(
        name=f"base: depth of the block{case.suffix}",
        demand=pier.needed_depth,
        capacity=base.depth,
        unit="m",
        basis=phrase(
            "{reactions}; lateral value of {soil} {doubled}; depth and strength agree "
            "at {settled_depth}", reactions=reactions.text, soil=soil.name, doubled=doubled,
            settled_depth=span(pier.settled_depth),
        ),
        change="go deeper or wider",
    )  # fmt: skip
