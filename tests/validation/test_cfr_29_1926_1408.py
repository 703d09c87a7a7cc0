"""29 CFR 1926.1408 Table A and 29 CFR 1910.333(c)(3) (the latter's section from memory)."""

import pytest
from check_values import checks

from boomwright.permits import least_clearance
from boomwright.permits.power_lines import table_a_distance

CHECKS = checks("permits_checks.toml")


def test_table_a():
    expected = CHECKS["powerline_table_a"]["expected"]
    for upper_kv, lower_kv, feet in zip(
        (50, 200, 350, 500, 750, 1000),
        (0.4, 50.01, 200.01, 350.01, 500.01, 750.01),
        expected,
        strict=True,
    ):
        assert table_a_distance(voltage=upper_kv * 1e3) / 0.3048 == pytest.approx(feet, rel=1e-12)
        assert table_a_distance(voltage=lower_kv * 1e3) / 0.3048 == pytest.approx(feet, rel=1e-12)
    with pytest.raises(ValueError, match="ask the line's owner"):
        table_a_distance(voltage=1.1e6)


def test_unknown_and_very_high_voltage():
    # 1926.1408(a)(2)(ii): 20 ft to 350 kV; 1926.1409: 50 ft above
    assert least_clearance(voltage=None).distance / 0.3048 == pytest.approx(20.0, rel=1e-12)
    assert least_clearance(voltage=400e3).distance / 0.3048 == pytest.approx(50.0, rel=1e-12)
    assert least_clearance(voltage=11e3).distance / 0.3048 == pytest.approx(10.0, rel=1e-12)
