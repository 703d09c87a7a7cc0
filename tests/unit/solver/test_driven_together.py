"""Several driven wires on one feed: a dipole of two bands, phased verticals.

The dipole is held against the program of ``thin_wire_moments``, which shares nothing with the
package; the verticals against mutual impedance and array factor in
``tests/validation/test_carter_1932.py``.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

import thin_wire_moments
from antennas import solved_beam
from bent_plans import vee
from boomwright.base import BoomwrightError, PlanError, SolverError
from boomwright.feed import FieldSetting, split_load
from boomwright.plan import read_plan, write_plan
from boomwright.plan.shapes import shape_plan
from boomwright.reach import solve_stack
from boomwright.solver import (
    FREE_SPACE,
    gain_dbi,
    remembering,
    standing_wave_ratio,
)
from boomwright.study.requests import Wishes
from boomwright.study.shapes import shaped_text

BANDS = ("40 m", "20 m")


@pytest.fixture(scope="module")
def two_bands():
    return read_plan(
        shaped_text(Wishes(band=BANDS[1], further_bands=BANDS[:1], shape="two-band-dipole"))
    )


@pytest.fixture(scope="module")
def phased():
    return read_plan(shaped_text(Wishes(band="40 m", shape="two-verticals")))


def solved(beam, ground=FREE_SPACE, prepare=None):
    return solved_beam(beam, ground=ground, prepare=prepare or remembering())


def test_two_dipoles_on_one_feed_agree_with_an_independent_computation(two_bands):
    long, short = two_bands.beams
    for beam in (long, short):
        lossless = replace(beam.material, conductivity=np.inf)
        others = tuple(replace(other, material=lossless) for other in beam.neighbours)
        found = solved(replace(beam, material=lossless, neighbours=others))
        drop = np.array([0.0, 0.0, short.height - long.height])
        wires = [np.array(long.elements[0].outline), np.array(short.elements[0].outline) + drop]
        middles = [len(wire) // 2 for wire in wires]
        impedance, ahead, _ = thin_wire_moments.solve(
            wires,
            radius=0.001,
            frequency=beam.design_frequency,
            fed=(0, middles[0]),
            also=((1, middles[1]),),
            longest=beam.wavelength / 120.0,
        )
        assert abs(found.impedance[0] - impedance) < 4.0
        gain = gain_dbi(solution=found, azimuth=np.zeros(1), elevation=np.zeros(1))[0, 0]
        assert gain == pytest.approx(ahead, abs=0.1)
        power = (found.radiated + found.lost) / found.accepted
        assert power[0] == pytest.approx(1.0, abs=1e-3)


def test_each_band_is_trimmed_with_the_other_on_its_terminals(two_bands):
    for beam in two_bands.beams:
        impedance = solved(beam, two_bands.site.ground).impedance
        assert abs(impedance[0].imag) < 1.0
        assert standing_wave_ratio(impedance=impedance, reference=50.0)[0] < 1.6
    # Alone, the shorter one would be a different antenna.
    alone = solved(two_bands.beams[1].alone, two_bands.site.ground).impedance[0]
    assert abs(alone.imag) > 10.0


def test_most_of_the_current_flows_in_the_dipole_of_the_band(two_bands):
    for beam in two_bands.beams:
        own, other = np.abs(solved(beam).drives[0, 1])
        assert own > 1.5 * other


def test_compute_and_feed_agree_on_wires_driven_together(two_bands, phased):
    for plan in (two_bands, phased):
        for beam in plan.beams:
            setting = FieldSetting(ground=plan.site.ground)
            load = split_load(beam=beam, setting=setting)
            there = int(np.abs(load.frequency - beam.design_frequency).argmin())
            at = replace(beam, design_frequency=float(load.frequency[there]))
            assert solved(at, plan.site.ground).impedance[0] == pytest.approx(
                load.impedance[there], rel=1e-6
            )


def test_lines_give_two_verticals_equal_currents_a_quarter_turn_apart(phased):
    solution = solved(phased.beams[0], phased.site.ground)
    rear, front = solution.drives[0, 1]
    assert abs(front / rear) == pytest.approx(1.0, abs=0.02)
    assert np.degrees(np.angle(front / rear)) == pytest.approx(-90.0, abs=1.0)
    level = np.radians([25.0, 25.0])
    ahead, behind = gain_dbi(
        solution=solution,
        azimuth=np.array([0.0, np.pi]),
        elevation=level,
        ground=phased.site.ground,
        height=phased.beams[0].height,
    )[0]
    assert ahead - behind > 20.0
    # What goes into both is what is accepted; the ground at both feet takes its part.
    volts, amperes = solution.drives[0]
    taken = 0.5 * (volts * amperes.conj()).real.sum()
    assert solution.accepted[0] == pytest.approx(taken, rel=1e-9)
    assert standing_wave_ratio(impedance=solution.impedance, reference=50.0)[0] < 1.5


def test_what_is_driven_together_survives_a_rewrite(two_bands, phased):
    for plan in (two_bands, phased):
        assert read_plan(write_plan(plan)).beams == plan.beams


def test_beams_with_several_driven_elements_keep_their_lines_in_a_stack():
    """Two straight dipoles driven a quarter turn apart, by themselves and as a stack of one."""
    line = 'phasing_line = { impedance = "50 ohm", length = "%s m" }'
    text = vee(y=6.0, length=10.0).replace('at = "0 m"', f'at = "0 m"\n  {line % 2.0}')
    second = text[text.index("  [[beam.element]]") :].replace('at = "0 m"', 'at = "4 m"')
    point = '["end", "0.0 m", "6.0 m", "0.0 m"]'
    assert point in text
    text = text.replace(point, f'{point}, ["front", "4 m", "6 m", "0 m"]')
    second = second.replace('"end"', '"front"').replace("2.0 m", "5.0 m")
    beam = read_plan(text + second.replace('at = "4 m"', 'at = "4 m"')).beams[0]
    stack = solve_stack(beams=(beam,), ground=FREE_SPACE, frequency=beam.design_frequency)
    alone = solved(beam)
    assert stack.impedance[0, 0] == pytest.approx(alone.impedance[0], rel=1e-6)
    assert len(alone.drives[0, 0]) == 2


def test_a_stack_is_not_of_verticals(phased):
    with pytest.raises(BoomwrightError, match="stands on end"):
        solve_stack(beams=phased.beams, ground=FREE_SPACE, frequency=7.1e6)


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ('fed_with = "40 m"', 'fed_with = "80 m"', "beam[1].fed_with"),
        ('["middle", "0 m", "0 m", "0.1 m"]', '["middle", "0 m", "0 m", "2 m"]',
         "beam[1].fed_with"),
    ],
)  # fmt: skip
def test_beams_that_cannot_share_a_feed_are_faults(old, new, path):
    text = shape_plan("two-band-dipole", band="40 m", further=("20 m",))
    assert old in text
    with pytest.raises(PlanError) as caught:
        read_plan(text.replace(old, new))
    assert path in {fault.path for fault in caught.value.faults}


def test_wires_that_run_into_each_other_cannot_share_a_feed():
    text = shape_plan("two-band-dipole", band="40 m", further=("20 m",))
    plan = read_plan(text.replace('"0.1 m"]', '"0 m"]'))
    with pytest.raises(SolverError, match="runs into its wires"):
        solved(plan.beams[0])


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ("  phasing_line", "  # phasing_line", "beam[0].element[1].role"),
        ('kind = "split", gap = "40 mm"', 'kind = "gamma"', "beam[0].feed.kind"),
    ],
)
def test_several_driven_elements_need_their_lines(old, new, path):
    text = shape_plan("two-verticals", band="40 m")
    assert old in text
    with pytest.raises(PlanError) as caught:
        read_plan(text.replace(old, new))
    assert path in {fault.path for fault in caught.value.faults}
