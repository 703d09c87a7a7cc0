"""An independent solution for conducting surfaces in three dimensions, written for the tests only.

Electric-field integral equation on triangles with linear currents across their edges
(R. F. Harrington, Field Computation by Moment Methods, 1968, for the method; S. M. Rao, D. R.
Wilton and A. W. Glisson, IEEE Trans. AP-30, 1982, for the functions; D. R. Wilton and others,
IEEE Trans. AP-32, 1984, for the static integrals; all from memory). It knows round tubes only as
polygons, shares nothing with the package and is good to about a percent of a reactance.

Antennas are symmetric: y = 0 is crossed by currents at right angles, x = 0 and, where wanted,
z = 0 by none. Only the part at positive coordinates is meshed.
"""

from __future__ import annotations

import numpy as np
from scipy.sparse import csr_matrix

LIGHT = 299_792_458.0
MU = 4e-7 * np.pi
EPSILON = 1.0 / (MU * LIGHT**2)

_NEAR, _FAR = 2.0, 3
_A, _B, _C, _D = 0.059715871789770, 0.470142064105115, 0.797426985353087, 0.101286507323456
#: points of a triangle and their weights, exact to the fifth and second degree
SEVEN = (
    np.array(
        [[1 / 3] * 3, [_A, _B, _B], [_B, _A, _B], [_B, _B, _A], [_C, _D, _D], [_D, _C, _D],
         [_D, _D, _C]]
    ),
    np.array([0.225, *[0.132394152788506] * 3, *[0.125939180544827] * 3]),
)  # fmt: skip
THREE = (np.full((3, 3), 1 / 6) + 0.5 * np.eye(3), np.full(3, 1 / 3))


class Mesh:
    """Triangles; points nearer than a tenth of a micrometre are one."""

    def __init__(self):
        self.points, self.triangles, self._known = [], [], {}

    def _number(self, point):
        key = tuple(np.round(point / 1e-7).astype(int))
        if key not in self._known:
            self._known[key] = len(self.points)
            self.points.append(point)
        return self._known[key]

    def add(self, grid):
        """Split the quadrilaterals of a grid of points (n, m, 3) along their shorter diagonals."""
        grid = np.where(np.abs(grid) < 1e-10, 0.0, grid)
        number = np.array([[self._number(point) for point in row] for row in grid])
        for i in range(len(grid) - 1):
            for j in range(len(grid[0]) - 1):
                a, b, c, d = number[i, j], number[i + 1, j], number[i + 1, j + 1], number[i, j + 1]
                one = np.linalg.norm(grid[i, j] - grid[i + 1, j + 1])
                two = np.linalg.norm(grid[i + 1, j] - grid[i, j + 1])
                pair = ((a, b, c), (a, c, d)) if one <= two * (1 + 1e-9) else ((a, b, d), (b, c, d))
                self.triangles += [each for each in pair if len(set(each)) == 3]


def _images(flat):
    """Reflections: of places, of currents, and the sign of charges."""
    found = []
    for x in (1, -1):
        for y in (1, -1):
            for z in (1, -1) if flat else (1,):
                current = np.array([1.0, 1.0, 1.0])
                current *= (-1, 1, 1) if x < 0 else 1
                current *= (-1, 1, -1) if y < 0 else 1
                current *= (1, 1, -1) if z < 0 else 1
                found.append((np.array([x, y, z], float), current, float(y)))
    return found


def _static(spots, corners):
    """Integrals of 1/R and of r/R over triangles, seen from spots (k, 3)."""
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    normal = np.cross(one, two)
    normal /= np.linalg.norm(normal, axis=1)[:, None]
    height = np.einsum("kx,kx->k", spots - corners[:, 0], normal)
    foot = spots - height[:, None] * normal
    plain, vector = np.zeros(len(spots)), np.zeros((len(spots), 3))
    for side in range(3):
        start, edge = corners[:, side], corners[:, (side + 1) % 3] - corners[:, side]
        length = np.linalg.norm(edge, axis=1)
        edge = edge / length[:, None]
        outward = np.cross(edge, normal)
        low = np.einsum("kx,kx->k", start - foot, edge)
        high = low + length
        off = np.einsum("kx,kx->k", start - foot, outward)
        nearest = np.sqrt(off**2 + height**2)
        far, near = np.sqrt(high**2 + nearest**2), np.sqrt(low**2 + nearest**2)
        above = np.where(high >= 0, far + high, nearest**2 / np.maximum(far - high, 1e-300))
        below = np.where(low >= 0, near + low, nearest**2 / np.maximum(near - low, 1e-300))
        clear = nearest > 1e-12
        logarithm = np.where(
            clear, np.log(np.where(clear, above, 1) / np.where(clear, below, 1)), 0
        )
        angle = np.arctan2(off * high, nearest**2 + np.abs(height) * far)
        angle -= np.arctan2(off * low, nearest**2 + np.abs(height) * near)
        plain += off * logarithm - np.abs(height) * angle
        vector += outward * (0.5 * (nearest**2 * logarithm + high * far - low * near))[:, None]
    return plain, vector + foot * plain[:, None]


def _functions(points, triangles, area):
    """Edge functions: their edges, and each half with triangle, free corner and slope."""
    edges = {}
    for number, triangle in enumerate(triangles):
        for side in range(3):
            pair = tuple(sorted((triangle[side], triangle[(side + 1) % 3])))
            edges.setdefault(pair, []).append((number, triangle[(side + 2) % 3]))
    found, halves = [], []
    for pair, members in edges.items():
        length = np.linalg.norm(points[pair[0]] - points[pair[1]])
        if len(members) == 1:
            # On y = 0 the current goes on in the image; any other border is an edge of metal.
            groups = [members] if np.all(np.abs(points[list(pair), 1]) < 1e-9) else []
        else:
            groups = [[members[0], other] for other in members[1:]]
        for group in groups:
            signs = [-1.0] if len(group) == 1 else [1.0, -1.0]
            for (triangle, corner), sign in zip(group, signs, strict=True):
                halves.append((len(found), triangle, corner, sign * length / (2 * area[triangle])))
            found.append((pair, length, tuple(triangle for triangle, _ in group)))
    return found, halves


def _potentials(places, wavenumber, image):
    """Integrals over pairs of triangles: G, r G, J G and r.J G, J the image's current at r'."""
    corners, area, seven, three = places
    flip, turn, _ = image
    centre = corners.mean(axis=1)
    reach = np.linalg.norm(corners - centre[:, None], axis=2).max(axis=1)
    apart = np.linalg.norm(centre[:, None] - (centre * flip)[None], axis=2)
    first, second = np.nonzero(apart < _NEAR * (reach[:, None] + reach[None]))
    count = len(corners)
    plain = np.zeros((count, count), complex)
    outer, inner = (np.zeros((count, count, 3), complex) for _ in range(2))
    product = np.zeros((count, count), complex)
    for a in range(3):
        for b in range(3):
            here, there = three[:, a], three[:, b]
            distance = np.linalg.norm(here[:, None] - (there * flip)[None], axis=2)
            kernel = np.exp(-1j * wavenumber * distance) / np.maximum(distance, 1e-12)
            kernel[first, second] = 0.0
            kernel *= area[:, None] * area[None] / 9.0
            plain += kernel
            outer += kernel[:, :, None] * here[:, None]
            inner += kernel[:, :, None] * (there * turn)[None]
            product += kernel * (here @ (there * turn).T)
    for a in range(7):
        here, weight = seven[first, a], SEVEN[1][a] * area[first]
        one, many = _static(here, corners[second] * flip)
        parts = [(weight * one, weight[:, None] * many * flip * turn)]
        for b in range(3):
            there = three[second, b]
            distance = np.linalg.norm(here - there * flip, axis=1)
            close = distance < 1e-9
            smooth = (np.exp(-1j * wavenumber * distance) - 1) / np.where(close, 1, distance)
            smooth = np.where(close, -1j * wavenumber, smooth) * weight * area[second] / 3.0
            parts.append((smooth, smooth[:, None] * there * turn))
        for scalar, vector in parts:
            plain[first, second] += scalar
            outer[first, second] += scalar[:, None] * here
            inner[first, second] += vector
            product[first, second] += np.einsum("kx,kx->k", here, vector)
    return plain, outer, inner, product


def impedance(mesh, *, frequency, fed, at=0.0, flat=False):
    """Impedance of an antenna fed around its tube at y = ``at``, and likewise at y = -``at``.

    ``fed`` says whether a point belongs to the tube that is fed; the voltages of two ports add
    up. ``flat`` makes z = 0 a plane of symmetry.
    """
    points, triangles = np.array(mesh.points), np.array(mesh.triangles)
    corners = points[triangles]
    cross = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    area = 0.5 * np.linalg.norm(cross, axis=1)
    functions, halves = _functions(points, triangles, area)
    number, where, free, slope = (np.array(column) for column in zip(*halves, strict=True))
    gather = csr_matrix((slope, (number, np.arange(len(number)))))
    free = points[free]
    places = (corners, area, np.einsum("qa,tax->tqx", SEVEN[0], corners),
              np.einsum("qa,tax->tqx", THREE[0], corners))  # fmt: skip
    angular = 2.0 * np.pi * frequency
    matrix = np.zeros((len(functions), len(functions)), complex)
    pairs = np.ix_(where, where)
    for image in _images(flat):
        plain, outer, inner, product = _potentials(places, angular / LIGHT, image)
        turned = free * image[1]
        magnetic = (
            product[pairs]
            - np.einsum("ax,abx->ab", free, inner[pairs])
            - np.einsum("bx,abx->ab", turned, outer[pairs])
            + (free @ turned.T) * plain[pairs]
        )
        electric = 4.0 * image[2] * plain[pairs]
        matrix += gather @ (1j * angular * MU * magnetic + electric / (1j * angular * EPSILON)) @ (
            gather.T
        ) / (4.0 * np.pi)  # fmt: skip
    middle = corners.mean(axis=1)[:, 1]
    drive = np.zeros(len(functions))
    for index, (pair, length, members) in enumerate(functions):
        ends = points[list(pair)]
        if np.all(np.abs(ends[:, 1] - at) < 1e-9) and all(fed(end) for end in ends):
            sign = 1.0 if len(members) == 1 else np.sign(middle[members[1]] - middle[members[0]])
            drive[index] = sign * length
    around = 4 if flat else 2
    return complex(1.0 / (around * drive @ np.linalg.solve(matrix, drive / 2.0)))
