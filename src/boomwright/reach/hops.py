"""Elevation angles that reach a distance by one or more hops off a layer.

Plain mirror geometry on a spherical earth {itu-p533, eqs. 12, 13}. Layer heights move with
hour, season and sun, so every angle comes as a range over a stated range of heights. Nothing
here says whether the layer reflects at that frequency and hour.
"""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass
from boomwright.reach.geodesy import EARTH_RADIUS
from boomwright.solver import PatternCut


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A reflecting layer."""

    name: str  #: its letter
    lowest: float  #: lowest usual mirror height [m]
    highest: float  #: highest usual mirror height [m]


#: E layer, 90 to 130 km; {itu-p533} computes with 110 km
E_LAYER = Layer(name="E", lowest=90e3, highest=130e3)
#: F2 layer, 250 to 400 km, the usual span of mirror heights {common-practice-layers}
F2_LAYER = Layer(name="F2", lowest=250e3, highest=400e3)


@dataclass(frozen=True, slots=True, kw_only=True)
class HopReading:
    """What one number of hops asks of the antenna."""

    layer: Layer
    hops: int  #: number of equal hops
    hop_length: float  #: length of each along the ground [m]
    #: elevation for the lowest layer height that can do it, not below 0 [deg]
    lowest_elevation_deg: float
    highest_elevation_deg: float  #: elevation for the highest layer height [deg]
    lowest_gain_dbi: float  #: least gain of the antenna between the two elevations [dBi]
    highest_gain_dbi: float  #: greatest gain between them [dBi]


def hop_elevation(*, hop_length: float, layer_height: float) -> float:
    """Elevation of a ray that comes down again after one hop; negative when it cannot.

    Args:
        hop_length: length along the ground, above 0 and at most half the circumference [m]
        layer_height: mirror height of the layer [m]

    Returns:
        elevation, negative beyond the longest hop {itu-p533, eq. 13} [rad]

    Raises:
        BoomwrightError: when the hop or the layer height is not above 0, or the hop is beyond
            half way
            round
    """
    half_angle = hop_length / (2.0 * EARTH_RADIUS)
    if not (0.0 < half_angle <= math.pi / 2 and layer_height > 0.0):
        raise BoomwrightError(
            f"hop of {hop_length / 1e3:g} km off a layer at {layer_height / 1e3:g} km: give a "
            "hop above 0 and up to half way round the earth, and a layer above the ground"
        )
    ratio = EARTH_RADIUS / (EARTH_RADIUS + layer_height)
    return math.atan2(math.cos(half_angle) - ratio, math.sin(half_angle))


def incidence_angle(
    *, elevation: float, layer_height: float, earth_radius: float = EARTH_RADIUS
) -> float:
    """Angle between the ray and the vertical where it meets the layer {itu-p533, eq. 12} [rad].

    Args:
        elevation: elevation at the ground [rad]
        layer_height: mirror height of the layer [m]
    """
    return math.asin(earth_radius * math.cos(elevation) / (earth_radius + layer_height))


def longest_hop(*, layer_height: float, elevation: float = 0.0) -> float:
    """Length of the hop a ray of given elevation makes.

    Args:
        layer_height: mirror height of the layer [m]
        elevation: elevation at the ground [rad]

    Returns:
        length along the ground {itu-p533, eq. 13 solved for the distance} [m]
    """
    incidence = incidence_angle(
        elevation=elevation, layer_height=layer_height, earth_radius=EARTH_RADIUS
    )
    return 2.0 * EARTH_RADIUS * (math.pi / 2 - elevation - incidence)


def gain_at_elevation(cut: PatternCut, *, elevation_deg: float) -> float:
    """Read the gain of an elevation cut towards its heading.

    Returns:
        gain, linear in dB between samples [dBi]
    """
    _refuse_azimuth_cut(cut)
    return float(np.interp(elevation_deg, cut.angle_deg, cut.gain_dbi))


def _refuse_azimuth_cut(cut: PatternCut) -> None:
    if cut.plane != "elevation":
        msg = f"pattern cut: plane {cut.plane!r} has no elevations; give the elevation cut"
        raise BoomwrightError(msg)


def _gain_range(cut: PatternCut, *, low_deg: float, high_deg: float) -> tuple[float, float]:
    inner = (cut.angle_deg > low_deg) & (cut.angle_deg < high_deg)
    gains = [
        gain_at_elevation(cut, elevation_deg=low_deg),
        gain_at_elevation(cut, elevation_deg=high_deg),
        *cut.gain_dbi[inner],
    ]
    return min(gains), max(gains)


def fewest_hops(*, distance: float, layer: Layer) -> int:
    """Fewest hops that cover a distance when the layer is at its highest.

    Args:
        distance: path length along the ground [m]
    """
    return max(1, math.ceil(distance / longest_hop(layer_height=layer.highest) - 1e-12))


def hops_for_path(
    *, distance: float, layer: Layer, cut: PatternCut, extra_hops: int = 2
) -> tuple[HopReading, ...]:
    """List the ways to cover a path by equal hops, with the gain the antenna has for each.

    Args:
        distance: path length along the ground, above 0 [m]

    Returns:
        one reading for each number of hops, fewest first {itu-p533, section 5.1} (1 + extra_hops,)

    Raises:
        BoomwrightError: when the distance is not above 0 or the cut is not an elevation cut
    """
    _refuse_azimuth_cut(cut)
    if distance <= 0.0:
        raise BoomwrightError(f"path of {distance / 1e3:g} km: give a distance above 0")
    first = fewest_hops(distance=distance, layer=layer)
    return tuple(
        _hop_reading(distance=distance, hops=hops, layer=layer, cut=cut)
        for hops in range(first, first + extra_hops + 1)
    )


def _hop_reading(*, distance: float, hops: int, layer: Layer, cut: PatternCut) -> HopReading:
    length = distance / hops
    low = max(0.0, hop_elevation(hop_length=length, layer_height=layer.lowest))
    high = max(0.0, hop_elevation(hop_length=length, layer_height=layer.highest))
    gains = _gain_range(cut, low_deg=math.degrees(low), high_deg=math.degrees(high))
    return HopReading(
        layer=layer,
        hops=hops,
        hop_length=length,
        lowest_elevation_deg=math.degrees(low),
        highest_elevation_deg=math.degrees(high),
        lowest_gain_dbi=gains[0],
        highest_gain_dbi=gains[1],
    )
