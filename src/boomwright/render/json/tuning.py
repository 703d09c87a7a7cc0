"""What tuning says as one plain document: what ``tune --json`` prints."""

from __future__ import annotations

import math
from dataclasses import asdict
from typing import Any

from boomwright.render.json.fields import fields, notice_rows
from boomwright.render.rows import plain, plain_rows
from boomwright.report.tuning import further_table
from boomwright.study.tuning_parts.on_air import AimedAt, HeardRun
from boomwright.study.tuning_parts.results import Trial, TuneResult
from boomwright.tuning import BAND


def tuning_document(result: TuneResult) -> dict[str, Any]:
    """Write the result as numbers, texts, lists and dictionaries only.

    Returns:
        the document; amounts are in the unit said beside them
    """
    report, reading, told = result.faults, result.line_reading, result.identification
    return {
        "beam": result.beam.name,
        "reference_ohm": result.sweep.reference,
        "trials": [
            _trial(trial, file) for trial, file in zip(result.trials, result.files, strict=True)
        ],
        "alike": [
            {
                "parts": [cause.key for cause in group.causes],
                "correlation": group.correlation,
                "would_tell": None if group.further is None else plain(group.further.name),
            }
            for group in told.alike
        ],
        "untold": [cause.key for cause in told.untold],
        "further_measurements": plain_rows(further_table(result)),
        "line": None
        if reading is None
        else fields(reading, "impedance_ohm", "electrical_length_m", "loss_db"),
        "fault": None
        if report is None
        else {
            "verdict": report.verdict,
            "kinds": [{"kind": kind, "probability": share} for kind, share in report.kinds],
            "named": [fields(each, "kind", "text", "look", "probability") for each in report.named],
        },
        "on_air": [_heard(each) for each in result.heard],
        "alignment": _alignment(result.aimed),
        "notices": notice_rows(result.notices),
    }


def _trial(trial: Trial, file: str) -> dict[str, Any]:
    found, advice = trial.trimming, trial.advice
    return {
        **fields(trial, "number", "day", "note"),
        "sweep": file,
        "moves": dict(trial.moves),
        **fields(found, "explained", "misfit", "strain"),
        "deviations": [
            {
                **fields(cause, "key", "label", "unit"),
                "most_probable": float(mean),
                "band": BAND * float(spread),
            }
            for cause, mean, spread in zip(found.causes, found.mean, found.spread, strict=True)
        ],
        "verdict": advice.verdict,
        "advice": [asdict(step) | {"text": plain(step.text)} for step in advice.steps],
        "swr_now": asdict(advice.now),
        "swr_after": asdict(advice.after),
        "chance_of_worse": advice.worse,
        **fields(advice, "within_reach", "resistance_after_ohm", "reactance_after_ohm"),
        "frequencies_hz": advice.frequencies.tolist(),
        "expected_reflection": [[float(v.real), float(v.imag)] for v in advice.expected],
    }


def _heard(each: HeardRun) -> dict[str, Any]:
    reading = each.reading
    return {
        "heard": each.name,
        **fields(each, "day", "note"),
        "bearing_deg": math.degrees(each.bearing),
        **fields(reading, "front_to_back_db", "computed_front_to_back_db"),
        "beam_width_deg": math.degrees(reading.beam_width),
        "computed_beam_width_deg": math.degrees(reading.computed_beam_width),
        "rotator_offset_deg": math.degrees(reading.offset),
        "rotator_offset_band_deg": math.degrees(reading.offset_band),
        "scatter_db": reading.scatter_db,
    }


def _alignment(aimed: AimedAt | None) -> dict[str, Any] | None:
    if aimed is None:
        return None
    return {
        "rotator_offset_deg": math.degrees(aimed.alignment.offset),
        "rotator_offset_band_deg": math.degrees(aimed.alignment.band),
        "left_deg": [math.degrees(left) for left in aimed.alignment.left],
    }
