"""Fixes for boom, mast and guys: the least that suffices, and the use after it as checked anew."""

from __future__ import annotations

import re

import pytest

from boomwright.base.quantity import write
from boomwright.plan import read_plan, rewrite
from boomwright.plan.resolve import structure_inputs
from boomwright.report.structure import structure_report
from boomwright.session.files import packaged_text
from boomwright.structure import check_structure
from boomwright.study import part_fixes as fixes
from boomwright.study.element_fixes import fix_offers, take_fix
from boomwright.study.structure import StructureCheck
from example_stations import station_text

DEMO = packaged_text("demo.toml")


SHORT = 'prices = { currency = "EUR", stock = ["2.4 m"] }\n'
WEAK = {
    "mast": station_text("10"),
    "boom of 20m": re.sub(
        r'(\[beam\.boom\][^\[]*?wall = )"[^"]*"', r'\1"0.7 mm"', station_text("04")
    ),
    # Its tubes are bought so short that the first ones meet on sleeves at the boom.
    "element joints of 20m": SHORT + station_text("08"),
    "guys at 8.0 m": station_text("08").replace("1/4 in EHS", "1/8 in EHS"),
}


def checked(text):
    plan = read_plan(text)
    return plan, check_structure(inputs=structure_inputs(plan))


def use_of(part, report):
    return max(line.use for line in report.ledger if line.part == part and line.use is not None)


@pytest.mark.parametrize("part", WEAK)
def test_the_fix_offered_is_the_least_that_suffices(part, monkeypatch):
    plan, report = checked(WEAK[part])
    assert use_of(part, report) > 1.0
    looked = []
    monkeypatch.setattr(
        fixes, "_tried", lambda *a, real=fixes._tried: looked.append(real(*a)) or looked[-1]
    )
    used = use_of(part, report)
    (fix,) = [fix for fix in fixes.part_fixes(plan, report) if fix.use_before == used]
    assert fix.suffices
    # Written into the plan and checked anew, it gives what was said.
    value = write(fix.value, system="metric")
    _, after = checked(rewrite(WEAK[part], {fix.place: value}))
    assert use_of(part, after) == pytest.approx(fix.use_after, rel=1e-9)
    assert fix.use_after <= 1.0
    # What is less was looked at, and does not do, or there is nothing less.
    less = [each.use_after for each in looked if each.use_after > fix.use_after]
    assert all(use > 1.0 for use in less)
    offered = structure_report(StructureCheck(plan=plan, report=report, part_fixes=(fix,))).offers
    assert "of its limit instead of" in write(offered[0].text, system="us")
    assert write(offered[0].text, system="us").endswith(", enough")


def test_the_first_fix_of_each_element_taken_leaves_none_past_its_limit():
    text = SHORT + station_text("06")
    _, report = checked(text)
    assert any("joints" in line.name for line in report.exceeded)
    for element in range(len(read_plan(text).beams[0].elements)):
        plan = read_plan(text)
        inputs = structure_inputs(plan)
        first, *_ = fix_offers(plan=plan, inputs=inputs, beam=0, element=element)
        assert first.use_before > 1.0
        assert first.use_after <= 1.0
        text = take_fix(text, first)
        _, report = checked(text)
        # What the fix says is what the plan gives, to the hundredth of a millimetre it is cut to.
        assert use_of(first.label, report) <= first.use_after + 1e-3
    assert [line.name for line in report.exceeded if "element" in line.name] == []


def test_a_sleeve_is_no_thicker_than_lets_another_joint_govern():
    plan, report = checked(SHORT + station_text("07"))
    (fix,) = fixes.part_fixes(plan, report)
    # 166 % with 44.4 x 3.2 mm, 114 % in the next joint: 1.46 times 44.4^4 - 38^4 is more than
    # 44.4^4 - 34.4^4, a wall of 5 mm, and less than 44.4^4 - 31.8^4, the next wall.
    assert write(fix.value, system="metric") == "6.30 mm"
    part = "element joints of 20m"
    assert not fix.suffices
    assert fix.use_after == pytest.approx(use_of(part, checked(station_text("07"))[1]), rel=1e-3)


def test_nothing_is_offered_for_what_holds():
    plan, report = checked(DEMO)
    assert not report.exceeded
    assert fixes.part_fixes(plan, report) == ()
