"""Lines from the beams of a stack to one junction, equal and an odd number of quarter waves."""

from __future__ import annotations

import math

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.records import dataclass
from boomwright.feed.reflection import standing_wave_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class StackLines:
    """Equal lines that feed the beams of a stack in phase."""

    beams: int  #: number of beams
    line_impedance: float  #: characteristic impedance of each line [ohm]
    velocity_factor: float  #: speed on it over that of light [-]
    quarter_waves: int  #: odd number of quarter wavelengths of each
    length: float  #: physical length of each [m]
    junction: float  #: resistance at the junction when every beam is matched [ohm]
    swr: float  #: standing wave ratio on the line from the junction to the radio [-]


def design_stack_lines(
    *,
    beams: int,
    reach: float,
    frequency: float,
    line_impedance: float = 75.0,
    velocity_factor: float = 0.66,
    reference: float = 50.0,
) -> StackLines:
    """Lay out lines that step each beam's resistance up, so that together they meet the line's.

    Args:
        beams: number of beams, at least 2
        reach: least length of each line, from a feed to the junction [m]
        frequency: design frequency [Hz]
        line_impedance: characteristic impedance of each line [ohm]
        velocity_factor: speed on it over that of light [-]
        reference: resistance of each beam and of the line to the radio [ohm]

    Returns:
        shortest odd number of quarter waves that reaches; Zl^2 / (n Z0) at the junction
        {pozar-2012, eq.
            2.63}

    Raises:
        BoomwrightError: for fewer than two beams, or a length that is below 0
    """
    if beams < 2 or reach < 0.0:
        msg = f"stack lines: {beams} beams, {reach:g} m apart; give two beams or more"
        raise BoomwrightError(msg)
    quarter = velocity_factor * SPEED_OF_LIGHT / (4.0 * frequency)
    count = max(1, math.ceil(reach / quarter - 1e-9))
    count += 1 - count % 2
    junction = line_impedance**2 / reference / beams
    return StackLines(
        beams=beams,
        line_impedance=line_impedance,
        velocity_factor=velocity_factor,
        quarter_waves=count,
        length=count * quarter,
        junction=junction,
        swr=float(standing_wave_ratio(junction, reference=reference)),
    )
