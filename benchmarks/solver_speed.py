"""How fast the field solver is, as ratios measured in one run on one thread.

Run ``python benchmarks/solver_speed.py``; it starts itself again with one BLAS thread, prints
the table and, with ``--write``, puts it into ``docs/benchmarks/solver_speed.md``. Ratios travel
between machines, seconds do not; each figure is the least processor time of several runs.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from pulse_solver import PulseArray, Rod

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import MATERIALS, Beam, Element, Feed, Role, TubeSection
from boomwright.session.allocator import keep_freed_blocks
from boomwright.solver import Detail, gain_dbi, reference_detail, solve_beam, working_detail

ROOT = Path(__file__).resolve().parent.parent
THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
RUNS = 9
#: equal accuracy: gain [dB] and reflection coefficient in 50 ohm [-]
GAIN_DB, REFLECTION = 0.01, 0.01
MOST_PIECES = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table."""

    what: str
    value: str
    target: str


def least_time(work: Callable[[], object], runs: int = RUNS) -> float:
    """Least processor time of some runs, after one to warm up: others use the machine too."""
    work()
    times = []
    for _ in range(runs):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return min(times)


def stepped_beam() -> Beam:
    """Three elements for 20 m, each half of three tubes."""

    def element(role: Role, place: float, tip: float) -> Element:
        tubes = ((0.0254, 1.83), (0.0222, 1.22), (0.01905, tip))
        half = tuple(TubeSection(diameter=diameter, length=length) for diameter, length in tubes)
        return Element(role=role, position=place, half=half)

    return Beam(
        name="speed",
        band=(14.0e6, 14.35e6),
        design_frequency=14.175e6,
        height=16.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=0.0254),
        elements=(
            element("reflector", 0.0, 2.35),
            element("driven", 2.6, 2.1),
            element("director", 5.2, 1.9),
        ),
    )


def uniform_beam() -> Beam:
    """The same beam of even 20 mm rods, the friendliest case for pulses."""
    beam = stepped_beam()
    lengths = (5.25, 5.02, 4.78)
    elements = tuple(
        replace(each, half=(TubeSection(diameter=0.02, length=length),))
        for each, length in zip(beam.elements, lengths, strict=True)
    )
    return replace(beam, elements=elements)


def cold_rows() -> list[Row]:
    """One frequency, nothing kept from before, in milliseconds and as dense solves."""
    beam = stepped_beam()
    at, detail = np.array([beam.design_frequency]), working_detail(frequency=beam.band[1])
    rng = np.random.default_rng(1)
    dense = rng.normal(size=(400, 400)) + 1j * rng.normal(size=(400, 400))
    right = np.ones(400, dtype=complex)
    yardstick = least_time(lambda: np.linalg.solve(dense, right), runs=3 * RUNS)
    cold = least_time(lambda: solve_beam(beam=beam, frequencies=at, detail=detail), runs=3 * RUNS)
    return [
        Row(
            what="one frequency of three stepped elements, nothing kept from before: whole "
            "solution over LAPACK's dense solve of 400 unknowns",
            value=f"{cold / yardstick:.1f} ({1e3 * cold:.1f} ms over {1e3 * yardstick:.1f} ms)",
            target="at most 8 ms",
        )
    ]


def sweep_rows() -> list[Row]:
    """Compare sweeps with what LAPACK takes for dense systems of the same size."""
    import numpy as np

    from boomwright.solver import solve_beam, working_detail

    beam = stepped_beam()
    detail = working_detail(frequency=beam.band[1])
    rows, seconds = [], {}
    for count in (21, 201):
        frequencies = np.linspace(*beam.band, count)
        solution = solve_beam(beam=beam, frequencies=frequencies, detail=detail)
        size = solution.currents.assembly.count
        rng = np.random.default_rng(1)
        dense = rng.normal(size=(count, size, size)) + 1j * rng.normal(size=(count, size, size))
        right = np.ones((count, size, 1), dtype=complex)
        seconds[count] = least_time(
            lambda frequencies=frequencies: solve_beam(
                beam=beam, frequencies=frequencies, detail=detail
            )
        )
        lapack = least_time(lambda dense=dense, right=right: np.linalg.solve(dense, right))
        rows.append(
            Row(
                what=f"{count} frequencies, {size} unknowns: whole solution over LAPACK's "
                f"{count} dense solves",
                value=f"{seconds[count] / lapack:.1f} ({1e3 * seconds[count]:.1f} ms over "
                f"{1e3 * lapack:.1f} ms)",
                target="at most 40" if count == 21 else "at most 8",
            )
        )
    rows.append(
        Row(
            what="201 frequencies over 21 frequencies",
            value=f"{seconds[201] / seconds[21]:.1f}",
            target="at most 8",
        )
    )
    return rows


def sparse_detail(*, frequency: float) -> Detail:
    """Cut just fine enough for the accuracy asked for here."""
    wavelength = SPEED_OF_LIGHT / frequency
    return Detail(
        first=8.0,
        ratio=40.0,
        step=6.0,
        degree=3,
        short_degree=2,
        long_piece=0.06 * wavelength,
        edge_degree=2,
        step_degree=2,
        longest=0.35 * wavelength,
    )


def pulse_rows(name: str, beam: Beam) -> list[Row]:
    """Find the pulses that reach the accuracy, then compare the times."""
    frequency = beam.design_frequency
    sweep = np.linspace(*beam.band, 21)

    def figures(
        detail: Callable[..., Detail], frequencies: NDArray[np.float64]
    ) -> tuple[complex, float]:
        solution = solve_beam(
            beam=beam, frequencies=frequencies, detail=detail(frequency=frequency)
        )
        gain = gain_dbi(solution=solution, azimuth=np.zeros(1), elevation=np.zeros(1))
        return complex(solution.impedance[0]), float(gain[0, 0])

    rods = tuple(
        Rod(
            place=element.position,
            sections=tuple((tube.length, tube.diameter / 2.0) for tube in element.half),
        )
        for element in beam.elements
    )

    def pulses(pieces: int) -> tuple[complex, float]:
        array = PulseArray(rods, beam.driven_index, pieces)
        impedance, currents = array.solve(frequency)
        return impedance, array.gain_dbi(frequency, impedance, currents)

    def pulse_sweep(pieces: int) -> None:
        array = PulseArray(rods, beam.driven_index, pieces)
        for each in sweep:
            array.solve(float(each))

    def apart(one: tuple[complex, float], other: tuple[complex, float]) -> tuple[float, float]:
        reflection = [(each[0] - 50.0) / (each[0] + 50.0) for each in (one, other)]
        return abs(reflection[0] - reflection[1]), abs(one[1] - other[1])

    at = np.array([frequency])
    exact = figures(reference_detail, at)
    pieces = 20
    while pieces < MOST_PIECES:
        off = apart(pulses(pieces), exact)
        if off[0] < REFLECTION and off[1] < GAIN_DB:
            break
        pieces = int(np.ceil(pieces * 1.1))
    once = least_time(lambda: pulses(pieces), runs=3)
    often = least_time(lambda: pulse_sweep(pieces), runs=1)
    rows = []
    for label, detail in (("working detail", working_detail), ("sparse detail", sparse_detail)):
        ours = apart(figures(detail, at), exact)
        single = least_time(lambda detail=detail: figures(detail, at))  # type: ignore[misc]
        band = least_time(lambda detail=detail: figures(detail, sweep))  # type: ignore[misc]
        errors = f"{ours[0]:.4f} and {ours[1]:.4f} dB off; pulses, {pieces} a half, "
        errors += f"{off[0]:.4f} and {off[1]:.4f} dB"
        rows += [
            Row(
                what=f"{name}, {label}, one frequency: time of pulses over ours ({errors})",
                value=f"{once / single:.0f} ({1e3 * once:.0f} ms over {1e3 * single:.1f} ms)",
                target="at least 50",
            ),
            Row(
                what=f"{name}, {label}, 21 frequencies: time of pulses over ours",
                value=f"{often / band:.0f} ({1e3 * often:.0f} ms over {1e3 * band:.1f} ms)",
                target="at least 50",
            ),
            Row(
                what=f"{name}, {label}, one further frequency of a sweep: time of pulses over ours",
                value=f"{(often - once) / (band - single):.0f} "
                f"({50.0 * (often - once):.0f} ms over {50.0 * (band - single):.2f} ms)",
                target="at least 50",
            ),
        ]
    return rows


def table(rows: list[Row]) -> str:
    """Format the rows as Markdown."""
    lines = ["| what | measured | target |", "| --- | --- | --- |"]
    lines += [f"| {row.what} | {row.value} | {row.target} |" for row in rows]
    return "\n".join(lines)


PAGE = """# Speed of the field solver

Measured by `python benchmarks/solver_speed.py --write` on one thread, least processor time of
{runs} runs.
Ratios of times taken in the same run; a whole solution holds everything from the beam's
dimensions to currents and far-field moments, nothing kept from before.

{table}

The pulses are the textbook way (constant currents on short pieces, potentials met at their
middles, the reduced kernel of a filament a radius away; `benchmarks/pulse_solver.py`), with the
same symmetry used. Their number is the smallest that comes within 0.01 of the fine solution's
reflection coefficient in 50 ohm and 0.01 dB of its gain; nothing is said of finer cuts, for the
reduced kernel has no solution in the limit. The working detail is far more accurate than that;
the sparse one (cut about as coarsely as allows the same accuracy) makes the comparison even.
"""


def main() -> int:
    """Measure, print, and write the page if asked to."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--write", action="store_true", help="write the page in docs/benchmarks")
    write = parser.parse_args().write
    if any(os.environ.get(name) != "1" for name in THREADS):
        environment = {**os.environ, **dict.fromkeys(THREADS, "1")}
        return subprocess.run([sys.executable, *sys.argv], env=environment, check=False).returncode
    # As the program itself does.
    keep_freed_blocks()
    rows = [*cold_rows(), *sweep_rows()]
    rows += pulse_rows("stepped elements", stepped_beam())
    rows += pulse_rows("even elements", uniform_beam())
    text = table(rows)
    print(text)
    if write:
        page = ROOT / "docs" / "benchmarks" / "solver_speed.md"
        page.parent.mkdir(exist_ok=True)
        page.write_text(PAGE.format(runs=RUNS, table=text), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
