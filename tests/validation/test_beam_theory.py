"""The worked half element: weight, droop, stress, yield speeds, ice, elastica, vibration.

Derived values; droop and root moment were also found with two general frame programs, and
``test_frame_library`` repeats that with one of them.
"""

from __future__ import annotations

from math import inf, pi, sqrt, tan

import pytest
from scipy.optimize import brentq
from structure_reference import INCH, WORKED, expected

from boomwright.parts import MATERIALS
from boomwright.structure import Mast, TubeShape, TubularSupport, half_segments, weight_loads
from boomwright.structure.beam.elastica import elastica
from boomwright.structure.beam.elements import element_strength, speed_at_stress
from boomwright.structure.beam.stepped import Segment, cantilever
from boomwright.structure.beam.vibration import critical_wind, natural_frequencies
from boomwright.structure.support.held_beam import SideLoad
from boomwright.structure.support.mast import MastLoad, mast_bending
from boomwright.structure.support.tube_support import free_tube
from boomwright.structure.weather.ice import IceCoat

ALLOY = MATERIALS["6061-T6"]
SEGMENTS = half_segments(element=WORKED, material=ALLOY)


def _strength(**more):
    given = {"pressure": 0.613 * 40.0**2} | more
    return element_strength(element=WORKED, material=ALLOY, **given)


def test_weight():
    assert _strength().half_weight == pytest.approx(expected("elem_weight"), abs=1e-3)


def test_dead_droop_and_root_moment():
    state = cantilever(segments=SEGMENTS, loads=weight_loads(segments=SEGMENTS))
    droop, moment = expected("elem_dead_droop")
    assert state.tip_deflection == pytest.approx(droop, abs=5e-6)
    assert state.root_moments[0] == pytest.approx(moment, abs=1e-3)


def test_dead_stress_of_every_section():
    found = [section.dead_stress / 1e6 for section in _strength().sections]
    assert found == pytest.approx(expected("elem_dead_stress"), abs=0.01)


def test_wind_stress_of_every_section():
    strength = _strength()
    found = [section.wind_stress / 1e6 for section in strength.sections]
    assert found == pytest.approx(expected("elem_wind_stress"), abs=0.1)
    assert strength.wind_root_moment == pytest.approx(289.23, abs=0.01)


def test_wind_only_speeds_at_allowable_and_yield():
    root = _strength().sections[0]
    found = [
        speed_at_stress(
            limit=limit, weight_stress=0.0,
            wind_stress_per_pascal=root.wind_stress / (0.613 * 40.0**2),
        )
        for limit in (241e6 / 1.65, 241e6)
    ]  # fmt: skip
    # Printed to one decimal; the formula gives 22.49 and 28.90.
    assert found == pytest.approx(expected("elem_survival"), abs=0.011)


def test_weight_and_wind_together_yield_a_little_earlier():
    root = _strength().sections[0]
    assert 28.5 < root.yield_speed_bare < 28.9


def test_ice_alone_breaks_it():
    coat = IceCoat(thickness=0.0127, density=900.0)
    strength = _strength(ice=coat)
    found = [strength.sections[0].ice_stress / 1e6, strength.iced_half_weight]
    assert found == pytest.approx(expected("elem_ice"), abs=0.1)
    assert strength.sections[0].yield_speed_iced == 0.0
    assert strength.iced_droop == pytest.approx(2.334, abs=1e-3)


def test_elastica_ratio():
    found = [
        elastica(segments=SEGMENTS, pressure=0.613 * speed**2)
        for speed in (15.0, 20.0, 25.0, 28.9, 35.0, 40.0)
    ]
    assert found == pytest.approx(expected("elastica_ratio"), abs=0.003)


def test_elastica_meets_the_plain_beam_in_a_light_wind():
    assert elastica(segments=SEGMENTS, pressure=0.613) == pytest.approx(1.0, abs=1e-4)


def test_uniform_cantilever_frequencies():
    shape = TubeShape(diameter=INCH, wall=0.058 * INCH)
    uniform = Segment(shape=shape, length=5.1, elastic_modulus=69e9, density=2700.0)
    found = natural_frequencies(segments=(uniform,), modes=3)
    assert found[0] == pytest.approx(expected("vib_uniform"), abs=1e-4)
    assert found == pytest.approx((0.92180, 5.7769, 16.177), rel=1e-4)


def test_uniform_cantilever_mode_constants():
    # Printed constants 3.52, 22.0, 61.7, 121, 200 of the cantilever.
    shape = TubeShape(diameter=INCH, wall=0.058 * INCH)
    uniform = Segment(shape=shape, length=5.1, elastic_modulus=69e9, density=2700.0)
    found = natural_frequencies(segments=(uniform,), modes=5, pieces=30)
    ratio = [value / found[0] * 3.516 for value in found]
    assert ratio == pytest.approx([3.52, 22.0, 61.7, 121.0, 200.0], rel=2e-3)


def test_stepped_frequencies():
    found = natural_frequencies(segments=SEGMENTS, modes=6, pieces=12)
    assert found == pytest.approx(expected("vib_stepped"), rel=1e-3)


def test_critical_winds():
    found = [
        critical_wind(frequency_hz=frequency, diameter=0.01905)
        for frequency in natural_frequencies(segments=SEGMENTS, modes=6)
    ]
    assert found == pytest.approx(expected("vib_vcrit"), abs=0.01)


#: almost weightless, so that only what hangs on it presses
POLE = TubularSupport(diameter=0.06, wall=0.003, height=8.0, density=1e-3)
EULER = 9.8696044 * 0.8 * POLE.stiffness / 16.0**2 / 1.6


def test_a_pole_that_bears_weight_bends_as_a_beam_column():
    # Force on top and weight P: the moment at the foot is F tan(k h) / k, k^2 = P / EI, with 1.6
    # times the weight on 0.8 of the stiffness.
    for share in (0.2, 0.5, 0.9):
        found = free_tube(
            tube=POLE, loads=(SideLoad(height=8.0, force=100.0),), line_load=lambda _z: 0.0,
            weight_on_top=share * EULER,
        )  # fmt: skip
        k = sqrt(1.6 * share * EULER / (0.8 * POLE.stiffness))
        assert found.moment == pytest.approx(800.0, rel=1e-9)
        assert found.base_moment == pytest.approx(100.0 * tan(8.0 * k) / k, rel=1e-5)
        assert found.stress == pytest.approx(
            found.base_moment / POLE.shape.modulus + share * EULER / POLE.shape.area, rel=1e-6
        )


def test_a_pole_buckles_at_its_own_load():
    for top, stands in ((0.999 * EULER, True), (1.001 * EULER, False)):
        found = free_tube(tube=POLE, loads=(), line_load=lambda _z: 10.0, weight_on_top=top)
        assert (found.stress < inf, found.course is not None) == (stands, stands)
    # A pole of even weight w falls over under itself at w h = 7.837 EI / h^2.
    for share, stands in ((0.995, True), (1.005, False)):
        own = share * 7.8373 * 0.8 / 1.6 * POLE.stiffness / 8.0**2
        heavy = TubularSupport(
            diameter=0.06, wall=0.003, height=8.0,
            density=own / (POLE.shape.area * 8.0 * 9.80665),
        )  # fmt: skip
        found = free_tube(tube=heavy, loads=(), line_load=lambda _z: 10.0, weight_on_top=0.0)
        assert (found.course is not None) is stands


def test_weight_on_a_leaning_mast():
    # On a bearing it cannot turn in: one force and weight on top, lean F h^3 / 3 EI.
    mast = Mast(diameter=0.05, wall=0.004, bearing_height=10.0, top_height=13.0, density=1e-3)
    load = MastLoad(name="beam", height=3.0, force=500.0, weight=400.0)
    found = mast_bending(mast=mast, loads=(load,), pressure=0.0)
    lean = 500.0 * 27.0 / (3.0 * 200e9 * mast.shape.second_moment)
    assert found.growth == pytest.approx(1.0 / (1.0 - 1.6 * 400.0 * lean / 0.8 / 1500.0), rel=1e-6)
    assert found.bending_stress == pytest.approx(1500.0 * found.growth / mast.shape.modulus)
    strong = mast_bending(mast=mast, loads=(load,), pressure=0.0, amplified_at=1.0)
    assert 1.0 < strong.growth < found.growth
    heavy = mast_bending(
        mast=mast, loads=(MastLoad(name="beam", height=3.0, force=500.0, weight=1e5),), pressure=0.0
    )
    assert (heavy.growth, heavy.stress) == (inf, inf)


@pytest.mark.parametrize("back", [0.5, 1.5, 3.0])
def test_a_mast_that_turns_at_its_bearing_is_a_longer_column(back):
    # Free top a over a back span b between two pins: tan(k a) (1 / (k b) - cot(k b)) = 1, and the
    # column length is pi / k. The sum of both flexibilities is never shorter.
    top = 3.0

    def misfit(k):
        return tan(k * top) * (1.0 / (k * back) - 1.0 / tan(k * back)) - 1.0

    exact = pi / brentq(misfit, 1e-3, (pi / 2.0 - 1e-9) / top)
    mast = Mast(diameter=0.05, wall=0.004, bearing_height=10.0, top_height=13.0, rotator_below=back)
    assert exact <= mast.column_length < 1.1 * exact
    assert mast.column_length > 2.1 * top
