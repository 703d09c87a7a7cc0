"""The figures as the page shows them: drawn by the figures room, in the page's own colours."""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.base.records import dataclass
from boomwright.plan.resolve import station_assembly
from boomwright.report.model import Canvas
from boomwright.web.colours import page_palette

if TYPE_CHECKING:
    from boomwright.parts import Beam
    from boomwright.plan import Plan
    from boomwright.reach import BeamReadings, OverGround, QuickLook
    from boomwright.solver import PatternCut
    from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
    from boomwright.web.sheets.context_parts import Table

_PALETTE = page_palette()


# Sizes in user units, no wider than shown, so that no lettering comes out below 10 pixels.
_PLAN_WIDTH, _PLAN_NARROW = 470.0, 350.0
_PLAN_DRAWING = 340.0
_CHART_WIDTH = 350.0
_CHART_HEIGHT = 240.0
_ROUND = 350.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """What one curve of a round figure is, with the figures read off it."""

    label: str  #: name of the curve
    text: str  #: peak, half-power width and front-to-back ratio


def _key(cut: PatternCut, label: str) -> Key:
    summary = charts.pattern_summary(cut)
    width = summary.half_power_width_deg
    return Key(
        label=label,
        text=f"peak {summary.peak_gain_dbi:.1f} dBi at {summary.peak_angle_deg:.0f}°, "
        + (f"−3 dB width {width:.0f}°, " if width is not None else "")
        + f"front-to-back {summary.front_to_back_db:.1f} dB",
    )


def plan_view(plan: Plan, beam: Beam, *, system: UnitSystem, narrow: bool = False) -> str:
    """Draw the plan view of a beam of a plan."""
    width = _PLAN_NARROW if narrow else _PLAN_WIDTH
    return charts.plan_view(
        beam=beam, station=station_assembly(plan), palette=_PALETTE, system=system, width=width,
        drawing_height=_PLAN_DRAWING,
    )  # fmt: skip


def mast_view(plan: Plan, *, chosen: int, system: UnitSystem) -> str:
    """Draw all beams of a plan from above; empty for one beam.

    Args:
        chosen: number of the beam in view, from 0
    """
    if len(plan.beams) < 2:
        return ""
    return charts.mast_view(
        beams=plan.beams,
        station=station_assembly(plan),
        chosen=chosen,
        palette=_PALETTE,
        system=system,
        width=_PLAN_NARROW,
    )


def side(plan: Plan, *, system: UnitSystem) -> tuple[str, Table]:
    """Draw the station from the side, and list the heights behind it."""
    from boomwright.report.beam.side import side_heights, side_picture
    from boomwright.web.sheets.shown_context import report_table

    canvas = Canvas(palette=_PALETTE, system=system, width=_ROUND, forms=True)
    heights = report_table(side_heights(plan), system=system)
    return side_picture(plan).draw(canvas), heights


def azimuth(quick: QuickLook | BeamReadings) -> tuple[str, tuple[Key, ...]]:
    """Draw the azimuth pattern, in free space and over the ground."""
    cuts, labels = [quick.azimuth_pattern], ["free space, horizon"]
    if quick.over_ground is not None:
        over = quick.over_ground.azimuth_pattern
        cuts, labels = [over, *cuts], [f"over ground, {over.at_deg:.1f}° up", *labels]
    svg = charts.azimuth_pattern(
        cuts=cuts, labels=labels, palette=_PALETTE, width=_ROUND, notes=False
    )
    return svg, tuple(map(_key, cuts, labels))


def elevation(readings: BeamReadings) -> tuple[str, tuple[Key, ...]]:
    """Draw the elevation pattern, over the ground when there is one."""
    over = readings.over_ground
    cut = over.elevation_pattern if over is not None else readings.elevation_pattern
    label = "over ground, through the heading" if over is not None else "free space"
    svg = charts.elevation_pattern(
        cuts=[cut], labels=[label], palette=_PALETTE, width=_ROUND, notes=False
    )
    return svg, (_key(cut, label),)


def lobes(over_ground: OverGround, *, system: UnitSystem) -> str:
    """Draw the gain against elevation over the ground.

    Args:
        system: ``metric`` or ``us``, for the height in the note
    """
    return charts.lobe_chart(
        over_ground=over_ground,
        palette=_PALETTE,
        system=system,
        width=_CHART_WIDTH,
        height=250.0,
    )


def sweep(readings: BeamReadings, measured: AsMeasured | NotMeasured | None) -> str:
    """Draw the standing wave ratio over the band."""
    from boomwright.report.beam.measured import seen_readings, seen_words

    return charts.sweep_chart(
        readings=seen_readings(readings, measured),
        title=f"SWR, {seen_words(readings, measured)}",
        palette=_PALETTE,
        width=_CHART_WIDTH,
        height=_CHART_HEIGHT,
    )


def impedance(readings: BeamReadings) -> str:
    """Draw resistance and reactance over the band."""
    return charts.impedance_chart(
        readings=readings, palette=_PALETTE, width=_CHART_WIDTH, height=_CHART_HEIGHT
    )


def gain(readings: BeamReadings) -> str:
    """Draw gain and front-to-back ratio over the band."""
    return charts.gain_chart(readings=readings, palette=_PALETTE, width=_CHART_WIDTH, height=400.0)


def currents(readings: BeamReadings, *, system: UnitSystem, narrow: bool) -> str:
    """Draw the currents along the elements."""
    return charts.current_chart(
        currents=readings.currents,
        palette=_PALETTE,
        system=system,
        width=350.0 if narrow else 860.0,
    )
