"""The figures of a beam's reach that count most."""

from __future__ import annotations

from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.report.beam.measured import band_words
from boomwright.report.model import Fact
from boomwright.report.reach.heights import (
    BEST_HEIGHT,
    advantage,
    at_angle,
    best_heights,
    plain_name,
    step_up,
)
from boomwright.study.reach_parts.results import BeamReach, ReachResult


def reach_answer(result: ReachResult, each: BeamReach) -> tuple[Fact, ...]:
    """Say where the beam sends, what height brings, and which limit is closest."""
    facts = [Fact("Take-off angle", _lobe(each))]
    if best := best_heights(each):
        facts.append(Fact(BEST_HEIGHT, best))
    more = step_up(each, "{gains}; {price}", each.wanted_deg[:1])
    facts.append(Fact(PerSystem(metric="One metre more", us="Ten feet more"), more))
    over = each.advantages[1]
    own = phrase("Over a {name} {at}", name=plain_name(over.over), at=at_angle(over.elevation_deg))
    facts.append(Fact(own, advantage(over)))
    if result.stack is not None:
        gain = result.stack.gain
        together = Quantity(gain.decibels, "gain change", gain.error_db)
        facts.append(Fact("Stack, in phase", together))
    facts += [Fact(band_words(more.beam), _lobe(more)) for more in each.further]
    exposures = (band.exposure for band in each.every_band if band.exposure)
    applying = [check for exposure in exposures for check in exposure.checks if check.applies]
    if applying:
        worst = max(applying, key=lambda check: check.governing)
        closest = phrase("{use:use}, {place}", use=worst.governing, place=worst.place.place)
        facts.append(Fact("Closest to its limit", closest))
    if each.scan.splits:
        first = Quantity(each.scan.splits[0].height, "height")
        facts.append(Fact("Height from which there is a second lobe", first))
    return tuple(facts)


def _lobe(each: BeamReach) -> Value:
    return phrase("{:angle}, strongest lobe, boom at {:span}", each.take_off_deg, each.beam.height)
