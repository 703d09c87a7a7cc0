"""Build sheets: fits, stations, plates, drawings as CAD, the beam in 3D, the calendar."""

from __future__ import annotations

import io
import json
import struct

import ezdxf
import icalendar
import numpy as np
import pygltflib
import pytest
from ezdxf import bbox

from boomwright.base.quantity import write
from boomwright.charts.blocks import Grid
from boomwright.charts.drawing import Bore, DrawnTube, Note
from boomwright.charts.drawing_svg import drawing_svg
from boomwright.charts.labels import text_width
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.export.assembly_gltf import assembly_glb
from boomwright.export.drawing_dxf import drawing_dxf
from boomwright.export.upkeep_calendar import upkeep_calendar
from boomwright.parts import clamp_plate
from boomwright.plan import plan_notices, read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.plan.shapes import shape_plan
from boomwright.report.build.shop import shop_elements
from boomwright.report.build.shop_fit import fit_notices
from boomwright.report.build.shop_plates import made_plates, plate_drawing
from boomwright.report.work.build import build_blocks, make_build
from boomwright.report.work.upkeep import UpkeepReminder, _day_after, upkeep_reminders
from boomwright.session.files import packaged_text
from example_stations import STATIONS

DEMO = packaged_text("demo.toml")
PLAN = read_plan(DEMO)
BEAM = PLAN.beams[0]
BOOM = PLAN.boom_of("20m")
STATION = station_assembly(PLAN)


def build(plan=PLAN):
    return make_build(plan, plan.beams[0])


def elements_of(plan):
    return shop_elements(station_assembly(plan).of("20m"), beam=plan.beams[0])


def opened(data: bytes):
    return ezdxf.read(io.StringIO(data.decode("utf-8")))


def test_demo_tubes_slide_into_each_other():
    assert build().notices == ()


def test_a_bore_too_tight_or_too_wide_is_said():
    tight = read_plan(
        DEMO.replace('"31.75 mm", "1.20 m", "2.95 mm"', '"27.45 mm", "1.20 m", "1 mm"')
    )
    # 27.45 mm with walls of 1 mm leave 25.45 mm for a tube of 25.40 mm.
    (told,) = [each for each in plan_notices(tight) if each.code == "plan.tube-fit"]
    assert write(told.value, system="metric") == "0.05 mm play"
    assert "plan.tube-fit" not in {each.code for each in plan_notices(PLAN)}
    wide = read_plan(
        DEMO.replace('"19.05 mm", "1.00 m", "1.47 mm"', '"19.05 mm", "1.00 m", "1 mm"')
    )
    codes = {n.code for n in fit_notices(elements_of(wide))}
    assert codes == {"book.tube-fits-loosely"}


def test_stations_of_the_demo_by_hand():
    clamped = read_plan(
        DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  clamp = "2.87 m"')
    )
    stations = {s.name: s.tape for s in build(clamped).boom.stations}
    # Rear end at -0.1 m: reflector 100 mm, driven 2700 mm, director 6100 mm, mast 2970 mm.
    assert stations["1 reflector"].millimetres == 100
    assert stations["2 driven"].millimetres == 2700
    assert stations["mast plate, centre"].millimetres == 2970
    assert stations["3 director 1"].sixteenths_text == "240 3/16"  # 6100 / 25.4 = 240.157
    assert stations["front end"].millimetres == 6200


def test_tubes_that_we_part_meet_clear_of_the_clamp():
    # Equal tubes would meet 50 mm from the clamp; the longest is 3.66 m, so they stay two.
    short = DEMO.replace('stock = ["3.66 m", "6.4 m"]', 'stock = ["3.66 m"]')
    for clamp in ("2.95 m", "3.0 m", ""):
        said = f'rear_end = "-0.1 m"\n  clamp = "{clamp}"' if clamp else 'rear_end = "-0.1 m"'
        shop = build(read_plan(short.replace('rear_end = "-0.1 m"', said))).boom
        assert sum(part.millimetres for part in shop.parts) == 6200
        assert len(shop.parts) == 2
        assert max(part.millimetres for part in shop.parts) <= 3660
        places = {station.kind: station.tape.millimetres for station in shop.stations}
        # Sleeve of five diameters to either side, half of the plate of some 150 mm.
        assert abs(places["joint"] - places["mast"]) > 5 * 51 + 70


def test_without_boom_and_mast_the_sheets_say_so():
    bare = read_plan(DEMO[: DEMO.index("\n  [beam.boom]")])
    made = build(bare)
    codes = {notice.code for notice in made.notices}
    assert {"book.boom-unsaid", "book.mast-place-unknown"} <= codes
    assert [plate.name for plate in made.plates] == ["short of the hairpin"]
    assert made.stamp == "Not to be cut from: the plan does not give the boom (B)"


def test_plate_holes_clear_tubes_and_each_other():
    for boom, mast in ((0.051, 0.0603), (0.0762, 0.0508), (0.1016, 0.0603), (0.0254, 0.0381)):
        plate = clamp_plate(name="mast plate", level="boom", level_diameter=boom,
                            upright="mast", upright_diameter=mast)  # fmt: skip
        rings = [
            (sx * dx, sy * dy, hole)
            for (dx, dy), hole in ((plate.level_holes, plate.level_bolt + 1.0),
                                   (plate.upright_holes, plate.upright_bolt + 1.0))
            for sx in (-1, 1) for sy in (-1, 1)
        ]  # fmt: skip
        for x, y, hole in rings:
            assert abs(x) + hole <= plate.width / 2
            assert abs(y) + hole <= plate.height / 2
        # A U-bolt of thread d bent round a tube D has its legs D + d apart.
        assert 2 * plate.level_holes[1] == pytest.approx(boom * 1e3 + plate.level_bolt, abs=0.5)
        assert 2 * plate.upright_holes[0] == pytest.approx(mast * 1e3 + plate.upright_bolt, abs=0.5)
        for a in rings:
            for b in rings:
                if a is not b:
                    assert np.hypot(a[0] - b[0], a[1] - b[1]) > 1.8 * max(a[2], b[2])


def test_dxf_has_millimetres_layers_and_true_extents():
    made = build()
    for drawing in made.drawings:
        doc = opened(drawing_dxf(drawing))
        assert doc.header["$INSUNITS"] == 4  # millimetres
        assert not doc.audit().errors
        used = {entity.dxf.layer for entity in doc.modelspace()}
        assert used <= {
            "SOLIDS",
            "TUBES",
            "HIDDEN",
            "CENTRE",
            "HOLES",
            "OUTLINE",
            "DIMENSIONS",
            "TEXT",
        }
    element = next(d for d in made.drawings if d.name == "element-1")
    doc = opened(drawing_dxf(element))
    tubes = doc.modelspace().query('LWPOLYLINE[layer=="TUBES"]')
    box = bbox.extents(tubes, fast=True)
    assert box.extmin.x == pytest.approx(0.0, abs=1e-9)
    assert box.extmax.x == pytest.approx(5490.0, abs=1e-6)
    # True diameter, whatever the picture does.
    assert box.size.y == pytest.approx(31.75, abs=1e-6)
    plate = next(d for d in made.drawings if d.name == "mast-plate-MP")
    outline = bbox.extents(opened(drawing_dxf(plate)).modelspace().query('*[layer=="OUTLINE"]'))
    (mast,) = (each for each in made.plates if each.name == "mast plate")
    assert outline.size.x == pytest.approx(1e3 * mast.width)


def test_dxf_is_the_same_to_the_byte():
    drawing = build().drawings[0]
    assert drawing_dxf(drawing) == drawing_dxf(drawing)


def test_picture_and_cad_come_from_one_description():
    drawing = next(d for d in build().drawings if d.name == "element-2")
    shown = [s for s in drawing.shapes if isinstance(s, DrawnTube) and not s.hidden]
    svg = drawing_svg(drawing)
    group = svg[svg.index('data-layer="tubes"') : svg.index('data-layer="hidden"')]
    assert group.count("<rect") == len(shown)
    cad = opened(drawing_dxf(drawing)).modelspace().query('LWPOLYLINE[layer=="TUBES"]')
    assert len(cad) == len(shown)


def _glb(data: bytes):
    magic, version, total = struct.unpack_from("<III", data)
    assert (magic, version, total) == (0x46546C67, 2, len(data))
    size, kind = struct.unpack_from("<II", data, 12)
    assert kind == 0x4E4F534A
    assert size % 4 == 0
    document = json.loads(data[20 : 20 + size])
    length, binary_kind = struct.unpack_from("<II", data, 20 + size)
    assert binary_kind == 0x004E4942
    return document, data[28 + size : 28 + size + length]


def test_assembly_keeps_the_rules_of_gltf():
    """GlTF 2.0 specification, sections 3.6 and 4.4: alignment, bounds, indices, normals."""
    document, binary = _glb(assembly_glb(STATION, beam="20m"))
    assert document["asset"]["version"] == "2.0"
    assert document["buffers"][0]["byteLength"] == len(binary)
    views = document["bufferViews"]
    assert all(view["byteOffset"] % 4 == 0 for view in views)
    assert all(view["byteOffset"] + view["byteLength"] <= len(binary) for view in views)
    corners = []
    for mesh in document["meshes"]:
        (part,) = mesh["primitives"]
        place = document["accessors"][part["attributes"]["POSITION"]]
        normal = document["accessors"][part["attributes"]["NORMAL"]]
        index = document["accessors"][part["indices"]]
        points = np.frombuffer(
            binary, "<f4", place["count"] * 3, views[place["bufferView"]]["byteOffset"]
        ).reshape(-1, 3)
        normals = np.frombuffer(
            binary, "<f4", normal["count"] * 3, views[normal["bufferView"]]["byteOffset"]
        ).reshape(-1, 3)
        faces = np.frombuffer(
            binary, "<u4", index["count"], views[index["bufferView"]]["byteOffset"]
        ).reshape(-1, 3)
        assert np.allclose(points.min(axis=0), place["min"], rtol=0, atol=1e-7)
        assert np.allclose(points.max(axis=0), place["max"], rtol=0, atol=1e-7)
        assert faces.max() < place["count"]
        assert np.allclose(np.linalg.norm(normals, axis=1), 1.0, rtol=0, atol=1e-6)
        # Counter-clockwise triangles look outwards: each agrees with its corners' normals.
        a, b, c = points[faces[:, 0]], points[faces[:, 1]], points[faces[:, 2]]
        facing = np.einsum("ij,ij->i", np.cross(b - a, c - a), normals[faces[:, 0]])
        assert (facing > 0.0).all()
        corners.append((points.min(axis=0), points.max(axis=0)))
    low = np.min([each[0] for each in corners], axis=0)
    high = np.max([each[1] for each in corners], axis=0)
    # glTF x is along the elements: tip to tip 10.98 m; z along the boom: 6.2 m and two caps.
    assert high[0] - low[0] == pytest.approx(10.98, abs=1e-5)
    assert high[2] - low[2] == pytest.approx(6.206, abs=1e-5)


def test_a_station_without_a_known_place_is_still_a_file():
    """GlTF 2.0 specification, section 5.17: no list may be empty; 4.4.3.1: no binary, no chunk."""
    station = station_assembly(read_plan(shape_plan("square-loop", band="20 m")))
    data = assembly_glb(station)
    size, kind = struct.unpack_from("<II", data, 12)
    document = json.loads(data[20 : 20 + size])
    assert (kind, len(data)) == (0x4E4F534A, 20 + size)
    assert [] not in document.values()
    # Its feed line has no place of its own, and stands there all the same.
    assert [node["name"] for node in document["nodes"]] == ["L"]


def solid_masses(data: bytes) -> dict[str, tuple[float, float]]:
    """Of each node: enclosed volume of its triangles times its density, and the mass it states."""
    document, binary = _glb(data)
    views, found = document["bufferViews"], {}
    for node in document["nodes"]:
        if "mesh" not in node:
            continue
        (part,) = document["meshes"][node["mesh"]]["primitives"]
        place, index = (
            document["accessors"][part[key]] if key == "indices"
            else document["accessors"][part["attributes"][key]]
            for key in ("POSITION", "indices")
        )  # fmt: skip
        points = np.frombuffer(
            binary, "<f4", place["count"] * 3, views[place["bufferView"]]["byteOffset"]
        ).reshape(-1, 3).astype(float)  # fmt: skip
        faces = np.frombuffer(
            binary, "<u4", index["count"], views[index["bufferView"]]["byteOffset"]
        ).reshape(-1, 3)
        a, b, c = (points[faces[:, k]] - points.mean(axis=0) for k in range(3))
        volume = float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)
        extras = node["extras"]
        if extras["mass_kg"] is not None:
            key = f"{extras['carrier']} {node['name']}"
            found[key] = (volume * extras["density_kg_m3"], extras["mass_kg"])
    return found


@pytest.mark.parametrize("path", [None, *STATIONS], ids=lambda path: path.stem if path else "demo")
def test_solids_of_the_glb_weigh_what_the_assembly_does(path):
    plan = PLAN if path is None else read_plan(path.read_text(encoding="utf-8"))
    station = station_assembly(plan)
    told = solid_masses(assembly_glb(station))
    for key, (solid, mass) in told.items():
        assert solid == pytest.approx(mass, rel=0.01), key
    placed = {each.name for each in station.carriers if each.origin is not None}
    weighed = [each for each in station.parts if each.mass is not None and each.carrier in placed]
    assert sum(solid for solid, _ in told.values()) == pytest.approx(
        sum(each.mass for each in weighed), rel=0.01
    )


def test_assembly_opens_in_a_gltf_library(tmp_path):
    path = tmp_path / "beam.glb"
    path.write_bytes(assembly_glb(STATION, beam="20m"))
    read = pygltflib.GLTF2().load(str(path))
    names = [node.name for node in read.nodes]
    assert names == [part.mark for part in STATION.of("20m") if part.solids]
    assert {"B", "1.1C", "2.1L", "3.4R", "1.P", "MP"} <= set(names)
    assert path.read_bytes() == assembly_glb(STATION, beam="20m")


def test_calendar_is_read_back_by_a_calendar_library():
    text = "Look; at, everything\nand \\ more " + "ü" * 60
    data = upkeep_calendar(
        title="Ünïted, hut; 1",
        reminders=(
            UpkeepReminder(
                name="Yearly look", text=text, after=365, first="2027-11-25", every_months=12
            ),
            UpkeepReminder(
                name="Guys", text="tension", after=182, first="2027-05-26", every_months=6
            ),
            UpkeepReminder(name="Once", text="bolts", after=7, first="2026-12-02", every_months=0),
        ),
        made="2026-11-25",
        digest="abc",
    )
    # {rfc-5545, section 3.1}: lines end in CR LF and hold 75 octets at most.
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
    calendar = icalendar.Calendar.from_ical(data)
    year, guys, once = calendar.walk("VEVENT")
    assert str(year["DESCRIPTION"]) == text
    assert str(year["SUMMARY"]) == "Yearly look: Ünïted, hut; 1"
    assert year.decoded("DTSTART").isoformat() == "2027-11-25"
    assert year["RRULE"]["FREQ"] == ["YEARLY"]
    assert guys["RRULE"]["INTERVAL"] == [6]
    assert "RRULE" not in once
    assert len({str(event["UID"]) for event in calendar.walk("VEVENT")}) == 3


def test_days_later_by_the_calendar_of_the_standard_library():
    import datetime as dt

    for start, days in (
        ("2026-11-25", 7),
        ("2027-12-30", 3),
        ("2028-02-28", 1),
        ("2026-01-31", 1826),
    ):
        wanted = dt.date.fromisoformat(start) + dt.timedelta(days=days)
        assert _day_after(start, days) == wanted.isoformat()


def test_reminders_follow_guys_and_climbers():
    plain = {r.name for r in upkeep_reminders(today="2026-11-25", guyed=False, climbed=False)}
    full = upkeep_reminders(today="2026-11-25", guyed=True, climbed=True)
    assert {r.name for r in full} - plain == {"Guys", "Harness and lanyards"}
    # {tia-222-g}: guyed every 3 years, others every 5.
    every = {r.name: r.every_months for r in full}
    assert every["Inspection by someone qualified"] == 36
    assert [r.after for r in full] == sorted(r.after for r in full)
    assert all(_day_after("2026-11-25", r.after) == r.first for r in full)


def test_the_cut_list_of_the_book_names_every_sawn_piece():
    blocks = build_blocks([build()], bills=[None], palette=PRINT_PALETTE, system="metric")
    grid = next(
        block for block in blocks if isinstance(block, Grid) and block.columns[0] == "Marks"
    )
    named = {mark.strip() for row in grid.rows for mark in row[0].split(",")}
    sawn = {part.mark for part in STATION.of("20m") if part.cut is not None}
    assert sawn <= named


def crosses(start, end, box):
    """Whether a straight line meets a box; both sampled finely enough for letters of 3 mm."""
    left, low, right, top = box
    points = np.linspace(start, end, 400)[1:-1]
    inside = (points > (left, low)) & (points < (right, top))
    return bool(inside.all(axis=1).any())


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("path", [None, *STATIONS], ids=lambda path: path.stem if path else "demo")
def test_no_leader_of_a_plate_crosses_a_word_a_hole_or_another(path, system):
    plan = PLAN if path is None else read_plan(path.read_text(encoding="utf-8"))
    for beam in plan.beams:
        for plate in made_plates(station_assembly(plan).of(beam.name), mast=0.06):
            shapes = plate_drawing(plate, system=system).shapes
            bores = [each for each in shapes if isinstance(each, Bore)]
            high = 3.8 * 1.37
            boxes = []
            for note in (each for each in shapes if isinstance(each, Note)):
                (x, y), size = note.at, note.size * high
                long = text_width(note.text, size=size)
                boxes.append((x - 0.5 * size, y, x + 0.5 * size, y + long) if note.upright
                             else (x, y - 0.5 * size, x + long, y + 0.5 * size))  # fmt: skip
            leaders = [(each.centre, (each.label[0] - 0.3 * high, each.label[1]))
                       for each in bores if each.text]  # fmt: skip
            for bore, (start, end) in zip((b for b in bores if b.text), leaders, strict=True):
                assert not [box for box in boxes if crosses(start, end, box)]
                for other in (each for each in bores if each is not bore):
                    (x, y), half = other.centre, 0.5 * other.diameter
                    square = (x - half, y - half, x + half, y + half)
                    assert not crosses(start, end, square)
                assert -600.0 * plate.width < end[0] < 600.0 * plate.width
            told = sorted(leaders, key=lambda each: each[1][0])
            assert [start[0] for start, _ in told] == sorted(start[0] for start, _ in told)
