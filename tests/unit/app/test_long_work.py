"""What would take too long is refused from its counts, before any of it is computed."""

from __future__ import annotations

import pytest

from boomwright.base import SolverError
from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.study.computing import compute
from boomwright.study.feed import feed_plan
from boomwright.study.reach import reach_plan
from boomwright.study.tuning import tune_plan

_HEAD = """\
boomwright = 1
title = "Row"
site = {{ ground = "medium dry" }}
measured = {{ sweep = "antenna.s1p" }}
[[beam]]
name = "row"
band = ["14.0 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "{height}"
heading = "40 deg"
material = "6061-T6"
feed = {{ kind = "split", gap = "40 mm" }}
"""


def row(count, height="16 m"):
    elements = [
        f'[[beam.element]]\nrole = "{("reflector", "driven", "director")[min(number, 2)]}"\n'
        f'at = "{2 * number} m"\nhalf = [["25.4 mm", "1.83 m"], ["22.2 mm", "1.22 m"], '
        f'["19.05 mm", "{(2.35, 2.1, 1.75)[min(number, 2)]} m"]]\n'
        for number in range(count)
    ]
    return read_plan(_HEAD.format(height=height) + "".join(elements))


def no_file(*_words, **_named):
    raise AssertionError("nothing is read before the refusal")


@pytest.mark.parametrize(
    ("work", "asked"),
    [
        (lambda plan: compute(plan, points=2000), "at 2000 frequencies"),
        (feed_plan, "with match and line in the field"),
        (lambda plan: reach_plan(plan, files=no_file), "at sixty heights"),
        (lambda plan: tune_plan(plan, files=no_file), "fitted to what was measured"),
    ],
    ids=["compute", "feed", "reach", "tune"],
)
def test_a_hundred_elements_are_refused_where_they_take_too_long(work, asked):
    said = rf"100 elements {asked}: about \d+ s .* and 60 s is the limit; "
    with pytest.raises(SolverError, match=said):
        work(row(100))


def test_a_braid_down_a_mast_of_many_wavelengths_is_not_computed_and_that_is_said():
    result = feed_plan(row(3, height="1950 m"))
    said = [n.text for n in result.notices if n.code == "feed.braid-not-computed"]
    assert said
    assert all("limit" in write(text, system="us") for text in said)
