"""A search beside other beams: its fast figures against the full solver, slopes against steps."""

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam
from boomwright.design import Targets, Wish, improve_beam
from boomwright.design.mutual_slopes import mutual_slopes
from boomwright.design.setting_up import set_up
from boomwright.design.targets import slopes_of
from boomwright.reach import read_beam
from boomwright.solver import FREE_SPACE, gain_dbi, solve_beam, working_detail

FREQUENCY = 28.4e6


def three(name, *, height=15.0):
    antenna = beam(
        lengths=[5.3, 5.05, 4.75],
        places=[0.0, 1.6, 3.2],
        diameter=0.016,
        driven=1,
        frequency=FREQUENCY,
        height=height,
        material="6061-T6",
    )
    return replace(antenna, name=name, band=(28.2e6, 28.6e6))


def searched(own):
    setting = set_up(beam=own, wish=Wish(targets=Targets()), count=3)
    space = setting.problem.space
    free = space.nearest(
        positions=np.array([0.0, 1.5, 3.3]), half_lengths=np.array([2.66, 2.51, 2.36])
    )
    return setting.problem, free


def beside(idle, *, rise=1.5, **given):
    other = replace(three("two", height=15.0 + rise), idle_feed=idle, **given)
    if rise == 0.0:
        moved = tuple(replace(each, position=each.position + 0.7) for each in other.elements)
        other = replace(other, elements=moved)
    return replace(three("one"), neighbours=(other,))


@pytest.mark.parametrize(
    ("own", "tilted"),
    [
        (beside("open"), False),
        (beside("shorted", rise=2.5), True),
        (beside("matched", rise=4.0), True),
        (beside("matched", rise=0.0, on_boom_of="one"), False),
    ],
)
def test_fast_figures_have_the_neighbour_in_them(own, tilted):
    problem, free = searched(own)
    targets = Targets(take_off=0.4 if tilted else 0.0)
    space = problem.space
    both = (space.origin + space.basis @ free)[None]
    found = slopes_of(problem=problem, both=both, towards=targets.directions())
    places, halves = space.dimensions(free)
    built = replace(
        own,
        elements=tuple(
            replace(each, position=float(x), half=(replace(each.half[0], length=float(h)),))
            for each, x, h in zip(own.elements, places, halves, strict=True)
        ),
    )
    at = int(problem.design_number)
    solution = solve_beam(
        beam=built,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=28.6e6),
    )
    gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.array([targets.take_off]))[
        0, 0
    ]
    # As near as without a neighbour: the elements answer by five polynomials.
    assert complex(found.impedance[0, at]) == pytest.approx(complex(solution.impedance[0]), abs=0.1)
    assert float(found.gain_db[0, at, 0]) == pytest.approx(gain, abs=0.02)
    lone = gain_dbi(
        solution=solve_beam(
            beam=built.alone,
            frequencies=np.array([FREQUENCY]),
            detail=working_detail(frequency=28.6e6),
        ),
        azimuth=np.zeros(1),
        elevation=np.array([targets.take_off]),
    )[0, 0]
    assert abs(lone - gain) > 0.1


@pytest.mark.parametrize("own", [beside("open"), beside("shorted", rise=0.0, on_boom_of="one")])
def test_slopes_beside_a_neighbour_are_those_of_small_steps(own):
    problem, free = searched(own)
    space, towards = problem.space, Targets(take_off=0.2).directions()
    both = (space.origin + space.basis @ free)[None]
    found = slopes_of(problem=problem, both=both, towards=towards)
    step = 1e-5
    for number in range(both.shape[1]):
        moved = [both.copy(), both.copy()]
        moved[0][0, number] -= step
        moved[1][0, number] += step
        low, high = (slopes_of(problem=problem, both=each, towards=towards) for each in moved)
        slope = (high.impedance - low.impedance) / (2.0 * step)
        np.testing.assert_allclose(
            found.impedance_slopes[:, :, number], slope, rtol=1e-4, atol=1e-3
        )
        slope = (high.gain_db - low.gain_db) / (2.0 * step)
        np.testing.assert_allclose(found.gain_slopes[..., number], slope, rtol=1e-4, atol=1e-3)


def test_a_search_beside_a_neighbour_finds_more_than_one_that_does_not_see_it():
    own = beside("shorted", rise=2.5)
    wish = Wish(targets=Targets(most_swr=2.0, match="matched", resistance=(10.0, np.inf)))
    seen = improve_beam(beam=own, wish=wish, starts=4, seed=1)
    blind = improve_beam(beam=own.alone, wish=wish, starts=4, seed=1)
    put_back = replace(blind.beam, neighbours=own.neighbours)

    def worst_gain(antenna):
        readings = read_beam(beam=antenna, ground=FREE_SPACE, frequencies=seen.after.frequencies)
        return float(readings.over_band("gain_dbi").min())

    # What the search promises is what everybody computes.
    assert seen.after.worst[0] == pytest.approx(worst_gain(seen.beam), abs=1e-6)
    assert seen.after.worst[0] > worst_gain(put_back) + 0.3


def test_what_others_are_to_each_other_is_integrated_once():
    problem, free = searched(beside("open"))
    idle, space = problem.idle, problem.space
    places, halves = idle.joined((space.origin + space.basis @ free)[None])
    known = idle.tables.beside
    given = {
        "wavenumbers": idle.tables.wavenumbers,
        "positions": places,
        "half_lengths": halves,
        "closest_wl": 0.03,
    }
    fine = replace(known, closest_wl=0.03, still=None)
    every, kept = (mutual_slopes(**given, beside=each) for each in (fine, known))
    assert known.still.shape[2] == 3
    scale = np.abs(every.field).max()
    # As near as eight points are at a seventh of a wavelength.
    np.testing.assert_allclose(kept.field / scale, every.field / scale, rtol=0.0, atol=1e-3)
    # Slopes of pairs that never move are left out, and count for nothing.
    assert np.abs(every.by_spacing[:, :, -3:]).max() > 0.0
    assert not kept.by_spacing[:, :, -3:].any()
