"""Ice on what stands below the beams: guys, tube, tower, footing, and what is said of it."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from station_example import GUYED, ON_PIPE, STANDING

from boomwright.structure import IceBasis, Lattice, NominalSpeed, WindBasis
from boomwright.structure import check_structure as check
from boomwright.structure.faults import StructureInputError
from boomwright.structure.memory import FROM_MEMORY, recalled, recalled_keys
from boomwright.structure.support.tower_rating import rated_area
from boomwright.structure.weather.wind import velocity_pressure
from fakes.told import check_structure

LATTICE = Lattice(faces=3, face_width=0.3, leg=0.032, brace=0.011, brace_length=2.0)


def with_lattice(inputs, **rating):
    tower = replace(inputs.tower, lattice=LATTICE, rating=replace(inputs.tower.rating, **rating))
    return replace(inputs, tower=tower)


ICED = with_lattice(GUYED, ice=0.010, ice_gust=20.0)


def line(report, name):
    (found,) = [each for each in report.ledger if each.name == name]
    return found


def test_a_tower_of_known_legs_and_braces_is_checked_to_the_footing_with_ice():
    report = check_structure(inputs=ICED)
    assert [each.name for each in report.ledger if each.verdict == "not checked"] == []
    iced = [each for each in report.ledger if each.name.endswith(", ice with its wind")]
    told = {each.name.split(",")[0].split(" at ")[0] for each in iced}
    assert {"guys", "anchor", "rotator: holding torque", "tower: load straight down",
            "tower: antenna area against the maker's rating", "base: overturning",
            "base: sliding", "base: pressure on the soil", "mast: bending"} <= told  # fmt: skip
    for each in iced:
        assert "gust" in each.basis, each.name
        assert "18.0 m/s" in each.basis, each.name
        assert "ice 6.0 mm" in each.basis, each.name
    assert report.iced is not None
    assert "D + Di + Wi" in report.iced.basis


def test_iced_guys_carry_weight_and_wind_of_their_ice():
    thin, thick = (
        check_structure(inputs=replace(ICED, ice=IceBasis(thickness=t, concurrent_gust=18.0)))
        for t in (0.002, 0.030)
    )
    assert thick.iced.guys.highest_tensions[1] > 1.15 * thin.iced.guys.highest_tensions[1]
    assert thick.iced.guys.compression > thin.iced.guys.compression
    # The bare case knows nothing of the ice.
    assert thick.guys.highest_tensions == thin.guys.highest_tensions


def test_a_trace_of_ice_in_the_full_gust_is_the_bare_case():
    gust = 51.4 * 0.6**0.5
    report = check_structure(
        inputs=replace(ICED, ice=IceBasis(thickness=1e-9, concurrent_gust=gust))
    )
    assert report.iced.guys.highest_tensions == pytest.approx(
        report.guys.highest_tensions, rel=1e-6
    )
    bare, iced = report.base.reactions, report.iced.base.reactions
    assert [iced.moment, iced.shear, iced.axial] == pytest.approx(
        [bare.moment, bare.shear, bare.axial], rel=1e-6
    )
    pipe = check_structure(
        inputs=replace(ON_PIPE, ice=IceBasis(thickness=1e-9, concurrent_gust=gust))
    )
    assert pipe.iced.tube.stress == pytest.approx(pipe.tube.stress, rel=1e-6)


def test_an_iced_pipe_by_hand():
    wind = WindBasis(speed=NominalSpeed(gust=40.0), edition="ASCE 7-05", exposure="C")
    ice = IceBasis(thickness=0.020, concurrent_gust=20.0, density=900.0, mapped=False)
    report = check_structure(inputs=replace(ON_PIPE, wind=wind, ice=ice))
    tube = ON_PIPE.tube
    ring = pi * 0.020 * (tube.diameter + 0.020) * 900.0 * 9.80665
    assert report.iced.tube.ice_weight == pytest.approx(ring * tube.height, rel=1e-12)
    (beam,) = report.beams
    assert report.iced.tube.axial == pytest.approx(
        beam.iced_weight + tube.weight + ring * tube.height, rel=1e-12
    )
    # Below 4.6 m the pressure stands still; above, a fine sum of the iced diameter.
    seen, moment = tube.diameter + 0.040, 0.0
    for i in range(900):
        z = (i + 0.5) * 0.01
        moment += (
            velocity_pressure(basis=wind, height=z, gust=20.0).for_force * 1.2 * seen * z * 0.01
        )
    top = velocity_pressure(basis=wind, height=9.0, gust=20.0).for_force
    moment += top * beam.iced_wind.worst.drag * 9.0
    # The iced pipe sways slowly, in the gust that comes with the ice.
    assert report.iced.gusts.frequency_hz < report.gusts.frequency_hz < 1.0
    moment *= report.iced.gusts.factor
    assert report.iced.tube.moment == pytest.approx(moment, rel=1e-3)
    # What holds the block down counts without ice, what presses on the soil with it.
    loads = report.iced.base.reactions
    assert loads.axial == pytest.approx(report.iced.tube.axial, rel=1e-12)
    assert loads.least_axial == pytest.approx(tube.weight + beam.weight, rel=1e-9)


def test_mapped_ice_grows_with_height_and_says_so():
    ice = IceBasis(thickness=0.010, concurrent_gust=18.0, mapped=True)
    report = check_structure(inputs=replace(ICED, ice=ice))
    low, high = (
        line(report, f"guys at {place}: tension, ice with its wind").basis
        for place in ("10.0 m", "19.0 m")
    )
    assert "ice 9.3 mm" in low
    assert "ice 9.9 mm" in high
    assert "grown from 10.0 mm on the map (from memory (asce-7-ice-growth))" in high
    older = replace(ICED, ice=ice, wind=replace(ICED.wind, edition="ASCE 7-10"))
    text = line(check_structure(inputs=older), "mast: bending, ice with its wind").basis
    assert "doubled (from memory (asce-7-ice-doubling))" in text


def test_a_standing_tower_with_ice_is_held_against_its_base_rating():
    report = check_structure(inputs=with_lattice(STANDING, ice=0.010, ice_gust=20.0))
    moment = line(report, "tower: base moment, ice with its wind")
    assert moment.verdict == "within"
    assert "ASCE 7 (asce-7-trussed-tower)" in moment.basis
    assert report.iced.base.pad.overturning_factor > report.base.pad.overturning_factor


@pytest.mark.parametrize(
    ("rating", "words"),
    [
        ({"ice": None}, "whether the rating includes ice is not given"),
        ({"ice": 0.0}, "the rating is without ice"),
        ({"ice": 0.004}, "more ice than the rating includes"),
    ],
)
def test_a_rating_with_less_ice_than_the_site_is_for_the_maker(rating, words):
    report = check_structure(inputs=with_lattice(GUYED, **rating))
    found = line(report, "tower: antenna area against the maker's rating, ice with its wind")
    assert found.verdict == "not checked"
    assert words in found.reason
    assert "ask the maker or an engineer" in found.reason


def test_the_gust_rated_with_the_ice_must_be_known_and_as_high():
    name = "tower: gust with ice in the maker's rating"
    unknown = check_structure(inputs=with_lattice(GUYED, ice=0.010))
    assert line(unknown, name).verdict == "not checked"
    low = check_structure(inputs=with_lattice(GUYED, ice=0.010, ice_gust=15.0))
    assert line(low, name).verdict == "exceeded"
    assert line(check_structure(inputs=ICED), name).use == pytest.approx(18.0 / 20.0, rel=1e-12)


def test_what_cannot_be_formed_says_why():
    unknown = check_structure(inputs=GUYED)
    for name in ("guys: tension", "base: overturning"):
        reason = line(unknown, f"{name}, ice with its wind").reason
        assert "legs and braces" in reason or "its guys" in reason or "the guys" in reason
    no_gust = check_structure(inputs=replace(ICED, ice=IceBasis(thickness=0.01)))
    assert no_gust.iced is None
    for each in no_gust.ledger:
        if each.name.endswith("ice with its wind"):
            assert each.verdict == "not checked", each.name
            assert "gust that comes with the ice" in each.reason or "rating" in each.reason
    none = check_structure(inputs=replace(ICED, ice=IceBasis(thickness=0.0)))
    assert none.iced is None
    assert not [each for each in none.ledger if "ice" in each.name.split(":")[-1]]


def test_makers_base_loads_say_nothing_of_ice():
    from boomwright.structure import BaseReactions

    held = BaseReactions(moment=2e4, shear=1e3, axial=5e3, kind="nominal")
    name = "base: overturning, ice with its wind"
    # Computed ones count, never less than the bare ones entered; without them nothing is known.
    report = check_structure(inputs=replace(ICED, base_reactions=held))
    assert line(report, name).demand == pytest.approx(1.5 * (2e4 + 1.2e3), rel=1e-9)
    unknown = replace(ICED, base_reactions=held, tower=replace(ICED.tower, mass=None))
    assert "nothing of ice" in line(check_structure(inputs=unknown), name).reason


def test_the_gust_with_ice_meets_the_rated_wind_as_it_is():
    # A fifth of the rated speed is a twenty-fifth of its pressure.
    found = rated_area(
        basis=replace(GUYED.wind, edition="ASCE 7-10"),
        rating=replace(GUYED.tower.rating, edition="ASCE 7-10", kind="ultimate", speed=50.0),
        areas=(), gust=10.0,
    )  # fmt: skip
    assert found.pressure_ratio == pytest.approx(0.04, rel=1e-9)


def test_figures_from_memory_stand_beside_what_used_them_and_in_one_notice():
    report = check_structure(inputs=ICED)
    used = recalled_keys(each.basis for each in check(inputs=ICED).ledger)
    assert {"tia-222-g-directionality", "strand-modulus", "tia-222-g-guy-factor",
            "aisc-360"} <= set(used)  # fmt: skip
    (notice,) = [each for each in report.notices if each.code == "structure.from-memory"]
    for key in used:
        assert key in notice.text
        assert FROM_MEMORY[key] in notice.text
    assert "ibc-nominal-speed" in line(report, "mast: bending at the top bearing").basis
    with pytest.raises(KeyError):
        recalled("not-from-memory")


def test_published_factors_are_named_where_they_count():
    high = replace(
        ICED,
        wind=replace(ICED.wind, site_elevation=1524.0),
        tower=replace(ICED.tower, rating=replace(
            ICED.tower.rating, averaging="fastest mile")),
        method="strength",
    )  # fmt: skip
    report = check_structure(inputs=high)
    mast = line(report, "mast: bending at the top bearing").basis
    assert "Ke 0.834 (asce-7-elevation-factor)" in mast
    area = line(report, "tower: antenna area against the maker's rating").basis
    assert "fastest mile (from memory (ibc-fastest-mile))" in area
    element = line(report, "20m driven (element 2): bending in wind").basis
    assert "dead load x 1.2 (asce-7-load-factors)" in element
    floor = replace(
        ON_PIPE,
        wind=WindBasis(speed=NominalSpeed(gust=40.0), edition="TIA-222-G", exposure="B"),
    )
    text = line(check_structure(inputs=floor), "20m: boom in wind").basis
    assert "Kz 0.700 at 9.0 m (the floor (tia-222-g-floors))" in text
    newer = replace(
        ON_PIPE,
        wind=replace(GUYED.wind, edition="TIA-222-H"),
    )
    assert "TIA-222-H (from memory (tia-222-h))" in check_structure(inputs=newer).basis


def test_a_lattice_that_is_none_is_refused():
    with pytest.raises(StructureInputError, match="give 3 or 4"):
        replace(LATTICE, faces=5)
    with pytest.raises(StructureInputError, match="brace diameter"):
        replace(LATTICE, brace=0.0)
