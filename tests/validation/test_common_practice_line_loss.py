"""Loss of lines: formula values, typical data, and the loss of a mismatched line."""

from __future__ import annotations

import pytest
from check_values import feed_check as check

from boomwright.feed import COAX_TYPES, CoaxType, fit_attenuation, read_line
from boomwright.feed.reflection import mismatch_loss_db


@pytest.mark.parametrize("load", [100.0, 25.0])
def test_full_solution_agrees_where_the_formula_is_exact(load):
    # Equal shares of conductor and dielectric loss keep the characteristic impedance real.
    line = CoaxType(
        name="balanced", impedance=50.0, velocity_factor=0.66, k1=0.5e-2 / 1e4, k2=0.5e-2 / 1e8
    )
    reading = read_line(line=line, length=100.0, load=load + 0j, frequency=1e8)
    assert reading.matched_loss_db == pytest.approx(1.0, rel=1e-12)
    # 1.195858 dB is the figure in the note of the check.
    assert reading.loss_db == pytest.approx(1.195858, abs=1e-5)


def test_mismatch_loss():
    values = check("swr-mismatch")
    for swr, printed in zip(values["inputs"]["swr"], values["expected"], strict=True):
        assert mismatch_loss_db(swr) == pytest.approx(printed, abs=1e-4)


@pytest.mark.parametrize(
    ("name", "row"), [("RG-58C", "RG58C_dB_per_100m"), ("RG-213", "RG213_dB_per_100m")]
)
def test_model_through_nominal_points(name, row):
    # The figures themselves are good to 15 %; the two-term model runs within 2 % of each.
    values = check("coax-nominal")
    for megahertz, printed in zip(values["inputs"]["f_MHz"], values["expected"][row], strict=True):
        found = COAX_TYPES[name].attenuation_db(frequency=megahertz * 1e6) * 100
        assert found == pytest.approx(printed, rel=0.02)


def test_fit_recovers_a_line_that_follows_the_model():
    frequency = [1e6, 10e6, 50e6, 200e6]
    losses = [3e-6 * f**0.5 + 4e-11 * f for f in frequency]
    k1, k2 = fit_attenuation(frequency=frequency, attenuation_db=losses)
    assert k1 == pytest.approx(3e-6, rel=1e-9)
    assert k2 == pytest.approx(4e-11, rel=1e-9)
