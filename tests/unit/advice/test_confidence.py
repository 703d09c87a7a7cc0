"""How sure a ranking is: what is shared moves together, what is not moves by itself."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from boomwright.study.advice.confidence import weigh
from boomwright.study.advice.variations import Variations


def station(gain: float, antenna: str, *lines: tuple[str, float], allowed: bool = True) -> Any:
    """A station whose every price is uncertain by a fifth."""
    likely = sum(amount for _, amount in lines)
    estimate = SimpleNamespace(
        lines=[
            SimpleNamespace(
                price=SimpleNamespace(item=item, unit="each"),
                amounts=SimpleNamespace(low=0.8 * amount, likely=amount, high=1.2 * amount),
            )
            for item, amount in lines
        ],
        total=SimpleNamespace(likely=likely),
        priced=SimpleNamespace(likely=likely),
    )
    return SimpleNamespace(
        station=SimpleNamespace(hung=[SimpleNamespace(shape=SimpleNamespace(name=antenna))]),
        served=SimpleNamespace(mean_db=gain),
        sums=estimate,
        cost=likely,
        allowed=allowed,
    )


def moves(ground: float = 0.0, built: float = 0.0, *, stands: bool = True) -> Variations:
    return Variations(ground_db=(-ground, ground), built_db=built, stands_open=stands)


def test_a_price_that_both_pay_decides_nothing() -> None:
    tower = ("tower", 1000.0)
    found = weigh([station(0.0, "a", tower), station(1.0, "b", tower, ("tube", 100.0))])
    assert found.cheaper(0, 1) == 1.0
    apart = weigh([station(0.0, "a", tower), station(1.0, "b", ("pole", 1050.0))])
    assert 0.55 < (apart.cheaper(0, 1) or 0.0) < 0.75
    assert found.cost.mean(axis=0) == pytest.approx([1000.0, 1100.0], rel=0.02)
    assert float(np.std(found.cost[:, 0])) == pytest.approx(100.0, rel=0.1)


def test_the_ground_is_under_both() -> None:
    """Two decibels apart: sure where the ground moves both alike, open where it moves one."""
    both = [station(2.0, "a"), station(0.0, "b")]
    alike = weigh(both, {0: moves(4.0), 1: moves(4.0)})
    assert alike.stronger(0, 1) == 1.0
    assert alike.spread_db(0) == pytest.approx(2.0, rel=0.1)
    one = weigh(both, {0: moves(4.0), 1: moves()})
    # The normal spread of 2 dB about 2 dB: 84 % above zero.
    assert one.stronger(0, 1) == pytest.approx(0.84, abs=0.05)


def test_one_antenna_is_cut_once_for_all_its_supports() -> None:
    cut = {0: moves(built=2.0), 1: moves(built=2.0), 2: moves(built=2.0)}
    found = weigh([station(1.0, "a"), station(0.5, "a"), station(0.5, "b")], cut)
    assert found.stronger(0, 1) == 1.0
    assert found.stronger(0, 2) < 0.8


def test_what_falls_in_more_open_land_is_not_sure() -> None:
    both = [station(1.0, "a"), station(0.0, "b")]
    found = weigh(both, {0: moves(stands=False), 1: moves()})
    assert found.strongest(0) == pytest.approx(0.8, abs=0.07)
    assert found.strongest(0) + found.strongest(1) == pytest.approx(1.0)
    assert weigh([station(1.0, "a", allowed=False)]).strongest(0) == 0.0


def test_the_same_seed_the_same_answer() -> None:
    both = [station(0.1, "a", ("x", 5.0)), station(0.0, "b", ("y", 5.0))]
    first, again = weigh(both), weigh(both)
    assert first.stronger(0, 1) == again.stronger(0, 1)
    assert first.cheaper(0, 1) == again.cheaper(0, 1)
