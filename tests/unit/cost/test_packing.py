"""Cutting plans: real plans, proven bounds, checked against exhaustive search on small lists."""

import functools

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from boomwright.cost.packing import pack

STOCKS = ((3.6576,), (1.8288, 3.6576), (6.0,), (2.0, 3.0, 6.0))


def check_plan(packing, pieces, stock_lengths, kerf):
    cut = sorted(piece for bar in packing.bars for piece in bar.cuts)
    assert cut == sorted(pieces)
    for bar in packing.bars:
        assert bar.stock_length in stock_lengths
        # n pieces need n - 1 saw cuts when the last one ends with the bar
        used = sum(bar.cuts) + (len(bar.cuts) - 1) * kerf
        assert used <= bar.stock_length + 1e-9
    assert packing.bought == pytest.approx(sum(bar.stock_length for bar in packing.bars), rel=1e-12)
    assert packing.needed == pytest.approx(sum(pieces), rel=1e-12)
    assert packing.lower_bound >= sum(pieces) - 1e-3
    assert packing.lower_bound <= packing.bought + 1e-9


@pytest.mark.parametrize("seed", range(50))
def test_fifty_random_lists_stay_within_three_per_cent_of_the_bound(seed):
    rng = np.random.default_rng(1000 + seed)
    count = int(rng.integers(5, 80))
    kinds = int(rng.integers(2, min(count, 25) + 1))
    lengths = rng.uniform(0.3, 3.5, kinds).round(3)
    pieces = tuple(float(length) for length in rng.choice(lengths, count))
    stock = STOCKS[seed % len(STOCKS)]
    packing = pack(pieces, stock_lengths=stock, kerf=0.003)
    check_plan(packing, pieces, stock, 0.003)
    assert packing.over_bound <= 0.03


def exhaustive(pieces, stock_lengths, kerf):
    """Least bought length by trying every subset for every bar: small lists only."""
    full = (1 << len(pieces)) - 1

    def price(subset):
        chosen = [pieces[i] for i in range(len(pieces)) if subset >> i & 1]
        used = sum(chosen) + (len(chosen) - 1) * kerf
        return min((s for s in stock_lengths if used <= s + 1e-9), default=None)

    prices = {subset: price(subset) for subset in range(1, full + 1)}

    @functools.cache
    def least(left):
        if left == 0:
            return 0.0
        first = left & -left
        best = float("inf")
        subset = left
        while subset:
            if subset & first and prices[subset] is not None:
                best = min(best, prices[subset] + least(left ^ subset))
            subset = (subset - 1) & left
        return best

    return least(full)


@settings(max_examples=40, deadline=None)
@given(
    pieces=st.lists(st.integers(300, 1999), min_size=1, max_size=8),
    stock=st.sampled_from([(2.0,), (2.0, 3.0), (2.5, 4.0, 6.0)]),
)
def test_bound_and_plan_against_exhaustive_search(pieces, stock):
    lengths = tuple(piece / 1000.0 for piece in pieces)
    best = exhaustive(lengths, stock, 0.003)
    packing = pack(lengths, stock_lengths=stock, kerf=0.003)
    check_plan(packing, lengths, stock, 0.003)
    assert packing.lower_bound <= best + 1e-6
    assert packing.bought == pytest.approx(best, rel=1e-6)


def test_textbook_case_where_first_fit_fails():
    # 6, 5, 5, 4, 4, 3, 3 into 10: first fit decreasing takes 4 bars, three are enough
    pieces = (0.6, 0.5, 0.5, 0.4, 0.4, 0.3, 0.3)
    packing = pack(pieces, stock_lengths=(1.0,), kerf=0.0)
    assert len(packing.bars) == 3
    assert packing.over_bound == 0.0


def test_pieces_as_long_as_the_stock():
    packing = pack((1.8288, 1.8288, 3.6576), stock_lengths=(1.8288, 3.6576), kerf=0.003)
    assert sorted(bar.stock_length for bar in packing.bars) == [1.8288, 1.8288, 3.6576]
    assert all(bar.rest == 0.0 for bar in packing.bars)


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ({"pieces": (3.7,), "stock_lengths": (3.6,)}, "does not fit in stock"),
        ({"pieces": (0.0,), "stock_lengths": (3.6,)}, "does not fit in stock"),
        ({"pieces": (1.0,), "stock_lengths": ()}, "must be above 0"),
        ({"pieces": (1.0,), "stock_lengths": (2.0,), "kerf": -0.1}, "must be above 0"),
    ],
)
def test_bad_input_says_what_to_do(arguments, message):
    pieces = arguments.pop("pieces")
    with pytest.raises(ValueError, match=message):
        pack(pieces, **arguments)


def test_nothing_to_cut():
    assert pack((), stock_lengths=(2.0,)).bars == ()
