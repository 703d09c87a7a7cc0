"""From a beam to its figures: model, loss, error band, currents, lobes."""

from __future__ import annotations

import numpy as np
import pytest

from antennas import beam, of_elements, solved_beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import Element, TubeSection
from boomwright.reach.beam_computation import quick_look, read_beam
from boomwright.reach.lobes import forward_lobes, turning_points
from boomwright.reach.readings import Known
from boomwright.solver import (
    FREE_SPACE,
    PERFECT_GROUND,
    Figures,
    Ground,
    beam_wires,
    element_currents,
    error_band,
    gain_dbi,
    solve_beam,
    solve_beam_both,
    standing_wave_ratio,
    working_detail,
)

FREQUENCY = 28.4e6
MEDIUM_DRY = Ground(kind="real", permittivity=15.0, conductivity=1e-3)


def three_elements(material="perfect", height=10.0):
    return beam(
        lengths=[5.3, 5.05, 4.75],
        places=[0.0, 1.6, 3.2],
        diameter=0.016,
        driven=1,
        frequency=FREQUENCY,
        height=height,
        material=material,
    )


def solved(antenna, frequencies=(FREQUENCY,), ground=FREE_SPACE):
    return solved_beam(antenna, *frequencies, ground=ground)


def test_standing_wave_ratio_of_known_loads():
    # Definition: (1 + |g|)/(1 - |g|); a real load gives the plain ratio.
    loads = np.array([50.0, 100.0, 25.0, 50.0 + 50.0j], dtype=complex)
    found = standing_wave_ratio(impedance=loads, reference=50.0)
    np.testing.assert_allclose(found, [1.0, 2.0, 2.0, 2.618034], rtol=1e-6, atol=0.0)


def test_standing_wave_ratio_of_an_open_circuit_stays_finite():
    assert standing_wave_ratio(impedance=np.array([1e9 + 0j]), reference=50.0)[0] <= 999.5


def test_equal_neighbours_become_one_section():
    pieces = (
        TubeSection(diameter=0.02, length=1.0),
        TubeSection(diameter=0.02, length=0.5),
        TubeSection(diameter=0.016, length=1.0),
    )
    antenna = of_elements(
        (Element(role="driven", position=0.0, half=pieces),), frequency=FREQUENCY, gap=0.02
    )
    (run,) = beam_wires(beam=antenna).runs
    assert run.shape.sections == ((1.5, 0.01), (1.0, 0.008))


def test_only_the_driven_element_has_a_gap():
    system = beam_wires(beam=three_elements())
    assert [len(run.shape.gaps) for run in system.runs] == [0, 1, 0]
    assert [port.run for port in system.ports] == [1]


def test_loss_lowers_gain_by_the_efficiency():
    ideal, metal = solved(three_elements()), solved(three_elements("stainless steel"))
    gains = [
        gain_dbi(solution=each, azimuth=np.zeros(1), elevation=np.zeros(1))[0, 0]
        for each in (ideal, metal)
    ]
    assert ideal.efficiency[0] == 1.0
    assert 0.9 < metal.efficiency[0] < 1.0
    # The currents change a little too, by the metal's reactance.
    lost = 10.0 * np.log10(metal.efficiency[0])
    assert gains[1] - gains[0] == pytest.approx(lost, abs=0.02)


def test_poorer_metal_loses_more():
    names = ("perfect", "copper", "6061-T6", "stainless steel")
    found = [solved(three_elements(name)).efficiency[0] for name in names]
    assert found == sorted(found, reverse=True)


def test_one_frequency_at_a_time_or_all_together_is_the_same():
    frequencies = (28.0e6, 28.4e6, 28.8e6)
    together = solved(three_elements(), frequencies)
    picked = together.at_frequency(number=1)
    assert picked.frequencies.tolist() == [28.4e6]
    assert picked.impedance[0] == together.impedance[1]


def test_current_at_the_feed_is_one_ampere_and_nothing_at_the_tips():
    solution = solved(three_elements())
    driven = element_currents(solution=solution, at=0)[1]
    middle = len(driven.current) // 2
    assert abs(driven.current[middle] - 1.0) < 0.01
    # The cap at a tip carries a little charge, so a little current reaches the edge.
    assert np.abs(driven.current[[0, -1]]).max() < 0.01
    np.testing.assert_allclose(driven.current, driven.current[::-1], rtol=0.0, atol=0.0)


def test_labels_count_the_directors():
    labels = [each.label for each in element_currents(solution=solved(three_elements()), at=0)]
    assert labels == ["reflector", "driven", "director 1"]


def test_images_in_perfect_ground_take_part():
    height = 0.25 * SPEED_OF_LIGHT / FREQUENCY
    antenna = three_elements(height=height)
    free, above = solved(antenna), solved(antenna, ground=PERFECT_GROUND)
    assert abs(free.impedance[0] - above.impedance[0]) > 1.0


def test_error_band_is_the_difference_with_a_margin():
    def figures(impedance, gain, back):
        return Figures(
            frequencies=np.array([1.0, 2.0]),
            impedance=np.array(impedance),
            gain_dbi=np.array(gain),
            front_to_back_db=np.array(back),
        )

    band = error_band(
        figures=figures([50.0 + 0j, 60.0 + 0j], [7.0, 7.0], [20.0, 20.0]),
        finer=figures([50.3 + 0.4j, 60.0 + 1j], [7.01, 7.0], [20.5, 20.0]),
        frequencies=np.array([1.0, 1.5, 2.0]),
        impedance=np.array([50.0, 55.0, 60.0], dtype=complex),
        reference=50.0,
    )
    # Never below the plain difference, and in between by interpolation.
    assert band.impedance[0] >= 0.5
    assert band.impedance[2] >= 1.0
    assert band.gain_db[0] >= 0.01 - 1e-12
    assert band.front_to_back_db[0] >= 0.5
    # A move of half an ohm from a perfect match makes the ratio 1.01.
    assert band.swr[0] >= 0.01 - 1e-9
    assert band.impedance[1] == pytest.approx(0.5 * (band.impedance[0] + band.impedance[2]))


def test_turning_points_of_a_known_curve():
    angle = np.arange(0.0, 180.01, 1.0)
    level = np.sin(np.radians(4.0 * angle + 13.0))
    maxima, minima = turning_points(angle=angle, level=level)
    assert [place for place, _ in maxima] == pytest.approx([19.25, 109.25], abs=0.01)
    assert [height for _, height in maxima] == pytest.approx([1.0, 1.0], abs=1e-5)
    assert [place for place, _ in minima] == pytest.approx([64.25, 154.25], abs=0.01)


def test_a_shallow_dip_is_no_null():
    angle = np.arange(0.0, 180.01, 0.5)
    level = 10.0 + np.cos(np.radians(8.0 * (angle - 20.0)))
    lobes, nulls = forward_lobes(elevation_deg=angle, gain_dbi=level)
    assert len(lobes) == 2
    assert nulls == []


def test_readings_of_a_beam_agree_with_each_other():
    antenna = three_elements("6061-T6")
    frequencies = np.linspace(28.0e6, 28.8e6, 3)
    readings = read_beam(beam=antenna, ground=PERFECT_GROUND, frequencies=frequencies)
    assert [point.frequency for point in readings.sweep] == frequencies.tolist()
    assert readings.free_space.frequency == FREQUENCY
    assert abs(readings.power_balance) < 1e-4
    cut = readings.azimuth_pattern
    assert cut.gain_dbi[0] == pytest.approx(readings.free_space.gain_dbi, abs=1e-9)
    backwards = cut.gain_dbi[list(cut.angle_deg).index(180.0)]
    found = readings.free_space.gain_dbi - backwards
    assert found == pytest.approx(readings.free_space.front_to_back_db, abs=1e-9)
    assert readings.free_space.front_to_rear_db <= readings.free_space.front_to_back_db + 1e-9
    over = readings.over_ground
    assert over.peak_gain_dbi == max(lobe.gain_dbi for lobe in over.lobes)


def test_quick_look_shows_the_same_figures():
    antenna = three_elements("6061-T6")
    quick = quick_look(beam=antenna, ground=FREE_SPACE, frequency=FREQUENCY)
    full = read_beam(beam=antenna, ground=FREE_SPACE, frequencies=np.array([FREQUENCY]))
    assert quick.point.impedance == pytest.approx(full.free_space.impedance, rel=1e-9)
    assert quick.point.gain_dbi == pytest.approx(full.free_space.gain_dbi, abs=1e-9)
    assert quick.over_ground is None


@pytest.mark.parametrize("height", [0.3, 10.0])
@pytest.mark.parametrize("method", ["exact", "image"])
def test_solving_free_space_and_ground_together_gives_what_each_gives_alone(height, method):
    antenna = three_elements("6061-T6", height=height)
    common = {
        "beam": antenna,
        "frequencies": np.array([FREQUENCY]),
        "detail": working_detail(frequency=FREQUENCY),
    }
    free, over = solve_beam_both(**common, ground=MEDIUM_DRY, method=method)
    alone = solve_beam(**common, ground=MEDIUM_DRY, method=method)
    np.testing.assert_allclose(over.impedance, alone.impedance, rtol=1e-12, atol=0.0)
    # Low down the ground asks for a finer cut, which free space then shares.
    plain = solve_beam(**common)
    np.testing.assert_allclose(free.impedance, plain.impedance, rtol=3e-4, atol=0.0)
    if height > 1.0:
        np.testing.assert_allclose(free.impedance, plain.impedance, rtol=1e-12, atol=0.0)


def test_quick_look_under_the_hand_finds_the_lobes_up_to_the_zenith():
    antenna = three_elements("6061-T6", height=13.4)
    rested = quick_look(beam=antenna, ground=MEDIUM_DRY, frequency=FREQUENCY)
    moving = quick_look(
        beam=antenna,
        ground=MEDIUM_DRY,
        frequency=FREQUENCY,
        previous=Known(point=rested.point, over_ground=rested.over_ground),
    )
    here, there = rested.over_ground, moving.over_ground
    assert len(here.lobes) == len(there.lobes) >= 3
    for fine, quick in zip(here.lobes, there.lobes, strict=True):
        assert quick.elevation_deg == pytest.approx(fine.elevation_deg, abs=0.1)
        assert quick.gain_dbi == pytest.approx(fine.gain_dbi, abs=0.01)
    assert there.nulls_deg == pytest.approx(here.nulls_deg, abs=0.5)
    # Under the hand the cut has every second place of the one at rest, with the same gain there.
    coarse, fine = moving.azimuth_pattern, rested.azimuth_pattern
    np.testing.assert_array_equal(coarse.angle_deg, fine.angle_deg[::2])
    np.testing.assert_allclose(coarse.gain_dbi, fine.gain_dbi[::2], rtol=0.0, atol=1e-9)
