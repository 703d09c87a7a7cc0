"""In which country a position lies, from simplified shapes of all countries {country-shapes}."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass

#: a border nearer than this may lie on the other side of the site, and its country's rules are
#: looked at too [m]: where no border is disputed, landing places drawn into another country's
#: shape lie within 2 km of their own
NEAR_BORDER: Final = 10_000.0
#: a position in no shape belongs to the nearest shape up to here [m]: coasts are simplified and
#: small islands left out
OFFSHORE: Final = 50_000.0

#: part of a state with a two-letter code of its own -> the state whose rules it shares
STATE_OF: Final[Mapping[str, str]] = {
    "AS": "US", "GU": "US", "MP": "US", "PR": "US", "UM": "US", "VI": "US",
    "BL": "FR", "GF": "FR", "GP": "FR", "MF": "FR", "MQ": "FR", "PM": "FR", "RE": "FR", "YT": "FR",
    "AX": "FI", "BQ": "NL", "BV": "NO", "CC": "AU", "CX": "AU", "SJ": "NO", "TK": "NZ",
}  # fmt: skip

_STEPS_PER_DEGREE: Final = 1000.0
_METRES_PER_DEGREE: Final = 111_200.0


def state_of(country: str) -> str:
    """State to which a country code belongs: itself, for all but a few parts of states."""
    return STATE_OF.get(country, country)


def inside_ring(ring: NDArray[Any], points: NDArray[Any]) -> NDArray[np.bool_]:
    """Which points lie inside a closed ring, by how often a line to the east crosses it.

    Args:
        ring: longitude and latitude of its corners, the last equal to the first [deg]
            (n_corners, 2)
        points: longitude and latitude [deg] (n_points, 2)

    Returns:
        True inside [-] (n_points,)
    """
    inside = np.zeros(len(points), dtype=bool)
    low, high = ring.min(axis=0), ring.max(axis=0)
    near = np.flatnonzero(((points >= low) & (points <= high)).all(axis=1))
    x_1, y_1 = ring[:-1].T
    x_2, y_2 = ring[1:].T
    for index in near:
        x, y = points[index]
        spans = (y_1 > y) != (y_2 > y)
        at = x_1[spans] + (y - y_1[spans]) / (y_2[spans] - y_1[spans]) * (x_2 - x_1)[spans]
        inside[index] = np.count_nonzero(at > x) % 2 == 1
    return inside


@dataclass(frozen=True, slots=True, kw_only=True)
class CountryShapes:
    """Outlines of all countries; holes are rings like the others."""

    #: longitude and latitude of each closed ring [deg] (n_rings,) of (n_corners, 2)
    rings: tuple[NDArray[np.float64], ...]
    codes: tuple[str, ...]  #: two-letter code of each ring's country (n_rings,)
    #: least and greatest longitude and latitude of each ring [deg] (n_rings, 2, 2)
    boxes: NDArray[np.float64]

    @classmethod
    def unpacked(cls, arrays: Mapping[str, Any]) -> CountryShapes:
        """Undo the packing of ``data/country-shapes.npz``, which ``provenance`` in it tells."""
        starts = np.asarray(arrays["starts"])
        steps = np.asarray(arrays["steps"])
        rings = tuple(
            np.cumsum(steps[first:last], axis=0) / _STEPS_PER_DEGREE
            for first, last in pairwise(starts.tolist())
        )
        return cls(
            rings=rings,
            codes=tuple(code.decode() for code in np.asarray(arrays["codes"])),
            boxes=np.array([(ring.min(axis=0), ring.max(axis=0)) for ring in rings]),
        )

    def _boxed(self, *, longitude: float, latitude: float, within: float) -> NDArray[np.intp]:
        tall = within / _METRES_PER_DEGREE
        margin = np.array([tall / max(0.01, math.cos(math.radians(latitude))), tall])
        at = np.array([longitude, latitude])
        low, high = self.boxes[:, 0] - margin, self.boxes[:, 1] + margin
        return np.flatnonzero(((at >= low) & (at <= high)).all(axis=1))

    def inside(self, *, latitude: float, longitude: float) -> str:
        """Two-letter code of the country whose shape holds a position; empty at sea."""
        x, y = math.degrees(longitude), math.degrees(latitude)
        crossed: dict[str, bool] = {}
        for index in self._boxed(longitude=x, latitude=y, within=0.0):
            if inside_ring(self.rings[index], np.array([[x, y]]))[0]:
                code = self.codes[index]
                crossed[code] = not crossed.get(code, False)
        return next((code for code, odd in crossed.items() if odd), "")

    def around(self, *, latitude: float, longitude: float, within: float) -> dict[str, float]:
        """Countries whose outline passes near a position, nearest first.

        Args:
            within: farthest outline looked for [m]

        Returns:
            distance to the outline by country code [m]
        """
        x, y = math.degrees(longitude), math.degrees(latitude)
        scale = np.array([math.cos(latitude), 1.0]) * _METRES_PER_DEGREE
        found: dict[str, float] = {}
        for index in self._boxed(longitude=x, latitude=y, within=within):
            corners = (self.rings[index] - (x, y)) * scale
            start, along = corners[:-1], np.diff(corners, axis=0)
            square = np.maximum((along**2).sum(axis=1), 1e-12)
            part = np.clip(-(start * along).sum(axis=1) / square, 0.0, 1.0)
            away = float(np.hypot(*(start + part[:, None] * along).T).min())
            code = self.codes[index]
            if away <= min(within, found.get(code, math.inf)):
                found[code] = away
        return dict(sorted(found.items(), key=lambda pair: pair[1]))


def countries_at(shapes: CountryShapes, *, latitude: float, longitude: float) -> tuple[str, ...]:
    """Countries whose rules a position asks for: the one it lies in, then those near a border.

    Returns:
        two-letter codes; empty out at sea (n_countries,)
    """
    at = {"latitude": latitude, "longitude": longitude}
    here = shapes.inside(**at)
    near = tuple(shapes.around(**at, within=NEAR_BORDER))
    if here:
        return (here, *(code for code in near if code != here))
    return near or tuple(shapes.around(**at, within=OFFSHORE))[:1]
