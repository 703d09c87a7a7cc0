"""Everything computed for one beam, as the page, the book and the command line show it."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.base.records import dataclass
from boomwright.parts import Beam, IdleFeed
from boomwright.solver import ElementCurrent, Ground, NeighbourReach, PatternCut, SweepPoint

#: a lobe higher than this points straight up [deg]
_STRAIGHT_UP_DEG = 80.0
#: a lobe nearer than this to the heading is ahead, to its opposite behind [deg]
_AHEAD_DEG = 45.0
#: the strongest lobe towards the heading may be this much weaker than the main lobe [dB]
_AS_STRONG_DB = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Lobe:
    """One lobe of the elevation pattern towards the heading."""

    elevation_deg: float  #: elevation of its maximum [deg]
    gain_dbi: float  #: gain there [dBi]


@dataclass(frozen=True, slots=True, kw_only=True)
class MainLobe:
    """Where a pattern is strongest, whichever way that is."""

    azimuth_deg: float  #: counter-clockwise from the heading, -180 to 180 [deg]
    elevation_deg: float  #: above the horizon [deg]
    gain_dbi: float  #: gain there [dBi]

    @property
    def way(self) -> str:
        """The way it points, as one says it."""
        if self.elevation_deg > _STRAIGHT_UP_DEG:
            return "straight up"
        if abs(self.azimuth_deg) < _AHEAD_DEG:
            return "ahead"
        return "behind" if abs(self.azimuth_deg) > 180.0 - _AHEAD_DEG else "to the side"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OverGround:
    """What the beam does over its ground at its height, at the design frequency."""

    ground: Ground
    height: float  #: boom above ground [m]
    impedance: complex  #: feed-point impedance over that ground [ohm]
    impedance_error: float  #: half width of its band, as a modulus [ohm]
    #: gain of the strongest lobe towards the heading, or the most there when it has no lobe [dBi]
    peak_gain_dbi: float
    peak_elevation_deg: float  #: its elevation, the take-off angle [deg]
    gain_error_db: float  #: half width of the band of that gain [dB]
    lobes: tuple[Lobe, ...]  #: lobes towards the heading, lowest first (n_lobes,)
    #: elevations of the minima between lobes, lowest first [deg] (n_nulls,)
    nulls_deg: tuple[float, ...]
    elevation_pattern: PatternCut  #: cut through the heading, 0..180 degrees
    azimuth_pattern: PatternCut  #: cut at the elevation of the peak
    main_lobe: MainLobe  #: strongest of both cuts, whichever way it points

    @property
    def fires_forward(self) -> bool:
        """Whether the strongest lobe is the one towards the heading, and not straight up."""
        ahead = self.peak_elevation_deg <= _STRAIGHT_UP_DEG
        return ahead and self.main_lobe.gain_dbi - self.peak_gain_dbi <= _AS_STRONG_DB


@dataclass(frozen=True, slots=True, kw_only=True)
class BesideFigures:
    """Free-space figures of a beam at its design frequency."""

    gain_dbi: float  #: gain towards the heading [dBi]
    front_to_back_db: float  #: front-to-back ratio [dB]
    impedance: complex  #: feed-point impedance [ohm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands beside a beam and what it does to it."""

    reach: tuple[NeighbourReach, ...]  #: most that each neighbour can do (n,)
    #: what is taken to hang on the feed of each other beam: name and answer (n_beams, 2)
    feeds: tuple[tuple[str, IdleFeed], ...]
    asked: tuple[str, ...]  #: beams whose feed the plan does not speak of (n_asked,)
    alone: BesideFigures  #: the beam with nothing beside it
    together: BesideFigures  #: as it is computed everywhere
    #: with each answer for the feeds not spoken of; empty when all are answered (n_answers, 2)
    answers: tuple[tuple[IdleFeed, BesideFigures], ...]

    @property
    def loss_db(self) -> float:
        """Gain that the neighbours take from the beam [dB]."""
        return self.alone.gain_dbi - self.together.gain_dbi

    @property
    def spread_db(self) -> float:
        """How much the gain depends on the answers [dB]."""
        gains = [each.gain_dbi for _, each in self.answers]
        return max(gains) - min(gains) if gains else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """One of several driven elements at the design frequency."""

    label: str  #: name of the element
    impedance: complex  #: at its own feed, before its phasing line [ohm]
    current: complex  #: there, over that of the first driven element [-]


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
    beside: Beside | None = None  #: what stands beside it; None when nothing does
    #: each of several driven elements, over the ground where there is one; empty for a single one
    #: (n_driven,)
    drives: tuple[Drive, ...] = ()

    def over_band(self, name: str) -> NDArray[Any]:
        """One figure of the sweep as an array.

        Args:
            name: field of ``SweepPoint``: ``frequency``, ``impedance``, ``gain_dbi``,
                ``swr_error`` ...

        Returns:
            one value a frequency, complex for an impedance [unit of the field] (n_frequencies,)
        """
        return np.array([getattr(point, name) for point in self.sweep])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class QuickLook:
    """What changes under the hand: figures and pattern at one frequency."""

    point: SweepPoint  #: free-space figures
    azimuth_pattern: PatternCut  #: free-space cut at elevation 0
    over_ground: OverGround | None  #: lobes over the ground; None when the plan says free space


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Known:
    """Figures of a beam of a moment ago at one frequency, with the bands found for them."""

    point: SweepPoint  #: free-space figures
    over_ground: OverGround | None  #: the same over the ground; None in free space
    #: what was taken to hang on the feed of each other beam (n_beams,)
    feeds: tuple[IdleFeed, ...] = ()
