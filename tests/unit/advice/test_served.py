"""Decibels towards what is wanted, held against closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import BoomwrightError
from boomwright.plan import Plan, read_place, read_plan
from boomwright.plan.shapes import shape_plan
from boomwright.reach import TerrainProfile
from boomwright.solver import PERFECT_GROUND
from boomwright.study.advice.antennas import Duty
from boomwright.study.advice.served import (
    Served,
    Wanted,
    serve,
    serve_in_full,
    wanted_targets,
)
from boomwright.study.as_measured import measure_beam
from boomwright.study.feed_parts.results import AsMeasured

HEIGHT = 11.0
PLACE = """
boomwright = 1
title = "Two ways"
[site]
position = "50 N, 0 E"
ground = "medium dry"
[place]
bands = ["20 m"]
[reach]
target = [{ name = "east", position = "49 N, 40 E" }, { name = "north", position = "75 N, 0 E" }]
"""


@pytest.fixture(scope="module")
def dipole() -> Plan:
    plan = read_plan(shape_plan("dipole", band="20 m", height=HEIGHT))
    return replace(plan, site=replace(plan.site, ground=PERFECT_GROUND), support=None, line=None)


def towards(
    plan: Plan,
    *bearings_deg: float,
    elevation_deg: float,
    turns: bool,
    terrain: TerrainProfile | None = None,
) -> Served:
    wanted = tuple(
        Wanted(
            name=str(bearing),
            bearing=math.radians(bearing),
            elevation=np.radians([elevation_deg]),
            terrain=terrain,
        )
        for bearing in bearings_deg
    )
    duties, nothing = [[Duty(band="20 m", beam="20 m")]], {"20 m": (0.0,) * len(wanted)}
    given = serve(plan, wanted, duties=duties, turns=[turns], dipole=nothing)
    headed = replace(plan, beams=(replace(plan.beams[0], heading=given.headings[0]),))
    return serve_in_full(headed, wanted, duties=duties, turns=[turns], dipole=nothing)


def test_a_low_dipole_follows_its_image(dipole: Plan) -> None:
    """Over perfect ground: 2 sin(k h sin(elevation)) broadside {balanis-2005}."""
    wavelength = dipole.beams[0].wavelength
    low, high = (towards(dipole, 90.0, elevation_deg=up, turns=True) for up in (8.0, 20.0))
    factor = [
        abs(math.sin(math.tau * HEIGHT / wavelength * math.sin(math.radians(up))))
        for up in (8.0, 20.0)
    ]
    wanted = 20.0 * math.log10(factor[1] / factor[0])
    assert high.mean_db - low.mean_db == pytest.approx(wanted, abs=0.02)


def test_a_fixed_dipole_finds_the_heading_that_serves_the_worst(dipole: Plan) -> None:
    """Two targets at right angles: its heading lies half-way between them, or opposite."""
    found = towards(dipole, 20.0, 110.0, elevation_deg=10.0, turns=False)
    assert math.degrees(found.headings[0]) % 90.0 == pytest.approx(65.0)
    assert found.bands[0].gains_dbi[0] == pytest.approx(found.bands[0].gains_dbi[1], abs=0.05)
    turned = towards(dipole, 20.0, 110.0, elevation_deg=10.0, turns=True)
    assert turned.worst_db > found.worst_db + 2.0


def test_the_line_takes_its_loss(dipole: Plan) -> None:
    lined = read_plan(shape_plan("dipole", band="20 m", height=HEIGHT))
    assert lined.line is not None
    bare = replace(lined, line=None)
    long = replace(lined, line=replace(lined.line, length=100.0))
    losses = [towards(plan, 90.0, elevation_deg=15.0, turns=True) for plan in (bare, lined, long)]
    assert losses[0].bands[0].line_loss_db == 0.0
    assert losses[2].bands[0].line_loss_db > losses[1].bands[0].line_loss_db > 0.2
    gains = [each.mean_db + each.bands[0].line_loss_db for each in losses]
    assert gains == pytest.approx([gains[0]] * 3, abs=1e-6)


def test_elevations_are_those_of_the_fewest_hops() -> None:
    """A hop of 2760 km off 250 to 400 km, by plane geometry on the sphere {itu-p533}."""
    east, north = wanted_targets(read_place(PLACE))
    assert east.name == "east"
    assert north.bearing == pytest.approx(0.0, abs=1e-6)
    half = math.radians(25.0) / 2.0
    for height, found in ((250e3, north.elevation[0]), (400e3, north.elevation[-1])):
        ratio = 6371.0e3 / (6371.0e3 + height)
        angle = math.atan2(math.cos(half) - ratio, math.sin(half))
        assert math.degrees(found) == pytest.approx(math.degrees(angle), abs=0.15)
    assert math.degrees(east.bearing or 0.0) == pytest.approx(74.5, abs=5.0)


def test_without_targets_the_wanted_elevations_count() -> None:
    (any_way,) = wanted_targets(read_place(PLACE.split("[reach]")[0]))
    assert any_way.bearing is None
    assert np.degrees(any_way.elevation) == pytest.approx([5, 10, 15, 20, 30])


def test_a_slope_is_ground_that_is_tilted(dipole: Plan) -> None:
    """Above a plane that falls by 3 degrees the image lies there {balanis-2005}."""
    tilt, up = math.radians(3.0), math.radians(6.0)
    far = 5000.0
    slope = TerrainProfile(
        distance=np.array([-100.0, 0.0, far]),
        height=np.array([100.0, 0.0, -far]) * math.tan(tilt) + 600.0,
    )
    level, fallen = (
        towards(dipole, 0.0, elevation_deg=6.0, turns=True, terrain=each).bands[0].gains_dbi[0]
        for each in (None, slope)
    )
    k_h = 2.0 * math.pi * HEIGHT / dipole.beams[0].wavelength
    tilted = abs(math.sin(k_h * math.cos(tilt) * math.sin(up + tilt)))
    assert fallen - level == pytest.approx(
        20.0 * math.log10(tilted / math.sin(k_h * math.sin(up))), abs=0.3
    )


def test_a_profile_holds_for_the_first_target_and_a_grid_for_all() -> None:
    text = PLACE.replace("[reach]", '[reach]\nterrain = "ridge.csv"')
    profile = b"distance,height\n0,40\n300,0\n"
    east, north = wanted_targets(read_place(text), files=lambda *_: profile)
    assert east.terrain is not None
    assert east.terrain.height.tolist() == [40.0, 0.0]
    assert north.terrain is None
    with pytest.raises(BoomwrightError, match="put it beside the plan"):
        wanted_targets(read_place(text))


def test_at_the_design_frequency_fewer_solutions_say_the_same(dipole: Plan) -> None:
    whole, quick = (measure_beam(dipole, dipole.beams[0], at_design=each) for each in (False, True))
    assert isinstance(whole, AsMeasured)
    assert isinstance(quick, AsMeasured)
    assert len(quick.solved) < len(whole.solved) // 3
    assert quick.swr_design == pytest.approx(whole.swr_design, rel=1e-9)
