"""How honest the bands of tuning are, how good its advice, and how well faults are named.

Run from the root of the project::

    PYTHONPATH=src:tests python benchmarks/tuning_study.py --out DIR --workers 16

Every case is one line of ``DIR/PART.jsonl``; cases already there are not run again. With
``--write`` the tables of all lines go into docs/tuning_study.md.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable
from concurrent.futures import Executor, ProcessPoolExecutor, as_completed
from multiprocessing import get_context
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from tuning_cases import run_other, run_sbc, run_trim, surrogate_of
from tuning_fault_cases import run_fault
from tuning_tables import tables
from tuning_truth import DESIGNS

PAGE = Path(__file__).parent.parent / "docs" / "tuning_study.md"
PARTS: dict[str, Callable] = {
    "sbc": run_sbc,
    "trim": run_trim,
    "other": run_other,
    "fault": run_fault,
}


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--sbc", type=int, default=2000)
    parser.add_argument("--trim", type=int, default=312)
    parser.add_argument("--other", type=int, default=128)
    parser.add_argument("--fault", type=int, default=240)
    parser.add_argument("--seed", type=int, default=20)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--limit", type=float, default=540.0, help="seconds after which to stop")
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    begun = time.perf_counter()
    for number in range(len(DESIGNS)):
        surrogate_of(number)  # once for all processes
    print(f"antennas: {time.perf_counter() - begun:.0f} s", flush=True)
    with ProcessPoolExecutor(given.workers, mp_context=get_context("fork")) as pool:
        for part in PARTS:
            run_part(part, given, pool, given.limit - (time.perf_counter() - begun))
    cases = {part: known(given.out, part) for part in PARTS}
    command = f"python benchmarks/tuning_study.py --seed {given.seed}"
    command += "".join(f" --{part} {len(some)}" for part, some in cases.items())
    lines = tables(cases, command=command)
    print("\n".join(lines))
    if given.write:
        PAGE.write_text("\n".join(lines) + "\n", encoding="utf-8")


def known(folder: Path, part: str) -> list[dict]:
    """Cases that were run already."""
    file = folder / f"{part}.jsonl"
    if not file.exists():
        return []
    return [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]


def run_part(part: str, given: argparse.Namespace, pool: Executor, limit: float) -> None:
    """Run the cases of one part that are still missing."""
    done = {each["case"] for each in known(given.out, part)}
    tasks = [case for case in range(getattr(given, part)) if case not in done]
    begun = time.perf_counter()
    with (given.out / f"{part}.jsonl").open("a", encoding="utf-8") as out:
        waiting = {pool.submit(one_case, part, given.seed, case): case for case in tasks}
        for each in as_completed(waiting):
            out.write(json.dumps(each.result() | {"case": waiting[each]}) + "\n")
            out.flush()
            if time.perf_counter() - begun > limit:
                for other in waiting:
                    other.cancel()
                break
    print(f"{part}: {time.perf_counter() - begun:.0f} s", flush=True)


def one_case(part: str, seed: int, case: int) -> dict:
    """One case; what failed is said, not lost."""
    try:
        return PARTS[part]((seed, case))
    except Exception as fault:
        return {"failed": f"{type(fault).__name__}: {fault}"}


if __name__ == "__main__":
    main()
