"""Places drawn by chance: the chosen plan goes through every command with the table's figures.

One small choice of stations at one place; set ``BOOMWRIGHT_PLANS`` to a number of places, of which
each is given every station of the table. The places are tests of their own, for ``-n 12``.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

import pytest

import boomwright as bw
from boomwright.base.files import FileKind
from boomwright.base.quantity import write
from boomwright.plan import plan_notices, read_place
from boomwright.session.advice import write_chosen
from boomwright.study.advice.advise import Advice, advise
from boomwright.study.advice.keeping import Record
from boomwright.study.advice.table import Table, usual_table
from random_places import invented_prices, random_place

EVERY = "BOOMWRIGHT_PLANS" in os.environ
PLACES = range(int(os.environ.get("BOOMWRIGHT_PLANS", "1")))
#: the place of the quick run: two bands, which one trapped antenna serves
QUICK = 3


def _table() -> Table:
    usual = usual_table()
    if EVERY:
        return usual
    return replace(
        usual,
        shape=tuple(row for row in usual.shape if row.name == "trapped rotary dipole"),
        support=tuple(
            replace(row, heights=row.heights[:1])
            for row in usual.support
            if row.kind == "tilting tube"
        ),
    )


@dataclass(frozen=True, slots=True)
class _Kept:
    """Keeps what prices do not change: the second run computes nothing twice."""

    records: dict[str, Record] = field(default_factory=dict)

    def kept(self, name: str) -> Mapping[str, Record]:
        del name
        return dict(self.records)

    def keep(self, station: str, record: Record) -> None:
        self.records[station] = record


def _advise(text: str, prices: bytes, kept: _Kept, *, whole: bool = True) -> Advice:
    """Advise a place; not whole, it ends with its first station, whose bill is all that counts."""

    def files(name: str, place: str, kind: FileKind) -> bytes:
        del name, place, kind
        return prices

    return advise(
        read_place(text),
        table=_table(),
        files=files,
        keeper=kept,
        stopped=lambda: not whole and bool(kept.records),
    )


@pytest.mark.parametrize("number", PLACES)
def test_a_chosen_plan_goes_through_every_command(shell, tmp_path: Path, number: int) -> None:
    text = random_place(number if EVERY else QUICK)
    kept = _Kept()
    first = _advise(text, b"item,unit,low,likely,high,currency,supplier,dated\n", kept, whole=EVERY)
    rows = [
        (write(line.name, system="metric"), line.unit)
        for each in first.candidates
        if each.costing is not None
        for line in each.costing.bill.lines
    ]
    prices = invented_prices(rows)
    (tmp_path / "prices.csv").write_bytes(prices)
    made = _advise(text, prices, kept)
    if not made.picks:
        assert all(not each.allowed for each in made.candidates)
        return
    path = tmp_path / "chosen.toml"
    chosen = write_chosen(made, path)
    assert bw.load(path) == chosen.plan
    assert not [each for each in plan_notices(chosen.plan) if each.severity == "limit"]
    found = {}
    for command in ("compute", "feed", "reach", "structure", "permits", "cost", "raise"):
        ran = shell(command, path, "--json")
        assert ran.status == 0, f"{command}: {ran.err}"
        found[command] = json.loads(ran.out)
    assert shell("check", path).status == 0
    _figures_agree(chosen, found)
    if EVERY:
        assert shell("book", path, "-o", tmp_path / "book.pdf").status == 0


def _figures_agree(chosen, found) -> None:
    assert found["cost"]["total"][1] == pytest.approx(chosen.cost)
    # The rooms' own verdicts, to which the place's limits and the feed come.
    rooms = [each for each in chosen.verdict.findings if each.subject not in {"place", "feed"}]
    for word, count in found["structure"]["verdict"]["counts"].items():
        assert count == sum(each.verdict == word for each in rooms)
    fed = {each["name"]: each for each in found["feed"]["beams"]}
    seen = {each["name"]: each for each in found["reach"]["beams"]}
    duties = {duty.band: duty for each in chosen.duties for duty in each}
    for served in chosen.served.bands:
        measured, over = fed[served.beam]["as_measured"], seen[served.beam]
        edges = duties[served.band].edges
        if edges is not None:
            (further,) = measured["further_bands"]
            assert further["design_frequency_hz"] == pytest.approx(edges[2])
            measured = further["as_measured"]
            (over,) = over["further_bands"]
            assert over["band_hz"] == pytest.approx(edges[:2])
        assert measured["swr_design"] == pytest.approx(served.swr, rel=3e-3)
        short = [each for each in over["paths"] if each["way"] == "short"]
        for path, gain in zip(short, served.gains_dbi, strict=True):
            hop = next(each for each in path["hops"] if each["layer"] == "F2")
            low, high = hop["gain_dbi"]
            assert low < gain + served.line_loss_db < high
