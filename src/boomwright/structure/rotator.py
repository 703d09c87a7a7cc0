"""The owner's rotator ratings, and the torques held against them."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians
from typing import Literal

from boomwright.structure.drag import AreaRule
from boomwright.structure.faults import StructureInputError, require_positive

RotatorPlace = Literal["inside tower", "mast-mounted", "ring"]
#: holding torque wanted over the wind torque of the survival gust (common practice)
HOLDING_FACTOR = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotator:
    """A rotator with what its maker states; anything left out is not checked.

    Parameters
    ----------
    name
        owner's words for it
    place
        ``inside tower`` below a bearing; ``mast-mounted`` or a ``ring``, carrying the load alone
    turning_torque
        torque while turning [N m]
    holding_torque
        brake or worm torque at rest [N m]
    start_stop_torque
        torque allowed while starting and stopping [N m]
    vertical_load
        load it may carry [N]
    side_force
        side force it may carry [N]
    area_inside
        rated wind area inside the tower [m^2]
    area_on_mast
        rated wind area where it carries the load alone [m^2]
    area_rule
        convention of those areas
    least_mast
        smallest mast its clamp takes [m]
    greatest_mast
        largest mast its clamp takes [m]
    turning_rate
        speed of turning [rad/s]
    stop_angle
        angle in which it comes to rest [rad]
    turning_gust
        nominal 3 s gust in which it shall still turn [m/s]
    friction
        torque lost in bearing and cable loop [N m]
    """

    name: str = "rotator"
    place: RotatorPlace = "inside tower"
    turning_torque: float | None = None
    holding_torque: float | None = None
    start_stop_torque: float | None = None
    vertical_load: float | None = None
    side_force: float | None = None
    area_inside: float | None = None
    area_on_mast: float | None = None
    area_rule: AreaRule | None = None
    least_mast: float | None = None
    greatest_mast: float | None = None
    turning_rate: float | None = None
    stop_angle: float = radians(1.0)
    turning_gust: float | None = None
    friction: float = 0.0

    def __post_init__(self) -> None:
        for place, value, unit in (
            ("turning torque", self.turning_torque, "N m"),
            ("holding torque", self.holding_torque, "N m"),
            ("start and stop torque", self.start_stop_torque, "N m"),
            ("vertical load", self.vertical_load, "N"),
            ("side force", self.side_force, "N"),
            ("area inside the tower", self.area_inside, "m^2"),
            ("area mast-mounted", self.area_on_mast, "m^2"),
            ("least mast", self.least_mast, "m"),
            ("greatest mast", self.greatest_mast, "m"),
            ("turning rate", self.turning_rate, "rad/s"),
            ("stop angle", self.stop_angle, "rad"),
            ("turning gust", self.turning_gust, "m/s"),
        ):
            if value is not None:
                require_positive(place=f"{self.name} {place}", value=value, unit=unit)
        if not 0.0 <= self.friction < float("inf"):
            msg = f"{self.name} friction is {self.friction} N m: give zero or more"
            raise StructureInputError(msg)

    @property
    def rated_area(self) -> float | None:
        """Wind area for the way it is mounted [m^2]."""
        return self.area_inside if self.place == "inside tower" else self.area_on_mast


@dataclass(frozen=True, slots=True, kw_only=True)
class RingMount:
    """A ring around the support on which one beam turns, with what its maker states.

    Parameters
    ----------
    beam
        name of the beam on it
    height
        height above ground [m]
    rotator
        its ratings; place ``ring``
    weight
        weight of the mount itself; None when unknown [N]
    drag_area
        drag area of the mount itself; None when unknown [m^2]
    said_by
        who says that the support may carry it there; empty when nobody does
    """

    beam: str
    height: float
    rotator: Rotator
    weight: float | None = None
    drag_area: float | None = None
    said_by: str = ""

    def __post_init__(self) -> None:
        for place, value, unit in (
            ("weight", self.weight, "N"),
            ("drag area", self.drag_area, "m^2"),
        ):
            if value is not None:
                require_positive(place=f"{self.rotator.name} {place}", value=value, unit=unit)


@dataclass(frozen=True, slots=True, kw_only=True)
class RotatorDemand:
    """What the beams ask of the rotator.

    Parameters
    ----------
    survival_torque
        wind torque in the site's nominal gust [N m]
    turning_torque
        wind torque in the gust in which it shall turn, with friction; None when no
        such gust is given [N m]
    stopping_torque
        torque to stop within the stop angle; None without a turning rate [N m]
    inertia
        moment of inertia about the mast [kg m^2]
    vertical_load
        weight of mast and beams [N]
    side_force
        side force at the rotator; None when not known [N]
    """

    survival_torque: float
    turning_torque: float | None
    stopping_torque: float | None
    inertia: float
    vertical_load: float
    side_force: float | None
