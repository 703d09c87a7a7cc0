"""What the owner will measure of a beam, in single figures: the first ones shown anywhere."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.parts import Beam
from boomwright.reach import BeamReadings
from boomwright.report.beam.readings import sweep_table
from boomwright.report.model import Fact, Table, fact
from boomwright.report.wording import clean, held_at
from boomwright.solver import SweepPoint
from boomwright.study.as_measured import USUAL_LINE
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def measured_words(measured: AsMeasured | NotMeasured) -> Value:
    """Say what the figures stand for: match, height, ground, neighbours, line."""
    if isinstance(measured, NotMeasured):
        return phrase("match not computed: {why}", why=measured.refusal)
    beam, ground, line = measured.beam, measured.ground, measured.line
    height = Quantity(beam.height, "span")
    over: Value = "in free space"
    if ground.kind != "free space":
        name = "perfect" if ground.kind == "perfect" else clean(ground.name) or "its"
        over = phrase("{}{} over {} ground", f"{held_at(beam)} ".lstrip(), height, name)
    near = ", ".join(clean(other.name) for other in beam.neighbours)
    at: Value = "at the match, because the plan has no line"
    if line is not None:
        at = phrase("at the radio, through {:span} of {}", line.length, clean(line.line.name))
    return phrase(
        "{kind}{proposed}, {over}{near}; SWR {at}",
        kind=clean(measured.match.kind),
        proposed=" with the proposed dimensions" if measured.proposed else "",
        over=over,
        near=f", beside {near}" if near else "",
        at=at,
    )


def measured_facts(measured: AsMeasured) -> tuple[Fact, ...]:
    """Pick the four figures that the owner will measure."""
    worst, design = measured.swr_worst[0], measured.swr_design
    # Bands stand in the tables; that there is none is said at once.
    unknown = math.inf if math.isinf(measured.match.error.swr) else 0.0
    lobe: Value = "none (free space)"
    gain = "Gain, free space, matched"
    if measured.take_off_deg is not None:
        lobe, gain = Quantity(measured.take_off_deg, "angle"), "Modelled gain"
    return (
        fact(
            "SWR as measured, worst",
            phrase("{}, {:swr} at design", Quantity(worst, "swr", unknown), design),
        ),
        fact("Front-to-rear, worst in band", Quantity(measured.front_to_rear_worst[0], "ratio")),
        fact(gain, Quantity(measured.gain_dbi, "gain")),
        fact("Take-off angle", lobe),
    )


def band_facts(measured: AsMeasured | NotMeasured | None) -> tuple[Fact, ...]:
    """Say the four figures of every further band of the same antenna, a line each (n_bands,)."""
    return tuple(
        fact(band_words(each.beam), measured_line(each))
        for each in (measured.further if measured is not None else ())
    )


def band_words(beam: Beam) -> Value:
    """Say which band a beam is used on."""
    low, high = (Quantity(edge, "frequency") for edge in beam.band)
    return phrase("On {low} to {high}", low=low, high=high)


def seen_readings(
    readings: BeamReadings, measured: AsMeasured | NotMeasured | None
) -> BeamReadings:
    """Take the standing wave ratio that is measured over the band, where the match was solved.

    Args:
        measured: None when nobody asked

    Returns:
        the same figures with the other ratio at the frequencies it was solved for; all of them
            with that of the bare split where it was not, or against a resistance of one's own
    """
    if not isinstance(measured, AsMeasured):
        return readings
    if readings.reference_resistance not in {USUAL_LINE, measured.reference}:
        # Somebody asked for another resistance to hold the split element against.
        return readings
    low, high = measured.frequency[0], measured.frequency[-1]
    sweep = tuple(
        replace(
            point,
            swr=float(np.interp(point.frequency, measured.frequency, measured.swr)),
            swr_error=measured.match.error.swr,
        )
        for point in readings.sweep
        if low <= point.frequency <= high
    )
    if not sweep:
        return readings
    return replace(readings, sweep=sweep, reference_resistance=measured.reference)


@dataclass(frozen=True, slots=True, kw_only=True)
class SwrSpan:
    """Standing wave ratio over a band."""

    lowest: float  #: least ratio [-]
    highest: float  #: greatest ratio [-]
    error: float  #: half width of the band of the greatest [-]
    at: float  #: frequency of the greatest [Hz]


def swr_span(readings: BeamReadings, measured: AsMeasured | NotMeasured | None) -> SwrSpan:
    """Read the ratio over the band as measured; that of the bare split where no match is solved."""
    if isinstance(measured, AsMeasured):
        highest, at = measured.swr_worst
        lowest = float(measured.swr.min())
        return SwrSpan(lowest=lowest, highest=highest, error=measured.match.error.swr, at=at)
    worst = max(readings.sweep, key=lambda point: point.swr)
    return SwrSpan(
        lowest=min(point.swr for point in readings.sweep),
        highest=worst.swr,
        error=worst.swr_error,
        at=worst.frequency,
    )


def seen_words(readings: BeamReadings, measured: AsMeasured | NotMeasured | None) -> str:
    """Say what the standing wave ratio of :func:`seen_readings` stands for."""
    if isinstance(measured, AsMeasured) and seen_readings(readings, measured) is not readings:
        return f"as measured, {'at the match' if measured.line is None else 'at the radio'}"
    return bare_words(readings.beam)


def seen_table(
    readings: BeamReadings, measured: AsMeasured | NotMeasured | None
) -> Table[SweepPoint]:
    """Figures over the band, the standing wave ratio as a meter reads it."""
    seen = seen_readings(readings, measured)
    table = sweep_table(seen.sweep, reference=seen.reference_resistance)
    words = seen_words(readings, measured)
    return replace(table, caption=f"Over the band: free space, SWR {words}")


def bare_words(beam: Beam) -> str:
    """Say what the standing wave ratio of the split element by itself leaves out."""
    feed = beam.feed
    missing = feed.kind if feed.kind != "split" else "balun" if feed.balun else ""
    return f"bare split, without the {missing}" if missing else "at the split"


def measured_line(measured: AsMeasured | NotMeasured) -> Value:
    """Say the four figures in one line, or why there are none."""
    if isinstance(measured, NotMeasured):
        return measured_words(measured)
    lobe: Value = "in free space"
    if measured.take_off_deg is not None:
        lobe = phrase("at {angle:angle}", angle=measured.take_off_deg)
    return phrase(
        "SWR {worst:swr} worst, {design:swr} at design; front-to-rear {rear:ratio} worst; "
        "{gain:gain} {lobe}",
        worst=measured.swr_worst[0],
        design=measured.swr_design,
        rear=measured.front_to_rear_worst[0],
        gain=measured.gain_dbi,
        lobe=lobe,
    )
