"""Shading a field of values in a few classes: one path a class, runs of cells joined."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.charts.canvas import pen, tag, text
from boomwright.charts.palette import Palette


def classes_of(values: Floats, *, levels: Sequence[float]) -> NDArray[np.int_]:
    """Sort values into classes.

    Args:
        values: the values; NaN belongs to no class [any unit]
        levels: lower edges of the classes, falling [same unit] (n,)

    Returns:
        number of the class, 0 the strongest, n below all levels, -1 for NaN [-] (...)
    """
    found = np.zeros(values.shape, dtype=int)
    for level in levels:
        found += np.where(np.isnan(values), 0, values < level).astype(int)
    return np.where(np.isnan(values), -1, found)


def refined(values: Floats, *, factor: int) -> Floats:
    """Fill in values between those of a grid, straight in both directions.

    Args:
        values: the grid [any unit] (ny, nx)

    Returns:
        finer grid with the same ends [same unit] (factor (ny - 1) + 1, factor (nx - 1) + 1)
    """
    rows = np.linspace(0, values.shape[0] - 1, factor * (values.shape[0] - 1) + 1)
    columns = np.linspace(0, values.shape[1] - 1, factor * (values.shape[1] - 1) + 1)
    across = np.array([np.interp(columns, np.arange(values.shape[1]), row) for row in values])
    return np.array([np.interp(rows, np.arange(values.shape[0]), col) for col in across.T]).T


def shade(
    numbers: NDArray[np.int_],
    *,
    x_edges: Floats,
    y_edges: Floats,
    opacities: Sequence[float],
    colour: str,
) -> list[str]:
    """Shade cells by their class.

    Args:
        numbers: class of each cell, row by row [-] (ny, nx)
        x_edges: edges of the columns [user units] (nx + 1,)
        y_edges: edges of the rows [user units] (ny + 1,)
        opacities: opacity of each class, 0 leaves it out [-] (n_classes,)
    """
    made = []
    for number, opacity in enumerate(opacities):
        if opacity <= 0.0:
            continue
        parts = []
        for row, cells in enumerate(numbers == number):
            steps = np.flatnonzero(np.diff(np.concatenate(([0], cells.astype(int), [0]))))
            for start, end in zip(steps[::2], steps[1::2], strict=True):
                left, right = x_edges[start], x_edges[end]
                top, bottom = y_edges[row], y_edges[row + 1]
                parts.append(f"M{left:.1f},{top:.1f}H{right:.1f}V{bottom:.1f}H{left:.1f}Z")
        if parts:
            made.append(
                tag(
                    "path",
                    d="".join(parts),
                    fill=colour,
                    fill_opacity=opacity,
                    shape_rendering="crispEdges",
                    data_class=number,
                )
            )
    return made


def shade_key(
    *,
    names: Sequence[str],
    opacities: Sequence[float],
    colour: str,
    x: float,
    y: float,
    pitch: float,
    palette: Palette,
) -> list[str]:
    """Name the classes in one row.

    Args:
        opacities: opacity of each class [-] (n,)
        x: where the row begins [user units]
        pitch: distance from one class to the next [user units]
    """
    made = []
    for name, opacity in zip(names, opacities, strict=True):
        made.append(
            tag(
                "rect",
                x=x,
                y=y - 5.0,
                width=14.0,
                height=10.0,
                fill=colour,
                fill_opacity=float(opacity),
                **pen(palette.grid, "0.6"),
            )
        )
        made.append(text(x + 18.0, y, name, fill=palette.ink))
        x += pitch
    return made


def halo_text(
    x: float, y: float, content: str, /, *, fill: str, palette: Palette, size: float = 10.0,
    anchor: str = "start", bold: bool = False,
) -> str:  # fmt: skip
    """Write a line of text with a rim of paper colour, for places crossed by lines.

    Args:
        palette: colours; the rim has that of its paper
        anchor: ``start``, ``middle`` or ``end``
    """
    rim = text(x, y, content, fill=palette.paper, size=size, anchor=anchor, bold=bold,
               stroke=palette.paper, stroke_width="3", stroke_linejoin="round",
               aria_hidden="true")  # fmt: skip
    return rim + text(x, y, content, fill=fill, size=size, anchor=anchor, bold=bold)
