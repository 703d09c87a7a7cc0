"""Second conductor of a folded element: what is sawn, how it hangs, where it shows."""

from __future__ import annotations

import math
import re

import pytest

from boomwright.export.cut_list_table import cut_list_csv
from boomwright.plan import read_plan
from boomwright.plan.resolve import beam_cutting, station_assembly, structure_inputs
from boomwright.report.work.build import make_build
from boomwright.session.files import packaged_text
from boomwright.structure import check_structure
from boomwright.structure.beam.elements import element_strength
from boomwright.study.clashes import clash_findings

DEMO = packaged_text("demo.toml")


def folded(rod="10 mm", stock='["3.66 m", "6.4 m"]'):
    feed = (
        f'feed = {{ kind = "folded", gap = "40 mm", rod_diameter = "{rod}", '
        'rod_spacing = "120 mm", balun = 4 }'
    )
    text = re.sub(r"feed = \{[^}]*\}", feed, DEMO, count=1)
    return read_plan(text.replace('stock = ["3.66 m", "6.4 m"]', f"stock = {stock}"))


def of_feed(plan):
    return {part.mark: part for part in station_assembly(plan).of("20m") if part.group == "feed"}


def test_each_half_runs_from_the_gap_to_the_tip_and_is_tied_there():
    parts = of_feed(folded())
    # The element is 5.14 m to its tip, the gap 40 mm.
    for mark, sign in (("R1", 1.0), ("R2", -1.0)):
        (bar,) = parts[mark].solids
        assert parts[mark].cut.sawn == pytest.approx(5.14 - 0.02)
        assert (bar.start[1], bar.end[1]) == pytest.approx((sign * 0.02, sign * 5.14))
        # Beside the element, away from the mast: 2.7 m from the rear end less 120 mm.
        assert bar.start[0] == pytest.approx(2.7 - 0.12)
        assert parts[mark].mass == pytest.approx(3.14159265 / 4 * 0.01**2 * 5.12 * 2700.0)
    assert {mark for mark in parts if mark.startswith("RS")} == {"RS1", "RS2"}
    # A spacer beside the gap, then at least one a metre.
    assert len([mark for mark in parts if mark.startswith("RP1.")]) == 6
    assert not parts["RP1.1"].conductor


def test_it_is_billed_sawn_and_drawn():
    plan = folded()
    (beam,) = plan.beams
    assert {"R1", "R2"} <= {p.mark for order in beam_cutting(plan, beam).tubes
                            for p in order.pieces}  # fmt: skip
    assert b"R1 R2" in cut_list_csv(plan, beam)
    drawings = {each.name: each for each in make_build(plan, beam).drawings}
    assert "gap 40 mm" in drawings["feed"].description
    apart = drawings["exploded"].description.replace("\u00a0", " ")
    assert "R1, R2: half of the second conductor, saw to 5120 mm" in apart
    assert {each.verdict for each in clash_findings(plan)} == {"within"}


def test_rods_longer_than_the_stock_are_coupled_and_thin_ones_are_wire():
    parts = of_feed(folded(stock='["3.66 m"]'))
    assert parts["R1a"].cut.sawn == pytest.approx(2.56)
    assert [hole.purpose for hole in parts["R1b"].holes] == ["coupling"]
    assert parts["RC1.1"].solids[0].bore == pytest.approx(0.01)
    wire = of_feed(folded(rod="2 mm"))["R1"]
    assert (wire.role, wire.cut, wire.unit) == ("wire", None, "m")
    assert wire.quantity == pytest.approx(5.12 + 0.3)


def test_it_hangs_on_its_element_and_bends_it():
    """Weight, wind and ice of a rod along the whole half, by hand from the root of the element."""
    plan = folded()
    (mounted,) = structure_inputs(plan).beams
    (beam,) = plan.beams
    number = next(k for k, each in enumerate(beam.elements) if each.role == "driven")
    half, beside = beam.elements[number].half, mounted.beside(number)
    parts = of_feed(plan)
    spacers = sum(part.mass for mark, part in parts.items() if mark.startswith("RP1."))
    assert beside.mass == pytest.approx((parts["R1"].mass + spacers) / 5.14)
    assert beside.bar == parts["RS1"].mass > 0.0
    assert [mounted.beside(k) for k in range(len(beam.elements)) if k != number] == [None, None]
    weighs = moment = reached = 0.0
    for tube in half:
        mass = math.pi * tube.wall * (tube.diameter - tube.wall) * tube.length * 2700.0
        weighs, moment = weighs + mass, moment + mass * (reached + 0.5 * tube.length)
        reached += tube.length
    moment += beside.mass * 5.14**2 / 2.0 + beside.bar * (5.14 - 0.01)
    weighs += beside.mass * 5.14 + beside.bar
    blown = sum(tube.diameter * tube.length * (sum(t.length for t in half[:k]) + tube.length / 2.0)
                for k, tube in enumerate(half)) + 0.01 * 5.14**2 / 2.0  # fmt: skip
    found = element_strength(element=beam.elements[number], material=beam.material,
                             pressure=600.0, beside=beside)  # fmt: skip
    first, root = found.sections[0], half[0]
    modulus = (math.pi / 32.0 * (root.diameter**4 - (root.diameter - 2.0 * root.wall) ** 4)
               / root.diameter)  # fmt: skip
    assert found.half_weight == pytest.approx(weighs * 9.80665, rel=1e-9)
    assert first.dead_stress == pytest.approx(moment * 9.80665 / modulus, rel=1e-9)
    assert first.wind_stress == pytest.approx(600.0 * 1.2 * blown / modulus, rel=1e-9)
    alone = element_strength(element=beam.elements[number], material=beam.material, pressure=600.0)
    assert found.dead_droop > 1.15 * alone.dead_droop
    # The report of the station says the same, and the ice of both conductors weighs.
    report = check_structure(inputs=structure_inputs(plan)).beams[0].elements[number]
    assert report.strength.dead_droop == pytest.approx(found.dead_droop, rel=1e-9)
    bare = check_structure(inputs=structure_inputs(read_plan(DEMO))).beams[0].elements[number]
    assert report.strength.iced_half_weight - report.strength.half_weight > 1.2 * (
        bare.strength.iced_half_weight - bare.strength.half_weight
    )
    assert report.modes[0].frequency_hz < bare.modes[0].frequency_hz


def test_a_second_conductor_of_wire_weighs_and_shows_too():
    (mounted,) = structure_inputs(folded(rod="2 mm")).beams
    (rods,) = structure_inputs(folded()).beams
    for beam, size in ((mounted, 0.002), (rods, 0.01)):
        mine = [bar for bar in beam.tubes if bar.diameter == size]
        assert sum(bar.length for bar in mine) == pytest.approx(2 * 5.12)
        (feed,) = [each.mass for each in beam.masses if each.name == "feed"]
        assert feed > 2 * 5.12 * math.pi / 4.0 * size**2 * 2700.0
