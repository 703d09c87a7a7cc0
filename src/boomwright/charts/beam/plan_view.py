"""The beam from above, to scale, heading to the right, dimensioned as on a workshop drawing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from operator import sub

from boomwright.base import UnitSystem, inches_sixteenths, length_text
from boomwright.charts.beam.element_names import element_labels
from boomwright.charts.beam.plan_dimensions import bare_length, boom_dimensions, footer
from boomwright.charts.beam.plan_frame import TOP, PlanFrame, plan_frame, spokes
from boomwright.charts.canvas import (
    arrow_head,
    document,
    group,
    line,
    number,
    path_data,
    tag,
    text,
)
from boomwright.charts.labels import spread, text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.sentences import summary_sentence
from boomwright.parts import Beam, Element


def _tubes(*, element: Element, frame: PlanFrame, palette: Palette) -> list[str]:
    x = frame.x(element.position)
    fill = palette.accent if element.role == "driven" else palette.metal
    made, inner = [], 0.0
    for section in element.half:
        outer = inner + section.length
        wide = max(section.diameter * frame.scale * frame.thickening, 1.2)
        for near, far in ((inner, outer), (-outer, -inner)):
            made.append(
                tag(
                    "rect",
                    x=x - wide / 2,
                    y=frame.y(far),
                    width=wide,
                    height=(far - near) * frame.scale,
                    fill=fill,
                    stroke=palette.ink,
                    stroke_width="0.7",
                    data_diameter=number(section.diameter, decimals=6),
                )
            )
        inner = outer
    return made


def _bent_wire(*, element: Element, frame: PlanFrame, palette: Palette) -> list[str]:
    """The wire from above with a grip along it, and a mark at each point of its frame."""
    outline = element.outline
    way = path_data([frame.x(x) for x, _, _ in outline], [frame.y(y) for _, y, _ in outline])
    colour = palette.accent if element.role == "driven" else palette.ink
    corners = {point.place: point.name for point in element.path if point.name}
    marks = [
        tag("circle", cx=frame.x(x), cy=frame.y(side * y), r=3.0, fill=palette.paper,
            stroke=palette.ink, stroke_width="0.8", data_point=corners[x, y, z])
        for x, y, z in element.corners
        if (x, y, z) in corners
        for side in ((1.0, -1.0) if y else (1.0,))
    ]  # fmt: skip
    return [
        tag("path", d=way, fill="none", pointer_events="stroke", stroke="none",
            stroke_width="14", data_part="grip"),
        tag("path", d=way, fill="none", stroke=colour, stroke_width="2",
            stroke_linejoin="round"),
        *marks,
    ]  # fmt: skip


def _radials(*, beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    return [
        line(frame.x(x1), frame.y(y1), frame.x(x2), frame.y(y2), stroke=palette.quiet,
             stroke_width="0.8", data_part="radial")
        for (x1, y1), (x2, y2) in spokes(beam)
    ]  # fmt: skip


def _feed_mark(*, x: float, y: float, palette: Palette) -> list[str]:
    """Two terminals either side of a break: a symbol, not to scale."""
    return [
        tag("rect", x=x - 6.0, y=y - 7.0, width=12.0, height=14.0, fill=palette.paper),
        *(
            tag("circle", cx=x, cy=y + side * 6.0, r=3.2, fill=palette.paper,
                stroke=palette.accent, stroke_width="1.6")
            for side in (-1.0, 1.0)
        ),
    ]  # fmt: skip


def _element_group(
    *, beam: Beam, index: int, label: str, frame: PlanFrame, palette: Palette, system: UnitSystem
) -> str:
    element = beam.elements[index]
    x, half = frame.x(element.position), element.half_length
    if element.bent:
        items = _bent_wire(element=element, frame=frame, palette=palette)
    else:
        # An unpainted strip that is easier to take hold of than a thin tube.
        grip = tag("rect", x=x - 7.0, y=frame.y(half) - 4.0, width=14.0,
                   height=2.0 * half * frame.scale + 8.0, fill="none", pointer_events="all",
                   data_part="grip")  # fmt: skip
        items = [grip, *_tubes(element=element, frame=frame, palette=palette)]
    driven = element.role == "driven"
    if driven:
        items += _feed_mark(x=x, y=frame.origin_y, palette=palette)
    return group(
        items,
        title=f"{label}: {length_text(element.length, system=system)} long, "
        f"at {length_text(element.position, system=system)} along the boom",
        data_element=index,
        data_role=element.role,
        data_label=label,
        data_place=number(element.position, decimals=6),
        data_half_length=number(half, decimals=6),
        data_feed_gap=number(beam.feed.gap, decimals=6) if driven else None,
    )


def _role_labels(*, beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    labels = element_labels(beam)
    order = sorted(range(len(labels)), key=lambda i: beam.elements[i].position)
    xs = [frame.x(beam.elements[i].position) for i in order]
    level = frame.level
    places = tuple(xs) if level else spread(xs, room=13.0)
    foot = TOP + frame.band - 12.0
    made = []
    for k, i in enumerate(order):
        tip = frame.y(beam.elements[i].reach)
        colour = palette.accent if beam.elements[i].role == "driven" else palette.ink
        corners_x, corners_y = [places[k], xs[k], xs[k]], [foot + 2.0, foot + 9.0, tip - 3.0]
        made.append(
            tag(
                "path",
                d=path_data(corners_x, corners_y),
                fill="none",
                stroke=palette.grid,
                stroke_width="0.6",
            )
        )
        if level:
            made.append(text(places[k], foot - 6.0, labels[i], fill=colour, anchor="middle"))
        else:
            made.append(text(places[k], foot, labels[i], fill=colour, upright=True))
    return made


def _fitting(
    lengths: Sequence[float], *, rooms: Sequence[float], prefix: str, system: UnitSystem
) -> list[str]:
    """Write lengths in the fullest form that fits all of them, or nothing at all."""
    full = [bare_length(length, system=system) for length in lengths]
    forms = [[f"{prefix} {written}" for written in full], full]
    if system == "us":
        inches = [inches_sixteenths(length) for length in lengths]
        forms = [forms[0], [f"{prefix} {written}" for written in inches], full, inches]
    for form in forms:
        if all(text_width(t, size=10.0) <= r for t, r in zip(form, rooms, strict=True)):
            return form
    return [""] * len(lengths)


def _length_marks(
    *, beam: Beam, frame: PlanFrame, palette: Palette, system: UnitSystem
) -> list[str]:
    """Half and full lengths beside the elements, or nothing where they do not all fit."""
    xs = sorted(frame.x(element.position) for element in beam.elements)
    halves = [element.half_length for element in beam.elements]
    rooms = [half * frame.scale - 14.0 for half in halves]
    upper = _fitting(halves, rooms=rooms, prefix="half", system=system)
    lower = _fitting([2.0 * h for h in halves], rooms=rooms, prefix="full", system=system)
    if (
        beam.bent
        or not (all(upper) and all(lower))
        or min(map(sub, xs[1:], xs), default=math.inf) < 19.0
    ):
        return []
    stroke = {"stroke": palette.quiet, "stroke_width": "0.7"}
    made = []
    for element, half, above, below in zip(beam.elements, halves, upper, lower, strict=True):
        x = frame.x(element.position)
        gap = min((other - x for other in xs if other > x + 1e-6), default=math.inf)
        offset = 12.0 if gap < 30.0 else 19.0
        tip = frame.y(half)
        for content, across in ((above, 0.5 * half), (below, -0.5 * half)):
            made.append(
                text(
                    x + offset,
                    frame.y(across),
                    content,
                    fill=palette.quiet,
                    size=10.0,
                    anchor="middle",
                    upright=True,
                )
            )
        if gap >= 30.0:
            side = x + 11.0
            made.append(line(side, frame.y(0.0), side, tip, **stroke))
            made.append(line(x + 5.0, tip, side + 3.0, tip, **stroke))
            made += [
                line(side - 2.5, end + 2.5, side + 2.5, end - 2.5, **stroke)
                for end in (tip, frame.y(0.0))
            ]
    return made


def _boom(*, beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    places = [element.position for element in beam.elements]
    left, right = frame.x(min(places)), frame.x(max(places))
    y = frame.origin_y
    degrees = round(math.degrees(beam.heading)) % 360
    start = right + 26.0
    return [
        tag("rect", x=left - 9.0, y=y - 2.5, width=right - left + 18.0, height=5.0,
            fill=palette.paper, stroke=palette.ink, stroke_width="0.9", data_part="boom"),
        line(start, y, start + 24.0, y, stroke=palette.accent, stroke_width="1.6"),
        arrow_head(start + 31.0, y, angle=0.0, fill=palette.accent, size=9.0),
        text(start + 36.0, y - 6.0, "heading", fill=palette.ink, size=10.0),
        text(start + 36.0, y + 6.0, f"{degrees}° true", fill=palette.ink, size=10.0),
    ]  # fmt: skip


def _mid_boom(*, beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    places = [element.position for element in beam.elements]
    x, y = frame.x(0.5 * (min(places) + max(places))), frame.origin_y
    stroke = {"stroke": palette.ink, "stroke_width": "0.8"}
    return [
        tag("circle", cx=x, cy=y, r=3.6, fill=palette.paper, data_part="mid-boom", **stroke),
        line(x - 6.0, y, x + 6.0, y, **stroke),
        line(x, y - 6.0, x, y + 6.0, **stroke),
    ]


def _wires(*, beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    made = []
    for i, wire in enumerate(beam.wires):
        x = [frame.x(float(point[0])) for point in wire.points]
        y = [frame.y(float(point[1])) for point in wire.points]
        drawn = tag("path", d=path_data(x, y), fill="none", stroke=palette.series[0],
                    stroke_width="1.6", stroke_linejoin="round")  # fmt: skip
        made.append(group([drawn], title=f"wire {wire.name}", data_wire=i, data_name=wire.name))
    return made


def plan_view(
    *,
    beam: Beam,
    title: str = "",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 760.0,
    drawing_height: float = 430.0,
    stamp: str = "",
) -> str:
    """Draw the beam from above to scale, with every dimension needed to mark the boom.

    The root carries the mapping: a point x along the boom and y along the elements stands at
    ``data-origin-x + data-scale x`` and ``data-origin-y - data-scale y``.

    Args:
        beam: the beam, at least one element
        title: title of the picture, made from the beam's name when empty
        width: width of the picture [user units]
        drawing_height: most height the elements themselves may take [user units]
        stamp: what stands against building from it; empty when nothing does

    Raises:
        ValueError: the beam has no elements
    """
    if not beam.elements:
        msg = f"beam {beam.name!r} has no elements to draw; add at least a driven element"
        raise ValueError(msg)
    frame = plan_frame(beam=beam, width=width, drawing_height=drawing_height)
    labels = element_labels(beam)
    body = _boom(beam=beam, frame=frame, palette=palette)
    body += _wires(beam=beam, frame=frame, palette=palette)
    body += _radials(beam=beam, frame=frame, palette=palette)
    body += _role_labels(beam=beam, frame=frame, palette=palette)
    lengths = _length_marks(beam=beam, frame=frame, palette=palette, system=system)
    body += lengths
    reach = max(element.reach for element in beam.elements)
    drawn, bottom = boom_dimensions(
        beam=beam, scale=frame.scale, origin_x=frame.origin_x, origin_y=frame.origin_y,
        top=frame.y(-reach) + 10.0, half_lengths=not lengths, palette=palette, system=system,
    )  # fmt: skip
    body += drawn
    foot, height = footer(
        boom=beam.boom_length, thickening=frame.thickening,
        scale=frame.scale, width=width, y=bottom + 24.0, palette=palette, system=system,
    )  # fmt: skip
    body += foot
    body += [
        _element_group(beam=beam, index=i, label=labels[i], frame=frame, palette=palette,
                       system=system)
        for i in range(len(labels))
    ]  # fmt: skip
    if len(labels) > 1:
        body += _mid_boom(beam=beam, frame=frame, palette=palette)
    return document(
        kind="plan-view",
        title=title or f"{beam.name}: plan view",
        description=summary_sentence(beam, system=system),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={
            "scale": number(frame.scale, decimals=6),
            "origin-x": number(frame.origin_x, decimals=6),
            "origin-y": number(frame.origin_y, decimals=6),
            "system": system,
        },
        stamp=stamp,
    )
