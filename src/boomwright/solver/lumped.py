"""Lumped loads: coils, capacitors, resistors and traps as impedances over frequency."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SolverError
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.parts import Trap

#: stands for an ideal short circuit where an admittance is asked for [ohm]
_SHORT = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Lumped:
    """Resistor, coil and capacitor in series, or in parallel as in a trap.

    A part that is not there is None. A coil's quality factor puts a resistance of its reactance
    over that factor in series with it.

    Raises:
        SolverError: for a negative or missing value
    """

    arrangement: Literal["series", "parallel"] = "series"  #: ``series`` or ``parallel``
    resistance: float | None = None  #: resistance [ohm]
    inductance: float | None = None  #: inductance [H]
    capacitance: float | None = None  #: capacitance [F]
    quality: float = float("inf")  #: quality factor of the coil, infinite for a lossless one [-]

    def __post_init__(self) -> None:
        parts = (self.resistance, self.inductance, self.capacitance)
        if all(part is None for part in parts):
            msg = "a load needs a resistance, an inductance or a capacitance; give at least one"
            raise SolverError(msg)
        if any(part is not None and part < 0.0 for part in parts) or self.quality <= 0.0:
            msg = f"a load has a negative part in {parts} or a quality factor {self.quality} <= 0"
            raise SolverError(msg)

    @classmethod
    def of_trap(cls, trap: Trap) -> Lumped:
        """Coil and capacitor of a trap, side by side."""
        return cls(
            arrangement="parallel",
            inductance=trap.inductance,
            capacitance=trap.capacitance,
            quality=trap.quality,
        )

    def impedance(self, *, frequencies: Floats) -> Complexes:
        """Impedance of the whole load [ohm] (f,).

        Args:
            frequencies: [Hz] (f,)
        """
        angular = 2.0 * np.pi * frequencies
        parts: list[NDArray[np.complexfloating]] = []
        if self.resistance is not None:
            parts.append(np.full(len(frequencies), complex(self.resistance)))
        if self.inductance is not None:
            parts.append(angular * self.inductance * (1j + 1.0 / self.quality))
        if self.capacitance is not None:
            parts.append(1.0 / (1j * angular * max(self.capacitance, 1e-30)))
        stacked = np.stack(parts)
        if self.arrangement == "series":
            total: Complexes = stacked.sum(axis=0)
        else:
            total = 1.0 / (1.0 / np.where(stacked == 0.0, _SHORT, stacked)).sum(axis=0)
        return total
