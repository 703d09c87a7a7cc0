"""The tables of the feed itself, as page and book both show them."""

from __future__ import annotations

import math
from functools import partial

from boomwright.app.feed_results import BeamFeed, FeedResult
from boomwright.app.feed_texts import difference_text, swr_text, value_text
from boomwright.app.feed_tries import stage_text
from boomwright.base import UnitSystem, length_text
from boomwright.figures import ReadingTable, ShownTable


def comparison_table(each: BeamFeed, *, system: UnitSystem) -> ShownTable | None:
    """Dimensions from the circuit equations and from the field, side by side.

    Returns
    -------
    ShownTable or None
        None when nothing was proposed
    """
    match = each.proposed
    if match is None or not match.comparisons:
        return None
    rows = [
        (
            item.name,
            value_text(item.circuit, unit=item.unit, system=system),
            value_text(item.field, unit=item.unit, system=system),
            difference_text(item),
        )
        for item in match.comparisons
    ]
    rows.append(
        (
            "SWR at the design frequency, solved in the field",
            swr_text(match.swr_of_start),
            swr_text(match.swr),
            "",
        )
    )
    return ShownTable(
        name="dimensions",
        caption=f"Proposed {match.kind}: circuit equations, and cut as solved in the field",
        table=ReadingTable(
            header=("dimension", "circuit equations", "field: cut this", "difference"),
            rows=tuple(rows),
        ),
        note=(
            f"Impedance at the line ± {match.error.impedance:.1f} ohm (finer pieces "
            f"{match.error.pieces:.1f}, round conductors {match.error.proximity:.1f}, mounts of "
            f"the elements {match.error.mounts:.1f}); clamps of the match, "
            "insulators and housings are not in it. Keep what slides sliding until it is measured."
        ),
    )


def tries_table(each: BeamFeed, *, system: UnitSystem) -> ShownTable:
    """All kinds of feed by their circuit equations."""
    length = partial(length_text, system=system)
    rows = []
    for item in each.tries:
        if item.match is None:
            rows.append((item.kind, item.refusal.split(": ", 1)[-1], "none", "none"))
            continue
        values = ", ".join(stage_text(stage, length=length) for stage in item.match.stages)
        rows.append((item.kind, values, swr_text(item.swr_design), swr_text(item.swr_worst)))
    return ShownTable(
        name="kinds",
        caption=f"Every kind of feed by its circuit equations, against {each.reference:g} ohm",
        table=ReadingTable(
            header=("feed", "first values", "SWR at design", "greatest over the band"),
            rows=tuple(rows),
        ),
        note=(
            "First values for choosing a kind, not for cutting: rods come out up to twice or half "
            "as long in the field. Write the kind into the plan to have it solved there."
        ),
    )


def rating_table(result: FeedResult, each: BeamFeed) -> ShownTable | None:
    """Parts at the owner's power.

    Returns
    -------
    ShownTable or None
        None when the power is not known
    """
    if not each.ratings or result.power is None:
        return None
    rows = [
        (
            item.part,
            f"{item.peak_voltage:.0f} V",
            f"{item.rated_voltage:.0f} V" if item.rated_voltage else "",
            f"{item.current:.1f} A",
        )
        for item in each.ratings
    ]
    if each.choke_work is not None:
        work = each.choke_work
        rows.append(
            (
                f"choke of {abs(work.impedance):.0f} ohm, {work.heat:.1f} W of heat",
                f"{math.sqrt(2.0) * work.voltage:.0f} V",
                "",
                f"{work.voltage / abs(work.impedance):.3f} A",
            )
        )
    if each.line is not None and each.line.rating is not None:
        rating = each.line.rating
        rows.append(
            (
                f"line {each.line.line.name}, {rating.heat:.2f} W/m in its warmest metre, jacket "
                f"about {rating.jacket_rise:.0f} K above still air",
                f"{rating.peak_voltage:.0f} V",
                "",
                f"{rating.current:.1f} A",
            )
        )
    return ShownTable(
        name="ratings",
        caption=(
            f"At {result.power:g} W peak envelope power, duty {result.duty_factor:g}, worst over "
            "the band"
        ),
        table=ReadingTable(
            header=("part", "crest voltage", "buy a capacitor for", "effective current"),
            rows=tuple(rows),
        ),
        note="Voltages and currents at the peak envelope power, heat at the mean power.",
    )


def turning_table(each: BeamFeed) -> ShownTable | None:
    """What to turn first at a gamma, by what the meter reads.

    Returns
    -------
    ShownTable or None
        None for other feeds
    """
    if not each.turns:
        return None
    return ShownTable(
        name="turning",
        caption="At the antenna: what to turn first",
        table=ReadingTable(
            header=("the meter reads", "do"),
            rows=tuple((turn.reads, " ".join(turn.do)) for turn in each.turns),
        ),
        note="Transmitter off and locked while anybody touches strap, rod or capacitor.",
    )
