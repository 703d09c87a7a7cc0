"""Plain charts of reach: curves over one running value, with the numbers behind them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright import charts
from boomwright.base import UnitSystem
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, Value, factor_of, unit_of, write
from boomwright.report.model import Canvas, Picture, Table, column
from boomwright.study.reach_parts.results import BeamReach

#: rows of the numbers behind a chart, at most [-]
_ROWS = 45


def front_gain(each: BeamReach) -> Floats:
    """Gain of the beam towards its heading at the elevations of its scan over height [dBi] (e,)."""
    gain: Floats = np.interp(each.scan.elevation_deg, each.cut.angle_deg, each.cut.gain_dbi)
    return gain


def curves(
    name: str,
    title: str,
    *,
    x: Floats,
    lines: Sequence[tuple[Value, Floats]],
    caption: Value,
    group: str,
    x_head: str = "elevation above the horizon",
    x_kind: str = "angle",
    x_names: tuple[str, str] = ("elevation", "elevation"),
    y_head: str = "gain",
    y_kind: str = "gain over ground",
    deepest: float | None = None,
    mark: tuple[float, Value] | None = None,
) -> Picture:
    """Draw a plain chart with its numbers.

    Args:
        x: running value [SI of its kind, degrees for angles] (n,)
        lines: name and values of each curve [SI of their kind] (n_lines,)
        x_names: what the page calls the running value, in metric and in US units
        deepest: how far below the highest value the chart reaches; None for all [unit of y]
        mark: running value to be marked, and its words; None for none [as x]
    """

    def draw(canvas: Canvas) -> str:
        system = canvas.system
        across, up = (factor_of(kind, system=system) for kind in (x_kind, y_kind))
        named = [(write(label, system=system), y) for label, y in lines]
        said = (
            f"{label}: at most {write(Quantity(float(y.max()), y_kind), system=system)} at "
            f"{write(Quantity(float(x[int(y.argmax())]), x_kind), system=system)}"
            for label, y in named
        )
        return charts.line_chart(
            kind=name,
            title=title,
            description=f"{'; '.join(said)}.",
            x=x * across,
            curves=[(label, y * up) for label, y in named],
            x_label=_axis(x_head, x_kind, system),
            y_label=_axis(y_head, y_kind, system),
            x_name=x_names[system == "us"],
            deepest=deepest,
            mark=None if mark is None else (mark[0] * across, write(mark[1], system=system)),
            palette=canvas.palette,
            width=canvas.width,
        )

    def line(label: Value, y: Floats) -> Any:
        return column(label, lambda i: float(y[i]), kind=y_kind)

    return Picture(
        name=name,
        title=title,
        draw=draw,
        caption=caption,
        group=group,
        behind=Table(
            name=name,
            caption=title,
            columns=(
                column(x_head, lambda i: float(x[i]), kind=x_kind),
                *(line(label, y) for label, y in lines),
            ),
            items=range(0, len(x), max(1, len(x) // _ROWS)),
        ),
    )


def _axis(head: str, kind: str, system: UnitSystem) -> str:
    unit = unit_of(kind, system=system)
    return f"{head}, {'degrees' if unit == '°' else unit}"
