"""Nearest runway point and surface against points sampled along the runway."""

import math

import pytest
from geographiclib.geodesic import Geodesic

from boomwright.permits import Airport, Runway, RunwayEnd, StructureHeights, surface_over_site
from boomwright.permits.airports import nearest_points
from boomwright.permits.united_states import united_states_airspace
from written import metric

SITE_DEG = (47.0, 8.0)
SITE = {"latitude": math.radians(SITE_DEG[0]), "longitude": math.radians(SITE_DEG[1])}


def end(azimuth_deg, distance, elevation):
    point = Geodesic.WGS84.Direct(*SITE_DEG, azimuth_deg, distance)
    return RunwayEnd(
        latitude=math.radians(point["lat2"]),
        longitude=math.radians(point["lon2"]),
        elevation=elevation,
    )


def airport(*runways):
    return Airport(
        code="QQQQ",
        name="Invented Field",
        latitude=runways[0].first.latitude,
        longitude=runways[0].first.longitude,
        elevation=max(max(r.first.elevation, r.second.elevation) for r in runways),
        runways=runways,
    )


def sampled(runway, count=2001):
    """Nearest of many points along the geodesic between the ends: distance and elevation."""
    line = Geodesic.WGS84.InverseLine(
        math.degrees(runway.first.latitude),
        math.degrees(runway.first.longitude),
        math.degrees(runway.second.latitude),
        math.degrees(runway.second.longitude),
    )
    best = (math.inf, 0.0)
    for step in range(count):
        part = step / (count - 1)
        point = line.Position(part * line.s13)
        away = Geodesic.WGS84.Inverse(*SITE_DEG, point["lat2"], point["lon2"])["s12"]
        height = (1 - part) * runway.first.elevation + part * runway.second.elevation
        best = min(best, (away, height))
    return best


@pytest.mark.parametrize(
    "runway",
    [
        Runway(first=end(40.0, 3500.0, 400.0), second=end(80.0, 4200.0, 430.0)),  # abeam
        Runway(first=end(10.0, 2500.0, 400.0), second=end(12.0, 5000.0, 430.0)),  # end on, first
        Runway(first=end(10.0, 5000.0, 400.0), second=end(12.0, 2500.0, 430.0)),  # end on, second
    ],
)
def test_nearest_point_of_a_sloping_runway(runway):
    point = nearest_points(airport(runway), **SITE)[0]
    away, height = sampled(runway)
    assert point.known == "entered ends"
    assert point.distance == pytest.approx(away, abs=0.05)
    assert point.elevation == pytest.approx(height, abs=0.02)
    check = surface_over_site(airport(runway), **SITE)
    assert check.allowed_amsl == pytest.approx(height + away / 100.0, abs=0.02)


def test_lower_runway_further_off_can_decide():
    high = Runway(first=end(0.0, 2000.0, 450.0), second=end(5.0, 3500.0, 450.0))
    low = Runway(first=end(90.0, 2600.0, 400.0), second=end(95.0, 4000.0, 400.0))
    field = airport(high, low)
    assert nearest_points(field, **SITE)[0].elevation == pytest.approx(450.0, rel=1e-9)
    check = surface_over_site(field, **SITE)
    assert check.allowed_amsl == pytest.approx(426.0, abs=0.01)


def test_entered_runways_take_no_allowance():
    runway = Runway(first=end(0.0, 3000.0, 400.0), second=end(0.0, 4500.0, 400.0))
    for top, verdict in ((29.9, "within"), (30.1, "notice needed")):
        findings = united_states_airspace(
            heights=StructureHeights(structure_top=top),
            site_elevation=400.0,
            airports=(airport(runway),),
            **SITE,
        )
        found = next(f for f in findings if "QQQQ" in f.subject)
        assert found.verdict == verdict
        assert "runway ends you entered" in metric(found.text)
