"""Antennas with one fault each: is it named, and are sound and mis-cut ones left in peace.

Broken elements are solved whole, with the break on one side only; a braid is solved by the feed
room's own model.
"""

from __future__ import annotations

import time
from dataclasses import replace

import numpy as np
from tuning_cases import fitted_to, reading_of
from tuning_truth import DESIGNS, Truth, draw_truth, moved, spreads

from boomwright.feed import Braid, HairpinShape, SplitShape, TeeShape, solve_braid
from boomwright.feed.field_model import FieldSetting, solve_wires, whole_system
from boomwright.solver import GapPlace, WirePath
from boomwright.solver.element_paths import beam_paths
from boomwright.tuning.faults import find_fault, list_suspects
from boomwright.tuning.readings import METERS

KINDS = (
    "open or loose element", "wrong element order", "wet balun", "braid common mode",
    "shorted match", "slipped strap", "water in the line", "wrong velocity factor",
    "no fault", "mis-cut",
)  # fmt: skip
#: a fault that changes the sweep by less than this, root mean square, is drawn again
LEAST = 0.05
#: faults are looked for on antennas made with usual care
CAREFUL = 0.5


def run_fault(task: tuple[int, int]) -> dict:
    """One antenna with one fault: what it is called."""
    seed, case = task
    begun = time.perf_counter()
    rng = np.random.default_rng([seed, case, 4])
    number = case % len(DESIGNS)
    allowed = [kind for kind in KINDS if _possible(kind, number)]
    kind = allowed[(case // len(DESIGNS)) % len(allowed)]
    for _ in range(20):
        truth = _careful(draw_truth(number, rng), number)
        noise = int(rng.integers(2**31))
        sound = reading_of(number, truth, np.random.default_rng(noise), {})
        faulty = _with_fault(truth, kind, number, rng)
        reading = reading_of(number, faulty, np.random.default_rng(noise), {})
        effect = np.sqrt(np.mean(np.abs(reading.sweep.reflection - sound.sweep.reflection) ** 2))
        if kind == "no fault" or effect >= LEAST:
            break
    found = fitted_to(number, truth, [reading], case)
    report = find_fault(
        suspects=list_suspects(found.model.surrogate, found.causes),
        reading=found.model.readings[0], meter=METERS["hand-held"],
    )  # fmt: skip
    return {
        "design": number, "kind": kind, "effect": float(effect), "verdict": report.verdict,
        "kinds": report.kinds, "explained": found.explained, "advice": found.advice.verdict,
        "strain": found.strain, "seconds": time.perf_counter() - begun,
    }  # fmt: skip


def _possible(kind: str, number: int) -> bool:
    design = DESIGNS[number]
    if kind == "wrong element order":
        return len(design.lengths) > 2
    if kind == "slipped strap":
        return design.match != "split"
    return kind != "braid common mode" or design.match in ("split", "hairpin")


def _careful(truth: Truth, number: int) -> Truth:
    """The same errors of cutting, halved."""
    back = {
        key: (CAREFUL - 1.0) * truth.off[key]
        for key in spreads(number)
        if key.startswith(("tip.", "strap", "stage."))
    }
    return moved(truth, back)


def _with_fault(truth: Truth, kind: str, number: int, rng: np.random.Generator) -> Truth:
    beam, driven = truth.beam, truth.beam.driven_index
    parasitic = [n for n in range(len(beam.elements)) if n != driven]
    if kind == "open or loose element":
        if parasitic and rng.uniform() < 0.4:
            return replace(truth, port=(_port_of_broken, (int(rng.choice(parasitic)), 0.0)))
        which = int(rng.integers(len(beam.elements)))
        half = beam.elements[which].half
        left = half[0].length if len(half) > 1 else rng.uniform(0.5, 0.85) * half[0].length
        return replace(truth, port=(_port_of_broken, (which, float(left))))
    if kind == "wrong element order":
        one, other = (int(n) for n in rng.choice(parasitic, size=2, replace=False))
        elements = list(beam.elements)
        elements[one] = replace(elements[one], position=beam.elements[other].position)
        elements[other] = replace(elements[other], position=beam.elements[one].position)
        return replace(truth, beam=replace(beam, elements=tuple(elements)))
    if kind == "wet balun":
        leak, water = np.exp(np.log(250.0) + rng.normal(size=2))
        return replace(truth, added=truth.added | {"leak": leak, "water": water})
    if kind == "braid common mode":
        return replace(truth, port=(_port_with_braid, (rng.uniform(0.12, 0.5),)))
    if kind == "shorted match":
        return replace(
            truth, added=truth.added | {"short": float(np.exp(np.log(5.0) + 0.8 * rng.normal()))}
        )
    if kind == "slipped strap":
        place = (
            truth.shape.length if isinstance(truth.shape, HairpinShape) else truth.shape.rod_length
        )
        return moved(truth, {"strap": rng.uniform(0.12, 0.3) * place * rng.choice([-1.0, 1.0])})
    if kind == "water in the line":
        off = truth.off | {
            "line.loss": rng.uniform(1.0, 4.0),
            "line.length": rng.uniform(0.02, 0.08) * truth.line_length,
        }
        return replace(truth, off=off)
    if kind == "wrong velocity factor":
        velocity = rng.choice([0.78, 0.85]) + 0.01 * rng.normal()
        longer = truth.line_length * (0.66 / velocity - 1.0)
        return replace(truth, off=truth.off | {"line.length": longer})
    if kind == "mis-cut":
        key = str(rng.choice([k for k in spreads(number) if k.startswith("tip.")]))
        far = rng.uniform(2.0, 4.0) * spreads(number)[key] * rng.choice([-1.0, 1.0])
        return moved(truth, {key: far})
    return truth


def _port_of_broken(truth: Truth, frequencies: np.ndarray, which: int, left: float) -> np.ndarray:
    """Impedance with one half of an element cut off, or its halves apart."""
    beam, shape = truth.beam, truth.shape
    setting = FieldSetting(ground=truth.ground)
    driven = beam.driven_index
    x = beam.elements[driven].position
    joint = {HairpinShape: 0.0, type(None): 0.0}.get(type(shape))
    if joint is None:
        joint = shape.rod_length
    if isinstance(shape, HairpinShape):
        joint = shape.spacing / 2.0
    paths = list(beam_paths(beam=beam, halves=False, joint=joint))
    if left > 0.0:
        paths[which] = _ending(paths[which], left)
    else:
        gap = 0.5 * beam.elements[which].half[0].diameter
        outer = _starting(paths[which], gap)
        mirrored = replace(
            outer, name="other half", points=outer.points * np.array([1.0, -1.0, 1.0])
        )
        paths[which] = outer
    y = getattr(shape, "spacing", 0.0)
    metal = {"conductivity": beam.material.conductivity}
    width = max(beam.feed.gap, 0.25 * beam.elements[driven].half[0].diameter)
    along = float(-paths[driven].points[0, 1])
    if shape is None:
        gaps = (GapPlace(path=driven, along=along, width=width),)
    elif isinstance(shape, HairpinShape):
        corners = [
            (x, -y / 2, 0),
            (x + shape.length, -y / 2, 0),
            (x + shape.length, y / 2, 0),
            (x, y / 2, 0),
        ]
        paths.append(_rod(corners, shape.rod_diameter, metal))
        gaps = (GapPlace(path=driven, along=along, width=width),)
    else:
        start = -shape.rod_length if isinstance(shape, TeeShape) else 0.0
        corners = [
            (x, start, 0),
            (x, start, -y),
            (x, shape.rod_length, -y),
            (x, shape.rod_length, 0),
        ]
        paths.append(_rod(corners, shape.rod_diameter, metal))
        at, wide = (
            (y + shape.rod_length, max(shape.gap, 0.25 * shape.rod_diameter))
            if start
            else (y / 2, 0.2 * y)
        )
        gaps = (GapPlace(path=len(paths) - 1, along=at, width=wide),)
    if left == 0.0:
        paths.append(mirrored)
    system = whole_system(beam=beam, paths=tuple(paths), gaps=gaps, setting=setting)
    return solve_wires(beam=beam, system=system, frequencies=frequencies, setting=setting).impedance


def _rod(corners: list, diameter: float, metal: dict) -> WirePath:
    return WirePath(
        name="rod", points=np.array(corners, dtype=float),
        radii=np.full(len(corners) - 1, diameter / 2.0), **metal,
    )  # fmt: skip


def _ending(path: WirePath, y: float) -> WirePath:
    """A whole element whose half at positive y ends at a place."""
    keep = path.points[:, 1] < y - 1e-6
    points = np.vstack([path.points[keep], [path.points[0, 0], y, path.points[0, 2]]])
    return replace(path, points=points, radii=path.radii[: len(points) - 1], inductance=())


def _starting(path: WirePath, y: float) -> WirePath:
    """The half at positive y, from a place on."""
    keep = path.points[:, 1] > y + 1e-6
    points = np.vstack([[path.points[0, 0], y, path.points[0, 2]], path.points[keep]])
    return replace(path, points=points, radii=path.radii[-(len(points) - 1) :], inductance=())


def _port_with_braid(truth: Truth, frequencies: np.ndarray, share: float) -> np.ndarray:
    """Impedance with the outside of the line tied to one half, its choke shorted."""
    beam = truth.beam
    setting = FieldSetting(ground=truth.ground)
    length = min(share * beam.wavelength, 0.9 * beam.height)
    braid = Braid(
        drop=0.5 * length,
        down=0.5 * length,
        mast_at=beam.elements[beam.driven_index].position,
        diameter=0.01,
    )
    added = []
    for frequency in frequencies:
        found = solve_braid(beam=beam, braid=braid, frequency=float(frequency), setting=setting)
        added.append(found.admittance[0, 0] - 1.0 / found.plain_impedance)
    shape = truth.shape
    if shape is None:
        shape = SplitShape(gap=beam.feed.gap)
    plain = solve_wires(
        beam=beam, system=shape.wires(beam=beam, setting=setting), frequencies=frequencies,
        setting=setting,
    ).impedance  # fmt: skip
    return 1.0 / (1.0 / plain + np.array(added))
