"""Day numbers against the calendar of the standard library."""

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.base.days import day_number


@given(day=st.dates())
def test_agrees_with_the_standard_library(day):
    assert day_number(day.isoformat()) == day.toordinal()


def test_first_day():
    assert day_number(datetime.date.min.isoformat()) == 1


@pytest.mark.parametrize(
    "text",
    [
        "",
        "today",
        "2026-1-31",
        "2026-02-29",
        "2100-02-29",
        "2026-13-01",
        "0000-01-01",
        "2026-04-31",
    ],
)
def test_what_is_not_a_day_is_refused(text):
    with pytest.raises(ValueError, match="write it as"):
        day_number(text)
