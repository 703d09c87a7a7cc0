"""Wind by EN 1991-1-4 and as an engineer states it: one concept of safety, and nothing mixed."""

from __future__ import annotations

from dataclasses import replace
from math import hypot

import pytest
from station_example import GUYED, ON_PIPE, RATING, STANDING

from boomwright.structure import (
    BaseReactions,
    EnWind,
    IceBasis,
    StatedWind,
    TowerRating,
    partial_factors,
)
from boomwright.structure.checks.findings import site_loads
from boomwright.structure.faults import BasisMixError, StructureInputError
from boomwright.structure.support.tower_rating import AreaAtHeight, rated_area, rated_pressure
from boomwright.structure.weather.gust import GustResponse
from boomwright.structure.weather.wind import service_wind, velocity_pressure
from fakes.told import check_structure, told

EUROPE = EnWind(basic_speed=24.0, terrain="II", orography=1.0, code="BS EN 1991-1-4")
STATED = StatedWind(
    points=((5.0, 700.0), (25.0, 1100.0)), by="A. Statiker, 2026-03-01", code="SIA 261"
)
CODES = pytest.mark.parametrize("wind", [EUROPE, STATED], ids=["EN 1991-1-4", "stated"])
BASE = TowerRating(
    area=1.2, area_rule="projected", area_height=20.0, pressure=900.0, kind="characteristic",
    mast_extension=2.0, axial=40e3, ice=0.0, base_moment=1e5, base_shear=1e4,
    section_moment=2e4, section_shear=6e3,
)  # fmt: skip


def at(inputs, wind, **more):
    """The same station under another code, its tower rated by it."""
    tower = None if inputs.tower is None else replace(inputs.tower, rating=BASE)
    return replace(inputs, wind=wind, tower=tower, **more)


def line(report, words):
    (found,) = [each for each in report.ledger if each.name == words]
    return found


@CODES
def test_elements_see_the_design_wind_against_strength_over_its_factor(wind):
    report = check_structure(inputs=at(GUYED, wind))
    found = line(report, "20m driven (element 2): bending in wind")
    plain = check_structure(inputs=GUYED).beams[0].elements[1].strength
    section = plain.worst_bare
    pressure = velocity_pressure(basis=wind, height=21.0).value
    american = site_loads(inputs=GUYED).pressure(height=21.0).for_force
    stress = hypot(1.35 * section.dead_stress, 1.5 * section.wind_stress * pressure / american)
    assert found.demand == pytest.approx(stress / 1e6, rel=1e-9)
    # 6061-T6: rupture 262 / 1.25 is under yield 241 / 1.1.
    assert found.capacity == pytest.approx(262.0 / 1.25, rel=1e-3)
    for words in ("design wind", "wind x 1.5 (EN 1990)", "dead load x 1.35 (EN 1990)", "/ 1.25"):
        assert words in found.basis


@CODES
def test_the_basis_names_code_terrain_or_author_and_factors(wind):
    report = check_structure(inputs=at(GUYED, wind))
    words = (
        ("basic speed 24.0 m/s 10 min mean", "terrain II", "BS EN 1991-1-4", "co 1")
        if wind is EUROPE
        else ("unfactored peak pressure", "0.70 kPa at 5.0 m", "SIA 261",
              "by A. Statiker, 2026-03-01")
    )  # fmt: skip
    for each in (report.basis, line(report, "mast: bending at the top bearing").basis,
                 line(report, "guys at 19.0 m: tension").basis):  # fmt: skip
        for word in words:
            assert word in each
    assert "characteristic wind" in line(report, "guys at 19.0 m: tension").basis


@CODES
def test_every_check_of_an_american_site_is_made_by_the_other_codes_too(wind):
    for inputs in (GUYED, ON_PIPE, STANDING):
        american = {each.name for each in check_structure(inputs=inputs).ledger
                    if each.verdict != "not checked"}  # fmt: skip
        other = {each.name: each for each in check_structure(inputs=at(inputs, wind)).ledger}
        lost = [name for name in american if other[name].verdict == "not checked"]
        assert lost == [], [other[name].reason for name in lost]


def test_what_stands_below_takes_both_factors_on_its_strength():
    report = check_structure(inputs=at(ON_PIPE, EUROPE))
    tube = line(report, "support tube: bending")
    assert tube.capacity == pytest.approx(240.0 / 1.0 / 1.5, rel=1e-9)
    assert "over the factor on wind 1.5 (EN 1990)" in tube.basis
    classed = replace(EUROPE, factors=partial_factors(reliability_class=3))
    strict = check_structure(inputs=at(GUYED, classed))
    guy = line(strict, "guys at 19.0 m: tension")
    strand = GUYED.guying[1].strand
    assert guy.capacity == pytest.approx(strand.breaking_strength / (2.0 * 1.6), rel=1e-9)
    assert "from memory (en-1993-3-1)" in guy.basis
    pad = line(check_structure(inputs=at(STANDING, EUROPE)), "base: overturning")
    base = check_structure(inputs=at(STANDING, EUROPE)).base
    assert pad.demand == pytest.approx(1.5 / 0.9 * base.pad.moment, rel=1e-9)
    assert "0.9 of weight" in pad.basis


def test_lower_classes_ask_for_less_on_the_boom():
    uses = [
        line(
            check_structure(
                inputs=at(GUYED, replace(EUROPE, factors=partial_factors(reliability_class=number)))
            ),
            "20m: boom in wind",
        ).use
        for number in (1, 2, 3)
    ]
    assert uses == sorted(uses)
    assert uses[0] < uses[2]


@CODES
def test_ice_comes_with_its_own_gust(wind):
    ice = IceBasis(thickness=0.006, concurrent_gust=18.0)
    site = site_loads(inputs=at(GUYED, wind, ice=ice))
    with_ice = site.ice_pressure(height=20.0)
    assert with_ice.kind == "design"
    share = (18.0 / wind.gust) ** 2
    assert with_ice.value == pytest.approx(1.5 * share * wind.pressure(20.0), rel=1e-12)
    assert site.blow(height=20.0, iced=True, nominal=True).pressure.value == pytest.approx(
        share * wind.pressure(20.0), rel=1e-12
    )


def test_nobody_has_looked_at_the_hill():
    report = check_structure(inputs=at(GUYED, replace(EUROPE, orography=None)))
    hills = {told(line.name): line.verdict for line in report.ledger}
    assert hills["wind: hills and bluffs near"] == "not checked"
    assert "structure.national-annex" in [notice.code for notice in report.notices]
    assert "no orography entered" in report.basis
    stated = check_structure(inputs=at(GUYED, STATED))
    assert "wind: hills and bluffs near" not in {told(line.name) for line in stated.ledger}
    assert "structure.national-annex" not in [notice.code for notice in stated.notices]


def test_a_rating_for_wind_of_another_kind_is_refused():
    american = check_structure(inputs=replace(GUYED, wind=EUROPE))
    found = line(american, "tower: antenna area against the maker's rating")
    assert found.verdict == "not checked"
    assert "the rating is for nominal wind and the site's is characteristic" in found.reason
    foot = line(american, "tower: load straight down")
    assert foot.verdict == "not checked"
    assert "the load is from characteristic wind and the limit is for nominal wind" in foot.reason
    european = replace(GUYED, tower=replace(GUYED.tower, rating=BASE))
    found = line(check_structure(inputs=european), "tower: antenna area against the maker's rating")
    assert "the rating is for characteristic wind and the site's is ultimate" in found.reason
    with pytest.raises(BasisMixError, match="ask its maker"):
        rated_area(basis=EUROPE, rating=RATING, areas=[])


@pytest.mark.parametrize("kind", ["nominal", "ultimate", "design"])
def test_base_loads_of_another_kind_are_refused(kind):
    reactions = BaseReactions(moment=2e4, shear=1e3, axial=5e3, kind=kind)
    report = check_structure(inputs=at(GUYED, EUROPE, base_reactions=reactions))
    reason = line(report, "base: loads as the maker states them").reason
    assert f"are for {kind} wind" in reason
    assert "needs characteristic ones" in reason
    fitting = replace(reactions, kind="characteristic")
    report = check_structure(inputs=at(GUYED, EUROPE, base_reactions=fitting))
    assert line(report, "base: overturning").verdict != "not checked"


def test_ratings_by_the_same_code():
    rating = TowerRating(
        area=1.2, area_rule="projected", area_height=20.0, speed=22.0, averaging="10 min mean",
        kind="characteristic", exposure="II", edition="EN 1991-1-4",
    )  # fmt: skip
    areas = [AreaAtHeight(area=1.0, height=20.0)]
    found = rated_area(basis=EUROPE, rating=rating, areas=areas)
    assert found.demand == pytest.approx((24.0 / 22.0) ** 2, rel=1e-12)
    pressed = rated_area(basis=STATED, rating=BASE, areas=areas)
    assert pressed.demand == pytest.approx(1000.0 / 900.0, rel=1e-12)
    factored = rated_area(basis=EUROPE, rating=replace(BASE, kind="design"), areas=areas)
    assert factored.demand == pytest.approx(1.5 * EUROPE.pressure(20.0) / 900.0, rel=1e-12)
    assert rated_pressure(rating=BASE)[0] == 900.0
    iced = rated_area(basis=EUROPE, rating=BASE, areas=areas, gust=18.0)
    assert iced.demand == pytest.approx(
        (18.0 / EUROPE.gust) ** 2 * EUROPE.pressure(20.0) / 900.0, rel=1e-12
    )


@pytest.mark.parametrize(
    "wrong",
    [
        {"edition": "EN 1991-1-4", "exposure": "C"},
        {"edition": "EN 1991-1-4", "averaging": "3 s gust"},
        {"edition": "EN 1991-1-4", "kind": "nominal"},
        {"edition": "TIA-222-G", "exposure": "II"},
        {"edition": "TIA-222-G", "averaging": "10 min mean"},
        {"edition": "TIA-222-G", "kind": "characteristic"},
    ],
)
def test_a_rating_of_two_codes_is_refused(wrong):
    with pytest.raises(StructureInputError, match="does not go with"):
        TowerRating(**wrong)


def test_stated_pressures_between_below_and_above():
    assert STATED.pressure(0.0) == 700.0
    assert STATED.pressure(15.0) == pytest.approx(900.0, rel=1e-12)
    assert STATED.pressure(25.0) == 1100.0
    high = check_structure(inputs=at(GUYED, replace(STATED, points=((5.0, 700.0), (20.0, 1e3)))))
    for found in high.ledger:
        if "wind" in found.name or "guys" in found.name or found.name.startswith("mast"):
            assert found.verdict == "not checked"
    assert "end at 20.0 m, and the station reaches 21.5 m" in high.basis


def test_factored_pressures_lose_their_factor_where_none_belongs():
    given = replace(STATED, given_factored=True, factors=partial_factors(wind_factor=1.4))
    assert given.pressure(5.0) == pytest.approx(500.0, rel=1e-12)
    site = site_loads(inputs=at(GUYED, given))
    assert site.pressure(height=5.0).value == pytest.approx(700.0, rel=1e-12)
    assert "factored peak pressure" in told(site.pressure(height=5.0).text)
    assert service_wind(replace(given, factored=True)) == given


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: replace(STATED, points=()), "no pressure is given"),
        (lambda: replace(STATED, points=((5.0, 1.0), (5.0, 2.0))), "let the heights rise"),
        (lambda: replace(STATED, points=((5.0, 0.0),)), "above zero"),
        (lambda: replace(STATED, by=""), "name of who gave them"),
        (lambda: replace(EUROPE, terrain="V"), "use 0, I, II, III, IV"),
        (lambda: replace(EUROPE, basic_speed=0.0), "basic wind speed"),
        (lambda: replace(EUROPE, orography=-1.0), "orography"),
    ],
)
def test_refusals(make, words):
    with pytest.raises(StructureInputError, match=words):
        make()


def test_sway_by_the_european_rule():
    stiff, soft = (
        check_structure(
            inputs=at(
                replace(STANDING, tower=replace(STANDING.tower, bending_stiffness=ei)), EUROPE
            )
        ).gusts
        for ei in (3e8, 2e6)
    )
    assert isinstance(soft, GustResponse)
    assert "cs cd of EN 1991-1-4 annex B" in soft.text
    assert soft.factor > stiff.factor >= 1.0
