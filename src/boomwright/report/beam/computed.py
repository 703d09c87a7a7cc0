"""What a computed beam does: gain, pattern, lobes, standing wave ratio, currents."""

from __future__ import annotations

import math
from dataclasses import replace

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.plan.resolve import match_words, matched_points
from boomwright.reach import BeamReadings
from boomwright.report.beam.readings import (
    current_table,
    cut_table,
    lobe_table,
    size_table,
    sweep_table,
)
from boomwright.report.model import Canvas, Fact, Picture, Report
from boomwright.solver import PatternCut


def beam_report(readings: BeamReadings) -> Report:
    """Say what a computed beam does, each figure with its error band."""
    over = readings.over_ground
    return Report(
        subject="beam",
        title=readings.beam.name,
        answer=_answer(readings),
        pictures=_pictures(readings),
        tables=(
            sweep_table(readings.sweep, reference=readings.reference_resistance),
            *([lobe_table(over)] if over is not None else []),
        ),
        notices=readings.notices,
    )


def _answer(readings: BeamReadings) -> tuple[Fact, ...]:
    here, over = readings.free_space, readings.over_ground
    matched = _matched(readings)
    best, worst = (pick(point.swr for point in matched.sweep) for pick in (min, max))
    ratios = phrase(
        "{best} to {worst}, {where}",
        best=Quantity(best, "swr"),
        worst=Quantity(worst, "swr"),
        where=match_words(readings.beam),
    )
    lobe: Value = "none: the plan says free space"
    if over is not None:
        lobe = phrase(
            "{angle}, {gain} there",
            angle=Quantity(over.peak_elevation_deg, "angle"),
            gain=_banded(over.peak_gain_dbi, "gain", over.gain_error_db),
        )
    return (
        Fact(label="Gain, free space", value=_banded(here.gain_dbi, "gain", here.gain_error_db)),
        Fact(
            label="Front-to-back, free space",
            value=_banded(here.front_to_back_db, "ratio", here.front_to_back_error_db),
        ),
        Fact(label="SWR over the band", value=ratios),
        Fact(label="Take-off angle", value=lobe),
    )


def _banded(value: float, kind: str, error: float) -> Quantity:
    return Quantity(value, kind, error if math.isfinite(error) else 0.0)


def _matched(readings: BeamReadings) -> BeamReadings:
    """The readings behind the plan's match, where its circuit equations tell."""
    points = matched_points(readings.beam, readings.sweep, reference=readings.reference_resistance)
    return replace(readings, sweep=points)


def _pictures(readings: BeamReadings) -> tuple[Picture, ...]:
    beam, over = readings.beam, readings.over_ground
    sweep = sweep_table(readings.sweep, reference=readings.reference_resistance)
    matched = _matched(readings)

    def plan(canvas: Canvas) -> str:
        return charts.plan_view(
            beam=beam, palette=canvas.palette, system=canvas.system, width=canvas.width
        )

    def ratio(canvas: Canvas) -> str:
        return charts.sweep_chart(
            readings=matched, palette=canvas.palette, system=canvas.system, width=canvas.width
        )

    def gain(canvas: Canvas) -> str:
        return charts.gain_chart(
            readings=readings, palette=canvas.palette, system=canvas.system, width=canvas.width
        )

    def currents(canvas: Canvas) -> str:
        return charts.current_chart(
            currents=readings.currents,
            palette=canvas.palette,
            system=canvas.system,
            width=canvas.width,
        )

    cut = readings.azimuth_pattern if over is None else over.azimuth_pattern
    behind = sweep_table(matched.sweep, reference=readings.reference_resistance)
    return (
        Picture(name="plan", title="Plan view", draw=plan, behind=size_table(beam)),
        azimuth_picture(cut),
        elevation_picture(readings.elevation_pattern if over is None else over.elevation_pattern),
        Picture(
            name="swr",
            title=f"Standing wave ratio, {match_words(beam)}",
            draw=ratio,
            behind=behind,
        ),
        Picture(name="gain", title="Gain and front-to-back ratio", draw=gain, behind=sweep),
        Picture(
            name="currents",
            title="Currents along the elements",
            draw=currents,
            behind=current_table(readings.currents),
        ),
    )


def azimuth_picture(cut: PatternCut) -> Picture:
    """Picture of a cut all round."""

    def draw(canvas: Canvas) -> str:
        return charts.azimuth_pattern(cuts=[cut], palette=canvas.palette, width=canvas.width)

    table = cut_table(cut)
    return Picture(name="azimuth", title=str(table.caption), draw=draw, behind=table)


def elevation_picture(cut: PatternCut) -> Picture:
    """Picture of a cut from the horizon upwards."""

    def draw(canvas: Canvas) -> str:
        return charts.elevation_pattern(cuts=[cut], palette=canvas.palette, width=canvas.width)

    table = cut_table(cut)
    return Picture(name="elevation", title=str(table.caption), draw=draw, behind=table)
