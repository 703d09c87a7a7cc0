"""What an improvement found, as plain data for other programs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import asdict
from typing import Any

from boomwright.base import Notice, quantity_text
from boomwright.design import (
    BandFigures,
    ComparedSpacing,
    Improvement,
    Tolerance,
    Wish,
)
from boomwright.parts import Beam
from boomwright.plan.resolve import boom_order
from boomwright.report.improve.records import WORST
from boomwright.study.improve import ImproveResult
from boomwright.study.several_bands import BandsResult


def improve_document(result: ImproveResult) -> dict[str, Any]:
    """Turn an improvement into plain data; equal searches give equal data."""
    return {
        "plan": result.plan.title,
        "beam": result.before.name,
        "seed": result.seed,
        "starts": result.starts,
        "finished": result.finished,
        "kept": result.best.kept,
        "chosen": result.chosen,
        "before": _beam(result.before, result.figures_before),
        "after": _beam(result.after, result.figures_after),
        "searches": [_search(one) for one in result.found],
        "wish": wish_words(result.wish),
        "compared": [compared_document(one) for one in result.compared],
        "tolerance": None if result.tolerance is None else tolerance_document(result.tolerance),
        "notices": _notices(result.notices),
    }


def bands_document(result: BandsResult) -> dict[str, Any]:
    """Turn a search over several bands into plain data."""
    order = boom_order(result.before)
    rows = zip(result.uses, result.found.before, result.found.after, strict=True)
    return {
        "plan": result.plan.title,
        "beam": result.before.name,
        "seed": result.seed,
        "starts": result.starts,
        "finished": result.found.state.finished,
        "bands": [
            {
                "band_hz": list(use.band),
                "design_frequency_hz": use.design_frequency,
                "driven": order[use.driven] + 1,
                "before": _worst(before),
                "after": _worst(after),
            }
            for use, before, after in rows
        ],
        "elements": [
            {"position_m": element.position, "half_length_m": element.half_length}
            for element in result.after.elements
        ],
        "notices": _notices(result.notices),
    }


def _notices(notices: Sequence[Notice]) -> list[dict[str, str]]:
    return [
        {"code": n.code, "severity": n.severity, "text": n.text, "value": n.value} for n in notices
    ]


def _beam(beam: Beam, figures: BandFigures) -> dict[str, Any]:
    return {
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
        "starts": one.starts,
        "agreeing": one.agreeing,
        "evaluations": one.evaluations,
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
        "cut_within_m": made.cut_within,
        "nominal": list(made.nominal),
        "allowance": asdict(made.allowance),
        "spreads": [
            {
                "cause": spread.cause,
                "lengthening_m": spread.lengthening,
                "gain_db": list(spread.gain_db),
                "front_to_back_db": list(spread.front_to_back_db),
                "swr": list(spread.swr),
            }
            for spread in made.spreads
        ],
    }


def wish_words(wish: Wish) -> list[str]:
    """Say in phrases what a search was to reach and to keep."""
    targets = wish.targets
    weights = (
        ("gain", targets.gain_weight),
        ("front-to-rear ratio", targets.rear_weight),
        ("match", targets.match_weight),
    )
    told = [f"a decibel {', '.join(f'of {n} counts {w:g}' for n, w in weights if w > 0.0)}"]
    after = " after a match" if targets.match == "matched" else ""
    low, high = targets.resistance
    mass, area = wish.most_mass or 0.0, wish.most_wind_area or 0.0
    cost, error = wish.most_cost or 0.0, wish.length_error

    def both(value: float, unit: str) -> str:
        metric, us = (
            quantity_text(value, unit=unit, form=".3g", system=system)
            for system in ("metric", "us")
        )
        return f"{metric} ({us})"

    limits = (
        (targets.least_gain_dbi > -math.inf, f"gain {targets.least_gain_dbi:g} dBi or more"),
        (
            targets.least_front_to_rear_db > -math.inf,
            f"front to rear {targets.least_front_to_rear_db:g} dB or more",
        ),
        (targets.most_swr < math.inf, f"SWR {targets.most_swr:g} or less{after}"),
        (low > 0.0, f"{low:g} ohm or more at the feed"),
        (high < math.inf, f"{high:g} ohm or less at the feed"),
        (wish.most_mass is not None, f"elements of {both(mass, 'kg')} or less"),
        (wish.most_wind_area is not None, f"{both(area, 'm2')} or less broadside"),
        (wish.most_cost is not None, f"tubes for {cost:.2f} or less"),
        (bool(wish.stock), "cut from the tubes on hand"),
        (wish.length_error > 0.0, f"halves off by {both(1e3 * error, 'mm')}"),
    )
    return [*told, *(words for holds, words in limits if holds)]
