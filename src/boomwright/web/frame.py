"""What stands around every sheet: the row of sheets, the plan view, dimensions, four numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from boomwright.base import PlanVerdict, UnitSystem
from boomwright.base.quantity import write
from boomwright.charts import element_labels
from boomwright.web import pictures
from boomwright.web.judging import find_verdict, judged_mark, known_verdict, verdict_context
from boomwright.web.quick_figures import Look, look_at, numbers_of, read_whole
from boomwright.web.readout import Readout, long_length, megahertz, tube_size
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.context_parts import Field, Slider
from boomwright.web.sheets.frame_context import (
    Download,
    ElementRow,
    FrameContext,
    SheetLink,
)
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.step_card import step_card
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.parts import Beam, Element
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

DOWNLOADS = (
    Download(label="Book (PDF)", address="/book.pdf"),
    Download(label="Annex: every check with its basis (PDF)", address="/book-annex.pdf"),
    Download(label="Pocket sheets (PDF)", address="/book-pocket.pdf"),
    Download(label="Cut list (CSV)", address="/cut-list.csv"),
    Download(label="Price list to fill in (CSV)", address="/price-list.csv"),
    Download(label="Plan view (DXF)", address="/plan-view.dxf"),
    Download(label="Feed point, behind the match (Touchstone)", address="/feed-point.s1p"),
    Download(label="Shack end of the line (Touchstone)", address="/shack.s1p"),
    Download(label="Plan (TOML)", address="/plan.toml"),
    Download(label="Page to show others (HTML)", address="/share.html"),
)

#: heights the slider offers at least [m]
_TALLEST = 30.0


def _row(number: int, index: int, element: Element, label: str, system: UnitSystem) -> ElementRow:
    place = f"beam[{number}].element[{index}]"
    tubes = tuple(
        (
            Field(
                place=f"{place}.half[{k}][0]",
                label=f"{label}, tube {k + 1} from the boom, diameter",
                text=tube_size(section.diameter, system=system),
            ),
            Field(
                place=f"{place}.half[{k}][1]",
                label=f"{label}, tube {k + 1} from the boom, exposed length",
                text=long_length(section.length, system=system),
            ),
        )
        for k, section in enumerate(element.half)
    )
    return ElementRow(
        label=label,
        role=element.role,
        position=element.position,
        length=element.length,
        at=Field(
            place=f"{place}.at",
            label=f"{label}, place along the boom",
            text=long_length(element.position, system=system),
        ),
        tip_to_tip=Field(
            place=f"{place}.length",
            label=f"{label}, length from tip to tip",
            text=long_length(element.length, system=system),
        ),
        tubes=tubes if len(tubes) > 1 else (),
    )


def _rows(beam: Beam, view: View) -> tuple[ElementRow, ...]:
    labels = element_labels(beam)
    return tuple(
        _row(view.beam, index, element, label, view.system)
        for index, (element, label) in enumerate(zip(beam.elements, labels, strict=True))
    )


@lru_cache(maxsize=256)
def _painted_row(row: ElementRow) -> dict[str, Any]:
    return asdict(row)


def _painted_rows(beam: Beam, view: View) -> list[dict[str, Any]]:
    return [_painted_row(row) for row in _rows(beam, view)]


def _frequency(look: Look) -> Slider:
    low, high = look.beam.band
    return Slider(
        value=look.frequency,
        low=min(low, look.frequency),
        high=max(high, look.frequency),
        step=1e3,
        text=megahertz(look.frequency),
    )


def _height(beam: Beam, view: View) -> Slider:
    return Slider(
        value=beam.height,
        low=1.0 if view.system == "metric" else 0.9144,
        high=max(_TALLEST, beam.height) if view.system == "metric" else max(30.48, beam.height),
        step=0.1 if view.system == "metric" else 0.1524,
        text=long_length(beam.height, system=view.system),
    )


def _links(
    desk: PlanDesk,
    view: View,
    here: Sheet,
    sheets: Sequence[Sheet],
    verdict: PlanVerdict | None,
) -> list[SheetLink]:
    of = f"?of={view.beam}" if view.beam else ""
    return [
        SheetLink(
            noun=sheet.noun,
            address=f"/{sheet.slug}{of}",
            current=sheet is here,
            mark=judged_mark(
                sheet.mark(desk, view) if sheet.mark is not None else None,
                verdict,
                subject=sheet.slug,
            ),
        )
        for sheet in sheets
    ]


def frame_context(
    desk: PlanDesk, view: View, *, sheet: Sheet, sheets: Sequence[Sheet], whole: bool
) -> FrameContext:
    """Build what stands around a sheet.

    Args:
        sheets: all sheets, in the order of the job
    """
    look, readings = read_whole(desk, view) if whole else (look_at(desk, view), None)
    readings = readings or desk.known_readings(view.beam, revision=look.revision)
    plan = desk.plan
    judged, verdict = find_verdict(desk) if whole else known_verdict(desk)
    return FrameContext(
        sheet=sheet.noun,
        sheets=tuple(_links(desk, view, sheet, sheets, verdict)),
        title=plan.title,
        verdict=verdict_context(judged, verdict, system=view.system),
        file_name=desk.name,
        beam=view.beam,
        beams=tuple(beam.name for beam in plan.beams),
        system=view.system,
        revision=look.revision,
        numbers=numbers_of(look, readings, _measured(desk, view, look)),
        bands=_bands(desk, view, look),
        frequency=_frequency(look),
        height=_height(look.beam, view),
        elements=_rows(look.beam, view),
        plan_view=_plan_view(look, view),
        mast_view=_mast_view(desk, view),
        faults=look.faults,
        saving=desk.saving,
        undo_label=desk.undo_label,
        redo_label=desk.redo_label,
        downloads=DOWNLOADS,
        lesson=step_card(desk, system=view.system),
    )


def frame_numbers(desk: PlanDesk, view: View) -> tuple[Readout, ...]:
    """The four numbers as far as they are known."""
    look = look_at(desk, view)
    readings = desk.known_readings(view.beam, revision=look.revision)
    return numbers_of(look, readings, _measured(desk, view, look))


def _plan_view(look: Look, view: View) -> str:
    return pictures.plan_view(look.plan, look.beam, system=view.system, narrow=view.narrow)


def _mast_view(desk: PlanDesk, view: View) -> str:
    return pictures.mast_view(desk.plan, chosen=view.beam, system=view.system)


def _measured(desk: PlanDesk, view: View, look: Look) -> AsMeasured | NotMeasured | None:
    """What the owner will measure in the state looked at, where it was solved."""
    return desk.known_measured(view.beam, revision=look.revision)


def _bands(desk: PlanDesk, view: View, look: Look) -> tuple[tuple[str, str], ...]:
    """A line for each further band of the beam; none before they are solved (n_bands, 2)."""
    measured = _measured(desk, view, look)
    if measured is None or not measured.further:
        return ()
    # Loads all rooms below, which the first sheet must not wait for.
    from boomwright.report.beam.measured import band_facts

    return tuple(
        (write(fact.label, system=view.system), write(fact.value, system=view.system))
        for fact in band_facts(measured)
    )


def frame_quick(desk: PlanDesk, view: View, *, moving: bool) -> Paint:
    """Paint of the frame what must follow a hand.

    Args:
        moving: whether a hand moves: the browser then shifts the drawing itself
    """
    look = look_at(desk, view)
    known = desk.known_readings(view.beam, revision=look.revision)
    paint: Paint = {
        "revision": look.revision,
        "elements": _painted_rows(look.beam, view),
        "frequency": asdict(_frequency(look)),
        "height": asdict(_height(look.beam, view)),
        "faults": [asdict(fault) for fault in look.faults],
        "system": view.system,
        "title": desk.plan.title,
        "beams": len(desk.plan.beams),
    }
    if not moving:
        paint["plan_view"] = _plan_view(look, view)
    if look.quick is not None:
        paint["moving"] = known is None
        paint["numbers"] = [
            asdict(number) for number in numbers_of(look, known, _measured(desk, view, look))
        ]
    return paint


def frame_full(desk: PlanDesk, view: View) -> Paint:
    """Paint of the frame what waits for the whole band."""
    look, readings = read_whole(desk, view)
    paint: Paint = {
        "revision": look.revision,
        "faults": [asdict(fault) for fault in look.faults],
        "elements": _painted_rows(look.beam, view),
        "plan_view": _plan_view(look, view),
        "mast_view": _mast_view(desk, view),
        "system": view.system,
    }
    if readings is None or look.quick is None:
        return paint
    measured = _measured(desk, view, look)
    return paint | {
        "numbers": [asdict(number) for number in numbers_of(look, readings, measured)],
        "bands": _bands(desk, view, look),
    }


def frame_verdict(desk: PlanDesk, view: View, *, sheet: Sheet, sheets: Sequence[Sheet]) -> Paint:
    """Paint the verdict of the plan and the marks of the sheets, once the plan rests."""
    revision, verdict = find_verdict(desk)
    links = _links(desk, view, sheet, sheets, verdict)
    return {
        "verdict": asdict(verdict_context(revision, verdict, system=view.system)),
        "marks": [asdict(link.mark) if link.mark else None for link in links],
    }
