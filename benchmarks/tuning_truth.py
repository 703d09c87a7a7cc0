"""Antennas with known errors, and what a meter shows of them.

Made by the field solver and by formulas written out here, apart from those of the fit: tips and
straps are moved on the beam itself, line and meter are computed from textbook equations
{pozar-2012, sec. 2.7 and 4.5}.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from functools import cache

import numpy as np
from scipy.interpolate import BarycentricInterpolator

from boomwright.base import SPEED_OF_LIGHT
from boomwright.feed import COAX_TYPES, GammaShape, HairpinShape, TeeShape, solve_gamma, solve_tee
from boomwright.feed.field_hairpin import solve_hairpin
from boomwright.feed.field_match import FieldMatch
from boomwright.feed.field_model import FieldSetting, solve_wires
from boomwright.feed.field_shapes import SplitShape
from boomwright.parts import MATERIALS, Beam, Conductor, Element, Feed, TubeSection
from boomwright.solver import GROUND_CLASSES, Ground
from boomwright.tuning.causes import Tolerance
from boomwright.tuning.installation import Installation

POINTS = 41
NODES = 9
GROUND = GROUND_CLASSES["medium dry"]
#: spreads of what goes wrong, as the fit is told: care, residuals, computation, scatter as
#: logarithms
CARE, RESIDUAL, COMPUTED, SCATTER = 0.5, 0.5, 0.4, 0.7
#: what acts like an error of tips, match or stray capacitance but is none, over that error
ALIKE = 0.45
METER_RESIDUAL, METER_SCATTER = 0.007, 0.003
UNMODELLED = (
    "an element 0.8 % of a wavelength out of place", "tubes a tenth thinner",
    "rods a tenth too close", "a wire beside the beam", "directivity that turns over the band",
    "a clamp at the middle of the driven element", "a leak across the feed",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Design:
    """One antenna of the study, in wavelengths at its design frequency."""

    name: str
    frequency: float
    band: tuple[float, float]
    lengths: tuple[float, ...]
    places: tuple[float, ...]
    diameters: tuple[float, ...]
    height: float
    match: str
    rods: tuple[float, float] = (0.0, 0.0)  #: diameter and spacing [m]
    lines: tuple[str, ...] = ("RG-213", "RG-58C", "RG-223")
    target: float = 50.0  #: what it is to be matched to [ohm]


DESIGNS = (
    Design(name="20 m dipole, fed straight", frequency=14.175e6, band=(14.0e6, 14.35e6),
           lengths=(0.4795,), places=(0.0,), diameters=(0.03, 0.022), height=9.0, match="split",
           lines=("RG-11A", "RG-59B"), target=75.0),
    Design(name="20 m, three elements, hairpin", frequency=14.175e6, band=(14.0e6, 14.35e6),
           lengths=(0.497, 0.462, 0.449), places=(0.0, 0.14, 0.30), diameters=(0.03, 0.022),
           height=14.0, match="hairpin", rods=(0.00635, 0.05)),
    Design(name="10 m, four elements, gamma", frequency=28.5e6, band=(28.0e6, 29.0e6),
           lengths=(0.497, 0.470, 0.448, 0.442), places=(0.0, 0.18, 0.36, 0.60),
           diameters=(0.025, 0.019), height=12.0, match="gamma", rods=(0.01, 0.09)),
    Design(name="6 m, four elements, tee", frequency=50.2e6, band=(50.0e6, 51.0e6),
           lengths=(0.494, 0.462, 0.448, 0.440), places=(0.0, 0.18, 0.31, 0.52),
           diameters=(0.016,), height=9.0, match="tee", rods=(0.006, 0.05)),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Truth:
    """What really stands there, and the meter that reads it."""

    beam: Beam
    shape: object
    stages: tuple[str, ...]  #: ``capacitor`` and ``balun``, from the antenna
    capacitance: float
    ground: Ground
    off: dict[str, float]  #: deviations from the plan, as the fit names them
    beside: dict[str, float]  #: what acts like them besides
    meter: dict[str, complex]  #: middles and tilts of directivity, tracking, source match, feed
    scatter: float
    line: str
    line_length: float
    target: float = 50.0
    effect: str = ""
    added: dict[str, float] = field(default_factory=dict)
    #: what gives the impedance at the port of a faulty antenna, and its arguments
    port: tuple | None = None


@cache
def planned(number: int) -> Installation:
    """The plan: matched in the field, as the feed room orders it."""
    design = DESIGNS[number]
    wavelength = SPEED_OF_LIGHT / design.frequency
    elements = []
    driven = min(1, len(design.lengths) - 1)
    for at, (length, place) in enumerate(zip(design.lengths, design.places, strict=True)):
        role = "driven" if at == driven else "reflector" if at == 0 else "director"
        shares = {1: (1.0,), 2: (0.6, 0.4)}[len(design.diameters)]
        half = tuple(
            TubeSection(diameter=d, length=0.5 * s * length * wavelength)
            for d, s in zip(design.diameters, shares, strict=True)
        )
        elements.append(Element(role=role, position=place * wavelength, half=half))
    beam = Beam(
        name=design.name, band=design.band, design_frequency=design.frequency,
        height=design.height, heading=0.0, material=MATERIALS["6061-T6"],
        feed=Feed(kind="split", gap=0.03), elements=tuple(elements),
    )  # fmt: skip
    setting = FieldSetting(ground=GROUND)
    if design.match == "split":
        return Installation(beam=beam, ground=GROUND, feed_error=0.015, target=design.target)
    diameter, spacing = design.rods
    match: FieldMatch
    if design.match == "gamma":
        match = solve_gamma(beam=beam, rod_diameter=diameter, spacing=spacing, setting=setting)
    elif design.match == "tee":
        match = solve_tee(beam=beam, rod_diameter=diameter, spacing=spacing, setting=setting)
    else:
        match = solve_hairpin(beam=beam, rod_diameter=diameter, spacing=spacing, setting=setting)
    return Installation(
        beam=match.beam, ground=GROUND, shape=match.shape, stages=match.match.stages,
        feed_error=0.02 if design.match == "hairpin" else 0.03,
    )  # fmt: skip


def tolerance_for(number: int) -> Tolerance:
    """Errors larger than careful work makes, or there would be nothing to advise."""
    wavelength = SPEED_OF_LIGHT / DESIGNS[number].frequency
    return Tolerance(cutting=1e-3 * wavelength, strap=1.2e-3 * wavelength, component=0.08)


def spreads(number: int) -> dict[str, float]:
    """Standard deviation of every deviation, as the fit is told."""
    design = DESIGNS[number]
    wavelength = SPEED_OF_LIGHT / design.frequency
    usual = tolerance_for(number)
    found = {f"tip.{at}": usual.cutting for at in range(len(design.lengths))}
    if design.match in ("hairpin", "gamma", "tee"):
        found["strap"] = usual.strap
    found |= {"height": 0.3, "ground": float(np.log(2.0))}
    if design.match in ("gamma", "tee"):
        found["stage.0"] = usual.component
    small = min(1.0, wavelength / 10.0)
    found |= {"stray": 2e-12 * small, "lead": 15e-9 * small}
    return found


def draw_truth(number: int, rng: np.random.Generator, *, even: bool = False) -> Truth:
    """Draw an antenna and its meter from what the fit is told.

    Args:
        even: errors of cutting evenly spread over the same standard deviation
    """
    plan = planned(number)
    care = np.exp(CARE * rng.normal())

    def alike(key: str, spread: float) -> float:
        if not key.startswith(("tip.", "strap", "stage.", "stray")):
            return 0.0
        return float(ALIKE * spread * rng.normal() * (1.0 if key == "stray" else care))

    def error(key: str, spread: float) -> float:
        usual = rng.uniform(-np.sqrt(3.0), np.sqrt(3.0)) if even else rng.normal()
        cut = key.startswith(("tip.", "strap", "stage."))
        middle = spread if key in ("stray", "lead") else 0.0
        return float(middle + spread * (care * usual if cut else rng.normal()))

    off = {key: error(key, spread) for key, spread in spreads(number).items()}
    beside = {key: alike(key, spread) for key, spread in spreads(number).items()}
    line = str(rng.choice(DESIGNS[number].lines))
    length = float(rng.uniform(2.0, 40.0))
    off["line.length"] = float(np.hypot(0.01 * length, 0.03) * rng.normal())
    off["line.loss"], off["line.impedance"] = 0.15 * rng.normal(), 0.02 * rng.normal()
    residual = METER_RESIDUAL * np.exp(RESIDUAL * rng.normal())
    feed = plan.feed_error * np.exp(COMPUTED * rng.normal())
    meter = {}
    for name, size in (("D", residual), ("T", residual), ("M", residual), ("feed", feed)):
        meter[name] = size * complex(rng.normal(), rng.normal())
        meter[name + " tilt"] = 0.4 * size * complex(rng.normal(), rng.normal())
        if name in ("D", "feed"):
            meter[name + " bend"] = 0.25 * size * complex(rng.normal(), rng.normal())
    names = {"SeriesCapacitor": "capacitor", "Transformer": "balun"}
    capacitance = next((s.capacitance for s in plan.stages if hasattr(s, "capacitance")), 0.0)
    return moved(
        Truth(
            beam=plan.beam, shape=plan.shape, capacitance=capacitance, ground=plan.ground,
            stages=tuple(names[type(stage).__name__] for stage in plan.stages),
            off=off, meter=meter, scatter=METER_SCATTER * float(np.exp(SCATTER * rng.normal())),
            line=line, line_length=length, target=plan.target, added={"residual": residual},
            beside=beside,
        ),
        {key: off[key] + beside[key] for key in spreads(number)},
    )  # fmt: skip


def taken_out_again(truth: Truth, rng: np.random.Generator) -> Truth:
    """The same antenna another time: the kit's errors come again, but for a part."""
    meter, stays = dict(truth.meter), rng.uniform(0.6, 1.0)
    for name, size in (("", 1.0), (" tilt", 0.4), (" bend", 0.25)):
        for term in ("D", "T", "M"):
            if term + name in meter:
                new = size * truth.added["residual"] * complex(rng.normal(), rng.normal())
                meter[term + name] = stays * meter[term + name] + np.sqrt(1.0 - stays**2) * new
    return replace(truth, meter=meter)


def calibrated_anew(truth: Truth, rng: np.random.Generator) -> Truth:
    """The same antenna, the meter with other residuals and none that turn over the band."""
    meter = dict(truth.meter)
    residual = METER_RESIDUAL * np.exp(RESIDUAL * rng.normal())
    for name, size in (("", 1.0), (" tilt", 0.4), (" bend", 0.25)):
        for term in ("D", "T", "M"):
            if term + name in meter:
                meter[term + name] = size * residual * complex(rng.normal(), rng.normal())
    effect = "calibrated anew" if truth.effect == UNMODELLED[4] else truth.effect
    added = truth.added | {"residual": residual}
    return replace(truth, meter=meter, effect=effect, added=added)


def moved(truth: Truth, changes: dict[str, float]) -> Truth:
    """Move parts by so much; a capacitor by a share of the planned one."""
    elements, shape, capacitance = list(truth.beam.elements), truth.shape, truth.capacitance
    height, ground = truth.beam.height, truth.ground
    for key, amount in changes.items():
        if key.startswith("tip."):
            element = elements[int(key[4:])]
            last = element.half[-1]
            tip = replace(last, length=last.length + amount)
            elements[int(key[4:])] = replace(element, half=(*element.half[:-1], tip))
        elif key == "strap":
            name = "length" if isinstance(shape, HairpinShape) else "rod_length"
            shape = replace(shape, **{name: getattr(shape, name) + amount})
        elif key == "stage.0":
            capacitance += amount * truth.added.get("planned capacitance", truth.capacitance)
        elif key == "height":
            height += amount
        elif key == "ground":
            ground = replace(
                ground,
                permittivity=ground.permittivity * float(np.exp(0.5 * amount)),
                conductivity=ground.conductivity * float(np.exp(amount)),
            )
    added = dict(truth.added)
    added.setdefault("planned capacitance", truth.capacitance)
    beam = replace(truth.beam, elements=tuple(elements), height=height)
    return replace(
        truth, beam=beam, shape=shape, capacitance=capacitance, ground=ground, added=added
    )


def with_effect(truth: Truth, effect: str, rng: np.random.Generator) -> Truth:
    """Add something that the fit knows nothing of."""
    beam, shape = truth.beam, truth.shape
    wavelength = SPEED_OF_LIGHT / beam.design_frequency
    elements = list(beam.elements)
    if effect == UNMODELLED[0]:
        which = int(rng.integers(len(elements)))
        step = 0.008 * wavelength * rng.choice([-1.0, 1.0])
        elements[which] = replace(elements[which], position=elements[which].position + step)
    elif effect == UNMODELLED[1]:
        elements = [
            replace(e, half=tuple(replace(s, diameter=0.9 * s.diameter) for s in e.half))
            for e in elements
        ]
    elif effect == UNMODELLED[2] and isinstance(shape, HairpinShape | GammaShape | TeeShape):
        shape = replace(shape, spacing=0.9 * shape.spacing)
    elif effect == UNMODELLED[3]:
        away = min(wavelength * rng.uniform(0.25, 0.5), beam.height - 0.05 * wavelength)
        tilt = rng.uniform(-0.3, 0.3)
        half, x, z = 0.22 * wavelength, 0.1 * wavelength, beam.height - away
        wire = Conductor(name="wire", diameter=0.003, start=(x, -half, z), end=(x + tilt, half, z))
        beam = replace(beam, conductors=(*beam.conductors, wire))
    beam = replace(beam, elements=tuple(elements))
    # The effect takes the place of a part of what the computation leaves out and what acts alike.
    meter = {n: 0.5 * v if n.startswith("feed") else v for n, v in truth.meter.items()}
    halved = {key: 0.5 * amount for key, amount in truth.beside.items()}
    found = replace(truth, beam=beam, shape=shape, effect=effect, meter=meter, beside=halved)
    return moved(found, {key: -amount for key, amount in halved.items()})


def port_impedance(truth: Truth, frequencies: np.ndarray, *, finer: bool) -> np.ndarray:
    """Impedance at the wires' port."""
    at = frequencies
    if len(frequencies) > NODES:
        low, high = frequencies[0], frequencies[-1]
        at = 0.5 * (low + high) - 0.5 * (high - low) * np.cos(
            np.pi * np.arange(NODES) / (NODES - 1)
        )
    if truth.port is not None:
        found = truth.port[0](truth, at, *truth.port[1])
        return found if at is frequencies else BarycentricInterpolator(at, found)(frequencies)
    setting = FieldSetting(ground=truth.ground)
    shape = truth.shape or SplitShape(gap=truth.beam.feed.gap)
    found = solve_wires(
        beam=truth.beam, system=shape.wires(beam=truth.beam, setting=setting), frequencies=at,
        setting=setting, finer=finer,
    ).impedance  # fmt: skip
    return found if at is frequencies else BarycentricInterpolator(at, found)(frequencies)


def start_of_line(truth: Truth, frequencies: np.ndarray) -> np.ndarray:
    """Impedance where the line begins."""
    omega = 2.0 * np.pi * frequencies
    z = port_impedance(truth, frequencies, finer=bool(truth.effect))
    low, high = truth.beam.band
    tilt = (2.0 * frequencies - low - high) / (high - low)
    bend = 2.0 * tilt**2 - 1.0
    off = truth.meter["feed"] + tilt * truth.meter["feed tilt"] + bend * truth.meter["feed bend"]
    z = z * (1.0 + off)
    if truth.effect == UNMODELLED[5]:
        z = z + 1j * omega * 4.0 / (2.0 * np.pi * truth.beam.design_frequency)
    if truth.effect == UNMODELLED[6]:
        z = 1.0 / (1.0 / z + 1.0 / 1500.0)
    stray = truth.off["stray"] + truth.beside["stray"]
    z = 1.0 / (1.0 / z + 1j * omega * stray) + 1j * omega * truth.off["lead"]
    for stage in truth.stages:
        if stage == "balun":
            z = z / 4.0
        elif "short" in truth.added:
            z = z + 1j * omega / _angular(truth) * truth.added["short"]
        else:
            z = z - 1j / (omega * truth.capacitance)
    if "short" in truth.added and "capacitor" not in truth.stages:
        z = 1.0 / (1.0 / z - 1j * _angular(truth) / (omega * truth.added["short"]))
    if "leak" in truth.added:
        water = 1j * omega / _angular(truth) / truth.added["water"]
        z = 1.0 / (1.0 / z + 1.0 / truth.added["leak"] + water)
    return z


def _angular(truth: Truth) -> float:
    return 2.0 * np.pi * truth.beam.design_frequency


def read(truth: Truth, frequencies: np.ndarray, rng: np.random.Generator) -> np.ndarray:
    """Reflection as the meter shows it."""
    z = start_of_line(truth, frequencies)
    if truth.line:
        kind = COAX_TYPES[truth.line]
        length = truth.line_length + truth.off["line.length"]
        pairs = np.array([kind.propagation(frequency=float(f)) for f in frequencies])
        loss = pairs[:, 0].real * max(0.0, 1.0 + truth.off["line.loss"])
        tangent = np.tanh((loss + 1j * pairs[:, 0].imag) * length)
        z0 = pairs[:, 1] * (1.0 + truth.off["line.impedance"])
        z = z0 * (z + z0 * tangent) / (z0 + z * tangent)
    g = (z - 50.0) / (z + 50.0)
    low, high = frequencies[0], frequencies[-1]
    tilt = (2.0 * frequencies - low - high) / (high - low)
    terms = {n: truth.meter[n] + tilt * truth.meter[n + " tilt"] for n in ("D", "T", "M")}
    terms["D"] = terms["D"] + (2.0 * tilt**2 - 1.0) * truth.meter["D bend"]
    if truth.effect == UNMODELLED[4]:
        terms["D"] = terms["D"] * np.exp(1j * np.pi * tilt)
    g = terms["D"] + (1.0 + terms["T"]) * g / (1.0 - terms["M"] * g)
    noise = rng.normal(size=(2, len(frequencies))) * truth.scatter
    return g + noise[0] + 1j * noise[1]


def true_swr(truth: Truth) -> float:
    """Standing wave ratio where the line begins, at the design frequency."""
    z = start_of_line(truth, np.array([truth.beam.design_frequency]))[0]
    size = min(0.998, abs((z - truth.target) / (z + truth.target)))
    return float((1.0 + size) / (1.0 - size))
