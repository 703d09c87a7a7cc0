"""A report laid out in text and SVG for one reader: units, colours and width are chosen here."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import written_notices
from boomwright.base.quantity import places_in, sheet_in
from boomwright.charts import (
    ReadingTable,
    ShownPicture,
    ShownStep,
    ShownSubject,
    ShownTable,
)
from boomwright.render.rows import text_table, without_empty
from boomwright.report.model import Canvas, Picture, Report, Table

#: tables already written, by their columns and items
Kept = dict[tuple[int, int], ReadingTable]


def lay_out(report: Report, *, canvas: Canvas) -> ShownSubject:
    """Lay a report out for the page or the book."""
    kept: Kept = {}
    return ShownSubject(
        title=report.title,
        about=report.subject,
        facts=tuple((canvas.write(fact.label), canvas.write(fact.value)) for fact in report.answer),
        pictures=tuple(_picture(each, canvas, kept) for each in report.pictures),
        tables=tuple(_table(each, canvas, kept) for each in report.tables),
        notices=written_notices(
            report.further_notices, system=canvas.system, cite=canvas.cite, forms=canvas.forms
        ),
        changes=tuple(
            replace(
                each,
                label=canvas.write(each.label),
                text=canvas.write(each.text),
                gain=canvas.write(each.gain),
            )
            for each in report.changes
        ),
        offers=tuple(
            replace(each, text=canvas.write(each.text), value=canvas.write(each.value))
            for each in report.offers
        ),
        findings=report.findings,
        steps=steps_of(report, canvas=canvas),
    )


def steps_of(report: Report, *, canvas: Canvas) -> tuple[ShownStep, ...]:
    """Write what to do next."""
    return tuple(
        ShownStep(text=canvas.write(step), places=places_in(step), sheet=sheet_in(step))
        for step in report.steps
    )


def _picture(picture: Picture, canvas: Canvas, kept: Kept) -> ShownPicture:
    return ShownPicture(
        name=picture.name,
        words=picture.title,
        svg=picture.draw(canvas),
        caption=canvas.write(picture.caption),
        behind=_behind(picture, canvas, kept),
        units=canvas.width,
        group=picture.group,
    )


def _behind(picture: Picture, canvas: Canvas, kept: Kept) -> ShownTable:
    if isinstance(picture.behind, Table):
        return _table(picture.behind, canvas, kept)
    rows = picture.behind(canvas.system)
    return ShownTable(name=picture.name, caption=picture.title, table=rows)


def _table(table: Table[object], canvas: Canvas, kept: Kept) -> ShownTable:
    # Several pictures may stand on the same numbers.
    same = (id(table.columns), id(table.items))
    if same not in kept:
        # A column that plain data does not have may be one to fill in on paper.
        by_hand = {number for number, each in enumerate(table.columns) if not each.key}
        written = text_table(table, system=canvas.system, cite=canvas.cite, forms=canvas.forms)
        kept[same] = without_empty(written, kept=by_hand)
    return ShownTable(
        name=table.name,
        caption=canvas.write(table.caption),
        table=kept[same],
        note=canvas.write(table.around),
        group=table.group,
        folded=table.folded,
    )
