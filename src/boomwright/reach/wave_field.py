"""The field component along the elements, over many points at once, for pictures of the wave.

The same short currents and the same ground as the solver's near field, but only one component
and only as finely as each point needs: close points see many short currents, distant ones few,
and what real ground adds beyond its quasi-static image is read off one table of distances and
heights. The test against ``near_field`` keeps the two together.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE, VACUUM_PERMEABILITY
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver import Ground, Sources, reflected_remainder

#: distance up to which a point sees the closely laid currents [wavelengths]
CLOSE_WAVELENGTHS = 0.21
#: step of the table of ground fields [wavelengths]
_TABLE_STEP = 1.0 / 80.0
#: heights of source and point are told apart to this [wavelengths]
_HEIGHT_STEP = 1e-3
#: point-source pairs worked on at once
_PAIRS = 400_000

LaySources = Callable[[float], Sources]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GroundRest:
    """What real ground adds to its quasi-static image, by distance and height."""

    ground: Ground
    frequency: float  #: frequency [Hz]
    spacing: float  #: step of the distances, which begin at 0 [m]
    #: sums of heights of source and point, in whole height steps, rising [-] (n,)
    levels: NDArray[np.int64]
    values: Complexes  #: the four components without their travelling phase (4, m, n)

    @property
    def wavelength(self) -> float:
        """Wavelength [m]."""
        return SPEED_OF_LIGHT / self.frequency


def ground_rest(
    *, sources: Sequence[Sources], points: Sequence[Floats], ground: Ground
) -> GroundRest:
    """Tabulate what real ground adds, for some sources and points {sommerfeld-1909}.

    Args:
        points: clouds of points above the ground [m] (p, 3)
    """
    frequency = sources[0].frequency
    wavelength = SPEED_OF_LIGHT / frequency
    heights, farthest = set[int](), 0.0
    for each in sources:
        for cloud in points:
            heights |= set(np.unique(_levels(cloud, each, wavelength)).tolist())
            gap = cloud[:, None, :2] - each.points[None, :, :2]
            farthest = max(farthest, float(np.einsum("pmi,pmi->pm", gap, gap).max()))
    levels = np.array(sorted(heights))
    spacing = _TABLE_STEP * wavelength
    distance: Floats = np.arange(int(np.sqrt(farthest) / spacing) + 2.0) * spacing
    raised = _raised(levels, wavelength)
    away = np.hypot(distance[:, None], raised[None, :])
    # Without its travelling phase the remainder is smooth enough for straight interpolation.
    values = reflected_remainder(
        distance=distance, height=raised, ground=ground, frequency=frequency
    ) * (away * np.exp(2j * np.pi / wavelength * away))
    return GroundRest(
        ground=ground, frequency=frequency, spacing=spacing, levels=levels, values=values
    )


def _levels(points: Floats, sources: Sources, wavelength: float) -> NDArray[np.int64]:
    step = _HEIGHT_STEP * wavelength
    return np.round((points[:, None, 2] + sources.points[None, :, 2]) / step).astype(np.int64)


def _raised(levels: NDArray[np.int64], wavelength: float) -> Floats:
    # The table is not made for a source and a point both on the ground.
    result: Floats = np.maximum(levels, 1) * (_HEIGHT_STEP * wavelength)
    return result


def field_along(
    *,
    lay: LaySources,
    points: Floats,
    clearance: float,
    wavelength: float,
    image: complex = 0.0,
    rest: GroundRest | None = None,
) -> Complexes:
    """Component of the electric field along y {balanis-2005, eq. 4-8}.

    Args:
        points: where to compute, above the ground [m] (p, 3)
        clearance: smallest distance of any point from a wire's axis [m]
        image: strength of the image in the ground at height zero: 0 in free space, 1 over
            perfect ground
            [-]
        rest: what real ground adds to that image; None for none

    Returns:
        the component, peak [V/m] (p,)
    """
    coarse = lay(CLOSE_WAVELENGTHS * wavelength)
    field = np.zeros(len(points), dtype=complex)
    if not coarse.points.size:
        return field
    near = _distance(points, coarse) < 1.3 * CLOSE_WAVELENGTHS * wavelength
    field[~near] = _direct(coarse, points[~near])
    if near.any():
        field[near] = _direct(lay(clearance), points[near])
    if image:
        # The image is seen from at least the height of the lowest wire.
        low = float(points[:, 2].min()) + float(coarse.points[:, 2].min())
        distance = max(min(low, CLOSE_WAVELENGTHS * wavelength), clearance)
        field += image * _direct(_mirrored(lay(distance)), points)
    if rest is not None:
        field += _rest_field(coarse, points, rest)
    return field


def _distance(points: Floats, sources: Sources) -> Floats:
    """Distance of each point from the nearest short current."""
    nearest = np.full(len(points), np.inf)
    for source in sources.points:
        gap = points - source
        np.minimum(nearest, np.einsum("pi,pi->p", gap, gap), out=nearest)
    result: Floats = np.sqrt(nearest)
    return result


def _mirrored(sources: Sources) -> Sources:
    return Sources(
        points=sources.points * [1.0, 1.0, -1.0],
        moments=sources.moments * np.array([-1.0, -1.0, 1.0]),
        frequency=sources.frequency,
    )


def _direct(sources: Sources, points: Floats) -> Complexes:
    wavenumber = 2.0 * np.pi * sources.frequency / SPEED_OF_LIGHT
    field = np.empty(len(points), dtype=complex)
    chunk = max(1, _PAIRS // len(sources.points))
    for start in range(0, len(points), chunk):
        part = slice(start, start + chunk)
        gap = points[part, None, :] - sources.points[None, :, :]
        away = np.sqrt(np.einsum("pmi,pmi->pm", gap, gap))
        phase = 1j * wavenumber * away
        wave = np.exp(-phase) / away
        near = 1.0 / phase + 1.0 / phase**2
        along = np.einsum("pmi,mi->pm", gap, sources.moments) * gap[..., 1] / away**2
        total = wave * ((1.0 + near) * sources.moments[:, 1] - (1.0 + 3.0 * near) * along)
        field[part] = total.sum(axis=1)
    result: Complexes = -1j * wavenumber * VACUUM_IMPEDANCE / (4.0 * np.pi) * field
    return result


def _rest_field(sources: Sources, points: Floats, rest: GroundRest) -> Complexes:
    wavenumber = 2.0 * np.pi / rest.wavelength
    which = np.searchsorted(rest.levels, _levels(points, sources, rest.wavelength))
    raised = _raised(rest.levels, rest.wavelength)
    field = np.zeros(len(points), dtype=complex)
    for number, moment in enumerate(sources.moments):
        gap = points[:, :2] - sources.points[number, :2]
        distance = np.hypot(gap[:, 0], gap[:, 1])
        # Straight above the source either direction will do.
        ray = np.where(distance[:, None] > 0.0, gap, [1.0, 0.0])
        ray /= np.maximum(distance, 0.0)[:, None] + (distance == 0.0)[:, None]
        place = distance / rest.spacing
        low = place.astype(int)
        share = place - low
        level = which[:, number]
        picked = rest.values[:, low, level] * (1.0 - share) + rest.values[:, low + 1, level] * share
        on_radial = ray[:, 0] * moment[0] + ray[:, 1] * moment[1]
        on_across = ray[:, 0] * moment[1] - ray[:, 1] * moment[0]
        part = (picked[0] * on_radial + picked[3] * moment[2]) * ray[:, 1]
        part += picked[1] * on_across * ray[:, 0]
        away = np.hypot(distance, raised[level])
        field += part * np.exp(-1j * wavenumber * away) / away
    angular = 2.0 * np.pi * rest.frequency
    result: Complexes = -1j * angular * VACUUM_PERMEABILITY / (4.0 * np.pi) * field
    return result
