"""Ticks, scales, numbers, escaping and the placing of labels, over random inputs too."""

from __future__ import annotations

import math
from itertools import pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.charts.canvas import escape, number, path_data, tag
from boomwright.charts.labels import Box, first_free, shortened, spread, text_box, text_width
from boomwright.charts.scale import (
    LinearScale,
    nice_bounds,
    nice_step,
    nice_ticks,
    signed,
    tick_text,
)

finite = st.floats(min_value=-1e9, max_value=1e9, allow_nan=False)
spans = st.floats(min_value=1e-6, max_value=1e9)
counts = st.integers(min_value=2, max_value=12)


@given(span=spans, count=counts)
def test_steps_are_one_two_or_five(span: float, count: int) -> None:
    step = nice_step(span=span, count=count)
    mantissa = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    assert min(abs(mantissa - wanted) for wanted in (1.0, 2.0, 5.0)) < 1e-6
    assert span / step <= count * (1.0 + 1e-6)
    assert span / step > count / 2.6


@given(low=st.floats(-1e6, 1e6), span=st.floats(1e-3, 1e6), count=counts)
def test_ticks_lie_inside_and_rise_evenly(low: float, span: float, count: int) -> None:
    high = low + span
    ticks = nice_ticks(low=low, high=high, count=count)
    slack = 1e-6 * max(span, abs(low), 1.0)
    assert all(low - slack <= tick <= high + slack for tick in ticks)
    assert len(ticks) <= count + 1
    gaps = np.diff(ticks)
    if len(gaps):
        assert gaps.min() > 0.0
        np.testing.assert_allclose(gaps, gaps[0], rtol=1e-6, atol=1e-9)


@given(low=st.floats(-1e6, 1e6), span=st.floats(0.0, 1e6), count=counts)
def test_bounds_hold_the_values(low: float, span: float, count: int) -> None:
    lower, upper = nice_bounds(low=low, high=low + span, count=count)
    slack = 1e-6 * max(span, abs(low), 1.0)
    assert lower < upper
    assert lower <= low + slack
    assert upper >= low + span - slack


def test_known_ticks() -> None:
    assert nice_ticks(low=0.0, high=1.0, count=5) == (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
    assert nice_ticks(low=-3.0, high=12.0, count=4) == (0.0, 5.0, 10.0)
    assert nice_ticks(low=13.99, high=14.36, count=5) == (14.0, 14.1, 14.2, 14.3)
    assert tick_text(-0.5, step=0.5) == "−0.5"
    assert tick_text(20.0, step=10.0) == "20"
    assert signed(-0.04, decimals=1) == "0.0"


@given(value=st.floats(-1e6, 1e6))
def test_scale_goes_there_and_back(value: float) -> None:
    scale = LinearScale(low=-1e6, high=1e6, start=10.0, end=510.0)
    place = scale(value)
    assert place == pytest.approx(float(scale.places([value])[0]), abs=1e-9)
    assert -1e6 + (place - 10.0) / 500.0 * 2e6 == pytest.approx(value, abs=1e-6)


@given(value=finite, decimals=st.integers(0, 6))
def test_numbers_are_plain_decimals(value: float, decimals: int) -> None:
    written = number(value, decimals=decimals)
    assert "e" not in written
    assert written != "-0"
    assert float(written) == pytest.approx(value, abs=0.51 * 10.0**-decimals + 1e-6)


def test_numbers_without_end_are_refused() -> None:
    for value in (math.nan, math.inf, -math.inf):
        with pytest.raises(ValueError, match="cannot hold"):
            number(value)
    with pytest.raises(ValueError, match="not finite"):
        path_data([0.0, math.nan], [0.0, 1.0])


@given(content=st.text())
def test_any_text_survives_as_text_and_attribute(content: str) -> None:
    drawn = tag("text", escape(content), data_label=content)
    parsed = ElementTree.fromstring(drawn)  # noqa: S314 - made a line above
    assert len(parsed) == 0
    assert set(parsed.attrib) == {"data-label"}
    allowed = [c for c in content if c in "\t\n\r" or (c >= " " and not "\ud800" <= c <= "\udfff")]
    plain = "".join(c for c in allowed if c not in "\ufffe\uffff\r\n\t")
    kept = [c for c in (parsed.text or "") if c not in "\ufffd\r\n\t"]
    assert "".join(kept) == plain.replace("\ufffd", "")


@given(centres=st.lists(st.floats(0.0, 800.0), max_size=14), room=st.floats(0.5, 40.0))
def test_spread_keeps_order_and_room(centres: list[float], room: float) -> None:
    wished = sorted(centres)
    placed = spread(wished, room=room)
    assert len(placed) == len(wished)
    assert all(b - a >= room - 1e-9 for a, b in pairwise(placed))
    assert sum(placed) == pytest.approx(sum(wished), abs=1e-6)
    again = spread(placed, room=room)
    assert again == pytest.approx(placed, abs=1e-6)


def test_spread_leaves_what_is_free_alone() -> None:
    assert spread([0.0, 20.0, 60.0], room=12.0) == (0.0, 20.0, 60.0)
    assert spread([0.0, 0.0], room=12.0) == (-6.0, 6.0)


def test_labels_avoid_what_is_taken() -> None:
    area = Box(left=0.0, top=0.0, right=100.0, bottom=100.0)
    taken = [text_box(50.0, 50.0, "first", size=10.0, anchor="middle")]
    tries = [(50.0, 52.0, "middle"), (50.0, 65.0, "middle")]
    assert first_free(tries, "label", size=10.0, taken=taken, area=area)[1] == 65.0
    assert first_free(tries[:1], "label", size=10.0, taken=taken, area=area) is None
    curve = np.array([[50.0], [65.0]])
    assert first_free(tries, "label", size=10.0, taken=taken, area=area, points=curve) is None


def test_shortened_text_fits() -> None:
    long = "a name that goes on and on"
    assert shortened(long, size=10.0, room=1000.0) == long
    cut = shortened(long, size=10.0, room=60.0)
    assert cut.endswith("...")
    assert text_width(cut, size=10.0) <= 60.0
