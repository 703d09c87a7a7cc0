"""Which candidates no other beats, and what is put forward as what."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from boomwright.study.advice.ranking import put_forward, unbeaten


def candidate(
    gain: float,
    cost: float | None,
    *,
    allowed: bool = True,
    checked: bool = True,
    full: bool = True,
) -> Any:
    return SimpleNamespace(
        served=SimpleNamespace(mean_dbi=gain),
        cost=cost,
        priced_in_full=full,
        allowed=allowed,
        checked=checked,
    )


CHEAP, MIDDLE, DEAR = candidate(0.0, 100.0), candidate(5.0, 400.0), candidate(6.0, 2000.0)


def picked(candidates: list[Any], **least: float) -> dict[int, tuple[str, ...]]:
    front = unbeaten(candidates)
    found = put_forward(candidates, front, dipole_dbi=0.0, **{"least_db": -3.0, **least})
    return {pick.number: pick.kinds for pick in found}


def test_dearer_and_weaker_is_beaten() -> None:
    assert unbeaten([MIDDLE, candidate(4.0, 500.0), CHEAP]) == (2, 0)


def test_alike_in_both_beat_each_other_not() -> None:
    assert set(unbeaten([MIDDLE, MIDDLE])) == {0, 1}


def test_costs_not_known_in_full_do_not_compare() -> None:
    assert len(unbeaten([MIDDLE, candidate(4.0, 500.0, full=False)])) == 2
    assert len(unbeaten([MIDDLE, candidate(4.0, None)])) == 2


def test_what_is_exceeded_is_neither_unbeaten_nor_beats() -> None:
    strong = candidate(9.0, 50.0, allowed=False)
    assert unbeaten([strong, CHEAP]) == (1,)
    assert picked([strong]) == {}


def test_cheapest_knee_and_best() -> None:
    assert picked([CHEAP, MIDDLE, DEAR]) == {
        0: ("cheapest that serves",),
        1: ("knee",),
        2: ("best that is allowed",),
    }


def test_other_wishes_other_reasons() -> None:
    """Who wants 4 dB over the dipole is told that the middle one is the cheapest that serves."""
    found = picked([CHEAP, MIDDLE, DEAR], least_db=4.0)
    assert found[1] == ("cheapest that serves", "knee")
    assert 0 not in found


def test_not_checked_is_never_called_best() -> None:
    open_ = candidate(8.0, 3000.0, checked=False)
    found = picked([CHEAP, MIDDLE, open_])
    assert "best that is allowed" in found[1]
    assert 2 not in found
    alone = picked([candidate(8.0, 3000.0, checked=False)])
    assert alone == {0: ("cheapest that serves", "strongest, checks open")}


def test_a_checked_station_is_best_even_where_an_open_one_beats_it() -> None:
    found = picked([candidate(8.0, 50.0, checked=False), MIDDLE])
    assert found[1] == ("best that is allowed",)


def test_the_figures_of_a_reason() -> None:
    candidates = [CHEAP, MIDDLE, DEAR]
    picks = put_forward(candidates, unbeaten(candidates), dipole_dbi=1.0, least_db=-3.0)
    best = picks[-1]
    assert best.over_dipole_db == pytest.approx(5.0)
    assert best.cheaper == 1
    assert best.over_cheaper_db == pytest.approx(1.0)
    assert best.dearer_by == pytest.approx(1600.0)
