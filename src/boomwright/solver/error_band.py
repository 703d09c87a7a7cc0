"""How far each figure may be off: the difference to a finer solution at a few frequencies."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: the finer solution is itself off by about a tenth of the difference
_SAFETY = 1.3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figures:
    """The plain figures of a beam over frequency.

    Parameters
    ----------
    frequencies
        frequencies [Hz] (f,)
    impedance
        feed-point impedance [ohm] (f,)
    gain_dbi
        gain towards the heading [dBi] (f,)
    front_to_back_db
        front-to-back ratio [dB] (f,)
    """

    frequencies: Floats
    impedance: Complexes
    gain_dbi: Floats
    front_to_back_db: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ErrorBand:
    """Half widths of the bands at some frequencies.

    Parameters
    ----------
    impedance
        of the impedance, as a modulus [ohm] (f,)
    swr
        of the standing wave ratio [-] (f,)
    gain_db
        of the gain [dB] (f,)
    front_to_back_db
        of the front-to-back ratio [dB] (f,)
    """

    impedance: Floats
    swr: Floats
    gain_db: Floats
    front_to_back_db: Floats


def standing_wave_ratio(*, impedance: Complexes, reference: float) -> Floats:
    """Standing wave ratio of a load {ieee-145}.

    Parameters
    ----------
    impedance
        load impedance [ohm] (any shape)
    reference
        real reference resistance [ohm]

    Returns
    -------
    NDArray
        standing wave ratio, at most 999 [-] (same shape)
    """
    reflection = np.abs((impedance - reference) / (impedance + reference))
    reflection = np.minimum(reflection, 0.998)
    ratio: Floats = (1.0 + reflection) / (1.0 - reflection)
    return ratio


def error_band(
    *, figures: Figures, finer: Figures, frequencies: Floats, reference: float
) -> ErrorBand:
    """Bands at all frequencies from the differences at the few that were solved twice.

    Parameters
    ----------
    figures
        working solution at the few frequencies [-]
    finer
        finer solution at the same frequencies [-]
    frequencies
        frequencies that need a band [Hz] (f,)
    reference
        reference resistance of the standing wave ratio [ohm]

    Returns
    -------
    ErrorBand
        half widths [-]
    """

    def spread(difference: Floats) -> Floats:
        return np.interp(frequencies, figures.frequencies, _SAFETY * np.abs(difference))

    swr, finer_swr = (
        standing_wave_ratio(impedance=each.impedance, reference=reference)
        for each in (figures, finer)
    )
    return ErrorBand(
        impedance=spread(np.abs(finer.impedance - figures.impedance)),
        swr=spread(finer_swr - swr),
        gain_db=spread(finer.gain_dbi - figures.gain_dbi),
        front_to_back_db=spread(finer.front_to_back_db - figures.front_to_back_db),
    )
