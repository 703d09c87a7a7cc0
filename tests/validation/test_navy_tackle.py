"""US Navy seamanship text: pull at a tackle; and the theory of tackles, derived."""

import pytest
from check_values import expected_values

from boomwright.raising.tackle import tackle_pull

CHECKS = expected_values("raising_checks.toml")


def test_ten_per_cent_a_sheave():
    assert tackle_pull(load=1000.0, parts=4) == pytest.approx(CHECKS["tackle_navy"], rel=1e-12)
    # A lead block is one sheave more: 1000 (1 + 0.5) / 4.
    assert tackle_pull(load=1000.0, parts=4, lead=1) == pytest.approx(375.0, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "parts", "bearing"),
    [
        ("tackle_2_110", 2, "plain"),
        ("tackle_4_110", 4, "plain"),
        ("tackle_4_105", 4, "bush"),
        ("tackle_6_105", 6, "bush"),
    ],
)
def test_the_theory_of_tackles(name, parts, bearing):
    pull = tackle_pull(load=1000.0, parts=parts, bearing=bearing)
    assert pull == pytest.approx(CHECKS[name], abs=0.06)  # one decimal


@pytest.mark.parametrize("bearing", ["ball", "bush", "plain"])
@pytest.mark.parametrize("parts", [1, 2, 3, 4])
def test_the_theory_sheave_by_sheave(parts, bearing):
    """Written out: each part pulls K times the one before, all parts together carry the load."""
    factor = {"ball": 1.02, "bush": 1.05, "plain": 1.10}[bearing]
    carried = sum(factor**-step for step in range(1, parts + 1))
    pull = tackle_pull(load=1000.0, parts=parts, bearing=bearing)
    assert pull == pytest.approx(1000.0 / carried, rel=1e-12)
    behind = tackle_pull(load=1000.0, parts=parts, lead=2, bearing=bearing)
    assert behind == pytest.approx(pull * factor**2, rel=1e-12)


def test_a_tackle_has_a_part():
    with pytest.raises(ValueError, match="at least one part"):
        tackle_pull(load=1.0, parts=0)
