"""Computing the frontier: many cells at once softly, then each cell exactly."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.array_slopes import band_tables
from boomwright.design.ensemble import soft_climb
from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    CLOSEST_WL,
    DIAMETERS_WL,
    REARS_DB,
    boom_numbers,
    cell_targets,
)
from boomwright.design.minimax import climb, judged, least_levels
from boomwright.design.space import Freedom, design_space
from boomwright.design.starts import resonant_half_length
from boomwright.design.targets import Problem, margins
from boomwright.solver import working_detail
from boomwright.solver.element_response import ElementFamily, element_family

Floats = NDArray[np.float64]
#: number of elements, numbers of boom, diameter, bandwidth and rear demand
Cell = tuple[int, int, int, int, int]

#: half lengths that the tables cover [wavelengths]
_HALF_RANGE = (0.17, 0.285)
#: range against resonance: reflector, driven element, directors
_RANGES = ((1.0, 1.13), (0.93, 1.09), (0.80, 1.0))
_DRIVEN = 1
#: frequencies over each bandwidth; with five, the rear of long arrays fell by 8 dB and the standing
#: wave ratio rose to 10 between them in bands of 5 % (own trial)
_POINTS = (1, 7, 11, 17)
#: rear directions a finished design is read at: every degree
_READ_ANGLES = 90


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellDesign:
    """What one cell came to."""

    cell: Cell  #: which cell (5,)
    positions: Floats  #: the design [wavelengths] (n_elements,)
    half_lengths: Floats  #: the design [wavelengths] (n_elements,)
    score: float  #: worst gain less the price of broken demands [dB]
    breach: float  #: how far demands are broken [dB]
    gain_dbi: float  #: worst figures in the band [dB]
    front_to_rear_db: float  #: worst figures in the band [dB]
    reflection_db: float  #: worst figures in the band [dB]
    resistance: float  #: feed-point resistance at mid-band [ohm]


def cells_of(*, count: int, diameter: int, bandwidth: int) -> tuple[Cell, ...]:
    """Cells that share their tables."""
    return tuple(
        (count, boom, diameter, bandwidth, rear)
        for boom in boom_numbers(count=count)
        for rear in range(len(REARS_DB))
    )


def cell_family(*, diameter: int, bandwidth: int) -> ElementFamily:
    """Solve the elements of a cell at a wavelength of one metre."""
    width = BANDWIDTHS[bandwidth]
    shares = np.linspace(-1.0, 1.0, _POINTS[bandwidth]) if width > 0.0 else np.zeros(1)
    frequencies = SPEED_OF_LIGHT * (1.0 + width / 2.0 * shares)
    thick = DIAMETERS_WL[diameter]
    return element_family(
        inner=(),
        tip_radius=thick / 2.0,
        half_lengths=_HALF_RANGE,
        gap=thick,
        frequencies=frequencies,
        detail=working_detail(frequency=float(frequencies.max())),
    )


def cell_problem(*, cell: Cell, family: ElementFamily, xp: Any = np) -> Problem:
    """Set up one cell."""
    count, boom, _, bandwidth, rear = cell
    tables = band_tables(families=(family,) * count, driven=_DRIVEN, closest_wl=CLOSEST_WL, xp=xp)
    middle = len(family.frequencies) // 2
    resonance = resonant_half_length(family=family, at=middle)
    ranges = [_RANGES[min(number, 2)] for number in range(count)]
    freedom = Freedom(
        shortest=tuple(low * resonance for low, _ in ranges),
        longest=tuple(high * resonance for _, high in ranges),
        boom_limit=BOOMS_WL[boom],
        closest=CLOSEST_WL,
    )
    return Problem(
        tables=tables,
        space=design_space(freedom=freedom, driven=_DRIVEN, wavelength=1.0),
        targets=cell_targets(bandwidth=BANDWIDTHS[bandwidth], rear_db=REARS_DB[rear]),
        design_number=middle,
        shifts=np.zeros((1, 2 * count)),
    )


def soft_cells(
    *,
    cells: tuple[Cell, ...],
    family: ElementFamily,
    starts: int,
    steps: int,
    kept: int,
    seed: int,
    xp: Any = np,
) -> dict[Cell, list[tuple[Floats, Floats]]]:
    """Climb softly in all cells that share their tables, from many starts each.

    Returns:
        positions and half lengths of the best designs of each cell, best first [wavelengths]
    """
    count, _, diameter, bandwidth, _ = cells[0]
    generator = np.random.default_rng([seed, count, diameter, bandwidth])
    tables = band_tables(families=(family,) * count, driven=_DRIVEN, closest_wl=CLOSEST_WL, xp=xp)
    middle = len(family.frequencies) // 2
    resonance = resonant_half_length(family=family, at=middle)
    width = BANDWIDTHS[bandwidth]
    # The rear is watched everywhere, so that one batch holds every demand.
    watching = replace(cell_targets(bandwidth=width, rear_db=1.0), rear_weight=1e-4)
    targets = [cell_targets(bandwidth=width, rear_db=REARS_DB[cell[4]]) for cell in cells]
    least = np.repeat(np.array([least_levels(one) for one in targets]), starts, axis=0)
    booms = np.repeat([BOOMS_WL[cell[1]] for cell in cells], starts)
    batch = len(booms)
    shares = generator.normal(0.0, 0.7, (batch, count))
    shares[:, -1] -= 3.0
    low = np.array([_RANGES[min(number, 2)][0] for number in range(count)]) * resonance
    high = np.array([_RANGES[min(number, 2)][1] for number in range(count)]) * resonance
    halves = generator.uniform(0.3, 0.7, (batch, count)) * (high - low) + low
    halves[:, 2:] = generator.uniform(0.87, 0.98, (batch, 1)) * resonance
    positions, half_lengths, scores = soft_climb(
        tables=tables,
        shares=xp.asarray(shares),
        half_lengths=xp.asarray(halves),
        booms=xp.asarray(booms),
        closest=CLOSEST_WL,
        low=xp.asarray(low),
        high=xp.asarray(high),
        targets=watching,
        least=xp.asarray(np.maximum(least, -1e3)),
        towards=watching.directions(),
        design=middle,
        steps=steps,
        xp=xp,
    )
    as_numpy = getattr(xp, "asnumpy", np.asarray)
    where, long, value = (as_numpy(each) for each in (positions, half_lengths, scores))
    found = {}
    for number, cell in enumerate(cells):
        rows = number * starts + np.argsort(
            -value[number * starts : (number + 1) * starts], kind="stable"
        )
        picked: list[int] = []
        for row in rows:
            apart = [np.abs(where[row] - where[other]).max() for other in picked]
            if len(picked) < kept and (not apart or min(apart) > 0.02):
                picked.append(int(row))
        found[cell] = [(where[row], long[row]) for row in picked]
    return found


def exact_cell(
    *, cell: Cell, family: ElementFamily, designs: list[tuple[Floats, Floats]]
) -> CellDesign:
    """Climb exactly from some designs and keep the best.

    Args:
        designs: positions and half lengths to start from, at least one [wavelengths]
    """
    problem = cell_problem(cell=cell, family=family)
    best = max(
        (
            climb(problem=problem, start=problem.space.nearest(positions=one, half_lengths=two))
            for one, two in designs
        ),
        key=lambda local: local.score,
    )
    return _design(cell, problem, best.free)


def cell_design(*, cell: Cell, family: ElementFamily, design: tuple[Floats, Floats]) -> CellDesign:
    """Read a design's figures in a cell, as near to it as the cell allows.

    Args:
        design: positions and half lengths [wavelengths]
    """
    problem = cell_problem(cell=cell, family=family)
    free = problem.space.nearest(positions=design[0], half_lengths=design[1])
    return _design(cell, problem, free)


def _design(cell: Cell, problem: Problem, free: Floats) -> CellDesign:
    """Read a design's figures, the rear always among them."""
    watching = replace(problem, targets=replace(problem.targets, rear_weight=1e-9))
    found = margins(problem=watching, towards=watching.targets.directions(), free=free)
    score, breach, _ = judged(problem=problem, found=found)
    closely = watching.targets.directions(rear_angles=_READ_ANGLES)
    rear = margins(problem=watching, towards=closely, free=free).rear
    positions, half_lengths = problem.space.dimensions(free)
    return CellDesign(
        cell=cell,
        positions=positions,
        half_lengths=half_lengths,
        score=score,
        breach=breach,
        gain_dbi=float(found.gain.min()),
        front_to_rear_db=float(rear.min()),
        reflection_db=-float(found.match.min()),
        resistance=float(10.0 ** (found.resistance[0] / 10.0)),
    )
