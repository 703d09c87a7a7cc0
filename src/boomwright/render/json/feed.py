"""What the feed says as one plain document: what ``feed --json`` prints."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from boomwright.base.quantity import write
from boomwright.feed import Bandwidth, BraidReading, FieldMatch, GammaAdjustment
from boomwright.render.json.as_measured import measured_document
from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.feed.tables import kinds_table, turning_table
from boomwright.study.adopting import Adoption
from boomwright.study.feed import phase_lengths
from boomwright.study.feed_parts.power import band_swr
from boomwright.study.feed_parts.results import (
    BeamFeed,
    BraidCase,
    CircuitTry,
    FeedResult,
    LineResult,
)
from boomwright.study.feed_parts.tries import stages_phrase


def feed_document(result: FeedResult) -> dict[str, Any]:
    """Write the result as numbers, texts, lists and dictionaries only.

    A figure without a finite value becomes None.

    Returns:
        the document; the unit of each figure is in its name
    """
    lines = result.stack_lines
    return {
        **fields(result, "power_w", "duty_factor"),
        "beams": [_beam(each) for each in result.beams],
        "stack_lines": None
        if lines is None
        else {
            "line_ohm": lines.line_impedance,
            **fields(
                lines,
                "beams",
                "velocity_factor",
                "quarter_waves",
                "length_m",
                "junction_ohm",
                "swr",
            ),
        },
        "notices": notice_rows(result.notices),
    }


def adoption_document(made: Adoption) -> dict[str, Any]:
    """Write what adopting a match changes."""
    beam = made.after.beam
    return {
        "name": beam.name,
        "kind": beam.feed.kind,
        "before": measured_document(made.before),
        "after": measured_document(made.after),
        "driven_length_m": [
            each.elements[each.driven_index].length for each in (made.before.beam, beam)
        ],
    }


def _finite(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def _pair(value: complex) -> list[float]:
    return [float(value.real), float(value.imag)]


def _beam(each: BeamFeed) -> dict[str, Any]:
    needed = each.choke_needed
    return {
        "name": each.beam.name,
        "kind": each.beam.feed.kind,
        "design_frequency_hz": each.beam.design_frequency,
        "reference_ohm": each.reference,
        "as_measured": measured_document(each.measured),
        "bare": [
            {"frequency_hz": float(f), "impedance_ohm": _pair(complex(z)), "swr": _finite(float(s))}
            for f, z, s in zip(
                each.before.frequency, each.before.impedance, each.before.swr, strict=True
            )
        ],
        "as_drawn": _match(each.drawn) if each.drawn else {"refusal": plain(each.drawn_words)},
        "proposed": _match(each.proposed)
        if each.proposed
        else {"refusal": plain(each.proposed_words)},
        "kinds": [
            {**row, **_try(item)}
            for row, item in zip(plain_rows(kinds_table(each)), each.tries, strict=True)
        ],
        "ratings": [
            {
                "part": write(item.part, system="metric"),
                "peak_voltage_v": item.peak_voltage,
                "rated_voltage_v": item.rated_voltage or None,
                "current_a": item.current,
            }
            for item in each.ratings
        ],
        "line": _line(each.line) if each.line else None,
        "phase_lengths": [
            {"delay_deg": math.degrees(delay), "length_m": length}
            for delay, length in phase_lengths(each)
        ],
        "braid": [_case(case) for case in each.braids],
        "choke_needed": None
        if needed is None
        else fields(needed, "impedance_ohm", "voltage_v", "heat_w"),
        "choke": None
        if each.choke_work is None
        else fields(each.choke_work, "impedance_ohm", "voltage_v", "heat_w"),
        "adjustment": _adjustment(each.adjustment) if each.adjustment else None,
        "turn_first": plain_rows(turning_table(each)),
    }


def _match(match: FieldMatch) -> dict[str, Any]:
    frequency, swr = band_swr(match)
    element = match.beam.elements[match.beam.driven_index]
    return {
        "kind": match.kind,
        "dimensions_m_f": asdict(match.shape),
        "driven_half_m": element.half_length,
        "impedance_ohm": _pair(match.impedance),
        "swr": match.swr,
        "swr_of_circuit_dimensions": _finite(match.swr_of_start),
        "comparisons": [
            fields(item, "name", "unit", "circuit", "field", "difference")
            for item in match.comparisons
        ],
        "sweep": [
            {"frequency_hz": float(f), "swr": _finite(float(s))}
            for f, s in zip(frequency, swr, strict=True)
        ],
        "bandwidth": _bandwidth(match.match.bandwidth),
        "error": fields(match.error, "impedance_ohm", "pieces_ohm", "proximity_ohm", "swr"),
        "field_solutions": match.evaluations,
    }


def _bandwidth(bandwidth: Bandwidth | None) -> dict[str, Any] | None:
    if bandwidth is None:
        return None
    return fields(bandwidth, "low_hz", "high_hz", "swr_limit", "complete")


def _try(item: CircuitTry) -> dict[str, Any]:
    stages = item.match.stages if item.match else ()
    return {
        "first_values": write(stages_phrase(stages), system="metric"),
        "bandwidth": _bandwidth(item.match.bandwidth) if item.match else None,
        "refusal": plain(item.refusal),
    }


def _line(line: LineResult) -> dict[str, Any]:
    rating = line.rating
    return {
        "type": line.line.name,
        "length_m": line.length,
        "matched_loss_db": line.reading.matched_loss_db,
        "mismatch_loss_db": line.reading.mismatch_loss_db,
        "sweep": [
            {
                "frequency_hz": float(f),
                "feed_swr": _finite(float(a)),
                "radio_swr": _finite(float(b)),
                "loss_db": float(loss),
                "radio_impedance_ohm": _pair(complex(z)),
            }
            for f, a, b, loss, z in zip(
                line.frequency,
                line.feed_swr,
                line.shack_swr,
                line.loss_db,
                line.shack_impedance,
                strict=True,
            )
        ],
        "rating": rating
        and fields(rating, "peak_voltage_v", "current_a", "heat_w_per_m", "jacket_rise_k"),
    }


def _case(case: BraidCase) -> dict[str, Any]:
    return {
        "line": plain(case.words),
        "down_m": case.braid.down,
        "enough_ohm": case.enough,
        "chokes": [{"choke": name, **_reading(reading)} for name, reading in case.readings],
    }


def _reading(reading: BraidReading) -> dict[str, Any]:
    return {
        "impedance_ohm": _pair(reading.choke),
        "direction_shift_deg": math.degrees(reading.direction_shift),
        **fields(
            reading,
            "greatest_current",
            "choke_current",
            "pattern_change_db",
            "left_right_db",
            "front_to_back_loss_db",
            "choke_loss",
        ),
    }


def _adjustment(picture: GammaAdjustment) -> dict[str, Any]:
    return {
        "strap_m": picture.rod_length.tolist(),
        "best_strap_m": picture.best_rod_length,
        **fields(
            picture,
            "frequency_hz",
            "capacitance_f",
            "swr",
            "best_capacitance_f",
            "resistance_slope_ohm_per_m",
            "reactance_slope_ohm_per_m",
        ),
    }
