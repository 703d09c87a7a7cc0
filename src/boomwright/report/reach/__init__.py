"""What there is to say of lobes, heights, paths, stacks and the people near the antenna."""

from dataclasses import replace
from typing import Any

from boomwright.base.quantity import PerSystem, Quantity, Value, phrase
from boomwright.report.beam.measured import band_words
from boomwright.report.model import Fact, Report, Table, fact
from boomwright.report.reach.heights import (
    BEST_HEIGHT,
    advantage,
    at_angle,
    best_heights,
    height_brief,
    height_pictures,
    height_tables,
    plain_name,
    step_up,
)
from boomwright.report.reach.offers import reach_offers
from boomwright.report.reach.paths import hop_table, path_brief, path_pictures, path_tables
from boomwright.report.reach.people import people_pictures, people_tables
from boomwright.report.reach.together import together_pictures, together_tables
from boomwright.study.reach_parts.results import BeamReach, ReachResult


def reach_title(beam: str) -> str:
    """Name the sheet of one beam's reach."""
    return f"Reach of {beam}"


def _further_tables(each: BeamReach) -> tuple[Table[Any], ...]:
    """Paths and people of the further bands of the same antenna."""
    return tuple(
        replace(
            table,
            name=f"{table.name}-{number}",
            caption=phrase("{band}: {told}", band=band_words(band.beam), told=table.caption),
        )
        for number, band in enumerate(each.further, start=2)
        for table in (*([hop_table(band)] if band.paths else []), *people_tables(band))
    )


def reach_report(result: ReachResult, *, number: int, together: bool = True) -> Report:
    """Say everything there is to say of one beam's reach.

    Args:
        together: whether what the beams do to each other is told too
    """
    each = result.beams[number]
    offers = reach_offers(result, each, number=number)
    return Report(
        subject="reach",
        title=reach_title(each.beam.name),
        answer=_answer(result, each),
        pictures=(
            *height_pictures(each),
            *path_pictures(result.station, each),
            *(together_pictures(result) if together else ()),
            *people_pictures(result, each),
        ),
        tables=(
            *height_tables(each),
            *path_tables(each),
            *(together_tables(result) if together else ()),
            *people_tables(each),
            *_further_tables(each),
        ),
        brief=(path_brief(each), height_brief(each)),
        next=tuple(offer.text for offer in offers),
        offers=offers,
        notices=result.notices,
    )


def _answer(result: ReachResult, each: BeamReach) -> tuple[Fact, ...]:
    """Say where the beam sends, what height brings, and which limit is closest."""
    facts = [fact("Take-off angle", _lobe(each))]
    if best := best_heights(each):
        facts.append(fact(BEST_HEIGHT, best))
    more = step_up(each, "{gains}; {price}", each.wanted_deg[:1])
    facts.append(fact(PerSystem(metric="One metre more", us="Ten feet more"), more))
    over = each.advantages[1]
    own = phrase("Over a {name} {at}", name=plain_name(over.over), at=at_angle(over.elevation_deg))
    facts.append(fact(own, advantage(over)))
    if result.stack is not None:
        gain = result.stack.gain
        together = Quantity(gain.decibels, "gain change", gain.error_db)
        facts.append(fact("Stack, in phase", together))
    facts += [fact(band_words(more.beam), _lobe(more)) for more in each.further]
    exposures = (band.exposure for band in each.every_band if band.exposure)
    applying = [check for exposure in exposures for check in exposure.checks if check.applies]
    if applying:
        worst = max(applying, key=lambda check: check.governing)
        closest = phrase("{use:use}, {place}", use=worst.governing, place=worst.place.place)
        facts.append(fact("Closest to its limit", closest))
    if each.scan.splits:
        first = Quantity(each.scan.splits[0].height, "height")
        facts.append(fact("Height from which there is a second lobe", first))
    return tuple(facts)


def _lobe(each: BeamReach) -> Value:
    return phrase("{:angle}, strongest lobe, boom at {:span}", each.take_off_deg, each.beam.height)
