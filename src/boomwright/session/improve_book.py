"""What searches found of the beams, as chapters of the book."""

from __future__ import annotations

from pathlib import Path

from boomwright.base import UnitSystem
from boomwright.charts import ShownSubject
from boomwright.plan import Plan
from boomwright.session.improve_record import find_record


def found_for_book(
    plan: Plan, *, path: Path | None, system: UnitSystem
) -> tuple[ShownSubject, ...]:
    """Draw what was found of every beam as it stands, in the colours of print.

    Parameters
    ----------
    path
        its file, beside which it is kept; None when there is none
    """
    from boomwright.charts.palette import PRINT_PALETTE
    from boomwright.render.laid import lay_out
    from boomwright.report.improve import improve_report
    from boomwright.report.model import Canvas

    if path is None:
        return ()
    records = ((beam, find_record(path, beam)) for beam in plan.beams)
    canvas = Canvas(palette=PRINT_PALETTE, system=system)
    return tuple(
        lay_out(improve_report(found, name=beam.name), canvas=canvas)
        for beam, found in records
        if found
    )
