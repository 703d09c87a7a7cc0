"""Airspace findings: airports, doubt, cranes, missing data."""

import math

import pytest

from boomwright.permits import (
    Airport,
    Runway,
    RunwayEnd,
    StructureHeights,
    surface_over_site,
    with_entered_runways,
)
from boomwright.permits.airports import nearest_points
from boomwright.permits.united_states import united_states_airspace
from written import metric

# Beside a well-known large airport; its runways and elevation are in the open table.
NEAR_JFK = {"latitude": math.radians(40.68), "longitude": math.radians(-73.80)}


def findings_of(heights, airports, site_elevation=10.0, *, tables="", **site):
    return united_states_airspace(
        heights=heights,
        site_elevation=site_elevation,
        airports=airports,
        tables=tables,
        **(site or NEAR_JFK),
    )


def test_real_airport_asks_for_notice(landing_table):
    airports = landing_table.near(radius=25_000.0, **NEAR_JFK)
    jfk = next(airport for airport in airports if airport.code == "KJFK")
    assert jfk.elevation == pytest.approx(13 * 0.3048, rel=1e-9)
    assert len(jfk.runways) == 4
    findings = findings_of(StructureHeights(structure_top=30.0), airports)
    finding = next(f for f in findings if "KJFK" in f.subject)
    assert finding.verdict == "notice needed"
    assert f"runway ends of the table of {landing_table.dated}" in metric(finding.text)
    assert landing_table.dated in finding.dated
    assert findings[-1].subject.startswith("Antenna structure registration")
    assert findings[-1].verdict == "notice needed"


def test_far_from_everything_is_within(landing_table):
    site = {"latitude": math.radians(39.0), "longitude": math.radians(-117.0)}
    airports = landing_table.near(radius=25_000.0, **site)
    findings = findings_of(
        StructureHeights(structure_top=20.0), airports, 1500.0, tables="of 2022", **site
    )
    verdicts = {f.subject: f.verdict for f in findings}
    assert verdicts["Surfaces around airports (FAA)"] == "within"
    assert verdicts["Antenna structure registration (FCC)"] == "within"
    assert next(f for f in findings if "around airports" in f.subject).dated.endswith("of 2022")


def field(distance_north, *, code="YYYY", **more):
    # one minute of latitude is about 1852 m; the exact distance is read back where it matters
    return Airport(
        code=code,
        name="Invented Field",
        latitude=NEAR_JFK["latitude"] + distance_north / 6_370_000.0,
        longitude=NEAR_JFK["longitude"],
        elevation=50.0,
        **more,
    )


@pytest.mark.parametrize(
    ("length", "reach", "fall", "ratio"),
    [(900.0, 2900.0, 0.0125 * 900.0, 50.0), (1500.0, 3500.0, 0.0125 * 1500.0, 100.0)],
)
def test_a_runway_without_ends_is_asked_from_as_near_as_it_may_come(length, reach, fall, ratio):
    airport = field(5500.0, unplaced=(length,))
    away = nearest_points(airport, **NEAR_JFK)[0].distance
    allowed = 50.0 - fall + (away - reach) / ratio - 10.0
    for top, verdict in ((allowed - 0.01, "within"), (allowed + 0.01, "ask")):
        findings = findings_of(StructureHeights(structure_top=top), (airport,))
        assert [f.verdict for f in findings if "YYYY" in f.subject] == [verdict]


def test_a_field_without_any_runway_is_asked_from_8_km():
    far = field(8000.0 + 6000.0)
    findings = findings_of(StructureHeights(structure_top=100.0), (far,))
    assert [f.verdict for f in findings if "YYYY" in f.subject] == ["ask"]
    assert surface_over_site(field(8000.0 + 6200.0), **NEAR_JFK) is None
    # at its reference point even the steep slope of a short runway is passed
    near = findings_of(StructureHeights(structure_top=100.0), (field(1500.0),))
    assert [f.verdict for f in near if "YYYY" in f.subject] == ["notice needed"]


def runway(north, *, length=1000.0, east=0.0, **more):
    ends = [
        RunwayEnd(
            latitude=NEAR_JFK["latitude"] + metres / 6_370_000.0,
            longitude=NEAR_JFK["longitude"] + east / 4_830_000.0,
            elevation=50.0,
        )
        for metres in (north, north + length)
    ]
    return Runway(first=ends[0], second=ends[1], **more)


def test_doubtful_ends_of_the_table_are_asked_within_their_doubt():
    airport = field(5000.0, runways=(runway(5000.0, doubt=200.0, elevation_doubt=1.0),))
    check = surface_over_site(airport, **NEAR_JFK)
    assert check.certain_amsl - check.allowed_amsl == pytest.approx(200.0 / 100.0 + 1.0, rel=1e-9)
    middle = (check.certain_amsl + check.allowed_amsl) / 2.0 - 10.0
    wanted = ((middle - 2.0, "within"), (middle, "ask"), (middle + 2.0, "notice needed"))
    for top, verdict in wanted:
        findings = findings_of(StructureHeights(structure_top=top), (airport,))
        assert [f.verdict for f in findings if "YYYY" in f.subject] == [verdict]


def test_a_private_code_is_asked_where_a_public_one_needs_notice():
    own = {"runways": (runway(2000.0, doubt=80.0),), "dated": "2022-10-11"}
    for code, verdict in (("KZZZ", "notice needed"), ("Z12", "notice needed"), ("12ZZ", "ask")):
        findings = findings_of(
            StructureHeights(structure_top=45.0), (field(2000.0, code=code, **own),), 40.0
        )
        assert [f.verdict for f in findings if code in f.subject] == [verdict]
        assert findings[-1].verdict == verdict


def test_an_unknown_elevation_is_asked():
    airport = Airport(
        code="YYYY", name="Invented Lake", kind="seaplane base", elevation=None, **NEAR_JFK
    )
    finding = findings_of(StructureHeights(structure_top=9.0), (airport,))[1]
    assert finding.verdict == "ask"
    assert "elevation of its landing area" in metric(finding.text)


def test_ground_above_the_surface_gives_no_negative_height():
    airport = field(3000.0, runways=(runway(3000.0),))
    finding = findings_of(StructureHeights(structure_top=9.0), (airport,), 400.0)[1]
    assert finding.verdict == "notice needed"
    assert finding.limit == "nothing, the ground at the site lies above the surface"


def test_entered_runways_replace_their_own_and_silence_no_other():
    table = (runway(1000.0, doubt=80.0), runway(1000.0, east=3000.0, doubt=80.0))
    airport = field(1000.0, runways=table, unplaced=(1500.0, 0.0))
    exact = runway(1010.0)
    found = with_entered_runways(airport, (exact,))
    assert found.runways == (exact, table[1])
    assert found.unplaced == (1500.0, 0.0)
    other = runway(-9000.0, length=1550.0)
    found = with_entered_runways(airport, (other,))
    assert found.runways == (other, *table)
    assert found.unplaced == (0.0,)
    unknown = field(1000.0)
    assert with_entered_runways(unknown, (exact,)).open_lengths == ()
    assert with_entered_runways(unknown, ()).open_lengths == (0.0,)


def test_crane_counts_and_is_shown_apart():
    heights = StructureHeights(structure_top=20.0, antenna_top=22.0, crane_top=95.0)
    findings = findings_of(heights, (field(7000.0, runways=(runway(5000.0),)),))
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
    assert "25:1" in metric(found.text)
    assert found.verdict == "notice needed"


def test_bad_height():
    with pytest.raises(ValueError, match=r"crane_top is -1\.0 m"):
        StructureHeights(structure_top=1.0, crane_top=-1.0)
