"""Natural frequencies of a stepped tube and the winds that excite them.

Own Euler-Bernoulli eigenproblem: cubic beam elements, consistent mass, clamped root.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from math import pi, sqrt

import numpy as np
from numpy.linalg import LinAlgError

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.structure.beam.stepped import Segment

#: Strouhal number of a round tube below the drag crisis {blevins-strouhal} (from memory)
STROUHAL = 0.2
#: Strouhal number measured past a Reynolds number of 3.5e6, where shedding settles {roshko-1961}
SETTLED_STROUHAL = 0.27
SETTLED_REYNOLDS = 3.5e6
#: kinematic viscosity of air {en-1991-1-4, sec. 7.9.1} [m^2/s]
AIR_VISCOSITY = 15e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class VibrationMode:
    """One mode of an element half and the wind that may excite it."""

    number: int  #: mode, counted from 1
    frequency_hz: float  #: natural frequency [Hz]
    critical_wind: float  #: wind whose eddies shed at that frequency [m/s]


def stiffness_matrix(*, stiffness: float, length: float) -> Floats:
    """Stiffness of one beam piece: deflection and slope at its ends [N/m and its moments] (4, 4).

    Args:
        stiffness: bending stiffness EI [N m^2]
        length: length of the piece [m]
    """
    a = length
    return (stiffness / a**3) * np.array(
        [
            [12.0, 6.0 * a, -12.0, 6.0 * a],
            [6.0 * a, 4.0 * a * a, -6.0 * a, 2.0 * a * a],
            [-12.0, -6.0 * a, 12.0, -6.0 * a],
            [6.0 * a, 2.0 * a * a, -6.0 * a, 4.0 * a * a],
        ]
    )


def geometric_matrix(*, length: float) -> Floats:
    """Softening of one beam piece by each newton on it {beam-theory} [1/m and its moments] (4, 4).

    Args:
        length: length of the piece [m]
    """
    a = length
    return np.array(
        [
            [36.0, 3.0 * a, -36.0, 3.0 * a],
            [3.0 * a, 4.0 * a * a, -3.0 * a, -a * a],
            [-36.0, -3.0 * a, 36.0, -3.0 * a],
            [3.0 * a, -a * a, -3.0 * a, 4.0 * a * a],
        ]
    ) / (30.0 * a)


def mass_matrix(*, mass_per_length: float, length: float) -> Floats:
    """Mass of one beam piece: deflection and slope at its ends [kg and its moments] (4, 4).

    Args:
        mass_per_length: mass of a metre [kg/m]
        length: length of the piece [m]
    """
    a = length
    return (mass_per_length * a / 420.0) * np.array(
        [
            [156.0, 22.0 * a, 54.0, -13.0 * a],
            [22.0 * a, 4.0 * a * a, 13.0 * a, -3.0 * a * a],
            [54.0, 13.0 * a, 156.0, -22.0 * a],
            [-13.0 * a, -3.0 * a * a, -22.0 * a, 4.0 * a * a],
        ]
    )


@lru_cache(maxsize=256)
def natural_frequencies(
    *, segments: tuple[Segment, ...], modes: int = 6, pieces: int = 12
) -> tuple[float, ...]:
    """Lowest natural frequencies of a stepped tube clamped at its root, upwards [Hz] (modes,)."""
    count = len(segments) * pieces
    size = 2 * (count + 1)
    stiff, mass, at = np.zeros((size, size)), np.zeros((size, size)), 0
    for segment in segments:
        length = segment.length / pieces
        k = stiffness_matrix(stiffness=segment.stiffness, length=length)
        m = mass_matrix(mass_per_length=segment.mass_per_length, length=length)
        for _ in range(pieces):
            stiff[at : at + 4, at : at + 4] += k
            mass[at : at + 4, at : at + 4] += m
            at += 2
    wanted, stiff, mass = min(modes, size - 2), stiff[2:, 2:], mass[2:, 2:]
    try:
        return lowest_frequencies(stiff=stiff, mass=mass, modes=wanted)
    except LinAlgError:
        # Pieces of very unlike stiffness: rounding alone makes the matrix look used up.
        lower = np.linalg.cholesky(mass)
        squares = np.linalg.eigvalsh(np.linalg.solve(lower, np.linalg.solve(lower, stiff).T))
        return tuple(sqrt(max(0.0, float(each))) / (2.0 * pi) for each in squares[:wanted])


def lowest_frequencies(*, stiff: Floats, mass: Floats, modes: int) -> tuple[float, ...]:
    """Lowest natural frequencies by stiffness and mass matrix, lowest first [Hz] (modes,).

    The slowest sway is the largest eigenvalue of the problem turned round, which keeps its digits
    however light the tube is beside what it carries.
    """
    lower = np.linalg.cholesky(stiff)
    turned = np.linalg.solve(lower, np.linalg.solve(lower, mass).T)
    slowest = np.linalg.eigvalsh(turned)[: -modes - 1 : -1]
    return tuple(1.0 / (2.0 * pi * sqrt(float(each))) for each in slowest)


def critical_wind(*, frequency_hz: float, diameter: float) -> float:
    """Wind whose eddies shed at a frequency, f d / 0.2 {blevins-strouhal} [m/s].

    A tube so wide that this wind lies past a Reynolds number of 3.5e6 sheds with 0.27
    {roshko-1961}; elements, booms and masts stay far below.

    Args:
        frequency_hz: natural frequency [Hz]
        diameter: outer diameter [m]
    """
    wind = frequency_hz * diameter / STROUHAL
    if wind * diameter / AIR_VISCOSITY > SETTLED_REYNOLDS:
        return frequency_hz * diameter / SETTLED_STROUHAL
    return wind


def vibration_modes(*, segments: Sequence[Segment]) -> tuple[VibrationMode, ...]:
    """Modes of an element half with their critical winds; its mean diameter sheds."""
    total = sum(segment.length for segment in segments)
    diameter = sum(s.length * s.shape.diameter for s in segments) / total
    return tuple(
        VibrationMode(
            number=i + 1,
            frequency_hz=frequency,
            critical_wind=critical_wind(frequency_hz=frequency, diameter=diameter),
        )
        for i, frequency in enumerate(natural_frequencies(segments=segments, modes=6))
    )
