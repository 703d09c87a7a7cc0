"""How well sweeps with known errors are read, and how well faults are named.

Run from the root of the project::

    python benchmarks/tuning_study.py                     prints the tables
    python benchmarks/tuning_study.py --write             and keeps them in docs/tuning_study.md
    python benchmarks/tuning_study.py --faults 0 --write  only the part on sweeps

Every sweep is computed with the solver's reference detail and exact ground, read back with the
working detail and the carried ground, as a user's would be.
"""

from __future__ import annotations

import argparse
import datetime
import sys
import time
from collections.abc import Callable, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from tuning_cases import SWEEP_LINES, run_sweep, summary_of_sweeps
from tuning_fault_cases import FAULT_LINES, run_fault, summary_of_faults

PAGE = Path(__file__).parent.parent / "docs" / "tuning_study.md"
SWEEPS, FAULTS = "Sweeps with known errors", "Faults"
TITLE = "# Study of the tuning room"


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sweeps", type=int, default=300)
    parser.add_argument("--faults", type=int, default=200, help="none leaves the others out too")
    parser.add_argument("--others", type=int, default=60, help="as many sound and mis-cut ones")
    parser.add_argument("--seed", type=int, default=20)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    sections: dict[str, list[str]] = {}
    with ProcessPoolExecutor(given.workers) as pool:
        if given.sweeps:
            tasks: list[tuple] = [(given.seed, n) for n in range(given.sweeps)]
            command = f"--sweeps {given.sweeps} --faults 0 --seed {given.seed}"
            sections[SWEEPS] = part(pool, run_sweep, tasks, summary_of_sweeps, command, SWEEP_LINES)
        if given.faults:
            counts = {"fault": given.faults}
            counts |= dict.fromkeys(("sound", "mis-cut", "other"), given.others)
            tasks = [
                (given.seed, number, what, below)
                for below in ("real ground", "free space")
                for what, count in counts.items()
                for number in range(count)
            ]
            command = (
                f"--sweeps 0 --faults {given.faults} --others {given.others} --seed {given.seed}"
            )
            sections[FAULTS] = part(pool, run_fault, tasks, summary_of_faults, command, FAULT_LINES)
    if given.write:
        PAGE.write_text(renewed(sections), encoding="utf-8")


def part(
    pool: Executor,
    run: Callable,
    tasks: Sequence[tuple],
    summary: Callable,
    command: str,
    about: Sequence[str],
) -> list[str]:
    """Run one part, print its table, and return its section."""
    begun = time.perf_counter()
    table = summary(list(pool.map(run, tasks)))
    seconds = time.perf_counter() - begun
    print("\n".join([*table, f"{seconds:.0f} s", ""]), flush=True)
    today = datetime.datetime.now(tz=datetime.UTC).date().isoformat()
    heading = f"`python benchmarks/tuning_study.py {command}`, {today}, {seconds:.0f} s."
    return [heading, "", *about, "", *table]


def renewed(sections: dict[str, list[str]]) -> str:
    """The page with the sections that were run again put in the place of the old ones."""
    old = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    kept = {}
    for block in old.split("\n## ")[1:]:
        name, _, body = block.partition("\n\n")
        kept[name] = body.rstrip("\n")
    kept |= {name: "\n".join(lines) for name, lines in sections.items()}
    parts = [f"## {name}\n\n{kept[name]}" for name in (SWEEPS, FAULTS) if name in kept]
    return "\n\n".join([TITLE, *parts]) + "\n"


if __name__ == "__main__":
    main()
