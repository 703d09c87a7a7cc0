"""How far each figure may be off, by a finer solution and the edges of what is known."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam

#: the finer solution is itself off a little; chosen on random beams so that the band covers
#: more than 95 % of them (docs/benchmarks/error_calibration.md)
_SAFETY = 1.5
#: the same where a tube steps down to less than this share of its diameter: the current turns
#: round the edge of the step, and finer pieces close in on it more slowly
_ABRUPT, _ABRUPT_SAFETY = 0.65, 2.2
#: between frequencies solved twice a difference may pass through zero: it counts as at least this
#: share of the largest
_LEAST_SHARE = 0.5
#: a difference of gain or of front-to-back may be nought by chance where that of the impedance is
#: not: it counts as at least these shares of the impedance's own, in decibels
_LEAST_GAIN, _LEAST_FRONT_TO_BACK = 0.05, 0.1


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

    Args:
        impedance: load impedance [ohm] (any shape)
        reference: real reference resistance [ohm]
    """
    reflection = np.abs((impedance - reference) / (impedance + reference))
    reflection = np.minimum(reflection, 0.998)
    ratio: Floats = (1.0 + reflection) / (1.0 - reflection)
    return ratio


def step_safety(*, beam: Beam) -> float:
    """What the difference to a finer solution is multiplied with, by the steps of the tubes.

    Returns:
        the factor [-]
    """
    shares = [
        outer.diameter / inner.diameter
        for element in beam.elements
        for inner, outer in pairwise(element.half)
    ]
    return _ABRUPT_SAFETY if min(shares, default=1.0) < _ABRUPT else _SAFETY


def error_band(
    *,
    figures: Figures,
    finer: Figures,
    edges: tuple[Figures, ...] = (),
    shunt: float = 0.0,
    frequencies: Floats,
    impedance: Complexes,
    reference: float,
    safety: float = _SAFETY,
) -> ErrorBand:
    """Bands at all frequencies from the differences at the few that were solved twice.

    Each cause counts in full: they need not be independent.

    Args:
        edges: figures at the edges of what is known of the antenna, one set a cause
        shunt: capacitance across the feed that may be there [F]
        frequencies: frequencies that need a band [Hz] (f,)
        impedance: working solution of the impedance there [ohm] (f,)
        reference: reference resistance of the standing wave ratio [ohm]
        safety: what the difference to the finer solution is multiplied with, see
            ``step_safety`` [-]
    """

    def spread(name: str) -> Floats:
        own = getattr(figures, name)
        total = safety * np.abs(getattr(finer, name) - own)
        for edge in edges:
            total = total + np.abs(getattr(edge, name) - own)
        total = np.maximum(total, _LEAST_SHARE * total.max())
        at_all: Floats = np.interp(frequencies, figures.frequencies, total)
        return at_all

    error = spread("impedance") + 2.0 * np.pi * frequencies * shunt * np.abs(impedance) ** 2
    decibels = 20.0 * np.log10(1.0 + error / np.abs(impedance))
    return ErrorBand(
        impedance=error,
        swr=standing_wave_spread(impedance=impedance, error=error, reference=reference),
        gain_db=np.maximum(spread("gain_dbi"), _LEAST_GAIN * decibels),
        front_to_back_db=np.maximum(spread("front_to_back_db"), _LEAST_FRONT_TO_BACK * decibels),
    )


def standing_wave_spread(*, impedance: Complexes, error: Floats, reference: float) -> Floats:
    """Change of the standing wave ratio when the impedance moves by its error, the worst way.

    Args:
        impedance: [ohm] (f,)
        error: half widths of their bands [ohm] (f,)
        reference: reference resistance [ohm]
    """
    reflection = np.minimum(np.abs((impedance - reference) / (impedance + reference)), 0.998)
    moved = 2.0 * reference * error / np.abs(impedance + reference) ** 2
    spread: Floats = 2.0 * moved / (1.0 - reflection) ** 2
    return spread
