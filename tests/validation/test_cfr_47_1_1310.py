"""47 CFR 1.1310(e)(1) Table 1, copied as formula texts in data/permits_checks.toml."""

import numpy as np
import pytest
from check_values import checks

from boomwright.permits.exposure_limits import fcc_limit

CHECKS = checks("permits_checks.toml")


def published(formula, frequency_mhz):
    """Evaluate a cell of the printed table, such as ``1842/f`` or ``900/f^2``."""
    if formula == "-":
        return None
    return eval(formula.replace("^", "**"), {"__builtins__": {}}, {"f": frequency_mhz})  # noqa: S307


def band(text):
    low, high = text.split("-")
    return float(low), float(high)


@pytest.mark.parametrize(
    ("group", "rows"),
    [("occupational", "fcc-1310-occupational"), ("general", "fcc-1310-general")],
)
def test_every_row_of_the_table(group, rows):
    check = CHECKS[rows]
    table = check["expected"]
    for row, limits in enumerate(check["inputs"]["f_MHz"]):
        low, high = band(limits)
        # Both ends belong to a printed row; just above the lower end avoids the row before.
        for frequency_mhz in np.geomspace(low * 1.0001, high, 7):
            limit = fcc_limit(frequency=frequency_mhz * 1e6, group=group)
            for name, got, factor in (
                ("E_V_per_m", limit.electric_field, 1.0),
                ("H_A_per_m", limit.magnetic_field, 1.0),
                ("S_mW_per_cm2", limit.power_density, 0.1),
            ):
                expected = published(table[name][row], frequency_mhz)
                if expected is None:
                    assert got is None
                else:
                    assert got * factor == pytest.approx(expected, rel=1e-12)
            assert limit.averaging_time == table["averaging_min"] * 60.0


def test_points_at_amateur_frequencies():
    check = CHECKS["fcc-1310-points"]
    expected = check["expected"]
    for i, frequency_mhz in enumerate(check["inputs"]["f_MHz"]):
        frequency = frequency_mhz * 1e6
        occupational = fcc_limit(frequency=frequency, group="occupational")
        general = fcc_limit(frequency=frequency, group="general")
        # the printed points are rounded to 3 or 4 figures
        assert occupational.power_density / 10 == pytest.approx(expected["S_occ"][i], rel=1e-3)
        assert general.power_density / 10 == pytest.approx(expected["S_gp"][i], rel=1e-3)
        assert general.electric_field == pytest.approx(expected["E_gp"][i], rel=1e-3)
        assert general.magnetic_field == pytest.approx(expected["H_gp"][i], rel=1e-3)


def test_outside_the_table_is_refused():
    for frequency in (0.29e6, 100.1e9):
        with pytest.raises(ValueError, match="holds no level"):
            fcc_limit(frequency=frequency, group="general")
