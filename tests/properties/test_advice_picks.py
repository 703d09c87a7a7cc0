"""What is put forward, whatever the stations: nothing broken, nothing unchecked called best."""

from __future__ import annotations

import os
from types import SimpleNamespace
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from boomwright.study.advice.ranking import Pick, near_front, put_forward, unbeaten

_COUNT = int(os.environ.get("BOOMWRIGHT_PLANS", "200"))


def _station(figures: tuple[float, float | None, bool, bool, bool]) -> Any:
    gain, cost, allowed, checked, in_full = figures
    return SimpleNamespace(
        served=SimpleNamespace(mean_db=gain),
        cost=cost,
        priced_in_full=cost is not None and in_full,
        allowed=allowed,
        checked=allowed and checked,
        could_be_checked=allowed and checked,
    )


STATIONS = st.lists(
    st.tuples(
        st.integers(-20, 20).map(lambda n: n / 2.0),
        st.one_of(st.none(), st.integers(1, 40).map(lambda n: 50.0 * n)),
        st.booleans(),
        st.booleans(),
        st.booleans(),
    ).map(_station),
    max_size=12,
)
LEAST = st.integers(-12, 12).map(lambda n: n / 2.0)


def _picks(stations: list[Any], least: float) -> tuple[Pick, ...]:
    return put_forward(stations, unbeaten(stations), least_db=least)


@settings(max_examples=_COUNT, deadline=None)
@given(stations=STATIONS, least=LEAST)
def test_nothing_broken_and_nothing_unchecked_as_best(stations: list[Any], least: float) -> None:
    picks = _picks(stations, least)
    assert len(picks) <= 3
    assert bool(picks) == any(each.allowed for each in stations)
    for pick in picks:
        one = stations[pick.number]
        assert one.allowed
        assert pick.checked == one.checked
        if "best that is allowed" in pick.kinds:
            assert one.checked
            rivals = [each for each in stations if each.allowed and each.checked]
            assert one.served.mean_db == max(each.served.mean_db for each in rivals)
        if "cheapest that serves" in pick.kinds:
            assert one.priced_in_full
            assert one.served.mean_db >= least
            assert one.cost == min(
                each.cost
                for each in stations
                if each.allowed and each.priced_in_full and each.served.mean_db >= least
            )
    named = [kind for pick in picks for kind in pick.kinds]
    assert len(named) == len(set(named))


@settings(max_examples=_COUNT, deadline=None)
@given(stations=STATIONS, least=LEAST, more=st.integers(1, 8))
def test_who_asks_for_more_is_never_sent_to_a_cheaper_one(
    stations: list[Any], least: float, more: int
) -> None:
    def cheapest(wish: float) -> Any:
        picks = _picks(stations, wish)
        found = [stations[pick.number] for pick in picks if "cheapest that serves" in pick.kinds]
        return found[0] if found else None

    modest, demanding = cheapest(least), cheapest(least + more)
    if demanding is not None:
        assert modest is not None
        assert modest.cost <= demanding.cost


@settings(max_examples=_COUNT, deadline=None)
@given(stations=STATIONS, least=LEAST)
def test_nothing_is_put_forward_that_is_not_looked_at_closely(
    stations: list[Any], least: float
) -> None:
    near = near_front(stations, least_db=least)
    assert {pick.number for pick in _picks(stations, least)} <= set(near)
