"""Wire against plain antennas at the same place: which vertical, and the trade's S-unit."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bent_plans import hexagon, upright
from boomwright.plan import read_plan
from boomwright.reach import advantages, plain_antennas, scan_heights
from boomwright.reach.height_scan import usual_heights
from boomwright.solver import Ground, PatternCut, foot_resistance

ANGLES = (6.0, 10.0, 15.0)


def held_against(text, height):
    """Lowest, and highest advantage of a beam over a dipole at its place and over the vertical."""
    plan = read_plan(text)
    beam, ground = plan.beams[0], plan.site.ground
    scan = scan_heights(beam=beam, ground=ground, heights=[height])
    plain = plain_antennas(
        frequency=beam.design_frequency,
        height=height,
        ground=ground,
        elevation_deg=scan.elevation_deg,
    )
    cut = PatternCut(
        plane="elevation",
        at_deg=0.0,
        angle_deg=scan.elevation_deg,
        gain_dbi=scan.gain_dbi[0],
    )
    found = [advantages(cut=cut, plain=plain, elevation_deg=angle) for angle in ANGLES]
    return [tuple(each.s_units for each in row) for row in zip(*found, strict=True)], plain


def test_a_hexagon_is_worth_half_an_s_unit_over_a_dipole_and_one_over_a_vertical():
    """The trade says "about one S-unit" for such a beam (common practice): 6 dB.

    Against the dipole that it could hang beside it is half of that, the gain of two elements.
    Against a vertical on the same lawn it is all of it, at the low angles of long paths.
    """
    text = hexagon(ground="medium dry", height="9 m")
    (dipole, _, vertical), plain = held_against(text, 9.0)
    assert plain[2].name == "quarter-wave vertical over 32 radials"
    assert all(0.35 < gain < 0.75 for gain in dipole)
    assert 0.8 < float(np.mean(vertical)) < 1.5
    assert all(gain > 0.6 for gain in vertical)


def test_the_vertical_of_the_comparison_is_the_one_that_a_plan_would_build():
    """The same quarter wave over 32 radials as a plan: alike to what its wire differs by."""
    # So low there is no dipole at its own height to hold it against.
    (_, vertical), _ = held_against(upright(count=32), 0.1)
    assert all(abs(gain) * 6.0 < 0.3 for gain in vertical)


def test_the_ground_takes_its_part_of_a_vertical():
    """Loss in dB is that of the foot's resistance in series with 36 ohm {wait-pope-1954}."""
    medium = Ground(kind="real", permittivity=13.0, conductivity=0.005)
    angle = np.array([20.0])
    vertical = plain_antennas(frequency=14.175e6, height=10.0, ground=medium, elevation_deg=angle)[
        2
    ]
    beam = read_plan(upright(count=32)).beams[0]
    (lost,) = foot_resistance(beam=beam, ground=medium, frequencies=np.array([14.175e6]))
    assert lost > 2.0
    lossless = vertical.cut.gain_dbi[0] + 10.0 * math.log10(1.0 + lost / 36.5)
    # Without loss a vertical over this ground has 0 dBi or a little more at 20 degrees.
    assert lossless == pytest.approx(0.0, abs=1.0)


def test_elevated_radials_stay_above_the_ground_at_every_height():
    beam = read_plan(upright(laid="elevated", slope=40, height="7 m")).beams[0]
    # They hang 5.2 m sin 40 = 3.34 m below the foot; the lowest look is 0.15 wavelengths above.
    assert usual_heights(beam=beam)[0] == pytest.approx(
        5.2 * math.sin(math.radians(40.0)) + 0.15 * beam.wavelength, abs=1e-6
    )
