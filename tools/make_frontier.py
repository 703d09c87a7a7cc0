"""Compute the shipped frontier, ``src/boomwright/design/data/frontier.npz``, given as argument.

All cells are climbed softly from many starts, on a graphics processor when CuPy finds one, then
each exactly on the processor's cores; at last every cell tries its neighbours' designs. The same
arguments give the same table up to rounding of the array library. Set OPENBLAS_NUM_THREADS=1.
"""

from __future__ import annotations

import argparse
import importlib
import multiprocessing
import os
import time
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    COUNTS,
    DIAMETERS_WL,
    REARS_DB,
    FrontierTable,
    boom_numbers,
    frontier_table,
)
from boomwright.design.frontier_cells import (
    Cell,
    CellDesign,
    cell_design,
    cell_family,
    cells_of,
    exact_cell,
    soft_cells,
)
from boomwright.design.minimax import KEPT
from boomwright.design.starts import resonant_half_length

#: rounding of stored lengths may break a demand by this [dB]
ROUNDED = 0.05
#: a stored design that breaks a demand is climbed from with so many near it, so far away [-]
NUDGED, NUDGE = 3, 0.04
#: a neighbour's design must be better by this to be climbed from [dB]
BETTER = 0.003


@cache
def family_of(diameter: int, bandwidth: int) -> Any:
    """Elements of a cell, solved once in each process."""
    return cell_family(diameter=diameter, bandwidth=bandwidth)


@cache
def resonance_of(diameter: int) -> float:
    """Half length of resonance of a diameter."""
    return resonant_half_length(family=family_of(diameter, 0), at=0)


def exact(cell: Cell, designs: list[tuple[Any, Any]]) -> CellDesign:
    """Climb exactly in one cell."""
    return exact_cell(cell=cell, family=family_of(cell[2], cell[3]), designs=designs)


def scored(cell: Cell, design: tuple[Any, Any]) -> CellDesign:
    """Score one stored design in its own cell; what rounding breaks is not held against it."""
    found = cell_design(cell=cell, family=family_of(cell[2], cell[3]), design=design)
    if found.breach <= ROUNDED:
        return replace(found, breach=0.0, score=found.gain_dbi)
    generator = np.random.default_rng(cell)
    nudged = [
        (
            design[0] * (1.0 + NUDGE * generator.normal(size=len(design[0]))),
            design[1] * (1.0 + NUDGE / 4.0 * generator.normal(size=len(design[1]))),
        )
        for _ in range(NUDGED)
    ]
    new = exact(cell, [design, *nudged])
    return new if new.score > found.score else found


def from_neighbours(own: CellDesign, others: list[CellDesign]) -> CellDesign:
    """Try the neighbours' designs in a cell and climb from the best if it is better."""
    cell = own.cell
    family = family_of(cell[2], cell[3])
    designs = []
    for other in others:
        ratio = resonance_of(cell[2]) / resonance_of(other.cell[2])
        designs.append((other.positions, other.half_lengths * ratio))
    scores = [cell_design(cell=cell, family=family, design=design).score for design in designs]
    if not scores or max(scores) < own.score + BETTER:
        return own
    new = exact(cell, [designs[int(np.argmax(scores))]])
    return new if new.score > own.score else own


def neighbours(cell: Cell, table: dict[Cell, CellDesign]) -> list[CellDesign]:
    """Cells one step away along any one axis."""
    found = []
    for axis in range(1, 5):
        for step in (-1, 1):
            near = list(cell)
            near[axis] += step
            other = table.get((near[0], near[1], near[2], near[3], near[4]))
            if other is not None:
                found.append(other)
    return found


def promising(own: CellDesign, others: list[CellDesign]) -> bool:
    """Whether a neighbour with less room or more demands does better, which cannot be right."""
    for other in others:
        steps = [there - here for here, there in zip(own.cell, other.cell, strict=True)]
        harder = steps[1] < 0 or steps[3] > 0 or steps[4] > 0
        if harder and other.score > own.score + BETTER:
            return True
    return False


def array_library() -> tuple[Any, str]:
    """CuPy when it finds a graphics processor, NumPy otherwise."""
    try:
        cupy = importlib.import_module("cupy")
    except ImportError:
        return np, "NumPy"
    if not cupy.cuda.is_available():
        return np, "NumPy"
    return cupy, "CuPy on a graphics processor"


def as_table(designs: dict[Cell, CellDesign]) -> FrontierTable:
    """Gather the cells into arrays."""
    rows = [designs[cell] for cell in sorted(designs)]

    def padded(values: Any) -> Any:
        full = np.zeros(max(COUNTS))
        full[: len(values)] = values
        return full

    ratio = np.array([10.0 ** (row.reflection_db / 10.0) for row in rows])
    gamma = np.sqrt(np.clip(1.0 - 1.0 / ratio, 0.0, 0.99))
    return FrontierTable(
        cell=np.array([row.cell for row in rows]),
        gain_dbi=np.array([row.gain_dbi for row in rows]),
        front_to_rear_db=np.array([row.front_to_rear_db for row in rows]),
        swr=(1.0 + gamma) / (1.0 - gamma),
        resistance=np.array([row.resistance for row in rows]),
        kept=np.array([row.breach <= KEPT for row in rows]),
        positions=np.stack([padded(row.positions) for row in rows]),
        half_lengths=np.stack([padded(row.half_lengths) for row in rows]),
    )


Batch = dict[Cell, list[tuple[Any, Any]]]


def soft(batch: tuple[int, int, int], starts: int, steps: int) -> tuple[Batch, str]:
    """Climb softly in all cells that share their tables."""
    count, diameter, bandwidth = batch
    xp, library = array_library()
    found = soft_cells(
        cells=cells_of(count=count, diameter=diameter, bandwidth=bandwidth),
        family=family_of(diameter, bandwidth),
        starts=starts,
        steps=steps,
        kept=2,
        seed=0,
        xp=xp,
    )
    return found, library


class Builder:
    """Runs the stages and keeps the best design of every cell."""

    def __init__(self, given: argparse.Namespace) -> None:
        self.given = given
        self.begin = time.monotonic()
        self.designs: dict[Cell, CellDesign] = {}
        self.second: Batch = {}
        self.library = ""

    def say(self, text: str) -> None:
        """Print with the time that has passed."""
        print(f"{time.monotonic() - self.begin:6.1f} s: {text}", flush=True)

    def left(self, share: float) -> float:
        """Time left of a share of the whole."""
        return max(0.0, float(share * self.given.seconds) - (time.monotonic() - self.begin))

    def write(self) -> None:
        """Write the table with where it comes from."""
        path = self.given.path
        path.parent.mkdir(parents=True, exist_ok=True)
        how = (
            f"boomwright tools/make_frontier.py; soft climbs with {self.library}, "
            f"{self.given.starts} starts of {self.given.steps} steps a cell; booms {BOOMS_WL}, "
            f"diameters {DIAMETERS_WL}, bandwidths {BANDWIDTHS}, rears {REARS_DB}"
        )
        arrays: dict[str, Any] = {"provenance": np.array(how)}
        arrays.update(as_table(self.designs).packed())
        with path.open("wb") as file:
            np.savez_compressed(file, **arrays)

    def gather(self, tasks: list[Future[CellDesign]], share: float) -> int:
        """Take results until done or out of time; say how many cells became better."""
        better = 0
        try:
            for task in as_completed(tasks, timeout=self.left(share)):
                new = task.result()
                old = self.designs.get(new.cell)
                if old is None or new.score > old.score:
                    self.designs[new.cell] = new
                    better += 1
        except TimeoutError:
            for task in tasks:
                task.cancel()
            self.say("out of time for this stage")
        return better

    def first(self, pool: ProcessPoolExecutor, drivers: ProcessPoolExecutor) -> None:
        """Soft climbs, and an exact climb from the best of each."""
        given = self.given
        # The largest arrays first: they take longest to climb exactly.
        batches = [
            drivers.submit(soft, (count, diameter, bandwidth), given.starts, given.steps)
            for count in sorted(given.counts, reverse=True)
            for diameter in given.diameters
            for bandwidth in given.bandwidths
        ]
        tasks: list[Future[CellDesign]] = []
        for batch in as_completed(batches):
            found, self.library = batch.result()
            tasks += [pool.submit(exact, cell, each[:1]) for cell, each in found.items()]
            self.second.update({cell: each[1:] for cell, each in found.items() if each[1:]})
        self.say(f"{len(tasks)} cells climbed softly with {self.library}")
        self.gather(tasks, 1.0)
        self.say(f"{len(self.designs)} cells climbed exactly")
        self.write()

    def load(self, pool: ProcessPoolExecutor, path: Path) -> None:
        """Take up a table made before; those that break a demand are climbed from."""
        with np.load(path) as arrays:
            table = frontier_table(arrays)
            self.library = str(arrays["provenance"]).partition(" with ")[2].partition(",")[0]
        tasks = []
        for row, numbers in enumerate(table.cell.tolist()):
            count, boom, diameter, bandwidth, rear = numbers
            design = (table.positions[row, :count], table.half_lengths[row, :count])
            if boom in boom_numbers(count=count):
                cell = (count, boom, diameter, bandwidth, rear)
                tasks.append(pool.submit(scored, cell, design))
        self.gather(tasks, 1.0)
        self.say(f"{len(self.designs)} cells taken up from {path}")

    def sweep(self, pool: ProcessPoolExecutor) -> int:
        """Let every cell try its neighbours' designs; when going on, only where one is better."""
        pairs = [(own, neighbours(cell, self.designs)) for cell, own in self.designs.items()]
        tasks = [
            pool.submit(from_neighbours, own, others)
            for own, others in pairs
            if not self.given.again or promising(own, others)
        ]
        better = self.gather(tasks, 0.95)
        self.write()
        return better

    def run(self) -> None:
        """All stages."""
        spawn = multiprocessing.get_context("spawn")
        given = self.given
        with (
            ProcessPoolExecutor(given.workers, mp_context=spawn) as pool,
            ProcessPoolExecutor(given.drivers, mp_context=spawn) as drivers,
        ):
            if given.again:
                self.load(pool, given.path)
            else:
                self.first(pool, drivers)
            self.say(f"sweep: {self.sweep(pool)} cells better")
            tasks = [pool.submit(exact, cell, each) for cell, each in self.second.items()]
            self.say(f"second starts: {self.gather(tasks, 0.75)} cells better")
            self.write()
            while self.left(0.95) > 0.0 and (better := self.sweep(pool)):
                self.say(f"sweep: {better} cells better")
        kept = sum(design.breach <= KEPT for design in self.designs.values())
        size = given.path.stat().st_size
        self.say(f"{len(self.designs)} cells, {kept} keep their demands, {size} bytes")


def main() -> None:
    """Compute and write the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("path", type=Path)
    parser.add_argument("--counts", type=int, nargs="*", default=list(COUNTS))
    parser.add_argument("--diameters", type=int, nargs="*", default=range(len(DIAMETERS_WL)))
    parser.add_argument("--bandwidths", type=int, nargs="*", default=range(len(BANDWIDTHS)))
    parser.add_argument("--again", action="store_true", help="go on from the file")
    parser.add_argument("--starts", type=int, default=32)
    parser.add_argument("--steps", type=int, default=150)
    parser.add_argument("--workers", type=int, default=os.cpu_count())
    parser.add_argument("--drivers", type=int, default=1, help="processes that climb softly")
    parser.add_argument("--seconds", type=float, default=1e5)
    Builder(parser.parse_args()).run()


if __name__ == "__main__":
    main()
