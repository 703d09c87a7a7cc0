"""The pieces a matching network is made of, each a two-port between radio and antenna.

Chain (ABCD) matrices, first row voltage, second current: {pozar-2012, table 4.1}.
"""

from __future__ import annotations

import math
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass

Complex = NDArray[np.complex128]
End = Literal["open", "short"]


Entries = tuple[ArrayLike, ArrayLike, ArrayLike, ArrayLike]


def _series(impedance: ArrayLike) -> Entries:
    return 1.0, impedance, 0.0, 1.0


def _shunt(admittance: ArrayLike) -> Entries:
    return 1.0, 0.0, admittance, 1.0


class _Piece:
    """A two-port."""

    __slots__ = ()

    def chain(self, frequency: ArrayLike) -> Complex:
        """Chain matrix, mixed units [V/V, ohm, S, A/A] (n, 2, 2).

        Args:
            frequency: [Hz] (n,)
        """
        entries = self._entries(2.0 * math.pi * np.asarray(frequency, dtype=float))
        broad = np.broadcast_arrays(*(np.asarray(x, dtype=complex) for x in entries))
        return np.stack(broad, axis=-1).reshape(*broad[0].shape, 2, 2)

    def behind(self, *, load: Complex, frequency: ArrayLike) -> tuple[Complex, Complex]:
        """Impedance seen before a load, and how its slope with the load falls.

        Args:
            load: impedance at its end [ohm] (..., n)
            frequency: [Hz] (n,)

        Returns:
            impedance seen [ohm] (..., n)
            root of load's small change over that of what is seen [-] (..., n)
        """
        a, b, c, d = self._entries(2.0 * math.pi * np.asarray(frequency, dtype=float))
        below = c * load + d
        # A reciprocal piece: its chain matrix has determinant 1.
        return (a * load + b) / below, below

    def _entries(self, omega: Floats) -> Any:
        """Entries of the chain matrix, row by row, as far as they differ over frequency."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesInductor(_Piece):
    """A coil in series."""

    inductance: float  #: inductance [H]

    def _entries(self, omega: Floats) -> Entries:
        return _series(1j * omega * self.inductance)


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesCapacitor(_Piece):
    """A capacitor in series."""

    capacitance: float  #: capacitance [F]

    def _entries(self, omega: Floats) -> Entries:
        return _series(1.0 / (1j * omega * self.capacitance))


@dataclass(frozen=True, slots=True, kw_only=True)
class ShuntInductor(_Piece):
    """A coil across the line."""

    inductance: float  #: inductance [H]

    def _entries(self, omega: Floats) -> Entries:
        return _shunt(1.0 / (1j * omega * self.inductance))


@dataclass(frozen=True, slots=True, kw_only=True)
class ShuntCapacitor(_Piece):
    """A capacitor across the line."""

    capacitance: float  #: capacitance [F]

    def _entries(self, omega: Floats) -> Entries:
        return _shunt(1j * omega * self.capacitance)


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementTrim(_Piece):
    """Reactance that the driven element gets from a change of its length, alike over the band."""

    reactance: float  #: change of the reactance, negative for a shorter element [ohm]

    def _entries(self, omega: Floats) -> Entries:
        return _series(np.full(np.shape(omega), 1j * self.reactance))


@dataclass(frozen=True, slots=True, kw_only=True)
class LineSection(_Piece):
    """A loss-free length of line."""

    impedance: float  #: characteristic impedance [ohm]
    length: float  #: physical length [m]
    velocity_factor: float = 1.0  #: speed on the line over that of light [-]

    def _entries(self, omega: Floats) -> Entries:
        angle = omega * self.length / (SPEED_OF_LIGHT * self.velocity_factor)
        cosine, sine = np.cos(angle), np.sin(angle)
        return cosine, 1j * self.impedance * sine, 1j * sine / self.impedance, cosine


@dataclass(frozen=True, slots=True, kw_only=True)
class ShuntStub(_Piece):
    """A loss-free stub of line across the line."""

    impedance: float  #: characteristic impedance of the stub [ohm]
    length: float  #: physical length [m]
    end: End  #: ``open`` or ``short``
    velocity_factor: float = 1.0  #: speed on the stub over that of light [-]

    def _entries(self, omega: Floats) -> Entries:
        angle = omega * self.length / (SPEED_OF_LIGHT * self.velocity_factor)
        tangent = np.tan(angle)
        admittance = 1j * tangent if self.end == "open" else -1j / tangent
        return _shunt(admittance / self.impedance)


@dataclass(frozen=True, slots=True, kw_only=True)
class Transformer(_Piece):
    """An ideal step of impedance: what is seen is ``ratio`` times the load."""

    ratio: float  #: impedance seen over load impedance, above 0 [-]
    label: str  #: what makes the step

    def _entries(self, omega: Floats) -> Entries:
        turns = math.sqrt(self.ratio)
        return turns * np.ones(np.shape(omega)), 0.0, 0.0, 1.0 / turns


Stage = (
    SeriesInductor
    | SeriesCapacitor
    | ShuntInductor
    | ShuntCapacitor
    | ElementTrim
    | LineSection
    | ShuntStub
    | Transformer
)


def series_reactance(*, reactance: float, frequency: float) -> SeriesInductor | SeriesCapacitor:
    """Make the coil or capacitor that has a reactance, for use in series.

    Args:
        reactance: reactance, not 0 [ohm]
    """
    omega = 2.0 * math.pi * frequency
    if reactance > 0.0:
        return SeriesInductor(inductance=reactance / omega)
    return SeriesCapacitor(capacitance=-1.0 / (omega * reactance))


def shunt_susceptance(*, susceptance: float, frequency: float) -> ShuntInductor | ShuntCapacitor:
    """Make the coil or capacitor that has a susceptance, for use across the line.

    Args:
        susceptance: susceptance, positive for a capacitor, not 0 [S]
    """
    omega = 2.0 * math.pi * frequency
    if susceptance > 0.0:
        return ShuntCapacitor(capacitance=susceptance / omega)
    return ShuntInductor(inductance=-1.0 / (omega * susceptance))
