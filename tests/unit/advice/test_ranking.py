"""Which candidates no other beats, and what is put forward as what."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from boomwright.study.advice.ranking import compared, near_front, put_forward, unbeaten


def candidate(
    gain: float,
    cost: float | None,
    *,
    allowed: bool = True,
    checked: bool = True,
    estimate: bool = False,
    full: bool = True,
    height: float = 10.0,
    elements: int = 0,
) -> Any:
    hung = (SimpleNamespace(shape=SimpleNamespace(elements=elements), bands=("20 m",)),)
    support = SimpleNamespace(kind="tower")
    return SimpleNamespace(
        station=SimpleNamespace(hung=hung, support=support, owned="", height=height),
        served=SimpleNamespace(mean_db=gain),
        cost=cost,
        priced_in_full=full,
        allowed=allowed,
        checked=checked and not estimate,
        could_be_checked=checked,
    )


CHEAP, MIDDLE, DEAR = candidate(0.0, 100.0), candidate(5.0, 400.0), candidate(6.0, 2000.0)


def picked(candidates: list[Any], **least: float) -> dict[int, tuple[str, ...]]:
    front = unbeaten(candidates)
    found = put_forward(candidates, front, **{"least_db": -3.0, **least})
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


def test_an_estimate_is_never_called_best_but_computed() -> None:
    """One that an open check holds back is stronger; the estimate could still be the best."""
    strong = candidate(8.0, None, full=False, checked=False)
    estimate = candidate(6.0, None, full=False, estimate=True)
    found = [CHEAP, estimate, strong]
    assert picked(found) == {0: ("cheapest that serves", "best that is allowed")}
    assert 1 in near_front(found, least_db=-3.0)


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


def test_each_beside_the_best_cheaper_one() -> None:
    candidates = [CHEAP, MIDDLE, DEAR]
    beside = compared(candidates, unbeaten(candidates))
    assert beside[0].cheaper is None
    step = beside[2].cheaper
    assert step is not None
    assert step.number == 1
    assert step.gain_db == pytest.approx(1.0)
    assert step.s_units == pytest.approx(1.0 / 6.0)
    assert step.dearer_by == pytest.approx(1600.0)


def test_what_a_metre_and_an_element_bring() -> None:
    candidates = [
        candidate(0.0, 100.0, height=8.0, elements=2),
        candidate(3.0, 160.0, height=10.0, elements=2),
        candidate(5.0, 300.0, height=10.0, elements=3),
    ]
    low, high, longer = compared(candidates, unbeaten(candidates))
    assert low.metre_db == pytest.approx(1.5)
    assert low.metre_cost == pytest.approx(30.0)
    assert high.metre_db == pytest.approx(1.5)
    assert longer.metre_db is None
    assert low.element is None
    assert high.element is not None
    assert (high.element.number, high.element.gain_db) == (2, pytest.approx(2.0))
    assert high.element.dearer_by == pytest.approx(140.0)


def test_without_a_bend_one_between_is_shown() -> None:
    """Money that brings more at its end than at its start: no knee, but something between."""
    steep = [candidate(0.0, 100.0), candidate(3.0, 600.0), candidate(9.0, 1000.0)]
    assert picked(steep)[1] == ("between",)
    # What costs nearly as much as the strongest is no choice beside it.
    assert len(picked([steep[0], candidate(3.0, 980.0), steep[2]])) == 2
    assert picked([CHEAP, MIDDLE, DEAR])[1] == ("knee",)
