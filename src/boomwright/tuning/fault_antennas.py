"""Antennas with a fault in their metal, solved, and how they change with small errors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.base.quantity import Value

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearAntenna:
    """Impedance of an antenna and its slopes."""

    text: Value  #: what is wrong with it, in words
    frequencies: Floats  #: frequencies [Hz] (f,)
    impedance: Complexes  #: feed-point impedance [ohm] (f,)
    keys: tuple[str, ...]  #: changes it has slopes for: ``tip.N`` and ``height`` (n,)
    slopes: Complexes  #: change of the impedance [ohm/m] (n, f)

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))
        object.__setattr__(self, "slopes", read_only(self.slopes, complex))

    def at(self, *, frequencies: Floats) -> LinearAntenna:
        """The same at other frequencies, by cubic splines.

        Args:
            frequencies: frequencies within its range [Hz] (f,)
        """
        return replace(
            self,
            frequencies=frequencies,
            impedance=splined(self.frequencies, self.impedance, frequencies),
            slopes=splined(self.frequencies, self.slopes.T, frequencies).T,
        )

    def changed(self, changes: Mapping[str, float]) -> Complexes:
        """Impedance after some changes; those it has no slopes for are left out [ohm] (f,).

        Args:
            changes: amounts by key [m]
        """
        amounts = np.array([changes.get(key, 0.0) for key in self.keys])
        found: Complexes = self.impedance + amounts @ self.slopes
        # A change too large for the slopes must not turn the antenna into a generator.
        kept: Complexes = np.maximum(found.real, 0.5) + 1j * found.imag
        return kept


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidFamily:
    """What the outside of the line adds at the feed, for many lengths of it."""

    lengths: Floats  #: lengths of braid, Chebyshev nodes with both ends [m] (k,)
    frequencies: Floats  #: frequencies [Hz] (f,)
    admittance: Complexes  #: admittance added across the feed [S] (k, f)

    def __post_init__(self) -> None:
        object.__setattr__(self, "lengths", read_only(self.lengths))
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "admittance", read_only(self.admittance, complex))

    def at(self, *, frequencies: Floats) -> BraidFamily:
        """The same at other frequencies, by cubic splines.

        Args:
            frequencies: frequencies within its range [Hz] (f,)
        """
        values = splined(self.frequencies, self.admittance.T, frequencies).T
        return replace(self, frequencies=frequencies, admittance=values)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultAntennas:
    """All computed antennas of one installation."""

    plain: LinearAntenna  #: the antenna without a fault
    loose: tuple[LinearAntenna, ...]  #: with one element that lost contact
    reordered: tuple[LinearAntenna, ...]  #: with two parasitic elements in each other's place
    braid: BraidFamily  #: what a braid adds


def splined(at: Floats, values: Complexes, wanted: Floats) -> Complexes:
    """Interpolate along the first axis by a cubic spline.

    Args:
        at: rising places (n,)
        values: values there (n, ...)
        wanted: places wanted (m,)
    """
    from scipy.interpolate import CubicSpline  # slow to import, only needed here

    found: Complexes = CubicSpline(at, values, axis=0)(wanted)
    return found
