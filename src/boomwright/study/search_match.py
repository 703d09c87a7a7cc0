"""The match of a searched beam: in place while searching, then solved in the field with it."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, Notice
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, replace
from boomwright.design import BandFigures, Targets, Wish, WishError, band_figures
from boomwright.design.bent_search import bent_frequencies
from boomwright.design.figures_of import SAID_DB, SAID_SWR
from boomwright.design.improve import refit_beam
from boomwright.design.match_in_place import MatchInPlace
from boomwright.design.minimax import KEPT, TINY
from boomwright.design.setting_up import search_frequencies
from boomwright.design.shop_grid import shop_grid
from boomwright.design.targets import asking_more, reflection_loss_db
from boomwright.feed import (
    FieldMatch,
    FieldSetting,
    GammaShape,
    HairpinShape,
    RodGeometry,
    TeeShape,
)
from boomwright.feed.field_match import finish_match
from boomwright.feed.rod_matches import HALF_WAVE_BALUN_RATIO
from boomwright.parts import Beam
from boomwright.plan import Plan, read_plan
from boomwright.plan.resolve import design_targets
from boomwright.solver import Preparer, solve_beam, working_detail
from boomwright.study.adopting import written_match
from boomwright.study.as_measured import (
    RODS,
    drawn_match,
    field_setting,
    line_resistance,
    proposed_match,
    read_as_measured,
)
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured
from boomwright.study.feed_parts.shapes import rod_sizes
from boomwright.study.found_beam import put_found_beam

#: standing wave ratio that a wish without a limit is held to [-]
_NO_SWR_LIMIT = 1e9
#: times that the search is taken up again with what the field said, at most
_ROUNDS = 3
#: more than is missing is asked for by this [dB]
_BEYOND_DB = 0.02
#: what the field takes from ratio and loss is made up for up to this [dB]
_MOST_BEYOND_DB = 6.0
#: lengths of driven element and rods are tried so many steps of the grid away, at most
_MOST_STEPS = 2
#: feeds whose rods are cut to a length
_WITH_RODS = (GammaShape, TeeShape, HairpinShape)
#: kinds of match on tubes of one diameter along their rods or conductors
_ON_RODS = ("gamma", "tee", "folded")


def match_in_place(plan: Plan, beam: Beam) -> MatchInPlace | None:
    """The plan's kind of match as the search sees it.

    Returns:
        None where the plan asks for an ideal match in place of its split feed
    """
    feed = beam.feed
    if feed.kind == "split" and plan.wish is not None and plan.wish.matched:
        return None
    reference = line_resistance(plan)
    if feed.kind in {"split", "hairpin", "folded"}:
        reference *= feed.balun or 1.0
    if feed.kind == "tee":
        reference *= HALF_WAVE_BALUN_RATIO
    driven = beam.elements[beam.driven_index]
    step_up, line = 1.0, 0.0
    if feed.kind in _ON_RODS:
        diameter, spacing = rod_sizes(beam)
        geometry = RodGeometry(
            element_diameter=driven.half[0].diameter, rod_diameter=diameter, spacing=spacing
        )
        step_up = geometry.step_up
        line = geometry.line_impedance * (2.0 if feed.kind == "tee" else 1.0)
    return MatchInPlace(
        kind=feed.kind,  # type: ignore[arg-type]
        reference=reference,
        step_up=step_up,
        line=line,
        angle=2.0 * math.pi * driven.half_length / beam.wavelength,
        section=_section(beam),
        stub_end="open" if feed.stub_end == "open" else "short",
        at_antenna=feed.at_antenna or "",
    )


def with_match(targets: Targets, plan: Plan, beam: Beam) -> Targets:
    """Targets that see the plan's kind of match in place, where it has one.

    Wire with corners is searched in free space with what its ground and neighbours, and the match
    as drawn, make of the beam given.
    """
    fed = match_in_place(plan, beam)
    if fed is None:
        return targets
    if beam.bent:
        fed = replace(fed, correction=_correction(plan, beam, fed))
    return replace(targets, match="direct", fed=fed)


def _section(beam: Beam) -> tuple[float, float] | None:
    """The quarter-wave line of wire with corners, which the search leaves as it is."""
    feed = beam.feed
    if not beam.bent or feed.section_impedance is None or feed.section_length is None:
        return None
    speed = (feed.velocity_factor or 1.0) * SPEED_OF_LIGHT
    return (
        feed.section_impedance,
        2.0 * math.pi * beam.design_frequency * feed.section_length / speed,
    )


def _correction(plan: Plan, beam: Beam, fed: MatchInPlace) -> Complexes | None:
    """Reflection in the field less that of the circuit in free space, of the beam as given.

    Returns:
        at the frequencies of the search (f,); None while the match is not fully given
    """
    setting = field_setting(plan)
    match, _ = drawn_match(plan, beam, setting)
    if match is None:
        return None
    at = bent_frequencies(beam)
    seen = match.match.transform(impedance=match.load.at(at), frequency=at)
    alone = solve_beam(
        beam=beam,
        frequencies=at,
        detail=working_detail(frequency=float(at.max())),
        prepare=setting.prepare,
    ).impedance
    design = int(np.abs(at - beam.design_frequency).argmin())
    plain = fed.reflection(
        impedance=alone[None], at_design=alone[design : design + 1], ratio=at / at[design]
    )[0]
    real: Complexes = (seen - fed.reference) / (seen + fed.reference) - plain
    return real


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SettledMatch:
    """A beam with its match solved in the field, as the plan then says it."""

    text: str  #: the plan with beam and match in it
    plan: Plan  #: the plan in that text
    match: FieldMatch  #: solved with the dimensions written there
    measured: AsMeasured
    figures: BandFigures  #: in free space, the standing wave ratio as measured at the match
    breach: float  #: how far limits are broken as measured [dB]
    worth: float  #: weighed worst figures as measured [dB]

    @property
    def beam(self) -> Beam:
        """In place on its boom, its driven element as the match wants it, on the shop's grid."""
        return self.measured.beam

    @property
    def rank(self) -> tuple[float, float]:
        """Breach and worth as a key to sort by: the smaller, the better [dB]."""
        return self.breach, -self.worth


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """What it takes to settle the match of a searched beam."""

    text: str
    plan: Plan
    before: Beam
    wish: Wish
    setting: FieldSetting


def settle_match(
    *,
    text: str,
    plan: Plan,
    wish: Wish,
    before: Beam,
    beam: Beam,
    go_on: Callable[[], bool] = lambda: True,
) -> SettledMatch | None:
    """Solve the match of a searched beam in the field and search again with what that says.

    Args:
        before: the beam of the plan that the found one takes the place of
        beam: the beam found, in place on its boom
        go_on: asked before each further search

    Returns:
        the best of the beams tried; None when no match could be solved
    """
    job = _Job(text=text, plan=plan, before=before, wish=wish, setting=field_setting(plan))
    now = _solved(job, beam)
    best = now
    demands = np.zeros(3)
    for _ in range(_ROUNDS):
        if now is None or best is None or best.breach <= KEPT or not go_on():
            break
        taught, demands = _taught(job, now, demands)
        again = _searched_again(job, now.beam, taught)
        now = None if again is None else _solved(job, again)
        if now is not None and now.rank < best.rank:
            best = now
    return best


def _searched_again(job: _Job, beam: Beam, targets: Targets) -> Beam | None:
    """The beam that the search finds near another one; None when its wish has become empty."""
    wish = replace(job.wish, targets=targets)
    try:
        found, breach = refit_beam(beam=beam, wish=wish)
        if breach > KEPT and wish.driven_between:
            # Where no such length comes to a match, the match comes first.
            other, less = refit_beam(beam=beam, wish=replace(wish, driven_between=False))
            found = other if less < breach else found
    except WishError:
        return None
    start = 0.0 if wish.keep_positions else min(each.position for each in beam.elements)
    return replace(
        found,
        elements=tuple(replace(each, position=each.position + start) for each in found.elements),
    )


def _solved(job: _Job, beam: Beam) -> SettledMatch | None:
    """Solve the match of a beam and cut it: the best among what can be cut."""
    text = put_found_beam(job.text, job.plan, before=job.before, after=beam)
    if beam.feed.kind == "split":
        return _as_written(job, text)
    # Its sizes are found at the design frequency; the band is solved once they are cut.
    setting = replace(job.setting, band_points=2) if beam.feed.kind in RODS else job.setting
    match, _ = proposed_match(job.plan, beam, setting)
    if match is None:
        return None
    plan, number = read_plan(text), job.plan.beams.index(job.before)
    places = job.wish.places or shop_grid(wavelength=beam.wavelength)

    def cut(tip: int, rod: int) -> SettledMatch | None:
        moved = on_places(match, places=places, tip=tip, rod=rod)
        return _as_written(job, written_match(text, plan, number=number, match=moved))

    best, at = cut(0, 0), (0, 0)
    if best is None or best.breach <= KEPT:
        return best
    whole = finish_match(found=match, reference=match.reference, setting=job.setting)
    uncut = _judged(job, job.plan, beam, whole)
    if uncut is None or uncut.breach > best.breach - SAID_DB:
        return best
    # Cutting it took what the match had: the lengths on either side are tried.
    rods = [(0, 1), (0, -1)] if isinstance(match.shape, _WITH_RODS) else []
    for tip, rod in [(1, 0), (-1, 0), *rods]:
        for _ in range(_MOST_STEPS):
            found = cut(at[0] + tip, at[1] + rod)
            if found is None or found.rank >= best.rank:
                break
            best, at = found, (at[0] + tip, at[1] + rod)
    return best


def _as_written(job: _Job, text: str) -> SettledMatch | None:
    """Solve the match that a plan's text gives; None when it cannot be solved."""
    plan = read_plan(text)
    beam = plan.beams[job.plan.beams.index(job.before)]
    match, _ = drawn_match(plan, beam, job.setting)
    return None if match is None else _judged(job, plan, beam, match, text)


def _judged(
    job: _Job, plan: Plan, beam: Beam, match: FieldMatch, text: str = ""
) -> SettledMatch | None:
    measured = read_as_measured(plan, beam, drawn=match, proposed=None)
    if not isinstance(measured, AsMeasured):
        return None
    targets = replace(job.wish.targets, fed=None)
    bare = band_figures(beam=match.beam, targets=targets, prepare=job.setting.prepare)
    figures = at_the_match(bare, measured)
    breach, worth = judged_as_measured(job.wish.targets, figures, measured)
    return SettledMatch(
        text=text,
        plan=plan,
        match=match,
        measured=measured,
        figures=figures,
        breach=breach,
        worth=worth,
    )


def on_places(match: FieldMatch, *, places: float, tip: int = 0, rod: int = 0) -> FieldMatch:
    """Put tips of the driven element and rods on whole multiples of a step.

    Args:
        places: the step [m]
        tip, rod: so many steps from the nearest
    """
    beam, shape = match.beam, match.shape
    driven = beam.elements[beam.driven_index]
    length = round((round(driven.half[-1].length / places) + tip) * places, 9)
    elements = list(beam.elements)
    half = (*driven.half[:-1], replace(driven.half[-1], length=length))
    elements[beam.driven_index] = replace(driven, half=half)
    if isinstance(shape, GammaShape | TeeShape):
        near = (round(shape.rod_length / places) + rod) * places
        shape = replace(shape, rod_length=round(near, 9))
    if isinstance(shape, HairpinShape):
        near = (round(shape.length / places) + rod) * places
        shape = replace(shape, length=round(near, 9))
    return replace(match, shape=shape, beam=replace(beam, elements=tuple(elements)))


def at_the_match(figures: BandFigures, measured: AsMeasured | NotMeasured) -> BandFigures:
    """Figures with the standing wave ratio that is measured between match and line."""
    if isinstance(measured, NotMeasured):
        return figures
    swr = np.interp(figures.frequencies, measured.frequency, measured.match_swr)
    return replace(figures, swr=np.asarray(swr))


def measured_shortfalls(
    targets: Targets, figures: BandFigures, measured: AsMeasured
) -> dict[str, tuple[float, float, float]]:
    """What is measured against each limit of a wish.

    Returns:
        by name of the limit: value, limit, and by how much it is missed, below 0 when kept [dB]
    """
    gain, rear = figures.worst[0], _rear_as_wished(targets, figures, measured)
    swr = float(measured.match_swr.max())
    lost = reflection_loss_db(swr=swr) - reflection_loss_db(swr=targets.most_swr)
    low, high = targets.resistance
    at = int(np.argmin(np.abs(figures.frequencies - measured.beam.design_frequency)))
    ohms = float(figures.impedance[at].real)
    over = math.log10(ohms / high) if high < math.inf else -math.inf
    under = math.log10(low / ohms) if low > 0.0 else -math.inf
    return {
        "gain": (gain, targets.least_gain_dbi, targets.least_gain_dbi - gain),
        "ratio": (rear, targets.least_front_to_rear_db, targets.least_front_to_rear_db - rear),
        "swr": (swr, targets.most_swr, lost),
        "resistance": (ohms, high if over > under else low, 10.0 * max(over, under)),
    }


def _rear_as_wished(targets: Targets, figures: BandFigures, measured: AsMeasured) -> float:
    """Worst front-to-rear ratio: as measured, unless the wish counts a narrower rear."""
    if abs(targets.rear_from - math.pi / 2.0) > 1e-9:
        return figures.worst[2]
    return measured.front_to_rear_worst[0]


def judged_as_measured(
    targets: Targets, figures: BandFigures, measured: AsMeasured
) -> tuple[float, float]:
    """How far limits are broken as measured, 0 when kept, and what the figures are worth [dB]."""
    missed = measured_shortfalls(targets, figures, measured)
    breach = max(0.0, *(short for _, _, short in missed.values()))
    worth = (
        (targets.gain_weight or TINY) * missed["gain"][0]
        + targets.rear_weight * min(missed["ratio"][0], 40.0)
        - targets.match_weight * reflection_loss_db(swr=missed["swr"][0])
    )
    return breach, worth


def _taught(job: _Job, now: SettledMatch, demands: Floats) -> tuple[Targets, Floats]:
    """Targets that see the field at this beam, and how much more they demand [dB] (3,)."""
    targets, beam = job.wish.targets, now.beam
    fed = targets.fed
    if fed is None:
        return targets, demands
    frequencies, design = search_frequencies(beam=beam)
    bare = band_figures(
        beam=now.match.beam,
        targets=replace(targets, fed=None),
        frequencies=frequencies,
        prepare=job.setting.prepare,
    )
    plain = fed.reflection(
        impedance=bare.impedance[None],
        at_design=bare.impedance[design : design + 1],
        ratio=frequencies / frequencies[design],
    )[0]
    seen = now.match.match.transform(
        impedance=now.match.load.at(frequencies), frequency=frequencies
    )
    solved = (seen - now.match.reference) / (seen + now.match.reference)
    missed = measured_shortfalls(targets, now.figures, now.measured)
    lost = reflection_loss_db(swr=float(now.measured.match_swr.max()))
    at_these = float(np.max(-10.0 * np.log10(1.0 - np.abs(solved) ** 2)))
    rear_taken = bare.worst[2] - missed["ratio"][0]
    more = np.array([rear_taken, max(lost - at_these, 0.0), 0.0]) + _BEYOND_DB
    # What was asked for before and was not enough counts on.
    still = np.array([max(missed[each][2], 0.0) for each in ("ratio", "swr", "resistance")])
    demands = np.where(demands > 0.0, demands + still, np.maximum(more, 0.0))
    demands = np.minimum(demands, _MOST_BEYOND_DB)
    with_field = replace(targets, fed=replace(fed, correction=solved - plain))
    return asking_more(with_field, demands), demands


#: what the search says of limits, where figures as measured say it better
SUPERSEDED = (
    "design.limits-not-met",
    "design.check-falls-short",
    "design.limit-missed-by-rounding",
)


def unmatched_notice(measured: NotMeasured) -> Notice:
    """Say that the match of a found beam could not be solved."""
    return Notice(
        code="design.match-not-solved",
        text=phrase(
            "No standing wave ratio is promised: the match of this beam could not be solved "
            "({why}).",
            why=measured.refusal,
        ),
        severity="limit",
    )


def driven_place_notice(beam: Beam) -> tuple[Notice, ...]:
    """Say where a driven element lies outside its neighbours in length, and why."""
    order = sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position)
    at = order.index(beam.driven_index)
    driven = beam.elements[beam.driven_index]
    behind = beam.elements[order[at - 1]] if at else None
    ahead = beam.elements[order[at + 1]] if at + 1 < len(order) else None
    words, other = "", driven
    if behind is not None and driven.length > behind.length + 1e-6:
        words, other = "longer than the element behind it", behind
    if ahead is not None and driven.length < ahead.length - 1e-6:
        words, other = "shorter than the element ahead of it", ahead
    if not words:
        return ()
    return (
        Notice(
            code="design.driven-outside",
            text=phrase(
                "The driven element is {own}, " + words + " ({other}): with this kind of match no "
                "length between the two comes to the resistance of the line.",
                own=Quantity(driven.length, "sawn length"),
                other=Quantity(other.length, "sawn length"),
            ),
        ),
    )


_SHORT_WORDS = {
    "gain": ("gain", "dBi"),
    "ratio": ("front-to-rear ratio", "dB"),
    "swr": ("standing wave ratio", ""),
    "resistance": ("resistance of the bare element", "ohm"),
}


def wishes_missed(
    plan: Plan, measured: AsMeasured | NotMeasured, *, prepare: Preparer
) -> tuple[Notice, ...]:
    """Limits of the wish that a beam misses as its feed has it built, in every band.

    Args:
        measured: with the match as drawn, else as proposed
    """
    if plan.wish is None or (len(plan.beams) > 1 and plan.wish.beam != measured.beam.name):
        return ()
    return tuple(
        notice
        for each in (measured, *measured.further)
        for notice in wish_missed(plan, each, prepare=prepare)
    )


def wish_missed(
    plan: Plan, measured: AsMeasured | NotMeasured, *, prepare: Preparer
) -> tuple[Notice, ...]:
    """Say which limits that a plan's wish states are missed by what is built to the feed's order.

    A match that trims the driven element moves pattern and gain too. An ideal match in place of
    the split feed promises nothing.

    Args:
        measured: with the match as drawn, else as proposed
    """
    wish, beam = plan.wish, measured.beam
    if wish is None or isinstance(measured, NotMeasured) or match_in_place(plan, beam) is None:
        return ()
    if not (wish.swr or wish.front_to_rear_db or wish.gain_dbi or wish.resistance):
        return ()
    targets = replace(
        design_targets(plan),
        most_swr=_NO_SWR_LIMIT if wish.swr is None else wish.swr,
        resistance=wish.resistance or (0.0, math.inf),
    )
    figures = band_figures(beam=measured.match.beam, targets=targets, prepare=prepare)
    return missed_notices(targets, figures, measured, several=bool(wish.bands))


def missed_notices(
    targets: Targets, figures: BandFigures, measured: AsMeasured, *, several: bool = False
) -> tuple[Notice, ...]:
    """Say which limits of a wish the beam misses as it will be measured."""
    at = Quantity(measured.beam.design_frequency, "frequency")
    where = phrase(" at {frequency}", frequency=at) if several else ""
    found = []
    for name, (value, limit, short) in measured_shortfalls(targets, figures, measured).items():
        missed = value > limit + SAID_SWR if name == "swr" else SAID_DB < short < math.inf
        if not missed:
            continue
        words, unit = _SHORT_WORDS[name]
        found.append(
            Notice(
                code="design.limit-missed-as-measured",
                text=phrase(
                    f"As measured with its match{{where}}, the {words} misses its limit, worst "
                    "over the band. Relax that limit, narrow the band, or choose another kind of "
                    "match.",
                    where=where,
                ),
                severity="limit",
                value=f"{value:.2f} {unit}".strip(),
                limit=f"{limit:.2f} {unit}".strip(),
            )
        )
    return tuple(found)
