"""A frame with its wires, to scale: what runs over which point, from above or from behind."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.array_types import Floats
from boomwright.charts.canvas import arrow_head, document, line, number, path_data, pen, tag, text
from boomwright.charts.ground_view import scale_bar
from boomwright.charts.labels import text_width
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.parts import Beam, Element, cord_way

#: puts a point of the beam into the picture [user units]
Put = Callable[[Sequence[float]], Floats]

#: height of letters [user units], and lines of the key
_SIZE, _ROW = 10.5, 18.0
#: highest drawing, and names keep apart by this [user units]
_TALLEST, _APART = 330.0, 13.0
#: pole, hub and tape mark [user units]
_POLE, _HUB, _TAPE = 5.0, 7.0, 3.6


def seen_from_above(beam: Beam) -> bool:
    """Whether its wires lie flatter than they stand."""
    corners = np.array([corner for element in beam.elements for corner in element.corners])
    deep, _, high = np.ptp(corners, axis=0)
    return bool(deep >= high)


def frame_view(
    beam: Beam,
    *,
    tapes: Sequence[str],
    spreaders: dict[str, str],
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 560.0,
) -> str:
    """Draw poles, wires, cords and feed of a beam on a frame, to scale.

    Args:
        tapes: what the key says of each element, in the beam's order (n_elements,)
        spreaders: mark of the pole to each point, by the point's name
        width: of the picture [user units]
    """
    above = seen_from_above(beam)
    axes = (0, 1) if above else (2, 1)
    outlines = [np.array(element.outline) for element in beam.elements]
    holder = beam.carrier or beam
    frame = holder.frame
    poles = [] if frame is None or frame.spreader is None else frame.points
    ends = [np.array([point.place, frame.root(point)]) for point in poles if frame is not None]
    named = [] if beam.frame is None else beam.frame.points
    every = np.concatenate([*outlines, *ends, *(np.array([p.place]) for p in named)])
    up = every[:, axes[0]]
    reach = float(np.abs(every[:, 1]).max())
    aside = 24.0 + max((text_width(p.name, size=_SIZE) for p in named), default=0.0)
    scale = min((width - 2.0 * aside) / (2.0 * reach), _TALLEST / max(float(np.ptp(up)), 0.01))
    middle, top = 0.5 * width, 74.0

    def put(place: Sequence[float]) -> Floats:
        # The heading, or the sky, is up; the owner's left is left.
        return np.array([middle - scale * place[1], top + scale * (up.max() - place[axes[0]])])

    below = top + scale * float(np.ptp(up)) + 34.0
    body = [
        *_poles(holder, put, palette),
        *_wires(beam, put, palette),
        *_points(beam, put, spreaders, palette),
        *_key(beam, tapes, below, palette),
    ]
    way = "towards the heading" if above else "upwards; seen from behind"
    body += [
        line(22.0, 58.0, 22.0, 36.0, **pen(palette.quiet, "1.4")),
        arrow_head(22.0, 32.0, angle=0.5 * np.pi, fill=palette.quiet),
        text(30.0, 46.0, way, fill=palette.quiet, size=_SIZE),
    ]
    height = below + _ROW * (len(beam.elements) + 2) + 10.0
    body.append(scale_bar(x=16.0, y=height - 12.0, scale=scale, palette=palette, system=system))
    return document(
        kind="frame-view",
        title="Frame and wires from above" if above else "Frame and wires from behind",
        description="; ".join(tapes),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={"scale": number(scale), "origin-x": number(middle)},
    )


def _mirrored(place: Sequence[float]) -> tuple[Sequence[float], ...]:
    x, y, z = place
    return (place,) if y == 0.0 else (place, (x, -y, z))


def _poles(beam: Beam, put: Put, palette: Palette) -> list[str]:
    """Spreaders of both sides, and the hub."""
    frame = beam.frame
    if frame is None or frame.spreader is None:
        return []
    found = [
        line(*map(float, put(frame.root(point))), *map(float, put(end)),
             **pen(palette.metal, _POLE), stroke_linecap="round", data_part="spreader")
        for point in frame.points
        if point.name in frame.spreader.to
        for end in _mirrored(point.place)
    ]  # fmt: skip
    if frame.hub is not None:
        x, y = put((frame.hub, 0.0, 0.0))
        found.append(
            tag("circle", cx=float(x), cy=float(y), r=_HUB, fill=palette.metal,
                **pen(palette.ink, "1"), data_part="hub")
        )  # fmt: skip
    return found


def _wires(beam: Beam, put: Put, palette: Palette) -> Iterator[str]:
    """Every wire with tape where it runs over a point, cords at its ends, and the feed."""
    for index, element in enumerate(beam.elements):
        style = line_style(palette=palette, index=index)
        places = np.array([put(corner) for corner in element.outline])
        yield tag("path", d=path_data(places[:, 0], places[:, 1]), fill="none",
                  **pen(style.colour, "2", style.dash),
                  data_part="wire", data_element=str(index))  # fmt: skip
        yield from _tape(element, put, style.colour)
        if not element.closed and not element.upright:
            yield from _cords(beam, element, put, palette)
    x, y = put(beam.elements[beam.driven_index].corners[0])
    yield tag("circle", cx=float(x), cy=float(y), r=4.0, fill=palette.accent, data_part="feed")


def _tape(element: Element, put: Put, colour: str) -> Iterator[str]:
    """Where a wire runs over named points."""
    turns = element.corners[1:] if element.closed else element.corners[1:-1]
    for corner in turns:
        if abs(corner[1]) <= 2.0 * element.middle:
            continue
        for each in _mirrored(corner):
            x, y = put(each)
            yield tag("circle", cx=float(x), cy=float(y), r=_TAPE, fill=colour, data_part="tape")


def _cords(beam: Beam, element: Element, put: Put, palette: Palette) -> Iterator[str]:
    for ends in zip(*map(_mirrored, cord_way(beam, element)), strict=True):
        start, end = (put(each) for each in ends)
        if np.linalg.norm(end - start) > 1.0:
            yield line(*map(float, start), *map(float, end), **pen(palette.ink, "1", "1.5 2.5"),
                       data_part="cord")  # fmt: skip


def _points(beam: Beam, put: Put, spreaders: dict[str, str], palette: Palette) -> list[str]:
    """Names of the points on the right, marks of the poles on the left."""
    frame = beam.frame
    if frame is None:
        return []
    sides = [point for point in frame.points if point.place[1] > 0.0]
    found, taken = [], list[Floats]()
    for point in sorted(sides, key=lambda each: float(put(each.place)[1])):
        right, left = (put((point.place[0], y * point.place[1], point.place[2])) for y in (-1, 1))
        # Points of two loops lie behind each other: the lower name goes below the upper one.
        while any(np.all(np.abs(right - other) < (4.0 * _APART, _APART)) for other in taken):
            right[1] += _APART
            left[1] += _APART
        taken.append(right)
        found.append(_named(right, 9.0, point.name, palette))
        found.append(_named(left, -9.0, spreaders.get(point.name, ""), palette))
    return found


def _named(place: Floats, aside: float, words: str, palette: Palette) -> str:
    anchor = "start" if aside > 0.0 else "end"
    return halo_text(float(place[0]) + aside, float(place[1]), words, fill=palette.ink,
                     palette=palette, anchor=anchor, size=_SIZE)  # fmt: skip


def _key(beam: Beam, tapes: Sequence[str], below: float, palette: Palette) -> Iterator[str]:
    for index, words in enumerate(tapes):
        style, y = line_style(palette=palette, index=index), below + _ROW * index
        yield line(16.0, y, 44.0, y, **pen(style.colour, "2", style.dash))
        yield text(50.0, y, words, fill=palette.ink, size=_SIZE)
    y = below + _ROW * len(beam.elements)
    yield tag("circle", cx=30.0, cy=y, r=4.0, fill=palette.accent)
    yield text(50.0, y, "feed", fill=palette.ink, size=_SIZE)
    if not all(element.closed for element in beam.elements):
        at = 74.0 + text_width("feed", size=_SIZE)
        yield line(at, y, at + 26.0, y, **pen(palette.ink, "1", "1.5 2.5"))
        yield text(at + 32.0, y, "rope" if beam.hung else "cord", fill=palette.ink, size=_SIZE)
