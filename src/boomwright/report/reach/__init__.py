"""What there is to say of lobes, heights, paths, stacks and the people near the antenna."""

from dataclasses import replace
from typing import Any

from boomwright.base.quantity import phrase
from boomwright.report.beam.measured import band_words
from boomwright.report.model import Report, Table
from boomwright.report.reach.answer import reach_answer
from boomwright.report.reach.heights import (
    BEST_HEIGHT,
    height_brief,
    height_pictures,
    height_tables,
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
        answer=reach_answer(result, each),
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
