"""Every command answers on one page of text: demo and worked stations, in both unit systems."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import StringIO
from pathlib import Path
from typing import Any, Final

import pytest

import boomwright as bw
from boomwright.base import PlanVerdict, UnitSystem
from boomwright.render.terminal.lines import make_console
from boomwright.render.terminal.subject import MOST_LINES, write_subject
from boomwright.render.written import report_on
from boomwright.report.model import Table
from boomwright.study import tuning
from boomwright.study.verdict import judge_plan
from fakes.tuned_example import PLAN as TUNED
from fakes.tuned_example import tuned_once

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "src/boomwright/session/data/demo.toml"
PLANS = [DEMO, *sorted((ROOT / "examples/stations").glob("*.toml"))]
SYSTEMS: tuple[UnitSystem, UnitSystem] = ("metric", "us")
DAY = "2026-11-25"
SUBJECTS: Final[dict[str, Callable[[Any], Any]]] = {
    "compute": lambda plan: bw.compute(plan, points=5),
    "feed": bw.solve_feed,
    "reach": bw.compute_reach,
    "structure": bw.check_structure,
    "permits": bw.check_permits,
    "cost": lambda plan: bw.price(plan, today=DAY),
    "raise": lambda plan: bw.plan_raising(plan, today=DAY),
}
#: commands that show the verdict of the plan
JUDGED = ("structure", "permits", "cost", "raise")


@pytest.fixture(scope="module", params=PLANS, ids=lambda path: path.stem[:12])
def told(request):
    """The results of one plan by command, with its verdict."""
    plan = bw.load(request.param)
    return {name: verb(plan) for name, verb in SUBJECTS.items()}, judge_plan(plan)


def answer(
    result: Any, verdict: PlanVerdict | None, *, system: UnitSystem, wide: int, full: bool = False
) -> list[str]:
    """Lines of an answer in a window so many columns wide."""
    made = report_on(result, system=system)
    out = StringIO()
    console = make_console(out)
    console.width = wide
    write_subject(
        console, result.plan.title, made.reports, notices=made.notices, system=system,
        verdict=verdict, full=full,
    )  # fmt: skip
    return out.getvalue().rstrip().split("\n")


@pytest.mark.parametrize("command", SUBJECTS)
def test_an_answer_fits_on_a_page(told, command) -> None:
    results, verdict = told
    for system in SYSTEMS:
        for wide in (100, 80):
            shown = verdict if command in JUDGED else None
            lines = answer(results[command], shown, system=system, wide=wide)
            assert max(map(len, lines)) <= wide
            assert "…" not in "\n".join(lines)
            exceeded = 0 if shown is None else sum(
                1 + len(line) // wide for line in _exceeded(shown, system)
            )  # fmt: skip
            cautions = sum(
                1 + len(notice.said(system)) // (wide - 20)
                for notice in report_on(results[command], system=system).notices
                if notice.severity in {"caution", "limit"}
            )
            assert wide == 80 or len(lines) - exceeded - cautions <= MOST_LINES, "\n".join(lines)
            if not exceeded:
                assert wide == 80 or len(lines) <= MOST_LINES, "\n".join(lines)


def _exceeded(verdict: PlanVerdict, system: UnitSystem) -> tuple[str, ...]:
    from boomwright.base import exceeded_texts

    return exceeded_texts(verdict, system=system)


@pytest.mark.parametrize("command", SUBJECTS)
def test_the_full_account_holds_what_the_answer_leaves_out(told, command) -> None:
    results, verdict = told
    shown = verdict if command in JUDGED else None
    system = report_on(results[command]).system
    made = report_on(results[command], system=system)
    quick = answer(results[command], shown, system=system, wide=100)
    full = answer(results[command], shown, system=system, wide=100, full=True)
    assert max(map(len, full)) <= 100
    assert "…" not in "\n".join(full)
    said = " ".join(" ".join(full).split())
    for notice in made.notices:
        assert str(notice.said(system))[:30] in said
    for report in made.reports:
        for table in report.tables:
            assert _caption(table, system) in said
    kept = {line for line in quick if re.match(r"(Verdict|caution|limit)", line)}
    assert kept <= set(full)


def _caption(table: Table[Any], system: UnitSystem) -> str:
    from boomwright.base.quantity import write

    return " ".join(write(table.caption, system=system).split())


def test_exceeded_checks_and_cautions_are_never_cut(told) -> None:
    results, verdict = told
    lines = answer(results["structure"], verdict, system="metric", wide=100)
    said = " ".join(" ".join(lines).split())
    for text in _exceeded(verdict, "metric"):
        assert " ".join(text.split()) in said
    for notice in report_on(results["structure"], system="metric").notices:
        if notice.severity in {"caution", "limit"}:
            assert notice.said("metric")[:60] in said


@pytest.mark.parametrize(
    "words",
    [
        ("check", DEMO),
        ("tune", TUNED),
        ("frontier", "--elements", "3", "--boom", "8 m", "--band", "20 m"),
    ],
    ids=lambda words: words[0],
)
@pytest.mark.parametrize("wide", ["100", "80"])
def test_the_other_commands_fit_too(shell, monkeypatch, words, wide) -> None:
    monkeypatch.setattr(tuning, "tune_plan", tuned_once)
    monkeypatch.setenv("COLUMNS", wide)
    lines = shell(*words).out.rstrip().split("\n")
    assert len(lines) <= MOST_LINES
    assert max(map(len, lines)) <= int(wide)
    assert "…" not in "\n".join(lines)


def test_no_key_of_the_sources_meets_the_owner(shell) -> None:
    for command in ("structure", "permits", "feed"):
        out = shell(command, DEMO, "--full").out
        assert not re.search(r"\((?:asce|tia|ibc|aisc|common)-[a-z0-9-]+\)", out)
        assert not re.search(r"\[[a-z]+-[a-z0-9-]+\]", out)


def test_what_all_margins_rest_on_is_said_once(shell) -> None:
    out = " ".join(shell("structure", DEMO, "--full").out.split())
    assert len(re.findall(r"31\.0 m/s 3 s gust from", out)) <= 2
    # Each line names its load case; what a case is stands in the list of cases alone.
    assert out.count("design wind, case") > 5
    assert out.count(", Kz") <= 20 < out.count("verdict within")
