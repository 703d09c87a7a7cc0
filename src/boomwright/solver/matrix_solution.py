"""Solving the equations of the currents, cluster by cluster where that is less work."""

from __future__ import annotations

import numpy as np

from boomwright.base import SolverError
from boomwright.base.array_types import Complexes, Floats
from boomwright.solver.far_view import shown_slices, spread_out
from boomwright.solver.impedance import SystemMatrices

#: equations from which on half the digits save time
_LARGE = 500
#: rounds of refinement before the full factorisation is taken after all
_MOST_REFINEMENTS = 12
#: last correction over the answer
_REFINED = 1e-14


def solve_matrices(
    *,
    matrices: SystemMatrices,
    drive: Floats,
    added: Complexes | None,
    below: Complexes | None,
) -> Complexes:
    """Solve at every frequency [A/V] (f, n, n_ports).

    Args:
        drive: right-hand sides (n, n_ports)
        added: further matrices over the free unknowns; None adds nothing [ohm] (f, n, n)
        below: further matrices over what shows outside; None adds nothing [ohm] (f, r, r)

    Raises:
        SolverError: when the equations have no solution
    """
    clusters = matrices.assembly.clusters
    try:
        if added is None and any(each.shown is not None for each in clusters):
            return _by_clusters(matrices, drive, below)
        total = matrices.dense()
        if below is not None:
            total = total + spread_out(clusters=clusters, shown=below)
        if added is not None:
            total = total + added
        solved: Complexes = np.linalg.solve(total, drive.astype(complex)).astype(complex)
    except np.linalg.LinAlgError:
        raise SolverError(
            "the equations of the currents have no solution: two wires may lie on one another, "
            "or be too thin or too short for their distance; check diameters and places"
        ) from None
    return solved


def _by_clusters(matrices: SystemMatrices, drive: Floats, below: Complexes | None) -> Complexes:
    """Eliminate what does not show: (1 + V^T D^-1 V B) V^T x = V^T D^-1 b, exactly.

    D are the clusters' own matrices, B what couples all that shows, V x what shows of x.
    """
    clusters = matrices.assembly.clusters
    coupling = matrices.between if below is None else matrices.between + below
    places = shown_slices(clusters)
    system = np.empty_like(coupling)
    right: Complexes = np.empty((*coupling.shape[:2], drive.shape[1]), dtype=np.complex128)
    parts = []
    for cluster, own, place in zip(clusters, matrices.own, places, strict=True):
        shown = np.eye(len(cluster.free)) if cluster.shown is None else cluster.shown
        sides = np.concatenate([shown, drive[cluster.free]], axis=1).astype(complex)
        solved = matrices.again(np.asarray(np.linalg.solve(own, sides), dtype=np.complex128))
        answers, alone = solved[..., : cluster.seen], solved[..., cluster.seen :]
        system[:, place] = (shown.T @ answers) @ coupling[:, place]
        right[:, place] = shown.T @ alone
        parts.append((answers, alone))
    diagonal = np.arange(coupling.shape[1])
    system[:, diagonal, diagonal] += 1.0
    felt = coupling @ _solve_well_posed(system, right)
    unknowns: Complexes = np.empty((len(coupling), *drive.shape), dtype=np.complex128)
    for cluster, (answers, alone), place in zip(clusters, parts, places, strict=True):
        unknowns[:, cluster.free] = alone - answers @ felt[:, place]
    return unknowns


def _solve_well_posed(system: Complexes, right: Complexes) -> Complexes:
    """Solve equations near to the unit matrix: large ones factored in half the digits, refined.

    The residual is taken in full, so that the answer is as exact as by a full factorisation.
    """
    if system.shape[1] < _LARGE:
        solved: Complexes = np.linalg.solve(system, right).astype(complex)
        return solved
    # Most beams never come here, and the package takes its time to load.
    from scipy.linalg import lu_factor, lu_solve

    found = np.empty_like(right)
    for number, (matrix, sides) in enumerate(zip(system, right, strict=True)):
        factors = lu_factor(matrix.astype(np.complex64), overwrite_a=True, check_finite=False)
        answer = np.zeros_like(sides)
        for _ in range(_MOST_REFINEMENTS):
            left = (sides - matrix @ answer).astype(np.complex64)
            change = lu_solve(factors, left, check_finite=False)
            answer += change
            if np.abs(change).max() <= _REFINED * np.abs(answer).max():
                break
        else:
            answer = np.linalg.solve(matrix, sides)
        found[number] = answer
    return found
