"""Many elements: cluster by cluster as exact as all at once, in little memory, refused in time."""

from __future__ import annotations

import tracemalloc

import numpy as np
import pytest
from scipy.special import jv

from antennas import of_elements
from boomwright.base import SPEED_OF_LIGHT, SolverError
from boomwright.parts import Element, TubeSection
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    BeamSolution,
    WirePath,
    assemble,
    beam_effort,
    cluster_joining,
    gain_dbi,
    matrix_solution,
    solve_beam,
    wire_network,
    working_detail,
)
from boomwright.solver.bessel import bessel_pair, real_bessel_pair
from boomwright.solver.half_space import ground_table
from boomwright.solver.runs.mesh import RunShape, mesh_run
from boomwright.solver.runs.static import run_statics

FREQUENCY = 14.1e6
GROUND = GROUND_CLASSES["medium dry"]
MEGABYTE = 1e6


def many(count, *, apart=2.0, height=16.0):
    """A row of stepped elements at even distances."""

    def element(number):
        tip = (2.35, 2.1, 1.75)[min(number, 2)] - 0.001 * number
        tubes = ((0.0254, 1.83), (0.0222, 1.22), (0.01905, tip))
        return Element(
            role=("reflector", "driven", "director")[min(number, 2)],
            position=apart * number,
            half=tuple(TubeSection(diameter=d, length=length) for d, length in tubes),
        )

    return of_elements(
        [element(number) for number in range(count)],
        frequency=FREQUENCY,
        gap=0.04,
        height=height,
        material="6061-T6",
    )


def solved(beam, *, ground=FREE_SPACE, frequencies=(FREQUENCY,)) -> BeamSolution:
    return solve_beam(
        beam=beam,
        frequencies=np.array(frequencies),
        detail=working_detail(frequency=FREQUENCY),
        ground=ground,
    )


@pytest.mark.parametrize("ground", [FREE_SPACE, PERFECT_GROUND, GROUND], ids=lambda g: g.kind)
@pytest.mark.parametrize("apart", [2.0, 0.6], ids=["apart", "close"])
def test_cluster_by_cluster_is_as_exact_as_all_at_once(apart, ground, monkeypatch) -> None:
    beam = many(8, apart=apart)
    by_clusters = solved(beam, ground=ground)
    assert len(by_clusters.currents.assembly.clusters) == 8
    assert any(each.shown is not None for each in by_clusters.currents.assembly.clusters)
    monkeypatch.setattr(cluster_joining, "_FEW", 10_000)
    at_once = solved(beam, ground=ground)
    assert len(at_once.currents.assembly.clusters) == 1
    assert by_clusters.impedance == pytest.approx(at_once.impedance, rel=1e-10)
    scale = np.abs(at_once.currents.unknowns).max()
    off = np.abs(by_clusters.currents.unknowns - at_once.currents.unknowns).max()
    assert off < 1e-9 * scale
    assert by_clusters.lost == pytest.approx(at_once.lost, rel=1e-10)


def test_half_the_digits_refined_are_all_of_them(monkeypatch) -> None:
    beam = many(8)
    full = solved(beam, ground=GROUND).impedance
    monkeypatch.setattr(matrix_solution, "_LARGE", 10)
    assert solved(beam, ground=GROUND).impedance == pytest.approx(full, rel=1e-12)
    # Without a round of refinement left, the full factorisation takes over.
    monkeypatch.setattr(matrix_solution, "_MOST_REFINEMENTS", 1)
    assert solved(beam, ground=GROUND).impedance == pytest.approx(full, rel=1e-12)


def most_memory(work) -> float:
    """Largest memory held while something is done [B]."""
    tracemalloc.start()
    try:
        work()
        return tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()


def test_thirty_elements_over_a_band_take_little_memory() -> None:
    beam, band = many(30), np.linspace(14.0e6, FREQUENCY, 21)
    assert most_memory(lambda: solved(beam, frequencies=band)) < 250 * MEGABYTE


def test_ground_seen_from_many_heights_takes_little_memory() -> None:
    table = ground_table(
        largest_distance=20.0, heights=(2.0, 60.0), ground=GROUND, frequency=FREQUENCY
    )
    rng = np.random.default_rng(1)
    distance, height = rng.uniform(0.0, 20.0, 60_000), rng.uniform(2.0, 60.0, 60_000)
    assert most_memory(lambda: table.at(distance=distance, height=height)) < 150 * MEGABYTE


def test_a_long_wire_takes_little_memory() -> None:
    wavelength = SPEED_OF_LIGHT / FREQUENCY
    shape = RunShape(
        sections=((60.0 * wavelength, 0.005),), gaps=(), start="closed tip", end="closed tip"
    )
    mesh = mesh_run(shape=shape, detail=working_detail(frequency=FREQUENCY))
    assert most_memory(lambda: run_statics(runs=[(mesh, False)])) < 250 * MEGABYTE


def test_far_field_in_all_directions_takes_little_memory() -> None:
    solution = solved(many(30))
    rng = np.random.default_rng(1)
    azimuth, elevation = rng.uniform(-3.0, 3.0, 20_000), rng.uniform(-1.5, 1.5, 20_000)

    def gain():
        return gain_dbi(solution=solution, azimuth=azimuth, elevation=elevation)

    assert most_memory(gain) < 100 * MEGABYTE


def test_too_large_is_refused_from_its_counts_before_any_work() -> None:
    zigzag = np.array([[0.0, 10.0 * (n % 2), 20.0 + 2.0 * n] for n in range(300)])
    path = WirePath(name="zigzag", points=zigzag, radii=np.full(299, 0.002))
    system = wire_network(paths=(path,))
    assert len(system.runs) == 299
    with pytest.raises(SolverError, match=r"GB of memory; .* take out"):
        assemble(
            system=system,
            detail=working_detail(frequency=FREQUENCY),
            highest_frequency=FREQUENCY,
        )


def test_wires_of_very_many_points_are_refused() -> None:
    angle = np.linspace(0.0, 6.0, 1500)
    round_ = np.stack([np.cos(angle), np.sin(angle), 10.0 + 0.0 * angle], axis=1)
    path = WirePath(name="ring", points=round_, radii=np.full(1499, 1e-4))
    with pytest.raises(SolverError, match=r"1499 straight stretches.*fewer points"):
        wire_network(paths=(path,))


def test_very_many_close_pairs_are_refused() -> None:
    with pytest.raises(SolverError, match=r"pairs of wires pass within.*further apart"):
        solved(many(100, apart=0.02))


def test_effort_grows_with_elements_and_solutions() -> None:
    few, lots = beam_effort(beam=many(3)), beam_effort(beam=many(100))
    assert few.bytes < 10 * MEGABYTE < lots.bytes < 1.6e9
    assert few.seconds(solutions=30) < 1.0 < lots.seconds(solutions=30) < 60.0
    assert lots.seconds(solutions=200) > 60.0


def test_quick_bessel_functions_are_those_of_the_library() -> None:
    rng = np.random.default_rng(1)
    for largest in (0.5, 2.0, 2.5, 20.0, 2000.0):
        place = rng.uniform(0.0, largest, 4000) + 1j * rng.uniform(-1.6, 1.6, 4000)
        zero, one = bessel_pair(place)
        assert np.abs(zero - jv(0, place)).max() < 1e-14
        assert np.abs(one - jv(1, place)).max() < 1e-14
        for order, found in enumerate(real_bessel_pair(place.real)):
            assert np.abs(found - jv(order, place.real)).max() < 2e-14
