"""Give ``check``, then every other command, thousands of plans that are nearly right.

python tools/attack_plans.py                          10,000 through check, 1,000 through the rest
python tools/attack_plans.py --checks 500 --runs 40   fewer of both
python tools/attack_plans.py --seed 7 --keep bad      put what failed into a folder
python tools/attack_plans.py --checks 0 --only feed   one command

A mutant is a plan of this project with some values changed for others that the same key may hold:
nudged, at the end of its range, taken from another plan, left out, added. Every eighth is broken
on purpose, in a value or in its text. A command ends with status 0, 2 or 3: any other status, a
warning, more than 2 GB, more than 60 s of processor time or five minutes by the clock fails.
"""

from __future__ import annotations

import argparse
import cmath
import contextlib
import copy
import io
import math
import os
import random
import re
import resource
import shutil
import signal
import sys
import tempfile
import time
import tomllib
import traceback
import warnings
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[1]
DATA = ROOT / "src" / "boomwright" / "session" / "data"
sys.path.insert(0, str(ROOT / "tests"))

from attack_files import MEMORY, TIME  # noqa: E402

import full_plan  # type: ignore[import-not-found]  # noqa: E402
from boomwright.base import PlanError  # noqa: E402
from boomwright.cli import run as run_command  # noqa: E402
from boomwright.plan import read_plan  # noqa: E402
from boomwright.plan.kinds import Choice, Flag, Kind  # noqa: E402
from boomwright.plan.lists import ListOf  # noqa: E402
from boomwright.plan.numbers import Number, Quantity  # noqa: E402
from boomwright.plan.quantity import QuantityError, parse_quantity  # noqa: E402
from boomwright.plan.spec import NameOrTable, Tables, TableSpec  # noqa: E402
from boomwright.plan.tables.root import ROOT as PLAN  # noqa: E402
from boomwright.plan.units import SI_UNIT  # noqa: E402

#: longest by the clock, when others use the machine too [s]
CLOCK = 5 * TIME
#: share of mutants that are broken on purpose [-]
BROKEN = 1 / 8

#: words of each command after the plan, and how many of a thousand runs it gets
COMMANDS = {
    "compute": (("--points", "5"), 190),
    "structure": ((), 180),
    "permits": ((), 160),
    "raise": ((), 140),
    "cost": ((), 120),
    "reach": ((), 70),
    "feed": ((), 60),
    "tune": ((), 60),
    "improve": (("--starts", "2", "--workers", "1"), 10),
    "book": (("--out", "book.pdf", "--points", "3"), 10),
}

Path_ = tuple[str | int, ...]


@lru_cache
def bases() -> tuple[dict[str, Any], ...]:
    """Give every plan of this project as it is written."""
    files = [
        path for folder in (ROOT / "examples", DATA) for path in sorted(folder.rglob("*.toml"))
    ]
    texts = [text for path in files if "\n[[beam]]" in (text := path.read_text(encoding="utf-8"))]
    texts += [*full_plan.WINDS, *(full_plan.with_feed(feed) for feed in full_plan.FEEDS)]
    return tuple(tomllib.loads(text) for text in texts)


@dataclass(frozen=True)
class Spot:
    """A value in a plan: what holds it, under which key, and what it may be."""

    holder: Any
    key: str | int
    kind: Kind
    path: Path_  #: with every number in a list of alike members written as 0
    optional: bool

    @property
    def value(self) -> Any:
        """What stands there."""
        return self.holder[self.key]


@dataclass
class Spots:
    """All values of a plan, and the tables that further keys may be added to."""

    values: list[Spot] = field(default_factory=list)
    tables: list[tuple[Path_, dict[str, Any], TableSpec]] = field(default_factory=list)

    def walk(self, value: Any, kind: Kind, path: Path_) -> None:
        """Collect what lies under a value."""
        if isinstance(kind, NameOrTable):
            kind = kind.table if isinstance(value, dict) else kind.name
        needed: set[str | int] = set()
        if isinstance(kind, TableSpec):
            self.tables.append((path, value, kind))
            needed = {entry.key for entry in kind.fields if entry.required}
        members = value.items() if isinstance(value, dict) else enumerate(value)
        alike = isinstance(kind, ListOf | Tables)
        for key, member in list(members):
            below = kind.below(key)
            if below is None:
                continue
            here = (*path, 0 if alike else key)
            optional = isinstance(kind, TableSpec) and key not in needed
            self.values.append(Spot(value, key, below, here, optional or alike))
            if isinstance(member, dict | list):
                self.walk(member, below, here)


def spots(plan: dict[str, Any]) -> Spots:
    """Find every value of a plan."""
    found = Spots()
    found.walk(plan, PLAN, ())
    return found


@lru_cache
def pool() -> dict[Path_, list[Any]]:
    """Give for each key what the plans of this project write there."""
    found: dict[Path_, list[Any]] = defaultdict(list)
    for plan in bases():
        for spot in spots(plan).values:
            if spot.value not in found[spot.path]:
                found[spot.path].append(spot.value)
    return found


_NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?")


def _nudged(spot: Spot, chance: random.Random) -> Any:
    """Change a number by a little, by much, or to an end of its range; a choice to another."""
    value, kind = spot.value, spot.kind
    factor = chance.choice((chance.uniform(0.7, 1.4), chance.uniform(0.9, 1.1), 0.0))
    if factor == 0.0:
        factor = 10.0 ** chance.uniform(-3.0, 3.0)
    if isinstance(kind, Choice):
        return chance.choice(kind.options)
    if isinstance(kind, Flag):
        return chance.random() < 0.5
    if isinstance(kind, Quantity) and chance.random() < 0.15:
        ends = [end for end in (kind.low, kind.high) if abs(end) < 1e12]
        if ends:
            return f"{chance.choice(ends):.9g} {SI_UNIT[kind.dimension]}".strip()
    if isinstance(kind, Number) and chance.random() < 0.3:
        ends = [end for end in (kind.low, kind.high) if abs(end) < 1e12]
        if ends:
            return int(chance.choice(ends)) if kind.whole else float(chance.choice(ends))
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return round(value * factor) if chance.random() < 0.5 else value + chance.choice((-1, 1))
    if isinstance(value, float):
        return value * factor
    numbers = list(_NUMBER.finditer(value)) if isinstance(value, str) else []
    if not numbers:
        return value
    one = chance.choice(numbers)
    return value[: one.start()] + f"{float(one[0]) * factor:.6g}" + value[one.end() :]


def _without(spot: Spot) -> None:
    """Leave a value out where that may be."""
    if spot.optional:
        del spot.holder[spot.key]


def _tame(plan: dict[str, Any], chance: random.Random) -> None:
    """Change one value for another that its key may hold."""
    found = spots(plan)
    spot = chance.choice(found.values)
    others = pool().get(spot.path, [spot.value])
    match chance.choice("nnnnnnnnnnootttaaammllc"):
        case "n":
            leaves = [each for each in found.values if not isinstance(each.value, dict | list)]
            spot = chance.choice(leaves)
            spot.holder[spot.key] = _nudged(spot, chance)
        case "o":
            _without(spot)
        case "t":
            spot.holder[spot.key] = copy.deepcopy(chance.choice(others))
        case "a":
            path, table, spec = chance.choice(found.tables)
            key = chance.choice([entry.key for entry in spec.fields])
            if values := pool().get((*path, key)):
                table[key] = copy.deepcopy(chance.choice(values))
        case "l":
            _low(plan, chance)
        case "c":
            _crowded(plan, chance)
        case _:
            lists = [each for each in found.values if isinstance(each.value, list)]
            members = chance.choice(lists).value
            one = chance.randrange(len(members)) if members else 0
            if members and chance.random() < 0.5:
                members.insert(chance.randrange(len(members)), copy.deepcopy(members[one]))
            else:
                chance.shuffle(members)


def _low(plan: dict[str, Any], chance: random.Random) -> None:
    """Hang a beam low, its elements out of tune: it may fire backwards, or straight up."""
    if not plan.get("beam"):
        return
    beam = chance.choice(plan["beam"])
    beam["height"] = f"{chance.uniform(0.02, 0.3):.3f} wl"
    for element in beam.get("element", ()):
        factor = chance.uniform(0.85, 1.15)
        for tube in element.get("half", ()):
            tube[1] = _scaled(tube[1], factor)
        if "length" in element:
            element["length"] = _scaled(element["length"], factor)


def _scaled(text: str, factor: float) -> str:
    try:
        return f"{parse_quantity(text, 'length') * factor:.6g} m"
    except QuantityError:
        return text


def _crowded(plan: dict[str, Any], chance: random.Random) -> None:
    """Give a beam many directors in a row."""
    beam = chance.choice(plan.get("beam") or [{}])
    if not beam.get("element"):
        return
    step, last = chance.uniform(0.01, 0.3), copy.deepcopy(beam["element"][-1])
    for number in range(chance.choice((1, 2, 5, 20, 90))):
        beam["element"].append({**last, "role": "director", "at": f"{1 + step * number:.4g} wl"})


_WRONG: tuple[Any, ...] = (
    "1e-300 mm", "-1e-300 m", "1e300 m", "1e308 m", "nan m", "inf m", "-0.0 m", "0 m", "m", "",
    "1e400 mm", "9" * 400 + " m", "17 ft 99 in", "-5 ft 3 in", "1/0 in", "0/5 in", "3-3/0 in",
    "0x10 m", "1_0 m", "1,5 m", "٣ m", "\u2028", "\x00", "\x1b[31m", "a" * 5000, "<svg onload=x>",
    0, -1, 1, 10**30, -(10**400), 1e-300, 5e-324, 1.7e308, -0.0, float("nan"), float("inf"), True,
    [], {}, [[]], [[[[1]]]], {"": 1}, [1] * 2000, {"a": {"b": {"c": 1}}}, "2026-02-30", "90 N, 0 E",
    "90 S, 180 W", "AA00aa", "RR99xx", "0 deg", "360 deg", "-90 deg", "0 Hz", "1e12 Hz", "S0",
)  # fmt: skip


def _wrong(plan: dict[str, Any], chance: random.Random) -> None:
    """Put something absurd in the place of a value."""
    spot = chance.choice(spots(plan).values)
    spot.holder[spot.key] = copy.deepcopy(chance.choice(_WRONG))


def _torn(text: str, chance: random.Random) -> bytes:
    """Break the text of a plan."""
    at = chance.randrange(len(text) + 1)
    match chance.randrange(6):
        case 0:
            text = text[:at]
        case 1:
            text = text[:at] + chance.choice("\"'[]{}=#,.\n\r\x00\t\\") + text[at:]
        case 2:
            text = text[:at] + '"' + "x" * 131_073 + text[at:]
        case 3:
            text = text[:at] + chance.choice('["{a.=') * chance.choice((50, 5000, 140_000))
        case 4:
            text = text[at:] + text[:at]
        case _:
            made = text.encode("utf-8")
            return made[:at] + chance.randbytes(3) + made[at:]
    return text.encode("utf-8")


def written(value: Any) -> str:
    """Write a value as TOML on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_quoted(k)} = {written(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(written(member) for member in value) + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return _quoted(value) if isinstance(value, str) else str(value)


def as_text(plan: dict[str, Any]) -> str:
    """Write a plan, one line for each table."""
    return "".join(f"{_quoted(key)} = {written(value)}\n" for key, value in plan.items())


def _quoted(text: str) -> str:
    signs = {'"': '\\"', "\\": "\\\\"}
    return '"' + "".join(
        signs.get(s, s if s.isprintable() else f"\\u{ord(s):04x}") for s in text
    ) + '"'  # fmt: skip


def mutant(chance: random.Random) -> bytes:
    """Make a plan that is nearly right."""
    plan = copy.deepcopy(chance.choice(bases()))
    for _ in range(chance.choice((1, 1, 1, 2, 2, 3, 5))):
        _tame(plan, chance)
    broken = chance.random() < BROKEN
    if broken and chance.random() < 0.6:
        _wrong(plan, chance)
    text = as_text(plan)
    return _torn(text, chance) if broken and chance.random() < 0.5 else text.encode()


def readable(chance: random.Random, command: str) -> bytes:
    """Make a plan that is nearly right, gets past reading and says what a command needs."""
    while True:
        made = mutant(chance)
        with contextlib.suppress(PlanError):
            plan = read_plan(made)
            if command != "tune" or plan.measured is not None:
                return made


class TooLongError(Exception):
    """A command that took too long."""


@contextlib.contextmanager
def limits() -> Iterator[None]:
    """Break off what takes too long, and make warnings errors."""

    def too_long(*_: object) -> None:
        raise TooLongError(f"more than {TIME} s of processor time, or {CLOCK} s by the clock")

    for name, timer, span in (
        (signal.SIGPROF, signal.ITIMER_PROF, TIME),
        (signal.SIGALRM, signal.ITIMER_REAL, CLOCK),
    ):
        signal.signal(name, too_long)
        signal.setitimer(timer, span)
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.setitimer(signal.ITIMER_REAL, 0)


def status_of(words: list[str]) -> tuple[int, str]:
    """Run a command; give its status and the end of what it said to the error stream."""
    said = io.StringIO()
    try:
        with contextlib.redirect_stderr(said), contextlib.redirect_stdout(io.StringIO()), limits():
            status = run_command(words, open_page=lambda **_: None)
    except (Exception, KeyboardInterrupt):
        return 1, traceback.format_exc(limit=-4)
    if status == 1 and words[0] != "--debug":
        # Once more, to see where.
        return 1, said.getvalue()[-200:] + status_of(["--debug", *words])[1]
    return status, said.getvalue()[-500:]


def apart(words: list[str]) -> tuple[int, str, float]:
    """Run a command in a process of its own, which starts with all rooms loaded.

    Gives the status, the end of what it said to the error stream, and processor time [s].
    """
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reader)
        status, said = 1, "the process ended by itself"
        try:
            status, said = status_of(words)
        finally:
            with os.fdopen(writer, "w", encoding="utf-8") as back:
                back.write(said)
            os._exit(status)
    os.close(writer)
    begun = time.monotonic()
    while (ended := os.wait4(child, os.WNOHANG))[0] == 0:
        if time.monotonic() - begun > CLOCK + 30:
            os.kill(child, signal.SIGKILL)
        time.sleep(0.02)
    with os.fdopen(reader, encoding="utf-8") as back:
        said = back.read()
    used = ended[2].ru_utime + ended[2].ru_stime
    return os.waitstatus_to_exitcode(ended[1]), said, used


def _line_sweep(sign: float) -> str:
    """Sweep a line of 20 m and 1 dB, its end open, short or matched."""
    rows = ["# MHz S RI R 50"]
    for number in range(101):
        mhz = 13.9 + 0.006 * number
        seen = 0.8 * sign * cmath.exp(-2j * 2.0 * math.pi * mhz / 300.0 * 20.0)
        rows.append(f"{mhz:.3f} {seen.real:.6f} {seen.imag:.6f}")
    return "\n".join(rows) + "\n"


def in_folder(folder: Path, made: bytes) -> Path:
    """Put a plan into a folder, with the files that plans of this project name."""
    sweep = ROOT / "examples" / "tuning" / "three-elements-20m-synthetic.s1p"
    for name in (sweep.name, "antenna.s1p", "after.s1p"):
        shutil.copy(sweep, folder / name)
    for end, sign in (("open", 1.0), ("short", -1.0), ("load", 0.0)):
        (folder / f"{end}.s1p").write_text(_line_sweep(sign), encoding="utf-8")
    shutil.copy(DATA / "demo_prices.csv", folder / "prices.csv")
    heights = "".join(f"{100 * n},{50 - n % 7}\n" for n in range(40))
    (folder / "profile.csv").write_text("distance,height\n" + heights, encoding="utf-8")
    plan = folder / "plan.toml"
    plan.write_bytes(made)
    return plan


def failed(
    command: str, number: int, made: bytes, told: tuple[int, str], keep: Path | None
) -> bool:
    """Say whether a command did what it must not, and keep the plan."""
    status, said = told
    if status in (0, 2, 3) and "Traceback" not in said:
        return False
    print(f"  {command} {number}: status {status}\n{said.strip()[-900:]}", flush=True)
    if keep is not None:
        keep.mkdir(parents=True, exist_ok=True)
        (keep / f"{command}-{number}.toml").write_bytes(made)
    return True


def attack_check(*, count: int, seed: int, keep: Path | None) -> int:
    """Give plans to ``check``, one after the other in this process."""
    chance, failures, read = random.Random(f"{seed} check"), 0, 0  # noqa: S311
    with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as folder:
        for number in range(count):
            made = mutant(chance)
            told = status_of(["check", str(in_folder(Path(folder), made))])
            read += told[0] == 0
            failures += failed("check", number, made, told, keep)
    if count:
        print(f"check: {count} plans, {read} ({read / count:.0%}) past reading, "
              f"{failures} failures", flush=True)  # fmt: skip
        failures += read < count / 2
    return failures


def attack_commands(*, count: int, seed: int, only: list[str], keep: Path | None) -> int:
    """Give plans that can be read to every other command, each in a process of its own."""
    with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as given:
        # A process that is split off later has these rooms loaded.
        for name in ("compute", "structure"):
            status_of([name, str(in_folder(Path(given), as_text(bases()[0]).encode()))])
    chosen = only or list(COMMANDS)
    runs = [
        (name, number)
        for name in chosen
        for number in range(-(-count * COMMANDS[name][1] // sum(COMMANDS[n][1] for n in chosen)))
    ]
    random.Random(seed).shuffle(runs)  # noqa: S311
    done: dict[str, Counter[int]] = defaultdict(Counter)
    longest: dict[str, float] = defaultdict(float)
    failures = 0
    for name, number in runs[:count]:
        chance = random.Random(f"{seed} {name} {number}")  # noqa: S311
        made = readable(chance, name)
        with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as given:
            folder = Path(given)
            plan = in_folder(folder, made)
            words = [str(folder / w) if w.endswith(".pdf") else w for w in COMMANDS[name][0]]
            status, said, used = apart([name, str(plan), *words])
            longest[name] = max(longest[name], used)
        done[name][status] += 1
        failures += failed(name, number, made, (status, said), keep)
    for name, counted in done.items():
        ends = ", ".join(f"{times} with {status}" for status, times in sorted(counted.items()))
        print(f"{name}: {counted.total()} plans, {ends}; longest {longest[name]:.0f} s", flush=True)
    print(f"commands: {len(runs[:count])} runs, {failures} failures", flush=True)
    return failures


def main() -> int:
    """Attack ``check``, then the other commands."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--checks", type=int, default=10_000, help="plans for check")
    asked.add_argument("--runs", type=int, default=1000, help="plans for the other commands")
    asked.add_argument("--only", nargs="*", default=[], metavar="COMMAND", choices=COMMANDS)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--keep", type=Path, help="folder for what failed")
    given = asked.parse_args()
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    failures = attack_check(count=given.checks, seed=given.seed, keep=given.keep)
    failures += attack_commands(count=given.runs, seed=given.seed, only=given.only, keep=given.keep)
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
