"""The pictures and tables of reach, as page and book both show them."""

from __future__ import annotations

import numpy as np

from boomwright.base import UnitSystem
from boomwright.charts import Palette, ShownSubject
from boomwright.report.reach.drawing import Drawing, band_words, length_words
from boomwright.report.reach.height_pictures import height_pictures, unpriced_table
from boomwright.report.reach.path_pictures import path_pictures
from boomwright.report.reach.people_pictures import people_pictures
from boomwright.report.reach.people_tables import check_table, distance_table
from boomwright.report.reach.shown_tables import (
    advantage_table,
    best_table,
    hop_table,
    isolation_table,
    path_table,
    pointing_table,
    stack_table,
)
from boomwright.report.reach.stack_pictures import ring_pictures, ring_table, stack_pictures
from boomwright.study.reach_results import BeamReach, ReachResult

#: width of a picture on the page and in the book [user units]
_WIDTH = 520.0


def show_reach(
    result: ReachResult,
    *,
    number: int,
    palette: Palette,
    system: UnitSystem = "metric",
    width: float = _WIDTH,
    together: bool = True,
) -> ShownSubject:
    """Draw everything reach says about one beam, with the stack it belongs to.

    Parameters
    ----------
    width
        width of the pictures [user units]
    together
        whether what the beams do to each other is shown too
    """
    each = result.beams[number]
    draw = Drawing(palette=palette, system=system, width=width)
    pictures = height_pictures(each, draw)
    tables = [advantage_table(each), pointing_table(each)]
    if not each.costs.priced:
        tables.append(unpriced_table(each))
    pictures += path_pictures(result.station, each, draw)
    if each.paths:
        tables += [path_table(each, system=system), hop_table(each, system=system)]
    if result.stack is not None and together:
        pictures += stack_pictures(result.stack, draw)
        tables.append(stack_table(result.stack))
        if result.stack.phases:
            tables.append(best_table(result.stack, system=system))
    if result.isolation and together:
        tables.append(isolation_table(result))
    if result.ring is not None and together:
        pictures += ring_pictures(result.ring, draw)
        tables.append(ring_table(result.ring))
    if each.exposure is not None:
        pictures += people_pictures(
            result, each.exposure, each, palette=palette, system=system, width=width
        )
        if each.exposure.checks:
            tables.append(check_table(each.exposure, system=system))
        tables.append(distance_table(each.exposure, system=system))
    return ShownSubject(
        title=f"Reach of {each.beam.name}",
        facts=_facts(result, each, system),
        pictures=tuple(pictures),
        tables=tuple(tables),
        notices=result.notices,
    )


def _facts(result: ReachResult, each: BeamReach, system: UnitSystem) -> tuple[tuple[str, str], ...]:
    facts = [("Take-off angle", f"{each.take_off_deg:.1f}°")]
    if each.scan.splits:
        first = each.scan.splits[0]
        facts.append(("Second lobe from", length_words(first.height, system)))
    if each.costs.priced:
        facts.append(_metre_more(each, system))
    wanted = each.wanted_deg[0]
    own = each.advantages[1]
    facts.append(
        (
            f"Over a dipole at 10 m (33 ft), at {wanted:g}°",
            f"{own.decibels:+.1f} dB, {own.s_units:+.1f} S",
        )
    )
    if result.stack is not None:
        gain = result.stack.gain
        facts.append(("Stack, in phase", f"{gain.decibels:+.2f} {band_words(gain.error_db)} dB"))
    checks = each.exposure.checks if each.exposure else ()
    applying = [check for check in checks if check.applies]
    if applying:
        worst = max(applying, key=lambda check: check.governing)
        facts.append((f"Most used limit, {worst.place.place}", f"{100.0 * worst.governing:.0f} %"))
    return tuple(facts)


def _metre_more(each: BeamReach, system: UnitSystem) -> tuple[str, str]:
    """What one metre, or ten feet, more costs and gains at the first wanted angle."""
    step, words = (1.0, "One metre more") if system == "metric" else (3.048, "Ten feet more")
    height, angle, costs = each.beam.height, each.wanted_deg[0], each.costs
    price = costs.likely_at(height + step) - costs.likely_at(height)
    gain = each.scan.gain_at(elevation_deg=angle)
    more, now = np.interp([height + step, height], each.scan.heights, gain)
    return words, f"{price:.0f} {costs.currency}, {more - now:+.2f} dB at {angle:g}°"
