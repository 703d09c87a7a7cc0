"""Fields for one watt: far away they are those of the gain, close by they join on smoothly."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, BoomwrightError
from boomwright.reach import (
    body_average,
    body_points,
    fields_at,
    level_grid,
    make_radiator,
    near_field_ends,
    upright_grid,
)
from boomwright.reach.exposure_grid import NEAREST, FieldPoints
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    gain_dbi,
    near_field,
    solve_beam,
    working_detail,
)
from fakes.readings import fake_beam

BEAM = replace(fake_beam(), height=12.0)
FREQUENCY = BEAM.design_frequency


def _gain(ground, elevation):
    solution = solve_beam(
        beam=BEAM,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=BEAM.band[1]),
        ground=ground,
    )
    return gain_dbi(
        solution=solution,
        azimuth=np.zeros(1),
        elevation=np.array([elevation]),
        ground=ground,
        height=BEAM.height,
    )[0, 0]


@pytest.mark.parametrize(
    "ground", [FREE_SPACE, PERFECT_GROUND, GROUND_CLASSES["medium dry"]], ids=lambda g: g.kind
)
def test_far_away_the_density_is_gain_over_the_sphere(ground):
    """S = G / (4 pi r^2) for one watt {ieee-145}; E and H of a plane wave."""
    radiator = make_radiator(beam=BEAM, ground=ground)
    # Over real ground the tables grow with the square of the distance; 19 wavelengths will do.
    distance, elevation = (400.0 if ground.kind == "real" else 4000.0), math.radians(17.0)
    height = distance * math.sin(elevation) + (BEAM.height if ground.kind == "free space" else 0.0)
    found = fields_at(radiator, points=[(distance * math.cos(elevation), 0.0, height)])
    density = 10.0 ** (_gain(ground, elevation) / 10.0) / (4.0 * math.pi * distance**2)
    assert found.power_density[0] == pytest.approx(density, rel=0.01)
    assert found.electric[0] / found.magnetic[0] == pytest.approx(VACUUM_IMPEDANCE, rel=1e-3)


def test_coarse_and_fine_sources_join_on():
    radiator = make_radiator(beam=BEAM, ground=FREE_SPACE)
    points = np.column_stack([np.zeros(40), np.zeros(40), np.linspace(12.6, 17.5, 40)])
    found = fields_at(radiator, points=points)
    exact, _ = near_field(sources=radiator.fine, points=points)
    wanted = np.sqrt((np.abs(exact) ** 2).sum(axis=1) / 2.0)
    assert found.electric == pytest.approx(wanted, rel=1e-6)


def test_the_peak_gain_is_the_greatest_in_free_space():
    radiator = make_radiator(beam=BEAM, ground=PERFECT_GROUND)
    assert radiator.peak_gain_dbi == pytest.approx(_gain(FREE_SPACE, 0.0), abs=0.05)


def test_left_and_right_are_alike():
    radiator = make_radiator(beam=BEAM, ground=GROUND_CLASSES["medium dry"])
    grid = level_grid(radiator, height=2.0, reach=20.0, count=9)
    direct = fields_at(radiator, points=[(x, -10.0, 2.0) for x in grid.across])
    row = int(np.flatnonzero(grid.up == -10.0)[0])
    assert grid.electric[row] == pytest.approx(direct.electric, rel=1e-6)
    assert grid.electric[row] == pytest.approx(grid.electric[len(grid.up) - 1 - row], rel=1e-9)


def test_nothing_is_said_within_arms_length_of_a_wire():
    radiator = make_radiator(beam=BEAM, ground=PERFECT_GROUND)
    grid = upright_grid(radiator, reach=6.0, top=14.0, counts=(49, 57))
    assert np.isnan(grid.electric).any()
    close = fields_at(radiator, points=[(0.0, 0.0, 12.0 + 0.9 * NEAREST)])
    assert (np.isnan(grid.electric) == np.isnan(grid.magnetic)).all()
    assert close.distance[0] > 0.0


def test_a_body_is_looked_at_from_head_to_foot():
    points = body_points(distance=9.0, head=1.8, azimuth=math.pi / 2)
    assert points[:, 2] == pytest.approx(np.arange(1.8, -0.1, -0.2))
    assert points[:, 0] == pytest.approx(0.0, abs=1e-12)
    assert points[:, 1] == pytest.approx(9.0)
    assert len(body_points(distance=9.0, head=0.7)) == 4


def test_the_average_over_a_body_is_that_of_the_squares():
    """A field that rises evenly from 1 to 3 has the mean square 13/3."""
    points = body_points(distance=9.0, head=1.8)
    body = FieldPoints(
        points=points,
        electric=3.0 - 2.0 * (1.8 - points[:, 2]) / 1.8,
        magnetic=np.full(len(points), 0.2),
        distance=np.full(len(points), 9.0),
    )
    electric, magnetic = body_average(body)
    assert electric**2 == pytest.approx(13.0 / 3.0, rel=3e-3)
    assert magnetic == pytest.approx(0.2)


def test_the_near_field_reaches_a_wavelength_at_least():
    assert near_field_ends(frequency=FREQUENCY, size=1.0) == pytest.approx(
        SPEED_OF_LIGHT / FREQUENCY
    )


def test_a_place_below_the_ground_is_refused():
    radiator = make_radiator(beam=BEAM, ground=PERFECT_GROUND)
    with pytest.raises(BoomwrightError, match="below the ground"):
        fields_at(radiator, points=[(5.0, 0.0, -1.0)])
