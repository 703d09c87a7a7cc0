"""A fact is written once: change a label, a unit or a verdict, and all four readers follow.

Every label of a report gets a mark where it is declared, every unit where it stands in ``KINDS``;
then terminal, page, book and JSON are asked as the owner asks them. A reader that words a label or
a unit by itself shows it without its mark.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from boomwright.base import plan_verdict
from boomwright.base.quantity import KINDS, Phrase, phrase, write
from boomwright.charts.palette import LIGHT
from boomwright.render.book import typesetting
from boomwright.render.book.contents import _verdict_entry
from boomwright.render.book.shown import shown_chapter
from boomwright.render.json.advice import advice_document
from boomwright.render.json.computation import computation_document
from boomwright.render.json.cost import cost_document
from boomwright.render.json.feed import feed_document
from boomwright.render.json.improve import bands_document, improve_document
from boomwright.render.json.permits import permits_document
from boomwright.render.json.plan import verdict_document
from boomwright.render.json.raising import raising_document
from boomwright.render.json.reach import reach_document
from boomwright.render.json.structure import structure_document
from boomwright.render.json.tuning import tuning_document
from boomwright.render.laid import lay_out
from boomwright.render.rows import text_table
from boomwright.render.written import SUBJECTS, report_on
from boomwright.report.improve import found_report
from boomwright.report.model import Canvas, Column, Fact, Report, Table
from boomwright.report.tuning import tuning_report
from boomwright.session.book import book_of
from boomwright.session.files import PlanFolder
from boomwright.session.plan_session import _found
from boomwright.session.search_records import find_record, keep_found, shown_record
from boomwright.study.verdict import judge_plan
from boomwright.web import PlanDesk
from boomwright.web.sheets import SHEETS
from boomwright.web.sheets.shown_context import opening, subject_parts
from boomwright.web.view import View

#: what writes plain data of each subject that a command writes as such
DOCUMENTS: dict[str, Callable[[Any], dict[str, Any]]] = {
    "compute": computation_document,
    "feed": feed_document,
    "reach": reach_document,
    "structure": structure_document,
    "permits": permits_document,
    "cost": cost_document,
    "raising": raising_document,
    "tuning": tuning_document,
    "improve": improve_document,
    "bands": bands_document,
    "advice": advice_document,
}
#: sheets of the page that show a subject of the demo
ON_PAGE = {"compute": "beam", **{s: s for s in ("feed", "reach", "structure", "permits", "cost",
                                               "raising")}}  # fmt: skip
#: subjects whose checks count in the verdict of the plan
JUDGED = ("structure", "permits", "cost", "raising")
MARK = "¶"
#: every subject with the readers it has
READERS = [
    *((name, "terminal") for name in (*DOCUMENTS, "trade-off")),
    *((name, reader) for name in (*ON_PAGE, "tuning", "improve") for reader in ("page", "book")),
    *((name, "JSON") for name in DOCUMENTS),
]
#: documents that are no rows of a table: the nomenclature names their keys
WITHOUT_LABELS = {(name, "JSON") for name in ("compute", "improve", "bands", "advice")}
CANVAS = Canvas(palette=LIGHT, system="metric")


def marked(said: Any, site: str) -> Any:
    """Put the mark of its place in the source before a label."""
    if isinstance(said, str):
        return f"{MARK}{site}·{said}" if said and not said.startswith(MARK) else said
    if isinstance(said, Phrase) and not said.words.startswith(MARK):
        return phrase(f"{MARK}{site}·{said.words}", **said.values)
    return said


def site_of() -> str:
    """File and line of the report that declares a label."""
    frame = sys._getframe(2)
    while "/report/" not in frame.f_code.co_filename or frame.f_code.co_filename.endswith(
        ("/report/model.py",)
    ):
        assert frame.f_back is not None
        frame = frame.f_back
    path = Path(frame.f_code.co_filename)
    return f"{path.parent.name}/{path.stem}.{frame.f_lineno}"


def mark_labels(patch: pytest.MonkeyPatch) -> None:
    made_column, made_fact = Column.__init__, Fact.__init__

    def column(self: Any, **given: Any) -> None:
        site = site_of()
        names = {name: marked(given.get(name, ""), site) for name in ("head", "key")}
        made_column(self, **{**given, **names})

    def fact(self: Any, **given: Any) -> None:
        made_fact(self, **{**given, "label": marked(given["label"], site_of())})

    patch.setattr(Column, "__init__", column)
    patch.setattr(Fact, "__init__", fact)


def mark_units(patch: pytest.MonkeyPatch) -> None:
    for name, kind in KINDS.items():
        if kind.unit not in {"", "°"}:
            patch.setitem(KINDS, name, replace(kind, unit=f"{kind.unit}{MARK}"))


def flat(value: Any) -> str:
    return " ".join(json.dumps(value, ensure_ascii=False, default=repr).split())


def read_all(
    desk: PlanDesk, results: dict[str, Any], folder: Path, patch: pytest.MonkeyPatch
) -> dict[tuple[str, str], str]:
    """What each reader shows of each subject it has."""
    found = {
        (name, "terminal"): " ".join(report_on(result, system="metric").text().split())
        for name, result in results.items()
    }
    found |= {(name, "JSON"): flat(write(results[name])) for name, write in DOCUMENTS.items()}
    sheets = {sheet.slug: sheet for sheet in SHEETS}
    fresh = PlanDesk(session=desk.session, name="plan.toml", text=desk.session.load())
    book = flat(book_data(desk, results, patch))
    for name, slug in ON_PAGE.items():
        found[name, "page"] = flat(sheets[slug].context(fresh, View(), whole=True))
        found[name, "book"] = book
    improved = results["improve"]
    keep_found(folder / "plan.toml", improved)
    record = shown_record(folder / "plan.toml", improved.after, canvas=CANVAS)
    assert record is not None
    found["improve", "page"] = flat(_found(improved, system="metric"))
    found["improve", "book"] = flat(shown_chapter(record))
    tuned = lay_out(tuning_report(results["tuning"]), canvas=CANVAS)
    found["tuning", "page"] = flat(subject_parts(tuned, system="metric", groups=()))
    found["tuning", "book"] = flat(shown_chapter(tuned))
    return found


def book_data(desk: PlanDesk, results: dict[str, Any], patch: pytest.MonkeyPatch) -> dict[str, Any]:
    kept: dict[str, Any] = {}
    patch.setattr(typesetting, "typeset", lambda _part, data: kept.update(data) or b"")
    book_of(
        desk.plan, files=PlanFolder(desk.session._path.parent), path=None, digest="3f9a",
        system="metric", paper="a4", today="2026-11-25", computation=results["compute"],
        verdict=plan_verdict([]), reach=results["reach"], feed=lambda _plan: results["feed"],
    )  # fmt: skip
    return kept


def said_of(name: str, report: Report, reader: str) -> Iterator[str]:
    """Everything with a label or a unit in it that a reader must show of a report."""
    tables, facts = report.tables, report.answer
    if reader == "JSON":
        tables += tuple(one.behind for one in report.pictures if isinstance(one.behind, Table))
        yield from (one.key for table in tables for one in table.columns)
        return
    if reader != "terminal" and report.sheet:
        tables, facts = tuple(part for part in report.sheet if isinstance(part, Table)), ()
    elif (name, reader) == ("compute", "page"):
        # What follows a drag is written without a report.
        tables, facts = tuple(one for one in tables if one.name in {"sweep", "lobes"}), ()
    elif (name, reader) == ("improve", "page"):
        tables, facts = tuple(one for one in tables if one.name in {"searched", "moved"}), ()
    elif (name, reader) == ("compute", "book"):
        # It says in a sentence of its own what the figures stand for.
        facts = tuple(one for one in facts if not str(one.label).endswith("·As measured"))
    yield from (write(said, system="metric") for one in facts for said in (one.label, one.value))
    for table in tables:
        columns = [one for one in table.columns if not (report.sheet and one.below)]
        written = text_table(replace(table, columns=tuple(columns)), system="metric")
        # A terminal begins a line with the first cell where a table is too wide for columns.
        first = 1 if reader == "terminal" else 0
        for number in range(first, len(columns)):
            cells = [row[number] for row in written.rows]
            if any(cells) or (reader != "terminal" and not columns[number].key):
                yield from (written.header[number], *cells)


def marks_of(said: str) -> set[str]:
    """Words with a mark: a label's first, and every unit."""
    return {word.strip("(),;.") for word in said.split() if MARK in word}


@pytest.fixture(scope="module")
def told(desk: PlanDesk, results: dict[str, Any], tmp_path_factory: Any) -> dict[str, Any]:
    """What readers show and must show of each subject, every label and unit marked."""
    folder = tmp_path_factory.mktemp("found")
    with pytest.MonkeyPatch.context() as patch:
        mark_labels(patch)
        mark_units(patch)
        readers = read_all(desk, results, folder, patch)
        wanted: dict[tuple[str, str], set[str]] = {}
        for name, reader in READERS:
            reports = report_on(results[name]).reports
            if (name, reader) == ("improve", "book"):
                # The book tells what is kept beside the plan: not how the beam was measured.
                after = results["improve"].after
                found = find_record(folder / "plan.toml", after)
                reports = (found_report(found, name=after.name),)
            said = (text for report in reports for text in said_of(name, report, reader))
            wanted[name, reader] = {mark for text in said for mark in marks_of(text)}
    return {"readers": readers, "wanted": wanted}


def test_every_reader_is_asked(told: dict[str, Any]) -> None:
    assert set(told["readers"]) == set(READERS)
    assert {name for name, _ in READERS} == set(told_names := {name for name, _ in told["wanted"]})
    assert len(told_names) == len(SUBJECTS)


@pytest.mark.parametrize(("name", "reader"), READERS)
def test_labels_and_units_are_written_once(told: dict[str, Any], name: str, reader: str) -> None:
    wanted, shown = told["wanted"][name, reader], told["readers"][name, reader]
    assert wanted or (name, reader) in WITHOUT_LABELS
    assert not sorted(mark for mark in wanted if mark not in shown)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_plain_data_stays_in_si(told: dict[str, Any], results: dict[str, Any], name: str) -> None:
    marked_text = told["readers"][name, "JSON"]
    assert re.sub(f"{MARK}[^ ·]*·|{MARK}", "", marked_text) == flat(DOCUMENTS[name](results[name]))


def exceeded(name: str, result: Any) -> Any:
    """The same result, one of its checks exceeded."""
    if name == "structure":
        line, *others = result.report.ledger
        ledger = (replace(line, verdict="exceeded"), *others)
        return replace(result, report=replace(result.report, ledger=ledger))
    if name == "permits":
        one, *others = result.sheet.findings
        findings = (replace(one, verdict="exceeded"), *others)
        return replace(result, sheet=replace(result.sheet, findings=findings))
    if name == "cost":
        return replace(result, estimate=replace(result.estimate, budget_verdict="over"))
    beam, *others = result.lifts
    one, *more = beam.lift.findings
    findings = (replace(one, verdict="exceeded"), *more)
    return replace(
        result, lifts=(replace(beam, lift=replace(beam.lift, findings=findings)), *others)
    )


@pytest.mark.parametrize("name", JUDGED)
def test_a_verdict_is_given_once(
    results: dict[str, Any], name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Terminal and page ask the report, book and plain data the verdict of the plan."""
    given = {each: results[each] for each in JUDGED}
    if name == "cost":
        within = replace(given["cost"].estimate, budget_verdict="within", unpriced=(), unsaid=())
        given["cost"] = replace(given["cost"], estimate=within)
    before = set(report_on(given[name]).verdict.findings)
    given[name] = exceeded(name, given[name])
    made = report_on(given[name], system="metric")
    (passed,) = set(made.verdict.findings) - before
    told = write(passed.name, system="metric")
    report = given["structure"].report
    monkeypatch.setattr("boomwright.study.verdict.check_structure", lambda **_: report)
    verdict = judge_plan(
        results["structure"].plan, permits=given["permits"], costing=given["cost"],
        raising=given["raising"],
    )  # fmt: skip
    shown = lay_out(made.reports[0], canvas=CANVAS)
    readers = {
        "terminal": made.text().partition("\n\n")[0],
        "page": flat(opening(shown.findings, steps=shown.steps).exceeded),
        "book": flat(_verdict_entry(verdict, system="metric")["exceeded"]),
        "JSON": flat([one["name"] for one in verdict_document(verdict)["worst"]
                      if one["verdict"] == "exceeded"]),
    }  # fmt: skip
    for reader, text in readers.items():
        assert " ".join(told.split()) in " ".join(text.split()), reader
    assert made.text().startswith(f"Verdict: {'over budget' if name == 'cost' else 'exceeded'}")


def test_what_is_not_judged_here_gives_no_verdict(results: dict[str, Any]) -> None:
    for name, result in results.items():
        assert name in JUDGED or report_on(result).verdict is None
