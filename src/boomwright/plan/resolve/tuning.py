"""What the tuning room needs of a plan."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Final, cast

from boomwright.base import BoomwrightError, Fault, PlanError, place_error
from boomwright.feed import FieldSetting, HairpinShape, ShuntStub, SplitShape, own_stages
from boomwright.parts import Beam
from boomwright.plan.model import Plan
from boomwright.plan.model_measured import MeasuredPlan, TrialPlan
from boomwright.plan.resolve.feed import coax_type, drawn_shape, feed_line, feed_stages
from boomwright.plan.resolve.places import beam_named
from boomwright.tuning.causes import usual_causes
from boomwright.tuning.installation import Installation
from boomwright.tuning.readings import METERS, Meter, MeterClass, SideReading

#: resistance that an antenna is matched to when the plan has no line [ohm]
USUAL_TARGET: Final = 50.0
#: how far a feed solved in the field may be off, by its kind, and one by circuit equations, as a
#: share and a standard deviation {common-practice-feed-error}
_FEED_ERRORS: Final = {"split": 0.015, "gamma": 0.03, "tee": 0.03, "folded": 0.03}
_CIRCUIT_ERROR: Final = 0.06


def measured_beam(plan: Plan) -> Beam:
    """Beam that the measurements are of."""
    return beam_named(plan, plan.measured.beam if plan.measured else "")


def tuning_installation(plan: Plan) -> Installation:
    """Turn a plan into what is measured: beam, ground, match and line to the meter.

    Raises:
        PlanError: when a dimension of the match is missing, or no beam is named among several
    """
    beam = measured_beam(plan)
    drawn = drawn_shape(beam)
    if drawn is None:
        message = f"dimensions of the {beam.feed.kind} match are missing"
        remedy = "write them into feed as built; boomwright feed proposes first values"
        raise place_error(f"beam[{plan.beams.index(beam)}].feed", message, remedy=remedy)
    shape, behind, _ = drawn
    measured = plan.measured or MeasuredPlan(sweep="")
    line, feed_line_ = measured.line, feed_line(plan)
    split = isinstance(shape, SplitShape)
    stages, error = (*own_stages(shape), *behind), _FEED_ERRORS.get(beam.feed.kind, 0.02)
    if isinstance(shape, HairpinShape) and not _can_be_laid_out(shape, beam):
        # Rods closer than the split is wide: the circuit equations stand in, and say less.
        split, stages, error = True, feed_stages(beam) or (), _CIRCUIT_ERROR
    return Installation(
        beam=beam,
        ground=plan.site.ground,
        shape=None if split else shape,
        stages=stages,
        line=None if line is None else coax_type(line.line_type),
        line_length=0.0 if line is None else line.length,
        reference=measured.reference,
        target=feed_line_[0].impedance if feed_line_ else USUAL_TARGET,
        feed_error=error,
    )


def _can_be_laid_out(shape: HairpinShape, beam: Beam) -> bool:
    try:
        shape.wires(beam=beam, setting=FieldSetting())
    except BoomwrightError:
        return False
    return True


def stage_keys(installation: Installation) -> dict[int, str]:
    """Keys of the pieces of a match by their number in the plan.

    A plan counts the pieces of the circuit from the antenna, as :func:`feed_stages` lists them;
    where rods are solved as wires their strap is not one of the lumped pieces.
    """
    found = {}
    lumped = [n for n, s in enumerate(installation.stages) if hasattr(s, "capacitance")]
    for number, stage in enumerate(feed_stages(installation.beam) or ()):
        if installation.shape is None:
            found[number] = f"stage.{number}"
        elif isinstance(stage, ShuntStub) and installation.strap is not None:
            found[number] = "strap"
        elif hasattr(stage, "capacitance") and lumped:
            found[number] = f"stage.{lumped[0]}"
    return found


def trial_moves(trial: TrialPlan, *, installation: Installation, path: str) -> dict[str, float]:
    """Moves of one trial by the keys of the tuning room.

    Args:
        path: place of the trial in the plan

    Returns:
        ``tip.N`` and ``strap`` [m], ``stage.N`` [m] or share [-]; repeated ones added up

    Raises:
        PlanError: for an element or a piece of the match that the antenna does not have
    """
    keys, moves = stage_keys(installation), dict[str, float]()
    count = len(installation.beam.elements)
    for number, move in enumerate(trial.moved):
        named, there = move.element, tuple(range(count))
        key = f"tip.{move.element}" if named is not None and named < count else ""
        if named is None:
            named, there = move.stage, tuple(keys)
            key = keys.get(-1 if named is None else named, "")
        if not key:
            message = f"the antenna has nothing to move at number {named}"
            remedy = f"write numbers out of {', '.join(map(str, there))}" if there else "remove it"
            raise place_error(f"{path}.moved[{number}]", message, remedy=remedy)
        amount = next(each for each in (move.tips, move.longer, move.more) if each is not None)
        moves[key] = moves.get(key, 0.0) + amount
    return moves


def written_moves(
    moves: Mapping[str, float], *, installation: Installation
) -> tuple[dict[str, object], ...]:
    """Write moves as a trial lists them: what :func:`trial_moves` reads.

    Args:
        moves: amounts by the keys of the tuning room, mixed units [-]
    """
    numbers = {key: number for number, key in stage_keys(installation).items()}
    found = []
    for key, amount in moves.items():
        kind, _, number = key.partition(".")
        if kind == "tip":
            row: dict[str, object] = {"element": int(number), "tips": f"{1e3 * amount:g} mm"}
        elif kind == "stage" and not hasattr(installation.stages[int(number)], "length"):
            row = {"stage": numbers[key], "more": f"{100.0 * amount:g} %"}
        else:
            row = {"stage": numbers[key], "longer": f"{1e3 * amount:g} mm"}
        found.append(row)
    return tuple(found)


def meter_of(plan: Plan) -> Meter:
    """Class of the meter that read the sweeps, and its scatter where the plan says it."""
    measured = plan.measured or MeasuredPlan(sweep="")
    found = METERS[cast(MeterClass, measured.meter or "hand-held")]
    if measured.noise is None:
        return found
    return replace(found, noise=measured.noise, noise_known=True)


def side_readings(plan: Plan) -> tuple[SideReading, ...]:
    """Readings of a probe and of front to back.

    Raises:
        PlanError: for an element that the beam does not have, or the driven one
    """
    measured, beam = plan.measured or MeasuredPlan(sweep=""), measured_beam(plan)
    found = []
    for number, probe in enumerate(measured.probe):
        if probe.element >= len(beam.elements) or probe.element == beam.driven_index:
            message = f"element {probe.element} has no current to hold against the driven one's"
            others = [str(n) for n in range(len(beam.elements)) if n != beam.driven_index]
            remedy = f"write a number out of {', '.join(others)}" if others else "remove it"
            raise place_error(f"measured.probe[{number}].element", message, remedy=remedy)
        found.append(
            SideReading(
                kind="probe",
                element=probe.element,
                value=math.log(probe.ratio),
                spread=probe.within,
                frequency=probe.frequency or beam.design_frequency,
            )
        )
    found += [
        SideReading(
            kind="front to back",
            value=each.ratio,
            spread=each.within,
            frequency=each.frequency or beam.design_frequency,
        )
        for each in measured.front_to_back
    ]
    return tuple(found)


def adjustable_parts(plan: Plan, *, installation: Installation) -> tuple[str, ...] | None:
    """What may be moved; None for everything.

    Raises:
        PlanError: when the plan names a part that is not there or has nothing to set
    """
    given = plan.measured.adjust if plan.measured else None
    if given is None:
        return None
    count = len(installation.beam.elements)
    tips = {number: f"tip.{number}" for number in range(count)}
    adjustable = {
        number: key
        for number, key in stage_keys(installation).items()
        if key in {cause.key for cause in usual_causes(installation=installation)}
    }
    faults, keys = [], []
    for name, there, numbers in (
        ("elements", tips, given.elements),
        ("stages", adjustable, given.stages),
    ):
        for index, number in enumerate(numbers):
            if number in there:
                keys.append(there[number])
                continue
            path = f"measured.adjust.{name}[{index}]"
            message = f"there is nothing to set at number {number}"
            named = ", ".join(map(str, there))
            remedy = f"write numbers out of {named}" if there else "remove it"
            faults.append(Fault(path=path, message=message, remedy=remedy))
    if faults:
        raise PlanError(tuple(faults))
    return tuple(dict.fromkeys(keys))
