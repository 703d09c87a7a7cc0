"""From a plan to its feed: match, ratings, line, choke, what to turn first."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import BoomwrightError, Notice
from boomwright.base.quantity import listed
from boomwright.feed import (
    ChokeRequirement,
    FieldMatch,
    FieldSetting,
    GammaAdjustment,
    GammaShape,
    StackLines,
    adjust_by_impedance,
    adjust_by_swr,
    choke_requirement,
    design_stack_lines,
    gamma_adjustment,
    matched_sweep,
    split_load,
)
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.plan.resolve import duty_factor, feed_line, stacked_beams
from boomwright.reach import beside_notices
from boomwright.solver import Preparer
from boomwright.study.as_measured import (
    drawn_match,
    field_setting,
    further_bands,
    line_resistance,
    proposed_match,
    read_as_measured,
    refuse_long_match,
)
from boomwright.study.feed_parts.braid import braid_cases
from boomwright.study.feed_parts.notices import feed_notices
from boomwright.study.feed_parts.power import choke_work, rate_parts
from boomwright.study.feed_parts.results import (
    AsMeasured,
    BeamFeed,
    BraidCase,
    ChokeWork,
    FeedResult,
    NotMeasured,
    Turn,
)
from boomwright.study.feed_parts.shapes import assumed_notices, rod_sizes
from boomwright.study.feed_parts.tries import circuit_tries
from boomwright.study.search_match import wishes_missed

_USUAL_VELOCITY_FACTOR = 0.66
#: examples of what to turn first: a strap off by this share, a capacitor by this factor
_STRAP_OFF, _CAPACITOR_OFF = 0.1, 1.3
#: suppression when the plan wants none stated [dB]
_USUAL_SUPPRESSION_DB = 30.0
#: least line from a feed of a stack to the junction beyond half the distance of the beams [m]
_STACK_SLACK = 1.0


def feed_plan(plan: Plan, *, prepare: Preparer | None = None) -> FeedResult:
    """Solve the feed of every beam of a plan.

    Raises:
        BoomwrightError: when a beam itself cannot be solved, or the work is too much
    """
    refuse_long_match(plan)
    setting = field_setting(plan, prepare=prepare)
    power = plan.transmitter.power if plan.transmitter else None
    return FeedResult(
        plan=plan,
        beams=tuple(_beam_feed(plan, beam, power, setting) for beam in plan.beams),
        stack_lines=_stack_lines(plan),
        power=power,
        duty_factor=duty_factor(plan),
    )


def exceeded_feed_limits(result: FeedResult) -> tuple[Notice, ...]:
    """Pick the notices that say a stated limit is exceeded."""
    return tuple(notice for notice in result.notices if notice.severity == "limit")


def feed_touchstone(result: FeedResult, *, number: int = 0) -> dict[str, str]:
    """Write both ends of the line as one-port files, text by file name."""
    reference = result.beams[number].reference
    ports = result.one_ports(number).items()
    return {f"{name}.s1p": port.touchstone(reference) for name, port in ports}


def _beam_feed(plan: Plan, beam: Beam, power: float | None, setting: FieldSetting) -> BeamFeed:
    line = feed_line(plan)
    reference = line_resistance(plan)
    bare = split_load(beam=beam, setting=setting)
    drawn, drawn_words = drawn_match(plan, beam, setting)
    proposed, proposed_words = proposed_match(plan, beam, setting)
    used = drawn or proposed
    words = listed([each for each in (drawn_words, proposed_words) if each], between="; ")
    further = further_bands(plan, beam, prepare=setting.prepare)
    measured = read_as_measured(
        plan, beam, drawn=drawn, proposed=proposed, refusal=words, further=further
    )
    cases, braid_notices = braid_cases(plan, beam, setting=setting)
    adjustment, turns = _adjustment(used, proposed, setting)
    at_line = measured.line if isinstance(measured, AsMeasured) else None
    ratings = rate_parts(used, power=power, setting=setting) if used and power else ()
    needed, work = _choke(plan, used, cases, power)
    speed = beam.feed.velocity_factor or (line[0].velocity_factor if line else None)
    before = matched_sweep(
        stages=(), frequency=bare.frequency, impedance=bare.impedance, reference=reference
    )
    tries = circuit_tries(
        beam, load=bare, reference=reference, rods=rod_sizes(beam),
        velocity_factor=speed or _USUAL_VELOCITY_FACTOR,
    )  # fmt: skip
    return BeamFeed(
        beam=beam,
        reference=reference,
        measured=measured,
        bare=bare,
        before=before,
        drawn=drawn,
        drawn_words=drawn_words,
        proposed=proposed,
        proposed_words=proposed_words,
        offered=_offered(plan, beam, drawn, proposed),
        tries=tries,
        ratings=ratings,
        line=at_line,
        braids=cases,
        choke_needed=needed,
        choke_work=work,
        adjustment=adjustment,
        turns=turns,
        notices=feed_notices(
            plan=plan,
            beam=beam,
            used=used,
            proposed=proposed,
            line=at_line,
            cases=cases,
            extra=(
                *wishes_missed(plan, measured, prepare=setting.prepare),
                *beside_notices(beam=beam, prepare=setting.prepare),
                *assumed_notices(beam),
                *braid_notices,
            ),
        ),
    )


def _offered(
    plan: Plan, beam: Beam, drawn: FieldMatch | None, proposed: FieldMatch | None
) -> AsMeasured | NotMeasured | None:
    """What would be measured with the proposal in place of the plan's own dimensions."""
    if drawn is None or proposed is None:
        return None
    return read_as_measured(plan, beam, drawn=None, proposed=proposed)


def _adjustment(
    used: FieldMatch | None, proposed: FieldMatch | None, setting: FieldSetting
) -> tuple[GammaAdjustment | None, tuple[Turn, ...]]:
    """The picture stands around the match, which is the proposal where there is one."""
    match = proposed or used
    if match is None or not isinstance(match.shape, GammaShape):
        return None, ()
    try:
        picture = gamma_adjustment(match=match, setting=setting)
    except BoomwrightError:
        # Too near an end of the element for a quarter to both sides.
        return None, ()
    return picture, _turns(picture)


def _ohms(impedance: complex) -> str:
    sign = "+" if impedance.imag >= 0.0 else "−"
    return f"{impedance.real:.0f} {sign} j{abs(impedance.imag):.0f} ohm"


def _turns(picture: GammaAdjustment) -> tuple[Turn, ...]:
    """Readings that a strap or a capacitor out of place gives, and what mends each."""
    reference = picture.reference
    slope = complex(picture.resistance_slope, picture.reactance_slope)
    angular = 2.0 * math.pi * picture.frequency
    strap = _STRAP_OFF * picture.best_rod_length
    found = [reference - strap * slope, reference + strap * slope]
    for times in (1.0 / _CAPACITOR_OFF, _CAPACITOR_OFF):
        off = (1.0 - 1.0 / times) / (angular * picture.best_capacitance)
        found.append(complex(reference, off))
    turns = []
    for seen in found:
        capacitance = picture.best_capacitance
        if seen.real == reference:
            capacitance = 1.0 / (1.0 / capacitance - seen.imag * angular)
        steps = adjust_by_impedance(adjustment=picture, measured=seen, capacitance=capacitance)
        do = tuple(step.text for step in steps) or ("Nothing.",)
        turns.append(Turn(reads=_ohms(seen), do=do))
    blind = adjust_by_swr(adjustment=picture, lowest=1.5)
    words = "only SWR, 1.5 at best with the capacitor"
    turns.append(Turn(reads=words, do=tuple(step.text for step in blind[:1])))
    return tuple(turns)


def _choke(
    plan: Plan, used: FieldMatch | None, cases: tuple[BraidCase, ...], power: float | None
) -> tuple[ChokeRequirement | None, ChokeWork | None]:
    if power is None or used is None:
        return None, None
    wanted = plan.line.suppression_db if plan.line else None
    needed = choke_requirement(
        feed_impedance=used.impedance,
        power=power,
        duty_factor=duty_factor(plan),
        suppression_db=_USUAL_SUPPRESSION_DB if wanted is None else wanted,
    )
    works = [
        choke_work(case, case.own, power=power, duty_factor=duty_factor(plan))
        for case in cases
        if case.own is not None
    ]
    return needed, max(works, key=lambda work: work.heat, default=None)


def _stack_lines(plan: Plan) -> StackLines | None:
    beams = stacked_beams(plan)
    if len(beams) < 2:
        return None
    heights = [beam.height for beam in beams]
    return design_stack_lines(
        beams=len(beams),
        reach=0.5 * (max(heights) - min(heights)) + _STACK_SLACK,
        frequency=float(np.mean([beam.design_frequency for beam in beams])),
        line_impedance=75.0,
        velocity_factor=_USUAL_VELOCITY_FACTOR,
        reference=line_resistance(plan),
    )


def phase_lengths(each: BeamFeed) -> tuple[tuple[float, float], ...]:
    """Lengths of the plan's line that delay by parts of a turn, matched at their ends.

    Returns:
        phase delay [rad] and length [m] of each, none without a line
    """
    from boomwright.feed import phasing_line_length

    if each.line is None:
        return ()
    return tuple(
        (
            delay,
            phasing_line_length(
                delay=delay,
                frequency=each.beam.design_frequency,
                velocity_factor=each.line.line.velocity_factor,
            ),
        )
        for delay in (math.pi * share / 4.0 for share in (1, 2, 3, 4, 6, 8))
    )
