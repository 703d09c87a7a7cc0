"""Complex reference impedances: power waves.

K. Kurokawa, Power waves and the scattering matrix, IEEE Trans. MTT 13, 1965, pp. 194-202, from
memory: S = (Z - Z0*) / (Z + Z0); no reflection for Z = Z0*, and 1 - |S|^2 is the share of the
available power that a load takes.
"""

import numpy as np
import pytest

from boomwright.tuning import read_touchstone


def written(s, reference="50+30j"):
    rows = "\n".join(f"{14.0 + 0.1 * n} {v.real:.12f} {v.imag:.12f}" for n, v in enumerate(s))
    return f"# MHz S RI R {reference}\n{rows}\n"


@pytest.mark.parametrize("reference", ["50+30j", "(50+30j)"])
def test_impedances_come_back(reference):
    z0 = 50.0 + 30.0j
    z = np.array([50.0 - 30.0j, 20.0 + 70.0j, 120.0 - 15.0j])
    s = (z - np.conj(z0)) / (z + z0)
    sweep = read_touchstone(content=written(s, reference), name="a.s1p")
    np.testing.assert_allclose(sweep.impedance, z, rtol=1e-9)
    assert [n.code for n in sweep.notices] == ["tuning.complex-reference"]


def test_no_reflection_is_the_conjugate():
    sweep = read_touchstone(content=written(np.zeros(2, dtype=complex)), name="a.s1p")
    np.testing.assert_allclose(sweep.impedance, [50.0 - 30.0j] * 2, rtol=1e-9)


def test_power_taken_by_a_load():
    z0, z, volt = 50.0 + 30.0j, 80.0 - 10.0j, 2.0
    taken = abs(volt / (z0 + z)) ** 2 * z.real
    available = volt**2 / (4.0 * z0.real)
    s = (z - np.conj(z0)) / (z + z0)
    np.testing.assert_allclose(1.0 - abs(s) ** 2, taken / available, rtol=1e-12)
    sweep = read_touchstone(content=written(np.array([s])), name="a.s1p")
    np.testing.assert_allclose(sweep.impedance, [z], rtol=1e-9)
