"""The assembly of a station: every part once, where it stands, what it weighs."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from boomwright.parts import (
    GROUND,
    KNOT,
    MAST,
    Assembly,
    Bar,
    Carrier,
    Part,
    centre_of,
    find_clashes,
)
from boomwright.plan import read_plan
from boomwright.plan.resolve import assembly, plan_bill, station_assembly
from boomwright.session.files import packaged_text
from example_stations import STATIONS

DEMO = packaged_text("demo.toml")
PLAN = read_plan(DEMO)
DEMO_STATION = station_assembly(PLAN)


def part(mark, carrier="20m", station=DEMO_STATION):
    return next(each for each in station.of(carrier) if each.mark == mark)


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem)
def test_every_tube_of_a_station_is_there_once(path):
    plan = read_plan(path.read_text(encoding="utf-8"))
    station = station_assembly(plan)
    for beam in plan.beams:
        for number, element in enumerate(sorted(beam.elements, key=lambda e: e.position), 1):
            if element.bent:
                wires = [
                    each
                    for each in station.of(beam.name, "wire")
                    if each.group == f"element {number}"
                ]
                shown = sum(each.quantity - 2.0 * KNOT for each in wires)
                assert shown == pytest.approx(element.length, rel=1e-9)
                continue
            tubes = [
                each
                for each in station.of(beam.name, "element tube")
                if each.group == f"element {number}"
            ]
            gap = beam.feed.gap if element.role == "driven" and beam.feed.cuts_element else 0.0
            shown = sum(each.cut.exposed for each in tubes)
            assert shown == pytest.approx(element.length - gap, rel=1e-12)
            reach = max(abs(bar.end[1]) for each in tubes for bar in each.solids)
            assert reach == pytest.approx(element.half_length, rel=1e-12)
            for each in tubes:
                assert each.cut.sawn == pytest.approx(each.cut.exposed + each.cut.overlap)
                assert each.quantity == each.cut.sawn


def test_an_overlap_lies_inside_the_larger_tube():
    inner, outer = part("1.2L"), part("1.1C")
    (bar,), (around,) = inner.solids, outer.solids
    # 100 mm, more than three diameters of 25.4 mm; the larger tube ends 1.2 m from the boom
    assert around.end[1] == pytest.approx(1.2)
    assert bar.start[1] == pytest.approx(1.1)
    assert inner.cut.sawn == pytest.approx(1.6)
    assert bar.diameter < around.bore


def test_tubes_weigh_what_their_metal_weighs():
    # 2.4 m of 31.75 x 2.95 mm: by hand, pi (d - w) w L rho
    by_hand = math.pi * (0.03175 - 0.00295) * 0.00295 * 2.4 * 2700.0
    assert part("1.1C").mass == pytest.approx(by_hand, rel=1e-12)
    assert part("PO", GROUND).mass == pytest.approx(
        math.pi * (0.1143 - 0.0054) * 0.0054 * 15.45 * 7850.0, rel=1e-12
    )


def test_the_concrete_is_the_plans():
    # pier 0.8 m square, 1.4 m deep; three blocks of 0.9 x 0.6 x 0.5 m
    blocks = DEMO_STATION.of(GROUND, "concrete")
    assert sum(each.quantity for each in blocks) == pytest.approx(0.8**2 * 1.4 + 3 * 0.27)
    assert sum(each.volume for each in blocks) == pytest.approx(0.8**2 * 1.4 + 3 * 0.27)


def test_guys_run_from_the_pole_to_their_anchors():
    guys = DEMO_STATION.of(GROUND, "guy")
    strands = [each for each in guys if each.form == "strand"]
    assert len(strands) == 6
    assert sum(each.quantity for each in strands) == pytest.approx(
        3 * (math.hypot(14.0, 11.0) + math.hypot(7.5, 11.0))
    )
    assert len(DEMO_STATION.of(GROUND, "anchor")) == 3
    first = strands[0].solids[0]
    assert first.end == pytest.approx((11.0, 0.0, 0.0), abs=1e-9)


def test_a_beam_stands_on_its_mast_and_looks_where_it_fires():
    clamped = read_plan(DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  clamp = "3 m"'))
    station = station_assembly(clamped)
    beam = station.carrier("20m")
    assert beam.rotor == MAST
    # Boom 51 mm, mast 60.3 mm, plate 6 mm: the axes stand 61.65 mm apart.
    boom = [beam.at_foot((along, 0.0, 0.0)) for along in (0.0, 3.1, 6.2)]
    assert math.hypot(*boom[1][:2]) == pytest.approx(0.06165, abs=1e-9)
    assert all(point[2] == pytest.approx(16.0) for point in boom)
    # 300 degrees: the front end lies to the north-west of the rear end.
    north, west = boom[2][0] - boom[0][0], boom[2][1] - boom[0][1]
    assert math.degrees(math.atan2(-west, north)) % 360.0 == pytest.approx(300.0)


def test_an_owners_offset_places_the_mast():
    given = DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  offset = "90 mm"')
    mast = station_assembly(read_plan(given)).carrier("20m").at_foot((0.0, 0.0, 0.0))
    beam = station_assembly(read_plan(given)).carrier("20m")
    # The boom lies 90 mm to the left of the mast: in its own frame the mast lies to its right.
    left = (math.sin(beam.heading), math.cos(beam.heading))
    assert mast[0] * left[0] + mast[1] * left[1] == pytest.approx(0.09)


def test_what_is_missing_is_named_and_never_guessed():
    plan = read_plan(STATIONS[8].read_text(encoding="utf-8"))
    station = station_assembly(plan)
    (beam,) = plan.beams
    assert station.carrier(beam.name).origin is None
    assert station.carrier(beam.name).missing
    thin = DEMO.replace('["15.88 mm", "1.79 m", "1.47 mm"]', '["15.88 mm", "1.79 m"]')
    station = station_assembly(read_plan(thin))
    assert station.mass("20m") is None
    assert {each.mark for each in station.of("20m") if each.known == "unknown"} == {
        "1.4L",
        "1.4R",
        "MP",
    }


def test_the_balance_point_is_that_of_all_parts():
    moment = whole = 0.0
    for each in DEMO_STATION.of("20m"):
        if each.group != "mast plate":
            moment += each.mass * centre_of(each)[0]
            whole += each.mass
    assert DEMO_STATION.balance("20m") == pytest.approx(moment / whole, rel=1e-12)


def test_hardware_of_the_plan_replaces_the_trades():
    told = DEMO.replace(
        "  fitting = [",
        '  hardware = { mast_plate = ["200 mm", "180 mm", "8 mm"], rods = "forward", '
        'element_plate = ["170 mm", "130 mm", "5 mm"] }\n  fitting = [',
    )
    station = station_assembly(read_plan(told))
    plate = part("MP", station=station)
    assert sorted(plate.solids[0].size) == pytest.approx([0.008, 0.18, 0.2])
    assert plate.known == "plan"
    assert part("1.P", station=station).solids[0].size == pytest.approx((0.13, 0.17, 0.005))
    rod = part("R1", station=station)
    assert rod.solids[0].end[0] > rod.solids[0].start[0]
    # Left to us, the rods run away from the mast.
    away = part("R1").solids[0]
    assert away.end[0] < away.start[0]


def test_marks_are_unique_and_carriers_known():
    one = Part(mark="A", name="a", role="x", carrier=GROUND, group="g", form="bought",
               material="steel")  # fmt: skip
    ground = Carrier(name=GROUND, origin=(0.0, 0.0, 0.0))
    with pytest.raises(ValueError, match="marks"):
        Assembly(parts=(one, one), carriers=(ground,))
    with pytest.raises(ValueError, match="marks"):
        Assembly(parts=(one,), carriers=())


def test_every_solid_has_a_size():
    for each in DEMO_STATION.parts:
        for solid in each.solids:
            assert solid.volume > 0.0, each.mark
            if isinstance(solid, Bar):
                assert solid.bore < solid.diameter


def test_a_beam_may_be_called_mast():
    station = station_assembly(read_plan(DEMO.replace('name = "20m"', 'name = "mast"')))
    assert len(station.of("mast")) == len(DEMO_STATION.of("20m"))
    assert len(station.of(MAST)) == 1


def test_guy_rings_hold_the_guys_to_a_pole():
    rings = DEMO_STATION.of(GROUND, "guy ring")
    assert [each.name for each in rings] == ["guy ring of level 1", "guy ring of level 2"]
    lines = {line.item: line.quantity for line in plan_bill(PLAN).lines}
    assert lines["guy ring with clamp"] == 2.0
    pole = part("PO", GROUND).solids[0]
    for number, ring in enumerate(rings, start=1):
        (plate,) = ring.solids
        guys = [each.solids[0] for each in DEMO_STATION.of(GROUND, "guy")
                if each.mark.startswith(f"G{number}.")]  # fmt: skip
        assert plate.bore == pytest.approx(pole.diameter)
        assert {bar.start[2] for bar in guys} == {plate.middle[2]}
        # 50 mm of plate around the pole, 8 mm thick.
        by_hand = math.pi * (pole.diameter + 0.05) * 0.05 * 0.008 * 7850.0
        assert ring.mass == pytest.approx(by_hand, rel=1e-9)


def test_earth_rods_stand_beside_the_footing_and_clear_of_the_guys():
    rods = DEMO_STATION.of(GROUND, "earth rod")
    assert len(rods) == PLAN.line.earth_rods > 0
    (footing,) = [each for each in DEMO_STATION.of(GROUND, "concrete") if each.mark == "CB"]
    for rod in rods:
        (bar,) = rod.solids
        assert bar.start[2] == 0.0
        assert bar.end[2] == pytest.approx(-2.44)
        assert rod.mass == pytest.approx(math.pi / 4.0 * 0.016**2 * 2.44 * 7850.0)
        assert math.hypot(*bar.start[:2]) > math.hypot(*footing.solids[0].size[:2]) / 2.0
    tops = [rod.solids[0].start for rod in rods]
    assert all(math.dist(a, b) > 2.43 for k, a in enumerate(tops) for b in tops[k + 1 :])
    below = {each.mark for each in (*rods, *DEMO_STATION.of(GROUND, "guy ring"))}
    assert not [clash for clash in find_clashes(DEMO_STATION)
                if {clash.one.mark, clash.other.mark} & below]  # fmt: skip


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem)
def test_parts_of_a_boom_do_not_depend_on_how_high_it_hangs(path, monkeypatch):
    """They are remembered without height, neighbours and guys: with them nothing differs."""
    plan = read_plan(path.read_text(encoding="utf-8"))
    kept = station_assembly(plan).parts
    remembered = assembly._balanced

    def whole(frame, *args, **said):
        real = next(beam for beam in plan.beams if beam.name == frame.beam.name)
        return remembered.__wrapped__(replace(frame, beam=real), *args, **said)

    monkeypatch.setattr(assembly, "_balanced", whole)
    assert station_assembly(plan).parts == kept


def fed(*, diameter, gap, spacing):
    """The demo with a driven element of one tube: fed in its gap, with or without rods."""
    (beam,) = PLAN.beams
    half = (replace(beam.elements[1].half[0], diameter=diameter, length=5.0),)
    feed = replace(beam.feed, gap=gap, rod_spacing=spacing)
    if spacing is None:
        feed = replace(feed, kind="split", rod_diameter=None, rod_length=None)
    elements = (beam.elements[0], replace(beam.elements[1], half=half), beam.elements[2])
    changed = replace(beam, elements=elements, feed=feed)
    return station_assembly(replace(PLAN, beams=(changed,)))


@pytest.mark.parametrize("spacing", [None, 0.04, 0.08, 0.14, 0.24])
@pytest.mark.parametrize("diameter", [0.012, 0.02, 0.03175, 0.04, 0.05])
def test_no_terminal_lies_under_what_holds_the_element(diameter, spacing):
    for gap in (0.012, 0.02, 0.04, 0.05):
        station = fed(diameter=diameter, gap=gap, spacing=spacing)
        tube = part("2.1L", station=station)
        (hole,) = (each for each in tube.holes if each.purpose == "feed terminal")
        terminal = min(tube.solids[0].start[1], tube.solids[0].end[1]) + hole.at[0]
        for mark in ("2.S1", "2.J1"):
            low, high = (sign * 0.015 + centre_of(part(mark, station=station))[1]
                         for sign in (-1.0, 1.0))  # fmt: skip
            # A washer of the 5 mm screw is 10 mm wide, its spanner goes round the nut.
            assert not low - 0.012 < terminal < high + 0.012
        bolt, plate = part("2.U1", station=station), part("2.P", station=station)
        away = {round(abs(bar.middle[1]), 6) for bar in bolt.solids}
        assert away == {round(abs(centre_of(part("2.S1", station=station))[1]), 6)}
        # Two hole diameters of metal are left outside of the hole.
        assert 0.5 * plate.solids[0].size[1] >= max(away) + 0.018 - 1e-9


def test_the_rods_of_a_hairpin_let_its_short_slide_both_ways():
    rods = [part(mark) for mark in ("R1", "R2")]
    (axis,) = {part(mark).solids[0].start[0] for mark in ("2.1L",)}
    short = part("RS").solids[0]
    for rod in rods:
        (bar,) = rod.solids
        ends = sorted((bar.start[0], bar.end[0]))
        assert ends[0] <= short.middle[0] - 0.5 * short.size[0] - 0.03
        # The terminal screw of the half goes through the rod on the element's axis.
        (hole,) = (each for each in rod.holes if each.purpose == "feed terminal")
        assert ends[1] - hole.at[0] == pytest.approx(axis)
        assert hole.at[0] >= 2.0 * hole.diameter
        assert rod.cut.sawn == pytest.approx(ends[1] - ends[0])


def test_a_block_fills_the_room_between_boom_and_short_and_touches_no_rod():
    (block,), (short,) = part("RB").solids, part("RS").solids
    (boom,), (rod,) = part("B").solids, part("R1").solids
    assert block.middle[2] - 0.5 * block.size[2] == pytest.approx(0.5 * boom.diameter)
    assert block.middle[2] + 0.5 * block.size[2] == pytest.approx(
        short.middle[2] - 0.5 * short.size[2]
    )
    assert 0.5 * block.size[1] <= rod.start[1] - 0.5 * rod.diameter - 0.005
    # A rod lies on its half, it does not run through it.
    (half,) = part("2.1L").solids
    assert rod.start[2] - half.start[2] == pytest.approx(0.5 * (rod.diameter + half.diameter))


def test_the_box_hangs_clear_of_the_u_bolts_of_the_driven_plate():
    (box,) = part("K").solids
    ends = box.middle[0] - 0.5 * box.size[0], box.middle[0] + 0.5 * box.size[0]
    for mark in ("2.V1", "2.V2"):
        for bar in part(mark).solids:
            away = 0.5 * bar.diameter
            assert not ends[0] - away < bar.middle[0] < ends[1] + away
