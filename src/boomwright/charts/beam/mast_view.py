"""All beams of a mast from above, north up, each on its own heading."""

from __future__ import annotations

import math
from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.canvas import arrow_head, document, group, line, path_data, tag, text
from boomwright.charts.palette import LIGHT, Palette
from boomwright.parts import Beam

#: room for title and names [user units]
_TOP, _EDGE, _ROW = 30.0, 18.0, 16.0


def mast_view(
    *,
    beams: Sequence[Beam],
    chosen: int,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 420.0,
) -> str:
    """Draw all beams of a plan from above, the mast in the middle.

    Args:
        beams: the beams (n_beams,)
        chosen: number of the one that is shown strongest, from 0
        width: width of the picture [user units]

    Returns:
        SVG text; each beam is a group with its number
    """
    reach = max(
        math.hypot(x - beam.boom_middle, y)
        for beam in beams
        for element in beam.elements
        for x, y, _ in element.outline
    )
    scale = (0.5 * width - _EDGE) / max(reach, 0.1)
    middle = _TOP + 0.5 * width - _EDGE
    body = [
        line(0.5 * width, _TOP - 8.0, 0.5 * width, _TOP + 6.0, stroke=palette.quiet),
        arrow_head(0.5 * width, _TOP - 8.0, angle=math.pi / 2.0, fill=palette.quiet, size=8.0),
        text(0.5 * width + 8.0, _TOP, "north", fill=palette.quiet, size=10.0),
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
        drawn = _beam(beam, 0.5 * width, middle, scale, colour, 2.0 if strong else 1.2)
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
    beam: Beam, x_0: float, y_0: float, scale: float, colour: str, stroke: float
) -> list[str]:
    """Boom and elements, turned to the heading: clockwise from straight up."""
    ahead = (math.sin(beam.heading), -math.cos(beam.heading))

    def at(x: float, y: float) -> tuple[float, float]:
        along, left = (x - beam.boom_middle) * scale, y * scale
        return x_0 + along * ahead[0] + left * ahead[1], y_0 + along * ahead[1] - left * ahead[0]

    drawn = []
    for element in beam.elements:
        points = [at(x, y) for x, y, _ in element.outline]
        xs, ys = zip(*points, strict=True)
        drawn.append(tag("path", d=path_data(xs, ys), fill="none", stroke=colour,
                         stroke_width=stroke))  # fmt: skip
    places = [element.position for element in beam.elements]
    rear, front = at(min(places), 0.0), at(max(places), 0.0)
    drawn.append(line(*rear, *front, stroke=colour, stroke_width=stroke))
    tip = at(max(places) + 10.0 / scale, 0.0)
    drawn.append(line(*front, *tip, stroke=colour, stroke_width=stroke))
    drawn.append(arrow_head(*tip, angle=math.pi / 2.0 - beam.heading, fill=colour, size=9.0))
    return drawn
