"""The driven element cut so that the match around it comes to the line's resistance."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from boomwright.design.array_slopes import at_one_frequency
from boomwright.design.targets import Problem, reflected, slopes_of

Floats = NDArray[np.float64]

#: lengths that are tried
_LENGTHS = 33
#: further demands on the space may be missed by this
_WITHIN = 1e-9


def driven_to_match(*, problem: Problem, free: Floats) -> Floats:
    """Choose the driven length that leaves least reflected at the design frequency.

    All else stays; without a match in place, or when the length is kept, nothing changes.

    Args:
        free: free numbers (m,)

    Returns:
        free numbers with that length (m,)
    """
    fed, space = problem.targets.fed, problem.space
    row = space.basis[space.count + problem.tables.driven]
    number = int(np.argmax(np.abs(row)))
    if fed is None or row[number] == 0.0:
        return free
    tried = np.tile(free, (_LENGTHS, 1))
    tried[:, number] = np.linspace(space.lower[number], space.upper[number], _LENGTHS)
    inside = (tried @ space.rows.T - space.least >= -_WITHIN).all(axis=1)
    if not inside.any():
        return free
    tried = tried[inside]
    at = problem.design_number
    idle = problem.idle
    if idle is not None:
        idle = replace(idle, tables=at_one_frequency(tables=idle.tables, number=at))
    alone = replace(
        problem, tables=at_one_frequency(tables=problem.tables, number=at), idle=idle, further=()
    )
    targets = replace(problem.targets, rear_weight=0.0, least_front_to_rear_db=-np.inf)
    found = slopes_of(
        problem=alone,
        both=space.origin + tried @ space.basis.T,
        towards=targets.directions(rear_angles=1),
    )
    if fed.correction is not None:
        targets = replace(targets, fed=replace(fed, correction=fed.correction[at : at + 1]))
    loss, _ = reflected(found=found, targets=targets, design=0, ratio=np.ones(1))
    return np.array(tried[int(np.argmin(loss[:, 0]))])
