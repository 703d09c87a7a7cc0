"""14 CFR 77.9 (notice) with its slopes, and the geodesic check of data/permits_checks.toml."""

import math
from importlib import resources

import numpy as np
import pytest
from check_values import checks
from geographiclib.geodesic import Geodesic

from boomwright.permits import (
    Airport,
    LandingTable,
    Runway,
    RunwayEnd,
    StructureHeights,
    surface_over_site,
)
from boomwright.permits.airports import geodesic_distance
from boomwright.permits.united_states import (
    HELIPORT_SURFACE,
    LONG_RUNWAY_SURFACE,
    NOTICE_HEIGHT,
    SHORT_RUNWAY_SURFACE,
    SMALL_STRUCTURE,
    united_states_airspace,
)
from written import metric

FOOT = 0.3048
CHECKS = checks("permits_checks.toml")
SITE = {"latitude": math.radians(40.0), "longitude": math.radians(-75.0)}


def place(azimuth_deg, distance, *, elevation=0.0):
    end = Geodesic.WGS84.Direct(40.0, -75.0, azimuth_deg, distance)
    return RunwayEnd(
        latitude=math.radians(end["lat2"]),
        longitude=math.radians(end["lon2"]),
        elevation=elevation,
    )


def airport_north(*, distance, length, elevation, kind="airport"):
    near = place(0.0, distance, elevation=elevation)
    far = place(0.0, distance + length, elevation=elevation)
    return Airport(
        code="XXXX",
        name="Invented Field",
        latitude=near.latitude,
        longitude=near.longitude,
        elevation=elevation,
        kind=kind,
        runways=(Runway(first=near, second=far),),
    )


def test_heights_of_the_rule():
    assert pytest.approx(CHECKS["faa_200"]["expected"] * FOOT, rel=1e-12) == NOTICE_HEIGHT
    assert pytest.approx(CHECKS["fcc_97_15"]["expected"], rel=1e-12) == NOTICE_HEIGHT
    assert pytest.approx(CHECKS["faa_small"]["expected"] * FOOT, rel=1e-12) == SMALL_STRUCTURE


def test_slopes_and_reaches():
    surfaces = (LONG_RUNWAY_SURFACE, SHORT_RUNWAY_SURFACE, HELIPORT_SURFACE)
    for surface, (ratio, reach_ft) in zip(surfaces, CHECKS["faa_slopes"]["expected"], strict=True):
        assert surface.ratio == ratio
        assert surface.reach == pytest.approx(reach_ft * FOOT, rel=1e-12)
        # each surface ends 200 ft above the runway point
        assert surface.reach / surface.ratio == pytest.approx(NOTICE_HEIGHT, rel=1e-12)


@pytest.mark.parametrize(
    ("row", "distance_ft", "length_ft", "kind"),
    [(0, 5000, 5000, "airport"), (1, 2000, 3000, "airport"), (2, 1000, 60, "heliport")],
)
def test_allowed_height_above_the_runway_point(row, distance_ft, length_ft, kind):
    airport = airport_north(
        distance=distance_ft * FOOT, length=length_ft * FOOT, elevation=100.0, kind=kind
    )
    check = surface_over_site(airport, **SITE)
    allowed_ft = (check.allowed_amsl - 100.0) / FOOT
    # 1 mm over 5000 ft: the runway is laid out along a geodesic and read back from its ends
    assert allowed_ft == pytest.approx(CHECKS["faa_example"]["expected"][row], rel=1e-6)


def test_geodesic_distance():
    distance = geodesic_distance(
        **{f"{key}_1": value for key, value in SITE.items()},
        latitude_2=math.radians(40.05),
        longitude_2=math.radians(-75.02),
    )
    assert distance == pytest.approx(CHECKS["geodesic"]["expected"], abs=1e-3)
    assert distance / FOOT / 100 == pytest.approx(190.6, abs=0.05)


@pytest.mark.parametrize(("top_ft", "verdict"), [(49.9, "within"), (50.1, "notice needed")])
def test_site_elevation_is_taken_off(top_ft, verdict):
    # 5000 ft off a long runway the surface is 50 ft above it; the site lies at the same level
    airport = airport_north(distance=5000 * FOOT, length=5000 * FOOT, elevation=100.0)
    findings = united_states_airspace(
        heights=StructureHeights(structure_top=top_ft * FOOT),
        site_elevation=100.0,
        airports=(airport,),
        **SITE,
    )
    assert [f.verdict for f in findings if "XXXX" in f.subject] == [verdict]


def test_notice_is_due_45_days_before():
    findings = united_states_airspace(
        heights=StructureHeights(structure_top=61.0), site_elevation=0.0, airports=(), **SITE
    )
    assert findings[0].verdict == "notice needed"
    assert f"at least {CHECKS['faa_time']['expected']} days" in metric(findings[0].text)
    assert f"within {CHECKS['faa_supplement']['expected']} days" in metric(findings[0].text)


def plane(site, places):
    """East and north of places in degrees on a flat earth, a hand's reckoning [m]."""
    north, east = 110_900.0, 111_320.0 * math.cos(math.radians(site[0]))
    return np.column_stack(((places[:, 1] - site[1]) * east, (places[:, 0] - site[0]) * north))


def lowest_by_hand(arrays, rows, site):
    """Lowest surface over a site from the runways of the table with both ends, or infinity [m]."""
    ends = arrays["runway_ends"][rows] / 1e5
    first, second = plane(site, ends[:, :2]), plane(site, ends[:, 2:])
    along = second - first
    part = np.clip(-(first * along).sum(axis=1) / (along**2).sum(axis=1), 0.0, 1.0)
    away = np.hypot(*(first + part[:, None] * along).T)
    feet = arrays["runway_elevations_ft"][rows].astype(float)
    top = arrays["elevation_ft"][arrays["runway_place"][rows]].astype(float)
    level = np.where(
        feet.min(axis=1) < -32_000.0, top, feet[:, 0] + part * (feet[:, 1] - feet[:, 0])
    )
    long = arrays["longest_ft"][arrays["runway_place"][rows]] > 3200
    height = level * FOOT + away / np.where(long, 100.0, 50.0)
    reaches = (away < np.where(long, 20_000.0, 10_000.0) * FOOT) & (level > -2_000.0)
    return float(np.min(height[reaches], initial=math.inf))


def test_no_place_is_within_where_a_reckoning_by_hand_asks_for_notice():
    path = resources.files("boomwright.permits") / "data" / "landing-places.npz"
    with path.open("rb") as file, np.load(file) as held:
        arrays = dict(held)
    table = LandingTable.unpacked(arrays)
    longest = np.zeros(len(arrays["kind"]))
    np.maximum.at(longest, arrays["runway_place"], arrays["runway_length_ft"])
    arrays["longest_ft"] = longest
    placed = np.flatnonzero(arrays["runway_ends"][:, 0] != np.iinfo(np.int32).min)
    american = arrays["country"][arrays["runway_place"][placed]] == b"US"
    generator = np.random.default_rng(77)
    verdicts = {"within": 0, "ask": 0, "notice needed": 0}
    for row in generator.choice(placed[american], 400):
        turn, away = generator.uniform(0.0, 2.0 * math.pi), generator.uniform(0.05, 0.12)
        site = arrays["runway_ends"][row, :2] / 1e5 + away * np.array(
            (math.cos(turn), math.sin(turn) * 1.3)
        )
        place = arrays["runway_place"][row]
        ground = float(arrays["elevation_ft"][place]) * FOOT + generator.uniform(-20.0, 20.0)
        top = generator.uniform(7.0, 60.0)
        at = {"latitude": math.radians(site[0]), "longitude": math.radians(site[1])}
        found = united_states_airspace(
            heights=StructureHeights(structure_top=top),
            site_elevation=ground,
            airports=table.near(radius=25_000.0, **at),
            **at,
        )
        words = {finding.verdict for finding in found}
        word = next(each for each in ("notice needed", "ask", "within") if each in words)
        verdicts[word] += 1
        near = (np.abs(arrays["runway_ends"][placed, :2] / 1e5 - site) < 0.3).all(axis=1)
        if ground + top > lowest_by_hand(arrays, placed[near], site):
            assert word != "within", site
    # refusing everything, or nothing, would be no answer
    assert min(verdicts.values()) >= 20
