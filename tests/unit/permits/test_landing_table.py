"""The table of airfields read around a site: kinds, ends, doubt, the date line."""

import math

import numpy as np
import pytest

from boomwright.permits import LandingTable
from boomwright.permits.landing_table import END_DOUBT

NONE = np.iinfo(np.int32).min
NO_FEET = np.iinfo(np.int16).min


def made(*, ends, feet=(NO_FEET, NO_FEET), length=3281, elevation=100, at=(-1700000, -17999000)):
    return LandingTable.unpacked(
        {
            "position": np.array([at, (0, 0)], dtype=np.int32),
            "elevation_ft": np.array([elevation, NO_FEET], dtype=np.int16),
            "kind": np.array([0, 1], dtype=np.uint8),
            "newer": np.array([False, True]),
            "country": np.array([b"FJ", b""], dtype="S2"),
            "names": np.frombuffer(b"NNNN\tIsle\nPPPP\tPad", dtype=np.uint8),
            "runway_place": np.array([0], dtype=np.int32),
            "runway_ends": np.array([ends], dtype=np.int32),
            "runway_elevations_ft": np.array([feet], dtype=np.int16),
            "runway_length_ft": np.array([length], dtype=np.int32),
            "dated": np.array("2022-10-11"),
            "dated_newer": np.array("2026-09-05"),
        }
    )


def around(table, latitude=-17.0, longitude=179.99, radius=5_000.0):
    return table.near(
        latitude=math.radians(latitude), longitude=math.radians(longitude), radius=radius
    )


def test_a_place_across_the_date_line_is_near():
    (isle,) = around(made(ends=(NONE,) * 4))
    assert isle.code == "NNNN"
    assert isle.unplaced == (pytest.approx(3281 * 0.3048),)
    assert isle.open_lengths == isle.unplaced
    assert isle.elevation == pytest.approx(30.48)
    assert isle.dated == "2022-10-11"


def test_a_runway_end_brings_a_place_near_whose_point_is_far():
    ends = (-1700000, 17999000, -1700000, 17998060)
    table = made(ends=ends, at=(-1750000, 17999000))
    (isle,) = around(table, longitude=179.98)
    assert len(isle.runways) == 1
    assert not isle.open_lengths


def test_a_pad_without_elevation_has_none():
    (pad,) = around(made(ends=(NONE,) * 4), latitude=0.0, longitude=0.0)
    assert (pad.kind, pad.elevation, pad.open_lengths) == ("heliport", None, ())
    assert pad.dated == "2026-09-05"


def test_doubt_of_ends_grows_with_what_their_length_contradicts():
    ends = (-1700000, 17999000, -1700000, 17998060)  # 1000 m along the parallel
    (isle,) = around(made(ends=ends, length=3281))
    assert isle.runways[0].doubt == pytest.approx(END_DOUBT)
    (isle,) = around(made(ends=ends, length=3281 + 328))
    assert isle.runways[0].doubt == pytest.approx(100.0, abs=1.5)


@pytest.mark.parametrize(
    ("feet", "metres", "doubt"),
    [
        ((90, 95), 27.43, 1.0),  # both ends surveyed
        ((NO_FEET, 95), 30.48, 12.5),  # the highest point, less 1.25 % of the length
        ((900, 950), 30.48, 12.5),  # an end far above the highest point is an error
    ],
)
def test_elevations_of_ends(feet, metres, doubt):
    ends = (-1700000, 17999000, -1700000, 17998060)
    (isle,) = around(made(ends=ends, feet=feet))
    assert isle.runways[0].first.elevation == pytest.approx(metres, abs=0.01)
    assert isle.runways[0].elevation_doubt == pytest.approx(doubt, abs=0.05)
