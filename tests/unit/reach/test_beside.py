"""Beams on one mast or boom are solved together: by two ways, and against free thin wires."""

import math
from dataclasses import replace

import numpy as np
import pytest

from antennas import beam, solved_beam
from boomwright.feed import FieldSetting, HairpinShape
from boomwright.feed.field_model import solve_wires
from boomwright.feed.field_shapes import SplitShape
from boomwright.parts import Conductor, Trap
from boomwright.reach import (
    Known,
    feed_stack,
    idle_feeds,
    quick_look,
    read_beam,
    solve_stack,
    stack_gain_dbi,
)
from boomwright.reach.beside import read_beside
from boomwright.reach.stack import Feeding
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    GapPlace,
    WirePath,
    assemble,
    gain_dbi,
    neighbour_reach,
    prepare_run,
    radiated_power,
    solve_currents,
    wire_network,
    working_detail,
)
from thin_wire_moments import solve as solve_by_pulses

FREQUENCY = 28.4e6
ANSWERS = ("open", "shorted", "matched")


def three(name, *, height=15.0, frequency=FREQUENCY, diameter=0.016):
    scale = FREQUENCY / frequency
    antenna = beam(
        lengths=[5.3 * scale, 5.05 * scale, 4.75 * scale],
        places=[0.0, 1.6 * scale, 3.2 * scale],
        diameter=diameter,
        driven=1,
        frequency=frequency,
        height=height,
        material="perfect",
    )
    return replace(antenna, name=name)


def solved(antenna, ground=FREE_SPACE):
    return solved_beam(antenna, ground=ground)


def ahead(solution):
    return float(gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))[0, 0])


@pytest.mark.parametrize("idle", ANSWERS)
@pytest.mark.parametrize("turn", [0.0, 0.7])
@pytest.mark.parametrize("ground", ["free space", "medium dry", "perfect"])
def test_a_beam_with_a_neighbour_is_the_stack_with_one_feed_idle(idle, turn, ground):
    below = GROUND_CLASSES[ground]
    own = three("one")
    other = replace(three("two", height=16.5), heading=own.heading + turn, idle_feed=idle)
    together = solved(replace(own, neighbours=(other,)), below)
    stack = solve_stack(beams=(own, other), ground=below, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="", weights=(1.0, 0.0), idle=idle))
    assert together.impedance[0] == pytest.approx(reading.feed_impedances[0], rel=1e-6)
    if below is FREE_SPACE:
        level = stack_gain_dbi(reading, azimuth=np.zeros(1), elevation=np.zeros(1))[0]
        assert ahead(together) == pytest.approx(level, abs=1e-5)
        # What is radiated and what heats metal and the idle feed's resistor is what goes in.
        told = float(radiated_power(source=together.source)[0]) + float(together.lost[0])
        assert told == pytest.approx(float(together.accepted[0]), rel=1e-7)
    assert abs(together.impedance[0] - solved(own, below).impedance[0]) > 1.0


@pytest.mark.parametrize("rise", [1.5, 3.0])
def test_two_beams_together_against_independent_thin_wires(rise):
    own = three("one", diameter=0.004)
    other = replace(three("two", height=15.0 + rise, diameter=0.004), idle_feed="shorted")
    wires = [
        [[each.position, side, z] for side in (-each.half_length, 0.0, each.half_length)]
        for z in (0.0, rise)
        for each in own.elements
    ]
    found = {}
    for longest in (0.08, 0.04):
        impedance, forward, _ = solve_by_pulses(
            wires, radius=0.002, frequency=FREQUENCY, fed=(1, 1), longest=longest
        )
        found[longest] = np.array([impedance, forward])
    # The pulses' error goes with their length: the line through both is read at none.
    impedance, forward = 2.0 * found[0.04] - found[0.08]
    together, alone = solved(replace(own, neighbours=(other,))), solved(own)
    assert ahead(alone) - ahead(together) > 0.8
    assert ahead(together) == pytest.approx(forward.real, abs=0.2)
    assert together.impedance[0] == pytest.approx(impedance, abs=0.1 * abs(impedance))


def trapped(name, *, height, resonance):
    """A dipole for 10 m with traps, and tubes beyond them."""
    capacitance = 30e-12
    trap = Trap(
        place=2.5,
        width=0.1,
        inductance=1.0 / (capacitance * (2.0 * math.pi * resonance) ** 2),
        capacitance=capacitance,
        quality=250.0,
    )
    one = beam(
        lengths=[7.4],
        places=[0.0],
        diameter=0.016,
        driven=0,
        frequency=FREQUENCY,
        height=height,
    )
    return replace(one, name=name, elements=(replace(one.elements[0], traps=(trap,)),))


def network(beams, *, feeds=(0,)):
    """Impedance at the first feed from a network of ports: every trap of every beam is one."""
    paths, gaps, ohms = [], [], []
    for number, one in enumerate(beams):
        for element in one.elements:
            half = element.half_length
            ends = [[element.position - one.boom_middle, y, one.height] for y in (-half, half)]
            paths.append(
                WirePath(
                    name=f"{one.name} {len(paths)}",
                    points=np.array(ends),
                    radii=np.array([element.half[0].diameter / 2.0]),
                    conductivity=one.material.conductivity,
                )
            )
            at = [(half, one.feed.gap, 0.0 if number in feeds else None)]
            if element is not one.elements[one.driven_index]:
                at = []
            for trap in element.traps:
                omega = 2.0j * math.pi * FREQUENCY
                coil = omega * trap.inductance * (1.0 - 1.0j / trap.quality)
                each = 1.0 / (1.0 / coil + omega * trap.capacitance)
                at += [(half + side * trap.place, trap.width, each) for side in (-1, 1)]
            for along, width, impedance in at:
                gaps.append(GapPlace(path=len(paths) - 1, along=along, width=width))
                ohms.append(impedance)
    system = wire_network(paths=tuple(paths), gaps=tuple(gaps))
    currents = solve_currents(
        assembly=assemble(
            system=system,
            detail=working_detail(frequency=max(beams[0].band)),
            highest_frequency=max(beams[0].band),
        ),
        frequencies=np.array([FREQUENCY]),
    )
    loaded = np.linalg.inv(currents.admittance[0])
    loaded += np.diag([1e9 if each is None else each for each in ohms])
    return 1.0 / np.linalg.inv(loaded)[0, 0]


@pytest.mark.parametrize("resonance", [FREQUENCY, 24.9e6, 40e6])
def test_a_neighbour_with_traps_is_solved_together(resonance):
    own = three("one")
    other = replace(trapped("two", height=16.0, resonance=resonance), idle_feed="open")
    together = solved(replace(own, neighbours=(other,)))
    expected = network((own, other))
    assert together.impedance[0] == pytest.approx(expected, rel=2e-3)
    # What heats the traps is part of what goes in.
    told = float(radiated_power(source=together.source)[0]) + float(together.lost[0])
    assert told == pytest.approx(float(together.accepted[0]), rel=1e-6)
    assert abs(together.impedance[0] - solved(own).impedance[0]) > 0.3


@pytest.mark.parametrize("turn", [0.0, 0.7])
@pytest.mark.parametrize("ground", ["free space", "medium dry"])
def test_a_beam_with_traps_is_solved_in_a_stack_and_beside_others(turn, ground):
    below = GROUND_CLASSES[ground]
    own = trapped("one", height=15.0, resonance=24.9e6)
    other = replace(three("two", height=16.0), heading=own.heading + turn, idle_feed="shorted")
    together = solved(replace(own, neighbours=(other,)), below)
    stack = solve_stack(beams=(own, other), ground=below, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="", weights=(1.0, 0.0), idle="shorted"))
    assert together.impedance[0] == pytest.approx(reading.feed_impedances[0], rel=1e-6)
    assert float(together.lost[0]) == pytest.approx(
        reading.lost * float(together.accepted[0]) / reading.accepted, rel=1e-6
    )
    if below is FREE_SPACE:
        assert reading.power_balance == pytest.approx(0.0, abs=1e-6)
        apart = replace(other, idle_feed="")
        both = feed_stack(
            solve_stack(beams=(own, apart), ground=below, frequency=FREQUENCY),
            feeding=Feeding(name="", weights=(1.0, 1.0)),
        )
        assert both.power_balance == pytest.approx(0.0, abs=1e-6)


def test_the_feed_in_the_field_has_the_traps_in_it():
    own = replace(
        trapped("one", height=15.0, resonance=24.9e6),
        neighbours=(replace(three("two", height=17.0), idle_feed="shorted"),),
    )
    setting, at = FieldSetting(), np.array([FREQUENCY])
    split = solve_wires(
        beam=own,
        system=SplitShape(gap=own.feed.gap).wires(beam=own, setting=setting),
        frequencies=at,
        setting=setting,
    )
    assert split.impedance[0] == pytest.approx(solved(own).impedance[0], rel=1e-6)
    shape = HairpinShape(rod_diameter=0.006, spacing=0.05, length=0.4, gap=0.03)
    found = [
        solve_wires(
            beam=one,
            system=shape.wires(beam=one, setting=setting),
            frequencies=at,
            setting=setting,
        ).impedance[0]
        for one in (own, replace(own, elements=(replace(own.elements[0], traps=()),)))
    ]
    # The rods lie beside the split: their reactance follows from the split's alone.
    assert abs(found[0] - found[1]) > 10.0


def test_interlaced_beams_on_one_boom_are_solved_together():
    own = three("28 MHz")
    inside = replace(three("38 MHz", frequency=38e6), on_boom_of="28 MHz", idle_feed="shorted")
    moved = tuple(replace(each, position=each.position + 0.7) for each in inside.elements)
    inside = replace(inside, elements=moved)
    alone, together = solved(own), solved(replace(own, neighbours=(inside,)))
    assert abs(ahead(alone) - ahead(together)) > 0.02
    # Places along the boom count alike: the nearest elements are 0.3 m apart.
    assert neighbour_reach(beam=replace(own, neighbours=(inside,)))[0].closest < 0.6
    apart = replace(inside, on_boom_of="")
    elsewhere = solved(replace(own, neighbours=(apart,)))
    assert abs(ahead(elsewhere) - ahead(together)) > 1e-4


def test_an_answer_that_is_missing_is_the_worst_and_is_asked_for():
    own = replace(three("one"), neighbours=(three("two", height=16.5),))
    readings = read_beam(beam=own, ground=FREE_SPACE, frequencies=np.array([28.3e6, 28.5e6]))
    beside = readings.beside
    gains = {
        idle: ahead(solved(replace(own, neighbours=(replace(own.neighbours[0], idle_feed=idle),))))
        for idle in ANSWERS
    }
    assert dict(beside.answers).keys() == gains.keys()
    for idle, figures in beside.answers:
        assert figures.gain_dbi == pytest.approx(gains[idle], abs=1e-9)
    assert readings.free_space.gain_dbi == pytest.approx(min(gains.values()), abs=1e-9)
    assert beside.alone.gain_dbi == pytest.approx(ahead(solved(own.alone)), abs=1e-9)
    told = {notice.code: notice for notice in readings.notices}
    assert told["beside.together"].severity == "doubt"
    assert told["beside.feed-unsaid"].severity == "doubt"
    for idle in ANSWERS:
        assert f"{idle} {gains[idle]:.2f} dBi" in told["beside.feed-unsaid"].said("us")


def test_an_answer_that_is_given_is_taken():
    other = replace(three("two", height=16.5), idle_feed="open")
    own = replace(three("one"), neighbours=(other,))
    readings = read_beam(beam=own, ground=FREE_SPACE, frequencies=np.array([FREQUENCY]))
    assert readings.beside.answers == ()
    assert "beside.feed-unsaid" not in {notice.code for notice in readings.notices}
    assert readings.free_space.gain_dbi == pytest.approx(ahead(solved(own)), abs=1e-9)


def test_under_the_hand_the_neighbour_stays_and_its_feed_is_not_settled_anew():
    own = replace(three("one"), neighbours=(three("two", height=16.5),))
    first = quick_look(beam=own, ground=FREE_SPACE, frequency=FREQUENCY)
    known = Known(point=first.point, over_ground=None, feeds=idle_feeds(beam=own))
    moved = replace(own, height=15.2)
    look = quick_look(beam=moved, ground=FREE_SPACE, frequency=FREQUENCY, previous=known)
    settled = replace(moved, neighbours=(replace(own.neighbours[0], idle_feed=known.feeds[0]),))
    assert look.point.gain_dbi == pytest.approx(ahead(solved(settled)), abs=1e-9)
    assert abs(look.point.gain_dbi - ahead(solved(moved.alone))) > 0.5


def test_a_neighbour_too_far_to_matter_is_left_out_and_the_figure_kept():
    own = three("40m", frequency=7.05e6, height=20.0)
    small = three("70cm", frequency=435e6, height=26.0, diameter=0.004)
    small = replace(small, idle_feed="shorted")
    readings = read_beam(
        beam=replace(own, neighbours=(small,)), ground=FREE_SPACE, frequencies=np.array([7.05e6])
    )
    (reach,) = readings.beside.reach
    assert not reach.counts
    assert 0.0 < reach.gain_db < 0.01
    (told,) = [each for each in readings.notices if each.code == "beside.too-far"]
    assert "70cm" in told.text
    assert f"{reach.gain_db:.3f} dB" in told.text
    assert readings.free_space.gain_dbi == pytest.approx(ahead(solved(own)), abs=1e-9)


def test_the_figure_is_not_less_than_what_a_neighbour_does():
    """Random pairs: what the estimate allows is more than what the solution finds."""
    rng = np.random.default_rng(5)
    for _ in range(25):
        own = three("one", frequency=float(rng.uniform(7e6, 30e6)))
        other = three(
            "two",
            frequency=float(rng.uniform(7e6, 300e6)),
            height=own.height + float(rng.uniform(0.5, 12.0)),
        )
        other = replace(other, idle_feed=str(rng.choice(["open", "shorted"])))
        (reach,) = neighbour_reach(beam=replace(own, neighbours=(other,)))
        assert not reach.touches
        if not reach.counts:
            # The solver leaves it out: hold the estimate against the two in one system.
            stack = solve_stack(
                beams=(own, other), ground=FREE_SPACE, frequency=own.design_frequency
            )
            reading = feed_stack(
                stack, feeding=Feeding(name="", weights=(1.0, 0.0), idle=other.idle_feed)
            )
            level = stack_gain_dbi(reading, azimuth=np.zeros(1), elevation=np.zeros(1))[0]
        else:
            level = ahead(solved(replace(own, neighbours=(other,))))
        share = abs(10.0 ** ((level - ahead(solved(own))) / 20.0) - 1.0)
        assert share < reach.share


def test_wires_that_run_into_each_other_are_said_and_left_out():
    own = three("one")
    readings = read_beam(
        beam=replace(own, neighbours=(three("two"),)),
        ground=FREE_SPACE,
        frequencies=np.array([FREQUENCY]),
    )
    assert "beside.touches" in {notice.code for notice in readings.notices}
    assert readings.free_space.gain_dbi == pytest.approx(ahead(solved(own)), abs=1e-9)


def test_a_mast_in_the_plane_of_symmetry_carries_nothing():
    own = three("one")
    mast = Conductor(name="mast", diameter=0.05, start=(0.0, 0.0, 9.0), end=(0.0, 0.0, 16.0))
    assert ahead(solved(replace(own, conductors=(mast,)))) == pytest.approx(
        ahead(solved(own)), abs=1e-4
    )


def test_a_long_piece_of_guy_beside_a_beam_is_solved_with_it():
    own = three("one")
    near = Conductor(name="guy", diameter=0.006, start=(-0.8, -2.6, 14.2), end=(-0.8, 2.6, 13.4))
    short = replace(near, end=(-0.8, -1.6, 13.8))
    moved = abs(ahead(solved(replace(own, conductors=(near,)))) - ahead(solved(own)))
    assert moved > 0.02
    (reach,) = neighbour_reach(beam=replace(own, conductors=(short,)))
    assert not reach.counts
    assert read_beside(beam=replace(own, conductors=(short,)), prepare=prepare_run).loss_db == 0.0


def test_perfect_ground_mirrors_the_neighbour_too():
    own = three("one", height=6.0)
    other = replace(three("two", height=7.5), idle_feed="shorted")
    over = solved(replace(own, neighbours=(other,)), PERFECT_GROUND)
    stack = solve_stack(beams=(own, other), ground=PERFECT_GROUND, frequency=FREQUENCY)
    reading = feed_stack(stack, feeding=Feeding(name="", weights=(1.0, 0.0), idle="shorted"))
    assert over.impedance[0] == pytest.approx(reading.feed_impedances[0], rel=1e-6)
    assert math.isfinite(float(over.impedance[0].real))
