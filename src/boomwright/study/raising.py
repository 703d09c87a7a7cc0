"""How it gets up: the lift plan of every beam, the compass bearing, and what follows the lift."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from boomwright.base import Finding, Notice, plan_verdict
from boomwright.base.quantity import InPlan, Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.raising import (
    LiftPlan,
    PickPlan,
    SwrExpectation,
    pick_plan,
    plan_lift,
    swr_expectation,
)
from boomwright.structure import BeamReport, StructureReport, check_structure
from boomwright.study.cost import day_without_clock
from boomwright.study.declination import Declination, declination
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

#: boom above ground on its stands for the check before the lift [m] {common-practice-raising}
STAND_HEIGHT = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamLift:
    """The raising of one beam."""

    beam: Beam
    gaps: tuple[Value, ...]  #: what is missing before it can be planned, in words
    lift: LiftPlan | None  #: the lift plan; None while something is missing
    #: where the bridle takes hold; None while the balance point is not known
    picks: PickPlan | None
    report: BeamReport  #: what the structure room found about the beam

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What counts of it in the verdict of the plan."""
        if self.lift is not None:
            return self.lift.findings
        missing = Finding(
            subject="raising",
            name=f"{self.beam.name}: way up",
            verdict="not checked",
            reason=listed(self.gaps, between="; "),
        )
        return (missing,)


@dataclass(frozen=True, slots=True, kw_only=True)
class RaisingResult:
    """The raising of a plan."""

    plan: Plan
    lifts: tuple[BeamLift, ...]  #: one for each beam (n_beams,)
    #: magnetic declination at the place; None without a position or a model for the day
    declination: Declination | None
    today: str  #: the day counted with, ``2026-01-31``
    structure: StructureReport  #: what the structure room found

    @property
    def notices(self) -> tuple[Notice, ...]:
        """Cautions, limits, and what is missing."""
        found: dict[Notice, None] = {}
        for each in self.lifts:
            if each.lift is not None:
                found.update(dict.fromkeys(each.lift.notices))
            for gap in each.gaps:
                text = phrase("The lift cannot be planned: {gap}.", gap=gap)
                found[Notice(code="raising.cannot-plan", text=text, severity="doubt")] = None
        if self.declination is None:
            found[_NO_COMPASS] = None
        return tuple(found)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What counts of the raising in the verdict of the plan."""
        return tuple(finding for each in self.lifts for finding in each.findings)


_NO_COMPASS = Notice(
    code="raising.no-declination",
    text=phrase(
        "No magnetic declination: give the position{place}, or a day from 2025 to 2029. Align by "
        "the sun, by a map or by a satellite fix instead.",
        place=InPlan("site", ("position",)),
    ),
    severity="doubt",
)


def raise_plan(
    plan: Plan, *, measured: Sequence[AsMeasured | NotMeasured] = (), today: str = ""
) -> RaisingResult:
    """Plan the raising of every beam.

    Args:
        measured: what will be measured of its beams, for the SWR check on stands; a beam whose
            match is not solved goes without it
        today: day of the declination; when empty the plan's, else the middle of the model's years
    """
    from boomwright.plan.resolve import structure_inputs

    report = check_structure(inputs=structure_inputs(plan))
    day = today or day_without_clock(plan)
    site = plan.site
    found = None
    if site.latitude is not None and site.longitude is not None:
        found = declination(
            latitude=site.latitude,
            longitude=site.longitude,
            day=day,
            elevation=site.elevation or 0.0,
        )
    checks = {
        one.beam.name: _swr_check(one)
        for one in measured
        if isinstance(one, AsMeasured) and not one.beam.upright
    }
    return RaisingResult(
        plan=plan,
        lifts=tuple(_beam_lifts(plan, report, checks)),
        declination=found,
        today=day,
        structure=report,
    )


def _swr_check(measured: AsMeasured) -> SwrExpectation:
    # On stands the meter sits at the match: no line lies between.
    best = int(np.argmin(measured.match_swr))
    driven = measured.beam.elements[measured.beam.driven_index]
    return swr_expectation(
        frequency=float(measured.frequency[best]),
        swr=float(measured.match_swr[best]),
        stand_height=STAND_HEIGHT,
        half_length=driven.half_length,
        closed=driven.closed,
        telescopes=not driven.bent and len(driven.half) > 1,
    )


def _beam_lifts(
    plan: Plan, structure: StructureReport, checks: Mapping[str, SwrExpectation]
) -> Iterator[BeamLift]:
    from boomwright.plan.resolve import raising_gaps, raising_job

    carried = plan_verdict(line.finding for line in structure.ledger).beam_may_fall
    reports = [*zip(plan.beams, structure.beams, strict=True)]
    for beam, report in reports:
        beside = [it for each, it in reports if each is not beam and each.shares_boom(beam)]
        job, check = raising_job(plan, beam, report, beside=beside), checks.get(beam.name)
        yield BeamLift(
            beam=beam,
            gaps=raising_gaps(plan, beam, report),
            lift=None if job is None else plan_lift(job, carried=carried, swr_check=check),
            picks=None if job is None else pick_plan(job.load),
            report=report,
        )
