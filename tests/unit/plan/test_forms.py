"""Forms made from the declaration: every key, what is typed, what the file keeps."""

from __future__ import annotations

import re
import tomllib

import pytest

from boomwright.base import PlanError
from boomwright.plan import plan_notices, read_plan, write_plan
from boomwright.plan.faults import FaultList, Place, path_text
from boomwright.plan.forms import Branch, branch_of, confirm, fill, form_of, move, take_out
from boomwright.plan.layout import Layout
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Number
from boomwright.plan.places import kind_at, parse_path, place_words
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import NameOrTable, Tables, TableSpec
from boomwright.plan.tables.root import ROOT
from fakes.desk import PLAN

DRIVEN = ("beam", 0, "element", 1)


def rows_of(spec, path=()):
    """Every row of cells that a table declares, with its place."""
    for field in spec.fields:
        kind, place = field.kind, (*path, field.key)
        if isinstance(kind, NameOrTable):
            kind = kind.table
        if isinstance(kind, ListOf | Tables):
            kind, place = kind.item if isinstance(kind, ListOf) else kind.spec, (*place, 0)
        if isinstance(kind, Row):
            yield path_text(place), kind
        elif isinstance(kind, TableSpec):
            yield from rows_of(kind, place)


def keys_of(form):
    return {each.key: each for each in form.keys}


def faults(text):
    with pytest.raises(PlanError) as refused:
        read_plan(text)
    return refused.value.faults


def test_every_cell_of_a_row_has_a_name():
    for place, row in rows_of(ROOT):
        assert len(row.names) == len(row.items), place
        assert len(set(row.names)) == len(row.names), place


def keys_below(form):
    for key in form.keys:
        yield key
        if key.table is not None:
            yield from keys_below(key.table)


def tables_below(spec=ROOT, path=()):
    """Every table that a plan may have, the first of each list."""
    yield path
    for field in spec.fields:
        kind, place = field.kind, (*path, field.key)
        if isinstance(kind, ListOf | Tables):
            kind, place = kind.item if isinstance(kind, ListOf) else kind.spec, (*place, 0)
        if isinstance(kind, TableSpec):
            yield from tables_below(kind, place)


#: keys whose choice is the names of the other beams
_NAMED_BY_THE_PLAN = {"beam[0].fed_with", "beam[0].on_boom_of"}


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_key_shows_how_it_is_written_or_what_may_be_chosen(system):
    """The other beams are the choice of a key that names one: with one beam there is none."""
    bare = set()
    for place in tables_below():
        for key in keys_below(form_of(PLAN, place, system=system)):
            shown = key.example.strip(". ") or key.options or key.table
            cells = [cell.example for cell in key.cells]
            if not (shown or any(cells)):
                bare.add(key.place)
    assert bare == _NAMED_BY_THE_PLAN


def test_every_example_is_one_that_its_key_takes():
    refused = {}
    for place in tables_below():
        for key in keys_below(form_of(PLAN, place, system="metric")):
            kind = kind_at(parse_path(key.place))
            kind = kind.name if isinstance(kind, NameOrTable) else kind
            if key.input != "line" or not key.example:
                continue
            raw = key.example
            if isinstance(kind, Number):
                raw = int(raw) if kind.whole else float(raw)
            found = FaultList(Layout(""))
            kind.read(raw, Place(faults=found, path=parse_path(key.place), wavelength=20.0))
            if found.sorted():
                refused[key.place] = (raw, found.sorted()[0].message)
    assert refused == {}


def test_every_usual_value_is_one_that_its_key_takes_and_says_where_it_is_from():
    """Read through the declaration itself, in both unit systems."""
    seen = 0
    for system in ("metric", "us"):
        text = fill(PLAN, ("support", "rotator"), {"place": "inside tower"})
        for place in (("support", "rotator"), ("support", "mast"), ("line",), ("prices",),
                      ("beam", 0, "boom"), ("site", "wind_basis"), ("beam", 0, "feed"),
                      ("raising", "haul_line"), ("support",), ("support", "guy", 0)):  # fmt: skip
            form = form_of(text, place, system=system)
            usual = [key for key in form.keys if key.usual]
            assert usual, place
            for key in usual:
                assert key.basis
                values = {key.key: key.usual}
                if key.goes_with:
                    values["kind"] = key.goes_with[0]
                new = fill(text, place, values)
                found = [] if _reads(new) else faults(new)
                # Other keys may be missing; the usual value itself is never refused.
                assert key.place not in {fault.path for fault in found}, key.place
                seen += 1
    assert seen > 40


def _reads(text):
    try:
        read_plan(text)
    except PlanError:
        return False
    return True


def test_a_form_says_what_schema_and_faults_say():
    form = form_of(PLAN, ("beam", 0, "feed"), system="metric")
    schema = ROOT.schema()["properties"]["beam"]["items"]["properties"]["feed"]
    assert form.help
    for key in form.keys:
        assert key.help == schema["properties"][key.key]["description"]
        if key.options:
            assert list(key.options) == schema["properties"][key.key]["enum"]
    assert [key.key for key in form.keys if key.required] == schema["required"]


def test_a_us_reader_meets_no_metric_example_limit_or_usual_value():
    form = form_of(PLAN, ("beam", 0, "boom"), system="us")
    for key in form.keys:
        words = f"{key.example} {key.limits} {key.usual}"
        assert not re.search(r"\d (mm|m|kg|m2)\b", words), (key.key, words)
    assert keys_of(form)["diameter"].example == "2 in"


def test_filling_keeps_remarks_units_and_order():
    text = PLAN.replace('height = "16 m"', 'height = "52 ft 6 in"  # to the boom')
    new = fill(text, ("beam", 0), {"height": "55 ft", "heading": "90 deg"})
    assert new == text.replace("52 ft 6 in", "55 ft").replace('"300 deg"', '"90 deg"')
    new = fill(text, DRIVEN, {"at": "2.7 m"})
    assert 'at = "2.7 m"  # room for the clamp' in new


def test_only_the_cell_that_differs_is_written():
    half = """half = [
    ["25.4 mm", "1.83 m"],  # the stout one
    ["22.2 mm", "1.22 m"],
    ["19.05 mm", "2.08 m"],  # cut last
  ]"""
    text = PLAN.replace(
        'half = [["25.4 mm", "1.83 m"], ["22.2 mm", "1.22 m"], ["19.05 mm", "2.08 m"]]', half
    )
    rows = [["25.4 mm", "1.83 m", ""], ["22.2 mm", "1.3 m", ""], ["19.05 mm", "2.08 m", "1 mm"]]
    new = fill(text, DRIVEN, {"half": rows})
    assert '["22.2 mm", "1.3 m"],\n    ["19.05 mm", "2.08 m", "1 mm"],  # cut last' in new
    assert "# the stout one" in new
    shorter = fill(text, DRIVEN, {"half": rows[:1]})
    assert len(tomllib.loads(shorter)["beam"][0]["element"][1]["half"]) == 1


def test_a_plain_number_stays_a_plain_number():
    text = PLAN.replace('height = "16 m"', "height = 16")
    assert "height = 17.5\n" in fill(text, ("beam", 0), {"height": "17.5"})
    assert 'height = "17.5 m"' in fill(text, ("beam", 0), {"height": "17.5 m"})


def test_tables_are_added_beside_what_they_belong_to():
    text = PLAN + '\n[line]\ntype = "RG-213"\nlength = "40 m"\n'
    boom = {"diameter": "51 mm", "wall": "3.2 mm", "length": "6.2 m", "rear_end": "-0.1 m",
            "material": "6061-T6"}  # fmt: skip
    text = fill(text, ("beam", 0, "boom"), boom)
    assert text.index("[beam.boom]") < text.index("[line]")
    text = fill(
        text, ("beam", 0, "boom", "fitting", 0), {"name": "box", "at": "1 m", "mass": "1 kg"}
    )
    text = fill(text, ("support", "tower"), {"kind": "guyed", "height": "15 m"})
    for number, height in enumerate(("7 m", "14 m")):
        guy = {"height": height, "radius": "11 m", "strand": "3/16 in EHS"}
        text = fill(text, ("support", "guy", number), guy)
    text = fill(text, ("support",), {"soil": "clay"})
    assert text.index("[support]") < text.index("[support.tower]")
    plan = read_plan(text)
    assert [guy.height for guy in plan.support.guy] == [7.0, 14.0]
    assert plan.booms[0].fitting[0].name == "box"
    assert "# the owner's words" in text


def test_a_new_beam_comes_with_its_feed_and_an_element():
    form = form_of(PLAN, ("beam", 1), system="metric")
    assert [table.place for table in form.tables] == ["beam[1].feed", "beam[1].element[0]"]
    values = {
        "name": "15m", "band": ["21 MHz", "21.4 MHz"], "design": "21.2 MHz", "height": "17 m",
        "heading": "300 deg", "material": "6061-T6", "feed": {"kind": "split", "gap": "40 mm"},
        "element": [{"role": "driven", "at": "0 m", "diameter": "20 mm", "length": "6.8 m"}],
    }  # fmt: skip
    plan = read_plan(fill(PLAN, ("beam", 1), values))
    assert [beam.name for beam in plan.beams] == ["20m", "15m"]


def test_a_short_form_becomes_a_table_and_back():
    own = {"permittivity": "13", "conductivity": "5 mS/m"}
    text = fill(PLAN, ("site",), {"ground": own})
    assert read_plan(text).site.ground.permittivity == 13.0
    assert fill(text, ("site",), {"ground": "medium dry"}) == PLAN
    signed = fill(
        PLAN, ("raising",), {"rescue_plan": {"answer": "yes", "by": "A", "on": "2026-05-01"}}
    )
    assert 'rescue_plan = { answer = true, by = "A", on = "2026-05-01" }' in signed
    empty = fill(signed, ("raising",), {"rescue_plan": {"answer": "", "by": "", "on": ""}})
    assert "rescue_plan" not in empty


def test_what_is_empty_leaves_the_plan_and_a_needed_key_is_missed_at_its_place():
    text = fill(PLAN, DRIVEN, {"half": [], "diameter": "22 mm", "length": "10.1 m"})
    assert read_plan(text).beams[0].elements[1].length == pytest.approx(10.1)
    (fault,) = faults(fill(PLAN, ("beam", 0), {"design": ""}))
    assert (fault.path, fault.missing, fault.where) == ("beam[0].design", True, "design")


def test_a_fault_is_named_as_its_owner_would():
    found = faults(fill(PLAN, DRIVEN, {"half": [["25.4 mm", "1.8 furlong"]]}))
    assert found[0].path == "beam[0].element[1].half[0][1]"
    assert found[0].where == "driven element, tube 1, exposed length"
    two = PLAN + PLAN[PLAN.index("[[beam]]") :].replace('"20m"', '"15m"')
    data = tomllib.loads(two)
    assert place_words(("beam", 1, "element", 0, "at"), data) == "beam 15m, reflector, at"
    assert place_words(("beam", 1), data) == "beam 15m"
    assert place_words(("support", "guy", 2, "height"), data) == "support, guy ring 3, height"
    assert place_words((), data) == "plan"


def test_elements_are_numbered_along_the_boom():
    text = PLAN.replace('role = "reflector"\n  at = "0 m"', 'role = "director"\n  at = "8 m"')
    data = tomllib.loads(text)
    words = [place_words(("beam", 0, "element", n), data) for n in range(3)]
    assert words == ["director 2", "driven element", "director 1"]


def test_rows_move_with_their_remarks_and_come_out_again():
    text = PLAN.replace(
        '  [[beam.element]]\n  role = "driven"',
        '  # held by the clamp\n  [[beam.element]]\n  role = "driven"',
    )
    moved = move(text, DRIVEN, -1)
    roles = [element["role"] for element in tomllib.loads(moved)["beam"][0]["element"]]
    assert roles == ["driven", "reflector", "director"]
    assert moved.index("# held by the clamp") < moved.index('"driven"') < moved.index('"reflector"')
    assert move(moved, ("beam", 0, "element", 0), 1) == text
    out = take_out(text, ("beam", 0, "element", 2))
    assert len(tomllib.loads(out)["beam"][0]["element"]) == 2
    with pytest.raises(PlanError, match="fault"):
        move(text, ("beam", 0, "element", 2), 1)


def test_what_others_count_by_number_stays_where_it_is():
    text = PLAN + '\n[wish]\nfrozen = ["beam[0].element[1].length"]\n'
    for change in (lambda: take_out(text, DRIVEN), lambda: move(text, DRIVEN, 1)):
        with pytest.raises(PlanError) as refused:
            change()
        assert "count elements by their number" in refused.value.faults[0].message


def test_a_usual_value_is_marked_until_it_is_confirmed_or_typed():
    feed = {"kind": "hairpin", "rod_diameter": "10 mm", "rod_spacing": "80 mm"}
    text = fill(PLAN, ("beam", 0, "feed"), feed, assumed=("rod_diameter", "rod_spacing"))
    line = {"type": "RG-213", "length": "40 m"}
    text = fill(text, ("line",), line, assumed=("type",))
    assert "  # assumed: rod_diameter, rod_spacing\n" in text
    assert 'type = "RG-213"  # assumed\n' in text
    marked = {path_text(path) for path in PlanText(text).assumptions()}
    assert marked == {"beam[0].feed.rod_diameter", "beam[0].feed.rod_spacing", "line.type"}
    assert keys_of(form_of(text, ("line",), system="metric"))["type"].assumed
    typed = fill(text, ("beam", 0, "feed"), {"rod_diameter": "12 mm"})
    assert "  # assumed: rod_spacing\n" in typed
    assert "assumed" not in confirm(confirm(typed, ("beam",)), ("line", "type"))
    plan = read_plan(text)
    assert [each.where for each in plan.assumed] == [
        "feed, rod diameter", "feed, rod spacing", "line, type"
    ]  # fmt: skip
    assert read_plan(write_plan(plan)).assumed == plan.assumed
    (notice,) = [each for each in plan_notices(plan) if each.code == "plan.assumed"]
    assert "feed, rod diameter; feed, rod spacing; line, type" in notice.said("metric")


def test_an_owners_remark_stays_beside_the_mark():
    text = fill(PLAN, DRIVEN, {"at": "2.5 m"}, assumed=("at",))
    assert 'at = "2.5 m"  # room for the clamp; assumed\n' in text
    assert 'at = "2.5 m"  # room for the clamp\n' in confirm(text, DRIVEN)


def test_the_tree_shows_what_is_there_and_what_may_be_added():
    text = fill(PLAN, ("support", "tower"), {"kind": "guyed", "height": "15 m"})
    support = branch_of(text, ("support",), wanted=lambda path: True)
    assert isinstance(support, Branch)
    assert [each.title for each in support.below] == ["tower"]
    assert {"mast", "rotator", "guy ring", "tube"} <= {each.label for each in support.additions}
    beam = branch_of(text, ("beam", 0), wanted=lambda path: True)
    assert [each.title for each in beam.below][:2] == ["feed", "reflector"]
    assert not beam.below[0].removable
    assert beam.below[1].says.startswith("0 m · 25.4 mm × 1.83 m")


def test_a_key_that_names_a_part_of_the_plan_offers_those_there_are():
    text = PLAN + '\n[measured]\nsweep = "a.s1p"\n'
    probe = keys_of(form_of(text, ("measured", "probe", 0), system="metric"))["element"]
    assert (probe.input, probe.options) == ("choice", ("0", "1", "2"))
    assert probe.called == ("reflector", "driven element", "director 1")
    filled = fill(text, ("measured", "probe", 0), {"element": "2", "ratio": "0.85"})
    assert "element = 2\n" in filled
    two = text + PLAN[PLAN.index("[[beam]]") :].replace('"20m"', '"15m"')
    assert keys_of(form_of(two, ("beam", 1), system="metric"))["on_boom_of"].options == ("20m",)
    assert keys_of(form_of(two, ("measured",), system="metric"))["beam"].options == ("20m", "15m")


def test_a_cell_shows_how_it_is_written():
    choke = keys_of(form_of(PLAN, ("line",), system="metric"))["choke"]
    assert [cell.example for cell in choke.cells] == ["2000 ohm", "3000 ohm"]
    half = keys_of(form_of(PLAN, DRIVEN, system="us"))["half"]
    assert [cell.example for cell in half.cells] == ["1 in", "6 ft 1/16 in", "0.0579 in"]


def test_a_table_written_with_dots_grows_by_keys_with_dots():
    text = PLAN.replace('[site]\nground = "medium dry"', "").replace(
        "boomwright = 1\n", 'boomwright = 1\nsite.ground = "medium dry"  # mine\n'
    )
    new = fill(text, ("site",), {"wind": "40 m/s", "elevation": "22 m"})
    assert 'site.ground = "medium dry"  # mine\nsite.wind = "40 m/s"\n' in new
    assert read_plan(new).site.elevation == 22.0
    based = fill(new, ("site", "wind_basis"), {"kind": "ultimate"})
    assert read_plan(based).site.wind_basis.kind == "ultimate"
