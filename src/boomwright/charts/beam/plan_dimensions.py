"""Dimension lines below the plan view, its scale bar and its notes."""

from __future__ import annotations

from itertools import pairwise

from boomwright.base import UnitSystem, length_text
from boomwright.charts.canvas import line, path_data, pen, tag, text
from boomwright.charts.labels import spread, text_width, wrapped
from boomwright.charts.palette import Palette
from boomwright.charts.scale import nice_step
from boomwright.parts import Beam

_SIZE = 10.0
_LINE_ROOM = 12.0
_FOOT = 0.3048
_BAR_ROOM = 130.0


def bare_length(length: float, *, system: UnitSystem) -> str:
    """Write a dimension as on a drawing whose note gives the unit."""
    written = length_text(length, system=system)
    return written.removesuffix(" mm") if system == "metric" else written


def _row(
    wished: list[float], contents: list[str], palette: Palette, *, y: float, level: bool
) -> tuple[list[str], float]:
    """One row of dimension texts below y, level or reading upwards; returns its lower edge."""
    made = []
    if level:
        for x, content in zip(wished, contents, strict=True):
            made.append(text(x, y + 11.0, content, fill=palette.ink, size=_SIZE, anchor="middle"))
        return made, y + 18.0
    places = spread(wished, room=_LINE_ROOM)
    for x, place, content in zip(wished, places, contents, strict=True):
        if abs(place - x) > 0.5:
            made.append(
                tag(
                    "path",
                    d=path_data([x, place], [y + 1.0, y + 8.0]),
                    fill="none",
                    **pen(palette.grid, "0.6"),
                )
            )
        made.append(
            text(place, y + 10.0, content, fill=palette.ink, size=_SIZE, anchor="end", upright=True)
        )
    return made, y + 14.0 + max(text_width(content, size=_SIZE) for content in contents)


def _fits(*, wished: list[float], contents: list[str]) -> bool:
    widths = [text_width(content, size=_SIZE) for content in contents]
    return all(
        wished[i + 1] - wished[i] >= 0.5 * (widths[i] + widths[i + 1]) + 8.0
        for i in range(len(wished) - 1)
    )


def boom_dimensions(
    *,
    beam: Beam,
    scale: float,
    origin_x: float,
    origin_y: float,
    top: float,
    half_lengths: bool,
    palette: Palette,
    system: UnitSystem,
) -> tuple[list[str], float]:
    """Draw spacings and running places along the boom, below the elements.

    Args:
        scale: user units per metre [1/m]
        origin_x: sheet place of x = 0 [user units]
        origin_y: sheet place of the boom [user units]
        top: where the dimension lines may begin [user units]

    Returns:
        finished elements, and their lower edge [user units]
    """
    elements = sorted(beam.elements, key=lambda element: element.position)
    first = elements[0].position
    xs = [origin_x + scale * element.position for element in elements]
    made: list[str] = []
    y = top + 8.0
    quiet = pen(palette.grid, "0.6")
    if len(xs) > 1:
        centres = [0.5 * (a + b) for a, b in pairwise(xs)]
        gaps = [bare_length(b.position - a.position, system=system) for a, b in pairwise(elements)]
        inside = all(
            b - a >= text_width(gap, size=_SIZE) + 6.0
            for (a, b), gap in zip(pairwise(xs), gaps, strict=True)
        )
        made.append(line(xs[0], y, xs[-1], y, **pen(palette.ink, "0.7")))
        made += [line(x - 2.5, y + 2.5, x + 2.5, y - 2.5, **pen(palette.ink, "0.9")) for x in xs]
        made.append(text(xs[-1] + 12.0, y, "spacing", fill=palette.quiet, size=_SIZE))
        drawn, y = _row(centres, gaps, palette, y=y, level=inside)
        made += drawn
        y += 10.0
    running = [bare_length(element.position - first, system=system) for element in elements]
    level = _fits(wished=xs, contents=running)
    for element, x in zip(elements, xs, strict=True):
        tip = origin_y + scale * element.reach
        # Extension lines are broken where the texts of the spacings stand.
        made.append(line(x, tip + 3.0, x, top + 12.0, **quiet))
        made.append(line(x, y - 4.0, x, y + 4.0, **pen(palette.ink, "0.7")))
    made.append(line(xs[0], y, xs[-1], y, **pen(palette.ink, "0.7")))
    made.append(tag("circle", cx=xs[0], cy=y, r=2.4, fill=palette.ink))
    name = "from the first element"
    made.append(text(xs[-1] + 12.0, y, name, fill=palette.quiet, size=_SIZE))
    drawn, y = _row(xs, running, palette, y=y, level=level)
    made += drawn
    if half_lengths:
        y += 10.0
        made.append(line(xs[0], y, xs[-1], y, **quiet))
        upright = all(element.upright for element in elements)
        what = "length, foot to top" if upright else "half length"
        made.append(text(xs[-1] + 12.0, y, what, fill=palette.quiet, size=_SIZE))
        halves = [bare_length(element.half_length, system=system) for element in elements]
        drawn, y = _row(xs, halves, palette, y=y, level=False)
        made += drawn
    return made, y


def _scale_bar(
    *, scale: float, right: float, y: float, palette: Palette, system: UnitSystem
) -> list[str]:
    unit, name = (1.0, "m") if system == "metric" else (_FOOT, "ft")
    count = nice_step(span=110.0 / (scale * unit), count=1)
    while count * unit * scale > _BAR_ROOM:
        count /= 2.0
    long = count * unit * scale
    left = right - long
    edge = pen(palette.ink, "0.8")
    return [
        tag("rect", x=left, y=y, width=long / 2, height=5.0, fill=palette.ink, **edge),
        tag("rect", x=left + long / 2, y=y, width=long / 2, height=5.0, fill=palette.paper, **edge),
        text(left, y - 8.0, "0", fill=palette.quiet, size=_SIZE, anchor="middle"),
        text(right, y - 8.0, f"{count:g} {name}", fill=palette.quiet, size=_SIZE, anchor="middle"),
    ]


def footer(
    *,
    boom: float,
    thickening: float,
    scale: float,
    width: float,
    y: float,
    palette: Palette,
    system: UnitSystem,
) -> tuple[list[str], float]:
    """Write the overall figures, what the drawing is true to, and the scale bar.

    Args:
        boom: distance from the first to the last element [m]
        thickening: factor by which diameters are drawn larger; 0 for wire alone [-]
        scale: user units per metre [1/m]
        y: middle of its first line [user units]

    Returns:
        finished elements, and the lower edge of the picture [user units]
    """
    facts = f"first to last element {length_text(boom, system=system)}"
    unit = "lengths in mm · " if system == "metric" else ""
    thick = "true widths" if thickening else "wires drawn as lines"
    if thickening > 1.0:
        thick = f"tube diameters drawn {thickening:.0f} times as thick"
    note = f"{unit}to scale, {thick}; feed mark not to scale"
    longest = max(text_width(facts, size=10.0), text_width(note, size=_SIZE))
    bar_y = y + 10.0
    if 14.0 + longest + 24.0 > width - 34.0 - _BAR_ROOM:
        bar_y, y = y, y + 28.0
    items = [text(14.0, y, facts, fill=palette.ink)]
    for row in wrapped(note, size=_SIZE, room=width - 28.0):
        y += 16.0
        items.append(text(14.0, y, row, fill=palette.quiet, size=_SIZE))
    items += _scale_bar(scale=scale, right=width - 34.0, y=bar_y, palette=palette, system=system)
    return items, y + 20.0
