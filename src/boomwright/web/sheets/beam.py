"""The Beam sheet: dimensions in, patterns and impedance out, repainted while one drags."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from boomwright.base import Notice, written_notices
from boomwright.report.beam.readings import current_table, cut_table, lobe_table, sweep_table
from boomwright.web import pictures
from boomwright.web.mending import Mended, mended
from boomwright.web.quick_figures import Look, look_at, read_whole
from boomwright.web.service import PlanDesk
from boomwright.web.sheets.beam_context import BeamContext
from boomwright.web.sheets.context_parts import Table
from boomwright.web.sheets.frame_context import Mark
from boomwright.web.sheets.sheet import Paint, Sheet
from boomwright.web.sheets.shown_context import report_table
from boomwright.web.view import View

if TYPE_CHECKING:
    from boomwright.reach import BeamReadings, QuickLook
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


@dataclass(slots=True)
class _Drawn:
    """Figures by name, and the keys of those that have some."""

    figures: dict[str, str]
    keys: dict[str, tuple[pictures.Key, ...]]


def _quick_figures(look: Look) -> _Drawn:
    drawn = _Drawn({}, {})
    if look.quick is not None:
        drawn.figures["azimuth"], drawn.keys["azimuth"] = pictures.azimuth(look.quick)
    return drawn


def _at_rest(look: Look, readings: BeamReadings) -> QuickLook | BeamReadings | None:
    """What the azimuth pattern is drawn from when no hand moves: exact where that is known."""
    return readings if look.frequency == readings.free_space.frequency else look.quick


def _full_figures(
    look: Look, readings: BeamReadings, measured: AsMeasured | NotMeasured | None, view: View
) -> _Drawn:
    elevation, keys = pictures.elevation(readings)
    every = {"elevation": keys}
    figures = {
        "elevation": elevation,
        "sweep": pictures.sweep(readings, measured),
        "impedance": pictures.impedance(readings),
        "gain": pictures.gain(readings),
        "currents": pictures.currents(readings, system=view.system, narrow=view.narrow),
    }
    if readings.over_ground is not None:
        figures["lobes"] = pictures.lobes(readings.over_ground, system=view.system)
    rest = _at_rest(look, readings)
    if rest is not None:
        figures["azimuth"], every["azimuth"] = pictures.azimuth(rest)
    return _Drawn(figures, every)


def _plain_keys(drawn: _Drawn) -> dict[str, list[dict[str, str]]]:
    return {name: [asdict(key) for key in keys] for name, keys in drawn.keys.items()}


def _tables(
    look: Look, readings: BeamReadings, measured: AsMeasured | NotMeasured | None, view: View
) -> dict[str, Table]:
    # Loads all rooms below, which the first sheet must not wait for.
    from boomwright.report.beam.measured import seen_table

    over = readings.over_ground
    swept = sweep_table(readings.sweep, reference=readings.reference_resistance)
    tables = {
        "elevation": cut_table(over.elevation_pattern if over else readings.elevation_pattern),
        "sweep": seen_table(readings, measured),
        "impedance": swept,
        "gain": swept,
        "currents": current_table(readings.currents),
    }
    if over is not None:
        tables["lobes"] = lobe_table(over)
    rest = _at_rest(look, readings)
    if rest is not None:
        over_now = rest.over_ground
        tables["azimuth"] = cut_table(
            over_now.azimuth_pattern if over_now else rest.azimuth_pattern
        )
    return {name: report_table(table, system=view.system) for name, table in tables.items()}


def context(desk: PlanDesk, view: View, *, whole: bool) -> BeamContext:
    """Build the context of the Beam sheet."""
    look, readings = read_whole(desk, view) if whole else (look_at(desk, view), None)
    drawn = _quick_figures(look)
    drawn.figures["side"], side = pictures.side(desk.plan, system=view.system)
    measured = desk.known_measured(view.beam, revision=look.revision)
    if readings is not None:
        rest = _full_figures(look, readings, measured, view)
        drawn.figures |= rest.figures
        drawn.keys |= rest.keys
    return BeamContext(
        figures=drawn.figures,
        keys=drawn.keys,
        tables={"side": side} | (_tables(look, readings, measured, view) if readings else {}),
        notices=written_notices(readings.notices, system=view.system, forms=True)
        if readings
        else (),
    )


def quick(desk: PlanDesk, view: View) -> Paint:
    """Compute and paint what must follow a drag."""
    drawn = _quick_figures(look_at(desk, view))
    return {"figures": drawn.figures, "keys": _plain_keys(drawn)}


def full(desk: PlanDesk, view: View) -> Paint:
    """Compute and paint the figures of the whole band."""
    look, readings = read_whole(desk, view)
    if readings is None or look.quick is None:
        return {}
    measured = desk.known_measured(view.beam, revision=look.revision)
    drawn = _full_figures(look, readings, measured, view)
    drawn.figures["side"], side = pictures.side(desk.plan, system=view.system)
    tables = {"side": side} | _tables(look, readings, measured, view)
    return {
        "figures": drawn.figures,
        "keys": _plain_keys(drawn),
        # Not copied cell by cell: they are thousands.
        "tables": {
            name: {"caption": table.caption, "columns": table.columns, "rows": table.rows}
            for name, table in tables.items()
        },
        "notices": [
            asdict(notice) | {"place": asdict(place) if (place := _mended(notice, look)) else None}
            for notice in written_notices(readings.notices, system=view.system, forms=True)
        ],
    }


def _mended(notice: Notice, look: Look) -> Mended | None:
    """Find what mends a notice; what hangs on a feed is said of the other beam."""
    if notice.code == "beside.feed-unsaid":
        for number, beam in enumerate(look.plan.beams):
            if beam.name != look.beam.name and not beam.idle_feed:
                form = f"beam[{number}].idle_feed"
                return Mended(address="", words=f"Say it of {beam.name}", form=form)
    return mended(notice, "beam")


def mark(desk: PlanDesk, view: View) -> Mark:
    """Say how far the beam has come.

    Returns:
        done when its figures carry no doubt
    """
    readings = desk.known_readings(view.beam, revision=desk.revision)
    if readings is None:
        return Mark(state="doubtful", text="being computed")
    grave = [notice for notice in readings.notices if notice.severity != "note"]
    if grave:
        count = len(grave)
        return Mark(state="doubtful", text=f"{count} notice{'s' if count > 1 else ''} to read")
    return Mark(state="done", text="computed, nothing doubtful")


BEAM = Sheet(
    noun="Beam",
    slug="beam",
    template="beam.html",
    doing="Computing the whole band",
    context=context,
    quick=quick,
    full=full,
    mark=mark,
)
