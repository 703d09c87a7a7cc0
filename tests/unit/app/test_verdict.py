"""The plan's verdict: every room counted, refusals open, budgets and lifts in the same words."""

from __future__ import annotations

import pytest

from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.session.files import PlanFolder, load_plan, packaged_text
from boomwright.study.clashes import clash_findings
from boomwright.study.permits import permit_plan
from boomwright.study.raising import raise_plan
from boomwright.study.structure import structure_plan
from boomwright.study.verdict import build_stamp, judge_plan
from example_stations import STATIONS
from written import metric

DEMO = packaged_text("demo.toml")
SURVEYED = next(line for line in DEMO.splitlines(True) if "power_lines_surveyed" in line)


@pytest.fixture
def folder(tmp_path):
    prices = packaged_text("demo_prices.csv")
    (tmp_path / "prices.csv").write_text(prices, encoding="utf-8")
    return tmp_path


def of(verdict, subject):
    return {finding.name: finding for finding in verdict.of(subject).findings}


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem)
def test_it_counts_every_line_of_every_room(path):
    plan = load_plan(path).plan
    verdict = judge_plan(plan, files=PlanFolder(path.parent))
    ledger = [line.verdict for line in structure_plan(plan, fixes=False).report.ledger]
    findings = permit_plan(plan).sheet.findings
    asked = {"notice needed": "ask"}
    permits = [asked.get(one.verdict, one.verdict) for one in findings if not one.standing]
    lifts = raise_plan(plan)
    raising = [one.verdict for one in lifts.findings]
    if plan.raising is None:
        assert raising == ["not checked"] * len(plan.beams)
    build = [one.verdict for one in clash_findings(plan, structure=lifts.structure)]
    assert build
    every = [*ledger, *permits, *build, *raising]
    assert verdict.counts == {word: every.count(word) for word in verdict.counts}
    assert any(one.standing for one in findings)


def test_what_was_found_already_is_taken_and_changes_nothing():
    plan = load_plan(STATIONS[3]).plan
    known = judge_plan(plan, permits=permit_plan(plan), raising=raise_plan(plan))
    assert known == judge_plan(plan)


def test_what_bears_no_load_is_edited_without_another_check_of_the_structure():
    text = STATIONS[3].read_text(encoding="utf-8")
    plan, renamed = read_plan(text), read_plan(text.replace('title = "', 'title = "Our '))
    report = structure_plan(plan, fixes=False).report
    assert plan != renamed
    assert structure_plan(renamed, fixes=False).report is report
    heavier = read_plan(text.replace('wall = "', 'wall = "1'))
    assert heavier != plan
    assert structure_plan(heavier, fixes=False).report is not report


def test_a_tube_that_slides_deeper_than_its_outer_one_is_long_stops_the_plan(folder):
    text = DEMO.replace("[prices]", '[prices]\noverlap = "1.3 m"', 1)
    (folder / "demo.toml").write_text(text, encoding="utf-8")
    findings = clash_findings(load_plan(folder / "demo.toml").plan)
    deep = [one for one in findings if "slide" in write(one.reason, system="metric")]
    assert deep
    assert all(one.verdict == "exceeded" and one.holds_up for one in deep)
    assert "slide 1300 mm into" in write(deep[0].reason, system="metric")


def test_a_tube_that_slides_too_deep_is_found_before_anybody_says_what_carries_it():
    start, end = DEMO.index("[support]"), DEMO.index("[transmitter]")
    text = DEMO[:start] + DEMO[end:]
    assert read_plan(text).support is None
    assert clash_findings(read_plan(text)) == ()
    found = clash_findings(read_plan(text.replace("[prices]", '[prices]\noverlap = "1.3 m"', 1)))
    assert {one.verdict for one in found} == {"exceeded"}


def test_a_plan_that_contradicts_itself_is_open_and_stamped():
    text = STATIONS[5].read_text(encoding="utf-8").replace("ASCE 7-22", "ASCE 7-05")
    plan = read_plan(text)
    verdict = judge_plan(plan)
    refused = of(verdict, "structure")["structure"]
    assert (refused.verdict, refused.holds_up) == ("not checked", True)
    assert "site.wind_basis" in metric(refused.reason)
    assert refused.change
    # Permissions ask for no wind, and parts for none either.
    others = [one for one in verdict.findings if one.subject not in {"build", "permits"}]
    assert {one.verdict for one in others} == {"not checked"}
    assert build_stamp(plan, system="metric") == "Not to be built from: structure, not checked"


@pytest.mark.parametrize(
    ("budget", "word"),
    [("budget = 100", "exceeded"), ("budget = 90000", "within"), ("", None)],
)
def test_the_budget_is_a_check_where_there_is_one(folder, budget, word):
    text = DEMO.replace("budget = 5400", budget)
    found = of(judge_plan(read_plan(text), files=PlanFolder(folder)), "cost")
    assert [one.verdict for one in found.values()] == ([word] if word else [])
    if word == "exceeded":
        (over,) = found.values()
        assert over.use > 1.0
        assert over.change


def test_a_bill_without_prices_is_within_no_budget(tmp_path):
    plan = read_plan(DEMO.replace("budget = 5400", "budget = 90000"))
    (bare,) = of(judge_plan(plan, files=PlanFolder(tmp_path)), "cost").values()
    assert bare.verdict == "not checked"
    (tmp_path / "prices.csv").write_text("no price list\n", encoding="utf-8")
    (refused,) = of(judge_plan(plan, files=PlanFolder(tmp_path)), "cost").values()
    assert refused.verdict == "not checked"
    assert refused.reason


@pytest.mark.parametrize(
    ("old", "new", "word"),
    [
        ('distance = "45 m", height', 'distance = "12 m", height', "exceeded"),
        (SURVEYED, "", "ask"),
        ('forecast_gust = "4 m/s"', 'forecast_gust = "30 m/s"', "exceeded"),
        (DEMO[DEMO.index("[raising]") :], "", "not checked"),
    ],
)
def test_a_lift_that_is_no_go_ask_or_not_planned_is_in_the_verdict(folder, old, new, word):
    assert old in DEMO
    before = judge_plan(read_plan(DEMO), files=PlanFolder(folder)).of("raising")
    assert before.word == "within"
    after = judge_plan(read_plan(DEMO.replace(old, new)), files=PlanFolder(folder)).of("raising")
    assert after.word == word
    # A line too near stands against the beam and against its pole.
    assert len(after.worst) == (2 if "12 m" in new else 1)
    for lift in after.worst:
        assert lift.name.startswith("20m: ")
        assert lift.reason
        assert bool(lift.change) is (word == "exceeded")


def test_the_stamp_goes_when_everything_that_holds_the_beam_up_is_within():
    assert build_stamp(load_plan(STATIONS[0]).plan, system="metric") == ""
    assert "172 % of its limit (3 exceeded" in build_stamp(
        load_plan(STATIONS[3]).plan, system="metric"
    )
