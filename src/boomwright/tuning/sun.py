"""Where the sun stands, to align a rotator by its noise or its shadow.

Low-precision series of the almanac, good to about 0.01 degrees between 1950 and 2050
{astronomical-almanac}; refraction is left out, so low suns stand up to half a degree higher.
"""

from __future__ import annotations

import math

from boomwright.base.days import day_number
from boomwright.base.records import dataclass

#: day number of 2000-01-01, on whose noon the series begin
_EPOCH = day_number("2000-01-01")


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPlace:
    """Where the sun stands."""

    azimuth: float  #: clockwise from true north [rad]
    elevation: float  #: above the horizon, without refraction [rad]


def sun_place(*, day: str, utc_hours: float, latitude: float, longitude: float) -> SunPlace:
    """Place of the sun in the sky.

    Args:
        day: day in universal time, ``2026-01-31``
        utc_hours: universal time of day [h]

    Returns:
        azimuth and elevation {astronomical-almanac}
    """
    days = day_number(day) - _EPOCH + (utc_hours - 12.0) / 24.0
    mean_longitude = math.radians((280.460 + 0.9856474 * days) % 360.0)
    anomaly = math.radians((357.528 + 0.9856003 * days) % 360.0)
    along = mean_longitude + math.radians(
        1.915 * math.sin(anomaly) + 0.020 * math.sin(2.0 * anomaly)
    )
    tilt = math.radians(23.439 - 0.0000004 * days)
    ascension = math.atan2(math.cos(tilt) * math.sin(along), math.cos(along))
    declination = math.asin(math.sin(tilt) * math.sin(along))
    sidereal = math.radians((18.697374558 + 24.06570982441908 * days) % 24.0 * 15.0)
    hour_angle = sidereal + longitude - ascension
    elevation = math.asin(
        math.sin(latitude) * math.sin(declination)
        + math.cos(latitude) * math.cos(declination) * math.cos(hour_angle)
    )
    azimuth = math.atan2(
        -math.sin(hour_angle),
        math.tan(declination) * math.cos(latitude) - math.sin(latitude) * math.cos(hour_angle),
    )
    return SunPlace(azimuth=azimuth % (2.0 * math.pi), elevation=elevation)
