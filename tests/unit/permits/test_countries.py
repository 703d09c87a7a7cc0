"""In which country a position lies: rings, holes, the sea, and parts of states."""

import math

import numpy as np
import pytest

from boomwright.permits import CountryShapes, countries_at
from boomwright.permits.countries import state_of

SQUARE = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)])


def shapes(*rings):
    lines = [np.round(1000.0 * ring).astype(np.int32) for _, ring in rings]
    return CountryShapes.unpacked(
        {
            "steps": np.concatenate([np.diff(line, axis=0, prepend=0) for line in lines]),
            "starts": np.cumsum([0] + [len(line) for line in lines]),
            "codes": np.array([code.encode() for code, _ in rings], dtype="S2"),
        }
    )


def at(latitude, longitude):
    return {"latitude": math.radians(latitude), "longitude": math.radians(longitude)}


LAND = shapes(("AA", SQUARE), ("AA", SQUARE / 4.0 + 1.0), ("BB", SQUARE / 4.0 + 1.0))


def test_a_country_in_a_hole_of_another_is_found():
    assert LAND.inside(**at(3.0, 3.0)) == "AA"
    assert LAND.inside(**at(1.5, 1.5)) == "BB"
    assert LAND.inside(**at(5.0, 1.5)) == ""


def test_the_distance_to_a_border_is_that_of_the_sphere():
    away = LAND.around(**at(1.5, 1.05), within=20e3)
    assert away["BB"] == pytest.approx(0.05 * 111_200.0 * math.cos(math.radians(1.5)), rel=1e-9)
    assert LAND.around(**at(3.5, 2.0), within=20e3) == {}


@pytest.mark.parametrize(
    ("latitude", "longitude", "expected"),
    [
        (3.0, 3.0, ("AA",)),
        (1.5, 1.05, ("BB", "AA")),
        (1.5, 0.95, ("AA", "BB")),
        (4.3, 2.0, ("AA",)),  # 33 km off the coast
        (4.6, 2.0, ()),  # 67 km off it
    ],
)
def test_countries_asked_for_at_a_position(latitude, longitude, expected):
    assert countries_at(LAND, **at(latitude, longitude)) == expected


def test_parts_of_a_state_belong_to_it():
    assert [state_of(code) for code in ("PR", "RE", "US", "GB")] == ["US", "FR", "US", "GB"]
