"""A sweep of the bare feed point seen through a match: what the line sees over the band."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.records import dataclass
from boomwright.feed.matches import through_stages
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.stages import Stage

#: directions in which an impedance is moved by its error
_AROUND = np.exp(2j * np.pi * np.arange(24) / 24.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MatchedSweep(ReadOnlyArrays):
    """What the line sees over the band."""

    frequency: NDArray[np.float64]  #: rising frequencies [Hz] (n,)
    impedance: NDArray[np.complex128]  #: seen by the line [ohm] (n,)
    swr: NDArray[np.float64]  #: standing wave ratio on the line [-] (n,)
    #: half width of its band, from that of the feed point's impedance [-] (n,)
    swr_error: NDArray[np.float64]


def matched_sweep(
    *,
    stages: Sequence[Stage],
    frequency: ArrayLike,
    impedance: ArrayLike,
    impedance_error: ArrayLike = 0.0,
    circuit_share: float = 0.0,
    reference: float = 50.0,
) -> MatchedSweep:
    """Take a sweep of the feed point through the pieces of a match.

    Args:
        stages: the pieces, from the antenna outwards; none for a line at the feed itself
        frequency: rising frequencies [Hz] (n,)
        impedance: feed-point impedance at each [ohm] (n,)
        impedance_error: half width of its band, as a modulus [ohm] (n,)
        circuit_share: how far the circuit itself may be off, as a share of the impedance seen [-]
    """
    at = np.atleast_1d(np.asarray(frequency, dtype=float))
    load = np.atleast_1d(np.asarray(impedance, dtype=complex))
    error = np.broadcast_to(np.asarray(impedance_error, dtype=float), at.shape)
    seen = through_stages(stages, impedance=load, frequency=at)
    swr = standing_wave_ratio(seen, reference=reference)
    own = circuit_share * np.abs(seen)
    moved = np.stack(
        [
            standing_wave_ratio(
                through_stages(stages, impedance=load + error * turn, frequency=at) + own * turn,
                reference=reference,
            )
            for turn in _AROUND
        ]
    )
    return MatchedSweep(
        frequency=at,
        impedance=seen,
        swr=swr,
        swr_error=np.max(np.abs(moved - swr), axis=0),
    )
