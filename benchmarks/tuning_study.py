"""How well sweeps with known errors are read, and how well faults are named.

Run from the root of the project::

    python benchmarks/tuning_study.py                  prints the tables
    python benchmarks/tuning_study.py --write          and keeps them in docs/tuning_study.md

Every sweep is computed with the solver's reference detail and exact ground, read back with the
working detail and the carried ground, as a user's would be.
"""

from __future__ import annotations

import argparse
import datetime
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from tuning_cases import (
    FAULT_LINES,
    SWEEP_LINES,
    run_fault,
    run_sweep,
    summary_of_faults,
    summary_of_sweeps,
)

PAGE = Path(__file__).parent.parent / "docs" / "tuning_study.md"


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sweeps", type=int, default=300)
    parser.add_argument("--faults", type=int, default=200)
    parser.add_argument("--others", type=int, default=60)
    parser.add_argument("--seed", type=int, default=20)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    begun = time.perf_counter()
    with ProcessPoolExecutor(given.workers) as pool:
        sweeps = list(pool.map(run_sweep, [(given.seed, n) for n in range(given.sweeps)]))
        print("\n".join(summary_of_sweeps(sweeps)), flush=True)
        tasks = [(given.seed, n, False) for n in range(given.faults)]
        tasks += [(given.seed, n, True) for n in range(given.others)]
        faults = list(pool.map(run_fault, tasks))
    print("\n".join(summary_of_faults(faults)))
    seconds = time.perf_counter() - begun
    print(f"{seconds:.0f} s")
    if given.write:
        command = (
            f"python benchmarks/tuning_study.py --sweeps {given.sweeps} --faults {given.faults} "
            f"--others {given.others} --seed {given.seed} --workers {given.workers} --write"
        )
        today = datetime.datetime.now(tz=datetime.UTC).date()
        lines = [
            "# Study of the tuning room",
            "",
            f"`{command}`, {today.isoformat()}, {seconds:.0f} s.",
            "",
            "## Sweeps with known errors",
            "",
            *SWEEP_LINES,
            "",
            *summary_of_sweeps(sweeps),
            "",
            "## Faults",
            "",
            *FAULT_LINES,
            "",
            *summary_of_faults(faults),
        ]
        PAGE.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
