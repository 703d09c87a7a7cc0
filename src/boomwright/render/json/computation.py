"""The readings as one plain document: what ``compute --json`` prints."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from boomwright.reach import BeamReadings, Beside, BesideFigures, OverGround
from boomwright.render.json.as_measured import measured_document
from boomwright.render.json.fields import fields, notice_rows
from boomwright.report.beam.measured import bare_words
from boomwright.solver import SweepPoint
from boomwright.study.computing import Computation
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def computation_document(computation: Computation) -> dict[str, Any]:
    """Write readings as numbers, texts, lists and dictionaries only.

    A figure without a finite value, such as the front-to-back ratio of a dipole's exact null,
    becomes None. Every name is in ``docs/nomenclature.md``.

    Returns:
        the document; the unit of each figure is in its name
    """
    return {
        "beams": [
            {**_beam(readings, measured), "as_measured": measured_document(measured)}
            for readings, measured in zip(computation.beams, computation.as_measured, strict=True)
        ],
        "notices": notice_rows(computation.told),
    }


def _beam(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> dict[str, Any]:
    return {
        "name": readings.beam.name,
        "design_frequency_hz": readings.beam.design_frequency,
        "reference_ohm": readings.reference_resistance,
        "sweep": [_point(point) for point in readings.sweep],
        "power_balance": _finite(readings.power_balance),
        "free_space": _point(readings.free_space),
        "matched": _matched(readings, measured),
        "driven": [
            {
                "element": each.label,
                "impedance_ohm": [_finite(each.impedance.real), _finite(each.impedance.imag)],
                "current": [_finite(each.current.real), _finite(each.current.imag)],
            }
            for each in readings.drives
        ],
        "over_ground": _over_ground(readings.over_ground) if readings.over_ground else None,
        "beside": None if readings.beside is None else beside_document(readings.beside),
        "notices": notice_rows(readings.notices),
    }


def _matched(readings: BeamReadings, measured: AsMeasured | NotMeasured) -> dict[str, Any]:
    """The ratio behind the plan's match, that of the bare split where it cannot be solved."""
    if isinstance(measured, NotMeasured):
        return {
            "where": bare_words(readings.beam),
            "swr": [_finite(point.swr) for point in readings.sweep],
        }
    low, high = measured.frequency[0], measured.frequency[-1]
    return {
        "where": "as measured, at the match",
        "swr": [
            float(np.interp(point.frequency, measured.frequency, measured.match_swr))
            if low <= point.frequency <= high
            else None
            for point in readings.sweep
        ],
    }


def _point(point: SweepPoint) -> dict[str, Any]:
    return {
        "frequency_hz": point.frequency,
        "impedance_ohm": [_finite(point.impedance.real), _finite(point.impedance.imag)],
        **fields(point, "swr", "gain_dbi", "front_to_back_db", "front_to_rear_db", "efficiency"),
        "error": {
            "impedance_ohm": _finite(point.impedance_error),
            "swr": _finite(point.swr_error),
            "gain_db": _finite(point.gain_error_db),
            "front_to_back_db": _finite(point.front_to_back_error_db),
        },
    }


def beside_document(beside: Beside) -> dict[str, Any]:
    """Write what stands beside a beam."""

    def figures(each: BesideFigures) -> dict[str, Any]:
        return {
            **fields(each, "gain_dbi", "front_to_back_db"),
            "impedance_ohm": [_finite(each.impedance.real), _finite(each.impedance.imag)],
        }

    feeds = dict(beside.feeds)
    return {
        "neighbours": [
            {
                **fields(each, "name", "closest_m"),
                "most_gain_change_db": each.gain_db,
                "computed_together": each.counts,
                "idle_feed": feeds.get(each.name),
            }
            for each in beside.reach
        ],
        "idle_feeds_unsaid": list(beside.asked),
        "alone": figures(beside.alone),
        "together": figures(beside.together),
        "by_idle_feed": {answer: figures(each) for answer, each in beside.answers},
    }


def _over_ground(over: OverGround) -> dict[str, Any]:
    return {
        "impedance_ohm": [_finite(over.impedance.real), _finite(over.impedance.imag)],
        **fields(over, "peak_gain_dbi", "peak_elevation_deg"),
        "lobes": [
            {"elevation_deg": lobe.elevation_deg, "gain_dbi": _finite(lobe.gain_dbi)}
            for lobe in over.lobes
        ],
        **fields(over, "nulls_deg", "fires_forward"),
        "main_lobe": {
            "azimuth_deg": over.main_lobe.azimuth_deg,
            "elevation_deg": over.main_lobe.elevation_deg,
            "gain_dbi": _finite(over.main_lobe.gain_dbi),
        },
        "error": {
            "gain_db": _finite(over.gain_error_db),
            "impedance_ohm": _finite(over.impedance_error),
        },
    }


def _finite(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None
