"""The lumped pieces and lines behind a feed as a row of symbols, antenna at the left."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base import UnitSystem, length_text
from boomwright.charts.canvas import line, path_data, pen, tag, text
from boomwright.charts.labels import shortened
from boomwright.charts.palette import Palette
from boomwright.feed import (
    LineSection,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    Stage,
    Transformer,
)

#: height a chain takes [user units]
CHAIN_HEIGHT = 118.0
_ROW = 52.0


def stage_words(stage: Stage, *, system: UnitSystem, tee: bool = False) -> tuple[str, str]:
    """Name a piece and write its value."""
    match stage:
        case SeriesCapacitor():
            value = stage.capacitance * (2.0 if tee else 1.0) * 1e12
            return ("capacitor, each rod" if tee else "capacitor"), f"{value:.0f} pF"
        case ShuntCapacitor():
            return "capacitor across", f"{stage.capacitance * 1e12:.0f} pF"
        case SeriesInductor():
            return "coil", f"{stage.inductance * 1e6:.2f} µH"
        case ShuntInductor():
            return "coil across", f"{stage.inductance * 1e6:.2f} µH"
        case LineSection():
            return f"line {stage.impedance:.0f} ohm", length_text(stage.length, system=system)
        case ShuntStub():
            return (
                f"{'shorted' if stage.end == 'short' else 'open'} stub {stage.impedance:.0f} ohm",
                length_text(stage.length, system=system),
            )
        case Transformer():
            ratio = stage.ratio if stage.ratio >= 1.0 else 1.0 / stage.ratio
            return stage.label, f"{ratio:.3g} : 1"
    return "element's reactance", f"{stage.reactance:+.1f} ohm"


def chain_drawing(
    *, stages: Sequence[Stage], reference: float, top: float, width: float, palette: Palette,
    system: UnitSystem, tee: bool = False,
) -> list[str]:  # fmt: skip
    """Draw the pieces as a ladder between the feed and the line.

    Args:
        top: upper edge [user units]
        tee: whether a series capacitor stands for one in each of two rods
    """
    left, right = 62.0, width - 70.0
    cell = (right - left) / len(stages)
    upper, lower = top + 30.0, top + 30.0 + _ROW
    ink = pen(palette.ink, "1.2")
    made = [
        text(left - 8.0, (upper + lower) / 2.0, "feed", fill=palette.quiet, anchor="end"),
        text(right + 8.0, (upper + lower) / 2.0, f"line {reference:g} ohm", fill=palette.quiet),
    ]
    for count, stage in enumerate(stages):
        x0 = left + count * cell
        name, value = stage_words(stage, system=system, tee=tee)
        made += _piece(stage, x0, x0 + cell, upper, lower, palette)
        middle = x0 + cell / 2.0
        for y, content, colour in (
            (upper - 24.0, name, palette.quiet),
            (lower + 14.0, value, palette.ink),
        ):
            made.append(
                text(middle, y, shortened(content, size=10.0, room=cell - 4.0), fill=colour,
                     anchor="middle")
            )  # fmt: skip
    made += [
        tag("circle", cx=x, cy=y, r=2.4, fill=palette.paper, **ink)
        for x in (left, right)
        for y in (upper, lower)
    ]
    return made


def _piece(
    stage: Stage, x0: float, x1: float, upper: float, lower: float, palette: Palette
) -> list[str]:
    ink = pen(palette.ink, "1.2")
    middle, half = (x0 + x1) / 2.0, (upper + lower) / 2.0
    through = [line(x0, lower, x1, lower, **ink)]
    if isinstance(stage, SeriesCapacitor | SeriesInductor):
        size = 4.0 if isinstance(stage, SeriesCapacitor) else 18.0
        symbol = (
            capacitor_symbol(middle, upper, level=True, palette=palette)
            if isinstance(stage, SeriesCapacitor)
            else _coil(middle, upper, level=True, palette=palette)
        )
        return [
            *through,
            line(x0, upper, middle - size, upper, **ink),
            line(middle + size, upper, x1, upper, **ink),
            *symbol,
        ]
    through.append(line(x0, upper, x1, upper, **ink))
    if isinstance(stage, ShuntCapacitor | ShuntInductor):
        size = 4.0 if isinstance(stage, ShuntCapacitor) else 18.0
        symbol = (
            capacitor_symbol(middle, half, level=False, palette=palette)
            if isinstance(stage, ShuntCapacitor)
            else _coil(middle, half, level=False, palette=palette)
        )
        return [
            *through,
            line(middle, upper, middle, half - size, **ink),
            line(middle, half + size, middle, lower, **ink),
            *symbol,
        ]
    box = {"fill": palette.paper, "stroke": palette.ink, "stroke_width": "1.2"}
    if isinstance(stage, LineSection):
        wide = max(0.6 * (x1 - x0), 30.0)
        return [
            *through,
            *(tag("rect", x=middle - wide / 2.0, y=y - 4.0, width=wide, height=8.0, **box)
              for y in (upper, lower)),
        ]  # fmt: skip
    if isinstance(stage, ShuntStub):
        made = [
            *through,
            line(middle, upper, middle, upper + 12.0, **ink),
            line(middle, lower - 12.0, middle, lower, **ink),
            tag("rect", x=middle - 9.0, y=upper + 12.0, width=18.0, height=_ROW - 24.0, **box),
            *(line(middle + s, upper + 16.0, middle + s, lower - 17.0, **ink) for s in (-4.0, 4.0)),
        ]
        if stage.end == "short":
            made.append(line(middle - 4.0, lower - 17.0, middle + 4.0, lower - 17.0, **ink))
        return made
    return [
        *through,
        tag("rect", x=middle - 16.0, y=upper - 6.0, width=32.0, height=_ROW + 12.0, **box),
        tag("path", d=path_data([middle - 16.0, middle + 16.0], [lower + 6.0, upper - 6.0]),
            fill="none", **ink),
    ]  # fmt: skip


def capacitor_symbol(
    x: float, y: float, *, level: bool, palette: Palette, colour: str = "ink"
) -> list[str]:
    """Two plates.

    Args:
        x: horizontal middle [user units]
        colour: ``ink`` or ``accent``
    """
    stroke = palette.accent if colour == "accent" else palette.ink
    ink = pen(stroke, "2")
    cover = tag("rect", x=x - 4.0, y=y - 4.0, width=8.0, height=8.0, fill=palette.paper)
    if level:
        return [cover, *(line(x + d, y - 9.0, x + d, y + 9.0, **ink) for d in (-4.0, 4.0))]
    return [cover, *(line(x - 9.0, y + d, x + 9.0, y + d, **ink) for d in (-4.0, 4.0))]


def _coil(x: float, y: float, *, level: bool, palette: Palette) -> list[str]:
    """Four half turns."""
    turn = np.linspace(0.0, np.pi, 13)
    along = np.concatenate([-18.0 + 9.0 * n + 4.5 * (1.0 - np.cos(turn)) for n in range(4)])
    out = np.concatenate([6.0 * np.sin(turn)] * 4)
    places = (x + along, y - out) if level else (x + out, y + along)
    return [tag("path", d=path_data(*places), fill="none", **pen(palette.ink, "1.4"))]
