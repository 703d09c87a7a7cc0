"""Build sheets of wire speak of wire: lengths, colours, points, spreaders, nothing of tubes."""

from __future__ import annotations

from collections import Counter
from xml.etree import ElementTree

import pytest

from bent_plans import HEAD, HELD, SPREADER, UPRIGHT, hexagon, loop, vee
from boomwright.base.quantity import write
from boomwright.charts.blocks import Grid, Heading, SheetPicture, Steps, Words
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.charts.structure.frame_view import frame_view
from boomwright.parts import KNOT
from boomwright.plan import read_plan
from boomwright.plan.resolve import beam_cutting, plan_bill, station_assembly
from boomwright.plan.shapes import shape_plan
from boomwright.report.beam.tables import length_table
from boomwright.report.build.shop import element_cuts
from boomwright.report.work.build import build_blocks, make_build
from boomwright.report.work.pocket import cut_sheet, wire_sheet
from boomwright.report.work.upkeep import upkeep_blocks


def standing(laid, height, slope=0):
    text = (HEAD + UPRIGHT).format(
        ground="medium dry", height=height, count=32, laid=laid, slope=slope
    )
    return text.replace('8 m"]]\n', f'8 m"]]\n{HELD}')


PLANS = {
    "hexagon": hexagon(ground="medium dry", spreader=SPREADER),
    "vee": vee(ground="medium dry", held=HELD),
    "loop": loop(ground="medium dry").replace('"2.7 m"],\n  ]', f'"2.7 m"],\n  ]\n{HELD}'),
    "upright": standing("buried", "0.1 m"),
    "raised": standing("elevated", "7 m", slope=40),
}


@pytest.fixture(scope="module", params=["metric", "us"])
def sheets(request):
    found = {}
    for name, text in PLANS.items():
        plan = read_plan(text)
        build = make_build(plan, plan.beams[0], system=request.param)
        bill = beam_cutting(plan, plan.beams[0])
        found[name] = (
            build,
            build_blocks([build], bills=[bill], palette=PRINT_PALETTE, system=request.param),
        )
    return request.param, found


def grid(blocks, column):
    return next(
        each
        for each in blocks
        if isinstance(each, Grid) and any(column in head for head in each.columns)
    )


def spoken(blocks):
    words = [str(each.text) for each in blocks if isinstance(each, (Words, Heading))]
    words += [str(item) for each in blocks if isinstance(each, Steps) for item in each.items]
    return " ".join(words).lower()


def test_no_sheet_of_wire_speaks_of_rivets_plates_or_a_boom(sheets):
    for _, blocks in sheets[1].values():
        told = spoken(blocks)
        for word in ("rivet", "u-bolt", "trestle", "joint compound", "boom", "weep hole"):
            assert word not in told, word


def test_spreaders_that_are_alike_share_a_row(sheets):
    build, blocks = sheets[1]["hexagon"]
    rows = [row for row in grid(blocks, "Saw to").rows if len(row) > 1]
    # Three sections of six spreaders, and the post on their hub.
    assert [row[1] for row in rows] == ["6", "6", "6", "1"]
    assert build.pieces[0].marks == ("S1.1L", "S1.1R", "S2.1L", "S2.1R", "S3.1L", "S3.1R")
    assert grid(cut_sheet(build, system=sheets[0]).blocks, "Saw to").rows


def test_each_wire_has_its_length_and_its_colour(sheets):
    system, found = sheets
    build, blocks = found["hexagon"]
    rows = {row[0]: row for row in grid(blocks, "Tape at").rows}
    assert rows["1.WC"][4].startswith("red: rear ")
    assert rows["2.WL"][4].startswith("white: front ")
    if system == "metric":
        # 10.52 m, and 150 mm at each end.
        assert (rows["1.WC"][2], rows["1.WC"][3]) == ("10820", "10520")
    assert grid(wire_sheet(build, system=system).blocks, "Tape at").large


def test_the_points_of_a_frame_stand_in_a_table(sheets):
    system, found = sheets
    rows = {row[0]: row for row in grid(found["hexagon"][1], "Off the heading").rows}
    assert {name: (row[1], row[3]) for name, row in rows.items()} == {
        "front": ("S1", "30°"),
        "side": ("S2", "90°"),
        "rear": ("S3", "150°"),
    }
    if system == "metric":
        assert rows["side"][2] == "3200"
        assert 10 < int(rows["side"][5]) < 600
    assert grid(found["vee"][1], "Off the heading").rows[0][1] == "rope"


def test_radials_are_cut_and_bought(sheets):
    system, found = sheets
    row = next(row for row in grid(found["upright"][1], "Tape at").rows if row[0].endswith(" 1.R"))
    assert "32 pieces" in row[1]
    if system == "metric":
        assert (row[2], row[3]) == ("5350", "5200")
    bill = {str(line.item): line.quantity for line in plan_bill(read_plan(PLANS["upright"])).lines}
    # By hand: 32 radials of 5.2 m with one knot, a wire of 5.1 m with two; 5 % waste.
    wire = 32.0 * (5.2 + KNOT) + 5.1 + 2.0 * KNOT
    assert bill["wire 2.00 mm"] == pytest.approx(wire * 1.05)


def test_elevated_radials_are_in_the_way_and_need_insulators(sheets):
    build, _ = sheets[1]["raised"]
    radials = next(part for part in build.parts if part.mark == "1.R")
    assert len(radials.solids) == 32
    ends = [bar.end for bar in radials.solids]
    # 5.2 m at 40 degrees below level: 3.98 m out, 3.34 m down.
    assert max(x for x, _, _ in ends) == pytest.approx(3.983, abs=1e-3)
    assert [z for _, _, z in ends] == pytest.approx([-3.3425] * 32, abs=1e-3)
    assert next(part.quantity for part in build.parts if part.mark == "1.RE") == 32.0


def test_the_frame_is_drawn_to_scale_with_what_runs_over_it():
    beam = read_plan(PLANS["hexagon"]).beams[0]
    for system in ("metric", "us"):
        svg = frame_view(beam, tapes=("a", "b"), spreaders={"side": "S2"}, system=system)
        drawn = ElementTree.fromstring(svg)  # noqa: S314
        parts = Counter(each.get("data-part") for each in drawn.iter())
        # Six poles; the reflector turns over three points and the driven wire over one, each side.
        assert parts["spreader"] == 6
        assert (parts["hub"], parts["wire"], parts["feed"], parts["cord"]) == (1, 2, 1, 4)
        assert parts["tape"] == 2 * (2 + 1)
        words = [each.text for each in drawn.iter() if each.tag.endswith("text")]
        assert {"front", "side", "rear", "S2", "towards the heading"} <= set(words)
        scale, middle = (float(drawn.get(f"data-{key}")) for key in ("scale", "origin-x"))
        poles = [each for each in drawn.iter() if each.get("data-part") == "spreader"]
        reach = max(abs(float(each.get("x2")) - middle) for each in poles) / scale
        assert reach == pytest.approx(3.2, abs=0.01)


def test_a_picture_of_the_frame_stands_in_the_sheets_of_hung_and_of_spread_wire(sheets):
    _, found = sheets
    for name, words in (("hexagon", "Grey: spreaders"), ("vee", "To scale")):
        pictures = [each for each in found[name][1] if isinstance(each, SheetPicture)]
        assert words in pictures[0].caption
        assert "red tape" in pictures[0].svg


def test_a_loop_is_closed_and_has_no_insulator_at_its_ends(sheets):
    told = spoken(sheets[1]["loop"][1])
    assert "join both ends of each loop" in told
    assert "insulator at each end" not in told
    assert "out of each half of the driven loop" in told
    assert "insulator at each end" in spoken(sheets[1]["vee"][1])
    assert "off the upper end of the driven element" in spoken(sheets[1]["upright"][1])


@pytest.mark.parametrize("shape", ["two-square-loops", "two-triangle-loops"])
def test_loops_on_a_boom_have_boom_spreaders_and_closed_wires(shape):
    plan = read_plan(shape_plan(shape, band="20 m"))
    build = make_build(plan, plan.beams[0], system="metric")
    told = spoken(build_blocks([build], bills=[None], palette=PRINT_PALETTE, system="metric"))
    for words in ("lay the boom on trestles", "no drilled hole in a spreader", "join both ends"):
        assert words in told
    # Nothing of elements of tube, nor of a hub that is not there.
    for words in ("cord", "lay its tubes out", "hub", "turn an element in its plate"):
        assert words not in told


def test_points_of_a_frame_without_a_hub_are_told_from_its_boom():
    plan = read_plan(shape_plan("two-square-loops", band="20 m"))
    build = make_build(plan, plan.beams[0], system="metric")
    blocks = build_blocks([build], bills=[None], palette=PRINT_PALETTE, system="metric")
    rows = {row[0]: row[2] for row in grid(blocks, "From the boom").rows}
    # Straight up from the boom beside it, and along its spreader.
    assert (rows["front top"], rows["front upper corner"]) == ("2698", "3816")


def test_an_upright_wire_is_as_long_as_it_stands():
    plan = read_plan(PLANS["upright"])
    (beam,) = plan.beams
    (cut,) = element_cuts(station_assembly(plan).of(beam.name), beam=beam)
    assert cut.full_length.millimetres == round(beam.elements[0].length * 1000.0)
    heads = [write(each.head, system="metric") for each in length_table([cut]).columns]
    assert heads[2:] == ["Foot to top, mm"]


def after_the_lift(name):
    beams = read_plan(PLANS[name]).beams
    return spoken(upkeep_blocks(beams=beams, bearing=None, reminders=()))


def test_only_what_turns_is_turned_to_north():
    turned = after_the_lift("hexagon")
    for words in ("turns through the full range", "front-to-back", "aligned", "turn the boom"):
        assert words in turned
    hung = after_the_lift("vee")
    assert "90 degrees left and right" in hung
    assert "aligned" in hung
    for words in ("turns through the full range", "front-to-back", "turn the boom", "rotator"):
        assert words not in hung
    # One upright wire is heard all round alike.
    upright = after_the_lift("upright")
    for words in ("align", "rotator", "front-to-back"):
        assert words not in upright
