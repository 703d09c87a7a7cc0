"""Give every reader of the owner's files thousands of files that are nearly right.

python tools/attack_files.py                     every kind, 2,000 files each, then the commands
python tools/attack_files.py sweep --count 30000 only these, more of them
python tools/attack_files.py --seed 7 --keep bad put what failed into a folder

A file is read, or refused with a BoomwrightError. Anything else is a failure: another exception,
a warning, more than a minute, more than 2 GB. Most mutants are made of what such files may hold,
so that they get past reading. The last part gives some to the commands that read them, and names
special files in place of a plan, a sweep, a terrain and a price list: exit status 2, no hang.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import os
import random
import resource
import signal
import stat
import sys
import tempfile
import warnings
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.cli import run as run_command
from boomwright.plan import Plan, read_plan
from boomwright.reach import Place
from boomwright.session.files import PlanFolder, load_prices, packaged_text
from boomwright.study.cost import price_plan
from boomwright.study.reach_parts.terrain import read_terrain
from boomwright.study.reach_parts.terrain_grid import profile_from_grid
from boomwright.study.tuning_parts.sweeps import load_sweep
from boomwright.tuning import check_sweep
from boomwright.tuning.sweep import reading_noise

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
#: most memory [bytes] and time for one file [s]
MEMORY, TIME = 2 * 1024**3, 60


class TooLongError(Exception):
    """A file that took too long."""


@dataclass(frozen=True)
class Kind:
    """A kind of file: its name, what makes a right one, reads it, and the words it is made of."""

    file: str
    right: Callable[[random.Random], bytes]
    read: Callable[[Path], object]
    words: tuple[bytes, ...]


def _read_sweep(path: Path) -> object:
    found = load_sweep(
        path.name, files=PlanFolder(path.parent), reference=50.0, place="measured.sweep"
    )
    reading_noise(sweep=found)
    return check_sweep(sweep=found.thinned(points=200), band=(14.0e6, 14.35e6))


def _read_prices(path: Path) -> object:
    return price_plan(_demo(), prices=load_prices(path), today="2026-06-01")


def _read_grid(path: Path) -> object:
    station = Place.from_degrees(latitude_deg=49.98, longitude_deg=10.02)
    files = PlanFolder(path.parent)
    return profile_from_grid(path.name, files=files, station=station, bearing=0.3)


def _read_terrain(path: Path) -> object:
    return read_terrain(path.name, files=PlanFolder(path.parent))


@lru_cache
def _demo() -> Plan:
    return read_plan(packaged_text("demo.toml"))


def _sweep(chance: random.Random) -> bytes:
    return (EXAMPLES / "tuning" / "three-elements-20m-synthetic.s1p").read_bytes()


def _table(chance: random.Random) -> bytes:
    rows = range(13_900, 14_450, 10)
    if chance.random() < 0.5:
        cells = [f"{f},{50 + (f - 14_200) / 20:.2f},{f / 900:.1f}" for f in rows]
        return "\n".join(["frequency (kHz),R,X", *cells]).encode()
    cells = [f"{f / 1e3:.3f};{1.1 + abs(f - 14_200) / 400:.2f}" for f in rows]
    return "\n".join(["frequency (MHz);SWR", *cells]).encode()


def _terrain(chance: random.Random) -> bytes:
    rows = [f"{d},{50 - d / 40 + chance.uniform(0.0, 9.0):.1f}" for d in range(0, 3000, 50)]
    return "\n".join(["distance,height", *rows]).encode()


def _prices(chance: random.Random) -> bytes:
    return packaged_text("demo_prices.csv").encode()


def _price_tables(chance: random.Random) -> bytes:
    tables = ['currency = "GBP"\nsupplier = "invented"\ndated = 2026-05-01\n']
    for number in range(20):
        amounts = "low = 100\nlikely = 200\nhigh = 3000\n"
        tables.append(f'[[price]]\nitem = "item {number}"\nunit = "each"\n{amounts}')
    return "\n".join(tables).encode()


def _grid(chance: random.Random) -> bytes:
    import tifffile

    keys = (1, 1, 0, 1, 1024, 0, 1, 2)
    step = chance.choice((0.001, 0.01, 1e-6, 30.0))
    shape = (chance.randrange(1, 200), chance.randrange(1, 200))
    # Mostly with the mast on it.
    corner = (10.02 - 0.4 * step * shape[1], 49.98 + 0.4 * step * shape[0])
    tags = [
        (33550, "d", 3, (step, step, 0.0), True),
        (33922, "d", 6, (0.0, 0.0, 0.0, *corner, 0.0), True),
        (34735, "H", len(keys), keys, True),
        (42113, "s", 0, chance.choice(("-9999", "0", "nan")), True),
    ]
    heights = np.random.default_rng(chance.randrange(9999)).uniform(-50.0, 3000.0, shape)
    kind = chance.choice((np.float32, np.int16, np.uint8, np.float64))
    made = io.BytesIO()
    packing = chance.choice((None, "zlib"))
    tifffile.imwrite(made, heights.astype(kind), extratags=tags, compression=packing)
    return made.getvalue()


_NUMBERS = (
    b"0", b"-1", b"1", b"7.5", b"1e-3", b"-0.0", b"nan", b"inf", b"1e400", b"1e308", b"-1e308",
    b"1e-320", b"0x10", b"1_000", b"1,5", b"9" * 400, b"", b"-", b"1e", b"--1", "٣".encode(),
)  # fmt: skip
_SIGNS = (
    b",", b";", b"\t", b"\n", b"\r", b"\r\n", b" ", b'"', b"'", b"#", b"!", b"[", b"]", b"=",
    b"\x00", b"\xff", b"\xef\xbb\xbf", b"\x0b", b"\x85", "\u2028".encode(), b"(",
    b"<svg onload=alert(1)>",
)  # fmt: skip

KINDS = {
    "sweep": Kind(
        file="sweep.s1p",
        right=_sweep,
        read=_read_sweep,
        words=(b"# MHz S MA R 50", b"# GHZ Z RI R 75+5j", b"# kHz S DB R 1", b"[Version] 2.0",
               b"[Number of Ports] 2", b"[Number of Frequencies] 3", b"[Network Data]", b"[End]",
               b"[Reference] 50 75", b"[Begin Information]", b"14.1 0.2 0.1", b"R", b"Y", b"G"),
    ),
    "table": Kind(
        file="sweep.csv",
        right=_table,
        read=_read_sweep,
        words=(b"frequency (Hz),SWR", b"f;R;X", b"14.1;1.5", b"freq", b"swr", b"x", b"14100,20,-5"),
    ),
    "terrain": Kind(
        file="terrain.csv",
        right=_terrain,
        read=_read_terrain,
        words=(b"0,0", b"100,5", b"metres;height", b"# remark"),
    ),
    "grid": Kind(
        file="terrain.tif", right=_grid, read=_read_grid, words=(b"II*\x00", b"MM\x00*")
    ),
    "prices": Kind(
        file="prices.csv",
        right=_prices,
        read=_read_prices,
        words=(b"item,unit,low,likely,high,currency,supplier,dated", b"each", b"EUR", b"2026-13-01",
               b"2026-01-31", b"a,each,1,2,3,EUR,x,2026-01-31", b'"two\nlines"'),
    ),
    "tables": Kind(
        file="prices.toml",
        right=_price_tables,
        read=_read_prices,
        words=(b"[[price]]", b"[price]", b"price = 3", b"low = 1", b"dated = 2026-01-31", b"[[[[",
               b"a.b.c.d = 1", b'item = "x"', b"'''", b"1979-05-27T07:32:00Z"),
    ),
}  # fmt: skip


def mutant(kind: Kind, chance: random.Random) -> bytes:
    """Make a file that is nearly right: two in three differ in values only."""
    data = kind.right(chance)
    tame = chance.random() < 0.65
    if tame and kind.file.endswith(".tif"):
        # Its values are compressed numbers, drawn when it was made.
        return data
    for _ in range(chance.choice((1, 1, 1, 2, 3, 8))):
        change = _digit if tame else chance.choice(_CHANGES)
        data = change(data, kind, chance)
    return data


def _cell(data: bytes, kind: Kind, chance: random.Random) -> bytes:
    """Put another number in the place of one."""
    lines = data.split(b"\n")
    spot = chance.randrange(len(lines))
    mark = next((sign for sign in (b";", b",", b"=", b"\t", b" ") if sign in lines[spot]), b" ")
    cells = lines[spot].split(mark)
    cells[chance.randrange(len(cells))] = chance.choice(_NUMBERS)
    lines[spot] = mark.join(cells)
    return b"\n".join(lines)


def _digit(data: bytes, kind: Kind, chance: random.Random) -> bytes:
    """Change one digit of a value, which mostly leaves a right file."""
    lines = data.split(b"\n")
    spot = chance.randrange(len(lines))
    line = lines[spot]
    begin = min((at for sign in b";,=\t " if (at := line.find(sign)) > 0), default=0)
    places = [at for at in range(begin, len(line)) if 48 <= line[at] <= 57]
    if places:
        at = chance.choice(places)
        lines[spot] = line[:at] + str(chance.randrange(10)).encode() + line[at + 1 :]
    return b"\n".join(lines)


def _lines(data: bytes, kind: Kind, chance: random.Random) -> bytes:
    """Drop, double, move or cut lines."""
    lines = data.split(b"\n")
    one, other = (chance.randrange(len(lines)) for _ in range(2))
    match chance.randrange(5):
        case 0:
            del lines[min(one, other) : max(one, other)]
        case 1:
            lines.insert(one, lines[other])
        case 2:
            lines[one], lines[other] = lines[other], lines[one]
        case 3:
            lines[one] = lines[one][: chance.randrange(len(lines[one]) + 1)]
        case _:
            lines.insert(one, chance.choice(kind.words))
    return b"\n".join(lines)


def _bytes(data: bytes, kind: Kind, chance: random.Random) -> bytes:
    """Put signs or noise anywhere, or cut the file off."""
    at = chance.randrange(len(data) + 1)
    match chance.randrange(5):
        case 0:
            return data[:at]
        case 1:
            return data[:at] + chance.choice(_SIGNS) * chance.choice((1, 1, 2, 1000)) + data[at:]
        case 2:
            return data[:at] + chance.choice(kind.words) + data[at + 1 :]
        case 3:
            return data[:at] + chance.randbytes(chance.randrange(1, 9)) + data[at + 4 :]
        case _:
            return data[at:] + data[:at]


def _long(data: bytes, kind: Kind, chance: random.Random) -> bytes:
    """Make it long: one word, one line or all of it again and again."""
    at = chance.randrange(len(data) + 1)
    match chance.randrange(20):
        case 0:
            return data[:at] + chance.choice((b'"', b"a.", b"[", b"1,", b" ")) * 150_000 + data[at:]
        case 1:
            return data * min(1 + 900_000 // (len(data) + 1), 200)
        case _:
            return data


_CHANGES = (_cell, _lines, _bytes, _long)


@contextlib.contextmanager
def in_time() -> Iterator[None]:
    """Break off what takes too long."""

    def too_long(*_: object) -> None:
        raise TooLongError(f"more than {TIME} s")

    signal.signal(signal.SIGALRM, too_long)
    signal.alarm(TIME)
    try:
        yield
    finally:
        signal.alarm(0)


def attack(name: str, *, count: int, seed: int, keep: Path | None) -> int:
    """Give mutants of one kind to its reader; say what came of it."""
    kind, chance = KINDS[name], random.Random(f"{seed} {name}")  # noqa: S311
    failed: list[str] = []
    read = 0
    with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as folder:
        path = Path(folder) / kind.file
        for number in range(count):
            path.write_bytes(mutant(kind, chance))
            try:
                with in_time(), warnings.catch_warnings():
                    warnings.simplefilter("error")
                    kind.read(path)
                read += 1
            except BoomwrightError as error:
                if "\n" in str(error) or not str(error):
                    failed.append(f"{number}: message {str(error)[:80]!r}")
            except Exception as error:
                failed.append(f"{number}: {type(error).__name__}: {str(error)[:120]}")
                if keep is not None:
                    keep.mkdir(parents=True, exist_ok=True)
                    (keep / f"{seed}-{number}-{kind.file}").write_bytes(path.read_bytes())
    for line in failed[:10]:
        print(f"  {name} {line}")
    print(f"{name}: {count} files, {read} read, {len(failed)} failures", flush=True)
    return len(failed)


_SITE = '[site]\nposition = "52.2 N, 0.1 E"\n'
#: commands that read a file which the plan names: the table that names it, and its kind
_NAMED = {
    "tune": ("sweep", '[measured]\nsweep = "{file}"\n'),
    "reach": ("terrain", '[reach]\nterrain = "{file}"\n'),
    "cost": ("prices", '[prices]\ncurrency = "EUR"\nlist = "{file}"\n'),
}


def _named_plan(table: str) -> str:
    """A small plan that names a file."""
    plan = (EXAMPLES / "tuning" / "three-elements-20m.toml").read_text(encoding="utf-8")
    head, _, tail = plan.partition("[measured]")
    del tail
    return f"{head}\n{table}"


def _special(folder: Path, what: str) -> Path:
    path = folder / "special.csv"
    match what:
        case "device":
            path.symlink_to("/dev/zero")
        case "pipe":
            os.mkfifo(path)
        case "folder":
            path.mkdir()
        case "socket":
            os.mknod(path, stat.S_IFSOCK | 0o600)
        case "sparse":
            with path.open("wb") as file:
                file.truncate(1 << 40)
        case _:
            path.symlink_to(path.name)
    return path


SPECIAL = ("device", "pipe", "folder", "socket", "sparse", "circle")


def _status(words: list[str]) -> tuple[int, str]:
    said = io.StringIO()
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(io.StringIO()), in_time():
        status = run_command(words, open_page=lambda **_: None)
    return status, said.getvalue()


def attack_commands(*, count: int, seed: int) -> int:
    """Give mutants and special files to the commands themselves."""
    chance, failed, done = random.Random(f"{seed} commands"), 0, 0  # noqa: S311
    for command, (name, table) in _NAMED.items():
        for number in range(len(SPECIAL) + count):
            with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as given:
                folder, kind = Path(given), KINDS[name]
                file, wanted = kind.file, {0, 2}
                if number < len(SPECIAL):
                    file, wanted = _special(folder, SPECIAL[number]).name, {2}
                else:
                    (folder / file).write_bytes(mutant(kind, chance))
                plan = folder / "plan.toml"
                plan.write_text(_named_plan(table.format(file=file)), encoding="utf-8")
                status, said = _status([command, str(plan)])
                done += 1
                if status not in wanted or "Traceback" in said:
                    failed += 1
                    print(f"  {command} with {file} {number}: {status} {said.strip()[-200:]}")
    for what in SPECIAL:
        with tempfile.TemporaryDirectory(prefix="boomwright-attack-") as given:
            status, said = _status(["check", str(_special(Path(given), what))])
            done += 1
            if status != 2 or "Traceback" in said:
                failed += 1
                print(f"  check {what}: {status} {said.strip()[-200:]}")
    print(f"commands: {done} runs, {failed} failures", flush=True)
    return failed


def main() -> int:
    """Attack the kinds asked for, or all of them and the commands."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("kinds", nargs="*", metavar="KIND", help=", ".join((*KINDS, "commands")))
    asked.add_argument("--count", type=int, default=2000, help="mutants of each kind")
    asked.add_argument("--runs", type=int, default=10, help="mutants for each command")
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--keep", type=Path, help="folder for what failed")
    given = asked.parse_args()
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    failed = 0
    for name in given.kinds or (*KINDS, "commands"):
        if name == "commands":
            failed += attack_commands(count=given.runs, seed=given.seed)
        else:
            failed += attack(name, count=given.count, seed=given.seed, keep=given.keep)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
