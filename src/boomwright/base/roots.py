"""Where a function of one variable crosses zero, without loading a package of optimisers."""

from __future__ import annotations

from collections.abc import Callable

_MOST_STEPS = 200


def find_root(
    function: Callable[[float], float], low: float, high: float, *, within: float
) -> float:
    """Follow the chord between two ends of which one lies on each side of zero.

    An end that stays twice has its value halved, so that the other one closes in too (Illinois).

    Args:
        low: one end [unit of the variable]
        high: the other end [unit of the variable]
        within: width of the last step [unit of the variable]

    Returns:
        where it is zero [unit of the variable]

    Raises:
        ValueError: when both ends lie on one side of zero
    """
    at_low, at_high = function(low), function(high)
    if at_low * at_high > 0.0:
        raise ValueError(f"no change of sign between {low:g} and {high:g}")
    place, side = (low, 0) if at_low == 0.0 else (high, 0)
    value = 0.0 if 0.0 in {at_low, at_high} else at_high
    for _ in range(_MOST_STEPS):
        if value == 0.0:
            break
        before, place = place, high - at_high * (high - low) / (at_high - at_low)
        if abs(place - before) <= within:
            break
        value = function(place)
        if value * at_high > 0.0:
            high, at_high = place, value
            at_low, side = (at_low / 2.0, 1) if side == 1 else (at_low, 1)
        else:
            low, at_low = place, value
            at_high, side = (at_high / 2.0, -1) if side == -1 else (at_high, -1)
    return place
