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
        towards: directions watched, ahead first (d,)
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
    loss, loss_slopes = reflected(found=found, targets=targets, design=design, xp=xp)
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


def soft_climb(
    *,
    tables: BandTables,
    shares: Any,
    half_lengths: Any,
    booms: Any,
    closest: float,
    low: Any,
    high: Any,
    targets: Targets,
    least: Any,
    towards: Directions,
    design: int,
    steps: int,
    xp: Any = np,
) -> tuple[Any, Any, Any]:
    """Climb from many starts at once: adaptive steps {kingma-2015}, temperature falling.

    Spacings are kept above ``closest`` and within the boom by numbers of their own: a share of
    the free boom for each spacing and for the boom left unused, all positive with sum one.

    Args:
        shares: logarithms of the shares of the free boom, the unused share last (b, n_elements)
        half_lengths: [m] (b, n_elements)
        booms: boom limits [m] (b,)
        closest: smallest spacing [m]
        low, high: shortest and longest half length of each element [m] (n_elements,)
        least: gain, front-to-rear ratio and match that each must reach [dB] (b, 3)
        towards: directions watched, ahead first (d,)

    Returns:
        positions [m], half lengths [m] (b, n_elements) and scores by the plain minimum [dB] (b,)
    """
    count = half_lengths.shape[1]
    wavelength = 2.0 * np.pi / float(tables.wavenumbers[design])
    state = xp.concat([shares, half_lengths / (0.01 * wavelength)], axis=1)
    room = (booms - closest * (count - 1))[:, None]
    triangle = xp.asarray(np.tril(np.ones((count, count)), -1)[:, : count - 1])
    first, second = xp.zeros_like(state), xp.zeros_like(state)

    def design_of(numbers: Any) -> tuple[Any, Any, Any]:
        raised = xp.exp(numbers[:, :count] - xp.max(numbers[:, :count], axis=1, keepdims=True))
        part = raised / raised.sum(axis=1, keepdims=True)
        places = xp.matmul(closest + room * part[:, : count - 1], triangle.T)
        return places, numbers[:, count:] * (0.01 * wavelength), part

    for step in range(steps):
        cool = step / steps
        positions, lengths, part = design_of(state)
        _, slope = soft_scores(
            tables=tables,
            positions=positions,
            half_lengths=lengths,
            targets=targets,
            least=least,
            towards=towards,
            design=design,
            temperature=0.5 * 0.02**cool,
            xp=xp,
        )
        by_gap = xp.matmul(slope[:, :count], triangle) * room
        by_part = xp.concat([by_gap, xp.zeros_like(by_gap[:, :1])], axis=1)
        by_share = part * (by_part - (by_part * part).sum(axis=1, keepdims=True))
        whole = xp.concat([by_share, slope[:, count:] * (0.01 * wavelength)], axis=1)
        first = 0.9 * first + 0.1 * whole
        second = 0.99 * second + 0.01 * whole * whole
        warm = np.sqrt(1.0 - 0.99 ** (step + 1)) / (1.0 - 0.9 ** (step + 1))
        rate = 0.06 * 0.03**cool * warm
        state = state + rate * first / (xp.sqrt(second) + 1e-8)
        inside = xp.clip(state[:, count:], low / (0.01 * wavelength), high / (0.01 * wavelength))
        state = xp.concat([xp.clip(state[:, :count], -6.0, 6.0), inside], axis=1)
    positions, lengths, _ = design_of(state)
    score, _ = soft_scores(
        tables=tables,
        positions=positions,
        half_lengths=lengths,
        targets=targets,
        least=least,
        towards=towards,
        design=design,
        temperature=0.0,
        xp=xp,
    )
    return positions, lengths, score
