"""One boom for several bands, from ``[wish]`` to the plan written back."""

from __future__ import annotations

import json
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import PlanError
from boomwright.base.quantity import write
from boomwright.design import band_figures
from boomwright.plan import read_plan, write_plan
from boomwright.plan.format import SIXTEENTH
from boomwright.plan.resolve import band_uses, design_targets, served_beams
from boomwright.render.json.computation import computation_document
from boomwright.render.json.feed import feed_document
from boomwright.render.json.improve import bands_document
from boomwright.report.beam.computed import computed_reports
from boomwright.report.beam.measured import band_facts
from boomwright.report.feed import feed_report
from boomwright.session.plan_session import PlanSession
from boomwright.study.as_measured import measure_beam
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.improve import improve_plan, wished_search
from boomwright.study.requests import RequestError
from boomwright.study.several_bands import improve_bands
from boomwright.web import PlanDesk
from boomwright.web.frame import frame_full
from boomwright.web.view import View

TEXT = """\
boomwright = 1
title = "Two bands on one boom"

[site]
ground = "medium dry"

[[beam]]
name = "20 and 15 m"
band = ["14.1 MHz", "14.25 MHz"]
design = "14.175 MHz"
height = "15 m"
heading = 0
material = "6061-T6"
feed = { kind = "split", gap = "20 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "22 mm"
  length = "10.7 m"
  [[beam.element]]
  role = "driven"
  at = "2.6 m"
  diameter = "22 mm"
  length = "10.2 m"
  [[beam.element]]
  role = "director"
  at = "3.9 m"   # fed on 15 m
  diameter = "22 mm"
  length = "6.9 m"
  [[beam.element]]
  role = "director"
  at = "5.6 m"
  diameter = "22 mm"
  length = "6.5 m"

[wish]
boom = "6 m"
closest = "1 m"
swr = 2
matched = true
bands = [{ band = ["21.1 MHz", "21.3 MHz"], design = "21.2 MHz", driven = 3 }]
"""


@pytest.fixture(scope="module")
def found():
    return improve_bands(read_plan(TEXT), text=TEXT, starts=2)


def test_the_worst_band_becomes_better(found):
    before, after = (
        min(figures.worst[0] + 0.1 * figures.worst[2] for figures in both)
        for both in (found.found.before, found.found.after)
    )
    assert after > before


def test_the_plan_written_back_is_that_array_in_every_band(found):
    assert "# fed on 15 m" in found.text
    plan = read_plan(found.text)
    (beam,) = plan.beams
    assert [element.role for element in beam.elements] == [
        "reflector", "driven", "director", "director",
    ]  # fmt: skip
    assert beam.boom_length <= 6.0 + 1e-9
    for use, checked in zip(band_uses(plan), found.found.after, strict=True):
        elements = tuple(
            replace(each, role="driven" if number == use.driven else "director")
            for number, each in enumerate(beam.elements)
        )
        served = replace(
            beam, band=use.band, design_frequency=use.design_frequency, elements=elements
        )
        again = band_figures(beam=served, targets=design_targets(plan))
        np.testing.assert_allclose(again.worst, checked.worst, rtol=0.0, atol=2e-3)


def test_the_document_names_bands_and_fed_elements(found):
    document = json.loads(json.dumps(bands_document(found), allow_nan=False))
    assert [band["driven"] for band in document["bands"]] == [2, 3]
    assert len(document["elements"]) == 4
    # In its own band the array is measured like any beam of a plan.
    fed = feed_document(feed_plan(read_plan(found.text)))["beams"][0]["as_measured"]
    own = document["after"]["as_measured"]
    assert own["swr_worst"] == pytest.approx(fed["swr_worst"], abs=1e-6)
    assert own["front_to_rear_worst_db"] == pytest.approx(fed["front_to_rear_worst_db"], abs=1e-6)


HAIRPIN = 'kind = "hairpin", gap = "20 mm", rod_diameter = "6 mm", rod_spacing = "60 mm"'
GAMMA = 'kind = "gamma", gap = "20 mm", rod_diameter = "8 mm", rod_spacing = "80 mm"'


MATCHED = TEXT.replace('kind = "split", gap = "20 mm"', HAIRPIN).replace("matched = true\n", "")


@pytest.fixture(scope="module")
def matched():
    text = MATCHED.replace("driven = 3 }", f"driven = 3, feed = {{ {GAMMA} }} }}")
    return improve_bands(read_plan(text), text=text, starts=2)


def test_a_band_without_a_feed_of_its_own_has_the_beams_kind():
    text = MATCHED.replace('rod_spacing = "60 mm"', 'rod_spacing = "60 mm", rod_length = "0.3 m"')
    own, other = served_beams(read_plan(text))
    assert own.feed.rod_length == pytest.approx(0.3)
    assert other.feed == replace(own.feed, rod_length=None)
    assert other.driven_index == 2


def test_every_band_is_searched_with_its_match_in_place(matched):
    assert [use.fed.kind for use in matched.uses] == ["hairpin", "gamma"]
    for (_, figures), (_, seen) in zip(matched.figures, matched.measured, strict=True):
        assert seen.match_swr.max() <= 2.0 + 0.01
        assert figures.worst[3] == pytest.approx(seen.match_swr.max(), rel=0.02)
    assert not [each for each in matched.notices if each.severity == "limit"]


def test_each_band_is_told_as_the_feed_of_that_band_tells_it(matched):
    document = json.loads(json.dumps(bands_document(matched), allow_nan=False))
    plan = read_plan(matched.text)
    (beam,), (band,) = plan.beams, plan.wish.bands
    assert band.feed is not None
    assert band.feed.rod_length is not None
    # The same array as a plan for 15 m alone, its third element driven, fed as written.
    roles = ["reflector", "reflector", "driven", "director"]
    fifteen = replace(
        beam,
        band=band.band,
        design_frequency=band.design_frequency,
        feed=band.feed,
        elements=tuple(replace(e, role=r) for e, r in zip(beam.elements, roles, strict=True)),
    )
    alone = read_plan(write_plan(replace(plan, beams=(fifteen,), wish=None)))
    by_feed = [feed_document(feed_plan(fed))["beams"][0]["as_measured"] for fed in (plan, alone)]
    for told, fed in zip(document["bands"], by_feed, strict=True):
        same(told["after"]["as_measured"], fed)
    # And as the feed of the whole plan tells it, without anything cut out of the plan.
    (further,) = by_feed[0]["further_bands"]
    assert further["band_hz"] == list(band.band)
    same(further["as_measured"], by_feed[1])


def same(one, other):
    for figure in ("swr_worst", "swr_design", "front_to_rear_worst_db", "gain_dbi"):
        assert one[figure] == pytest.approx(other[figure], abs=1e-6)


def test_every_band_is_told_wherever_the_beam_is(tmp_path):
    (tmp_path / "two.toml").write_text(TEXT, encoding="utf-8")
    session, plan = PlanSession(tmp_path / "two.toml"), read_plan(TEXT)
    computation, fed = compute(plan, points=3), feed_plan(plan)
    documents = [
        each["beams"][0]["as_measured"]["further_bands"]
        for each in (computation_document(computation), feed_document(fed))
    ]
    same(*[further["as_measured"] for (further,) in documents])
    (fact,) = band_facts(computation.as_measured[0])
    reports = (*computed_reports(computation), feed_report(fed, number=0))
    words = (write(fact.label, system="us"), write(fact.value, system="us"))
    for report in reports:
        assert words in [
            (write(each.label, system="us"), write(each.value, system="us"))
            for each in report.answer
        ]
    desk = PlanDesk(session=session, name="two.toml", text=TEXT)
    assert frame_full(desk, View(system="us"))["bands"] == (words,)
    assert words[0] == "On 21.100 MHz to 21.300 MHz"
    assert "front-to-rear" in words[1]


def test_a_band_fed_at_no_element_is_told_and_the_beam_all_the_same():
    plan = read_plan(TEXT.replace("driven = 3", "driven = 5"))
    measured = measure_beam(plan, plan.beams[0])
    (fact,) = band_facts(measured)
    assert measured.swr_design > 1.0
    assert write(fact.label, system="metric") == "On 21.100 MHz to 21.300 MHz"
    assert "has 4 elements" in write(fact.value, system="metric")


def test_a_feed_of_a_band_needs_its_gap():
    feed = '{ kind = "gamma" }'
    with pytest.raises(PlanError) as caught:
        read_plan(TEXT.replace("driven = 3 }", f"driven = 3, feed = {feed} }}"))
    assert [fault.path for fault in caught.value.faults] == ["wish.bands[0].feed.gap"]


@pytest.mark.parametrize("key", ['mass = "9 kg"', "elements = [3, 4]", "even_spacing = true"])
def test_what_it_does_not_hold_to_is_refused(key):
    text = f"{TEXT}{key}\n"
    with pytest.raises(RequestError, match=f"does not hold to {key.split()[0]}"):
        improve_bands(read_plan(text), text=text)


def test_an_element_that_is_not_there_is_named():
    with pytest.raises(PlanError) as caught:
        band_uses(read_plan(TEXT.replace("driven = 3", "driven = 5")))
    (fault,) = caught.value.faults
    assert fault.path == "wish.bands[0].driven"
    assert "1 to 4" in fault.remedy


def test_a_search_of_one_band_sends_on():
    with pytest.raises(RequestError, match="further bands -> search them with the command"):
        improve_plan(wished_search(read_plan(TEXT)), text=TEXT)


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ('"21.2 MHz"', '"22.2 MHz"', "wish.bands[0].design"),
        ('["21.1 MHz", "21.3 MHz"]', '["21.3 MHz", "21.1 MHz"]', "wish.bands[0].band"),
    ],
)
def test_faults_of_a_band_name_their_place(old, new, path):
    with pytest.raises(PlanError) as caught:
        read_plan(TEXT.replace(old, new))
    assert path in [fault.path for fault in caught.value.faults]


def test_feet_and_inches_are_searched_in_sixteenths():
    text = TEXT
    for metric, us in {
        "10.7 m": "35 ft 1 1/4 in", "10.2 m": "33 ft 5 1/2 in", "6.9 m": "22 ft 7 5/8 in",
        "6.5 m": "21 ft 3 7/8 in", '"0 m"': '"0 in"', "2.6 m": "8 ft 6 3/8 in",
        "3.9 m": "12 ft 9 1/2 in", "5.6 m": "18 ft 4 1/2 in",
    }.items():  # fmt: skip
        text = text.replace(metric, us)
    made = improve_bands(read_plan(text), text=text, starts=2, seed=1)
    for each in made.after.elements:
        for length in (each.position, each.half_length):
            assert length / SIXTEENTH == pytest.approx(round(length / SIXTEENTH), abs=1e-6)
    # What was searched is what is written, figures and all.
    for own, along in zip(made.after.elements, made.found.beams[0].elements, strict=True):
        assert own.half_length == pytest.approx(along.half_length, abs=1e-9)
    said = [each.code for each in made.notices if each.severity == "limit"]
    most = max(figures.worst[3] for figures in made.found.after)
    assert bool(said) == (most > 2.0 + 0.01)
