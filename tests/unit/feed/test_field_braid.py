"""Common mode: the braid spoils the pattern, the choke gives it back."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from field_scenarios import THREE_FOR_20, TWO_FOR_15

from bent_plans import hexagon, upright
from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed.braid import Braid
from boomwright.feed.braid_solution import smallest_choke, solve_braid
from boomwright.feed.choke import choke_requirement
from boomwright.feed.field_model import FieldSetting
from boomwright.plan import read_plan
from boomwright.solver import GROUND_CLASSES, PERFECT_GROUND

WAVE = SPEED_OF_LIGHT / THREE_FOR_20.design_frequency


def line(down: float, **more) -> Braid:
    return Braid(diameter=0.01, drop=0.15, mast_at=2.3, down=down, **more)


@pytest.fixture(scope="module")
def quarter_wave():
    """A braid that takes up current willingly: about a quarter wave long."""
    return solve_braid(beam=THREE_FOR_20, braid=line(0.25 * WAVE - 0.55))


def test_bypassed_choke_skews_the_pattern(quarter_wave):
    bypassed = quarter_wave.reading(choke=0.0)
    assert bypassed.greatest_current > 0.3
    assert bypassed.pattern_change_db > 1.0
    assert bypassed.left_right_db > 0.3
    # wider than what the fineness of the azimuths or of the pieces can feign
    assert abs(math.degrees(bypassed.direction_shift)) > 0.3
    assert bypassed.front_to_back_loss_db > 1.0


def test_five_kilohm_restores_the_pattern(quarter_wave):
    restored = quarter_wave.reading(choke=5000.0)
    assert restored.pattern_change_db < 0.1
    assert restored.left_right_db < 0.1
    assert restored.pattern_change_db < 0.2
    assert abs(restored.front_to_back_loss_db) < 0.1
    assert restored.greatest_current < 0.02
    assert restored.impedance == pytest.approx(quarter_wave.plain_impedance, abs=0.5)


def test_smallest_choke_is_just_enough(quarter_wave):
    least = smallest_choke(solution=quarter_wave, within_db=0.1)
    assert 100.0 < least < 5000.0
    assert quarter_wave.reading(choke=1.001 * least).harm_db <= 0.1
    assert quarter_wave.reading(choke=0.97 * least).harm_db > 0.1
    assert smallest_choke(solution=quarter_wave, within_db=0.5) < least
    assert smallest_choke(solution=quarter_wave, within_db=20.0) == 0.0
    assert smallest_choke(solution=quarter_wave, within_db=1e-4) is None


def test_reactive_choke_is_enough_from_the_last_crossing(quarter_wave):
    least = smallest_choke(solution=quarter_wave, within_db=0.1, angle=math.pi / 2.0)
    for factor in (1.01, 2.0, 10.0):
        assert quarter_wave.reading(choke=1j * factor * least).harm_db <= 0.1


def test_current_through_a_large_choke_is_half_the_feed_voltage_over_it(quarter_wave):
    # The room's circuit rule for chokes, its "common practice", against the field.
    reading = quarter_wave.reading(choke=5000.0)
    rule = abs(reading.impedance) / 2.0 / 5000.0
    assert reading.choke_current == pytest.approx(rule, rel=0.15)
    asked = choke_requirement(
        feed_impedance=reading.impedance,
        power=100.0,
        duty_factor=1.0,
        suppression_db=-20.0 * math.log10(rule),
    )
    assert asked.impedance == pytest.approx(5000.0, rel=1e-6)


def test_half_wave_braid_takes_less_than_a_quarter_wave_one(quarter_wave):
    half = solve_braid(beam=THREE_FOR_20, braid=line(0.5 * WAVE - 0.55))
    assert (
        half.reading(choke=0.0).choke_current < 0.2 * quarter_wave.reading(choke=0.0).choke_current
    )


def test_choke_loss_is_what_its_resistance_takes(quarter_wave):
    reading = quarter_wave.reading(choke=300.0 + 400.0j)
    # |I|^2 R over |I_feed|^2 Re Z
    expected = reading.choke_current**2 * 300.0 / reading.impedance.real
    assert reading.choke_loss == pytest.approx(expected, rel=1e-9)
    assert quarter_wave.reading(choke=400.0j).choke_loss == pytest.approx(0.0, abs=1e-12)


def test_plain_pattern_is_symmetric_and_points_ahead(quarter_wave):
    gain = quarter_wave.plain_gain_dbi
    assert np.allclose(gain, np.roll(gain[::-1], 1), rtol=0.0, atol=1e-9)
    assert int(np.argmax(gain)) == 0


@pytest.mark.parametrize(
    ("ground", "braid"),
    [
        (PERFECT_GROUND, line(0.0, grounded=True)),
        (PERFECT_GROUND, line(5.0)),
        (GROUND_CLASSES["medium dry"], line(13.0)),
    ],
)
def test_over_ground(ground, braid):
    solved = solve_braid(
        beam=THREE_FOR_20, braid=braid, setting=FieldSetting(ground=ground, method="image")
    )
    # A first lobe: sine of its elevation near a quarter wave over the height.
    assert math.sin(solved.elevation) == pytest.approx(WAVE / 4.0 / 15.0, rel=0.15)
    assert solved.reading(choke=5000.0).harm_db < 0.1
    assert solved.reading(choke=0.0).harm_db > solved.reading(choke=5000.0).harm_db


def test_mast_under_the_driven_element():
    braid = Braid(diameter=0.01, drop=0.15, mast_at=2.0, down=3.4)
    solved = solve_braid(beam=TWO_FOR_15, braid=braid)
    assert solved.reading(choke=0.0).harm_db > solved.reading(choke=5000.0).harm_db


def test_what_cannot_be_is_refused(quarter_wave):
    with pytest.raises(BoomwrightError, match="perfect ground only"):
        solve_braid(beam=THREE_FOR_20, braid=line(5.0, grounded=True))
    with pytest.raises(BoomwrightError, match="at least"):
        solve_braid(beam=THREE_FOR_20, braid=Braid(diameter=0.01, drop=0.01, mast_at=2.0, down=5.0))
    with pytest.raises(BoomwrightError, match="below 0"):
        quarter_wave.reading(choke=-5.0 + 3j)
    with pytest.raises(BoomwrightError, match="above 0"):
        smallest_choke(solution=quarter_wave, within_db=0.0)


def test_a_beam_that_fires_behind_alone_has_a_change_in_its_own_lobe(quarter_wave):
    """Badly mistuned, its main lobe has no direction ahead; what changes there is told."""
    behind = np.where(np.cos(quarter_wave.azimuth) > 0.0, -60.0, 5.0)
    reading = replace(quarter_wave, plain_gain_dbi=behind).reading(choke=1000.0)
    assert np.isfinite(reading.pattern_change_db)
    assert np.isfinite(reading.left_right_db)


def test_the_braid_of_a_bent_beam_leaves_where_its_wire_turns():
    """Nothing of the driven wire, which runs off at once to the front, lies beside the braid."""
    beam = read_plan(hexagon()).beams[0]
    down = 0.75 * beam.wavelength - 0.1
    braid = Braid(diameter=0.0103, drop=0.1, mast_at=0.0, down=down)
    solution = solve_braid(beam=beam, braid=braid)
    bypassed, choked = (solution.reading(choke=complex(size)) for size in (0.0, 1e5))
    assert bypassed.choke_current > 0.3
    assert bypassed.left_right_db > 3.0
    assert choked.choke_current < 2e-3
    assert choked.pattern_change_db < 0.05
    # Held off, the feed is that of the beam alone but for the node that the braid leaves.
    assert abs(choked.impedance - solution.plain_impedance) < 1.0


def test_the_braid_of_a_raised_vertical_leaves_its_radials_downwards():
    """A quarter wave straight down makes half a dipole of the line; a choke leaves the radials."""
    text = upright(count=4, laid="elevated", slope=40, ground="free space", height="12 m")
    beam = read_plan(text).beams[0]
    braid = Braid(diameter=0.0103, drop=0.1, mast_at=0.0, down=0.25 * beam.wavelength - 0.1)
    solution = solve_braid(beam=beam, braid=braid)
    bypassed, choked = (solution.reading(choke=complex(size)) for size in (0.0, 1e5))
    assert bypassed.choke_current > 0.5
    # 73 ohm of a half-wave dipole (Balanis 2005, chapter 4), more than over sloping radials.
    assert bypassed.impedance.real == pytest.approx(73.0, abs=5.0)
    assert solution.plain_impedance.real < 60.0
    assert choked.choke_current < 2e-3
    assert choked.pattern_change_db < 0.05
    # Held off, the feed is that of the radials alone but for the short end above the choke.
    assert abs(choked.impedance - solution.plain_impedance) < 3.0
    # It hangs in the axis, so nothing is turned.
    assert bypassed.left_right_db < 1e-3
    assert bypassed.direction_shift == 0.0
    assert abs(bypassed.pattern_change_db) > 0.1
