"""What stands below the beams: moment along its height, guys, and what a builder must remember."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright import charts
from boomwright.base.quantity import (
    Quantity,
    Value,
    cited,
    factor_of,
    listed,
    phrase,
    unit_of,
    write,
)
from boomwright.report.model import Canvas, Picture, Table, column, drawing
from boomwright.structure import GuyReport, Reminder, ReminderList, StructureReport, SupportCourse


def support_pictures(report: StructureReport) -> list[Picture]:
    """Draw the moment along the support and the tension of the guys."""
    pictures = _along_height(report)
    if report.guys is not None:
        pictures.append(_guys(report, report.guys))
    if report.iced is not None and report.iced.guys is not None:
        pictures.append(_guys(report, report.iced.guys, iced=True))
    return pictures


def _along_height(report: StructureReport) -> list[Picture]:
    """Bending moment along a guyed or bracketed tower, or a support tube."""
    cases = (("bare", report), ("iced", report.iced))
    found = [(name, each) for name, each in cases if each is not None]
    courses = [
        (name, each.tower_course or (None if each.tube is None else each.tube.course))
        for name, each in found
    ]
    known = [(name, course) for name, course in courses if course is not None]
    if not known:
        return []
    title = "Bending moment along the support"
    most = listed(
        [phrase("{} {:large moment}", name, float(np.max(course.moment))) for name, course in known]
    )

    def draw(canvas: Canvas) -> str:
        system = canvas.system
        moments, metres = (factor_of(kind, system=system) for kind in ("large moment", "height"))
        return charts.line_chart(
            kind="support-moment",
            title=title,
            description=write(phrase("Largest moment: {most}.", most=most), system=system),
            x=metres * known[0][1].heights,
            curves=[(name, moments * course.moment) for name, course in known],
            x_label=f"height, {unit_of('height', system=system)}",
            y_label=f"moment, {unit_of('large moment', system=system)}",
            palette=canvas.palette,
            width=canvas.width,
        )

    return [
        Picture(
            name="support",
            title=title,
            draw=draw,
            caption="Largest over all wind directions, grown by the weight it bears.",
            behind=_courses(known, title),
            group="support",
        )
    ]


def _courses(known: list[tuple[str, SupportCourse]], title: str) -> Table[Any]:
    """What a support carries at every height."""
    rows = [(name, course, at) for name, course in known for at in range(len(course.heights))]
    return Table(
        name="support",
        caption=title,
        columns=(
            column("case", lambda row: row[0]),
            column("height", lambda row: Quantity(row[1].heights[row[2]], "span")),
            column("moment", lambda row: row[1].moment[row[2]], kind="large moment"),
            column("shear", lambda row: row[1].shear[row[2]], kind="large force"),
            column("pressed down", lambda row: row[1].compression[row[2]], kind="large force"),
        ),
        items=rows,
    )


def _guys(report: StructureReport, guys: GuyReport, *, iced: bool = False) -> Picture:
    """Guy tension over all wind directions."""
    levels, name = report.inputs.guying, "guys-iced" if iced else "guys"
    title = "Guy tension against wind direction" + (", iced" if iced else "")
    wind = "the gust that comes with ice" if iced else "wind with no load factor"

    def ring(number: int) -> Any:
        return column(
            phrase("at {height:height}", height=levels[number].height),
            lambda state: max(state.tensions[number]),
            kind="large force",
        )

    return Picture(
        name=name,
        title=title,
        draw=drawing(charts.guy_chart, guys=guys, levels=levels, ledger=report.ledger, title=title),
        caption=f"Highest tension of each ring, {wind}; guys hang as cables and only pull.",
        behind=Table(
            name=name,
            caption=title,
            columns=(
                column("wind towards", lambda state: state.wind_deg, kind="whole angle"),
                *(ring(number) for number in range(len(levels))),
                column("slack guys", lambda state: state.slack),
            ),
            items=guys.states,
        ),
        group="support",
    )


def reminders(lists: Sequence[ReminderList]) -> Table[tuple[ReminderList, Reminder]]:
    """List reminders subject by subject; one that is no common practice says how it is known."""
    return Table(
        name="reminders",
        caption="To do or look for",
        columns=(column("common practice where nothing else is said", _reminded),),
        items=tuple((each, item) for each in lists for item in each.items),
        under=lambda row: row[0].title,
        group="reminders",
        sentences=True,
    )


def _reminded(row: tuple[ReminderList, Reminder]) -> Value:
    said = row[1]
    if said.known == "common practice":
        return said.text
    known = cited(said.known, said.source) if said.source else said.known
    return phrase("{text} ({known})", text=said.text, known=known)
