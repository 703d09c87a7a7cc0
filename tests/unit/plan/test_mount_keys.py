"""Mounts and insulation: read, refused with place and remedy, written back, asked for."""

from __future__ import annotations

import pytest

from boomwright.base import PlanError
from boomwright.parts import Insulation, Mount
from boomwright.plan import plan_notices, read_plan, write_plan

PLAN = """\
boomwright = 1
title = "Three for 6 m"
[site]
ground = "free space"
[[beam]]
name = "6m"
band = ["50.0 MHz", "50.5 MHz"]
design = "50.2 MHz"
height = "10 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "20 mm" }
MOUNT
  [beam.boom]
  diameter = "51 mm"
  wall = "3 mm"
  length = "2.3 m"
  rear_end = "-0.1 m"
  material = "6063-T6"
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  diameter = "12.7 mm"
  length = "2.92 m"
  [[beam.element]]
  role = "driven"
  at = "0.9 m"
  diameter = "12.7 mm"
  length = "2.8 m"
  OWN
  [[beam.wire]]
  name = "tail"
  diameter = "1.6 mm"
  points = [[0, 0, -2], [1, 0, -2]]
  insulation = { thickness = "0.5 mm", permittivity = 3.5 }
"""
ABOVE = 'mount = { kind = "insulated above", clearance = "8 mm", plate = ["150 mm", "75 mm"] }'


def text(mount="", own=""):
    return PLAN.replace("MOUNT", mount).replace("OWN", own)


def elements(mount="", own=""):
    return read_plan(text(mount, own)).beams[0].elements


def codes(mount="", own=""):
    return [notice.code for notice in plan_notices(read_plan(text(mount, own)))]


def test_a_beam_says_it_for_its_elements_and_takes_the_boom():
    both = elements(ABOVE)
    wanted = Mount(
        kind="insulated above", boom=(0.051, 0.003), clearance=0.008, plate=(0.15, 0.075)
    )
    assert [each.mount for each in both] == [wanted, wanted]


def test_an_element_says_it_for_itself():
    own = 'mount = { kind = "insulated through", boom = ["2 in"], square = true, hole = "20 mm" }'
    reflector, driven = elements(ABOVE, own)
    assert reflector.mount.kind == "insulated above"
    assert driven.mount == Mount(
        kind="insulated through", boom=(pytest.approx(0.0508),), square=True, hole=0.02
    )
    assert elements(own=own)[0].mount is None


@pytest.mark.parametrize("own", ["", 'mount = { kind = "non-conducting boom" }'])
def test_written_back_it_is_the_same(own):
    insulation = 'insulation = { thickness = "0.8 mm", permittivity = 2.3 }'
    plan = read_plan(text(ABOVE, f"{own}\n  {insulation}"))
    again = read_plan(write_plan(plan))
    assert again.beams[0].elements == plan.beams[0].elements
    assert plan.beams[0].elements[1].insulation == Insulation(thickness=0.0008, permittivity=2.3)
    assert again.beams[0].wires[0].insulation == Insulation(thickness=0.0005, permittivity=3.5)


def test_unsaid_mounts_are_asked_for_where_they_matter():
    assert "plan.mount-unsaid" in codes()
    assert "plan.mount-unsaid" not in codes(ABOVE)
    assert "plan.mount-unsaid" not in codes('mount = { kind = "non-conducting boom" }')
    # One element that says it leaves the other one open.
    assert "plan.mount-unsaid" in codes(own=ABOVE)
    low = text().replace("50.", "5.").replace("2.92 m", "29.2 m").replace("2.8 m", "28 m")
    assert "plan.mount-unsaid" not in [notice.code for notice in plan_notices(read_plan(low))]


def test_the_question_says_how_much_is_at_stake():
    (notice,) = (each for each in plan_notices(read_plan(text())) if "mount" in each.code)
    assert notice.severity == "doubt"
    assert "51 mm (2.01 in)" in notice.text
    assert "22 mm" in notice.text
    assert "non-conducting boom" in notice.text


@pytest.mark.parametrize(
    ("mount", "own", "path", "words"),
    [
        (ABOVE.replace("insulated above", "hung"), "", "mount.kind", "insulated above"),
        (ABOVE.replace("insulated above", "bonded through"), "", "mount.clearance", "has no"),
        (ABOVE.replace("8 mm", "-8 mm"), "", "mount.clearance", "0"),
        (ABOVE.replace('"75 mm"]', '"75 mm", "9 mm"]'), "", "mount.clearance", "thicker than"),
        (ABOVE.replace("insulated", "bonded"), "", "mount.kind", "short-circuited"),
        ("", 'mount = { kind = "bonded above", clamp = ["60 mm", "9 mm"] }', "mount.clamp[1]",
         "thinner than the element"),
        ("", 'mount = { kind = "insulated through", hole = "12 mm" }', "mount.hole", "wider than"),
        ("", 'mount = { kind = "insulated through", boom = ["12.5 mm"] }', "mount.kind",
         "as thick as the boom"),
        ("", 'mount = { kind = "insulated above", boom = ["50 mm", "26 mm"] }', "mount.boom[1]",
         "wall"),
        ("", 'mount = { kind = "non-conducting boom", boom = ["50 mm"] }', "mount.boom", "has no"),
        ("", 'insulation = { thickness = "1 mm", permittivity = 0.5 }',
         "insulation.permittivity", "1"),
        ("", 'insulation = { thickness = "1 mm" }', "insulation.permittivity", "missing"),
    ],
)  # fmt: skip
def test_faults_name_place_and_remedy(mount, own, path, words):
    with pytest.raises(PlanError) as caught:
        read_plan(text(mount, own))
    where = "beam[0]." if mount else "beam[0].element[1]."
    found = {fault.path: f"{fault.message} {fault.remedy}" for fault in caught.value.faults}
    assert where + path in found
    assert words in found[where + path]


def test_a_mount_needs_a_boom():
    plan = text(ABOVE)
    low, high = plan.index("  [beam.boom]"), plan.index("  [[beam.element]]")
    with pytest.raises(PlanError) as caught:
        read_plan(plan[:low] + plan[high:])
    (fault,) = caught.value.faults
    assert fault.path == "beam[0].mount.boom"
    assert "how thick the boom is" in fault.message


def test_insulation_is_for_wire_of_one_diameter():
    half = 'half = [["12.7 mm", "1 m"], ["9.5 mm", "0.4 m"]]'
    plan = text(own='insulation = { thickness = "1 mm", permittivity = 2.3 }').replace(
        'at = "0.9 m"\n  diameter = "12.7 mm"\n  length = "2.8 m"', f'at = "0.9 m"\n  {half}'
    )
    with pytest.raises(PlanError) as caught:
        read_plan(plan)
    assert [fault.path for fault in caught.value.faults] == ["beam[0].element[1].insulation"]
