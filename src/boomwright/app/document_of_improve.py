"""What an improvement found, as plain data for other programs."""

from __future__ import annotations

from typing import Any

from boomwright.app.improve import ImproveResult
from boomwright.design import BandFigures, ComparedSpacing, Improvement, Tolerance
from boomwright.parts import Beam


def improve_document(result: ImproveResult) -> dict[str, Any]:
    """Turn an improvement into plain data; equal searches give equal data.

    Parameters
    ----------
    result
        the improvement [-]

    Returns
    -------
    dict
        data for JSON [-]
    """
    return {
        "plan": result.plan.title,
        "beam": result.before.name,
        "seed": result.seed,
        "starts": result.starts,
        "finished": result.finished,
        "kept": result.best.kept,
        "before": _beam(result.before, result.figures_before),
        "after": _beam(result.after, result.figures_after),
        "searches": [_search(one) for one in result.found],
        "compared": [_compared(one) for one in result.compared],
        "tolerance": None if result.tolerance is None else _tolerance(result.tolerance),
        "notices": [
            {"code": n.code, "severity": n.severity, "text": n.text, "value": n.value}
            for n in result.notices
        ],
    }


def _beam(beam: Beam, figures: BandFigures) -> dict[str, Any]:
    return {
        "elements": [
            {"role": each.role, "at_m": each.position, "length_m": each.length}
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
    names = ("gain_dbi", "front_to_back_db", "front_to_rear_db", "swr")
    return dict(zip(names, figures.worst, strict=True))


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


def _compared(one: ComparedSpacing) -> dict[str, Any]:
    beam = one.improvement.beam
    return {
        "spacing": one.spacing,
        "kept": one.improvement.kept,
        "at_m": [each.position for each in beam.elements],
        "length_m": [each.length for each in beam.elements],
        "worst": _worst(one.sweep),
    }


def _tolerance(made: Tolerance) -> dict[str, Any]:
    return {
        "cut_within_m": made.cut_within,
        "allowance": {
            "gain_db": made.allowance.gain_db,
            "front_to_back_db": made.allowance.front_to_back_db,
            "swr": made.allowance.swr,
        },
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
