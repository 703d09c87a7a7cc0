"""How long each command takes, against an earlier commit, pair by pair.

Takes the earlier commit out of the repository, lets both versions run each command in turn on the
same plans (those of the earlier commit, which both read), and holds processor time against
processor time: the median of the pairs' ratios, one BLAS thread. ``--write`` puts the table into
``docs/benchmarks/command_speed.md``, with what is said there of each command that takes longer.

    python benchmarks/command_speed.py --before 0d5eb906 --write
"""

from __future__ import annotations

import argparse
import io
import os
import statistics
import subprocess
import sys
import tarfile
import tempfile
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
PAGE = ROOT / "docs" / "benchmarks" / "command_speed.md"
#: most that a command may take longer than before
AIM = 1.05
DEMO = "src/boomwright/app/data/demo.toml"
PRICES = "src/boomwright/app/data/demo_prices.csv"
STATION = "examples/stations/05-four-elements-20m-on-30m-guyed.toml"
SWEPT = "examples/tuning/three-elements-20m.toml"
SWEEP = "examples/tuning/three-elements-20m-synthetic.s1p"
#: a wish for plans that have none
WISH = '\n[wish]\nboom = "6.2 m"\nfront_to_rear = "15 dB"\nswr = 2.0\n'
#: the plans, by the name of their file in the folder that the commands run in
PLANS = {"demo.toml": "the demo", "station.toml": "four elements on 30 m, guyed"}
#: the commands that take a plan, with their options
COMMANDS = {
    "check": (),
    "compute": (),
    "feed": (),
    "reach": (),
    "structure": (),
    "permits": (),
    "cost": (),
    "raise": (),
    "book": ("--out", "book.pdf"),
    "improve": ("--starts", "2", "--workers", "1"),
}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the table: a command, both times [s] and the median of the pairs' ratios."""

    command: str
    plan: str
    before: float
    now: float
    ratio: float


def unpack(revision: str, folder: Path) -> None:
    """Take a commit out of the repository into a folder."""
    packed = subprocess.run(
        ["git", "archive", revision], cwd=ROOT, check=True, capture_output=True
    ).stdout
    with tarfile.open(fileobj=io.BytesIO(packed)) as archive:
        archive.extractall(folder, filter="data")


def lay_out(source: Path, folder: Path) -> None:
    """Write the plans of a commit, their prices and the sweep into a folder."""
    folder.mkdir()
    # The earlier swept plan has rods that begin inside their gap, which is refused by now.
    for name, place in (
        ("demo.toml", source / DEMO), ("station.toml", source / STATION),
        ("swept.toml", ROOT / SWEPT),
    ):  # fmt: skip
        text = place.read_text(encoding="utf-8")
        if name in PLANS and "[wish]" not in text:
            text += WISH
        (folder / name).write_text(text, encoding="utf-8")
    (folder / "prices.csv").write_bytes((source / PRICES).read_bytes())
    (folder / Path(SWEEP).name).write_bytes((ROOT / SWEEP).read_bytes())


def spent(line: Sequence[str], *, source: Path, folder: Path) -> float:
    """Processor time of a command and the processes it started [s]."""
    # What the earlier version needs besides may stand on the path already.
    path = os.pathsep.join(filter(None, (str(source / "src"), os.environ.get("PYTHONPATH"))))
    environment = {**os.environ, "PYTHONPATH": path, "OPENBLAS_NUM_THREADS": "1"}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # the first run keeps its modules compiled
    process = subprocess.Popen(
        [sys.executable, "-m", "boomwright", *line],
        cwd=folder,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    said = process.stderr.read() if process.stderr else b""
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        msg = f"boomwright {' '.join(line)} ended with {process.returncode}: {said.decode()}"
        raise RuntimeError(msg)
    return usage.ru_utime + usage.ru_stime


def paired(
    line: Sequence[str], *, plan: str, sources: Mapping[str, Path], folder: Path, runs: int
) -> Row:
    """Run a command with both versions in turn, after one run each to warm up."""
    times: dict[str, list[float]] = {"before": [], "now": []}
    for number in range(runs + 1):
        for version, source in sources.items():
            (folder / "new.toml").unlink(missing_ok=True)
            took = spent(line, source=source, folder=folder)
            if number:
                times[version].append(took)
    ratios = [now / before for before, now in zip(times["before"], times["now"], strict=True)]
    return Row(
        command=line[0],
        plan=plan,
        before=statistics.median(times["before"]),
        now=statistics.median(times["now"]),
        ratio=statistics.median(ratios),
    )


def lines_to_run(wanted: Sequence[str]) -> list[tuple[str, tuple[str, ...]]]:
    """List the plan's name and the command line of each measurement."""
    lines = [("none", ("new", "new.toml", "--band", "20 m"))]
    for name, options in COMMANDS.items():
        lines += [(PLANS[plan], (name, plan, *options)) for plan in PLANS]
    lines.append(("that of the sweep", ("tune", "swept.toml")))
    return [(plan, line) for plan, line in lines if not wanted or line[0] in wanted]


def page(rows: Sequence[Row], *, before: str, runs: int) -> str:
    """Write the table, and keep what the page says below it."""
    kept = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    _, _, said = kept.partition("\n## ")
    table = [
        f"| {row.command} | {row.plan} | {row.before:.2f} | {row.now:.2f} | {row.ratio:.2f} |"
        for row in rows
    ]
    lines = [
        "# Each command against an earlier version",
        "",
        f"Made by `python benchmarks/command_speed.py --before {before} --write`: both versions",
        f"in turn, {runs} pairs after one to warm up, processor time with one BLAS thread. The",
        f"ratio is the median of the pairs; the aim is {AIM:.2f} at most. Ratios travel, seconds",
        "do not.",
        "",
        "| command | plan | before, s | now, s | ratio |",
        "|---|---|---|---|---|",
        *table,
    ]
    if said:
        lines += ["", f"## {said.rstrip()}"]
    return "\n".join(lines) + "\n"


def main() -> None:
    """Measure, print, and write on request."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--before", default="0d5eb906", help="the earlier commit")
    parser.add_argument("--runs", type=int, default=5, help="pairs of runs that count")
    parser.add_argument("--write", action="store_true", help=f"write {PAGE.relative_to(ROOT)}")
    parser.add_argument("commands", nargs="*", help="commands to measure; all if left out")
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        source, folder = Path(place) / "before", Path(place) / "plans"
        unpack(arguments.before, source)
        lay_out(source, folder)
        rows = []
        for plan, line in lines_to_run(arguments.commands):
            rows.append(
                paired(
                    line,
                    plan=plan,
                    sources={"before": source, "now": ROOT},
                    folder=folder,
                    runs=arguments.runs,
                )
            )
            print(rows[-1], flush=True)
    if arguments.write:
        PAGE.write_text(page(rows, before=arguments.before, runs=arguments.runs), encoding="utf-8")


if __name__ == "__main__":
    main()
