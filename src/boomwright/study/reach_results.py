"""What reach says about a plan, as values."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright import permits
from boomwright.base import Notice, read_only
from boomwright.parts import Beam
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
    """A number of hops with what the beam is worth there.

    Parameters
    ----------
    hop
        the hops and the gain of the beam
    advantages
        beam over plain antennas at the middle of the elevations
    """

    hop: HopReading
    advantages: tuple[Advantage, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PathReading:
    """A path to a target.

    Parameters
    ----------
    target
        owner's name for it
    place
        where it is
    path
        bearing and distance
    off_heading_deg
        heading of the plan minus bearing, within half a turn [deg]
    off_heading_db
        what standing on the plan's heading costs [dB]
    turn_time
        time to turn there from the plan's heading; None without a rotator's speed [s]
    hops
        ways to cover it
    """

    target: str
    place: Place
    path: GreatCircle
    off_heading_deg: float
    off_heading_db: float
    turn_time: float | None
    hops: tuple[HopGain, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitDistance:
    """How far from the mast a limit is kept, towards the heading.

    Parameters
    ----------
    near
        farthest place at head height where the computed field meets it, 0 when nowhere [m]
    far
        distance from the antenna by the far-field formula [m]
    around
        the same as near in directions off the heading, the worse side [deg] and [m] (n, 2)
    """

    limit: permits.ExposureLimit
    near: float
    far: float
    around: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ExposureReading:
    """Fields around a beam and places with people.

    Parameters
    ----------
    power
        average power by averaging time of the limits, [s] and [W] [-]
    peak_gain_dbi
        greatest free-space gain [dBi]
    checks
        every place against every limit
    level, upright
        fields for one watt at head height and through the heading
    level_share, upright_share
        part of the strictest limit for the public that is used on those grids [-] (ny, nx)
    distances
        how far from the mast each limit is kept at head height
    near_distance
        distance out to which only the computed near field holds [m]
    """

    power: dict[float, float]
    peak_gain_dbi: float
    checks: tuple[LimitCheck, ...]
    level: FieldGrid
    upright: FieldGrid
    level_share: NDArray[np.float64]
    upright_share: NDArray[np.float64]
    limits: tuple[permits.ExposureLimit, ...]
    distances: tuple[LimitDistance, ...]
    near_distance: float

    def __post_init__(self) -> None:
        for name in ("level_share", "upright_share"):
            object.__setattr__(self, name, read_only(getattr(self, name)))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamReach:
    """Everything reach says about one beam.

    Parameters
    ----------
    scan
        elevation pattern against height
    cut
        elevation cut at the plan's height, the far ground counted in
    azimuth
        azimuth cut at the take-off angle
    take_off_deg
        elevation of the strongest lobe [deg]
    plain
        what it is held against
    advantages
        beam over plain antennas at the wanted elevations
    wanted_deg
        elevations followed against height [deg]
    costs
        what every height costs, or why that is not priced
    pointing
        how far off costs 1, 3 and 6 dB
    paths
        paths to the targets, short and long way
    footprint
        gains over the map; None without a position
    terrain
        pattern over the owner's terrain; None without a profile
    exposure
        fields where people are; None without a transmitter
    """

    beam: Beam
    scan: HeightScan
    cut: PatternCut
    azimuth: PatternCut
    take_off_deg: float
    plain: tuple[PlainAntenna, ...]
    advantages: tuple[Advantage, ...]
    wanted_deg: tuple[float, ...]
    costs: HeightCosts
    pointing: tuple[PointingLoss, ...]
    paths: tuple[PathReading, ...]
    footprint: Footprint | None
    terrain: TerrainPattern | None
    exposure: ExposureReading | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StackResult:
    """Beams fed together.

    Parameters
    ----------
    beams
        the beams, lowest first
    frequency
        frequency [Hz]
    gain
        in phase over the best alone, with its band
    cuts
        name of each way of feeding and its elevation cut
    impedances
        impedance at each feed in each way of feeding [ohm]
    phases
        phase scan at the strongest lobe, then at the wanted elevations; none unless there are
        two (n,)
    spacings
        spacing scans at those elevations; none unless there are two (n,)
    """

    beams: tuple[Beam, ...]
    frequency: float
    gain: StackingGain
    cuts: tuple[tuple[str, PatternCut], ...]
    impedances: tuple[tuple[complex | None, ...], ...]
    phases: tuple[PhaseScan, ...]
    spacings: tuple[SpacingScan, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Isolation:
    """How much of one beam's power reaches another's feed.

    Parameters
    ----------
    sender, receiver
        names of the beams
    frequency
        design frequency of the sender [Hz]
    decibels
        isolation, both feeds ending in 50 ohm [dB]
    received
        power at the other feed for the plan's transmitter; None without one [W]
    """

    sender: str
    receiver: str
    frequency: float
    decibels: float
    received: float | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ReachResult:
    """What reach says about a plan.

    Parameters
    ----------
    station
        where it stands; None without a position
    stack
        beams fed together; None when the plan names none
    ring
        one beam turned on its ring; None when the plan names none
    isolation
        between every two beams of the plan
    notices
        doubts, cautions and exceeded limits
    """

    plan: Plan
    station: Place | None
    beams: tuple[BeamReach, ...]
    stack: StackResult | None
    ring: RingSweep | None
    isolation: tuple[Isolation, ...]
    notices: tuple[Notice, ...]
