"""Computing the frontier: designs climbed cell by cell, moved between cells, and read."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.array_slopes import band_tables
from boomwright.design.figures_of import band_figures
from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    CLOSEST_WL,
    DIAMETERS_WL,
    HALF_STEP,
    PLACE_STEP,
    REARS_DB,
    axis_numbers,
    cell_targets,
    short_of,
)
from boomwright.design.minimax import PRICE, climb, judged
from boomwright.design.space import Freedom, design_space
from boomwright.design.starts import listed_starts, resonant_half_length
from boomwright.design.targets import Problem, asking_more, margins
from boomwright.parts import MATERIALS, Beam, Element, Feed, Role, TubeSection
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
#: a director added in front stands so far ahead of the last one [wavelengths]
_ADDED_WL = 0.35
#: rear directions a finished design is read at: every degree
_READ_ANGLES = 90
#: no more demanded than a cell does
NOTHING_MORE = np.zeros(3)
#: a stored design keeps its demands when it falls short by no more than this [dB]
STORED_KEPT = 0.02


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
    swr: float  #: largest in the band behind the hairpin [-]
    resistance: float  #: feed-point resistance at mid-band [ohm]


def cell_beam(*, cell: Cell, positions: Floats, half_lengths: Floats) -> Beam:
    """Make a beam of a cell's design at a wavelength of one metre."""
    thick, width = DIAMETERS_WL[cell[2]], BANDWIDTHS[cell[3]]
    directors: list[Role] = ["director"] * (cell[0] - 2)
    roles: tuple[Role, ...] = ("reflector", "driven", *directors)
    return Beam(
        name="cell",
        band=(SPEED_OF_LIGHT * (1.0 - width / 2.0), SPEED_OF_LIGHT * (1.0 + width / 2.0)),
        design_frequency=SPEED_OF_LIGHT,
        height=0.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="hairpin", gap=thick),
        elements=tuple(
            Element(
                role=role,
                position=float(place),
                half=(TubeSection(diameter=thick, length=float(half)),),
            )
            for role, place, half in zip(roles, positions, half_lengths, strict=True)
        ),
    )


def as_stored(*, design: CellDesign) -> CellDesign:
    """Round a design as the table stores it and read its figures by the full solver."""
    places = np.round(design.positions / PLACE_STEP) * PLACE_STEP
    halves = np.round(design.half_lengths / HALF_STEP) * HALF_STEP
    cell = design.cell
    targets = cell_targets(bandwidth=BANDWIDTHS[cell[3]], rear_db=REARS_DB[cell[4]])
    figures = band_figures(
        beam=cell_beam(cell=cell, positions=places, half_lengths=halves), targets=targets
    )
    gain, _, rear, swr = figures.worst
    middle = int(np.argmin(np.abs(figures.frequencies - SPEED_OF_LIGHT)))
    read = replace(
        design,
        positions=places,
        half_lengths=halves,
        gain_dbi=gain,
        front_to_rear_db=rear,
        swr=swr,
        resistance=float(figures.impedance[middle].real),
    )
    breach = max(
        0.0, *short_of(targets=targets, front_to_rear_db=rear, swr=swr, resistance=read.resistance)
    )
    return replace(read, breach=breach, score=gain - PRICE * breach)


def cells_of(*, count: int, diameter: int, bandwidth: int) -> tuple[Cell, ...]:
    """Cells that share their tables."""
    booms, diameters, bandwidths, rears = axis_numbers(count=count)
    if diameter not in diameters or bandwidth not in bandwidths:
        return ()
    return tuple((count, boom, diameter, bandwidth, rear) for boom in booms for rear in rears)


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


def cell_problem(*, cell: Cell, family: ElementFamily, beyond: Floats = NOTHING_MORE) -> Problem:
    """Set up one cell.

    Args:
        beyond: how much more is demanded than the cell does, as :func:`short_of` has it [dB] (3,)
    """
    count, boom, _, bandwidth, rear = cell
    tables = band_tables(families=(family,) * count, driven=_DRIVEN, closest_wl=CLOSEST_WL)
    middle = len(family.frequencies) // 2
    resonance = resonant_half_length(family=family, at=middle)
    ranges = [_RANGES[min(number, 2)] for number in range(count)]
    freedom = Freedom(
        shortest=tuple(low * resonance for low, _ in ranges),
        longest=tuple(high * resonance for _, high in ranges),
        boom_limit=BOOMS_WL[boom],
        closest=CLOSEST_WL,
        resonances=(resonance,) * count,
    )
    return Problem(
        tables=tables,
        space=design_space(freedom=freedom, driven=_DRIVEN, wavelength=1.0),
        targets=asking_more(
            cell_targets(bandwidth=BANDWIDTHS[bandwidth], rear_db=REARS_DB[rear]), beyond
        ),
        design_number=middle,
        shifts=np.zeros((1, 2 * count)),
    )


def first_designs(*, cell: Cell, family: ElementFamily) -> list[tuple[Floats, Floats]]:
    """Take designs to start a cell from: the trade's first guess and the published tables.

    Returns:
        positions and half lengths of each [wavelengths]
    """
    resonance = resonant_half_length(family=family, at=len(family.frequencies) // 2)
    found = listed_starts(
        resonances=np.full(cell[0], resonance),
        driven=_DRIVEN,
        boom=BOOMS_WL[cell[1]],
        wavelength=1.0,
    )
    return [(each.positions, each.half_lengths) for each in found]


def moved_design(
    *, design: CellDesign, cell: Cell, resonances: tuple[float, float]
) -> tuple[Floats, Floats]:
    """Take a design over into another cell: directors added or left out, lengths by resonance.

    Args:
        cell: where it is to go
        resonances: half length of resonance of the design's tubes and of the cell's [wavelengths]

    Returns:
        positions and half lengths [wavelengths]
    """
    more = cell[0] - design.cell[0]
    places, halves = design.positions, design.half_lengths * resonances[1] / resonances[0]
    if more < 0:
        return places[:more], halves[:more]
    step = np.arange(1, more + 1)
    places = np.append(places, places[-1] + _ADDED_WL * step)
    over = max(1.0, places[-1] / BOOMS_WL[cell[1]])
    return places / over, np.append(halves, np.full(more, halves[-1]))


def exact_cell(
    *,
    cell: Cell,
    family: ElementFamily,
    designs: list[tuple[Floats, Floats]],
    beyond: Floats = NOTHING_MORE,
) -> CellDesign:
    """Climb exactly from some designs and keep the best.

    Args:
        designs: positions and half lengths to start from, at least one [wavelengths]
        beyond: how much more is demanded than the cell does, as :func:`short_of` has it [dB] (3,)
    """
    problem = cell_problem(cell=cell, family=family, beyond=beyond)
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
        swr=_ratio(-float(found.match.min())),
        resistance=float(10.0 ** (found.resistance[0] / 10.0)),
    )


def _ratio(loss_db: float) -> float:
    """Standing wave ratio of a loss by reflection."""
    share = float(np.sqrt(np.clip(1.0 - 10.0 ** (-loss_db / 10.0), 0.0, 0.99)))
    return (1.0 + share) / (1.0 - share)
