"""An independent thin-wire solution for bent wires, written for the tests only.

Currents constant on stretches about the corners of a polygon of short pieces, charges constant
on the pieces, potentials met at their middles, the reduced kernel of a filament one radius away
(R. F. Harrington, Field Computation by Moment Methods, 1968, ch. 4). It shares nothing with the
package and is good to about a percent.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

LIGHT = 299_792_458.0
MU = 4e-7 * np.pi
EPSILON = 1.0 / (MU * LIGHT**2)


def _cut(points, longest):
    nodes = [np.asarray(points[0], float)]
    for low, high in pairwise(points):
        low, high = np.asarray(low, float), np.asarray(high, float)
        count = int(np.ceil(np.linalg.norm(high - low) / longest))
        nodes += [low + (high - low) * share for share in np.arange(1, count + 1) / count]
    return np.array(nodes)


def _potential(spots, ends, radius, wavenumber, coat=0.0):
    """Mean of e^(-jkR)/(4 pi R) over straight stretches, at spots (n_spots, n_stretches).

    A coat takes its share of the potential of the charges right there.
    """
    nodes, weights = np.polynomial.legendre.leggauss(4)
    total = 0.0
    low, high = ends
    length = np.linalg.norm(high - low, axis=1)
    middle = 0.5 * (low + high)
    gap = np.linalg.norm(spots[:, None] - middle[None], axis=2)
    for node, weight in zip(nodes, weights, strict=True):
        point = middle + 0.5 * node * (high - low)
        squared = ((spots[:, None] - point[None]) ** 2).sum(axis=2) + radius**2
        total = total + 0.5 * weight * np.exp(-1j * wavenumber * np.sqrt(squared)) / (
            4.0 * np.pi * np.sqrt(squared)
        )
    # On itself the kernel is all but singular: its static part in closed form.
    own = gap < 1e-9
    half = 0.5 * length
    static = np.arcsinh(half / radius) / (2.0 * np.pi * length) - 1j * wavenumber / (4.0 * np.pi)
    static = static - coat / (2.0 * np.pi * length)
    return np.where(own, static[None, :], total)


def solve(wires, *, radius, frequency, fed, longest, coat=0.0, also=()):
    """Impedance, and forward and backward gain along x [dBi], of polygons of wire, open or closed.

    ``fed`` is the wire number and the corner point at which it is fed, ``also`` are further ones on
    the same two terminals. ``coat`` is
    (1 - 1/permittivity) ln(outer/inner radius) of a dielectric layer, which lowers the potential of
    the charges under it (J. H. Richmond, E. H. Newman, Radio Science 11, 1976, from memory).
    """
    wavenumber = 2.0 * np.pi * frequency / LIGHT
    nodes = [_cut(points, longest) for points in wires]
    corner, before, after, wire_of = [], [], [], []
    for number, line in enumerate(nodes):
        corner.append(line[1:-1])
        before.append(line[:-2])
        after.append(line[2:])
        if np.linalg.norm(line[0] - line[-1]) < 1e-9:
            # A loop: current goes on past the point where it is closed.
            corner[-1] = np.vstack([corner[-1], line[:1]])
            before[-1] = np.vstack([before[-1], line[-2:-1]])
            after[-1] = np.vstack([after[-1], line[1:2]])
        wire_of += [number] * len(corner[-1])
    corner, before, after = (np.concatenate(each) for each in (corner, before, after))
    wire_of = np.array(wire_of)
    low, high = 0.5 * (before + corner), 0.5 * (corner + after)
    # The current's stretch bends at the corner: both halves count.
    vector = high - low
    halves = [(low, corner), (corner, high)]
    magnetic = 0.0
    for start, end in halves:
        for first, last in halves:
            product = (end - start) @ (last - first).T
            magnetic = magnetic + product * _potential(
                0.5 * (start + end), (first, last), radius, wavenumber
            )
    electric = 0.0
    pieces = {-1: (before, corner), 1: (corner, after)}
    for here, spots in ((-1, low), (1, high)):
        for there, ends in pieces.items():
            electric = electric + here * there * _potential(spots, ends, radius, wavenumber, coat)
    angular = 2.0 * np.pi * frequency
    matrix = 1j * angular * MU * magnetic + electric / (1j * angular * EPSILON)
    voltage = np.zeros(len(corner), dtype=complex)
    for number, point in (fed, *also):
        spot = np.asarray(wires[number][point], float)
        away = np.linalg.norm(corner - spot, axis=1) + np.where(wire_of == number, 0.0, np.inf)
        voltage[int(np.argmin(away))] = 1.0
    current = np.linalg.solve(matrix, voltage)
    taken = voltage @ current
    gains = []
    for sign in (1.0, -1.0):
        moment = ((current * np.exp(1j * wavenumber * sign * corner[:, 0])) @ vector)[1:]
        density = (wavenumber * MU * LIGHT / (4.0 * np.pi)) ** 2 * (np.abs(moment) ** 2).sum()
        power = 0.5 * taken.real
        gains.append(10.0 * np.log10(4.0 * np.pi * density / (2.0 * MU * LIGHT) / power))
    return 1.0 / taken, gains[0], gains[1]
