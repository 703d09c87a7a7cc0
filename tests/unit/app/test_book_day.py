"""What day a book counts with: given, the plan's, the newest price; never the clock."""

from __future__ import annotations

import datetime as dt

import pytest

from boomwright.base import PlanError, plan_verdict
from boomwright.charts.blocks import Facts, Grid
from boomwright.plan import read_plan
from boomwright.session import work_files
from boomwright.session.book import book_bytes
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.study.computing import Computation
from boomwright.study.declination import declination, middle_of_model
from fakes.readings import fake_readings

DEMO = packaged_text("demo.toml")
UNDATED = "\n".join(line for line in DEMO.splitlines() if not line.startswith("dated"))


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A folder with prices, and a clock that must not be read."""
    (tmp_path / "prices.csv").write_text(packaged_text("demo_prices.csv"))

    def asked() -> str:
        pytest.fail("the book looked at the clock")

    monkeypatch.setattr(work_files, "day_of_today", asked)
    return tmp_path


def computed(text: str) -> Computation:
    plan = read_plan(text)
    return Computation(plan=plan, beams=(fake_readings(beam=plan.beams[0]),))


def chapters(text: str, folder, **given):
    pages = work_files.work_for_book(
        computed(text), files=PlanFolder(folder), system="metric", **given
    )
    return pages.chapters


def said(made) -> str:
    rows = [block.rows for one in made for block in one.blocks if isinstance(block, Facts | Grid)]
    return " ".join(cell for table in rows for row in table for cell in row)


def test_given_day_comes_before_the_plans_own(folder):
    assert "age of prices counted to 2027-02-03" in said(chapters(DEMO, folder, today="2027-02-03"))
    assert "age of prices counted to 2026-11-25" in said(chapters(DEMO, folder))


def test_undated_plan_counts_to_the_newest_price_and_says_so(folder):
    made = chapters(UNDATED, folder)
    assert "age of prices counted to 2026-11-01" in said(made)
    assert "for 2026-11-01" in said(made)
    (notice,) = (n for one in made for n in one.notices if n.code == "book.undated")
    assert "2026-11-01" in notice.text
    codes = {n.code for one in chapters(DEMO, folder) for n in one.notices}
    assert "book.undated" not in codes


def test_without_prices_the_declination_holds_for_the_middle_of_its_model(folder):
    (folder / "prices.csv").unlink()
    assert f"for {middle_of_model()}" in said(chapters(UNDATED, folder))
    assert declination(latitude=0.9, longitude=0.0, day=middle_of_model()) is not None
    assert dt.date.fromisoformat(middle_of_model()).year == 2027  # {wmm-2025}: 2025 to 2029


@pytest.mark.parametrize(("text", "given", "issued"), [
    (DEMO, "2027-02-03", "2027-02-03"), (DEMO, "", "2026-11-25"), (UNDATED, "", ""),
])  # fmt: skip
def test_the_title_page_bears_the_given_day_or_the_plans_or_none(monkeypatch, text, given, issued):
    """Set types alone: that the same contents make the same bytes is tested with the book."""
    seen = {}
    making = "boomwright.render.book.typesetting.make_book"
    monkeypatch.setattr(making, lambda **all_: seen.update(all_) or {})
    book_bytes(
        computed(text),
        verdict=plan_verdict([]),
        digest="3f9a",
        system="metric",
        paper="a4",
        issued=given,
    )
    assert seen["issued"] == issued


def test_two_makings_without_a_day_are_the_same(folder):
    assert chapters(UNDATED, folder) == chapters(UNDATED, folder)


def test_a_day_that_is_none_is_refused():
    with pytest.raises(PlanError) as refused:
        read_plan(DEMO.replace('dated = "2026-11-25"', 'dated = "2026-02-30"'))
    (fault,) = refused.value.faults
    assert fault.path == "dated"
    assert "not a day of the calendar" in fault.message
