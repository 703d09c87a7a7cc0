"""What a computed beam does: gain, pattern, lobes, standing wave ratio, currents."""

from __future__ import annotations

import cmath
import math
from dataclasses import replace
from typing import Final

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.reach import BeamReadings
from boomwright.report.beam.facts import banded, banded_impedance
from boomwright.report.beam.measured import (
    bare_words,
    measured_facts,
    measured_words,
    seen_readings,
    seen_words,
    swr_span,
)
from boomwright.report.beam.readings import (
    current_table,
    cut_table,
    lobe_table,
    size_table,
    sweep_table,
)
from boomwright.report.model import Fact, Picture, Report, Table, drawing, thinned
from boomwright.report.wording import clean, fixed
from boomwright.solver import PatternCut, SweepPoint
from boomwright.study.computing import Computation
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

#: columns that a quick look leaves out
_LEFT_OUT: Final = {"impedance", "front-to-back", "efficiency"}
#: frequencies over the band that a quick look shows
_FEW: Final = 5


def computed_reports(result: Computation) -> tuple[Report, ...]:
    """Say of every beam what it does."""
    pairs = zip(result.beams, result.as_measured, strict=True)
    return tuple(beam_report(readings, measured=measured) for readings, measured in pairs)


def beam_report(readings: BeamReadings, *, measured: AsMeasured | NotMeasured) -> Report:
    """Say what a computed beam does, first as its owner will measure it."""
    over = readings.over_ground
    return Report(
        subject="beam",
        title=readings.beam.name,
        answer=_answer(readings, measured),
        next=(
            "boomwright feed solves match, line and choke; boomwright structure says whether it "
            "stands",
        ),
        brief=(_brief(readings, measured),),
        pictures=_pictures(readings, measured),
        tables=(
            sweep_table(readings.sweep, reference=readings.reference_resistance),
            *([lobe_table(over)] if over is not None else []),
        ),
        notices=readings.notices,
    )


def _brief(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> Table[SweepPoint]:
    """A few frequencies over the band, the standing wave ratio as a meter reads it."""
    seen = seen_readings(readings, measured)
    table = sweep_table(thinned(seen.sweep, _FEW), reference=seen.reference_resistance)
    return replace(
        table, caption="Over the band",
        columns=tuple(one for one in table.columns if one.head not in _LEFT_OUT),
        basis=f"Free space, gain towards the heading; SWR {seen_words(readings, measured)}.",
    )  # fmt: skip


def _answer(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> tuple[Fact, ...]:
    standing = Fact(label="For", value=measured_words(measured))
    if isinstance(measured, AsMeasured):
        seen = (*measured_facts(measured), *_drives(readings))
        return (*seen, standing, *_computed(readings), *_further(readings))
    span = swr_span(readings, measured)
    ratios = phrase(
        "{best} to {worst}, {where}",
        best=Quantity(span.lowest, "swr"),
        worst=Quantity(span.highest, "swr"),
        where=bare_words(readings.beam),
    )
    swr = Fact(label="SWR over the band", value=ratios)
    return (swr, *_computed(readings), *_drives(readings), standing, *_further(readings))


def _drives(readings: BeamReadings) -> tuple[Fact, ...]:
    """Impedance and current of several driven elements."""
    if not readings.drives:
        return ()
    over = readings.over_ground
    error = readings.free_space.impedance_error if over is None else over.impedance_error
    each = [
        phrase(
            "{impedance} with current {size} at {angle}",
            impedance=banded_impedance(drive.impedance, error),
            size=fixed(abs(drive.current), 2),
            angle=Quantity(math.degrees(cmath.phase(drive.current)), "whole angle"),
        )
        for drive in readings.drives
    ]
    return (Fact(label="Driven elements at their own feeds", value=listed(each, between="; ")),)


def _computed(readings: BeamReadings) -> tuple[Fact, ...]:
    here, over = readings.free_space, readings.over_ground
    lobe: Value = "none: the plan says free space"
    if over is not None:
        lobe = phrase(
            "{angle}, {gain} there",
            angle=Quantity(over.peak_elevation_deg, "angle"),
            gain=banded(over.peak_gain_dbi, "gain", over.gain_error_db),
        )
    rear = min(point.front_to_rear_db for point in readings.sweep)
    return (
        Fact(
            label="Gain, free space",
            value=phrase(
                "{gain} of the model", gain=banded(here.gain_dbi, "gain", here.gain_error_db)
            ),
        ),
        Fact(label="Front-to-rear, free space, worst over the band", value=Quantity(rear, "ratio")),
        Fact(label="Main lobe over the ground", value=lobe),
    )


def _further(readings: BeamReadings) -> tuple[Fact, ...]:
    """What the figures were computed for, and the impedance of the bare split."""
    beam, here, over = readings.beam, readings.free_space, readings.over_ground
    said = phrase(
        "{count} elements, boom {boom}, {height} high, heading {heading}, {material}",
        count=len(beam.elements), boom=Quantity(beam.boom_length, "span"),
        height=Quantity(beam.height, "span"),
        heading=Quantity(math.degrees(beam.heading) % 360.0, "whole angle"),
        material=clean(beam.material.name),
    )  # fmt: skip
    split = phrase(
        "{impedance}, SWR {swr}, at {frequency} in free space",
        impedance=banded_impedance(here.impedance, here.impedance_error),
        swr=banded(here.swr, "swr", here.swr_error),
        frequency=Quantity(here.frequency, "frequency"),
    )
    facts = [
        Fact(label="Beam", value=said),
        Fact(label="Impedance without the match", value=split),
        Fact(
            label="Front-to-back, free space, at the design frequency",
            value=banded(here.front_to_back_db, "ratio", here.front_to_back_error_db),
        ),
        Fact(label="Power balance off by", value=Quantity(readings.power_balance, "power balance")),
    ]
    if over is not None:
        fed = phrase(
            "{impedance} over {ground} ground",
            impedance=banded_impedance(over.impedance, over.impedance_error),
            ground=clean(over.ground.name) or "its",
        )
        facts.append(Fact(label="Impedance without the match, over the ground", value=fed))
    return tuple(facts)


def _pictures(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> tuple[Picture, ...]:
    beam, over = readings.beam, readings.over_ground
    sweep = sweep_table(readings.sweep, reference=readings.reference_resistance)
    seen = seen_readings(readings, measured)
    cut = readings.azimuth_pattern if over is None else over.azimuth_pattern
    behind = sweep_table(seen.sweep, reference=seen.reference_resistance)
    return (
        Picture(
            name="plan",
            title="Plan view",
            draw=drawing(charts.plan_view, beam=beam),
            behind=size_table(beam),
        ),
        azimuth_picture(cut),
        elevation_picture(readings.elevation_pattern if over is None else over.elevation_pattern),
        Picture(
            name="swr",
            title=f"Standing wave ratio, {seen_words(readings, measured)}",
            draw=drawing(charts.sweep_chart, units=False, readings=seen),
            behind=behind,
        ),
        Picture(
            name="gain",
            title="Gain and front-to-back ratio",
            draw=drawing(charts.gain_chart, units=False, readings=readings),
            behind=sweep,
        ),
        Picture(
            name="currents",
            title="Currents along the elements",
            draw=drawing(charts.current_chart, currents=readings.currents),
            behind=current_table(readings.currents),
        ),
    )


def azimuth_picture(cut: PatternCut) -> Picture:
    """Picture of a cut all round."""
    table = cut_table(cut)
    return Picture(
        name="azimuth", title=str(table.caption), behind=table,
        draw=drawing(charts.azimuth_pattern, units=False, cuts=[cut]),
    )  # fmt: skip


def elevation_picture(cut: PatternCut) -> Picture:
    """Picture of a cut from the horizon upwards."""
    table = cut_table(cut)
    return Picture(
        name="elevation", title=str(table.caption), behind=table,
        draw=drawing(charts.elevation_pattern, units=False, cuts=[cut]),
    )  # fmt: skip
