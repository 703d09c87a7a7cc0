"""The optional tables: every key in SI, both forms, defaults, near misses, writing back."""

from __future__ import annotations

import dataclasses
import math
import re
import tomllib

import pytest
from jsonschema import Draft202012Validator

from bent_plans import HELD, SPREADER, hexagon, upright, vee
from boomwright.base import PlanError
from boomwright.plan import Plan, plan_notices, plan_schema, read_plan, write_plan
from boomwright.plan.kinds import Kind
from boomwright.plan.layout import lay_out
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.spec import NameOrTable, Tables, TableSpec, at_home
from boomwright.plan.tables.root import ROOT
from boomwright.raising import Said
from full_plan import FEEDS, FULL, WINDS, bracketed, with_feed
from written import metric

POUND_FOOT = 4.4482216152605 * 0.3048


def full() -> Plan:
    return read_plan(FULL)


def faults_of(text: str) -> dict[str, str]:
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    return {
        fault.path: metric(fault.message) + " " + metric(fault.remedy)
        for fault in caught.value.faults
    }


def every_spec(kind: Kind) -> list[TableSpec]:
    if isinstance(kind, TableSpec):
        return [kind, *(spec for entry in kind.fields for spec in every_spec(entry.kind))]
    if isinstance(kind, Tables):
        return every_spec(kind.spec)
    if isinstance(kind, NameOrTable):
        return every_spec(kind.table)
    if isinstance(kind, ListOf):
        return every_spec(kind.item)
    if isinstance(kind, Row):
        return [spec for item in kind.items for spec in every_spec(item)]
    return []


def test_every_key_has_its_field_in_the_model() -> None:
    for spec in every_spec(ROOT):
        if spec.model is None:
            continue
        model = at_home(spec.model) if isinstance(spec.model, str) else spec.model
        names = {entry.name for entry in dataclasses.fields(model)} - {
            key for key, _ in spec.always
        }
        keys = {entry.attribute or entry.key for entry in spec.fields}
        # The boom's beam is no key: it follows from where the table stands. Nor is the
        # inductance that tries the band of a mount; what a room knows by itself is none either.
        known = {"guy strand": {"known"}, "soil": {"presumptive"}, "rotator": {"name", "size"}}
        known |= {"ground": {"name"}, "base loads": {"least_axial"}}
        known |= {"tilt": {"unknown_parts"}}
        # A ring goes round the support at its beam's height: it clamps no mast.
        clamps = {"area_inside", "least_mast", "greatest_mast"}
        known["ring mount"] = {"name", "place", "height", "size"} | clamps
        known["part that turns with the support"] = {"length", "wind"}
        known["tolerance"] = {"line_impedance", "plane", "stray", "foot_loss", "radials"}
        assert names - keys <= {"beam", "added"} | known.get(spec.noun, set()), spec.noun
        assert keys <= names, spec.noun


def test_the_full_plan_writes_every_key() -> None:
    """So that the tests that walk through it miss none."""
    texts = [
        FULL,
        *WINDS,
        *map(with_feed, FEEDS),
        hexagon(spreader=SPREADER),
        vee(held=HELD),
        upright(slope=30),
    ]
    seen = {path[-1] for text in texts for path in lay_out(text).keys}
    tables = {path[-1] for text in texts for path in lay_out(text).bodies if path}
    # A tube and a pier stand in place of the tower and pad; their tests are below.
    elsewhere = {
        "tube",
        "hinged",
        "whole",
        "cage",
        "depth",
        "round",
        "may_move",
        "brackets",
        "heights",
        "foot",
    }
    elsewhere |= {"on_boom_of", "fed_with", "phasing_line", "post_line", "loss_factor"}
    elsewhere |= {"wire", "spacing", "depth"}
    for spec in every_spec(ROOT):
        missing = {entry.key for entry in spec.fields} - seen - tables - elsewhere
        assert not missing, (spec.noun, missing)


def test_support_in_si() -> None:
    support = full().support
    assert support is not None
    assert support.tower is not None
    assert support.tower.rating is not None
    assert support.mast is not None
    assert support.rotator is not None
    assert support.base is not None
    assert support.tower.section == pytest.approx(3.048, rel=1e-15)
    assert support.tower.bending_stiffness == 900e3
    assert support.tower.rating.area == pytest.approx(9 * 0.3048**2, rel=1e-14)
    assert support.tower.rating.speed == pytest.approx(70 * 0.44704, rel=1e-14)
    assert support.tower.rating.ice == 0.0
    assert support.mast.yield_strength == pytest.approx(42 * 6.894757293168361e6, rel=1e-14)
    assert support.rotator.turning_torque == pytest.approx(60 * POUND_FOOT, rel=1e-13)
    assert support.rotator.turning_rate == pytest.approx(math.tau / 60, rel=1e-15)
    assert support.guy[0].first_azimuth == pytest.approx(math.pi / 4, rel=1e-15)
    assert support.guy[0].anchor_height == -0.5
    assert support.guy[1].strand.axial_stiffness == 900e3  # type: ignore[union-attr]
    assert support.guy[1].count == 3
    assert not isinstance(support.soil, str | None)
    assert support.soil.lateral == pytest.approx(100 * 47.88025898033584 / 0.3048, rel=1e-13)
    assert (support.base.thickness, support.base.depth) == (0.9, None)


def test_tube_and_pier_in_place_of_tower_and_pad() -> None:
    start, end = FULL.index("[support.tower]"), FULL.index("[support.mast]")
    tube = (
        '[support.tube]\ndiameter = "4.5 in"\nwall = "0.237 in"\nheight = "15 m"\n'
        'material = "A53 B"\nyield_strength = "240 MPa"\nhinged = true\n'
    )
    text = FULL[:start] + tube + FULL[end:]
    start, end = text.index("[support.base]"), text.index("[support.base_loads]")
    pier = (
        '[support.base]\nkind = "pier"\nwidth = "0.8 m"\ndepth = "1.4 m"\nround = true\n'
        "may_move = true\n"
    )
    support = read_plan(text[:start] + pier + text[end:]).support
    assert support is not None
    assert support.tube is not None
    assert support.base is not None
    assert support.tube.hinged
    assert support.tube.diameter == pytest.approx(0.1143, rel=1e-15)
    assert (support.base.is_round, support.base.may_move, support.base.depth) == (True, True, 1.4)


def test_a_tube_on_house_brackets_in_si() -> None:
    support = read_plan(bracketed()).support
    assert support is not None
    assert support.tube is not None
    brackets = support.tube.brackets
    assert brackets is not None
    assert brackets.heights == (4.5, pytest.approx(6.096, rel=1e-14))
    assert brackets.side_force == pytest.approx(900 * 4.4482216152605, rel=1e-14)
    assert (brackets.foot, brackets.vertical_load) == (4.2, 6e3)
    assert brackets.said_by == "builder, 2026-04-02"


@pytest.mark.parametrize(
    ("old", "new", "place"),
    [
        ('["4.5 m", "20 ft"]', '["6.5 m", "4.5 m"]', "support.tube.brackets.heights[1]"),
        ('["4.5 m", "20 ft"]', '["4.5 m", "8.5 m"]', "support.tube.brackets.heights[1]"),
        ('["4.5 m", "20 ft"]', '["4.0 m", "6 m"]', "support.tube.brackets.heights[0]"),
        ('["4.5 m", "20 ft"]', '["6 m"]', "support.tube.brackets.heights"),
        ('["4.5 m", "20 ft"]', "[]", "support.tube.brackets.heights"),
        ('material = "A53 B"\n', 'material = "A53 B"\nhinged = true\n', "support.tube.hinged"),
        (
            "[permits]",
            '[support.base]\nkind = "pier"\nwidth = "1 m"\ndepth = "1 m"\n[permits]',
            "support.base",
        ),
    ],
)
def test_brackets_that_hold_no_tube_are_refused(old: str, new: str, place: str) -> None:
    with pytest.raises(PlanError) as caught:
        read_plan(bracketed((old, new)))
    (fault,) = caught.value.faults
    assert fault.path == place
    assert metric(fault.remedy)


def test_boom_belongs_to_its_beam() -> None:
    plan = full()
    assert plan.boom_of("high") is None
    boom = plan.boom_of("low")
    assert boom is not None
    assert boom.tie is not None
    assert (boom.tie.share, boom.tie.area) == (0.65, pytest.approx(12e-6))
    assert boom.fitting[0].mass == pytest.approx(0.45359237, rel=1e-15)


def test_site_line_reach_and_permits_in_si() -> None:
    plan = full()
    assert plan.site.elevation == pytest.approx(22.86, rel=1e-14)
    assert plan.site.ice_density == pytest.approx(56.5 * 0.45359237 / 0.3048**3, rel=1e-14)
    basis = plan.site.wind_basis
    assert (basis.topography, basis.importance, plan.site.ice_mapped) == (1.3, 1.15, True)
    assert plan.transmitter is not None
    assert (plan.transmitter.power, plan.transmitter.transmit) == (1500.0, 120.0)
    assert plan.line is not None
    assert not isinstance(plan.line.line_type, str)
    assert plan.line.line_type.attenuation == ((10e6, 0.007), (100e6, 0.022))
    assert plan.line.choke == (2000.0, -1500.0)
    assert plan.line.suppression_db == 35.0
    assert plan.reach is not None
    assert [zone.distance for zone in plan.reach.far_ground] == [300.0, 900.0]
    assert plan.reach.far_ground[0].ground.conductivity == 5.0  # type: ignore[union-attr]
    assert plan.reach.wanted == pytest.approx((math.radians(10.0), math.radians(25.0)))
    assert plan.reach.ring == "low"
    assert plan.reach.target[1].locator == "FN42"
    assert plan.reach.layer[0].highest == 400e3
    assert plan.permits is not None
    assert plan.permits.country == "US"
    assert plan.permits.power_line[0].voltage == 11e3
    assert plan.permits.local_limit[0].dated == "2024-05-01"
    assert plan.permits.local_limit[0].setback_ratio == pytest.approx(1.1)
    assert math.degrees(plan.permits.runway[0].ends[1][0][0]) == pytest.approx(52.12)
    assert math.degrees(plan.permits.exposure[0].bearing or 0) == pytest.approx(200)


def test_prices_raising_wish_and_measured_in_si() -> None:
    plan = full()
    assert plan.prices is not None
    assert plan.prices.hire is not None
    assert (plan.prices.currency, plan.prices.price_list) == ("USD", "prices.csv")
    assert plan.prices.stock == (pytest.approx(3.6576), 6.0)
    assert plan.prices.hire.own_time == 144e3
    assert plan.raising is not None
    assert plan.raising.gin_pole is not None
    assert plan.raising.gin_pole.tag_slope == pytest.approx(math.pi / 4)
    assert plan.raising.tram is not None
    assert plan.raising.tram.line_mass == 0.3
    assert plan.raising.training == Said(yes=True, by="climbing school", on="2026-03-02")
    assert plan.raising.tilt is not None
    assert (plan.raising.tilt.parts[1].name, plan.raising.tilt.allowed_moment) == ("cage", 6e3)
    assert plan.raising.haul_line is not None
    assert plan.raising.haul_line.capstan is not None
    assert (plan.raising.haul_line.parts, plan.raising.haul_line.capstan.turns) == (2, 4)
    assert plan.wish is not None
    assert (plan.wish.elements, plan.wish.gain_dbi, plan.wish.swr) == ((2, 4), 7.0, 1.8)
    assert plan.wish.matters is not None
    assert plan.wish.matters.front_to_rear == 0.5
    assert plan.measured is not None
    assert plan.measured.line is not None
    assert plan.measured.line.open_sweep == "open.s1p"
    (trial,) = plan.measured.trial
    assert trial.day == "2026-02-01"
    assert [move.tips for move in trial.moved] == [-0.01, None, None]
    assert trial.moved[2].more == pytest.approx(-0.1)


def test_silence_stays_none_and_no_table_is_made_up() -> None:
    text = FULL[: FULL.index("\n[support]")].replace('name = "high"', 'name = "upper"')
    plan = read_plan(text)
    tables = (
        plan.support, plan.transmitter, plan.line, plan.permits, plan.reach, plan.prices,
        plan.raising, plan.wish, plan.measured,
    )  # fmt: skip
    assert tables == (None,) * 9
    bare = read_plan(text + '\n[raising]\n[permits]\n[line]\ntype = "RG-213"\nlength = 10\n')
    assert bare.raising is not None
    assert bare.permits is not None
    assert bare.line is not None
    assert (bare.raising.mass, bare.raising.forecast_gust, bare.raising.crane) == (None, None, None)
    assert (bare.raising.rescue_plan, bare.raising.level_access) == (None, None)
    assert (bare.permits.boundary, bare.permits.power_lines_surveyed) == (None, None)
    assert bare.line.choke is None


@pytest.mark.parametrize("feed", FEEDS)
def test_feeds_read_and_write(feed: str) -> None:
    beam = read_plan(with_feed(feed)).beams[0]
    again = read_plan(write_plan(read_plan(with_feed(feed)))).beams[0]
    assert again.feed.kind == beam.feed.kind
    for entry in dataclasses.fields(beam.feed):
        one, other = getattr(beam.feed, entry.name), getattr(again.feed, entry.name)
        assert one == (pytest.approx(other, rel=1e-12) if isinstance(other, float) else other)


def test_an_uncut_element_is_computed_as_if_cut_by_its_diameter() -> None:
    gamma = read_plan(with_feed(FEEDS[2])).beams[0].feed
    assert (gamma.gap, gamma.cuts_element) == (0.022, False)
    assert read_plan(FULL).beams[0].feed.cuts_element


def test_schema_accepts_the_full_plan_and_finds_damage() -> None:
    validator = Draft202012Validator(plan_schema())
    for text in (FULL, *WINDS, *map(with_feed, FEEDS), write_plan(full())):
        # TOML days become dates in Python; an editor's schema sees their text.
        data = tomllib.loads(text.replace("= 2024-05-01", '= "2024-05-01"'))
        data.get("measured", {}).get("trial", [{}])[0].pop("day", None)
        assert [error.json_path for error in validator.iter_errors(data)] == []
    damaged = tomllib.loads(FULL.replace('boundary = "22 m"', "boundry = 1"))
    damaged["permits"]["local_limit"][0]["dated"] = "2024-05-01"
    damaged["measured"]["trial"][0].pop("day")
    assert [error.json_path for error in validator.iter_errors(damaged)] == ["$.permits"]


def _misspelt(key: str) -> str:
    middle = len(key) // 2
    return key[: middle - 1] + key[middle] + key[middle - 1] + key[middle + 1 :]


def _mistakes() -> dict[str, tuple[str, str, str]]:
    """Every key of four letters or more with two neighbours swapped, once for each table."""
    found = {}
    for path, start in lay_out(FULL).keys.items():
        key = str(path[-1])
        wrong = _misspelt(key)
        # Keys of tables with a header of their own stand in brackets; one of them is below.
        if len(key) >= 4 and wrong != key and FULL.startswith(key, start):
            name = ".".join(step for step in path if isinstance(step, str))
            found[name] = (key, wrong, FULL[:start] + wrong + FULL[start + len(key) :])
    return found


MISTAKES = _mistakes()


@pytest.mark.parametrize("place", MISTAKES)
def test_a_misspelt_key_is_told_the_right_one(place: str) -> None:
    key, wrong, text = MISTAKES[place]
    with pytest.raises(PlanError) as caught:
        read_plan(text)
    (remedy,) = [
        metric(fault.remedy)
        for fault in caught.value.faults
        if re.fullmatch(rf"(.*\.)?{wrong}", fault.path)
    ]
    assert f'did you mean "{key}"' in remedy


def test_a_misspelt_header_is_told_the_right_one() -> None:
    faults = faults_of(FULL.replace("[support.mast]", "[support.msat]"))
    assert 'did you mean "mast"' in faults["support.msat"]


def test_doubts_about_boom_and_mast() -> None:
    text = re.sub(r"\n *traps = .*", "", FULL)
    assert [notice.code for notice in plan_notices(read_plan(text))] == []
    # Without its ring the lower beam hangs where there is no mast.
    text = text.replace('ring = "low"\n', "")
    assert [notice.code for notice in plan_notices(read_plan(text))] == []
    text = re.sub(r"\[\[support.ring]].*?(?=\n\[)", "", text, flags=re.DOTALL)
    codes = [notice.code for notice in plan_notices(read_plan(text))]
    assert codes == ["plan.beam-off-mast"]
    short = text.replace('"6.2 m"', '"2.5 m"', 1).replace('clamp = "2.9 m"', 'clamp = "1 m"')
    short = short.replace('joints = ["1.2 m", "4.6 m"]', 'joints = ["1.2 m"]')
    codes = [notice.code for notice in plan_notices(read_plan(short))]
    assert codes == ["plan.element-off-boom", "plan.fitting-off-boom", "plan.beam-off-mast"]


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('beam = "high"', 'beam = "higher"', "wish.beam", "low, high"),
        ('beam = "low"\nday', "day", "measured.beam", "which one"),
        ('beam = "low"\nturning', 'beam = "lo"\nturning', "support.ring[0].beam", "low, high"),
        (
            'beam = "low"\nturning',
            'beam = "low"\n[[support.ring]]\nbeam = "low"\nturning',
            "support.ring[1].beam",
            "one ring for each beam",
        ),
        ('stack = ["low", "high"]', 'stack = ["low", "mid"]', "reach.stack[1]", "low, high"),
        ('"beam[1].element[1]"', '"beam[1].element[7]"', "wish.frozen[1]", "count beams"),
        ('"beam[1].element[1]"', '"beam[1].elment[1]"', "wish.frozen[1]", "spell keys"),
        ('"beam[1].element[1]"', '"beam one"', "wish.frozen[1]", "not a place"),
        ("element = 1,", "element = 2,", "measured.trial[0].moved[0].element", "0 to 1"),
        ('longer = "5 mm" }', 'tips = "5 mm" }', "measured.trial[0].moved[1]", "longer or more"),
    ],
)
def test_names_and_places_must_stand_in_the_plan(old: str, new: str, path: str, words: str) -> None:
    assert FULL.count(old) == 1
    faults = faults_of(FULL.replace(old, new))
    assert list(faults) == [path]
    assert words in faults[path]


def test_a_fault_in_a_beam_does_not_drag_in_what_refers_to_it() -> None:
    assert list(faults_of(FULL.replace('name = "high"', "name = 7"))) == ["beam[1].name"]
