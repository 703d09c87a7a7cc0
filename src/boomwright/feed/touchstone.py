"""An impedance over frequency as a one-port network, with its text as Touchstone 1."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import BoomwrightError, read_only
from boomwright.base.records import dataclass
from boomwright.feed.reflection import reflection_coefficient, standing_wave_ratio


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OnePort:
    """What one pair of terminals shows over frequency.

    Raises:
        BoomwrightError: when the arrays do not match, do not rise or are not finite
    """

    frequency: NDArray[np.float64]  #: strictly rising frequencies [Hz] (n,)
    impedance: NDArray[np.complex128]  #: impedance at each [ohm] (n,)
    title: str = ""  #: what it is of; its lines become comments of the file

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequency", read_only(np.atleast_1d(self.frequency)))
        object.__setattr__(self, "impedance", read_only(np.atleast_1d(self.impedance), complex))
        f, z = self.frequency, self.impedance
        if f.shape != z.shape or f.ndim != 1 or not np.all(np.isfinite(f) & np.isfinite(z)):
            raise BoomwrightError(
                f"one-port network: {f.size} frequencies and {z.size} impedances; give two lists "
                "of the same length with finite numbers"
            )
        if np.any(np.diff(f) <= 0.0):
            msg = "one-port network: frequencies must rise; sort them and drop doubles"
            raise BoomwrightError(msg)

    def reflection(self, reference: float = 50.0) -> NDArray[np.complex128]:
        """Reflection coefficient.

        Returns:
            one value a frequency [-] (n,)
        """
        return reflection_coefficient(self.impedance, reference=reference)

    def swr(self, reference: float = 50.0) -> NDArray[np.float64]:
        """Standing wave ratio.

        Returns:
            one value a frequency, infinite for a pure reactance [-] (n,)
        """
        return standing_wave_ratio(self.impedance, reference=reference)

    def touchstone(self, reference: float = 50.0) -> str:
        """Write it as the text of a one-port file {touchstone-1}.

        Args:
            reference: resistance of the reflection coefficients [ohm]
        """
        rows = [
            f"{hertz:.6f} {gamma.real:.12e} {gamma.imag:.12e}"
            for hertz, gamma in zip(self.frequency, self.reflection(reference), strict=True)
        ]
        top = [f"! {line}" for line in self.title.splitlines()]
        return "\n".join([*top, f"# Hz S RI R {reference:g}", *rows]) + "\n"
