"""A place before there is a station: it reads, others ask for an antenna, its faults are told."""

from __future__ import annotations

import math
import tomllib
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from boomwright.base import PlanError
from boomwright.permits import permit_sheet
from boomwright.plan import plan_schema, read_place, read_plan, write_plan
from boomwright.plan.resolve.permits import installation
from written import metric

PLACE = """
boomwright = 1
title = "Long garden behind the mill"

[site]
position = "47.30 N, 8.60 E"
ground = "medium dry"

[place]
bands = ["20m", "15 m"]
region = 2
highest = "30 ft"
lot = ["24 m", "15 m"]

  [[place.standing]]
  name = "12 m pole in the shed"
  kind = "light pole"
  height = "12 m"
  diameter = "60.3 mm"
  wall = "3.9 mm"
  material = "A53 B"

  [[place.standing]]
  name = "gable"
  kind = "house bracket"
  height = "9 m"
  brackets = ["4 m", "6 m"]
"""


def faults_of(text: str, *, place: bool) -> dict[str, str]:
    with pytest.raises(PlanError) as caught:
        (read_place if place else read_plan)(text)
    return {
        fault.path: f"{metric(fault.message)}; {metric(fault.remedy)}"
        for fault in caught.value.faults
    }


def test_a_place_reads_in_si() -> None:
    plan = read_place(PLACE)
    assert plan.beams == ()
    place = plan.place
    assert place is not None
    assert place.bands == ("20 m", "15 m")
    assert place.highest is not None
    assert math.isclose(place.highest, 30 * 0.3048)
    assert place.lot == (24.0, 15.0)
    assert [each.kind for each in place.standing] == ["light pole", "house bracket"]
    assert place.standing[1].heights == (4.0, 6.0)


def test_a_place_is_written_back_and_fits_the_schema() -> None:
    written = write_plan(read_place(PLACE))
    assert read_place(written) == read_place(PLACE)
    for text in (PLACE, written):
        assert not [*Draft202012Validator(plan_schema()).iter_errors(tomllib.loads(text))]


@pytest.mark.parametrize("empty", ["", "beam = []\n"])
def test_a_plan_without_antenna_says_what_to_do(empty: str) -> None:
    told = faults_of(PLACE.replace("title", f"{empty}title"), place=False)
    assert set(told) == {"beam"}
    assert "boomwright advise" in told["beam"]
    assert "boomwright new" in told["beam"]


def test_a_missing_antenna_hides_no_other_fault() -> None:
    assert set(faults_of(PLACE.replace('"24 m"', '"24 kg"'), place=False)) == {
        "beam",
        "place.lot[0]",
    }


@pytest.mark.parametrize(
    ("old", "new", "path", "remedy"),
    [
        ('"15 m"]\nregion', '"20 m"]\nregion', "place.bands[1]", "keep it once"),
        ('"15 m"]\nregion', '"14 m"]\nregion', "place.bands[1]", "write one of"),
        ('"light pole"', '"light poll"', "place.standing[0].kind", "light pole"),
        ('brackets = ["4 m", "6 m"]\n', "", "place.standing[1].brackets", "add brackets"),
        (
            'brackets = ["4 m"',
            'foot = "4.5 m"\nbrackets = ["4 m"',
            "place.standing[1].brackets[0]",
            "from 4.5 m",
        ),
        (
            'brackets = ["4 m", "6 m"]',
            'foot = "2 m"\nbrackets = ["6 m"]',
            "place.standing[1].brackets",
            "second bracket",
        ),
        ('"6 m"]', '"10 m"]', "place.standing[1].brackets[1]", "up to 9 m"),
    ],
)
def test_faults_of_a_place(old: str, new: str, path: str, remedy: str) -> None:
    assert old in PLACE
    told = faults_of(PLACE.replace(old, new), place=True)
    assert set(told) == {path}
    assert remedy in told[path]


def test_the_height_that_a_place_allows_is_a_check_of_the_plan_chosen_for_it():
    stations = Path(__file__).parents[3] / "examples" / "stations"
    text = next(stations.glob("01-*.toml")).read_text(encoding="utf-8")
    text += '\n[place]\nbands = ["20 m"]\nhighest = "3 m"\n'
    sheet = permit_sheet(installation=installation(read_plan(text)))
    (height,) = (each for each in sheet.findings if each.subject == "Height (local)")
    assert height.verdict == "exceeded"
    assert "place allows" in str(height.basis)


@pytest.mark.parametrize(("limit", "told"), [("3 m", ["deed"]), ("4 m", ["deed", "place"])])
def test_a_limit_with_its_source_that_is_as_strict_stands_for_that_of_the_place(limit, told):
    stations = Path(__file__).parents[3] / "examples" / "stations"
    text = next(stations.glob("01-*.toml")).read_text(encoding="utf-8")
    text = text.replace("boomwright = 1", 'boomwright = 1\ndated = "2026-11-25"', 1)
    text += f"""
[[permits.local_limit]]
basis = "deed, clause 7"
dated = "2024-05-01"
height = "{limit}"
[place]
bands = ["20 m"]
highest = "3 m"
"""
    sheet = permit_sheet(installation=installation(read_plan(text)))
    heights = [each for each in sheet.findings if each.subject == "Height (local)"]
    assert [next(word for word in told if word in each.basis) for each in heights] == told
    assert {each.verdict for each in heights} == {"exceeded"}
    # The day of issue of the book is not the day on which anybody looked the limit up.
    assert [each.dated for each in heights] == ["2024-05-01", "no date given"][: len(told)]
