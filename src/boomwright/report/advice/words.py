"""Words and values of advice that report and proposal share."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Final

from boomwright.base import VerdictWord, counts_text
from boomwright.base.constants import DECIBELS_PER_S_UNIT
from boomwright.base.quantity import PerSystem, Quantity, Value, listed, phrase
from boomwright.cost import in_currency
from boomwright.study.advice.advise import DIPOLE_HEIGHT, Advice
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.ranking import Pick, PickKind
from boomwright.study.advice.served import Wanted

KINDS: Final[dict[PickKind, str]] = {
    "cheapest that serves": "Cheapest that serves",
    "knee": "Most for its money",
    "between": "Between the two",
    "best that is allowed": "Best that is allowed",
    "strongest, checks open": "Strongest, with checks open",
}
#: marks of the verdicts, apart without colour
MARKS: Final[dict[VerdictWord, str]] = {
    "exceeded": "× exceeded",
    "not checked": "? not checked",
    "ask": "! to ask",
    "within": "• within",
}
#: the reference of every decibel
DIPOLE: Final = phrase("a flat dipole at {height:whole length}", height=DIPOLE_HEIGHT)


def kinds_of(pick: Pick) -> Value:
    """As what a station is put forward."""
    first, *others = (KINDS[kind] for kind in pick.kinds)
    return listed([first, *(each[0].lower() + each[1:] for each in others)], between=" and ")


def at_height(one: Candidate) -> Value:
    """A station in words, with its height."""
    return phrase("{name}, {height:height}", name=one.name, height=one.station.height)


def numbered(advice: Advice, number: int) -> Value:
    """A station by its number in the tables and its name."""
    return phrase("no. {n}, {at}", n=number + 1, at=at_height(advice.candidates[number]))


def cost_of(one: Candidate) -> Value:
    """Likely cost, or that it is not known."""
    if one.cost is None:
        return "not priced"
    sum_ = money(one, one.cost)
    return sum_ if one.priced_in_full else phrase("at least {sum}", sum=sum_)


def money(one: Candidate, amount: float) -> Value:
    """An amount in the currency of a station's estimate.

    Args:
        amount: [currency]
    """
    made = one.sums
    return Quantity(amount, "money") if made is None else in_currency(amount, made.currency)


def people_of(one: Candidate) -> Value:
    """Who the way up needs, those who climb apart."""
    if one.people is None:
        return "not known"
    climbers, ground = one.people
    return f"{climbers} up, {ground} below" if climbers else ground


def step_words(decibels: float) -> Value:
    """A difference in decibels, with its S-units of 6 dB {iaru-r1-r1}.

    Args:
        decibels: [dB]
    """
    s_units = Quantity(abs(decibels) / DECIBELS_PER_S_UNIT, "times")
    return phrase("{db:ratio} ({s} S)", db=abs(decibels), s=s_units)


def target_words(wanted: Wanted) -> Value:
    """A target with the angles that reach it."""
    low, high = (
        Quantity(math.degrees(edge), "whole angle")
        for edge in (min(wanted.elevation), max(wanted.elevation))
    )
    return phrase("{}, {} to {} up", wanted.name or "any direction", low, high)


def reasons(advice: Advice, pick: Pick) -> tuple[Value, ...]:
    """Say why a station is put forward, and what is lost with the one before it.

    Returns:
        a sentence each (n_reasons,)
    """
    told = [_reason(advice, pick, kind) for kind in pick.kinds]
    short = advice.least_db - advice.candidates[pick.number].served.mean_db
    if short > 0.0:
        told.append(phrase("It falls {:ratio} short of what you ask for.", short))
    place = advice.picks.index(pick)
    if place:
        told += _instead(advice, number=pick.number, smaller=advice.picks[place - 1].number)
    return tuple(told)


def _reason(advice: Advice, pick: Pick, kind: PickKind) -> Value:
    if kind == "cheapest that serves":
        return _nothing_cheaper(advice.least_db)
    if kind in {"knee", "between"}:
        return _knee(advice, pick, bends=kind == "knee")
    if kind == "best that is allowed":
        return "Nothing that is allowed here and checked throughout gives more."
    count = advice.candidates[pick.number].verdict.counts["not checked"]
    checks = f"{count} check{' is' if count == 1 else 's are'}"
    return f"Nothing that is allowed here gives more, but {checks} open: settle them first."


def _nothing_cheaper(least_db: float) -> Value:
    level = Quantity(abs(least_db), "ratio")
    words = "comes within {level} of" if least_db < 0.0 else "gives {level} or more over"
    return phrase(f"Nothing cheaper {words} {{dipole}}.", level=level, dipole=DIPOLE)


def _knee(advice: Advice, pick: Pick, *, bends: bool) -> Value:
    """What a decibel costs up to a station between the others, and beyond it."""
    ends = [advice.picks[0].number, pick.number, advice.front[-1]]
    rates = [_rate(advice, low, high) for low, high in pairwise(ends)]
    if None in rates:
        return "Beyond it a decibel costs more." if bends else "Gain and cost lie between the two."
    one = advice.candidates[pick.number]
    before, beyond = (money(one, rate or 0.0) for rate in rates)
    return phrase("Up to here a decibel costs {}, beyond it {}.", before, beyond)


def _rate(advice: Advice, low: int, high: int) -> float | None:
    """What a decibel costs from one station to another; None while not known [currency/dB]."""
    one, other = advice.candidates[low], advice.candidates[high]
    gain = other.served.mean_db - one.served.mean_db
    if not (one.priced_in_full and other.priced_in_full) or gain <= 0.0:
        return None
    return ((other.cost or 0.0) - (one.cost or 0.0)) / gain


def _instead(advice: Advice, *, number: int, smaller: int) -> list[Value]:
    """What is lost and saved with a smaller station in place of one, and how sure that is."""
    one, other = advice.candidates[number], advice.candidates[smaller]
    loss = one.served.mean_db - other.served.mean_db
    words = phrase("With no. {n} instead you lose {loss}", n=smaller + 1, loss=step_words(loss))
    saved = (one.cost or 0.0) - (other.cost or 0.0)
    if other.priced_in_full and saved > 0.0:
        # What is not priced of the dearer one is saved on top.
        least = "" if one.priced_in_full else "at least "
        words = phrase("{} and save {}{}", words, least, money(one, saved))
    sure = sure_words(advice.confidence.stronger(number, smaller))
    return [phrase("{words}: {sure}.", words=words, sure=sure)]


def sure_words(share: float) -> str:
    """How sure it is that one station gives more than another.

    Args:
        share: of the tries in which it did [-]
    """
    if share >= 0.995:
        return "sure"
    if share >= 0.9:
        return "very likely"
    return "likely" if share >= 0.7 else "cannot tell"


def verdict_of(one: Candidate) -> str:
    """The verdict of a station in one line."""
    counts = counts_text(one.verdict)
    return f"{one.verdict.word}: {counts}" if one.verdict.worst else counts


def stops_of(one: Candidate) -> Value:
    """What stops a station, or is closest to its limit."""
    finding = one.stops
    if finding is None:
        return ""
    if finding.use is None:
        return finding.name
    return phrase("{name}, {use:use}", name=finding.name, use=finding.use)


def metre_of(advice: Advice, number: int) -> Value:
    """What a metre more height brings and costs here."""
    beside = advice.compared[number]
    if beside.metre_db is None:
        return ""

    def step(metres: float, name: str) -> Value:
        gain = Quantity(metres * (beside.metre_db or 0.0), "advantage")
        if beside.metre_cost is None:
            return phrase("{gain} a {name}", gain=gain, name=name)
        cost = money(advice.candidates[number], metres * beside.metre_cost)
        return phrase("{gain} for {cost} a {name}", gain=gain, cost=cost, name=name)

    return PerSystem(metric=step(1.0, "metre"), us=step(0.3048, "foot"))


def element_of(advice: Advice, number: int) -> Value:
    """What an element more brings and costs here."""
    step = advice.compared[number].element
    if step is None:
        return ""
    gain = Quantity(step.gain_db, "advantage")
    if step.dearer_by is None:
        return gain
    cost = money(advice.candidates[number], step.dearer_by)
    return phrase("{gain} for {cost}", gain=gain, cost=cost)
