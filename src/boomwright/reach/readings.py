"""Everything computed for one beam, as the page, the book and the command line show it."""

from __future__ import annotations

from dataclasses import dataclass

from boomwright.base import Notice
from boomwright.parts import Beam
from boomwright.solver import ElementCurrent, Ground, PatternCut, SweepPoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Lobe:
    """One lobe of the elevation pattern towards the heading.

    Parameters
    ----------
    elevation_deg
        elevation of its maximum [deg]
    gain_dbi
        gain there [dBi]
    """

    elevation_deg: float
    gain_dbi: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OverGround:
    """What the beam does over its ground at its height, at the design frequency.

    Parameters
    ----------
    height
        boom above ground [m]
    impedance
        feed-point impedance over that ground [ohm]
    peak_gain_dbi
        gain of the strongest lobe [dBi]
    peak_elevation_deg
        its elevation, the take-off angle [deg]
    gain_error_db
        half width of the band of that gain [dB]
    lobes
        lobes towards the heading, lowest first (n_lobes,)
    nulls_deg
        elevations of the minima between lobes, lowest first [deg] (n_nulls,)
    elevation_pattern
        cut through the heading, 0..180 degrees
    azimuth_pattern
        cut at the elevation of the peak
    """

    ground: Ground
    height: float
    impedance: complex
    peak_gain_dbi: float
    peak_elevation_deg: float
    gain_error_db: float
    lobes: tuple[Lobe, ...]
    nulls_deg: tuple[float, ...]
    elevation_pattern: PatternCut
    azimuth_pattern: PatternCut


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamReadings:
    """All readings of one beam.

    Parameters
    ----------
    beam
        the beam they belong to
    reference_resistance
        resistance the standing wave ratio is held against [ohm]
    sweep
        free-space figures over the band, rising frequency (n_frequencies,)
    free_space
        the same figures at the design frequency
    power_balance
        (accepted - radiated - lost) over accepted power at the design frequency [-]
    azimuth_pattern
        free-space cut at elevation 0
    elevation_pattern
        free-space cut through the heading, 0..360 degrees
    currents
        current along each element at the design frequency, in plan order (n_elements,)
    over_ground
        lobes over the ground; None when the plan says free space
    notices
        doubts and cautions
    """

    beam: Beam
    reference_resistance: float
    sweep: tuple[SweepPoint, ...]
    free_space: SweepPoint
    power_balance: float
    azimuth_pattern: PatternCut
    elevation_pattern: PatternCut
    currents: tuple[ElementCurrent, ...]
    over_ground: OverGround | None
    notices: tuple[Notice, ...]
