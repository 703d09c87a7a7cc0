"""What the owner will measure of a beam, as plain data: the same in every command's document."""

from __future__ import annotations

from typing import Any

from boomwright.base.quantity import write
from boomwright.render.json.fields import fields
from boomwright.render.rows import plain
from boomwright.report.beam.measured import measured_words
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def measured_document(measured: AsMeasured | NotMeasured) -> dict[str, Any]:
    """Write what the owner will measure; the unit of each figure is in its name."""
    further = [
        {
            "band_hz": list(each.beam.band),
            "design_frequency_hz": each.beam.design_frequency,
            "as_measured": measured_document(each),
        }
        for each in measured.further
    ]
    return {**_measured(measured), **({"further_bands": further} if further else {})}


def _measured(measured: AsMeasured | NotMeasured) -> dict[str, Any]:
    if isinstance(measured, NotMeasured):
        return {"refusal": write(measured.refusal, system="metric")}
    line, swr, rear = measured.line, measured.swr_worst, measured.front_to_rear_worst
    return {
        "where": write(measured_words(measured), system="metric"),
        "match": measured.match.kind,
        "match_proposed": measured.proposed,
        "line": None if line is None else {"type": line.line.name, "length_m": line.length},
        "ground": measured.ground.name or measured.ground.kind,
        "height_m": measured.beam.height,
        "neighbours": [other.name for other in measured.beam.neighbours],
        **fields(measured, "reference_ohm", "swr_design"),
        "swr_worst": plain(swr[0]),
        "swr_worst_at_hz": swr[1],
        "match_swr_design": plain(measured.match.swr),
        "match_swr_worst": plain(float(measured.match_swr.max())),
        "front_to_rear_worst_db": plain(rear[0]),
        "front_to_rear_worst_at_hz": rear[1],
        **fields(measured, "gain_dbi", "take_off_deg"),
        "error": {"match_swr_design": plain(measured.match.error.swr)},
        "sweep": [
            {"frequency_hz": float(f), "swr": plain(float(a)), "match_swr": plain(float(b))}
            for f, a, b in zip(measured.frequency, measured.swr, measured.match_swr, strict=True)
        ],
    }
