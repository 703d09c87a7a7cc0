"""Readers in feet never meet a metric figure first, readers in metres never an inch.

What permits, cost and tuning say is read sentence by sentence, as terminal, page and book lay it
out.
A figure of the other system may only stand behind one of the reader's own, in brackets or after a
slash, as a workshop drawing has it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import boomwright as bw
from boomwright.base import UnitSystem, written_notices
from boomwright.base.quantity import write
from boomwright.charts.palette import LIGHT
from boomwright.cost import read_prices
from boomwright.plan import read_plan
from boomwright.plan.resolve import plan_bill, plan_estimate
from boomwright.render.field_sheet import part_blocks, sheet_blocks
from boomwright.render.laid import lay_out
from boomwright.render.terminal.subject import print_subject
from boomwright.report.cost import cost_report
from boomwright.report.model import Canvas, Report
from boomwright.report.permits import permits_report
from boomwright.report.tuning import tuning_report
from boomwright.session.files import packaged_text
from boomwright.session.lessons import lessons
from boomwright.study.cost import Costing
from boomwright.study.permits import permit_plan

ROOT = Path(__file__).resolve().parents[3]
STATIONS = sorted((ROOT / "examples/stations").glob("0[145]*.toml"))
SYSTEMS: tuple[UnitSystem, UnitSystem] = ("metric", "us")

_NUMBER = r"(?<![\w./−-])[+−-]?\d[\d.,\u202f]*(?:-\d+/\d+|/\d+)?"
_UNITS: dict[UnitSystem, str] = {
    "metric": r"(?:mm|cm|km|m|kg|m/s|N|kN|kPa|MPa|m²|m³|N m|kN m|kg/m³)",
    "us": r"(?:in|ft|mi|lb|lbf|mph|psf|ksi|ft²|yd³|lb/ft³|lbf ft)",
}
_OTHER: dict[UnitSystem, UnitSystem] = {"metric": "us", "us": "metric"}
#: names of bands, of strand as its maker sells it, and words that only look like an inch
_NAMES = re.compile(
    r"\b(?:160|80|60|40|30|20|17|15|12|10|6|2) ?m\b(?! \()|\b\d+/\d+ in EHS"
    r"|\d in (?:every|the|a|all|reflection|this|one|free)\b"
)


def strings(value: Any) -> Iterator[str]:
    """Every text of a context; drawings and lines to put into the plan are left out."""
    if isinstance(value, dict):
        for key, each in value.items():
            if key not in {"example", "svg", "figures"}:
                yield from strings(each)
    elif isinstance(value, list | tuple):
        for each in value:
            yield from strings(each)
    elif hasattr(value, "__dataclass_fields__"):
        yield from strings({name: getattr(value, name) for name in value.__dataclass_fields__})
    elif isinstance(value, str) and "<svg" not in value:
        yield value


def foreign(text: str, *, system: UnitSystem) -> list[str]:
    """Figures of the other system that no figure of the reader's own stands before."""
    own, other = _UNITS[system], _UNITS[_OTHER[system]]
    told = _NAMES.sub(lambda name: "·" * len(name.group()), " ".join(text.split(" ")))
    found = []
    for figure in re.finditer(rf"{_NUMBER}\s?{other}(?![\w²³/])", told):
        before = told[: figure.start()]
        if not re.search(rf"{own}\s?(?:\(|/ |· )(?:Ø )?$", before):
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


def hold(report: Report, capsys: Any) -> None:
    for system in SYSTEMS:
        said = all_said(report, system, capsys)
        found = [each for text in said for each in foreign(text, system=system)]
        assert not found, "\n".join(dict.fromkeys(found))


@pytest.mark.parametrize("path", STATIONS, ids=lambda path: path.stem[:2])
def test_permits(path: Path, capsys: Any) -> None:
    plan = read_plan(path.read_text(encoding="utf-8"))
    hold(permits_report(permit_plan(plan, exposure=())), capsys)


@pytest.mark.parametrize("priced", [True, False])
def test_cost(priced: bool, capsys: Any) -> None:
    plan = read_plan(packaged_text("demo.toml"))
    prices = read_prices(packaged_text("demo_prices.csv"), source="prices.csv") if priced else ()
    made = plan_estimate(plan, prices=prices, today="2026-11-25")
    hold(
        cost_report(
            Costing(
                plan=plan,
                bill=plan_bill(plan),
                estimate=made,
                changes=(),
                price_list="prices.csv",
                today="2026-11-25",
                notices=made.notices,
            )
        ),
        capsys,
    )


def test_tuning(capsys: Any) -> None:
    plan = bw.load(ROOT / "examples/tuning/three-elements-20m.toml")
    hold(tuning_report(bw.tune(plan)), capsys)


def test_lessons() -> None:
    for lesson in lessons():
        for step in lesson.steps:
            for text in (step.say, step.do):
                assert not foreign(write(text, system="us"), system="us")


def test_the_rule_itself_bites() -> None:
    assert foreign("gap 20 mm wide", system="us")
    assert foreign("at 16.00 m (52 ft 6 in)", system="us")
    assert foreign("cut 17 ft 0-3/8 in", system="metric")
    assert not foreign("at 52 ft 6 in (16.00 m) and 20 m band", system="us")
    assert not foreign("saw to 203-15/16 in / 5180 mm", system="us")
