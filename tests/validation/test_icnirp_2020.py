"""ICNIRP 2020, Tables 5 and 6, copied as formula texts in data/permits_checks.toml.

The occupational rows of Table 5 are from memory, as the data file says.
"""

import numpy as np
import pytest
from check_values import checks

from boomwright.permits.exposure_limits import icnirp_limit

CHECKS = checks("permits_checks.toml")


def published(formula, frequency_mhz):
    """Evaluate a cell of the printed table, such as ``300/f^0.7`` or ``1.375 f^0.5``."""
    if formula in {"-", "not applicable"}:
        return None
    text = formula.replace(" f", "*f").replace("^", "**")
    return eval(text, {"__builtins__": {}}, {"f": frequency_mhz})  # noqa: S307


def held(limit, row, columns, table, frequency_mhz):
    values = (limit.electric_field, limit.magnetic_field, limit.power_density)
    for name, got in zip(columns, values, strict=True):
        expected = published(table[name][row], frequency_mhz)
        if expected is None:
            assert got is None
        else:
            assert got == pytest.approx(expected, rel=1e-12)


def frequencies(text):
    low, high = (float(end) for end in text.split("-"))
    return np.geomspace(low * 1.0001, high, 7)


@pytest.mark.parametrize(
    ("check_id", "group"),
    [
        ("icnirp2020-wholebody-public", "general"),
        ("icnirp2020-wholebody-occupational", "occupational"),
    ],
)
def test_whole_body_table(check_id, group):
    check = CHECKS[check_id]
    for row, text in enumerate(check["inputs"]["f_MHz"]):
        for frequency_mhz in frequencies(text):
            limit = icnirp_limit(frequency=frequency_mhz * 1e6, group=group, body="whole")
            held(
                limit,
                row,
                ("E_V_per_m", "H_A_per_m", "S_W_per_m2"),
                check["expected"],
                frequency_mhz,
            )
            assert limit.averaging_time == 1800.0
            assert limit.seen == ("from memory" if group == "occupational" else "read")


@pytest.mark.parametrize(("suffix", "group"), [("occ", "occupational"), ("pub", "general")])
def test_local_table(suffix, group):
    check = CHECKS["icnirp2020-local"]
    for row, text in enumerate(check["inputs"]["f_MHz"]):
        for frequency_mhz in frequencies(text):
            limit = icnirp_limit(frequency=frequency_mhz * 1e6, group=group, body="local")
            columns = tuple(f"{letter}_{suffix}" for letter in "EHS")
            held(limit, row, columns, check["expected"], frequency_mhz)
            assert limit.averaging_time == 360.0


def test_points_at_amateur_frequencies():
    check = CHECKS["icnirp2020-points"]
    for i, frequency_mhz in enumerate(check["inputs"]["f_MHz"]):
        limit = icnirp_limit(frequency=frequency_mhz * 1e6, group="general")
        assert limit.electric_field == pytest.approx(check["expected"]["E"][i], rel=1e-3)
        assert limit.magnetic_field == pytest.approx(check["expected"]["H"][i], rel=1e-3)
