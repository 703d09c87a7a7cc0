"""The owner's rotator ratings, and the torques held against them."""

from __future__ import annotations

from math import radians
from typing import TYPE_CHECKING, Literal

from boomwright.base.records import dataclass
from boomwright.structure.faults import StructureInputError, require_each

if TYPE_CHECKING:
    from boomwright.structure.weather.drag import AreaRule

RotatorPlace = Literal["inside tower", "mast-mounted", "ring"]
#: holding torque wanted over the wind torque of the survival gust (common practice)
HOLDING_FACTOR = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Rotator:
    """A rotator with what its maker states; anything left out is not checked."""

    name: str = "rotator"  #: owner's words for it
    #: ``inside tower`` below a bearing; ``mast-mounted`` or a ``ring``, carrying the load alone
    place: RotatorPlace = "inside tower"
    turning_torque: float | None = None  #: torque while turning [N m]
    holding_torque: float | None = None  #: brake or worm torque at rest [N m]
    start_stop_torque: float | None = None  #: torque allowed while starting and stopping [N m]
    vertical_load: float | None = None  #: load it may carry [N]
    side_force: float | None = None  #: side force it may carry [N]
    area_inside: float | None = None  #: rated wind area inside the tower [m^2]
    area_on_mast: float | None = None  #: rated wind area where it carries the load alone [m^2]
    area_rule: AreaRule | None = None  #: convention of those areas
    least_mast: float | None = None  #: smallest mast its clamp takes [m]
    greatest_mast: float | None = None  #: largest mast its clamp takes [m]
    mass: float | None = None  #: mass of the rotator itself [kg]
    turning_rate: float | None = None  #: speed of turning [rad/s]
    stop_angle: float = radians(1.0)  #: angle in which it comes to rest [rad]
    turning_gust: float | None = None  #: nominal 3 s gust in which it shall still turn [m/s]
    friction: float = 0.0  #: torque lost in bearing and cable loop [N m]
    #: across and high, with the hardware of the support; None takes the usual [m] (2,)
    size: tuple[float, float] | None = None

    def __post_init__(self) -> None:
        require_each(
            self.name,
            ("turning torque", self.turning_torque, "N m"),
            ("holding torque", self.holding_torque, "N m"),
            ("start and stop torque", self.start_stop_torque, "N m"),
            ("vertical load", self.vertical_load, "N"),
            ("side force", self.side_force, "N"),
            ("area inside the tower", self.area_inside, "m^2"),
            ("area mast-mounted", self.area_on_mast, "m^2"),
            ("least mast", self.least_mast, "m"),
            ("greatest mast", self.greatest_mast, "m"),
            ("mass", self.mass, "kg"),
            ("turning rate", self.turning_rate, "rad/s"),
            ("stop angle", self.stop_angle, "rad"),
            ("turning gust", self.turning_gust, "m/s"),
        )
        if not 0.0 <= self.friction < float("inf"):
            msg = f"{self.name} friction is {self.friction} N m: give zero or more"
            raise StructureInputError(msg)

    @property
    def rated_area(self) -> float | None:
        """Wind area for the way it is mounted [m^2]."""
        return self.area_inside if self.place == "inside tower" else self.area_on_mast


@dataclass(frozen=True, slots=True, kw_only=True)
class Cage:
    """A cage on the top of a pole, which holds bearing and rotator and ends where it does."""

    height: float  #: from the end of the tube to the top bearing [m]
    side_force: float | None = None  #: side force at the bearing that its maker allows [N]


@dataclass(frozen=True, slots=True, kw_only=True)
class RingMount(Rotator):
    """A ring around the support on which one beam turns, with what its maker states."""

    beam: str  #: name of the beam that turns on it
    place: RotatorPlace = "ring"
    height: float = 0.0  #: height above ground, that of its beam [m]
    drag_area: float | None = None  #: drag area of the ring mount itself [m^2]
    #: who says that the support may carry it there, and when; empty when nobody does
    said_by: str = ""

    def __post_init__(self) -> None:
        Rotator.__post_init__(self)
        require_each(self.name, ("drag area", self.drag_area, "m^2"))


@dataclass(frozen=True, slots=True, kw_only=True)
class RotatorDemand:
    """What the beams ask of the rotator."""

    survival_torque: float  #: wind torque in the site's nominal gust [N m]
    #: wind torque in the gust in which it shall turn, with friction; None when no such gust is
    #: given [N m]
    turning_torque: float | None
    #: torque to stop within the stop angle; None without a turning rate [N m]
    stopping_torque: float | None
    inertia: float  #: moment of inertia about the mast [kg m^2]
    vertical_load: float  #: weight of mast and beams [N]
    side_force: float | None  #: side force at the rotator; None when not known [N]
