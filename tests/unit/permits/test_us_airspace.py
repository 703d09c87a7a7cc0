"""Airspace findings: airports, allowances, cranes, missing data."""

import math

import airportsdata
import pytest

from boomwright.permits import (
    Airport,
    StructureHeights,
    airports_near,
    nearest_points,
    united_states_airspace,
)

# Beside a well-known large airport; its reference point and elevation are in the open table.
NEAR_JFK = {"latitude": math.radians(40.68), "longitude": math.radians(-73.80)}


@pytest.fixture(scope="module")
def table():
    return airportsdata.load("ICAO").values()


def findings_of(heights, airports, site_elevation=10.0, **site):
    return united_states_airspace(
        heights=heights, site_elevation=site_elevation, airports=airports, **(site or NEAR_JFK)
    )


def test_real_airport_asks_for_notice(table):
    airports = airports_near(table, **NEAR_JFK)
    assert airports[0].code == "KJFK"
    assert airports[0].elevation == pytest.approx(13 * 0.3048, rel=1e-9)
    findings = findings_of(StructureHeights(structure_top=30.0), airports)
    jfk = next(f for f in findings if "KJFK" in f.subject)
    assert jfk.verdict == "notice needed"
    assert "runways unknown" in jfk.text
    assert findings[-1].subject.startswith("Antenna structure registration")
    assert findings[-1].verdict == "notice needed"


def test_far_from_everything_is_within_but_heliports_stay_unchecked(table):
    site = {"latitude": math.radians(39.0), "longitude": math.radians(-117.0)}
    airports = airports_near(table, radius=9000.0, **site)
    findings = findings_of(StructureHeights(structure_top=20.0), airports, 1500.0, **site)
    verdicts = {f.subject: f.verdict for f in findings}
    assert verdicts["Heliports"] == "not checked"
    assert verdicts["Surfaces around airports (FAA)"] == "within"
    assert verdicts["Antenna structure registration (FCC)"] == "within"


def field(distance_north, **more):
    # one minute of latitude is about 1852 m; the exact distance is read back where it matters
    return Airport(
        code="YYYY",
        name="Invented Field",
        latitude=NEAR_JFK["latitude"] + distance_north / 6_370_000.0,
        longitude=NEAR_JFK["longitude"],
        elevation=50.0,
        **more,
    )


def test_allowances_are_taken_off():
    airport = field(5000.0)
    away = nearest_points(airport, **NEAR_JFK)[0].distance
    allowed = 50.0 - 10.0 + (away - 2000.0) / 100.0 - 10.0
    for top, verdict in ((allowed - 0.01, "within"), (allowed + 0.01, "notice needed")):
        findings = findings_of(StructureHeights(structure_top=top), (airport,))
        assert [f.verdict for f in findings if "YYYY" in f.subject] == [verdict]


def test_crane_counts_and_is_shown_apart():
    heights = StructureHeights(structure_top=20.0, antenna_top=22.0, crane_top=80.0)
    findings = findings_of(heights, (field(7000.0),))
    assert findings[0].verdict == "notice needed"
    lines = {f.subject.split(" under")[0]: f.verdict for f in findings if "YYYY" in f.subject}
    assert lines == {
        "Structure and antenna": "within",
        "Crane (temporary, but it counts)": "notice needed",
    }


def test_lightning_rod_counts():
    heights = StructureHeights(structure_top=58.0, antenna_top=60.0, lightning_rod_top=61.0)
    assert findings_of(heights, ())[0].verdict == "notice needed"


def test_missing_site_elevation_asks():
    findings = findings_of(StructureHeights(structure_top=20.0), (field(5000.0),), None)
    assert [f.verdict for f in findings if "YYYY" in f.subject] == ["ask"]
    assert findings[-1].verdict == "ask"


def test_small_structure_and_its_exception():
    small = StructureHeights(structure_top=6.0)
    on_top = StructureHeights(structure_top=6.0, raises_another_structure=True)
    beside = (field(100.0),)
    assert {f.verdict for f in findings_of(small, beside, 60.0)} == {"within"}
    assert "notice needed" in {f.verdict for f in findings_of(on_top, beside, 60.0)}


def test_heliport_slope():
    heliport = field(1000.0, kind="heliport")
    findings = findings_of(StructureHeights(structure_top=90.0), (heliport,), 0.0)
    found = next(f for f in findings if "YYYY" in f.subject)
    assert "25:1" in found.text
    assert found.verdict == "notice needed"
    assert not any(f.subject == "Heliports" for f in findings)


def test_date_line_and_bad_height():
    rows = [
        {
            "icao": "NNNN",
            "name": "Isle",
            "country": "FJ",
            "lat": -17.0,
            "lon": -179.99,
            "elevation": 0,
        }
    ]
    near = airports_near(rows, latitude=math.radians(-17.0), longitude=math.radians(179.99))
    assert [airport.code for airport in near] == ["NNNN"]
    with pytest.raises(ValueError, match=r"crane_top is -1\.0 m"):
        StructureHeights(structure_top=1.0, crane_top=-1.0)
