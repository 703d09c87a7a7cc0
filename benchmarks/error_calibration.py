"""Is the error band honest? Random beams, their bands, and a much finer solution.

For each of a few hundred random beams (uniform and stepped tubes, one to six elements, 3.5 to
450 MHz) the band printed with each figure is held against the difference to a solution with
pieces and degrees far beyond the working ones. Run from the root of the project:

    python benchmarks/error_calibration.py --beams 400 --seed 7 --workers 16 --write

Nothing but numpy and the project itself is needed.
"""

from __future__ import annotations

import argparse
import os
import time
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.reach import Known, QuickLook, quick_look, read_beam
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    BeamSolution,
    Detail,
    Ground,
    SweepPoint,
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


def random_beam(rng: np.random.Generator, *, abrupt: bool = False) -> Beam:
    """A beam somebody could have thought of, good or bad; with abrupt steps of diameter or not."""
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
        elements.append(
            Element(
                role=role, position=float(place), half=_tubes(rng, half, diameter, abrupt=abrupt)
            )
        )
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


def _tubes(
    rng: np.random.Generator, half: float, diameter: float, *, abrupt: bool
) -> tuple[TubeSection, ...]:
    count = int(rng.integers(2 if abrupt else 1, 5))
    shares = rng.dirichlet(np.full(count, 4.0))
    sections = []
    for share in shares:
        sections.append(TubeSection(diameter=float(diameter), length=float(half * share)))
        diameter *= rng.uniform(*((0.25, 0.6) if abrupt else (0.7, 0.95)))
    return tuple(sections)


def _truth(beam: Beam, frequency: float, ground: Ground = FREE_SPACE) -> BeamSolution:
    return solve_beam(
        beam=beam,
        frequencies=np.array([frequency]),
        detail=finest(float(max(*beam.band, frequency))),
        ground=ground,
    )


def _free_case(point: SweepPoint, truth: BeamSolution) -> Case:
    """Hold the bands of a point in free space against the finest solution."""
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


def _ground_case(look: QuickLook, truth: BeamSolution) -> Case:
    """Hold the bands over ground against the finest solution over the same ground."""
    over = look.over_ground
    if over is None:
        message = "the look has no ground below it"
        raise ValueError(message)
    gain = gain_dbi(
        solution=truth,
        azimuth=np.zeros(1),
        elevation=np.radians([over.peak_elevation_deg]),
        ground=over.ground,
        height=over.height,
    )[0, 0]
    return Case(
        band=(over.impedance_error, over.gain_error_db),
        difference=(
            abs(over.impedance - complex(truth.impedance[0])),
            abs(over.peak_gain_dbi - float(gain)),
        ),
    )


def between_solved(beam: Beam, rng: np.random.Generator) -> Case:
    """A frequency of the sweep that the bands were not found for."""
    frequencies = np.sort(rng.uniform(*beam.band, 3))
    readings = read_beam(beam=beam, ground=FREE_SPACE, frequencies=frequencies)
    return _free_case(readings.sweep[1], _truth(beam, float(frequencies[1])))


def over_ground(beam: Beam, rng: np.random.Generator) -> Case:
    """A beam at any height above any ground, half of them below 0.15 wavelengths."""
    low = rng.uniform() < 0.5
    height = beam.wavelength * (rng.uniform(0.03, 0.15) if low else rng.uniform(0.15, 1.5))
    ground = GROUND_CLASSES[str(rng.choice(["wet", "medium dry", "very dry", "sea water"]))]
    beam = replace(beam, height=float(height))
    look = quick_look(beam=beam, ground=ground, frequency=beam.design_frequency)
    return _ground_case(look, _truth(beam, beam.design_frequency, ground))


def under_the_hand(beam: Beam, rng: np.random.Generator) -> tuple[Case, Case]:
    """A beam that a hand moves: an element along the boom, or longer, or the boom up."""
    ground = GROUND_CLASSES["medium dry"]
    beam = replace(beam, height=float(beam.wavelength * rng.uniform(0.05, 1.0)))
    at = beam.design_frequency
    start = quick_look(beam=beam, ground=ground, frequency=at)
    moved = _moved(beam, rng)
    known = Known(point=start.point, over_ground=start.over_ground)
    look = quick_look(beam=moved, ground=ground, frequency=at, previous=known)
    return (
        _free_case(look.point, _truth(moved, at)),
        _ground_case(look, _truth(moved, at, ground)),
    )


def _moved(beam: Beam, rng: np.random.Generator) -> Beam:
    """What a hand does between two pauses."""
    number = int(rng.integers(len(beam.elements)))
    element = beam.elements[number]
    how = rng.integers(3)
    if how == 0:
        return replace(beam, height=float(beam.height * rng.uniform(0.8, 1.25)))
    if how == 1:
        step = float(beam.wavelength * rng.uniform(-0.03, 0.03))
        element = replace(element, position=element.position + step)
    else:
        times = float(rng.uniform(0.98, 1.02))
        half = tuple(replace(tube, length=tube.length * times) for tube in element.half)
        element = replace(element, half=half)
    elements = list(beam.elements)
    elements[number] = element
    return replace(beam, elements=tuple(elements))


def covered(cases: Sequence[Case], names: Sequence[str]) -> dict[str, float]:
    """Share of the cases whose band holds the truth, by figure."""
    shares = {}
    for index, name in enumerate(names):
        band = np.array([case.band[index] for case in cases])
        difference = np.array([case.difference[index] for case in cases])
        shares[name] = float(np.mean((band >= difference) | (difference < FLOORS[name])))
    return shares


def _table(title: str, cases: Sequence[Case], names: Sequence[str]) -> list[str]:
    """Coverage and width of every figure as a table."""
    lines = [
        "",
        f"## {title}",
        "",
        "| figure | covered | width, median | difference, median | difference, largest |",
        "|---|---|---|---|---|",
    ]
    shares = covered(cases, names)
    for index, name in enumerate(names):
        floor = FLOORS[name]
        band = np.array([case.band[index] for case in cases])
        difference = np.array([case.difference[index] for case in cases])
        width = np.median(band / np.maximum(difference, floor))
        lines.append(
            f"| {name} | {100.0 * shares[name]:.1f} % | {width:.2f} | "
            f"{np.median(difference):.2g} | {difference.max():.2g} |"
        )
    return lines


GROUND_FIGURES = ("impedance [ohm]", "gain [dB]")
#: figures held against their band, by what was tried
TABLES = {
    "Between solved frequencies": tuple(FLOORS),
    "Abrupt steps of diameter": tuple(FLOORS),
    "Over ground": GROUND_FIGURES,
    "Under the hand, free space": tuple(FLOORS),
    "Under the hand, over ground": GROUND_FIGURES,
}


def _cases_of(job: tuple[int, int, int]) -> dict[str, Case]:
    """Cases of one random beam by table; each beam has a seed of its own.

    Args:
        job: seed of the study, kind of case, number of the beam
    """
    seed, kind, number = job
    rng = np.random.default_rng([seed, kind, number])
    between, abrupt, ground, hand_free, hand_ground = TABLES
    if kind == 0:
        return {between: between_solved(random_beam(rng), rng)}
    if kind == 1:
        return {abrupt: between_solved(random_beam(rng, abrupt=True), rng)}
    if kind == 2:
        return {ground: over_ground(random_beam(rng), rng)}
    free, over = under_the_hand(random_beam(rng), rng)
    return {hand_free: free, hand_ground: over}


def study(
    beams: int, seed: int, *, workers: int = 1
) -> dict[str, tuple[list[Case], tuple[str, ...]]]:
    """Cases and names of their figures, by what was tried; the same for any number of workers.

    Args:
        workers: processes that share the work
    """
    counts = (beams, beams, beams, beams // 4)
    jobs = [(seed, kind, number) for kind, count in enumerate(counts) for number in range(count)]
    if workers == 1:
        found = list(map(_cases_of, jobs))
    else:
        with ProcessPoolExecutor(workers) as pool:
            found = list(pool.map(_cases_of, jobs))
    return {
        title: ([cases[title] for cases in found if title in cases], names)
        for title, names in TABLES.items()
    }


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--beams", type=int, default=400)
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--workers", type=int, default=1, help="processes that share the work")
    parser.add_argument("--write", action="store_true")
    chosen = parser.parse_args()
    start = time.perf_counter()
    found = study(chosen.beams, chosen.seed, workers=chosen.workers)
    lines = [
        "# Is the error band honest?",
        "",
        f"{chosen.beams} random beams a table (a quarter of them under the hand), in "
        f"{time.perf_counter() - start:.0f} s in {chosen.workers} processes, "
        f"`python benchmarks/error_calibration.py --beams {chosen.beams} --seed {chosen.seed}`. "
        "Covered: the band holds the difference to the finest solution; aim: 96 %, 24 of 25. "
        "Width: band over difference, median.",
    ]
    for title, (cases, names) in found.items():
        lines += _table(title, cases, names)
    text = "\n".join(lines) + "\n"
    print(text)
    if chosen.write:
        TABLE.parent.mkdir(parents=True, exist_ok=True)
        TABLE.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
