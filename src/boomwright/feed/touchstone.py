"""One-port impedance data as Touchstone version 1 text {touchstone-1}."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from boomwright.base import BoomwrightError
from boomwright.feed.reflection import reflection_coefficient


def touchstone_one_port(
    *,
    frequency: ArrayLike,
    impedance: ArrayLike,
    reference: float = 50.0,
    comments: tuple[str, ...] = (),
) -> str:
    """Write impedances over frequency as the text of a one-port file.

    Parameters
    ----------
    frequency
        strictly rising frequencies [Hz] (n,)
    impedance
        impedance at each [ohm] (n,)
    reference
        resistance of the reflection coefficients [ohm]

    Raises
    ------
    BoomwrightError
        when the lists do not match, do not rise or are not finite
    """
    f = np.atleast_1d(np.asarray(frequency, dtype=float))
    z = np.atleast_1d(np.asarray(impedance, dtype=complex))
    if f.shape != z.shape or f.ndim != 1 or not np.all(np.isfinite(f) & np.isfinite(z)):
        msg = (
            f"one-port file: {f.size} frequencies and {z.size} impedances; give two lists of "
            "the same length with finite numbers"
        )
        raise BoomwrightError(msg)
    if np.any(np.diff(f) <= 0.0):
        msg = "one-port file: frequencies must rise; sort them and drop doubles"
        raise BoomwrightError(msg)
    reflected = reflection_coefficient(z, reference=reference)
    top = [f"! {line}" for text in comments for line in text.splitlines()]
    rows = [
        f"{hertz:.6f} {gamma.real:.12e} {gamma.imag:.12e}"
        for hertz, gamma in zip(f, reflected, strict=True)
    ]
    return "\n".join([*top, f"# Hz S RI R {reference:g}", *rows]) + "\n"
