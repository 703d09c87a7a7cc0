"""What is lost by the way advice looks at stations: quick estimates, few heights.

``OPENBLAS_NUM_THREADS=1 PYTHONPATH=src python benchmarks/advice_regret.py --workers 16``: for each
of twelve random places every station is tried at four times as many heights and computed in full.
At the cost of each station that the usual advice puts forward, the regret is what the strongest
allowed station of the exhaustive run gives more for no more money. Nothing but NumPy, SciPy and
this package is needed. Places and prices are invented.

With ``--keep FOLDER`` what is computed of the exhaustive runs lies there, a file a place, and
``--minutes`` ends a call after so long: the same call again goes on where it ended. ``--places 1
--first N`` takes one place alone.

``taskset -c 0,1 ... --workers 2 --alone 0 3`` times the usual answer alone at places 0 (one band)
and 3 (two bands).
"""

from __future__ import annotations

import argparse
import json
import statistics
import sys
import time
from collections.abc import Callable, Mapping
from concurrent.futures import Executor
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "tests"))

from boomwright.base.files import FileKind
from boomwright.base.quantity import write
from boomwright.cost import read_prices
from boomwright.plan import read_place
from boomwright.session.search_workers import process_pool
from boomwright.study.advice.advise import Advice, OnCandidate, advise
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.keeping import Record
from boomwright.study.advice.table import SupportRow, Table, usual_table
from boomwright.study.cost import PriceList, price_plan
from random_places import invented_prices, random_place

#: heights tried in place of one
FINER = 4
#: stations computed between two writings
WRITTEN_EVERY = 16


def finer(row: SupportRow) -> SupportRow:
    """A support at four times as many heights, over the same range."""
    heights = sorted(row.heights)
    if len(heights) == 1:
        return row
    steps = FINER * len(heights) - 1
    span = heights[-1] - heights[0]
    return replace(
        row, heights=tuple(round(heights[0] + span * n / steps, 2) for n in range(steps + 1))
    )


class Kept:
    """Keeps an exhaustive run in a file; no file keeps nothing."""

    def __init__(self, path: Path | None) -> None:
        self._path = path
        self._name = ""
        self._records: dict[str, Record] = {}
        self._fresh = 0

    def kept(self, name: str) -> Mapping[str, Record]:
        """Records of an earlier call; none of those of another place or table."""
        self._name = name
        if self._path is not None and self._path.exists():
            found = json.loads(self._path.read_text(encoding="utf-8"))
            self._records = found["stations"] if found["place"] == name else {}
        return dict(self._records)

    def keep(self, station: str, record: Record) -> None:
        """Keep a record; all are written now and then."""
        self._records[station] = record
        self._fresh += 1
        if self._fresh >= WRITTEN_EVERY:
            self.write()

    def write(self) -> None:
        """Write what is kept."""
        self._fresh = 0
        if self._path is None:
            return
        told = {"place": self._name, "stations": self._records}
        begun = self._path.with_suffix(".begun")
        begun.write_text(json.dumps(told), encoding="utf-8")
        begun.replace(self._path)


def advised(
    text: str,
    *,
    table: Table,
    prices: bytes,
    executor: Executor | None,
    full: bool,
    keeper: Kept | None = None,
    stopped: Callable[[], bool] = lambda: False,
    on_candidate: OnCandidate | None = None,
) -> Advice:
    """Advise a place with a price list."""

    def files(name: str, place: str, kind: FileKind) -> bytes:
        del name, place, kind
        return prices

    return advise(
        read_place(text),
        table=table,
        files=files,
        executor=executor,
        in_full=full,
        keeper=keeper,
        stopped=stopped,
        on_candidate=on_candidate,
    )


def rows_of(advice: Advice) -> list[tuple[str, str]]:
    """Name and unit of everything that any candidate asks for."""
    return [
        (write(line.name, system="metric"), line.unit)
        for each in advice.candidates
        if each.costing is not None
        for line in each.costing.bill.lines
        if not line.is_open
    ]


def repriced(candidate: Candidate, prices: PriceList) -> Candidate:
    """A candidate with its costs by a price list."""
    return replace(candidate, costing=price_plan(candidate.plan, prices=prices))


def regret(exhaustive: list[Candidate], usual: Advice) -> tuple[float, int] | None:
    """Most that is lost at the cost of a station put forward, and how many rivals there were.

    None where nothing is put forward, or no station of the exhaustive run costs as little [dB].
    """
    lost, rivals = [], 0
    for pick in usual.picks:
        one = usual.candidates[pick.number]
        others = [
            each.served.mean_db
            for each in exhaustive
            if each.allowed and each.priced_in_full and (each.cost or 0.0) <= (one.cost or 0.0)
        ]
        rivals += len(others)
        lost.append(max([*others, one.served.mean_db]) - one.served.mean_db)
    return (max(lost), rivals) if rivals else None


_NO_PRICES = b"item,unit,low,likely,high,currency,supplier,dated\n"


def timed(seed: int, *, prices: bytes, executor: Executor | None) -> tuple[Advice, str]:
    """Advise a place as usual; the answer, and how long it took in words."""
    rows: list[float] = []
    begun = time.perf_counter()
    quick = advised(
        random_place(seed),
        table=usual_table(),
        prices=prices,
        executor=executor,
        full=False,
        on_candidate=lambda *_: rows.append(time.perf_counter() - begun),
    )
    whole = time.perf_counter() - begun
    return quick, f"{whole:.0f} s with the first row after {rows[0]:.1f} s"


def alone(seed: int, *, executor: Executor | None) -> None:
    """Print how long the usual answer takes at a place."""
    listed, _ = timed(seed, prices=_NO_PRICES, executor=executor)
    quick, told = timed(seed, prices=invented_prices(rows_of(listed)), executor=executor)
    full = sum(each.served.in_full for each in quick.candidates)
    print(
        f"place {seed}: {', '.join(quick.bands)}; {len(quick.candidates)} stations, {full} in "
        f"full, {told}",
        flush=True,
    )


def measure(
    seed: int, *, executor: Executor | None, keep: Path | None, stopped: Callable[[], bool]
) -> float | None:
    """Print the regret at a place; None where there is no rival, or the time is up [dB]."""
    usual = usual_table()
    fine = replace(usual, support=tuple(finer(row) for row in usual.support))
    text, begun = random_place(seed), time.perf_counter()
    keeper = Kept(None if keep is None else keep / f"place-{seed}.json")
    whole = advised(
        text,
        table=fine,
        prices=_NO_PRICES,
        executor=executor,
        full=True,
        keeper=keeper,
        stopped=stopped,
    )
    keeper.write()
    if stopped():
        done = sum(each.served.in_full for each in whole.candidates)
        known = len(whole.candidates) + len(whole.unmade) + whole.untried
        print(f"place {seed}: {done} of {known} stations in full, the time is up", flush=True)
        return None
    middle = time.perf_counter()
    prices = invented_prices(rows_of(whole))
    listed = PriceList(name="prices.csv", prices=read_prices(prices.decode()))
    exhaustive = [repriced(each, listed) for each in whole.candidates]
    quick, took = timed(seed, prices=prices, executor=executor)
    lost = regret(exhaustive, quick)
    told = "no rival" if lost is None else f"{lost[0]:.3f} dB over {lost[1]} rivals"
    print(
        f"place {seed}: {', '.join(quick.bands)}; {len(exhaustive)} against "
        f"{len(quick.candidates)} stations, {middle - begun:.0f} s against {took}, "
        f"{len(quick.picks)} put forward; {told}",
        flush=True,
    )
    return None if lost is None else lost[0]


def main() -> None:
    """Print the regret of each place, its median and its worst."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--places", type=int, default=12)
    parser.add_argument("--first", type=int, default=0, help="number of the first place")
    parser.add_argument("--keep", type=Path, help="folder that keeps the exhaustive runs")
    parser.add_argument("--minutes", type=float, default=float("inf"), help="ends a call")
    parser.add_argument("--alone", type=int, nargs="+", help="places to time the answer at")
    given = parser.parse_args()
    if given.alone:
        with process_pool(given.workers) as executor:
            for seed in given.alone:
                alone(seed, executor=executor)
        return
    if given.keep is not None:
        given.keep.mkdir(parents=True, exist_ok=True)
    end = time.monotonic() + 60.0 * given.minutes
    found = []
    with process_pool(given.workers) as executor:
        for seed in range(given.first, given.first + given.places):
            if time.monotonic() > end:
                break
            found.append(
                measure(
                    seed,
                    executor=executor,
                    keep=given.keep,
                    stopped=lambda: time.monotonic() > end,
                )
            )
    known = [each for each in found if each is not None]
    if known:
        print(f"median {statistics.median(known):.3f} dB, worst {max(known):.3f} dB")


if __name__ == "__main__":
    main()
