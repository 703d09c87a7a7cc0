"""A report that shows itself: as text at a prompt, as HTML in a notebook, in units of a reader."""

from __future__ import annotations

import os
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

import boomwright as bw
from boomwright.base import BoomwrightError
from boomwright.base.quantity import Quantity, write
from boomwright.render.written import SUBJECTS, WrittenReport, report_on
from boomwright.report.model import Fact, Picture, Report, Table, column
from boomwright.study.computing import Computation
from example_stations import STATIONS
from fakes.readings import fake_readings

#: every third; ``BOOMWRIGHT_PLANS`` takes all
SOME = STATIONS if "BOOMWRIGHT_PLANS" in os.environ else STATIONS[::3]
EVIL = "<script>alert(1)</script> & \x1b[31m"


class Reader(HTMLParser):
    """Notes tags that are open at the end, and every tag met."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.met: list[str] = []

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)
        self.met.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.met.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag


def read(html: str) -> Reader:
    reader = Reader()
    reader.feed(html)
    reader.close()
    return reader


def made_of(text: str) -> WrittenReport:
    table = Table(
        name="one",
        caption=text,
        columns=(
            column("length", lambda item: item, kind="span"),
            column(text, lambda item: text, full=True),
        ),
        items=[10.0],
        note=text,
    )
    picture = Picture(name="p", title=text, draw=lambda canvas: "<svg></svg>", behind=table)
    report = Report(
        subject="made",
        title=text,
        answer=(Fact(label=text, value=Quantity(10.0, "span")),),
        tables=(table,),
        pictures=(picture,),
        notices=(bw.Notice(code="a.b", text=text),),
    )
    return WrittenReport(reports=(report,), system="metric")


def test_a_notebook_gets_no_markup_of_the_owner() -> None:
    html = made_of(EVIL)._repr_html_()
    assert "<script" not in html
    assert "&lt;script&gt;" in html
    reader = read(html)
    assert reader.open == []
    assert {"svg", "figure", "details", "table", "caption"} <= set(reader.met)


def test_a_prompt_gets_no_control_characters_of_the_owner() -> None:
    assert "\x1b" not in str(made_of(EVIL))
    assert "\x1b" not in repr(made_of(EVIL))


def test_a_prompt_shows_a_quick_look_and_print_the_full_account() -> None:
    made = made_of("basis")
    assert repr(made).count("basis") < str(made).count("basis")
    assert "10.00 m" in repr(made)


def test_a_reader_in_feet_gets_feet() -> None:
    made = replace(made_of("boom"), system="us")
    for text in (str(made), made._repr_html_()):
        assert "32 ft 10 in" in text
        assert "10.00" not in text


def test_a_computation_tells_its_figures_and_pictures() -> None:
    plan = bw.load(STATIONS[0])
    readings = fake_readings(beam=plan.beams[0])
    made = report_on(Computation(plan=plan, beams=(readings,)))
    reader = read(made._repr_html_())
    assert reader.open == []
    assert reader.met.count("svg") == 6
    heads = [each.head for each in made.table("sweep").columns]
    assert heads[:2] == ["frequency", "impedance"]
    assert "Take-off angle" in repr(made)


@pytest.mark.parametrize("path", SOME, ids=lambda path: path.stem)
def test_the_verdict_of_a_station_stands_first(path: Path) -> None:
    found = bw.check_structure(bw.load(path))
    made = report_on(found)
    verdict = made.verdict
    assert verdict is not None
    worst = found.report.ledger[0].verdict if not found.report.exceeded else "exceeded"
    assert verdict.word == worst
    worst = "not fully checked" if worst == "not checked" else worst
    assert str(made).startswith(f"Verdict: {worst}")
    assert repr(made).startswith(f"Verdict: {worst}")
    assert made._repr_html_().startswith(f"<section><p><strong>Verdict: {worst}")
    for line in found.report.ledger:
        name = write(line.name, system=made.system).split(":")[0]
        assert name in str(made)
        assert line.verdict != "exceeded" or name in repr(made)


def test_a_margin_is_told_in_both_systems() -> None:
    made = report_on(bw.check_structure(bw.load(STATIONS[2])), system="us")
    table = made.table("ledger")
    bending = next(one for one in table.items if one.unit == "MPa")
    demand = next(each for each in table.columns if each.head == "demand").get(bending)
    assert write(demand, system="metric") == f"{bending.demand:.3g} MPa"
    assert write(demand, system="us") == f"{bending.demand / 6.894757:.3g} ksi"


def test_a_lift_that_stands_on_unchecked_parts_is_never_told_as_a_go() -> None:
    made = report_on(bw.plan_raising(bw.load(STATIONS[2]), today="2026-11-25"))
    assert made.verdict is not None
    assert made.verdict.word == "not checked"
    assert "Way up: ASK" in repr(made)
    assert "To settle before a go" in repr(made)


def test_units_are_those_the_plan_is_written_in(tmp_path: Path) -> None:
    path = tmp_path / "feet.toml"
    path.write_text(
        'boomwright = 1\ntitle = "feet"\n[site]\nground = "free space"\n[[beam]]\nname = "a"\n'
        'band = ["14 MHz", "14.35 MHz"]\ndesign = "14.175 MHz"\nheight = "52 ft"\n'
        'heading = "0 deg"\nmaterial = "perfect"\n'
        'feed = { kind = "split", gap = "1 in" }\n[[beam.element]]\n'
        'role = "driven"\nat = "0 ft"\ndiameter = "1 in"\nlength = "33 ft"\n',
        encoding="utf-8",
    )
    plan = bw.load(path)
    assert report_on(bw.check_structure(plan)).system == "us"
    assert report_on(bw.check_structure(replace(plan, file=None))).system == "metric"


def test_what_is_no_result_is_refused_with_what_would_be() -> None:
    with pytest.raises(BoomwrightError, match=r"no report on a str -> give a result: Computation"):
        report_on("plan.toml")


def test_a_table_that_is_not_there_is_refused_with_those_that_are() -> None:
    with pytest.raises(BoomwrightError, match=r"no table two -> take one of one"):
        made_of("text").table("two")


def test_every_subject_has_its_line() -> None:
    assert len(SUBJECTS) == 12
