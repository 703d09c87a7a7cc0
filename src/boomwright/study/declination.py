"""From true north to a compass: magnetic declination of the World Magnetic Model {wmm-2025}."""

from __future__ import annotations

import math

from boomwright.base.days import day_number
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Declination:
    """How far magnetic north lies from true north at a place on a day."""

    angle: float  #: declination, east positive [rad]
    error: float  #: the model's own half width at one standard deviation [rad]
    model: str  #: name of the model
    day: str

    def compass(self, heading: float) -> float:
        """Compass bearing of a true heading.

        Args:
            heading: clockwise from true north [rad]

        Returns:
            clockwise from magnetic north, from 0 to 2 pi [rad]
        """
        return (heading - self.angle) % (2.0 * math.pi)


def middle_of_model() -> str:
    """Find the day in the middle of the years that the model holds."""
    from pygeomag import GeoMag

    first, last = GeoMag().life_span
    middle = 0.5 * (first + last)
    month = 1 + math.floor(12.0 * (middle % 1.0))
    return f"{math.floor(middle):04d}-{month:02d}-01"


def declination(
    *, latitude: float, longitude: float, day: str, elevation: float = 0.0
) -> Declination | None:
    """Compute the declination.

    Args:
        elevation: above mean sea level [m]

    Returns:
        None when the model does not hold on that day: it is made anew every five years
    """
    from pygeomag import GeoMag

    model = GeoMag()
    year = int(day[:4])
    days = day_number(f"{year + 1}-01-01") - day_number(f"{year}-01-01")
    moment = year + (day_number(day) - day_number(f"{year}-01-01")) / days
    first, last = model.life_span
    if not first <= moment < last:
        return None
    found = model.calculate(
        glat=math.degrees(latitude),
        glon=math.degrees(longitude),
        alt=elevation / 1000.0,
        time=moment,
    )
    return Declination(
        angle=math.radians(found.d),
        error=math.radians(found.calculate_uncertainty().d),
        model=str(model.model),
        day=day,
    )
