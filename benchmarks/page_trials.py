"""What the page withstands: the program killed at any moment, and a crowd of windows.

``kill`` starts the program's own ``open`` command, edits its plan over a socket some 25 times a
second, kills it without warning, and looks at the file: it must be whole, and must hold every
edit older than a second. ``crowd`` has many windows edit one plan for a minute: no error, and
one state of the plan is the same in every window. Writes ``docs/benchmarks/page_trials.md``.

    python benchmarks/page_trials.py kill crowd
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import os
import platform
import re
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from http.cookiejar import CookieJar
from pathlib import Path

import numpy as np
from websockets.asyncio.client import connect

from boomwright.plan import read_plan
from boomwright.session.new_plan import make_starter
from boomwright.session.user_state import UserState
from boomwright.study.requests import Wishes
from boomwright.web.history import unpacked

ROOT = Path(__file__).resolve().parents[1]
KILLS = 200
CROWD = 50
SECONDS = 60.0
#: edits that may be missing after a kill: those of the last so many seconds
ALLOWED = 1.0


@contextlib.contextmanager
def opened(plan: Path) -> Iterator[tuple[subprocess.Popen[str], str, str]]:
    """Run the program on a plan; gives the process, its address and the cookie."""
    command = [sys.executable, "-m", "boomwright", "open", str(plan), "--port", "0", "--no-browser"]
    surroundings = {**os.environ, "XDG_STATE_HOME": str(plan.parent)}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=surroundings) as program:
        try:
            line = program.stdout.readline() if program.stdout else ""
            found = re.search(r"(http://[^/]+)/\?key=(\S+)", line)
            if found is None:
                message = f"the program ended with {program.wait(20)}, having said {line!r}"
                raise RuntimeError(message)
            jar = CookieJar()
            opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(jar))
            opener.open(found[0]).read()
            cookie = "; ".join(f"{each.name}={each.value}" for each in jar)
            yield program, found[1], cookie
        finally:
            program.kill()
            program.wait(20)


def window(home: str, cookie: str) -> connect:
    """Open a window's socket."""
    address = home.replace("http", "ws") + "/beam/live?of=0&narrow=0"
    headers = {"Cookie": cookie}
    return connect(address, origin=home, additional_headers=headers, max_size=None, proxy=None)


def edit(seq: int, height: float) -> str:
    """Write one edit, a gesture of its own."""
    asked = {"kind": "raise", "beam": 0, "height": height}
    return json.dumps({"seq": seq, "gesture": seq, "edit": asked})


async def edit_until_killed(
    program: subprocess.Popen[str], home: str, cookie: str, numbers: np.random.Generator
) -> tuple[list[tuple[float, float]], float]:
    """Edit, then kill; the edits with their times, and the time of the kill."""
    sent: list[tuple[float, float]] = []
    async with window(home, cookie) as socket:

        async def drain() -> None:
            with contextlib.suppress(Exception):
                async for _ in socket:
                    pass

        reading = asyncio.create_task(drain())
        last = time.monotonic() + numbers.uniform(0.3, 2.5)
        seq = 0
        while time.monotonic() < last:
            seq += 1
            height = round(float(numbers.uniform(8.0, 29.0)), 3)
            await socket.send(edit(seq, height))
            sent.append((time.monotonic(), height))
            await asyncio.sleep(numbers.uniform(0.0, 0.08))
        killed = time.monotonic()
        program.kill()
        program.wait(20)
        reading.cancel()
    return sent, killed


def kill_trials() -> list[str]:
    """Kill the program again and again."""
    numbers = np.random.default_rng(11)
    broken, late, oldest, edits, pastless = 0, 0, 0.0, 0, 0
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "trial.toml"
        make_starter(plan, Wishes(band="20 m", elements=3, ground="medium dry"))
        for trial in range(KILLS):
            before = read_plan(plan.read_text(encoding="utf-8")).beams[0].height
            with opened(plan) as (program, home, cookie):
                sent, killed = asyncio.run(edit_until_killed(program, home, cookie, numbers))
            edits += len(sent)
            try:
                height = read_plan(plan.read_text(encoding="utf-8")).beams[0].height
            except Exception as error:
                broken += 1
                print(f"trial {trial}: the file is broken: {error}")
                continue
            kept = UserState(plan.parent / "boomwright").load_history(plan)
            undo, redo = unpacked(kept, now=plan.read_text(encoding="utf-8"))
            pastless += not (undo or redo)
            heights = [before, *(value for _, value in sent)]
            times = [sent[0][0] if sent else killed, *(at for at, _ in sent)]
            held = max(i for i, value in enumerate(heights) if abs(value - height) < 6e-4)
            missing = times[held + 1 :]
            age = killed - missing[0] if missing else 0.0
            oldest = max(oldest, age)
            if age > ALLOWED:
                late += 1
                print(f"trial {trial}: an edit {age:.2f} s old is missing")
    row = (
        f"| killed {KILLS} times during {edits} edits | {broken} | {late} | {oldest:.2f} "
        f"| {pastless} |"
    )
    print(row)
    return [
        "## Killed without warning",
        "",
        "| trial | files not whole | edits older than 1 s missing | oldest missing edit, s "
        "| nothing left to undo |",
        "|---|---|---|---|---|",
        row,
        "",
    ]


class Seen:
    """What the windows were told, held against one another."""

    def __init__(self) -> None:
        self.heights: dict[int, str] = {}
        self.mixed = 0
        self.errors = 0
        self.messages = 0
        self.waits: list[float] = []

    def told(self, message: dict, *, floor: int) -> int:
        """Take a message; gives the newest revision the window has seen."""
        self.messages += 1
        if message["kind"] == "refused" or message.get("faults") or message.get("refusals"):
            refused = [each for each in message.get("refusals", ()) if each["faults"]]
            self.errors += bool(refused or message["kind"] == "refused" or message.get("faults"))
        if message["kind"] != "quick":
            return floor
        revision, text = message["revision"], message["height"]["text"]
        self.mixed += self.heights.setdefault(revision, text) != text
        self.mixed += revision < floor
        return revision


async def one_of_the_crowd(home: str, cookie: str, seen: Seen, number: int, end: float) -> str:
    """Edit now and then, and listen; the height last shown."""
    numbers = np.random.default_rng(number)
    floor, last, asked, seq = 0, "", 0.0, 0
    async with window(home, cookie) as socket:
        after = time.monotonic() + numbers.uniform(0.0, 4.0)
        while time.monotonic() < end + 6.0:
            if after < time.monotonic() < end:
                seq += 1
                asked = time.monotonic()
                await socket.send(edit(seq, round(float(numbers.uniform(8.0, 29.0)), 3)))
                after = asked + numbers.uniform(2.0, 6.0)
            try:
                text = await asyncio.wait_for(socket.recv(), 0.25)
            except TimeoutError:
                continue
            message = json.loads(text)
            floor = seen.told(message, floor=floor)
            if message["kind"] == "quick":
                last = message["height"]["text"]
                if seq and message["seq"] == seq and asked:
                    seen.waits.append(time.monotonic() - asked)
                    asked = 0.0
    return last


async def crowd(home: str, cookie: str) -> tuple[Seen, list[str]]:
    """Let the crowd loose."""
    seen = Seen()
    end = time.monotonic() + SECONDS
    people = [one_of_the_crowd(home, cookie, seen, number, end) for number in range(CROWD)]
    return seen, await asyncio.gather(*people)


def crowd_trial() -> list[str]:
    """Many windows on one plan for a minute."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(folder) / "trial.toml"
        make_starter(plan, Wishes(band="20 m", elements=3, ground="free space"))
        with opened(plan) as (_, home, cookie):
            seen, ends = asyncio.run(crowd(home, cookie))
            height = read_plan(plan.read_text(encoding="utf-8")).beams[0].height
    apart = len(set(ends)) - 1 + (f"{height:.3f} m" != ends[0])
    waits = sorted(seen.waits)
    p95 = waits[int(0.95 * (len(waits) - 1))] if waits else float("nan")
    row = (
        f"| {CROWD} windows, {SECONDS:.0f} s | {len(seen.heights)} | {seen.messages} "
        f"| {seen.errors} | {seen.mixed} | {apart} | {p95:.2f} |"
    )
    print(row)
    return [
        "## A crowd of windows",
        "",
        "| trial | states of the plan | messages | errors | mixed states "
        "| windows or file apart at the end | p95 of answers, s |",
        "|---|---|---|---|---|---|---|",
        row,
        "",
    ]


def main() -> None:
    """Run the trials named, all of them when none is."""
    asked = sys.argv[1:] or ["kill", "crowd"]
    target = ROOT / "docs" / "benchmarks" / "page_trials.md"
    made = {"kill": kill_trials, "crowd": crowd_trial}
    parts = {name: made[name]() for name in asked}
    kept = target.read_text(encoding="utf-8") if target.exists() else ""
    for name, mark in (("kill", "## Killed without warning"), ("crowd", "## A crowd of windows")):
        if name not in parts and mark in kept:
            body = kept.split(mark, 1)[1].split("\n## ", 1)[0].split("\nMachine:", 1)[0]
            parts[name] = [mark, *body.strip("\n").splitlines(), ""]
    load = ", ".join(f"{value:.1f}" for value in os.getloadavg())
    lines = [
        "# What the page withstands",
        "",
        "Made by `python benchmarks/page_trials.py`, with the program's own `open` command.",
        "",
        *parts.get("kill", []),
        *parts.get("crowd", []),
        f"Machine: {platform.machine()}, {os.cpu_count()} cores, load {load} (1, 5, 15 minutes); "
        f"Python {platform.python_version()}.",
        "",
    ]
    target.write_text("\n".join(lines), encoding="utf-8")


if __name__ == "__main__":
    main()
