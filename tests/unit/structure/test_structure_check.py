"""The one entry: whole stations, and what happens when something is missing."""

from __future__ import annotations

from dataclasses import replace

import pytest
from station_example import BEAM, BOOM, GUYED, ON_PIPE, RATING, STANDING

from boomwright.structure import (
    BaseReactions,
    IceBasis,
    MountedBeam,
    NominalSpeed,
    PadBase,
    StructureInputs,
    WindBasis,
    check_structure,
)


def lines(report, word):
    """Lines with a word in their name; those of the iced case only when asked for."""
    found = [line for line in report.ledger if word in line.name]
    return found if "ice" in word else [e for e in found if "ice with its wind" not in e.name]


def line(report, word):
    found = lines(report, word)
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
        "guys: tension",
        "tower: load straight down",
        "base: overturning",
    }
    for part in (report.mast, report.rotator, report.tower_area, report.guys, report.base):
        assert part is not None
    assert len(lines(report, "guys at")) == 2
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
    report = check_structure(inputs=replace(GUYED, beams=(MountedBeam(beam=BEAM),)))
    for word in ("mast", "rotator: holding", "antenna area", "guys: ", "base: overturning"):
        assert "boom of 20m is not given" in line(report, word).reason


def test_a_missing_wall_is_named():
    half = (replace(BEAM.elements[0].half[0], wall=0.0), *BEAM.elements[0].half[1:])
    broken = replace(BEAM, elements=(replace(BEAM.elements[0], half=half), *BEAM.elements[1:]))
    report = check_structure(inputs=replace(GUYED, beams=(MountedBeam(beam=broken, boom=BOOM),)))
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
    report = check_structure(inputs=replace(GUYED, base_reactions=reactions))
    assert "needs nominal" in line(report, "base: overturning").reason
    held = replace(reactions, kind="nominal")
    report = check_structure(inputs=replace(GUYED, base_reactions=held))
    assert line(report, "base: overturning").demand == pytest.approx(1.5 * (2e4 + 1.2e3), rel=1e-9)


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
    assert "more than any finite value" in found.text


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
    assert "lbf)" in found.reason
