"""Names of series in as many rows as the width of a picture asks for."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.charts.axes import legend
from boomwright.charts.labels import text_width
from boomwright.charts.palette import LineStyle, Palette

#: distance between two rows [user units]
ROW = 14.0
_SAMPLE, _GAP = 30.0, 18.0


def legend_rows(
    *,
    entries: Sequence[tuple[str, LineStyle]],
    x: float,
    y: float,
    room: float,
    palette: Palette,
    markers: bool = True,
) -> tuple[list[str], float]:
    """Name the series, starting a new row where one is full.

    Args:
        x: where the rows begin [user units]
        y: vertical middle of the first row [user units]
        room: width the rows may take [user units]

    Returns:
        finished elements, and how far the last row lies below the first [-, user units]
    """
    rows: list[list[tuple[str, LineStyle]]] = [[]]
    used = 0.0
    for entry in entries:
        wide = _SAMPLE + text_width(entry[0], size=10.0) + _GAP
        if rows[-1] and used + wide - _GAP > room:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += wide
    made = []
    for number, row in enumerate(rows):
        widths = [text_width(name, size=10.0) for name, _ in row]
        made += legend(entries=row, x=x, y=y + number * ROW, palette=palette, widths=widths,
                       markers=markers)  # fmt: skip
    return made, (len(rows) - 1) * ROW
