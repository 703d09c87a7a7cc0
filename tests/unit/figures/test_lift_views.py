"""Pictures of the lift: guys, anchors, boundary and ways to scale; the lying support."""

from __future__ import annotations

import dataclasses
import math
from itertools import pairwise
from xml.etree import ElementTree as ET

import pytest
from svg_reading import cut_off, overlaps, parsed

from boomwright.charts.lift_views import lift_ground_view, lift_side_view
from boomwright.raising import Crew, plan_lift
from fakes.lift_jobs import GUYS, JOB, STREET, TILT, TRUCK, YES, changed

GUYED = changed(
    guys=(dataclasses.replace(GUYS[0], first_azimuth=math.radians(90.0)),),
    clear_of_guys=YES,
    boundary=25.0,
    walkway=200.0,
    power_lines=(STREET,),
)


def drawn(svg: str) -> tuple[ET.Element, float, float, float]:
    """Root, scale, and where the foot stands."""
    root = parsed(svg)
    scale, x, y = (float(root.attrib[f"data-{key}"]) for key in ("scale", "origin-x", "origin-y"))
    return root, scale, x, y


def parts(root: ET.Element, name: str) -> list[ET.Element]:
    return [each for each in root.iter() if each.attrib.get("data-part") == name]


def test_anchors_stand_where_the_plan_puts_them() -> None:
    root, scale, x, y = drawn(lift_ground_view(plan_lift(GUYED)))
    anchors = parts(root, "anchor")
    assert len(anchors) == len(parts(root, "guy")) == 3
    found = [
        (float(each.attrib["x"]) + 3.0 - x, y - float(each.attrib["y"]) - 3.0) for each in anchors
    ]
    # East, then a third of a turn clockwise each, 11 m out, north up.
    for place, degrees in zip(found, (90.0, 210.0, 330.0), strict=True):
        bearing = math.radians(degrees)
        expected = (11.0 * scale * math.sin(bearing), 11.0 * scale * math.cos(bearing))
        assert place == pytest.approx(expected, abs=0.01)


def test_boundary_is_drawn_to_scale_and_a_far_way_stands_in_the_key() -> None:
    svg = lift_ground_view(plan_lift(GUYED))
    root, scale, _, _ = drawn(svg)
    (circle,) = parts(root, "boundary")
    assert float(circle.attrib["r"]) == pytest.approx(25.0 * scale, rel=1e-4)
    assert parts(root, "way") == []
    assert "public way: outside the picture" in svg
    assert "boundary: at this distance" in svg


def test_hung_wire_is_drawn_as_it_hangs_without_a_support_that_is_not_there() -> None:
    """A loop between trees, seen from behind: its corners, and no pole in its middle."""
    wire = ((0.0, 17.0), (3.0, 10.0), (-3.0, 10.0), (0.0, 17.0))
    load = dataclasses.replace(JOB.load, hung=True, seen=(wire,))
    job = changed(load=load, stands=False, tower_height=17.0, lift_height=17.0)
    root, scale, x, y = drawn(lift_side_view(plan_lift(job)))
    assert not parts(root, "support")
    assert not parts(root, "mast")
    found = [
        tuple(float(each.attrib[key]) for key in ("x1", "y1", "x2", "y2"))
        for each in parts(root, "beam")
    ]
    expected = [
        (x + a * scale, y - b * scale, x + c * scale, y - d * scale)
        for (a, b), (c, d) in pairwise(wire)
    ]
    for each, wanted in zip(found, expected, strict=True):
        assert each == pytest.approx(wanted, abs=0.01)


def test_the_side_view_marks_guys_and_boundary() -> None:
    root, scale, x, y = drawn(lift_side_view(plan_lift(GUYED)))
    guys = parts(root, "guy")
    ends = {round((float(each.attrib["x2"]) - x) / scale, 2) for each in guys}
    assert ends == {-11.0, 11.0}
    for each in guys:
        assert float(each.attrib["y1"]) == pytest.approx(y - 14.0 * scale, abs=0.01)
    (mark,) = parts(root, "boundary")
    assert float(mark.attrib["x1"]) == pytest.approx(x + 25.0 * scale, abs=0.01)


def test_the_lying_support_and_its_lines() -> None:
    root, scale, x, y = drawn(lift_side_view(plan_lift(changed(tilt=TILT))))
    (lying,) = parts(root, "lying")
    assert float(lying.attrib["x2"]) == pytest.approx(x - 12.0 * scale, abs=0.01)
    (winch,) = parts(root, "winch-line")
    assert float(winch.attrib["y1"]) == pytest.approx(y - 4.0 * scale, abs=0.01)
    assert float(winch.attrib["x2"]) == pytest.approx(x + 9.0 * scale, abs=0.01)
    assert len(parts(root, "hold-back")) == 1
    # The whole picture stays on the sheet.
    assert x - 12.0 * scale > 0.0


def test_without_guys_and_tilt_nothing_of_them_is_drawn() -> None:
    plan = plan_lift(JOB)
    for svg in (lift_ground_view(plan), lift_side_view(plan)):
        root = parsed(svg)
        assert not any(parts(root, name) for name in ("guy", "anchor", "lying", "hold-back"))


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize(
    "job",
    [JOB, GUYED, changed(tilt=TILT), changed(guys=GUYS, boundary=23.0, walkway=26.0)],
)
def test_labels_stay_apart_and_on_the_sheet(job, system) -> None:
    plan = plan_lift(job)
    for draw in (lift_ground_view, lift_side_view):
        svg = draw(plan, system=system)
        assert overlaps(svg) == []
        assert cut_off(svg) == []


def test_machine_load_and_people_stand_on_the_ground_to_scale() -> None:
    truck = dataclasses.replace(TRUCK, needed_outreach=7.0, bearing=math.radians(60.0))
    plan = plan_lift(
        changed(lift_truck=truck, guys=GUYS, clear_of_guys=YES, level_access=YES,
                crew=Crew(ground=6))
    )  # fmt: skip
    root, scale, x, y = drawn(lift_ground_view(plan))
    (machine,) = parts(root, "machine")
    found = [float(machine.attrib[key]) + 5.0 for key in ("x", "y")]
    expected = (x + 7.0 * scale * math.sin(truck.bearing), y - 7.0 * scale * 0.5)
    assert found == pytest.approx(expected, abs=0.05)
    assert len(parts(root, "load")) == 3
    assert len(parts(root, "person")) == 4
    (nobody,) = parts(root, "nobody")
    assert nobody.tag.endswith("path")
    assert overlaps(lift_ground_view(plan)) == []
    side = parsed(lift_side_view(plan))
    assert len(parts(side, "way-up")) == len(parts(side, "way-in")) == 1
