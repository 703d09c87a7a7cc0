"""Elements with corners as a plan gives them, against an independent thin-wire computation.

No published figures of beams bent on a frame were at hand: the hexagon is held against the
program of ``thin_wire_moments``, which shares nothing with the package, and so are arrays of two
loops. The square loop and the vee have published and closed forms too.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

import thin_wire_moments
from antennas import solved_beam
from bent_plans import HEXAGON, hexagon, loop, upright, vee
from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import FieldSetting, split_load
from boomwright.plan import read_plan
from boomwright.plan.shapes import shape_plan
from boomwright.solver import (
    FREE_SPACE,
    PERFECT_GROUND,
    beam_wires,
    element_currents,
    gain_dbi,
    solve_beam,
    working_detail,
)

FREQUENCY = 14.175e6
WAVELENGTH = SPEED_OF_LIGHT / FREQUENCY
BOTH_WAYS = np.array([0.0, np.pi])


def beam_of(text):
    return read_plan(text).beams[0]


def solved(beam, frequency=FREQUENCY, ground=FREE_SPACE):
    return solved_beam(beam, frequency, ground=ground)


def ahead(solution, **where):
    return gain_dbi(solution=solution, azimuth=BOTH_WAYS, elevation=np.zeros(2), **where)[0]


def independent(beam):
    """Impedance, gain ahead and behind of the same outlines of bare wire."""
    wires = [np.array(each.outline) for each in beam.elements]
    driven = beam.driven_index
    return thin_wire_moments.solve(
        wires,
        radius=beam.elements[driven].half[0].diameter / 2.0,
        frequency=FREQUENCY,
        fed=(driven, len(wires[driven]) // 2),
        longest=WAVELENGTH / 120.0,
    )


@pytest.fixture(scope="module")
def bare_hexagon():
    text = hexagon().replace('insulation = { thickness = "0.2 mm", permittivity = 2.3 }', "")
    return beam_of(text)


def test_a_hexagon_agrees_with_an_independent_computation(bare_hexagon):
    lossless = replace(bare_hexagon.material, conductivity=np.inf)
    solution = solved(replace(bare_hexagon, material=lossless))
    impedance, forward, backward = independent(bare_hexagon)
    assert abs(solution.impedance[0] - impedance) < 4.0
    found = ahead(solution)
    assert found[0] == pytest.approx(forward, abs=0.1)
    assert found[1] == pytest.approx(backward, abs=0.8)
    # It is a beam: more ahead than behind, and more than a dipole.
    assert found[0] > 4.0
    assert found[0] - found[1] > 8.0
    assert abs(1.0 - (solution.radiated + solution.lost) / solution.accepted)[0] < 1e-3


@pytest.mark.parametrize(
    ("text", "behind"),
    [
        (vee(y=5.0, z=-2.5, length=0.4884 * WAVELENGTH), 0.02),
        (loop(length=1.05 * WAVELENGTH), 0.02),
        (shape_plan("two-square-loops", band="20 m"), 0.5),
        (shape_plan("two-triangle-loops", band="20 m"), 0.5),
    ],
    ids=["vee", "square loop", "two square loops", "two triangular loops"],
)
def test_a_vee_and_loops_agree_with_an_independent_computation(text, behind):
    """No published figures of two loops were at hand; those of one stand below."""
    beam = beam_of(text)
    solution = solved(replace(beam, material=replace(beam.material, conductivity=np.inf)))
    impedance, forward, backward = independent(beam)
    assert abs(solution.impedance[0] - impedance) < 3.0
    found = ahead(solution)
    assert found[0] == pytest.approx(forward, abs=0.02)
    assert found[1] == pytest.approx(backward, abs=behind)


def test_a_vee_agrees_with_the_integral_of_its_sinusoidal_current():
    """Radiation resistance and gain of I0 cos(ks) along the bent arms, a quarter wave each."""
    for apex, slope in ((120.0, 30.0), (90.0, 45.0)):
        out, down = np.cos(np.radians(slope)), np.sin(np.radians(slope))
        resistance, gain = _assumed(out, down)
        thin = 2e-4 * WAVELENGTH
        lengths = np.array([0.4884, 0.4954])[[apex == 120.0, apex == 90.0]] * WAVELENGTH
        beam = beam_of(vee(y=6 * out, z=-6 * down, length=float(lengths[0]), diameter=thin))
        solution = solved(replace(beam, material=replace(beam.material, conductivity=np.inf)))
        assert abs(solution.impedance[0].imag) < 8.0
        assert solution.impedance[0].real == pytest.approx(resistance, abs=2.5)
        assert ahead(solution)[0] == pytest.approx(gain, abs=0.03)


def _assumed(out, down):
    places, weights = np.polynomial.legendre.leggauss(40)
    along = 0.125 * (places + 1.0)
    current = np.cos(2.0 * np.pi * along) * weights * 0.125
    spots = np.concatenate(
        [np.stack([0 * along, side * out * along, -down * along], 1) for side in (1, -1)]
    )
    way = np.repeat([[0.0, out, -down], [0.0, out, down]], len(along), axis=0)
    moments = way * np.tile(current, 2)[:, None]
    up, level = np.polynomial.legendre.leggauss(60)
    turn = np.arange(120) * np.pi / 60.0
    total = 0.0
    for sine, weight in zip(up, level, strict=True):
        flat = np.sqrt(1.0 - sine**2)
        look = np.stack([flat * np.cos(turn), flat * np.sin(turn), 0 * turn + sine], 1)
        total += weight * np.pi / 60.0 * _strength(look, spots, moments).sum()
    broadside = _strength(np.array([[1.0, 0.0, 0.0]]), spots, moments)[0]
    # 30 pi |M|^2 over all directions, with lengths in wavelengths.
    return 30.0 * np.pi * total, 10.0 * np.log10(4.0 * np.pi * broadside / total)


def _strength(look, spots, moments):
    field = np.exp(2j * np.pi * look @ spots.T) @ moments
    field = field - (field * look).sum(axis=1)[:, None] * look
    return (np.abs(field) ** 2).sum(axis=1)


def test_a_square_loop_of_one_wave_has_the_gain_of_the_textbook():
    """3.09 dBi {stutzman-thiele-1998}, the one-wavelength square loop, radius 0.001."""
    beam = beam_of(loop(length=WAVELENGTH, diameter=0.002 * WAVELENGTH))
    solution = solved(replace(beam, material=replace(beam.material, conductivity=np.inf)))
    assert ahead(solution)[0] == pytest.approx(3.09, abs=0.04)
    assert solution.impedance[0].real == pytest.approx(100.0, abs=5.0)


def test_compute_and_feed_solve_the_same_wires(bare_hexagon):
    """Also with further wires beside it, which the feed once left out."""
    tail = """
  [[beam.wire]]
  name = "tail"
  diameter = "2 mm"
  points = [[0.3, 4.0, 0.5], [1.5, 5.0, 0.5]]
"""
    straight = hexagon().replace(
        HEXAGON,
        """
  [[beam.element]]
  role = "driven"
  at = "0 m"
  diameter = "20 mm"
  length = "10.1 m"
""",
    )
    for beam in (bare_hexagon, beam_of(straight + tail), beam_of(hexagon() + tail)):
        load = split_load(beam=beam, setting=FieldSetting())
        highest = float(load.frequency.max())
        solution = solve_beam(
            beam=beam,
            frequencies=load.frequency,
            detail=working_detail(frequency=highest),
        )
        assert load.impedance == pytest.approx(solution.impedance, rel=1e-9)


def test_a_mirrored_beam_is_the_whole_beam(bare_hexagon):
    """A further wire far away takes the mirror plane away and changes nothing else."""
    text = hexagon() + '  [[beam.wire]]\n  name = "far"\n  diameter = "2 mm"\n'
    text += "  points = [[0, 0, 900], [0, 1, 900]]\n"
    bare = text.replace('insulation = { thickness = "0.2 mm", permittivity = 2.3 }', "")
    whole = beam_of(bare)
    assert beam_wires(beam=bare_hexagon).mirrors
    assert not beam_wires(beam=whole).mirrors
    assert abs(solved(whole).impedance[0] - solved(bare_hexagon).impedance[0]) < 0.1


def test_a_coat_makes_wire_act_longer(bare_hexagon):
    coated = solved(beam_of(hexagon())).impedance[0]
    assert coated.imag - solved(bare_hexagon).impedance[0].imag > 2.0


def test_current_runs_round_the_corners(bare_hexagon):
    solution = solved(bare_hexagon)
    for current in element_currents(solution=solution, at=0):
        size = np.abs(current.current)
        assert size[0] < 0.15 * size.max()
        assert size == pytest.approx(size[::-1], rel=1e-3)
        assert size[len(size) // 2] > 0.9 * size.max()
        assert np.all(size[2:-2] > 0.02 * size.max())
        assert abs(np.diff(size)).max() < 0.1 * size.max()


def test_a_vertical_over_perfect_ground_is_half_a_dipole():
    beam = beam_of(upright(ground="perfect"))
    solution = solved(beam, ground=PERFECT_GROUND)
    assert solution.impedance[0].real == pytest.approx(36.0, abs=2.5)
    assert ahead(solution, ground=PERFECT_GROUND)[0] == pytest.approx(5.15, abs=0.1)
    assert abs(1.0 - (solution.radiated + solution.lost) / solution.accepted)[0] < 2e-3


def test_radials_in_the_air_are_wires_of_the_model():
    """Four level quarter waves: a ground plane antenna has about 22 ohm in free space."""
    beam = beam_of(upright(count=4, laid="elevated", ground="free space", height="6 m"))
    assert solved(beam).impedance[0].real == pytest.approx(22.0, abs=3.0)
    sloping = beam_of(upright(count=4, laid="elevated", slope=45, ground="free space",
                             height="6 m"))  # fmt: skip
    assert solved(sloping).impedance[0].real > 40.0


def test_more_radials_lose_less():
    losses = []
    for count in (16, 32, 64):
        plan = read_plan(upright(count=count))
        solution = solved(plan.beams[0], ground=plan.site.ground)
        losses.append(float(solution.lost[0] / solution.accepted[0]))
    assert losses == sorted(losses, reverse=True)
    assert 0.02 < losses[-1] < losses[0] < 0.5
