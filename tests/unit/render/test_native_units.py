"""Readers in feet never meet a metric figure first, readers in metres never an inch.

Everything that the program says of the demo's plan is read sentence by sentence, as terminal,
page and book lay it out; stations with towers, notices of airports and measured sweeps beside it.
A figure of the other system may only stand behind one of the reader's own: in brackets, after a
slash, or in a later column of the same row, as a workshop drawing has it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from boomwright.base import UnitSystem, plan_verdict, written_notices
from boomwright.base.quantity import write
from boomwright.charts.palette import LIGHT
from boomwright.plan import Plan, read_plan
from boomwright.render.book import typesetting
from boomwright.render.field_sheet import part_blocks, sheet_blocks
from boomwright.render.laid import lay_out
from boomwright.render.terminal.subject import print_subject
from boomwright.render.written import report_on
from boomwright.report.cost import cost_report
from boomwright.report.model import Canvas, Report
from boomwright.report.permits import permits_report
from boomwright.report.structure import structure_report
from boomwright.session.book import book_of
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.session.lessons import lessons
from boomwright.study.cost import price_plan
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan
from boomwright.web import PlanDesk
from boomwright.web.sheets import SHEETS
from boomwright.web.view import View

ROOT = Path(__file__).resolve().parents[3]
STATIONS = sorted((ROOT / "examples/stations").glob("0[145]*.toml"))
SYSTEMS: tuple[UnitSystem, UnitSystem] = ("metric", "us")
DAY = "2026-11-25"

_NUMBER = r"(?<![\w./−-])[+−-]?\d[\d.,\u202f]*(?:-\d+/\d+|/\d+)?"
_UNITS: dict[UnitSystem, str] = {
    "metric": r"(?:mm|cm|km|m|kg|m/s|N|kN|kPa|MPa|m²|m³|N m|kN m|kg/m³)",
    "us": r"(?:in|ft|mi|lb|lbf|mph|psf|ksi|ft²|yd³|lb/ft³|lbf ft)",
}
_OTHER: dict[UnitSystem, UnitSystem] = {"metric": "us", "us": "metric"}
#: names of bands, of strand as its maker sells it, positions, and words that only look like an inch
_NAMES = re.compile(
    r"\b(?:160|80|60|40|30|20|17|15|12|10|6|4|2) ?m\b(?! \()|\b70 cm\b|\b\d+/\d+ in EHS"
    r"|\d+\.\d+ [NS],? \d+\.\d+ [EW]|\b\d+ in \d+\b"
    r"|\d in (?:every|the|a|all|reflection|this|one|free|two|SWR)\b"
)
#: lines to put into the plan, and the register of sources, which quotes its titles
_NOT_SAID = {"example", "sources", "look"}


def strings(value: Any) -> Iterator[str]:
    """Every text of a context; a row of a table is one."""
    if isinstance(value, dict):
        for key, each in value.items():
            if key not in _NOT_SAID:
                yield from strings(each)
    elif isinstance(value, list | tuple):
        if len(value) > 1 and all(isinstance(each, str) for each in value):
            yield " · ".join(value)
        else:
            for each in value:
                yield from strings(each)
    elif hasattr(value, "__dataclass_fields__"):
        yield from strings({name: getattr(value, name) for name in value.__dataclass_fields__})
    elif isinstance(value, str) and "<svg" in value:
        yield from re.findall(r">([^<>]+)<", value)
    elif isinstance(value, str):
        # What a script reads is no sentence.
        yield value if " " in value[:200] else ""


def foreign(text: str, *, system: UnitSystem) -> list[str]:
    """Figures of the other system that no figure of the reader's own stands before."""
    own, other = _UNITS[system], _UNITS[_OTHER[system]]
    told = _NAMES.sub(lambda name: "·" * len(name.group()), " ".join(text.split(" ")))
    found = []
    for figure in re.finditer(rf"(?:{_NUMBER} ft )?{_NUMBER}\s?{other}(?![\w²³/])", told):
        before = told[: figure.start()]
        behind_own = rf"{own}\s?(?:\(|/ |· )(?:Ø )?$"
        # A column names its unit in its head: there the figure before is a plain number.
        in_column = r"(?:^|· )[\d.]+ · $"
        if not re.search(behind_own, before) and not re.search(in_column, before):
            found.append(told[max(0, figure.start() - 40) : figure.end() + 10])
    return found


def all_said(report: Report, system: UnitSystem, capsys: Any) -> list[str]:
    """What terminal, page and book show of a report."""
    canvas = Canvas(palette=LIGHT, system=system)
    capsys.readouterr()
    print_subject("", (report,), notices=report.notices, system=system, full=True)
    printed = re.sub(r" *\n *", " ", capsys.readouterr().out)
    blocks = (*sheet_blocks(report, canvas=canvas), *part_blocks(report.tables, canvas=canvas))
    laid = lay_out(report, canvas=canvas)
    notices = written_notices(report.notices, system=system)
    return [printed, *strings(laid), *strings(blocks), *strings(notices)]


def refuse_foreign(said: Iterator[str] | list[str], system: UnitSystem) -> None:
    found = [each for text in said for each in foreign(text, system=system)]
    assert not found, "\n".join(dict.fromkeys(found))


def hold(report: Report, capsys: Any) -> None:
    for system in SYSTEMS:
        refuse_foreign(all_said(report, system, capsys), system)


def test_every_report(results: dict[str, Any], capsys: Any) -> None:
    for result in results.values():
        for report in report_on(result).reports:
            hold(report, capsys)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_sheet_of_the_page(desk: PlanDesk, system: UnitSystem) -> None:
    for sheet in SHEETS:
        context = sheet.context(desk, View(system=system), whole=True)
        refuse_foreign(strings(context), system)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_page_of_the_book(
    desk: PlanDesk, results: dict[str, Any], system: UnitSystem, monkeypatch: Any
) -> None:
    kept: dict[str, Any] = {}
    monkeypatch.setattr(typesetting, "typeset", lambda _part, data: kept.update(data) or b"")
    session = desk.session
    book_of(
        desk.plan, files=PlanFolder(session._path.parent), path=None, digest="3f9a",
        system=system, paper="a4", today=DAY, computation=results["compute"],
        verdict=plan_verdict([]), reach=results["reach"], feed=lambda _plan: results["feed"],
    )  # fmt: skip
    assert {"work", "pocket", "appendix", "subjects", "beams"} <= set(kept)
    refuse_foreign(strings(kept), system)


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem[:2])
def test_stations(path: Path, capsys: Any) -> None:
    plan = read_plan(path.read_text(encoding="utf-8"))
    hold(permits_report(permit_plan(plan, exposure=())), capsys)
    hold(structure_report(structure_plan(plan, fixes=False)), capsys)


def test_an_element_beyond_its_boom(capsys: Any) -> None:
    plan = read_plan(packaged_text("demo.toml").replace('length = "6.2 m"', 'length = "4 m"'))
    report = structure_report(structure_plan(plan, fixes=False))
    assert "element 3 is not on the boom" in " ".join(all_said(report, "us", capsys))
    hold(report, capsys)


def test_cost_without_prices(capsys: Any) -> None:
    plan: Plan = read_plan(packaged_text("demo.toml"))
    hold(cost_report(price_plan(plan, today=DAY)), capsys)


def test_lessons() -> None:
    for lesson in lessons():
        for step in lesson.steps:
            for text in (step.say, step.do):
                assert not foreign(write(text, system="us"), system="us")


def test_the_rule_itself_bites() -> None:
    assert foreign("gap 20 mm wide", system="us")
    assert foreign("at 16.00 m (52 ft 6 in)", system="us")
    assert foreign("cut 17 ft 0-3/8 in", system="metric")
    assert list(strings(["rod", "3/8 in", "10.0 mm"])) == ["rod · 3/8 in · 10.0 mm"]
    assert foreign("rod · 10.0 mm · 3/8 in", system="us")
    assert not foreign("rod · 3/8 in · 10.0 mm", system="us")
    assert not foreign("at 52 ft 6 in (16.00 m) and 20 m band", system="us")
    assert not foreign("saw to 203-15/16 in / 5180 mm", system="us")
