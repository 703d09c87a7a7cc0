"""Time and quality of ``improve_beam`` for three elements over 2.5 %: one core, ten cases.

``OPENBLAS_NUM_THREADS=1 python benchmarks/design_three_elements.py [starts [write]]``: processor
time of the whole use case, tables and final check included, and with ``starts`` the gap to the
best of so many plain random starts of the same engine: no tables, no screening, no rounds. With
``write`` those best designs go into ``tests/numerics/data/three_elements.json``, which
``tests/numerics/test_design_three_elements.py`` holds the search against.

Five cases take boom and weights at random from a fixed seed; five take the spacings of published
three-element beams: 0.4 wavelengths {nbs-tn-688, table 1} and 0.15 to 0.25 wavelengths a spacing
(W. L. Stutzman and G. A. Thiele, "Antenna Theory and Design", table of equally spaced arrays), from
memory.
"""

from __future__ import annotations

import json
import math
import sys
import time
from pathlib import Path

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design import Targets, Wish, improve_beam
from boomwright.design.minimax import LocalBest, climb
from boomwright.design.setting_up import set_up
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection

#: boom and radius in wavelengths, worth of rear against gain, most SWR
PUBLISHED = (
    (0.40, 0.00425, 0.0, math.inf),
    (0.30, 0.0025, 0.0, math.inf),
    (0.40, 0.0025, 0.2, math.inf),
    (0.30, 0.001, 0.1, 2.0),
    (0.25, 0.001, 0.3, math.inf),
)
RECORD = Path(__file__).parents[1] / "tests" / "numerics" / "data" / "three_elements.json"


def random_cases() -> list[tuple[float, float, float, float]]:
    """Draw five more cases from a fixed seed."""
    generator = np.random.default_rng(11)
    return [
        (
            float(generator.uniform(0.25, 0.4)),
            float(10.0 ** generator.uniform(-3.5, -2.5)),
            float(generator.uniform(0.0, 0.3)),
            float(generator.choice([math.inf, 1.8])),
        )
        for _ in range(5)
    ]


def case_of(boom: float, radius: float, rear: float, swr: float) -> tuple[Beam, Wish]:
    """Three plain elements at a wavelength of one metre, and what is wanted of them."""
    roles = ("reflector", "driven", "director")
    elements = tuple(
        Element(
            role=role,  # type: ignore[arg-type]
            position=number * boom / 2.0,
            half=(TubeSection(diameter=2.0 * radius, length=half),),
        )
        for number, (role, half) in enumerate(zip(roles, (0.245, 0.235, 0.225), strict=True))
    )
    beam = Beam(
        name="three",
        band=(SPEED_OF_LIGHT * 0.9875, SPEED_OF_LIGHT * 1.0125),
        design_frequency=SPEED_OF_LIGHT,
        height=0.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=2.0 * radius),
        elements=elements,
    )
    targets = Targets(rear_weight=rear, most_swr=swr, match="matched", resistance=(10.0, math.inf))
    return beam, Wish(targets=targets, boom_limit=boom, places=1e-6)


def best_of(beam: Beam, wish: Wish, starts: int) -> tuple[LocalBest, dict[str, object]]:
    """Climb from plain random starts; the best, and its design for the record."""
    problem = set_up(beam=beam, wish=wish, count=3).problem
    space, generator = problem.space, np.random.default_rng(5)
    climbed = [
        climb(problem=problem, start=generator.uniform(space.lower, space.upper))
        for _ in range(starts)
    ]
    best = max(climbed, key=lambda one: one.score)
    positions, half_lengths = space.dimensions(best.free)
    return best, {"positions_wl": positions.tolist(), "half_lengths_wl": half_lengths.tolist()}


def main() -> None:
    """Print one line a case."""
    exhaustive = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    record = []
    print("| boom, wl | radius, wl | rear | SWR | s of one core | starts | gain, dBi | gap, dB |")
    print("|---|---|---|---|---|---|---|---|")
    for case in (*PUBLISHED, *random_cases()):
        beam, wish = case_of(*case)
        begin = time.process_time()
        found = improve_beam(beam=beam, wish=wish)
        took = time.process_time() - begin
        gap = ""
        if exhaustive and found.state.best is not None:
            best, design = best_of(beam, wish, exhaustive)
            gap = f"{best.score - found.state.best.score:+.4f}"
            names = ("boom_wl", "radius_wl", "rear", "swr")
            values = (None if math.isinf(one) else one for one in case)
            given = dict(zip(names, values, strict=True))
            record.append({**given, **design, "score": best.score, "starts": exhaustive})
        boom, radius, rear, swr = case
        print(
            f"| {boom:.3f} | {radius:.5f} | {rear:.2f} | {swr:.1f} | {took:.2f} | {found.starts} "
            f"| {found.after.worst[0]:.2f} | {gap} |",
            flush=True,
        )
    if sys.argv[2:] == ["write"]:
        RECORD.parent.mkdir(exist_ok=True)
        RECORD.write_text(json.dumps(record, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
