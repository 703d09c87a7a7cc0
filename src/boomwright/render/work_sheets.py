"""The work sheets of a plan: cost, build, raising, upkeep, and how their figures were computed.

The page and the book lay out the same blocks.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem, plan_verdict
from boomwright.base.quantity import Citing, on_paper, uncited
from boomwright.charts import Palette
from boomwright.charts.blocks import Block, Facts, Words, WorkSheet
from boomwright.plan import Plan
from boomwright.study.cost import Costing
from boomwright.study.raising import RaisingResult

if TYPE_CHECKING:
    from boomwright.base.quantity import Value
    from boomwright.report.chapter import Chapter
    from boomwright.report.model import Canvas
    from boomwright.report.work.build import Build
    from boomwright.report.work.upkeep import UpkeepReminder

#: width of the pictures of a sheet for the field [user units]
_WIDTH = 560.0


def cost_sheet(result: Costing, *, canvas: Canvas) -> WorkSheet:
    """Write the sheet of quantities and cost."""
    from boomwright.render.field_sheet import sheet_blocks
    from boomwright.render.laid import steps_of
    from boomwright.report.cost import cost_report

    report = cost_report(result)
    return WorkSheet(
        title=report.title,
        blocks=sheet_blocks(report, canvas=canvas),
        notices=report.notices,
        findings=report.findings,
        steps=steps_of(report, canvas=canvas),
    )


def build_of(plan: Plan, *, number: int, system: UnitSystem) -> Build:
    """Work out what the workshop needs for one beam."""
    from boomwright.report.work.build import make_build

    return make_build(plan, plan.beams[number], system=system)


def build_sheet(
    plan: Plan,
    *,
    numbers: Sequence[int],
    palette: Palette,
    system: UnitSystem,
    listed: bool = True,
    forms: bool = False,
) -> WorkSheet:
    """Write the build sheets of some beams, what they share once.

    Args:
        numbers: numbers of the beams, from 0 (n_beams,)
        listed: whether the sheet ends with what nobody gave; the book has that in its annex
    """
    from boomwright.plan.resolve import beam_cutting, station_assembly
    from boomwright.render.field_sheet import part_blocks
    from boomwright.report.build.assumed import taken_parts
    from boomwright.report.model import Canvas
    from boomwright.report.work.build import build_blocks

    builds = [build_of(plan, number=number, system=system) for number in numbers]
    bills = [beam_cutting(plan, build.beam) for build in builds]
    taken = taken_parts(station_assembly(plan).parts) if listed else ()
    parts = build_blocks(
        builds, bills=bills, taken=taken, palette=palette, system=system, forms=forms
    )
    names = " and ".join(build.beam.name for build in builds)
    return WorkSheet(
        title=f"Build sheets of {names}",
        blocks=part_blocks(parts, canvas=Canvas(palette=palette, system=system, forms=forms)),
        notices=tuple(notice for build in builds for notice in build.notices),
    )


def support_sheet(
    result: RaisingResult, *, palette: Palette, system: UnitSystem
) -> WorkSheet | None:
    """Write the sheet of support and its raising, guys, ground; None without any support."""
    from boomwright.render.field_sheet import part_blocks
    from boomwright.report.model import Canvas
    from boomwright.report.work.support import support_parts

    support = result.plan.support
    if support is None:
        return None
    canvas = Canvas(palette=palette, system=system)
    raised = next((each.lift.support for each in result.lifts if each.lift is not None), None)
    told = support_parts(support, raised=raised, declination=result.declination)
    blocks = part_blocks(told, canvas=canvas)
    return WorkSheet(title="Support and ground", blocks=blocks, notices=()) if blocks else None


def raising_sheet(
    result: RaisingResult,
    *,
    number: int,
    palette: Palette,
    system: UnitSystem,
    forms: bool = False,
) -> WorkSheet:
    """Write the raising sheet of one beam."""
    from boomwright.render.field_sheet import sheet_blocks
    from boomwright.render.laid import steps_of
    from boomwright.report.model import Canvas
    from boomwright.report.raising import raising_report

    report = raising_report(result, number=number)
    canvas = Canvas(palette=palette, system=system, width=_WIDTH, forms=forms)
    return WorkSheet(
        title=report.title,
        blocks=sheet_blocks(report, canvas=canvas),
        notices=report.notices,
        findings=report.findings,
        steps=steps_of(report, canvas=canvas),
    )


def reminders_of(result: RaisingResult) -> tuple[UpkeepReminder, ...]:
    """List what is looked at again after the lift."""
    from boomwright.report.work.upkeep import upkeep_reminders

    plan = result.plan
    support, raising = plan.support, plan.raising
    return upkeep_reminders(
        today=result.today,
        guyed=support is not None and bool(support.guy),
        climbed=raising is not None and raising.trained_climbers > 0,
        turned=any(not (beam.hung or beam.upright) for beam in plan.beams),
        hung=all(beam.hung for beam in plan.beams),
    )


def upkeep_sheet(result: RaisingResult) -> WorkSheet:
    """Write the sheets for after the lift."""
    from boomwright.report.work.upkeep import upkeep_blocks

    blocks = upkeep_blocks(
        beams=result.plan.beams, bearing=result.declination, reminders=reminders_of(result)
    )
    return WorkSheet(title="After the lift", blocks=blocks, notices=())


@on_paper()
def work_chapters(
    costing: Costing,
    raising: RaisingResult,
    *,
    palette: Palette,
    system: UnitSystem,
    cite: Citing = uncited,
) -> tuple[Chapter, ...]:
    """Put all work sheets of a plan in the order of the job."""
    from boomwright.report.chapter import Chapter
    from boomwright.report.model import Canvas

    plan = raising.plan
    numbers = range(len(plan.beams))
    canvas = Canvas(palette=palette, system=system, cite=cite)
    bought = cost_sheet(costing, canvas=canvas)
    # The page says above the sheet what to do next.
    next_ = ("Next", "; ".join(step.text for step in bought.steps))
    rows = (*_not_yet(costing, raising, system=system), next_)
    blocks = [
        replace(block, rows=(*block.rows, *rows)) if isinstance(block, Facts) else block
        for block in bought.blocks
    ]
    sheets = [("Whoever buys", replace(bought, blocks=tuple(blocks)))]
    built = build_sheet(plan, numbers=numbers, palette=palette, system=system, listed=False)
    sheets.append(("The workshop", built))
    support = support_sheet(raising, palette=palette, system=system)
    sheets += [] if support is None else [("Ground and guys", support)]
    sheets += [
        ("The crew of the day", sheet)
        for sheet in _raising_sheets(raising, palette=palette, system=system)
    ]
    sheets.append(("Afterwards", upkeep_sheet(raising)))
    chapters = [
        Chapter(title=sheet.title, reader=reader, blocks=sheet.blocks, notices=sheet.notices)
        for reader, sheet in sheets
    ]
    chapters.append(_appendix(costing, raising, canvas=canvas))
    return (*chapters, *_pocket(raising, system=system))


def _not_yet(
    costing: Costing, raising: RaisingResult, *, system: UnitSystem
) -> tuple[tuple[str, str], ...]:
    """Name what is not to be bought before a check of what holds the beam up is settled."""
    from boomwright.base.quantity import write

    ledger = raising.structure.ledger
    names = [
        write(each.name, system=system)
        for each in plan_verdict(line.finding for line in ledger).beam_may_fall
    ]
    if not names:
        return ()
    named = {f"{name.partition(':')[0]} " for name in names}
    items = [
        item
        for line in costing.bill.lines
        if (item := write(line.name, system=system)).startswith(tuple(named))
        and line.group == "Support"
    ]
    told = [*items, "what carries the beam"]
    return (("Do not buy yet", f"{', '.join(told)}. Settle first: {'; '.join(names)}"),)


def _raising_sheets(
    raising: RaisingResult, *, palette: Palette, system: UnitSystem
) -> list[WorkSheet]:
    """Write the raising sheet of each beam; those that cannot be planned alike share one."""
    sheets: dict[object, WorkSheet] = {}
    for number, each in enumerate(raising.lifts):
        sheet = raising_sheet(raising, number=number, palette=palette, system=system)
        alike = sheets.get(sheet.blocks) if each.lift is None else None
        if alike is not None:
            sheet = replace(alike, title=f"{alike.title} and {each.beam.name}")
        sheets[sheet.blocks if each.lift is None else number] = sheet
    return list(sheets.values())


def _pocket(raising: RaisingResult, *, system: UnitSystem) -> tuple[Chapter, ...]:
    from boomwright.report.work.pocket import (
        boom_sheet,
        cut_sheet,
        day_sheet,
        pole_sheets,
        role_sheets,
        wire_sheet,
    )

    sheets: list[Chapter] = []
    for number, each in enumerate(raising.lifts):
        build = build_of(raising.plan, number=number, system=system)
        if build.pieces:
            sheets.append(cut_sheet(build, system=system))
        if build.beam.bent:
            sheets.append(wire_sheet(build, system=system))
        if build.boom.tubes or not build.beam.bent:
            sheets.append(boom_sheet(build, system=system))
        if each.lift is not None and number == 0 and each.lift.support.sequence:
            sheets += pole_sheets(each.lift.support, system=system)
        if each.lift is not None:
            sheets.append(day_sheet(each.beam.name, each.lift, system=system))
            sheets += role_sheets(each.beam.name, each.lift, system=system)
    return tuple(sheets)


def station_summary(
    costing: Costing, raising: RaisingResult, *, system: UnitSystem
) -> tuple[tuple[str, str], ...]:
    """Say in three figures what the whole station takes: money, weight, people."""
    from boomwright.base.quantity import Quantity, phrase, write
    from boomwright.report.cost import estimate_told
    from boomwright.report.raising.methods import VERDICTS

    told: list[tuple[str, Value]] = []
    if costing.estimate is not None:
        told.append(("Estimate", estimate_told(costing.estimate)))
    for each in raising.lifts:
        if each.lift is None:
            continue
        best = each.lift.methods[0]
        told.append((f"Lift of {each.beam.name}", phrase(
            "{verdict}: {method}, {mass}, {people} people",
            mass=Quantity(each.lift.job.load.mass, "mass"),
            method=best.name,
            people=sum(role.people for role in each.lift.crew),
            verdict=VERDICTS[each.lift.verdict],
        )))  # fmt: skip
    return tuple((label, write(value, system=system)) for label, value in told)


def _appendix(costing: Costing, raising: RaisingResult, *, canvas: Canvas) -> Chapter:
    from boomwright.plan.resolve import station_assembly
    from boomwright.render.field_sheet import part_blocks
    from boomwright.report.build.assumed import taken_parts
    from boomwright.report.chapter import Chapter
    from boomwright.report.raising.computed import computed
    from boomwright.report.work.appendix import build_appendix, cost_appendix
    from boomwright.report.work.build import taken_blocks

    plan = raising.plan
    taken = taken_blocks(taken_parts(station_assembly(plan).parts), system=canvas.system)
    blocks: list[Block] = [
        *part_blocks(taken, canvas=canvas),
        Words(
            text="Every figure of the work sheets with its own numbers put in. What drives each "
            "quantity stands in the bill itself; how the electrical figures were computed stands "
            "in the chapter before this one.",
            tone="quiet",
        ),
        *part_blocks(cost_appendix(costing.bill, costing.estimate), canvas=canvas),
    ]
    for number, each in enumerate(raising.lifts):
        build = build_of(plan, number=number, system=canvas.system)
        blocks += part_blocks(build_appendix(build), canvas=canvas)
        figures = computed(each)
        blocks += part_blocks([figures] if figures.items else [], canvas=canvas)
    return Chapter(
        title="Appendix: each figure of the work sheets", blocks=tuple(blocks), place="appendix"
    )
