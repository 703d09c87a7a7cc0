"""What reach says about a plan, as values."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright import permits
from boomwright.base import Notice, ReadOnlyArrays
from boomwright.base.records import dataclass
from boomwright.parts import Beam, Conductor
from boomwright.permits import LimitCheck
from boomwright.plan import Plan
from boomwright.reach import (
    Advantage,
    FieldGrid,
    Footprint,
    GreatCircle,
    HeightScan,
    HopReading,
    PhaseScan,
    Place,
    PlainAntenna,
    PointingLoss,
    RingSweep,
    SpacingScan,
    StackingGain,
    TerrainPattern,
)
from boomwright.solver import PatternCut
from boomwright.study.height_costs import HeightCosts


@dataclass(frozen=True, slots=True, kw_only=True)
class HopGain:
    """A number of hops with what the beam is worth there."""

    hop: HopReading  #: the hops and the gain of the beam
    advantages: tuple[Advantage, ...]  #: beam over plain antennas at the middle of the elevations


@dataclass(frozen=True, slots=True, kw_only=True)
class PathReading:
    """A path to a target."""

    target: str  #: owner's name for it
    place: Place  #: where it is
    path: GreatCircle  #: bearing and distance
    off_heading_deg: float  #: heading of the plan minus bearing, within half a turn [deg]
    off_heading_db: float  #: what standing on the plan's heading costs [dB]
    #: time to turn there from the plan's heading; None without a rotator's speed [s]
    turn_time: float | None
    hops: tuple[HopGain, ...]  #: ways to cover it


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitDistance:
    """How far from the mast a limit is kept, towards the heading."""

    limit: permits.ExposureLimit
    #: farthest place at head height where the computed field meets it, 0 when nowhere [m]
    near: float
    far: float  #: distance from the antenna by the far-field formula [m]
    #: the same as near in directions off the heading, the worse side [deg] and [m] (n, 2)
    around: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ExposureReading(ReadOnlyArrays):
    """Fields around a beam and places with people."""

    power: dict[float, float]  #: average power by averaging time of the limits, [s] and [W] [-]
    power_told: str  #: how the peak envelope power becomes the average, in words
    peak_gain_dbi: float  #: greatest free-space gain [dBi]
    checks: tuple[LimitCheck, ...]  #: every place against every limit
    level: FieldGrid  #: fields for one watt at head height and through the heading
    upright: FieldGrid
    #: part of the strictest limit for the public that is used on those grids [-] (ny, nx)
    level_share: NDArray[np.float64]
    #: part of the strictest limit for the public that is used on those grids [-] (ny, nx)
    upright_share: NDArray[np.float64]
    limits: tuple[permits.ExposureLimit, ...]
    distances: tuple[LimitDistance, ...]  #: how far from the mast each limit is kept at head height
    near_distance: float  #: distance out to which only the computed near field holds [m]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamReach:
    """Everything reach says about one beam."""

    beam: Beam
    scan: HeightScan  #: elevation pattern against height
    cut: PatternCut  #: elevation cut at the plan's height, the far ground counted in
    azimuth: PatternCut  #: azimuth cut at the take-off angle
    take_off_deg: float  #: elevation of the strongest lobe [deg]
    plain: tuple[PlainAntenna, ...]  #: what it is held against
    advantages: tuple[Advantage, ...]  #: beam over plain antennas at the wanted elevations
    wanted_deg: tuple[float, ...]  #: elevations followed against height [deg]
    costs: HeightCosts  #: what every height costs, or why that is not priced
    pointing: tuple[PointingLoss, ...]  #: how far off costs 1, 3 and 6 dB
    paths: tuple[PathReading, ...]  #: paths to the targets, short and long way
    footprint: Footprint | None  #: gains over the map; None without a position
    terrain: TerrainPattern | None  #: pattern over the owner's terrain; None without a profile
    exposure: ExposureReading | None  #: fields where people are; None without a transmitter
    #: the same antenna in the further bands that the plan wishes for (n_bands,)
    further: tuple[BeamReach, ...] = ()

    @property
    def every_band(self) -> tuple[BeamReach, ...]:
        """Its own band and the further ones (n_bands,)."""
        return (self, *self.further)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StackResult:
    """Beams fed together."""

    beams: tuple[Beam, ...]  #: the beams, lowest first
    #: further beams of the tower, solved together with them, their feeds idle
    beside: tuple[Beam, ...]
    conductors: tuple[Conductor, ...]  #: mast and pieces of guy solved together with them
    without: tuple[str, ...]  #: names of what is in reach and left out
    frequency: float  #: frequency [Hz]
    gain: StackingGain  #: in phase over the best alone, with its band
    cuts: tuple[tuple[str, PatternCut], ...]  #: name of each way of feeding and its elevation cut
    #: impedance at each feed in each way of feeding [ohm]
    impedances: tuple[tuple[complex | None, ...], ...]
    #: phase scan at the strongest lobe, then at the wanted elevations; none unless there are two
    #: (n,)
    phases: tuple[PhaseScan, ...]
    #: spacing scans at those elevations; none unless there are two (n,)
    spacings: tuple[SpacingScan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Isolation:
    """How much of one beam's power reaches another's feed."""

    sender: str  #: names of the beams
    receiver: str
    frequency: float  #: design frequency of the sender [Hz]
    decibels: float  #: isolation, both feeds ending in 50 ohm [dB]
    #: power at the other feed for the plan's transmitter; None without one [W]
    received: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReachResult:
    """What reach says about a plan."""

    plan: Plan
    station: Place | None  #: where it stands; None without a position
    beams: tuple[BeamReach, ...]
    stack: StackResult | None  #: beams fed together; None when the plan names none
    ring: RingSweep | None  #: one beam turned on its ring; None when the plan names none
    isolation: tuple[Isolation, ...]  #: between every two beams of the plan
    notices: tuple[Notice, ...]  #: doubts, cautions and exceeded limits
