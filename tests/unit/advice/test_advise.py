"""From a place to whole stations: complete plans that pass the check, judged by every room."""

from __future__ import annotations

import io
import json
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from pypdf import PdfReader

from boomwright.base import BoomwrightError
from boomwright.base.quantity import write
from boomwright.charts.palette import DARK, LIGHT
from boomwright.cost import Services
from boomwright.plan import Plan, plan_notices, read_place, read_plan, write_plan
from boomwright.plan.shapes import shape_plan
from boomwright.reach import TerrainProfile
from boomwright.render.book.proposal import make_proposal
from boomwright.render.json.advice import advice_document
from boomwright.render.rows import text_table
from boomwright.render.written import report_on
from boomwright.report.advice import advice_report
from boomwright.report.advice.proposal import propose
from boomwright.report.advice.words import reasons
from boomwright.report.model import Canvas
from boomwright.report.model import Table as ReportTable
from boomwright.session.advice import write_chosen
from boomwright.study.advice.advise import Advice, advise
from boomwright.study.advice.choosing import chosen_text, prices_to_fill
from boomwright.study.advice.confidence import weigh
from boomwright.study.advice.judged import Asked
from boomwright.study.advice.ranking import compared, put_forward, unbeaten
from boomwright.study.advice.table import Table, usual_table
from boomwright.study.advice.variations import vary
from boomwright.study.cost import price_plan
from boomwright.study.reach import reach_plan
from boomwright.study.requests import RequestError
from boomwright.study.verdict import judge_plan

PLACE = """
boomwright = 1
title = "Corner house with a long garden"
[site]
position = "51.40 N, 0.95 W"
ground = "medium dry"
wind = "22.5 m/s"
ice = "5 mm"
elevation = "70 m"
[site.wind_basis]
kind = "characteristic"
edition = "BS EN 1991-1-4"
terrain = "III"
orography = 1
[site.ice_basis]
gust = "18 m/s"
mapped = false
[place]
bands = ["20 m"]
highest = "12 m"
lot = ["24 m", "16 m"]
  [[place.standing]]
  name = "the two limes"
  kind = "trees"
  height = "11 m"
[support]
soil = "sandy gravel"
frost_depth = "0.5 m"
[reach]
target = [{ name = "Boston", position = "42.4 N, 71.1 W" }]
[permits]
country = "GB"
boundary = "8 m"
walkway = "14 m"
power_lines_surveyed = { answer = true, by = "station owner", on = "2026-05-09" }
[prices]
currency = "GBP"
[raising]
ground_crew = 4
forecast_gust = "3 m/s"
"""


def small(table: Table) -> Table:
    """A table of six stations here."""
    names = {"inverted-vee", "hexagon-shaped wire beam", "three elements"}
    heights = {"light pole": (8.0,), "tilting tube": (8.5, 10.5), "trees": (8.0,)}
    return replace(
        table,
        shape=tuple(row for row in table.shape if row.name in names),
        support=tuple(
            replace(row, heights=heights[row.kind]) for row in table.support if row.kind in heights
        ),
    )


@pytest.fixture(scope="module")
def place() -> Plan:
    return read_place(PLACE)


@pytest.fixture(scope="module")
def advice(place: Plan) -> Advice:
    return advise(place, table=small(usual_table()))


def test_every_station_is_tried_and_made(advice: Advice) -> None:
    found = [(each.name, each.station.height) for each in advice.candidates]
    assert found == [
        ("inverted-vee on light pole", 8.0),
        ("inverted-vee on the two limes", 11.0),
        ("hexagon-shaped wire beam on light pole", 8.0),
        ("hexagon-shaped wire beam on tilting tube", 8.5),
        ("hexagon-shaped wire beam on tilting tube", 10.5),
        ("three elements on tilting tube", 8.5),
        ("three elements on tilting tube", 10.5),
    ]
    assert advice.unmade == ()


def test_higher_and_larger_gives_more(advice: Advice) -> None:
    gain = [each.served.mean_db for each in advice.candidates]
    assert gain[1] > gain[0]
    assert gain[4] > gain[3] > gain[2] - 0.5
    assert gain[5] > gain[3] + 2.0
    assert gain[6] > gain[4] + 2.0


def test_every_plan_is_complete_and_reads_as_written(advice: Advice) -> None:
    for each in advice.candidates:
        text = chosen_text(advice, each)
        assert text.startswith(f"# {each.name}")
        again = read_plan(text)
        assert again == each.plan
        assert write_plan(again) == write_plan(each.plan)
        assert not [one for one in plan_notices(again) if one.severity == "limit"]


def test_a_tape_can_measure_every_length(advice: Advice) -> None:
    for each in advice.candidates:
        elements = [tube for one in each.plan.beams[0].elements for tube in one.half]
        assert all(round(tube.length, 4) == tube.length for tube in elements)
        support = each.plan.support
        for ring in () if support is None else support.guy:
            assert round(ring.anchor_radius / 0.05, 6) == round(ring.anchor_radius / 0.05)


def test_the_verdict_is_that_of_every_other_command(advice: Advice) -> None:
    """No word of a room is lost; the place's limits and the feed come on top."""
    one = advice.candidates[-1]
    rooms = judge_plan(one.plan)
    told = {(each.subject, each.verdict, each.use) for each in one.verdict.findings}
    assert {(each.subject, each.verdict, each.use) for each in rooms.findings} <= told
    assert {subject for subject, _, _ in told} >= {"place", "feed", "structure", "permits"}


def test_decibels_are_those_of_the_reach_command(advice: Advice) -> None:
    """Between the least and the most that reach finds over the same angles, less the line."""
    one = advice.candidates[-1]
    (band,) = one.served.bands
    (path,) = [each for each in reach_plan(one.plan).beams[0].paths if each.path.way == "short"]
    hop = next(each.hop for each in path.hops if each.hop.layer.name == "F2")
    gain = band.gains_dbi[0] + band.line_loss_db
    assert hop.lowest_gain_dbi < gain < hop.highest_gain_dbi
    assert path.off_heading_deg == pytest.approx(0.0, abs=0.5)


def test_what_was_not_looked_at_is_said(place: Plan, advice: Advice) -> None:
    assert place.place is not None
    codes = {each.code for each in advice.notices}
    assert codes == {"advise.flat-ground", "advise.not-approved"}
    further = replace(advice, plan=replace(place, raising=None), untried=3)
    codes = {each.code for each in further.notices}
    assert codes == {
        "advise.flat-ground", "advise.not-approved", "advise.no-crew", "advise.stopped",
    }  # fmt: skip
    hill = TerrainProfile(distance=np.array([0.0, 9.0]), height=np.zeros(2))
    hilly = replace(advice, wanted=(replace(advice.wanted[0], terrain=hill),))
    assert "advise.flat-ground" not in {each.code for each in hilly.notices}
    partly = replace(advice, wanted=(*hilly.wanted, replace(advice.wanted[0], name="Oslo")))
    assert (
        "taken as flat towards Oslo."
        in {each.code: each.text for each in partly.notices}["advise.flat-ground"]
    )


def test_people_on_the_day_are_counted(advice: Advice) -> None:
    """Nobody climbs: ropes by hand need three, a tube that tilts four."""
    found = {each.station.turns: each.people for each in advice.candidates}
    assert found == {False: (0, 3), True: (0, 4)}


def test_a_way_up_that_cannot_be_planned_is_told_as_such(priced: Advice) -> None:
    """Nobody reads of "not known people"."""
    unplanned = tuple(replace(each, people=None) for each in priced.candidates)
    for made, said in (
        (priced, {"3", "4"}),
        (replace(priced, candidates=unplanned), {"not known"}),
    ):
        told = {
            write(fact.value, system="metric")
            for one in propose(made).stations
            for fact in one.facts
            if fact.label == "People"
        }
        assert told <= said
        assert told


def test_no_rating_is_guessed(advice: Advice) -> None:
    for each in advice.candidates:
        if each.station.turns:
            support = each.plan.support
            assert support is not None
            assert support.rotator is not None
            assert support.rotator.holding_torque is None
            assert not each.checked
            assert [one for one in each.questions if one.finding.verdict == "not checked"]


def test_a_beam_that_cannot_turn_on_its_lot_is_not_put_forward(place: Plan) -> None:
    assert place.place is not None
    narrow = replace(place, place=replace(place.place, lot=(24.0, 6.0)))
    table = small(usual_table())
    table = replace(
        table,
        shape=tuple(row for row in table.shape if row.wire == "hexagon"),
        support=tuple(row for row in table.support if row.kind == "light pole"),
    )
    advice = advise(narrow, table=table)
    (one,) = advice.candidates
    assert not one.allowed
    names = {each.name for each in one.verdict.findings if each.verdict == "exceeded"}
    assert names == {"room to turn", "room for the guys"}
    assert advice.picks == ()


def test_the_answer_fits_forty_lines_and_json_is_plain(advice: Advice) -> None:
    text = report_on(advice).text(quick=True)
    assert text.count("\n") <= 40
    assert "Strongest, with checks open" in text
    assert "Best that is allowed" not in text
    document = json.loads(json.dumps(advice_document(advice), allow_nan=False))
    assert len(document["candidates"]) == len(advice.candidates)
    assert document["put_forward"][-1]["checked"] is False


def test_what_cannot_be_made_says_why(place: Plan) -> None:
    """Tubes of the table end at 5.8 m: nobody builds 40 m elements of them."""
    assert place.place is not None
    table = small(usual_table())
    table = replace(table, shape=table.shape[-1:], support=table.support[-1:])
    advice = advise(replace(place, place=replace(place.place, bands=("40 m",))), table=table)
    assert advice.candidates == ()
    assert advice.picks == ()
    text = str(report_on(advice, system="us"))
    assert text.count("no tubes for half elements of 3") == 1
    assert "10.7" not in text


def test_a_target_at_the_place_itself_and_a_wish_missed_are_said(advice: Advice) -> None:
    assert advice.plan.reach is not None
    assert advice.plan.place is not None
    (boston,) = advice.plan.reach.target
    here = (advice.plan.site.latitude, advice.plan.site.longitude)
    home = replace(boston, name="home", position=here, locator="")
    plan = replace(
        advice.plan,
        reach=replace(advice.plan.reach, target=(home, boston)),
        place=replace(advice.plan.place, least_db=30.0),
    )
    told = replace(advice, plan=plan)
    assert "advise.target-here" in [each.code for each in told.notices]
    assert "advise.target-here" not in [each.code for each in advice.notices]
    words = [str(each) for pick in told.picks for each in reasons(told, pick)]
    assert any("short of what you ask for" in each for each in words)


def test_us_readers_get_feet_first(advice: Advice) -> None:
    text = report_on(advice, system="us").text(quick=True)
    assert "34.4 ft" in text
    assert " m," not in text.split("Stations")[0].replace("20 m", "")


@pytest.fixture(scope="module")
def priced(advice: Advice) -> Advice:
    """The same stations with a price for every line, invented, and all else said."""
    rows = [row for row in prices_to_fill(advice, system="metric").splitlines() if row[:1] != "#"]
    lines = [
        rows[0], "freight,delivery,,,,GBP,,", *rows[1:]
    ]  # fmt: skip
    filled = [row.replace(",,,,GBP,,", ",9,10,13,GBP,invented,2026-10-01") for row in lines]
    content = "\n".join(filled).encode()
    hire = Services(deliveries=1, crane_days=0.0, permits=0, engineer_stamps=0)
    made = []
    for each in advice.candidates:
        assert each.plan.prices is not None
        prices = replace(each.plan.prices, price_list="prices.csv", hire=hire, tax=0.0,
                         concrete_minimum=0.5)  # fmt: skip
        plan = replace(each.plan, prices=prices)
        costing = price_plan(plan, files=lambda *_: content)
        made.append(replace(each, plan=plan, costing=costing))
    front = unbeaten(made)
    return replace(
        advice, candidates=tuple(made), front=front, picks=put_forward(made, front, least_db=-3.0),
        compared=compared(made, front), confidence=weigh(made),
    )  # fmt: skip


def test_each_station_put_forward_has_its_reason(priced: Advice) -> None:
    said = " ".join(report_on(priced).text().split())
    assert "Cheapest that serves: no. 2, inverted-vee on the two limes, 11.0 m" in said
    assert "Nothing cheaper comes within 3.0 dB of a flat dipole at 10 m." in said
    first, *_, before, last = (priced.candidates[pick.number].served.mean_db
                               for pick in priced.picks)  # fmt: skip
    number, lost = priced.picks[-2].number + 1, last - before
    assert f"With no. {number} instead you lose {lost:.1f} dB ({lost / 6.0:.1f} S) and save" in said
    assert last > before > first
    # With a wish that the wire does not meet, another is the cheapest that serves.
    served = replace(priced, picks=put_forward(priced.candidates, priced.front, least_db=2.0))
    assert "Cheapest that serves: no. 2" not in report_on(served).text()


def test_the_picture_has_every_station_and_its_figures(priced: Advice) -> None:
    (picture,) = advice_report(priced).pictures
    svg = picture.draw(Canvas(palette=LIGHT, system="us"))
    assert svg.count("data-station=") == len(priced.candidates)
    assert "likely cost, GBP" in svg
    assert "dB against a flat dipole at 33 ft" in svg
    assert isinstance(picture.behind, ReportTable)
    rows = text_table(picture.behind, system="us").rows
    assert len(rows) == len(priced.candidates)
    assert rows[6][1] == "three elements on tilting tube, 34.4 ft"


def test_costs_that_are_not_whole_are_not_compared(priced: Advice) -> None:
    """No line joins what something unpriced may still push to the right, and it is named."""
    one = priced.candidates[1]
    assert one.plan.prices is not None
    assert one.costing is not None
    open_ = replace(one.plan, prices=replace(one.plan.prices, hire=None))
    bill = price_plan(open_, files=lambda *_: b"item,unit,low,likely,high,currency,supplier,dated\n"
                      b"connector,each,5,6,7,GBP,invented,2026-10-01\n")  # fmt: skip
    made = (priced.candidates[0], replace(one, costing=bill), *priced.candidates[2:])
    report = advice_report(replace(priced, candidates=made))
    assert any("still without a price: " in str(step) for step in report.next)
    (picture,) = report.pictures
    svg = picture.draw(Canvas(palette=LIGHT, system="metric"))
    (point,) = re.findall(r'<g data-station="2"[^>]*>.*?</g>', svg)
    assert LIGHT.series[0] not in point
    assert "costs more" in str(picture.caption)
    assert report.brief[0].caption == "Stations that nothing stops"


def test_a_saving_is_told_only_as_far_as_prices_go(priced: Advice) -> None:
    """A price missing of the dearer one: at least that is saved; of the cheaper: nobody knows."""
    smaller, larger = (pick.number for pick in priced.picks[-2:])

    def told(*lacking: int) -> str:
        made = list(priced.candidates)
        for number in lacking:
            costing = made[number].costing
            assert costing is not None
            assert costing.estimate is not None
            lacks = replace(costing.estimate, unpriced=("mast",))
            made[number] = replace(made[number], costing=replace(costing, estimate=lacks))
        last = reasons(replace(priced, candidates=tuple(made)), priced.picks[-1])[-1]
        return write(last, system="metric")

    assert " and save " in told()
    assert "at least" not in told()
    assert " and save at least " in told(larger)
    assert "save" not in told(smaller)


def test_without_prices_the_picture_is_by_height(advice: Advice) -> None:
    (picture,) = advice_report(advice).pictures
    svg = picture.draw(Canvas(palette=DARK, system="us"))
    assert "height, ft" in svg
    assert "no other gives more for less" not in svg


def test_questions_stand_under_who_can_answer(advice: Advice) -> None:
    rows = text_table(advice_report(advice).table("questions"), system="metric").rows
    asked = {question.whom for pick in advice.picks
             for question in advice.candidates[pick.number].questions}  # fmt: skip
    assert {row[0] for row in rows} == asked


@pytest.mark.parametrize(("system", "paper"), [("metric", "a4"), ("us", "us-letter")])
def test_the_proposal_is_two_pages(priced: Advice, system: Any, paper: Any) -> None:
    made = make_proposal(
        propose(priced), system=system, paper=paper, version="0.1.0", digest="3f9a" * 4
    )
    first, second = (re.sub(r"\s+", " ", page.extract_text())
                     for page in PdfReader(io.BytesIO(made)).pages)  # fmt: skip
    for words in ("The place", "The wishes", "Boston", "This compares stations as computed"):
        assert words in first
    for pick in priced.picks:
        one = priced.candidates[pick.number]
        assert f"No. {pick.number + 1}: {one.name}" in first
        assert f"{one.served.mean_db:+.1f} dB".replace("-", "−") in first
        assert f"{one.cost:,.0f} GBP".replace(",", " ") in first
    for words in ("What is to be asked, and of whom", "What was assumed", "How sure this is"):
        assert words in second
    assert ("34.4" in second) == (system == "us")


def test_a_place_where_nothing_is_allowed_gets_a_proposal_too(priced: Advice) -> None:
    none = replace(priced, picks=(), front=())
    made = make_proposal(
        propose(none), system="metric", paper="a4", version="0.1.0", digest="3f9a" * 4
    )
    first = PdfReader(io.BytesIO(made)).pages[0].extract_text()
    assert "none of 7 stations" in first


def test_a_vertical_alone_is_drawn_to_scale_beside_somebody(priced: Advice) -> None:
    """It reaches to neither side: the picture still has a width."""
    text = shape_plan("vertical", band="10 m", ground="wet", scales=(), units="metric")
    one = replace(priced.candidates[0], plan=read_plan(text))
    (pick, *_) = priced.picks
    alone = replace(
        priced, candidates=(one,), picks=(replace(pick, number=0),), front=(0,),
        compared=priced.compared[:1],
    )  # fmt: skip
    (station,) = propose(alone).stations
    assert "data-scale=" in station.picture.draw(Canvas(palette=LIGHT, system="metric"))


def test_the_price_list_holds_each_row_once(advice: Advice) -> None:
    rows = [
        line
        for line in prices_to_fill(advice, system="metric").splitlines()
        if line and not line.startswith("#")
    ]
    assert len(rows) == len(set(rows))
    assert any("wire 2.00 mm" in row for row in rows)
    assert any("31.75 x 2.95 mm" in row for row in rows)


def test_a_chosen_plan_is_written_once(advice: Advice, tmp_path: Path) -> None:
    path = tmp_path / "mine.toml"
    chosen = write_chosen(advice, path)
    assert read_plan(path.read_text(encoding="utf-8")) == chosen.plan
    with pytest.raises(BoomwrightError, match="exists"):
        write_chosen(advice, path)
    with pytest.raises(RequestError, match="no station 99"):
        write_chosen(advice, tmp_path / "other.toml", number=99)


def test_without_people_the_way_up_is_asked_not_refused(place: Plan) -> None:
    table = small(usual_table())
    table = replace(table, shape=table.shape[:1], support=table.support[:1])
    (one,) = advise(replace(place, raising=None), table=table).candidates
    assert one.people is None
    (way,) = one.verdict.of("raising").findings
    assert way.verdict == "not checked"


def test_a_place_that_says_nothing_is_told_what_to_add(place: Plan) -> None:
    with pytest.raises(BoomwrightError, match=r"add \[place\]"):
        advise(replace(place, place=None))


def test_a_candidate_moves_with_ground_cut_and_wind(place: Plan, advice: Advice) -> None:
    """Over poorer ground a low vee gives less than the higher dipole; a cut moves it little."""
    asked = Asked(
        name="one",
        place=place,
        table=usual_table(),
        wanted=advice.wanted,
        dipole=dict(zip(advice.bands, advice.dipole_dbi, strict=True)),
        prices=None,
        system="metric",
    )
    low = tuple({band: tuple(dbi - 1.0 for dbi in row)} for band, row in asked.dipole.items())
    found = vary(advice.candidates[1], asked=asked, dipoles=(low[0], dict(asked.dipole)))
    assert 0.0 < found.built_db < 0.2
    # A dipole that loses 1 dB where the vee loses less: the vee gains against it.
    assert 0.0 < found.ground_db[0] < 1.0
    assert 0.0 < found.ground_db[1] < 1.0
    assert found.stands_open
