"""A plain chart of some curves over one running value, for subjects that need no more."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from boomwright.charts.axes import curve, panel, panel_frame
from boomwright.charts.canvas import document, line, pen, tag
from boomwright.charts.legends import LEGEND_ROW, legend_lines
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0


def line_chart(
    *,
    kind: str,
    title: str,
    description: str,
    x: ArrayLike,
    curves: Sequence[tuple[str, ArrayLike]],
    x_label: str,
    y_label: str,
    x_name: str = "x",
    deepest: float | None = None,
    mark: tuple[float, str] | None = None,
    palette: Palette = LIGHT,
    width: float = 600.0,
    height: float = 300.0,
) -> str:
    """Draw curves over one running value.

    Args:
        kind: kind of picture, becomes ``data-figure``
        x: running value, rising [any unit] (n,)
        curves: name and values of each curve [any unit] (n_curves,)
        deepest: how far below the highest value the chart reaches at most; None for all [unit of y]
        mark: running value to be marked, and its words; None for none [unit of x]

    Returns:
        SVG text; values below the chart are drawn at its lower edge
    """
    along = np.asarray(x, dtype=float)
    values = [(name, np.asarray(y, dtype=float)) for name, y in curves]
    high = max(float(y.max()) for _, y in values)
    low = min(float(y.min()) for _, y in values)
    if deepest is not None:
        low = max(low, high - deepest)
    styles = [line_style(palette=palette, index=i) for i in range(len(values))]
    key, rows = legend_lines(
        list(zip([name for name, _ in values], styles, strict=True)),
        x=_LEFT, y=38.0, room=width - _LEFT - 8.0, palette=palette,
    )  # fmt: skip
    down = LEGEND_ROW * (rows - 1)
    frame = panel(
        left=_LEFT, top=_TOP + down, right=width - _RIGHT, bottom=height + down - 42.0,
        x_range=(float(along[0]), float(along[-1])), y_range=nice_bounds(low=low, high=high),
        x_label=x_label, y_label=y_label, x_count=9,
    )  # fmt: skip
    body = panel_frame(frame, palette=palette)
    for (name, y), style in reversed(list(zip(values, styles, strict=True))):
        body.append(curve(frame, x=along, y=y, label=name, style=style, x_name=x_name))
    if mark is not None:
        place = frame.x(mark[0])
        right = place < 0.75 * frame.x.end
        body.append(line(place, frame.y.end, place, frame.y.start, **pen(palette.accent, "1.2")))
        body.append(
            halo_text(
                place + (5.0 if right else -5.0),
                frame.y.end + 9.0,
                mark[1],
                fill=palette.accent,
                palette=palette,
                anchor="start" if right else "end",
            )
        )
    return document(
        kind=kind, title=title, description=description, width=width,
        height=height + down,
        palette=palette,
        body=[*key, tag("g", "".join(body), data_panel=0, **frame.data())],
    )  # fmt: skip
