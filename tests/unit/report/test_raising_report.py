"""What the report of the raising says: heads, units and cells, alike for every reader."""

from __future__ import annotations

import re

import pytest

from boomwright.base.quantity import Quantity, write
from boomwright.charts import LIGHT
from boomwright.charts.blocks import Facts, Grid, Heading, Steps, Words
from boomwright.plan import read_plan
from boomwright.render.field_sheet import part_blocks, sheet_blocks
from boomwright.render.json.raising import raising_document
from boomwright.render.rows import text_table
from boomwright.render.written import report_on
from boomwright.report.model import Canvas
from boomwright.report.raising import raising_report
from boomwright.report.raising.computed import computed
from boomwright.session.files import packaged_text
from boomwright.study.raising import raise_plan

DEMO = packaged_text("demo.toml")
RESULT = raise_plan(read_plan(DEMO), today="2026-11-25")
REPORT = raising_report(RESULT, number=0)

HEADS = {
    "methods": ("way up", "answer", "why", "people needed"),
    "questions": ("question", "answer", "says", "on"),
    "picks": ("", ""),
    "power-lines": ("power line", "answer", "nearest it can come", "least allowed", "why"),
    "ground": ("held against", "answer", "kept empty to", "begins at", "found"),
    "weather": ("", ""),
    "crew": ("role", "people", "stands", "task", "name"),
    "signals": ("word", "hands"),
    "holds": ("hold", "go-ahead by", "until"),
}


def test_every_table_has_its_heads() -> None:
    made = {table.name: text_table(table, system="metric").header for table in REPORT.tables}
    assert made == HEADS


@pytest.mark.parametrize(
    ("system", "line", "begin", "radius"),
    [
        ("metric", ("21.15 m", "3.05 m"), "only with gusts below 4.5 m/s", "23.15 m"),
        ("us", ("69 ft 5 in", "10 ft 0 in"), "only with gusts below 10 mph",
         "75 ft 11 in"),
    ],
)  # fmt: skip
def test_figures_are_in_the_digits_of_their_reader(system, line, begin, radius) -> None:
    (row,) = text_table(REPORT.table("power-lines"), system=system).rows
    assert row[:4] == ("along the lane", "GO", *line)
    weather = dict(text_table(REPORT.table("weather"), system=system).rows)
    assert weather["Begin hoisting"] == begin
    assert weather["Kept empty"] == f"{radius} around foot and load, roped off"


def test_the_sheet_lays_out_the_same_tables() -> None:
    blocks = sheet_blocks(REPORT, canvas=Canvas(palette=LIGHT, system="us"))
    grids = {block.columns: block for block in blocks if isinstance(block, Grid)}
    ways = grids[("Way up", "Answer", "Why", "People needed")].rows
    assert [row[0] for row in ways] == ["lift truck", "climbers with a hauling line"]
    for name in ("power-lines", "ground", "crew"):
        told = text_table(REPORT.table(name), system="us")
        grid = grids[tuple(head[:1].upper() + head[1:] for head in told.header)]
        assert grid.rows == told.rows
        assert len(grid.shares) == len(grid.align) == len(grid.columns)
    facts = [row for block in blocks if isinstance(block, Facts) for row in block.rows]
    assert ("Begin hoisting", "only with gusts below 10 mph") in facts
    headings = [block.text for block in blocks if isinstance(block, Heading)]
    assert headings[:2] == ["Ways up, best first", "Asked, and answered by"]
    assert "Taking it down again" in headings
    assert any(isinstance(block, Steps) and block.title == "Order of the day" for block in blocks)
    loud = [block.text for block in blocks if isinstance(block, Words) and block.tone == "loud"]
    assert loud[1] == "ASK: do not lift before this is settled."


def test_the_document_keeps_its_names_and_says_no_second_unit() -> None:
    (beam,) = raising_document(RESULT)["beams"]
    lift = beam["lift"]
    assert lift["mass_kg"] == RESULT.lifts[0].lift.job.load.mass
    assert lift["power_lines"][0]["required"] == pytest.approx(3.048)
    assert set(lift["power_lines"][0]) == {"name", "verdict", "gap", "required", "reason"}
    assert set(lift["methods"][0]["forces"][0] if lift["methods"][0]["forces"] else ()) <= {
        "name", "value_n", "limit_n",
    }  # fmt: skip
    assert lift["weather"]["reason"].startswith("gusts 4.0 m/s; hoist below 4.5 m/s")
    assert not re.search(r"\d (?:mph|lbf?|ft|in)\b", str(lift))


def test_how_each_figure_was_computed_is_told_in_one_system() -> None:
    canvas = Canvas(palette=LIGHT, system="us")
    _, grid = part_blocks([computed(RESULT.lifts[0])], canvas=canvas)
    told = " ".join(cell for row in grid.rows for cell in row)
    assert "highest part of support, mast and lift, 55 ft 5 in, + 20 ft 6 in" in told
    assert not re.search(r"\d (?:m|N|kN|kg)\b", told)


def test_a_prompt_says_first_that_it_is_no_go_yet() -> None:
    told = repr(report_on(RESULT, system="us"))
    weight = write(Quantity(RESULT.lifts[0].lift.job.load.mass, "mass"), system="us")
    assert weight.endswith(" lb")
    assert told.index("Way up: ASK: lift truck") < told.index("To settle before a go")
    said = f"Weight: {weight} with its rigging, to be weighed"
    assert told.index("To settle before a go") < told.index(said)


def test_a_beam_on_a_platform_is_given_no_bridle() -> None:
    assert RESULT.lifts[0].lift.methods[0].way == "truck"
    assert [fact.label for fact in REPORT.table("picks").items] == ["Balance point", "Rigging"]
    # 30.5 kg x 9.80665 x 5 in each, {asme-b30-9}.
    mass = RESULT.lifts[0].lift.job.load.mass
    told = write(REPORT.table("picks").items[1].value, system="metric")
    assert f"two slings and a safety sling, each {mass * 9.80665 * 5:.0f} N or more" in told
    assert not any("bridle" in str(row).lower() for row in computed(RESULT.lifts[0]).items)


def test_a_boom_that_sags_is_told_before_the_lift_with_both_arms() -> None:
    blocks = sheet_blocks(REPORT, canvas=Canvas(palette=LIGHT, system="metric"))
    (told,) = (
        block.text for block in blocks if isinstance(block, Words) and "sags past" in block.text
    )
    rear, front = (arm.sag * 1e3 for arm in RESULT.lifts[0].report.arms)
    assert told.index(f"front arm {front:.1f} mm") < told.index(f"rear arm {rear:.1f} mm")
    assert "A tie from above" in told
