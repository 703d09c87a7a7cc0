"""Will it stand, and what must it carry: margins, elements and booms, support, reminders."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from boomwright.base import Notice, PlanError
from boomwright.base.quantity import phrase
from boomwright.report.model import Fact, Report, Table, fact
from boomwright.report.site import wind_told
from boomwright.report.structure.beams import beam_pictures, beam_tables
from boomwright.report.structure.cases import load_cases
from boomwright.report.structure.ledger import (
    answer,
    changes,
    fixes,
    ledger,
    ledger_pictures,
    offers,
)
from boomwright.report.structure.loads import loads
from boomwright.report.structure.support import reminders, support_pictures
from boomwright.study.structure import StructureCheck


def structure_report(
    found: StructureCheck, *, number: int | None = None, most_rows: int | None = None
) -> Report:
    """Say what stands against its limit, what was not checked, and what must be carried.

    Args:
        number: number of the beam looked at, from 0; None tells them all
        most_rows: most lines of the ledger in one picture; None for all
    """
    report, wind = found.report, wind_told(found.plan.site)
    wanted = found.plan.beams if number is None else (found.plan.beams[number],)
    known = {beam.name: beam for beam in report.beams}
    beams = [
        (place, known[beam.name], beam)
        for place, beam in enumerate(wanted, start=1)
        if beam.name in known
    ]
    cases = load_cases(
        (line.basis for line in report.ledger), wind=report.basis, below=report.below
    )
    margins = ledger(report.ledger, cases=cases)
    tables: list[Table[Any]] = [margins, fixes(found.fixes)]
    tables += [table for _, beam, _ in beams for table in beam_tables(beam, report=report)]
    tables += [loads(report, cases=cases), cases.table(), reminders(report.reminders)]
    return Report(
        subject="structure",
        title="Structure",
        answer=answer(report, wind=wind),
        pictures=(
            *ledger_pictures(report, wind=report.basis, table=margins, most_rows=most_rows),
            *(
                picture
                for place, beam, drawn in beams
                for picture in beam_pictures(beam, drawn, report=report, place=place)
            ),
            *support_pictures(report),
        ),
        tables=tuple(table for table in tables if table.items),
        brief=(replace(margins, caption="Closest to their limits", basis=None),),
        changes=changes(found.fixes),
        offers=offers(found.part_fixes),
        findings=tuple(line.finding for line in report.ledger),
        notices=found.all_notices,
    )


def refused_report(subject: str, error: PlanError) -> Report:
    """Say that a plan contradicts itself, so that nothing of a subject was checked."""
    return Report(
        subject=subject,
        title=subject.capitalize(),
        answer=(fact("Not checked", "the plan contradicts itself; see the notices"),),
        notices=tuple(
            Notice(
                code=f"{subject}.refused",
                text=phrase("{message}; {remedy}", message=fault.message, remedy=fault.remedy),
                severity="doubt",
                value=fault.path,
            )
            for fault in error.faults
        ),
    )
