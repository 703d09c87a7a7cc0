"""The one picture of advice: decibels towards what is wanted against cost."""

from __future__ import annotations

from collections.abc import Iterator

from boomwright import charts
from boomwright.base.quantity import Value, factor_of, listed, phrase, unit_of
from boomwright.report.advice.words import DIPOLE, MARKS, at_height, cost_of, kinds_of
from boomwright.report.model import Canvas, Picture, Table, column
from boomwright.study.advice.advise import Advice
from boomwright.study.advice.judged import Candidate

#: number of a candidate from 0, and the candidate
_Row = tuple[int, Candidate]


def advice_picture(advice: Advice) -> Picture | None:
    """Draw every station by what it gives and costs, or by its height while costs are not known.

    Returns:
        the picture; None where there is nothing to draw
    """
    if not advice.candidates:
        return None
    priced = all(each.cost is not None for each in advice.candidates)
    title = f"Decibels against {'cost' if priced else 'height'}"
    return Picture(
        name="stations",
        title=title,
        draw=lambda canvas: _drawn(advice, canvas, title=title, priced=priced),
        behind=_behind(advice),
        caption=_caption(advice, priced=priced),
    )


def _drawn(advice: Advice, canvas: Canvas, *, title: str, priced: bool) -> str:
    unit = unit_of("height", system=canvas.system)
    dipole = canvas.write(DIPOLE)
    return charts.advice_chart(
        points=list(_points(advice, canvas, priced=priced)),
        x_label=f"likely cost, {_currency(advice)}" if priced else f"height, {unit}",
        y_label=f"dB against {dipole}",
        title=title,
        description=canvas.write(_sentence(advice)),
        least_db=advice.least_db,
        palette=canvas.palette,
        width=canvas.width,
        # A narrow window leaves as much height as the words beside the axis need.
        height=max(0.56 * canvas.width, 260.0),
    )


def _currency(advice: Advice) -> str:
    prices = advice.plan.prices
    return "" if prices is None else prices.currency


def _points(advice: Advice, canvas: Canvas, *, priced: bool) -> Iterator[charts.StationPoint]:
    picked = {pick.number: canvas.write(kinds_of(pick)) for pick in advice.picks}
    per_metre = factor_of("height", system=canvas.system)
    for number, each in enumerate(advice.candidates):
        total = each.sums.total if priced and each.sums is not None else None
        yield charts.StationPoint(
            number=number + 1,
            name=canvas.write(at_height(each)),
            gain_db=each.served.mean_db,
            along=(each.cost or 0.0) if priced else each.station.height * per_metre,
            band=None if total is None else (total.low, total.high),
            at_least=priced and not each.priced_in_full,
            verdict=each.verdict.word,
            unbeaten=priced and each.priced_in_full and number in advice.front,
            picked=picked.get(number, ""),
        )


def _sentence(advice: Advice) -> Value:
    told = [
        phrase(
            "{kinds}: no. {n}, {at}, {over:advantage}, {cost}",
            kinds=kinds_of(pick),
            n=pick.number + 1,
            at=at_height(advice.candidates[pick.number]),
            over=advice.candidates[pick.number].served.mean_db,
            cost=cost_of(advice.candidates[pick.number]),
        )
        for pick in advice.picks
    ]
    head = f"{len(advice.candidates)} stations. "
    return phrase("{}{}.", head, listed(told, between="; ") if told else "None is put forward")


def _caption(advice: Advice, *, priced: bool) -> Value:
    if not priced:
        return "Not every station has a price yet, so the stations stand by their height."
    words = "The bar through a station put forward is what it may cost, from low to high."
    if any(not each.priced_in_full for each in advice.candidates):
        words += " An arrow marks a station of which something has no price: it costs more."
    return words


def _behind(advice: Advice) -> Table[_Row]:
    return Table(
        name="stations-behind",
        caption="The stations of the picture",
        columns=(
            column("no.", lambda row: row[0] + 1),
            column("station", lambda row: at_height(row[1])),
            column("mean", lambda row: row[1].served.mean_db, kind="advantage"),
            column("cost", lambda row: cost_of(row[1])),
            column("verdict", lambda row: MARKS[row[1].verdict.word]),
            column("", lambda row: _standing(advice, row[0])),
        ),
        items=list(enumerate(advice.candidates)),
    )


def _standing(advice: Advice, number: int) -> Value:
    for pick in advice.picks:
        if pick.number == number:
            return kinds_of(pick)
    return "no other beats it" if number in advice.front else ""
