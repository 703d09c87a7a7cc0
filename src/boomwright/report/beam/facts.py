"""What the book says of a beam in words and single numbers: title block, inputs, summary."""

from __future__ import annotations

import math
from typing import Any

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.parts import Beam
from boomwright.reach import BeamReadings
from boomwright.report.beam.measured import (
    SwrSpan,
    bare_words,
    measured_facts,
    seen_words,
    swr_span,
)
from boomwright.report.model import Fact, Table, cells, fact
from boomwright.report.site import ground_text
from boomwright.report.wording import clean, height_label, surrounded
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def _degrees(radians: float, kind: str) -> Quantity:
    return Quantity(math.degrees(radians), kind)


def title_facts(beam: Beam) -> tuple[Fact, ...]:
    """List the title block of one beam."""
    low, high = (Quantity(edge, "frequency") for edge in beam.band)
    heading = phrase("{angle} from true north", angle=_degrees(beam.heading % math.tau, "angle"))
    return (
        fact("Band", phrase("{low} to {high}", low=low, high=high)),
        fact("Design frequency", Quantity(beam.design_frequency, "frequency")),
        fact(height_label(beam), _in_waves(beam.height, beam)),
        fact("Heading", "all round alike" if beam.all_round else heading),
    )


def _in_waves(length: float, beam: Beam) -> Value:
    return phrase("{:span}, {:factor} wavelengths", length, length / beam.wavelength)


def input_facts(readings: BeamReadings) -> tuple[Fact, ...]:
    """List everything the figures of one beam were computed from, dimensions apart."""
    beam = readings.beam
    conductivity = beam.material.conductivity
    metal = "lossless" if math.isinf(conductivity) else f"{conductivity / 1e6:.1f} MS/m"
    gap = Quantity(beam.feed.gap, "span" if beam.feed.gap >= 1.0 else "small length")
    reference = Quantity(readings.reference_resistance, "nominal resistance")
    material = f"{clean(beam.material.name)}, conductivity {metal}"
    facts = [
        *title_facts(beam),
        fact("First to last element", _in_waves(beam.boom_length, beam)),
        fact("Elements", len(beam.elements)),
        fact("Element material", material),
        fact("Feed", phrase("{kind}, gap {gap}", kind=clean(beam.feed.kind), gap=gap)),
        fact("SWR reference", reference),
    ]
    if beam.wires:
        names = ", ".join(clean(wire.name) for wire in beam.wires)
        facts.append(fact("Further wires", names))
    return tuple(facts)


def banded(value: float, kind: str, error: float) -> Quantity:
    """Take a figure with its band, where there is one.

    Args:
        value, error: the figure, and the half width of its band [SI]
    """
    return Quantity(value, kind, 0.0 if math.isnan(error) else error)


def _gain(readings: BeamReadings) -> Quantity:
    here = readings.free_space
    return banded(here.gain_dbi, "gain", here.gain_error_db)


def _front_to_back(readings: BeamReadings) -> Quantity:
    here = readings.free_space
    return banded(here.front_to_back_db, "ratio", here.front_to_back_error_db)


def _swr(span: SwrSpan) -> Value:
    """Lowest to highest over the band."""
    return phrase("{:swr} to {}", span.lowest, banded(span.highest, "swr", span.error))


def headline(readings: BeamReadings, measured: AsMeasured | NotMeasured | None) -> tuple[Fact, ...]:
    """Pick the four numbers that stand on the first page: what the owner will measure.

    Args:
        measured: None when nobody asked; the labels of the figures without a match say so
    """
    if isinstance(measured, AsMeasured):
        return measured_facts(measured)
    over = readings.over_ground
    lobe: Value = "free space"
    if over is not None:
        lobe = Quantity(over.peak_elevation_deg, "angle")
    return (
        fact("Gain, free space", _gain(readings)),
        fact("Front-to-back, free space", _front_to_back(readings)),
        fact(f"SWR, {bare_words(readings.beam)}", _swr(swr_span(readings, None))),
        fact("Take-off angle", lobe),
    )


def summary_table(readings: BeamReadings, measured: AsMeasured | NotMeasured | None) -> Table[Any]:
    """List the main figures with their error bands."""
    here = readings.free_space
    at_design = Quantity(here.frequency, "frequency")
    around = surrounded(readings.beam).removeprefix("in ")
    span = swr_span(readings, measured)
    reference = readings.reference_resistance
    if isinstance(measured, AsMeasured):
        reference = measured.reference
    words = "{}; highest at {:frequency}, against {:nominal resistance}"
    swr_at = phrase(words, seen_words(readings, measured), span.at, reference)
    rows: list[tuple[str, Value, Value]] = [
        ("SWR over the band", _swr(span), swr_at),
        *_ground_rows(readings, measured),
        (
            f"Gain, {around}",
            _gain(readings),
            phrase("{at}, towards the heading, losses of the metal included", at=at_design),
        ),
        (
            f"Front-to-back, {around}",
            _front_to_back(readings),
            phrase("{at}, exactly backwards", at=at_design),
        ),
        (
            f"Front-to-rear, {around}",
            Quantity(here.front_to_rear_db, "ratio"),
            phrase(
                "{at}, against the strongest gain in the rear half; worst in band {worst:ratio}",
                at=at_design,
                worst=min(point.front_to_rear_db for point in readings.sweep),
            ),
        ),
        (
            f"Feed impedance, {around}",
            banded_impedance(here.impedance, here.impedance_error),
            at_design,
        ),
        (
            "Efficiency",
            Quantity(here.efficiency, "efficiency"),
            phrase(
                "radiated over accepted power; power balance of the computation {:power balance}",
                readings.power_balance,
            ),
        ),
    ]
    return Table(
        name="summary", caption="Summary", columns=cells("", "", ""), items=rows, sentences=True
    )


def banded_impedance(impedance: complex, error: float) -> Quantity:
    """Take an impedance with the band of its modulus.

    Args:
        impedance, error: impedance and half width of its band [ohm]
    """
    return Quantity(impedance, "impedance", 0.0 if math.isnan(error) else error)


def _ground_rows(
    readings: BeamReadings, measured: AsMeasured | NotMeasured | None
) -> list[tuple[str, Value, Value]]:
    """The figures of the first page with their bands, as far as the match is solved."""
    over = readings.over_ground
    if over is None:
        return [("Take-off angle", "none", "the plan says free space: no ground, no lobes")]
    where: Value = phrase("boom at {:span} over {}", over.height, ground_text(over.ground))
    angle, gain = over.peak_elevation_deg, over.peak_gain_dbi
    rear: list[tuple[str, Value, Value]] = []
    if isinstance(measured, AsMeasured) and measured.take_off_deg is not None:
        angle, gain = measured.take_off_deg, measured.gain_dbi
        worst, at = measured.front_to_rear_worst
        seen = phrase("over the ground, at {at:frequency}", at=at)
        rear = [("Front-to-rear, worst in band", Quantity(worst, "ratio"), seen)]
        where = phrase("matched, {where}", where=where)
    return [
        *rear,
        ("Modelled gain", banded(gain, "gain", over.gain_error_db), where),
        (
            "Take-off angle",
            Quantity(angle, "angle"),
            "elevation of the strongest lobe towards the heading",
        ),
        (
            "Feed impedance over ground",
            Quantity(over.impedance, "impedance"),
            "at the design frequency, before the match",
        ),
    ]
