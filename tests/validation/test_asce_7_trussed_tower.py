"""ASCE/SEI 7 trussed towers: printed polynomials (published, as used in several open codes)."""

from __future__ import annotations

import pytest

from boomwright.structure import Lattice
from boomwright.structure.support.lattice import trussed_tower_drag
from boomwright.structure.weather.ice import IceCoat

#: solidity, then the printed coefficient of flat members for 3 and 4 faces, the round-member and
#: the diagonal factor, all worked by hand from the figure's note
ROWS = (
    (0.1, 2.964, 3.450, 0.5751, 1.075),
    (0.2, 2.596, 2.980, 0.5904, 1.150),
    (0.3, 2.296, 2.590, 0.6159, 1.200),
    (0.5, 1.900, 2.050, 0.6975, 1.200),
    (1.0, 2.100, 2.100, 1.0000, 1.200),
)


@pytest.mark.parametrize(("solidity", "three", "four", "rounded", "diagonal"), ROWS)
def test_coefficients(solidity, three, four, rounded, diagonal):
    assert trussed_tower_drag(solidity=solidity, faces=3) == pytest.approx(
        three * rounded, rel=1e-9
    )
    assert trussed_tower_drag(solidity=solidity, faces=4) == pytest.approx(
        four * rounded * diagonal, rel=1e-9
    )


def test_a_metre_of_tower_by_hand():
    # Two 32 mm legs and 2 m of 11 mm brace in a face 0.332 m wide: 0.086 m2 of steel a metre.
    lattice = Lattice(faces=3, face_width=0.3, leg=0.032, brace=0.011, brace_length=2.0)
    e = 0.086 / 0.332
    by_hand = (3.4 * e**2 - 4.7 * e + 3.4) * (0.51 * e**2 + 0.57) * 0.086
    assert lattice.drag_width() == pytest.approx(by_hand, rel=1e-12)
    # 10 mm of ice makes legs of 52 and braces of 31 mm, 0.166 in 0.352 m.
    coat = IceCoat(thickness=0.010, density=900.0)
    e = 0.166 / 0.352
    by_hand = (3.4 * e**2 - 4.7 * e + 3.4) * (0.51 * e**2 + 0.57) * 0.166
    assert lattice.drag_width(ice=coat) == pytest.approx(by_hand, rel=1e-12)
    # Three legs of pi 10 (32 + 10) mm2 of ice, and braces of pi 10 (11 + 10) mm2, 2 m in each face.
    area = 3.14159265 * 0.010 * (3 * 0.042 + 3 * 2.0 * 0.021)
    assert lattice.ice_mass(ice=coat) == pytest.approx(900.0 * area, rel=1e-8)


def test_a_closed_face_is_no_more_than_closed():
    lattice = Lattice(faces=4, face_width=0.3, leg=0.05, brace=0.03, brace_length=6.0)
    heavy = IceCoat(thickness=0.08, density=900.0)
    assert lattice.solid_width(ice=heavy) == lattice.gross_width(ice=heavy)
    assert lattice.drag_width(ice=heavy) == pytest.approx(
        2.1 * 1.2 * lattice.gross_width(ice=heavy), rel=1e-12
    )
