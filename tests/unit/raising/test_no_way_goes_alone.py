"""No way up is called GO while what holds the beam up stands against every lift."""

from __future__ import annotations

from boomwright.plan import read_plan
from boomwright.render.json.raising import raising_document
from boomwright.report.raising import raising_report
from boomwright.report.raising.methods import VERDICTS
from boomwright.session.files import packaged_text
from boomwright.study.raising import raise_plan


def test_the_list_of_ways_says_go_only_when_the_lift_does():
    plan = read_plan(packaged_text("demo.toml"))
    result = raise_plan(plan, today="2026-11-25")
    lift = result.lifts[0].lift
    # The demo's rotator has no rating for side force: the truck by itself would go.
    assert lift.methods[0].verdict == "go"
    assert lift.verdict != "go"
    table = raising_report(result, number=0).table("methods")
    answers = [table.columns[1].get(one) for one in table.items]
    assert answers[0] == VERDICTS[lift.verdict]
    assert "GO" not in answers
    (beam,) = raising_document(result)["beams"]
    verdicts = [one["verdict"] for one in beam["lift"]["methods"]]
    assert verdicts[0] == lift.verdict
    assert "go" not in verdicts
