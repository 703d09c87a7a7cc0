"""Concrete in yards, bags and pounds: common practice, worked figures in data/cost_checks.toml."""

import tomllib
from pathlib import Path

import pytest

from boomwright.cost import concrete_quantities

_DATA = tomllib.loads(
    (Path(__file__).parent / "data" / "cost_checks.toml").read_text(encoding="utf-8")
)
CHECKS = {check["id"]: check for check in _DATA["check"]}


def test_block_of_four_by_four_by_five_feet():
    yards, bags, pounds = CHECKS["concrete"]["expected"]
    block = concrete_quantities(volume=4 * 4 * 5 * 0.3048**3)
    assert block.cubic_yards == pytest.approx(yards, abs=5e-4)  # printed to three decimals
    assert block.bags == bags
    assert block.mass / 0.45359237 == pytest.approx(pounds, rel=1e-9)
