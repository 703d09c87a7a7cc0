"""A plan's airspace and country: the position decides, runway ends count, doubt is asked."""

from __future__ import annotations

import math

import pytest

from boomwright.base.verdicts import plan_verdict
from boomwright.plan import read_plan
from boomwright.study.permits import permit_plan
from example_stations import STATIONS, station
from written import metric

PLAN = """boomwright = 1
title = "Airspace"
[site]
ground = "medium dry"
{site}
[[beam]]
name = "20m"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "20 m"
heading = "0 deg"
material = "6061-T6"
feed = {{ kind = "split", gap = "40 mm" }}
[[beam.element]]
role = "driven"
at = "0 m"
diameter = "22 mm"
length = "10.1 m"
[permits]
{permits}
"""
LISTED = "Heliports and airfields in no table"


def findings(*, position="", elevation="", country="", more=""):
    site = [f'position = "{position}"'] if position else []
    site += [f'elevation = "{elevation}"'] if elevation else []
    permits = ([f'country = "{country}"'] if country else []) + ([more] if more else [])
    text = PLAN.format(site="\n".join(site), permits="\n".join(permits))
    return permit_plan(read_plan(text), exposure=()).sheet.findings


def one(found, *words):
    (finding,) = [f for f in found if all(word in f.subject for word in words)]
    return finding


def american(found):
    return any("(FAA)" in finding.subject for finding in found)


# Runway 16R of the large field at Denver ends at 39.8519 N, 104.697 W, 1623 m, 2.3 km from the
# field's reference point; this site lies 1.0 km south of that end, 3.1 km from the point.
SOUTH_OF_16R = "39.8429 N, 104.697 W"


def test_runway_ends_decide_not_the_reference_point():
    found = findings(position=SOUTH_OF_16R, elevation="1625 m", country="US")
    finding = one(found, "Structure and antenna under the surface of KDEN")
    # 20 m stands above 1623 m + 1000 m / 100; from the point 3.1 km off, 31 m would be allowed.
    assert finding.verdict == "notice needed"
    assert "runway ends of the table of 2022-10-11" in metric(finding.text)


def test_a_field_whose_ends_nobody_knows_is_asked_as_far_as_a_runway_can_reach():
    # 9KS9 at 38.7908 N, 97.6183 W has no runway in any table; this site lies 10 km south-east of
    # it and of everything else that could decide.
    found = findings(position="38.7276 N, 97.5369 W", elevation="390 m", country="US")
    finding = one(found, "Structure and antenna under the surface of 9KS9")
    assert finding.verdict == "ask"
    assert "as near as a runway may come" in metric(finding.text)


def test_entered_ends_settle_what_was_asked():
    runway = (
        '[[permits.runway]]\nairport = "9KS9"\n'
        'ends = [["38.7880 N, 97.6183 W", "387 m"], ["38.7936 N, 97.6183 W", "387 m"]]'
    )
    found = findings(position="38.7276 N, 97.5369 W", elevation="390 m", country="US", more=runway)
    assert not [f for f in found if "9KS9" in f.subject]


def test_without_a_country_the_position_decides_and_the_country_is_asked_for():
    found = findings(position=SOUTH_OF_16R, elevation="1625 m")
    assert one(found, "KDEN").verdict == "notice needed"
    country = one(found, "Country")
    assert country.verdict == "ask"
    assert "lies in US" in metric(country.text)
    assert any(finding.subject.startswith("United States:") for finding in found)


def test_a_country_that_the_position_contradicts_is_said_and_airspace_runs_all_the_same():
    found = findings(position=SOUTH_OF_16R, elevation="1625 m", country="GB")
    country = one(found, "Country")
    assert country.verdict == "ask"
    assert "says GB" in metric(country.text)
    assert "lies in US" in metric(country.text)
    assert one(found, "KDEN").verdict == "notice needed"
    assert any(finding.subject.startswith("United Kingdom:") for finding in found)


@pytest.mark.parametrize(
    ("position", "country", "also"),
    [
        ("42.30 N, 83.05 W", "CA", "US"),  # Windsor, Ontario, across the river from Detroit
        ("47.56 N, 7.59 E", "CH", "DE"),  # Basel
        ("54.99 N, 7.34 W", "GB", "IE"),  # Derry
    ],
)
def test_near_a_border_both_countries_are_looked_at(position, country, also):
    found = findings(position=position, elevation="200 m", country=country)
    agreed = one(found, "Country")
    assert agreed.verdict == "within"
    assert f"{also} lies within" in metric(agreed.text) or f"{also}," in metric(agreed.text)
    assert american(found) == (also == "US")
    if also in {"DE", "IE"}:
        assert any(finding.subject.startswith("European Union:") for finding in found)


def test_neither_country_nor_position_is_not_checked():
    country = one(findings(), "Country")
    assert country.verdict == "not checked"


def test_a_part_of_the_united_states_has_its_rules():
    found = findings(position="18.45 N, 66.10 W", elevation="5 m", country="PR")
    assert one(found, "Country").verdict == "within"
    assert american(found)
    assert any(finding.subject.startswith("United States:") for finding in found)


def test_heliports_come_from_the_table_and_that_none_is_complete_is_a_standing_question():
    # The pad of the hospital at 38.8319 N, 97.6104 W stands in the table.
    found = findings(position="38.833 N, 97.612 W", elevation="372 m", country="US")
    pad = one(found, "Structure and antenna under the surface of SN73")
    assert pad.verdict == "ask"
    assert "whether this heliport counts" in metric(pad.text)
    listed = one(found, LISTED)
    assert listed.standing
    assert "2022-10-11" in listed.dated
    assert "2026-09-05" in listed.dated
    assert LISTED not in {f.name for f in plan_verdict(f.finding for f in found).findings}


def test_a_field_of_the_newer_table_alone_is_asked():
    # 15UT stands only in the table of 2026.
    found = findings(position="40.96 N, 111.72 W", elevation="1720 m", country="US")
    finding = one(found, "15UT")
    assert finding.verdict == "ask"
    assert "airfields of 2026-09-05" in finding.dated


@pytest.mark.parametrize(
    ("position", "elevation", "code"),
    [
        # 600 m above a seaplane base with a known elevation, and beside one without
        ("43.75 N, 74.78 W", "1150 m", "NK15"),
        ("24.98 N, 80.56 W", "2 m", "42FL"),
    ],
)
def test_a_seaplane_base_gives_no_negative_height_limit(position, elevation, code):
    found = findings(position=position, elevation=elevation, country="US")
    finding = one(found, code)
    assert finding.verdict == "ask"
    assert "-" not in metric(finding.limit)
    assert "whether this seaplane base counts" in metric(finding.text)


def test_what_everybody_is_asked_does_not_count_in_the_verdict():
    # Far from every airfield, in a country whose rules are listed.
    found = findings(position="39.0 N, 117.0 W", elevation="1900 m", country="US")
    for finding in found:
        if finding.verdict == "ask" and finding.source == "permits-data":
            assert finding.standing, finding.subject
    counted = plan_verdict(f.finding for f in found if f.subject.startswith("United States"))
    assert counted.counts["ask"] == 0


def test_elsewhere_airfields_and_heliports_near_are_asked():
    # Beside the heliport at 51.47 N, 0.18 W in London; airfields lie within 15 km
    found = findings(position="51.47 N, 0.19 W", elevation="5 m", country="GB")
    for words in ("Aerodrome near", "Heliport near"):
        assert one(found, "Every country", words).verdict == "ask"
    found = findings(position="39.0 N, 117.0 W", elevation="1900 m", country="US")
    assert not [f for f in found if "near" in f.subject]


def test_no_limit_of_a_station_among_the_examples_is_negative():
    for path in STATIONS:
        plan = read_plan(path.read_text(encoding="utf-8"))
        for finding in permit_plan(plan, exposure=()).sheet.findings:
            assert not metric(finding.limit).startswith("-"), (path.name, finding.subject)


def test_the_station_at_salina_is_held_against_its_runway_ends():
    path = station("05")
    plan = read_plan(path.read_text(encoding="utf-8"))
    found = permit_plan(plan, exposure=()).sheet.findings
    # Runway 17/35 ends at 38.8104 N, 97.6460 W, 379.5 m (1245 ft); the site at 38.82 N, 97.60 W.
    north = (38.82 - 38.8104) * 111_000.0
    east = (97.6460 - 97.60) * 111_320.0 * math.cos(math.radians(38.815))
    allowed = 379.5 + math.hypot(north, east) / 100.0 - 385.0
    finding = one(found, "Structure and antenna", "KSLN")
    limit = float(metric(finding.limit).split(" m")[0])
    # 80 m and 1 m are taken off for doubt, and the last figure for the flat earth of this check
    assert limit == pytest.approx(allowed - 80.0 / 100.0 - 1.0, abs=0.3)
    assert finding.verdict == "within"
    # the crane of 36 m stands above what even the figures as they are allow
    assert allowed < 36.0
    assert one(found, "Crane", "KSLN").verdict == "notice needed"
