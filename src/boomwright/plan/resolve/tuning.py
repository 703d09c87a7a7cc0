"""What the tuning room needs of a plan."""

from __future__ import annotations

from boomwright.base import Fault, PlanError
from boomwright.parts import Beam
from boomwright.plan.model import Plan
from boomwright.plan.model_wish import MeasuredPlan, TrialPlan
from boomwright.plan.resolve.feed import coax_type, feed_stages
from boomwright.plan.resolve.places import beam_named
from boomwright.tuning.installation import Installation


def measured_beam(plan: Plan) -> Beam:
    """Beam that the measurements are of.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    Beam
        the beam [-]

    Raises
    ------
    PlanError
        when the plan has several and names none
    """
    return beam_named(plan, plan.measured.beam if plan.measured else "")


def tuning_installation(plan: Plan) -> Installation:
    """Turn a plan into what is measured: beam, ground, match and line to the meter.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    Installation
        the installation [-]

    Raises
    ------
    PlanError
        when a dimension of the match is missing, or no beam is named among several
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

    Parameters
    ----------
    trial
        the trial [-]

    Returns
    -------
    dict
        ``tip.N`` [m], ``stage.N`` [m] or share [-]; repeated ones added up
    """
    moves: dict[str, float] = {}
    for move in trial.moved:
        key = f"stage.{move.stage}" if move.element is None else f"tip.{move.element}"
        amount = next(each for each in (move.tips, move.longer, move.more) if each is not None)
        moves[key] = moves.get(key, 0.0) + amount
    return moves
