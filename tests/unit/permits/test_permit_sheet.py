"""The whole sheet: which rules are asked, and what is said when data are missing."""

import dataclasses
import math

import pytest

from boomwright.permits import (
    Airport,
    Installation,
    LocalLimits,
    Neighbourhood,
    PowerLine,
    StructureHeights,
    exposure_finding,
    permit_sheet,
    read_jurisdiction,
)
from boomwright.permits.exposure import exposure_ratio
from boomwright.permits.exposure_limits import fcc_limit
from written import metric

RULE = """
boomwright_jurisdiction = 1
id = "{id}"
name = "{id}"
countries = {countries}
edited_on = "2026-01-31"
[[rule]]
id = "q"
kind = "question"
subject = "Question of {id}"
text = "Ask."
basis = "b"
whom_to_ask = "w"
dated = "2020"
seen = "read"
"""


def place(identity, countries):
    return read_jurisdiction(RULE.format(id=identity, countries=countries), name="x.toml")


BASE = Installation(
    heights=StructureHeights(structure_top=15.0, antenna_top=17.0),
    around=Neighbourhood(swing_radius=6.0, boundary_distance=30.0, walkway_distance=40.0),
    country="US",
    latitude=math.radians(39.0),
    longitude=math.radians(-117.0),
    site_elevation=1500.0,
    airports=(),
    lines_surveyed=True,
    power_lines=(PowerLine(name="street", distance=60.0, height=8.0, voltage=11e3),),
    local_limits=(LocalLimits(basis="Ordinance", dated="2024", maximum_height=20.0),),
    jurisdictions=(place("us", ["US"]), place("gb", ["GB"]), place("everywhere", [])),
)


def verdicts(sheet):
    return {finding.subject: finding.verdict for finding in sheet.findings}


def test_only_the_rules_of_the_country_are_asked():
    found = verdicts(permit_sheet(BASE))
    assert "us: Question of us" in found
    assert "everywhere: Question of everywhere" in found
    assert "gb: Question of gb" not in found
    assert found["Height (local)"] == "within"
    assert found["street: whole fall arc"] == "within"
    abroad = verdicts(permit_sheet(dataclasses.replace(BASE, country="GB")))
    assert not any("FAA" in subject or "FCC" in subject for subject in abroad)
    assert "gb: Question of gb" in abroad


@pytest.mark.parametrize(
    ("more", "subject"),
    [
        ({"latitude": None}, "Surfaces around airports (FAA)"),
        ({"airports": None}, "Surfaces around airports (FAA)"),
        ({"lines_surveyed": False}, "Power lines"),
    ],
)
def test_what_is_missing_is_not_checked(more, subject):
    assert verdicts(permit_sheet(dataclasses.replace(BASE, **more)))[subject] == "not checked"


def test_everything_but_within_becomes_a_notice():
    limit = fcc_limit(frequency=14.2e6, group="general")
    exposure = exposure_finding(
        exposure_ratio(limit, electric_field=2 * limit.electric_field),
        place="patio",
        near_field=True,
        whom_to_ask="authority",
    )
    near = Airport(
        code="ZZZZ",
        name="Invented Field",
        latitude=BASE.latitude,
        longitude=BASE.longitude,
        elevation=1490.0,
    )
    sheet = permit_sheet(dataclasses.replace(BASE, airports=(near,)), exposure=(exposure,))
    counts = sheet.counted()
    assert sum(counts.values()) == len(sheet.findings)
    assert len(sheet.notices) == len(sheet.findings) - counts["within"]
    assert counts["exceeded"] == 1
    assert counts["notice needed"] == 2
    assert "not legal advice" in sheet.general_information
    for notice in sheet.notices:
        assert "Ask:" in metric(notice.text)
        assert "safe" not in metric(notice.text).lower().split()
