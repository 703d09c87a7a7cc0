"""Airfields, runways and heliports, and how near a landing area can lie to a site.

Distances are geodesics on the WGS 84 ellipsoid {karney-2013}. Runway ends decide; where no table
holds them, a runway is taken to reach as far from its airfield's reference point as runways do.
"""

from __future__ import annotations

import math
from typing import Final, Literal

from geographiclib.geodesic import Geodesic

from boomwright.base.records import dataclass, replace

AirportKind = Literal["airport", "heliport", "seaplane base"]

#: a runway without known ends reaches its length and this from the reference point [m]; of 10 579
#: airfields 99.3 % keep it, and most of the rest are errors of the table {landing-places}
BEYOND_LENGTH: Final = 2000.0
#: and a runway of unknown length this far [m]: the longest keep it too {landing-places}
UNKNOWN_REACH: Final = 8000.0
#: what a pad may reach, or lie off its point, in any direction [m]; this project's own choice
PAD_REACH: Final = 100.0
#: length for which a runway's slope is reckoned where its length is unknown [m]
_USUAL_LENGTH: Final = 1600.0
#: the listed elevation is that of the highest point of the landing area; 95 in 100 runways have
#: no end lower than this part of their length below it [-] {landing-places}
FALL_OF_LENGTH: Final = 0.0125
#: two ends nearer than this to those of another runway are the same runway [m]
SAME_RUNWAY: Final = 600.0
#: a length within this part of another may be the same runway [-]
_SAME_LENGTH: Final = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class RunwayEnd:
    """One end of a runway."""

    latitude: float  #: north positive [rad]
    longitude: float  #: east positive [rad]
    elevation: float | None  #: above mean sea level; None when unknown [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Runway:
    """A runway as a straight line between its ends."""

    first: RunwayEnd
    second: RunwayEnd
    recorded_length: float = 0.0  #: length in the table, 0 when none is recorded [m]
    doubt: float = 0.0  #: how far the ends may lie off; 0 for ends that the owner entered [m]
    elevation_doubt: float = 0.0  #: how far below the stated elevations the runway may lie [m]

    @property
    def length(self) -> float:
        """Greater of the recorded length and the distance between the ends [m]."""
        return max(self.recorded_length, _apart(self.first, self.second))


@dataclass(frozen=True, slots=True, kw_only=True)
class Airport:
    """An airfield, heliport or seaplane base."""

    code: str  #: location identifier
    name: str
    latitude: float  #: reference point, north positive [rad]
    longitude: float  #: reference point, east positive [rad]
    #: highest point of the landing area above mean sea level; None when unknown [m]
    elevation: float | None
    kind: AirportKind = "airport"  #: ``airport``, ``heliport`` or ``seaplane base``
    country: str = ""  #: two-letter country code, or empty
    runways: tuple[Runway, ...] = ()  #: runways whose ends are known (n_runways,)
    #: lengths of runways whose ends are not known, 0 for an unknown length [m] (n_unplaced,)
    unplaced: tuple[float, ...] = ()
    dated: str = ""  #: day of the table it stands in; empty when the owner entered it

    @property
    def open_lengths(self) -> tuple[float, ...]:
        """Runways whose ends are not known [m]: one of unknown length where none is recorded."""
        if self.kind == "heliport":
            return ()
        return self.unplaced or (() if self.runways else (0.0,))

    @property
    def longest(self) -> float:
        """Longest runway known, 0 when no length is [m]."""
        lengths = [runway.length for runway in self.runways]
        return max([*lengths, *self.unplaced], default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestPoint:
    """Nearest point of a landing area, seen from the site."""

    distance: float  #: horizontal distance as the figures have it [m]
    least: float  #: horizontal distance that it may come down to [m]
    elevation: float | None  #: elevation of that point above mean sea level; None when unknown [m]
    elevation_doubt: float  #: how far below that it may lie [m]
    known: Literal["entered ends", "ends of the table", "reference point"]  #: where it comes from


def runway_reach(length: float) -> float:
    """How far from the reference point a runway without known ends may reach.

    Args:
        length: recorded length, 0 when none is [m]

    Returns:
        farthest end from the reference point [m]
    """
    return length + BEYOND_LENGTH if length else UNKNOWN_REACH


def possible_fall(length: float) -> float:
    """How far below the listed elevation a runway's nearest point may lie.

    Args:
        length: length of the runway, 0 when unknown [m]

    Returns:
        greatest difference reckoned with [m]
    """
    return FALL_OF_LENGTH * (length or _USUAL_LENGTH)


def geodesic_distance(
    *, latitude_1: float, longitude_1: float, latitude_2: float, longitude_2: float
) -> float:
    """Shortest distance over the ellipsoid {karney-2013} [m].

    Args:
        latitude_1: first point, north positive [rad]
        longitude_1: first point, east positive [rad]
        latitude_2: second point, north positive [rad]
        longitude_2: second point, east positive [rad]
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


def _apart(first: RunwayEnd, second: RunwayEnd) -> float:
    return geodesic_distance(
        latitude_1=first.latitude,
        longitude_1=first.longitude,
        latitude_2=second.latitude,
        longitude_2=second.longitude,
    )


def _nearest_on_runway(*, latitude: float, longitude: float, runway: Runway) -> NearestPoint:
    # Azimuthal equidistant about the site: distances from the site are exact and the runway
    # stays straight to millimetres over the few kilometres that matter here.
    x_1, y_1 = _plane_point(latitude=latitude, longitude=longitude, end=runway.first)
    x_2, y_2 = _plane_point(latitude=latitude, longitude=longitude, end=runway.second)
    along_x, along_y = x_2 - x_1, y_2 - y_1
    square = along_x**2 + along_y**2
    part = 0.0 if square == 0.0 else -(x_1 * along_x + y_1 * along_y) / square
    part = min(1.0, max(0.0, part))
    start, end = runway.first.elevation, runway.second.elevation
    distance = math.hypot(x_1 + part * along_x, y_1 + part * along_y)
    return NearestPoint(
        distance=distance,
        least=max(0.0, distance - runway.doubt),
        elevation=None if start is None or end is None else start + part * (end - start),
        elevation_doubt=runway.elevation_doubt,
        known="ends of the table" if runway.doubt else "entered ends",
    )


def nearest_points(
    airport: Airport, *, latitude: float, longitude: float
) -> tuple[NearestPoint, ...]:
    """Nearest point of every runway, nearest first; of a heliport the pad."""
    points = [
        _nearest_on_runway(latitude=latitude, longitude=longitude, runway=runway)
        for runway in airport.runways
    ]
    distance = geodesic_distance(
        latitude_1=latitude,
        longitude_1=longitude,
        latitude_2=airport.latitude,
        longitude_2=airport.longitude,
    )
    reaches = [(runway_reach(length), possible_fall(length)) for length in airport.open_lengths]
    if airport.kind == "heliport" and not airport.runways:
        reaches = [(PAD_REACH, 0.0)]
    points += [
        NearestPoint(
            distance=distance,
            least=max(0.0, distance - reach),
            elevation=airport.elevation,
            elevation_doubt=fall,
            known="reference point",
        )
        for reach, fall in reaches
    ]
    return tuple(sorted(points, key=lambda point: point.least))


def _same_runway(one: Runway, other: Runway) -> bool:
    straight = max(_apart(one.first, other.first), _apart(one.second, other.second))
    turned = max(_apart(one.first, other.second), _apart(one.second, other.first))
    return min(straight, turned) <= SAME_RUNWAY


def with_entered_runways(airport: Airport, entered: tuple[Runway, ...]) -> Airport:
    """Put runways that the owner entered in place of the table's; the table's others stay.

    An entered runway takes the place of one whose ends lie near its own, or else of one without
    known ends whose length, if recorded, is like its own.
    """
    if not entered:
        return airport
    kept = tuple(
        runway
        for runway in airport.runways
        if not any(_same_runway(runway, own) for own in entered)
    )
    unplaced = list(airport.open_lengths)
    for own in entered:
        if any(_same_runway(runway, own) for runway in airport.runways):
            continue
        like = [
            length
            for length in unplaced
            if not length or abs(length - own.length) <= _SAME_LENGTH * length
        ]
        if like:
            unplaced.remove(max(like))
    return replace(airport, runways=(*entered, *kept), unplaced=tuple(unplaced))
