"""The plan view is to scale and says so; its dimensions are those of the beam."""

from __future__ import annotations

import dataclasses
import math
import re
from collections import Counter

import numpy as np
import pytest
from svg_reading import SVG, every, parsed

from boomwright.base import length_text
from boomwright.charts import element_detail, element_labels, plan_view
from boomwright.parts import Beam, Wire
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import shape_plan
from fakes.readings import fake_beam, fake_beam_of, fake_station

HALF_MILLIMETRE = 0.5e-3
BEAMS = [fake_beam()] + [
    fake_beam_of(elements=n, design_frequency=f) for n, f in ((2, 7.1e6), (6, 28.4e6), (12, 50.1e6))
]
each_beam = pytest.mark.parametrize("beam", BEAMS, ids=lambda b: f"{len(b.elements)} elements")


def above(beam: Beam, **given) -> str:
    """Draw the parts of a beam from above."""
    return plan_view(beam=beam, station=fake_station(beam), **given)


def texts(svg: str) -> list[str]:
    return [element.text for element in every(parsed(svg), "text")]


@each_beam
def test_tips_and_places_map_back_to_metres(beam: Beam) -> None:
    root = parsed(above(beam))
    scale, x0, y0 = (float(root.attrib[f"data-{n}"]) for n in ("scale", "origin-x", "origin-y"))
    groups = [g for g in every(root, "g") if "data-element" in g.attrib]
    assert [int(g.attrib["data-element"]) for g in groups] == list(range(len(beam.elements)))
    for element, group in zip(beam.elements, groups, strict=True):
        tubes = [r for r in group.iter(SVG + "rect") if "data-diameter" in r.attrib]
        top = min(float(r.attrib["y"]) for r in tubes)
        bottom = max(float(r.attrib["y"]) + float(r.attrib["height"]) for r in tubes)
        middle = {float(r.attrib["x"]) + float(r.attrib["width"]) / 2 for r in tubes}
        assert (y0 - top) / scale == pytest.approx(element.half_length, abs=HALF_MILLIMETRE)
        assert (bottom - y0) / scale == pytest.approx(element.half_length, abs=HALF_MILLIMETRE)
        for x in middle:
            assert (x - x0) / scale == pytest.approx(element.position, abs=HALF_MILLIMETRE)
        assert float(group.attrib["data-place"]) == pytest.approx(element.position, abs=1e-6)
        half = float(group.attrib["data-half-length"])
        assert half == pytest.approx(element.half_length, abs=1e-6)
        parts = [part for part in fake_station(beam).of(beam.name, "element tube")
                 if part.solids[0].middle[0] == pytest.approx(element.position)]  # fmt: skip
        ends = sorted(float(r.attrib["height"]) / scale for r in tubes)
        assert ends == pytest.approx(sorted(part.solids[0].length for part in parts), abs=1e-3)


@each_beam
def test_sections_are_drawn_in_proportion(beam: Beam) -> None:
    root = parsed(above(beam))
    tubes = [r for r in every(root, "rect") if "data-diameter" in r.attrib]
    ratios = [float(r.attrib["width"]) / float(r.attrib["data-diameter"]) for r in tubes]
    assert max(ratios) == pytest.approx(min(ratios), rel=2e-3)
    factor = ratios[0] / float(root.attrib["data-scale"])
    assert any(f"drawn {factor:.0f} times as thick" in t for t in texts(above(beam)))


def test_dimensions_written() -> None:
    written = texts(above(fake_beam()))
    for wanted in ("half 5400", "full 10800", "half 5130", "2600", "3300", "5900", "heading",
                   "300° true", "reflector", "driven", "director 1"):  # fmt: skip
        assert wanted in written
    assert any("lengths in mm" in t for t in written)
    in_feet = texts(above(fake_beam(), system="us"))
    # 5.400 m = 212.598 in = 17 ft 8.598 in, to the nearest sixteenth 8-5/8 (by hand)
    assert "half 17 ft 8-5/8 in" in in_feet


def test_half_lengths_are_written_even_where_elements_are_short() -> None:
    beam = fake_beam_of(elements=12, design_frequency=28.4e6)
    written = texts(above(beam, system="us"))
    assert "half length" in written
    for element in beam.elements:
        assert length_text(element.half_length, system="us") in written


def test_wires_are_drawn_and_counted_in() -> None:
    tail = Wire(name="tail", diameter=2e-3, points=np.array([[0, 0, 0], [-3.0, 7.0, 0]]))
    beam = dataclasses.replace(fake_beam(), wires=(tail,))
    root = parsed(above(beam))
    group = next(g for g in every(root, "g") if "data-wire" in g.attrib)
    assert group.attrib["data-name"] == "tail"
    scale, x0, y0 = (float(root.attrib[f"data-{n}"]) for n in ("scale", "origin-x", "origin-y"))
    last = group.find(SVG + "path").attrib["d"].split()[-1].split(",")
    assert (float(last[0]) - x0) / scale == pytest.approx(-3.0, abs=HALF_MILLIMETRE)
    assert (y0 - float(last[1])) / scale == pytest.approx(7.0, abs=HALF_MILLIMETRE)


def test_labels_number_directors_by_place() -> None:
    beam = fake_beam_of(elements=4, design_frequency=14.1e6)
    turned = dataclasses.replace(beam, elements=tuple(reversed(beam.elements)))
    assert element_labels(turned) == ("director 2", "director 1", "driven", "reflector")


def test_one_element_alone_can_be_drawn() -> None:
    beam = dataclasses.replace(fake_beam(), elements=fake_beam().elements[1:2])
    assert "driven" in texts(above(beam))


def test_no_elements_are_refused() -> None:
    with pytest.raises(ValueError, match="no elements"):
        plan_view(beam=dataclasses.replace(fake_beam(), elements=()),
                  station=fake_station(fake_beam()))  # fmt: skip
    with pytest.raises(ValueError, match="element 7"):
        element_detail(beam=fake_beam(), index=7)


def test_detail_sections_map_back_to_metres() -> None:
    beam = fake_beam()
    svg = element_detail(beam=beam, index=0)
    root = parsed(svg)
    scale, x0 = float(root.attrib["data-scale"]), float(root.attrib["data-origin-x"])
    inner = 0.0
    groups = [g for g in every(root, "g") if "data-section" in g.attrib]
    for section, group in zip(beam.elements[0].half, groups, strict=True):
        rect = group.find(SVG + "rect").attrib
        assert (float(rect["x"]) - x0) / scale == pytest.approx(inner, abs=HALF_MILLIMETRE)
        assert float(rect["width"]) / scale == pytest.approx(section.length, abs=HALF_MILLIMETRE)
        inner += section.length
    for wanted in ("Ø 25.4 mm", "1830", "1220", "2350", "3050", "5400"):
        assert wanted in texts(svg)
    assert "Ø 1 in" in texts(element_detail(beam=beam, index=0, system="us"))


def test_a_frame_is_drawn_with_hub_spreaders_and_points_to_take_hold_of() -> None:
    plan = read_plan(shape_plan("hexagon", band="20 m", further=("15 m",)))
    large, small = plan.beams
    station = station_assembly(plan)
    poles = station.of(large.name, "spreader")
    for beam in (large, small):
        root = parsed(plan_view(beam=beam, station=station))
        scale, x0, y0 = (float(root.attrib[f"data-{n}"]) for n in ("scale", "origin-x", "origin-y"))
        parts = Counter(each.attrib.get("data-part") for each in root.iter())
        # Every tube of the poles that hold it, and the hub they start from; the small one sits on
        # those of the large one, of which no more is drawn than reaches to it.
        assert parts["hub"] == 1
        assert parts["spreader"] == len(poles)
        ends = [(float(x) - x0, float(y) - y0)
                for each in root.iter() if each.attrib.get("data-part") == "spreader"
                for x, y in re.findall(r"([-0-9.]+),([-0-9.]+)", each.attrib["d"])]  # fmt: skip
        outmost = max(math.hypot(x - scale * beam.boom_middle, y) for x, y in ends) / scale
        held = max(math.hypot(x - beam.boom_middle, y) for x, y, _ in
                   (point.place for point in beam.frame.points))  # fmt: skip
        assert outmost == pytest.approx(held, abs=0.1)
        circles = [each for each in every(root, "circle") if "data-corner" in each.attrib]
        # Middles stand on the axis, all others on both sides.
        assert len(circles) == 2 + 2 * 3
        for circle in circles:
            point = beam.frame.points[int(circle.attrib["data-corner"])]
            x, y, _ = point.place
            assert circle.attrib["data-point"] == point.name
            assert (float(circle.attrib["cx"]) - x0) / scale == pytest.approx(x, abs=2e-3)
            assert abs(y0 - float(circle.attrib["cy"])) / scale == pytest.approx(y, abs=2e-3)
    # The tip of a wire is where it ends, not where a straight one would.
    tip = next(g for g in every(root, "g") if g.attrib.get("data-element") == "1").attrib[
        "data-tip"
    ]
    assert [float(each) for each in tip.split()[:2]] == pytest.approx(
        small.elements[1].corners[-1][:2], abs=1e-5
    )
