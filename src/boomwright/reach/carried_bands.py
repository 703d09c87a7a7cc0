"""Error bands while a hand moves: those of a moment ago, moved with the figures."""

from __future__ import annotations

import numpy as np

from boomwright.solver import ErrorBand, Figures, SweepPoint, standing_wave_spread

#: how far a beam moved by hand may drift from the one whose bands are carried over; chosen on
#: random beams so that the band still covers more than 95 % (docs/benchmarks/error_calibration.md)
_DRIFT = 1.6


def carried_impedance(impedance: complex, last: complex, error: float) -> float:
    """Carry the band of an impedance over: an error of the admittance stays, or of itself.

    Args:
        impedance, last: impedance now and when the band was found [ohm]
        error: that band [ohm]

    Returns:
        the band now [ohm]
    """
    return _DRIFT * error * max(1.0, abs(impedance / last) ** 2)


def carried_gain(error: float) -> float:
    """Carry the band of a gain over.

    Args:
        error: that band [dB]

    Returns:
        the band now [dB]
    """
    return _DRIFT * error


def carried_band(*, figures: Figures, last: SweepPoint, reference: float) -> ErrorBand:
    """Carry the free-space bands of a moment ago over to the figures of now.

    Args:
        reference: reference resistance of the standing wave ratio [ohm]
    """
    impedance = complex(figures.impedance[0])
    error = carried_impedance(impedance, last.impedance, last.impedance_error)
    # What is left behind the beam is a difference: the deeper, the more an error of it counts.
    deeper = 10.0 ** (max(0.0, figures.front_to_back_db[0] - last.front_to_back_db) / 20.0)
    return ErrorBand(
        impedance=np.array([error]),
        swr=standing_wave_spread(
            impedance=figures.impedance, error=np.array([error]), reference=reference
        ),
        gain_db=np.array([carried_gain(last.gain_error_db)]),
        front_to_back_db=np.array([_DRIFT * last.front_to_back_error_db * deeper]),
    )
