"""Cubic spline through complex values.

SciPy has one; to load it takes longer than to solve a match.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spline:
    """A cubic between each two places, with two continuous derivatives."""

    places: Floats  #: rising (n,)
    values: Complexes  #: value at each (n,)
    slopes: Complexes  #: derivative at each (n,)

    def at(self, place: ArrayLike) -> Complexes:
        """Values at other places; beyond the ends the outermost cubics go on.

        Args:
            place: where, in the unit of the spline's own places [any unit] (n,)
        """
        first, share, width = self._where(place)
        low, high = self.values[first], self.values[first + 1]
        left, right = width * self.slopes[first], width * self.slopes[first + 1]
        bent, swung = 3.0 * (high - low) - 2.0 * left - right, left + right - 2.0 * (high - low)
        found: Complexes = low + share * (left + share * (bent + share * swung))
        return found

    def slope(self, place: ArrayLike) -> Complexes:
        """Derivative at other places.

        Args:
            place: where, in the unit of the spline's own places [any unit] (n,)
        """
        first, share, width = self._where(place)
        rise = self.values[first + 1] - self.values[first]
        left, right = width * self.slopes[first], width * self.slopes[first + 1]
        bent, swung = 3.0 * rise - 2.0 * left - right, left + right - 2.0 * rise
        found: Complexes = (left + share * (2.0 * bent + 3.0 * share * swung)) / width
        return found

    def _where(self, place: ArrayLike) -> tuple[NDArray[np.int64], Floats, Floats]:
        at = np.asarray(place, dtype=float)
        last = len(self.places) - 2
        first = np.clip(np.searchsorted(self.places, at, side="right") - 1, 0, last)
        width = np.diff(self.places)[first]
        return first, (at - self.places[first]) / width, width


def spline_through(*, places: Floats, values: ArrayLike) -> Spline:
    """The spline whose first two and last two cubics are one each.

    Args:
        places: rising, at least 2; of 3 it is a parabola, of 2 a line (n,)
        values: value at each [any unit] (n,)
    """
    known = np.asarray(values, dtype=complex)
    step = np.diff(places)
    rise = np.diff(known) / step
    count = len(places)
    if count == 2:
        return Spline(places=places, values=known, slopes=np.repeat(rise, 2))
    if count == 3:
        bend = (rise[1] - rise[0]) / (step[0] + step[1])
        three = [rise[0] - bend * step[0], rise[0] + bend * step[0], rise[1] + bend * step[1]]
        return Spline(places=places, values=known, slopes=np.array(three, dtype=np.complex128))
    matrix, right = np.zeros((count, count)), np.empty(count, dtype=complex)
    inner = np.arange(1, count - 1)
    matrix[inner, inner - 1], matrix[inner, inner + 1] = step[1:], step[:-1]
    matrix[inner, inner] = 2.0 * (step[:-1] + step[1:])
    right[1:-1] = 3.0 * (step[1:] * rise[:-1] + step[:-1] * rise[1:])
    for row, beside, (own, next_one), (near, far) in (
        (0, 1, step[:2], rise[:2]),
        (-1, -2, step[:-3:-1], rise[:-3:-1]),
    ):
        both = own + next_one
        matrix[row, row], matrix[row, beside] = next_one, both
        right[row] = ((own + 2.0 * both) * next_one * near + own**2 * far) / both
    slopes: Complexes = np.linalg.solve(matrix.astype(complex), right)
    return Spline(places=places, values=known, slopes=slopes)
