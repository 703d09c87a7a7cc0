"""The lift to scale: from the side, and the ground from above with its circles."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from itertools import pairwise

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.canvas import document, line, number, pen, tag
from boomwright.charts.ground_view import Circle, distance_text, ground_view, scale_bar
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.raising import LiftPlan, LineNear
from boomwright.raising.standing import standing_points, standing_radius

_EDGE = 46.0
#: words nearer to the right edge than this end at their mark [user units]
_EDGE_WORDS = 70.0
#: what turns within less has no circle [m]
_SWINGS = 0.1
_Place = Callable[[float, float], tuple[float, float]]


def lift_side_view(
    lift: LiftPlan, *, palette: Palette = LIGHT, system: UnitSystem = "metric", width: float = 600.0
) -> str:
    """Draw the lift from the side, with everything that stands or hangs near it.

    Returns:
        SVG text; power lines are drawn on one side whatever their bearing
    """
    job = lift.job
    span = max(job.load.element_span, job.load.boom_length)
    if job.load.seen:
        span = 2.0 * max(abs(across) for wire in job.load.seen for across, _ in wire)
    highest = max((up for wire in job.load.seen for _, up in wire), default=job.lift_height)
    top = max(job.tower_height, highest, lift.way.high) + 0.12 * job.lift_height
    # Past the ring there is room for its words.
    right = max(
        1.5 * lift.exclusion_radius, *(each.distance + 4.0 for each in job.power_lines), 0.0
    )
    anchors = [ring.anchor_radius for ring in job.guys]
    beside = lift.way.out if lift.way.machine else 0.0
    left = max(lift.exclusion_radius + beside, 0.6 * span, *anchors) + 3.0
    if job.tilt is not None:
        left = max(left, job.lift_height + 3.0)
    scale = (width - 2.0 * 14.0) / (left + right)
    height = top * scale + 30.0 + _EDGE + 22.0
    foot_x, foot_y = 14.0 + left * scale, height - _EDGE - 14.0

    def place(x: float, y: float) -> tuple[float, float]:
        return foot_x + x * scale, foot_y - y * scale

    ink = palette.ink
    body = [line(14.0, foot_y, width - 14.0, foot_y, **pen(ink, "1.4"))]
    x0, y1 = place(0.0, job.tower_height)
    if job.stands:
        body.append(line(x0, foot_y, x0, y1, **pen(ink, "3.2"), data_part="support"))
    mast = max(job.lift_height, job.mast_top)
    if mast > job.tower_height:
        body.append(line(x0, y1, x0, place(0.0, mast)[1], **pen(ink, "1.8"), data_part="mast"))
    body += _beam_up(lift, place, span, palette, system)
    body += _guys_from_side(lift, place, palette)
    body += _way_of_the_load(lift, place, palette)
    body += _rings_on_ground(lift, (foot_x, foot_y), scale, palette, system)
    body += _edges_on_ground(lift, place, width, palette, system)
    for near in job.power_lines:
        body += _power_line(near, place(near.distance, near.height), scale, palette, system)
    body += _machines(lift, place, scale, palette)
    body.append(scale_bar(x=16.0, y=height - 12.0, scale=scale, palette=palette, system=system))
    long = partial(distance_text, system=system)
    lines = "; ".join(
        f"{near.name} {long(near.distance)} away and {long(near.height)} up"
        for near in job.power_lines
    )
    return document(
        kind="lift-side",
        title=f"Lift of {job.load.name} from the side, to scale",
        description=(
            f"{_heights(lift, system)}, the beam {long(span)} wide. "
            f"Power lines: {lines or 'none entered'}."
        ),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={"scale": number(scale), "origin-x": number(foot_x), "origin-y": number(foot_y)},
    )


def _heights(lift: LiftPlan, system: UnitSystem) -> str:
    job = lift.job
    what = "wire's highest point" if job.load.hung else "clamp"
    up = f"The {what} is {distance_text(job.lift_height, system)} up"
    return f"{up}, the support {distance_text(job.tower_height, system)}" if job.stands else up


def _beam_up(
    lift: LiftPlan, at: _Place, span: float, palette: Palette, system: UnitSystem
) -> list[str]:
    """Draw the beam across its support, or wire with corners as it will hang."""
    job, half = lift.job, 0.5 * span
    mass = job.load.mass
    weight = write(Quantity(mass, "mass"), system=system)
    name = f"{distance_text(job.lift_height, system)}, {weight}"
    ends = (-half, half)
    if lift.way.bearing is not None:
        near, far = _arms(lift)
        ends = (-far, near)
    wires = job.load.seen or (tuple((end, job.lift_height) for end in ends),)
    # Words stand beside the highest point that lies furthest to the right.
    across, up = max((point for wire in wires for point in wire), key=lambda p: (p[1], p[0]))
    x, y = at(across, up)
    return [
        *(
            line(*at(*low), *at(*high), **pen(palette.series[0], "2.6"), data_part="beam")
            for wire in wires
            for low, high in pairwise(wire)
        ),
        halo_text(x + 6.0, y, name, fill=palette.ink, palette=palette, anchor="start", size=10.5),
    ]


def _rings_on_ground(
    lift: LiftPlan, foot: tuple[float, float], scale: float, palette: Palette, system: UnitSystem
) -> Iterator[str]:
    foot_x, foot_y = foot
    for radius, words, row, colour in (
        (lift.dropped_tool_radius, "nobody under the work", 1, palette.accent),
        (lift.exclusion_radius, "kept empty", 2, palette.quiet),
    ):
        x, y = foot_x + radius * scale, foot_y + 13.0 * row
        # Around the load as around the foot, where it goes up on a known bearing.
        beside = 0.0 if lift.way.bearing is None else lift.way.out + radius
        ends = (foot_x - beside * scale, x)
        yield line(ends[0], y, x, y, **pen(colour, "2.2"))
        yield from [line(end, y - 4.0, end, y + 4.0, **pen(colour, "1.2"))
                    for end in ends if end != foot_x]  # fmt: skip
        yield halo_text(x + 6.0, y, f"{words}: {distance_text(radius, system)}", fill=colour,
                        palette=palette, anchor="start")  # fmt: skip


def _guys_from_side(lift: LiftPlan, at: _Place, palette: Palette) -> list[str]:
    """Draw guys as seen square to the arm, which stands left; without one, left and right."""
    arm = lift.way.bearing
    return [
        line(*at(0.0, ring.height), *at(side * ring.anchor_radius, 0.0), **pen(palette.grid, "1.1"),
             data_part="guy", data_radius=number(ring.anchor_radius))
        for ring in lift.job.guys
        for side in ((-1.0, 1.0) if arm is None else (-math.cos(g - arm) for g in ring.azimuths))
    ]  # fmt: skip


def _way_of_the_load(lift: LiftPlan, at: _Place, palette: Palette) -> list[str]:
    """Draw the beam beside the foot, its way up and its way in."""
    way, clamp = lift.way, lift.job.lift_height
    if way.bearing is None:
        return []
    high = way.high
    near, far = _arms(lift)
    dashed = pen(palette.series[0], "1.5", "4 3")
    return [
        line(*at(-way.out - far, 1.2), *at(-way.out + near, 1.2), **dashed, data_part="load"),
        line(*at(-way.out, 1.2), *at(-way.out, high), **dashed, data_part="way-up"),
        line(*at(-way.out, high), *at(0.0, high), **dashed, data_part="way-in"),
        line(*at(0.0, high), *at(0.0, clamp), **dashed, data_part="way-down"),
    ]


def _edges_on_ground(
    lift: LiftPlan, at: _Place, width: float, palette: Palette, system: UnitSystem
) -> list[str]:
    """Mark where the owner's ground and the nearest way begin, where the picture reaches so far."""
    made = []
    for row, (name, distance) in enumerate(_edges(lift)):
        x, y = at(distance, 0.0)
        tall = 26.0 + 18.0 * row
        if x > width - 14.0:
            continue
        made += [
            line(x, y - tall, x, y + 5.0, **pen(palette.ink, "1", "2 3"),
                 data_part=name.split()[-1],
                 data_distance=number(distance)),
            halo_text(x, y - tall - 7.0, f"{name} {distance_text(distance, system)}",
                      fill=palette.ink, palette=palette,
                      anchor="end" if x > width - _EDGE_WORDS else "middle"),
        ]  # fmt: skip
    return made


def _edges(lift: LiftPlan) -> Iterator[tuple[str, float]]:
    """Where ground begins that is not the owner's: name and distance from the foot.

    Yields:
        name and distance [m]
    """
    for name, distance in (("boundary", lift.job.boundary), ("public way", lift.job.walkway)):
        if distance is not None:
            yield name, distance


def _power_line(
    near: LineNear, at: tuple[float, float], scale: float, palette: Palette, system: UnitSystem
) -> list[str]:
    x, y = at
    return [
        tag("circle", cx=x, cy=y, r=near.required_clearance * scale, fill=palette.accent,
            fill_opacity="0.14", **pen(palette.accent, "1"), data_part="clearance"),
        tag("circle", cx=x, cy=y, r=3.2, fill=palette.accent, data_part="power-line",
            data_distance=number(near.distance), data_height=number(near.height)),
        line(x, y, x, y + near.height * scale, **pen(palette.grid, "0.8", "3 3")),
        halo_text(x, y - near.required_clearance * scale - 9.0,
                  f"{near.name}, keep {distance_text(near.required_clearance, system)}",
                  fill=palette.accent, palette=palette, anchor="end"),
    ]  # fmt: skip


def _machines(lift: LiftPlan, at: _Place, scale: float, palette: Palette) -> list[str]:
    job, made = lift.job, []
    if job.lift_truck is not None:
        truck = job.lift_truck
        base = at(-truck.needed_outreach, 0.0)
        head = at(-0.6, truck.platform_height)
        made += [
            line(*base, *head, **pen(palette.series[1], "2", "7 3"), data_part="lift-truck"),
            tag("rect", x=base[0] - 1.2 * scale, y=base[1] - 1.0 * scale, width=2.4 * scale,
                height=1.0 * scale, fill=palette.series[1]),
            halo_text(base[0] - 1.6 * scale, base[1] - 2.2 * scale, "lift truck",
                      fill=palette.series[1], palette=palette, anchor="end"),
        ]  # fmt: skip
    if job.crane is not None:
        base, head = at(-job.crane.radius, 0.0), at(0.0, job.crane.hook_height)
        made += [
            line(*base, *head, **pen(palette.series[3], "2", "9 3 2 3"), data_part="crane"),
            halo_text(base[0], base[1] - 10.0, "crane", fill=palette.series[3], palette=palette,
                      anchor="middle"),
        ]  # fmt: skip
    if job.tilt is not None:
        made += _lying(lift, at, palette)
    if job.tram is not None:
        anchor = at(job.tram.span, 0.0)
        made.append(
            line(*at(0.0, job.lift_height), *anchor, **pen(palette.series[2], "1.4"),
                 data_part="tram")
        )  # fmt: skip
    return made


def _lying(lift: LiftPlan, at: _Place, palette: Palette) -> list[str]:
    """Draw the support lying, the way its tip takes, and the lines that pull and hold it."""
    tilt = lift.job.tilt
    if tilt is None:
        return []
    lifter, colour = tilt.lifter, palette.series[3]
    far = max(part.at + part.length / 2.0 for part in tilt.parts)
    arc = [at(-far * math.cos(turn), far * math.sin(turn)) for turn in _QUARTER]
    points = " ".join(f"{number(x)},{number(y)}" for x, y in arc)
    pole = lifter.kind == "gin pole"
    head = at(0.0 if pole else lifter.behind, lifter.height)
    held, ground = at(-lifter.line_at, 0.15), at(lifter.winch if pole else lifter.behind, 0.0)
    thin = pen(colour, "1.4")
    made = [
        line(*at(0.0, 0.15), *at(-far, 0.15), **pen(palette.ink, "2.2", "7 3"), data_part="lying"),
        tag("polyline", points=points, fill="none", **pen(palette.quiet, "1", "3 4"),
            data_part="way-of-the-tip"),
        line(*held, *head, **thin, data_part="lift-line"),
        line(*head, *ground, **thin, data_part="winch-line"),
        halo_text(head[0] + 6.0, head[1] - 6.0, lifter.kind, fill=colour, palette=palette,
                  anchor="start"),
    ]  # fmt: skip
    if pole:
        made.append(line(*at(0.0, 0.0), *head, **pen(colour, "2.4")))
    if tilt.back_line is not None:
        back = tilt.back_line
        made.append(
            line(*at(0.0, back.line_at), *at(-back.distance, 0.0), **thin,
                 stroke_dasharray="2 3", data_part="hold-back")
        )  # fmt: skip
    return made


#: a quarter turn in steps [rad]
_QUARTER = tuple(math.radians(5.0 * step) for step in range(19))


def lift_ground_view(
    lift: LiftPlan, *, palette: Palette = LIGHT, system: UnitSystem = "metric", width: float = 600.0
) -> str:
    """Draw the ground around the foot with the circles that are kept empty."""
    job = lift.job
    seen = [ring.anchor_radius for ring in job.guys]
    # What lies far out stays outside the picture and stands in its key.
    if lift.way.bearing is not None:
        seen.append(lift.way.out + standing_radius(lift.methods[0], job))
    else:
        seen += [lift.exclusion_radius, *(each.distance for each in job.power_lines)]
        seen += [away for _, away in _edges(lift) if away < 1.6 * lift.exclusion_radius]
    reach = max(seen) * 1.06
    return ground_view(
        _circles(lift, reach, palette),
        guys=job.guys,
        reach=reach,
        kind="lift-ground",
        title="Ground around the foot, from above, to scale",
        description=(
            f"Kept empty to {distance_text(lift.exclusion_radius, system)} from {lift.way.middle}, "
            f"nobody within {distance_text(lift.dropped_tool_radius, system)} while people work "
            f"above, the beam turns within {distance_text(job.swing_radius, system)}. "
            f"{'; '.join(_told_edges(lift, system))}"
        ),
        palette=palette,
        system=system,
        width=width,
        marks=partial(_on_the_ground, lift, palette),
    )


def _on_the_ground(
    lift: LiftPlan, palette: Palette, foot: tuple[float, float], scale: float
) -> list[str]:
    """Draw machine, beam beside the foot with its way in, and people, where a bearing is known."""
    way, load = lift.way, lift.job.load
    if way.bearing is None:
        return []
    bearing = way.bearing

    def at(outward: float, across: float = 0.0) -> tuple[float, float]:
        east = outward * math.sin(bearing) + across * math.cos(bearing)
        north = outward * math.cos(bearing) - across * math.sin(bearing)
        return foot[0] + east * scale, foot[1] - north * scale

    near, far = _arms(lift)
    half = 0.5 * load.element_span
    inner, outer = way.out - near, way.out + far
    thin = pen(palette.series[0], "2")
    made = [
        line(*at(inner), *at(outer), **thin, data_part="load"),
        *(line(*at(end, -half), *at(end, half), **thin, data_part="load")
          for end in (inner, outer)),
        line(*at(inner), *at(0.6), **pen(palette.series[0], "1.5", "4 3"), data_part="way-in"),
        tag("rect", x=at(way.out)[0] - 5.0, y=at(way.out)[1] - 5.0, width=10.0, height=10.0,
            fill=palette.series[1], data_part="machine"),
    ]  # fmt: skip
    tied = iter((outer, inner))
    for role, east, north in standing_points(lift.methods[0], lift.job):
        x, y = foot[0] + east * scale, foot[1] - north * scale
        if role == "tag line":
            made.append(line(x, y, *at(next(tied)), **pen(palette.quiet, "0.9")))
        made += [
            tag("circle", cx=x, cy=y, r=4.0, fill=palette.ink, data_part="person"),
            halo_text(x, y + (14.0 if north <= 0.0 else -12.0), role, fill=palette.ink,
                      palette=palette, anchor="middle"),
        ]  # fmt: skip
    return made


def _arms(lift: LiftPlan) -> tuple[float, float]:
    """Boom from its middle on the machine inwards and outwards, the rear end inwards [m] (2,)."""
    load = lift.job.load
    near = 0.5 * load.boom_length if load.balance_place is None else load.balance_place
    return near, load.boom_length - near


def _circles(lift: LiftPlan, reach: float, palette: Palette) -> list[Circle]:
    """All circles around the foot: kept empty, and what begins at some distance all round.

    Args:
        reach: half of what the picture shows [m]
    """
    to, inside = lift.way.place, lift.exclusion_radius <= reach
    found = [
        Circle(radius=lift.exclusion_radius,
                words=f"kept empty{'' if inside else ': outside the picture'}",
                colour=palette.quiet, dash="8 4", opacity=0.05, to=to, shown=inside),
        Circle(radius=lift.dropped_tool_radius, words="nobody at all", part="nobody",
                colour=palette.accent, opacity=0.12, to=to),
    ]  # fmt: skip
    if lift.job.swing_radius > _SWINGS:
        hung = lift.job.load.hung
        words = "the wire as it swings on one rope" if hung else "the beam as it turns"
        found.append(
            Circle(radius=lift.job.swing_radius, words=words, colour=palette.series[0], dash="3 3")
        )
    found.append(
        Circle(radius=standing_radius(lift.methods[0], lift.job), part="standing",
                words="people with a task: from here out", colour=palette.series[1], dash="2 5",
                to=to)
    )  # fmt: skip
    found += [
        Circle(radius=near.distance, words=f"{near.name}: {_where(near.distance, reach)}",
                colour=palette.series[2], dash="9 3 2 3", part="power-line",
                shown=near.distance <= reach)
        for near in lift.job.power_lines
    ]  # fmt: skip
    found += [
        Circle(radius=away, words=f"{name}: {_where(away, reach)}", colour=palette.ink,
                dash="2 3", part=name.split()[-1], shown=away <= reach)
        for name, away in _edges(lift)
    ]  # fmt: skip
    if lift.way.bearing is not None:
        found.append(
            Circle(radius=lift.way.out, words=f"{lift.methods[0].name} from the foot",
                   colour=palette.series[0], dash="4 3", shown=False)
        )  # fmt: skip
    return found


def _where(away: float, reach: float) -> str:
    return "at this distance" if away <= reach else "outside the picture"


def _told_edges(lift: LiftPlan, system: UnitSystem) -> list[str]:
    told = [f"{name} at {distance_text(distance, system)}" for name, distance in _edges(lift)]
    anchors = (distance_text(ring.anchor_radius, system) for ring in lift.job.guys)
    return told + [f"anchors at {out}" for out in anchors]
