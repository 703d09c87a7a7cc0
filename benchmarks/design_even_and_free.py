"""Even against free spacing, six elements on 1.5 wavelengths: how sure the best found is.

``OPENBLAS_NUM_THREADS=1 python benchmarks/design_even_and_free.py [starts [workers]]``: gain of
the best array found from so many starts a round (2000 when left out; thirty times as many are
drawn and screened by the batch engine) for each way to space the elements, radius 0.001
wavelengths, one frequency, with the figure of the usual 12 starts beside it. An hour of one core.
"""

from __future__ import annotations

import math
import multiprocessing
import os
import sys
import time
from concurrent.futures import Executor, ProcessPoolExecutor
from dataclasses import replace

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design import Improvement, Targets, Wish, improve_beam
from boomwright.parts import MATERIALS, Beam, Element, Feed, TubeSection

BOOM = 1.5
RADIUS = 1e-3
USUAL = 12
OHMS_15 = Targets(resistance=(15.0, math.inf))
CASES = {
    "free": Wish(closest=0.05),
    "free, elements 0.035 apart allowed": Wish(closest=0.035),
    "free, any element may be longer than resonance": Wish(closest=0.05, keep_roles=False),
    "free, 15 ohm or more": Wish(closest=0.05, targets=OHMS_15),
    "even 0.3, every length free": Wish(spacing=BOOM / 5),
    "even 0.3, any element may be longer than resonance": Wish(spacing=BOOM / 5, keep_roles=False),
    "even 0.3, equal directors": Wish(spacing=BOOM / 5, even_directors=True),
    "best even, equal directors": Wish(even=True, even_directors=True),
    "best even, every length free": Wish(even=True),
    "best even, 15 ohm or more": Wish(even=True, targets=OHMS_15),
}


def start() -> Beam:
    """Six plain elements at a wavelength of one metre."""
    halves = (0.245, 0.235, 0.225, 0.225, 0.225, 0.225)
    elements = tuple(
        Element(
            role="reflector" if number == 0 else "driven" if number == 1 else "director",
            position=0.3 * number,
            half=(TubeSection(diameter=2.0 * RADIUS, length=half),),
        )
        for number, half in enumerate(halves)
    )
    return Beam(
        name="six",
        band=(SPEED_OF_LIGHT, SPEED_OF_LIGHT),
        design_frequency=SPEED_OF_LIGHT,
        height=0.0,
        heading=0.0,
        material=MATERIALS["perfect"],
        feed=Feed(kind="split", gap=2.0 * RADIUS),
        elements=elements,
    )


def searched(wish: Wish, starts: int, pool: Executor) -> Improvement:
    """Search one case."""
    targets = wish.targets if wish.targets == OHMS_15 else Targets()
    asked = replace(wish, boom_limit=BOOM, places=1e-5, targets=targets)
    return improve_beam(beam=start(), wish=asked, starts=starts, executor=pool)


def main() -> None:
    """Print one line a case."""
    many = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    workers = int(sys.argv[2]) if len(sys.argv) > 2 else os.cpu_count()
    print(f"| array | gain, dBi | feed, ohm | with {USUAL} starts | starts | agreeing | s |")
    print("|---|---|---|---|---|---|---|")
    spawn = multiprocessing.get_context("spawn")
    with ProcessPoolExecutor(workers, mp_context=spawn) as pool:
        for name, wish in CASES.items():
            begin = time.monotonic()
            found, usual = searched(wish, many, pool), searched(wish, USUAL, pool)
            took = time.monotonic() - begin
            ohms = found.after.impedance[0].real
            print(
                f"| {name} | {found.after.worst[0]:.2f} | {ohms:.1f} | {usual.after.worst[0]:.2f} "
                f"| {found.starts} | {found.agreeing} | {took:.0f} |",
                flush=True,
            )


if __name__ == "__main__":
    main()
