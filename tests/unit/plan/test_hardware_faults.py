"""Plates and rods of an owner that are too short for their holes and clamps are faults."""

from __future__ import annotations

import re

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan
from boomwright.plan.shapes import shape_plan
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
    assert "113 mm or more" in metric(fault.remedy)
    assert "u_bolt" in metric(fault.remedy)
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
    assert "or more here" in metric(fault.remedy)


def test_a_rod_that_ends_before_the_u_bolts():
    found = faults(with_hardware('insulating_rod = "60 mm"'))
    ((path, fault),) = found.items()
    assert path == "beam[0].boom.hardware.insulating_rod"
    assert "ends before the U-bolts" in fault.message
    longest = float(re.search(r"write ([\d.]+) mm", fault.remedy)[1])
    read_plan(with_hardware(f'insulating_rod = "{longest} mm"'))


@pytest.mark.parametrize(
    ("keys", "path", "words"),
    [
        ('mast_clamp = "76 mm"', "mast_clamp", "do not grip a mast of 60.3 mm"),
        ('boom_clamp = "60 mm"', "boom_clamp", "do not grip a boom of 51 mm"),
        ('shell = "40 mm"', "shell", "there is room for a thickness of 15.88 mm"),
        ('element_plate = ["200 mm", "200 mm", "40 mm"]', "element_plate[2]", "there is room"),
        ('mast_plate = ["200 mm", "200 mm", "200 mm"]', "mast_plate[2]", "of 50 mm"),
        ('u_bolt = "45 mm"', "u_bolt", "at most"),
        ('sleeve = ["20 mm", "3 mm", "500 mm"]', "sleeve[0]", "loose"),
    ],
)
def test_hardware_that_neither_holds_nor_fits(keys, path, words):
    ((place, fault),) = faults(with_hardware(keys)).items()
    assert place == f"beam[0].boom.hardware.{path}"
    assert words in fault.message
    assert fault.remedy


@pytest.mark.parametrize(
    ("old", "new", "path"),
    [
        ('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  joints = ["6.05 m"]', "boom.joints[0]"),
        ('diameter = "51 mm"', 'diameter = "51 in"', "boom.diameter"),
        ('rod_spacing = "80 mm"', 'rod_spacing = "35 mm"', "feed.rod_spacing"),
    ],
)
def test_a_joint_at_the_end_a_boom_in_inches_and_rods_in_the_gap(old, new, path):
    assert f"beam[0].{path}" in faults(DEMO.replace(old, new))


def test_a_plate_beyond_the_boom_and_a_truss_from_the_air_are_found():
    tie = 'tie = { share = 0.6, rise = "0.9 m", area = "12 mm2", elastic_modulus = "100 GPa" }'
    text = DEMO.replace('length = "6.2 m"', f'length = "6.12 m"\n  {tie}')
    found = {finding.name: finding for finding in clash_findings(read_plan(text))}
    assert found["20m: director 1 beyond the end of the boom"].verdict == "exceeded"
    # The mast of the demo ends 0.4 m above its boom.
    truss = found["20m: upper end of the boom truss"]
    assert truss.verdict == "ask"
    assert "500 mm" in metric(truss.reason)
    short = text.replace("0.9 m", "0.02 m")
    assert "beam[0].boom.tie.rise" in faults(short)


SECTIONS = re.compile(r"sections = .*")


@pytest.mark.parametrize(
    ("rows", "path", "words"),
    [
        (((42, 3.0), (33, 3.0), (25, 3.0)), "", "5.785 m beyond their last point"),
        (((42, 1.1), (40, 1.1), (30, 1.1)), "[1][0]", "does not go into the bore"),
        (((42, 1.1), (12, 1.1), (6, 1.1)), "[1][0]", "loose in the bore"),
    ],
)
def test_spreaders_that_do_not_fit(rows, path, words):
    written = ", ".join(f'["{size} mm", "{long} m", "2.5 mm"]' for size, long in rows)
    text = SECTIONS.sub(f"sections = [{written}]", shape_plan("hexagon", band="20 m"))
    fault = faults(text)[f"beam[0].frame.spreader.sections{path}"]
    assert words in fault.message


def test_a_spreader_that_slides_through_a_short_section_is_found():
    rows = '["42 mm", "0.05 m", "2.5 mm"], ["33 mm", "2.2 m", "2.5 mm"], ["25 mm", "1 m", "2.5 mm"]'
    text = SECTIONS.sub(f"sections = [{rows}]", shape_plan("hexagon", band="20 m"))
    found = [each for each in clash_findings(read_plan(text)) if each.verdict == "exceeded"]
    assert len(found) == 3
    assert all("a tube that is 50 mm long" in metric(each.reason) for each in found)
