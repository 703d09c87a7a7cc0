"""A reader of the build sheets alone has every piece, hole and fastener, at its true size."""

from __future__ import annotations

import io
import json
import math
import re
import struct
from collections import Counter

import ezdxf
import pytest

from boomwright.charts.blocks import Grid, SheetPicture, Words
from boomwright.charts.drawing import Bore, Measure, Note, Reading
from boomwright.charts.drawing_svg import TRUE_SIZE_EDGE, drawing_svg
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.export.assembly_gltf import assembly_glb
from boomwright.export.drawing_dxf import drawing_dxf
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import SHAPES, shape_plan
from boomwright.report.work.build import build_blocks, make_build, station_grid
from boomwright.report.work.pocket import boom_sheet, cut_sheet
from boomwright.session.files import packaged_text
from example_stations import STATIONS

DEMO = packaged_text("demo.toml")
PLAN = read_plan(DEMO)
BUILT = {system: make_build(PLAN, PLAN.beams[0], system=system) for system in ("metric", "us")}


def blocks(build, system="metric"):
    return build_blocks([build], bills=[None], palette=PRINT_PALETTE, system=system)


def grid(found, column):
    return next(each for each in found if isinstance(each, Grid) and column in each.columns)


def glb_marks(plan, name):
    data = assembly_glb(station_assembly(plan), beam=name)
    size = struct.unpack_from("<I", data, 12)[0]
    return Counter(node["name"] for node in json.loads(data[20 : 20 + size])["nodes"])


def told_marks(found):
    """Marks that the sheets list, from the column of each list that holds them."""
    told = Counter()
    for each in found:
        if not isinstance(each, Grid) or "Marks" not in each.columns:
            continue
        if "Left measured" in each.columns or {"Fastener", "For"} & set(each.columns):
            continue  # lists of what was counted out already
        column = each.columns.index("Marks")
        for row in each.rows:
            if len(row) > 1:
                marks = [mark.strip() for mark in row[column].split(",")]
                told.update(marks)
                counts = [name for name in ("Pieces", "Count") if name in each.columns]
                for name in counts:
                    assert int(row[each.columns.index(name)]) == len(marks), row
    return told


@pytest.mark.parametrize("path", [None, *STATIONS], ids=lambda path: path.stem if path else "demo")
def test_every_part_of_the_3d_file_is_counted_out_once(path):
    plan = PLAN if path is None else read_plan(path.read_text(encoding="utf-8"))
    for beam in plan.beams:
        build = make_build(plan, beam)
        told = told_marks(blocks(build))
        shaped = glb_marks(plan, beam.name)
        assert shaped
        assert {mark: told[mark] for mark in shaped} == dict(shaped)
        assert set(told) == {part.mark for part in station_assembly(plan).of(beam.name)}


def drawn_volumes(data):
    """Of each node with a shape: the volume that its mass and density say [m^3]."""
    size = struct.unpack_from("<I", data, 12)[0]
    return {
        node["name"]: node["extras"]["mass_kg"] / node["extras"]["density_kg_m3"]
        for node in json.loads(data[20 : 20 + size]).get("nodes", ())
        if "mesh" in node and node["extras"]["mass_kg"]
    }


@pytest.mark.parametrize("shape", list(SHAPES))
def test_every_wire_spreader_and_rope_of_a_frame_is_counted_out(shape):
    further = ("15 m",) * (shape == "two-band-dipole")
    plan = read_plan(shape_plan(shape, band="20 m", units="us", further=further))
    station = station_assembly(plan)
    solids, compared = drawn_volumes(assembly_glb(station)), 0
    for beam in plan.beams:
        found = blocks(make_build(plan, beam), "metric")
        told = told_marks(found)
        mine = {part.mark: part for part in station.built(beam.name)}
        solids |= drawn_volumes(assembly_glb(station, beam=beam.name))
        assert set(told) == set(mine)
        assert not {row[0] for row in grid(found, "Size").rows} & {"Buried", "Elevated"}
        assert max(told.values()) == 1
        roles = Counter(part.role for part in mine.values())
        assert roles["wire"] >= len(beam.elements)
        assert bool(roles["spreader"]) == (beam.frame.spreader is not None)
        assert bool(roles["rope"]) == beam.hung or beam.carrier is not None
        # Each wire and radial is in the list of wires too, as long as the 3D file draws it.
        rows = {row[0]: row for row in grid(found, "Wire").rows if len(row) > 1}
        assert set(rows) == {mark for mark, part in mine.items()
                             if part.role in {"wire", "radial"}}  # fmt: skip
        for mark, row in rows.items():
            pieces = int(re.search(r"(\d+) pieces", row[1])[1]) if "pieces" in row[1] else 1
            area = math.pi / 4.0 * mine[mark].solids[0].diameter ** 2
            assert solids[mark] / area == pytest.approx(pieces * int(row[3]) / 1e3, abs=2e-2)
            compared += 1
    assert compared >= sum(len(beam.elements) for beam in plan.beams)


def test_every_hole_and_fastener_of_the_demo_is_counted():
    found = blocks(BUILT["metric"])
    fasteners = [row[:3] for row in grid(found, "Fastener").rows]
    # By hand: three joints in each of six halves, two rivets each, through walls of 2.95 and 1.47
    # mm, the outermost of 15.88 mm tube; two nuts on each of 3 x 4 + 4 U-bolts; a terminal in
    # either half, through its tube of 31.75 mm and the rod of 10 mm on it; the short of 3 mm with
    # a clip of 1.5 mm round either rod; a lead to either half; the outermost joint of each half
    # slides under a clamp round its tube of 19.05 mm.
    assert fasteners == [
        ("Rivet or screw 4.8 mm", "12", "5.9 mm"),
        ("Rivet or screw 4.8 mm", "12", "4.4 mm"),
        ("Rivet or screw 3.2 mm", "12", "2.9 mm"),
        ("Hose clamp, stainless, over 19.05 mm", "6", "–"),
        ("Lock nut with washer, stainless, 8 mm", "32", "–"),
        ("Terminal screw, stainless, with washers and lock nut, 5 mm", "2", "41.8 mm"),
        ("Ring terminal, tinned copper, for a screw of 5 mm", "2", "–"),
        ("Clip screw, stainless, with lock nut, 5 mm", "2", "4.5 mm"),
        ("Clip, stainless, round a conductor of 10 mm", "2", "–"),
    ]
    holes = Counter()
    for row in grid(found, "For").rows:
        holes[row[1]] += int(row[3])
    # A rivet goes through two tubes, and each tube is drilled; four plates with eight holes; the
    # terminals go through tube, insulating rod and rod of the match.
    assert holes["Joint"] == 2 * 24
    assert holes["Outermost joint, drilled after the check on stands"] == 2 * 12
    assert holes["Feed terminal"] == 2 + 2 + 2
    assert holes["Clip screw"] == 2
    # Both ends of the boom and both tips of each element let water out.
    assert holes["Weep hole"] == 2 + 2 * 3
    assert sum(count for name, count in holes.items() if name.startswith("U-bolts")) == 4 * 8
    ways = {row[2] for row in grid(found, "For").rows}
    assert "" not in ways


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_bought_part_of_the_demo_has_a_size(system):
    rows = grid(blocks(BUILT[system], system), "Size").rows
    sizes = {row[0].partition(",")[0]: row[2].replace("\u00a0", " ") for row in rows}
    assert all(sizes.values()), sizes
    # By hand: the element of 31.75 mm in shells of 3 mm; boom of 51 mm, mast of 60.3 mm; tip tube
    # of 15.88 mm with a wall of 1.47 mm.
    inside = {"element": 37.75, "boom": 51.0, "mast": 60.3}
    for what, size in inside.items():
        told = re.fullmatch(r"thread (\S+) (mm|in), (\S+) (mm|in) inside, .*",
                            sizes[f"U-bolt round the {what}"])  # fmt: skip
        unit = 1.0 if system == "metric" else 25.4
        assert told[2] == told[4] == ("mm" if system == "metric" else "in")
        assert told[1] == ("8" if system == "metric" else "5/16")
        assert float(told[3]) * unit == pytest.approx(size, abs=0.13)
    plug = 15.88 - 2.0 * 1.47
    assert sizes["Tip plug"] == ("Ø 12.9 mm, 30 mm long" if system == "metric"
                                 else f"Ø {plug / 25.4:.2f} in, 1.18 in long")  # fmt: skip


def size_on_paper(svg):
    """Millimetres on paper of one unit of the picture along both its sides."""
    width, height = (
        float(re.search(rf'{side}="([\d.]+)mm"', svg).group(1)) for side in ("width", "height")
    )
    _, _, wide, high = map(float, re.search(r'viewBox="([^"]+)"', svg).group(1).split())
    return width / wide, height / high


@pytest.mark.parametrize("system", ["metric", "us"])
def test_a_plate_of_164_mm_is_164_mm_on_paper(system):
    told = DEMO.replace(
        "  fitting = [",
        '  hardware = { element_plate = ["164 mm", "130 mm", "6 mm"] }\n  fitting = [',
    )
    plan = read_plan(told)
    drawings = make_build(plan, plan.beams[0], system=system).drawings
    drawing = next(each for each in drawings if each.name == "element-plate-1.P")
    svg = drawing_svg(drawing, width=None)
    assert size_on_paper(svg) == pytest.approx((1.0, 1.0))
    # The outline is the first line of its layer: four corners of a rectangle.
    path = re.search(r' d="([^"]+)"', svg[svg.index('data-layer="outline"') :]).group(1)
    numbers = [float(each) for each in re.findall(r"[\d.]+", path)]
    xs, ys = numbers[0::2], numbers[1::2]
    assert max(xs) - min(xs) == pytest.approx(164.0, abs=0.02)
    assert max(ys) - min(ys) == pytest.approx(130.0, abs=0.02)
    assert min(xs) > TRUE_SIZE_EDGE


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_drawing_is_at_true_size_and_keeps_to_one_system(system):
    for drawing in BUILT[system].drawings:
        assert size_on_paper(drawing_svg(drawing, width=None)) == pytest.approx((1.0, 1.0))
        texts = [getattr(shape, "text", "") for shape in drawing.shapes]
        foreign = r"\d ?in\b" if system == "metric" else r"\d ?mm\b"
        shown = [text for text in texts if "measure them" not in text]
        assert not [text for text in (*shown, drawing.title) if re.search(foreign, text)]


def told_number(text):
    """The first length that a dimension says, in its own unit: ``47 1/4``, ``1200``, ``Ø 4.9``."""
    text = re.sub(r"^\d+ x ", "", text)
    found = re.search(r"(\d+ )?(\d+)/(\d+)|\d+(?:\.\d+)?", text)
    if found.group(3):
        return int(found.group(1) or 0) + int(found.group(2)) / int(found.group(3))
    return float(found.group(0))


@pytest.mark.parametrize(("system", "unit", "near"), [("metric", 4, 0.51), ("us", 1, 0.0051)])
def test_dimensions_of_a_cad_file_measure_what_they_say(system, unit, near):
    for drawing in BUILT[system].drawings:
        document = ezdxf.read(io.StringIO(drawing_dxf(drawing, system=system).decode()))
        assert document.header["$INSUNITS"] == unit  # 4 millimetres, 1 inches
        assert not document.audit().errors
        dimensions = list(document.modelspace().query("DIMENSION"))
        wanted = sum(
            isinstance(shape, Measure | Reading) or (isinstance(shape, Bore) and bool(shape.text))
            for shape in drawing.shapes
        )
        assert len(dimensions) == wanted
        for each in dimensions:
            measured = each.get_measurement()
            length = abs(measured if isinstance(measured, float | int) else measured.x)
            # A tape is read to sixteenths, a caliper to hundredths.
            step = 1.0 / 32.0 if "/" in each.dxf.text else near
            assert length == pytest.approx(told_number(each.dxf.text), abs=step), each.dxf.text


def test_one_table_of_marks_along_the_boom_on_every_page():
    for system, build in BUILT.items():
        table = {row[0]: row[1] for row in station_grid(build, system).rows}
        pocket = grid(boom_sheet(build, system=system).blocks, "Station")
        assert {row[0]: row[1] for row in pocket.rows} == table
        (drawing,) = (each for each in build.drawings if each.name == "boom")
        drawn = {each.name: each.text for each in drawing.shapes if isinstance(each, Reading)}
        assert {name: text.rsplit(" ", 1)[0] for name, text in drawn.items()} == table
        assert table["rear end, hook the tape here"] == "0"
        assert sum("balance point" in name for name in table) in {1, 2}


def test_a_plan_without_walls_is_not_to_be_cut_from():
    thin = DEMO.replace('["15.88 mm", "1.79 m", "1.47 mm"]', '["15.88 mm", "1.79 m"]')
    plan = read_plan(thin)
    build = make_build(plan, plan.beams[0])
    assert build.stamp == "Not to be cut from: the wall is not given (1.4L, 1.4R)"
    for sheet in (blocks(build), cut_sheet(build, system="metric").blocks):
        assert f"{build.stamp}." in [each.text for each in sheet if isinstance(each, Words)]
    assert BUILT["metric"].stamp == ""


def test_the_driven_element_is_shown_taken_apart():
    (drawing,) = (each for each in BUILT["metric"].drawings if each.name == "exploded")
    told = " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Note))
    told = told.replace("\u00a0", " ")
    shown = [
        part.mark
        for part in station_assembly(PLAN).of("20m")
        if part.group in {"mount 2", "feed"} or part.mark in {"2.1L", "2.1R", "2.I", "B"}
    ]
    assert len(shown) >= 14
    assert [mark for mark in shown if not re.search(rf"\b{re.escape(mark)}\b", told)] == []
    assert "2.1L: inner tube, saw to 1180 mm, HOT: inner conductor" in told
    assert "2.1R: inner tube, saw to 1180 mm, shield" in told
    pictures = [each.name for each in blocks(BUILT["metric"]) if isinstance(each, SheetPicture)]
    assert "exploded" in pictures
    apart = grid(blocks(BUILT["metric"]), "Touch or apart").rows
    assert (
        "2.1L, 2.1R and 2.U1, 2.U2, 2.P",
        "apart",
        "shells 2.J1, 2.J2; saddles 2.S1, 2.S2",
    ) in apart
