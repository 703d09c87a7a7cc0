"""The lift to scale: from the side, and the ground from above with its circles."""

from __future__ import annotations

from collections.abc import Callable

from boomwright.base import UnitSystem
from boomwright.figures.canvas import document, group, line, number, tag, text
from boomwright.figures.palette import LIGHT, Palette
from boomwright.figures.scale import nice_step
from boomwright.figures.shaded_field import halo_text
from boomwright.raising import LiftPlan, LineNear

_FOOT_M = 0.3048
_KILOGRAMS_PER_POUND = 0.45359237
_EDGE = 46.0
_Place = Callable[[float, float], tuple[float, float]]


def _length(value: float, system: UnitSystem) -> str:
    return f"{value:.1f} m" if system == "metric" else f"{value / _FOOT_M:.0f} ft"


def _scale_bar(*, x: float, y: float, scale: float, palette: Palette, system: UnitSystem) -> str:
    unit = 1.0 if system == "metric" else _FOOT_M
    step = nice_step(span=110.0 / scale / unit, count=1)
    long = step * unit * scale
    name = f"{step:g} m" if system == "metric" else f"{step:g} ft"
    ink = {"stroke": palette.ink, "stroke_width": "1"}
    return group(
        [
            line(x, y, x + long, y, **ink),
            line(x, y - 4.0, x, y + 4.0, **ink),
            line(x + long, y - 4.0, x + long, y + 4.0, **ink),
            text(x + long + 6.0, y, name, fill=palette.ink, size=10.0),
        ],
        data_part="scale",
    )


def lift_side_view(
    lift: LiftPlan,
    *,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw the lift from the side, with everything that stands or hangs near it.

    Parameters
    ----------
    width
        width of the picture [user units]

    Returns
    -------
    str
        SVG text; power lines are drawn on one side whatever their bearing
    """
    job = lift.job
    span = max(job.load.element_span, job.load.boom_length)
    top = max(job.tower_height, job.lift_height) + 0.12 * job.lift_height
    # Past the ring there is room for its words.
    right = max(
        1.5 * lift.exclusion_radius, *(each.distance + 4.0 for each in job.power_lines), 0.0
    )
    left = max(lift.dropped_tool_radius, 0.6 * span) + 3.0
    scale = (width - 2.0 * 14.0) / (left + right)
    height = top * scale + 30.0 + _EDGE + 22.0
    foot_x, foot_y = 14.0 + left * scale, height - _EDGE - 14.0

    def place(x: float, y: float) -> tuple[float, float]:
        return foot_x + x * scale, foot_y - y * scale

    ink = palette.ink
    body = [line(14.0, foot_y, width - 14.0, foot_y, stroke=ink, stroke_width="1.4")]
    x0, y1 = place(0.0, job.tower_height)
    body.append(line(x0, foot_y, x0, y1, stroke=ink, stroke_width="3.2", data_part="support"))
    clamp_y = place(0.0, job.lift_height)[1]
    if job.lift_height > job.tower_height:
        body.append(line(x0, y1, x0, clamp_y, stroke=ink, stroke_width="1.8", data_part="mast"))
    body += _beam_up(lift, (x0, clamp_y), span * scale, palette, system)
    body += _rings_on_ground(lift, (foot_x, foot_y), scale, palette, system)
    for near in job.power_lines:
        body += _power_line(near, place(near.distance, near.height), scale, palette, system)
    body += _machines(lift, place, scale, palette)
    body.append(_scale_bar(x=16.0, y=height - 12.0, scale=scale, palette=palette, system=system))
    lines = "; ".join(
        f"{near.name} {near.distance:.0f} m away and {near.height:.0f} m up"
        for near in job.power_lines
    )
    return document(
        kind="lift-side",
        title=f"Lift of {job.load.name} from the side, to scale",
        description=(
            f"The clamp is {job.lift_height:.1f} m up, the support {job.tower_height:.1f} m, the "
            f"beam {span:.1f} m wide. Power lines: {lines or 'none entered'}."
        ),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={"scale": number(scale), "origin-x": number(foot_x), "origin-y": number(foot_y)},
    )


def _beam_up(
    lift: LiftPlan, clamp: tuple[float, float], span: float, palette: Palette, system: UnitSystem
) -> list[str]:
    job, (x0, clamp_y), half = lift.job, clamp, 0.5 * span
    mass = job.load.mass
    weight = f"{mass:.0f} kg" if system == "metric" else f"{mass / _KILOGRAMS_PER_POUND:.0f} lb"
    name = f"{_length(job.lift_height, system)}, {weight}"
    return [
        line(x0 - half, clamp_y, x0 + half, clamp_y, stroke=palette.series[0], stroke_width="2.6",
             data_part="beam"),
        halo_text(x0 + half + 6.0, clamp_y, name, fill=palette.ink, palette=palette,
                  anchor="start", size=10.5),
    ]  # fmt: skip


def _rings_on_ground(
    lift: LiftPlan, foot: tuple[float, float], scale: float, palette: Palette, system: UnitSystem
) -> list[str]:
    foot_x, foot_y = foot
    body: list[str] = []
    for radius, words, row, colour in (
        (lift.dropped_tool_radius, "nobody under the work", 1, palette.accent),
        (lift.exclusion_radius, "kept empty", 2, palette.quiet),
    ):
        x, y = foot_x + radius * scale, foot_y + 13.0 * row
        body.append(line(foot_x, y, x, y, stroke=colour, stroke_width="2.2"))
        body.append(line(x, y - 4.0, x, y + 4.0, stroke=colour, stroke_width="1.2"))
        body.append(
            halo_text(x + 6.0, y, f"{words}: {_length(radius, system)}", fill=colour,
                      palette=palette, anchor="start", size=9.5)
        )  # fmt: skip
    return body


def _power_line(
    near: LineNear, at: tuple[float, float], scale: float, palette: Palette, system: UnitSystem
) -> list[str]:
    x, y = at
    return [
        tag("circle", cx=x, cy=y, r=near.required_clearance * scale, fill=palette.accent,
            fill_opacity="0.14", stroke=palette.accent, stroke_width="1", data_part="clearance"),
        tag("circle", cx=x, cy=y, r=3.2, fill=palette.accent, data_part="power-line",
            data_distance=number(near.distance), data_height=number(near.height)),
        line(x, y, x, y + near.height * scale, stroke=palette.grid, stroke_width="0.8",
             stroke_dasharray="3 3"),
        halo_text(x, y - near.required_clearance * scale - 9.0,
                  f"{near.name}, keep {_length(near.required_clearance, system)}",
                  fill=palette.accent, palette=palette, anchor="end", size=9.5),
    ]  # fmt: skip


def _machines(lift: LiftPlan, at: _Place, scale: float, palette: Palette) -> list[str]:
    job, made = lift.job, []
    if job.lift_truck is not None:
        truck = job.lift_truck
        base = at(-truck.needed_outreach, 0.0)
        head = at(-0.6, truck.platform_height)
        made += [
            line(*base, *head, stroke=palette.series[1], stroke_width="2",
                 stroke_dasharray="7 3", data_part="lift-truck"),
            tag("rect", x=base[0] - 1.2 * scale, y=base[1] - 1.0 * scale, width=2.4 * scale,
                height=1.0 * scale, fill=palette.series[1]),
            halo_text(base[0] - 1.6 * scale, base[1] - 2.2 * scale, "lift truck",
                      fill=palette.series[1], palette=palette, anchor="end", size=9.5),
        ]  # fmt: skip
    if job.crane is not None:
        base, head = at(-job.crane.radius, 0.0), at(0.0, job.crane.hook_height)
        made += [
            line(*base, *head, stroke=palette.series[3], stroke_width="2",
                 stroke_dasharray="9 3 2 3", data_part="crane"),
            halo_text(base[0], base[1] - 10.0, "crane", fill=palette.series[3], palette=palette,
                      anchor="middle", size=9.5),
        ]  # fmt: skip
    if job.tram is not None:
        anchor = at(job.tram.span, 0.0)
        made.append(
            line(*at(0.0, job.lift_height), *anchor, stroke=palette.series[2],
                 stroke_width="1.4", data_part="tram")
        )  # fmt: skip
    return made


def lift_ground_view(
    lift: LiftPlan,
    *,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw the ground around the foot with the circles that are kept empty.

    Parameters
    ----------
    width
        width of the picture [user units]
    """
    job = lift.job
    reach = max([lift.exclusion_radius, *(each.distance for each in job.power_lines)]) * 1.06
    room = width - 230.0
    scale = room / (2.0 * reach)
    height = room + 74.0
    x, y = 14.0 + 0.5 * room, 34.0 + 0.5 * room
    circles = [
        (lift.exclusion_radius, "kept empty: nobody without a task", palette.quiet, "8 4", 0.05),
        (lift.dropped_tool_radius, "nobody while people work above", palette.accent, "", 0.12),
        (job.swing_radius, "the beam as it turns in the ropes", palette.series[0], "3 3", 0.0),
    ]
    body, row = [], 70.0
    for radius, words, colour, dash, opacity in circles:
        body.append(
            tag("circle", cx=x, cy=y, r=radius * scale, fill=colour, fill_opacity=str(opacity),
                stroke=colour, stroke_width="1.5", stroke_dasharray=dash or None,
                data_radius=number(radius))
        )  # fmt: skip
        body += _key(width - 206.0, row, words, _length(radius, system), colour, dash, palette)
        row += 44.0
    for near in job.power_lines:
        body.append(
            tag("circle", cx=x, cy=y, r=near.distance * scale, fill="none",
                stroke=palette.series[2], stroke_width="1.6", stroke_dasharray="9 3 2 3",
                data_radius=number(near.distance), data_part="power-line")
        )  # fmt: skip
        words = f"{near.name}: at this distance"
        distance = _length(near.distance, system)
        body += _key(width - 206.0, row, words, distance, palette.series[2], "9 3 2 3", palette)
        row += 44.0
    body.append(tag("circle", cx=x, cy=y, r=3.5, fill=palette.ink, data_part="foot"))
    body.append(
        halo_text(x, y + 12.0, "foot", fill=palette.ink, palette=palette, anchor="middle",
                  size=10.0)
    )  # fmt: skip
    body.append(_scale_bar(x=16.0, y=height - 14.0, scale=scale, palette=palette, system=system))
    return document(
        kind="lift-ground",
        title="Ground around the foot, from above, to scale",
        description=(
            f"Kept empty to {lift.exclusion_radius:.1f} m from the foot, nobody within "
            f"{lift.dropped_tool_radius:.1f} m while people work above, the beam turns within "
            f"{job.swing_radius:.1f} m."
        ),
        width=width,
        height=height,
        palette=palette,
        body=body,
        data={"scale": number(scale), "origin-x": number(x), "origin-y": number(y)},
    )


def _key(
    x: float, y: float, words: str, value: str, colour: str, dash: str, palette: Palette
) -> list[str]:
    return [
        line(x, y, x + 22.0, y, stroke=colour, stroke_width="2", stroke_dasharray=dash or None),
        text(x + 28.0, y, value, fill=palette.ink, size=11.0, bold=True),
        text(x, y + 15.0, words, fill=palette.ink, size=9.5),
    ]
