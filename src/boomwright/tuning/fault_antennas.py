"""Antennas with a fault in their metal, solved, and how they change with small errors."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LinearAntenna:
    """Impedance of an antenna and its slopes.

    Parameters
    ----------
    text
        what is wrong with it, in words
    frequencies
        frequencies [Hz] (f,)
    impedance
        feed-point impedance [ohm] (f,)
    keys
        changes it has slopes for: ``tip.N`` and ``height`` (n,)
    slopes
        change of the impedance [ohm/m] (n, f)
    """

    text: str
    frequencies: Floats
    impedance: Complexes
    keys: tuple[str, ...]
    slopes: Complexes

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))
        object.__setattr__(self, "slopes", read_only(self.slopes, complex))

    def at(self, *, frequencies: Floats) -> LinearAntenna:
        """The same at other frequencies, by cubic splines.

        Parameters
        ----------
        frequencies
            frequencies within its range [Hz] (f,)
        """
        return replace(
            self,
            frequencies=frequencies,
            impedance=splined(self.frequencies, self.impedance, frequencies),
            slopes=splined(self.frequencies, self.slopes.T, frequencies).T,
        )

    def changed(self, changes: Mapping[str, float]) -> Complexes:
        """Impedance after some changes; those it has no slopes for are left out.

        Parameters
        ----------
        changes
            amounts by key [m]

        Returns
        -------
        NDArray
            impedance [ohm] (f,)
        """
        amounts = np.array([changes.get(key, 0.0) for key in self.keys])
        found: Complexes = self.impedance + amounts @ self.slopes
        # A change too large for the slopes must not turn the antenna into a generator.
        kept: Complexes = np.maximum(found.real, 0.5) + 1j * found.imag
        return kept


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidFamily:
    """What the outside of the line adds at the feed, for many lengths of it.

    Parameters
    ----------
    lengths
        lengths of braid, Chebyshev nodes with both ends [m] (k,)
    frequencies
        frequencies [Hz] (f,)
    admittance
        admittance added across the feed [S] (k, f)
    """

    lengths: Floats
    frequencies: Floats
    admittance: Complexes

    def __post_init__(self) -> None:
        object.__setattr__(self, "lengths", read_only(self.lengths))
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "admittance", read_only(self.admittance, complex))

    def at(self, *, frequencies: Floats) -> BraidFamily:
        """The same at other frequencies, by cubic splines.

        Parameters
        ----------
        frequencies
            frequencies within its range [Hz] (f,)
        """
        values = splined(self.frequencies, self.admittance.T, frequencies).T
        return replace(self, frequencies=frequencies, admittance=values)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultAntennas:
    """All computed antennas of one installation.

    Parameters
    ----------
    plain
        the antenna without a fault
    loose
        with one element that lost contact
    reordered
        with two parasitic elements in each other's place
    braid
        what a braid adds
    """

    plain: LinearAntenna
    loose: tuple[LinearAntenna, ...]
    reordered: tuple[LinearAntenna, ...]
    braid: BraidFamily


def splined(at: Floats, values: Complexes, wanted: Floats) -> Complexes:
    """Interpolate along the first axis by a cubic spline.

    Parameters
    ----------
    at
        rising places (n,)
    values
        values there (n, ...)
    wanted
        places wanted (m,)
    """
    from scipy.interpolate import CubicSpline  # slow to import, only needed here

    found: Complexes = CubicSpline(at, values, axis=0)(wanted)
    return found
