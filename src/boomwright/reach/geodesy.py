"""Bearing and distance on the earth, the short way and the long way round.

Paths between two places are geodesics of the WGS84 ellipsoid {nga-wgs84} by Karney's method
{karney-2013}; the sphere is used only where a published method is written for it, such as
the hops of {itu-p533}.
"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from geographiclib.geodesic import Geodesic
from geographiclib.geodesicline import GeodesicLine
from numpy.typing import NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.base.records import dataclass

Way = Literal["short", "long"]

#: mean radius of the earth used by the sky-wave method [m] {itu-p533}
EARTH_RADIUS = 6_371_009.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place on the earth.

    Raises:
        BoomwrightError: when the latitude lies beyond a pole or an angle is not finite
    """

    latitude: float  #: geodetic latitude, north positive [rad]
    longitude: float  #: longitude, east positive [rad]

    def __post_init__(self) -> None:
        if not (math.isfinite(self.longitude) and abs(self.latitude) <= math.pi / 2 + 1e-12):
            raise BoomwrightError(
                f"place: latitude {math.degrees(self.latitude):g} deg, longitude "
                f"{math.degrees(self.longitude):g} deg is not on the earth; "
                "give a latitude from -90 to 90 deg and a finite longitude"
            )

    @classmethod
    def from_degrees(cls, *, latitude_deg: float, longitude_deg: float) -> Place:
        """Make a place from degrees.

        Args:
            latitude_deg: geodetic latitude, north positive [deg]
            longitude_deg: longitude, east positive [deg]
        """
        return cls(latitude=math.radians(latitude_deg), longitude=math.radians(longitude_deg))

    @property
    def latitude_deg(self) -> float:
        """Geodetic latitude [deg]."""
        return math.degrees(self.latitude)

    @property
    def longitude_deg(self) -> float:
        """Longitude [deg]."""
        return math.degrees(self.longitude)


@dataclass(frozen=True, slots=True, kw_only=True)
class GreatCircle:
    """A path from the station to another place."""

    way: Way  #: ``short`` or ``long``
    distance: float  #: length along the path [m]
    bearing: float  #: direction at the station, clockwise from true north, 0 to 2 pi [rad]
    #: direction of travel on arrival, clockwise from true north, 0 to 2 pi [rad]
    arrival_bearing: float

    @property
    def bearing_deg(self) -> float:
        """Direction at the station, clockwise from true north [deg]."""
        return math.degrees(self.bearing)


def _turned(angle: float) -> float:
    return angle % (2.0 * math.pi)


def great_circle(*, station: Place, target: Place, way: Way = "short") -> GreatCircle:
    """Find the path from the station to a target, the short or the long way round.

    The short way is the geodesic of the ellipsoid. The long way is that same geodesic run
    backwards from the station, to its point nearest to the target. On the ellipsoid it passes
    the target at up to 70 km (3000 random pairs), under a degree in bearing between 4000 and
    16 000 km: far inside the beamwidth of any antenna this package plans.

    Args:
        way: ``short`` or ``long``

    Notes:
        {karney-2013, section 3 and 4}.
    """
    found = Geodesic.WGS84.Inverse(
        station.latitude_deg, station.longitude_deg, target.latitude_deg, target.longitude_deg
    )
    if way == "short":
        return GreatCircle(
            way="short",
            distance=found["s12"],
            bearing=_turned(math.radians(found["azi1"])),
            arrival_bearing=_turned(math.radians(found["azi2"])),
        )
    line = Geodesic.WGS84.Line(station.latitude_deg, station.longitude_deg, found["azi1"] + 180.0)
    nearest = _nearest_on(line, target=target, start=line.ArcPosition(360.0 - found["a12"])["s12"])
    return GreatCircle(
        way="long",
        distance=nearest["s12"],
        bearing=_turned(math.radians(found["azi1"] + 180.0)),
        arrival_bearing=_turned(math.radians(nearest["azi2"])),
    )


def _nearest_on(line: GeodesicLine, *, target: Place, start: float) -> dict[str, float]:
    """Point of a geodesic nearest to a target, from a guess within a few hundred kilometres."""
    distance = start
    for _ in range(4):
        here = line.Position(distance)
        rest = Geodesic.WGS84.Inverse(
            here["lat2"], here["lon2"], target.latitude_deg, target.longitude_deg
        )
        distance += rest["s12"] * math.cos(math.radians(rest["azi1"] - here["azi2"]))
    nearest: dict[str, float] = line.Position(distance)
    return nearest


def path_points(
    *, station: Place, bearing: float, distance: float, count: int
) -> NDArray[np.float64]:
    """Points along a geodesic at equal steps, both ends included.

    Args:
        bearing: direction at the start, clockwise from true north [rad]
        distance: length [m]
        count: number of points, at least 2

    Returns:
        longitude and latitude of each point [rad] (count, 2)
    """
    line = Geodesic.WGS84.Line(station.latitude_deg, station.longitude_deg, math.degrees(bearing))
    ends = [line.Position(float(s)) for s in np.linspace(0.0, distance, max(count, 2))]
    points = np.array([(end["lon2"], end["lat2"]) for end in ends])
    return read_only(np.radians(points))
