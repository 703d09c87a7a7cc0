"""What the model of thin round wires cannot do, refused with the place and the remedy."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SolverError
from boomwright.base.array_types import Floats

#: axes of two wires that are not joined must be this many radii apart
_CLOSEST_RADII = 2.0


def check_segments(
    *,
    places: Floats,
    ends: NDArray[np.int64],
    radii: Floats,
    names: tuple[str, ...],
    ground_level: float,
) -> None:
    """Refuse stretches of wire that the model cannot carry.

    Args:
        places: nodes [m] (n_nodes, 3)
        ends: first and last node of each stretch [-] (n, 2)
        radii: radius of each stretch [m] (n,)
        names: name of the wire of each stretch (n,)
        ground_level: height of the conducting plane, minus infinity without one [m]

    Raises:
        SolverError: naming the wire, the place, the value and the remedy
    """
    low, high = places[ends[:, 0]], places[ends[:, 1]]
    lengths = np.linalg.norm(high - low, axis=1)
    for number in np.flatnonzero(lengths < radii):
        raise SolverError(
            f"wire {names[number]!r}: a piece of {lengths[number]:.4g} m near "
            f"{_spot(low[number])} is shorter than its radius of {radii[number]:.4g} m; "
            "join it with its neighbour or use thinner wire"
        )
    _check_ground(low, high, radii, names, ground_level)
    for first in range(len(radii)):
        for second in range(first + 1, len(radii)):
            if set(ends[first]) & set(ends[second]):
                _check_fold(places, ends, first, second, names)
                continue
            distance, spot = segment_distance(
                (low[first], high[first]), (low[second], high[second])
            )
            # The sum of radii would touch; below twice that nothing of the model holds.
            limit = _CLOSEST_RADII * max(radii[first], radii[second])
            if distance < limit:
                raise SolverError(
                    f"wires {names[first]!r} and {names[second]!r} pass {distance:.4g} m from "
                    f"each other near {_spot(spot)} without being joined; let them meet in a "
                    f"common point or keep their axes {limit:.4g} m apart"
                )


def _check_ground(
    low: Floats, high: Floats, radii: Floats, names: tuple[str, ...], ground_level: float
) -> None:
    for number, radius in enumerate(radii):
        heights = (low[number][2] - ground_level, high[number][2] - ground_level)
        if min(heights) < -1e-9:
            raise SolverError(
                f"wire {names[number]!r}: {_spot(low[number])} to {_spot(high[number])} goes "
                "below ground; raise it, buried wire is not modelled"
            )
        flat = max(heights) < radius
        if flat:
            raise SolverError(
                f"wire {names[number]!r} lies on the ground near {_spot(low[number])}; raise it "
                f"by more than its radius of {radius:.4g} m"
            )


def _check_fold(
    places: Floats, ends: NDArray[np.int64], first: int, second: int, names: tuple[str, ...]
) -> None:
    """Refuse a wire that folds back onto its neighbour."""
    shared = (set(ends[first]) & set(ends[second])).pop()
    away = []
    for number in (first, second):
        far = ends[number][0] if ends[number][1] == shared else ends[number][1]
        direction = places[far] - places[shared]
        away.append(direction / np.linalg.norm(direction))
    if float(away[0] @ away[1]) > 0.999:  # within 2.6 degrees
        raise SolverError(
            f"wires {names[first]!r} and {names[second]!r} fold back onto each other at "
            f"{_spot(places[shared])}; open the angle or lead one of them away"
        )


def segment_distance(
    first: tuple[Floats, Floats], second: tuple[Floats, Floats]
) -> tuple[float, Floats]:
    """Smallest distance of two straight stretches {ericson-2005}.

    Args:
        first: both ends of one stretch [m] (2, 3)
        second: both ends of the other [m] (2, 3)

    Returns:
        distance and the nearest point on the first [m] (3,)
    """
    along, across = first[1] - first[0], second[1] - second[0]
    between = first[0] - second[0]
    a, e, f = along @ along, across @ across, across @ between
    b, c = along @ across, along @ between
    denominator = a * e - b * b
    s = np.clip((b * f - c * e) / denominator, 0.0, 1.0) if denominator > 1e-14 * a * e else 0.0
    t = np.clip((b * s + f) / e, 0.0, 1.0)
    s = np.clip((b * t - c) / a, 0.0, 1.0)
    spot = first[0] + s * along
    return float(np.linalg.norm(spot - second[0] - t * across)), spot


def _spot(point: Floats) -> str:
    return "(" + ", ".join(f"{value:.3f}" for value in point) + ") m"
