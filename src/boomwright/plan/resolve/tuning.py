"""What the tuning room needs of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, replace
from typing import Any

from boomwright.base import Fault, PlanError
from boomwright.parts import Beam
from boomwright.plan.model import Plan
from boomwright.plan.model_measured import MeasuredPlan, TrialPlan
from boomwright.plan.resolve.feed import coax_type, feed_stages
from boomwright.plan.resolve.places import beam_named
from boomwright.tuning.causes import Tolerance
from boomwright.tuning.installation import Installation
from boomwright.tuning.trials import MovingCare


def measured_beam(plan: Plan) -> Beam:
    """Beam that the measurements are of.

    Raises:
        PlanError: when the plan has several and names none
    """
    return beam_named(plan, plan.measured.beam if plan.measured else "")


def tuning_installation(plan: Plan) -> Installation:
    """Turn a plan into what is measured: beam, ground, match and line to the meter.

    Raises:
        PlanError: when a dimension of the match is missing, or no beam is named among several
    """
    beam = measured_beam(plan)
    stages = feed_stages(beam)
    if stages is None:
        message = f"dimensions of the {beam.feed.kind} match are missing"
        remedy = "write them into feed as built; boomwright feed proposes first values"
        number = plan.beams.index(beam)
        raise PlanError((Fault(path=f"beam[{number}].feed", message=message, remedy=remedy),))
    measured = plan.measured or MeasuredPlan(sweep="")
    line = measured.line
    return Installation(
        beam=beam,
        ground=plan.site.ground,
        stages=stages,
        line=None if line is None else coax_type(line.line_type),
        line_length=0.0 if line is None else line.length,
        reference=measured.reference,
    )


def trial_moves(trial: TrialPlan) -> dict[str, float]:
    """Moves of one trial by the keys of the tuning room.

    Returns:
        ``tip.N`` [m], ``stage.N`` [m] or share [-]; repeated ones added up
    """
    moves: dict[str, float] = {}
    for move in trial.moved:
        key = f"stage.{move.stage}" if move.element is None else f"tip.{move.element}"
        amount = next(each for each in (move.tips, move.longer, move.more) if each is not None)
        moves[key] = moves.get(key, 0.0) + amount
    return moves


def tuning_tolerance(plan: Plan) -> Tolerance:
    """How far off things usually are."""
    given = plan.measured.tolerance if plan.measured else None
    return replace(Tolerance(), **_said(given))


def moving_care(plan: Plan) -> MovingCare:
    """How exactly moves are made."""
    given = plan.measured.moving if plan.measured else None
    return replace(MovingCare(), **_said(given))


def _said(given: Any) -> Mapping[str, float]:
    if given is None:
        return {}
    pairs = ((field.name, getattr(given, field.name)) for field in fields(given))
    return {name: value for name, value in pairs if value is not None}


def adjustable_parts(plan: Plan, *, adjustable: tuple[str, ...]) -> tuple[str, ...] | None:
    """What may be moved.

    Returns:
        keys; None for everything

    Raises:
        PlanError: when the plan names a part that is not there or has nothing to set
    """
    given = plan.measured.adjust if plan.measured else None
    if given is None:
        return None
    faults, keys = [], []
    for name, kind, numbers in (
        ("elements", "tip", given.elements),
        ("stages", "stage", given.stages),
    ):
        for index, number in enumerate(numbers):
            key = f"{kind}.{number}"
            keys.append(key)
            if key not in adjustable:
                there = [each.split(".")[1] for each in adjustable if each.startswith(f"{kind}.")]
                path = f"measured.adjust.{name}[{index}]"
                message = f"there is nothing to set at number {number}"
                remedy = f"write numbers out of {', '.join(there)}" if there else "remove it"
                faults.append(Fault(path=path, message=message, remedy=remedy))
    if faults:
        raise PlanError(tuple(faults))
    return tuple(dict.fromkeys(keys))
