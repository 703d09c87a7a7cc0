"""What nobody gave of a station's parts stands in one list, and every usual figure is in it."""

from __future__ import annotations

import re
import sys

import pytest

from boomwright.base.quantity import places_in
from boomwright.charts.blocks import Grid
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.parts import GROUND, hardware
from boomwright.plan import read_plan
from boomwright.plan.resolve import assembly, station_assembly
from boomwright.plan.schema import plan_schema
from boomwright.plan.shapes import SHAPES, shape_plan
from boomwright.plan.tables.boom import HARDWARE
from boomwright.plan.tables.line import LINE_HARDWARE
from boomwright.plan.tables.support import SUPPORT_HARDWARE
from boomwright.render.work_sheets import build_sheet
from boomwright.report.build.assumed import _SETTLED, taken_parts
from boomwright.session.files import packaged_text
from example_stations import STATIONS
from fakes.forgotten import forget_stations
from full_plan import FULL

DEMO = packaged_text("demo.toml")
TEXTS = {"demo": DEMO, "full": FULL} | {
    path.stem: path.read_text(encoding="utf-8") for path in STATIONS
}
THREE = ("demo", *(name for name in TEXTS if name.startswith(("04", "11"))))


def taken(text):
    return taken_parts(station_assembly(read_plan(text)).parts)


def names(text):
    return {each.name for each in taken(text)}


def masses(plan):
    # What is remembered of a plan was made with the figures of that moment.
    forget_stations()
    parts = station_assembly(plan).parts
    forget_stations()
    return {(part.carrier, part.mark): part.mass or 0.0 for part in parts}


def usual_figures():
    """Every figure of the trade that parts are made with: its name, and it doubled."""
    found = {name: value for name, value in vars(hardware).items() if name.isupper()}
    found |= {name: vars(assembly)[name] for name in ("DEFAULT_SECTION", "DEFAULT_DROP")}
    for name, value in found.items():
        yield name, tuple(2.0 * each for each in value) if isinstance(value, tuple) else 2.0 * value


@pytest.mark.parametrize("name", THREE)
def test_whatever_weighs_by_a_usual_figure_is_in_the_list(name, monkeypatch):
    plan = read_plan(TEXTS[name])
    listed = {(part.carrier, part.mark) for each in taken(TEXTS[name]) for part in each.parts}
    # Parts that share out what the owner weighed are the owner's all together.
    listed |= {(part.carrier, part.mark) for part in station_assembly(plan).parts
               if part.basis.startswith("its mass is its share")}  # fmt: skip
    before, moved = masses(plan), set()
    rooms = [room for key, room in sys.modules.items() if key.startswith("boomwright.parts")]
    for figure, doubled in usual_figures():
        with monkeypatch.context() as patch:
            for room in (*rooms, assembly):
                if figure in vars(room):
                    patch.setattr(room, figure, doubled)
            after = masses(plan)
        changed = {key for key in before if key in after
                   and before[key] != pytest.approx(after[key], rel=1e-3)}  # fmt: skip
        assert changed <= listed, figure
        moved |= {figure} if changed else set()
    assert len(moved) >= 8


def test_each_part_stands_once_and_every_plan_can_be_listed():
    shapes = [shape_plan(shape, band="20 m", further=("15 m",) * (shape == "two-band-dipole"))
              for shape in SHAPES]  # fmt: skip
    for text in (*TEXTS.values(), *shapes):
        marks = [(part.carrier, part.mark) for each in taken(text) for part in each.parts]
        assert len(marks) == len(set(marks))
        assert all(each.settle for each in taken(text))


#: what a plan cannot override, and why
WITHOUT_A_KEY = {
    "element tubes": "the wall stands in the row of its tube",
    "phasing lines": "something else carries them, and nothing counts their weight",
    "ropes": "they run to what the owner measures, and nothing counts their weight",
}


def keys_in(table):
    """Keys of a table of the plan, by its exported schema."""
    node = plan_schema()
    for name in table.split("."):
        node = node["properties"][name]
        node = node.get("items", node)
        node = next((each for each in node.get("anyOf", ()) if "properties" in each), node)
    return set(node["properties"])


def test_every_figure_that_is_taken_names_a_key_of_the_plan():
    for name, settle in _SETTLED.values():
        places = places_in(settle)
        assert bool(places) != (name in WITHOUT_A_KEY), name
        for place in places:
            assert set(place.keys) <= keys_in(place.table), place
    shapes = [shape_plan(shape, band="20 m", further=("15 m",) * (shape == "two-band-dipole"))
              for shape in SHAPES]  # fmt: skip
    named = {name for name, _ in _SETTLED.values()}
    for text in (*TEXTS.values(), *shapes):
        assert {each.name for each in taken(text)} <= named


def given(spec):
    """All of a table as its own examples write it."""
    return ", ".join(field.example for field in spec.fields)


#: what stays in the list when all hardware is given as its examples say: other tables settle it
LEFT = {
    "demo": {"top bearing", "rotator", "element plates", "fittings of the boom"},
    "04": {"tower sections", "top bearing", "rotator", "fittings of the boom", "boom truss"},
    "hexagon": {
        "hub of the spreaders",
        "spreaders",
        "top bearing",
        "rotator",
        "lower end of the mast",
    },
}


@pytest.mark.parametrize("name", list(LEFT))
def test_all_hardware_that_is_given_leaves_the_list(name):
    if name == "hexagon":
        text = shape_plan("hexagon", band="20 m")
        held = "  [beam.frame]\n"
    else:
        text = next(text for key, text in TEXTS.items() if key.startswith(name))
        held = re.search(r"  \[beam\.boom\].*\n", text)[0]
    before = names(text)
    fits = "44 mm" if name == "demo" else "56 mm"
    own = given(HARDWARE).replace('sleeve = ["44 mm", ', f'sleeve = ["{fits}", ')
    text = text.replace(held, f"{held}  hardware = {{ {own} }}\n", 1)
    for table, spec in (("support", SUPPORT_HARDWARE), ("line", LINE_HARDWARE)):
        if re.search(rf"^ *\[{table}[].]", text, re.MULTILINE):
            text += f"\n[{table}.hardware]\n" + "\n".join(each.example for each in spec.fields)
    after = names(text)
    assert after < before
    assert after <= LEFT[name]
    # Given as the trade takes them, masses stay what they are but for those that differ.
    plan = read_plan(text)
    assert station_assembly(plan).mass(plan.beams[0].name) is not None


BALUN = ', { name = "balun and coax", mass = "1.1 kg", stands_for = "feed box" }'
IN_BOOM = "  hardware = {{ {} }}\n  fitting = ["
GIVEN = (
    ("choke or balun box", "", BALUN),
    ("mast plate", "  fitting = [",
     IN_BOOM.format('mast_plate = ["200 mm", "180 mm", "8 mm"]')),
    ("element plates", "  fitting = [",
     IN_BOOM.format('element_plate = ["170 mm", "130 mm", "5 mm"]')),
    ("top bearing", "  [support.mast] ", '  [support.mast]\n  bearing_mass = "2 kg" '),
    ("turnbuckles", "[support]\n", "[support]\nhardware = { turnbuckle_mass = \"1.4 kg\" }\n"),
    ("two guy grips with thimbles", "[support]\n",
     "[support]\nhardware = { guy_grip_mass = \"0.3 kg\" }\n"),
    ("guy rings on the pole", "[support]\n",
     "[support]\nhardware = { guy_ring_mass = \"3 kg\" }\n"),
    ("rotator shelf or cage", "[support]\n",
     "[support]\nhardware = { shelf_mass = \"6 kg\" }\n"),
    ("rotator", "  [support.rotator] ", '  [support.rotator]\n  mass = "9 kg" '),
)  # fmt: skip


@pytest.mark.parametrize(("name", "left_out", "entered"), GIVEN, ids=[each[0] for each in GIVEN])
def test_what_the_owner_enters_leaves_the_list(name, left_out, entered):
    said = entered if entered in DEMO else left_out
    assert DEMO.count(said) == 1, said
    assert name in names(DEMO.replace(said, left_out))
    assert name not in names(DEMO.replace(said, entered))


def test_hardware_of_the_support_weighs_what_its_owner_says():
    said = (
        '[support]\nhardware = { shelf_mass = "6 kg", guy_ring_mass = "3 kg", '
        'guy_grip_mass = "0.3 kg", turnbuckle_mass = "1.4 kg" }\n'
    )
    station = station_assembly(read_plan(DEMO.replace("[support]\n", said)))
    found = {part.mark: part.mass for part in station.of(GROUND)}
    # Two grips, one at either end of a guy, are one part.
    assert [found[mark] for mark in ("SH", "GR1", "GG1.1", "GT2.3")] == pytest.approx(
        [6.0, 3.0, 0.6, 1.4]
    )


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_build_sheets_end_with_the_list(system):
    plan = read_plan(DEMO)
    sheet = build_sheet(plan, numbers=[0], palette=PRINT_PALETTE, system=system)
    (grid,) = [each for each in sheet.blocks if isinstance(each, Grid)
               and "To settle it" in each.columns]  # fmt: skip
    rows = {row[0]: row for row in grid.rows}
    assert len(rows) == len(taken(DEMO))
    assert rows["Turnbuckles"][1] == "6"
    assert rows["Turnbuckles"][3].replace("\u00a0", " ").replace("\u202f", " ") == (
        "7.2 kg" if system == "metric" else "15.9 lb"
    )
    # The pole stands in its pier.
    assert "Anchor bolts and template" not in rows
    assert rows["Saddles"][2] == "sizes by common practice, weight yours"
    assert all(row[2] for row in rows.values())
    # Nothing weighs nothing.
    assert "0.0" not in {row[3].split()[0] for row in rows.values()}
