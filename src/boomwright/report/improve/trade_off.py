"""What so many elements on such a boom can reach."""

from __future__ import annotations

import numpy as np

from boomwright import charts
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.charts.beam.frontier import trade_off_sentence, trade_off_table
from boomwright.parts import Beam
from boomwright.report.model import Canvas, Picture, Report, Table, column, drawing, fact
from boomwright.study.frontier import FrontierRow, TradeOff
from boomwright.study.frontier_fit import beam_trade_off


def trade_off_report(made: TradeOff) -> Report:
    """Say what gain a boom allows under each demand on the rear."""
    low, high = (Quantity(edge, "frequency") for edge in made.band)
    curves = trade_off_curves(made)
    asked, designs = _rows("asked", "On the boom asked for", made.asked), _designs(made)
    best = max(made.asked, key=lambda row: row.point.gain_dbi)
    return Report(
        subject="frontier",
        title=f"{made.elements} elements: gain, boom and front-to-rear ratio",
        answer=(
            fact("Band", phrase("{low} to {high}", low=low, high=high)),
            fact("Boom", Quantity(made.boom, "span")),
            fact("Diameter of the elements", Quantity(made.diameter, "diameter")),
            fact("Most gain on it, worst in the band", Quantity(best.point.gain_dbi, "gain")),
        ),
        pictures=(
            Picture(
                name="trade-off",
                title="Gain against boom",
                draw=drawing(charts.trade_off_chart, curves=curves, elements=made.elements),
                behind=_rows("curve", "Gain against boom", made.curve),
            ),
        ),
        tables=(asked, designs),
        brief=(asked, designs),
        next=(
            "search with your own tubing: write the wishes into a plan and run boomwright improve",
        ),
    )


def trade_off_picture(beam: Beam, *, gain_dbi: float, canvas: Canvas) -> charts.ShownPicture:
    """Draw what as many elements as a beam has can reach on its band, and where it stands itself.

    Args:
        gain_dbi: its own worst gain in the band [dBi]
    """
    curves, count = trade_off_curves(beam_trade_off(beam)), len(beam.elements)
    behind = charts.ShownTable(
        name="trade-off",
        caption=f"Worst gain in the band of {count} elements, by boom and demand on the rear",
        table=trade_off_table(curves=curves, system=canvas.system),
    )
    return charts.ShownPicture(
        name="trade-off",
        words=f"What {count} elements can reach",
        svg=charts.trade_off_chart(
            curves=curves,
            elements=count,
            own=(beam.boom_length, gain_dbi, "this beam"),
            palette=canvas.palette,
            system=canvas.system,
            width=canvas.width,
        ),
        caption=trade_off_sentence(curves=curves, elements=count, system=canvas.system),
        behind=behind,
        units=canvas.width,
    )


def trade_off_curves(made: TradeOff) -> tuple[charts.TradeOffCurve, ...]:
    """Gather the rows of each demand on the rear into a curve."""
    return tuple(
        charts.TradeOffCurve(
            rear_db=rear,
            boom=np.array([row.boom for row in rows]),
            gain_dbi=np.array([row.point.gain_dbi for row in rows]),
            front_to_rear_db=np.array([row.point.front_to_rear_db for row in rows]),
            kept=np.array([row.point.kept for row in rows]),
        )
        for rear in dict.fromkeys(row.rear_db for row in made.curve)
        for rows in [[row for row in made.curve if row.rear_db == rear]]
    )


def _wanted(row: FrontierRow) -> Value:
    return Quantity(row.rear_db, "ratio") if row.rear_db else "any"


def _rows(name: str, caption: str, rows: tuple[FrontierRow, ...]) -> Table[FrontierRow]:
    return Table(
        name=name,
        caption=caption,
        columns=(
            column("boom", lambda row: Quantity(row.boom, "span")),
            column("front to rear wanted", _wanted),
            column("reached", lambda row: row.point.front_to_rear_db, kind="ratio"),
            column("gain", lambda row: row.point.gain_dbi, kind="gain"),
            column("SWR", lambda row: row.point.swr, kind="swr"),
            column("at the feed", lambda row: row.point.resistance, kind="resistance"),
            column("", lambda row: "" if row.point.kept else "not reached"),
        ),
        items=rows,
        rows=len(rows),
        basis="Worst in the band, of plain tubes without loss in free space.",
    )


def _designs(made: TradeOff) -> Table[FrontierRow]:
    def lengths(values: object, factor: float) -> Value:
        return listed([Quantity(float(v) * factor, "sawn length") for v in values])  # type: ignore[attr-defined]

    return Table(
        name="designs",
        caption="Designs behind it",
        columns=(
            column("front to rear wanted", _wanted),
            column("places", lambda row: lengths(row.point.positions, made.wavelength)),
            column("lengths", lambda row: lengths(row.point.half_lengths, 2.0 * made.wavelength)),
        ),
        items=made.asked,
        note="Fitted to this boom, band and diameter; the figures are those of these designs by "
        "the full solver.",
        sentences=True,
    )
