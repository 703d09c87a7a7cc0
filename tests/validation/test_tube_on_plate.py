"""Plates beside a tube: the equivalent radius by charges on the outline, and by conformal maps.

The logarithmic capacity of a section is the radius of the round wire that acts alike. Known in
closed form (from memory): a strip, a quarter of its width; a square, 0.59017 of its side. A line
current before a strip without net current follows from the map of the strip on a circle; the
charges here carry a free sum instead.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from boomwright.base import VACUUM_PERMEABILITY
from boomwright.parts import Element, Mount, TubeSection
from boomwright.parts.mounts import SQUARE_AS_ROUND
from boomwright.solver import mount_effect


def kernel(points):
    """Potentials -ln r of unit line charges on the stretches of outlines, and their lengths."""
    first = np.concatenate([line[:-1] for line in points])
    last = np.concatenate([line[1:] for line in points])
    length = np.linalg.norm(last - first, axis=1)
    along = (last - first) / length[:, None]
    gap = (0.5 * (first + last))[:, None] - (0.5 * (first + last))[None]
    x = np.einsum("ijk,jk->ij", gap, along)
    y = np.abs(gap[..., 0] * along[None, :, 1] - gap[..., 1] * along[None, :, 0])

    def integral(u):
        square = np.maximum(u * u + y * y, 1e-300)
        return 0.5 * u * np.log(square) - u + y * np.arctan2(u, np.maximum(y, 1e-300))

    return integral(x - length / 2) - integral(x + length / 2), length


def capacity(points):
    matrix, length = kernel(points)
    count = len(length)
    whole = np.block([[matrix, -np.ones((count, 1))], [length[None, :], np.zeros((1, 1))]])
    return math.exp(-np.linalg.solve(whole, np.append(np.zeros(count), 1.0))[count])


def spread(low, high, count):
    """Places that crowd towards both ends."""
    return low + (high - low) * (1 - np.cos(np.linspace(0, np.pi, count + 1))) / 2


def strip(width, level, count=120):
    half = spread(0.0, width / 2, count)
    x = np.concatenate([-half[:0:-1], half])
    return np.stack([x, np.full(len(x), level)], axis=1)


def circle(count=240):
    angle = np.pi * (1 - np.cos(np.linspace(0, np.pi, count + 1)))
    return np.stack([np.sin(angle), -np.cos(angle)], axis=1)


def effect_ratio(mount, *, radius):
    """How many times thicker the package takes the element along its plate, the boom left out."""

    def inductance(each):
        half = (TubeSection(diameter=2 * radius, length=0.5),)
        element = Element(role="director", position=0.0, half=half, mount=each)
        return mount_effect(element=element, wavelength=1e3).inductance

    bare = Mount(kind=mount.kind, boom=mount.boom, clearance=mount.clearance)
    lost = inductance(bare) - inductance(mount)
    return math.exp(2 * math.pi * lost / (VACUUM_PERMEABILITY * mount.plate[0]))


def test_closed_forms_of_strip_and_square():
    assert capacity([strip(1.0, 0.0)]) == pytest.approx(0.25, rel=1e-3)
    side = spread(-0.5, 0.5, 80)
    edge = np.full(len(side), 0.5)
    square = [np.stack(pair, axis=1) for pair in
              ((side, edge), (side, -edge), (edge, side), (-edge, side))]  # fmt: skip
    assert capacity(square) == pytest.approx(SQUARE_AS_ROUND / 2, rel=1e-3)


@pytest.mark.parametrize("width", [2.0, 3.5, 5.0, 7.0, 10.0, 16.0, 30.0])
def test_tube_that_lies_on_a_plate(width):
    radius = 0.01
    found = effect_ratio(
        Mount(kind="bonded above", boom=(0.05,), clearance=0.0, plate=(0.1, width * radius)),
        radius=radius,
    )
    assert found == pytest.approx(capacity([circle(), strip(width, -1.0)]), rel=0.015)


@pytest.mark.parametrize(("width", "height"), [(6.0, 1.6), (10.0, 1.4), (10.0, 3.0), (20.0, 2.0)])
def test_tube_before_a_plate_without_current(width, height):
    # Charges on the strip add up to nothing and make it an equipotential; the wire is thin.
    matrix, length = kernel([strip(width, 0.0)])
    count = len(length)
    x = strip(width, 0.0)[:, 0]
    middle = 0.5 * (x[1:] + x[:-1])
    own = -np.log(np.hypot(middle, height))
    whole = np.block([[matrix, -np.ones((count, 1))], [length[None, :], np.zeros((1, 1))]])
    charge = np.linalg.solve(whole, np.append(-own, 0.0))[:count]
    lowered = -(charge * length) @ own
    radius = 0.01
    mount = Mount(
        kind="insulated above",
        boom=(0.05,),
        clearance=(height - 1.0) * radius,
        plate=(0.1, width * radius),
    )
    assert effect_ratio(mount, radius=radius) == pytest.approx(math.exp(lowered), rel=2e-3)
