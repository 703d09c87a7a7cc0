"""Airports, runways, and how far a site is from the nearest runway point.

Distances are geodesics on the WGS 84 ellipsoid {karney-2013}.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal

from geographiclib.geodesic import Geodesic

from boomwright.permits.findings import METRES_PER_FOOT

AirportKind = Literal["airport", "heliport"]

_METRES_PER_DEGREE: Final = 111_000.0  # only for a generous box before the exact distance


@dataclass(frozen=True, slots=True, kw_only=True)
class RunwayEnd:
    """One end of a runway.

    Parameters
    ----------
    latitude
        north positive [rad]
    longitude
        east positive [rad]
    elevation
        above mean sea level [m]
    """

    latitude: float
    longitude: float
    elevation: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Runway:
    """A runway as a straight line between its ends.

    Parameters
    ----------
    second
        other end
    """

    first: RunwayEnd
    second: RunwayEnd

    @property
    def length(self) -> float:
        """Distance between the ends [m]."""
        return geodesic_distance(
            latitude_1=self.first.latitude,
            longitude_1=self.first.longitude,
            latitude_2=self.second.latitude,
            longitude_2=self.second.longitude,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Airport:
    """An airport or heliport; runways are empty when nobody entered them.

    Parameters
    ----------
    code
        location identifier
    latitude
        reference point, north positive [rad]
    longitude
        reference point, east positive [rad]
    elevation
        highest point of the landing area above mean sea level [m]
    kind
        ``airport`` or ``heliport``
    country
        two-letter country code, or empty
    runways
        runways with their ends, when known (n_runways,)
    """

    code: str
    name: str
    latitude: float
    longitude: float
    elevation: float
    kind: AirportKind = "airport"
    country: str = ""
    runways: tuple[Runway, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestPoint:
    """Nearest point of a landing area, seen from the site.

    Parameters
    ----------
    distance
        horizontal distance [m]
    elevation
        elevation of that point above mean sea level [m]
    exact
        True when it comes from entered runway ends, False from the reference point
    """

    distance: float
    elevation: float
    exact: bool


def geodesic_distance(
    *, latitude_1: float, longitude_1: float, latitude_2: float, longitude_2: float
) -> float:
    """Shortest distance over the ellipsoid {karney-2013}.

    Parameters
    ----------
    latitude_1
        first point, north positive [rad]
    longitude_1
        first point, east positive [rad]
    latitude_2
        second point, north positive [rad]
    longitude_2
        second point, east positive [rad]

    Returns
    -------
    float
        distance [m]
    """
    line = Geodesic.WGS84.Inverse(
        math.degrees(latitude_1),
        math.degrees(longitude_1),
        math.degrees(latitude_2),
        math.degrees(longitude_2),
        Geodesic.DISTANCE,
    )
    return float(line["s12"])


def _plane_point(*, latitude: float, longitude: float, end: RunwayEnd) -> tuple[float, float]:
    line = Geodesic.WGS84.Inverse(
        math.degrees(latitude),
        math.degrees(longitude),
        math.degrees(end.latitude),
        math.degrees(end.longitude),
    )
    azimuth = math.radians(line["azi1"])
    return line["s12"] * math.sin(azimuth), line["s12"] * math.cos(azimuth)


def _nearest_on_runway(*, latitude: float, longitude: float, runway: Runway) -> NearestPoint:
    # Azimuthal equidistant about the site: distances from the site are exact and the runway
    # stays straight to millimetres over the few kilometres that matter here.
    x_1, y_1 = _plane_point(latitude=latitude, longitude=longitude, end=runway.first)
    x_2, y_2 = _plane_point(latitude=latitude, longitude=longitude, end=runway.second)
    along_x, along_y = x_2 - x_1, y_2 - y_1
    square = along_x**2 + along_y**2
    part = 0.0 if square == 0.0 else -(x_1 * along_x + y_1 * along_y) / square
    part = min(1.0, max(0.0, part))
    rise = runway.second.elevation - runway.first.elevation
    return NearestPoint(
        distance=math.hypot(x_1 + part * along_x, y_1 + part * along_y),
        elevation=runway.first.elevation + part * rise,
        exact=True,
    )


def nearest_points(
    airport: Airport, *, latitude: float, longitude: float
) -> tuple[NearestPoint, ...]:
    """Nearest point of every runway, or the reference point when no runway is known.

    Parameters
    ----------
    latitude
        site, north positive [rad]
    longitude
        site, east positive [rad]
    """
    if airport.runways:
        points = [
            _nearest_on_runway(latitude=latitude, longitude=longitude, runway=runway)
            for runway in airport.runways
        ]
        return tuple(sorted(points, key=lambda point: point.distance))
    distance = geodesic_distance(
        latitude_1=latitude,
        longitude_1=longitude,
        latitude_2=airport.latitude,
        longitude_2=airport.longitude,
    )
    return (NearestPoint(distance=distance, elevation=airport.elevation, exact=False),)


def airports_near(
    rows: Iterable[Mapping[str, Any]],
    *,
    latitude: float,
    longitude: float,
    radius: float = 20_000.0,
) -> tuple[Airport, ...]:
    """Pick the airports around a site out of a table of airports.

    Parameters
    ----------
    rows
        mappings with ``icao``, ``name``, ``country``, ``lat`` and ``lon`` in degrees and
        ``elevation`` in feet, as in {airports-table}
    latitude
        site, north positive [rad]
    longitude
        site, east positive [rad]
    radius
        how far from the site to the reference point [m]

    Returns
    -------
    tuple[Airport, ...]
        airports within the radius, nearest first; runways are unknown in such a table
    """
    site_lat, site_lon = math.degrees(latitude), math.degrees(longitude)
    lat_span = radius / _METRES_PER_DEGREE + 0.01
    lon_span = min(180.0, lat_span / max(0.01, math.cos(latitude)))
    found: list[tuple[float, Airport]] = []
    for row in rows:
        lon_gap = abs((row["lon"] - site_lon + 180.0) % 360.0 - 180.0)
        if abs(row["lat"] - site_lat) > lat_span or lon_gap > lon_span:
            continue
        airport = Airport(
            code=str(row["icao"]),
            name=str(row["name"]),
            latitude=math.radians(row["lat"]),
            longitude=math.radians(row["lon"]),
            elevation=float(row["elevation"]) * METRES_PER_FOOT,
            kind="heliport" if "heliport" in str(row["name"]).lower() else "airport",
            country=str(row.get("country", "")),
        )
        point = nearest_points(airport, latitude=latitude, longitude=longitude)[0]
        if point.distance <= radius:
            found.append((point.distance, airport))
    return tuple(airport for _, airport in sorted(found, key=lambda pair: pair[0]))
