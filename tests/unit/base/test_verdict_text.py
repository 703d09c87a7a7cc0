"""The verdict in words: counts, shares that never read as kept, the stamp, all for every case."""

from __future__ import annotations

import pytest

from boomwright.base import (
    Finding,
    counts_text,
    exceeded_texts,
    finding_text,
    open_text,
    plan_verdict,
    stamp_text,
    tally_text,
    use_text,
    verdict_text,
)
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.verdicts import NOT_AN_APPROVAL


def found(verdict, name="boom: bending in wind", subject="structure", **more):
    return Finding(subject=subject, name=name, verdict=verdict, **more)


OVER = found("exceeded", use=1.55, change="take a larger boom", holds_up=True)
OPEN = found("not checked", "rotator: side force", reason="no rating is given", holds_up=True)
ASK = found(
    "ask", "Aerodrome near", "permits", reason="Ask before a crane comes", change="ask them"
)
KEPT = found("within", use=0.4)
DEAR = found("exceeded", "estimate against the budget", "cost", use=9.0)


@pytest.mark.parametrize(
    ("findings", "said"),
    [
        ([OVER, OVER, OPEN, ASK, KEPT],
         "Verdict: exceeded. 2 checks exceeded, 1 not checked, 1 to ask."),
        ([OVER], "Verdict: exceeded. 1 check exceeded."),
        ([OPEN, ASK], "Verdict: not fully checked. 1 point not checked, 1 to ask."),
        ([DEAR, OPEN, ASK],
         "Verdict: not fully checked, over budget. 1 point not checked, 1 to ask."),
        ([DEAR, KEPT],
         "Verdict: over budget, otherwise within. No check exceeded; this is not an approval."),
        ([DEAR], "Verdict: over budget. Nothing else was checked."),
        ([DEAR, OVER], "Verdict: exceeded. 2 checks exceeded."),
        ([ASK, ASK, KEPT], "Verdict: ask. 2 points to ask."),
        ([KEPT], "Verdict: within. No check exceeded; this is not an approval."),
        ([], "Verdict: not checked. Nothing was checked."),
    ],
)  # fmt: skip
def test_the_verdict_is_one_line_that_reads_well(findings, said):
    assert verdict_text(plan_verdict(findings)) == said
    assert NOT_AN_APPROVAL in said.lower() or len(findings) != 1 or findings[0] is not KEPT


def test_money_comes_behind_what_holds_the_beam_up():
    assert plan_verdict([DEAR, OVER, OPEN]).findings == (OVER, OPEN, DEAR)


def test_a_tab_counts_its_worst_word_only():
    assert tally_text(plan_verdict([OPEN, OVER, OVER])) == "2 exceeded"
    assert tally_text(plan_verdict([ASK, KEPT])) == "1 to ask"
    assert tally_text(plan_verdict([KEPT])) == ""
    assert counts_text(plan_verdict([KEPT])) == NOT_AN_APPROVAL


@pytest.mark.parametrize(
    ("use", "text"),
    [(0.4, "40 %"), (1.0, "100 %"), (1.552, "155 %"), (1.004, "100.4 %"), (1.0002, "100.02 %"),
     (1.000001, "just over 100 %"), (12.3, "1230 %")],
)  # fmt: skip
def test_a_limit_that_is_passed_never_reads_as_kept(use, text):
    assert use_text(use) == text


def test_an_exceeded_check_has_its_share_and_what_to_do():
    (line,) = exceeded_texts(plan_verdict([OVER, OPEN, ASK]), system="metric")
    assert line == "boom: bending in wind, 155 % of its limit. Next: take a larger boom."
    assert finding_text(found("exceeded", reason="no way up fits"), system="metric") == (
        "boom: bending in wind, exceeded, because no way up fits."
    )
    assert (
        finding_text(OPEN, system="metric")
        == "rotator: side force, not checked, because no rating is given."
    )
    assert finding_text(ASK, system="metric") == (
        "To ask: Aerodrome near. Ask before a crane comes. Next: ask them."
    )


def test_what_is_open_is_counted_by_subject():
    verdict = plan_verdict([OVER, OPEN, ASK, OPEN, found("not checked", subject="raising")])
    assert open_text(verdict) == "Not checked: structure 2, raising 1. To ask: permits 1."
    assert open_text(plan_verdict([OVER, KEPT])) == ""


def test_the_stamp_names_the_worst_that_holds_the_beam_up_and_counts_the_rest():
    assert stamp_text(plan_verdict([OVER, OPEN, OPEN, OVER, ASK]), system="metric") == (
        "Not to be built from: boom: bending in wind, 155 % of its limit "
        "(2 exceeded, 2 not checked in all)"
    )
    assert stamp_text(plan_verdict([OPEN, KEPT]), system="metric") == (
        "Not to be built from: rotator: side force, not checked"
    )
    # A budget passed or a question to the authority lets nothing fall down.
    budget = found("exceeded", "estimate", "cost", use=1.2)
    assert stamp_text(plan_verdict([budget, ASK, KEPT]), system="metric") == ""


def test_the_readers_own_unit_comes_first():
    anchor = found(
        "exceeded",
        phrase("anchor at {radius}: uplift", radius=Quantity(8.0, "height")),
        use=1.3,
        holds_up=True,
        change=phrase("double the wall of {tube}", tube=Quantity(38.1e-3, "diameter")),
    )
    assert finding_text(anchor, system="us") == (
        "anchor at 26.2 ft: uplift, 130 % of its limit. Next: double the wall of 1.500 in."
    )
    stamp = stamp_text(plan_verdict([anchor]), system="us")
    assert stamp == "Not to be built from: anchor at 26.2 ft: uplift, 130 % of its limit"
