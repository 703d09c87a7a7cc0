"""Plates and rods of an owner that are too short for their holes and clamps are faults."""

from __future__ import annotations

import re

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan
from boomwright.session.files import packaged_text
from boomwright.study.clashes import clash_findings
from written import metric

DEMO = packaged_text("demo.toml")


def with_hardware(keys):
    return DEMO.replace("  fitting = [", f"  hardware = {{ {keys} }}\n  fitting = [")


def faults(text):
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    return {fault.path: fault for fault in caught.value.faults}


def test_an_element_plate_smaller_than_its_holes():
    # By hand: bolts of 8 mm round tube and shells of 37.75 mm, legs 45.75 mm apart; beside them,
    # 20 mm further out, those of the boom: 43 mm, in holes of 9 mm with 13.5 mm of metal.
    found = faults(with_hardware('element_plate = ["170 mm", "110 mm", "6 mm"]'))
    ((path, fault),) = found.items()
    assert path == "beam[0].boom.hardware.element_plate[1]"
    assert "holes of 9 mm" in fault.message
    assert "U-bolts round the boom" in fault.message
    assert "element plate" in fault.message
    assert "12 mm from its edge" in fault.message
    assert "113 mm or more" in fault.remedy
    assert "u_bolt" in fault.remedy
    read_plan(with_hardware('element_plate = ["170 mm", "113 mm", "6 mm"]'))


def test_a_plate_of_one_element_that_ends_inside_its_holes_is_not_built_from():
    # It tells what the field does there, so the plan is computed; its drawing is held up.
    own = 'mount = { kind = "insulated above", clearance = "16 mm", plate = ["70 mm", "130 mm"] }'
    plan = read_plan(DEMO.replace('at = "6.00 m"', f'at = "6.00 m"\n  {own}'))
    (finding,) = clash_findings(plan)
    assert finding.name == "20m: director 1, element plate too short for its holes"
    assert (finding.verdict, finding.holds_up) == ("exceeded", True)
    assert "163 mm" in metric(finding.reason)


def test_a_mast_plate_too_short_for_its_bolts():
    found = faults(with_hardware('mast_plate = ["120 mm", "190 mm", "10 mm"]'))
    ((path, fault),) = found.items()
    assert path == "beam[0].boom.hardware.mast_plate[0]"
    assert "mast plate is too short" in fault.message
    assert "or more here" in fault.remedy


def test_a_rod_that_ends_before_the_u_bolts():
    found = faults(with_hardware('insulating_rod = "60 mm"'))
    ((path, fault),) = found.items()
    assert path == "beam[0].boom.hardware.insulating_rod"
    assert "ends before the U-bolts" in fault.message
    longest = float(re.search(r"write ([\d.]+) mm", fault.remedy)[1])
    read_plan(with_hardware(f'insulating_rod = "{longest} mm"'))
