"""What must be asked of whom before a station is built, and what was assumed to judge it."""

from __future__ import annotations

from boomwright.base import Finding, PlanVerdict
from boomwright.base.records import dataclass
from boomwright.plan import Plan
from boomwright.study.advice.stations import Station

#: who can usually answer what a room leaves open, where the check names nobody
_USUAL = {
    "structure": "maker, or a licensed engineer",
    "permits": "local planning and building office",
    "raising": "whoever leads the lift",
    "cost": "dealers",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something to be asked or settled before it is built."""

    whom: str  #: who can answer it
    finding: Finding  #: the check that waits for the answer


def questions_of(verdict: PlanVerdict) -> tuple[Question, ...]:
    """Say of whom each open check of a verdict is to be asked, worst first (n_questions,)."""
    return tuple(
        Question(whom=_whom(each), finding=each)
        for each in verdict.findings
        if each.verdict in {"not checked", "ask"}
    )


def _whom(finding: Finding) -> str:
    return finding.whom or _USUAL.get(finding.subject, "station owner")


def assumed(station: Station, *, plan: Plan, place: Plan) -> tuple[str, ...]:
    """List what was taken as usual because the place does not say it.

    Returns:
        a line each (n_assumed,)
    """
    found = []
    if place.reach is None or not place.reach.terrain:
        found.append("flat ground all round: no terrain is given")
    if plan.support is not None and not station.owned:
        found.append("sizes of the support, its guys and its footing")
    if any(element.traps for beam in plan.beams for element in beam.elements):
        found.append("coil quality, mass and size of the traps")
    standing = () if place.place is None else place.place.standing
    if any(each.name == station.owned and each.heights and each.foot is None for each in standing):
        found.append("the pole ends a hand below its lowest bracket")
    if plan.booms:
        found.append("tubes of elements and boom in usual sizes")
    if plan.support is not None and plan.support.mast is not None:
        found.append("size of the mast, and the gust in which the rotator shall turn")
    if place.line is None and plan.line is not None:
        found.append("type and length of the feed line")
    if any(beam.frame is not None and beam.frame.held for beam in plan.beams):
        found.append("breaking strength of the ropes to buy")
    if plan.raising is not None and place.raising != plan.raising:
        found.append("gear for the way up, without its ratings")
    return tuple(found)
