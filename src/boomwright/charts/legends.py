"""Names of series in a row, or in as many rows as the width of a picture asks for."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.charts.canvas import line, marker, pen, text
from boomwright.charts.labels import shortened, text_width
from boomwright.charts.palette import LineStyle, Palette

#: distance between two rows, and size of the names [user units]
ROW, _SIZE = 14.0, 10.0
_SAMPLE, _GAP = 30.0, 18.0
#: one more row of :func:`legend_lines` moves everything below it down by this [user units]
LEGEND_ROW = 16.0


def legend(
    *, entries: Sequence[tuple[str, LineStyle]], x: float, y: float, palette: Palette,
    widths: Sequence[float], markers: bool = True,
) -> list[str]:  # fmt: skip
    """Name the series in one row.

    Args:
        x: where the row begins [user units]
        widths: width of each name [user units] (n,)
    """
    made = []
    for (label, style), wide in zip(entries, widths, strict=True):
        made.append(line(x, y, x + 24.0, y, **pen(style.colour, "1.8", style.dash)))
        if markers:
            made.append(marker(style.marker, x + 12.0, y, fill=style.colour))
        made.append(text(x + 30.0, y, label, fill=palette.ink, size=_SIZE))
        x += 30.0 + wide + 18.0
    return made


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
        wide = _SAMPLE + text_width(entry[0], size=_SIZE) + _GAP
        if rows[-1] and used + wide - _GAP > room:
            rows.append([])
            used = 0.0
        rows[-1].append(entry)
        used += wide
    made = []
    for number, row in enumerate(rows):
        widths = [text_width(name, size=_SIZE) for name, _ in row]
        made += legend(entries=row, x=x, y=y + number * ROW, palette=palette, widths=widths,
                       markers=markers)  # fmt: skip
    return made, (len(rows) - 1) * ROW


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
        return sum(text_width(name, size=_SIZE) + (_SAMPLE + _GAP) for name, _ in row) - _GAP

    half = (len(entries) + 1) // 2
    one = len(entries) < 2 or wide(entries) <= room
    rows = [entries] if one else [entries[:half], entries[half:]]
    made: list[str] = []
    for number, row in enumerate(rows):
        names = [name for name, _ in row]
        if wide(row) > room:
            names = [
                shortened(n, size=_SIZE, room=room / len(names) - (_SAMPLE + _GAP)) for n in names
            ]
        made += legend(
            entries=list(zip(names, (style for _, style in row), strict=True)),
            x=x,
            y=y + LEGEND_ROW * number,
            palette=palette,
            widths=[text_width(name, size=_SIZE) for name in names],
        )
    return made, len(rows)
