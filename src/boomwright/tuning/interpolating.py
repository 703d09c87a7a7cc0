"""Interpolation over frequency, and the phase that is taken out before it."""

from __future__ import annotations

import numpy as np

from boomwright.base.array_types import Floats


def chebyshev_nodes(frequencies: Floats, count: int) -> Floats:
    """Frequencies to compute at, when all between them are interpolated.

    Args:
        frequencies: frequencies that will be asked for [Hz] (f,)

    Returns:
        Chebyshev nodes over their range, ends included [Hz] (n,)
    """
    low, high = float(frequencies.min()), float(frequencies.max())
    half = max(0.5 * (high - low), 1e-4 * high)
    nodes: Floats = 0.5 * (low + high) - half * np.cos(np.pi * np.arange(count) / (count - 1))
    return nodes


def lagrange_weights(*, nodes: Floats, at: Floats) -> Floats:
    """Weights of the values at the nodes in the interpolated ones.

    Args:
        nodes: places of the values, all different (n,)
        at: places wanted (f,)
    """
    weights = np.ones((len(at), len(nodes)))
    for number, node in enumerate(nodes):
        for other in np.delete(nodes, number):
            weights[:, number] *= (at - other) / (node - other)
    return weights
