"""The proposal: two pages to show to whoever pays and helps, still as numbers and codes."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from boomwright import charts
from boomwright.base import Notice, VerdictWord
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.base.records import dataclass, replace
from boomwright.cost import in_currency
from boomwright.plan import Plan
from boomwright.report.advice import put_forward_words, questions_table, unbeaten_table
from boomwright.report.advice.picture import advice_picture
from boomwright.report.advice.words import (
    DIPOLE,
    at_height,
    cost_of,
    element_of,
    kinds_of,
    metre_of,
    people_of,
    reasons,
    stops_of,
    sure_words,
    target_words,
    verdict_of,
)
from boomwright.report.beam.side import side_extent
from boomwright.report.model import Fact, Picture, Table, drawing, fact, facts_table
from boomwright.report.site import site_facts
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.ranking import Pick

#: rows of the table that a page has room for
_ROWS = 9
#: columns of the table on paper
_COLUMNS = ("no.", "station", "height", "mean", "worst", "over dipole", "over best cheaper", "cost",
            "hours of work", "verdict")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Forward:
    """One station put forward, as its column on the first page tells it."""

    kind: Value  #: as what it is put forward
    name: Value
    gain_db: float  #: mean over bands and targets against the dipole [dB]
    word: VerdictWord
    verdict: str  #: its verdict in a line
    facts: tuple[Fact, ...]  #: cost, work and what a step more brings (n_facts,)
    reasons: tuple[Value, ...]  #: why it is put forward, a sentence each (n_reasons,)
    picture: Picture  #: the station from the side


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """What the two pages say."""

    title: str
    heading: str  #: what it is about
    answer: str  #: how many stations are put forward of how many, and how far they are checked
    place: tuple[Fact, ...]
    wishes: tuple[Fact, ...]
    stations: tuple[Forward, ...]  #: up to three, weakest first (n_stations,)
    picture: Picture | None  #: decibels against cost; None where nothing could be put together
    table: Table[Any]  #: those that no other beats
    questions: Table[Any]  #: whom to ask what
    assumed: tuple[Value, ...]  #: what was taken as usual (n_assumed,)
    sure: tuple[Value, ...]  #: how sure the ranking is, a sentence each (n_sure,)
    notices: tuple[Notice, ...]  #: cautions, and what was not looked at


def propose(advice: Advice) -> Proposal:
    """Gather what the proposal says."""
    picks = [advice.candidates[pick.number] for pick in advice.picks]
    unbeaten = unbeaten_table(advice)
    return Proposal(
        title=advice.plan.title or "Which station",
        heading=f"Which station: {', '.join(advice.bands)}",
        answer=f"Put forward: {put_forward_words(advice)}.",
        place=_place(advice.plan),
        wishes=_wishes(advice),
        stations=tuple(_forward(advice, pick) for pick in advice.picks),
        picture=advice_picture(advice),
        table=_for_paper(unbeaten),
        questions=questions_table(advice),
        assumed=tuple(dict.fromkeys(line for one in picks for line in one.assumed)),
        sure=_sure(advice),
        notices=advice.notices,
    )


def _for_paper(table: Table[Any]) -> Table[Any]:
    kept = tuple(each for each in table.columns if each.head in _COLUMNS)
    left = len(table.items) - _ROWS
    stand = "stands" if left == 1 else "stand"
    note = f"{left} more {stand} in the answer of the command." if left > 0 else ""
    return replace(table, columns=kept, items=table.items[:_ROWS], note=note or None)


def _place(plan: Plan) -> tuple[Fact, ...]:
    limits, facts = plan.place, [*site_facts(plan.site)]
    if limits is not None and limits.highest is not None:
        highest = Quantity(limits.highest, "height")
        facts.append(fact("Highest part allowed", highest))
    if limits is not None and limits.lot is not None:
        sides = [Quantity(side, "height") for side in limits.lot]
        facts.append(fact("Clear ground", listed(sides, between=" by ")))
    if limits is not None and limits.standing:
        there = [
            phrase("{name}, {height:height}", name=each.name, height=each.height)
            for each in limits.standing
        ]
        facts.append(fact("Stands there", listed(there, between="; ")))
    return tuple(facts)


def _wishes(advice: Advice) -> tuple[Fact, ...]:
    plan = advice.plan
    least = Quantity(advice.least_db, "advantage")
    facts = [
        fact("Bands", ", ".join(advice.bands)),
        fact("Wanted", listed([target_words(each) for each in advice.wanted], between="; ")),
        fact("Serves from", phrase("{} against {}", least, DIPOLE)),
    ]
    if plan.prices is not None and plan.prices.budget is not None:
        budget = in_currency(plan.prices.budget, plan.prices.currency)
        facts.append(fact("Budget", budget))
    if plan.raising is not None:
        people = f"{plan.raising.ground_crew} on the ground"
        if plan.raising.trained_climbers:
            people += f", {plan.raising.trained_climbers} trained to climb"
        facts.append(fact("People", people))
    return tuple(facts)


def _forward(advice: Advice, pick: Pick) -> Forward:
    one = advice.candidates[pick.number]
    hours = "" if one.hours is None else f"{one.hours:.0f} h"
    facts = (
        ("Cost", cost_of(one)),
        ("Work", hours),
        ("People", people_of(one)),
        ("Higher", metre_of(advice, pick.number)),
        ("An element more", element_of(advice, pick.number)),
        ("Closest to its limit", stops_of(one)),
    )
    return Forward(
        kind=kinds_of(pick),
        name=phrase("No. {n}: {at}", n=pick.number + 1, at=at_height(one)),
        gain_db=one.served.mean_db,
        word=one.verdict.word,
        verdict=verdict_of(one),
        facts=tuple(fact(label, value) for label, value in facts if value),
        reasons=reasons(advice, pick),
        picture=_from_the_side(advice, pick),
    )


def _from_the_side(advice: Advice, pick: Pick) -> Picture:
    """A station from the side, at the scale of all of those put forward."""
    one = advice.candidates[pick.number]
    plans = [advice.candidates[each.number].plan for each in advice.picks]
    limit = None if advice.plan.place is None else advice.plan.place.highest
    up, out = side_extent(plans, limit)
    said = "{}, seen from the side beside somebody of {:span}."
    return Picture(
        name=f"station-{pick.number + 1}",
        title="From the side",
        draw=drawing(
            charts.station_profile,
            plan=one.plan,
            up=up,
            out=out,
            named=one.station.owned,
            limit=limit,
            description=phrase(said, at_height(one), charts.PERSON),
        ),
        behind=facts_table("heights", "Heights", [("middle of the antenna", at_height(one))]),
    )


def _sure(advice: Advice) -> tuple[Value, ...]:
    """How sure it is that each station gives more than the one before, and all for its money."""
    told: list[Value] = []
    for smaller, larger in pairwise(advice.picks):
        share = advice.confidence.stronger(larger.number, smaller.number)
        told.append(
            phrase(
                "No. {one} gives more than no. {other}: {sure} ({share:share} of the tries).",
                one=larger.number + 1,
                other=smaller.number + 1,
                sure=sure_words(share),
                share=share,
            )
        )
    told += [
        phrase(
            "No. {one} is the strongest for its money in {share:share} of the tries.",
            one=pick.number + 1,
            share=advice.confidence.strongest(pick.number),
        )
        for pick in advice.picks
        if advice.candidates[pick.number].priced_in_full
    ]
    if told:
        told.append("Tried again with other grounds, winds, prices and errors of cutting.")
    return tuple(told)
