"""One verdict for the plan: worst first, standing questions apart, nothing checked is no pass."""

from __future__ import annotations

import pytest

from boomwright.base import Finding, VerdictWord, plan_verdict
from boomwright.base.verdicts import VERDICT_WORDS


def found(verdict: VerdictWord, **more: object) -> Finding:
    return Finding(subject="structure", name=f"a {verdict} check", verdict=verdict, **more)  # type: ignore[arg-type]


def test_the_worst_word_is_the_plans() -> None:
    every = [found(word) for word in VERDICT_WORDS]
    while every:
        assert plan_verdict(reversed(every)).word == every[0].verdict
        every.pop(0)


def test_nothing_checked_is_not_checked() -> None:
    assert plan_verdict([]).word == "not checked"
    assert plan_verdict([found("within", standing=True)]).word == "not checked"


def test_a_standing_question_does_not_count() -> None:
    verdict = plan_verdict([found("ask", standing=True), found("within", use=0.5)])
    assert verdict.word == "within"
    assert verdict.counts == {"exceeded": 0, "not checked": 0, "ask": 0, "within": 1}


def test_exceeded_checks_stand_by_falling_use_and_no_finite_use_first() -> None:
    uses = (1.2, None, 2.5)
    verdict = plan_verdict(found("exceeded", use=use) for use in uses)
    assert [finding.use for finding in verdict.worst] == [None, 2.5, 1.2]


@pytest.mark.parametrize(
    ("word", "holds_up", "falls"),
    [("exceeded", True, 1), ("not checked", True, 1), ("ask", True, 0), ("exceeded", False, 0)],
)
def test_what_holds_the_beam_up(word: VerdictWord, *, holds_up: bool, falls: int) -> None:
    assert len(plan_verdict([found(word, holds_up=holds_up)]).beam_may_fall) == falls
