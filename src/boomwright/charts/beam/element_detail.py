"""One half of an element, section by section, from the boom to the tip."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import accumulate, pairwise

from boomwright.base import UnitSystem, inches_sixteenths, length_text
from boomwright.charts.beam.plan_dimensions import bare_length
from boomwright.charts.canvas import document, group, line, number, path_data, pen, tag, text
from boomwright.charts.labels import spread, text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.sentences import listed
from boomwright.parts import Beam, Element, TubeSection

_LEFT, _RIGHT = 58.0, 46.0
_AXIS_Y, _TUBE_WIDTH = 76.0, 26.0
_SIZE = 10.0


def diameter_text(section: TubeSection, *, system: UnitSystem) -> str:
    """Write the diameter of a tube, with its wall where it is known."""
    if system == "us":
        wall = f" × {section.wall / 0.0254:.3f} in wall" if section.wall else ""
        return f"Ø {inches_sixteenths(section.diameter)}{wall}"
    wall = f" × {number(section.wall * 1e3, decimals=2)}" if section.wall else ""
    return f"Ø {number(section.diameter * 1e3, decimals=2)}{wall} mm"


def _row(
    *, centres: list[float], contents: list[str], y: float, width: float, palette: Palette,
    colour: str,
) -> Iterator[str]:  # fmt: skip
    """Texts on one line, moved apart where they would meet, each with its leader upwards."""
    room = max(text_width(content, size=_SIZE) for content in contents) + 8.0
    fits = all(
        b[0] - a[0] >= 0.5 * (text_width(a[1], size=_SIZE) + text_width(b[1], size=_SIZE)) + 6.0
        for a, b in pairwise(zip(centres, contents, strict=True))
    )
    places = tuple(centres) if fits else spread(centres, room=min(room, width / len(centres)))
    shift = min(0.0, width - 4.0 - 0.5 * room - places[-1])
    shift = max(shift, 0.5 * room + 4.0 - places[0])
    for centre, wished, content in zip(centres, places, contents, strict=True):
        place = wished if fits else wished + shift
        if abs(place - centre) > 0.5:
            yield tag(
                "path",
                d=path_data([centre, place], [y - 16.0, y - 7.0]),
                fill="none",
                **pen(palette.grid, "0.6"),
            )
        yield text(place, y, content, fill=colour, size=_SIZE, anchor="middle")


def _tubes(*, element: Element, scale: float, palette: Palette) -> tuple[list[str], float]:
    thickest = max(section.diameter for section in element.half)
    thickening = _TUBE_WIDTH / (thickest * scale)
    made, inner = [], 0.0
    for i, section in enumerate(element.half):
        high = section.diameter * scale * thickening
        rect = tag("rect", x=_LEFT + inner * scale, y=_AXIS_Y - high / 2,
                   width=section.length * scale, height=high, fill=palette.metal,
                   **pen(palette.ink, "0.8"))  # fmt: skip
        made.append(
            group(
                [rect],
                data_section=i,
                data_diameter=number(section.diameter, decimals=6),
                data_length=number(section.length, decimals=6),
                data_wall=number(section.wall, decimals=6),
            )
        )
        inner += section.length
    return made, thickening


def _measures(
    element: Element, palette: Palette, system: UnitSystem, *, scale: float, width: float
) -> list[str]:
    ends = [0.0, *accumulate(section.length for section in element.half)]
    xs = [_LEFT + scale * end for end in ends]
    middles = [0.5 * (a + b) for a, b in pairwise(xs)]
    exposed = [bare_length(section.length, system=system) for section in element.half]
    sums = [bare_length(end, system=system) for end in ends]
    across = [diameter_text(section, system=system) for section in element.half]
    y1, y2 = _AXIS_Y + 36.0, _AXIS_Y + 78.0
    ink = pen(palette.ink, "0.7")
    return [
        *_row(centres=middles, contents=across, y=_AXIS_Y - 28.0, width=width, palette=palette,
              colour=palette.ink),
        line(xs[0], y1, xs[-1], y1, **ink),
        *(line(x - 2.5, y1 + 2.5, x + 2.5, y1 - 2.5, **ink) for x in xs),
        text(_LEFT, y1 - 11.0, "exposed length of each section", fill=palette.quiet),
        *_row(centres=middles, contents=exposed, y=y1 + 14.0, width=width, palette=palette,
              colour=palette.ink),
        line(xs[0], y2, xs[-1], y2, **ink),
        tag("circle", cx=xs[0], cy=y2, r=2.4, fill=palette.ink),
        *(line(x, y2 - 4.0, x, y2 + 4.0, **ink) for x in xs[1:]),
        text(_LEFT, y2 - 11.0, "from the boom centre", fill=palette.quiet),
        *_row(centres=xs, contents=sums, y=y2 + 15.0, width=width, palette=palette,
              colour=palette.ink),
    ]  # fmt: skip


def element_detail(
    *,
    beam: Beam,
    index: int,
    title: str = "",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 760.0,
    stamp: str = "",
) -> str:
    """Draw one half of an element with the measures its builder works from.

    Lengths are to scale; diameters are to a larger scale of their own, stated below.

    Args:
        index: number of the element in the plan, from 0
        title: title of the picture, made from the element's name when empty
        stamp: what stands against building from it; empty when nothing does

    Raises:
        ValueError: there is no such element, or it has no sections
    """
    if not 0 <= index < len(beam.elements):
        msg = f"element {index} asked for, beam {beam.name!r} has {len(beam.elements)} from 0"
        raise ValueError(msg)
    element = beam.elements[index]
    if not element.half or element.half_length <= 0.0:
        raise ValueError(f"element {index} of beam {beam.name!r} has no length; give its sections")
    label = beam.element_labels[index]
    scale = (width - _LEFT - _RIGHT) / element.half_length
    tubes, thickening = _tubes(element=element, scale=scale, palette=palette)
    foot = _AXIS_Y + 116.0
    unit = "lengths in mm · " if system == "metric" else ""
    note = f"{unit}lengths to scale, diameters drawn {thickening:.0f} times as thick"
    full = f"tip to tip {length_text(element.length, system=system)}"
    if element.role == "driven" and beam.feed.cuts_element and beam.feed.gap > 0.0:
        full += f" · feed gap {length_text(beam.feed.gap, system=system)} at the boom centre"
    body = [
        *tubes,
        line(_LEFT, _AXIS_Y - 19.0, _LEFT, _AXIS_Y + 19.0, **pen(palette.ink, "1", "8 2 2 2")),
        text(_LEFT - 6.0, _AXIS_Y, "boom", fill=palette.quiet, anchor="end"),
        *_measures(element, palette, system, scale=scale, width=width),
        text(14.0, foot, full, fill=palette.ink, size=_SIZE),
        text(14.0, foot + 14.0, note, fill=palette.quiet),
    ]
    parts = [
        f"{length_text(s.length, system=system)} of {diameter_text(s, system=system)}"
        for s in element.half
    ]
    return document(
        kind="element-detail",
        title=title or f"{label}: one half",
        description=f"From the boom outwards: {listed(parts)}; {full}.",
        width=width,
        height=foot + 24.0,
        palette=palette,
        body=body,
        data={
            "element": str(index),
            "scale": number(scale, decimals=6),
            "origin-x": number(_LEFT),
            "origin-y": number(_AXIS_Y),
        },
        stamp=stamp,
    )
