"""EN 1993-1-1: steel tubes in compression, by a published worked example of a hollow section."""

from __future__ import annotations

from math import pi, sqrt

import pytest

from boomwright.structure import TubeShape
from boomwright.structure.faults import StructureInputError
from boomwright.structure.support.columns import european_column_share, tube_strength

#: 244.5 x 10 mm, hot finished, S355, 4 m on two pins
PIPE = TubeShape(diameter=0.2445, wall=0.010)
SLENDER = 4.0 / sqrt(PIPE.second_moment / PIPE.area)


def test_buckling_resistance_of_a_compression_member():
    # Printed: A 7370 mm2, chi 0.878 on curve a; an open library prints 0.87778.
    assert PIPE.area == pytest.approx(7370e-6, rel=1e-3)
    share = european_column_share(
        yield_strength=355e6, elastic_modulus=210e9, slenderness=SLENDER, imperfection=0.21
    )
    assert share == pytest.approx(0.87778, rel=1e-3)
    # Cold formed, curve c, bears less.
    cold = european_column_share(yield_strength=355e6, elastic_modulus=210e9, slenderness=SLENDER)
    assert 0.70 < cold < share


def test_curve_c_by_hand():
    # lambda 1: phi = 0.5 (1 + 0.49 x 0.8 + 1) = 1.196, chi = 1 / (1.196 + sqrt(1.196^2 - 1)).
    slender = pi * sqrt(200e9 / 240e6)
    given = {"yield_strength": 240e6, "elastic_modulus": 200e9}
    assert european_column_share(slenderness=slender, **given) == pytest.approx(0.540, abs=5e-4)
    assert european_column_share(slenderness=0.1 * slender, **given) == 1.0
    # Long: always under Euler's load.
    euler = pi**2 * 200e9 / (3.0 * slender) ** 2 / 240e6
    assert european_column_share(slenderness=3.0 * slender, **given) < euler


def test_strength_for_characteristic_and_for_design_wind():
    given = {
        "shape": PIPE, "column_length": 4.0, "yield_strength": 355e6, "elastic_modulus": 210e9,
        "steel": True,
    }  # fmt: skip
    design = tube_strength(kind="design", **given)
    share = european_column_share(yield_strength=355e6, elastic_modulus=210e9, slenderness=SLENDER)
    assert design.axial == pytest.approx(share * 355e6 * PIPE.area, rel=1e-12)
    assert design.moment == pytest.approx(355e6 * PIPE.plastic_modulus, rel=1e-12)
    assert design.torque == pytest.approx(355e6 / sqrt(3.0) * PIPE.torsion_modulus, rel=1e-12)
    # The factor on wind stands on the strength where the wind has none; shares are added.
    plain = tube_strength(kind="characteristic", wind_factor=1.5, **given)
    assert plain.axial == pytest.approx(design.axial / 1.5, rel=1e-12)
    used = plain.used(axial=0.1 * plain.axial, moment=0.5 * plain.moment)
    assert used == pytest.approx(0.6, rel=1e-12)
    assert (plain.kind, design.kind) == ("characteristic", "design")


def test_a_wall_too_thin_for_the_rule():
    # D / t up to 90 (235 / fy): 59.6 for S355; past 46.3 it bends elastically.
    given = {"column_length": 4.0, "yield_strength": 355e6, "elastic_modulus": 210e9,
             "steel": True, "kind": "design"}  # fmt: skip
    thin = TubeShape(diameter=0.25, wall=0.005)
    assert tube_strength(shape=thin, **given).moment == pytest.approx(355e6 * thin.modulus)
    with pytest.raises(StructureInputError, match="too thin"):
        tube_strength(shape=TubeShape(diameter=0.25, wall=0.004), **given)
