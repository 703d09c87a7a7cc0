"""The field far away: both polarisations, with the wave reflected by the ground."""

from __future__ import annotations

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass, replace
from boomwright.solver.assembly import PreparedSystem
from boomwright.solver.fresnel import fresnel_coefficients
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.ground import FREE_SPACE, Ground
from boomwright.solver.wire_system import images

#: Gauss points over elevation for a very small antenna; twice as many go round
_LEAST_POINTS = 14
#: phases of nodes towards directions that are held at once
_TURNS_AT_ONCE = 1_000_000
#: phases below this are rounding [rad]
_NO_TURN = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Moments:
    """Current moments of an antenna at its nodes, symmetry images written out."""

    points: Floats  #: nodes in space, heights above the ground [m] (m, 3)
    vectors: Complexes  #: current times length along x, y, z [A m] (f, m, 3)
    frequencies: Floats  #: frequencies [Hz] (f,)

    def lifted(self, *, height: float) -> Moments:
        """The same moments higher up.

        Args:
            height: added to all heights [m]
        """
        return replace(self, points=self.points + np.array([0.0, 0.0, height]))


def moments(*, assembly: PreparedSystem, unknowns: Complexes, frequencies: Floats) -> Moments:
    """Gather the current moments; images in material ground are left out.

    Args:
        unknowns: solved unknowns [A] (f, n)
        frequencies: [Hz] (f,)
    """
    square = (2.0 * np.pi * frequencies[:, None] / SPEED_OF_LIGHT) ** 2
    along = np.empty((len(frequencies), len(assembly.points)), dtype=complex)
    for cluster in assembly.clusters:
        mine = unknowns[:, cluster.free]
        by_square, by_bend = (mine @ ring.T for ring in cluster.ring_current)
        along[:, cluster.nodes] = mine @ cluster.current.T - square * by_square - by_bend
    symmetry = tuple(mirror for mirror in assembly.system.mirrors if not mirror.material)
    points, vectors = [], []
    for image in images(symmetry):
        points.append(assembly.points * image.flip + image.shift)
        vectors.append(along[:, :, None] * (assembly.tangents * image.flip * image.sign))
    return Moments(
        points=np.concatenate(points),
        vectors=np.concatenate(vectors, axis=1),
        frequencies=frequencies,
    )


def far_field(
    *, source: Moments, azimuth: Floats, elevation: Floats, ground: Ground = FREE_SPACE
) -> tuple[Complexes, Complexes]:
    """Far field times distance, without the factor e^(-jkr) {balanis-2005, eq. 3-58}.

    Over ground, the wave that left downwards is reflected by the plane-wave coefficients;
    the surface wave is not in it. Below the horizon of a ground the field is zero.

    Args:
        azimuth: counter-clockwise from the heading [rad] (d,)
        elevation: above the horizon [rad] (d,)

    Returns:
        vertical (along rising elevation) and horizontal (along rising azimuth) component [V] (f, d)
    """
    if ground.kind == "free space":
        return _free_field(source, azimuth, elevation, (1.0,))[0]
    (vertical, horizontal), (down_vertical, down_horizontal) = _free_field(
        source, azimuth, elevation, (1.0, -1.0)
    )
    above = elevation >= 0.0
    for row, frequency in enumerate(source.frequencies):
        if ground.kind == "perfect":
            on_horizontal = np.full(len(azimuth), -1.0 + 0.0j)
            on_vertical = -on_horizontal
        else:
            on_horizontal, on_vertical = fresnel_coefficients(
                elevation=np.maximum(elevation, 0.0),
                permittivity=ground.complex_permittivity(frequency=float(frequency)),
            )
        horizontal[row] += on_horizontal * down_horizontal[row]
        vertical[row] += on_vertical * down_vertical[row]
    return vertical * above, horizontal * above


def _free_field(
    source: Moments, azimuth: Floats, elevation: Floats, sides: tuple[float, ...]
) -> list[tuple[Complexes, Complexes]]:
    """Both components towards the elevation times each side: 1 upwards, -1 downwards."""
    shape = (len(source.frequencies), len(azimuth))
    found = [(np.empty(shape, dtype=complex), np.empty(shape, dtype=complex)) for _ in sides]
    step = max(1, _TURNS_AT_ONCE // len(source.points))
    for start in range(0, len(azimuth), step):
        some = slice(start, start + step)
        parts = _free_field_at_once(source, azimuth[some], elevation[some], sides)
        for whole, part in zip(found, parts, strict=True):
            whole[0][:, some], whole[1][:, some] = part
    return found


def _free_field_at_once(
    source: Moments, azimuth: Floats, elevation: Floats, sides: tuple[float, ...]
) -> list[tuple[Complexes, Complexes]]:
    """The same towards so few directions that memory holds every node's phase."""
    cos_el, sin_el = np.cos(elevation), np.sin(elevation)
    cos_az, sin_az = np.cos(azimuth), np.sin(azimuth)
    highest = 2.0 * np.pi * float(source.frequencies.max()) / SPEED_OF_LIGHT
    if _still(source.points[:, 1], highest * cos_el * sin_az):
        source = _gathered(source)
    left = np.stack([-sin_az, cos_az, np.zeros_like(azimuth)])
    ups = [np.stack([-side * sin_el * cos_az, -side * sin_el * sin_az, cos_el]) for side in sides]
    shape, turns = (len(source.frequencies), len(azimuth)), (len(source.points), len(azimuth))
    found = [(np.empty(shape, dtype=complex), np.empty(shape, dtype=complex)) for _ in sides]
    for row, frequency in enumerate(source.frequencies):
        wavenumber = 2.0 * np.pi * frequency / SPEED_OF_LIGHT
        level = _turn(source.points[:, 0], wavenumber * cos_el * cos_az) * _turn(
            source.points[:, 1], wavenumber * cos_el * sin_az
        )
        rise = _turn(source.points[:, 2], wavenumber * sin_el)
        factor = -1j * wavenumber * VACUUM_IMPEDANCE / (4.0 * np.pi)
        for side, up, (vertical, horizontal) in zip(sides, ups, found, strict=True):
            turned = level * (rise if side > 0.0 else rise.conj())
            summed = source.vectors[row].T @ np.broadcast_to(turned, turns)
            vertical[row] = factor * (summed * up).sum(axis=0)
            horizontal[row] = factor * (summed * left).sum(axis=0)
    return found


def _turn(place: Floats, wavenumber: Floats) -> Complexes:
    """Phase factors of nodes along one axis (m, d), or (1, 1) where nothing turns.

    Beams are straight and symmetric: their nodes share most coordinates, or have them mirrored,
    and the exponential is what the far field costs.
    """
    if _still(place, wavenumber):
        return np.ones((1, 1), dtype=complex)
    distances, which = np.unique(np.abs(place), return_inverse=True)
    turned: Complexes = np.exp(1j * np.outer(distances, wavenumber))[which]
    turned.imag *= np.sign(place)[:, None]
    return turned


def _still(place: Floats, wavenumber: Floats) -> bool:
    """Whether no phase turns from node to node along one axis."""
    return bool(np.abs(place).max() * np.abs(wavenumber).max() < _NO_TURN)


def _gathered(source: Moments) -> Moments:
    """Nodes that differ only along y as one."""
    spots, which = np.unique(source.points[:, 0] + 1j * source.points[:, 2], return_inverse=True)
    order = np.argsort(which, kind="stable")
    starts = np.searchsorted(which[order], np.arange(len(spots)))
    return Moments(
        points=np.stack([spots.real, np.zeros(len(spots)), spots.imag], axis=1),
        vectors=np.add.reduceat(source.vectors[:, order], starts, axis=1),
        frequencies=source.frequencies,
    )


def radiated_power(*, source: Moments, ground: Ground = FREE_SPACE) -> Floats:
    """Radiated power by integration of the far field over all directions [W] (f,).

    Args:
        ground: free space, or perfect ground; over real ground this is what leaves upwards
    """
    # The density holds harmonics up to twice the electrical radius of the antenna and its image.
    centre = source.points.mean(axis=0)
    reach = float(np.sqrt(((source.points - centre) ** 2).sum(axis=1)).max())
    if ground.kind != "free space":
        reach += float(source.points[:, 2].max())
    wavenumber = 2.0 * np.pi * float(source.frequencies.max()) / SPEED_OF_LIGHT
    points = int(np.ceil(1.1 * wavenumber * reach)) + _LEAST_POINTS
    nodes, weights = unit_gauss(points)
    if ground.kind == "free space":
        nodes, weights = 2.0 * nodes - 1.0, 2.0 * weights
    azimuth = np.arange(2 * points) * np.pi / points
    elevation = np.arcsin(nodes)
    grid_az, grid_el = np.meshgrid(azimuth, elevation, indexing="xy")
    vertical, horizontal = far_field(
        source=source, azimuth=grid_az.ravel(), elevation=grid_el.ravel(), ground=ground
    )
    density = (np.abs(vertical) ** 2 + np.abs(horizontal) ** 2) / (2.0 * VACUUM_IMPEDANCE)
    solid = np.repeat(weights, 2 * points) * np.pi / points
    power: Floats = density @ solid
    return power
