"""What the live page may ask about cost, build and raising of the plan on the desk."""

from __future__ import annotations

import io
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.plan import Plan
from boomwright.session.files import ClosedFolder, text_digest
from boomwright.solver import Preparer
from boomwright.study.computing import compute
from boomwright.study.cost import price_plan
from boomwright.study.raising import raise_plan
from boomwright.study.verdict import build_stamp

if TYPE_CHECKING:
    from boomwright.charts import Palette
    from boomwright.charts.blocks import WorkSheet
    from boomwright.reach import BeamReadings

#: few points suffice to find the best SWR of a band
_POINTS = 5


class WorkDesk:
    """Work sheets for the desk; a part of ``DeskTools``."""

    _prepare: Preparer
    _path: Path

    def work(
        self, plan: Plan, *, subject: str, number: int, system: UnitSystem, palette: Palette
    ) -> WorkSheet:
        """Make a work sheet.

        Parameters
        ----------
        subject
            ``cost``, ``build`` or ``raising``
        number
            number of the beam looked at, from 0
        system
            units shown first

        Raises
        ------
        BoomwrightError
            when the price list has faults or values of the plan contradict each other
        """
        from boomwright.charts.blocks import Heading, WorkSheet, stamped_sheet
        from boomwright.report.work import chapters as sheets

        if subject == "cost":
            return sheets.cost_sheet(price_plan(plan, folder=ClosedFolder(self._path.parent)))
        if subject == "build":
            report = raise_plan(plan).structure
            stamp = build_stamp(plan, system=system, structure=report)
            build = sheets.build_sheet(plan, report, number=number, palette=palette, system=system)
            support = sheets.support_sheet(plan, palette=palette, system=system)
            if support is not None:
                headed = (Heading(text=support.title), *support.blocks)
                build = replace(build, blocks=(*build.blocks, *headed))
            return stamped_sheet(build, stamp)
        readings: tuple[BeamReadings, ...] = ()
        if plan.raising is not None:
            readings = compute(plan, points=_POINTS, prepare=self._prepare).beams
        result = raise_plan(plan, readings=readings)
        lift = sheets.raising_sheet(result, number=number, palette=palette, system=system)
        after = sheets.upkeep_sheet(result)
        both = WorkSheet(
            title=lift.title, blocks=(*lift.blocks, *after.blocks), notices=lift.notices
        )
        return stamped_sheet(both, build_stamp(plan, system=system, structure=result.structure))

    def work_files(self, plan: Plan) -> bytes:
        """Put all workshop drawings, the beam in 3D and the calendar into one archive.

        Returns
        -------
        bytes
            a ZIP file; the same plan on the same day gives the same bytes

        Raises
        ------
        BoomwrightError
            when values of the plan contradict each other
        """
        from boomwright.session.drawings import file_stem
        from boomwright.session.work_files import calendar_bytes, work_drawings

        result = raise_plan(plan)
        packed = io.BytesIO()
        with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:

            def put(name: str, data: bytes) -> None:
                # A fixed time keeps the archive the same from one making to the next.
                archive.writestr(zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0)), data)

            for number, beam in enumerate(plan.beams):
                stem = file_stem(beam, number=number + 1)
                drawn = work_drawings(result, number=number, system="metric")
                for name, data in drawn.items():
                    put(f"{stem}-{name}", data)
            calendar = calendar_bytes(result, digest=text_digest(plan.title), system="metric")
            put("reminders.ics", calendar)
        return packed.getvalue()
