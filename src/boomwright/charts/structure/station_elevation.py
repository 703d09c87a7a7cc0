"""The station seen from the side, to scale: what stands, what may fall, what is near."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.base.records import dataclass
from boomwright.charts.canvas import document, group, line, number, path_data, pen, tag, text
from boomwright.charts.ground_view import distance_text
from boomwright.charts.labels import Box, first_free, text_box, text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_step
from boomwright.parts import Beam
from boomwright.permits import Installation, least_clearance
from boomwright.plan import Plan

#: height of the person beside a station [m]
PERSON = 1.75

_MARGIN, _TOP, _FOOT = 16.0, 34.0, 50.0
_SIZE = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """Metres about the foot to places on the sheet, one scale."""

    scale: float
    foot_x: float
    ground_y: float

    def x(self, away: float) -> float:
        return self.foot_x + self.scale * away

    def y(self, height: float) -> float:
        return self.ground_y - self.scale * height


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sheet:
    """What the drawing functions share; ``taken`` grows as labels are placed."""

    frame: _Frame
    area: Box
    taken: list[Box]
    palette: Palette
    system: UnitSystem


def _reach(plan: Plan, held: Installation) -> tuple[float, float, float]:
    """Metres shown to the left, to the right and upwards."""
    swing = held.around.swing_radius
    top = max(held.heights.highest, held.heights.permanent_top)
    fall = math.hypot(held.heights.permanent_top, swing)
    anchors = [ring.anchor_radius for ring in plan.support.guy] if plan.support else []
    left = max([swing, *anchors]) * 1.12
    near = [fall, *(each.distance for each in held.power_lines), *anchors]
    near += [d for d in (held.around.boundary_distance, held.around.walkway_distance) if d]
    # What lies far off would make the station a dot; it is then named at the edge.
    right = min(max(near), 3.2 * fall) * 1.1
    return left, right, max(top, *(each.height for each in held.power_lines), 0.0) * 1.12


def _label(
    sheet: _Sheet, x: float, y: float, content: str, *, fill: str, spots: str = "right"
) -> str:
    """Write a label at the first free place about a point, or leave it out."""
    sides = {"right": (7.0, "start"), "left": (-7.0, "end"), "middle": (0.0, "middle")}
    order = [spots, *(s for s in sides if s != spots)]
    tries = [
        (x + sides[side][0], y + drop, sides[side][1])
        for side in order
        for drop in (0.0, -12.0, 12.0, -24.0, 24.0, -36.0)
    ]
    found = first_free(tries, content, size=_SIZE, taken=sheet.taken, area=sheet.area)
    if found is None:
        return ""
    place_x, place_y, anchor, box = found
    sheet.taken.append(box)
    return halo_text(place_x, place_y, content, fill=fill, palette=sheet.palette, size=_SIZE,
                     anchor=anchor)  # fmt: skip


def _span(sheet: _Sheet, length: float) -> str:
    return distance_text(length, sheet.system)


def _guys(sheet: _Sheet, plan: Plan) -> list[str]:
    frame = sheet.frame
    rings = () if plan.support is None else plan.support.guy
    return [
        _thing(
            f"Guys from {_span(sheet, ring.height)}, "
            f"anchors {_span(sheet, ring.anchor_radius)} out",
            *(
                line(frame.x(0.0), frame.y(ring.height), frame.x(side * ring.anchor_radius),
                     frame.y(max(ring.anchor_height, 0.0)), **pen(sheet.palette.quiet, "0.9"),
                     data_part="guy")
                for side in (-1.0, 1.0)
            ),
        )
        for ring in rings
    ]  # fmt: skip


def _thing(told: str, *drawn: str) -> str:
    """Something drawn with the sentence that a pointer, a key or a screen reader gets."""
    return group(drawn, title=told)


def _standing(sheet: _Sheet, plan: Plan, *, top: float, named: str) -> list[str]:
    """Support with its guys and antennas; one that is not given reaches up to ``top``, dashed."""
    frame, palette, support = sheet.frame, sheet.palette, plan.support
    made = _stands(sheet, plan, top, named)
    if support is not None and support.mast is not None:
        mast = support.mast
        made.append(
            _thing(
                f"Mast from {_span(sheet, mast.bearing)} to {_span(sheet, mast.top)}",
                line(frame.x(0.0), frame.y(mast.bearing), frame.x(0.0), frame.y(mast.top),
                     **pen(palette.quiet, "2.2"), data_part="mast"),
            )
        )  # fmt: skip
    made += _guys(sheet, plan)
    for beam in plan.beams:
        half = max((element.reach for element in beam.elements), default=0.0)
        y = frame.y(beam.height)
        drawn = line(frame.x(-half), y, frame.x(half), y, **pen(palette.series[0], "2.2"),
                     data_part="beam",
                     data_height=number(beam.height))  # fmt: skip
        if beam.bent:
            drawn = _bent(frame, beam, palette)
        name = f"{beam.name}, {_span(sheet, beam.height)}"
        told = f"{beam.name}: boom at {_span(sheet, beam.height)}, elements reach "
        made += [
            _thing(f"{told}{_span(sheet, half)} each way", drawn),
            _label(sheet, frame.x(half), y, name, fill=palette.series[0]),
        ]
    return made


def _stands(sheet: _Sheet, plan: Plan, top: float, named: str) -> list[str]:
    """Tower, tube or whatever else carries the antennas, with its brackets."""
    frame, palette, support = sheet.frame, sheet.palette, plan.support
    stands = None if support is None else support.tower or support.tube
    top = top if stands is None else stands.height
    if top <= 0.0:
        return []
    brackets = None if support is None or support.tube is None else support.tube.brackets
    foot = 0.0 if brackets is None else brackets.foot
    told = named if stands is None else f"Support, {_span(sheet, top)} high"
    pole = line(frame.x(0.0), frame.y(foot), frame.x(0.0), frame.y(top),
                **pen(palette.ink, "4", "3 3" if stands is None else ""),
                data_part="support", data_height=number(top))  # fmt: skip
    return [
        _thing(told, pole),
        *(
            _thing(
                f"House bracket at {_span(sheet, height)}",
                line(frame.x(0.0) - 9.0, frame.y(height), frame.x(0.0) + 3.0, frame.y(height),
                     **pen(palette.ink, "3"), data_part="bracket",
                     data_height=number(height)),
            )
            for height in (() if brackets is None else brackets.heights)
        ),
        _label(sheet, frame.x(0.0), frame.y(0.5 * top), named, fill=palette.ink)
        if stands is None
        else _label(sheet, frame.x(_widest(plan)), frame.y(top), f"support {_span(sheet, top)}",
                    fill=palette.ink),
    ]  # fmt: skip


def _widest(plan: Plan) -> float:
    """Half the width of what is seen of the antennas [m]."""
    return max((each.reach for beam in plan.beams for each in beam.elements), default=0.0)


def _bent(frame: _Frame, beam: Beam, palette: Palette) -> str:
    """Wire with corners as seen along the heading."""
    ways = [
        path_data(
            [frame.x(y) for _, y, _ in element.outline],
            [frame.y(beam.height + z) for _, _, z in element.outline],
        )
        for element in beam.elements
    ]
    wires = tag("path", d=" ".join(ways), fill="none", **pen(palette.series[0], "1.6"),
                data_part="beam",
                data_height=number(beam.height))  # fmt: skip
    return "".join([*_poles(frame, beam, palette), wires])


def _poles(frame: _Frame, beam: Beam, palette: Palette) -> list[str]:
    """Spreaders of a frame as seen along the heading, and the hub they meet in."""
    held = beam.frame
    if held is None or held.spreader is None:
        return []
    made = []
    for point in held.points:
        _, y, z = point.place
        if point.name in held.spreader.to:
            made += [
                line(frame.x(0.0), frame.y(beam.height), frame.x(side * y),
                     frame.y(beam.height + z), **pen(palette.quiet, "1.2"),
                     data_part="spreader")
                for side in ((1.0, -1.0) if y else (1.0,))
            ]  # fmt: skip
    if held.hub is not None:
        up = 0.0 if held.post is None else held.post.length
        made += [
            line(frame.x(0.0), frame.y(beam.height), frame.x(0.0), frame.y(beam.height + up),
                 **pen(palette.ink, "2"), data_part="post"),
            tag("circle", cx=frame.x(0.0), cy=frame.y(beam.height), r=3.0, fill=palette.ink,
                data_part="hub"),
        ]  # fmt: skip
    return made


def _circles(sheet: _Sheet, held: Installation) -> list[str]:
    frame, palette = sheet.frame, sheet.palette
    swing, top = held.around.swing_radius, held.heights.permanent_top
    fall = math.hypot(top, swing)
    start = math.atan2(top, swing)
    angles = np.linspace(0.0, start, 60)
    arc = tag(
        "path",
        d=path_data(frame.foot_x + frame.scale * fall * np.cos(angles),
                    frame.ground_y - frame.scale * fall * np.sin(angles)),
        fill="none", **pen(palette.accent, "1.2", "6 3"),
        data_part="fall-arc", data_radius=number(fall),
    )  # fmt: skip
    middle = 0.55 * start
    told = f"Fall circle, {_span(sheet, fall)}: what a falling support with its beams may reach"
    made = [
        _thing(told, arc),
        _label(sheet, frame.x(fall * math.cos(middle)), frame.y(fall * math.sin(middle)),
               f"fall circle, {_span(sheet, fall)}", fill=palette.accent),
    ]  # fmt: skip
    y = frame.ground_y + 9.0
    name = f"turning radius {_span(sheet, swing)}"
    half = 0.5 * text_width(name, size=_SIZE) + 2.0
    middle_x = min(max(frame.x(0.0), sheet.area.left + half), sheet.area.right - half)
    made += [
        _thing(
            f"Turning radius, {_span(sheet, swing)}: what the turning beams sweep over",
            line(frame.x(-swing), y, frame.x(swing), y, **pen(palette.series[1], "1.6"),
                 data_part="swing", data_radius=number(swing)),
        ),
        halo_text(middle_x, y + 9.0, name, fill=palette.series[1], palette=palette, size=_SIZE,
                  anchor="middle"),
    ]  # fmt: skip
    sheet.taken.append(text_box(middle_x, y + 9.0, name, size=_SIZE, anchor="middle"))
    crane = held.heights.crane_top
    if crane > 0.0:
        top_y = frame.y(crane)
        made += [
            _thing(
                f"Crane or truck, its highest position {_span(sheet, crane)}",
                line(frame.x(-0.6 * swing), top_y, frame.x(0.6 * swing), top_y,
                     **pen(palette.quiet, "1", "4 2"),
                     data_part="crane"),
            ),
            _label(sheet, frame.x(0.6 * swing), top_y, f"crane to {_span(sheet, crane)}",
                   fill=palette.quiet),
        ]  # fmt: skip
    return made


def _lines(sheet: _Sheet, held: Installation) -> Iterator[str]:
    frame, palette = sheet.frame, sheet.palette
    for each in held.power_lines:
        x, y = frame.x(each.distance), frame.y(each.height)
        if x > sheet.area.right - 6.0:
            edge = sheet.area.right - 4.0
            yield _label(sheet, edge, y, f"{each.name}, {_span(sheet, each.distance)} away →",
                         fill=palette.accent, spots="left")  # fmt: skip
            continue
        clear = least_clearance(voltage=each.voltage).distance
        name = f"{each.name}, {_span(sheet, each.distance)} away"
        yield group(
                [
                    line(x, frame.ground_y, x, y, **pen(palette.quiet, "1")),
                    tag("circle", cx=x, cy=y, r=clear * frame.scale, fill=palette.accent,
                        fill_opacity="0.14", **pen(palette.accent, "0.8")),
                    tag("circle", cx=x, cy=y, r=2.6, fill=palette.accent),
                ],
                title=f"{each.name}, {_span(sheet, each.distance)} away, "
                f"{_span(sheet, each.height)} high: keep {_span(sheet, clear)} from every "
                "conductor",
                data_part="power-line", data_distance=number(each.distance),
                data_clearance=number(clear),
            )  # fmt: skip
        ring = clear * frame.scale
        above = y - ring - 9.0
        yield _label(sheet, x, above if above > sheet.area.top + 8.0 else y + ring + 9.0,
                     name, fill=palette.accent, spots="middle")  # fmt: skip
        sheet.taken.append(Box(left=x - ring, top=y - ring, right=x + ring, bottom=y + ring))
    for name, away in (
        ("boundary", held.around.boundary_distance),
        ("public way", held.around.walkway_distance),
    ):
        if away is None:
            continue
        x = frame.x(away)
        if x > sheet.area.right - 6.0:
            edge = sheet.area.right - 4.0
            yield _label(sheet, edge, frame.ground_y - 12.0,
                         f"{name}, {_span(sheet, away)} away →", fill=palette.ink,
                         spots="left")  # fmt: skip
            continue
        high = 4.0 if name == "boundary" else 2.5
        yield _thing(
                f"{name.capitalize()}, {_span(sheet, away)} from the foot",
                line(x, frame.ground_y, x, frame.y(high), **pen(palette.ink, "1.6", "2 2"),
                     data_part=name.replace(" ", "-"),
                     data_distance=number(away)),
            )  # fmt: skip
        yield _label(sheet, x, frame.y(high) - 8.0, f"{name}, {_span(sheet, away)}",
                     fill=palette.ink, spots="middle")  # fmt: skip


def _rule(sheet: _Sheet, *, width: float, height: float) -> list[str]:
    """A measuring bar, so that a print can be measured."""
    frame, palette = sheet.frame, sheet.palette
    unit = 1.0 if sheet.system == "metric" else 0.3048
    step = nice_step(span=(width - 2.0 * _MARGIN) / frame.scale / unit, count=8)
    long = step * unit * frame.scale
    x, y = width - _MARGIN - long, height - 12.0
    name = f"{step:g} {'m' if sheet.system == 'metric' else 'ft'}"
    ink = pen(palette.ink, "1")
    return [
        line(x, y, x + long, y, **ink),
        line(x, y - 3.0, x, y + 3.0, **ink),
        line(x + long, y - 3.0, x + long, y + 3.0, **ink),
        text(x - 5.0, y, name, fill=palette.ink, size=_SIZE, anchor="end"),
    ]


def _sentence(held: Installation, system: UnitSystem) -> str:
    def span(length: float) -> str:
        return distance_text(length, system)

    heights, around = held.heights, held.around
    said = [
        f"highest part {span(heights.highest)}",
        f"fall circle {span(math.hypot(heights.permanent_top, around.swing_radius))}",
        f"swing circle {span(around.swing_radius)}",
    ]
    for name, away in (
        ("boundary", around.boundary_distance),
        ("public way", around.walkway_distance),
    ):
        said.append(f"{name} {'not given' if away is None else span(away) + ' away'}")
    said += [
        f"{each.name} {span(each.distance)} away, {span(each.height)} high"
        for each in held.power_lines
    ]
    if not held.lines_surveyed:
        said.append("nobody has said that they looked for power lines")
    return f"Seen from the side, to scale: {'; '.join(said)}."


def station_elevation(
    *,
    plan: Plan,
    installation: Installation,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 640.0,
) -> str:
    """Draw the station from the side, with fall circle and clearances.

    Everything that is near is drawn to the right, wherever it lies.
    """
    left, right, up = _reach(plan, installation)
    scale = (width - 2.0 * _MARGIN) / (left + right)
    scale = min(scale, 420.0 / up)
    height = _TOP + scale * up + _FOOT
    spare = (width - 2.0 * _MARGIN) - scale * (left + right)
    frame = _Frame(scale=scale, foot_x=_MARGIN + scale * left + 0.5 * spare,
                   ground_y=_TOP + scale * up)  # fmt: skip
    sheet = _Sheet(
        frame=frame,
        area=Box(left=4.0, top=26.0, right=width - 4.0, bottom=height - 20.0),
        taken=[],
        palette=palette,
        system=system,
    )
    body = [
        line(4.0, frame.ground_y, width - 4.0, frame.ground_y, **pen(palette.ink, "1.2"),
             data_part="ground"),
        *_circles(sheet, installation),
        *_lines(sheet, installation),
        *_standing(sheet, plan, top=installation.heights.structure_top, named="support not given"),
        *_rule(sheet, width=width, height=height),
        text(_MARGIN, height - 12.0, "distances to scale, directions not",
             fill=palette.quiet),
    ]  # fmt: skip
    return document(
        kind="station-elevation",
        title="Station from the side, to scale",
        description=_sentence(installation, system),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={
            "scale": number(scale, decimals=6),
            "foot-x": number(frame.foot_x),
            "ground-y": number(frame.ground_y),
        },
    )


def station_profile(
    *,
    plan: Plan,
    up: float,
    out: float,
    description: str,
    named: str = "",
    limit: float | None = None,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 240.0,
) -> str:
    """Draw a station alone from the side, beside others at one scale.

    Args:
        up, out: height and half width that all of them share [m]
        named: what carries it where the plan names no support
        limit: highest part allowed, to be drawn as a line; None for no limit [m]
    """
    scale = min((width - 2.0 * _MARGIN) / (2.0 * out), 190.0 / up)
    bottom = _TOP + scale * up
    frame = _Frame(scale=scale, foot_x=0.5 * width, ground_y=bottom)
    sheet = _Sheet(
        frame=frame, area=Box(left=2.0, top=20.0, right=width - 2.0, bottom=bottom),
        taken=[], palette=palette, system=system,
    )  # fmt: skip
    body = [line(4.0, bottom, width - 4.0, bottom, **pen(palette.ink, "1.2"), data_part="ground")]
    if limit is not None:
        y = frame.y(limit)
        body.append(line(4.0, y, width - 4.0, y, **pen(palette.accent, "0.9", "6 4"),
                         data_part="limit",
                         data_height=number(limit)))  # fmt: skip
        body.append(_label(sheet, 0.0, y - 8.0, f"{_span(sheet, limit)} allowed",
                           fill=palette.accent))  # fmt: skip
        sheet.taken.append(Box(left=0.0, top=y - 1.0, right=width, bottom=y + 1.0))
    sheet.taken.extend(_covered(frame, plan))
    body += [*_ropes(frame, plan, palette), *_wall(frame, plan, palette)]
    body += _standing(sheet, plan, top=_hung_from(plan), named=named)
    body.append(_person(sheet))
    height = bottom + 26.0
    return document(
        kind="station-profile", title="From the side, to scale", description=description,
        width=width, height=height, palette=palette,
        body=[*body, *_rule(sheet, width=width, height=height)],
        data={"scale": number(scale, decimals=6), "ground-y": number(bottom)},
    )  # fmt: skip


def _covered(frame: _Frame, plan: Plan) -> Iterator[Box]:
    """Rectangles about antennas and support, which no label shall cross."""
    yield Box(left=frame.x(0.0) - 4.0, top=frame.y(max(b.height for b in plan.beams)),
              right=frame.x(0.0) + 4.0, bottom=frame.ground_y)  # fmt: skip
    for beam in plan.beams:
        half = max(element.reach for element in beam.elements)
        low, high = (
            pick(z for element in beam.elements for _, _, z in element.outline)
            for pick in (min, max)
        )
        yield Box(left=frame.x(-half), top=frame.y(beam.height + high) - 2.0, right=frame.x(half),
                  bottom=frame.y(beam.height + low) + 2.0)  # fmt: skip


def _hung_from(plan: Plan) -> float:
    """Height of what carries the middle of a hung wire where no support is named, else 0 [m]."""
    if plan.support is not None:
        return 0.0
    return max(
        (
            beam.height
            for beam in plan.beams
            if beam.frame is not None
            and any(z < 0.0 for point in beam.frame.points for _, _, z in [point.place])
        ),
        default=0.0,
    )


def _wall(frame: _Frame, plan: Plan, palette: Palette) -> list[str]:
    """The wall that carries house brackets."""
    support = plan.support
    brackets = None if support is None or support.tube is None else support.tube.brackets
    if brackets is None:
        return []
    x, top = frame.x(0.0) - 9.0, frame.y(max(brackets.heights) + 0.4)
    return [_thing("Wall of the house",
                   line(x, frame.ground_y, x, top, **pen(palette.quiet, "2")),
                   line(x, top, x - 26.0, top - 14.0, **pen(palette.quiet, "2")))
            ]  # fmt: skip


def _ropes(frame: _Frame, plan: Plan, palette: Palette) -> Iterator[str]:
    """Ropes that hold hung wires, and what they are tied to where no support is named."""
    for beam in plan.beams:
        if beam.frame is None or not beam.frame.held:
            continue
        _, end_y, end_z = beam.elements[0].outline[-1]
        for point in beam.frame.points:
            _, y, z = point.place
            if not y:
                continue
            for side in (-1.0, 1.0):
                x = frame.x(side * y)
                yield line(frame.x(side * end_y), frame.y(beam.height + end_z), x,
                           frame.y(beam.height + z), **pen(palette.quiet, "0.9"),
                           data_part="rope")  # fmt: skip
                if plan.support is None and z == 0.0:
                    yield line(x, frame.ground_y, x, frame.y(beam.height),
                               **pen(palette.ink, "4", "3 3"),
                               data_part="tied-to")  # fmt: skip


def _person(sheet: _Sheet) -> str:
    """Somebody beside the foot, so that the eye has a measure."""
    frame, palette, x = sheet.frame, sheet.palette, sheet.frame.x(-2.0)
    head, hip = PERSON - 0.15, 0.85
    look = {"stroke": palette.ink, "stroke_width": "1.1", "stroke_linecap": "round"}
    lines = [((0.0, head - 0.15), (0.0, hip)), ((0.0, hip), (-0.2, 0.0)), ((0.0, hip), (0.2, 0.0)),
             ((-0.3, 1.0), (0.0, 1.4)), ((0.3, 1.0), (0.0, 1.4))]  # fmt: skip
    made = [line(x + frame.scale * ax, frame.y(ay), x + frame.scale * bx, frame.y(by), **look)
            for (ax, ay), (bx, by) in lines]  # fmt: skip
    made.append(tag("circle", cx=x, cy=frame.y(head), r=max(0.15 * frame.scale, 1.0),
                    fill=palette.ink))  # fmt: skip
    return _thing(f"Somebody {write(Quantity(PERSON, 'span'), system=sheet.system)} tall", *made)
