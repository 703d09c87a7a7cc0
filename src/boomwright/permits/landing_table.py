"""The shipped table of airfields, runways and heliports {landing-places}, and a look around a site.

``tools/make_landing_places.py`` makes it; the application reads the file.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Final, get_args

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass
from boomwright.permits.airports import (
    Airport,
    AirportKind,
    Runway,
    RunwayEnd,
    geodesic_distance,
    possible_fall,
)
from boomwright.permits.findings import METRES_PER_FOOT

#: ends of the table may lie off by this at least [m]: of 14 945 runways 95 in 100 have a recorded
#: length that differs less from the distance between their ends {landing-places}
END_DOUBT: Final = 80.0
#: an end so much higher than the highest point of its landing area is an error [m]
CONTRADICTION: Final = 30.0
#: elevations of runway ends are whole feet [m]; this project's own choice
ELEVATION_DOUBT: Final = 1.0

_KINDS: Final[tuple[AirportKind, ...]] = get_args(AirportKind)
_STEPS_PER_DEGREE: Final = 100_000.0
_METRES_PER_DEGREE: Final = 111_000.0  # only for a generous box before the exact distance


def _known(value: Any) -> bool:
    return bool(value != np.iinfo(value.dtype).min)


@dataclass(frozen=True, slots=True, kw_only=True)
class LandingTable:
    """Every landing place of the table, packed."""

    #: arrays of the file by name, in the units that ``provenance`` in it tells [-] (n_arrays,)
    arrays: Mapping[str, NDArray[Any]]
    names: tuple[str, ...]  #: code and name of each place, with a tab between (n_places,)

    @classmethod
    def unpacked(cls, arrays: Mapping[str, Any]) -> LandingTable:
        """Take the arrays of ``data/landing-places.npz``."""
        held = {name: np.asarray(arrays[name]) for name in arrays}
        text = held.pop("names").tobytes().decode("utf-8")
        return cls(arrays=held, names=tuple(text.split("\n")))

    @property
    def dated(self) -> str:
        """Day of its runways and heliports."""
        return str(self.arrays["dated"])

    @property
    def dated_newer(self) -> str:
        """Day of the airfields added without runways."""
        return str(self.arrays["dated_newer"])

    def near(self, *, latitude: float, longitude: float, radius: float) -> tuple[Airport, ...]:
        """Pick the places around a site, nearest first.

        Args:
            radius: how far from the site to the reference point or to a runway end [m]
        """
        site = np.degrees((latitude, longitude)) * _STEPS_PER_DEGREE
        rows = set(self._boxed(self.arrays["position"], site=site, radius=radius).tolist())
        for ends in (self.arrays["runway_ends"][:, :2], self.arrays["runway_ends"][:, 2:]):
            runways = self._boxed(ends, site=site, radius=radius)
            rows.update(self.arrays["runway_place"][runways].tolist())
        found = []
        for row in rows:
            airport = self._airport(row)
            points = [(airport.latitude, airport.longitude)]
            points += [
                (end.latitude, end.longitude)
                for runway in airport.runways
                for end in (runway.first, runway.second)
            ]
            away = min(
                geodesic_distance(
                    latitude_1=latitude, longitude_1=longitude, latitude_2=y, longitude_2=x
                )
                for y, x in points
            )
            if away <= radius:
                found.append((away, airport.code, airport))
        return tuple(airport for _, _, airport in sorted(found, key=lambda each: each[:2]))

    @staticmethod
    def _boxed(
        points: NDArray[Any], *, site: NDArray[np.float64], radius: float
    ) -> NDArray[np.intp]:
        tall = (radius / _METRES_PER_DEGREE + 0.01) * _STEPS_PER_DEGREE
        wide = tall / max(0.01, math.cos(math.radians(site[0] / _STEPS_PER_DEGREE)))
        turn = 360.0 * _STEPS_PER_DEGREE
        gap = points.astype(np.float64) - site
        gap[:, 1] = np.abs((gap[:, 1] + turn / 2.0) % turn - turn / 2.0)
        return np.flatnonzero((np.abs(gap[:, 0]) <= tall) & (gap[:, 1] <= wide))

    def _airport(self, row: int) -> Airport:
        code, _, name = self.names[row].partition("\t")
        at = np.radians(self.arrays["position"][row] / _STEPS_PER_DEGREE)
        feet = self.arrays["elevation_ft"][row]
        elevation = float(feet) * METRES_PER_FOOT if _known(feet) else None
        first, last = np.searchsorted(self.arrays["runway_place"], (row, row + 1))
        placed, unplaced = [], []
        for index in range(first, last):
            length = float(self.arrays["runway_length_ft"][index]) * METRES_PER_FOOT
            if _known(self.arrays["runway_ends"][index, 0]):
                placed.append(self._runway(index, length=length, elevation=elevation))
            else:
                unplaced.append(length)
        return Airport(
            code=code,
            name=name,
            latitude=float(at[0]),
            longitude=float(at[1]),
            elevation=elevation,
            kind=_KINDS[int(self.arrays["kind"][row])],
            country=self.arrays["country"][row].decode(),
            runways=tuple(placed),
            unplaced=tuple(unplaced),
            dated=self.dated_newer if self.arrays["newer"][row] else self.dated,
        )

    def _runway(self, index: int, *, length: float, elevation: float | None) -> Runway:
        ends = np.radians(self.arrays["runway_ends"][index] / _STEPS_PER_DEGREE)
        feet = self.arrays["runway_elevations_ft"][index]
        surveyed = _known(feet[0]) and _known(feet[1])
        if surveyed and elevation is not None:
            # No end lies above the highest point of the landing area: of two figures that
            # contradict each other the lower one is taken.
            surveyed = float(feet.max()) * METRES_PER_FOOT <= elevation + CONTRADICTION
        first, second = (
            RunwayEnd(
                latitude=float(ends[2 * i]),
                longitude=float(ends[2 * i + 1]),
                elevation=float(feet[i]) * METRES_PER_FOOT if surveyed else elevation,
            )
            for i in range(2)
        )
        span = Runway(first=first, second=second).length
        return Runway(
            first=first,
            second=second,
            recorded_length=length,
            doubt=max(END_DOUBT, abs(span - length) if length else 0.0),
            elevation_doubt=ELEVATION_DOUBT if surveyed else possible_fall(max(span, length)),
        )
