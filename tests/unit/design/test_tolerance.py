"""Build tolerance: each cause the right way and size, and the cutting error holds."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from design_beams import stepped_for_20m, three_elements

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.figures_of import band_figures
from boomwright.design.loading import (
    WET,
    coated_lengthening,
    droop_lengthening,
    ice,
    reactance_slope,
    thicker_lengthening,
)
from boomwright.design.targets import Targets
from boomwright.design.tolerance import Allowance, BuildErrors, tolerance_of
from boomwright.parts import Wire

TARGETS = Targets(match="matched")


@pytest.fixture(scope="module")
def usual():
    second = Wire(name="other", diameter=0.02, points=np.array([[2.0, -4.9, 4.0], [2.0, 4.9, 4.0]]))
    errors = BuildErrors(droop=0.3, ice_thickness=0.006, neighbour=(second,))
    return tolerance_of(beam=stepped_for_20m(), targets=TARGETS, errors=errors)


def spread_of(tolerance, cause):
    return next(spread for spread in tolerance.spreads if spread.cause == cause)


def test_every_cause_is_there(usual):
    causes = [spread.cause for spread in usual.spreads]
    assert causes == ["cutting", "placing", "tube", "droop", "wet", "ice", "neighbour"]


def test_nominal_figures_are_those_of_the_full_solver(usual):
    full = band_figures(beam=stepped_for_20m(), targets=TARGETS).worst
    assert usual.nominal[0] == pytest.approx(full[0], abs=0.01)
    assert usual.nominal[1] == pytest.approx(full[1], abs=0.1)
    assert usual.nominal[2] == pytest.approx(full[3], abs=0.01)


def test_cutting_within_the_answer_keeps_the_allowance(usual):
    twice = tolerance_of(
        beam=stepped_for_20m(), targets=TARGETS, errors=BuildErrors(cutting=usual.cut_within)
    )
    allowed = usual.allowance
    spread = spread_of(twice, "cutting")
    worst = (
        spread.gain_db[0] / -allowed.gain_db,
        spread.front_to_back_db[0] / -allowed.front_to_back_db,
        spread.swr[1] / allowed.swr,
    )
    # One of the three is used up, about: 95 % of all three together against 97.5 % of each.
    assert 0.8 < max(worst) < 1.25


def test_a_smaller_allowance_asks_for_finer_cutting(usual):
    strict = tolerance_of(
        beam=stepped_for_20m(),
        targets=TARGETS,
        allowance=Allowance(gain_db=0.01, front_to_back_db=0.3, swr=0.02),
    )
    assert strict.cut_within < 0.5 * usual.cut_within


def test_ice_lengthens_more_than_rain(usual):
    rain, frozen = spread_of(usual, "wet"), spread_of(usual, "ice")
    assert 0.0 < rain.lengthening < 0.1 * frozen.lengthening


def test_a_layer_of_nothing_does_nothing():
    beam = stepped_for_20m()
    layer = replace(WET, permittivity=1.0)
    for element in beam.elements:
        assert coated_lengthening(element=element, beam=beam, coating=layer) == 0.0


def test_ice_lowers_resonance_as_an_inductance_does():
    # A uniform coil L' per metre acts on a line of L0' = mu0/(2 pi) (ln(2 h/a) - 1) per metre like
    # a length grown by about L'/(2 L0'): transmission-line view of a dipole, common practice.
    beam = three_elements()
    element = beam.elements[1]
    layer = ice(thickness=1e-3)
    radius, half = 1e-3, element.half_length
    added = (1.0 - 1.0 / layer.permittivity) * np.log(1.0 + layer.thickness / radius)
    own = np.log(2.0 * half / radius) - 1.0
    expected = half * added / (2.0 * own)
    found = coated_lengthening(element=element, beam=beam, coating=layer)
    # The end effect, which the line leaves out, makes it more (test_richmond_newman_1976.py).
    assert 1.1 < found / expected < 1.35


def test_thicker_elements_act_longer():
    beam = three_elements()
    element = beam.elements[1]
    assert thicker_lengthening(element=element, beam=beam, by=0.05) > 0.0


def test_reactance_grows_with_length():
    # A dipole as an open line of wave impedance 120 (ln(2 h/a) - 1): common practice.
    beam = three_elements()
    element = beam.elements[1]
    own = 120.0 * (np.log(2.0 * element.half_length / 1e-3) - 1.0)
    expected = own * 2.0 * np.pi * beam.design_frequency / SPEED_OF_LIGHT
    assert reactance_slope(element=element, beam=beam) == pytest.approx(expected, rel=0.2)


def test_little_droop_does_little():
    beam = stepped_for_20m()
    element = beam.elements[1]
    shift = [droop_lengthening(element=element, beam=beam, droop=d) for d in (0.0, 0.2, 0.4)]
    assert shift[0] == pytest.approx(0.0, abs=1e-9)
    assert abs(shift[1]) < 5e-3
    # Twice the droop, four times the effect.
    assert shift[2] / shift[1] == pytest.approx(4.0, rel=0.25)
