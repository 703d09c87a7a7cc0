"""Is the error band honest? Random beams, their bands, and a much finer solution.

For each of a few hundred random beams (uniform and stepped tubes, one to six elements, 3.5 to
450 MHz) the band printed with each figure is held against the difference to a solution with
pieces and degrees far beyond the working ones. Run from the root of the project:

    python benchmarks/error_calibration.py --beams 240 --seed 7 --write
"""

from __future__ import annotations

import argparse
import os
import time
from dataclasses import dataclass
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.reach import read_beam
from boomwright.solver import (
    FREE_SPACE,
    Detail,
    gain_dbi,
    solve_beam,
    standing_wave_ratio,
)

TABLE = Path(__file__).parent.parent / "docs" / "benchmarks" / "error_calibration.md"
#: below these a difference is rounding of the reference solution, not an error worth a band
FLOORS = {"impedance [ohm]": 1e-4, "SWR": 1e-5, "gain [dB]": 1e-5, "front-to-back [dB]": 1e-4}


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Band and true difference of the four figures of one beam at one frequency."""

    band: tuple[float, ...]
    difference: tuple[float, ...]


def finest(frequency: float) -> Detail:
    """Pieces and degrees far beyond the reference solution."""
    wavelength = SPEED_OF_LIGHT / frequency
    return Detail(
        first=0.8,
        ratio=5.0,
        step=1.2,
        degree=7,
        short_degree=6,
        long_piece=0.06 * wavelength,
        edge_degree=6,
        step_degree=5,
        longest=0.2 * wavelength,
    )


def random_beam(rng: np.random.Generator) -> Beam:
    """A beam somebody could have thought of, good or bad."""
    frequency = 10.0 ** rng.uniform(np.log10(3.5e6), np.log10(450e6))
    wavelength = SPEED_OF_LIGHT / frequency
    count = int(rng.integers(1, 7))
    driven = int(rng.integers(0, min(count, 2)))
    diameter = wavelength * 10.0 ** rng.uniform(-3.7, -2.0)
    places = np.concatenate([[0.0], np.cumsum(rng.uniform(0.08, 0.35, count - 1))]) * wavelength
    elements = []
    for index, place in enumerate(places):
        low, high = (0.48, 0.52) if index < driven else (0.40, 0.47)
        half = 0.5 * wavelength * rng.uniform(*((0.44, 0.5) if index == driven else (low, high)))
        role = "driven" if index == driven else "reflector" if index < driven else "director"
        elements.append(Element(role=role, position=float(place), half=_tubes(rng, half, diameter)))
    span = frequency * rng.uniform(0.005, 0.03)
    return Beam(
        name="random",
        band=(frequency - span, frequency + span),
        design_frequency=frequency,
        height=wavelength,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=float(diameter * rng.uniform(0.5, 2.0))),
        elements=tuple(elements),
    )


def _tubes(rng: np.random.Generator, half: float, diameter: float) -> tuple[TubeSection, ...]:
    count = int(rng.integers(1, 5))
    shares = rng.dirichlet(np.full(count, 4.0))
    sections = []
    for share in shares:
        sections.append(TubeSection(diameter=float(diameter), length=float(half * share)))
        diameter *= rng.uniform(0.7, 0.95)
    return tuple(sections)


def measure(beam: Beam, rng: np.random.Generator) -> Case:
    """Hold the bands of one beam against the finest solution at a random frequency."""
    frequencies = np.sort(rng.uniform(*beam.band, 3))
    readings = read_beam(beam=beam, ground=FREE_SPACE, frequencies=frequencies)
    point = readings.sweep[1]
    truth = solve_beam(beam=beam, frequencies=frequencies[1:2], detail=finest(float(beam.band[1])))
    ahead, behind = gain_dbi(solution=truth, azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2))[
        0
    ]
    swr = float(standing_wave_ratio(impedance=truth.impedance, reference=50.0)[0])
    return Case(
        band=(
            point.impedance_error,
            point.swr_error,
            point.gain_error_db,
            point.front_to_back_error_db,
        ),
        difference=(
            abs(point.impedance - complex(truth.impedance[0])),
            abs(point.swr - swr),
            abs(point.gain_dbi - ahead),
            abs(point.front_to_back_db - (ahead - behind)),
        ),
    )


def report(cases: list[Case], seconds: float, command: str) -> str:
    """Coverage and width of every figure as a table."""
    lines = [
        "# Is the error band honest?",
        "",
        f"{len(cases)} random beams in {seconds:.0f} s, `{command}`. Covered: the band holds the "
        "difference to the finest solution. Width: band over difference, median.",
        "",
        "| figure | covered | width, median | difference, median | difference, largest |",
        "|---|---|---|---|---|",
    ]
    for index, (name, floor) in enumerate(FLOORS.items()):
        band = np.array([case.band[index] for case in cases])
        difference = np.array([case.difference[index] for case in cases])
        covered = np.mean((band >= difference) | (difference < floor))
        width = np.median(band / np.maximum(difference, floor))
        lines.append(
            f"| {name} | {100.0 * covered:.1f} % | {width:.2f} | {np.median(difference):.2g} | "
            f"{difference.max():.2g} |"
        )
    return "\n".join(lines) + "\n"


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--beams", type=int, default=240)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--write", action="store_true")
    chosen = parser.parse_args()
    rng = np.random.default_rng(chosen.seed)
    start = time.perf_counter()
    cases = [measure(random_beam(rng), rng) for _ in range(chosen.beams)]
    command = f"python benchmarks/error_calibration.py --beams {chosen.beams} --seed {chosen.seed}"
    text = report(cases, time.perf_counter() - start, command)
    print(text)
    if chosen.write:
        TABLE.parent.mkdir(parents=True, exist_ok=True)
        TABLE.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
