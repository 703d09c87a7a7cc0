"""Every room names one figure for one thing: structure, raising, cost, book, CSV, DXF and GLB.

The walk writes down what each room says of a thing, files are read back as their readers do; then
no two rooms may differ by more than their rounding.
"""

from __future__ import annotations

import csv
import io
import json
import math
import re
import struct
from collections import defaultdict
from importlib.resources import files
from pathlib import Path

import ezdxf
import numpy as np
import pytest
from ezdxf import bbox

from boomwright.charts import site_plan, station_elevation
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.export.assembly_gltf import assembly_glb
from boomwright.export.cut_list_table import cut_list_csv
from boomwright.export.drawing_dxf import plan_view_dxf
from boomwright.parts import RIGGING_MASS
from boomwright.plan import read_plan
from boomwright.plan.resolve import feed_line, station_assembly
from boomwright.plan.resolve.assembly import swing_radius
from boomwright.plan.shapes import shape_plan
from boomwright.render.json.permits import permits_document
from boomwright.render.json.raising import raising_document
from boomwright.render.json.structure import structure_document
from boomwright.render.work_sheets import work_chapters
from boomwright.render.written import report_on
from boomwright.session.work_files import work_drawings
from boomwright.structure.checks.clearance import swept_points
from boomwright.structure.checks.findings import site_loads
from boomwright.study.cost import price_plan
from boomwright.study.permits import permit_plan
from boomwright.study.raising import raise_plan
from boomwright.study.structure import structure_plan
from example_stations import STATIONS

DEMO = files("boomwright.session").joinpath("data/demo.toml")
WIRE = Path("wire-in-feet.toml")
GRAVITY = 9.80665  # {nist-sp-811}: standard acceleration
#: bought over needed, as the bill says beside its lines {common-practice-estimating} [-]
WASTE = {"guy strand": 1.05, "concrete": 1.08, "feed line": 1.10}
#: densities from the trade's tables, of what is sawn or poured [kg/m^3]
DENSITY = {"6061-T6": 2700.0, "steel": 7850.0, "galvanized steel": 7850.0, "concrete": 2403.0}
SAWN = re.compile(r"tube|, section|^boom, part|^boom$|^pole$|^mast$|^footing$|^anchor block")
TODAY = "2026-11-25"
#: parts of the 3D file that the structure room counts as one thing
STANDS = {
    "mast": r"mast$", "tower": r"tower section", "guys": r"guy \d",
    "gear": r"top bearing|rotator$|rotator shelf|guy ring",
}  # fmt: skip


class Figures:
    """What each room says of each thing."""

    def __init__(self):
        self.said = defaultdict(list)

    def say(self, thing, room, value, *, within=1e-6):
        """Write a figure down, with how far the room may round it [unit of the figure]."""
        if value is not None:
            self.said[thing].append((room, float(value), within))

    def quarrels(self):
        return [
            f"{thing}: {one} {a:.6g}, {other} {b:.6g}"
            for thing, told in self.said.items()
            for k, (one, a, near) in enumerate(told)
            for other, b, far in told[k + 1 :]
            if abs(a - b) > near + far + 1e-6 * abs(a)
        ]

    def rooms(self, thing):
        return {room for room, _, _ in self.said[thing]}


def nodes(data):
    """Nodes of a GLB: name, extras, and corners along x, y (left) and z (up) of their frame.

    A part without a place of its own has no corners.
    """
    size = struct.unpack_from("<I", data, 12)[0]
    document, binary = json.loads(data[20 : 20 + size]), data[28 + size :]
    for node in document["nodes"]:
        if "mesh" not in node:
            node["extras"]["faces"] = np.empty((0, 3), int)
            yield node["name"], node["extras"], np.empty((0, 3))
            continue
        (part,) = document["meshes"][node["mesh"]]["primitives"]
        place = document["accessors"][part["attributes"]["POSITION"]]
        start = document["bufferViews"][place["bufferView"]]["byteOffset"]
        points = np.frombuffer(binary, "<f4", place["count"] * 3, start).reshape(-1, 3)
        corner = document["accessors"][part["indices"]]
        start = document["bufferViews"][corner["bufferView"]]["byteOffset"]
        faces = np.frombuffer(binary, "<u4", corner["count"], start).reshape(-1, 3)
        node["extras"]["faces"] = faces
        yield node["name"], node["extras"], points[:, [2, 0, 1]].astype(float)


def enclosed(points, faces):
    """Volume that triangles enclose [m^3]."""
    points = points - points.mean(axis=0)
    a, b, c = (points[faces[:, k]] for k in range(3))
    return float(np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0)


def walk_structure(figures, plan):
    found = structure_plan(plan, fixes=False)
    document = structure_document(found)
    for row, report in zip(document["beams"], found.report.beams, strict=True):
        boom, name = plan.boom_of(report.name), report.name
        for room, weight in (("structure", report.weight), ("JSON", row["weight_n"])):
            hung = report.name in {beam.name for beam in plan.beams if beam.bent}
            if (boom is not None or hung) and weight is not None:
                figures.say(f"{name} mass", room, weight / GRAVITY)
        figures.say(f"{name} drag area", "structure", report.wind.worst.drag)
        figures.say(f"{name} area of the elements", "structure", report.wind.elements.projected,
                    within=2e-3 * report.wind.elements.projected)  # fmt: skip
        figures.say(f"{name} drag area", "JSON", row["wind"]["worst_m2"]["drag"], within=1e-4)
        if boom is not None and report.balance is not None:
            figures.say(f"{name} balance", "structure", report.balance - boom.rear_end)
            figures.say(f"{name} clamp", "structure", report.clamp - boom.rear_end)
    if found.report.base is not None:
        figures.say("concrete of the footing", "structure", found.report.base.concrete.volume)
    inputs = found.report.inputs
    if inputs.anchor is not None:
        block = inputs.anchor
        figures.say("concrete of one anchor", "structure",
                    block.length * block.width * block.thickness)  # fmt: skip
    figures.say("guys", "structure", sum(level.count for level in inputs.guying) or None)
    strung = sum(math.hypot(level.height - level.anchor_height, level.anchor_radius) * level.count
                 * level.strand.mass_per_length for level in inputs.guying)  # fmt: skip
    figures.say("mass of the guys", "structure", strung or None)
    for name, part in (("mast", inputs.mast), ("pole", inputs.tube), ("tower", inputs.tower)):
        if part is not None and part.weight is not None:
            figures.say(f"mass of the {name}", "structure", part.weight / GRAVITY)
    figures.say("mass of what sits on the support", "structure", inputs.gear_weight / GRAVITY)
    return found


def walk_support(figures, stands):
    """Weigh what stands and turns by the 3D file, as the structure room counts it."""
    ground, mast = stands["ground"], stands["mast"]
    masses = defaultdict(float)
    for _, extras, points in (*ground, *mast):
        name, mass = extras["name"], extras["mass_kg"]
        if mass is None:
            continue
        if name == "pole":
            # The structure room weighs what stands above the ground.
            low, high = float(points[:, 2].min()), float(points[:, 2].max())
            masses["pole"] += mass * (high - max(0.0, low)) / (high - low)
        for thing, names in STANDS.items():
            masses[thing] += mass if re.match(names, name) else 0.0
    for thing in ("mast", "pole", "tower", "guys"):
        figures.say(f"mass of the {thing}", "GLB", masses[thing] or None, within=1e-4)
    figures.say("mass of what sits on the support", "GLB", masses["gear"])


def walk_raising(figures, plan, raising):
    for lift in raising.lifts:
        if lift.lift is None:
            continue
        job, name = lift.lift.job, lift.beam.name
        if plan.raising.mass is None:
            rigging = 0.0 if lift.beam.hung else RIGGING_MASS
            figures.say(f"{name} mass", "raising", job.load.mass - rigging)
            if job.tilt is not None:
                mine = [part.weight / GRAVITY for part in job.tilt.parts if part.name == name]
                figures.say(f"{name} mass", "tilting", sum(mine) if mine else None)
        figures.say(f"{name} balance", "raising", job.load.balance_place)
        figures.say(f"{name} drag area", "raising", job.load.drag_area)
        figures.say(f"{name} swing", "raising", job.swing_radius)
        figures.say("guys", "raising", sum(ring.count for ring in job.guys) or None)


def walk_swing(figures, plan, structure, raising, station):
    """Whoever tells how far a beam reaches as it turns tells one radius."""
    checked = permit_plan(plan, exposure=())
    largest = max(swing_radius(plan, beam) for beam in plan.beams)
    whole = {"permits": checked.installation.around.swing_radius,
             "JSON": permits_document(checked)["around"]["swing_radius_m"]}  # fmt: skip
    for room, far in whole.items():
        figures.say("largest swing", room, far)
    figures.say("largest swing", "assembly", largest)
    drawn = {
        "site plan": site_plan(checked.installation),
        "elevation": station_elevation(plan=plan, installation=checked.installation)
        .partition('data-part="swing"')[2],
    }  # fmt: skip
    for name, picture in drawn.items():
        found = re.search(r'data-radius="([\d.]+)"', picture)
        assert found, name
        figures.say("largest swing", name, found[1], within=6e-3)
    said = re.search(r"Turning radius: (\S+ m)", report_on(checked, system="metric").text())
    far, half = number(said[1])
    figures.say("largest swing", "page and terminal", far, within=half)
    reports = {report.name: report for report in structure.beams}
    documents = {row["name"]: row["lift"] for row in raising_document(raising)["beams"]}
    for beam, mounted in zip(plan.beams, structure.inputs.beams, strict=True):
        name = f"{beam.name} swing"
        figures.say(name, "assembly", swing_radius(plan, beam))
        lift = documents[beam.name]
        figures.say(name, "JSON", None if lift is None else lift["turning_radius_m"])
        if beam.name in reports:
            swept = swept_points(mounted=mounted, report=reports[beam.name], shape="straight",
                                 site=site_loads(inputs=structure.inputs))  # fmt: skip
            figures.say(name, "structure", swept.reach.max())
        axis = station.carrier(beam.name).axis
        if axis is None:
            continue
        drawn = ezdxf.read(io.StringIO(plan_view_dxf(plan, beam).decode()))
        corners = [point[:2] for each in drawn.query('LWPOLYLINE[layer!="CENTRE"]')
                   for point in each.get_points()]  # fmt: skip
        far = np.hypot(*(np.array(corners) / 1e3 - axis).T).max()
        # Tubes are drawn as they are measured, to a millimetre.
        figures.say(name, "DXF", far, within=2e-3)


def walk_drawn_mass(figures, station):
    """Weigh what the 3D file draws by volume and material; bought parts by the density stated."""
    drawn = defaultdict(float)
    for _, extras, points in nodes(assembly_glb(station)):
        if extras["mass_kg"] is not None:
            plain = SAWN.search(extras["name"]) and not extras["name"].startswith("tower")
            density = (DENSITY.get(extras["material"]) if plain else None) or extras[
                "density_kg_m3"
            ]
            # What has no place of its own is no solid, and stands there with its mass.
            drawn[extras["carrier"]] += (
                enclosed(points, extras["faces"]) * density if len(points) else extras["mass_kg"]
            )
    for carrier, mass in drawn.items():
        parts = [part for part in station.parts if part.carrier.removeprefix("#") == carrier]
        listed = sum(part.mass or 0.0 for part in parts)
        figures.say(f"drawn mass of {carrier}", "GLB", mass, within=0.005 * mass)
        figures.say(f"drawn mass of {carrier}", "assembly", listed, within=0.005 * mass)


def walk_glb(figures, plan, station):
    stands = defaultdict(list)
    walk_drawn_mass(figures, station)
    for mark, extras, points in nodes(assembly_glb(station)):
        stands[extras["carrier"]].append((mark, extras, points))
        if extras["carrier"] == "ground" and extras["name"] == "footing":
            figures.say("concrete of the footing", "GLB", extras["mass_kg"] / 2403.0)
        if extras["name"].startswith("anchor block"):
            figures.say("concrete of one anchor", "GLB", extras["mass_kg"] / 2403.0)
    for beam in plan.beams:
        on_it = stands[beam.name]
        if not on_it or any(extras["mass_kg"] is None for _, extras, _ in on_it):
            continue
        if station.carrier(beam.name).origin is not None:
            figures.say(f"{beam.name} mass", "GLB", sum(e["mass_kg"] for _, e, _ in on_it))
            far = max(float(np.hypot(p[:, 0], p[:, 1]).max()) for _, _, p in on_it if len(p))
            # Its sixteen corners lie a little outside of the round tube that they stand for.
            figures.say(f"{beam.name} swing", "GLB", far, within=2e-3)
        for mark, _, points in nodes(assembly_glb(station, beam=beam.name)):
            if not len(points):
                continue
            sides = points.max(axis=0) - points.min(axis=0)
            # A rod may lie askew: it is as long as its corners reach along their own main axis.
            _, _, ways = np.linalg.svd(points - points.mean(axis=0), full_matrices=False)
            figures.say(f"{beam.name} {mark} long", "GLB", np.ptp(points @ ways[0]), within=1e-4)
            if mark == "MP":
                figures.say(f"{beam.name} clamp", "GLB",
                            0.5 * (points[:, 0].max() + points[:, 0].min()))  # fmt: skip
                figures.say(f"{beam.name} mast plate wide", "GLB", sides[0])
                figures.say(f"{beam.name} mast plate high", "GLB", sides[2])
    return stands


def walk_cost(figures, plan, station, stands, bill):
    lines = {line.item: line.quantity for line in bill.lines}
    for order, piece in ((tube, piece) for tube in bill.tubes for piece in tube.pieces):
        if len(plan.beams) == 1:
            figures.say(f"{plan.beams[0].name} {piece.mark} long", "cost", piece.length,
                        within=1e-6 * order.packing.needed)  # fmt: skip
    ground = stands["ground"]
    drawn = {
        "tower section": sum(e["name"].startswith("tower section") for _, e, _ in ground),
        "turnbuckle": sum(e["name"] == "turnbuckle" for _, e, _ in ground),
        "guy anchor": sum(e["name"].startswith("guy anchor") for _, e, _ in ground),
        "top bearing": sum(e["name"] == "top bearing" for _, e, _ in ground),
        "boom cap": sum(len(station.of(beam.name, "cap")) for beam in plan.beams),
    }
    owned = () if plan.prices is None else plan.prices.owned
    for item, count in drawn.items():
        if item in lines or not owned:
            figures.say(f"count of {item}", "cost", lines.get(item, 0))
            figures.say(f"count of {item}", "GLB", count)
    figures.say("guys", "GLB", drawn["turnbuckle"] or None)
    if "concrete" in lines:
        poured = [e["mass_kg"] / 2403.0 for _, e, _ in ground if e["material"] == "concrete"]
        figures.say("concrete of the station", "GLB", sum(poured))
        figures.say("concrete of the station", "cost", lines["concrete"] / WASTE["concrete"])
        figures.say("steel in concrete", "cost", lines["reinforcing steel"])
        steel = [e["mass_kg"] for _, e, _ in ground if e["name"].startswith("steel in")]
        figures.say("steel in concrete", "GLB", sum(steel))
    strands = [(item, much) for item, much in lines.items() if item.startswith("guy strand")]
    if strands:
        guys = [math.hypot(ring.height - ring.anchor_height, ring.anchor_radius) * ring.count
                for ring in plan.support.guy]  # fmt: skip
        figures.say("guy strand", "plan, by hand", sum(guys))
        figures.say("guy strand", "cost", sum(m for _, m in strands) / WASTE["guy strand"])
    line = feed_line(plan)
    for item, much in lines.items():
        if item.startswith("feed line") and line is not None:
            figures.say("feed line", "feed", line[1])
            figures.say("feed line", "cost", much / WASTE["feed line"])
    for _, extras, points in stands["mast"]:
        billed = [much for item, much in lines.items() if item.startswith("mast ")]
        if extras["name"] == "mast" and billed:
            figures.say("mast long", "GLB", points[:, 2].max() - points[:, 2].min(), within=1e-4)
            figures.say("mast long", "cost", billed[0])


def walk_sheets(figures, plan, raising):
    for number, beam in enumerate(plan.beams):
        text = cut_list_csv(plan, beam).decode("utf-8")
        # What is missing before anything is cut stands in a row of its own above the heads.
        text = text[text.index("element_number") :]
        rows = list(csv.DictReader(io.StringIO(text, newline="")))
        for row in rows:
            for mark in row["marks"].split():
                # Places are rounded from the boom outwards, so a piece may be off by two.
                figures.say(f"{beam.name} {mark} long", "CSV",
                            int(row["sawn_length [mm]"]) / 1e3, within=2.1e-3)  # fmt: skip
        shown = [row for row in rows if row["element_number"] and row["exposed_length [mm]"]]
        figures.say(
            f"{beam.name} area of the elements", "CSV",
            sum(2e-6 * float(row["exposed_length [mm]"]) * float(row["diameter [mm]"])
                for row in shown) or None,
        )  # fmt: skip
        drawings = work_drawings(raising, number=number, system="metric")
        for name, data in drawings.items():
            if not name.endswith(".dxf"):
                continue
            document = ezdxf.read(io.StringIO(data.decode()))
            space = document.modelspace()
            measured = [each.get_measurement() for each in space.query("DIMENSION")]
            # Lengths between two places; readings of a tape measure a place.
            drawn = sorted(each for each in measured if isinstance(each, float | int))
            if name.startswith("element-") and name[8:-4].isdigit():
                mine = [row for row in rows if row["element_number"] == name[8:-4]]
                shown = sorted(int(r["exposed_length [mm]"]) for r in mine
                               if r["exposed_length [mm]"])  # fmt: skip
                for k, (a, b) in enumerate(zip(drawn, shown, strict=True)):
                    thing = f"{beam.name} element {name[8:-4]}, exposed length {k}"
                    figures.say(thing, "DXF", a / 1e3, within=1e-5)
                    figures.say(thing, "CSV", b / 1e3, within=1e-5)
            elif name == "mast-plate-MP.dxf":
                wide, high = bbox.extents(space.query('*[layer=="OUTLINE"]')).size.vec2
                figures.say(f"{beam.name} mast plate wide", "DXF", wide / 1e3, within=1e-3)
                figures.say(f"{beam.name} mast plate high", "DXF", high / 1e3, within=1e-3)
            elif name.startswith("piece-"):
                mark = name.removeprefix("piece-").removesuffix(".dxf")
                figures.say(f"{beam.name} {mark} long", "DXF", max(drawn) / 1e3, within=2.1e-3)
            elif name == "boom.dxf":
                size = bbox.extents(space.query('*[layer=="TUBES"]')).size
                figures.say(f"{beam.name} boom long", "DXF", size[0] / 1e3, within=1e-3)
        boom = plan.boom_of(beam.name)
        if boom is not None:
            figures.say(f"{beam.name} boom long", "plan", boom.length)


def number(text):
    """First number of a printed figure, and half its last digit."""
    found = re.search(r"-?\d+(?:\.\d+)?", re.sub(r"(?<=\d)[\u202f\xa0 ](?=\d{3}\b)", "", text))
    assert found, text
    return float(found[0]), 0.5 * 10.0 ** -len(found[0].partition(".")[2])


def walk_book(figures, plan, costing, raising):
    """Read the printed pages of the book, as their reader does."""
    lines = {line.item: line for line in costing.bill.lines if not line.is_open}
    beams = {f"Build sheets of {beam.name}": beam.name for beam in plan.beams}
    lifts = {f"Raising of {beam.name}": beam.name for beam in plan.beams}
    for chapter in work_chapters(costing, raising, palette=PRINT_PALETTE, system="metric"):
        rows = [row for block in chapter.blocks for row in getattr(block, "rows", ())]
        counted_rows = defaultdict(int)
        for row in rows:
            item = row[0].partition("\n")[0]
            if chapter.title == "Quantities and cost" and item in lines and len(row) > 1:
                much, half = number(row[1])
                figures.say(f"bill of {item}", "book", much, within=half)
                figures.say(f"bill of {item}", "cost", lines[item].quantity,
                            within=1e-3 * lines[item].quantity)  # fmt: skip
                if item == "concrete":
                    figures.say("concrete of the station", "book", much / WASTE["concrete"],
                                within=half)  # fmt: skip
            elif chapter.title in beams:
                item = item[:1].lower() + item[1:]
                counted = item in lines and lines[item].unit == "each"
                if len(beams) == 1 and counted and len(row) > 1 and row[1].isdigit():
                    # Fasteners through walls of different thickness have a row each.
                    counted_rows[item] += int(row[1])
                walk_build_row(figures, beams[chapter.title], row)
            elif chapter.title in lifts and row[0] == "Weight" and plan.raising.mass is None:
                much, half = number(row[1])
                rigging = 0.0 if plan.beams[0].hung else RIGGING_MASS
                figures.say(f"{lifts[chapter.title]} mass", "book", much - rigging,
                            within=half)  # fmt: skip
            elif chapter.title in lifts and row[0].startswith("Turning radius"):
                far, half = number(row[1])
                figures.say(f"{lifts[chapter.title]} swing", "book", far, within=half)
            elif chapter.title in lifts and row[0] == "Balance point":
                figures.say(f"{lifts[chapter.title]} balance", "book", number(row[1])[0] / 1e3,
                            within=6e-4)  # fmt: skip
            elif chapter.title == "Support and ground" and len(row) in {8, 9} and "°" in row[2]:
                # By compass stands beside the true bearings where the declination is known.
                long, half = number(row[-3])
                count = row[2].count("°")
                figures.say(f"guys at {number(row[0])[0]:.1f} m", "book", long * count,
                            within=half * count)  # fmt: skip
        for item, count in counted_rows.items():
            figures.say(f"bill of {item}", "build sheets", count)
    for ring in plan.support.guy if plan.support else ():
        tube, hole = plan.support.tube, 0.025
        out = 0.0 if tube is None else 0.5 * tube.diameter + hole
        long = math.hypot(ring.height - ring.anchor_height, ring.anchor_radius - out)
        figures.say(f"guys at {ring.height:.1f} m", "plan, by hand", long * ring.count)


def walk_build_row(figures, beam, row):
    if len(row) == 9 and row[2].startswith("Ø") and row[1].isdigit():
        marks = row[0].split(", ")
        assert len(marks) == int(row[1])
        for mark in marks:
            figures.say(f"{beam} {mark} long", "book", number(row[3])[0] / 1e3, within=2.1e-3)
    elif row[0].startswith("MP mast plate, centre"):
        figures.say(f"{beam} clamp", "book", number(row[1])[0] / 1e3, within=6e-4)
    elif row[0].startswith("balance point") and "without cable" not in row[0]:
        figures.say(f"{beam} balance", "book", number(row[1])[0] / 1e3, within=6e-4)
    elif row[0] == "front end":
        figures.say(f"{beam} boom long", "book", number(row[1])[0] / 1e3, within=6e-4)
    elif row[0] == "MP" and len(row) > 2 and " x " in row[2]:
        wide, high, _ = row[2].split(" x ")
        figures.say(f"{beam} mast plate wide", "book", number(wide)[0] / 1e3, within=1e-3)
        figures.say(f"{beam} mast plate high", "book", number(high)[0] / 1e3, within=1e-3)


def plan_of(path):
    """A plan of a file, or a new one of wire, written in feet."""
    if path is WIRE:
        return read_plan(shape_plan("hexagon", band="20 m", units="us"))
    return read_plan(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize("path", [DEMO, *STATIONS, WIRE], ids=lambda path: path.name[:-5])
def test_no_room_has_a_second_figure_for_a_thing(path):
    plan = plan_of(path)
    figures = Figures()
    report = walk_structure(figures, plan).report
    raising = raise_plan(plan, today=TODAY)
    walk_raising(figures, plan, raising)
    station = station_assembly(plan, structure=report)
    stands = walk_glb(figures, plan, station)
    if plan.support is not None:
        walk_support(figures, stands)
    costing = price_plan(plan, today=TODAY)
    walk_cost(figures, plan, station, stands, costing.bill)
    walk_sheets(figures, plan, raising)
    walk_book(figures, plan, costing, raising)
    walk_swing(figures, plan, report, raising, station)
    assert figures.quarrels() == []
    # The walk meets something: a thing that one room alone speaks of compares nothing.
    met = [thing for thing in figures.said if len(figures.rooms(thing)) > 1]
    assert len(met) >= 5
    if path is DEMO:
        assert {"structure", "JSON", "raising", "GLB"} <= figures.rooms("20m mass")
        assert {"structure", "raising", "JSON", "GLB", "DXF", "book"} <= figures.rooms("20m swing")
        assert {"assembly", "permits", "JSON", "site plan", "elevation",
                "page and terminal"} <= figures.rooms("largest swing")  # fmt: skip
        assert {"structure", "GLB"} <= figures.rooms("concrete of the footing")
        assert {"structure", "CSV"} <= figures.rooms("20m area of the elements")
        assert {"cost", "build sheets"} <= figures.rooms("bill of rivet or screw 4.8 mm")
        assert {"cost", "GLB"} <= figures.rooms("concrete of the station")
        assert {"cost", "CSV", "DXF", "GLB", "book"} <= figures.rooms("20m 1.2L long")
        for thing in ("mass", "balance", "clamp", "boom long", "mast plate wide"):
            assert "book" in figures.rooms(f"20m {thing}")
        assert "book" in figures.rooms("concrete of the station")
        assert figures.rooms("bill of turnbuckle") == {"book", "cost"}
        assert {"book", "plan, by hand"} <= figures.rooms("guys at 7.5 m")
        for thing in ("mast", "pole", "guys"):
            assert figures.rooms(f"mass of the {thing}") == {"structure", "GLB"}
