"""What the owner measured. ``None`` means that the plan does not say."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.plan.model_station import CoaxPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterLinePlan:
    """The line between meter and feed point while measuring.

    Parameters
    ----------
    line_type
        name of a type of line, or its data sheet
    length
        its length [m]
    open_sweep
        file with a sweep of it, its far end open, or empty
    short_sweep
        file with a sweep of it, its far end shorted, or empty
    load_sweep
        file with a sweep of it, a load of the reference resistance at its far end, or empty
    """

    line_type: str | CoaxPlan
    length: float
    open_sweep: str = ""
    short_sweep: str = ""
    load_sweep: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePlan:
    """One thing that was moved or set.

    Parameters
    ----------
    element
        index of the element whose tips were moved, or None
    tips
        by how much each tip went outwards [m]
    stage
        index of the piece of the match, from the antenna, or None
    longer
        by how much its line or stub was made longer [m]
    more
        by what share its capacitor or coil was made larger [-]
    """

    element: int | None = None
    tips: float | None = None
    stage: int | None = None
    longer: float | None = None
    more: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPlan:
    """What was moved, and the sweep after it.

    Parameters
    ----------
    sweep
        file with the sweep after the moves
    moved
        what was moved since the sweep before (n_moves,)
    day
        day of the measurement, or empty
    note
        owner's remark, or empty
    """

    sweep: str
    moved: tuple[MovePlan, ...] = ()
    day: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TolerancePlan:
    """How far off things usually are, as standard deviations; None takes the usual one.

    Parameters
    ----------
    cutting
        place of one tip, cutting and assembly together [m]
    strap
        place of a strap or short along its rods [m]
    component
        value of a capacitor or coil, as a share [-]
    height
        height above ground [m]
    ground_factor
        permittivity and conductivity of the ground, as a factor [-]
    line_length
        electrical length of the line, as a share of its length [-]
    line_loss
        loss of the line, as a share [-]
    """

    cutting: float | None = None
    strap: float | None = None
    component: float | None = None
    height: float | None = None
    ground_factor: float | None = None
    line_length: float | None = None
    line_loss: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingPlan:
    """How exactly moves are made, as standard deviations; None takes the usual one.

    Parameters
    ----------
    length
        place of a tip or a strap [m]
    share
        setting of a capacitor or coil, as a share [-]
    """

    length: float | None = None
    share: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AdjustPlan:
    """What may be moved.

    Parameters
    ----------
    elements
        indices of elements whose tips may be moved (n,)
    stages
        indices of pieces of the match that may be set, from the antenna (n,)
    """

    elements: tuple[int, ...] = ()
    stages: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MomentPlan:
    """A moment in universal time.

    Parameters
    ----------
    utc_hours
        time of day [h]
    """

    day: str
    utc_hours: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelPlan:
    """A level as the receiver shows it.

    Parameters
    ----------
    s_units
        reading of the S-meter; None for a level in decibels [-]
    decibels
        decibels over S9, or the level on any scale [dB]
    """

    s_units: float | None
    decibels: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingRunPlan:
    """Levels of one signal, or of the sun's noise, while the beam turns.

    Parameters
    ----------
    readings
        azimuth that the rotator shows [rad], and level, in any order [-] (n_readings, 2)
    bearing
        true bearing of the signal; None when it is the sun [rad]
    sun
        moment in the middle of the run when it is the sun; None otherwise
    elevation
        elevation that the signal comes from; None for the horizon, or the sun's [rad]
    frequency
        its frequency; None for the design frequency [Hz]
    day
        day of the run, or empty
    note
        owner's remark, or empty
    """

    readings: tuple[tuple[float, LevelPlan], ...]
    bearing: float | None = None
    sun: MomentPlan | None = None
    elevation: float | None = None
    frequency: float | None = None
    day: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AimPlan:
    """The beam aimed at something whose bearing is known.

    Parameters
    ----------
    shows
        azimuth that the rotator shows then [rad]
    bearing
        true bearing of what it is aimed at; None for the sun [rad]
    sun
        moment when it is aimed at the sun; None otherwise
    within
        how exactly it was aimed, as a standard deviation; None for 3 degrees [rad]
    note
        owner's remark, or empty
    """

    shows: float
    bearing: float | None = None
    sun: MomentPlan | None = None
    within: float | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPlan:
    """A measured sweep of the built beam.

    Parameters
    ----------
    sweep
        file with the sweep
    beam
        name of the beam it is of; empty when the plan has one only
    day
        day of the measurement, or empty
    reference
        resistance of the meter [ohm]
    line
        line between meter and feed point; None when measured at the feed point
    noise
        standard deviation of one part of the reflection; None takes it from the scatter [-]
    tolerance
        how far off things usually are; None for the usual values
    moving
        how exactly moves are made; None for the usual care
    adjust
        what may be moved; None for everything that can be
    trial
        changes tried since, in their order (n_trials,)
    heading
        runs over the headings with a signal on the air (n_runs,)
    aim
        aims at known bearings (n_aims,)
    """

    sweep: str
    beam: str = ""
    day: str = ""
    reference: float = 50.0
    line: MeterLinePlan | None = None
    noise: float | None = None
    tolerance: TolerancePlan | None = None
    moving: MovingPlan | None = None
    adjust: AdjustPlan | None = None
    trial: tuple[TrialPlan, ...] = ()
    heading: tuple[HeadingRunPlan, ...] = ()
    aim: tuple[AimPlan, ...] = ()
