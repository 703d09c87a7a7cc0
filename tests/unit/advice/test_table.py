"""The table of shapes, supports and heights: read as a plan is, complete, in usual ranges."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from boomwright.base import BoomwrightError, PlanError
from boomwright.plan import read_place, write_plan
from boomwright.plan.model_station import PlacePlan, StandingPlan
from boomwright.plan.shapes import SHAPES
from boomwright.session.files import PlanFolder
from boomwright.study.advice.advise import advise
from boomwright.study.advice.stations import stations
from boomwright.study.advice.table import extended_table, read_table, usual_table

TABLE = usual_table()
PLACE = PlacePlan(bands=("20 m",))


def test_every_shape_has_something_to_stand_on() -> None:
    kinds = {row.kind for row in TABLE.support}
    for shape in TABLE.shape:
        assert set(shape.on) <= kinds
        assert bool(shape.wire) != bool(shape.elements)
        assert not shape.wire or shape.wire in SHAPES


def test_tubes_slide_into_each_other() -> None:
    """An inner tube passes into the next larger one with 0 to 1.6 mm of play in all."""
    for taper in TABLE.taper:
        for (outer, _, wall), (inner, _, _) in zip(taper.half, taper.half[1:], strict=False):
            assert inner <= outer - 2.0 * wall + 1e-5
        assert sum(length for _, length, _ in taper.half) >= taper.longest


def test_a_fault_of_the_table_is_told_at_its_place() -> None:
    text = '[[shape]]\nname = "x"\non = ["tree"]\n'
    with pytest.raises(PlanError) as caught:
        read_table(text)
    told = {fault.path: fault.message for fault in caught.value.faults}
    assert "shape[0].on[0]" in told
    assert "support" in told


def test_nothing_above_the_limit_is_tried() -> None:
    limit = 9.0
    tried = [*stations(TABLE, replace(PLACE, highest=limit))]
    assert tried
    assert all(each.height <= limit for each in tried)
    assert any(each.height > limit for each in stations(TABLE, PLACE))


def test_trees_are_tried_only_where_they_stand() -> None:
    trees = StandingPlan(name="two limes", kind="trees", height=11.0)
    assert not [each for each in stations(TABLE, PLACE) if each.support.kind == "trees"]
    with_trees = [
        each
        for each in stations(TABLE, replace(PLACE, standing=(trees,)))
        if each.owned == "two limes"
    ]
    assert {each.height for each in with_trees} == {11.0}
    assert {each.antennas for each in with_trees} == {"inverted-vee", "flat dipole"}


def test_trees_carry_two_wires_for_three_and_four_bands_none_above_their_height() -> None:
    trees = StandingPlan(name="two limes", kind="trees", height=11.0)
    bands = ("10 m", "15 m", "17 m", "20 m")
    for count, upper in ((3, "flat dipole"), (4, "two dipoles on one feed")):
        place = replace(PLACE, bands=bands[-count:], standing=(trees,))
        (wires,) = [each for each in stations(TABLE, place) if each.owned]
        assert [each.shape.name for each in wires.hung] == ["two dipoles on one feed", upper]
        assert wires.height + wires.hung[-1].above == trees.height


def test_bands_that_nothing_serves_together_are_parted_by_what_is_wanted_most() -> None:
    text = """boomwright = 1
title = "Five bands"
[site]
ground = "wet"
[place]
bands = ["15 m", "40 m", "20 m", "17 m", "10 m"]
"""
    told = r"keep 15 m, 40 m, 20 m, and leave 17 m, 10 m to a second place with a file of its own"
    with pytest.raises(BoomwrightError, match=told):
        advise(read_place(text))
    trees = '[[place.standing]]\nname = "limes"\nkind = "trees"\nheight = "11 m"\n'
    told = r"keep 15 m, 40 m, 20 m, 17 m, and leave 10 m to"
    with pytest.raises(BoomwrightError, match=told):
        advise(read_place(text + trees))


def test_wire_between_trees_hangs_as_high_as_a_limit_allows() -> None:
    trees = StandingPlan(name="two limes", kind="trees", height=11.0)
    place = replace(PLACE, highest=9.6, standing=(trees,))
    hung = [each for each in stations(TABLE, place) if each.owned]
    assert {each.antennas for each in hung} == {"inverted-vee", "flat dipole"}
    assert all(9.4 < each.height <= 9.6 for each in hung)


def test_a_pole_in_the_shed_keeps_its_tube_and_height() -> None:
    pole = StandingPlan(
        name="pole in the shed", kind="light pole", height=12.0, diameter=0.06, wall=0.004
    )
    owned = [each for each in stations(TABLE, replace(PLACE, standing=(pole,))) if each.owned]
    assert {each.support.tubes for each in owned} == {((0.06, 0.004),)}
    assert {round(each.height - each.support.clear, 6) for each in owned} == {12.0}


def test_a_limit_among_the_heights_is_used_up() -> None:
    """Twelve metres for the highest part: a mast 0.4 m above the boom leaves 11.6 m for it."""
    tried = [*stations(TABLE, replace(PLACE, highest=12.0))]
    tilting = {each.height for each in tried if each.support.kind == "tilting tube"}
    beams = {
        each.height
        for each in tried
        if each.support.kind == "tilting tube" and each.antennas == "three elements"
    }
    assert beams == {8.5, 10.5, 11.6}
    assert max(tilting) < 12.0
    assert not any(each.height > 12.0 for each in tried)


def test_one_mast_carries_both_bands() -> None:
    two = [*stations(TABLE, replace(PLACE, bands=("15 m", "20 m")))]
    assert all(sorted(band for one in each.hung for band in one.bands) == ["15 m", "20 m"]
               for each in two)  # fmt: skip
    pair = next(each for each in two if len(each.hung) == 2)
    assert pair.antennas == "two elements for 20 m below two elements for 15 m"
    assert pair.hung[1].above > 0.0
    assert {"two dipoles on one feed", "hexagon-shaped wire beam"} <= {
        each.antennas for each in two
    }


def test_three_bands_find_a_frame_of_wire_that_carries_them() -> None:
    three = {
        each.antennas for each in stations(TABLE, replace(PLACE, bands=("20 m", "15 m", "10 m")))
    }
    assert "hexagon-shaped wire beam" in three
    assert not [*stations(TABLE, replace(PLACE, bands=("20 m", "17 m", "15 m", "10 m")))]


OWN = """
[[shape]]
name = "my old two elements"
elements = 2
boom = 0.12
turns = true
on = ["tilting tube", "my mast"]
work = "3 h"
"""


def test_an_owner_adds_what_is_his() -> None:
    text = OWN.replace(', "my mast"', "")
    table = extended_table(TABLE, text)
    assert [row.name for row in table.shape] == [
        *(row.name for row in TABLE.shape),
        "my old two elements",
    ]
    assert table.shape[-1].work == pytest.approx(3.0 * 3600.0)
    assert (table.support, table.line, table.taper) == (TABLE.support, TABLE.line, TABLE.taper)
    renamed = extended_table(TABLE, text.replace("my old two elements", "two elements"))
    assert len(renamed.shape) == len(TABLE.shape)
    assert next(row for row in renamed.shape if row.name == "two elements").boom == 0.12
    line = extended_table(TABLE, '[line]\ntype = "RG-58"\nshack = "8 m"\n').line
    assert (line.type, line.shack) == ("RG-58", 8.0)


def test_a_fault_in_an_owners_table_names_its_place() -> None:
    with pytest.raises(PlanError) as refused:
        extended_table(TABLE, OWN, source="mine.toml")
    (fault,) = refused.value.faults
    assert (fault.path, fault.line) == ("shape[0].on[1]", 7)
    assert refused.value.source == "mine.toml"


def test_a_place_names_its_table(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_text(OWN.replace(', "my mast"', ""), encoding="utf-8")
    text = (
        'boomwright = 1\ntitle = "Meadow"\n[site]\nground = "wet"\n[place]\nbands = ["20 m"]\n'
        'table = "mine.toml"\n'
    )
    place = read_place(text)
    assert read_place(write_plan(place)) == place
    made = advise(place, files=PlanFolder(tmp_path), stopped=lambda: True)
    assert made.untried == len([*stations(TABLE, PLACE)]) + 3


@pytest.mark.parametrize(("foot", "begins"), [(None, 20.8), (0.0, 0.0)])
def test_a_pole_on_a_roof_begins_at_its_brackets(foot: float | None, begins: float) -> None:
    """A stair house on a roof: nobody has a pole from the street up to it."""
    house = StandingPlan(
        name="stair house", kind="house bracket", height=23.5, heights=(21.0, 22.5), foot=foot
    )
    owned = [each for each in stations(TABLE, replace(PLACE, standing=(house,))) if each.owned]
    assert owned
    for each in owned:
        assert each.support.plan is not None
        assert each.support.plan.tube is not None
        brackets = each.support.plan.tube.brackets
        assert brackets is not None
        assert brackets.foot == begins


def test_a_limit_that_nothing_stands_below_is_named() -> None:
    text = """
boomwright = 1
title = "Nothing"
[site]
ground = "wet"
[place]
bands = ["20 m"]
highest = "5 cm"
"""
    with pytest.raises(BoomwrightError, match=r"place\.highest: nothing that serves 20 m"):
        advise(read_place(text))
