"""Traps of an element: the tubes around them, what they weigh, show to the wind and cost."""

from __future__ import annotations

import csv
import math
import re

import pytest

from boomwright.base.quantity import write
from boomwright.export.cut_list_table import cut_list_csv
from boomwright.plan import Plan, plan_notices, read_plan, write_plan
from boomwright.plan.resolve import beam_cutting, plan_bill, station_assembly, structure_inputs
from boomwright.report.work.build import make_build
from boomwright.session.files import packaged_text
from boomwright.structure import check_structure
from boomwright.structure.beam.elements import element_strength
from boomwright.study.clashes import clash_findings

DEMO = packaged_text("demo.toml")
GOOD = (
    'traps = [{ at = "2.4 m", width = "0.1 m", inductance = "3 uH", capacitance = "19 pF", '
    'quality = 200, mass = "0.4 kg", diameter = "50 mm", length = "0.2 m"%s }]'
)


def trapped(more: str = "") -> Plan:
    return read_plan(
        re.sub(r'  role = "reflector"\n', f'  role = "reflector"\n  {GOOD % more}\n', DEMO, count=1)
    )


@pytest.fixture(scope="module")
def plan() -> Plan:
    return trapped()


def test_a_plan_says_what_a_trap_weighs_and_measures(plan: Plan) -> None:
    (trap,) = plan.beams[0].elements[0].traps
    assert (trap.weighs, trap.wide, trap.long) == (0.4, 0.05, 0.2)
    assert trap.resonance == pytest.approx(21.08e6, rel=1e-3)
    assert read_plan(write_plan(plan)) == plan
    assert "plan.traps" not in {each.code for each in plan_notices(plan)}
    usual = read_plan(DEMO.replace('role = "reflector"\n', 'role = "reflector"\n  traps = [{ at = '
                      '"2.4 m", width = "0.1 m", inductance = "3 uH", capacitance = "19 pF", '
                      "quality = 200 }]\n"))  # fmt: skip
    told = {each.code: each for each in plan_notices(usual)}["plan.traps"]
    assert "taken as 0.5 kg and 60.0 mm wide" in write(told.text, system="metric")
    parts = station_assembly(usual).of("20m", "trap")
    assert {part.known for part in parts} == {"assumed"}


def test_tubes_end_at_a_trap_and_no_metal_is_lost(plan: Plan) -> None:
    bare, made = (
        [part for part in station_assembly(each).of("20m", "element tube")
         if part.group == "element 1"]
        for each in (read_plan(DEMO), plan)
    )  # fmt: skip
    assert len({part.mark for part in made}) == len(made) > len(bare)
    long = [sum(part.solids[0].length for part in parts) for parts in (bare, made)]
    assert long[0] - long[1] == pytest.approx(2 * 0.1)
    weights = [sum(part.mass for part in parts) for parts in (bare, made)]
    assert weights[1] < weights[0]
    for part in made:
        low, high = sorted(abs(end[1]) for end in (part.solids[0].start, part.solids[0].end))
        if part.solids[0].start[1] * part.solids[0].end[1] > 0.0:
            assert high <= 2.35 + 1e-9 or low >= 2.45 - 1e-9
        assert all(0.0 <= at <= part.cut.sawn for hole in part.holes for at in hole.at)
    holes = [sum(h.count for part in parts for h in part.holes) for parts in (bare, made)]
    assert holes[0] == holes[1]


def test_a_trap_is_billed_drawn_and_in_nobodys_way(plan: Plan) -> None:
    (beam,) = plan.beams
    (line,) = [each for each in plan_bill(plan).lines if each.name == "trap for 21.08 MHz"]
    assert (line.quantity, line.unit) == (2.0, "each")
    sawn = {piece.mark for order in beam_cutting(plan, beam).tubes for piece in order.pieces}
    assert any(mark.rstrip("0123456789")[-1] in "mnop" for mark in sawn)
    rows = csv.DictReader(cut_list_csv(plan, beam).decode("utf-8-sig").splitlines())
    lengths = {row["marks"]: float(row["sawn_length [mm]"]) for row in rows}
    # 100 mm lie in the next tube; the trap sits from 2350 to 2450 mm, the next tube from 2700 mm.
    assert (lengths["1.2L 1.2R"], lengths["1.2Ln 1.2Rn"]) == (1250.0, 250.0)
    assert {each.name for each in make_build(plan, beam).drawings}
    assert {each.verdict for each in clash_findings(plan)} == {"within"}


def test_a_trap_in_the_tube_through_the_middle_leaves_three_pieces() -> None:
    near = trapped()
    text = write_plan(near).replace('at = "2.4 m"', 'at = "0.8 m"')
    rows = csv.DictReader(
        cut_list_csv(near := read_plan(text), near.beams[0]).decode("utf-8-sig").splitlines()
    )
    lengths = {row["marks"]: float(row["sawn_length [mm]"]) for row in rows}
    assert (lengths["1.1C"], lengths["1.1Ln 1.1Rn"]) == (1500.0, 350.0)
    assert {each.verdict for each in clash_findings(near)} == {"within"}


def test_it_bends_its_element_by_its_weight_and_wind(plan: Plan) -> None:
    """By hand from the root: 0.4 kg at 2.4 m, and 50 mm in place of the tube over 0.2 m."""
    beam = plan.beams[0]
    element = beam.elements[0]
    with_it, without = (
        element_strength(element=each, material=beam.material, pressure=600.0)
        for each in (element, read_plan(DEMO).beams[0].elements[0])
    )
    root, reached = element.half[0], 0.0
    for section in element.half:
        if reached < 2.4 < reached + section.length:
            tube = section
        reached += section.length
    modulus = (math.pi / 32.0 * (root.diameter**4 - (root.diameter - 2.0 * root.wall) ** 4)
               / root.diameter)  # fmt: skip
    weight = (with_it.sections[0].dead_stress - without.sections[0].dead_stress) * modulus
    assert weight == pytest.approx(0.4 * 9.80665 * 2.4, rel=1e-9)
    wind = with_it.wind_root_moment - without.wind_root_moment
    assert wind == pytest.approx(600.0 * 1.2 * (0.05 - tube.diameter) * 0.2 * 2.4, rel=1e-9)
    assert len(with_it.sections) == len(without.sections)
    assert with_it.half_weight - without.half_weight == pytest.approx(0.4 * 9.80665)


def test_the_body_of_a_trap_is_held_against_its_makers_rating(plan: Plan) -> None:
    def lines(one: Plan) -> dict[str, str]:
        ledger = check_structure(inputs=structure_inputs(one)).ledger
        return {str(each.name): each.verdict for each in ledger if "body of trap" in str(each.name)}

    assert set(lines(plan).values()) == {"not checked"}
    assert set(lines(trapped(', allowed_moment = "500 N m"')).values()) == {"within"}
    assert set(lines(trapped(', allowed_moment = "1 N m"')).values()) == {"exceeded"}


def test_the_station_is_heavier_and_shows_more_to_the_wind(plan: Plan) -> None:
    trapped_beam, bare = (structure_inputs(each).beams[0] for each in (plan, read_plan(DEMO)))
    metal = 2700.0 * sum(
        (math.pi / 4.0) * (s.diameter**2 - (s.diameter - 2.0 * s.wall) ** 2) * 0.1
        for s in plan.beams[0].elements[0].half[1:2]
    )
    masses = [sum(each.mass for each in one.masses) for one in (trapped_beam, bare)]
    assert masses[0] - masses[1] == pytest.approx(2 * (0.4 - metal), abs=0.05)
    assert trapped_beam.drag_area() - bare.drag_area() == pytest.approx(2 * 1.2 * 0.05 * 0.2)
