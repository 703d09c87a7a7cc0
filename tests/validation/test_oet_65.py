"""FCC OET Bulletin 65, edition 97-01, section 2: far-field power density."""

import math

import pytest
from check_values import checks

from boomwright.permits import distance_to_limit
from boomwright.permits.exposure import far_field_power_density
from boomwright.permits.exposure_limits import fcc_limit

CHECKS = checks("permits_checks.toml")


@pytest.mark.parametrize(
    ("reflection", "key", "printed"),
    [
        ("none", "free", lambda eirp, r: eirp / (4 * math.pi * r**2)),
        ("full", "full_reflection", lambda eirp, r: eirp / (math.pi * r**2)),
        ("partial", "epa_1p6", lambda eirp, r: 0.64 * eirp / (math.pi * r**2)),
    ],
)
def test_printed_formulas(reflection, key, printed):
    assert key in CHECKS["oet65-formula"]["expected"]
    # mW and cm in the bulletin: 1 kW, 7 dBi, 10 m
    eirp_mw, r_cm = 1e6 * 10**0.7, 1000.0
    density = far_field_power_density(
        power=1000.0, gain_dbi=7.0, distance=10.0, reflection=reflection
    )
    assert density / 10.0 == pytest.approx(printed(eirp_mw, r_cm), rel=1e-12)


def test_distances_for_one_kilowatt():
    check = CHECKS["oet65-distance-points"]
    for i, frequency_mhz in enumerate(check["inputs"]["f_MHz"]):
        limit = fcc_limit(frequency=frequency_mhz * 1e6, group="general")
        # "with reflection" in the data means the 1.6-fold field: 1.6 times the free distance
        for reflection, key in (("partial", "R_m_with_reflection"), ("none", "R_m_free")):
            distance = distance_to_limit(
                power=check["inputs"]["P_W"],
                gain_dbi=check["inputs"]["G_dBi"],
                power_density=limit.power_density,
                reflection=reflection,
            )
            assert distance == pytest.approx(check["expected"][key][i], rel=1e-3)
