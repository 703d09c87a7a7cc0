"""Work sheets into files: chapters for the book, drawings, the beam in 3D, the calendar."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from boomwright.base import Notice, UnitSystem
from boomwright.base.files import ReadFile
from boomwright.base.quantity import Citing, uncited
from boomwright.base.records import dataclass, replace
from boomwright.plan import Plan
from boomwright.render.work_sheets import build_of, reminders_of, station_summary, work_chapters
from boomwright.session.files import day_of_today, save_bytes
from boomwright.study.computing import Computation
from boomwright.study.cost import newest_price_day, price_plan
from boomwright.study.declination import middle_of_model
from boomwright.study.raising import RaisingResult, raise_plan
from boomwright.study.verdict import build_stamp

if TYPE_CHECKING:
    from boomwright.report.chapter import Chapter


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkPages:
    """What the workshop gives the book."""

    chapters: tuple[Chapter, ...] = ()  #: work sheets, appendix and pocket sheets (n_chapters,)
    summary: tuple[tuple[str, str], ...] = ()  #: figures of the whole station (n_facts, 2)


NO_WORK: Final = WorkPages()


def work_for_book(
    computation: Computation,
    *,
    files: ReadFile,
    system: UnitSystem,
    today: str = "",
    cite: Citing = uncited,
) -> WorkPages:
    """Make the chapters of work sheets, and the figures of the first page.

    Args:
        today: day of prices and declination; when empty the plan's, else that of the newest price

    Raises:
        PlanError: with every fault of the price list
    """
    from boomwright.charts.palette import PRINT_PALETTE

    plan = computation.plan
    issued = today or plan.dated
    # No clock: the same plan and version make the same book, whenever it is made.
    day = issued or newest_price_day(plan, files=files) or middle_of_model()
    costing = price_plan(plan, files=files, today=day)
    raising = raise_plan(plan, measured=computation.as_measured, today=day)
    summary = station_summary(costing, raising, system=system)
    chapters = work_chapters(costing, raising, palette=PRINT_PALETTE, system=system, cite=cite)
    if not issued:
        first, *others = chapters
        chapters = (replace(first, notices=(*first.notices, _undated(day))), *others)
    return WorkPages(chapters=chapters, summary=summary)


def _undated(day: str) -> Notice:
    return Notice(
        code="book.undated",
        text="Neither the plan nor the command gives a day of issue: it is left to be written by "
        f"hand, and ages of prices and the declination are counted to {day}. Write dated = "
        '"2026-01-31" below the title of the plan to have a day printed.',
    )


def calendar_bytes(result: RaisingResult, *, digest: str, system: UnitSystem) -> bytes:
    """Make the calendar of what follows the lift."""
    from boomwright.export.upkeep_calendar import upkeep_calendar

    return upkeep_calendar(
        title=result.plan.title,
        reminders=reminders_of(result),
        made=result.today,
        digest=digest,
        stamp=build_stamp(result.plan, system=system),
    )


def work_drawings(result: RaisingResult, *, number: int, system: UnitSystem) -> dict[str, bytes]:
    """Draw everything the workshop needs of one beam, each drawing as DXF and as SVG."""
    from boomwright.charts.drawing import headed
    from boomwright.charts.drawing_svg import drawing_svg
    from boomwright.export.assembly_gltf import assembly_glb
    from boomwright.export.drawing_dxf import drawing_dxf
    from boomwright.plan.resolve import station_assembly

    plan = result.plan
    build = build_of(plan, number=number, system=system)
    files: dict[str, bytes] = {}
    stamps = (build.stamp, build_stamp(plan, system=system))
    for drawing in (headed(each, title=True, stamps=stamps) for each in build.drawings):
        files[f"{drawing.name}.dxf"] = drawing_dxf(drawing, system=system)
        files[f"{drawing.name}.svg"] = drawing_svg(drawing, width=None).encode()
    assembly = station_assembly(plan, structure=result.structure)
    files["assembly.glb"] = assembly_glb(assembly, beam=plan.beams[number].name)
    return files


def write_work(
    plan: Plan, folder: Path, *, digest: str, system: UnitSystem, today: str = ""
) -> tuple[Path, ...]:
    """Write the drawings of every beam and the calendar.

    Args:
        today: day the reminders count from; when empty the plan's, else the clock's

    Raises:
        OSError: when one cannot be written
    """
    from boomwright.export.assembly_gltf import assembly_glb
    from boomwright.plan.resolve import station_assembly
    from boomwright.session.drawings import file_stem

    result = raise_plan(plan, today=today or plan.dated or day_of_today())
    written = []
    for number, beam in enumerate(plan.beams):
        stem = file_stem(beam, number=number + 1)
        for name, data in work_drawings(result, number=number, system=system).items():
            written.append(folder / f"{stem}-{name}")
            save_bytes(written[-1], data)
    if plan.support is not None:
        whole = station_assembly(plan, structure=result.structure)
        written.append(folder / "station.glb")
        save_bytes(written[-1], assembly_glb(whole))
    written.append(folder / "reminders.ics")
    save_bytes(written[-1], calendar_bytes(result, digest=digest, system=system))
    return tuple(written)
