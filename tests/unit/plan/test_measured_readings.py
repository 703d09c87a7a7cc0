"""Readings on the air in a plan: levels, moments, bearings, tolerances; what is refused."""

import math

import pytest

from boomwright.base import PlanError
from boomwright.plan import read_plan, rewrite
from boomwright.plan.quantity import QuantityError
from boomwright.plan.resolve.on_air import aim_of, run_of, signal_place
from boomwright.plan.resolve.tuning import (
    adjustable_parts,
    meter_of,
    side_readings,
    trial_moves,
    tuning_installation,
    written_moves,
)
from boomwright.plan.tables.measured import level_text, moment_text, parse_level, parse_moment
from boomwright.tuning.readings import METERS
from full_plan import FULL, with_feed
from written import metric

_QUARTER_WAVE = (
    '{ kind = "quarter-wave", gap = "40 mm", section_impedance = "35 ohm", '
    'section_length = "0.165 wl", velocity_factor = 0.66 }'
)

_GAMMA = (
    '{ kind = "gamma", rod_diameter = "10 mm", rod_spacing = "100 mm", rod_length = "1.2 m", '
    'capacitance = "60 pF" }'
)


@pytest.mark.parametrize(
    ("text", "s_units", "decibels"),
    [
        ("S7", 7.0, 0.0),
        ("S9 +20 dB", 9.0, 20.0),
        ("S9+5", 9.0, 5.0),
        ("−12.5 dB", None, -12.5),
        ("3 dBm", None, 3.0),
    ],
)
def test_levels(text, s_units, decibels):
    level = parse_level(text)
    assert (level.s_units, level.decibels) == (s_units, decibels)
    assert parse_level(level_text(level)) == level


@pytest.mark.parametrize("text", ["S10", "S5 +10 dB", "loud", "59", ""])
def test_what_is_no_level(text):
    with pytest.raises(QuantityError, match="S7"):
        parse_level(text)


def test_moments():
    moment = parse_moment("2026-05-02 14:30 UTC")
    assert (moment.day, moment.utc_hours) == ("2026-05-02", 14.5)
    assert parse_moment(moment_text(moment)) == moment
    for wrong in ("2026-02-30 12:00", "2026-05-02 24:00", "2026-05-02", "half past two"):
        with pytest.raises(QuantityError, match="2026-05-02 14:30"):
            parse_moment(wrong)


def test_tables_become_values_of_the_tuning_room():
    plan = read_plan(FULL)
    assert plan.measured is not None
    usual = plan.measured.tolerance
    assert (usual.cutting, usual.component, usual.ground_factor) == (0.003, 0.02, 1.5)
    care = plan.measured.moving
    assert care.length == pytest.approx(0.0254 / 32)
    matched = read_plan(with_feed(_QUARTER_WAVE))
    installation = tuning_installation(matched)
    assert adjustable_parts(matched, installation=installation) == ("tip.1", "stage.0")
    meter = meter_of(plan)
    assert (meter.noise, meter.noise_known) == (0.004, True)
    assert meter.residual == METERS["careful kit"].residual < METERS["plain"].residual
    probe, ratio = side_readings(plan)
    assert (probe.element, probe.value, probe.spread) == (0, pytest.approx(math.log(0.7)), 0.04)
    assert (ratio.kind, ratio.value, ratio.spread) == ("front to back", 14.0, 2.0)
    assert (probe.frequency, ratio.frequency) == (14.2e6, plan.beams[0].design_frequency)
    (heading,) = plan.measured.heading
    run = run_of(heading)
    # S9 +15 dB and S6, six decibels an S-unit.
    assert run.level_db[-1] - run.level_db[1] == pytest.approx(33.0)
    place = signal_place(plan, heading, path="measured.heading[0]")
    assert place == pytest.approx((math.radians(315.0), math.radians(8.0)))


def test_the_sun_needs_a_position_and_daylight():
    plan = read_plan(FULL)
    assert plan.measured is not None
    (aim,) = plan.measured.aim
    # A little after noon at the Greenwich meridian in February: about south.
    found = aim_of(plan, aim, path="measured.aim[0]")
    assert math.degrees(found.bearing) == pytest.approx(180.0, abs=5.0)
    assert math.degrees(found.within) == pytest.approx(2.0)
    night = read_plan(FULL.replace("2026-02-03 12:10", "2026-02-03 22:10"))
    with pytest.raises(PlanError) as caught:
        aim_of(night, night.measured.aim[0], path="measured.aim[0]")  # type: ignore[union-attr]
    assert caught.value.faults[0].path == "measured.aim[0].sun"
    assert "universal time" in metric(caught.value.faults[0].remedy)


@pytest.mark.parametrize(
    ("old", "new", "path", "words"),
    [
        ('["60 deg", "S6"]', '["60 deg", "-3 dB"]', "measured.heading[0].readings", "alike"),
        ('bearing = "315 deg"\nreadings', "readings", "measured.heading[0]", "315 deg"),
        ('sun = "2026-02-03 12:10"\nshows', 'bearing = "N"\nsun = "2026-02-03 12:10"\nshows',
         "measured.aim[0]", "universal time"),
        (', open = "open.s1p"', "", "measured.line.load", "add open"),
        ("ground_factor = 1.5", "ground_factor = 0.5", "measured.tolerance.ground_factor", "1.01"),
        ('"S5.5"', '"S12"', "measured.heading[0].readings[2][1]", "S9 +20 dB"),
    ],
)  # fmt: skip
def test_what_does_not_go_together_is_refused(old, new, path, words):
    assert FULL.count(old) == 1
    with pytest.raises(PlanError) as caught:
        read_plan(FULL.replace(old, new))
    (fault,) = caught.value.faults
    assert fault.path == path
    assert words in metric(fault.remedy)


def test_a_part_that_is_not_there_cannot_be_adjusted():
    plan = read_plan(FULL.replace("adjust = { elements = [1]", "adjust = { elements = [1, 7]"))
    with pytest.raises(PlanError) as caught:
        adjustable_parts(plan, installation=tuning_installation(plan))
    fault, other = caught.value.faults
    assert fault.path == "measured.adjust.elements[1]"
    assert "0, 1" in metric(fault.remedy)
    # A balun has nothing to set.
    assert (other.path, other.remedy) == ("measured.adjust.stages[0]", "remove it")


@pytest.mark.parametrize(
    ("feed", "moves"),
    [
        (_QUARTER_WAVE, {"tip.1": -0.017, "stage.0": 0.04}),
        (_GAMMA, {"tip.1": 0.0085, "strap": -0.012, "stage.0": -0.03}),
    ],
)
def test_moves_are_written_as_they_are_read(feed, moves):
    text = with_feed(feed)
    plan = read_plan(text)
    number = len(plan.measured.trial)
    installation = tuning_installation(plan)
    row = {"sweep": "b.s1p", "moved": list(written_moves(moves, installation=installation))}
    again = read_plan(rewrite(text, {f"measured.trial[{number}]": row}))
    trial = again.measured.trial[number]
    assert trial_moves(trial, installation=installation, path="") == pytest.approx(moves)


def test_a_probe_on_the_driven_element_tells_nothing():
    plan = read_plan(
        FULL.replace("[[measured.probe]]\nelement = 0", "[[measured.probe]]\nelement = 1")
    )
    with pytest.raises(PlanError) as caught:
        side_readings(plan)
    assert caught.value.faults[0].path == "measured.probe[0].element"
    assert "0" in metric(caught.value.faults[0].remedy)
