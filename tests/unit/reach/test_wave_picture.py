"""The wave's picture against the solver's own near field, and its shares against their sum."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import solved_beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.plan import read_plan, starter_plan
from boomwright.reach import wave_picture
from boomwright.reach.pattern_grid import pattern_grid
from boomwright.solver import gain_dbi, near_field, near_sources

GROUNDS = ("free space", "perfect", "medium dry")


def starter(ground: str, *, elements: int = 3):
    plan = read_plan(starter_plan(band="20 m", element_count=elements, ground=ground))
    return plan.beams[0], plan.site.ground


@pytest.fixture(scope="module", params=GROUNDS)
def case(request):
    beam, ground = starter(request.param)
    picture = wave_picture(beam=beam, ground=ground, frequency=beam.design_frequency)
    solution = solved_beam(beam, ground=ground)
    return beam, ground, picture, solution


@pytest.mark.parametrize("name", ["level", "upright"])
def test_the_sum_of_the_shares_is_the_near_field_of_the_solver(case, name):
    beam, ground, picture, solution = case
    plane = getattr(picture, name)
    wavelength = SPEED_OF_LIGHT / beam.design_frequency
    sources = near_sources(
        assembly=solution.currents.assembly,
        unknowns=solution.currents.unknowns[0, :, 0] * solution.impedance[0],
        frequency=beam.design_frequency,
        nearest=0.02 * wavelength,
    )
    if ground.kind == "perfect":
        sources = replace(sources, points=sources.points + np.array([0.0, 0.0, beam.height]))
    rng = np.random.default_rng(7)
    # The lowest row of an upright plane lies on the ground, where the reference is not defined.
    rows = rng.integers(2, len(plane.across), 12)
    columns = rng.integers(0, len(plane.along), 12)
    points = np.zeros((12, 3))
    points[:, 0] = plane.along[columns]
    points[:, 1 if name == "level" else 2] = plane.across[rows]
    if name == "level":
        points[:, 2] = plane.height
    axes = np.array([element.position for element in beam.elements])
    height = beam.height if ground.kind != "free space" else 0.0
    off = np.hypot(points[:, None, 0] - axes, points[:, None, 2] - height).min(axis=1)
    clear = off >= 0.0199 * wavelength
    assert clear.sum() > 5
    electric, _ = near_field(sources=sources, points=points[clear], ground=ground)
    wanted = electric[:, 1] * np.sqrt(picture.power / solution.accepted[0])
    found = plane.shares.sum(axis=0)[rows, columns][clear]
    np.testing.assert_allclose(found, wanted, rtol=2e-3, atol=2e-4 * np.abs(wanted).max())


def test_the_shares_add_to_the_gain_and_the_front_to_back_ratio():
    beam, ground = starter("free space")
    picture = wave_picture(beam=beam, ground=ground, frequency=beam.design_frequency)
    solution = solved_beam(beam)
    gain = gain_dbi(solution=solution, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2))[0]
    ahead = abs(sum(share.forward for share in picture.shares))
    behind = abs(sum(share.backward for share in picture.shares))
    assert 20.0 * np.log10(ahead / behind) == pytest.approx(gain[0] - gain[1], abs=0.02)
    driven = [share for share in picture.shares if share.role == "driven"]
    assert [abs(s.current) for s in driven] == pytest.approx([1.0], rel=1e-9)


def test_far_ahead_the_field_falls_with_distance_and_turns_with_the_wave():
    beam, ground = starter("free space")
    picture = wave_picture(beam=beam, ground=ground, frequency=beam.design_frequency)
    plane = picture.level
    middle = len(plane.across) // 2
    line = plane.shares.sum(axis=0)[middle]
    wavenumber = 2.0 * np.pi * beam.design_frequency / SPEED_OF_LIGHT
    ends = np.array([-12, -1])
    turn = np.angle(
        line[ends[1]] / line[ends[0]] * np.exp(1j * wavenumber * np.ptp(plane.along[ends]))
    )
    # In the near zone the phase still settles; two wavelengths out it is within a few degrees.
    assert abs(turn) < np.radians(6.0)
    assert abs(line[-1]) < abs(line[-12])


def test_a_picture_over_ground_vanishes_on_a_perfect_one_and_its_height_is_above_it():
    beam, ground = starter("perfect")
    picture = wave_picture(beam=beam, ground=ground, frequency=beam.design_frequency)
    upright = np.abs(picture.upright.shares.sum(axis=0))
    assert picture.upright.across[0] == 0.0
    # Horizontal electric field on a perfect conductor is zero {balanis-2005}.
    assert upright[0].max() < 1e-6 * upright.max()
    assert picture.level.height > beam.height


@pytest.mark.parametrize("ground", GROUNDS)
def test_the_grid_of_gain_is_the_cut_of_gain(ground):
    beam, below = starter(ground)
    solution = solved_beam(beam, ground=below)
    grid = pattern_grid(solution=solution, ground=below, height=beam.height)
    assert grid.elevation_deg[0] == (-90.0 if ground == "free space" else 0.0)
    assert grid.azimuth_deg[[0, -1]].tolist() == [0.0, 360.0]
    row = int(np.flatnonzero(grid.elevation_deg == 24.0)[0])
    cut = gain_dbi(
        solution=solution,
        azimuth=np.radians(grid.azimuth_deg),
        elevation=np.full(len(grid.azimuth_deg), np.radians(24.0)),
        ground=below,
        height=beam.height,
    )[0]
    np.testing.assert_allclose(grid.gain_dbi[row], cut, rtol=0.0, atol=1e-9)
    np.testing.assert_allclose(grid.gain_dbi[:, 0], grid.gain_dbi[:, -1], rtol=0.0, atol=1e-6)
