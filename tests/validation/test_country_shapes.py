"""Country shapes (Natural Earth, public domain) against well-known places and an airfield table.

The positions of towns are general knowledge; the countries of airfields are those of another open
table {landing-places}.
"""

import math
from collections import Counter
from importlib import resources

import numpy as np
import pytest

from boomwright.permits import CountryShapes, LandingTable, countries_at
from boomwright.permits.countries import state_of


def arrays(name):
    path = resources.files("boomwright.permits") / "data" / name
    with path.open("rb") as file, np.load(file) as held:
        return dict(held)


@pytest.fixture(scope="module")
def shapes():
    return CountryShapes.unpacked(arrays("country-shapes.npz"))


@pytest.mark.parametrize(
    ("latitude", "longitude", "country"),
    [
        (51.50, -0.12, "GB"),  # London
        (48.10, 11.60, "DE"),  # Munich
        (46.20, 0.70, "FR"),
        (33.90, -117.45, "US"),
        (21.31, -157.86, "US"),  # Honolulu
        (61.20, -149.90, "US"),  # Anchorage
        (18.45, -66.10, "PR"),  # San Juan
        (46.60, 8.00, "CH"),
        (57.60, -7.30, "GB"),  # Outer Hebrides
        (-33.87, 151.21, "AU"),  # Sydney
        (35.68, 139.77, "JP"),  # Tokyo
        (-29.31, 27.48, "LS"),  # Maseru, in a country inside another
        (64.73, 177.51, "RU"),  # Anadyr, near the date line
        (66.16, -169.81, "RU"),  # Uelen, across it
        (-90.0, 0.0, "AQ"),  # South Pole
        (-18.14, 178.43, "FJ"),  # Suva
    ],
)
def test_well_known_places(shapes, latitude, longitude, country):
    at = {"latitude": math.radians(latitude), "longitude": math.radians(longitude)}
    assert countries_at(shapes, **at)[:1] == (country,)


@pytest.mark.parametrize(
    ("latitude", "longitude", "near"),
    [
        (42.33, -83.05, {"US", "CA"}),  # Detroit
        (31.76, -106.49, {"US", "MX"}),  # El Paso
        (47.56, 7.59, {"CH", "FR", "DE"}),  # Basel
        (46.20, 6.14, {"CH", "FR"}),  # Geneva
        (47.80, 13.04, {"AT", "DE"}),  # Salzburg
    ],
)
def test_towns_at_a_border_have_both_countries(shapes, latitude, longitude, near):
    at = {"latitude": math.radians(latitude), "longitude": math.radians(longitude)}
    assert set(countries_at(shapes, **at)) == near


def test_every_fortieth_landing_place_lies_in_its_country(shapes):
    table = LandingTable.unpacked(arrays("landing-places.npz"))
    place = np.radians(table.arrays["position"][::40] / 1e5)
    codes = [code.decode() for code in table.arrays["country"][::40]]
    wrong = Counter()
    at_sea = 0
    for (latitude, longitude), code in zip(place, codes, strict=True):
        found = countries_at(shapes, latitude=latitude, longitude=longitude)
        at_sea += not found
        if found and state_of(code) not in {state_of(each) for each in found}:
            wrong[(code, found[0])] += 1
    # The source draws Crimea, Western Sahara and Taiwan as their holders do; more than one error in
    # a thousand would be too many.
    disputed = {("UA", "RU"), ("EH", "MA"), ("TW", "CN")}
    assert sum(count for pair, count in wrong.items() if pair not in disputed) <= 1
    assert at_sea <= 0.004 * len(codes)
