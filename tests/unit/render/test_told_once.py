"""A fact is written once: change a label, a unit or a verdict, and all four readers follow."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from boomwright.base.quantity import KINDS
from boomwright.charts.palette import LIGHT
from boomwright.plan import read_plan
from boomwright.render.book.shown import shown_chapter
from boomwright.render.json.permits import permits_document
from boomwright.render.laid import lay_out
from boomwright.render.terminal.subject import print_subject
from boomwright.report import permits
from boomwright.report.model import Canvas, column
from boomwright.session.book import shown_permits
from boomwright.study.permits import PermitCheck, permit_plan
from boomwright.web.sheets.shown_context import subject_parts

STATION = Path(__file__).parents[3] / "examples/stations/04-three-elements-20m-on-a-crank-up.toml"
PLAN = read_plan(STATION.read_text(encoding="utf-8"))
READERS = ("terminal", "page", "book", "JSON")


@pytest.fixture(scope="module")
def found() -> PermitCheck:
    return permit_plan(PLAN, exposure=())


@pytest.fixture
def told(monkeypatch, capsys):
    """What the four readers show of a result, as text."""

    def read(found: PermitCheck) -> dict[str, str]:
        monkeypatch.setattr("boomwright.study.permits.permit_plan", lambda _plan: found)
        report = permits.permits_report(found)
        print_subject(found.plan.title, (report,), notices=(), system="metric", full=True)
        shown = lay_out(report, canvas=Canvas(palette=LIGHT, system="metric"))
        groups = (("findings", "Findings", "each rule"), ("pictures", "Near", "a map"))
        page = subject_parts(shown, system="metric", groups=groups)
        (chapter,) = shown_permits(found.plan, system="metric")
        texts = {
            "terminal": capsys.readouterr().out,
            "page": str([page["facts"], page["lists"], page["tables"]]),
            "book": json.dumps(shown_chapter(chapter)["tables"], ensure_ascii=False),
            "JSON": json.dumps(permits_document(found)["findings"], ensure_ascii=False),
        }
        return {name: " ".join(text.split()) for name, text in texts.items()}

    return read


def test_a_label_is_written_once(found, told, monkeypatch) -> None:
    def renamed(head, get, **more):
        if head == "yours":
            head, more["key"] = "stands at", "stands_at"
        return column(head, get, **more)

    before = told(found)
    monkeypatch.setattr(permits, "column", renamed)
    after = told(found)
    names = {"terminal": "stands at", "page": "stands at", "book": "Stands at", "JSON": "stands_at"}
    for reader in READERS:
        assert names[reader] not in before[reader], reader
        assert names[reader] in after[reader], reader


def test_a_unit_is_written_once(found, told, monkeypatch) -> None:
    high = found.installation.heights.highest
    before = told(found)
    monkeypatch.setitem(KINDS, "clearance", replace(KINDS["clearance"], scale=1e3, unit="mm"))
    after = told(found)
    for reader in READERS:
        assert f"{high:.2f} m high" in before[reader], reader
        assert f"{1e3 * high:.2f} mm high" in after[reader], reader


def test_a_verdict_is_given_once(found, told) -> None:
    kept = next(
        one for one in found.sheet.findings if one.subject == "Fall circle, 1.1 times the height"
    )
    assert kept.verdict != "exceeded"
    passed = replace(kept, verdict="exceeded", subject="Fall circle of the test")
    sheet = replace(
        found.sheet,
        findings=tuple(passed if one is kept else one for one in found.sheet.findings),
    )
    after = told(replace(found, sheet=sheet))
    for reader in READERS:
        said = after[reader]
        at = said.index(passed.subject)
        if reader == "JSON":
            assert '"verdict": "exceeded"' in said[at:].partition("}")[0]
        else:
            # It stands in the list of what is exceeded, and in no other.
            between = said[said.rindex("Exceeded", 0, at) : at]
            assert "To ask" not in between, reader
            assert "Within the limit" not in between, reader
