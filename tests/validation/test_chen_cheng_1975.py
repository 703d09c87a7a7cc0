"""Six-element arrays optimised in spacing, in length, and in both.

D. K. Cheng and C. A. Chen, "Optimum element spacings for Yagi-Uda arrays", IEEE Trans. AP-21,
Sept 1973, pp. 615-623; C. A. Chen and D. K. Cheng, "Optimum element lengths for Yagi-Uda
arrays", IEEE Trans. AP-23, Jan 1975, pp. 8-15; as reproduced in C. A. Balanis, "Antenna
Theory", Tables 10.1 and 10.2. Figures from memory.

The printed figures rest on three-term currents, which leave the end effect of these thick
elements (radius 0.0034 wavelengths) out: they belong to elements electrically about 1 % shorter
than flat-ended tubes of the printed length. With that one common shortening, the same as for
the table in ``test_stutzman_thiele_1998.py``, all four directivities must agree within 0.4 dB;
the order must hold, and each step of the optimisation be the right size within 0.4 dB.
"""

from __future__ import annotations

import numpy as np
import pytest

from antennas import beam_in_wavelengths, read_data, solved_beam
from boomwright.base import SPEED_OF_LIGHT
from boomwright.solver import gain_dbi

NAMES = ("initial", "length", "spacing", "both")
SHORTENING = 0.99


@pytest.fixture(scope="module")
def directivities():
    checks = {check["id"]: check for check in read_data("wires.toml")["check"]}
    found, printed = {}, {}
    for name in NAMES:
        check = checks[f"chengchen-6el-{name}"]
        given = check["inputs"]
        beam = beam_in_wavelengths(
            lengths=[SHORTENING * length for length in given["lengths_wl"]],
            spacings=given["spacings_wl"],
            diameter=2.0 * given["radius_wl"],
            driven=1,
        )
        solution = solved_beam(beam, SPEED_OF_LIGHT)
        gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))
        found[name], printed[name] = float(gain[0, 0]), check["expected"]
    return found, printed


@pytest.mark.parametrize("name", NAMES)
def test_directivity(directivities, name):
    found, printed = directivities
    assert found[name] == pytest.approx(printed[name], abs=0.4)


def test_order_of_the_four_sets(directivities):
    found, _ = directivities
    assert [found[name] for name in NAMES] == sorted(found.values())


@pytest.mark.parametrize("better", NAMES[1:])
def test_size_of_each_step(directivities, better):
    found, printed = directivities
    step = found[better] - found["initial"]
    assert step == pytest.approx(printed[better] - printed["initial"], abs=0.4)
