"""What the trials of a tuning moved, taken into the plan, which is then the beam as it stands."""

from __future__ import annotations

from boomwright.base import Fault, PlanError
from boomwright.feed import (
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
)
from boomwright.parts import Beam
from boomwright.plan import Plan, rewrite, set_element_length
from boomwright.plan.forms import take_out
from boomwright.plan.resolve import feed_stages
from boomwright.plan.resolve.tuning import measured_beam


def moves_refused(plan: Plan) -> str:
    """Say why the moves of the trials cannot be taken into a plan; empty where they can."""
    measured = plan.measured
    if measured is None or not measured.trial:
        return "no trial is recorded yet"
    if not any(trial.moved for trial in measured.trial):
        return "the trials do not say what was moved"
    stages = {m.stage for trial in measured.trial for m in trial.moved if m.element is None}
    if not all(_match_key(measured_beam(plan), stage) for stage in stages):
        return "a trial set a piece of the match that the plan does not have"
    if measured.trial[-1].rise:
        return "the last sweep was made with the beam hung higher than planned"
    if measured.probe or measured.front_to_back:
        return "readings of probe or front to back are from before the moves"
    return ""


def _match_key(beam: Beam, stage: int | None) -> str:
    """Key of the feed that holds what a piece of the match is set by; empty where none does."""
    stages = feed_stages(beam) or ()
    piece = stages[stage] if stage is not None and stage < len(stages) else None
    match piece:
        case SeriesCapacitor() | ShuntCapacitor():
            key = "capacitance"
        case SeriesInductor() | ShuntInductor():
            key = "inductance"
        case LineSection():
            key = "section_length"
        case ShuntStub():
            key = "stub_length" if beam.feed.rod_length is None else "rod_length"
        case _:
            return ""
    # Leads have no key of their own.
    return "" if getattr(beam.feed, key) is None else key


def taken_moves(text: str, plan: Plan) -> str:
    """Write the moves of all trials into a plan: tips and match as they are, the last sweep.

    The files of the sweeps before stay where they are.

    Raises:
        PlanError: when they cannot be taken
    """
    refused, measured = moves_refused(plan), plan.measured
    if refused or measured is None:
        fault = Fault(path="measured.trial", message=refused, remedy="record a trial of the tips")
        raise PlanError((fault,))
    beam = measured_beam(plan)
    number = next(at for at, each in enumerate(plan.beams) if each.name == beam.name)
    out: dict[int, float] = {}
    match: dict[str, float] = {}
    for move in (move for trial in measured.trial for move in trial.moved):
        if move.element is not None:
            out[move.element] = out.get(move.element, 0.0) + (move.tips or 0.0)
        else:
            key = _match_key(beam, move.stage)
            was = match.get(key, getattr(beam.feed, key))
            match[key] = was * (1.0 + (move.more or 0.0)) + (move.longer or 0.0)
    text = rewrite(text, {f"beam[{number}].feed.{key}": value for key, value in match.items()})
    for element, tips in out.items():
        if element >= len(beam.elements):
            path = f"beam[{number}].element[{element}]"
            fault = Fault(path=path, message="the plan has no such element", remedy="correct it")
            raise PlanError((fault,))
        length = beam.elements[element].length + 2.0 * tips
        text = set_element_length(text, number, element, length)
    last = measured.trial[-1]
    for at in reversed(range(len(measured.trial))):
        text = take_out(text, ("measured", "trial", at))
    changes = {"measured.sweep": last.sweep}
    return rewrite(text, changes | ({"measured.day": last.day} if last.day else {}))
