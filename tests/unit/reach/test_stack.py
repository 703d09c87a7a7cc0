"""Several beams on one tower: power, reciprocity, symmetry and known limits."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.parts import Conductor, Element, Feed, TubeSection
from boomwright.reach import (
    feed_stack,
    isolation_db,
    scan_phase,
    scan_spacing,
    solve_stack,
    stack_gain_dbi,
    stacking_gain,
    usual_feedings,
)
from boomwright.reach.comparison import half_wave_dipole
from boomwright.reach.stack import Feeding
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    gain_dbi,
    solve_beam,
    working_detail,
)
from fakes.readings import fake_beam

FREQUENCY = 14.175e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
LOW = replace(fake_beam(), name="low", height=12.0)
HIGH = replace(LOW, name="high", height=24.0)
ELEVATION = np.radians(np.arange(0.0, 90.5, 1.0))


def _dipoles(spacing, *, base=20.0):
    made = [half_wave_dipole(frequency=FREQUENCY, height=base + h) for h in (0.0, spacing)]
    return tuple(replace(d, name=str(i)) for i, d in enumerate(made))


@pytest.mark.parametrize("ground", [FREE_SPACE, PERFECT_GROUND], ids=lambda g: g.kind)
@pytest.mark.parametrize("turn", [0.0, 1.1])
def test_power_balances_however_the_stack_is_fed(ground, turn):
    beams = (LOW, replace(HIGH, heading=LOW.heading + turn))
    stack = solve_stack(beams=beams, ground=ground, frequency=FREQUENCY)
    for feeding in usual_feedings(count=2):
        for idle in ("open", "shorted", "matched"):
            reading = feed_stack(stack, feeding=replace(feeding, idle=idle))
            assert abs(reading.power_balance) < 1e-3


def test_real_ground_makes_no_claim_of_balance():
    stack = solve_stack(beams=(LOW, HIGH), ground=GROUND_CLASSES["wet"], frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=usual_feedings(count=2)[2])
    assert math.isnan(reading.power_balance)


def test_whole_elements_and_mirrored_halves_agree():
    """A turn of a microradian drops the mirror plane and changes nothing else."""
    nearly = replace(HIGH, heading=HIGH.heading + 1e-6)
    for ground in (FREE_SPACE, GROUND_CLASSES["medium dry"]):
        halves = solve_stack(beams=(LOW, HIGH), ground=ground, frequency=FREQUENCY)
        whole = solve_stack(beams=(LOW, nearly), ground=ground, frequency=FREQUENCY)
        assert whole.impedance == pytest.approx(halves.impedance, abs=2e-3)


def test_coupling_is_the_same_both_ways():
    turned = replace(HIGH, heading=HIGH.heading + 0.7)
    stack = solve_stack(
        beams=(LOW, turned), ground=GROUND_CLASSES["medium dry"], frequency=FREQUENCY
    )
    matrix = stack.impedance
    assert matrix[0, 1] == pytest.approx(matrix[1, 0], rel=1e-6)


def test_in_phase_gain_of_two_dipoles_is_carters():
    """Parallel half-wave dipoles half a wavelength apart, in phase {carter-1932}.

    Field doubles, power grows by R11 + R21 over R11: 2 x 73.13 / (73.13 - 12.53), 3.83 dB over
    one of them. Ratios of resistances are the same for true currents on a thin wire, within
    0.1 dB; the impedances themselves are a few per cent higher.
    """
    section = TubeSection(diameter=2e-6 * WAVELENGTH, length=0.25 * WAVELENGTH)
    element = Element(role="driven", position=0.0, half=(section,))
    dipoles = tuple(
        replace(each, elements=(element,), feed=Feed(kind="split", gap=1e-6 * WAVELENGTH))
        for each in _dipoles(0.5 * WAVELENGTH)
    )
    gain = stacking_gain(beams=dipoles, ground=FREE_SPACE, frequency=FREQUENCY)
    wanted = 10.0 * math.log10(2.0 * 73.13 / (73.13 - 12.53))
    assert gain.over_bare_db == pytest.approx(wanted, abs=0.1)
    assert gain.peak_elevation_deg == 0.0


def test_far_apart_two_beams_gain_three_decibels():
    """Power and field of two distant sources add up: 10 log 2, less what coupling is left."""
    gain = stacking_gain(beams=_dipoles(12.3 * WAVELENGTH), ground=FREE_SPACE, frequency=FREQUENCY)
    assert gain.decibels == pytest.approx(10.0 * math.log10(2.0), abs=0.1)
    assert abs(gain.power_balance) < 1e-3


def test_the_stacking_gain_carries_a_band():
    gain = stacking_gain(
        beams=(LOW, HIGH), ground=GROUND_CLASSES["medium dry"], frequency=FREQUENCY
    )
    assert 0.0 < gain.error_db < 0.1
    assert 0.5 < gain.decibels < 4.0
    assert gain.over_bare_db == pytest.approx(gain.decibels, abs=1.5)


def test_one_beam_as_a_stack_is_the_beam():
    ground = GROUND_CLASSES["medium dry"]
    stack = solve_stack(beams=(HIGH,), ground=ground, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="alone", weights=(1.0,)))
    alone = solve_beam(
        beam=HIGH,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=HIGH.band[1]),
        ground=ground,
    )
    ahead = np.zeros(len(ELEVATION))
    wanted = gain_dbi(
        solution=alone, azimuth=ahead, elevation=ELEVATION, ground=ground, height=HIGH.height
    )[0]
    found = stack_gain_dbi(reading, azimuth=ahead, elevation=ELEVATION)
    assert found == pytest.approx(wanted, abs=1e-6)
    assert reading.feed_impedances[0] == pytest.approx(alone.impedance[0], abs=1e-6)


def test_a_beam_turned_on_its_ring_fires_its_own_way():
    turned = replace(HIGH, heading=LOW.heading + math.pi / 2)
    stack = solve_stack(beams=(LOW, turned), ground=PERFECT_GROUND, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="high", weights=(0.0, 1.0)))
    azimuth = np.radians(np.arange(-180.0, 180.0, 5.0))
    gain = stack_gain_dbi(
        reading, azimuth=azimuth, elevation=np.full(len(azimuth), math.radians(12.0))
    )
    # Headings run clockwise, azimuth counter-clockwise from the first beam's heading.
    assert math.degrees(azimuth[int(gain.argmax())]) == pytest.approx(-90.0, abs=5.0)


def test_no_phase_beats_the_bound():
    stack = solve_stack(beams=(LOW, HIGH), ground=GROUND_CLASSES["medium dry"], frequency=FREQUENCY)
    scan = scan_phase(stack, elevation_deg=12.0)
    assert scan.best_gain_dbi <= scan.bound_dbi + 1e-9
    assert scan.best_gain_dbi == pytest.approx(scan.gain_dbi.max())
    at = (np.zeros(1), np.radians([12.0]))
    reading = feed_stack(
        stack,
        feeding=Feeding(
            name="best",
            weights=(1.0, np.exp(-1j * math.radians(scan.best_phase_deg))),
        ),
    )
    found = stack_gain_dbi(reading, azimuth=at[0], elevation=at[1])[0]
    assert found == pytest.approx(scan.best_gain_dbi, abs=1e-6)


def test_the_best_spacing_is_the_best_of_those_tried():
    low, scan = scan_spacing(
        beams=(LOW, HIGH),
        ground=PERFECT_GROUND,
        frequency=FREQUENCY,
        elevations_deg=(5.0, 10.0),
        heights=[8.0, 12.0, 16.0],
    )
    assert (low.elevation_deg, scan.elevation_deg) == (5.0, 10.0)
    # Towards the horizon over perfect ground the gain falls; nearer to it there is less of it.
    assert (low.gain_dbi < scan.gain_dbi).all()
    assert scan.gain_dbi.max() == scan.gain_dbi[list(scan.heights).index(scan.best_height)]


def test_isolation_grows_with_distance():
    near = solve_stack(beams=_dipoles(0.5 * WAVELENGTH), ground=FREE_SPACE, frequency=FREQUENCY)
    far = solve_stack(beams=_dipoles(2.0 * WAVELENGTH), ground=FREE_SPACE, frequency=FREQUENCY)
    assert isolation_db(far)[0, 1] > isolation_db(near)[0, 1] + 6.0


def test_impossible_requests_are_refused_with_a_remedy():
    stack = solve_stack(beams=(LOW, HIGH), ground=FREE_SPACE, frequency=FREQUENCY)
    with pytest.raises(BoomwrightError, match="one weight a beam"):
        feed_stack(stack, feeding=Feeding(name="odd", weights=(1.0,)))
    with pytest.raises(BoomwrightError, match="at least one"):
        feed_stack(stack, feeding=Feeding(name="none", weights=(0.0, 0.0)))
    with pytest.raises(BoomwrightError, match="name two or more"):
        solve_stack(beams=(), ground=FREE_SPACE, frequency=FREQUENCY)


@pytest.mark.parametrize("idle", ["open", "shorted", "matched"])
def test_a_third_beam_on_the_tower_is_in_the_figures(idle):
    third = replace(LOW, name="third", height=18.0, idle_feed=idle)
    given = {"ground": PERFECT_GROUND, "frequency": FREQUENCY}
    stack = solve_stack(beams=(LOW, HIGH), beside=(third,), **given)
    reading = feed_stack(stack, feeding=Feeding(name="", weights=(1.0, 1.0)))
    whole = solve_stack(beams=(LOW, HIGH, third), **given)
    same = feed_stack(whole, feeding=Feeding(name="", weights=(1.0, 1.0, 0.0), idle=idle))
    assert reading.feed_impedances == pytest.approx(same.feed_impedances[:2], rel=1e-6)
    assert abs(reading.power_balance) < 1e-3
    gains = [
        stack_gain_dbi(each, azimuth=np.zeros(len(ELEVATION)), elevation=ELEVATION)
        for each in (reading, same)
    ]
    assert gains[0] == pytest.approx(gains[1], abs=1e-4)
    # And it matters: without it the gain is another.
    bare = feed_stack(
        solve_stack(beams=(LOW, HIGH), **given), feeding=Feeding(name="", weights=(1.0, 1.0))
    )
    alone = stack_gain_dbi(bare, azimuth=np.zeros(len(ELEVATION)), elevation=ELEVATION)
    assert idle == "open" or abs(gains[0].max() - alone.max()) > 0.02


def test_one_beam_beside_another_is_the_beam_with_its_neighbour():
    other = replace(HIGH, height=18.0, idle_feed="matched")
    stack = solve_stack(beams=(LOW,), beside=(other,), ground=PERFECT_GROUND, frequency=FREQUENCY)
    beam = solve_beam(
        beam=replace(LOW, neighbours=(other,)),
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=max(FREQUENCY, *LOW.band, *other.band)),
        ground=PERFECT_GROUND,
    )
    assert stack.impedance[0, 0] == pytest.approx(complex(beam.impedance[0]), rel=1e-6)


@pytest.mark.parametrize("ground", [FREE_SPACE, PERFECT_GROUND], ids=lambda g: g.kind)
def test_mast_and_guys_are_in_the_figures_of_a_stack(ground):
    """One beam beside mast and guy is the beam with them; two balance, and it matters."""
    other = replace(HIGH, height=18.0, idle_feed="matched", heading=LOW.heading + 1.1)
    wires = (
        Conductor(name="mast", diameter=0.05, start=(0.0, 0.0, 6.0), end=(0.0, 0.0, 26.0)),
        Conductor(name="guy", diameter=0.005, start=(0.6, 0.5, 14.0), end=(7.0, 6.5, 7.0)),
    )
    given = {"ground": ground, "frequency": FREQUENCY, "conductors": wires}
    single = solve_stack(beams=(LOW,), beside=(other,), **given)
    beam = solve_beam(
        beam=replace(LOW, neighbours=(other,), conductors=wires),
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=max(FREQUENCY, *LOW.band, *other.band)),
        ground=ground,
    )
    assert single.impedance[0, 0] == pytest.approx(complex(beam.impedance[0]), rel=1e-6)
    both = solve_stack(beams=(LOW, HIGH), **given)
    reading = feed_stack(both, feeding=Feeding(name="", weights=(1.0, 1.0)))
    assert abs(reading.power_balance) < 1e-3
    bare = solve_stack(beams=(LOW, HIGH), ground=ground, frequency=FREQUENCY)
    assert abs(both.impedance - bare.impedance).max() > 0.3
