"""What the report of the structure says: heads, units and cells, alike for every reader."""

from __future__ import annotations

import json
import re

import pytest

from boomwright.charts import LIGHT
from boomwright.render.json.structure import structure_document
from boomwright.render.laid import lay_out
from boomwright.render.rows import text_table, without_empty
from boomwright.render.written import report_on
from boomwright.report.model import Canvas
from boomwright.report.structure import structure_report
from boomwright.session.files import load_plan
from boomwright.study.structure import structure_plan
from example_stations import station

FOUND = structure_plan(load_plan(station("04")).plan)
REPORT = structure_report(FOUND)

HEADS = {
    "ledger": ("check", "verdict", "use", "demand", "limit", "basis"),
    "fixes": ("element", "change", "use after", "stress before, {s}", "stress after, {s}",
              "added mass",
              "more droop", "electrical length"),
    "areas": ("area", "projected, {a}", "drag, 1.2 times, {a}", "flat plate, 2/3, {a}"),
    "elements": ("element", "from the boom", "diameter, {d}", "wall, {d}", "stress, {s}",
                 "yields at, {v}", "in wind"),
    "tips": ("element", "bare, {d}", "moment at the boom, full calculation over simple"),
    "vibration": ("element", "mode 1", "mode 2", "mode 3", "mode 4"),
    "arms": ("arm", "length", "moment of weights, {m}", "moment of wind, {m}", "sag, {d}",
             "stress, {s}", "pull of the tie"),
    "loads": ("what", "load", "basis"),
    "load-cases": ("case", "wind, ice, and how they act"),
}  # fmt: skip
UNITS = {
    "metric": {"s": "MPa", "a": "m²", "d": "mm", "v": "m/s", "m": "N m"},
    "us": {"s": "ksi", "a": "ft²", "d": "in", "v": "mph", "m": "lbf ft"},
}


@pytest.mark.parametrize("system", list(UNITS))
def test_every_table_has_its_heads_in_the_readers_units(system) -> None:
    made = {table.name: text_table(table, system=system).header for table in REPORT.tables}
    told = {name: tuple(head.format(**UNITS[system]) for head in heads)
            for name, heads in HEADS.items()}  # fmt: skip
    assert {name: made[name] for name in told} == told
    assert [name for name in made if not name.startswith("reminder")] == list(HEADS)


@pytest.mark.parametrize(
    ("system", "row"),
    [
        ("metric", ("reflector (element 1)", "0.00 m", "38.10", "2.10", "144", "43", "weakest")),
        ("us", ("reflector (element 1)", "0 in", "1.500", "0.083", "20.9", "96", "weakest")),
    ],
)
def test_a_tube_is_told_in_the_digits_of_its_reader(system, row) -> None:
    assert text_table(REPORT.table("elements"), system=system).rows[0] == row


def test_a_row_of_the_document_is_the_row_of_the_table() -> None:
    (beam,) = structure_document(FOUND)["beams"]
    element = FOUND.report.beams[0].elements[0]
    first, section = beam["elements"][0]["sections"][0], element.strength.sections[0]
    assert first == {
        "from_boom_m": section.from_boom,
        "diameter_m": section.diameter,
        "wall_m": section.wall,
        "bare_stress_pa": section.bare_stress,
        "yield_speed_bare_m_s": section.yield_speed_bare,
        "iced_stress_pa": section.iced_stress,
        "yield_speed_iced_m_s": section.yield_speed_iced,
    }
    assert beam["arms"][0]["tie_pull_n"] is None
    assert beam["iced_worst_m2"] is None
    fix = structure_document(FOUND)["fixes"][0]
    assert fix["text"] == "double the wall of section 1 over its inner 1400 mm"
    assert (fix["beam"], fix["element"], fix["stress_before_pa"]) == (
        0, 0, FOUND.fixes[0].stress_before,
    )  # fmt: skip
    json.dumps(structure_document(FOUND), allow_nan=False)


def test_no_reader_meets_a_figure_of_the_other_system() -> None:
    metric, us = (str(report_on(FOUND, system=system)) for system in ("metric", "us"))
    for text in ("for 20 m on", "20m", "0.6 ft³ (80 lb)", "A 2 in tube", "a 2 in pipe",
                 "(2.000 in)", "(2.375 in)", "Three inches"):  # fmt: skip
        metric, us = metric.replace(text, ""), us.replace(text, "")
    assert not re.search(r"\d (?:m|mm|kg|N|kN|MPa|kPa|m/s|m²|kg/m³)\b", us)
    assert not re.search(r"\d (?:ft|in|lb|lbf|ksi|psf|mph|ft²|lb/ft³)\b", metric)


def test_a_limit_that_is_passed_never_reads_as_100_percent() -> None:
    lines = text_table(REPORT.table("ledger"), system="metric").rows
    over = [row for row in lines if row[1] == "exceeded"]
    assert over
    assert all(row[2] not in {"100 %", "100.0 %"} for row in over)
    # The worst stands first and says what would change it.
    assert over[0][2] == "172 %"
    assert "To change it: make the pad wider" in over[0][5]


def test_page_book_and_prompt_say_the_same_rows() -> None:
    shown = lay_out(REPORT, canvas=Canvas(palette=LIGHT, system="us"))
    page = {each.name: each.table.rows for each in shown.tables}
    written = report_on(FOUND, system="us")
    for table in REPORT.tables:
        lacking = {number for number, each in enumerate(table.columns) if not each.key}
        rows = without_empty(text_table(written.table(table.name), system="us"), kept=lacking).rows
        assert page[table.name] == rows
    assert shown.facts[1] == ("Furthest over its limit", "172 %, base: pressure on the soil")
    told = str(written)
    assert all(label in told for label, _ in shown.facts)
    assert [(each.element, each.number) for each in shown.changes] == [(0, 0), (1, 0)]
    first = "75 % of its limit instead of 107 %, enough; 20.9 ksi to 14.6 ksi, +3.5 lb; electrical "
    assert shown.changes[0].gain.startswith(first)


def test_what_several_checks_rest_on_is_told_once() -> None:
    """Each wind has a name, and its words stand in the list of cases alone."""
    cases = text_table(REPORT.table("load-cases"), system="metric").rows
    basis = [row[5] for row in text_table(REPORT.table("ledger"), system="metric").rows]
    assert len(cases) > 3
    for name, said in cases:
        told = [*basis, *(other for _, other in cases)]
        assert sum(f"design wind, case {name};" in f"{each};" for each in told) > 1
        assert "Kz" in said or "case" in said
        assert not any(said in each for each in basis)
