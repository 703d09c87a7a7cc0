"""Synthetic measurements with known errors: the antennas, the errors, and what is read back."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import (
    COAX_TYPES,
    SeriesCapacitor,
    SeriesInductor,
    ShuntInductor,
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
    remembering,
    solve_beam,
    standing_wave_ratio,
)
from boomwright.tuning import (
    FaultAntennas,
    Installation,
    Knowledge,
    MetalFault,
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
    compute_fault_antennas,
    faulty_impedance,
    find_fault,
    first_knowledge,
    half_left,
    make_predictor,
    next_trial,
    splined,
    swapped,
    usual_causes,
)

NOISE = 0.01
POINTS = 41
GOOD = 1.15

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
def planned(number: int) -> Installation:
    """Tune a rough design until it is matched, without any error: the plan."""
    design = DESIGNS[number]
    installation = Installation(
        beam=rough_beam(design), ground=design.ground, stages=stages_for(design)
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
    """Impedance at the start of the line, by the finer solution and exact ground."""
    solution = solve_beam(
        beam=installation.beam,
        frequencies=frequencies,
        detail=reference_detail(frequency=installation.beam.band[1]),
        ground=installation.ground,
    )
    return at_line(installation=installation, impedance=solution.impedance, frequencies=frequencies)


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


FAULT_LINES = (
    "The same beams, errors within usual care (a third to a half of the above),",
    "one fault each: a half",
    "without contact or an open middle joint, a wet balun, two parasitic elements exchanged, 0.1",
    "to 0.6 wavelengths of braid, a shorted capacitor or strap. Faults that change the sweep by",
    "less than 0.05 rms in reflection are drawn again: they cannot be seen. The other antennas:",
    "a dipole, a matched load, each of the other beams of the study brought to this band,",
    "random resonances.",
)
VISIBLE = 0.05
KINDS = (
    "loose element", "wet balun", "wrong element order", "braid common mode", "shorted match",
)  # fmt: skip


@cache
def fault_antennas(number: int) -> FaultAntennas:
    """Solve one beam with its faults."""
    band = DESIGNS[number].band
    return compute_fault_antennas(
        installation=planned(number), lowest_frequency=band[0], highest_frequency=band[1]
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultCase:
    """What came of one faulty antenna, or of another antenna."""

    design: str
    truth: str
    said: str
    misfit: float
    probability: float


def careful(wavelength: float) -> Tolerance:
    """Errors of usual care."""
    loose = tolerance_for(wavelength)
    return replace(
        loose, cutting=loose.cutting / 3.0, strap=loose.strap / 3.0, component=loose.component / 2.0
    )


def run_fault(task: tuple[int, int, bool]) -> FaultCase:
    """Make one sweep with a fault, or of another antenna, and have it named."""
    seed, case, other = task
    rng = np.random.default_rng([seed, case, 7 + other])
    number = case % len(DESIGNS)
    installation = with_random_line(planned(number), rng)
    frequencies = np.linspace(*installation.beam.band, POINTS)
    tolerance = careful(installation.beam.wavelength)
    if other:
        truth = "not one of these"
        clean = at_meter(
            installation=installation, frequencies=frequencies,
            impedance=other_antenna(number, rng, frequencies),
        )  # fmt: skip
    else:
        truth = KINDS[(case // len(DESIGNS)) % len(KINDS)]
        if truth == "wrong element order" and len(installation.beam.elements) < 3:
            # With one parasitic element there is nothing to exchange.
            truth = KINDS[int(rng.choice([0, 1, 3, 4]))]
        clean = visible_fault(truth, installation, tolerance, rng, frequencies)
    noise = rng.normal(size=(2, POINTS)) * NOISE
    report = find_fault(
        installation=installation, antennas=fault_antennas(number), tolerance=tolerance,
        sweep=Sweep(frequencies=frequencies, reflection=clean + noise[0] + 1j * noise[1]),
    )  # fmt: skip
    return FaultCase(
        design=DESIGNS[number].name, truth=truth, said=report.verdict,
        misfit=report.named[0].fit.misfit, probability=report.kinds[0][1],
    )  # fmt: skip


def visible_fault(
    kind: str, installation: Installation, tolerance: Tolerance, rng: np.random.Generator,
    frequencies: np.ndarray,
) -> np.ndarray:  # fmt: skip
    """Reflection of an antenna with small errors and one fault that can be seen."""
    while True:
        causes = usual_causes(installation=installation, tolerance=tolerance)
        errors = rng.normal(size=len(causes)) * first_knowledge(causes).spread
        real = after_changes(installation=installation, changes=as_changes(causes, errors))
        healthy = at_meter(
            installation=real, frequencies=frequencies,
            impedance=true_impedance(real, frequencies),
        )  # fmt: skip
        faulty = faulty_reflection(kind, real, rng, frequencies)
        if np.sqrt(np.mean(np.abs(faulty - healthy) ** 2)) > VISIBLE:
            return faulty


def faulty_reflection(
    kind: str, real: Installation, rng: np.random.Generator, frequencies: np.ndarray
) -> np.ndarray:
    """Put a fault of a kind into an installation."""
    beam, fault, stages = real.beam, MetalFault(), real.stages
    parasitic = [n for n in range(len(beam.elements)) if n != beam.driven_index]
    omega = 2.0 * np.pi * beam.design_frequency
    leak = 0.0 * frequencies
    if kind == "loose element":
        which = int(rng.integers(len(beam.elements)))
        if which != beam.driven_index and rng.random() < 0.5:
            fault = MetalFault(open_middle=which)
        else:
            left = half_left(element=beam.elements[which])
            fault = MetalFault(short_half=(which, left[int(rng.integers(len(left)))]))
    elif kind == "wet balun":
        resistance, reactance = np.exp(rng.uniform(np.log(60.0), np.log(1000.0), size=2))
        leak = 1.0 / resistance + 1j * frequencies / beam.design_frequency / reactance
    elif kind == "wrong element order":
        first, second = rng.choice(parasitic, size=2, replace=False).tolist()
        beam = swapped(beam, first, second)
    elif kind == "shorted match":
        stages = shorted_stages(stages, float(rng.uniform(2.0, 12.0)) / omega, rng)
    else:
        longest = 0.6 * beam.wavelength
        if real.ground.kind != "free space":
            longest = min(longest, 0.9 * beam.height)
        fault = MetalFault(braid_length=float(rng.uniform(0.1 * beam.wavelength, longest)))
    real = replace(real, beam=beam, stages=stages)
    antenna = spread_over(frequencies, real, fault)
    start = at_line(installation=real, impedance=antenna, frequencies=frequencies)
    start = 1.0 / (1.0 / start + leak)
    return at_meter(installation=real, impedance=start, frequencies=frequencies)


def spread_over(frequencies: np.ndarray, real: Installation, fault: MetalFault) -> np.ndarray:
    """Exact impedance at some frequencies, interpolated: real ground is slow."""
    some = np.linspace(frequencies[0], frequencies[-1], 11)
    exact = faulty_impedance(
        beam=real.beam, fault=fault, ground=real.ground, frequencies=some,
        detail=reference_detail(frequency=real.beam.band[1]), prepare=remembering(),
    )  # fmt: skip
    return splined(some, exact, frequencies)


def shorted_stages(
    stages: tuple[Stage, ...], inductance: float, rng: np.random.Generator
) -> tuple[Stage, ...]:
    """Short a capacitor or a strap of the match, or the feed point when there is none."""
    places = [
        n for n, stage in enumerate(stages) if isinstance(stage, (SeriesCapacitor, ShuntStub))
    ]
    if not places:
        return (*stages, ShuntInductor(inductance=inductance))
    at = int(rng.choice(places))
    short: Stage = ShuntInductor(inductance=inductance)
    if isinstance(stages[at], SeriesCapacitor):
        short = SeriesInductor(inductance=inductance)
    return (*stages[:at], short, *stages[at + 1 :])


def other_antenna(number: int, rng: np.random.Generator, frequencies: np.ndarray) -> np.ndarray:
    """Impedance at the start of the line of an antenna that is not the planned one."""
    middle = 0.5 * (frequencies[0] + frequencies[-1])
    choice = int(rng.integers(4))
    if choice == 0:
        resistance = rng.uniform(45.0, 55.0)
        return np.full(len(frequencies), resistance, dtype=complex)
    if choice == 1:
        detune = frequencies / (middle * rng.uniform(0.97, 1.03))
        quality = rng.uniform(5.0, 40.0)
        return rng.uniform(20.0, 120.0) * (1.0 + 1j * quality * (detune - 1.0 / detune))
    if choice == 2:
        elements: tuple[Element, ...] = (
            Element(
                role="driven", position=0.0,
                half=(TubeSection(diameter=0.002, length=0.238 * SPEED_OF_LIGHT / middle),),
            ),
        )  # fmt: skip
        beam = replace(planned(number).beam, elements=elements)
        return true_impedance(Installation(beam=beam, ground=planned(number).ground), frequencies)
    which = int(rng.choice([n for n in range(len(DESIGNS)) if n != number]))
    ratio = DESIGNS[number].frequency / DESIGNS[which].frequency
    beyond = planned(which)
    solution = solve_beam(
        beam=beyond.beam, frequencies=frequencies / ratio, ground=FREE_SPACE,
        detail=reference_detail(frequency=float(frequencies[-1] / ratio)),
    )  # fmt: skip
    return at_line(
        installation=beyond, impedance=solution.impedance, frequencies=frequencies / ratio
    )


def summary_of_faults(cases: list[FaultCase]) -> list[str]:
    """Table of what was and what was said."""
    said = [*KINDS, "no fault", "not one of these"]
    lines = [
        "| what it was | " + " | ".join(said) + " | right |",
        "|---" * (len(said) + 2) + "|",
    ]
    for truth in [*KINDS, "not one of these"]:
        mine = [case for case in cases if case.truth == truth]
        if mine:
            counts = [sum(case.said == name for case in mine) for name in said]
            right = sum(case.said == truth for case in mine)
            cells = " | ".join(str(count) for count in counts)
            lines.append(f"| {truth} | {cells} | {100 * right / len(mine):.0f} % |")
    faults = [case for case in cases if case.truth != "not one of these"]
    right = sum(case.said == case.truth for case in faults)
    lines += [
        "",
        f"Faults named rightly: {right} of {len(faults)}, {100 * right / len(faults):.1f} %.",
    ]
    return lines
