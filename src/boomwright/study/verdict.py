"""The one verdict of a plan: what structure, parts, permits, cost and raising found.

Every command, the page and the book ask here, so that they say the same. All four rooms are
asked each time, whichever a reader looks at; what was computed already is handed in. The matched
beam is not solved for it: limits of feed and reach stand with those subjects.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from boomwright.base import (
    BoomwrightError,
    Finding,
    PlanError,
    PlanVerdict,
    UnitSystem,
    plan_verdict,
    stamp_text,
)
from boomwright.base.files import ReadFile, no_files
from boomwright.base.quantity import Value, phrase
from boomwright.plan import Plan
from boomwright.solver import Preparer, prepare_run
from boomwright.structure import StructureReport, check_structure
from boomwright.study.clashes import clash_findings
from boomwright.study.cost import Costing, price_plan
from boomwright.study.permits import PermitCheck, permit_plan
from boomwright.study.raising import RaisingResult, raise_plan


def judge_plan(
    plan: Plan,
    *,
    files: ReadFile = no_files,
    permits: PermitCheck | None = None,
    costing: Costing | None = None,
    raising: RaisingResult | None = None,
    prepare: Preparer = prepare_run,
) -> PlanVerdict:
    """Roll up what every room finds about a plan; a room that refuses it has not checked it.

    Args:
        permits, costing, raising: what the room found; None to ask it
    """
    report, found = _structure(plan)

    def check_permits() -> PermitCheck:
        return permits or permit_plan(plan, prepare=prepare)

    found += _asked("permits", lambda: (each.finding for each in check_permits().sheet.findings))
    if plan.prices is not None and plan.prices.budget is not None:
        found += _asked(
            "cost", lambda: (costing or price_plan(plan, files=files, changed=False)).findings
        )
    found += _asked("build", lambda: clash_findings(plan, structure=report))
    found += _asked("raising", lambda: (raising or raise_plan(plan)).findings)
    return plan_verdict([*found, *_assumed(plan)])


#: first key of a place in the plan -> subject that asks about a value assumed there
_ASKED_BY = {
    "beam": "build",
    "line": "build",
    "site": "structure",
    "support": "structure",
    "transmitter": "permits",
    "permits": "permits",
    "reach": "permits",
    "prices": "cost",
    "raising": "raising",
}


def _assumed(plan: Plan) -> Iterable[Finding]:
    """Ask about every usual value that nobody has confirmed, once for each subject."""
    for subject in sorted(set(_ASKED_BY.values())):
        places = [
            each.where
            for each in plan.assumed
            if _ASKED_BY.get(each.place.partition(".")[0].partition("[")[0]) == subject
        ]
        if places:
            yield Finding(
                subject=subject,
                name="values that are assumed",
                verdict="ask",
                reason=f"Usual values are in use for: {'; '.join(places)}",
                change="measure them or look them up, then confirm them",
                holds_up=subject == "structure",
            )


def build_stamp(plan: Plan, *, system: UnitSystem) -> str:
    """Say what stands against building from a plan; empty when nothing does."""
    report, found = _structure(plan)
    found += _asked("build", lambda: clash_findings(plan, structure=report))
    return stamp_text(plan_verdict(found), system=system)


def _structure(plan: Plan) -> tuple[StructureReport | None, list[Finding]]:
    from boomwright.plan.resolve import structure_inputs

    try:
        report = check_structure(inputs=structure_inputs(plan))
    except BoomwrightError as error:
        return None, [_refused("structure", error, holds_up=True)]
    return report, [line.finding for line in report.ledger]


def _asked(subject: str, ask: Callable[[], Iterable[Finding]]) -> list[Finding]:
    try:
        return list(ask())
    except (BoomwrightError, OSError) as error:
        return [_refused(subject, error)]


def _refused(subject: str, error: Exception, *, holds_up: bool = False) -> Finding:
    # Of a file the name of the list is enough; where it lies is nobody else's business.
    reason: Value = getattr(error, "strerror", None) or str(error)
    change: Value = ""
    if isinstance(error, PlanError) and error.faults:
        fault = error.faults[0]
        reason = phrase("{path}: {message}", path=fault.path, message=fault.message)
        change = fault.remedy
    return Finding(
        subject=subject,
        name=subject,
        verdict="not checked",
        reason=reason,
        change=change,
        holds_up=holds_up,
    )
