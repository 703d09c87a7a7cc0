"""Fixes for boom, sleeves, mast and guys past their limit: tried until one suffices."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import chain

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.parts import Hardware
from boomwright.plan import Plan
from boomwright.plan.model_boom import BoomPlan
from boomwright.structure import StructureReport, check_structure, thicker_walls
from boomwright.structure.support.guys import STRANDS


@dataclass(frozen=True, slots=True, kw_only=True)
class PartFix:
    """One value of the plan that takes a part below its limit, or nearer to it."""

    text: Value  #: what is done
    place: str  #: dotted place in the plan
    value: Value  #: what is written there
    use_before: float  #: most used of the part's limits [-]
    use_after: float  #: the same after the fix [-]
    passed: tuple[Value, ...]  #: checks that the fix takes past their limit (n_checks,)

    @property
    def suffices(self) -> bool:
        """Whether the part is within after it and nothing else is past its limit for it."""
        return self.use_after <= 1.0 and not self.passed


#: a fix that is not tried yet, and the plan with it
_Try = tuple[partial[PartFix], Plan]
#: a part, and what may be done for it, the least first
_Tries = tuple[str, list[_Try]]


def part_fixes(plan: Plan, report: StructureReport) -> tuple[PartFix, ...]:
    """Offer the least that suffices for each boom, sleeve, mast and guy ring past its limit."""
    found = (
        _least(part, tries, report)
        for part, tries in _tries(plan, {line.part for line in report.exceeded})
        if tries
    )
    return tuple(fix for fix in found if fix is not None)


def _tries(plan: Plan, weak: set[str]) -> list[_Tries]:
    """What may be done for each weak part, the least first."""
    found: list[_Tries] = []
    for boom in plan.booms:
        part = f"boom of {boom.beam}"
        at = next((n for n, beam in enumerate(plan.beams) if beam.name == boom.beam), None)
        if part in weak and at is not None:
            walls = thicker_walls(boom.wall, diameter=boom.diameter)
            tries = [
                _wall(f"the {part}", boom.wall, wall, f"beam[{at}].boom.wall",
                      _with_boom(plan, boom, replace(boom, wall=wall)))
                for wall in walls
            ]  # fmt: skip
            found.append((part, tries))
        found += _sleeves(plan, at, boom, weak)
    support = plan.support
    if support is None:
        return found
    mast = support.mast
    if mast is not None and "mast" in weak:
        found.append(("mast", [
            _wall("the mast", mast.wall, wall, "support.mast.wall",
                  replace(plan, support=replace(support, mast=replace(mast, wall=wall))))
            for wall in thicker_walls(mast.wall, diameter=mast.diameter)
        ]))  # fmt: skip
    for number, ring in enumerate(support.guy):
        if ring.part not in weak:
            continue
        stronger = sorted(
            (one for one in STRANDS.values()
             if one.breaking_strength > ring.strand.breaking_strength),
            key=lambda one: one.breaking_strength,
        )  # fmt: skip
        words = "guy with {strand} instead of {was}: {ring}"
        found.append((ring.part, [
            (
                partial(PartFix, place=f"support.guy[{number}].strand", value=one.name, text=phrase(
                    words, strand=one.name, was=ring.strand.name, ring=ring.name
                )),
                replace(plan, support=replace(support, guy=tuple(
                    replace(each, strand=one) if each is ring else each for each in support.guy
                ))),
            )
            for one in stronger
        ]))  # fmt: skip
    return found


def _sleeves(plan: Plan, at: int | None, boom: BoomPlan, weak: set[str]) -> Iterator[_Tries]:
    """Thicker sleeves for a beam whose elements have a weak joint, where tubes meet on them."""
    from boomwright.plan.resolve import structure_inputs

    part = f"element joints of {boom.beam}"
    if at is None or part not in weak:
        return
    joints = chain.from_iterable(structure_inputs(plan).beams[at].joints)
    thin = min((each.inner for each in joints if each.sleeve), key=lambda e: e.wall, default=None)
    if thin is None:
        return
    walls, held = thicker_walls(thin.wall, diameter=thin.diameter), boom.hardware or Hardware()
    others = [replace(boom, hardware=replace(held, element_sleeve=wall)) for wall in walls]
    yield part, [
        _wall(f"the sleeves in elements of {boom.beam}", thin.wall, wall,
              f"beam[{at}].boom.hardware.element_sleeve", _with_boom(plan, boom, other))
        for wall, other in zip(walls, others, strict=True)
    ]  # fmt: skip


def _with_boom(plan: Plan, boom: BoomPlan, other: BoomPlan) -> Plan:
    return replace(plan, booms=tuple(other if each is boom else each for each in plan.booms))


def _wall(what: str, was: float, wall: float, place: str, plan: Plan) -> _Try:
    text = phrase(
        "take a wall of {wall} instead of {was} for {what}",
        wall=Quantity(wall, "wall"), was=Quantity(was, "wall"), what=what,
    )  # fmt: skip
    return partial(PartFix, text=text, place=place, value=Quantity(wall, "wall")), plan


def _least(part: str, tries: Sequence[_Try], before: StructureReport) -> PartFix | None:
    """The least of what may be done that suffices; else what comes nearest, if anything helps."""
    low, high = 0, len(tries) - 1
    best = _tried(part, tries[high], before)
    # Once something else of the part governs, more of it brings nothing.
    enough = max(1.0, best.use_after * (1.0 + 1e-9))
    while low < high:
        middle = (low + high) // 2
        fix = _tried(part, tries[middle], before)
        if fix.use_after <= enough:
            best, high = fix, middle
        else:
            low = middle + 1
    return best if best.use_after < best.use_before else None


def _tried(part: str, one: _Try, before: StructureReport) -> PartFix:
    from boomwright.plan.resolve import structure_inputs

    fix, changed = one
    after = check_structure(inputs=structure_inputs(changed))
    known = {line.name for line in before.exceeded}
    return fix(
        use_before=_use(part, before),
        use_after=_use(part, after),
        passed=tuple(line.name for line in after.exceeded if line.name not in known),
    )


def _use(part: str, report: StructureReport) -> float:
    return max((line.use or 0.0 for line in report.ledger if line.part == part), default=0.0)
