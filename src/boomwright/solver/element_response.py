"""An element reduced to how it answers smooth fields and its own feed.

Parallel elements a thirtieth of a wavelength apart or more see each other's field as a smooth
even function along their length; a few even Legendre polynomials hold it. For each family of
elements (one adjustable tip) the full solution is condensed to an impedance matrix over those
polynomials and the feed. That matrix is smooth in the adjustable length, so a few lengths,
solved in full, give all others by Chebyshev interpolation.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.solver.assembly import assemble
from boomwright.solver.gauss import unit_gauss
from boomwright.solver.impedance import system_matrices
from boomwright.solver.runs.mesh import Detail, RunMesh, RunShape, steady_detail
from boomwright.solver.runs.nodes import run_nodes
from boomwright.solver.runs.prepared_run import Preparer, remembering
from boomwright.solver.series_inductance import Stretch
from boomwright.solver.wire_network import PathLoad
from boomwright.solver.wire_system import Mirror, PlacedRun, WireSystem

#: even Legendre polynomials that carry the field along an element
POLYNOMIALS = 5
#: lengths at which a family is solved in full
_LENGTHS = 11


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ElementFamily(ReadOnlyArrays):
    """Elements alike but for the length of their tips."""

    shortest: float  #: range of half lengths that the table covers [m]
    longest: float  #: range of half lengths that the table covers [m]
    frequencies: Floats  #: frequencies [Hz] (f,)
    #: Chebyshev series of the condensed impedance in the half length; the feed is the last row and
    #: column, [ohm] for it and [ohm m^-2] among polynomials (f, terms, POLYNOMIALS + 1, POLYNOMIALS
    #: + 1)
    series: Complexes


def element_family(
    *,
    inner: tuple[tuple[float, float], ...],
    tip_radius: float,
    half_lengths: tuple[float, float],
    gap: float,
    frequencies: Floats,
    detail: Detail,
    conductivity: float = float("inf"),
    loads: tuple[PathLoad, ...] = (),
    inductance: tuple[Stretch, ...] = (),
) -> ElementFamily:
    """Solve a family of elements and condense it.

    Args:
        inner: length and radius of the fixed tubes, from the boom outwards [m] (n, 2)
        tip_radius: radius of the adjustable tip [m]
        half_lengths: shortest and longest half length wanted [m]
        gap: width of the feed gap; parasitic elements are the same with the gap closed [m]
        frequencies: [Hz] (f,)
        conductivity: of the metal [S/m]
        inductance: in series with stretches from the middle [m] and [H/m]
    """
    keep = remembering()
    low, high = half_lengths
    nodes = np.cos(np.pi * (np.arange(_LENGTHS) + 0.5) / _LENGTHS)
    fixed = sum(length for length, _ in inner)
    tips = (low - fixed, high - fixed) if inner else (low - gap / 2.0, high - gap / 2.0)
    detail = steady_detail(detail=detail, radius=tip_radius, lengths=tips)
    samples = []
    for half_length in low + (high - low) * (nodes + 1.0) / 2.0:
        sections = (*inner, (float(half_length) - fixed, tip_radius))
        placed = _half_run(sections, gap, conductivity, loads, inductance)
        samples.append(_condensed(placed, frequencies, detail, loads, keep))
    orders = np.arange(_LENGTHS)
    transform = np.cos(np.arccos(nodes)[None, :] * orders[:, None]) * 2.0 / _LENGTHS
    transform[0] /= 2.0
    series = np.einsum("tn,nfab->ftab", transform, np.stack(samples))
    return ElementFamily(shortest=low, longest=high, frequencies=frequencies, series=series)


def _half_run(
    sections: tuple[tuple[float, float], ...],
    gap: float,
    conductivity: float,
    loads: tuple[PathLoad, ...],
    inductance: tuple[Stretch, ...],
) -> PlacedRun:
    gaps = ((0.0, gap), *((load.along, load.width) for load in loads))
    return PlacedRun(
        shape=RunShape(sections=sections, gaps=gaps, start="mirror", end="closed tip"),
        origin=(0.0, 0.0, 0.0),
        direction=(0.0, 1.0, 0.0),
        conductivity=conductivity,
        inductance=inductance,
    )


def _condensed(
    placed: PlacedRun,
    frequencies: Floats,
    detail: Detail,
    loads: tuple[PathLoad, ...],
    prepare: Preparer,
) -> Complexes:
    """Condensed impedance of one element (f, POLYNOMIALS + 1, POLYNOMIALS + 1)."""
    assembly = assemble(
        system=WireSystem(runs=(placed,), mirrors=(Mirror(axis=1),)),
        detail=detail,
        highest_frequency=float(frequencies.max()),
        prepare=prepare,
    )
    run = assembly.runs[0]
    probes = np.vstack([_legendre_moments(run.mesh, placed.shape.length), *run.gaps])
    matrices = system_matrices(assembly=assembly, frequencies=frequencies).dense()
    columns = np.broadcast_to(probes.T, (len(frequencies), *probes.T.shape)).astype(complex)
    answer = probes @ np.linalg.solve(matrices, columns)
    inverse: Complexes = np.linalg.inv(answer)
    for load in reversed(loads):
        # In series with its gap and no voltage left over: the load's row drops out.
        ohms = load.lumped.impedance(frequencies=frequencies)
        corner = inverse[:, -1:, -1:] + ohms[:, None, None]
        inverse = inverse[:, :-1, :-1] - inverse[:, :-1, -1:] * inverse[:, -1:, :-1] / corner
    return inverse


def _legendre_moments(mesh: RunMesh, length: float) -> Floats:
    """Current moments of each unknown against P0, P2, P4... of z/length (polynomial, n)."""
    nodes = run_nodes(mesh=mesh, panels=1)
    moments: Floats = even_legendre(nodes.place / length) @ nodes.current
    return moments


def even_legendre(at: Floats) -> Floats:
    """Values of the even Legendre polynomials.

    Args:
        at: places, 0 at the middle of an element and 1 at its tip (n,)
    """
    return np.stack(
        [
            np.polynomial.legendre.legval(at, [0.0] * (2 * order) + [1.0])
            for order in range(POLYNOMIALS)
        ]
    )


def projection(points: int) -> tuple[Floats, Floats]:
    """Gauss points on half an element and the weights that project on the polynomials."""
    nodes, weights = unit_gauss(points)
    scale = 4.0 * np.arange(POLYNOMIALS) + 1.0
    return nodes, scale[:, None] * even_legendre(nodes) * weights
