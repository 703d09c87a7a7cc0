"""Designs per second of the search: NumPy on one core against CuPy on a graphics processor.

``OPENBLAS_NUM_THREADS=1 PYTHONPATH=src python benchmarks/batch_throughput.py``: three elements at
one frequency, the same random designs, median of repeated runs, arrays already in place. Without
CuPy only the processor's figure is printed.
"""

from __future__ import annotations

import importlib
import statistics
import time
from typing import Any

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.design.aims import directions
from boomwright.design.array_slopes import array_slopes, band_tables
from boomwright.solver import working_detail
from boomwright.solver.element_response import element_family

FREQUENCY = SPEED_OF_LIGHT
SEED = 1
#: ahead and back
TOWARDS = directions(azimuth=np.array([0.0, np.pi]), elevation=np.zeros(2))


def designs(batch: int) -> tuple[Any, Any]:
    """Draw three-element designs."""
    generator = np.random.default_rng(SEED)
    spacings = generator.uniform(0.1, 0.3, (batch, 2))
    positions = np.hstack([np.zeros((batch, 1)), np.cumsum(spacings, axis=1)])
    halves = np.array([0.245, 0.235, 0.222]) + generator.uniform(-0.005, 0.005, (batch, 3))
    return positions, halves


def rate(families: Any, batch: int, repeats: int, xp: Any, wait: Any) -> tuple[float, Any]:
    """Measure designs per second."""
    tables = band_tables(families=families, driven=1, xp=xp)
    positions, halves = (xp.asarray(each) for each in designs(batch))
    times = []
    found = None
    for _ in range(repeats + 2):
        wait()
        begin = time.perf_counter()
        found = array_slopes(
            tables=tables,
            positions=positions,
            half_lengths=halves,
            towards=TOWARDS,
            slopes=False,
            xp=xp,
        )
        wait()
        times.append(time.perf_counter() - begin)
    return batch / statistics.median(times[2:]), found


def main() -> None:
    """Print both rates and their ratio."""
    family = element_family(
        inner=(),
        tip_radius=1e-3,
        half_lengths=(0.19, 0.27),
        gap=2e-3,
        frequencies=np.array([FREQUENCY]),
        detail=working_detail(frequency=FREQUENCY),
    )
    families = (family,) * 3
    core = 0.0
    for batch in (16, 32, 64, 128, 256, 1024):
        speed, _ = rate(families, batch, max(5, 20_000 // batch), np, lambda: None)
        core = max(core, speed)
        print(f"NumPy, batches of {batch:5d}: {speed:12.0f} designs/s")
    try:
        cupy = importlib.import_module("cupy")
    except ImportError:
        print("no CuPy here: nothing to compare with")
        return
    best = 0.0
    for batch in (4096, 16_384, 65_536, 262_144):
        speed, found = rate(families, batch, 10, cupy, cupy.cuda.Device().synchronize)
        best = max(best, speed)
        print(f"CuPy, batches of {batch:6d}: {speed:12.0f} designs/s")
        few = 256
        tables = band_tables(families=families, driven=1)
        positions, halves = designs(batch)
        expected = array_slopes(
            tables=tables,
            positions=positions[:few],
            half_lengths=halves[:few],
            towards=TOWARDS,
            slopes=False,
        )
        off = np.abs(cupy.asnumpy(found.impedance[:few]) / expected.impedance - 1.0).max()
        print(f"  largest difference of the impedance to NumPy: {off:.1e}")
    print(f"ratio of the best of both: {best / core:.0f}")


if __name__ == "__main__":
    main()
