"""The field that real ground adds: Sommerfeld integrals for a dipole above a half-space.

A dipole's field falls on the ground as a spectrum of plane waves; each is reflected by its own
coefficient, and the sum over all of them, evanescent ones included, is the Sommerfeld integral
{sommerfeld-1909}. Written with the plane-wave dyadics, the reflected field of a moment p is

    E = -(j w mu / 4 pi) F p,   F = S[ s s G_te + p+ p- G_tm ]

with the Fresnel coefficients G at complex angles. The quasi-static image, K times that of a
perfect conductor with K = (eps - 1)/(eps + 1), is left to the image method; here is the rest,
which stays tame down to low heights.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, field
from boomwright.solver.bessel import bessel_pair, real_bessel_pair
from boomwright.solver.chebyshev import chebyshev_nodes, chebyshev_weights
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.ground import Ground

#: points on each panel of the integration path
_POINTS = 8
#: how square the arch of the path is; even
_ARCH_POWER = 8
#: e^-x beyond which the tail of the spectrum is dropped
_TAIL = 34.0
#: nepers after which a wave in the ground no longer shows above it
_FADED = 12.0
#: nodes of the table on each panel of distance, and over the range of heights
_NODES = 10
#: tables that are remembered: a feed solves the same heights and frequencies again and again
_TABLES = 64
#: arches that are remembered: panels of distance stay where they are while heights change
_ARCHES = 128


def image_factor(*, ground: Ground, frequency: float) -> complex:
    """Strength of the quasi-static image, K = (eps - 1)/(eps + 1) {jackson-1999}.

    Returns:
        the factor, 1 for a perfect conductor [-]
    """
    permittivity = ground.complex_permittivity(frequency=frequency)
    return (permittivity - 1.0) / (permittivity + 1.0)


def reflected_remainder(
    *, distance: Floats, height: Floats, ground: Ground, frequency: float
) -> Complexes:
    """Dyadic F of the reflected field without its quasi-static image.

    Args:
        distance: horizontal distances of dipole and observer [m] (m,)
        height: sums of their heights above ground, all positive [m] (n,)

    Returns:
        components (radial radial, transverse transverse, vertical vertical, radial from
        vertical) on the
            grid of both [1/m] (4, m, n); vertical from radial is minus the last
    """
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    permittivity = ground.complex_permittivity(frequency=frequency)
    factor = image_factor(ground=ground, frequency=frequency)
    # The wave number in the ground is a branch point: in poor conductors it lies so near the
    # axis that the arch must span it.
    end = wavenumber * max(2.0, 1.3 * _poor_conductor_index(permittivity))
    rise = min(0.5 * wavenumber, 1.5 / max(float(distance.max()), 1e-9))
    find_arch = _kept_arch if len(distance) == _NODES else _arch
    arch = find_arch(end, rise, tuple(distance.tolist()))
    tail = _tail(end, distance, float(height.min()))
    spectrum, weight, zero, one = (np.concatenate(both) for both in zip(arch, tail, strict=True))
    down = _downward(wavenumber**2 - spectrum**2)
    below = _downward(permittivity * wavenumber**2 - spectrum**2)
    transverse = (down - below) / (down + below) + factor
    parallel = (permittivity * down - below) / (permittivity * down + below) - factor
    common = weight * spectrum / (1j * down)
    travel = np.exp(-1j * down[:, None] * height[None, :])
    argument = spectrum[:, None] * distance[None, :]
    small = np.abs(argument) < 1e-8
    # J2 by recurrence, but for vanishing arguments where it divides by zero.
    second = np.where(small, 0.0, 2.0 * one / np.where(small, 1.0, argument) - zero)
    second = np.where(small, argument**2 / 8.0, second)
    cosine, sine = 0.5 * (zero - second), 0.5 * (zero + second)
    square = wavenumber**2
    te, tm = common * transverse, common * parallel
    return np.stack(
        [
            (sine * te[:, None] - cosine * (tm * down**2 / square)[:, None]).T @ travel,
            (cosine * te[:, None] - sine * (tm * down**2 / square)[:, None]).T @ travel,
            (zero * (tm * spectrum**2 / square)[:, None]).T @ travel,
            (1j * one * (tm * down * spectrum / square)[:, None]).T @ travel,
        ]
    )


def _downward(squared: Complexes) -> Complexes:
    """Root with a negative imaginary part: waves that fade with height."""
    root = np.sqrt(squared)
    return np.where(root.imag > 0.0, -root, root)


def _poor_conductor_index(permittivity: complex) -> float:
    """Refractive index of ground in which waves travel; 0 where they die out at once."""
    index = np.sqrt(permittivity)
    return float(index.real) if -index.imag < 0.5 * index.real else 0.0


def _arch(end: float, rise: float, distance: tuple[float, ...]) -> tuple[Complexes, ...]:
    """Nodes, weights, J0 and J1 of the path over the singular points; the same at any height."""
    unit, weights = unit_gauss(_POINTS)
    panels = int(np.ceil(end / rise)) + 4
    borders = np.linspace(0.0, end, panels + 1)
    step = np.diff(borders)[:, None]
    along = (borders[:-1, None] + step * unit).ravel()
    measure = (step * weights).ravel()
    # A flat arch, high already above the wave number in air near its foot.
    aside = 1.0 - 2.0 * along / end
    arch = along + 1j * rise * (1.0 - aside**_ARCH_POWER)
    slope = 1.0 + 1j * rise * _ARCH_POWER * aside ** (_ARCH_POWER - 1) * 2.0 / end
    argument = arch[:, None] * np.array(distance)[None, :]
    return arch, measure * slope, *bessel_pair(argument)


#: for the few distances of a panel of a table, which come again
_kept_arch = lru_cache(maxsize=_ARCHES)(_arch)


def _tail(end: float, distance: Floats, height: float) -> tuple[Complexes, ...]:
    """Nodes, weights, J0 and J1 of the path along the real axis, on to where nothing is left."""
    unit, weights = unit_gauss(_POINTS)
    last = end + _TAIL / height
    width = min(4.0 / max(float(distance.max()), 1e-9), 4.0 / height)
    panels = int(np.ceil((last - end) / width))
    borders = np.linspace(end, last, panels + 1)
    step = np.diff(borders)[:, None]
    tail = (borders[:-1, None] + step * unit).ravel()
    argument = tail[:, None] * distance[None, :]
    return (
        tail.astype(complex),
        (step * weights).ravel().astype(complex),
        *(each.astype(complex) for each in real_bessel_pair(argument)),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundTable(ReadOnlyArrays):
    """The remainder on a grid of Chebyshev nodes, divided by its main variation."""

    borders: Floats  #: borders of the panels in distance [m] (n_panels + 1,)
    heights: tuple[float, float]  #: lowest and highest sum of heights [m] (2,)
    values: Complexes  #: remainder times R e^(jkR) at the nodes (4, n_panels, nodes, height nodes)
    wavenumber: float  #: wavenumber [1/m]
    #: values at the sums of heights asked for last [1/m] (n_panels, levels, 4, nodes)
    lifted: dict[tuple[float, ...], Complexes] = field(default_factory=dict)

    def at(self, *, distance: Floats, height: Floats) -> Complexes:
        """Interpolate.

        Args:
            distance: horizontal distances [m] (n,)
            height: sums of heights [m] (n,)

        Returns:
            the four components [1/m] (4, n)
        """
        panel = np.clip(
            np.searchsorted(self.borders, distance, side="right") - 1, 0, len(self.borders) - 2
        )
        low, high = self.borders[panel], self.borders[panel + 1]
        across = chebyshev_weights(_NODES, 2.0 * (distance - low) / (high - low) - 1.0)
        levels, level = np.unique(height, return_inverse=True)
        scaled: Complexes = np.empty((4, len(distance)), dtype=complex)
        if len(levels) * len(self.borders) < len(height):
            # A level antenna over level points knows few heights: settle them first.
            lifted = self._lifted(tuple(levels.tolist()))
            group = panel * len(levels) + level
            order = np.argsort(group, kind="stable")
            starts = np.searchsorted(group[order], np.arange(len(lifted) * len(levels) + 1))
            for number, values in enumerate(lifted.reshape(-1, 4, _NODES)):
                here = order[starts[number] : starts[number + 1]]
                if len(here):
                    scaled[:, here] = values @ across[here].T
        else:
            split = np.stack([self.values.real, self.values.imag], axis=1)
            for each in np.unique(panel):
                here = np.flatnonzero(panel == each)
                risen = split[:, :, each] @ self._upward(height[here]).T
                both = np.einsum("csin,ni->csn", risen, across[here])
                scaled[:, here] = both[:, 0] + 1j * both[:, 1]
        away = np.hypot(distance, height)
        result: Complexes = scaled * np.exp(-1j * self.wavenumber * away) / away
        return result

    def _lifted(self, levels: tuple[float, ...]) -> Complexes:
        """Values at a few heights, which come again (n_panels, levels, 4, nodes)."""
        if levels not in self.lifted:
            self.lifted.clear()
            self.lifted[levels] = np.einsum(
                "cpij,lj->plci", self.values, self._upward(np.array(levels))
            )
        return self.lifted[levels]

    def _upward(self, height: Floats) -> Floats:
        """Weights of the height nodes at some sums of heights (n, height nodes)."""
        count = self.values.shape[3]
        span = self.heights[1] - self.heights[0]
        place = (
            np.zeros_like(height) if count == 1 else (2.0 * (height - self.heights[0]) / span - 1.0)
        )
        return chebyshev_weights(count, place)


def ground_table(
    *,
    largest_distance: float,
    heights: tuple[float, float],
    ground: Ground,
    frequency: float,
) -> GroundTable:
    """Tabulate the remainder for one ground and frequency; the last tables are remembered.

    Args:
        largest_distance: largest horizontal distance needed [m]
        heights: lowest and highest sum of heights needed [m] (2,)
    """
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    low = heights[0]
    inside = max(1.0, _poor_conductor_index(ground.complex_permittivity(frequency=frequency)))
    # Low above poor conductors the waves in the ground, much shorter, still reach up.
    widest = (2.0 if wavenumber * low * inside > _FADED else 5.0 / inside) / wavenumber
    borders = [0.0]
    while borders[-1] < largest_distance:
        borders.append(borders[-1] + min(max(borders[-1], low), widest))
    return _tabulated(tuple(borders), heights, ground, frequency)


@lru_cache(maxsize=_TABLES)
def _tabulated(
    borders: tuple[float, ...], heights: tuple[float, float], ground: Ground, frequency: float
) -> GroundTable:
    """Fill the table on given panels of distance; tables are read only, so they are shared."""
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    low, high = heights
    flat = high - low < 1e-9 * high
    # The remainder varies like e^(-jkR)/R^n: the more heights differ, the more nodes it takes.
    count = (
        1 if flat else int(np.clip(6 + 6 * np.log2(high / low) + wavenumber * (high - low), 6, 40))
    )
    nodes = chebyshev_nodes(_NODES)
    values = np.empty((4, len(borders) - 1, _NODES, count), dtype=complex)
    up = np.array([low]) if flat else low + (high - low) * (chebyshev_nodes(count) + 1.0) / 2.0
    for panel in range(len(borders) - 1):
        width = borders[panel + 1] - borders[panel]
        distance = borders[panel] + width * (nodes + 1.0) / 2.0
        field = reflected_remainder(
            distance=distance, height=up, ground=ground, frequency=frequency
        )
        away = np.hypot(distance[:, None], up[None, :])
        values[:, panel] = field * away * np.exp(1j * wavenumber * away)
    return GroundTable(
        borders=np.array(borders), heights=(low, high), values=values, wavenumber=wavenumber
    )
