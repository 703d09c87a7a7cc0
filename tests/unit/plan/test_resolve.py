"""From a plan to the rooms: same words, same numbers, silence stays silence."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import get_args

import numpy as np
import pytest

from antennas import resonant_load
from boomwright.base import STANDARD_GRAVITY, PlanError
from boomwright.cost import Price
from boomwright.feed import (
    COAX_TYPES,
    DUTY_FACTORS,
    RodGeometry,
    design_gamma,
    design_hairpin,
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    design_tee,
    through_stages,
)
from boomwright.parts import (
    RIGGING_MASS,
    BoomFitting,
    BoomTube,
    Feed,
    TubeKind,
    boom_parts,
    share_totals,
)
from boomwright.permits import EMISSION_DUTY, Airport, permit_sheet
from boomwright.plan import Plan, read_plan, vocabulary
from boomwright.plan.resolve import (
    average_transmitter_power,
    beam_frame,
    coax_type,
    design_targets,
    design_wish,
    duty_factor,
    feed_line,
    feed_stages,
    ground_zones,
    installation,
    layers,
    mast_place,
    plan_bill,
    plan_estimate,
    raising_gaps,
    raising_job,
    ring_beams,
    stacked_beams,
    station_assembly,
    station_place,
    structure_inputs,
    structure_notices,
    target_places,
    turning_axis,
    usual_wishes,
    wished_beam,
)
from boomwright.plan.resolve.assembly import swing_radius
from boomwright.plan.resolve.design import frozen_places
from boomwright.plan.resolve.feed import _DUTY_WORD
from boomwright.plan.resolve.tuning import trial_moves, tuning_installation
from boomwright.raising import Said, Tilt, plan_lift
from boomwright.session.files import packaged_text
from boomwright.structure import (
    EDITIONS,
    MAST_STEELS,
    EnWind,
    PadBase,
    PierBase,
    StatedWind,
    check_structure,
)
from boomwright.structure.ground.soils import PRESUMPTIVE_SOILS
from boomwright.structure.support.guys import STRANDS
from boomwright.structure.support.tower_rating import EN_EDITION
from boomwright.structure.weather.basis import SpeedKind
from boomwright.structure.weather.en_wind import TERRAIN_LAWS
from boomwright.structure.weather.gust import LATTICE_DAMPING
from example_stations import STATIONS
from full_plan import FEEDS, FULL, WINDS, with_feed
from written import metric

DEMO = packaged_text("demo.toml")
TILTING = STATIONS[2].read_text(encoding="utf-8")
_FITTINGS = re.compile(r"^ *fitting = .*$", re.MULTILINE)
BARE = DEMO[: DEMO.index("\n  [beam.boom]")]


def demo() -> Plan:
    return read_plan(DEMO)


def test_words_of_the_plan_are_those_of_the_rooms() -> None:
    assert set(vocabulary.EDITIONS) == set(EDITIONS)
    assert set(vocabulary.TERRAINS) == set(TERRAIN_LAWS)
    assert set(vocabulary.JOINTS) == set(LATTICE_DAMPING)
    assert set(vocabulary.SPEED_KINDS) == set(get_args(SpeedKind))
    assert (*vocabulary.EDITIONS, vocabulary.EN_EDITION) == (*EDITIONS, EN_EDITION)
    assert set(vocabulary.STEEL_GRADES) == set(MAST_STEELS)
    assert set(vocabulary.STRANDS) == set(STRANDS)
    assert set(vocabulary.SOILS) == set(PRESUMPTIVE_SOILS)
    assert set(vocabulary.COAX_TYPES) == set(COAX_TYPES)
    assert set(vocabulary.EMISSIONS) == set(EMISSION_DUTY) == set(_DUTY_WORD)
    assert set(_DUTY_WORD.values()) == set(DUTY_FACTORS)


def test_structure_of_the_demo_is_checked_from_the_plan_alone() -> None:
    inputs = structure_inputs(demo())
    assert inputs.wind is not None
    assert (inputs.wind.kind, inputs.wind.edition, inputs.wind.exposure) == (
        "ultimate",
        "ASCE 7-16",
        "B",
    )
    assert inputs.wind.site_elevation == 22.0
    assert inputs.ice is not None
    assert inputs.ice.concurrent_gust == 18.0
    assert inputs.tube is not None
    assert inputs.tube.yield_strength == MAST_STEELS["A53 B"].yield_strength
    assert isinstance(inputs.base, PierBase)
    report = check_structure(inputs=inputs)
    judged = {line.name for line in report.ledger if line.verdict != "not checked"}
    assert {"support tube: bending", "mast: bending at the top bearing"} <= judged
    assert structure_notices(demo()) == ()


def test_a_beam_weighs_and_balances_alike_in_every_room() -> None:
    for text in (DEMO, *(path.read_text("utf-8") for path in STATIONS)):
        plan = read_plan(text)
        report = check_structure(inputs=structure_inputs(plan))
        station = station_assembly(plan, structure=report)
        for beam in plan.beams:
            found = next(each for each in report.beams if each.name == beam.name)
            boom, mass = plan.boom_of(beam.name), station.mass(beam.name)
            assert (mass is None) == (boom is None and not beam.bent)
            if mass is not None and boom is None:
                # Wire has no boom to balance on; insulators and cords are the parts' alone.
                assert found.weight is not None
                assert found.weight <= mass * STANDARD_GRAVITY < 1.3 * found.weight
            if boom is None or mass is None:
                continue
            assert found.weight == pytest.approx(mass * STANDARD_GRAVITY, rel=1e-9)
            assert found.balance is not None
            # Two ways of summing up: part by part, and tubes with what they carry.
            at = found.balance - boom.rear_end
            assert station.balance(beam.name) == pytest.approx(at, abs=1e-9)
            assert station_assembly(plan).balance(beam.name) == pytest.approx(at, abs=1e-9)
            middle = sum(
                (part.mass or 0.0) * solid.volume / part.volume
                * ((solid.middle[0] + boom.rear_end - (found.clamp or 0.0)) ** 2
                   + solid.middle[1] ** 2)
                for part in station.of(beam.name) for solid in part.solids
            )  # fmt: skip
            # Of each solid only its middle is taken here, so this is the least it can be.
            assert found.inertia is not None
            assert middle < found.inertia < 3.0 * middle


def test_a_total_of_the_owner_scales_the_parts_it_stands_for() -> None:
    bare = station_assembly(read_plan(_FITTINGS.sub("", DEMO)))
    station = station_assembly(demo())
    assert not station.of("20m", "fitting")
    mounts = [part for part in station.of("20m") if part.group.startswith("mount ")]
    assert sum(part.mass or 0.0 for part in mounts) == pytest.approx(2.4)
    (box,) = station.of("20m", "box")
    assert (box.mass, box.known) == (1.1, "plan")
    assert {part.mark for part in bare.of("20m")} == {part.mark for part in station.of("20m")}
    lump = '{ name = "plate", mass = "5 kg", stands_for = "mast hardware" }'
    plated = station_assembly(read_plan(_FITTINGS.sub(f"  fitting = [{lump}]", DEMO)))
    held = [part for part in plated.of("20m") if part.group == "mast plate"]
    assert sum(part.mass or 0.0 for part in held) == pytest.approx(5.0)


def test_a_total_without_parts_is_kept_and_one_without_a_place_is_refused() -> None:
    with pytest.raises(PlanError) as found:
        read_plan(DEMO.replace(', stands_for = "feed box"', ""))
    (fault,) = found.value.faults
    assert "no place along the boom" in metric(fault.message)
    assert "stands_for" in metric(fault.remedy)
    plan = demo()
    frame = beam_frame(plan, plan.beams[0])
    lump = BoomFitting(name="balun", mass=1.1, place=None, stands_for="feed box")
    boom = BoomTube(diameter=0.051, length=6.2, wall=0.0032, fittings=(lump,))
    *_, kept = share_totals(frame, boom, boom_parts(frame, boom))
    assert (kept.role, kept.mass) == ("fitting", 1.1)


def test_everything_of_the_full_plan_reaches_the_structure_room() -> None:
    inputs = structure_inputs(read_plan(FULL))
    assert inputs.method == "strength"
    assert inputs.wind is not None
    assert (inputs.wind.importance, inputs.wind.topography) == (1.15, 1.3)
    assert inputs.ice is not None
    assert (inputs.ice.mapped, inputs.ice.importance) == (True, 1.25)
    low, high = inputs.beams
    assert high.boom is None
    assert low.boom is not None
    assert low.boom.tie is not None
    assert (low.boom.clamp, low.boom.offset) == (2.9, 0.08)
    assert low.drag_area() > 0.02  # its box and plates come to more than the entry says
    # Beside it there hangs what insulates the element in the boom.
    assert pytest.approx(0.45359237) in [each.mass for each in low.masses if each.position == 2.6]
    # 2.4 kg of bearing, 11 kg of rotator and 6 kg of shelf as the plan says
    assert inputs.gear_weight == pytest.approx((2.4 + 11.0 + 6.0) * STANDARD_GRAVITY)
    assert inputs.tower is not None
    assert inputs.tower.weight == pytest.approx(180 * STANDARD_GRAVITY, rel=1e-12)
    assert inputs.tower.rating.missing == ()
    assert inputs.tower.rating.section_moment == pytest.approx(9000 * 1.3558179, rel=1e-7)
    assert (inputs.tower.rating.section_shear, inputs.tower.rating.leg_load) == (4e3, 30e3)
    assert inputs.tower.drawing is not None
    assert inputs.tower.drawing.guy_levels == pytest.approx((7.0, 46 * 0.3048), rel=1e-12)
    assert (inputs.tower.drawing.height, inputs.tower.drawing.anchor_radius) == (15.0, 11.0)
    assert inputs.tower.drawing.said_by == "sheet 5, read by the owner in May"
    assert inputs.mast is not None
    assert (inputs.mast.steel, inputs.mast.rotator_below) == (True, 1.5)
    assert inputs.rotator is not None
    assert inputs.rotator.rated_area == 0.7
    assert inputs.guying[0].first_azimuth == pytest.approx(math.pi / 4)
    assert inputs.guying[1].strand.weight_per_length == pytest.approx(0.1 * STANDARD_GRAVITY)
    assert isinstance(inputs.base, PadBase)
    assert inputs.base.depth == pytest.approx(1.0)
    assert inputs.base_reactions is not None
    assert (inputs.base_reactions.moment, inputs.base_reactions.kind) == (30e3, "nominal")
    assert inputs.soil is not None
    assert not inputs.soil.presumptive
    assert inputs.frost_depth == pytest.approx(0.508)


_RING_FIGURES = re.compile(r"\[\[support.ring]].*?(?=\n\[)", re.DOTALL)


def test_a_ring_reaches_the_structure_room_and_the_bill() -> None:
    (ring,) = structure_inputs(read_plan(FULL)).rings
    assert (ring.beam, ring.height, ring.place) == ("low", 12.0, "ring")
    assert (ring.name, ring.rated_area) == ("ring mount of low", 1.4)
    assert ring.start_stop_torque == 400.0
    assert ring.mass == 45.0
    assert (ring.drag_area, ring.said_by) == (0.15, "letter of the tower's maker, 2026-03-12")

    def bought(text: str) -> dict[str, float]:
        lines = plan_bill(read_plan(text)).lines
        return {line.item: line.quantity for line in lines if "ring mount" in line.item}

    assert bought(FULL) == {"ring mount with motor and control box": 1.0}
    assert bought(FULL.replace('owned = ["rotator"]', 'owned = ["ring"]')) == {}


def test_a_ring_that_only_the_reach_study_names_has_no_ratings() -> None:
    # As plans were written before rings had a table of their own.
    plan = read_plan(_RING_FIGURES.sub("", FULL))
    (ring,) = structure_inputs(plan).rings
    assert (ring.beam, ring.said_by, ring.mass) == ("low", "", None)
    assert ring.holding_torque is None
    report = check_structure(inputs=structure_inputs(plan))
    (line,) = (each for each in report.ledger if each.name == "ring mount of low: on the support")
    assert line.verdict == "not checked"


def test_a_ring_of_the_support_is_the_one_the_reach_study_turns() -> None:
    for text in (FULL, FULL.replace('ring = "low"\n', "")):
        pair = ring_beams(read_plan(text))
        assert pair is not None
        assert [beam.name for beam in pair] == ["low", "high"]
    assert ring_beams(read_plan(BARE)) is None


def test_a_bare_plan_passes_nothing() -> None:
    report = check_structure(inputs=structure_inputs(read_plan(BARE)))
    support = [line for line in report.ledger if not line.name.startswith("20m")]
    assert support
    assert {line.verdict for line in support} == {"not checked"}
    assert all(line.reason for line in support)


def test_metals_of_a_mast() -> None:
    def mast(material: str) -> tuple[object, ...]:
        plan = read_plan(FULL.replace('material = "steel"\nyield_strength = "42 ksi"', material))
        inputs = structure_inputs(plan)
        assert inputs.mast is not None
        return inputs.mast.steel, inputs.mast.yield_strength, inputs.mast.elastic_modulus

    assert mast('material = "steel"') == (True, None, 200e9)
    assert mast('material = "6061-T6"') == (False, 241e6, 69e9)
    assert mast('material = "stainless steel"') == (True, 205e6, 193e9)
    assert mast('material = "A53 A"\nyield_strength = "250 MPa"')[1] == 250e6


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('edition = "ASCE 7-16"', 'edition = "SIA 261"', "plan.wind-edition-unknown"),
        ('edition = "ASCE 7-16"', 'edition = "EN 1991-1-4"', "plan.wind-basis-incomplete"),
        (
            'edition = "ASCE 7-16"',
            'edition = "EN 1991-1-4"\nterrain = "II"',
            "plan.wind-kind-mixed",
        ),
        ('kind = "ultimate"', 'kind = "characteristic"', "plan.wind-kind-mixed"),
        (
            'kind = "ultimate"',
            'kind = "characteristic"\npressure = [["20 m", "1 kPa"]]\nby = "an engineer"',
            "plan.wind-given-twice",
        ),
        ('exposure = "B" ', "# ", "plan.wind-basis-incomplete"),
    ],
)
def test_a_wind_without_a_usable_rule_is_said_and_not_used(old: str, new: str, code: str) -> None:
    plan = read_plan(DEMO.replace(old, new))
    assert structure_inputs(plan).wind is None
    assert [notice.code for notice in structure_notices(plan)] == [code]


def test_wind_by_other_codes_reaches_the_structure_room() -> None:
    european, stated = (structure_inputs(read_plan(text)).wind for text in WINDS)
    assert isinstance(european, EnWind)
    assert (european.basic_speed, european.terrain, european.orography) == (24.0, "II", 1.1)
    assert european.speed == pytest.approx(24.0 * 0.9 * 0.95 * 1.02, rel=1e-12)
    assert (european.air_density, european.factors.wind, european.kind) == (
        1.2,
        1.6,
        "characteristic",
    )
    assert isinstance(stated, StatedWind)
    assert stated.points[0] == (6.0, 750.0)
    assert (stated.by, stated.code) == ("an engineer, 2026-03-01", "SIA 261")
    # Factored as given: without the factor 1.5 it is two thirds.
    assert stated.pressure(6.0) == pytest.approx(500.0, rel=1e-12)
    for text in WINDS:
        assert structure_notices(read_plan(text)) == ()


def test_keys_of_another_code_are_said_not_used() -> None:
    stray = WINDS[0].replace('terrain = "II"', 'exposure = "C", terrain = "II"')
    (notice,) = structure_notices(read_plan(stray))
    assert notice.code == "plan.wind-basis-stray"
    assert "exposure" in notice.said("metric")
    stray = FULL.replace('exposure = "B", ', 'exposure = "B", terrain = "II", ')
    (notice,) = structure_notices(read_plan(stray))
    assert "terrain" in notice.said("metric")
    without = WINDS[1].replace(", load_factor = 1.5", "")
    assert structure_inputs(read_plan(without)).wind is None
    (notice,) = structure_notices(read_plan(without))
    assert "load_factor" in notice.said("metric")


def test_an_ultimate_speed_with_a_nominal_edition_is_refused_at_its_place() -> None:
    plan = read_plan(DEMO.replace("ASCE 7-16", "ASCE 7-05"))
    with pytest.raises(PlanError) as caught:
        structure_inputs(plan)
    (fault,) = caught.value.faults
    assert fault.path == "site.wind_basis"
    assert "ultimate" in metric(fault.message)
    assert "agree" in metric(fault.remedy)


def test_permits_of_the_demo() -> None:
    plan = demo()
    asked = installation(plan, airports=())
    assert asked.heights.structure_top == 16.4
    # The bow of the 8 mm U-bolt round the 31.75 mm tubes, and a few millimetres of what insulates
    # them from it.
    (tube, *_) = station_assembly(plan).of("20m", "element tube")
    bow = tube.solids[0].start[2] + 0.5 * 0.03175 + 0.008
    assert 16.0 + bow - 1e-9 <= asked.heights.antenna_top <= 16.0 + bow + 0.005
    assert bow > 0.5 * 0.051 + 0.03175
    assert (asked.country, asked.site_elevation, asked.lines_surveyed) == ("GB", 22.0, True)
    assert asked.around.boundary_distance == 22.0
    assert asked.power_lines[0].voltage == 11e3
    assert {finding.verdict for finding in permit_sheet(asked).findings} <= {"within", "ask"}


def test_no_permits_table_means_nobody_looked() -> None:
    asked = installation(read_plan(BARE))
    assert asked.airports is None
    assert not asked.lines_surveyed
    assert asked.around.boundary_distance is None
    verdicts = {finding.verdict for finding in permit_sheet(asked).findings}
    assert "not checked" in verdicts
    assert "within" not in verdicts


def test_the_swing_circle_is_the_larger_one_while_the_mast_is_not_placed() -> None:
    plan = demo()
    beam = plan.beams[0]
    report = check_structure(inputs=structure_inputs(plan)).beams[0]
    assert mast_place(plan, beam) is None
    # By hand: reflector half 5.49 m, its tip of 15.88 mm, on the side of the boom away from the
    # pole; director half 4.925 m. The boom's axis stands beside the pole's.
    beside = abs((station_assembly(plan).carrier("20m").axis or (0.0, 0.0))[1])
    assert 0.5 * (0.051 + 0.0603) < beside < 0.07
    tip = math.hypot(5.49 + beside, (report.clamp or 0.0) + 0.00794)
    assert swing_radius(plan, beam) == pytest.approx(tip, rel=1e-5)
    # Without walls nobody knows where it balances: the worse end of the boom counts.
    thin = read_plan(re.sub(r'("15.88 mm", "[0-9.]+ m"), "[^"]*"', r"\1", DEMO))
    assert swing_radius(thin, thin.beams[0]) > math.hypot(5.49, 6.1)
    placed = read_plan(DEMO.replace('rear_end = "-0.1 m"', 'rear_end = "-0.1 m"\n  clamp = "3 m"'))
    assert mast_place(placed, placed.beams[0]) == 3.0


def test_runways_of_the_plan_go_to_their_airport_or_make_one() -> None:
    plan = read_plan(FULL)
    known = Airport(code="xxxx", name="Field", latitude=0.9, longitude=0.0, elevation=10.0)
    (found,) = installation(plan, airports=(known,)).airports or ()
    assert found.name == "Field"
    assert found.runways[0].length == pytest.approx(2225, abs=3)  # 0.02 deg of latitude at 52 N
    (made,) = installation(plan, airports=()).airports or ()
    assert (made.code, made.elevation) == ("XXXX", 15.0)
    assert math.degrees(made.latitude) == pytest.approx(52.11)


def test_a_beam_turns_about_what_holds_it() -> None:
    plan = demo()
    x, y = turning_axis(plan, plan.beams[0])
    boom, mast = plan.boom_of("20m"), plan.support.mast
    # The mast stands to the right of the boom: half of both and the plate between them.
    assert y == pytest.approx(-(boom.offset or 0.0) or -(0.5 * (boom.diameter + mast.diameter)
                                                         + 0.006), abs=1e-9)  # fmt: skip
    assert x == pytest.approx(boom.clamp) if boom.clamp is not None else boom.rear_end < x < 3.0
    # Nothing known to hold it: the clamp, and the boom's own offset.
    loose = replace(plan, support=None, booms=(replace(boom, clamp=1.7, offset=0.08),))
    assert turning_axis(loose, loose.beams[0]) == pytest.approx((1.7, -0.08))


def test_average_power_counts_in_full_what_is_not_said() -> None:
    # 3 min on, 3 min off in a window of 6 min; duty 0.2: {oet-65b, Table 2} as in the room.
    assert average_transmitter_power(demo(), averaging_time=360.0) == pytest.approx(40.0)
    silent = DEMO.replace('emission = "single sideband, unprocessed"\n', "").replace(
        'listen = "3 min"\n', ""
    )
    assert average_transmitter_power(read_plan(silent), averaging_time=360.0) == 400.0
    assert average_transmitter_power(read_plan(BARE), averaging_time=360.0) is None
    assert (duty_factor(demo()), duty_factor(read_plan(silent))) == (0.2, 1.0)


def test_raising_lifts_every_part_and_takes_wind_from_the_structure() -> None:
    plan = demo()
    beam = plan.beams[0]
    report = check_structure(inputs=structure_inputs(plan)).beams[0]
    job = raising_job(plan, beam, report)
    assert job is not None
    # Clamps, plates, rods and plugs hang on the hook too, and the bridle and hook themselves.
    parts = station_assembly(plan).of("20m")
    assert {"element plate", "U-bolt", "mast plate", "match", "tip"} <= {p.role for p in parts}
    assert job.load.mass == pytest.approx(sum(part.mass or 0.0 for part in parts) + RIGGING_MASS)
    assert job.load.mass > (report.weight or 0) / STANDARD_GRAVITY
    assert job.load.balance_place == pytest.approx((report.balance or 0) + 0.1)
    assert job.load.element_span == pytest.approx(10.98)
    assert job.power_lines[0].required_clearance == pytest.approx(3.048)
    assert (job.crew.ground, job.foot_set, job.tilt) == (5, True, None)
    assert job.level_access == Said(yes=True, by="club chairman", on="2026-10-04")
    # "not in the way", turned round: the beam passes.
    assert job.clear_of_guys == Said(yes=True, by="club chairman", on="2026-10-04")
    assert (job.boundary, job.walkway) == (22.0, 30.0)
    assert [(ring.height, ring.anchor_radius) for ring in job.guys] == [(14.0, 11.0), (7.5, 11.0)]
    assert plan_lift(job).methods
    weighed = read_plan(DEMO.replace("[raising]", '[raising]\nmass = "31 kg"'))
    heavier = raising_job(weighed, weighed.beams[0], report)
    assert heavier is not None
    assert heavier.load.mass == 31.0


def test_raising_says_what_is_missing() -> None:
    bare = read_plan(BARE)
    gaps = raising_gaps(bare, bare.beams[0], None)
    assert len(gaps) == 4
    assert raising_job(bare, bare.beams[0], None) is None
    report = check_structure(inputs=structure_inputs(bare)).beams[0]
    assert report.weight is None or raising_gaps(bare, bare.beams[0], report)


def test_gear_of_the_full_plan() -> None:
    plan = read_plan(FULL)
    report = check_structure(inputs=structure_inputs(demo())).beams[0]
    job = raising_job(plan, plan.beams[0], report)
    assert job is not None
    assert job.tram is not None
    assert job.tram.line_weight == pytest.approx(0.3 * STANDARD_GRAVITY)
    assert job.gin_pole is not None
    assert job.gin_pole.tag_slope == pytest.approx(math.pi / 4)
    assert job.crane is not None
    assert job.crane.capacity == 500.0
    assert job.tower_top_horizontal_rating == 900.0
    assert job.tram.anchor == 6e3
    assert job.lift_truck is not None
    assert job.lift_truck.carries_beam == Said(yes=True, by="hirer", on="2026-05-01")
    assert job.haul_line is not None
    assert (job.haul_line.bearing, job.haul_line.ends) == ("bush", "eye")
    assert job.haul_line.capstan is not None
    assert job.haul_line.capstan.fastening == 5e3
    assert job.others == (("high", 17.0),)


def tilting(tilt: str, *, rotator: str = "") -> Tilt:
    """The tilt of the third example station, with other lines of its table."""
    text = TILTING[: TILTING.index("[raising]")].replace('mass = "10.3 kg"\n', rotator)
    plan = read_plan(f'{text}[raising]\nmass = "15 kg"\n[raising.tilt]\n{tilt}')
    report = check_structure(inputs=structure_inputs(plan)).beams[0]
    job = raising_job(plan, plan.beams[0], report)
    assert job is not None
    assert job.tilt is not None
    return job.tilt


_LIFTER = 'lifter = "gin pole"\nlifter_height = "4 m"\nline_at = "8 m"\nwinch_distance = "9 m"\n'


def test_a_tilting_tube_is_weighed_with_everything_on_it() -> None:
    part = '[[raising.tilt.part]]\nname = "rotator"\nmass = "14 kg"\nat = "11.5 m"\n'
    tilt = tilting(_LIFTER + part)
    weights = {part.name: part.weight / STANDARD_GRAVITY for part in tilt.parts}
    # 88.9 x 4 mm of steel: pi (0.0889 - 0.004) 0.004 x 11.15 x 7850, a cage on it; mast
    # 50.8 x 4 mm, 1.3 m.
    assert weights["support"] == pytest.approx(math.pi * 0.0849 * 0.004 * 11.15 * 7850, rel=1e-9)
    assert weights["mast"] == pytest.approx(math.pi * 0.0468 * 0.004 * 1.3 * 7850, rel=1e-9)
    assert (weights["rotator"], weights["15m"]) == (pytest.approx(14.0), pytest.approx(15.0))
    # The pole is taken to hang as if it reached to the top of its cage: no less than it does.
    places = {part.name: part.at for part in tilt.parts}
    # The owner's list says it all; without one a mass under [support.rotator] does, with our
    # bearing of 1.5 kg and our shelf.
    known = tilting(_LIFTER, rotator='mass = "10.3 kg"\n')
    gear = next(each for each in known.parts if each.name.startswith("rotator and"))
    shelf = 0.3 * 0.3 * 0.006 * 7850.0
    assert gear.weight == pytest.approx((10.3 + 1.5 + shelf) * STANDARD_GRAVITY)
    # A ring of steel round the pole at each guy level: 50 mm wide, 8 mm thick.
    rings = {each.at: each.weight for each in known.parts if each.name.startswith("guy ring")}
    by_hand = math.pi * (0.0889 + 0.05) * 0.05 * 0.008 * 7850.0 * STANDARD_GRAVITY
    assert list(rings.values()) == pytest.approx([by_hand] * len(rings))
    assert sorted(rings) == pytest.approx([6.0, 11.2])
    assert places == pytest.approx({"support": 6.0, "mast": 12.15, "rotator": 11.5, "15m": 12.4})
    # Bending: yield of A53 B, 35 ksi, over 1.67, times pi/32 (D^4 - d^4)/D.
    modulus = math.pi / 32 * (0.0889**4 - 0.0809**4) / 0.0889
    assert tilt.allowed_moment == pytest.approx(35 * 6.894757e6 / 1.67 * modulus, rel=1e-6)
    assert tilt.unknown_parts == ()
    # A maker's lower figure counts, a higher one does not silence the steel.
    assert tilting('allowed_moment = "1 kN m"\n' + _LIFTER).allowed_moment == 1e3
    high = tilting('allowed_moment = "90 kN m"\n' + _LIFTER)
    assert high.allowed_moment == tilt.allowed_moment


def test_what_turns_and_is_not_weighed_is_named() -> None:
    assert tilting(_LIFTER).unknown_parts == ("weight of rotator and what carries it",)
    # Cranked in, everything comes down with the top.
    short = tilting('length = "7 m"\n' + _LIFTER)
    assert {part.name: part.at for part in short.parts}["15m"] == pytest.approx(7.4)


def test_a_tube_set_in_its_footing_does_not_tilt() -> None:
    text = TILTING.replace("hinged = true\n", "")
    plan = read_plan(text)
    report = check_structure(inputs=structure_inputs(plan)).beams[0]
    job = raising_job(plan, plan.beams[0], report)
    assert job is not None
    assert job.foot_set
    tilt = next(each for each in plan_lift(job).methods if each.way == "tilt")
    assert tilt.verdict == "no-go"
    assert "set in its footing" in tilt.deciding[0]


def test_bill_of_the_demo_counts_what_the_plan_says() -> None:
    bill = plan_bill(demo())
    quantities = {line.item: line.quantity for line in bill.lines}
    # Two rings of three guys: 3 (hypot(14, 11) + hypot(7.5, 11)) and 5 % waste.
    strand = 3 * (math.hypot(14, 11) + math.hypot(7.5, 11)) * 1.05
    assert quantities["guy strand 3/16 in EHS"] == pytest.approx(strand)
    assert quantities["guy anchor"] == 3  # both rings end at the same three
    concrete = (0.8**2 * 1.4 + 3 * 0.9 * 0.6 * 0.5) * 1.08
    assert quantities["concrete"] == pytest.approx(concrete)
    assert quantities["excavation and spoil"] == pytest.approx(
        0.8**2 * 1.4 + 3 * 0.9 * 0.6 * (0.5 + 0.9)
    )
    # The pole stands in its pier, as deep as that; a cage is its upper end.
    assert quantities["support tube 114.3 x 5.4 mm"] == pytest.approx(15.0 - 0.95 + 1.4)
    assert quantities["top bearing"] == quantities["rotator shelf or cage"] == 1
    assert quantities["mast 60.3 x 5.5 mm"] == pytest.approx(2.0)
    assert quantities["feed line RG-213"] == pytest.approx(42.0 * 1.1)
    assert quantities["choke core"] == 4
    assert bill.notices == ()


def test_bill_without_the_tables_says_so() -> None:
    codes = [notice.code for notice in plan_bill(read_plan(BARE)).notices]
    assert codes.count("plan.bill-incomplete") == 2
    assert plan_estimate(read_plan(BARE), prices=(), today="2026-01-31") is None


def test_estimate_takes_budget_contingency_and_age() -> None:
    plan = read_plan(FULL)
    price = Price(
        item="crane with operator", unit="day", low=500, likely=600, high=800, currency="USD",
        supplier="", dated="2025-10-01",
    )  # fmt: skip
    found = plan_estimate(plan, prices=(price,), today="2026-01-31")
    assert found is not None
    assert (found.currency, found.budget) == ("USD", 2500)
    assert found.tax == pytest.approx(0.08 * 600)
    assert found.contingency == pytest.approx(0.12 * 1.08 * 600)
    assert found.old == ("crane with operator",)  # 122 days, 90 allowed
    assert found.labour_hours == pytest.approx(40)
    items = {line.bill.item for line in found.lines}
    assert "tower section" in items
    assert "rotator with control box" not in items


def test_reach_of_both_plans() -> None:
    (boston, chicago) = target_places(demo())
    assert boston[0] == "Boston"
    assert boston[1].latitude_deg == pytest.approx(42.4)
    assert chicago[1].longitude_deg == pytest.approx(-87.0)  # centre of EN61
    station = station_place(demo())
    assert station is not None
    assert station.latitude_deg == pytest.approx(52.2)
    assert [layer.name for layer in layers(demo())] == ["E", "F2"]
    plan = read_plan(FULL)
    zones = ground_zones(plan)
    assert zones is not None
    first, second = zones.beyond
    assert (first.begins, first.drop, first.ground.conductivity) == (300.0, 4.0, 5.0)
    assert (second.begins, second.drop) == (900.0, 6.0)
    assert [beam.name for beam in stacked_beams(plan)] == ["low", "high"]
    assert (ground_zones(demo()), stacked_beams(demo())) == (None, ())
    aloft = read_plan(
        FULL.replace('{ permittivity = 15, conductivity = "1 mS/m" }', '"free space"')
    )
    with pytest.raises(PlanError) as caught:
        ground_zones(aloft)
    assert caught.value.faults[0].path == "reach.far_ground"


def test_line_by_name_and_by_data_sheet() -> None:
    line = feed_line(demo())
    assert line is not None
    assert line == (COAX_TYPES["RG-213"], 42.0)
    assert feed_line(read_plan(BARE)) is None
    plan = read_plan(FULL)
    assert plan.line is not None
    sheet = coax_type(plan.line.line_type)
    assert sheet.attenuation_db(frequency=10e6) == pytest.approx(0.007, rel=0.01)
    assert sheet.attenuation_db(frequency=100e6) == pytest.approx(0.022, rel=0.01)
    assert (sheet.voltage_limit, sheet.outer_diameter) == (1400.0, 0.016)


LOAD = resonant_load(frequency=14.175e6, impedance=22.0 - 18.0j, quality=20.0)
GEOMETRY = RodGeometry(element_diameter=0.022, rod_diameter=0.01, spacing=0.1)
AT = {"load": LOAD, "frequency": 14.175e6}


def seen(feed: Feed) -> complex:
    beam = replace(read_plan(FULL).beams[0], feed=feed)
    stages = feed_stages(beam)
    assert stages is not None
    return complex(
        through_stages(stages, impedance=np.array([22.0 - 18.0j]), frequency=np.array([14.175e6]))[
            0
        ]
    )


def test_a_match_written_as_the_feed_room_designs_it_shows_the_same_impedance() -> None:
    gamma = design_gamma(**AT, geometry=GEOMETRY)
    tee = design_tee(**AT, geometry=GEOMETRY)
    rods = {"gap": 0.022, "rod_diameter": 0.01, "rod_spacing": 0.1}
    for kind, found in (("gamma", gamma), ("tee", tee)):
        feed = Feed(kind=kind, rod_length=found.rod_length, capacitance=found.capacitance, **rods)
        assert seen(feed) == pytest.approx(50.0, abs=1e-6)
    hairpin = design_hairpin(**AT, spacing=0.06, diameter=0.006)
    quarter = design_quarter_wave(**AT, velocity_factor=0.66)
    stub, _ = design_single_stub(**AT, end="short", velocity_factor=0.66)
    section = quarter.stages[1]
    trim = hairpin.element_reactance + 18.0
    # Rods that meet the element at the very split are the published hairpin.
    feed = Feed(kind="hairpin", gap=0.06, rod_diameter=0.006, rod_spacing=0.06,
                rod_length=hairpin.length)  # fmt: skip
    beam = replace(read_plan(FULL).beams[0], feed=feed)
    trimmed = np.array([22.0 - 18.0j + 1j * trim])
    stages = feed_stages(beam)
    assert stages is not None
    through = through_stages(stages, impedance=trimmed, frequency=np.array([14.175e6]))
    assert complex(through[0]) == pytest.approx(50.0, abs=1e-6)
    feed = Feed(kind="stub", gap=0.04, section_impedance=50.0, velocity_factor=0.66,
                section_length=stub.stages[0].length,  # type: ignore[union-attr]
                stub_length=stub.stages[1].length, stub_end="short")  # type: ignore[union-attr] # fmt: skip
    assert seen(feed) == pytest.approx(50.0, abs=1e-6)
    feed = Feed(kind="quarter-wave", gap=0.04, section_impedance=section.impedance,  # type: ignore[union-attr]
                section_length=section.length, velocity_factor=0.66)  # type: ignore[union-attr] # fmt: skip
    beam = replace(beam, feed=feed)
    stages = feed_stages(beam)
    assert stages is not None
    through = through_stages(stages, impedance=np.array([22.0]), frequency=np.array([14.175e6]))
    assert complex(through[0]) == pytest.approx(50.0, abs=1e-6)


def test_l_sections_in_either_order() -> None:
    for match in design_l_sections(**AT):
        kinds = [type(stage).__name__ for stage in match.stages]
        parts = {name[6:]: stage for name, stage in zip(kinds, match.stages, strict=True)}
        if set(parts) != {"Inductor", "Capacitor"}:
            continue
        first = kinds[0].replace("Inductor", " coil").replace("Capacitor", " capacitor").lower()
        feed = Feed(
            kind="L-section",
            gap=0.04,
            inductance=parts["Inductor"].inductance,  # type: ignore[union-attr]
            capacitance=parts["Capacitor"].capacitance,  # type: ignore[union-attr]
            at_antenna=first,
        )
        assert seen(feed) == pytest.approx(50.0, abs=1e-6)


@pytest.mark.parametrize("feed", FEEDS)
def test_a_match_that_lacks_a_dimension_is_not_made_up(feed: str) -> None:
    whole = read_plan(with_feed(feed)).beams[0]
    assert feed_stages(whole)
    for key in ("rod_diameter", "rod_length", "capacitance", "section_length", "stub_end"):
        value = getattr(whole.feed, key)
        if value:
            lacking = replace(whole.feed, **{key: "" if isinstance(value, str) else None})
            assert feed_stages(replace(whole, feed=lacking)) is None
    split = Feed(kind="split", gap=0.04)
    assert feed_stages(replace(demo().beams[0], feed=split)) == ()


def test_rods_that_touch_are_refused() -> None:
    plan = read_plan(with_feed(FEEDS[2].replace('"100 mm"', '"12 mm"')))
    with pytest.raises(PlanError) as caught:
        feed_stages(plan.beams[0])
    assert "rod_spacing" in caught.value.faults[0].path


def test_tuning_from_the_full_plan() -> None:
    plan = read_plan(FULL)
    built = tuning_installation(plan)
    assert built.beam.name == "low"
    assert (built.line, built.line_length, built.reference) == (COAX_TYPES["RG-58"], 30.0, 75.0)
    assert [stage.ratio for stage in built.stages] == [0.25]  # type: ignore[union-attr]
    assert plan.measured is not None
    # A plan counts the pieces of its match; the room the lumped ones behind the wires.
    (trial,) = plan.measured.trial
    matched = tuning_installation(read_plan(with_feed(FEEDS[-1])))
    assert trial_moves(trial, installation=matched, path="") == {
        "tip.1": -0.01,
        "stage.0": 0.005,
        "stage.1": pytest.approx(-0.1),
    }
    gamma = tuning_installation(read_plan(with_feed(FEEDS[2])))
    moves = (replace(trial.moved[1], stage=1), replace(trial.moved[2], stage=2))
    assert trial_moves(replace(trial, moved=moves), installation=gamma, path="") == {
        "strap": 0.005,
        "stage.0": pytest.approx(-0.1),
    }
    with pytest.raises(PlanError) as refused:
        trial_moves(trial, installation=built, path="measured.trial[0]")
    assert refused.value.faults[0].path == "measured.trial[0].moved[2]"
    assert metric(refused.value.faults[0].remedy) == "write numbers out of 0"
    unfinished = read_plan(with_feed('{ kind = "gamma" }'))
    with pytest.raises(PlanError) as caught:
        tuning_installation(unfinished)
    assert caught.value.faults[0].path == "beam[0].feed"


def test_wishes_become_targets() -> None:
    plan = read_plan(FULL)
    targets = design_targets(plan)
    assert (targets.gain_weight, targets.rear_weight, targets.match_weight) == (1.0, 0.5, 0.3)
    assert (targets.least_gain_dbi, targets.least_front_to_rear_db, targets.most_swr) == (
        7,
        18,
        1.8,
    )
    assert math.degrees(targets.rear_from) == pytest.approx(120)
    assert targets.resistance == (20.0, 60.0)
    assert targets.match == "matched"
    assert wished_beam(plan).name == "high"
    assert frozen_places(plan)[1] == ("beam", 1, "element", 1)
    assert usual_wishes(plan) == ()


def test_wishes_that_are_not_said_are_the_usual_ones() -> None:
    plain = design_targets(demo())
    assert (plain.gain_weight, plain.rear_weight, plain.match_weight) == (1.0, 0.1, 0.0)
    assert (plain.most_swr, plain.match, plain.resistance) == (2.0, "matched", (12.5, math.inf))
    assert frozen_places(demo()) == ()
    assert len(usual_wishes(demo())) == 5
    some = read_plan(FULL.replace("swr = 1.8\n", "").replace("matched = true\n", ""))
    assert (design_targets(some).most_swr, design_targets(some).match) == (2.0, "matched")
    assert usual_wishes(some) == ("an SWR of 2 at most over the band, match in place",)


def test_hard_limits_reach_the_search() -> None:
    plan = read_plan(FULL)
    beam = wished_beam(plan)
    prices = tuple(
        Price(
            item=f"{TubeKind(material=beam.material.name, diameter=d, wall=w).name}, 6.000 m",
            unit="length", low=1.0, likely=30.0, high=60.0, currency="USD", supplier="",
            dated="2026-01-31",
        )
        for d, w in {(one.diameter, one.wall) for each in beam.elements for one in each.half}
    )  # fmt: skip
    wish = design_wish(plan, prices=prices)
    assert (wish.boom_limit, wish.longest_element, wish.elements) == (7.5, 11.5, (2, 4))
    assert (wish.most_wind_area, wish.most_mass, wish.most_cost) == (0.9, 14.0, 240.0)
    (stock,) = wish.stock
    assert (stock.diameter, stock.length) == (pytest.approx(0.01905), pytest.approx(1.8288))
    assert (stock.count, stock.wall, wish.length_error) == (12, 1.5e-3, 2e-3)
    assert {one.per_metre for one in wish.tube_prices} == {5.0}
    with pytest.raises(PlanError) as caught:
        design_wish(plan)
    assert caught.value.faults[0].path == "wish.cost"
    assert "has no price in USD" in metric(caught.value.faults[0].message)
