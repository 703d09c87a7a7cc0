"""How long single steps of the job take, as multiples of one yardstick measured in the same run.

Run ``python benchmarks/job_speed.py``; it starts itself again with one BLAS thread, prints the
table and, with ``--write``, puts it into ``docs/benchmarks/job_speed.md``. The yardstick is one
dense complex solve of 400 unknowns by LAPACK; each figure is the least processor time of some runs.
A command is timed as a process of its own, from start to end, its modules compiled. ``--install``,
part of ``--write``, also installs the last commit in a fresh clone, as ``make.py demo`` does, and
measures what that takes on the disk.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from importlib.resources import files
from pathlib import Path

import numpy as np

from boomwright.base import PlanError
from boomwright.charts import azimuth_pattern
from boomwright.feed.field_rods import solve_gamma
from boomwright.parts import Beam, Element, Feed, Role, TubeSection
from boomwright.plan import read_plan
from boomwright.reach import BeamReadings, read_beam
from boomwright.reach.height_scan import scan_heights
from boomwright.reach.terrain import gain_over_terrain
from boomwright.reach.terrain_profile import TerrainProfile
from boomwright.session.allocator import keep_freed_blocks
from boomwright.solver import GROUND_CLASSES, PatternCut, remembering

ROOT = Path(__file__).resolve().parent.parent
THREADS = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")
MEDIUM = GROUND_CLASSES["medium dry"]
DEMO = files("boomwright.session").joinpath("data/demo.toml").read_text(encoding="utf-8")
#: ten megabytes of text that is no plan
JUNK = b"# " + b"x" * 10_000_000

#: a plan for searches, up to its elements
SEARCHED = """boomwright = 1
title = "Searched"
[site]
ground = "medium dry"
[[beam]]
name = "searched"
band = ["14 MHz", "14.35 MHz"]
design = "14.175 MHz"
height = "15 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "20 mm" }
"""
ROLES = ("reflector", "driven", *["director"] * 6)
EIGHT = tuple(
    (role, round(3.172 * number, 3), (10.504, 10.004, 9.503)[min(number, 2)])
    for number, role in enumerate(ROLES)
)
EIGHT_WISH = """boom = "22.3 m"
front_to_rear = "18 dB"
swr = 2.0
matched = true
cutting_error = "3 mm"
"""
TWO_BANDS = (
    ("reflector", 0.0, 10.7),
    ("reflector", 1.6, 7.15),
    ("driven", 3.0, 10.1),
    ("director", 4.2, 6.9),
    ("director", 6.2, 6.55),
    ("director", 7.4, 9.5),
    ("director", 8.8, 6.45),
)
TWO_BANDS_WISH = """boom = "9.2 m"
swr = 2.0
matched = true
front_to_rear = "12 dB"
bands = [{ band = ["21.0 MHz", "21.45 MHz"], design = "21.2 MHz", driven = 4 }]
"""
#: most that the first command should install [MB]
INSTALLED_AIM = 350.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the table: a step of the job, how often to run it, the time aimed at [s]."""

    name: str
    work: Callable[[], object]
    runs: int
    aim: float
    clock: Callable[[], float] = time.process_time
    warm: bool = True  #: whether it is run once before


def children_time() -> float:
    """Processor time of all processes that were started and have ended."""
    spent = os.times()
    return spent.children_user + spent.children_system


def least_time(
    work: Callable[[], object],
    *,
    runs: int,
    clock: Callable[[], float] = time.process_time,
    warm: bool = True,
) -> float:
    """Least processor time of some runs after one to warm up, for others use the machine too."""
    if warm:
        work()
    times = []
    for _ in range(runs):
        start = clock()
        work()
        times.append(clock() - start)
    return min(times)


def command(name: str, *, runs: int, aim: float) -> Step:
    """A command on the demo plan, as the owner starts it."""
    plan = files("boomwright.session").joinpath("data/demo.toml")
    line = [sys.executable, "-m", "boomwright", name, str(plan)]
    environment = {**os.environ}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # the first run keeps its modules compiled

    def work() -> object:
        return subprocess.run(line, env=environment, check=True, stdout=subprocess.DEVNULL)

    return Step(
        name=f"boomwright {name}, from start to end", work=work, runs=runs, aim=aim,
        clock=children_time,
    )  # fmt: skip


def search(name: str, elements: Sequence[tuple[str, float, float]], wish: str) -> Step:
    """A search from start to end, its workers counted; on two cores it takes half the time."""
    rows = "".join(
        f'[[beam.element]]\nrole = "{role}"\nat = "{place} m"\ndiameter = "22 mm"\n'
        f'length = "{length} m"\n'
        for role, place, length in elements
    )
    plan = f"{SEARCHED}{rows}[wish]\n{wish}"

    def work() -> object:
        return subprocess.run(
            [sys.executable, "-m", "boomwright", "improve", "-", "--workers", "2"],
            input=plan, text=True, check=True, stdout=subprocess.DEVNULL,
        )  # fmt: skip

    return Step(name=name, work=work, runs=1, aim=120.0, clock=children_time, warm=False)


def installed_size() -> float:
    """Space that the environment of a fresh clone takes once ``make.py demo`` has run [MB]."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    with tempfile.TemporaryDirectory() as folder:
        clone = Path(folder) / "clone"
        subprocess.run(["git", "clone", "--quiet", ROOT, clone], check=True)
        subprocess.run(
            [getattr(sys, "_base_executable", sys.executable), "make.py", "demo"],
            cwd=clone, env=environment, check=True, stdout=subprocess.DEVNULL,
        )  # fmt: skip
        said = subprocess.run(
            ["du", "-sk", clone / ".venv"], check=True, capture_output=True, text=True
        )
        return float(said.stdout.split()[0]) / 1000.0


def refused() -> None:
    """Read what is no plan."""
    try:
        read_plan(JUNK)
    except PlanError:
        return
    msg = "ten megabytes of junk were taken for a plan"
    raise AssertionError(msg)


def hills() -> TerrainProfile:
    """Ten kilometres of hills in 2,000 points."""
    rng = np.random.default_rng(3)
    distance = np.linspace(0.0, 10e3, 2000)
    coarse = np.cumsum(rng.normal(0.0, 15.0, 60))
    height = np.interp(distance, np.linspace(0.0, 10e3, 60), coarse)
    return TerrainProfile(distance=distance, height=height + rng.normal(0.0, 0.5, 2000))


def pattern() -> PatternCut:
    """An azimuth pattern in steps of a degree."""
    angle = np.arange(0.0, 361.0)
    gain = 20.0 * np.log10(np.abs(np.cos(np.radians(angle / 2.0))) + 0.05)
    return PatternCut(plane="azimuth", at_deg=0.0, angle_deg=angle, gain_dbi=gain)


def row(count: int) -> Beam:
    """So many elements 2 m apart, of three tubes a half."""

    def element(number: int) -> Element:
        role: Role = ("reflector", "driven", "director")[min(number, 2)]
        tip = (2.35, 2.1, 1.75)[min(number, 2)] - 0.001 * number
        tubes = ((0.0254, 1.83), (0.0222, 1.22), (0.01905, tip))
        half = tuple(TubeSection(diameter=diameter, length=length) for diameter, length in tubes)
        return Element(role=role, position=2.0 * number, half=half)

    demo = read_plan(DEMO).beams[0]
    feed = Feed(kind="split", gap=0.0254)
    return replace(demo, feed=feed, elements=tuple(element(number) for number in range(count)))


def readings(beam: Beam) -> BeamReadings:
    """Compute all readings of a beam over 21 frequencies, as the command does."""
    frequencies = np.linspace(*beam.band, 21)
    return read_beam(beam=beam, ground=MEDIUM, frequencies=frequencies, prepare=remembering())


def steps() -> list[Step]:
    """Every step somebody waits for."""
    beam, thirty, hundred = read_plan(DEMO).beams[0], row(30), row(100)
    cut, profile = pattern(), hills()
    return [
        Step(name="read the demo plan", work=lambda: read_plan(DEMO), runs=9, aim=0.02),
        Step(name="refuse ten megabytes of junk", work=refused, runs=5, aim=2.0),
        Step(
            name="draw an azimuth pattern of 361 points",
            work=lambda: azimuth_pattern(cuts=[cut]),
            runs=30,
            aim=0.003,
        ),
        Step(
            name="sixty heights of the demo's beam over medium dry ground",
            work=lambda: scan_heights(beam=beam, ground=MEDIUM),
            runs=3,
            aim=3.0,
        ),
        Step(
            name="terrain of 2,000 points, 238 elevations",
            work=lambda: gain_over_terrain(
                profile=profile,
                height=20.0,
                frequency=28.5e6,
                ground=MEDIUM,
                elevation_deg=np.arange(0.5, 60.0, 0.25),
            ),
            runs=3,
            aim=2.0,
        ),
        Step(
            name="gamma match of the demo's beam, solved in the field",
            work=lambda: solve_gamma(beam=beam, rod_diameter=0.0127, spacing=0.11),
            runs=3,
            aim=3.0,
        ),
        Step(name="all readings of 30 elements", work=lambda: readings(thirty), runs=3, aim=3.0),
        Step(
            name="all readings of 100 elements",
            work=lambda: readings(hundred),
            runs=1,
            aim=60.0,
            warm=False,
        ),
        command("check", runs=9, aim=0.35),
        command("feed", runs=3, aim=2.0),
        command("reach", runs=3, aim=2.0),
        command("compute", runs=3, aim=1.0),
        search("search of eight elements that bear cutting errors", EIGHT, EIGHT_WISH),
        search("search of seven elements for two bands", TWO_BANDS, TWO_BANDS_WISH),
    ]


def yardstick() -> float:
    """Take the time of one dense complex solve of 400 unknowns."""
    rng = np.random.default_rng(1)
    matrix = rng.normal(size=(400, 400)) + 1j * rng.normal(size=(400, 400))
    right = np.ones(400, dtype=complex)
    return least_time(lambda: np.linalg.solve(matrix, right), runs=30)


def main() -> None:
    """Measure, print, and write on request."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--write", action="store_true", help="write docs/benchmarks/job_speed.md")
    parser.add_argument("--install", action="store_true", help="measure the installed size too")
    arguments = parser.parse_args()
    if any(os.environ.get(name) != "1" for name in THREADS):
        environment = {**os.environ, **dict.fromkeys(THREADS, "1")}
        sys.exit(
            subprocess.run([sys.executable, *sys.argv], env=environment, check=False).returncode
        )
    # As the program itself does.
    keep_freed_blocks()
    one = yardstick()
    lines = ["| step | yardsticks | processor time | aim |", "| --- | --- | --- | --- |"]
    for step in steps():
        took = least_time(step.work, runs=step.runs, clock=step.clock, warm=step.warm)
        lines.append(
            f"| {step.name} | {took / one:.1f} | {1e3 * took:.1f} ms | {1e3 * step.aim:.0f} ms |"
        )
        print(lines[-1], flush=True)
    text = (
        "# Speed of single steps of the job\n\n"
        "Measured by `python benchmarks/job_speed.py --write` on one thread: least processor time\n"
        f"of some runs. The yardstick is one dense complex solve of 400 unknowns by LAPACK, "
        f"{1e3 * one:.1f} ms here;\nratios travel between machines, seconds do not.\n\n"
    ) + "\n".join(lines)
    if arguments.install or arguments.write:
        size = (
            f"`make.py demo` installs {installed_size():.0f} MB; aim {INSTALLED_AIM:.0f} MB. What "
            "each package is there for: [decision 0001](../decisions/0001-stack.md)."
        )
        print(size)
        text += f"\n\n{size}"
    if arguments.write:
        path = ROOT / "docs" / "benchmarks" / "job_speed.md"
        path.write_text(text + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
