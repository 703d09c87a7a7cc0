"""What the owner measured. ``None`` means that the plan does not say."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.records import dataclass
from boomwright.plan.model_station import CoaxPlan

if TYPE_CHECKING:
    from boomwright.tuning import Tolerance
    from boomwright.tuning.tolerance import MovingCare


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterLinePlan:
    """The line between meter and feed point while measuring."""

    line_type: str | CoaxPlan  #: name of a type of line, or its data sheet
    length: float  #: its length [m]
    open_sweep: str = ""  #: file with a sweep of it, its far end open, or empty
    short_sweep: str = ""  #: file with a sweep of it, its far end shorted, or empty
    #: file with a sweep of it, a load of the reference resistance at its far end, or empty
    load_sweep: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePlan:
    """One thing that was moved or set."""

    element: int | None = None  #: index of the element whose tips were moved, or None
    tips: float | None = None  #: by how much each tip went outwards [m]
    stage: int | None = None  #: index of the piece of the match, from the antenna, or None
    longer: float | None = None  #: by how much its line or stub was made longer [m]
    more: float | None = None  #: by what share its capacitor or coil was made larger [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPlan:
    """What was moved, and the sweep after it."""

    sweep: str  #: file with the sweep after the moves
    moved: tuple[MovePlan, ...] = ()  #: what was moved since the sweep before (n_moves,)
    rise: float = 0.0  #: how much higher than planned the beam hung while sweeping [m]
    day: str = ""  #: day of the measurement, or empty
    note: str = ""  #: owner's remark, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class ProbePlan:
    """Current in the middle of an element against that of the driven one, by a probe."""

    element: int  #: index of the element
    ratio: float  #: its current over that of the driven element [-]
    within: float = 0.05  #: how exactly, as a standard deviation [-]
    frequency: float | None = None  #: frequency; None for the design frequency [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontBackPlan:
    """Level of a distant signal from ahead over that with the back to it."""

    ratio: float  #: front to back, as a ratio of powers in decibels [dB]
    within: float = 1.5  #: how exactly, as a standard deviation [dB]
    frequency: float | None = None  #: frequency; None for the design frequency [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class AdjustPlan:
    """What may be moved."""

    elements: tuple[int, ...] = ()  #: indices of elements whose tips may be moved (n,)
    #: indices of pieces of the match that may be set, from the antenna (n,)
    stages: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MomentPlan:
    """A moment in universal time."""

    day: str
    utc_hours: float  #: time of day [h]


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelPlan:
    """A level as the receiver shows it."""

    s_units: float | None  #: reading of the S-meter; None for a level in decibels [-]
    decibels: float  #: decibels over S9, or the level on any scale [dB]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingRunPlan:
    """Levels of one signal, or of the sun's noise, while the beam turns."""

    #: azimuth that the rotator shows [rad], and level, in any order [-] (n_readings, 2)
    readings: tuple[tuple[float, LevelPlan], ...]
    bearing: float | None = None  #: true bearing of the signal; None when it is the sun [rad]
    #: moment in the middle of the run when it is the sun; None otherwise
    sun: MomentPlan | None = None
    #: elevation that the signal comes from; None for the horizon, or the sun's [rad]
    elevation: float | None = None
    frequency: float | None = None  #: its frequency; None for the design frequency [Hz]
    day: str = ""  #: day of the run, or empty
    note: str = ""  #: owner's remark, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class AimPlan:
    """The beam aimed at something whose bearing is known."""

    shows: float  #: azimuth that the rotator shows then [rad]
    bearing: float | None = None  #: true bearing of what it is aimed at; None for the sun [rad]
    sun: MomentPlan | None = None  #: moment when it is aimed at the sun; None otherwise
    #: how exactly it was aimed, as a standard deviation; None for 3 degrees [rad]
    within: float | None = None
    note: str = ""  #: owner's remark, or empty


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPlan:
    """A measured sweep of the built beam."""

    sweep: str  #: file with the sweep
    beam: str = ""  #: name of the beam it is of; empty when the plan has one only
    day: str = ""  #: day of the measurement, or empty
    #: resistance that the meter holds its readings against; what the antenna is matched to is that
    #: of the plan's line [ohm]
    reference: float = 50.0
    #: class of the meter: ``hand-held``, ``careful kit`` or ``plain``; empty for a hand-held one
    meter: str = ""
    #: line between meter and feed point; None when measured at the feed point
    line: MeterLinePlan | None = None
    #: standard deviation of one part of the reflection; None takes it from the scatter [-]
    noise: float | None = None
    #: how far off things usually are; None for the usual values
    tolerance: Tolerance | None = None
    moving: MovingCare | None = None  #: how exactly moves are made; None for the usual care
    adjust: AdjustPlan | None = None  #: what may be moved; None for everything that can be
    trial: tuple[TrialPlan, ...] = ()  #: changes tried since, in their order (n_trials,)
    probe: tuple[ProbePlan, ...] = ()  #: currents read with a probe (n_probes,)
    #: front to back read with a distant signal (n_readings,)
    front_to_back: tuple[FrontBackPlan, ...] = ()
    #: runs over the headings with a signal on the air (n_runs,)
    heading: tuple[HeadingRunPlan, ...] = ()
    aim: tuple[AimPlan, ...] = ()  #: aims at known bearings (n_aims,)
