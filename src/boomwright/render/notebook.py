"""A report as HTML that stands by itself: in a notebook, or wherever a page shows a fragment."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from boomwright.base import Notice, PlanVerdict, UnitSystem, verdict_text, written_notices
from boomwright.charts import ShownPicture, ShownTable
from boomwright.charts.palette import LIGHT
from boomwright.render.laid import lay_out
from boomwright.report.model import Canvas, Report


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
