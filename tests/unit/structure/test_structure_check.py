"""The one entry: whole stations, and what happens when something is missing."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from station_example import BALUN, BEAM, BOOM, GUYED, ON_PIPE, RATING, STANDING

from boomwright.structure import (
    BaseReactions,
    IceBasis,
    Lattice,
    NominalSpeed,
    PadBase,
    StructureInputs,
    TowerDrawing,
    WindBasis,
)
from boomwright.structure.checks.cases import load_cases
from boomwright.structure.checks.findings import site_loads
from boomwright.structure.ground.pads import check_pad
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS
from boomwright.structure.support.guys import STRANDS
from fakes.mounted import weighed
from fakes.told import check_structure


def lines(report, word):
    """Lines with a word in their name; those of the iced case only when asked for."""
    found = [line for line in report.ledger if word in line.name]
    return found if "ice" in word else [e for e in found if "ice with its wind" not in e.name]


def line(report, word):
    found = lines(report, word)
    exact = [each for each in found if each.name == word]
    found = exact or found
    assert len(found) == 1, [each.name for each in found]
    return found[0]


def test_a_guyed_tower_is_checked_from_tip_to_footing():
    report = check_structure(inputs=GUYED)
    skipped = {each.name: each.reason for each in report.ledger if each.verdict == "not checked"}
    assert skipped.pop("tower: ice in the maker's rating") == (
        "the rating is without ice and the site has it: ask the maker or an engineer"
    )
    # The ice on a lattice of unknown legs and braces is nobody's to guess.
    assert {name.removesuffix(", ice with its wind") for name in skipped} == {
        "tower: antenna area against the maker's rating",
        "tower: moment, shear and leg load along its height",
        "tower: leg load along its height",
        "guys: tension",
        "tower: load straight down",
        "base: overturning",
    }
    for part in (report.mast, report.rotator, report.tower_area, report.guys, report.base):
        assert part is not None
    assert [each.name.split(": ")[1] for each in lines(report, "guys at 19.0 m")] == [
        "strength as a brace", "tension", "stiffness as a brace"
    ]  # fmt: skip
    assert len(report.cautions) == 3
    assert {each.code for each in report.reminders} >= {"earthing", "corrosion", "used-tower"}


def test_every_line_with_wind_prints_its_basis():
    report = check_structure(inputs=GUYED)
    windy = [
        each
        for each in report.ledger
        if ("wind" in each.name or "guys" in each.name) and each.verdict != "not checked"
    ]
    assert len(windy) > 8
    for each in windy:
        if "wind area" in each.name:
            continue
        for word in ("nominal", "exposure C", "ASCE 7-16"):
            assert word in each.basis, each.name


def test_worst_first():
    uses = [e.use for e in check_structure(inputs=GUYED).ledger if e.verdict == "exceeded"]
    assert uses == sorted(uses, reverse=True)
    assert uses[0] > 1.0


def test_a_pipe_in_the_ground():
    report = check_structure(inputs=ON_PIPE)
    assert line(report, "support tube: bending").verdict == "exceeded"
    assert report.tube.amplification > 1.0
    assert line(report, "depth of the block").capacity == 2.2
    assert report.base.pier.needed_depth < 2.2
    thick = replace(ON_PIPE.tube, diameter=0.1683, wall=0.0071)
    better = check_structure(inputs=replace(ON_PIPE, tube=thick))
    assert line(better, "support tube: bending").verdict == "within"


def test_a_guyed_pipe_needs_less():
    guyed = replace(
        ON_PIPE,
        tube=replace(ON_PIPE.tube, fixed=False),
        guying=(replace(GUYED.guying[0], height=8.5, anchor_radius=7.0),),
    )
    report = check_structure(inputs=guyed)
    assert (
        line(report, "support tube: bending").use
        < line(check_structure(inputs=ON_PIPE), "support tube: bending").use
    )
    assert report.base is not None
    loose = replace(ON_PIPE, tube=replace(ON_PIPE.tube, fixed=False))
    assert (
        "stands only with guys"
        in line(check_structure(inputs=loose), "support tube: bending").reason
    )


def test_a_tower_that_stands_alone():
    report = check_structure(inputs=STANDING)
    moment = line(report, "base moment")
    assert moment.verdict == "within"
    assert "weight on the drifted top counted" in moment.basis
    assert report.base.pad.overturning_factor > 1.5
    by_hand = sum(b.force * b.height for b in report.beams)
    assert moment.demand > by_hand


def test_nothing_given_passes_nothing():
    report = check_structure(inputs=StructureInputs())
    assert {each.verdict for each in report.ledger} == {"not checked"}


def test_no_wind_leaves_weight_only():
    report = check_structure(inputs=replace(GUYED, wind=None))
    assert report.mast is None
    assert report.beams[0].force is None
    assert report.beams[0].elements[0].strength.dead_droop > 0.0
    assert "no wind speed" in line(report, "reflector (element 1): bending").reason


def test_an_unknown_boom_stops_everything_below():
    report = check_structure(inputs=replace(GUYED, beams=(weighed(BEAM),)))
    # Half a weight is no weight: nothing may rest on a beam without its boom.
    assert report.beams[0].weight is None
    for word in ("mast", "rotator: holding", "antenna area", "guys: ", "base: overturning"):
        assert "boom of 20m is not given" in line(report, word).reason


def test_a_missing_wall_is_named():
    half = (replace(BEAM.elements[0].half[0], wall=0.0), *BEAM.elements[0].half[1:])
    broken = replace(BEAM, elements=(replace(BEAM.elements[0], half=half), *BEAM.elements[1:]))
    report = check_structure(inputs=replace(GUYED, beams=(weighed(broken, BOOM, BALUN),)))
    assert "wall of section 1" in line(report, "reflector (element 1): bending").reason
    assert line(report, "holding torque").verdict == "not checked"
    assert line(report, "load straight down").verdict == "not checked"


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        ("area", "the rated area"),
        ("area_rule", "projected, drag or flat"),
        ("area_height", "the height of that area"),
        ("speed", "its wind speed"),
        ("averaging", "fastest mile"),
        ("kind", "ultimate or nominal"),
        ("exposure", "its exposure"),
        ("edition", "its code edition"),
    ],
)
def test_a_rating_without_its_basis_is_for_the_maker(left_out, words):
    rating = replace(RATING, **{left_out: None})
    inputs = replace(GUYED, tower=replace(GUYED.tower, rating=rating))
    found = line(check_structure(inputs=inputs), "antenna area")
    assert found.verdict == "not checked"
    assert words in found.reason
    assert "ask the maker or an engineer" in found.reason


def test_the_same_wind_written_three_ways_gives_the_same_use():
    # A rating at the site's own nominal gust, as an ultimate one, and as fastest mile.
    gust = 51.4 * 0.6**0.5
    mile = (gust / 0.44704 - 10.5) / 1.05 * 0.44704
    uses = []
    for more in (
        {"speed": gust},
        {"speed": 51.4, "kind": "ultimate", "edition": "ASCE 7-16"},
        {"speed": mile, "averaging": "fastest mile"},
    ):
        tower = replace(GUYED.tower, rating=replace(RATING, **more))
        report = check_structure(inputs=replace(GUYED, tower=tower))
        assert report.tower_area.pressure_ratio == pytest.approx(1.0, rel=1e-9)
        uses.append(line(report, "antenna area").use)
    assert uses == pytest.approx([uses[0]] * 3, rel=1e-9)


def test_makers_reactions_for_ultimate_wind_do_not_meet_a_footing():
    reactions = BaseReactions(moment=2e4, shear=1e3, axial=5e3, kind="ultimate")
    computed = check_structure(inputs=GUYED)
    report = check_structure(inputs=replace(GUYED, base_reactions=reactions))
    assert "needs nominal" in line(report, "base: loads as the maker states them").reason
    # What is computed is checked all the same.
    name = "base: overturning"
    assert line(report, name).demand == pytest.approx(line(computed, name).demand, rel=1e-12)
    held = replace(reactions, kind="nominal")
    report = check_structure(inputs=replace(GUYED, base_reactions=held))
    assert line(report, name).demand == pytest.approx(1.5 * (2e4 + 1.2e3), rel=1e-9)
    unknown = replace(GUYED, base_reactions=reactions, tower=replace(GUYED.tower, mass=None))
    assert "needs nominal" in line(check_structure(inputs=unknown), name).reason


def test_entered_base_loads_never_silence_computed_ones():
    """A moment of 20 kN m entered beside a computed one of 41.5 kN m, on clay of 71.8 kPa.

    Hand calculation of a pad of 1.8 m x 1.65 m in concrete of 23.6 kN/m3: 126.1 kN and 2.9 kN on
    it, W = 129.0 kN. Entered: e = (20 + 1.0 x 1.65) / 129.0 = 0.168 m, the corner of a diagonal
    wind W / B^2 (1 + 8.49 e / B) = 71.3 kPa, within. Computed, with 2.9 kN of shear: e = 0.359 m,
    three-cornered, 112 kPa.
    """
    station = replace(
        STANDING, ice=None, soil=PRESUMPTIVE_SOILS["clay"], base=PadBase(side=1.8, thickness=1.65),
        tower=replace(STANDING.tower, drag_area_per_length=0.1166), sway_hz=1.5,
    )  # fmt: skip
    entered = BaseReactions(moment=20e3, shear=1e3, axial=2.9e3, kind="nominal")
    plain = check_structure(inputs=station)
    loads = plain.base.reactions
    assert (loads.moment, loads.shear) == pytest.approx((41.5e3, 2.9e3), rel=5e-3)
    alone = check_pad(pad=station.base, soil=station.soil, moment=20e3, shear=1e3, axial=2.9e3)
    assert alone.pressure == pytest.approx(71.3e3, rel=5e-3)
    report = check_structure(inputs=replace(station, base_reactions=entered))
    found = report.base.reactions
    # The larger counts of each; the lighter holds the footing down.
    assert (found.moment, found.shear, found.axial) == (loads.moment, loads.shear, loads.axial)
    assert found.least_axial == 2.9e3
    held = line(report, "base: pressure on the soil")
    assert held.verdict == "exceeded"
    assert held.demand == pytest.approx(112.0, rel=5e-3)
    assert held.capacity == pytest.approx(71.8, rel=1e-3)
    told = [each for each in report.notices if each.code == "structure.base-loads-conflict"]
    assert [each.text.split(":")[0] for each in told] == ["Footing, moment", "Footing, shear"]
    assert (told[0].value, told[0].limit) == (
        f"{loads.moment:.0f} N m",
        "20000 N m",
    )
    # More than computed is taken as it stands, without a word.
    high = replace(entered, moment=2 * loads.moment, shear=2 * loads.shear, axial=2 * loads.axial)
    report = check_structure(inputs=replace(station, base_reactions=high))
    assert report.base.reactions.moment == 2 * loads.moment
    assert "structure.base-loads-conflict" not in [each.code for each in report.notices]


def test_what_the_tower_carries_along_its_height():
    report = check_structure(inputs=GUYED)
    moment, shear = (
        line(report, f"tower: {what} along its height") for what in ("bending moment", "shear")
    )
    course = report.tower_course
    assert moment.demand == pytest.approx(float(max(course.moment)), rel=1e-12)
    assert shear.demand == pytest.approx(float(max(course.shear)), rel=1e-12)
    assert (moment.capacity, shear.capacity) == (20e3, 6e3)
    # Without legs and face width nobody knows the leg load, whatever the maker allows.
    assert "legs and face width" in line(report, "tower: leg load along").reason
    unknown = replace(GUYED, tower=replace(GUYED.tower, rating=RATING))
    found = line(check_structure(inputs=unknown), "tower: moment, shear and leg load")
    assert found.verdict == "not checked"
    # three figures, as forces are written
    assert f"{float(f'{moment.demand:.3g}'):.0f} N m" in found.reason
    one = replace(GUYED.tower, rating=replace(RATING, section_moment=20e3))
    found = line(check_structure(inputs=replace(GUYED, tower=one)), "tower: moment, shear and leg")
    assert "allowable shear and leg load are not given" in found.reason


def test_a_long_free_top_never_passes_in_silence():
    """A 60 ft lattice with one ring at 30 ft in 115 mph, worked again from its parts.

    At the ring: wind on 9.144 m of tower and on what stands on it, each times its height above the
    ring; the weight on the bent tower adds a little.
    """
    ring = replace(
        GUYED.guying[0], height=9.144, anchor_radius=7.3, initial_tension=3000.0,
        strand=STRANDS["1/4 in EHS"],
    )  # fmt: skip
    lone = replace(
        GUYED, ice=None, guying=(ring,), sway_hz=2.0,
        tower=replace(GUYED.tower, height=18.288, rating=RATING, drag_area_per_length=0.336),
        mast=replace(GUYED.mast, bearing_height=18.288, top_height=19.8),
        beams=(weighed(replace(BEAM, height=19.2), BOOM, BALUN),),
    )  # fmt: skip
    report = check_structure(inputs=lone)
    found = line(report, "tower: moment, shear and leg load along its height")
    assert found.verdict == "not checked"
    (case,) = load_cases(site=site_loads(inputs=lone), beams=report.beams)
    above = [(load.force, load.height) for load in case.side_loads(beams=report.beams)]
    strips = [9.144 + 0.1 * (i + 0.5) * 0.9144 for i in range(100)]
    above += [
        (case.pressure(height=z, shape="lattice").for_force * 0.336 * 0.09144, z) for z in strips
    ]
    moment = sum(force * (z - 9.144) for force, z in above)
    assert moment == pytest.approx(22.5e3, rel=0.01)
    worst = float(max(report.tower_course.moment))
    assert moment < worst < 1.05 * moment
    assert "at 9.1 m" in found.reason
    # With the maker's 15 kN m it is past its limit; even where the weight cannot be counted.
    for stiffness in (3e6, None):
        rated = replace(lone.tower, bending_stiffness=stiffness,
                        rating=replace(RATING, section_moment=15e3))  # fmt: skip
        held = line(check_structure(inputs=replace(lone, tower=rated)), "bending moment along")
        assert held.verdict == "exceeded"
    enough = replace(rated, rating=replace(RATING, section_moment=50e3))
    held = line(check_structure(inputs=replace(lone, tower=enough)), "bending moment along")
    assert held.verdict == "not checked"
    assert "bending stiffness is not given" in held.reason


def test_guys_as_the_maker_drew_them():
    drawing = TowerDrawing(
        height=20.0, guy_levels=(10.0, 19.0), anchor_radius=15.0, said_by="sheet 3, the owner"
    )
    tower = replace(GUYED.tower, rating=RATING, drawing=drawing)
    report = check_structure(inputs=replace(GUYED, tower=tower))
    assert not lines(report, "tower: moment, shear and leg load")
    drawn = line(report, "guys against the maker's drawing")
    assert (drawn.verdict, drawn.demand) == ("within", 0.0)
    assert "sheet 3, the owner" in drawn.basis
    other = replace(tower, drawing=replace(drawing, guy_levels=(6.0, 12.0, 19.0)))
    report = check_structure(inputs=replace(GUYED, tower=other))
    assert line(report, "guys against the maker's drawing").demand == pytest.approx(4.0)
    assert line(report, "tower: moment, shear and leg load").verdict == "not checked"
    near = replace(tower, drawing=replace(drawing, anchor_radius=16.0))
    report = check_structure(inputs=replace(GUYED, tower=near))
    assert line(report, "guys against the maker's drawing").demand == pytest.approx(1.0)
    assert line(report, "tower: moment, shear and leg load").verdict == "not checked"


def test_a_tower_that_buckles_on_its_guys_is_past_its_limit():
    soft = replace(GUYED.tower, bending_stiffness=2e4)
    report = check_structure(inputs=replace(GUYED, tower=soft))
    found = line(report, "tower: weight and guys on the bent tower")
    assert (found.verdict, found.use) == ("exceeded", None)
    assert report.guys.buckles
    assert line(report, "base: overturning").reason == (
        "the support buckles before its footing is reached"
    )


def test_a_slender_guyed_tube_is_a_column():
    guyed = replace(
        ON_PIPE, ice=None,
        tube=replace(ON_PIPE.tube, fixed=False, diameter=0.0603, wall=0.0039, height=12.0),
        beams=(weighed(replace(BEAM, height=12.0), BOOM, BALUN),),
        guying=(replace(GUYED.guying[0], height=11.8, anchor_radius=7.08, initial_tension=900.0),),
    )  # fmt: skip
    report = check_structure(inputs=guyed)
    column = line(report, "support tube: column")
    together = line(report, "column and bending together")
    assert column.use > 1.48
    assert column.demand == pytest.approx(report.tube.lengths[0].axial, rel=1e-12)
    for each in (together, line(report, "support tube: bending")):
        assert (each.verdict, each.use) == ("exceeded", None)
    assert "slender-column" in [each.code.removeprefix("structure.") for each in report.notices]
    # The pull of the guys in wind counts, more than that of their pretension.
    assert report.guys.compression > 3.0 * 900.0 * 0.857
    assert column.demand > report.guys.compression
    # A stiff tube of the same height is a column with room to spare.
    thick = replace(guyed, tube=replace(guyed.tube, diameter=0.1143, wall=0.006))
    report = check_structure(inputs=thick)
    assert line(report, "support tube: column").use < 0.5
    assert line(report, "column and bending together").use is not None


def test_what_a_tube_of_unknown_rules_lacks():
    copper = replace(ON_PIPE.tube, steel=False, elastic_modulus=117e9)
    report = check_structure(inputs=replace(ON_PIPE, tube=copper))
    assert "no column rule" in line(report, "support tube: column").reason


def test_strength_design_wants_an_ultimate_speed():
    report = check_structure(inputs=replace(GUYED, method="strength"))
    mast = line(report, "mast: bending at")
    assert "ultimate 51.4" in mast.basis
    assert "0.9 x yield" in mast.basis
    nominal = WindBasis(speed=NominalSpeed(gust=40.0), edition="ASCE 7-05", exposure="C")
    report = check_structure(inputs=replace(GUYED, method="strength", wind=nominal))
    assert "needs an ultimate speed" in line(report, "mast: bending at").reason
    assert line(report, "holding torque").verdict == "within"


def test_ice_without_its_gust_is_not_a_pass():
    report = check_structure(inputs=replace(GUYED, ice=IceBasis(thickness=0.01)))
    assert all(e.verdict == "not checked" for e in lines(report, "ice with its wind"))
    assert lines(report, "ice alone")
    none = check_structure(inputs=replace(GUYED, ice=IceBasis(thickness=0.0)))
    assert not lines(none, "ice")
    assert (
        "no ice thickness" in line(check_structure(inputs=replace(GUYED, ice=None)), "ice").reason
    )


def test_a_pad_that_tips_has_no_finite_use():
    small = replace(STANDING, base=PadBase(side=0.4, thickness=0.3))
    found = line(check_structure(inputs=small), "pressure on the soil")
    assert found.verdict == "exceeded"
    assert found.use is None
    assert "more than any finite value" in found.reason


def test_a_guyed_crank_up_is_cautioned():
    crank = replace(GUYED, tower=replace(GUYED.tower, kind="crank-up"))
    codes = [notice.code for notice in check_structure(inputs=crank).notices]
    assert "structure.guyed-crank-up" in codes


def test_several_guy_levels_need_the_towers_stiffness():
    inputs = replace(GUYED, tower=replace(GUYED.tower, bending_stiffness=None))
    assert "ask its maker for EI" in line(check_structure(inputs=inputs), "guys: tension").reason


def test_a_bracket_is_left_to_an_engineer():
    inputs = replace(STANDING, tower=replace(STANDING.tower, kind="bracketed", bracket_height=6.0))
    found = line(check_structure(inputs=inputs), "house bracket")
    assert found.verdict == "not checked"
    assert "engineer" in found.reason
    assert re.search(r"bracket: \d+ N\)", found.reason)
    # What the lattice carries between foot, bracket and top is its maker's to allow.
    carried = line(check_structure(inputs=inputs), "tower: moment, shear and leg load")
    assert carried.verdict == "not checked"
    assert "at 6.0 m" in carried.reason
    assert line(check_structure(inputs=inputs), "load straight down").verdict == "within"
    rated = replace(inputs.tower, rating=replace(RATING, section_moment=100e3))
    report = check_structure(inputs=replace(inputs, tower=rated))
    moment = line(report, "tower: bending moment along its height")
    assert moment.verdict == "within"
    assert moment.demand == pytest.approx(float(max(report.tower_course.moment)), rel=1e-12)
    lost = replace(inputs, tower=replace(inputs.tower, bracket_height=None))
    carried = line(check_structure(inputs=lost), "tower: moment, shear and leg load")
    assert "height of the house bracket" in carried.reason


def test_what_the_maker_states_of_the_sections_counts_at_the_foot_too():
    rating = replace(STANDING.tower.rating, section_moment=50e3, section_shear=8e3, leg_load=90e3)
    lattice = Lattice(faces=3, face_width=0.45, leg=0.04, brace=0.012, brace_length=2.0)
    report = check_structure(
        inputs=replace(STANDING, ice=None, tower=replace(STANDING.tower, rating=rating))
    )
    moment = line(report, "base moment").demand
    assert line(report, "bending moment of the lowest section").demand == moment
    assert line(report, "shear of the lowest section").capacity == 8e3
    assert line(report, "leg load at the foot").verdict == "not checked"
    known = replace(STANDING.tower, rating=rating, lattice=lattice)
    report = check_structure(inputs=replace(STANDING, ice=None, tower=known))
    weight = report.base.reactions.axial
    assert line(report, "leg load at the foot").demand == pytest.approx(
        weight / 3.0 + line(report, "base moment").demand / (0.45 * 3.0**0.5 / 2.0), rel=1e-9
    )
