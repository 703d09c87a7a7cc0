"""What the owner will measure: matched, over the ground, at the height, beside its neighbours.

Every command that names such a figure asks for it here; the feed solves its match here too.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base import BoomwrightError, PlanError
from boomwright.base.quantity import Value, listed
from boomwright.feed import FieldMatch, FieldSetting, solve_planned
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import coax_type, duty_factor, feed_line
from boomwright.plan.resolve.feed import drawn_shape
from boomwright.plan.resolve.further import in_further_bands
from boomwright.reach import front_to_rear, take_off
from boomwright.solver import Preparer, remembering
from boomwright.study.effort import refuse_long_work
from boomwright.study.feed_parts.power import band_swr, read_feed_line
from boomwright.study.feed_parts.results import AsMeasured, LineResult, NotMeasured
from boomwright.study.feed_parts.shapes import propose

#: resistance of the line when the plan has none [ohm]
USUAL_LINE = 50.0
#: solutions of a beam by itself that match and braid are worth: with rods beside it, and without
_WITH_RODS, _WITHOUT_RODS = 150, 80
#: matches of rods and tubes, whose sizes are iterated in the field
RODS = frozenset({"hairpin", "gamma", "tee", "folded"})


def measure_plan(
    plan: Plan, *, prepare: Preparer | None = None
) -> tuple[AsMeasured | NotMeasured, ...]:
    """Solve what the owner will measure of every beam, in plan order (n_beams,)."""
    return tuple(measure_beam(plan, beam, prepare=prepare) for beam in plan.beams)


def measure_beam(
    plan: Plan, beam: Beam, *, prepare: Preparer | None = None, at_design: bool = False
) -> AsMeasured | NotMeasured:
    """Solve what the owner will measure of one beam of a plan.

    Args:
        at_design: whether only figures at the design frequency are read; those beside it are rough
    """
    try:
        refuse_long_match(plan)
        setting = field_setting(plan, prepare=prepare)
        if at_design:
            setting = replace(setting, band_points=2)
        drawn, words = drawn_match(plan, beam, setting)
        proposed = None
        if drawn is None:
            proposed, more = proposed_match(plan, beam, setting)
            words = listed([each for each in (words, more) if each], between="; ")
    except BoomwrightError as refusal:
        return NotMeasured(beam=beam, refusal=refusal.said)
    return read_as_measured(
        plan,
        beam,
        drawn=drawn,
        proposed=proposed,
        refusal=words,
        further=() if at_design else further_bands(plan, beam, prepare=setting.prepare),
    )


def further_bands(
    plan: Plan, beam: Beam, *, prepare: Preparer
) -> tuple[AsMeasured | NotMeasured, ...]:
    """Solve what the owner will measure of a beam in the further bands of the plan's wish.

    Returns:
        none for a beam that serves its own band only (n_bands,)
    """
    try:
        served = in_further_bands(plan, beam)
    except PlanError as error:
        refusal = listed([fault.message for fault in error.faults], between="; ")
        return tuple(
            NotMeasured(
                beam=replace(beam, band=each.band, design_frequency=each.design_frequency),
                refusal=refusal,
            )
            for each in (plan.wish.bands if plan.wish else ())
        )
    return tuple(measure_beam(plan, each, prepare=prepare) for each in served)


def refuse_long_match(plan: Plan) -> None:
    """Refuse to solve matches that would take longer than anyone waits."""
    rods = any(beam.feed.kind in RODS for beam in plan.beams)
    refuse_long_work(
        plan.beams,
        ground=plan.site.ground,
        solutions=_WITH_RODS if rods else _WITHOUT_RODS,
        asked="with match and line in the field",
        remedy="take out elements",
    )


def field_setting(plan: Plan, *, prepare: Preparer | None = None) -> FieldSetting:
    """Take what surrounds the beams of a plan while their feeds are solved."""
    return FieldSetting(
        ground=plan.site.ground, prepare=remembering() if prepare is None else prepare
    )


def line_resistance(plan: Plan) -> float:
    """Resistance that a match of the plan works into [ohm]."""
    line = feed_line(plan)
    return line[0].impedance if line else USUAL_LINE


def drawn_match(plan: Plan, beam: Beam, setting: FieldSetting) -> tuple[FieldMatch | None, Value]:
    """Solve the match with the plan's own dimensions; None and why not when it cannot be."""
    try:
        found = drawn_shape(beam)
        if found is None:
            return None, "the plan does not give every dimension of the match"
        shape, behind, kind = found
        match = solve_planned(
            beam=beam,
            shape=shape,
            behind=behind,
            kind=kind,
            reference=line_resistance(plan),
            setting=setting,
        )
    except BoomwrightError as refusal:
        return None, refusal.said
    return match, ""


def proposed_match(
    plan: Plan, beam: Beam, setting: FieldSetting
) -> tuple[FieldMatch | None, Value]:
    """Solve for dimensions of the plan's kind of match; None and why not when none match."""
    if beam.feed.kind == "split":
        return None, "a split element fed straight has nothing to adjust but its length"
    speed = coax_type(plan.line.line_type).velocity_factor if plan.line else None
    reference = line_resistance(plan)
    try:
        return propose(beam, reference=reference, velocity_factor=speed, setting=setting), ""
    except BoomwrightError as refusal:
        return None, refusal.said


def read_as_measured(
    plan: Plan,
    beam: Beam,
    *,
    drawn: FieldMatch | None,
    proposed: FieldMatch | None,
    refusal: Value = "",
    further: tuple[AsMeasured | NotMeasured, ...] = (),
) -> AsMeasured | NotMeasured:
    """Read a solved match as it will be measured.

    Args:
        drawn, proposed: the match with the plan's own dimensions, else with proposed ones
        refusal: why there is neither
        further: the antenna in its further bands
    """
    match = drawn or proposed
    if match is None:
        return NotMeasured(beam=beam, refusal=refusal, further=further)
    ground, line = plan.site.ground, line_result(plan, match)
    at, match_swr = band_swr(match)
    solution = match.solution
    design = int(np.argmin(np.abs(solution.frequencies - match.frequency)))
    lobe = take_off(solution, design, ground=ground)
    ratio = front_to_rear(solution, ground=ground, elevation_deg=lobe.elevation_deg)
    low, high = (min(*beam.band, match.frequency), max(*beam.band, match.frequency))
    inside = (solution.frequencies >= low) & (solution.frequencies <= high)
    return AsMeasured(
        beam=beam,
        reference=match.reference,
        ground=ground,
        match=match,
        proposed=drawn is None,
        line=line,
        frequency=at,
        swr=match_swr if line is None else line.shack_swr,
        match_swr=match_swr,
        solved=solution.frequencies[inside],
        front_to_rear_db=ratio[inside],
        take_off_deg=None if ground.kind == "free space" else lobe.elevation_deg,
        gain_dbi=lobe.gain_dbi,
        further=further,
    )


def line_result(plan: Plan, match: FieldMatch) -> LineResult | None:
    """Follow the plan's line from a match to the radio; None without a line."""
    line = feed_line(plan)
    if line is None:
        return None
    power = plan.transmitter.power if plan.transmitter else None
    return read_feed_line(
        match, line=line[0], length=line[1], power=power, duty_factor=duty_factor(plan)
    )
