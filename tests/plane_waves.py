"""Reflection at a half-space as a plain double sum over plane waves, for tests only.

Nothing is taken from the solver: no Bessel function, no closed angular integral, no split into
image and rest. By Weyl's identity e^(-jkR)/R = (1/2 pi j) int int e^(-j k.r)/kz dkx dky, a current
moment b sends down plane waves whose two polarisations the ground reflects by the coefficients
of A. Sommerfeld, Ann. Phys. 28, 1909 (in plane-wave form: H. Weyl, Ann. Phys. 60, 1919); the
reaction of the reflected field with moments a is the double integral below. It runs along a
rectangle in the complex plane of the transverse wavenumber, then along the real axis.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_PERMEABILITY

VACUUM_PERMITTIVITY = 1.0 / (VACUUM_PERMEABILITY * SPEED_OF_LIGHT**2)


def permittivity_of(ground, frequency):
    loss = ground.conductivity / (2.0 * np.pi * frequency * VACUUM_PERMITTIVITY)
    return ground.permittivity - 1j * loss


def fading(squared):
    """Root with a negative imaginary part."""
    root = np.sqrt(squared)
    return np.where(root.imag > 0.0, -root, root)


def path(wavenumber, permittivity, aside, height):
    """Nodes and weights: up, across, down to the real axis, out to where nothing is left."""
    turn = 1.2 * wavenumber * max(1.2, min(abs(permittivity) ** 0.5, 12.0))
    rise = min(0.3 * wavenumber, 1.0 / max(aside, 1e-9))
    end = turn + 18.0 / height
    corners = [0.0, 1j * rise, turn + 1j * rise, turn, end]
    finest = min(0.5 * wavenumber, 3.0 / max(aside, 1e-9), 6.0 / height)
    nodes, weights = np.polynomial.legendre.leggauss(12)
    places, measures = [], []
    for low, high in pairwise(corners):
        borders = np.linspace(low, high, int(np.ceil(abs(high - low) / finest)) + 1)
        step = np.diff(borders)[:, None] / 2.0
        places.append((borders[:-1, None] + step * (nodes + 1.0)).ravel())
        measures.append((step * weights).ravel())
    return np.concatenate(places), np.concatenate(measures)


def reaction(*, observed, source, ground, frequency):
    """Sum of a . F . b over moments of two antennas.

    Each is (points above ground (m, 3), vectors (m, 3, sets)); the result has (sets, sets).
    """
    wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
    permittivity = permittivity_of(ground, frequency)
    (here, first), (there, second) = observed, source
    aside = float(np.sqrt(((here[:, None, :2] - there[None, :, :2]) ** 2).sum(axis=2)).max())
    height = float(here[:, 2].min() + there[:, 2].min())
    total = 0.0
    for across, weight in zip(*path(wavenumber, permittivity, aside, height), strict=True):
        down = fading(np.array(wavenumber**2 - across**2))
        below = fading(np.array(permittivity * wavenumber**2 - across**2))
        transverse = (down - below) / (down + below)
        parallel = (permittivity * down - below) / (permittivity * down + below)
        count = 2 * int(np.ceil(abs(across) * aside)) + 24
        angle = 2.0 * np.pi * (np.arange(count) + 0.5) / count
        cosine, sine = np.cos(angle)[:, None], np.sin(angle)[:, None]
        waves = across * np.stack([cosine[:, 0], sine[:, 0]])
        up = np.exp(-1j * (here[:, :2] @ waves + down * here[:, 2:]))
        sent = np.exp(1j * (there[:, :2] @ waves + -down * there[:, 2:]))
        up_x, up_y, up_z = (up.T @ first[:, axis] for axis in range(3))
        sent_x, sent_y, sent_z = (sent.T @ second[:, axis] for axis in range(3))
        across_up = up_y * cosine - up_x * sine
        across_sent = sent_y * cosine - sent_x * sine
        rising = -down * (up_x * cosine + up_y * sine) + across * up_z
        falling = down * (sent_x * cosine + sent_y * sine) + across * sent_z
        both = transverse * (across_up.T @ across_sent)
        both = both + parallel * (rising.T @ falling) / wavenumber**2
        total = total + weight * across / down * both * 2.0 * np.pi / count
    return total / (2j * np.pi)
