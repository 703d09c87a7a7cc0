"""What an improvement found, as plain data for other programs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from boomwright.base import Notice
from boomwright.design import (
    BandFigures,
    ComparedSpacing,
    Improvement,
    Tolerance,
)
from boomwright.parts import Beam
from boomwright.plan.resolve import boom_order
from boomwright.render.json.as_measured import measured_document
from boomwright.render.json.fields import fields, notice_rows
from boomwright.report.improve.found import WORST, wish_words
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.improve import ImproveResult
from boomwright.study.several_bands import BandsResult


def improve_document(result: ImproveResult) -> dict[str, Any]:
    """Turn an improvement into plain data; equal searches give equal data."""
    return {
        "plan": result.plan.title,
        "beam": result.before.name,
        **fields(result, "seed", "starts", "finished"),
        "kept": result.best.kept,
        "chosen": result.chosen,
        "before": _beam(result.before, result.figures_before, result.measured_before),
        "after": _beam(result.after, result.figures_after, result.measured_after),
        "searches": [_search(one) for one in result.found],
        "wish": list(wish_words(result.wish)),
        "compared": [compared_document(one) for one in result.compared],
        "tolerance": None if result.tolerance is None else tolerance_document(result.tolerance),
        "notices": _notices(result.notices),
    }


def bands_document(result: BandsResult) -> dict[str, Any]:
    """Turn a search over several bands into plain data."""
    order = boom_order(result.before)
    rows = zip(result.uses, result.figures, result.measured, strict=True)
    return {
        "plan": result.plan.title,
        "beam": result.before.name,
        **fields(result, "seed", "starts"),
        "finished": result.found.state.finished,
        "before": {"as_measured": measured_document(result.measured[0][0])},
        "after": {"as_measured": measured_document(result.measured[0][1])},
        "bands": [
            {
                **fields(use, "band_hz", "design_frequency_hz"),
                "driven": order[use.driven] + 1,
                "before": {**_worst(before), "as_measured": measured_document(seen[0])},
                "after": {**_worst(after), "as_measured": measured_document(seen[1])},
            }
            for use, (before, after), seen in rows
        ],
        "elements": [
            {"position_m": element.position, "half_length_m": element.half_length}
            for element in result.after.elements
        ],
        "notices": _notices(result.notices),
    }


def _notices(notices: Sequence[Notice]) -> list[dict[str, Any]]:
    names = ("code", "severity", "text", "value")
    return [{name: row[name] for name in names} for row in notice_rows(notices)]


def _beam(beam: Beam, figures: BandFigures, measured: AsMeasured | NotMeasured) -> dict[str, Any]:
    return {
        "as_measured": measured_document(measured),
        "elements": [
            {
                "role": each.role,
                "at_m": each.position,
                "length_m": each.length,
                "tip_m": each.half[-1].length if len(each.half) > 1 else None,
            }
            for each in beam.elements
        ],
        "boom_m": beam.boom_length,
        "worst": _worst(figures),
        "frequency_hz": figures.frequencies.tolist(),
        "gain_dbi": figures.gain_dbi.tolist(),
        "front_to_back_db": figures.front_to_back_db.tolist(),
        "front_to_rear_db": figures.front_to_rear_db.tolist(),
        "swr": figures.swr.tolist(),
        "impedance_ohm": [[z.real, z.imag] for z in figures.impedance.tolist()],
    }


def _worst(figures: BandFigures) -> dict[str, float]:
    return dict(zip(WORST, figures.worst, strict=True))


def _search(one: Improvement) -> dict[str, Any]:
    return {
        "elements": len(one.beam.elements),
        "kept": one.kept,
        "finished": one.state.finished,
        **fields(one, "starts", "agreeing", "evaluations"),
        "boom_m": one.beam.boom_length,
        "worst": _worst(one.after),
    }


def compared_document(one: ComparedSpacing) -> dict[str, Any]:
    """Turn one way to space the elements into plain data."""
    beam = one.improvement.beam
    return {
        "spacing": one.spacing,
        "kept": one.improvement.kept,
        "at_m": [each.position for each in beam.elements],
        "length_m": [each.length for each in beam.elements],
        "worst": _worst(one.sweep),
        "frequency_hz": one.sweep.frequencies.tolist(),
        "gain_dbi": one.sweep.gain_dbi.tolist(),
        "swr": one.sweep.swr.tolist(),
        "azimuth_deg": one.azimuth.angle_deg.tolist(),
        "azimuth_gain_dbi": one.azimuth.gain_dbi.tolist(),
    }


def tolerance_document(made: Tolerance) -> dict[str, Any]:
    """Turn a build tolerance into plain data."""
    return {
        **fields(made, "cut_within_m", "nominal"),
        "allowance": asdict(made.allowance),
        "spreads": [
            fields(spread, "cause", "lengthening_m", "gain_db", "front_to_back_db", "swr")
            for spread in made.spreads
        ],
    }
