"""Compute the shipped frontier, ``src/boomwright/design/data/frontier.npz``.

Every cell is climbed from the design of an earlier table where there is one, else from first
guesses; arrays beyond it grow from those with fewer elements. Then every cell tries its
neighbours' designs, and designs near its own, for as long as there is time. Then each design is
rounded as it is stored and read by the full solver; those that fall short there are climbed again
with more demanded, and no cell stays worse than one with less room or more demands. Set
OPENBLAS_NUM_THREADS=1.
"""

from __future__ import annotations

import argparse
import multiprocessing
import os
import time
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
from frontier_cells import (
    NOTHING_MORE,
    STORED_KEPT,
    Cell,
    CellDesign,
    as_stored,
    cell_design,
    cell_family,
    cells_of,
    exact_cell,
    first_designs,
    moved_design,
)

from boomwright.design.frontier import (
    BANDWIDTHS,
    BOOMS_WL,
    COUNTS,
    DIAMETERS_WL,
    REARS_DB,
    FrontierTable,
    axis_numbers,
    cell_targets,
    frontier_table,
    short_of,
)
from boomwright.design.minimax import KEPT
from boomwright.design.starts import resonant_half_length

#: a neighbour's design must be better by this to be climbed from [dB]
BETTER = 0.002
#: designs near a cell's own differ by so much in places and half lengths [-]
NUDGES = (0.05, 0.008)
#: a design that falls short by no more than this is climbed again, so often, with so much more
#: demanded than it is short [dB]
AGAIN, TIMES, MORE = 0.7, 3, 0.02
#: a cell may be worse than one with less room or more demands by this [dB]
EVEN = 0.005
#: share of the time kept for reading all designs by the full solver
READING = 0.15

Design = tuple[Any, Any]


@cache
def family_of(diameter: int, bandwidth: int) -> Any:
    """Elements of a cell, solved once in each process."""
    return cell_family(diameter=diameter, bandwidth=bandwidth)


@cache
def resonance_of(diameter: int) -> float:
    """Half length of resonance of a diameter."""
    return resonant_half_length(family=family_of(diameter, 0), at=0)


def moved(other: CellDesign, cell: Cell) -> Design:
    """Take another cell's design over."""
    resonances = (resonance_of(other.cell[2]), resonance_of(cell[2]))
    return moved_design(design=other, cell=cell, resonances=resonances)


def exact(cell: Cell, designs: list[Design], others: list[CellDesign]) -> CellDesign:
    """Climb from designs for a cell and from those of other cells; from first guesses if none."""
    family = family_of(cell[2], cell[3])
    designs = designs + [moved(other, cell) for other in others]
    return exact_cell(
        cell=cell, family=family, designs=designs or first_designs(cell=cell, family=family)
    )


def from_neighbours(own: CellDesign, others: list[CellDesign]) -> CellDesign:
    """Try the neighbours' designs in a cell and climb from the best if it is better."""
    cell = own.cell
    family = family_of(cell[2], cell[3])
    designs = [moved(other, cell) for other in others]
    scores = [cell_design(cell=cell, family=family, design=design).score for design in designs]
    # One with fewer elements shows what it is worth only once its new director is fitted.
    hopeful = [
        max(score, other.score if other.cell[0] < cell[0] and eases(other.cell, cell) else score)
        for score, other in zip(scores, others, strict=True)
    ]
    if not hopeful or max(hopeful) < own.score + BETTER:
        return own
    chosen = designs[int(np.argmax(hopeful))]
    return better(own, exact_cell(cell=cell, family=family, designs=[chosen]))


def nudged(own: CellDesign, round_number: int) -> CellDesign:
    """Climb from a design near a cell's own."""
    generator = np.random.default_rng([*own.cell, round_number])
    size = len(own.positions)
    places = own.positions * (1.0 + NUDGES[0] * generator.normal(size=size))
    halves = own.half_lengths * (1.0 + NUDGES[1] * generator.normal(size=size))
    return better(own, exact(own.cell, [(np.sort(places), halves)], []))


def stored(own: CellDesign) -> CellDesign:
    """Round a design as it is stored and read it by the full solver."""
    return as_stored(design=own)


def settled(own: CellDesign) -> CellDesign:
    """Climb a stored design again until the full solver finds all demands kept."""
    cell, begin, beyond = own.cell, own, NOTHING_MORE
    targets = cell_targets(bandwidth=BANDWIDTHS[cell[3]], rear_db=REARS_DB[cell[4]])
    for _ in range(TIMES):
        if own.breach <= STORED_KEPT:
            break
        short = short_of(
            targets=targets,
            front_to_rear_db=begin.front_to_rear_db,
            swr=begin.swr,
            resistance=begin.resistance,
        )
        beyond = beyond + np.maximum(short + MORE, 0.0)
        begin = stored(
            exact_cell(
                cell=cell,
                family=family_of(cell[2], cell[3]),
                designs=[(own.positions, own.half_lengths)],
                beyond=beyond,
            )
        )
        own = better(own, begin)
    return own


def taken_over(own: CellDesign, harder: list[CellDesign]) -> CellDesign:
    """Take the best stored design of cells with less room or more demands as it is."""
    best = max(harder, key=lambda one: one.gain_dbi)
    return better(own, stored(replace(best, cell=own.cell)))


def better(own: CellDesign, new: CellDesign) -> CellDesign:
    """The one with the better score."""
    return new if new.score > own.score else own


def eases(other: Cell, own: Cell) -> bool:
    """Whether a cell has no more room and no fewer demands than one's own."""
    return (
        other[0] <= own[0]
        and other[1] <= own[1]
        and other[2] == own[2]
        and other[3] >= own[3]
        and other[4] >= own[4]
    )


def neighbours(cell: Cell, table: dict[Cell, CellDesign]) -> list[CellDesign]:
    """Cells one step away along any one axis."""
    found = []
    for axis in range(5):
        for step in (-1, 1):
            near = list(cell)
            near[axis] += step
            other = table.get((near[0], near[1], near[2], near[3], near[4]))
            if other is not None:
                found.append(other)
    return found


def as_table(designs: dict[Cell, CellDesign]) -> FrontierTable:
    """Gather the cells into arrays."""
    rows = [designs[cell] for cell in sorted(designs)]

    def padded(values: Any) -> Any:
        full = np.zeros(max(COUNTS))
        full[: len(values)] = values
        return full

    return FrontierTable(
        cell=np.array([row.cell for row in rows]),
        gain_dbi=np.array([row.gain_dbi for row in rows]),
        front_to_rear_db=np.array([row.front_to_rear_db for row in rows]),
        swr=np.array([row.swr for row in rows]),
        resistance=np.array([row.resistance for row in rows]),
        kept=np.array([row.breach <= STORED_KEPT for row in rows]),
        positions=np.stack([padded(row.positions) for row in rows]),
        half_lengths=np.stack([padded(row.half_lengths) for row in rows]),
    )


class Builder:
    """Runs the stages and keeps the best design of every cell."""

    def __init__(self, given: argparse.Namespace, pool: ProcessPoolExecutor) -> None:
        self.given = given
        self.pool = pool
        self.begin = time.monotonic()
        self.designs: dict[Cell, CellDesign] = {}
        self.read: dict[Cell, tuple[CellDesign, CellDesign]] = {}
        self.cells = [
            cell
            for count in given.counts
            for diameter in range(len(DIAMETERS_WL))
            for bandwidth in range(len(BANDWIDTHS))
            for cell in cells_of(count=count, diameter=diameter, bandwidth=bandwidth)
        ]

    def say(self, text: str) -> None:
        """Print with the time that has passed."""
        print(f"{time.monotonic() - self.begin:6.1f} s: {text}", flush=True)

    def left(self, share: float) -> float:
        """Time left of a share of the whole."""
        return max(0.0, float(share * self.given.seconds) - (time.monotonic() - self.begin))

    def write(self) -> None:
        """Read what is new by the full solver and write the table with where it comes from."""
        new = [
            own for cell, own in self.designs.items() if self.read.get(cell, (None,))[0] is not own
        ]
        for own, one in zip(new, self.pool.map(stored, new, chunksize=8), strict=True):
            self.read[own.cell] = (own, one)
        path = self.given.path
        path.parent.mkdir(parents=True, exist_ok=True)
        how = (
            f"boomwright tools/make_frontier.py; booms {BOOMS_WL}, diameters {DIAMETERS_WL}, "
            f"bandwidths {BANDWIDTHS}, rears {REARS_DB}"
        )
        arrays: dict[str, Any] = {"provenance": np.array(how)}
        arrays.update(as_table({cell: one for cell, (_, one) in self.read.items()}).packed())
        partial = path.with_suffix(".part")
        with partial.open("wb") as file:
            np.savez_compressed(file, **arrays)
        partial.replace(path)
        self.say(f"{len(new)} designs read, {len(self.read)} cells written")

    def settle(self) -> None:
        """Make the stored designs keep their demands, and the surface rise and fall as it must."""
        read = {cell: one for cell, (_, one) in self.read.items()}
        short = [
            one
            for cell, one in read.items()
            if STORED_KEPT < one.breach <= AGAIN and self.designs[cell].breach <= KEPT
        ]
        for one in self.pool.map(settled, short):
            read[one.cell] = one
        self.say(f"{len(short)} designs climbed again")
        changed = -1
        while changed:
            pairs = [(own, self.harder(own, read)) for own in read.values()]
            pairs = [(own, others) for own, others in pairs if others]
            found = [*self.pool.map(taken_over, *zip(*pairs, strict=True))] if pairs else []
            better_ones = [one for one in found if one.score > read[one.cell].score]
            read.update({one.cell: one for one in better_ones})
            changed = len(better_ones)
            self.say(f"{changed} designs taken over from harder cells")
        self.read = {cell: (self.designs[cell], one) for cell, one in read.items()}

    @staticmethod
    def harder(own: CellDesign, read: dict[Cell, CellDesign]) -> list[CellDesign]:
        """Cells one step harder that keep their demands and are better than they can be."""
        found = []
        for axis, step in ((1, -1), (3, 1), (4, 1)):
            near = list(own.cell)
            near[axis] += step
            other = read.get((near[0], near[1], near[2], near[3], near[4]))
            if other is None or other.breach > STORED_KEPT:
                continue
            if own.breach > STORED_KEPT or other.gain_dbi > own.gain_dbi + EVEN:
                found.append(other)
        return found

    def gather(self, tasks: list[Future[CellDesign]], share: float) -> int:
        """Take results until done or out of time; say how many cells became better."""
        gained = 0
        try:
            for task in as_completed(tasks, timeout=self.left(share)):
                new = task.result()
                old = self.designs.get(new.cell)
                if old is None or new.score > old.score:
                    self.designs[new.cell] = new
                    gained += 1
        except TimeoutError:
            self.say("out of time for this stage")
        for task in tasks:
            task.cancel()
        return gained

    def earlier(self) -> dict[Cell, Design]:
        """Designs of an earlier table."""
        if self.given.start is None:
            return {}
        with np.load(self.given.start) as arrays:
            table = frontier_table(arrays)
        found = {}
        for row, numbers in enumerate(table.cell.tolist()):
            count, boom, diameter, bandwidth, rear = numbers
            design = (table.positions[row, :count], table.half_lengths[row, :count])
            if boom in axis_numbers(count=count)[0]:
                found[(count, boom, diameter, bandwidth, rear)] = design
        return found

    def first(self) -> None:
        """Climb every cell that an earlier table or a first guess starts; then let arrays grow."""
        known = self.earlier()
        lone = [cell for cell in self.cells if cell in known or not known or cell[0] < 9]
        tasks = [
            self.pool.submit(exact, cell, [known[cell]] if cell in known else [], [])
            for cell in sorted(lone, reverse=True)
        ]
        self.say(f"{self.gather(tasks, 1.0 - READING)} cells begun")
        while True:
            growing = []
            for cell in self.cells:
                short = [
                    other
                    for (count, boom, *rest), other in self.designs.items()
                    if count < cell[0] and boom <= cell[1] and tuple(rest) == cell[2:]
                ]
                if cell not in self.designs and short:
                    longest = max(short, key=lambda other: (other.cell[0], other.cell[1]))
                    growing.append(self.pool.submit(exact, cell, [], [longest]))
            if not growing or not self.gather(growing[::-1], 1.0 - READING):
                break
            self.say(f"{len(self.designs)} cells after growing")

    def sweep(self) -> int:
        """Let every cell try its neighbours' designs."""
        tasks = [
            self.pool.submit(from_neighbours, own, neighbours(cell, self.designs))
            for cell, own in sorted(self.designs.items(), reverse=True)
        ]
        return self.gather(tasks, 1.0 - READING)

    def nudge(self, round_number: int) -> int:
        """Let every cell try a design near its own."""
        tasks = [
            self.pool.submit(nudged, own, round_number)
            for _, own in sorted(self.designs.items(), reverse=True)
        ]
        return self.gather(tasks, 1.0 - READING)

    def run(self) -> None:
        """All stages."""
        self.first()
        if self.left(1.0 - 2.0 * READING) > 0.0:
            self.write()
        round_number = 0
        while self.left(1.0 - READING) > 0.0:
            gained = self.sweep()
            self.say(f"sweep: {gained} cells better")
            if gained < 0.01 * len(self.designs):
                round_number += 1
                self.say(f"near their own: {self.nudge(round_number)} cells better")
        self.write()
        self.settle()
        self.write()
        kept = sum(one.breach <= STORED_KEPT for _, one in self.read.values())
        size = self.given.path.stat().st_size
        self.say(f"{len(self.designs)} cells, {kept} keep their demands, {size} bytes")


def main() -> None:
    """Compute and write the table."""
    parser = argparse.ArgumentParser()
    parser.add_argument("path", type=Path, help="file to write")
    parser.add_argument("--start", type=Path, help="earlier table to go on from")
    parser.add_argument("--counts", type=int, nargs="*", default=list(COUNTS))
    parser.add_argument("--workers", type=int, default=os.cpu_count())
    parser.add_argument("--seconds", type=float, default=1e5, help="time it may take")
    given = parser.parse_args()
    spawn = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(given.workers, mp_context=spawn) as pool:
        Builder(given, pool).run()


if __name__ == "__main__":
    main()
