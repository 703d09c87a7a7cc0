"""The Beam sheet: dimensions in, patterns and impedance out, repainted while one drags."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from boomwright.base import Fault, Notice, SolverError, UnitSystem
from boomwright.figures import ReadingTable, element_labels, reading_table
from boomwright.web import pictures
from boomwright.web.readout import Readout, four_numbers, long_length, megahertz, tube_size
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.beam_context import (
    BeamContext,
    Download,
    ElementRow,
    Field,
    SheetLink,
    Slider,
    Table,
)
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.parts import Beam, Element
    from boomwright.reach import BeamReadings, QuickLook

DOWNLOADS = (
    Download(label="Book (PDF)", address="/book.pdf"),
    Download(label="Cut list (CSV)", address="/cut-list.csv"),
    Download(label="Plan view (DXF)", address="/plan-view.dxf"),
    Download(label="Plan (TOML)", address="/plan.toml"),
)

#: heights the slider offers at least [m]
_TALLEST = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Look:
    """A beam of one moment with its quick figures, or the reason there are none."""

    revision: int
    beam: Beam
    frequency: float
    quick: QuickLook | None
    faults: tuple[Fault, ...]


def _look(desk: PlanDesk, view: View) -> _Look:
    revision, plan = desk.snapshot()
    beam = plan.beams[min(view.beam, len(plan.beams) - 1)]
    frequency = view.frequency or beam.design_frequency
    try:
        quick = desk.tools.quick_look(beam=beam, ground=plan.site.ground, frequency=frequency)
    except SolverError as error:
        faults = (_solver_fault(error),)
        return _Look(revision=revision, beam=beam, frequency=frequency, quick=None, faults=faults)
    return _Look(revision=revision, beam=beam, frequency=frequency, quick=quick, faults=())


def _solver_fault(error: SolverError) -> Fault:
    return Fault(
        path="",
        message=str(error),
        remedy="undo the last change, or correct the dimension named; the figures shown are "
        "those before it",
    )


def _fields(
    number: int, index: int, element: Element, label: str, system: UnitSystem
) -> ElementRow:
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
        _fields(view.beam, index, element, label, view.system)
        for index, (element, label) in enumerate(zip(beam.elements, labels, strict=True))
    )


def _frequency(look: _Look) -> Slider:
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


@dataclass(slots=True)
class _Drawn:
    """Figures by name, and the keys of those that have some."""

    figures: dict[str, str]
    keys: dict[str, tuple[pictures.Key, ...]]


def _quick_figures(look: _Look, view: View) -> _Drawn:
    drawn = _Drawn({"plan-view": pictures.plan_view(look.beam, system=view.system)}, {})
    if look.quick is not None:
        drawn.figures["azimuth"], drawn.keys["azimuth"] = pictures.azimuth(look.quick)
    return drawn


def _full_figures(readings: BeamReadings, view: View) -> _Drawn:
    elevation, keys = pictures.elevation(readings)
    figures = {
        "elevation": elevation,
        "sweep": pictures.sweep(readings),
        "impedance": pictures.impedance(readings),
        "gain": pictures.gain(readings),
        "currents": pictures.currents(readings, system=view.system, narrow=view.narrow),
    }
    if readings.over_ground is not None:
        figures["lobes"] = pictures.lobes(readings.over_ground)
    return _Drawn(figures, {"elevation": keys})


def _plain_keys(drawn: _Drawn) -> dict[str, list[dict[str, str]]]:
    return {name: [asdict(key) for key in keys] for name, keys in drawn.keys.items()}


def _table(caption: str, table: ReadingTable) -> Table:
    return Table(caption=caption, columns=table.header, rows=table.rows)


def _tables(look: _Look, readings: BeamReadings, view: View) -> dict[str, Table]:
    over = readings.over_ground
    elevation = over.elevation_pattern if over else readings.elevation_pattern
    swept = reading_table(readings.sweep)
    tables = {
        "elevation": _table("Elevation pattern, through the heading", reading_table(elevation)),
        "sweep": _table("Free-space figures over the band", swept),
        "impedance": _table("Free-space figures over the band", swept),
        "gain": _table("Free-space figures over the band", swept),
        "currents": _table(
            "Currents for 1 A at the feed", reading_table(readings.currents, system=view.system)
        ),
    }
    if over is not None:
        tables["lobes"] = _table("Lobes and minima towards the heading", reading_table(over))
    if look.quick is not None:
        over_now = look.quick.over_ground
        cut = over_now.azimuth_pattern if over_now else look.quick.azimuth_pattern
        caption = f"Azimuth pattern at elevation {cut.at_deg:.1f}°"
        tables["azimuth"] = _table(caption, reading_table(cut))
    return tables


def _read(desk: PlanDesk, view: View) -> tuple[_Look, BeamReadings | None]:
    """Compute the whole band, then look: the look's error bands are then those of the band."""
    try:
        readings = desk.readings(view.beam)
    except SolverError:
        return _look(desk, view), None
    look = _look(desk, view)
    if look.quick is None or desk.known_readings(view.beam, revision=look.revision) is None:
        return look, None
    return look, readings


def context(desk: PlanDesk, view: View, *, whole: bool) -> BeamContext:
    """Build the context of the Beam sheet.

    Parameters
    ----------
    desk
        the plan [-]
    view
        what the window looks at [-]
    whole
        whether to wait for the figures of the whole band [-]

    Returns
    -------
    BeamContext
        everything the sheet shows [-]
    """
    _, plan = desk.snapshot()
    look, readings = _read(desk, view) if whole else (_look(desk, view), None)
    notices: tuple[Notice, ...] = readings.notices if readings else ()
    drawn = _quick_figures(look, view)
    if readings is not None:
        rest = _full_figures(readings, view)
        drawn.figures |= rest.figures
        drawn.keys |= rest.keys
    numbers: tuple[Readout, ...] = ()
    if look.quick is not None:
        numbers = four_numbers(
            point=look.quick.point,
            over_ground=look.quick.over_ground,
            sweep=readings.sweep if readings else (),
        )
    return BeamContext(
        sheet=BEAM.noun,
        sheets=(SheetLink(noun=BEAM.noun, address=f"/{BEAM.slug}", current=True),),
        title=plan.title,
        file_name=desk.name,
        beam=view.beam,
        beams=tuple(beam.name for beam in plan.beams),
        system=view.system,
        revision=look.revision,
        numbers=numbers,
        frequency=_frequency(look),
        height=_height(look.beam, view),
        elements=_rows(look.beam, view),
        figures=drawn.figures,
        keys=drawn.keys,
        tables=_tables(look, readings, view) if readings else {},
        notices=notices,
        faults=look.faults,
        saving=desk.saving,
        undo_label=desk.undo_label,
        redo_label=desk.redo_label,
        downloads=DOWNLOADS,
    )


def quick(desk: PlanDesk, view: View) -> Paint:
    """Compute and paint what must follow a drag.

    Parameters
    ----------
    desk
        the plan [-]
    view
        what the window looks at [-]

    Returns
    -------
    Paint
        numbers, azimuth pattern, plan view, dimensions, sliders [-]
    """
    look = _look(desk, view)
    drawn = _quick_figures(look, view)
    paint: Paint = {
        "revision": look.revision,
        "figures": drawn.figures,
        "keys": _plain_keys(drawn),
        "elements": [asdict(row) for row in _rows(look.beam, view)],
        "frequency": asdict(_frequency(look)),
        "height": asdict(_height(look.beam, view)),
        "faults": [asdict(fault) for fault in look.faults],
        "system": view.system,
        "title": desk.plan.title,
    }
    if look.quick is not None:
        known = desk.known_readings(view.beam, revision=look.revision)
        numbers = four_numbers(
            point=look.quick.point,
            over_ground=look.quick.over_ground,
            sweep=known.sweep if known else (),
        )
        paint["moving"] = known is None
        paint["numbers"] = [asdict(number) for number in numbers]
    return paint


def full(desk: PlanDesk, view: View) -> Paint:
    """Compute and paint the figures of the whole band.

    Parameters
    ----------
    desk
        the plan [-]
    view
        what the window looks at [-]

    Returns
    -------
    Paint
        numbers, remaining figures, tables, notices [-]
    """
    look, readings = _read(desk, view)
    paint: Paint = {"revision": look.revision, "faults": [asdict(fault) for fault in look.faults]}
    if readings is None or look.quick is None:
        return paint
    numbers = four_numbers(
        point=look.quick.point, over_ground=look.quick.over_ground, sweep=readings.sweep
    )
    drawn = _full_figures(readings, view)
    return paint | {
        "numbers": [asdict(number) for number in numbers],
        "figures": drawn.figures,
        "keys": _plain_keys(drawn),
        "tables": {name: asdict(table) for name, table in _tables(look, readings, view).items()},
        "notices": [asdict(notice) for notice in readings.notices],
    }


BEAM = Sheet(
    noun="Beam", slug="beam", template="beam.html", context=context, quick=quick, full=full
)
