"""The names of the series of a chart, in one row or, where that is too narrow, in two."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.charts.axes import legend
from boomwright.charts.labels import shortened, text_width
from boomwright.charts.palette import LineStyle, Palette

#: one more row of names moves everything below it down by this [user units]
LEGEND_ROW = 16.0
_SIZE, _AROUND = 10.0, 48.0


def legend_lines(
    entries: Sequence[tuple[str, LineStyle]], *, x: float, y: float, room: float, palette: Palette
) -> tuple[list[str], int]:
    """Name the series, in as few rows as hold the names whole; at most two.

    Args:
        x: where the rows begin [user units]
        y: vertical middle of the first row [user units]
        room: width there is [user units]
    """

    def wide(row: Sequence[tuple[str, LineStyle]]) -> float:
        return sum(text_width(name, size=_SIZE) + _AROUND for name, _ in row) - 18.0

    half = (len(entries) + 1) // 2
    one = len(entries) < 2 or wide(entries) <= room
    rows = [entries] if one else [entries[:half], entries[half:]]
    made: list[str] = []
    for number, row in enumerate(rows):
        names = [name for name, _ in row]
        if wide(row) > room:
            names = [shortened(n, size=_SIZE, room=room / len(names) - _AROUND) for n in names]
        made += legend(
            entries=list(zip(names, (style for _, style in row), strict=True)),
            x=x,
            y=y + LEGEND_ROW * number,
            palette=palette,
            widths=[text_width(name, size=_SIZE) for name in names],
        )
    return made, len(rows)
