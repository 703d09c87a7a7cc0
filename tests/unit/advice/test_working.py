"""Advice on workers, stopped, kept and taken up again: the same stations with the same figures."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest

from boomwright.base.files import no_files
from boomwright.plan import Plan, read_place
from boomwright.session.advice import advise_place
from boomwright.session.advice_keeping import AdviceKeeper, unfinished_path
from boomwright.study.advice.advise import Advice, advise
from boomwright.study.advice.antennas import Refused
from boomwright.study.advice.judged import Asked, Candidate, Unmade
from boomwright.study.advice.stations import Hung, Station
from boomwright.study.advice.table import Table, usual_table
from boomwright.study.advice.working import Designs
from boomwright.study.requests import RequestError

PLACE = """
boomwright = 1
title = "A gable over a small lawn"
[site]
position = "51.40 N, 0.95 W"
ground = "medium dry"
[place]
bands = ["20 m"]
[reach]
target = [{ name = "Boston", position = "42.4 N, 71.1 W" }]
"""


@pytest.fixture(scope="module")
def table() -> Table:
    usual = usual_table()
    return replace(
        usual,
        shape=tuple(row for row in usual.shape if row.name == "inverted-vee"),
        support=tuple(
            replace(row, heights=(8.0, 9.0)) for row in usual.support if row.kind == "house bracket"
        ),
    )


@pytest.fixture(scope="module")
def place() -> Plan:
    return read_place(PLACE)


@pytest.fixture(scope="module")
def whole(place: Plan, table: Table) -> Advice:
    return advise(place, table=table)


def figures(advice: Advice) -> list[tuple[str, float, float]]:
    return [(each.name, each.station.height, each.served.mean_db) for each in advice.candidates]


class Kept:
    """Keeps in memory."""

    def __init__(self) -> None:
        self.records: dict[str, dict[str, object]] = {}

    def kept(self, name: str) -> dict[str, dict[str, object]]:
        return dict(self.records)

    def keep(self, station: str, record: dict[str, object]) -> None:
        self.records[station] = record


def test_workers_find_the_same(place: Plan, table: Table, whole: Advice) -> None:
    with ThreadPoolExecutor(max_workers=1) as executor:
        found = advise(place, table=table, executor=executor)
    assert figures(found) == figures(whole)
    assert found.picks == whole.picks


def test_the_first_row_waits_for_no_design(
    place: Plan, table: Table, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is designed for every height comes beside it, before the rows that wait for it."""
    events: list[str] = []

    def judged(asked: Asked, station: Station, made: Designs) -> Unmade:
        del asked
        waits = station.hung[0].shape.turns
        assert bool(made) == waits
        events.append("row that waits" if waits else "row")
        return Unmade(station=station, reason="not looked at")

    def designed(asked: Asked, hung: Hung) -> Refused:
        del asked, hung
        events.append("design")
        return Refused(said="not looked at")

    monkeypatch.setattr("boomwright.study.advice.advise.judged", judged)
    monkeypatch.setattr("boomwright.study.advice.advise.designed", designed)
    hexagon = [row for row in usual_table().shape if row.wire == "hexagon"]
    advise(place, table=replace(table, shape=(*hexagon, *table.shape)))
    assert events == ["row", "design", "row", "row that waits", "row that waits"]


def test_stopped_it_keeps_what_is_done(place: Plan, table: Table, whole: Advice) -> None:
    seen: list[Candidate | Unmade] = []
    kept = Kept()
    found = advise(
        place,
        table=table,
        on_candidate=lambda done, total, one: seen.append(one),
        stopped=lambda: bool(seen),
        keeper=kept,
    )
    assert found.untried == 1
    assert figures(found) == figures(whole)[:1]
    assert "advise.stopped" in {each.code for each in found.notices}
    # Stopped before its match was computed: nobody knows yet what the radio will see.
    (feed,) = found.candidates[0].verdict.of("feed").findings
    assert feed.verdict == "not checked"
    (feed,) = whole.candidates[-1].verdict.of("feed").findings
    assert feed.verdict == "within"
    again = advise(place, table=table, keeper=kept)
    assert again.untried == 0
    assert figures(again) == figures(whole)
    assert [each.plan for each in again.candidates] == [each.plan for each in whole.candidates]
    assert [each.verdict.word for each in again.candidates] == [
        each.verdict.word for each in whole.candidates
    ]


def test_a_run_is_kept_beside_its_place(tmp_path: Path) -> None:
    path = tmp_path / "garden.toml"
    keeper = AdviceKeeper(path, resume=False)
    assert keeper.kept("one") == {}
    keeper.keep("wire", {"unmade": "too long"})
    assert AdviceKeeper(path, resume=True).kept("one") == {"wire": {"unmade": "too long"}}
    with pytest.raises(RequestError, match="as they were then"):
        AdviceKeeper(path, resume=True).kept("another")
    keeper.finish()
    assert not unfinished_path(path).exists()
    with pytest.raises(RequestError, match="no advice was broken off"):
        AdviceKeeper(path, resume=True).kept("one")
    unfinished_path(path).write_text("[]", encoding="utf-8")
    with pytest.raises(RequestError, match="no advice of this version"):
        AdviceKeeper(path, resume=True).kept("one")


def test_nothing_is_left_behind_by_a_run_that_ends(
    place: Plan, table: Table, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("boomwright.study.advice.advise.usual_table", lambda: table)
    path = tmp_path / "garden.toml"
    made = advise_place(place, files=no_files, path=path, stopped=lambda: True)
    assert (made.candidates, made.untried) == ((), 2)
    advise_place(place, files=no_files, path=path)
    assert list(tmp_path.iterdir()) == []
