"""The beam from above, to scale, heading to the right, dimensioned as on a workshop drawing."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from operator import sub
from typing import Final

from boomwright.base import UnitSystem, inches_sixteenths, length_text
from boomwright.charts.beam.plan_dimensions import bare_length, boom_dimensions, footer
from boomwright.charts.beam.plan_frame import TOP, PlanFrame, plan_frame
from boomwright.charts.canvas import (
    arrow_head,
    document,
    group,
    line,
    number,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import spread, text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.sentences import summary_sentence
from boomwright.parts import (
    Assembly,
    Bar,
    Beam,
    Element,
    Part,
    element_group,
    from_above,
    mount_group,
)

#: what is strung between points or holds them, with the width of its line [user units]
_STRUNG: Final = {"spreader": "1.4", "cord": "0.8", "rope": "0.8", "radial": "0.8"}
#: what lies along a straight element
_TUBES: Final = frozenset({"element tube", "trap"})
#: what belongs to the feed and is drawn as it lies
_FEED: Final = frozenset({"match", "capacitor", "box"})


def _tube(bar: Bar, *, fill: str, frame: PlanFrame, palette: Palette, **data: str) -> str:
    """A tube along one of the axes, drawn thicker than it is."""
    (ax, ay, _), (bx, by, _) = bar.start, bar.end
    wide = max(bar.diameter * frame.scale * frame.thickening, 1.2)
    across = abs(by - ay) > abs(bx - ax)
    left, top = frame.x(min(ax, bx)), frame.y(max(ay, by))
    long = frame.scale * max(abs(bx - ax), abs(by - ay))
    return tag(
        "rect",
        x=left - wide / 2 if across else left,
        y=top if across else top - wide / 2,
        width=wide if across else long,
        height=long if across else wide,
        fill=fill,
        **pen(palette.ink, "0.7"),
        data_diameter=number(bar.diameter, decimals=6),
        **data,
    )


def _way(parts: Iterable[Part], frame: PlanFrame) -> str:
    """Bars as one path, each from end to end."""
    bars = [bar for part in parts for bar in part.solids if isinstance(bar, Bar)]
    return " ".join(
        path_data([frame.x(bar.start[0]), frame.x(bar.end[0])],
                  [frame.y(bar.start[1]), frame.y(bar.end[1])])
        for bar in bars
    )  # fmt: skip


def _shapes(parts: Iterable[Part], frame: PlanFrame, palette: Palette) -> Iterator[str]:
    """Plates, boxes, rods and the like as they are seen from above, to scale."""
    for part in parts:
        for solid in part.solids:
            corners = from_above(solid)
            way = path_data([frame.x(x) for x, _ in corners], [frame.y(y) for _, y in corners])
            yield tag("path", d=f"{way} Z", fill=palette.paper, **pen(palette.ink, "0.8"),
                      data_part=part.role.replace(" ", "-"))  # fmt: skip


def _strung(parts: Iterable[Part], *, frame: PlanFrame, palette: Palette) -> list[str]:
    """Spreaders, cords, ropes and radials, a line each."""
    return [
        tag("path", d=_way((part,), frame), fill="none", **pen(palette.quiet, _STRUNG[part.role]),
            data_part=part.role)
        for part in parts
        if part.role in _STRUNG
    ]  # fmt: skip


def _hub(parts: Iterable[Part], *, frame: PlanFrame, palette: Palette) -> list[str]:
    return [
        tag("circle", cx=frame.x(solid.middle[0]), cy=frame.y(solid.middle[1]), r=7.0,
            fill=palette.paper, **pen(palette.ink, "1.0"), data_part="hub")
        for part in parts
        if part.role == "hub"
        for solid in part.solids[:1]
    ]  # fmt: skip


def _bent_wire(
    parts: Sequence[Part], element: Element, frame: PlanFrame, palette: Palette
) -> list[str]:
    """The wire from above with a grip along it."""
    outline = element.outline
    grip = path_data([frame.x(x) for x, _, _ in outline], [frame.y(y) for _, y, _ in outline])
    colour = palette.accent if element.role == "driven" else palette.ink
    return [
        tag("path", d=grip, fill="none", pointer_events="stroke", **pen("none", "14"),
            data_part="grip"),
        tag("path", d=_way(parts, frame), fill="none", **pen(colour, "2"),
            stroke_linejoin="round"),
    ]  # fmt: skip


def _frame_points(beam: Beam, frame: PlanFrame, palette: Palette) -> list[str]:
    """Points of the frame as the plan places them; the page lets a hand take hold of them."""
    points = () if beam.frame is None else beam.frame.points
    return [
        tag("circle", cx=frame.x(x), cy=frame.y(side * y), r=3.0, fill=palette.paper,
            **pen(palette.ink, "0.8"), data_corner=index, data_point=point.name,
            data_x=number(x, decimals=6), data_y=number(y, decimals=6))
        for index, point in enumerate(points)
        for x, y, _ in (point.place,)
        for side in ((1.0, -1.0) if y else (1.0,))
    ]  # fmt: skip


def _feed_mark(*, x: float, y: float, palette: Palette) -> list[str]:
    """Two terminals either side of a break: a symbol, not to scale."""
    return [
        tag("rect", x=x - 6.0, y=y - 7.0, width=12.0, height=14.0, fill=palette.paper),
        *(
            tag("circle", cx=x, cy=y + side * 6.0, r=3.2, fill=palette.paper,
                **pen(palette.accent, "1.6"))
            for side in (-1.0, 1.0)
        ),
    ]  # fmt: skip


def _element_group(
    beam: Beam,
    parts: Sequence[Part],
    frame: PlanFrame,
    palette: Palette,
    system: UnitSystem,
    *,
    index: int,
    label: str,
) -> str:
    """One element with what holds it, the driven one with its match; a hand moves all of it."""
    element = beam.elements[index]
    x, half = frame.x(element.position), element.half_length
    place = 1 + sorted(range(len(beam.elements)), key=lambda i: beam.elements[i].position).index(
        index
    )
    own = [part for part in parts if part.group == element_group(place)]
    if element.bent:
        items = _bent_wire(own, element, frame, palette)
    else:
        # An unpainted strip that is easier to take hold of than a thin tube.
        grip = tag("rect", x=x - 7.0, y=frame.y(half) - 4.0, width=14.0,
                   height=2.0 * half * frame.scale + 8.0, fill="none", pointer_events="all",
                   data_part="grip")  # fmt: skip
        fill = palette.accent if element.role == "driven" else palette.metal
        bars = [bar for part in own if part.role in _TUBES for bar in part.solids
                if isinstance(bar, Bar)]  # fmt: skip
        # What lies in a larger tube is hidden by it.
        tubes = [_tube(bar, fill=fill, frame=frame, palette=palette)
                 for bar in sorted(bars, key=lambda bar: bar.diameter)]  # fmt: skip
        held = [part for part in parts if part.group == mount_group(place)]
        plates = list(
            _shapes((part for part in held if part.role == "element plate"), frame, palette)
        )
        items = [grip, *plates, *tubes]
    driven = element.role == "driven"
    if driven:
        feed = (part for part in parts if part.group == "feed" and part.role in _FEED)
        items += _shapes(feed, frame, palette)
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
        data_tip=_tip(element) if element.bent else None,
        data_feed_gap=number(beam.feed.gap, decimals=6) if driven else None,
    )


def _tip(element: Element) -> str:
    """Tip of a wire and the way it points there, seen from above: x, y, x, y."""
    (x1, y1, _), (x2, y2, _) = element.corners[-2:]
    size = math.hypot(x2 - x1, y2 - y1)
    way = (0.0, 0.0) if size == 0.0 else ((x2 - x1) / size, (y2 - y1) / size)
    return " ".join(number(value, decimals=6) for value in (x2, y2, *way))


def _role_labels(beam: Beam, frame: PlanFrame, palette: Palette) -> Iterator[str]:
    labels = beam.element_labels
    order = sorted(range(len(labels)), key=lambda i: beam.elements[i].position)
    xs = [frame.x(beam.elements[i].position) for i in order]
    level = frame.level
    places = tuple(xs) if level else spread(xs, room=13.0)
    foot = TOP + frame.band - 12.0
    for k, i in enumerate(order):
        tip = frame.y(beam.elements[i].reach)
        colour = palette.accent if beam.elements[i].role == "driven" else palette.ink
        corners_x, corners_y = [places[k], xs[k], xs[k]], [foot + 2.0, foot + 9.0, tip - 3.0]
        yield tag(
            "path", d=path_data(corners_x, corners_y), fill="none", **pen(palette.grid, "0.6")
        )
        if level:
            yield text(places[k], foot - 6.0, labels[i], fill=colour, anchor="middle", size=10.5)
        else:
            yield text(places[k], foot, labels[i], fill=colour, upright=True, size=10.5)


def _fitting(
    lengths: Sequence[float], rooms: Sequence[float], system: UnitSystem, *, prefix: str
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
    beam: Beam, frame: PlanFrame, palette: Palette, system: UnitSystem
) -> Iterator[str]:
    """Half and full lengths beside the elements, or nothing where they do not all fit."""
    xs = sorted(frame.x(element.position) for element in beam.elements)
    halves = [element.half_length for element in beam.elements]
    rooms = [half * frame.scale - 14.0 for half in halves]
    upper = _fitting(halves, rooms, system, prefix="half")
    lower = _fitting([2.0 * h for h in halves], rooms, system, prefix="full")
    if (
        beam.bent
        or not (all(upper) and all(lower))
        or min(map(sub, xs[1:], xs), default=math.inf) < 19.0
    ):
        return
    stroke = pen(palette.quiet, "0.7")
    for element, half, above, below in zip(beam.elements, halves, upper, lower, strict=True):
        x = frame.x(element.position)
        gap = min((other - x for other in xs if other > x + 1e-6), default=math.inf)
        offset = 12.0 if gap < 30.0 else 19.0
        tip = frame.y(half)
        for content, across in ((above, 0.5 * half), (below, -0.5 * half)):
            yield text(
                x + offset,
                frame.y(across),
                content,
                fill=palette.quiet,
                anchor="middle",
                upright=True,
            )
        if gap >= 30.0:
            side = x + 11.0
            yield line(side, frame.y(0.0), side, tip, **stroke)
            yield line(x + 5.0, tip, side + 3.0, tip, **stroke)
            yield from [
                line(side - 2.5, end + 2.5, side + 2.5, end - 2.5, **stroke)
                for end in (tip, frame.y(0.0))
            ]


def _on_hub(beam: Beam) -> bool:
    """Whether spreaders on a hub take the place of a boom."""
    return beam.frame is not None and beam.frame.hub is not None


def _boom(beam: Beam, parts: Sequence[Part], frame: PlanFrame, palette: Palette) -> list[str]:
    """The boom from end to end with its mast plate, or a thin line where nobody gave one."""
    places = [element.position for element in beam.elements]
    y = frame.origin_y
    degrees = round(math.degrees(beam.heading)) % 360
    bars = [bar for part in parts if part.role == "boom" for bar in part.solids
            if isinstance(bar, Bar)]  # fmt: skip
    made = [
        _tube(bar, fill=palette.paper, frame=frame, palette=palette, data_part="boom")
        for bar in bars
    ]
    if not bars and not _on_hub(beam) and len(places) > 1:
        made.append(
            line(frame.x(min(places)), y, frame.x(max(places)), y,
                 **pen(palette.quiet, "0.9", "6 3"), data_part="boom")
        )  # fmt: skip
    plates = (part for part in parts if part.role in {"mast plate", "truss"})
    made += _shapes(plates, frame, palette)
    start = max([frame.x(max(places)) + 26.0, *(frame.x(bar.end[0]) + 8.0 for bar in bars)])
    return [
        *made,
        line(start, y, start + 24.0, y, **pen(palette.accent, "1.6")),
        arrow_head(start + 31.0, y, angle=0.0, fill=palette.accent, size=9.0),
        text(start + 36.0, y - 6.0, "heading", fill=palette.ink),
        text(start + 36.0, y + 6.0, f"{degrees}° true", fill=palette.ink),
    ]


def _turning_axis(axis: tuple[float, float], *, frame: PlanFrame, palette: Palette) -> list[str]:
    x, y = frame.x(axis[0]), frame.y(axis[1])
    stroke = pen(palette.ink, "0.8")
    return [
        tag("circle", cx=x, cy=y, r=3.6, fill=palette.paper, data_part="axis", **stroke),
        line(x - 6.0, y, x + 6.0, y, **stroke),
        line(x, y - 6.0, x, y + 6.0, **stroke),
    ]


def _wires(beam: Beam, parts: Sequence[Part], frame: PlanFrame, palette: Palette) -> Iterator[str]:
    for i, wire in enumerate(beam.wires):
        drawn = tag("path", d=_way((part for part in parts if part.mark == f"W{i + 1}"), frame),
                    fill="none", **pen(palette.series[0], "1.6"),
                    stroke_linejoin="round")  # fmt: skip
        yield group([drawn], title=f"wire {wire.name}", data_wire=i, data_name=wire.name)


def _held_by(beam: Beam, station: Assembly, parts: Sequence[Part]) -> list[Part]:
    """Hub and spreaders of the beam that carries the points of this one, as far as it reaches."""
    host = beam.carrier
    if host is None:
        return []
    middle = host.boom_middle
    reach = max(
        (math.hypot(x - middle, y) for part in parts for solid in part.solids
         for x, y in from_above(solid)),
        default=0.0,
    )  # fmt: skip
    held = []
    for part in station.on_axes(host.name):
        if part.role == "hub":
            held.append(part)
        elif part.role == "spreader":
            bars = [_cut(bar, middle, reach) for bar in part.solids if isinstance(bar, Bar)]
            held.append(replace(part, solids=tuple(bar for bar in bars if bar is not None)))
    return [part for part in held if part.solids]


def _cut(bar: Bar, middle: float, reach: float) -> Bar | None:
    """What of a bar that runs outwards lies within a level distance of a hub; None for nothing."""
    near, far = (math.hypot(x - middle, y) for x, y, _ in (bar.start, bar.end))
    if max(near, far) <= reach:
        return bar
    if near >= reach:
        return None
    share = (reach - near) / (far - near)
    x, y, z = (a + share * (b - a) for a, b in zip(bar.start, bar.end, strict=True))
    return replace(bar, end=(x, y, z))


def plan_view(
    *,
    beam: Beam,
    station: Assembly,
    title: str = "",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 760.0,
    drawing_height: float = 430.0,
    stamp: str = "",
) -> str:
    """Draw the parts of a beam from above to scale, with every dimension needed to mark the boom.

    The root carries the mapping: a point x along the boom and y along the elements stands at
    ``data-origin-x + data-scale x`` and ``data-origin-y - data-scale y``.

    Args:
        beam: the beam as its dimensions are written, at least one element
        title: title of the picture, made from the beam's name when empty
        drawing_height: most height the elements themselves may take [user units]
        stamp: what stands against building from it; empty when nothing does

    Raises:
        ValueError: the beam has no elements
    """
    if not beam.elements:
        msg = f"beam {beam.name!r} has no elements to draw; add at least a driven element"
        raise ValueError(msg)
    own = station.on_axes(beam.name)
    parts = [*own, *_held_by(beam, station, own)]
    frame = plan_frame(beam=beam, parts=parts, width=width, drawing_height=drawing_height)
    labels = beam.element_labels
    body = _boom(beam, parts, frame, palette)
    body += _wires(beam, parts, frame, palette)
    body += _strung(parts, frame=frame, palette=palette)
    body += _hub(parts, frame=frame, palette=palette)
    body += _role_labels(beam, frame, palette)
    lengths = list(_length_marks(beam, frame, palette, system))
    body += lengths
    drawn, bottom = boom_dimensions(
        beam=beam, scale=frame.scale, origin_x=frame.origin_x, origin_y=frame.origin_y,
        top=frame.foot + 10.0, half_lengths=not lengths, palette=palette, system=system,
    )  # fmt: skip
    body += drawn
    foot, height = footer(
        boom=beam.boom_length, thickening=frame.thickening,
        scale=frame.scale, width=width, y=bottom + 24.0, palette=palette, system=system,
    )  # fmt: skip
    body += foot
    body += [
        _element_group(beam, parts, frame, palette, system, index=i, label=labels[i])
        for i in range(len(labels))
    ]
    body += _frame_points(beam, frame, palette)
    carrier = station.carrier(beam.name)
    if len(carrier.axes) == 1 and not _on_hub(beam) and not beam.upright:
        ((x, y),) = carrier.axes
        body += _turning_axis((x + carrier.rear, y), frame=frame, palette=palette)
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
