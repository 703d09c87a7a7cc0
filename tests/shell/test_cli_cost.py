"""The cost command: bill, prices from the owner's list, limits, JSON."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from boomwright.session.files import packaged_text
from fakes.command_line import Shell

DEMO = packaged_text("demo.toml")
PRICES = packaged_text("demo_prices.csv")
DAY = ("--date", "2026-11-25")


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    (tmp_path / "prices.csv").write_text(PRICES, encoding="utf-8")
    path = tmp_path / "plan.toml"
    path.write_text(DEMO, encoding="utf-8")
    return path


def document(shell: Shell, *words: object) -> dict:
    ran = shell("cost", *words, "--json", *DAY)
    assert (ran.status, ran.err) == (0, "")
    return json.loads(ran.out)


def test_json_holds_every_line_with_its_driver_and_adds_up(shell: Shell, plan: Path) -> None:
    found = document(shell, plan)
    assert found["unpriced"] == []
    assert all(line["driver"] for line in found["lines"])
    likely = sum(line["amounts"][1] for line in found["lines"])
    assert likely == pytest.approx(found["priced"][1])
    assert found["total"][1] == pytest.approx(likely + found["contingency"])
    marks = [
        cut["mark"] for order in found["cutting"] for bar in order["bars"] for cut in bar["cuts"]
    ]
    # Three elements of four sections: two go through the boom in one, the driven one is cut; the
    # boom, the two rods of the hairpin, and the insulating rod.
    assert len(marks) == len(set(marks)) == 2 * (1 + 2 * 3) + 2 * 4 + 1 + 2 + 1
    assert {change["name"] for change in found["changes"]} == {
        "one element more",
        "height, one metre more",
    }


def test_one_metre_more_height_costs_what_it_buys(shell: Shell, plan: Path) -> None:
    """By hand: pole, line and control cable 1 m longer, guys and what is dug in proportion."""
    found = document(shell, plan)
    change = next(c for c in found["changes"] if c["name"].startswith("height"))["change"][1]
    price = {line["item"]: line["amounts"][1] / line["quantity"] for line in found["lines"]}
    import math

    # Guys keep their slope, and what they pull on grows with the height of what they hold.
    guys = 3 * 1.05 * sum(math.hypot(h, 11.0) for h in (14.0, 7.5))
    much = {line["item"]: line["amounts"][1] for line in found["lines"]}
    in_ground = ("concrete", "reinforcing steel", "excavation and spoil")
    more = (
        price["support tube 114.3 x 5.4 mm"]
        + 1.1 * price["feed line RG-213"]
        + 1.1 * price["rotator control cable"]
        + price["guy strand 3/16 in EHS"] * guys / 15.0
        + sum(much[item] for item in in_ground) / 15.0
    )
    assert change == pytest.approx(1.15 * more, rel=1e-9)


def test_a_line_without_a_price_is_never_zero(shell: Shell, plan: Path) -> None:
    kept = [line for line in PRICES.splitlines() if not line.startswith("rotator with")]
    (plan.parent / "prices.csv").write_text("\n".join(kept), encoding="utf-8")
    found = document(shell, plan)
    (line,) = [each for each in found["lines"] if each["item"].startswith("rotator with")]
    assert (line["amounts"], line["remark"]) == (None, "not priced")
    assert found["budget_verdict"] == "cannot tell"
    assert "not priced" in shell("cost", plan, *DAY).out


def test_without_its_list_the_plan_still_gives_the_bill(shell: Shell, plan: Path) -> None:
    (plan.parent / "prices.csv").unlink()
    found = document(shell, plan)
    assert {notice["code"] for notice in found["notices"]} >= {"cost.no-price-list"}
    assert all(line["amounts"] is None for line in found["lines"])


def test_a_list_in_toml_gives_the_same(shell: Shell, plan: Path, tmp_path: Path) -> None:
    import csv

    rows = csv.DictReader(line for line in PRICES.splitlines() if not line.startswith("#"))
    text = 'currency = "GBP"\ndated = 2026-11-01\nsupplier = "invented"\n' + "".join(
        f"[[price]]\nitem = {json.dumps(row['item'])}\nunit = {json.dumps(row['unit'])}\n"
        f"low = {row['low']}\nlikely = {row['likely']}\nhigh = {row['high']}\n"
        for row in rows
    )
    other = tmp_path / "mine.toml"
    other.write_text(text, encoding="utf-8")
    assert document(shell, plan, "--prices", other)["total"] == document(shell, plan)["total"]


def test_over_the_budget_is_status_3_under_strict(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO.replace("budget = 5400", "budget = 100"), encoding="utf-8")
    ran = shell("cost", plan, "--strict", *DAY)
    assert ran.status == 3
    assert "budget" in ran.err


def test_bad_day_and_bad_list_are_status_2(shell: Shell, plan: Path) -> None:
    ran = shell("cost", plan, "--date", "tomorrow")
    assert ran.status == 2
    assert "2026-01-31" in ran.err
    (plan.parent / "prices.csv").write_text("item,price\nx,1\n", encoding="utf-8")
    ran = shell("cost", plan, *DAY)
    assert ran.status == 2
    assert "columns" in ran.err


def test_a_plan_without_prices_is_listed_without_money(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO[: DEMO.index("[prices]")], encoding="utf-8")
    found = document(shell, plan)
    assert found["currency"] is None
    assert "cost.no-currency" in {notice["code"] for notice in found["notices"]}


def test_nothing_priced_is_said_and_no_sum_of_nothing(shell: Shell, plan: Path) -> None:
    (plan.parent / "prices.csv").unlink()
    said = shell("cost", plan, "--full", *DAY).out
    assert "Estimate: nothing priced yet" in said
    assert "Sums, and what one step more" not in said


def test_the_total_says_what_it_does_not_hold(shell: Shell, plan: Path) -> None:
    assert "without" not in shell("cost", plan, *DAY).out
    bare = DEMO.replace('tax = "0 %"', "").replace("deliveries = 2, ", "")
    plan.write_text(bare.replace('concrete_minimum = "1 m3"', ""), encoding="utf-8")
    said = " ".join(shell("cost", plan, *DAY).out.split())
    assert "without freight, minimum order of concrete and tax" in said
    assert document(shell, plan)["unsaid"] == ["freight", "minimum order of concrete", "tax"]
    (line,) = [each for each in document(shell, plan)["lines"] if each["item"] == "tax"]
    assert (line["quantity"], line["amounts"], line["remark"]) == (None, None, "not said")


def test_concrete_is_not_delivered_below_the_minimum_order(shell: Shell, plan: Path) -> None:
    plan.write_text(DEMO.replace('"1 m3"', '"4 m3"'), encoding="utf-8")
    (line,) = [each for each in document(shell, plan)["lines"] if each["item"] == "concrete"]
    assert line["quantity"] == 4.0
    assert "minimum order" in line["driver"]


def test_the_list_to_fill_in_is_written_once_and_prices_the_plan(
    shell: Shell, plan: Path, tmp_path: Path
) -> None:
    blank = tmp_path / "blank.csv"
    assert "Fill in low, likely, high" in shell("cost", plan, "--blank", blank).out
    again = shell("cost", plan, "--blank", blank)
    assert again.status == 2
    assert "exists" in again.err
    assert document(shell, plan, "--prices", blank)["total"] == document(shell, plan)["total"]
