"""Hop geometry of Recommendation ITU-R P.533, and the path length of its reference program."""

from __future__ import annotations

import math

import pytest
from check_values import reach_check as check

from boomwright.reach.geodesy import Place
from boomwright.reach.hops import hop_elevation, incidence_angle, longest_hop
from sphere import sphere_bearing, sphere_distance

HEIGHTS_KM = [110, 250, 300, 350, 400]


@pytest.mark.parametrize("height_km", HEIGHTS_KM)
def test_elevation_against_hop_length(height_km):
    values = check(f"hop-elev-{height_km}km")
    for d_km, printed in zip(values["inputs"]["d_km"], values["expected"]["elev_deg"], strict=True):
        found = hop_elevation(hop_length=d_km * 1e3, layer_height=height_km * 1e3)
        assert math.degrees(found) == pytest.approx(printed, abs=1e-3)


@pytest.mark.parametrize("height_km", HEIGHTS_KM)
def test_longest_hop(height_km):
    printed = check(f"hop-elev-{height_km}km")["expected"]["max_hop_km_at_0deg"]
    assert longest_hop(layer_height=height_km * 1e3) / 1e3 == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize("hop_km", [250, 1000, 3000])
def test_other_form_of_the_same_equation(hop_km):
    # atan(h / (R sin t) + tan(t/2)) - t with t = d / 2R: the second form named in the check.
    assert "atan(h/(R sin t)+tan(t/2))-t" in check("hop-formula")["tolerance_note"]
    t = hop_km / (2.0 * 6371.009)
    form = math.atan(300.0 / (6371.009 * math.sin(t)) + math.tan(t / 2.0)) - t
    found = hop_elevation(hop_length=hop_km * 1e3, layer_height=300e3)
    assert found == pytest.approx(form, abs=1e-13)


def test_incidence_at_the_layer():
    values = check("hop-incidence-300km")
    for d_km, printed in zip(values["inputs"]["d_km"], values["expected"], strict=True):
        elevation = hop_elevation(hop_length=d_km * 1e3, layer_height=300e3)
        found = math.degrees(incidence_angle(elevation=elevation, layer_height=300e3))
        assert found == pytest.approx(printed, abs=0.01)


def test_path_length_of_the_reference_program():
    values = check("geo-itu-path")
    given = values["inputs"]
    station = Place.from_degrees(latitude_deg=given["lat1"], longitude_deg=given["lon1"])
    target = Place.from_degrees(latitude_deg=given["lat2"], longitude_deg=given["lon2"])
    assert sphere_distance(station=station, target=target) / 1e3 == pytest.approx(
        values["expected"], abs=1e-5
    )
    # Bearing given in the note of the check.
    assert math.degrees(sphere_bearing(station=station, target=target)) == pytest.approx(
        22.3051, abs=1e-4
    )
