"""Everything found about one station's structure."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.structure.anchors import AnchorPull
from boomwright.structure.beam_wind import BeamWind
from boomwright.structure.boom import ArmBending
from boomwright.structure.boom_course import BoomCourse
from boomwright.structure.element_course import ElementCourse
from boomwright.structure.elements import ElementStrength
from boomwright.structure.gust import GustResponse
from boomwright.structure.guy_solver import GuyedState
from boomwright.structure.held_beam import SupportCourse
from boomwright.structure.inputs import BaseReactions, StructureInputs
from boomwright.structure.margins import Margin
from boomwright.structure.mast import MastBending
from boomwright.structure.pads import PadCheck
from boomwright.structure.piers import PierCheck
from boomwright.structure.reminders import ReminderList
from boomwright.structure.rotator import RotatorDemand
from boomwright.structure.soils import Concrete
from boomwright.structure.torque import WindTorque
from boomwright.structure.tower_rating import RatedArea
from boomwright.structure.tube_support import TubeBending
from boomwright.structure.vibration import VibrationMode


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementReport:
    """One element.

    Parameters
    ----------
    index
        element, counted from 0 in plan order
    label
        role and number for people
    strength
        stresses, droops and yield speeds
    modes
        modes of vibration and their winds (n_modes,)
    large_deflection_ratio
        root moment with large deflections over the plain one, wind only; None without
        a wind speed [-]
    course
        stress and droop from place to place
    limit
        stress limit of the method; None when the yield strength is not known [Pa]
    """

    index: int
    label: str
    strength: ElementStrength
    modes: tuple[VibrationMode, ...]
    large_deflection_ratio: float | None
    course: ElementCourse
    limit: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamReport:
    """One beam on its boom.

    Parameters
    ----------
    name
        owner's name for the beam
    height
        boom above ground [m]
    elements
        elements that could be worked out
    wind
        areas from every direction, bare
    iced_wind
        the same with ice; None without ice
    force
        largest wind force, nominal; None without a wind speed [N]
    weight
        weight of elements, boom and fittings; None when a wall is missing [N]
    iced_weight
        the same with ice [N]
    balance
        balance point on the beam's x axis; None when a weight is missing [m]
    clamp
        mast clamp on the beam's x axis; None when a weight is missing [m]
    inertia
        moment of inertia about the mast; None when a weight is missing [kg m^2]
    arms
        rear and front boom arm in wind, bare; empty without a boom
    iced_arms
        the same with ice
    torque
        wind torque about the mast, nominal; None without wind or boom [N m]
    iced_torque
        the same with ice and its gust; None without [N m]
    vane_drag_area
        drag area that cancels the boom's torque, at the end of the short arm; None
        without a boom [m^2]
    ballast
        ballast at the end of the light arm that lets the clamp sit at mid boom; None without
        a boom [kg]
    course
        moment and sag of the boom from place to place, bare; None without a boom
    iced_course
        the same with ice; None without ice
    """

    name: str
    height: float
    elements: tuple[ElementReport, ...]
    wind: BeamWind
    iced_wind: BeamWind | None
    force: float | None
    weight: float | None
    iced_weight: float | None
    balance: float | None
    clamp: float | None
    inertia: float | None
    arms: tuple[ArmBending, ...]
    iced_arms: tuple[ArmBending, ...]
    torque: WindTorque | None
    vane_drag_area: float | None
    iced_torque: WindTorque | None = None
    ballast: float | None = None
    course: BoomCourse | None = None
    iced_course: BoomCourse | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class GuyReport:
    """Guys over all wind directions.

    Parameters
    ----------
    states
        equilibrium for each direction (n_directions,)
    highest_tensions
        highest tension of each ring [N] (n_levels,)
    compression
        largest downward pull on the tower [N]
    anchors
        pulls on each group of anchors
    buckles
        whether what they hold buckles, so that all figures are of the straight support
    """

    states: tuple[GuyedState, ...]
    highest_tensions: tuple[float, ...]
    compression: float
    anchors: tuple[AnchorPull, ...]
    buckles: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BaseReport:
    """The footing.

    Parameters
    ----------
    reactions
        loads on it, nominal
    concrete
        volume, bags and yards
    pad
        pad check; None for a pier
    pier
        pier check; None for a pad
    """

    reactions: BaseReactions
    concrete: Concrete
    pad: PadCheck | None
    pier: PierCheck | None


@dataclass(frozen=True, slots=True, kw_only=True)
class IcedReport:
    """What stands below the beams, with ice on everything and the gust that comes with it.

    Parameters
    ----------
    basis
        wind, ice and combination in one line
    tower_area
        area against the maker's rating; None when not checked
    tube
        tubular support; None when not checked
    guys
        guys; None when not checked
    base
        footing; None when not checked
    tower_course
        what a guyed or bracketed tower carries along its height; None when not found
    gusts
        gust factor of what stands below the beams
    """

    basis: str
    tower_area: RatedArea | None
    tube: TubeBending | None
    guys: GuyReport | None
    base: BaseReport | None
    tower_course: SupportCourse | None
    gusts: GustResponse | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StructureReport:
    """What ``check_structure`` found.

    Parameters
    ----------
    inputs
        what it was given
    basis
        wind basis of the member checks in one line, or why there is none
    beams
        every beam (n_beams,)
    mast
        mast bending, nominal or ultimate by the method; None when not checked
    rotator
        demands on the rotator; None when not checked
    tower_area
        area against the maker's rating; None when not checked
    tube
        tubular support; None when not checked
    guys
        guys; None when not checked
    base
        footing; None when not checked
    tower_course
        what a guyed or bracketed tower carries along its height; None when not found
    iced
        the same with ice; None where there is none, or it cannot be formed
    ledger
        every margin, worst first
    notices
        doubts and advice
    cautions
        cautions that always stand
    reminders
        lists to go through
    gusts
        gust factor of what stands below the beams; None without wind
    """

    inputs: StructureInputs
    basis: str
    beams: tuple[BeamReport, ...]
    mast: MastBending | None
    rotator: RotatorDemand | None
    tower_area: RatedArea | None
    tube: TubeBending | None
    guys: GuyReport | None
    base: BaseReport | None
    tower_course: SupportCourse | None
    iced: IcedReport | None
    ledger: tuple[Margin, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Notice, ...]
    reminders: tuple[ReminderList, ...]
    gusts: GustResponse | None = None

    @property
    def exceeded(self) -> tuple[Margin, ...]:
        """Lines whose limit is exceeded."""
        return tuple(line for line in self.ledger if line.verdict == "exceeded")
