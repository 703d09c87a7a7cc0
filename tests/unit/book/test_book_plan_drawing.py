"""The plan drawing, opened again with ezdxf: units, extents, layers, outlines, audit."""

from __future__ import annotations

import io
from dataclasses import replace

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox

from boomwright.base import BoomwrightError
from boomwright.export.plan_drawing import plan_view_dxf
from boomwright.parts import Feed, Wire
from fakes.readings import fake_beam, fake_beam_of


def _reopened(beam):
    doc = ezdxf.read(io.StringIO(plan_view_dxf(beam=beam).decode("utf-8")))
    audit = doc.audit()
    assert not audit.errors
    assert not audit.fixes
    return doc


def _outlines(doc):
    return [e for e in doc.modelspace() if e.dxf.layer == "ELEMENTS"]


@pytest.mark.parametrize(
    "beam", [fake_beam(), fake_beam_of(elements=12, design_frequency=28.5e6)], ids=["3", "12"]
)
def test_extents_are_the_beam_in_millimetres(beam):
    doc = _reopened(beam)
    assert doc.header["$INSUNITS"] == 4
    assert doc.header["$MEASUREMENT"] == 1
    box = bbox.extents(_outlines(doc))
    longest = max(element.half_length for element in beam.elements) * 1000.0
    first, last = beam.elements[0], beam.elements[-1]
    assert box.extmin.y == pytest.approx(-longest)
    assert box.extmax.y == pytest.approx(longest)
    left = (first.position - first.half[0].diameter / 2.0) * 1000.0
    right = (last.position + last.half[0].diameter / 2.0) * 1000.0
    assert box.extmin.x == pytest.approx(left)
    assert box.extmax.x == pytest.approx(right)


def test_every_layer_is_there_and_used():
    doc = _reopened(fake_beam())
    used = {entity.dxf.layer for entity in doc.modelspace()}
    assert used == {"ELEMENTS", "BOOM", "CENTRE", "DIMENSIONS", "TEXT"}
    assert used <= {layer.dxf.name for layer in doc.layers}
    assert len(doc.modelspace().query("DIMENSION")) == 9 + 3 + 1


def test_tubes_are_closed_outlines_of_their_diameter_and_the_driven_element_is_cut():
    beam = fake_beam()
    doc = _reopened(beam)
    driven = beam.elements[1]
    mine = []
    for outline in _outlines(doc):
        assert outline.closed
        xs, ys = np.array(outline.get_points("xy")).T
        if abs(xs.mean() - driven.position * 1000.0) < 100.0:
            mine.append((float(np.ptp(xs)), float(ys.min()), float(ys.max())))
    assert len(mine) == 2 * len(driven.half)
    upper = sorted((m for m in mine if m[1] > 0), key=lambda m: m[1])
    assert [m[0] for m in upper] == pytest.approx([25.4, 22.2, 19.05])
    assert [m[1] for m in upper] == pytest.approx([20.0, 1830.0, 3050.0])
    assert [m[2] for m in upper] == pytest.approx([1830.0, 3050.0, 5130.0])


def test_an_uncut_driven_element_has_no_gap():
    beam = replace(fake_beam(), feed=Feed(kind="split", gap=0.0))
    doc = _reopened(beam)
    assert not [d for d in doc.modelspace().query("DIMENSION") if "gap" in d.dxf.text]


def test_dimension_texts_are_the_rounded_cumulative_lengths():
    doc = _reopened(fake_beam())
    texts = {dimension.dxf.text for dimension in doc.modelspace().query("DIMENSION")}
    assert {"1830", "3050", "5400", "5130", "4810", "0", "2600", "5900", "gap 40"} == texts


def test_the_same_beam_gives_the_same_bytes_and_the_option_is_put_back():
    before = ezdxf.options.write_fixed_meta_data_for_testing
    assert plan_view_dxf(beam=fake_beam()) == plan_view_dxf(beam=fake_beam())
    assert ezdxf.options.write_fixed_meta_data_for_testing == before


@pytest.mark.parametrize("name", ["20m %%c ^J \\U+0041", "a\nb\tc", "北京 Ω", "x" * 3000])
def test_owner_text_is_printed_not_obeyed(name):
    doc = _reopened(replace(fake_beam(), name=name))
    texts = [entity.plain_text() for entity in doc.modelspace().query("TEXT")]
    squeezed = "".join(name.split())
    assert any("".join(text.split()) == squeezed for text in texts)


def test_wires_are_drawn_in_plan():
    wire = Wire(name="tail", diameter=0.002, points=[[0, 0, 0], [1.2, 3.0, -2.0]])
    doc = _reopened(replace(fake_beam(), wires=(wire,)))
    assert [tuple(e.get_points("xy")[-1]) for e in _outlines(doc) if not e.closed] == [
        (1200.0, 3000.0)
    ]


def test_a_beam_without_elements_is_refused_with_the_remedy():
    with pytest.raises(BoomwrightError, match=r"'20m' has no elements.*add at least one"):
        plan_view_dxf(beam=replace(fake_beam(), elements=()))
