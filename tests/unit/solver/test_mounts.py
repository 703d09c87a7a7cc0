"""Mounts and series inductance: what a stretch does, and how bands widen."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from antennas import beam, impedance, rod
from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Feed, Mount
from boomwright.solver import (
    acts_longer,
    beam_wires,
    both_halves,
    element_half,
    feed_capacitance,
    mount_edges,
    mount_effect,
    solve_beam,
    working_detail,
)
from boomwright.solver.series_inductance import stretches_between, stretches_from_the_end

FREQUENCY = 144e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
ABOVE = Mount(kind="insulated above", boom=(0.0254, 0.0016), clearance=0.005)
THROUGH = Mount(kind="insulated through", boom=(0.0254, 0.0016), hole=0.008)


def held(mount):
    plain = beam(
        lengths=[1.02, 0.97, 0.91],
        places=[0.0, 0.4, 0.8],
        diameter=0.006,
        driven=1,
        frequency=FREQUENCY,
    )
    return replace(plain, elements=tuple(replace(each, mount=mount) for each in plain.elements))


def effect(mount):
    return mount_effect(element=held(mount).elements[0], wavelength=WAVELENGTH)


def test_stretches_are_cut_and_turned():
    both = ((0.0, 0.1, 2.0), (0.3, np.inf, 5.0))
    assert stretches_between(both, low=0.05, high=0.4) == (
        (0.0, pytest.approx(0.05), 2.0),
        (pytest.approx(0.25), pytest.approx(0.35), 5.0),
    )
    assert stretches_between(both, low=0.1, high=0.3) == ()
    turned = stretches_from_the_end(both, length=1.0)
    assert turned == ((0.0, 0.7, 5.0), (0.9, 1.0, 2.0))
    back = stretches_from_the_end(turned, length=1.0)
    assert np.ravel(back) == pytest.approx([0.0, 0.1, 2.0, 0.3, 1.0, 5.0])


def test_inductance_in_the_middle_is_a_coil_at_the_feed():
    system = rod(half=0.24, radius=1e-3, gap=2e-3)
    run = replace(system.runs[0], inductance=((0.0, 1e-3, 1e-6),))
    plain, loaded = (
        impedance(each, frequency=SPEED_OF_LIGHT) for each in (system, replace(system, runs=(run,)))
    )
    # One microhenry a metre over a millimetre to either side of the middle.
    coil = 2j * np.pi * SPEED_OF_LIGHT * 2e-9
    assert loaded - plain == pytest.approx(coil, rel=0.01)


def test_whole_element_carries_both_sides():
    element = held(replace(ABOVE, plate=(0.08, 0.04))).elements[0]
    half = element_half(element=element)
    whole = both_halves(left=half, right=half)
    assert whole.sections == ((element.length, 0.003),)
    assert sum((end - start) * each for start, end, each in whole.inductance) == pytest.approx(
        effect(replace(ABOVE, plate=(0.08, 0.04))).inductance
    )
    middle = element.half_length
    assert {(round(2 * middle - end, 9), round(2 * middle - start, 9)) for start, end, _ in
            whole.inductance} == {(round(start, 9), round(end, 9)) for start, end, _ in
                                  whole.inductance}  # fmt: skip
    assert whole.part(low=0.0, high=middle).length == pytest.approx(middle)


def test_no_metal_is_no_mount():
    free = held(Mount(kind="non-conducting boom"))
    assert beam_wires(beam=free) == beam_wires(beam=held(None))
    assert effect(Mount(kind="non-conducting boom")).half_width == 0.0
    assert effect(None) is None
    assert mount_edges(beam=free) == ()


def test_a_mount_makes_an_element_act_shorter():
    at = np.array([FREQUENCY])
    detail = working_detail(frequency=FREQUENCY)
    mounted, bare = held(ABOVE), held(None)
    shift = acts_longer(inductance=effect(ABOVE).inductance, element=mounted.elements[0])
    assert -0.008 < shift < -0.003
    shorter = replace(
        bare,
        elements=tuple(
            replace(each, half=(replace(each.half[0], length=each.half_length + shift / 2.0),))
            for each in bare.elements
        ),
    )
    found, wanted, plain = (
        complex(solve_beam(beam=each, frequencies=at, detail=detail).impedance[0])
        for each in (mounted, shorter, bare)
    )
    # The rule for the length is good to a few percent of the change.
    assert abs(found - wanted) < 0.12 * abs(plain - wanted)


def test_what_is_not_said_widens_the_band():
    said, unsaid = effect(ABOVE), effect(replace(ABOVE, clearance=None))
    assert unsaid.half_width / abs(unsaid.inductance) > said.half_width / abs(said.inductance)
    walled, open_wall = effect(THROUGH), effect(replace(THROUGH, boom=(0.0254,)))
    assert open_wall.half_width > walled.half_width


@pytest.mark.parametrize(
    ("mount", "words"),
    [
        (replace(ABOVE, boom=(0.1,)), "thicker than 0.04"),
        (replace(ABOVE, boom=(0.008,)), "times as thick as its boom"),
        (replace(ABOVE, boom=(0.07,), clearance=0.0), "all but touching"),
        (replace(ABOVE, plate=(0.08, 0.1)), "wider than 3 booms"),
    ],
)
def test_outside_what_was_checked_the_band_is_doubled(mount, words):
    found = effect(mount)
    assert any(words in text for text in found.unchecked)
    assert found.half_width > 0.6 * abs(found.inductance)
    assert effect(ABOVE).unchecked == ()


def test_edges_move_one_kind_at_a_time():
    mixed = held(ABOVE)
    mixed = replace(
        mixed, elements=(replace(mixed.elements[0], mount=THROUGH), *mixed.elements[1:])
    )
    through, above = mount_edges(beam=mixed)
    assert [each.mount.added > 0.0 for each in through.elements] == [True, False, False]
    assert [each.mount.added > 0.0 for each in above.elements] == [False, True, True]
    assert above.elements[1].mount.added == pytest.approx(effect(ABOVE).half_width)


def test_capacitance_across_a_split_feed_only():
    split = held(replace(ABOVE, plate=(0.1, 0.05, 0.002)))
    assert 0.3e-12 < feed_capacitance(beam=split) < 5e-12
    assert feed_capacitance(beam=held(ABOVE)) < feed_capacitance(beam=split)
    assert feed_capacitance(beam=replace(split, feed=Feed(kind="gamma", gap=0.006))) == 0.0
    assert feed_capacitance(beam=held(None)) == 0.0
