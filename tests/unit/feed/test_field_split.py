"""Split, hairpin and folded element in the field, and what stands behind a split element."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import numpy as np
import pytest
from field_scenarios import THREE_FOR_20

from antennas import beam
from boomwright.base import BoomwrightError
from boomwright.feed import (
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    design_split_with_balun,
)
from boomwright.feed.field_folded import solve_folded
from boomwright.feed.field_hairpin import solve_hairpin
from boomwright.feed.field_model import FieldSetting, with_driven_tips
from boomwright.feed.field_split import (
    circuit_tip_change,
    solve_behind_split,
    split_impedance,
    trim_to_reactance,
)
from boomwright.solver import radiated_power, solve_beam, working_detail

F0 = THREE_FOR_20.design_frequency


def test_split_is_the_solvers_own_beam():
    seen = split_impedance(beam=THREE_FOR_20, setting=FieldSetting())
    own = solve_beam(
        beam=THREE_FOR_20, frequencies=np.array([F0]), detail=working_detail(frequency=14.35e6)
    )
    assert seen == pytest.approx(complex(own.impedance[0]), abs=1e-6)


def test_trimmed_to_resonance():
    found = trim_to_reactance(beam=THREE_FOR_20, reactance=0.0, setting=FieldSetting())
    again = split_impedance(beam=found.beam, setting=FieldSetting())
    assert abs(again.imag) < 0.1
    assert found.tip_change > 0.0
    # An open line of the element's mean impedance is a fair first guess.
    guess = circuit_tip_change(element=THREE_FOR_20.elements[1], frequency=F0, reactance=27.8)
    assert guess == pytest.approx(found.tip_change, rel=0.35)


def test_an_element_cannot_be_trimmed_to_anything():
    with pytest.raises(BoomwrightError, match="no change of its tips"):
        trim_to_reactance(beam=THREE_FOR_20, reactance=4000.0, setting=FieldSetting())
    with pytest.raises(BoomwrightError, match="shorten a section further in"):
        with_driven_tips(beam=THREE_FOR_20, change=-2.03)


@pytest.mark.parametrize("way", ["forward", "rearward"])
def test_hairpin(way):
    beam = replace(THREE_FOR_20, rods=way)
    found = solve_hairpin(beam=beam, rod_diameter=0.006, spacing=0.08)
    assert found.shape.forward == (way == "forward")
    assert found.swr <= 1.02
    assert abs(found.finer_impedance - found.impedance) < 1.0
    length, half = found.comparisons
    assert length.field == pytest.approx(length.circuit, rel=0.4)
    assert half.field == pytest.approx(half.circuit, rel=0.02)
    assert found.swr < found.swr_of_start < 3.0
    balance = (
        radiated_power(source=found.solution.source) + found.solution.lost
    ) / found.solution.accepted
    assert balance == pytest.approx(1.0, abs=2e-3)


def test_hairpin_refuses_what_cannot_be():
    with pytest.raises(BoomwrightError, match="split and tube take"):
        solve_hairpin(beam=THREE_FOR_20, rod_diameter=0.004, spacing=0.02)
    with pytest.raises(BoomwrightError, match="between axes"):
        solve_hairpin(beam=THREE_FOR_20, rod_diameter=0.03, spacing=0.05)


#: lengths of halves and places of four elements for 23 cm: 30 ohm in the middle, and 6 ohm [m]
THIRTY_OHM = ((0.0592, 0.0503, 0.0495, 0.0484), (0.0, 0.0426, 0.0874, 0.139))
SIX_OHM = ((0.0570, 0.05445, 0.05145, 0.05145), (0.0, 0.0463, 0.0927, 0.139))


def four_for_23_cm(halves, places):
    antenna = beam(
        lengths=[2.0 * half for half in halves],
        places=places,
        diameter=0.003,
        driven=1,
        frequency=1296.6e6,
        gap=0.002,
        material="6061-T6",
    )
    return replace(antenna, band=(1294e6, 1299e6))


def test_a_hairpin_matches_on_the_shortest_waves():
    found = solve_hairpin(beam=four_for_23_cm(*THIRTY_OHM), rod_diameter=0.001, spacing=0.005)
    assert found.swr <= 1.02
    assert 0.004 < found.comparisons[0].field < 0.028


def test_a_hairpin_shorter_than_it_is_wide_is_refused_in_plain_words():
    with pytest.raises(BoomwrightError, match="shorter than its rods are apart") as caught:
        solve_hairpin(beam=four_for_23_cm(*SIX_OHM), rod_diameter=0.0015, spacing=0.008)
    assert "8.0 mm" in str(caught.value)
    assert "choose another kind of match" in str(caught.value)


def test_folded_element_is_made_resonant():
    found = solve_folded(beam=THREE_FOR_20, conductor_diameter=0.0127, spacing=0.11)
    assert abs(found.load.at(F0).imag) < 0.5
    _, spacing, resistance = found.comparisons
    assert spacing.difference == 0.0
    assert resistance.field == pytest.approx(resistance.circuit, rel=0.25)
    assert any(c.name.startswith("half-length") for c in found.comparisons)


BEHIND = {
    "quarter wave": partial(design_quarter_wave, frequency=F0, velocity_factor=0.66),
    "L section": lambda load: design_l_sections(load=load, frequency=F0)[0],
    "stub": lambda load: design_single_stub(load=load, frequency=F0, end="short")[0],
}


@pytest.mark.parametrize("name", BEHIND)
def test_match_behind_a_split_element(name):
    design = BEHIND[name]
    found = solve_behind_split(beam=THREE_FOR_20, design=lambda load: design(load=load))
    assert found.swr <= 1.02
    assert abs(found.finer_impedance - found.impedance) < 1.0
    assert found.error.proximity == 0.0


def test_split_element_with_balun_shows_what_the_element_gives():
    found = solve_behind_split(
        beam=THREE_FOR_20,
        design=lambda load: design_split_with_balun(load=load, frequency=F0),
    )
    seen = split_impedance(beam=THREE_FOR_20, setting=FieldSetting())
    assert found.impedance == pytest.approx(seen, abs=1e-6)
    assert found.swr == pytest.approx(found.swr_of_start)


def test_an_element_that_needs_next_to_no_hairpin_is_matched():
    """Near to the resistance of the line the hairpin for the rest would be longer than any."""
    own = split_impedance(beam=THREE_FOR_20, setting=FieldSetting()).real
    found = solve_hairpin(beam=THREE_FOR_20, rod_diameter=0.006, spacing=0.08, reference=1.14 * own)
    assert found.swr <= 1.1
