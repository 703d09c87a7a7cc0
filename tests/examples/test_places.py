"""The worked places: they read, every line has a price, and the page says what the program says.

The suburban lot is worked through by the guide's test. ``BOOMWRIGHT_PLACES=1`` works all of them
through, holds docs/places.md to them, and checks every plan put forward.
"""

from __future__ import annotations

import importlib.util
import os
from pathlib import Path

import pytest

import boomwright as bw
from boomwright.plan import read_plan
from boomwright.session.files import PlanFolder
from boomwright.study.advice.choosing import chosen_text
from boomwright.study.advice.stations import stations
from boomwright.study.advice.table import usual_table
from boomwright.study.cost import listed_prices

ROOT = Path(__file__).resolve().parents[2]
PLACES = sorted((ROOT / "examples" / "places").glob("*.toml"))


def test_there_are_three():
    assert [path.stem for path in PLACES] == ["farm-ridge", "island", "suburban-lot"]


@pytest.mark.parametrize("path", PLACES, ids=lambda path: path.stem)
def test_a_place_says_what_it_allows_and_has_invented_prices(path):
    place = bw.load(path, place=True)
    assert place.place is not None
    assert not place.beams
    tried = list(stations(usual_table(), place.place))
    assert len(tried) >= 12
    prices = listed_prices(place, files=PlanFolder(path.parent))
    assert prices is not None
    assert len(prices.prices) > 30
    assert {price.supplier for price in prices.prices} == {"invented"}


@pytest.mark.skipif(not os.environ.get("BOOMWRIGHT_PLACES"), reason="takes some minutes")
def test_every_place_is_worked_through_as_its_page_says():
    spec = importlib.util.spec_from_file_location("places", ROOT / "tools" / "worked_places.py")
    assert spec is not None
    tool = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(tool)
    page = tool.HEAD
    for number, path in enumerate(tool.places()):
        advice = bw.advise(bw.load(path, place=True))
        assert advice.picks
        for pick in advice.picks:
            one = advice.candidates[pick.number]
            assert one.allowed
            assert one.priced_in_full, one.unpriced
            assert read_plan(chosen_text(advice, one)) == one.plan
        page += ("\n" if number else "") + tool.place_section(path, advice)
    assert (ROOT / "docs" / "places.md").read_text(encoding="utf-8") == page
