"""What the structure shows of one beam and of the whole station, for page and book."""

from __future__ import annotations

from math import ceil

import numpy as np

from boomwright import charts
from boomwright.base import UnitSystem, in_system, use_text
from boomwright.charts import (
    Palette,
    ReadingTable,
    ShownChange,
    ShownPicture,
    ShownSubject,
    ShownTable,
)
from boomwright.parts import Beam
from boomwright.report.structure.loads import area_table, course_table, load_table
from boomwright.report.structure.tables import (
    basis_table,
    element_table,
    fix_table,
    reminder_table,
    vibration_table,
)
from boomwright.report.structure.texts import electrical_text, stress_change, weight_change
from boomwright.structure import BeamReport, GuyReport, StructureReport
from boomwright.study.element_fixes import FixOffer
from boomwright.study.structure import StructureCheck

#: lines of the ledger that fit on a page of paper
LINES_ON_PAPER = 19


def show_structure(
    found: StructureCheck,
    *,
    number: int | None,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = 520.0,
    most_rows: int | None = None,
) -> ShownSubject:
    """Draw everything found about a structure.

    Parameters
    ----------
    number
        number of the beam looked at; None shows them all
    width
        width of the pictures [user units]
    most_rows
        most lines of the ledger in one picture; None for all
    """
    report = found.report
    draw = _Drawing(report=report, palette=palette, system=system, width=width)
    pictures, tables = draw.ledger(most_rows), [basis_table(report, system=system)]
    if found.fixes:
        tables.append(fix_table(found.fixes, system=system))
    wanted = found.plan.beams if number is None else (found.plan.beams[number],)
    reports = {beam.name: beam for beam in report.beams}
    for place, beam in enumerate(wanted, start=1):
        known = reports.get(beam.name)
        if known is None:
            continue
        pictures += draw.beam(known, beam, place)
        tables.append(area_table(known, system=system))
        if known.elements:
            tables += [
                element_table(known, iced=draw.iced, system=system),
                vibration_table(known, system=system),
            ]
    pictures += draw.along_height()
    if report.guys is not None:
        pictures.append(draw.guys(report.guys))
    if report.iced is not None and report.iced.guys is not None:
        pictures.append(draw.guys(report.iced.guys, iced=True))
    loads = load_table(report, system=system)
    if loads.table.rows:
        tables.append(loads)
    tables += [reminder_table(reminders) for reminders in report.reminders]
    return ShownSubject(
        title="Structure",
        facts=_facts(found),
        pictures=tuple(pictures),
        tables=tuple(tables),
        notices=found.all_notices,
        changes=tuple(_change(fix, system=system) for fix in found.fixes),
    )


def _change(fix: FixOffer, *, system: UnitSystem) -> ShownChange:
    gain = (
        f"{stress_change(fix, system=system)}, {weight_change(fix, system=system)}; electrical "
        f"length: {electrical_text(fix, system=system)}"
    )
    return ShownChange(
        beam=fix.beam,
        element=fix.element,
        number=fix.number,
        label=fix.label,
        text=fix.text,
        gain=gain,
    )


def _facts(found: StructureCheck) -> tuple[tuple[str, str], ...]:
    ledger = found.report.ledger
    counts = dict.fromkeys(("exceeded", "not checked", "within"), 0)
    for line in ledger:
        counts[line.verdict] += 1
    facts = [
        ("Exceeded", str(counts["exceeded"])),
        ("Not checked", str(counts["not checked"])),
        ("Within", str(counts["within"])),
    ]
    used = [line for line in ledger if line.use is not None]
    if used:
        worst = max(used, key=lambda line: line.use or 0.0)
        label = "Furthest over its limit" if (worst.use or 0.0) > 1.0 else "Closest to its limit"
        facts.append((label, f"{use_text(worst.use or 0.0)}, {worst.name}"))
    return (*facts, ("Wind", found.report.basis))


class _Drawing:
    """Draws with one palette, one unit system and one width."""

    def __init__(
        self, *, report: StructureReport, palette: Palette, system: UnitSystem, width: float
    ) -> None:
        self.report, self.palette, self.system, self.width = report, palette, system, width
        ice = report.inputs.ice
        self.iced = ice is not None and ice.thickness > 0.0

    def _shown(
        self, name: str, words: str, svg: str, *, caption: str, table: ReadingTable
    ) -> ShownPicture:
        return ShownPicture(
            name=name,
            words=words,
            svg=svg,
            caption=caption,
            behind=ShownTable(name=f"{name}-numbers", caption=words, table=table),
            units=self.width,
        )

    def ledger(self, most_rows: int | None) -> list[ShownPicture]:
        """Margins as bars, in several pictures where one would be too long."""
        count = max(len(self.report.ledger), 1)
        parts = ceil(count / (most_rows or count))
        step = ceil(count / parts)
        starts = range(0, count, step)
        made = []
        for part, first in enumerate(starts, start=1):
            svg = charts.ledger_chart(
                report=self.report, palette=self.palette, system=self.system,
                width=self.width, first=first, most_rows=step,
            )  # fmt: skip
            of = f", part {part} of {len(starts)}" if len(starts) > 1 else ""
            made.append(
                self._shown(
                    "ledger" if part == 1 else f"ledger-{part}",
                    f"Margins, worst first{of}",
                    svg,
                    caption="Each check's use of its limit, past it hatched.",
                    table=charts.ledger_table(self.report, system=self.system),
                )
            )
        return made

    def beam(self, report: BeamReport, beam: Beam, place: int) -> list[ShownPicture]:
        """Wind area, boom, and the weakest element."""
        made = [
            self._shown(
                f"wind-{place}",
                f"{report.name}: wind area from every side",
                charts.wind_polar(
                    beam=report, palette=self.palette, system=self.system, width=self.width
                ),
                caption="Drag area by the parts square to the wind, and by the older sum rule.",
                table=charts.wind_table(report, system=self.system),
            )
        ]
        if report.elements:
            made = [*self._element(report, place), *made]
        if report.course is not None:
            made.append(
                self._shown(
                    f"boom-{place}",
                    f"{report.name}: boom, moments and sag",
                    charts.boom_chart(
                        report=report, beam=beam, palette=self.palette, system=self.system,
                        width=self.width,
                    ),
                    caption="Moments of the weights and of wind across the boom; sag below.",
                    table=charts.boom_table(report, system=self.system),
                )
            )  # fmt: skip
        return made

    def _element(self, report: BeamReport, place: int) -> list[ShownPicture]:
        weakest = max(
            report.elements,
            key=lambda each: max(
                each.strength.worst_bare.bare_stress, each.strength.worst_iced.iced_stress
            ),
        )
        table = charts.element_strength_table(weakest, system=self.system)
        stress = charts.element_stress_chart(
            element=weakest, iced=self.iced, windy=self.report.inputs.wind is not None,
            palette=self.palette, system=self.system, width=self.width,
        )  # fmt: skip
        droop = charts.droop_chart(
            element=weakest, iced=self.iced, palette=self.palette, system=self.system,
            width=self.width,
        )  # fmt: skip
        return [
            self._shown(
                f"stress-{place}",
                f"{weakest.label}: stress along one half",
                stress,
                caption="The most stressed element of this beam; each step starts a thinner tube.",
                table=table,
            ),
            self._shown(
                f"droop-{place}",
                f"{weakest.label}: droop in still air",
                droop,
                caption="The shape one half takes under its own weight, and under ice.",
                table=table,
            ),
        ]

    def along_height(self) -> list[ShownPicture]:
        """Bending moment along a guyed or bracketed tower, or a support tube."""
        cases = (("bare", self.report), ("iced", self.report.iced))
        found = [(name, each) for name, each in cases if each is not None]
        courses = [
            (name, each.tower_course or (None if each.tube is None else each.tube.course))
            for name, each in found
        ]
        known = [(name, course) for name, course in courses if course is not None]
        if not known:
            return []
        moments, unit = in_system(1e-3, unit="kN m", system=self.system)
        foot, metres = in_system(1.0, unit="m", system=self.system)
        words = "Bending moment along the support"
        form = ".2f" if self.system == "metric" else ".0f"
        told = ", ".join(
            f"{name} {moments * float(np.max(course.moment)):{form}} {unit}"
            for name, course in known
        )
        svg = charts.line_chart(
            kind="support-moment", title=words, description=f"Largest moment: {told}.",
            x=foot * known[0][1].heights,
            curves=[(name, moments * course.moment) for name, course in known],
            x_label=f"height, {metres}", y_label=f"moment, {unit}", palette=self.palette,
            width=self.width,
        )  # fmt: skip
        return [
            self._shown(
                "support",
                words,
                svg,
                caption="Largest over all wind directions, grown by the weight it bears.",
                table=course_table(known, system=self.system),
            )
        ]

    def guys(self, guys: GuyReport, *, iced: bool = False) -> ShownPicture:
        """Guy tension over all wind directions."""
        report, name = self.report, "guys-iced" if iced else "guys"
        title = "Guy tension against wind direction" + (", iced" if iced else "")
        svg = charts.guy_chart(
            guys=guys, levels=report.inputs.guying, ledger=report.ledger, title=title,
            palette=self.palette, system=self.system, width=self.width,
        )  # fmt: skip
        wind = "the gust that comes with ice" if iced else "wind with no load factor"
        return self._shown(
            name,
            title,
            svg,
            caption=f"Highest tension of each ring, {wind}; guys hang as cables and only pull.",
            table=charts.guy_table(guys, report.inputs.guying, system=self.system),
        )
