"""Traps of elements: read, refused with place and remedy, written back, said to be doubtful."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan, write_plan
from fakes.desk import PLAN

GOOD = (
    'traps = [{ at = "2.4 m", width = "4 in", inductance = "3 uH", capacitance = "19 pF", '
    "quality = 200 }]"
)


def trapped(line):
    return PLAN.replace('  role = "driven"\n', f'  role = "driven"\n  {line}\n')


def test_traps_are_read_in_si_and_written_back():
    plan = read_plan(trapped(GOOD))
    (trap,) = plan.beams[0].elements[1].traps
    assert (trap.place, trap.width) == (2.4, pytest.approx(0.1016))
    assert (trap.inductance, trap.capacitance) == (pytest.approx(3e-6), pytest.approx(19e-12))
    assert trap.quality == 200.0
    again = read_plan(write_plan(plan)).beams[0].elements
    assert again[1].traps == (trap,)
    assert again[0].traps == ()


def test_what_does_not_know_them_is_said():
    codes = [notice.code for notice in plan_notices(read_plan(trapped(GOOD)))]
    assert "plan.traps" in codes
    assert "plan.traps" not in [notice.code for notice in plan_notices(read_plan(PLAN))]


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('"2.4 m"', '"0.02 m"', "traps[0].at", "reaches to the boom"),
        ('"2.4 m"', '"5.6 m"', "traps[0].at", "beyond the tip"),
        ('"3 uH"', '"3 pF"', "traps[0].inductance", "inductance"),
        ("quality = 200", "quality = 0", "traps[0].quality", "1"),
        (', capacitance = "19 pF"', "", "traps[0].capacitance", "is missing in this trap"),
        ("quality", "q", "traps[0].q", ""),
    ],
)
def test_faults_name_place_and_remedy(old, new, path, words):
    with pytest.raises(PlanError) as caught:
        read_plan(trapped(GOOD.replace(old, new)))
    faults = {fault.path: fault for fault in caught.value.faults}
    fault = faults[f"beam[0].element[1].{path}"]
    assert words in f"{fault.message} {fault.remedy}"
    assert fault.remedy
