"""The compact table against figures measured on its open source, and against itself.

Reference figures: measured independently on the open table of October 2022 (reference points, ends
and lengths of all its runways); tolerances for what the compact table leaves out (closed fields and
runways, ends that contradict their length).
"""

from importlib import resources

import numpy as np
import pytest
from check_values import checks
from geographiclib.geodesic import Geodesic

from boomwright.permits.airports import BEYOND_LENGTH, FALL_OF_LENGTH
from boomwright.permits.landing_table import END_DOUBT

CHECKS = checks("permits_checks.toml")
LONG_FT = 3200


@pytest.fixture(scope="module")
def table():
    path = resources.files("boomwright.permits") / "data" / "landing-places.npz"
    with path.open("rb") as file, np.load(file) as held:
        return dict(held)


def measured(table):
    """Farthest end from the point, ends' distance, recorded length; by runway with both ends."""
    rows = np.flatnonzero(table["runway_ends"][:, 0] != np.iinfo(np.int32).min)
    found = []
    for row in rows:
        y_1, x_1, y_2, x_2 = table["runway_ends"][row] / 1e5
        y, x = table["position"][table["runway_place"][row]] / 1e5
        apart = [
            Geodesic.WGS84.Inverse(*pair, Geodesic.DISTANCE)["s12"]
            for pair in ((y, x, y_1, x_1), (y, x, y_2, x_2), (y_1, x_1, y_2, x_2))
        ]
        length = table["runway_length_ft"][row] * 0.3048
        found.append((max(apart[:2]), apart[2], length))
    return np.array(found).T


@pytest.fixture(scope="module")
def runways(table):
    return measured(table)


def test_how_far_runway_ends_lie_from_the_reference_point(runways):
    farthest, _, _ = runways
    median, most = CHECKS["arp_offset"]["expected"]
    assert np.median(farthest) == pytest.approx(median, rel=0.02)
    assert np.quantile(farthest, 0.95) == pytest.approx(most, rel=0.08)


def test_recorded_lengths_agree_with_the_ends_within_the_doubt(runways):
    _, span, length = runways
    differs = np.abs(span - length)[length > 0.0]
    median, most = CHECKS["rwy_len_diff"]["expected"]
    assert np.median(differs) <= median
    assert np.quantile(differs, 0.95) <= most <= END_DOUBT


def test_nearly_every_runway_keeps_its_reach(table, runways):
    farthest, span, length = runways
    inside = farthest <= np.maximum(span, length) + BEYOND_LENGTH
    assert np.mean(inside) >= 0.993
    # what does not is kept twice: by its ends, and from the reference point
    assert np.count_nonzero(~inside) > 0
    placed = np.flatnonzero(table["runway_ends"][:, 0] != np.iinfo(np.int32).min)
    for row in placed[~inside]:
        assert np.count_nonzero(table["runway_place"] == table["runway_place"][row]) > 1


def test_nearly_no_end_lies_lower_than_reckoned_with(table):
    unknown = np.iinfo(np.int16).min
    feet = table["runway_elevations_ft"].astype(float)
    top = table["elevation_ft"][table["runway_place"]].astype(float)
    length = table["runway_length_ft"]
    good = (feet != unknown).all(axis=1) & (top != unknown) & (length > 0)
    fall = (top - feet.min(axis=1))[good]
    assert np.mean(fall <= FALL_OF_LENGTH * length[good] + 1.0) >= 0.945


def test_counts_of_places_and_of_long_runways(table):
    kinds = np.bincount(table["kind"], minlength=3)
    # 100 of the source's 18 632 heliports have a runway and are airports here
    assert kinds[1] == pytest.approx(CHECKS["heliports"]["expected"], rel=0.01)
    american = (table["country"][table["runway_place"]] == b"US") & (
        table["kind"][table["runway_place"]] == 0
    )
    places = table["runway_place"][american]
    longest = np.zeros(len(table["kind"]))
    np.maximum.at(longest, places, table["runway_length_ft"][american])
    long = np.count_nonzero(longest > LONG_FT)
    assert long == pytest.approx(CHECKS["us_long_rwy_airports"]["expected"], rel=0.03)


def test_a_runway_whose_published_length_is_known(table):
    # Runway 17/35 at Salina, Kansas: 12 300 ft (aeronautical chart supplement, from memory)
    codes = [name.split("\t")[0] for name in table["names"].tobytes().decode().split("\n")]
    rows = np.flatnonzero(table["runway_place"] == codes.index("KSLN"))
    row = rows[np.argmax(table["runway_length_ft"][rows])]
    y_1, x_1, y_2, x_2 = table["runway_ends"][row] / 1e5
    span = Geodesic.WGS84.Inverse(y_1, x_1, y_2, x_2, Geodesic.DISTANCE)["s12"]
    assert span / 0.3048 == pytest.approx(12_300.0, rel=0.005)
