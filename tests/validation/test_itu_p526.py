"""Part of the reflection beyond a border, held to the knife-edge loss of ITU-R P.526.

The loss of a knife edge is the same Fresnel integral: J(v) = 6.9 + 20 log(sqrt((v - 0.1)^2 + 1)
+ v - 0.1) dB for v > -0.78, an approximation within about 0.1 dB; at v = 0 it is 6.02 dB. From
memory of the recommendation.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.reach.ground_zones import beyond_border


@pytest.mark.parametrize("v", [-0.7, -0.3, 0.0, 0.5, 1.0, 1.5, 2.0])
def test_the_part_beyond_a_border_is_the_knife_edge_loss(v):
    height, wavelength = 20.0, 21.0
    border = 40.0
    # The elevation whose path over the border is v^2 wavelength / 4 longer, by bisection.
    angle = np.linspace(1e-4, 1.5, 200_001)
    extra = math.hypot(border, height) - border * np.cos(angle) - height * np.sin(angle)
    signed = (
        np.where(height / np.tan(angle) > border, -1.0, 1.0)
        * 2.0
        * np.sqrt(np.maximum(extra, 0.0) / wavelength)
    )
    elevation = float(np.interp(v, signed, angle))
    part = beyond_border(border=border, height=height, elevation=elevation, wavelength=wavelength)
    formula = 6.9 + 20.0 * math.log10(math.sqrt((v - 0.1) ** 2 + 1.0) + v - 0.1)
    assert -20.0 * math.log10(abs(part[0])) == pytest.approx(formula, abs=0.1)
