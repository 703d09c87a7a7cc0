"""The verbs of the package: a plan finds what lies beside its file, and a changed one its text."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import boomwright as bw
from boomwright.plan import read_plan
from boomwright.session import verbs
from boomwright.session.files import packaged_text

ROOT = Path(__file__).resolve().parents[3]
DEMO = ROOT / "src/boomwright/session/data/demo.toml"


def test_prices_are_found_beside_the_plan(tmp_path: Path) -> None:
    path = tmp_path / "plan.toml"
    path.write_text(packaged_text("demo.toml"), encoding="utf-8")
    alone = bw.price(bw.load(path), today="2026-11-25")
    assert "cost.no-price-list" in {notice.code for notice in alone.notices}
    (tmp_path / "prices.csv").write_text(packaged_text("demo_prices.csv"), encoding="utf-8")
    made = bw.price(bw.load(path), today="2026-11-25")
    assert made.price_list == "prices.csv"
    assert made.estimate is not None
    told = repr(bw.report_on(made))
    likely = f"{made.estimate.total.likely:_.0f}".replace("_", " ")
    assert f"{likely} {made.estimate.currency}" in told


def test_a_plan_remembers_its_file_and_stays_equal_to_one_without() -> None:
    plan = bw.load(DEMO)
    assert plan.file is not None
    assert (plan.file.folder, plan.file.name) == (str(DEMO.parent), "demo.toml")
    assert plan == read_plan(DEMO.read_text(encoding="utf-8"))
    assert "boomwright = 1" not in repr(plan)


def test_a_changed_plan_is_not_searched_in_the_text_of_the_old_one() -> None:
    plan = bw.load(DEMO)
    assert verbs._text(plan) == plan.file.text
    higher = replace(plan, beams=tuple(replace(beam, height=20.0) for beam in plan.beams))
    assert read_plan(verbs._text(higher)).beams == higher.beams
    assert verbs._files(higher).path == DEMO.parent
