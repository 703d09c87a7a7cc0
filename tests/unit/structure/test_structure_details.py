"""Smaller pieces: holes, ballast, anchors, footing under guys, gust factor, thin tubes."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from station_example import BALUN, BEAM, BOOM, GUYED, HALF, ON_PIPE

from boomwright.parts import Element
from boomwright.plan import read_plan
from boomwright.plan.resolve import structure_inputs
from boomwright.session.files import packaged_text
from boomwright.structure import AnchorBlock, Mast, NominalSpeed, TubeShape, WindBasis
from boomwright.structure.beam.torque import ballast_for_middle, vane_drag_area
from boomwright.structure.beam.tubing import factored_strength
from boomwright.structure.faults import StructureInputError
from boomwright.structure.ground.anchors import anchor_pulls, block_slide, block_uplift
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS
from boomwright.structure.support.mast import mast_bending
from boomwright.structure.support.tower_rating import AreaAtHeight, rated_area
from fakes.mounted import weighed
from fakes.told import check_structure


def _line(report, word):
    return next(
        line for line in report.ledger if word in line.name and "ice with its wind" not in line.name
    )


def test_a_hole_takes_its_share_of_the_modulus():
    tube = TubeShape(diameter=0.0508, wall=0.003)
    lost = 1.0 - tube.net_modulus(hole=0.006) / tube.modulus
    # Two walls gone at the stressed fibres: close to 2 x hole / (pi R) of the modulus.
    assert lost == pytest.approx(2.0 * 0.006 / (3.14159 * 0.0239), rel=0.02)
    # By hand: half of a thin ring lost to either side of 45 degrees leaves 1/2 - 1/pi of it.
    quarter = tube.net_modulus(hole=2.0 * 0.0239 * math.sin(math.pi / 4.0)) / tube.modulus
    assert quarter == pytest.approx(0.5 - 1.0 / math.pi, abs=0.01)
    assert tube.net_modulus(hole=0.05) == pytest.approx(0.0, abs=0.01 * tube.modulus)


def test_ballast_moves_the_balance_to_the_middle():
    # 20 kg balancing 0.3 m behind the middle, ballast 3 m in front: moments 6 kg m each.
    assert ballast_for_middle(mass=20.0, balance=3.4, middle=3.7, ballast_arm=3.0) == pytest.approx(
        2.0, rel=1e-12
    )
    with pytest.raises(StructureInputError, match="ballast arm"):
        ballast_for_middle(mass=20.0, balance=3.4, middle=3.7, ballast_arm=0.0)
    with pytest.raises(StructureInputError, match="vane arm"):
        vane_drag_area(diameter=0.05, arms=(3.0, 4.0), vane_arm=0.0)


def test_guys_on_one_anchor_add_up():
    report = check_structure(inputs=GUYED)
    (pull,) = report.guys.anchors
    assert pull.radius == 15.0
    apart = (GUYED.guying[0], replace(GUYED.guying[1], anchor_radius=18.0))
    pulls = anchor_pulls(levels=apart, states=report.guys.states)
    assert [each.radius for each in pulls] == [15.0, 18.0]
    assert pull.slide > max(each.slide for each in pulls)


def test_a_buried_block():
    # 1 x 1 x 0.5 m under 1 m of soil at 100 lb/ft3: 23.56 x 0.5 + 15.71 x 1 kN.
    block = AnchorBlock(length=1.0, width=1.0, thickness=0.5, cover=1.0)
    sand = PRESUMPTIVE_SOILS["sand"]
    assert block_uplift(block=block, soil=sand) == pytest.approx(27.49e3, rel=1e-3)
    # 150 psf/ft is 23.56 kPa/m, at 1.25 m on half a square metre.
    assert block_slide(block=block, soil=sand) == pytest.approx(14.73e3, rel=1e-3)
    floats = replace(block, water_table=True)
    assert block_uplift(block=floats, soil=sand) < block_uplift(block=block, soil=sand)
    assert block_slide(block=block, soil=replace(sand, lateral=None)) is None


def test_guys_hold_a_pad_by_their_least_pull_only():
    report = check_structure(inputs=GUYED)
    reactions = report.base.reactions
    assert reactions.least_axial < reactions.axial
    states = report.guys.states
    spread = max(s.compression for s in states) - min(s.compression for s in states)
    assert reactions.axial - reactions.least_axial == pytest.approx(spread, rel=1e-9)
    light = _line(report, "overturning").capacity
    assert light == pytest.approx(report.base.pad.weight * 0.6, rel=1e-12)


def test_a_pole_under_tia_takes_a_tenth_more():
    # Wide enough to sway faster than once a second, so that no flexible factor comes on top.
    shared = {"speed": NominalSpeed(gust=35.0), "exposure": "C", "topography": 1.0}
    stiff = replace(ON_PIPE, tube=replace(ON_PIPE.tube, diameter=0.1683, wall=0.0071))
    plain, pole = (
        check_structure(inputs=replace(stiff, wind=WindBasis(edition=edition, **shared)))
        for edition in ("ASCE 7-05", "TIA-222-G")
    )
    assert plain.gusts.frequency_hz > 1.0
    assert plain.gusts.factor == 1.0
    # The floor of exposure C below 4.6 m, 0.85 against 0.849, makes the rest.
    assert pole.tube.moment == pytest.approx(1.10 * plain.tube.moment, rel=1e-3)
    assert "gust factor 1.1" in _line(pole, "support tube").basis


def test_a_block_presses_on_its_ground():
    report = check_structure(inputs=ON_PIPE)
    found = _line(report, "pressure under the block")
    carried = ON_PIPE.tube.weight + report.beams[0].weight
    assert found.verdict == "within"
    assert found.demand == pytest.approx(2.2 * 23.56 + carried / 0.36 / 1000.0, rel=1e-3)


def test_a_thin_tube_is_flagged():
    thin = Element(role="driven", position=3.2, half=(replace(HALF[0], wall=0.0005),))
    beam = replace(BEAM, elements=(thin,))
    report = check_structure(inputs=replace(GUYED, beams=(weighed(beam, BOOM, BALUN),)))
    assert "structure.thin-tube" in [notice.code for notice in report.notices]


def test_strength_limit_is_for_ultimate_wind():
    limit = factored_strength(yield_strength=100.0, steel=True)
    assert limit.kind == "ultimate"
    assert limit.value == pytest.approx(90.0, rel=1e-12)


def test_a_mast_without_rotator_distance_gives_no_reactions():
    mast = Mast(diameter=0.05, wall=0.005, bearing_height=10.0, top_height=11.0)
    bent = mast_bending(mast=mast, loads=(), pressure=1000.0)
    assert bent.rotator_reaction is None
    assert bent.top_deflection is None
    assert bent.moment == pytest.approx(1000.0 * 1.2 * 0.05 / 2.0, rel=1e-12)


def test_a_beam_off_the_mast_is_named():
    high = replace(GUYED, beams=(weighed(replace(BEAM, height=30.0), BOOM, BALUN),))
    assert "off the mast" in _line(check_structure(inputs=high), "mast: bending").reason


def test_the_factors_are_really_in_the_ledger():
    report = check_structure(inputs=GUYED)
    for number, height in enumerate(("10.0", "19.0")):
        found = _line(report, f"guys at {height} m: tension")
        assert found.demand == pytest.approx(report.guys.highest_tensions[number], rel=1e-12)
        # 3/16 in strand of 3990 lbf, half of it.
        assert found.capacity == pytest.approx(3990.0 * 4.4482216 / 2.0, rel=1e-6)
    holding = _line(report, "holding torque")
    assert holding.demand == pytest.approx(1.5 * report.rotator.survival_torque, rel=1e-12)
    (anchor,) = report.guys.anchors
    assert _line(report, "uplift").demand == pytest.approx(2.0 * anchor.uplift, rel=1e-12)


def test_strength_design_adds_a_fifth_to_the_weight():
    plain = check_structure(inputs=GUYED)
    strong = check_structure(inputs=replace(GUYED, method="strength"))
    alone = [_line(report, "ice alone").demand for report in (plain, strong)]
    assert alone[1] == pytest.approx(1.2 * alone[0], rel=1e-12)


def test_a_beam_above_the_rated_point_counts_more():
    # Twice the height: pressure by the power law and the height ratio on top.
    rating = replace(GUYED.tower.rating, edition="ASCE 7-10", kind="ultimate", speed=51.4)
    wind = replace(GUYED.wind, edition="ASCE 7-10")
    found = rated_area(basis=wind, rating=rating, areas=(AreaAtHeight(area=1.0, height=40.0),))
    assert found.demand == pytest.approx(2.0 ** (2.0 / 9.5) * 2.0, rel=1e-9)
    lower = rated_area(basis=wind, rating=rating, areas=(AreaAtHeight(area=1.0, height=10.0),))
    assert lower.demand == pytest.approx(0.5 ** (2.0 / 9.5), rel=1e-9)


def test_an_element_through_the_boom_weakens_it_there():
    through = 'mount = { kind = "insulated through", hole = "38.1 mm" }\nfeed = {'
    text = packaged_text("demo.toml").replace("feed = {", through, 1)
    report = check_structure(inputs=structure_inputs(read_plan(text)))
    found = _line(report, "20m: boom at the holes of its elements")
    whole = _line(report, "20m: boom in wind")
    # What the wall beside the hole leaves of a thin ring, sin a = hole / 2 r: pi - 2 a - sin 2 a.
    turn = math.asin(0.0381 / 2.0 / 0.0239)
    left = 1.0 - (2.0 * turn + math.sin(2.0 * turn)) / math.pi
    # The driven element stands 0.16 m from the clamp, where the boom bends most.
    assert 0.7 < found.demand / whole.demand * left < 1.02
    assert found.verdict == "exceeded"
