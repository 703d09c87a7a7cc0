"""Where on the map the beam is strong: bearing by the azimuth pattern, distance by the hops."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.reach.at_height import layered_gain_dbi, solve_at_height
from boomwright.reach.geodesy import EARTH_RADIUS
from boomwright.reach.ground_zones import ZonedGround
from boomwright.reach.hops import Layer, fewest_hops, hop_elevation
from boomwright.solver import Ground, Preparer, prepare_run

#: steps of the footprint [deg], [m]
_BEARING_STEP_DEG, _DISTANCE_STEP = 5.0, 250e3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Footprint(ReadOnlyArrays):
    """Gain towards every place on the map, by the fewest hops off one layer."""

    layer: Layer
    bearing: NDArray[np.float64]  #: bearings at the station, clockwise from true north [rad] (b,)
    distance: NDArray[np.float64]  #: distances along the ground [m] (d,)
    #: elevation that each distance asks for, the layer at the middle of its range [deg] (d,)
    elevation_deg: NDArray[np.float64]
    hops: NDArray[np.float64]  #: number of hops of each distance [-] (d,)
    gain_dbi: NDArray[np.float64]  #: gain towards each bearing at that elevation [dBi] (b, d)


def trace_footprint(
    *,
    beam: Beam,
    ground: Ground,
    layer: Layer,
    far_ground: ZonedGround | None = None,
    prepare: Preparer = prepare_run,
) -> Footprint:
    """Spread the pattern of a beam over the map.

    Returns:
        gains by bearing and distance; it says nothing of whether the layer reflects
    """
    bearing_deg = np.arange(0.0, 360.0, _BEARING_STEP_DEG)
    distance = np.arange(_DISTANCE_STEP, math.pi * EARTH_RADIUS, _DISTANCE_STEP)
    hops, elevation = _ladder(distance, layer)
    solution = solve_at_height(beam=beam, ground=ground, height=beam.height, prepare=prepare)
    # Headings run clockwise, the solver's azimuth counter-clockwise.
    azimuth = beam.heading - np.radians(bearing_deg)
    every_azimuth, every_elevation = np.meshgrid(azimuth, elevation, indexing="ij")
    gain = layered_gain_dbi(
        solution=solution,
        azimuth=every_azimuth.ravel(),
        elevation=every_elevation.ravel(),
        ground=ground,
        height=beam.height,
        far_ground=far_ground,
    )
    return Footprint(
        layer=layer,
        bearing=np.radians(bearing_deg),
        distance=distance,
        elevation_deg=np.degrees(elevation),
        hops=hops,
        gain_dbi=gain.reshape(every_azimuth.shape),
    )


def _ladder(distance: Floats, layer: Layer) -> tuple[Floats, Floats]:
    """Fewest hops and elevation of each distance, the layer at the middle of its range."""
    middle = Layer(
        name=layer.name,
        lowest=0.5 * (layer.lowest + layer.highest),
        highest=0.5 * (layer.lowest + layer.highest),
    )
    hops: Sequence[int] = [fewest_hops(distance=float(d), layer=middle) for d in distance]
    elevation = [
        max(0.0, hop_elevation(hop_length=float(d) / n, layer_height=middle.highest))
        for d, n in zip(distance, hops, strict=True)
    ]
    return np.array(hops, dtype=float), np.array(elevation)
