"""What the owner wishes for and what he measured. ``None`` means that the plan does not say."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.plan.model_station import CoaxPlan


@dataclass(frozen=True, slots=True, kw_only=True)
class MattersPlan:
    """How much each aim counts against the others; 0 leaves it out.

    Parameters
    ----------
    gain
        weight of the gain [-]
    front_to_rear
        weight of the front-to-rear ratio [-]
    swr
        weight of the standing wave ratio over the band [-]
    """

    gain: float = 0.0
    front_to_rear: float = 0.0
    swr: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WishPlan:
    """What an improved beam shall do, and what it must not exceed.

    Parameters
    ----------
    beam
        name of the beam it is about; empty when the plan has one only [-]
    elements
        fewest and most elements, or None [-] (2,)
    boom_length
        longest boom [m]
    element_length
        longest element from tip to tip [m]
    gain_dbi
        least gain over the band [dBi]
    front_to_rear_db
        least front-to-rear ratio over the band [dB]
    rear_angle
        half angle about the rear that the ratio is taken over; None for the half-plane [rad]
    swr
        greatest standing wave ratio over the band [-]
    matched
        True when the ratio counts after an ideal match at the design frequency [-]
    take_off
        elevation at which the gain is wanted; None for the horizon [rad]
    closest
        smallest distance of neighbours [m]
    even_spacing
        True keeps all spacings equal [-]
    equal_directors
        True keeps all directors alike [-]
    resistance
        lowest and highest feed resistance at the design frequency, or None [ohm] (2,)
    matters
        how much each aim counts; None when not said [-]
    frozen
        places of the plan that must stay as they are [-] (n_places,)
    """

    beam: str = ""
    elements: tuple[int, int] | None = None
    boom_length: float | None = None
    element_length: float | None = None
    gain_dbi: float | None = None
    front_to_rear_db: float | None = None
    rear_angle: float | None = None
    swr: float | None = None
    matched: bool = False
    take_off: float | None = None
    closest: float | None = None
    even_spacing: bool = False
    equal_directors: bool = False
    resistance: tuple[float, float] | None = None
    matters: MattersPlan | None = None
    frozen: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MeterLinePlan:
    """The line between meter and feed point while measuring.

    Parameters
    ----------
    line_type
        name of a type of line, or its data sheet [-]
    length
        its length [m]
    open_sweep
        file with a sweep of it, its far end open, or empty [-]
    short_sweep
        file with a sweep of it, its far end shorted, or empty [-]
    """

    line_type: str | CoaxPlan
    length: float
    open_sweep: str = ""
    short_sweep: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovePlan:
    """One thing that was moved or set.

    Parameters
    ----------
    element
        index of the element whose tips were moved, or None [-]
    tips
        by how much each tip went outwards [m]
    stage
        index of the piece of the match, from the antenna, or None [-]
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
        file with the sweep after the moves [-]
    moved
        what was moved since the sweep before [-] (n_moves,)
    day
        day of the measurement, or empty [-]
    note
        owner's remark, or empty [-]
    """

    sweep: str
    moved: tuple[MovePlan, ...] = ()
    day: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredPlan:
    """A measured sweep of the built beam.

    Parameters
    ----------
    sweep
        file with the sweep [-]
    beam
        name of the beam it is of; empty when the plan has one only [-]
    day
        day of the measurement, or empty [-]
    reference
        resistance of the meter [ohm]
    line
        line between meter and feed point; None when measured at the feed point [-]
    trial
        changes tried since, in their order [-] (n_trials,)
    """

    sweep: str
    beam: str = ""
    day: str = ""
    reference: float = 50.0
    line: MeterLinePlan | None = None
    trial: tuple[TrialPlan, ...] = ()
