"""How honest the bands of tuning are, how good its advice, and how well faults are named.

Run from the root of the project::

    OPENBLAS_NUM_THREADS=1 PYTHONPATH=src python benchmarks/tuning_study.py --out DIR --workers 16

Every case is one line of ``DIR/PART.jsonl``, the tables of all of them stand in ``DIR/tables.md``.
Cases already in DIR or in a folder named with ``--also`` are not run again, and are in the tables
too; so a run that met its limit is gone on with. With ``--write`` the tables go into
docs/tuning_study.md.
"""

from __future__ import annotations

import argparse
import json
import re
import sys
import time
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor, as_completed
from contextlib import ExitStack
from multiprocessing import get_context
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from tuning_cases import run_other, run_sbc, run_trim, surrogate_of
from tuning_fault_cases import run_fault
from tuning_tables import tables
from tuning_truth import DESIGNS

PAGE = Path(__file__).parent.parent / "docs" / "tuning_study.md"
#: the longest cases first
PARTS: dict[str, Callable] = {
    "trim": run_trim,
    "fault": run_fault,
    "other": run_other,
    "sbc": run_sbc,
}


def main() -> None:
    """Run the study."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--also", type=Path, nargs="*", default=[])
    parser.add_argument("--sbc", type=int, default=2000)
    parser.add_argument("--trim", type=int, default=312)
    parser.add_argument("--other", type=int, default=128)
    parser.add_argument("--fault", type=int, default=240)
    parser.add_argument("--only", type=int, nargs="*", default=[], help="numbers of the cases")
    parser.add_argument("--seed", type=int, default=20)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--limit", type=float, default=500.0, help="seconds after which to stop")
    parser.add_argument("--write", action="store_true")
    given = parser.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    begun = time.perf_counter()
    for number in range(len(DESIGNS)):
        surrogate_of(number)  # once for all processes
    print(f"antennas: {time.perf_counter() - begun:.0f} s", flush=True)
    run_missing(given, begun + given.limit)
    cases = {part: known(given, part) for part in reversed(PARTS)}
    lines = tables(cases, command="; ".join(commands(cases)))
    (given.out / "tables.md").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print("\n".join(lines))
    if given.write:
        # What was concluded is written by hand and stays.
        before = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
        said = re.search(r"## What these cases show.*?(?=^## )", before, re.DOTALL | re.MULTILINE)
        first = next(at for at, line in enumerate(lines) if line.startswith("## "))
        kept = [said.group(0).rstrip(), ""] if said else []
        PAGE.write_text("\n".join([*lines[:first], *kept, *lines[first:]]), encoding="utf-8")


def commands(cases: dict[str, list[dict]]) -> list[str]:
    """Counts of every seed, as options."""
    found = []
    for seed in sorted({each["seed"] for some in cases.values() for each in some}):
        counts = {part: sum(each["seed"] == seed for each in some) for part, some in cases.items()}
        options = " ".join(f"--{part} {count}" for part, count in counts.items())
        found.append(f"--seed {seed} {options}")
    return found


def known(given: argparse.Namespace, part: str) -> list[dict]:
    """Cases that were run already."""
    found = {}
    for folder in (*given.also, given.out):
        file = folder / f"{part}.jsonl"
        text = file.read_text(encoding="utf-8") if file.exists() else ""
        for case in map(json.loads, text.splitlines()):
            found[case["seed"], case["case"]] = case
    return list(found.values())


def run_missing(given: argparse.Namespace, until: float) -> None:
    """Run the cases that are still missing, until the time is up."""
    tasks = []
    for part in PARTS:
        done = {each["case"] for each in known(given, part) if each["seed"] == given.seed}
        wanted = set(range(getattr(given, part))) - done
        tasks += [(part, case) for case in sorted(wanted & set(given.only or wanted))]
    with ExitStack() as stack:
        files = {
            part: stack.enter_context((given.out / f"{part}.jsonl").open("a", encoding="utf-8"))
            for part in {part for part, _ in tasks}
        }
        context = get_context("fork")
        pool = stack.enter_context(ProcessPoolExecutor(given.workers, mp_context=context))
        waiting = {pool.submit(one_case, *task, given.seed): task for task in tasks}
        for each in as_completed(waiting):
            if each.cancelled():
                continue
            part, case = waiting[each]
            line = each.result() | {"case": case, "seed": given.seed}
            files[part].write(json.dumps(line) + "\n")
            files[part].flush()
            if time.perf_counter() > until:
                for other in waiting:
                    other.cancel()


def one_case(part: str, case: int, seed: int) -> dict:
    """One case; what failed is said, not lost."""
    try:
        return PARTS[part]((seed, case))
    except Exception as fault:
        return {"failed": f"{type(fault).__name__}: {fault}"}


if __name__ == "__main__":
    main()
