"""A place written down: what is said counts, what is not stands there as an example."""

from __future__ import annotations

import re

import pytest

from boomwright.base import UnitSystem
from boomwright.plan import read_place, written_system
from boomwright.study.advice.wishing import ASKED, ROWS, place_text

BANDS = {"bands": "20 m, 15 m", "ground": "medium dry"}


def _taken(text: str) -> str:
    """The text with the # before every example taken away."""
    return re.sub(r"^# (?=\[|\w+ = )", "", text, flags=re.MULTILINE)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_example_may_stand_as_it_is(system: UnitSystem) -> None:
    place = read_place(_taken(place_text(BANDS, system=system)))
    assert place.place is not None
    assert place.place.standing[0].kind == "trees"
    assert place.reach is not None
    assert place.reach.target[0].name == "Azores"
    assert place.raising is not None
    assert place.raising.ground_crew == 4
    assert place.permits is not None
    assert place.site.wind_basis.edition == ("ASCE 7-16" if system == "us" else "EN 1991-1-4")
    assert written_system(_taken(place_text(BANDS, system=system))) == system


def test_untouched_it_says_the_bands_only() -> None:
    place = read_place(place_text(BANDS))
    assert place.place is not None
    assert place.place.bands == ("20 m", "15 m")
    assert place.place.highest is place.place.lot is place.reach is place.prices is None
    assert max(map(len, place_text(BANDS, system="us").splitlines())) <= 100


def test_all_that_may_be_typed_arrives() -> None:
    typed = BANDS | {
        "title": 'Garden "by the dike"', "place": "JO02be", "ground": "wet", "wind": "23 m/s",
        "ice": "6 mm", "kind": "characteristic", "edition": "EN 1991-1-4", "terrain": "II",
        "orography": "1,05", "region": "1", "highest": "9 m", "lot_length": "24 m",
        "lot_width": "15 m", "power": "100 W", "currency": "EUR", "budget": "800",
        "list": "prices.csv", "ground_crew": "3", "trained_climbers": "0",
    }  # fmt: skip
    rows = {"target": "Perth", "where": "32.0 S, 115.9 E", "stands": "trees", "tall": "12 m"}
    typed |= {f"{key}_{row}": value for key, value in rows.items() for row in range(ROWS)}
    assert set(ASKED) - {"exposure"} == set(typed)
    place = read_place(place_text(typed))
    assert place.title == 'Garden "by the dike"'
    assert place.site.wind_basis.orography == 1.05
    assert place.place is not None
    assert place.place.lot == (24.0, 15.0)
    assert len(place.place.standing) == ROWS
    assert place.reach is not None
    assert len(place.reach.target) == ROWS
    assert place.prices is not None
    assert (place.prices.currency, place.prices.budget) == ("EUR", 800.0)
    assert place.raising is not None
    assert place.raising.trained_climbers == 0
