"""The plan drawing, opened again with ezdxf: units, extents, outlines, dimensions, audit."""

from __future__ import annotations

import io
import math
import re

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox

from bent_plans import SPREADER, hexagon
from boomwright.export.assembly_gltf import assembly_glb
from boomwright.export.drawing_dxf import plan_view_dxf
from boomwright.parts import Bar
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import shape_plan
from boomwright.session.files import packaged_text

DEMO = packaged_text("demo.toml")
PLAN = read_plan(DEMO)


def opened(plan, **given):
    data = plan_view_dxf(plan, plan.beams[0], **given)
    doc = ezdxf.read(io.StringIO(data.decode("utf-8")))
    audit = doc.audit()
    assert not audit.errors
    assert not audit.fixes
    return doc


METRIC = opened(PLAN)


def on(doc, *layers):
    return [each for each in doc.modelspace() if each.dxf.layer in layers]


@pytest.mark.parametrize(("system", "unit", "code"), [("metric", 1.0, 4), ("us", 25.4, 1)])
def test_tubes_lie_where_the_parts_lie_in_the_readers_unit(system, unit, code):
    doc = opened(PLAN, system=system)
    assert doc.header["$INSUNITS"] == code
    tubes = [part for part in station_assembly(PLAN).of("20m") if part.role == "element tube"]
    far = [max(abs(bar.start[1]), abs(bar.end[1])) for part in tubes for bar in part.solids]
    box = bbox.extents(on(doc, "TUBES"))
    # A tape in the workshop is read to a millimetre, or to a sixteenth.
    step = 0.51 if system == "metric" else 1.0 / 31.0
    assert box.extmax.y == pytest.approx(1e3 * max(far) / unit, abs=step)
    assert box.extmin.y == pytest.approx(-1e3 * max(far) / unit, abs=step)
    assert box.extmin.x == pytest.approx(0.0, abs=step)  # rear end of the boom
    assert box.extmax.x == pytest.approx(6200.0 / unit, abs=step)
    texts = [each.dxf.text for each in doc.modelspace().query("TEXT DIMENSION")]
    foreign = r"\d ?in\b" if system == "metric" else r"\d ?mm\b"
    assert not [text for text in texts if re.search(foreign, text)]


def test_every_dimension_measures_what_it_says():
    dimensions = list(METRIC.modelspace().query("DIMENSION"))
    # Four tubes in each half of three elements, the gap, and the stations of the boom.
    assert len(dimensions) > 3 * 4 + 1 + 5
    for each in dimensions:
        measured = each.get_measurement()
        length = abs(measured if isinstance(measured, float | int) else measured.x)
        told = float(re.search(r"\d+(?:\.\d+)?", each.dxf.text).group(0))
        assert length == pytest.approx(told, abs=0.51), each.dxf.text
    assert any(each.dxf.text.startswith("gap ") for each in dimensions)


def test_the_driven_element_is_two_halves_of_true_diameters():
    driven = next(part for part in station_assembly(PLAN).of("20m") if part.mark == "2.1L")
    (bar,) = driven.solids
    mine = []
    for outline in on(METRIC, "TUBES"):
        assert outline.closed
        xs, ys = np.array(outline.get_points("xy")).T
        if abs(xs.mean() - 1e3 * bar.start[0]) < 100.0 and np.ptp(xs) < 100.0:
            mine.append((float(np.ptp(xs)), float(ys.min()), float(ys.max())))
    upper = sorted((each for each in mine if each[1] > 0), key=lambda each: each[1])
    assert len(mine) == 2 * len(upper) == 8
    assert [each[0] for each in upper] == pytest.approx([31.75, 25.4, 19.05, 15.88])
    assert upper[0][1] == pytest.approx(1e3 * min(bar.start[1], bar.end[1]), abs=0.51)
    # Each tube shows from the end of the one before.
    assert [each[1] for each in upper[1:]] == pytest.approx([each[2] for each in upper[:-1]])


def test_plates_rods_and_box_are_drawn():
    parts = station_assembly(PLAN).of("20m", "element plate", "mast plate", "match", "box", "tip")
    assert len(on(METRIC, "OUTLINE", "SOLIDS")) == sum(len(part.solids) for part in parts)


def test_wire_and_spreaders_of_a_frame_are_drawn():
    plan = read_plan(hexagon(spreader=SPREADER))
    parts = station_assembly(plan).of("20m", "wire", "spreader", "cord", "hub")
    assert {part.role for part in parts} == {"wire", "spreader", "cord", "hub"}
    outlines = on(opened(plan), "SOLIDS")
    assert len(outlines) == sum(len(part.solids) for part in parts)
    reach = max(abs(bar.end[1]) for part in parts for bar in part.solids if isinstance(bar, Bar))
    assert bbox.extents(outlines).extmax.y == pytest.approx(1e3 * reach, abs=20.0)


@pytest.mark.parametrize("laid", ["buried", "elevated"])
def test_radials_are_drawn_around_their_foot(laid):
    text = shape_plan("vertical", band="20 m")
    if laid == "elevated":
        text = text.replace('height = "0.1 m"', 'height = "4 m"')
        text = text.replace('laid = "buried"', 'laid = "elevated"\nslope = "30 deg"')
    plan = read_plan(text.replace('heading = "0 deg"', 'heading = "50 deg"'))
    beam = plan.beams[0]
    assert beam.radials.laid == laid
    drawn = [each for each in on(opened(plan), "SOLIDS") if len(each) == 4]
    middles = [np.mean([corner[:2] for corner in each.get_points()], axis=0) for each in drawn]
    level = [np.hypot(*middle) for middle in middles if np.hypot(*middle) > 100.0]
    # Seen from above, the middle of each is half its level length from the foot.
    half = 500.0 * beam.radials.length * math.cos(beam.radials.slope)
    assert level == pytest.approx([half] * beam.radials.count, rel=1e-3)
    bearings = sorted(math.degrees(math.atan2(y, x)) % 360.0 for x, y in middles
                      if math.hypot(x, y) > 100.0)  # fmt: skip
    assert np.diff(bearings) == pytest.approx(360.0 / beam.radials.count, abs=1e-2)
    # The 3D file of the beam alone has them too, around the same foot.
    glb = assembly_glb(station_assembly(plan), beam=beam.name)
    assert glb.count(b"radials, " + laid.encode()) == 1


def test_the_same_beam_gives_the_same_bytes_and_the_option_is_put_back():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    beam = PLAN.beams[0]
    assert plan_view_dxf(PLAN, beam) == plan_view_dxf(PLAN, beam)
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


def test_a_stamp_stands_above():
    texts = [each.dxf.text for each in opened(PLAN, stamp="Not to be built from").query("TEXT")]
    assert "Not to be built from" in texts


@pytest.mark.parametrize("name", ["20m %%c ^J \\\\U+0041", "北京 Ω"])
def test_owner_text_is_printed_not_obeyed(name):
    plan = read_plan(DEMO.replace('name = "20m"', f'name = "{name}"'))
    texts = [each.plain_text() for each in opened(plan).modelspace().query("TEXT")]
    squeezed = "".join(plan.beams[0].name.split())
    assert any(squeezed in "".join(text.split()) for text in texts)
