"""Is ``improve`` with its defaults as quick as it was? Two programs on the ten stations, in turn.

Each station is searched by the program before and by this one, one after the other, and the user
time of all their processes is compared. The plans are those of the program before where both read
them, else each reads its own. Ratios travel between machines, seconds do not. Run from the root of
the project:

    python benchmarks/improve_speed.py --before COMMIT --write

``--stations 01,05`` takes some of them, ``--at-once 8`` runs so many pairs side by side.
"""

from __future__ import annotations

import argparse
import os
import platform
import re
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
STATIONS = Path("examples/stations")
#: so much slower is noise of a loaded machine; the page says it too [-]
SLACK = 1.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One station searched by both programs."""

    name: str
    own: bool  #: whether each program read a plan of its own
    before: float  #: user time of the program before [s]
    after: float  #: and of this one [s]
    ended: tuple[int, int]  #: statuses, before and after


def environment(tree: Path) -> dict[str, str]:
    """Surroundings in which Python takes the program from a tree, its libraries as now."""
    places = [str(tree / "src"), *filter(None, os.environ.get("PYTHONPATH", "").split(os.pathsep))]
    return {
        **os.environ,
        "PYTHONPATH": os.pathsep.join(places),
        "OPENBLAS_NUM_THREADS": "1",
    }


def reads(tree: Path, text: str) -> bool:
    """Whether a program reads a plan."""
    line = [sys.executable, "-m", "boomwright", "check", "-"]
    ran = subprocess.run(
        line, input=text, text=True, env=environment(tree), capture_output=True, check=False
    )
    return ran.returncode == 0


def wished(text: str) -> str:
    """The plan with its first beam named in the wish, where it has several and no wish."""
    names = re.findall(r'(?m)^\[\[beam\]\]\s*\n(?:.*\n)*?\s*name = "([^"]*)"', text)
    if len(names) < 2 or "[wish]" in text:
        return text
    return f'{text.rstrip()}\n\n[wish]\nbeam = "{names[0]}"\n'


def user_time(tree: Path, text: str, workers: int) -> tuple[float, int]:
    """User time of one search and of its workers [s], and how it ended."""
    # The shell's own clock counts one search only, however many run side by side.
    line = f"{sys.executable} -m boomwright improve - --workers {workers}"
    ran = subprocess.run(
        ["bash", "-c", f"{line} >/dev/null 2>&1; code=$?; times; exit $code"],
        input=text, text=True, env=environment(tree), capture_output=True, check=False,
    )  # fmt: skip
    minutes, seconds = re.findall(r"(\d+)m([\d.]+)s", ran.stdout)[2]
    return 60.0 * float(minutes) + float(seconds), ran.returncode


def measure(name: str, before: Path, workers: int) -> Pair:
    """Search one station by both programs."""
    texts = [
        wished((tree / STATIONS / name).read_text(encoding="utf-8")) for tree in (before, ROOT)
    ]
    own = not reads(ROOT, texts[0])
    old, old_ended = user_time(before, texts[0], workers)
    new, new_ended = user_time(ROOT, texts[1 if own else 0], workers)
    return Pair(name=name, own=own, before=old, after=new, ended=(old_ended, new_ended))


def lines(pairs: Sequence[Pair], before: str) -> list[str]:
    """Write the page."""
    good = [each.after / each.before for each in pairs if each.ended == (0, 0) and not each.own]
    told = "yes" if good and statistics.geometric_mean(good) <= SLACK else "no"
    rows = [
        f"| {each.name.removesuffix('.toml')} | {each.before:.1f} | {each.after:.1f} "
        f"| {each.after / each.before:.2f} | {'its own' if each.own else 'the same'} "
        f"| {'' if each.ended == (0, 0) else f'ended with {each.ended[0]} and {each.ended[1]}'} |"
        for each in pairs
    ]
    mean = statistics.geometric_mean(good) if good else float("nan")
    return [
        "# Speed of a search",
        "",
        f"`improve` with its defaults, user time of all processes: the program before ({before})",
        "and this one on stations of `examples/stations`, each pair one after the other.",
        "Made by `python benchmarks/improve_speed.py`; aim: no slower by more than 5 %.",
        "",
        "| station | before, s | now, s | now over before | plan | |",
        "|---|---|---|---|---|---|",
        *rows,
        "",
        f"Geometric mean where both read the same plan: {mean:.2f}; aim met: {told}. Of two beams",
        "on one mast the program before searched each as if it stood alone.",
        f"Machine: {platform.machine()}, {os.cpu_count()} cores, Python "
        f"{platform.python_version()}.",
        "",
    ]


@contextmanager
def tree_of(before: str) -> Iterator[Path]:
    """Put the tree of a commit somewhere for as long as it is needed; a folder is one already."""
    if Path(before).is_dir():
        yield Path(before).resolve()
        return
    with tempfile.TemporaryDirectory() as folder:
        archive = subprocess.run(
            ["git", "archive", before, "src", str(STATIONS)],
            cwd=ROOT, capture_output=True, check=True,
        )  # fmt: skip
        subprocess.run(["tar", "-x", "-C", folder], input=archive.stdout, check=True)
        yield Path(folder)


def main() -> None:
    """Measure, print, and write on request."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--before", required=True, help="the program before: a commit, or its tree")
    parser.add_argument("--called", default="", help="what the program before is called")
    parser.add_argument("--stations", default="", help="first letters of stations, by commas")
    parser.add_argument("--workers", type=int, default=2, help="processes of one search")
    parser.add_argument("--at-once", type=int, default=1, help="stations searched side by side")
    parser.add_argument("--write", action="store_true", help="write docs/benchmarks")
    asked = parser.parse_args()
    chosen = tuple(part for part in asked.stations.split(",") if part) or ("",)
    with tree_of(asked.before) as before, ThreadPoolExecutor(asked.at_once) as side_by_side:
        names = sorted(
            path.name for path in (before / STATIONS).glob("*.toml") if path.name.startswith(chosen)
        )
        pairs = list(side_by_side.map(lambda name: measure(name, before, asked.workers), names))
    page = "\n".join(lines(pairs, asked.called or Path(asked.before).name))
    print(page)
    if asked.write:
        (ROOT / "docs" / "benchmarks" / "improve_speed.md").write_text(page, encoding="utf-8")


if __name__ == "__main__":
    main()
