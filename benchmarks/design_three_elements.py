"""Time and quality of ``improve_beam`` for three elements over 2.5 %: one core, ten cases.

``OPENBLAS_NUM_THREADS=1 python benchmarks/design_three_elements.py [starts]``: processor time of
the whole use case, tables and final check included, and with ``starts`` the gap to the best of so
many plain random starts.
"""

from __future__ import annotations

import math
import sys
import time
from dataclasses import replace

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design import Targets, Wish, improve_beam
from boomwright.design.minimax import climb
from boomwright.design.setting_up import set_up
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection

CASES = (
    (0.40, 0.00425, 0.0, math.inf),
    (0.30, 0.0025, 0.0, math.inf),
    (0.40, 0.0025, 0.2, math.inf),
    (0.30, 0.001, 0.1, 2.0),
    (0.25, 0.001, 0.3, math.inf),
)


def random_cases() -> list[tuple[float, float, float, float]]:
    """Draw five more cases from a fixed seed, as the tests do."""
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


def start_on(boom: float, radius: float) -> Beam:
    """Three plain elements at a wavelength of one metre."""
    roles = ("reflector", "driven", "director")
    elements = tuple(
        Element(
            role=role,  # type: ignore[arg-type]
            position=number * boom / 2.0,
            half=(TubeSection(diameter=2.0 * radius, length=half),),
        )
        for number, (role, half) in enumerate(zip(roles, (0.245, 0.235, 0.225), strict=True))
    )
    return Beam(
        name="three",
        band=(SPEED_OF_LIGHT * 0.9875, SPEED_OF_LIGHT * 1.0125),
        design_frequency=SPEED_OF_LIGHT,
        height=0.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=2.0 * radius),
        elements=elements,
    )


def main() -> None:
    """Print one line a case."""
    exhaustive = int(sys.argv[1]) if len(sys.argv) > 1 else 0
    for boom, radius, rear, swr in (*CASES, *random_cases()):
        beam = start_on(boom, radius)
        targets = Targets(
            rear_weight=rear, most_swr=swr, match="matched", resistance=(10.0, math.inf)
        )
        wish = Wish(targets=targets, boom_limit=boom, places=1e-6)
        begin = time.process_time()
        found = improve_beam(beam=beam, wish=wish)
        took = time.process_time() - begin
        best = found.state.best
        gap = ""
        if exhaustive and best is not None:
            setting = set_up(beam=beam, wish=replace(wish), count=3)
            space = setting.problem.space
            generator = np.random.default_rng(5)
            scores = [
                climb(
                    problem=setting.problem, start=generator.uniform(space.lower, space.upper)
                ).score
                for _ in range(exhaustive)
            ]
            gap = f", {max(scores) - best.score:+.4f} dB to the best of {exhaustive} starts"
        print(
            f"boom {boom:.3f} wl, radius {radius:.5f} wl, rear {rear:.2f}, SWR {swr:.1f}: "
            f"{took:.2f} s of one core, {found.starts} starts, worst gain "
            f"{found.after.worst[0]:.2f} dBi{gap}"
        )


if __name__ == "__main__":
    main()
