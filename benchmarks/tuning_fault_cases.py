"""Synthetic sweeps of antennas with faults, of sound ones and of others; what is said of them."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import Literal

import numpy as np
from tuning_cases import DESIGNS, EXACT, NOISE, POINTS, planned, tolerance_for, with_random_line

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import SeriesCapacitor, SeriesInductor, ShuntInductor, ShuntStub, Stage
from boomwright.parts import Element, TubeSection
from boomwright.solver import (
    FREE_SPACE,
    GROUND_CLASSES,
    Ground,
    reference_detail,
    remembering,
    solve_beam,
)
from boomwright.tuning import (
    FaultAntennas,
    Installation,
    MetalFault,
    Sweep,
    Tolerance,
    after_changes,
    as_changes,
    at_line,
    at_meter,
    compute_fault_antennas,
    faulty_impedance,
    find_fault,
    first_knowledge,
    half_left,
    swapped,
    usual_causes,
)
from boomwright.tuning.interpolating import chebyshev_nodes, lagrange_weights

Below = Literal["real ground", "free space"]
What = Literal["fault", "sound", "mis-cut", "other"]

FAULT_LINES = (
    "The same beams, errors within usual care (a third to a half of the above), all of them over",
    "real ground, then all of them in free space. One fault each: a half without contact or an",
    "open middle joint, a wet balun, two parasitic elements exchanged, 0.1 to 0.6 wavelengths of",
    "braid, a shorted capacitor or strap. Faults that change the sweep by less than 0.05 rms in",
    "reflection are drawn again: they cannot be seen. Sound: usual errors and no fault. Mis-cut:",
    "one part besides off by 2 to 4 times its usual spread. Other antennas: a dipole, a matched",
    "load, each of the other beams of the study brought to this band, random resonances.",
)
VISIBLE = 0.05
#: reach of a mis-cut part, in usual spreads
MIS_CUT = (2.0, 4.0)
KINDS = (
    "loose element", "wet balun", "wrong element order", "braid common mode", "shorted match",
)  # fmt: skip


def ground_below(number: int, below: Below) -> Ground:
    """Ground of one beam of the study; those that have none stand over medium dry ground."""
    if below == "free space":
        return FREE_SPACE
    ground = DESIGNS[number].ground
    return ground if ground.kind == "real" else GROUND_CLASSES["medium dry"]


@cache
def fault_antennas(number: int, below: Below) -> FaultAntennas:
    """Solve one beam with its faults."""
    band = DESIGNS[number].band
    return compute_fault_antennas(
        installation=planned(number, ground_below(number, below)),
        lowest_frequency=band[0],
        highest_frequency=band[1],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FaultCase:
    """What came of one antenna."""

    design: str
    below: Below
    what: What
    truth: str
    said: str
    misfit: float
    probability: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredCase:
    """A synthetic measurement."""

    number: int
    below: Below
    what: What
    truth: str
    installation: Installation
    sweep: Sweep


def careful(wavelength: float) -> Tolerance:
    """Errors of usual care."""
    loose = tolerance_for(wavelength)
    return replace(
        loose, cutting=loose.cutting / 3.0, strap=loose.strap / 3.0, component=loose.component / 2.0
    )


def run_fault(task: tuple[int, int, What, Below]) -> FaultCase:
    """Make one sweep and have it named."""
    return judged(measured_case(task))


def measured_case(task: tuple[int, int, What, Below]) -> MeasuredCase:
    """Make one sweep with a fault, of a sound or mis-cut antenna, or of another antenna."""
    seed, case, what, below = task
    kinds = ("fault", "other", "sound", "mis-cut")
    rng = np.random.default_rng([seed, case, 7 + kinds.index(what), below == "free space"])
    number = case % len(DESIGNS)
    installation = with_random_line(planned(number, ground_below(number, below)), rng)
    frequencies = np.linspace(*installation.beam.band, POINTS)
    truth = "no fault"
    if what == "other":
        truth = "not one of these"
        clean = at_meter(
            installation=installation, frequencies=frequencies,
            impedance=other_antenna(installation, number, rng, frequencies),
        )  # fmt: skip
    elif what == "fault":
        truth = KINDS[(case // len(DESIGNS)) % len(KINDS)]
        if truth == "wrong element order" and len(installation.beam.elements) < 3:
            # With one parasitic element there is nothing to exchange.
            truth = KINDS[int(rng.choice([0, 1, 3, 4]))]
        clean = visible_fault(truth, installation, rng, frequencies)
    else:
        real = with_errors(installation, rng, mis_cut=what == "mis-cut")
        clean = healthy_reflection(real, frequencies)
    noise = rng.normal(size=(2, POINTS)) * NOISE
    return MeasuredCase(
        number=number, below=below, what=what, truth=truth, installation=installation,
        sweep=Sweep(frequencies=frequencies, reflection=clean + noise[0] + 1j * noise[1]),
    )  # fmt: skip


def judged(case: MeasuredCase) -> FaultCase:
    """Have one sweep named."""
    report = find_fault(
        installation=case.installation,
        antennas=fault_antennas(case.number, case.below),
        tolerance=careful(case.installation.beam.wavelength),
        sweep=case.sweep,
    )
    return FaultCase(
        design=DESIGNS[case.number].name, below=case.below, what=case.what, truth=case.truth,
        said=report.verdict, misfit=report.named[0].fit.misfit, probability=report.kinds[0][1],
    )  # fmt: skip


def with_errors(
    installation: Installation, rng: np.random.Generator, *, mis_cut: bool = False
) -> Installation:
    """Build an installation with small errors, and with one part cut wrong."""
    tolerance = careful(installation.beam.wavelength)
    causes = usual_causes(installation=installation, tolerance=tolerance)
    errors = rng.normal(size=len(causes)) * first_knowledge(causes).spread
    if mis_cut:
        parts = [n for n, cause in enumerate(causes) if cause.key.startswith(("tip.", "stage."))]
        at = int(rng.choice(parts))
        errors[at] = rng.choice([-1.0, 1.0]) * rng.uniform(*MIS_CUT) * causes[at].spread
    return after_changes(installation=installation, changes=as_changes(causes, errors))


def healthy_reflection(real: Installation, frequencies: np.ndarray) -> np.ndarray:
    """Reflection at the meter of an installation without a fault."""
    antenna = spread_over(frequencies, real, MetalFault())
    start = at_line(installation=real, impedance=antenna, frequencies=frequencies)
    return at_meter(installation=real, impedance=start, frequencies=frequencies)


def visible_fault(
    kind: str, installation: Installation, rng: np.random.Generator, frequencies: np.ndarray
) -> np.ndarray:
    """Reflection of an antenna with small errors and one fault that can be seen."""
    while True:
        real = with_errors(installation, rng)
        healthy = healthy_reflection(real, frequencies)
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
    """Impedance by the finer solution and exact ground, interpolated over frequency."""
    some = chebyshev_nodes(frequencies, EXACT)
    exact = faulty_impedance(
        beam=real.beam, fault=fault, ground=real.ground, frequencies=some,
        detail=reference_detail(frequency=real.beam.band[1]), prepare=remembering(),
    )  # fmt: skip
    return lagrange_weights(nodes=some, at=frequencies) @ exact


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


def other_antenna(
    installation: Installation, number: int, rng: np.random.Generator, frequencies: np.ndarray
) -> np.ndarray:
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
        dipole = replace(installation, beam=replace(installation.beam, elements=elements))
        return spread_over(frequencies, dipole, MetalFault())
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
    """Tables of what was and what was said, over real ground and in free space."""
    lines: list[str] = []
    for below in ("real ground", "free space"):
        mine = [case for case in cases if case.below == below]
        if mine:
            lines += [f"### {below.capitalize()}", "", *_table(mine), ""]
    return lines[:-1]


def _table(cases: list[FaultCase]) -> list[str]:
    said = [*KINDS, "no fault", "not one of these"]
    lines = [
        "| what it was | " + " | ".join(said) + " | right |",
        "|---" * (len(said) + 2) + "|",
    ]
    rows = [(kind, [c for c in cases if c.what == "fault" and c.truth == kind]) for kind in KINDS]
    rows += [
        ("sound", [c for c in cases if c.what == "sound"]),
        ("mis-cut", [c for c in cases if c.what == "mis-cut"]),
        ("another antenna", [c for c in cases if c.what == "other"]),
    ]
    for name, mine in rows:
        if mine:
            counts = [sum(case.said == each for case in mine) for each in said]
            right = sum(case.said == case.truth for case in mine)
            cells = " | ".join(str(count) for count in counts)
            lines.append(f"| {name} | {cells} | {100 * right / len(mine):.0f} % |")
    faults = [case for case in cases if case.what == "fault"]
    right = sum(case.said == case.truth for case in faults)
    if faults:
        lines += [
            "",
            f"Faults named rightly: {right} of {len(faults)}, {100 * right / len(faults):.1f} %.",
        ]
    return lines
