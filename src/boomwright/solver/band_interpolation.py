"""Matrices over a band from those at a few of its frequencies."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base.array_types import Complexes, Floats
from boomwright.solver.chebyshev import chebyshev_nodes, chebyshev_weights

#: some kinds of matrices, several of each kind: (n_matrices) of (n_kinds) of (f, ...)
Parts = list[tuple[Complexes, ...]]

#: interpolated entries may differ from solved ones by this share of the largest of their kind
_TOLERANCE = 1e-9


def over_band(*, wavenumber: Floats, way: float, sample: Callable[[Floats], Parts]) -> Parts:
    """Matrices at all frequencies, interpolated from a few when there are many.

    The phase of the longest way turns little over a band; Chebyshev nodes for that turn are
    tried against one more solution in between, and doubled until they agree.

    Args:
        wavenumber: [1/m] (f,)
        way: longest way that a wave goes [m]
        sample: makes the matrices at some wavenumbers
    """
    low, high = float(wavenumber.min()), float(wavenumber.max())
    count = 4 + int(np.ceil(1.5 * 0.5 * (high - low) * way))
    while count < len(wavenumber) // 2:
        nodes = chebyshev_nodes(count)
        at = 0.5 * (low + high) + 0.5 * (high - low) * nodes
        between = 0.5 * (at[count // 2] + at[count // 2 - 1])
        sampled = sample(np.append(at, between))
        weights = chebyshev_weights(count, (2.0 * between - low - high) / (high - low))
        if all(_agrees(kind, weights) for kind in zip(*sampled, strict=True)):
            spreading = chebyshev_weights(count, (2.0 * wavenumber - low - high) / (high - low))
            return [tuple(_spread(part, spreading) for part in each) for each in sampled]
        count *= 2
    return sample(wavenumber)


def _agrees(parts: tuple[Complexes, ...], weights: Floats) -> bool:
    """Whether all but the last frequency give the last, next to the largest of all parts."""
    off = max(
        float(np.abs(np.tensordot(weights, each[:-1], axes=(0, 0)) - each[-1]).max())
        for each in parts
    )
    return off < _TOLERANCE * max(float(np.abs(each[-1]).max()) for each in parts)


def _spread(part: Complexes, weights: Floats) -> Complexes:
    """Interpolate all but the last frequency of a part."""
    flat = part[:-1].reshape(len(part) - 1, -1).view(float)
    spread: Complexes = (weights @ flat).view(complex).reshape(-1, *part.shape[1:])
    return spread
