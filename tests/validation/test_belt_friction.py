"""Friction of a rope on a drum: the printed ratio of one turn, the others by the formula."""

import pytest
from check_values import expected_values

from boomwright.raising.tackle import capstan_ratio

CHECKS = expected_values("raising_checks.toml")


@pytest.mark.parametrize(
    ("name", "turns", "friction"),
    [("capstan_1_3", 1, 0.3), ("capstan_2_3", 2, 0.3), ("capstan_3_2", 3, 0.2)],
)
def test_turns_on_the_drum(name, turns, friction):
    found = capstan_ratio(turns=turns, friction=friction)
    assert found == pytest.approx(CHECKS[name], rel=1e-3)  # three or four digits printed
