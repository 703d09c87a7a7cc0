"""Synthetic measurements with known errors: the antennas, the errors, and what is read back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import (
    COAX_TYPES,
    SeriesCapacitor,
    ShuntStub,
    Stage,
    Transformer,
)
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    PERFECT_GROUND,
    Ground,
    reference_detail,
    solve_beam,
    standing_wave_ratio,
)
from boomwright.tuning import (
    Installation,
    Knowledge,
    MovingCare,
    Predictor,
    Sweep,
    Tolerance,
    Trial,
    advise,
    after_changes,
    as_changes,
    at_line,
    at_meter,
    first_knowledge,
    make_predictor,
    next_trial,
    usual_causes,
)
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights

NOISE = 0.01
POINTS = 41
GOOD = 1.15
#: frequencies at which the truth is solved, interpolated in between: real ground is slow
EXACT = 9

SWEEP_LINES = (
    "Six beams from 40 m to 2 m, with hairpin, gamma, or fed straight; over real or perfect",
    "ground or in free space; 2 m to 40 m of line of three types. Errors of every tip, strap,",
    "capacitor, of height, ground, line length and loss, normal in half of the",
    "cases, evenly spread over",
    "the same standard deviation in the others. 41 points over the band, noise of 0.01 on either",
    "part of the reflection. Each piece of advice is carried out with errors of its own, and the",
    "antenna measured again with new noise; at most two trials.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """One beam of the study: figures in wavelengths at its design frequency."""

    name: str
    frequency: float
    band: tuple[float, float]
    lengths: tuple[float, ...]
    places: tuple[float, ...]
    driven: int
    diameters: tuple[float, ...]
    height: float
    ground: Ground
    match: str


DESIGNS = (
    Design(name="40 m, two elements, hairpin", frequency=7.1e6, band=(7.0e6, 7.2e6),
           lengths=(0.4955, 0.465), places=(0.0, 0.13), driven=1,
           diameters=(0.05, 0.035, 0.02), height=20.0,
           ground=GROUND_CLASSES["medium dry"], match="hairpin"),
    Design(name="20 m, three elements, hairpin", frequency=14.175e6, band=(14.0e6, 14.35e6),
           lengths=(0.497, 0.462, 0.449), places=(0.0, 0.14, 0.30), driven=1,
           diameters=(0.03, 0.022), height=14.0,
           ground=GROUND_CLASSES["medium dry"], match="hairpin"),
    Design(name="15 m, two elements, fed straight", frequency=21.2e6, band=(21.0e6, 21.45e6),
           lengths=(0.497, 0.465), places=(0.0, 0.185), driven=1,
           diameters=(0.025, 0.02), height=12.0,
           ground=GROUND_CLASSES["wet"], match="none"),
    Design(name="10 m, four elements, gamma", frequency=28.5e6, band=(28.0e6, 29.0e6),
           lengths=(0.497, 0.470, 0.448, 0.442), places=(0.0, 0.18, 0.36, 0.60), driven=1,
           diameters=(0.025, 0.019), height=15.0, ground=PERFECT_GROUND, match="gamma"),
    Design(name="6 m, five elements, hairpin", frequency=50.2e6, band=(50.0e6, 51.0e6),
           lengths=(0.494, 0.462, 0.448, 0.440, 0.436), places=(0.0, 0.18, 0.31, 0.52, 0.78),
           driven=1, diameters=(0.013,), height=12.0,
           ground=GROUND_CLASSES["medium dry"], match="hairpin"),
    Design(name="2 m, six elements, gamma", frequency=144.5e6, band=(144.0e6, 146.0e6),
           lengths=(0.49, 0.466, 0.446, 0.440, 0.434, 0.428),
           places=(0.0, 0.18, 0.29, 0.47, 0.70, 0.95),
           driven=1, diameters=(0.008,), height=10.0, ground=FREE_SPACE, match="gamma"),
)  # fmt: skip


def stages_for(design: Design) -> tuple[Stage, ...]:
    """Make a match that is roughly right."""
    wavelength = SPEED_OF_LIGHT / design.frequency
    if design.match == "hairpin":
        return (ShuntStub(impedance=300.0, length=0.03 * wavelength, end="short"),)
    if design.match == "gamma":
        return (
            Transformer(ratio=2.0, label="rod beside the element"),
            ShuntStub(impedance=250.0, length=0.045 * wavelength, end="short"),
            SeriesCapacitor(capacitance=1.0 / (2 * np.pi * design.frequency * 60.0)),
        )
    return ()


def rough_beam(design: Design) -> Beam:
    """Build a beam from its figures."""
    wavelength = SPEED_OF_LIGHT / design.frequency
    shares = {1: (1.0,), 2: (0.6, 0.4), 3: (0.4, 0.35, 0.25)}[len(design.diameters)]
    elements = []
    for number, (length, place) in enumerate(zip(design.lengths, design.places, strict=True)):
        role = "reflector" if number == 0 else "driven" if number == design.driven else "director"
        half = tuple(
            TubeSection(diameter=diameter, length=0.5 * share * length * wavelength)
            for diameter, share in zip(design.diameters, shares, strict=True)
        )
        elements.append(Element(role=role, position=place * wavelength, half=half))
    return Beam(
        name=design.name, band=design.band, design_frequency=design.frequency,
        height=design.height, heading=0.0, material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.001 * wavelength), elements=tuple(elements),
    )  # fmt: skip


def tolerance_for(wavelength: float) -> Tolerance:
    """Errors larger than careful work would make, or there would be nothing to advise."""
    return Tolerance(
        cutting=1.5e-3 * wavelength,
        strap=1.5e-3 * wavelength,
        component=0.1,
        height=min(0.3, 0.03 * wavelength),
    )


def care_for(wavelength: float) -> MovingCare:
    """How exactly moves are made."""
    return MovingCare(length=max(3e-4, 5e-5 * wavelength))


@cache
def planned(number: int, ground: Ground | None = None) -> Installation:
    """Tune a rough design until it is matched, without any error: the plan."""
    design = DESIGNS[number]
    installation = Installation(
        beam=rough_beam(design), ground=ground or design.ground, stages=stages_for(design)
    )
    for _ in range(3):
        predictor = make_predictor(
            installation=installation,
            lowest_frequency=design.band[0],
            highest_frequency=design.band[1],
        )
        causes = usual_causes(installation=installation)
        sure = Knowledge(
            causes=causes, mean=np.zeros(len(causes)), covariance=1e-12 * np.eye(len(causes))
        )
        advice = advise(
            predictor=predictor, knowledge=sure, frequencies=np.array([design.frequency])
        )
        installation = after_changes(installation=installation, changes=advice.moves())
    return installation


@cache
def planned_predictor(number: int) -> Predictor:
    """Prepare a predictor; lines differ from case to case and are put in later."""
    band = DESIGNS[number].band
    return make_predictor(
        installation=planned(number), lowest_frequency=band[0], highest_frequency=band[1]
    )


def true_impedance(installation: Installation, frequencies: np.ndarray) -> np.ndarray:
    """Impedance at the start of the line, by the finer solution and exact ground.

    Over many frequencies it is interpolated, of degree eight: an error below 1e-7 in reflection.
    """
    some = frequencies if len(frequencies) <= EXACT else chebyshev_nodes(frequencies, EXACT)
    solution = solve_beam(
        beam=installation.beam,
        frequencies=some,
        detail=reference_detail(frequency=installation.beam.band[1]),
        ground=installation.ground,
    )
    impedance = solution.impedance
    if some is not frequencies:
        impedance = lagrange_weights(nodes=some, at=frequencies) @ impedance
    return at_line(installation=installation, impedance=impedance, frequencies=frequencies)


def measured(
    installation: Installation, frequencies: np.ndarray, rng: np.random.Generator
) -> Sweep:
    """Sweep at the meter with noise."""
    start = true_impedance(installation, frequencies)
    clean = at_meter(installation=installation, impedance=start, frequencies=frequencies)
    noise = rng.normal(size=(2, len(frequencies))) * NOISE
    return Sweep(frequencies=frequencies, reflection=clean + noise[0] + 1j * noise[1])


def true_swr(installation: Installation) -> float:
    """Standing wave ratio at the design frequency, at the start of the line."""
    design = np.array([installation.beam.design_frequency])
    return float(
        standing_wave_ratio(
            impedance=true_impedance(installation, design), reference=installation.reference
        )[0]
    )


def with_random_line(installation: Installation, rng: np.random.Generator) -> Installation:
    """Put a line of 2 m to 40 m in."""
    name = ("RG-213", "RG-58C", "RG-223")[int(rng.integers(3))]
    return replace(installation, line=COAX_TYPES[name], line_length=float(rng.uniform(2.0, 40.0)))


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepCase:
    """What came of one sweep."""

    design: str
    before: float
    after: tuple[float, ...]
    covered: int
    lengths: int


def run_sweep(task: tuple[int, int]) -> SweepCase:
    """Make one antenna with errors, advise until it is good or twice."""
    seed, case = task
    rng = np.random.default_rng([seed, case])
    number = case % len(DESIGNS)
    installation = with_random_line(planned(number), rng)
    predictor = replace(planned_predictor(number), installation=installation)
    wavelength = installation.beam.wavelength
    causes = usual_causes(installation=installation, tolerance=tolerance_for(wavelength))
    start = first_knowledge(causes)
    even = rng.uniform(-np.sqrt(3.0), np.sqrt(3.0), size=len(causes))
    errors = (rng.normal(size=len(causes)) if case % 4 < 2 else even) * start.spread
    real = after_changes(installation=installation, changes=as_changes(causes, errors))
    frequencies = np.linspace(*installation.beam.band, POINTS)
    before = true_swr(real)
    care = care_for(wavelength)
    past: list[Trial] = []
    after: list[float] = []
    covered = lengths = 0
    for _ in range(2):
        trial = next_trial(
            predictor=predictor, sweep=measured(real, frequencies, rng), start=start,
            past=tuple(past), care=care,
        )  # fmt: skip
        if not past:
            covered, lengths = _coverage(trial, errors)
        past.append(trial)
        made = {}
        for key, amount in trial.advice.moves().items():
            is_share = next(c.unit for c in causes if c.key == key) != "m"
            made[key] = amount + rng.normal() * (care.share if is_share else care.length)
        real = after_changes(installation=real, changes=_relative(made, real, installation))
        after.append(true_swr(real))
        if after[-1] <= GOOD:
            break
    return SweepCase(
        design=DESIGNS[number].name, before=before, after=tuple(after),
        covered=covered, lengths=lengths,
    )  # fmt: skip


def _relative(made: dict[str, float], real: Installation, plan: Installation) -> dict[str, float]:
    """Shares of the planned value as shares of the value that stands there."""
    found = {}
    for key, amount in made.items():
        kind, _, number = key.partition(".")
        stage = real.stages[int(number)] if kind == "stage" else None
        if isinstance(stage, SeriesCapacitor):
            amount *= plan.stages[int(number)].capacitance / stage.capacitance
        found[key] = amount
    return found


def _coverage(trial: Trial, errors: np.ndarray) -> tuple[int, int]:
    after = trial.fit.after
    is_length = np.array(
        [c.unit == "m" and c.key.startswith(("tip.", "stage.")) for c in after.causes]
    )
    inside = np.abs(after.mean - errors) <= 1.96 * after.spread
    return int(inside[is_length].sum()), int(is_length.sum())


def summary_of_sweeps(cases: list[SweepCase]) -> list[str]:
    """Table of results by antenna."""
    lines = [
        "| Antenna | sweeps | SWR before, median (worst) | good after 1 | good after 2 | worst "
        "| lengths in their 95 % band |",
        "|---|---|---|---|---|---|---|",
    ]
    names = [design.name for design in DESIGNS]
    for name in [*names, "all"]:
        mine = [case for case in cases if name in ("all", case.design)]
        if not mine:
            continue
        before = [case.before for case in mine]
        first = sum(case.after[0] <= GOOD for case in mine)
        second = sum(case.after[-1] <= GOOD for case in mine)
        covered, lengths = sum(c.covered for c in mine), sum(c.lengths for c in mine)
        lines.append(
            f"| {name} | {len(mine)} | {np.median(before):.2f} ({max(before):.1f}) "
            f"| {100 * first / len(mine):.1f} % | {100 * second / len(mine):.1f} % "
            f"| {max(c.after[-1] for c in mine):.2f} "
            f"| {100 * covered / lengths:.1f} % of {lengths} |"
        )
    return lines
