"""Everything computed for one beam, as the page, the book and the command line show it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.parts import Beam
from boomwright.solver import ElementCurrent, Ground, PatternCut, SweepPoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Lobe:
    """One lobe of the elevation pattern towards the heading."""

    elevation_deg: float  #: elevation of its maximum [deg]
    gain_dbi: float  #: gain there [dBi]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OverGround:
    """What the beam does over its ground at its height, at the design frequency."""

    ground: Ground
    height: float  #: boom above ground [m]
    impedance: complex  #: feed-point impedance over that ground [ohm]
    #: gain of the strongest lobe towards the heading, or the most there when it has no lobe [dBi]
    peak_gain_dbi: float
    peak_elevation_deg: float  #: its elevation, the take-off angle [deg]
    gain_error_db: float  #: half width of the band of that gain [dB]
    lobes: tuple[Lobe, ...]  #: lobes towards the heading, lowest first (n_lobes,)
    #: elevations of the minima between lobes, lowest first [deg] (n_nulls,)
    nulls_deg: tuple[float, ...]
    elevation_pattern: PatternCut  #: cut through the heading, 0..180 degrees
    azimuth_pattern: PatternCut  #: cut at the elevation of the peak


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamReadings:
    """All readings of one beam."""

    beam: Beam  #: the beam they belong to
    reference_resistance: float  #: resistance the standing wave ratio is held against [ohm]
    #: free-space figures over the band, rising frequency (n_frequencies,)
    sweep: tuple[SweepPoint, ...]
    free_space: SweepPoint  #: the same figures at the design frequency
    #: (accepted - radiated - lost) over accepted power at the design frequency [-]
    power_balance: float
    azimuth_pattern: PatternCut  #: free-space cut at elevation 0
    elevation_pattern: PatternCut  #: free-space cut through the heading, 0..360 degrees
    #: current along each element at the design frequency, in plan order (n_elements,)
    currents: tuple[ElementCurrent, ...]
    over_ground: OverGround | None  #: lobes over the ground; None when the plan says free space
    notices: tuple[Notice, ...]  #: doubts and cautions

    def over_band(self, name: str) -> NDArray[Any]:
        """One figure of the sweep as an array.

        Parameters
        ----------
        name
            field of ``SweepPoint``: ``frequency``, ``impedance``, ``gain_dbi``, ``swr_error`` ...

        Returns
        -------
        NDArray
            one value a frequency, complex for an impedance [unit of the field] (n_frequencies,)
        """
        return np.array([getattr(point, name) for point in self.sweep])
