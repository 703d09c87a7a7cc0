"""What turns the mast: wind torque of boom and elements, gusts, inertia; and how to cancel it."""

from __future__ import annotations

from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError
from boomwright.structure.weather.drag import ROUND_DRAG

#: pressure difference between two halves of a beam in a gust, 0.10 to 0.20 (common practice)
GUST_IMBALANCE = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class WindTorque:
    """Torque of the wind about the mast."""

    boom: float  #: unequal boom arms, wind across the boom [N m]
    offset: float  #: boom hung beside the mast, wind along the boom [N m]
    gust_elements: float  #: uneven gust over the elements, wind along the boom [N m]
    gust_boom: float  #: uneven gust over the boom arms, wind across the boom [N m]
    worst: float  #: largest sum over all directions [N m]
    worst_angle_deg: float  #: direction of that, from the boom [deg]


def boom_torque(
    *, pressure: float, diameter: float, arms: tuple[float, float], hardware: float = 0.0
) -> float:
    """Torque of the wind across unequal boom arms, q |Cd d (L2^2 - L1^2) / 2 + sum CdA x| [N m].

    Hardware that would relieve the boom is not counted: nobody is sure of its drag.

    Args:
        diameter: diameter of the boom [m]
        arms: rear and front arm from the mast [m] (2,)
        hardware: sum over the hardware of drag area and place before the mast [m^3]
    """
    tube = ROUND_DRAG * diameter * (arms[1] ** 2 - arms[0] ** 2) / 2.0
    return pressure * max(abs(tube), abs(tube + hardware))


def offset_torque(*, pressure: float, element_drag_area: float, offset: float) -> float:
    """Torque of the elements when the boom hangs beside the mast, q CdA e [N m].

    Args:
        element_drag_area: drag area of the elements, wind along the boom [m^2]
        offset: boom axis beside the mast axis [m]
    """
    return pressure * element_drag_area * abs(offset)


def vane_drag_area(*, diameter: float, arms: tuple[float, float], vane_arm: float) -> float:
    """Drag area CdA of a vane on the short arm that cancels the boom's torque [m^2].

    Args:
        diameter: diameter of the boom [m]
        arms: both arms from the mast [m] (2,)
        vane_arm: distance of the vane from the mast [m]

    Raises:
        StructureInputError: when the vane sits at the mast
    """
    if not vane_arm > 0.0:
        msg = f"vane arm is {vane_arm} m: give its distance from the mast, above zero"
        raise StructureInputError(msg)
    return ROUND_DRAG * diameter * abs(arms[0] ** 2 - arms[1] ** 2) / (2.0 * vane_arm)


def ballast_for_middle(*, mass: float, balance: float, middle: float, ballast_arm: float) -> float:
    """Ballast that lets the clamp sit at the middle of the boom, where the wind cancels [kg].

    Args:
        mass: mass of the whole beam [kg]
        balance: balance point without ballast, on the beam's x axis [m]
        middle: middle of the boom, on the beam's x axis [m]
        ballast_arm: distance of the ballast from the middle, on the light side [m]

    Raises:
        StructureInputError: when the ballast sits at the middle
    """
    if not ballast_arm > 0.0:
        msg = f"ballast arm is {ballast_arm} m: give its distance from the middle, above zero"
        raise StructureInputError(msg)
    return mass * abs(balance - middle) / ballast_arm


def wind_torque(
    *,
    pressure: float,
    boom_diameter: float,
    arms: tuple[float, float],
    element_drag_area: float,
    element_first_moment: float,
    offset: float = 0.0,
    hardware_first_moment: float = 0.0,
) -> WindTorque:
    """Torque of the wind about the mast from the worst direction, and its parts [N m].

    Straight elements symmetric about the boom give none of their own; what remains is the
    boom, the offset and the unevenness of gusts, each taken with the same sign.

    Args:
        boom_diameter: [m]
        arms: rear and front arm from the mast [m] (2,)
        element_drag_area: drag area of all elements, wind along the boom [m^2]
        element_first_moment: sum over one half of every element of diameter, length and
            distance to the boom [m^3]
        offset: boom axis beside the mast axis [m]
        hardware_first_moment: sum over plates, boxes and rods of drag area and place before the
            mast [m^3]
    """
    boom = boom_torque(
        pressure=pressure, diameter=boom_diameter, arms=arms,
        hardware=hardware_first_moment,
    )  # fmt: skip
    beside = offset_torque(pressure=pressure, element_drag_area=element_drag_area, offset=offset)
    gust_elements = GUST_IMBALANCE * pressure * ROUND_DRAG * element_first_moment
    gust_boom = (
        GUST_IMBALANCE * pressure * ROUND_DRAG * boom_diameter * (arms[0] ** 2 + arms[1] ** 2) / 4.0
    )
    along, across = beside + gust_elements, boom + gust_boom
    # A sum of a cos^2 and b sin^2 peaks at the larger of the two, so no scan is needed.
    worst, angle = max((along, 0.0), (across, 90.0))
    return WindTorque(
        boom=boom,
        offset=beside,
        gust_elements=gust_elements,
        gust_boom=gust_boom,
        worst=worst,
        worst_angle_deg=angle,
    )


def braking_torque_by_angle(*, inertia: float, rate: float, angle: float) -> float:
    """Torque that stops a turning beam within an angle, I w^2 / (2 phi) [N m].

    Args:
        inertia: moment of inertia about the mast [kg m^2]
        rate: turning rate [rad/s]
        angle: angle it may still turn [rad]
    """
    return inertia * rate**2 / (2.0 * angle)


def braking_torque_by_time(*, inertia: float, rate: float, time: float) -> float:
    """Torque that stops a turning beam within a time, I w / t [N m].

    Args:
        inertia: moment of inertia about the mast [kg m^2]
        rate: turning rate [rad/s]
        time: time it may still turn [s]
    """
    return inertia * rate / time
