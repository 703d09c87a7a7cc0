"""Ground constants and the complex permittivity.

Rec. ITU-R P.527-3 (1992), Fig. 1, low-frequency limit (from memory); the complex permittivity is
a definition, eps_r - j sigma/(2 pi f eps_0), printed as eps_r - j 60 sigma lambda with 60 for
59.96 (0.07 %), so it is held to the exact evaluation in the data within 1e-4.
"""

from __future__ import annotations

import pytest

from antennas import read_data
from boomwright.solver import GROUND_CLASSES, Ground

CHECKS = {check["id"]: check for check in read_data("wires.toml")["check"]}
NAMES = {
    "sea water": "sea water, average salinity",
    "fresh water": "fresh water",
    "wet": "wet ground",
    "medium dry": "medium dry ground",
    "very dry": "very dry ground",
}


@pytest.mark.parametrize("name", NAMES)
def test_constants_of_the_classes(name):
    check = CHECKS["gnd-constants"]
    number = check["inputs"]["type"].index(NAMES[name])
    ground = GROUND_CLASSES[name]
    assert ground.permittivity == check["expected"]["eps_r"][number]
    assert ground.conductivity == check["expected"]["sigma_S_per_m"][number]


@pytest.mark.parametrize("number", range(5))
def test_complex_permittivity(number):
    check = CHECKS["gnd-eps-complex"]
    ground = Ground(
        kind="real",
        permittivity=check["inputs"]["eps_r"][number],
        conductivity=check["inputs"]["sigma"][number],
    )
    found = ground.complex_permittivity(frequency=check["inputs"]["f_MHz"] * 1e6)
    assert found.real == check["inputs"]["eps_r"][number]
    assert found.imag == pytest.approx(check["expected"]["imag"][number], rel=1e-4)
