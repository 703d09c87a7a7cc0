"""What a computed beam does: gain, pattern, lobes, standing wave ratio, currents."""

from __future__ import annotations

import cmath
import math
from dataclasses import replace
from typing import Any, Final

from boomwright import charts
from boomwright.base.quantity import listed, phrase
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import station_assembly
from boomwright.reach import BeamReadings
from boomwright.report.beam.facts import banded_impedance, headline, input_facts, summary_table
from boomwright.report.beam.measured import (
    band_facts,
    measured_words,
    seen_readings,
    seen_table,
    seen_words,
)
from boomwright.report.beam.readings import (
    current_table,
    cut_table,
    lobe_table,
    size_table,
    sweep_table,
)
from boomwright.report.model import (
    Fact,
    Picture,
    Report,
    Table,
    drawing,
    fact,
    facts_table,
    thinned,
)
from boomwright.report.wording import clean, fixed, surrounded
from boomwright.solver import PatternCut, SweepPoint
from boomwright.study.computing import Computation
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured

#: frequencies over the band that a quick look shows
_FEW: Final = 5
#: what neighbours change in gain that the answer speaks of [dB]
_BESIDE_MATTERS_DB: Final = 0.1


def computed_reports(result: Computation) -> tuple[Report, ...]:
    """Say of every beam what it does."""
    pairs = zip(result.beams, result.as_measured, strict=True)
    return tuple(
        beam_report(readings, measured=measured, plan=result.plan) for readings, measured in pairs
    )


def beam_report(
    readings: BeamReadings, *, measured: AsMeasured | NotMeasured, plan: Plan
) -> Report:
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
        pictures=_pictures(readings, measured, plan),
        tables=(
            summary_table(readings, measured),
            facts_table("inputs", "Computed from", input_facts(readings)),
            sweep_table(readings.sweep, reference=readings.reference_resistance),
            *([lobe_table(over)] if over is not None else []),
        ),
        notices=readings.notices,
    )


def _brief(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> Table[SweepPoint]:
    """A few frequencies over the band, the standing wave ratio as a meter reads it."""
    seen = seen_readings(readings, measured)
    table = sweep_table(thinned(seen.sweep, _FEW), reference=seen.reference_resistance)
    where = surrounded(readings.beam).removeprefix("in ")
    heads = {head: f"{head}, {where}" for head in ("gain", "front-to-rear")}
    columns = [replace(each, head=heads.get(str(each.head), each.head)) for each in table.columns]
    return replace(
        table, caption="Over the band", columns=tuple(columns),
        basis=f"Figures {surrounded(readings.beam)}, gain towards the heading; SWR "
        f"{seen_words(readings, measured)}.",
    )  # fmt: skip


def _answer(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> tuple[Fact, ...]:
    standing = fact("As measured", measured_words(measured))
    own = headline(readings, measured)
    return (*own, *band_facts(measured), *_beside(readings), *_drives(readings), standing)


def _beside(readings: BeamReadings) -> tuple[Fact, ...]:
    """What the neighbours take, where they matter."""
    beside = readings.beside
    if beside is None or max(abs(beside.loss_db), beside.spread_db) < _BESIDE_MATTERS_DB:
        return ()
    taken = [
        f"; feed of {clean(name)} not said, so {answer}, the worst, is taken"
        for name, answer in beside.feeds
        if name in beside.asked
    ]
    return (
        fact(
            f"Beside {', '.join(clean(each.name) for each in beside.reach if each.counts)}",
            phrase(
                "{together:gain} in free space, {alone:gain} alone{taken}",
                together=beside.together.gain_dbi,
                alone=beside.alone.gain_dbi,
                taken="".join(taken),
            ),
        ),
    )


def _drives(readings: BeamReadings) -> tuple[Fact, ...]:
    """Impedance and current of several driven elements."""
    if not readings.drives:
        return ()
    over = readings.over_ground
    error = readings.free_space.impedance_error if over is None else over.impedance_error
    each = [
        phrase(
            "{impedance} with current {size} at {angle:whole angle}",
            impedance=banded_impedance(drive.impedance, error),
            size=fixed(abs(drive.current), 2),
            angle=math.degrees(cmath.phase(drive.current)),
        )
        for drive in readings.drives
    ]
    return (fact("Driven elements at their own feeds", listed(each, between="; ")),)


def _from_above(*, beam: Beam, plan: Plan, **given: Any) -> str:
    return charts.plan_view(beam=beam, station=station_assembly(plan), **given)


def _pictures(
    readings: BeamReadings, measured: AsMeasured | NotMeasured, plan: Plan
) -> tuple[Picture, ...]:
    beam, over = readings.beam, readings.over_ground
    sweep = sweep_table(readings.sweep, reference=readings.reference_resistance)
    seen = seen_readings(readings, measured)
    cut = readings.azimuth_pattern if over is None else over.azimuth_pattern
    return (
        Picture(
            name="plan",
            title="Plan view",
            draw=drawing(_from_above, beam=beam, plan=plan),
            behind=size_table(beam),
        ),
        azimuth_picture(cut),
        elevation_picture(readings.elevation_pattern if over is None else over.elevation_pattern),
        Picture(
            name="swr",
            title=f"Standing wave ratio, {seen_words(readings, measured)}",
            draw=drawing(charts.sweep_chart, units=False, readings=seen),
            behind=seen_table(readings, measured),
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
