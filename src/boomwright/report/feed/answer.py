"""The figures of a feed that count most."""

from __future__ import annotations

import numpy as np

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.report.beam.measured import band_facts, measured_facts, measured_words
from boomwright.report.model import Fact, fact
from boomwright.study.feed_parts.power import band_swr
from boomwright.study.feed_parts.results import AsMeasured, BeamFeed, FeedResult


def feed_answer(result: FeedResult, each: BeamFeed) -> tuple[Fact, ...]:
    """Say what match, line, capacitor and choke come to."""
    measured = each.measured
    facts = list(measured_facts(measured)) if isinstance(measured, AsMeasured) else []
    facts += band_facts(measured)
    further = []
    for words, match in (("as drawn", each.drawn), ("proposed", each.proposed)):
        if match is not None:
            said = "{} at design, {} at worst in the band"
            value = phrase(said, swr(match.swr), swr(float(band_swr(match)[1].max())))
            further.append(fact(f"SWR at the match, {words}", value))
    further.append(fact("SWR without a match", _at_worst(float(np.max(each.before.swr)))))
    if each.line is not None:
        lost = float(each.line.loss_db.max())
        further.append(fact("Loss in the line, at worst", Quantity(lost, "loss")))
    capacitors = [item for item in each.ratings if item.rated_voltage]
    if capacitors:
        needs = max(capacitors, key=lambda item: item.rated_voltage)
        value = phrase("{:voltage}, {:current}", needs.rated_voltage, needs.current)
        facts.append(fact("Capacitor to buy", value))
    if each.braids:
        facts.append(fact("Choke", _choke(result, each)))
    return (*facts, *further, fact("As measured", _conditions(result, each)))


def _choke(result: FeedResult, each: BeamFeed) -> Value:
    """What keeps the pattern, beside what the plan has, which is what the build sheets ask for."""
    known = [case.enough for case in each.braids if case.enough is not None]
    least: Value = "no choke is enough for the pattern"
    if len(known) == len(each.braids):
        least = phrase("at least {least:choke impedance} keep the pattern", least=max(known))
    line = result.plan.line
    if line is None or line.choke is None:
        return least
    resistance, reactance = (Quantity(abs(part), "choke impedance") for part in line.choke)
    return phrase("{}; the plan has {} resistance and {} reactance", least, resistance, reactance)


def _at_worst(ratio: float) -> Value:
    return phrase("{worst} at worst in the band", worst=swr(ratio))


def _conditions(result: FeedResult, each: BeamFeed) -> Value:
    refusals = [
        phrase("; {words}: {said}", words=words, said=said)
        for words, said in (("as drawn", each.drawn_words), ("proposed", each.proposed_words))
        if said
    ]
    power: Value = "power not known"
    if result.power:
        power = phrase("{power:power} peak envelope power", power=result.power)
    return phrase(
        "{measured}; SWR against {line:nominal resistance}; {power}{refusals}",
        measured=measured_words(each.measured),
        line=each.reference,
        power=power,
        refusals=listed(refusals, between=""),
    )


def swr(ratio: float) -> Quantity:
    """Take a standing wave ratio as a quantity.

    Args:
        ratio: standing wave ratio [-]
    """
    return Quantity(ratio, "swr")
