"""Scores of many designs at once, smooth enough to climb: what graphics processors are for.

The worst in the band becomes a soft minimum, -T log(sum exp(-v/T)) with a temperature T in
decibels, and broken limits cost what they cost in ``minimax``. Only operations that NumPy and the
array libraries of graphics processors share are used.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from boomwright.design.aims import Directions
from boomwright.design.array_slopes import BandTables, array_slopes
from boomwright.design.match_in_place import TUNED_LOSS_DB
from boomwright.design.minimax import PRICE, level_weights
from boomwright.design.targets import (
    MOST_STRAIN,
    Targets,
    at_the_feed,
    front_to_rear,
    reflected,
)

#: worth of broken limits while climbing softly: dear, but not so dear that steps go wild
_SOFT_PRICE = 4.0


def soft_scores(
    *,
    tables: BandTables,
    positions: Any,
    half_lengths: Any,
    targets: Targets,
    least: Any,
    towards: Directions,
    design: int,
    temperature: float,
    xp: Any = np,
) -> tuple[Any, Any]:
    """Score designs softly, with slopes.

    Args:
        positions: places along the boom, rising [m] (b, n_elements)
        half_lengths: [m] (b, n_elements)
        least: gain, front-to-rear ratio and match that each must reach [dB] (b, 3)
        temperature: softness of the minimum; zero for the plain minimum and the full price of
            broken limits
            [dB]

    Returns:
        scores [dB] (b,) and slopes, positions first [dB/m] (b, 2 n_elements)
    """
    found = array_slopes(
        tables=tables, positions=positions, half_lengths=half_lengths, towards=towards, xp=xp
    )
    batch = positions.shape[0]
    size = 2 * positions.shape[1]
    rear, rear_slopes = front_to_rear(found=found, xp=xp)
    ratio = tables.wavenumbers / tables.wavenumbers[design]
    loss, loss_slopes = reflected(found=found, targets=targets, design=design, ratio=ratio, xp=xp)
    figures = (
        (found.gain_db[:, :, 0], found.gain_slopes[:, :, 0]),
        (xp.reshape(rear, (batch, -1)), xp.reshape(rear_slopes, (batch, -1, size))),
        (-loss, -loss_slopes),
    )
    price = _SOFT_PRICE if temperature > 0.0 else PRICE
    score = xp.zeros(batch)
    slope = xp.zeros((batch, size))
    weights = level_weights(targets)
    for number, (values, slopes) in enumerate(figures):
        level, level_slope = _softest(values, slopes, temperature, xp)
        short = least[:, number] - level
        broken = (short > 0.0) * price
        score = score + weights[number] * level - broken * xp.where(short > 0.0, short, 0.0)
        slope = slope + (weights[number] + broken)[:, None] * level_slope
    ohms, ohm_slopes, room, room_slopes = at_the_feed(found=found, design=design, xp=xp)
    demands = [(room, room_slopes)]
    if targets.fed is not None and targets.fed.tuned:
        demands.append((TUNED_LOSS_DB - loss[:, design], -loss_slopes[:, design]))
    low, high = targets.resistance
    if low > 0.0:
        demands.append((ohms - 10.0 * math.log10(low), ohm_slopes))
    if high < math.inf:
        demands.append((10.0 * math.log10(high) - ohms, -ohm_slopes))
    for value, by_dimension in demands:
        broken = (value < 0.0) * price
        score = score + broken * xp.where(value < 0.0, value, 0.0)
        slope = slope + broken[:, None] * by_dimension
    # No slope: it only keeps strained designs from being chosen.
    over = 10.0 * xp.log10(xp.max(found.strain, axis=1) / MOST_STRAIN)
    return score - PRICE * xp.where(over > 0.0, over, 0.0), slope


def _softest(values: Any, slopes: Any, temperature: float, xp: Any) -> tuple[Any, Any]:
    """Soft minimum over the second axis (b,) and its slope (b, v)."""
    lowest = xp.min(values, axis=1, keepdims=True)
    if temperature == 0.0:
        chosen = (values == lowest) * 1.0
        share = chosen / chosen.sum(axis=1, keepdims=True)
        return lowest[:, 0], (share[..., None] * slopes).sum(axis=1)
    rest = xp.exp(-(values - lowest) / temperature)
    total = rest.sum(axis=1, keepdims=True)
    level = lowest[:, 0] - temperature * xp.log(total[:, 0])
    return level, ((rest / total)[..., None] * slopes).sum(axis=1)
