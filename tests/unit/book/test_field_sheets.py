"""Sheets of the driven element, of support and ground, and of the bill: figures of the plan."""

from __future__ import annotations

import io
import math
import re
from dataclasses import replace

import ezdxf
import pytest
from ezdxf import bbox

from boomwright.charts.blocks import TICK, Facts, Grid, Steps, Words
from boomwright.charts.drawing import Measure, Ring
from boomwright.charts.palette import LIGHT
from boomwright.export.drawing_dxf import drawing_dxf
from boomwright.plan import read_plan
from boomwright.plan.resolve import plan_bill
from boomwright.render.book.contents import chapter_data
from boomwright.render.field_sheet import part_blocks
from boomwright.render.work_sheets import cost_sheet, raising_sheet
from boomwright.report.build.shop_support import setting_out_drawing
from boomwright.report.chapter import Chapter
from boomwright.report.model import Canvas
from boomwright.report.work.build import build_blocks, make_build
from boomwright.report.work.support import support_parts
from boomwright.session.files import packaged_text
from boomwright.study.as_measured import measure_plan
from boomwright.study.cost import price_plan
from boomwright.study.feed_parts.results import NotMeasured
from boomwright.study.raising import raise_plan

DEMO = packaged_text("demo.toml")
PLAN = read_plan(DEMO)
HAIRPIN = re.search(r"feed = \{.*\}", DEMO).group()


def fed(feed: str):
    return read_plan(DEMO.replace(HAIRPIN, f"feed = {{ {feed} }}"))


def drawn(plan, system="metric"):
    made = make_build(plan, plan.beams[0], system=system)
    return next((d for d in made.drawings if d.name == "feed"), None)


def words(blocks) -> str:
    found = [block.text for block in blocks if isinstance(block, Words)]
    for block in blocks:
        if isinstance(block, Facts | Grid):
            found += [cell for row in block.rows for cell in row]
        if isinstance(block, Steps):
            found += block.items
    return " ".join(found)


def sheet(plan, system="metric") -> str:
    made = make_build(plan, plan.beams[0], system=system)
    parts = build_blocks([made], bills=[None], palette=LIGHT, system=system)
    return words(part_blocks(parts, canvas=Canvas(palette=LIGHT, system=system)))


def test_one_element_alone_has_no_boom_to_draw():
    plan = read_plan(packaged_text("lessons/1-dipole-alone.toml"))
    made = make_build(plan, plan.beams[0])
    names = [drawing.name for drawing in made.drawings]
    assert names[:3] == ["element-1", "feed", "exploded"]
    assert all(name.startswith("piece-1.") for name in names[3:])
    assert "tape hooked" not in words(
        part_blocks(
            build_blocks([made], bills=[None], palette=LIGHT, system="metric"),
            canvas=Canvas(palette=LIGHT, system="metric"),
        )
    )


def test_the_hairpin_is_drawn_as_the_plan_says_and_opens_in_cad():
    drawing = drawn(PLAN)
    told = {s.text for s in drawing.shapes if isinstance(s, Measure)}
    assert told == {"565 mm", "80 mm", "40 mm"}
    doc = ezdxf.read(io.StringIO(drawing_dxf(drawing).decode()))
    assert doc.header["$INSUNITS"] == 4
    assert not doc.audit().errors
    measured = sorted(each.get_measurement() for each in doc.modelspace().query("DIMENSION"))
    assert measured == pytest.approx([40.0, 80.0, 565.0])
    tubes = bbox.extents(doc.modelspace().query('LWPOLYLINE[layer=="TUBES"]'))
    # The rods run away from the mast and 50 mm past the short, which slides on them.
    assert tubes.extmin.x == pytest.approx(-565.0 - 50.0)
    assert tubes.extmax.x == pytest.approx(0.5 * 31.75)


@pytest.mark.parametrize(
    ("system", "gap", "foreign"), [("metric", "40 mm", " in"), ("us", "1 5/8 in", " mm")]
)
def test_one_gap_on_every_sheet(system, gap, foreign):
    """Twice 13/16 in, which each half keeps off the centre line; 40 mm alone would be 1 9/16 in."""
    text = sheet(PLAN, system)
    assert text.count(gap) >= 3
    assert gap in drawn(PLAN, system).description
    assert f"{gap} / " not in text
    assert foreign not in re.sub(r"[A-Za-z] in ", "", drawn(PLAN, system).description)
    assert not re.search(r"(?<!\d)1 9/16", text)


@pytest.mark.parametrize(
    ("feed", "said"),
    [
        ('kind = "split", gap = "40 mm"', "inner conductor to the left half (L)"),
        ('kind = "gamma", rod_diameter = "10 mm", rod_spacing = "120 mm", rod_length = "0.9 m", '
         'capacitance = "150 pF"', "inner conductor to the rod along the left half"),
        ('kind = "tee", rod_diameter = "10 mm", rod_spacing = "120 mm", rod_length = "0.9 m", '
         'capacitance = "150 pF"', "of the inner conductor to the left rod"),
        ('kind = "folded", rod_diameter = "10 mm", rod_spacing = "120 mm"',
         "inner conductor to the left side of the fed conductor"),
    ],
)  # fmt: skip
def test_polarity_and_picture_follow_the_kind_of_feed(feed, said):
    plan = fed(feed)
    assert said in sheet(plan)
    drawing = drawn(plan)
    if "folded" in feed:
        assert "120 mm from the element between axes" in drawing.description
    assert drawing.extents[2] > drawing.extents[0]
    if "rod_length" in feed:
        assert "900 mm" in drawing.description
        assert "120 mm" in drawing.description


def test_the_rule_for_trimming_is_in_proportion():
    # 10 mm of 5.14 m at 14.175 MHz: 27.6 kHz.
    assert f"about {14175.0 * 0.010 / 5.14:.0f} kHz" in sheet(PLAN)


def support_blocks(support, *, system="metric", **more):
    parts = support_parts(support, **more)
    return part_blocks(parts, canvas=Canvas(palette=LIGHT, system=system))


def test_support_sheet_has_every_figure_for_digging_and_guying():
    text, us = (words(support_blocks(PLAN.support, system=system)) for system in ("metric", "us"))
    for figure in ("Ø 114.30 mm x 5.40 mm", "15.00 m", "1.40 m", "0.80 m", "0.90 m", "sandy gravel",
                   "3/16 in EHS", "1.80 kN", "0°, 120°, 240°"):  # fmt: skip
        assert figure in text
    for height in (14.0, 7.5):
        # From the eye of the anchor to the hole of the ring, 25 mm out from a pole of 114.3 mm.
        assert f"{math.hypot(height, 11.0 - 0.05715 - 0.025):.2f} m" in text
    assert "licensed engineer overrule" in text
    assert "28 days" in text
    assert "Ø 4.500 in x 0.213 in" in us
    assert "405 lbf" in us
    assert not re.search(r"\d (?:mm|m|kN)\b", us)
    assert not re.search(r"\d (?:in|ft|lbf)\b", text.replace("3/16 in EHS", ""))


def test_support_sheet_raises_the_pole_and_pegs_by_compass():
    result = raise_plan(PLAN, today="2026-11-25")
    raised = result.lifts[0].lift.support
    text = words(support_blocks(PLAN.support, raised=raised, declination=result.declination))
    # {wmm-2025} at 52.2 N, 0.1 E: 1.3 degrees east, counted off a true bearing.
    assert "358.7°, 118.7°, 238.7°" in text
    assert "15.45 m, 1.40 m of it in the foot, no bolts" in text
    assert "anchor bolts" not in text
    assert "foot at its hole" in text
    assert "lift director, told by spotter and crane operator" in text
    bolted = replace(PLAN.support, tube=replace(PLAN.support.tube, hinged=True, whole=None))
    text = words(support_blocks(bolted))
    assert "anchor bolts and template" in text
    assert "ASK: one piece" in text
    assert "maker's instructions" in text


def test_support_without_guys_or_without_anything():
    bare = replace(PLAN.support, guy=(), anchor=None)
    text = words(support_blocks(bare))
    assert "tension of the table" not in text
    nothing = replace(
        bare, tube=None, mast=None, soil=None, frost_depth=None, base=None, rotator=None
    )
    assert support_blocks(nothing) == ()


@pytest.mark.parametrize(("count", "first"), [(3, 0.0), (3, 0.7), (4, 0.3), (5, 6.0)])
def test_pegs_stand_where_bearing_and_distance_say(count, first):
    (ring, *_) = PLAN.support.guy
    drawing = setting_out_drawing(
        (replace(ring, count=count, first_azimuth=first),), system="metric"
    )
    foot, *pegs = [s for s in drawing.shapes if isinstance(s, Ring)]
    assert foot.centre == (0.0, 0.0)
    assert len(pegs) == count
    for number, peg in enumerate(pegs):
        x, y = peg.centre
        assert math.hypot(x, y) == pytest.approx(11000.0)
        bearing = first + 2.0 * math.pi * number / count
        assert math.atan2(x, y) % (2 * math.pi) == pytest.approx(bearing % (2 * math.pi), abs=1e-9)
    (ax, ay), (bx, by) = pegs[0].centre, pegs[1].centre
    side = math.hypot(ax - bx, ay - by) / 1000.0
    assert f"{side:.2f} m" in drawing.description


def test_the_bill_gives_quantity_and_size_in_the_units_of_its_reader():
    result = price_plan(replace(PLAN, prices=None), today="2026-11-25")
    rows = {}
    for system in ("metric", "us"):
        sheet = cost_sheet(result, canvas=Canvas(palette=LIGHT, system=system))
        (grid,) = (block for block in sheet.blocks if isinstance(block, Grid))
        rows[system] = {row[0].split("\n")[0]: row for row in grid.rows if len(row) > 1}
        assert all(row[-1] == TICK for row in rows[system].values())
    # {nist-sp-811}: the foot is 0.3048 m, the yard 0.9144 m, the pound 0.45359237 kg.
    assert rows["metric"]["feed line RG-213"][1] == "46.20 m"
    assert rows["us"]["feed line RG-213"][1] == f"{46.2 / 0.3048:.1f} ft"
    metres, yards = (float(rows[system]["concrete"][1].split(" ")[0]) for system in rows)
    assert yards == pytest.approx(metres / 0.9144**3, abs=0.02)
    (tube,) = (item for item in rows["us"] if item.startswith("tube 1.000"))
    assert tube == "tube 1.000 x 0.116 in 6061-T6, 12 ft 0 in"  # the default stock
    assert not [row for row in rows["us"].values() if re.search(r"\d (?:mm|m|kg|m³)\b", str(row))]


CLIMBED = read_plan(
    DEMO.replace("trained_climbers = 0", "trained_climbers = 2").replace(
        'platform_height = "17 m"', 'platform_height = "7 m"'
    )
)


def test_the_raising_sheet_keeps_to_the_readers_units():
    result = raise_plan(CLIMBED, today="2026-11-25")
    (metric, us) = (
        words(raising_sheet(result, number=0, palette=LIGHT, system=system).blocks)
        for system in ("metric", "us")
    )
    # {nist-sp-811}: 4.5 m/s is 10 mph, 75 N is 17 lbf, 22.24 kN is 5000 lbf.
    stops = result.lifts[0].lift.stops.begin_hoist_below
    assert f"below {stops:.1f} m/s" in metric
    assert f"below {stops / 0.44704:.0f} mph" in us
    assert "22.24 kN" in metric
    assert "5000 lbf" in us
    assert "sideways load 75 N" in metric
    assert "sideways load 17 lbf" in us
    # One system at a time: neither reader meets a figure of the other.
    assert not re.search(r"\d (?:m/s|kg|N|kN|m)\b", us)
    assert not re.search(r"\d (?:mph|lb|lbf|ft|in)\b", metric)


def test_the_sweep_on_stands_is_expected_as_it_is_measured_at_the_match():
    (measured,) = measure_plan(PLAN)
    result = raise_plan(PLAN, measured=(measured,), today="2026-11-25")
    text = words(raising_sheet(result, number=0, palette=LIGHT, system="metric").blocks)
    assert f"at the match: SWR {measured.match_swr.min():.2f}" in text
    # A beam whose match is not solved is promised nothing.
    unknown = NotMeasured(beam=PLAN.beams[0], refusal="no dimensions")
    result = raise_plan(PLAN, measured=(unknown,), today="2026-11-25")
    assert "SWR on stands" not in words(
        raising_sheet(result, number=0, palette=LIGHT, system="metric").blocks
    )


def test_the_cut_list_keeps_to_one_unit_for_sizes():
    for system, boom in (("metric", "Ø 51.00 x 3.20"), ("us", "Ø 2.008 x 0.126")):
        made = make_build(PLAN, PLAN.beams[0], system=system)
        blocks = build_blocks([made], bills=[plan_bill(PLAN)], palette=LIGHT, system=system)
        laid = part_blocks(blocks, canvas=Canvas(palette=LIGHT, system=system))
        grids = [block for block in laid if isinstance(block, Grid)]
        (row,) = (row for row in grids[0].rows if row[0] == "B")
        assert row[2] == boom
        # The cutting plan names each tube above its bars.
        heads = [row[0] for row in grids[1].rows if len(row) == 1]
        assert any("1.250 x 0.116 in" in head for head in heads) == (system == "us")


def test_a_cell_to_tick_is_drawn_not_typed():
    grid = Grid(columns=("A", "B"), rows=(("a", TICK),), align="ll", shares=(1.0, 1.0))
    (data,) = chapter_data((Chapter(title="", blocks=(grid,)),), place="body")[0]["blocks"]
    assert data["rows"] == [["a", {"tick": True}]]
