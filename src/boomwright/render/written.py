"""The report of any result, which shows itself: HTML in a notebook, text at a prompt."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from html import escape
from io import StringIO
from typing import Any, Final

from boomwright.base import (
    BoomwrightError,
    Notice,
    PlanVerdict,
    UnitSystem,
    plan_verdict,
    verdict_text,
    written_notices,
)
from boomwright.base.records import dataclass
from boomwright.charts import ShownPicture, ShownTable
from boomwright.charts.palette import LIGHT
from boomwright.plan import Plan, written_system
from boomwright.render.laid import lay_out
from boomwright.render.terminal.lines import make_console
from boomwright.render.terminal.subject import write_subject
from boomwright.report.advice import advice_report
from boomwright.report.beam.computed import computed_reports
from boomwright.report.cost import cost_report
from boomwright.report.feed import feed_report
from boomwright.report.improve import bands_report, improve_report, trade_off_report
from boomwright.report.model import Canvas, Report, Table
from boomwright.report.permits import permits_report
from boomwright.report.raising import raising_report
from boomwright.report.reach import reach_report
from boomwright.report.structure import structure_report
from boomwright.report.tuning import tuning_report
from boomwright.study.advice.advise import Advice
from boomwright.study.computing import Computation
from boomwright.study.cost import Costing
from boomwright.study.feed_parts.results import FeedResult
from boomwright.study.frontier import TradeOff
from boomwright.study.improve import ImproveResult
from boomwright.study.permits import PermitCheck
from boomwright.study.raising import RaisingResult
from boomwright.study.reach_parts.results import ReachResult
from boomwright.study.several_bands import BandsResult
from boomwright.study.structure import StructureCheck
from boomwright.study.tuning_parts.results import TuneResult


def report_html(
    reports: Iterable[Report],
    *,
    system: UnitSystem,
    verdict: PlanVerdict | None,
    notices: Iterable[Notice],
) -> str:
    """Write reports one below the other: verdict, answers, pictures with their numbers, tables."""
    said = "" if verdict is None else f"<p><strong>{escape(verdict_text(verdict))}</strong></p>"
    inside = "".join(_report(report, system) for report in reports)
    items = "".join(
        f"<li><strong>{escape(notice.severity)}</strong>: {escape(_held(notice))}</li>"
        for notice in written_notices(notices, system=system)
    )
    return f"<section>{said}{inside}{f'<ul>{items}</ul>' if items else ''}</section>"


def _held(notice: Notice) -> str:
    held = f"{notice.value} against {notice.limit}" if notice.limit else notice.value
    return f"{notice.text} ({held})" if held else f"{notice.text}"


def _report(report: Report, system: UnitSystem) -> str:
    shown = lay_out(report, canvas=Canvas(palette=LIGHT, system=system))
    facts = "".join(
        f'<tr><th scope="row">{escape(label)}</th><td>{escape(value)}</td></tr>'
        for label, value in shown.facts
    )
    return "".join(
        (
            f"<h3>{escape(shown.title)}</h3>",
            f"<table><tbody>{facts}</tbody></table>" if facts else "",
            *(_picture(picture) for picture in shown.pictures),
            *(_table(table) for table in shown.tables),
        )
    )


def _picture(picture: ShownPicture) -> str:
    """The SVG is ours and escapes what it holds; the numbers behind it open on demand."""
    caption = picture.caption or picture.words
    behind = f"<details><summary>Numbers</summary>{_table(picture.behind)}</details>"
    return f"<figure>{picture.svg}<figcaption>{escape(caption)}</figcaption>{behind}</figure>"


def _table(shown: ShownTable) -> str:
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in shown.table.header)
    body = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>"
        for row in shown.table.rows
    )
    note = f"<p>{escape(shown.note)}</p>" if shown.note else ""
    return (
        f"<table><caption>{escape(shown.caption)}</caption><thead><tr>{head}</tr></thead>"
        f"<tbody>{body}</tbody></table>{note}"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenReport:
    """The reports of one result, in the units of their reader."""

    reports: tuple[Report, ...]  #: one a beam where the subject is told by beams (n_reports,)
    system: UnitSystem  #: units they are written in
    own_notices: tuple[Notice, ...] = ()  #: what is doubtful in the plan itself

    @property
    def notices(self) -> tuple[Notice, ...]:
        """Doubts, cautions and exceeded limits, each once."""
        told = (notice for report in self.reports for notice in report.further_notices)
        return tuple(dict.fromkeys((*self.own_notices, *told)))

    @property
    def verdict(self) -> PlanVerdict | None:
        """What the checks come to; None where nothing is checked."""
        found = dict.fromkeys(one for report in self.reports for one in report.findings)
        return plan_verdict(found) if found else None

    def table(self, name: str) -> Table[Any]:
        """The first table of that name."""
        tables = [table for report in self.reports for table in report.tables]
        found = next((table for table in tables if table.name == name), None)
        if found is None:
            names = ", ".join(dict.fromkeys(table.name for table in tables))
            raise BoomwrightError(f"the report has no table {name}", remedy=f"take one of {names}")
        return found

    def text(self, *, quick: bool = False) -> str:
        """Write it as lines of a terminal.

        Args:
            quick: whether to leave out what only the full account shows
        """
        out = StringIO()
        write_subject(
            make_console(out), "", self.reports, notices=self.notices, system=self.system,
            verdict=self.verdict, full=not quick,
        )  # fmt: skip
        return "\n".join(line.rstrip() for line in out.getvalue().splitlines()).rstrip()

    def __str__(self) -> str:
        """Write the full account."""
        return self.text()

    def __repr__(self) -> str:
        """Give a quick look, as a prompt shows it."""
        return self.text(quick=True)

    def _repr_html_(self) -> str:
        """Write the full account with its pictures, as a notebook shows it."""
        return report_html(
            self.reports, system=self.system, verdict=self.verdict, notices=self.notices
        )


def _each_beam(report: Callable[..., Report], beams: str) -> Callable[[Any], tuple[Report, ...]]:
    """Tell a result beam by beam; ``beams`` names the field that holds them."""
    return lambda result: tuple(
        report(result, number=number) for number in range(len(getattr(result, beams)))
    )


def _once(report: Callable[[Any], Report]) -> Callable[[Any], tuple[Report, ...]]:
    return lambda result: (report(result),)


#: every kind of result with what tells it; a new subject needs a line here
SUBJECTS: Final[dict[type, Callable[[Any], tuple[Report, ...]]]] = {
    Computation: computed_reports,
    ImproveResult: _once(improve_report),
    BandsResult: _once(bands_report),
    TradeOff: _once(trade_off_report),
    FeedResult: _each_beam(feed_report, "beams"),
    ReachResult: _each_beam(reach_report, "beams"),
    StructureCheck: _once(structure_report),
    PermitCheck: _once(permits_report),
    Costing: _once(cost_report),
    RaisingResult: _each_beam(raising_report, "lifts"),
    TuneResult: _once(tuning_report),
    Advice: _once(advice_report),
}


def report_on(result: Any, *, system: UnitSystem | None = None) -> WrittenReport:
    """Say everything there is to say of a result.

    Args:
        system: ``metric`` or ``us``; None for the units that its plan is written in

    Raises:
        BoomwrightError: when it is no result of a verb
    """
    tell = SUBJECTS.get(type(result))
    if tell is None:
        known = ", ".join(kind.__name__ for kind in SUBJECTS)
        raise BoomwrightError(
            f"there is no report on a {type(result).__name__}", remedy=f"give a result: {known}"
        )
    plan: Plan | None = getattr(result, "plan", None)
    usual: UnitSystem = "metric"
    if plan is not None and plan.file is not None:
        usual = written_system(plan.file.text)
    return WrittenReport(
        reports=tell(result),
        system=system or usual,
        own_notices=tuple(getattr(result, "notices", ())),
    )
