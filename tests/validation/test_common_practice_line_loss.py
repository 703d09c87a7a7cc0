"""Loss of lines: formula values, typical data, and the loss of a mismatched line."""

from __future__ import annotations

import pytest
from feed_checks import check

from boomwright.feed import (
    COAX_TYPES,
    CoaxType,
    fit_attenuation,
    ideal_coax,
    mismatch_loss_db,
    read_line,
    total_line_loss_db,
)


def test_total_loss_table():
    values = check("swr-total-loss")
    for row, matched in zip(
        values["expected"]["total_dB"], values["inputs"]["matched_loss_dB"], strict=True
    ):
        for printed, swr in zip(row, values["inputs"]["swr"], strict=True):
            assert total_line_loss_db(matched_loss_db=matched, swr=swr) == pytest.approx(
                printed, abs=1e-4
            )


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


def test_ideal_line():
    values = check("coax-ideal")
    given, printed = values["inputs"], values["expected"]
    for index, megahertz in enumerate(given["f_MHz"]):
        found = ideal_coax(
            inner_diameter=given["inner_mm"] / 1e3,
            outer_diameter=given["outer_mm"] / 1e3,
            permittivity=given["eps_r"],
            loss_tangent=given["tan_delta"],
            resistivity=given["rho_ohm_m"],
            frequency=megahertz * 1e6,
        )
        assert found.impedance == pytest.approx(printed["Z0_ohm"], rel=1e-4)
        # Printed to the third decimal; 1e-3 of the formula.
        assert found.conductor_db * 100 == pytest.approx(
            printed["conductor_dB_per_100m"][index], rel=1e-3, abs=5e-4
        )
        assert found.dielectric_db * 100 == pytest.approx(
            printed["dielectric_dB_per_100m"][index], rel=1e-3, abs=5e-4
        )


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
