"""A match: the pieces between antenna and radio, what they see, and over what bandwidth."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import BoomwrightError, Notice, read_only
from boomwright.base.records import dataclass
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.spline import Spline, spline_through
from boomwright.feed.stages import Stage

Complex = NDArray[np.complex128]

#: standing wave ratio up to which radios commonly give full power {common-practice-swr-limit}
USUAL_SWR_LIMIT = 2.0


@dataclass(frozen=True, kw_only=True, eq=False)
class FeedLoad:
    """Feed-point impedance over frequency.

    Raises:
        BoomwrightError: when the arrays do not match or do not rise, or a resistance is not above 0
    """

    frequency: NDArray[np.float64]  #: rising frequencies, at least 2 [Hz] (n,)
    impedance: NDArray[np.complex128]  #: feed-point impedance at each [ohm] (n,)

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequency", read_only(self.frequency))
        object.__setattr__(self, "impedance", read_only(self.impedance, complex))
        shape = self.frequency.shape
        if len(shape) != 1 or shape[0] < 2 or shape != self.impedance.shape:
            raise BoomwrightError(
                f"feed load: {shape} frequencies and {self.impedance.shape} impedances; "
                "give two lists of the same length, at least 2"
            )
        if np.any(np.diff(self.frequency) <= 0.0) or not np.all(self.impedance.real > 0.0):
            msg = "feed load: frequencies must rise and every resistance must be above 0 ohm"
            raise BoomwrightError(msg)

    def at(self, frequency: ArrayLike) -> Complex:
        """Impedance at other frequencies, by cubic spline [ohm] (m,).

        Args:
            frequency: frequency within the range [Hz] (m,)

        Raises:
            BoomwrightError: when a frequency is outside the range
        """
        wanted = np.asarray(frequency, dtype=float)
        low, high = self.frequency[0], self.frequency[-1]
        if np.any((wanted < low * (1 - 1e-12)) | (wanted > high * (1 + 1e-12))):
            raise BoomwrightError(
                f"feed load: {np.min(wanted) / 1e6:g} to {np.max(wanted) / 1e6:g} MHz asked, "
                f"known from {low / 1e6:g} to {high / 1e6:g} MHz; widen the sweep"
            )
        return self._spline.at(wanted)

    @cached_property
    def _spline(self) -> Spline:
        return spline_through(places=self.frequency, values=self.impedance)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bandwidth:
    """Range over which the standing wave ratio stays below a limit."""

    low: float  #: lowest frequency [Hz]
    high: float  #: highest frequency [Hz]
    swr_limit: float  #: the limit [-]
    complete: bool  #: false when the known range of the load ends first


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """A matching network."""

    kind: str  #: its name in words
    frequency: float  #: frequency it is designed for [Hz]
    reference: float  #: resistance it is designed to show to the line [ohm]
    stages: tuple[Stage, ...]  #: its pieces, from the antenna to the line (n_stages,)
    #: range of low standing wave ratio with the load it was designed for
    bandwidth: Bandwidth | None
    notices: tuple[Notice, ...] = ()  #: doubts and cautions

    def transform(self, *, impedance: ArrayLike, frequency: ArrayLike) -> Complex:
        """Impedance that the line sees.

        Args:
            impedance: impedance of the antenna [ohm] (n,)
            frequency: [Hz] (n,)

        Returns:
            impedance at the line [ohm] (n,)
        """
        return through_stages(self.stages, impedance=impedance, frequency=frequency)


def through_stages(
    stages: Sequence[Stage], *, impedance: ArrayLike, frequency: ArrayLike
) -> Complex:
    """Impedance seen through pieces in a row.

    Args:
        impedance: load [ohm] (n,)
        frequency: [Hz] (n,)

    Returns:
        (A Z + B) / (C Z + D) of each in turn {pozar-2012, section 4.4} [ohm] (n,)
    """
    z = np.asarray(impedance, dtype=complex)
    for stage in stages:
        m = stage.chain(frequency)
        z = (m[..., 0, 0] * z + m[..., 0, 1]) / (m[..., 1, 0] * z + m[..., 1, 1])
    return np.asarray(z)


def swr_over_band(
    *, stages: Sequence[Stage], load: FeedLoad, frequency: ArrayLike, reference: float
) -> NDArray[np.float64]:
    """Standing wave ratio on the line over a band [-] (n,).

    Args:
        frequency: frequencies within its range [Hz] (n,)
    """
    seen = through_stages(stages, impedance=load.at(frequency), frequency=frequency)
    return standing_wave_ratio(seen, reference=reference)


def bandwidth_of(
    *,
    stages: Sequence[Stage],
    load: FeedLoad,
    frequency: float,
    reference: float,
    swr_limit: float = USUAL_SWR_LIMIT,
) -> Bandwidth | None:
    """Range around a frequency over which the standing wave ratio stays within a limit.

    Args:
        frequency: frequency in the range [Hz]
        swr_limit: greatest ratio [-]

    Returns:
        the range; None when the limit is exceeded at the frequency itself
    """
    edges = []
    complete = True
    for end in (load.frequency[0], load.frequency[-1]):
        at = np.linspace(frequency, end, 2001)
        ratio = swr_over_band(stages=stages, load=load, frequency=at, reference=reference)
        over = np.flatnonzero(ratio > swr_limit)
        if len(over) == 0:
            complete = False
            edges.append(float(end))
        elif over[0] == 0:
            return None
        else:
            i = int(over[0])
            share = (swr_limit - ratio[i - 1]) / (ratio[i] - ratio[i - 1])
            edges.append(float(at[i - 1] + share * (at[i] - at[i - 1])))
    return Bandwidth(low=edges[0], high=edges[1], swr_limit=swr_limit, complete=complete)


def make_match(
    *,
    kind: str,
    load: FeedLoad,
    frequency: float,
    reference: float,
    stages: tuple[Stage, ...],
    notices: tuple[Notice, ...] = (),
) -> Match:
    """Put pieces together to a match and find its bandwidth.

    Args:
        frequency: frequency it is designed for [Hz]
    """
    return Match(
        kind=kind,
        frequency=frequency,
        reference=reference,
        stages=stages,
        bandwidth=bandwidth_of(
            stages=stages,
            load=load,
            frequency=frequency,
            reference=reference,
            swr_limit=USUAL_SWR_LIMIT,
        ),
        notices=notices,
    )
