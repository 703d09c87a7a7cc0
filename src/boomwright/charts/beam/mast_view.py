"""All beams of a mast from above, north up, each on its own heading."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.canvas import arrow_head, document, group, line, pen, tag, text
from boomwright.charts.palette import LIGHT, Palette
from boomwright.parts import Assembly, Bar, Beam

#: what is drawn of a beam
_DRAWN: Final = frozenset({"boom", "element tube", "wire", "spreader"})
#: room for title and names [user units]
_TOP, _EDGE, _ROW = 30.0, 18.0, 16.0


def mast_view(
    *,
    beams: Sequence[Beam],
    station: Assembly,
    chosen: int,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 420.0,
) -> str:
    """Draw all beams of a plan from above, what they turn about in the middle.

    Args:
        chosen: number of the one that is shown strongest, from 0

    Returns:
        SVG text; each beam is a group with its number
    """
    reach = max(station.reach(beam.name) for beam in beams)
    scale = (0.5 * width - _EDGE) / max(reach, 0.1)
    middle = _TOP + 0.5 * width - _EDGE
    body = [
        line(0.5 * width, _TOP - 8.0, 0.5 * width, _TOP + 6.0, stroke=palette.quiet),
        arrow_head(0.5 * width, _TOP - 8.0, angle=math.pi / 2.0, fill=palette.quiet, size=8.0),
        text(0.5 * width + 8.0, _TOP, "north", fill=palette.quiet),
    ]
    below = middle + 0.5 * width
    # The chosen one lies on top.
    for number in sorted(range(len(beams)), key=lambda each: each == chosen):
        beam = beams[number]
        words = (
            f"{beam.name}: at {write(Quantity(beam.height, 'height'), system=system)}, heading "
            f"{write(Quantity(math.degrees(beam.heading), 'whole angle'), system=system)}"
        )
        strong = number == chosen
        colour = palette.ink if strong else palette.series[number % len(palette.series)]
        drawn = _beam(beam, station, 0.5 * width, middle, scale, colour, 2.0 if strong else 1.2)
        name = text(_EDGE, below + number * _ROW, words, fill=colour, size=11.0, bold=strong)
        body.append(group([*drawn, name], title=words, data_beam=str(number)))
    body.append(tag("circle", cx=0.5 * width, cy=middle, r=3.6, fill=palette.accent))
    return document(
        kind="mast-view",
        title="All beams from above",
        description="; ".join(beam.name for beam in beams),
        width=width,
        height=below + len(beams) * _ROW,
        palette=palette,
        body=body,
    )


def _beam(
    beam: Beam, station: Assembly, x_0: float, y_0: float, scale: float, colour: str, stroke: float
) -> list[str]:
    """Boom, tubes and wire, turned to the heading: clockwise from straight up."""
    carrier = station.carrier(beam.name)
    # Where nobody knows what holds it, the middle of its boom takes that place.
    axis_x = sum(x for x, _ in carrier.axes) / len(carrier.axes)
    axis_y = carrier.axes[0][1]
    ahead = (math.sin(beam.heading), -math.cos(beam.heading))

    def at(x: float, y: float) -> tuple[float, float]:
        along, left = (x - axis_x) * scale, (y - axis_y) * scale
        return x_0 + along * ahead[0] + left * ahead[1], y_0 + along * ahead[1] - left * ahead[0]

    bars = [
        bar
        for part in station.of(beam.name)
        if part.role in _DRAWN
        for bar in part.solids
        if isinstance(bar, Bar)
    ]
    drawn = [line(*at(*bar.start[:2]), *at(*bar.end[:2]), **pen(colour, stroke)) for bar in bars]
    far = max(max(bar.start[0], bar.end[0]) for bar in bars)
    front, tip = at(far, 0.0), at(far + 10.0 / scale, 0.0)
    drawn.append(line(*front, *tip, **pen(colour, stroke)))
    drawn.append(arrow_head(*tip, angle=math.pi / 2.0 - beam.heading, fill=colour, size=9.0))
    return drawn
