"""Everything found about one station's structure."""

from __future__ import annotations

from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Value
from boomwright.base.records import dataclass
from boomwright.structure.beam.boom import ArmBending, BoomCourse
from boomwright.structure.beam.elements import ElementStrength
from boomwright.structure.beam.torque import WindTorque
from boomwright.structure.beam.vibration import VibrationMode
from boomwright.structure.checks.margins import Margin
from boomwright.structure.ground.anchors import AnchorPull
from boomwright.structure.ground.pads import PadCheck
from boomwright.structure.ground.piers import PierCheck
from boomwright.structure.ground.soils import Concrete
from boomwright.structure.inputs import BaseReactions, StructureInputs
from boomwright.structure.reminders import ReminderList
from boomwright.structure.support.guy_solver import GuyedState
from boomwright.structure.support.held_beam import SupportCourse
from boomwright.structure.support.mast import MastBending
from boomwright.structure.support.rotator import RotatorDemand
from boomwright.structure.support.tower_rating import RatedArea
from boomwright.structure.support.tube_support import TubeBending
from boomwright.structure.weather.beam_wind import BeamWind
from boomwright.structure.weather.gust import GustResponse


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ElementCourse(ReadOnlyArrays):
    """One element half from the boom to the tip; a step stands twice, inner tube first."""

    place: Floats  #: distance from the boom [m] (n_places,)
    bare_stress: Floats  #: bending stress in wind, bare [Pa] (n_places,)
    #: bending stress with ice and its wind; that of the bare weight without ice [Pa] (n_places,)
    iced_stress: Floats
    dead_droop: Floats  #: droop in still air, bare [m] (n_places,)
    iced_droop: Floats  #: droop in still air, with ice [m] (n_places,)


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementReport:
    """One element."""

    index: int  #: element, counted from 0 in plan order
    label: str  #: role and number for people
    strength: ElementStrength  #: stresses, droops and yield speeds
    modes: tuple[VibrationMode, ...]  #: modes of vibration and their winds (n_modes,)
    #: root moment with large deflections over the plain one, wind only; None without a wind speed
    #: [-]
    large_deflection_ratio: float | None
    course: ElementCourse  #: stress and droop from place to place
    #: stress limit of the method; None when the yield strength is not known [Pa]
    limit: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamReport:
    """One beam on its boom."""

    name: str  #: owner's name for the beam
    height: float  #: boom above ground [m]
    elements: tuple[ElementReport, ...]  #: elements that could be worked out
    wind: BeamWind  #: areas from every direction, bare
    iced_wind: BeamWind | None  #: the same with ice; None without ice
    force: float | None  #: largest wind force, nominal; None without a wind speed [N]
    weight: float | None = None  #: of elements, boom and fittings; None when a wall is missing [N]
    iced_weight: float | None = None  #: the same with ice [N]
    #: balance point on the beam's x axis; None when a weight is missing [m]
    balance: float | None = None
    clamp: float | None = (
        None  #: mast clamp on the beam's x axis; None when a weight is missing [m]
    )
    #: moment of inertia about the mast; None when a weight is missing [kg m^2]
    inertia: float | None = None
    arms: tuple[
        ArmBending, ...
    ] = ()  #: rear and front boom arm in wind, bare; empty without a boom
    iced_arms: tuple[ArmBending, ...] = ()  #: the same with ice
    #: wind torque about the mast, nominal; None without wind or boom [N m]
    torque: WindTorque | None = None
    iced_torque: WindTorque | None = None  #: the same with ice and its gust; None without [N m]
    #: drag area that cancels the boom's torque, at the end of the short arm; None without a boom
    #: [m^2]
    vane_drag_area: float | None = None
    #: ballast at the end of the light arm that lets the clamp sit at mid boom; None without a boom
    #: [kg]
    ballast: float | None = None
    #: moment and sag of the boom from place to place, bare; None without a boom
    course: BoomCourse | None = None
    iced_course: BoomCourse | None = None  #: the same with ice; None without ice
    #: how far the middle of its wind area lies above the boom or hub [m]
    rise: float = 0.0
    #: what wires on ropes pull on the support, sideways and down [N] (2,)
    pull: tuple[float, float] = (0.0, 0.0)
    iced_pull: tuple[float, float] = (0.0, 0.0)  #: the same with ice [N] (2,)
    #: how far above the mast's top it may hang, on a hub or an insulator [m]
    over_top: float = 0.0
    turns: bool = True  #: whether it can turn; ropes hold what cannot

    @property
    def centre(self) -> float:
        """Height above ground at which its wind and weight act [m]."""
        return self.height + self.rise

    def areas(self, *, iced: bool) -> BeamWind:
        """Its areas, of the bare beam where there is no ice."""
        return self.iced_wind if iced and self.iced_wind is not None else self.wind

    def weighs(self, *, iced: bool) -> float | None:
        """Its weight; None when not known [N]."""
        return self.iced_weight if iced else self.weight

    def pulls(self, *, iced: bool) -> tuple[float, float]:
        """What its wires on ropes pull on the support, sideways and down [N] (2,)."""
        return self.iced_pull if iced else self.pull


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyReport:
    """Guys over all wind directions."""

    states: tuple[GuyedState, ...]  #: equilibrium for each direction (n_directions,)
    highest_tensions: tuple[float, ...]  #: highest tension of each ring [N] (n_levels,)
    compression: float  #: largest downward pull on the tower [N]
    anchors: tuple[AnchorPull, ...]  #: pulls on each group of anchors
    #: whether what they hold buckles, so that all figures are of the straight support
    buckles: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseReport:
    """The footing."""

    reactions: BaseReactions  #: loads on it, nominal
    concrete: Concrete  #: volume, bags and yards
    pad: PadCheck | None  #: pad check; None for a pier
    pier: PierCheck | None  #: pier check; None for a pad


@dataclass(frozen=True, slots=True, kw_only=True)
class SupportReport:
    """What stands below the beams in one case of wind; None for whatever was not checked."""

    basis: Value = ""  #: wind, ice and combination in one line
    tower_area: RatedArea | None = None  #: area against the maker's rating
    tube: TubeBending | None = None  #: tubular support
    guys: GuyReport | None = None  #: guys
    base: BaseReport | None = None  #: footing
    #: what a guyed or bracketed tower carries along its height
    tower_course: SupportCourse | None = None
    gusts: GustResponse | None = None  #: gust factor of it; None without wind


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureReport(SupportReport):
    """What ``check_structure`` found; its ``basis`` is that of the member checks, or why none."""

    inputs: StructureInputs  #: what it was given
    below: Value  #: wind basis of what stands below the beams; empty without one
    beams: tuple[BeamReport, ...]  #: every beam (n_beams,)
    #: mast bending, nominal or ultimate by the method; None when not checked
    mast: MastBending | None
    rotator: RotatorDemand | None  #: demands on the rotator; None when not checked
    #: what stands below with ice; None where there is none, or it cannot be formed
    iced: SupportReport | None
    ledger: tuple[Margin, ...]  #: every margin, worst first
    notices: tuple[Notice, ...]  #: doubts and advice
    cautions: tuple[Notice, ...]  #: cautions that always stand
    reminders: tuple[ReminderList, ...]  #: lists to go through

    @property
    def exceeded(self) -> tuple[Margin, ...]:
        """Lines whose limit is exceeded."""
        return tuple(line for line in self.ledger if line.verdict == "exceeded")
