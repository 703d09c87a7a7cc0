"""Quick predictions against full solutions; faulty wires against the plain model."""

from dataclasses import replace

import numpy as np
import pytest

from boomwright.parts import TubeSection
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    remembering,
    solve_beam,
    working_detail,
)
from boomwright.tuning import (
    FaultAntennas,
    FaultBench,
    MetalFault,
    after_changes,
    at_line,
    at_meter,
    faulty_impedance,
    half_left,
    list_suspects,
    make_predictor,
)
from tuned_antennas import BAND, FREQUENCIES, station

GROUND = GROUND_CLASSES["medium dry"]


def full_reflection(installation, frequencies):
    solution = solve_beam(
        beam=installation.beam,
        frequencies=frequencies,
        detail=working_detail(frequency=BAND[1]),
        ground=installation.ground,
    )
    start = at_line(
        installation=installation, impedance=solution.impedance, frequencies=frequencies
    )
    return at_meter(installation=installation, impedance=start, frequencies=frequencies)


@pytest.mark.parametrize("ground", [FREE_SPACE, PERFECT_GROUND, GROUND], ids=lambda g: g.kind)
def test_plan_itself_is_predicted_exactly(ground):
    installation = station(ground=ground)
    predictor = make_predictor(
        installation=installation, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )
    found = predictor.sweep(changes={}, frequencies=FREQUENCIES)
    expected = full_reflection(installation, FREQUENCIES)
    np.testing.assert_allclose(found, expected, rtol=0.0, atol=2e-4)


def test_changes_of_length_height_and_ground_are_carried():
    """The carried ground errs by far less than the noise of any meter."""
    installation = station(ground=GROUND)
    predictor = make_predictor(
        installation=installation, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )
    changes = {
        "tip.0": -0.02, "tip.1": 0.02, "tip.2": 0.015, "stage.0": 0.03, "height": 0.5,
        "permittivity": 0.4, "conductivity": 0.7, "line.length": 0.3, "line.loss": 0.2,
    }  # fmt: skip
    some = FREQUENCIES[::6]
    found = predictor.sweep(changes=changes, frequencies=some)
    expected = full_reflection(after_changes(installation=installation, changes=changes), some)
    moved = np.abs(expected - predictor.sweep(changes={}, frequencies=some)).max()
    assert moved > 0.1
    np.testing.assert_allclose(found, expected, rtol=0.0, atol=1e-3)


@pytest.mark.parametrize("ground", [FREE_SPACE, PERFECT_GROUND], ids=lambda g: g.kind)
def test_beam_without_fault_is_the_plain_beam(ground):
    beam = stepped()
    detail = working_detail(frequency=BAND[1])
    some = FREQUENCIES[::10]

    def solved(fault):
        return faulty_impedance(
            beam=beam, fault=fault, ground=ground, frequencies=some, detail=detail,
            prepare=remembering(),
        )  # fmt: skip

    plain = solve_beam(beam=beam, frequencies=some, detail=detail, ground=ground).impedance
    np.testing.assert_allclose(solved(MetalFault()), plain, rtol=1e-9)
    # Both halves at their full length, without the mirror between them.
    whole = solved(MetalFault(short_half=(0, beam.elements[0].half_length)))
    np.testing.assert_allclose(whole, plain, rtol=2e-4)
    # A stub of braid is nothing but a small capacitance.
    short = solved(MetalFault(braid_length=0.05))
    np.testing.assert_allclose(short, plain, rtol=1e-2)


def stepped():
    """The test beam with tips of thinner tube."""
    beam = station().beam
    elements = tuple(
        replace(
            element,
            half=(
                TubeSection(diameter=0.025, length=0.6 * element.half_length),
                TubeSection(diameter=0.019, length=0.4 * element.half_length),
            ),
        )
        for element in beam.elements
    )
    return replace(beam, elements=elements)


def test_lost_director_is_a_beam_without_it():
    """A director open in the middle is far from resonance and hardly there."""
    beam = station().beam
    detail = working_detail(frequency=BAND[1])
    some = FREQUENCIES[::10]
    found = faulty_impedance(
        beam=beam, fault=MetalFault(open_middle=2), ground=FREE_SPACE, frequencies=some,
        detail=detail, prepare=remembering(),
    )  # fmt: skip
    two = replace(beam, elements=beam.elements[:2])
    without = solve_beam(beam=two, frequencies=some, detail=detail).impedance
    three = solve_beam(beam=beam, frequencies=some, detail=detail).impedance
    assert np.abs(found - without).max() < 0.15 * np.abs(three - without).max()


def test_what_may_be_left_of_a_half():
    np.testing.assert_allclose(
        half_left(element=stepped().elements[0]), [0.6 * stepped().elements[0].half_length]
    )
    assert len(half_left(element=station().beam.elements[0])) == 2


def bench_of(ground):
    """Two elements, over ground low enough for it to matter."""
    installation = replace(
        station(ground=ground, height=6.0), beam=two_elements(6.0), stages=(), line=None
    )
    return FaultBench(
        installation=installation, lowest_frequency=BAND[0], highest_frequency=BAND[1]
    )


SOME = FREQUENCIES[::10]


def fully_solved(installation, fault):
    """Reflection with nothing interpolated or carried."""
    impedance = faulty_impedance(
        beam=installation.beam, fault=fault, ground=installation.ground, frequencies=SOME,
        detail=working_detail(frequency=BAND[1]), prepare=remembering(),
    )  # fmt: skip
    return (impedance - 50.0) / (impedance + 50.0)


@pytest.mark.parametrize("ground", [FREE_SPACE, GROUND], ids=lambda ground: ground.kind)
def test_braid_is_interpolated_over_its_length(ground):
    """A quarter wave of braid resonates; between the computed lengths it is met all the same.

    Over ground the two longer ones end beside it, the image method serves the shorter.
    """
    bench = bench_of(ground)
    plain = bench.antenna(text="no fault", fault=MetalFault())
    antennas = FaultAntennas(plain=plain, loose=(), reordered=(), braid=bench.braid())
    suspect = list_suspects(
        installation=bench.installation, antennas=antennas, frequencies=SOME
    )[-1]  # fmt: skip
    for length in (2.1, 4.0, 5.1, 5.4):
        changes = {"hidden.braid": length - suspect.braid_start}
        found = suspect.sweep(changes=changes, frequencies=SOME)
        exact = fully_solved(bench.installation, MetalFault(braid_length=length))
        np.testing.assert_allclose(found, exact, rtol=0.0, atol=2e-3)


@pytest.mark.parametrize("ground", [FREE_SPACE, GROUND], ids=lambda ground: ground.kind)
def test_faulty_metal_is_carried_over_tips_and_height(ground):
    """Ground at a few frequencies, slopes with the ground held: far below any meter's noise."""
    bench = bench_of(ground)
    changes = {"tip.0": 0.003, "tip.1": -0.004}
    if ground.kind == "real":
        changes["height"] = 0.3
    changed = after_changes(installation=bench.installation, changes=changes)
    left = half_left(element=changed.beam.elements[0])[0]
    for fault in (MetalFault(short_half=(0, left)), MetalFault(open_middle=0)):
        there = bench.antenna(text="", fault=fault).at(frequencies=SOME)
        base = (there.impedance - 50.0) / (there.impedance + 50.0)
        np.testing.assert_allclose(
            base, fully_solved(bench.installation, fault), rtol=0.0, atol=1e-4
        )
        moved = fully_solved(changed, fault)
        assert np.abs(moved - base).max() > 5e-3
        found = there.changed(changes)
        np.testing.assert_allclose((found - 50.0) / (found + 50.0), moved, rtol=0.0, atol=2e-3)


def two_elements(height):
    """The test beam without its director."""
    beam = station(height=height).beam
    return replace(beam, elements=beam.elements[:2])
