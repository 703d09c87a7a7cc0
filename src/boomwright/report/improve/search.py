"""A search, the comparison of spacings and the build tolerance."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import zip_longest
from typing import Any, TypeVar

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.charts.beam.spacing_comparison import (
    SpacingCurves,
    spacing_gain_chart,
    spacing_pattern,
    spacing_sentence,
    spacing_swr_chart,
)
from boomwright.design import Tolerance
from boomwright.report.beam.measured import measured_line, measured_words
from boomwright.report.improve.found import (
    Found,
    FoundCount,
    FoundElement,
    FoundSearch,
    Worst,
    found_by,
)
from boomwright.report.model import Column, Fact, Picture, Report, Table, column, drawing, fact
from boomwright.study.improve import ImproveResult

Item = TypeVar("Item")

#: azimuths in the table behind the patterns, every so many degrees
_AZIMUTHS = 15
_CAUSES = {
    "cutting": "lengths as cut",
    "placing": "places along the boom",
    "tube": "diameters of the tubes",
    "droop": "elements that hang down",
    "wet": "rain on the elements",
    "ice": "ice on the elements",
    "neighbour": "the other antennas of the plan",
}


def improve_report(result: ImproveResult) -> Report:
    """Say what a search found just now."""
    report = found_report(found_by(result), name=result.before.name)
    measured = (
        fact("As measured, before", measured_line(result.measured_before)),
        fact("As measured, after", measured_line(result.measured_after)),
    )
    last = fact("As measured", measured_words(result.measured_after))
    return replace(report, answer=(*measured, *report.answer, last))


def found_report(found: Found, *, name: str) -> Report:
    """Say what is known of a beam: search, comparison, tolerance, as far as there is."""
    answer: tuple[Fact, ...] = ()
    pictures: tuple[Picture, ...] = ()
    tables: list[Table[Any]] = []
    if found.search is not None:
        answer = _answer(found.search)
        tables += _search_tables(found.search)
    if found.compared:
        pictures = _pictures(found.compared)
        tables.append(_spacings(found.compared))
    if found.tolerance is not None:
        tables.append(_tolerance(found.tolerance))
        within = Quantity(found.tolerance.cut_within, "small length")
        cut = phrase("± {within}", within=within)
        answer = (*answer, fact("Cut every half to within", cut))
    title = f"Size and spacing of {name}"
    return Report(
        subject="improve",
        title=title,
        answer=answer,
        pictures=pictures,
        tables=tuple(tables),
        brief=tuple(tables),
    )


def _answer(search: FoundSearch) -> tuple[Fact, ...]:
    chosen = search.counts[search.chosen]
    starts = sum(one.starts for one in search.counts)
    ended = "finished" if search.finished else "stopped early"
    agreeing = f"{chosen.agreeing} of {chosen.starts} starts ended"
    kept = "all kept" if chosen.kept else "not all kept; this beam breaks them least"
    return (
        fact("Wanted", "; ".join(search.wish)),
        fact("Agreement", f"{agreeing} within 0.02 dB of the best"),
        fact("Limits", kept),
        # A quick look ends after five: how the search went stands behind what came of it.
        fact("Search", f"{starts} starts, seed {search.seed}, {ended}"),
    )


def worst_columns(get: Callable[[Item], Worst], *, match: str = "") -> tuple[Column[Item], ...]:
    """Columns of the figures that are worst in a band.

    Args:
        get: takes an item, gives its figures
        match: what is said of the match behind ``SWR``
    """
    told = (
        ("gain", "gain"),
        ("front to back", "ratio"),
        ("front to rear", "ratio"),
        (f"SWR{match}", "swr"),
    )

    def worst(head: str, kind: str, at: int) -> Column[Item]:
        return column(head, lambda item: get(item)[at], kind=kind)

    return tuple(worst(head, kind, at) for at, (head, kind) in enumerate(told))


def _search_tables(search: FoundSearch) -> list[Table[Any]]:
    match = ", after a match" if any("SWR" in w and "match" in w for w in search.wish) else ""
    boom: Column[Any] = column("boom", lambda item: item.boom, kind="sawn length")
    before_after = Table(
        name="searched",
        caption="Worst in the band before and after the search, free space, by the full solver",
        columns=(
            column("beam", lambda item: "before" if item is search.before else "after"),
            *worst_columns(lambda item: item.worst, match=match),
            boom,
        ),
        items=(search.before, search.after),
    )
    if len(search.counts) == 1:
        return [before_after, _moved(search)]
    taken = search.counts[search.chosen]

    def remark(item: FoundCount) -> str:
        return "taken" if item is taken else "" if item.kept else "limits not kept"

    counts = Table(
        name="counts",
        caption="Each number of elements at its best",
        columns=(
            column("elements", lambda item: item.elements),
            *worst_columns(lambda item: item.worst, match=match),
            boom,
            column("", remark),
        ),
        items=search.counts,
    )
    return [before_after, _moved(search), counts]


def _moved(search: FoundSearch) -> Table[Any]:
    """Places and lengths, in the order along the boom."""
    before, after = (
        sorted(beam.elements, key=lambda each: each.at) for beam in (search.before, search.after)
    )
    pairs = list(zip_longest(after, before[: len(after)]))

    def was(get: Callable[[FoundElement], float]) -> Column[Any]:
        return column(
            "was", lambda i: Quantity(get(old), "sawn length") if (old := pairs[i][1]) else "new"
        )

    def tip(i: int) -> Value:
        own = after[i].tip
        return Quantity(own, "sawn length") if own else ""

    return Table(
        name="moved",
        caption="Places and lengths before and after the search",
        columns=(
            column("element", lambda i: f"{i + 1} {after[i].role}"),
            column("at", lambda i: after[i].at, kind="sawn length"),
            was(lambda old: old.at),
            column("length", lambda i: after[i].length, kind="sawn length"),
            was(lambda old: old.length),
            column("tip tube", tip),
        ),
        items=range(len(after)),
    )


def _pictures(compared: tuple[SpacingCurves, ...]) -> tuple[Picture, ...]:
    """Even against free spacing: patterns, SWR and gain over each other."""
    said = spacing_sentence(compared=compared)
    words = "even against free spacing"

    return (
        Picture(
            name="spacing-pattern",
            title=f"Azimuth patterns, {words}",
            draw=drawing(spacing_pattern, units=False, compared=compared),
            caption=said,
            behind=_azimuths(compared),
        ),
        Picture(
            name="spacing-swr",
            title=f"SWR over the band, {words}",
            draw=drawing(spacing_swr_chart, units=False, compared=compared),
            behind=_over_band(compared, [one.swr for one in compared], "swr"),
        ),
        Picture(
            name="spacing-gain",
            title=f"Gain over the band, {words}",
            draw=drawing(spacing_gain_chart, units=False, compared=compared),
            behind=_over_band(compared, [one.gain_dbi for one in compared], "gain"),
        ),
    )


def _over_band(compared: tuple[SpacingCurves, ...], curves: Sequence[Any], kind: str) -> Table[Any]:
    def curve(number: int) -> Column[Any]:
        return column(compared[number].spacing, lambda i: float(curves[number][i]), kind=kind)

    at = compared[0].frequencies
    return Table(
        name=f"spacing-{kind}",
        caption="Over the band, even against free spacing",
        columns=(
            column("frequency", lambda i: float(at[i]), kind="frequency"),
            *(curve(number) for number in range(len(compared))),
        ),
        items=range(0, len(at), 2),
    )


def _azimuths(compared: tuple[SpacingCurves, ...]) -> Table[Any]:
    """Gain of each way towards whole steps of azimuth."""
    angles = compared[0].azimuth.angle_deg

    def gain(one: SpacingCurves) -> Column[Any]:
        return column(one.spacing, lambda i: float(one.azimuth.gain_dbi[i]), kind="gain")

    return Table(
        name="spacing-pattern",
        caption="Azimuth patterns, even against free spacing",
        columns=(
            column("azimuth", lambda i: float(angles[i]), kind="whole angle"),
            *(gain(one) for one in compared),
        ),
        items=[i for i, angle in enumerate(angles) if angle <= 180.0 and angle % _AZIMUTHS == 0.0],
    )


def _spacings(compared: tuple[SpacingCurves, ...]) -> Table[Any]:
    free = compared[-1]
    wins = [
        phrase(f"{{gain:gain change}} against {one.spacing}", gain=free.worst[0] - one.worst[0])
        for one in compared[:-1]
    ]
    note = phrase(
        "Gain of free spacing: {}. Each is the best by the wishes, which may weigh more than gain.",
        listed(wins),
    )

    def worst(head: str, number: int, kind: str) -> Column[SpacingCurves]:
        return column(head, lambda one: one.worst[number], kind=kind)

    return Table(
        name="spacings",
        caption="Even against free spacing, each at its best: worst in the band",
        columns=(
            column("spacing", lambda one: one.spacing + ("" if one.kept else " (a limit broken)")),
            worst("gain", 0, "gain"),
            worst("front to back", 1, "ratio"),
            worst("front to rear", 2, "ratio"),
            worst("SWR", 3, "swr"),
            column(
                "places", lambda one: listed([Quantity(at, "sawn length") for at in one.places])
            ),
        ),
        items=compared,
        note=note if free.spacing == "free" else None,
    )


def _tolerance(made: Tolerance) -> Table[Any]:
    """What each cause does to the worst figures in the band, and how finely to cut."""
    allowed = made.allowance

    def span(low: float, high: float, kind: str) -> Value:
        least, most = Quantity(low, kind), Quantity(high, kind)
        same = round(high, 2) - round(low, 2) < 5e-3
        return least if same else phrase("{least} to {most}", least=least, most=most)

    return Table(
        name="tolerance",
        caption="What building and weather do to the worst figures in the band",
        columns=(
            column("cause", lambda one: _CAUSES.get(one.cause, one.cause)),
            column(
                "acts like halves longer by",
                lambda one: Quantity(one.lengthening, "small length") if one.lengthening else "",
            ),
            Column(
                head="gain", get=lambda one: span(*one.gain_db, "gain change"), kind="gain change"
            ),
            Column(
                head="front to back",
                get=lambda one: span(*one.front_to_back_db, "gain change"),
                kind="gain change",
            ),
            Column(head="SWR", get=lambda one: span(*one.swr, "swr change"), kind="swr change"),
        ),
        items=made.spreads,
        note=phrase(
            "Cut every half to within ± {within:small length}: 19 of 20 beams then lose at most "
            "{gain:loss} of gain, {back:ratio} of front-to-back ratio and {swr:number} in SWR, the "
            "worst in the band.",
            within=made.cut_within,
            gain=allowed.gain_db,
            back=allowed.front_to_back_db,
            swr=allowed.swr,
        ),
    )
