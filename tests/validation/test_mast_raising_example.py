"""Published example of raising a mast with a gin pole, and the statics that goes with it.

The moment is printed; tensions, thrust and loads are derived from it by plane statics
(data/raising_checks.toml), and once more here from a balance of forces and moments.
"""

import math

import pytest
from check_values import expected_values

from boomwright.raising import Lifter, Part
from boomwright.raising.tilt_statics import tilt_state, weight_moment

CHECKS = expected_values("raising_checks.toml")
POUND, FOOT = 4.4482216152605, 0.3048
GRAVITY = 9.80665

MAST = (
    Part(name="mast", mass=216 * POUND / GRAVITY, at=18 * FOOT),
    Part(name="top", mass=60 * POUND / GRAVITY, at=36 * FOOT),
)
POLE = Lifter(kind="gin pole", height=15 * FOOT, line_at=20 * FOOT, winch=20 * FOOT)
SI_MAST = (
    Part(name="mast", mass=60, at=5.5),
    Part(name="top", mass=25, at=12.0),
)
SI_POLE = Lifter(kind="gin pole", height=4.0, line_at=8.0, winch=9.0)


def test_the_printed_moment():
    assert weight_moment(MAST) / (POUND * FOOT) == pytest.approx(CHECKS["raise_moment"], rel=1e-12)


@pytest.mark.parametrize(
    ("name", "angle"),
    [("raise_t_0", 0), ("raise_t_15", 15), ("raise_t_30", 30), ("raise_t_45", 45),
     ("raise_t_60", 60), ("raise_t_75", 75)],
)  # fmt: skip
def test_winch_line_from_angle_to_angle(name, angle):
    state = tilt_state(parts=MAST, lifter=POLE, angle=math.radians(angle))
    assert state.winch_line / POUND == pytest.approx(CHECKS[name], abs=0.05)  # one decimal


@pytest.mark.parametrize(
    ("name", "angle"),
    [("raise_si_0", 0), ("raise_si_30", 30), ("raise_si_60", 60), ("raise_si_90", 90)],
)
def test_winch_line_in_newtons(name, angle):
    state = tilt_state(parts=SI_MAST, lifter=SI_POLE, angle=math.radians(angle))
    assert state.winch_line == pytest.approx(CHECKS[name], abs=0.05)


def test_hinge_at_the_start():
    state = tilt_state(parts=SI_MAST, lifter=SI_POLE, angle=0.0)
    assert state.thrust == pytest.approx(CHECKS["raise_si_thrust"], abs=0.05)
    assert state.down == pytest.approx(CHECKS["raise_si_base"], abs=0.1)
    # Gin pole S/d + S/s, mast S/g: the method's own lines for the lying mast.
    moment = weight_moment(SI_MAST)
    assert state.lifter == pytest.approx(moment / 9.0 + moment / 8.0, rel=1e-12)
    assert state.axial == pytest.approx(moment / 4.0, rel=1e-12)
