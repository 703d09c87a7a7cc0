"""How far each figure may be off, by a finer solution and the edges of what is known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: the finer solution is itself off a little; chosen on random beams so that the band covers
#: more than 95 % of them (docs/benchmarks/error_calibration.md)
_SAFETY = 1.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figures:
    """The plain figures of a beam over frequency."""

    frequencies: Floats  #: frequencies [Hz] (f,)
    impedance: Complexes  #: feed-point impedance [ohm] (f,)
    gain_dbi: Floats  #: gain towards the heading [dBi] (f,)
    front_to_back_db: Floats  #: front-to-back ratio [dB] (f,)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ErrorBand:
    """Half widths of the bands at some frequencies."""

    impedance: Floats  #: of the impedance, as a modulus [ohm] (f,)
    swr: Floats  #: of the standing wave ratio (f,)
    gain_db: Floats  #: of the gain [dB] (f,)
    front_to_back_db: Floats  #: of the front-to-back ratio [dB] (f,)


def standing_wave_ratio(*, impedance: Complexes, reference: float) -> Floats:
    """Standing wave ratio of a load {ieee-145}.

    Parameters
    ----------
    impedance
        load impedance [ohm] (any shape)
    reference
        real reference resistance [ohm]
    """
    reflection = np.abs((impedance - reference) / (impedance + reference))
    reflection = np.minimum(reflection, 0.998)
    ratio: Floats = (1.0 + reflection) / (1.0 - reflection)
    return ratio


def error_band(
    *,
    figures: Figures,
    finer: Figures,
    edges: tuple[Figures, ...] = (),
    shunt: float = 0.0,
    frequencies: Floats,
    impedance: Complexes,
    reference: float,
) -> ErrorBand:
    """Bands at all frequencies from the differences at the few that were solved twice.

    Each cause counts in full: they need not be independent.

    Parameters
    ----------
    edges
        figures at the edges of what is known of the antenna, one set a cause
    shunt
        capacitance across the feed that may be there [F]
    frequencies
        frequencies that need a band [Hz] (f,)
    impedance
        working solution of the impedance there [ohm] (f,)
    reference
        reference resistance of the standing wave ratio [ohm]
    """

    def spread(name: str) -> Floats:
        own = getattr(figures, name)
        total = _SAFETY * np.abs(getattr(finer, name) - own)
        for edge in edges:
            total = total + np.abs(getattr(edge, name) - own)
        at_all: Floats = np.interp(frequencies, figures.frequencies, total)
        return at_all

    error = spread("impedance") + 2.0 * np.pi * frequencies * shunt * np.abs(impedance) ** 2
    return ErrorBand(
        impedance=error,
        swr=_swr_spread(impedance, error, reference),
        gain_db=spread("gain_dbi"),
        front_to_back_db=spread("front_to_back_db"),
    )


def _swr_spread(impedance: Complexes, error: Floats, reference: float) -> Floats:
    """Change of the standing wave ratio when the impedance moves by its error, the worst way."""
    reflection = np.minimum(np.abs((impedance - reference) / (impedance + reference)), 0.998)
    moved = 2.0 * reference * error / np.abs(impedance + reference) ** 2
    spread: Floats = 2.0 * moved / (1.0 - reflection) ** 2
    return spread
