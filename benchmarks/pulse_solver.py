"""A textbook thin-wire solver for comparison: pulses, point matching, reduced kernel.

R. F. Harrington, "Field Computation by Moment Methods", 1968, chapter 4: currents are constant
on short pieces, charges on pieces shifted by half of one, and the potentials are met at the
middles. Parallel straight elements, symmetric about the boom, diameters in steps; only one half
is unknown. The static part of each integral is taken in closed form, the rest by the midpoint
rule, so that a fine cut is limited by the method and not by its quadrature. Written for
``solver_speed.py`` only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

LIGHT = 299_792_458.0
PERMEABILITY = 1.25663706212e-6
PERMITTIVITY = 1.0 / (PERMEABILITY * LIGHT**2)

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rod:
    """Half an element: place on the boom and tubes (length, radius) from the boom outwards [m]."""

    place: float
    sections: tuple[tuple[float, float], ...]


class PulseArray:
    """The cut of an array and everything that does not depend on frequency."""

    def __init__(self, rods: tuple[Rod, ...], driven: int, pieces: int) -> None:
        """Cut every half into equal pieces; the first one straddles the boom."""
        middles, lengths, radii, places, borders, border_radii = [], [], [], [], [], []
        self.starts: list[int] = []
        for rod in rods:
            half = sum(length for length, _ in rod.sections)
            step = half / pieces
            at = step * np.arange(pieces)
            limits = np.cumsum([length for length, _ in rod.sections])
            radius = np.array([each for _, each in rod.sections])
            self.starts.append(sum(len(each) for each in middles))
            middles.append(at)
            lengths.append(np.full(pieces, step))
            radii.append(radius[np.minimum(np.searchsorted(limits, at), len(radius) - 1)])
            places.append(np.full(pieces, rod.place))
            edge = at + step / 2.0
            borders.append(edge)
            border_radii.append(radius[np.minimum(np.searchsorted(limits, edge), len(radius) - 1)])
        self.middle, self.step = np.concatenate(middles), np.concatenate(lengths)
        self.radius, self.place = np.concatenate(radii), np.concatenate(places)
        self.border, self.border_radius = np.concatenate(borders), np.concatenate(border_radii)
        self.driven = self.starts[driven]
        self.first = np.zeros(len(self.middle), dtype=bool)
        self.first[self.starts] = True
        self.current_distance, self.current_static = self._static(self.middle, self.radius)
        self.charge_distance, self.charge_static = self._static(self.border, self.border_radius)

    def _static(self, at: Floats, radius: Floats) -> tuple[list[Floats], list[Floats]]:
        """Distances, and integrals of 1/R over each piece by the logarithm, direct and mirrored."""
        across = (self.place[:, None] - self.place[None, :]) ** 2
        off = np.where(across == 0.0, radius[None, :] ** 2, across)
        distances, statics = [], []
        for side in (1.0, -1.0):
            gap = at[:, None] - side * at[None, :]
            half = self.step[None, :] / 2.0
            root = np.sqrt(off)
            statics.append(np.arcsinh((gap + half) / root) - np.arcsinh((gap - half) / root))
            distances.append(np.sqrt(gap**2 + off))
        return distances, statics

    def solve(self, frequency: float) -> tuple[complex, Complexes]:
        """Impedance, and the currents for one ampere at the feed."""
        wavenumber = 2.0 * math.pi * frequency / LIGHT
        angular = 2.0 * math.pi * frequency
        vector = self._potentials(self.current_distance, self.current_static, wavenumber)
        scalar = self._potentials(self.charge_distance, self.charge_static, wavenumber)
        direct, mirrored = vector
        direct = direct + np.where(self.first[None, :], 0.0, mirrored)
        # Charge on a border: current in from its piece, out to the next; opposite in the mirror.
        charge = scalar[0] - scalar[1]
        charge = charge / self.step[None, :]
        spread = charge.copy()
        inner = np.flatnonzero(~self.first)
        spread[:, inner] -= charge[:, inner - 1]
        # The border before a piece is the one of its inner neighbour, or its own mirrored.
        before = np.empty_like(spread)
        before[inner] = spread[inner - 1]
        before[self.starts] = -spread[self.starts]
        matrix = 1j * angular * PERMEABILITY / (4.0 * math.pi) * direct * self.step[:, None]
        matrix += (spread - before) / (1j * angular * PERMITTIVITY * 4.0 * math.pi)
        driven = np.zeros(len(self.middle), dtype=complex)
        driven[self.driven] = 1.0
        currents = np.linalg.solve(matrix, driven)
        feed = currents[self.driven]
        return complex(1.0 / feed), currents / feed

    @staticmethod
    def _potentials(
        distances: list[Floats], statics: list[Floats], wavenumber: float
    ) -> list[Complexes]:
        found = []
        for distance, static in zip(distances, statics, strict=True):
            width = static * distance
            found.append(static + (np.exp(-1j * wavenumber * distance) - 1.0) / distance * width)
        return found

    def gain_dbi(self, frequency: float, impedance: complex, currents: Complexes) -> float:
        """Gain along the boom, from the power the feed accepts."""
        wavenumber = 2.0 * math.pi * frequency / LIGHT
        share = np.where(self.first, 1.0, 2.0) * self.step
        total = (currents * share * np.exp(1j * wavenumber * self.place)).sum()
        impedance_of_space = PERMEABILITY * LIGHT
        density = (impedance_of_space * wavenumber / (4.0 * math.pi)) ** 2 * abs(total) ** 2
        density /= 2.0 * impedance_of_space
        return 10.0 * math.log10(4.0 * math.pi * density / (0.5 * impedance.real))
