"""From numbers to places: round tick values and straight scales."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.records import dataclass


def nice_step(*, span: float, count: int) -> float:
    """Choose a step of 1, 2 or 5 times a power of ten that parts a span about so often.

    Args:
        span: length to part, above 0 [any unit]

    Returns:
        the smallest such step that gives no more than ``count`` parts [same unit]

    Raises:
        ValueError: span or count out of range
    """
    if not (math.isfinite(span) and span > 0.0 and count >= 1):
        msg = f"a scale needs a span above 0 and a count of at least 1, not {span} and {count}"
        raise ValueError(msg)
    power = 10.0 ** math.floor(math.log10(span / count))
    for factor in (1.0, 2.0, 5.0):
        if factor * power * count >= span * (1.0 - 1e-9):
            return factor * power
    return 10.0 * power


def nice_ticks(*, low: float, high: float, count: int = 6) -> tuple[float, ...]:
    """Give the round values inside a range, both ends allowed.

    Args:
        low: lower end [any unit]
        high: upper end [any unit]

    Returns:
        rising multiples of a nice step [same unit] (n,)
    """
    if high <= low:
        return (low,)
    step = nice_step(span=high - low, count=count)
    first = math.ceil(low / step - 1e-9)
    last = math.floor(high / step + 1e-9)
    decimals = max(0, -math.floor(math.log10(step)))
    return tuple(round(i * step, decimals) + 0.0 for i in range(first, last + 1))


def nice_bounds(*, low: float, high: float, count: int = 6) -> tuple[float, float]:
    """Widen a range to round ends; a range of no width is widened about its value.

    Args:
        low: least value [any unit]
        high: greatest value [any unit]

    Returns:
        round ends that hold both values [same unit]
    """
    least = 1e-6 * max(abs(low), abs(high), 1e-6)
    if high - low <= least:
        margin = 0.05 * max(abs(low), abs(high)) or 1.0
        low, high = low - margin, high + margin
    # Rounding outwards can add a step or two, so the step is chosen anew until it holds.
    while True:
        step = nice_step(span=high - low, count=count)
        wider = (
            math.floor(low / step + 1e-9) * step + 0.0,
            math.ceil(high / step - 1e-9) * step + 0.0,
        )
        if (wider[1] - wider[0]) / step <= count * (1.0 + 1e-9):
            return wider
        low, high = wider


def tick_text(value: float, *, step: float) -> str:
    """Write a tick value with the decimals its step needs and a true minus sign [same unit].

    Args:
        value: [any unit]
        step: step between ticks [same unit]
    """
    decimals = max(0, -math.floor(math.log10(step) + 1e-9)) if step > 0.0 else 3
    return signed(value, decimals=decimals)


def signed(value: float, *, decimals: int) -> str:
    """Write a number for people: fixed decimals, a true minus sign, no minus zero [same unit].

    Args:
        value: [any unit]
    """
    return f"{round(value, decimals) + 0.0:.{decimals}f}".replace("-", "−")


@dataclass(frozen=True, slots=True, kw_only=True)
class LinearScale:
    """A straight scale from values to places on the paper."""

    low: float  #: value at ``start`` [any unit]
    high: float  #: value at ``end``, other than ``low`` [any unit]
    start: float  #: place of ``low`` [user units]
    end: float  #: place of ``high`` [user units]

    def __call__(self, value: float) -> float:
        """Find the place of one value, beyond the ends too [user units].

        Args:
            value: [any unit]
        """
        share = (value - self.low) / (self.high - self.low)
        return float(self.start + share * (self.end - self.start))

    def places(self, values: ArrayLike) -> NDArray[np.float64]:
        """Find the places of many values, held within the scale.

        Args:
            values: [any unit] (n,)

        Returns:
            their places [user units] (n,)
        """
        share = (np.asarray(values, dtype=float) - self.low) / (self.high - self.low)
        return np.asarray(self.start + np.clip(share, 0.0, 1.0) * (self.end - self.start))
