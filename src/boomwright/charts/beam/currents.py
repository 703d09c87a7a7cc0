"""Currents along the elements, and the phasors of the currents at the boom."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator, Sequence

import numpy as np

from boomwright.base import UnitSystem
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import (
    arrow_head,
    document,
    line,
    number,
    number_list,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import Box, first_free, shortened, text_box
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.scale import LinearScale, nice_bounds, nice_ticks, signed, tick_text
from boomwright.charts.sentences import summary_sentence
from boomwright.solver import ElementCurrent

_FOOT = 0.3048
_PHASE_TICKS = (-180.0, -90.0, 0.0, 90.0, 180.0)
# Below this share of the greatest current the phase of what is left says nothing.
_FAINT = 0.01


def _check(currents: Sequence[ElementCurrent]) -> None:
    if not currents:
        raise ValueError("a picture of currents needs the current of at least one element")
    for item in currents:
        if len(item.along) < 2 or len(item.along) != len(item.current):
            raise ValueError(
                f"{item.label}: {len(item.along)} places and {len(item.current)} currents; "
                "give two or more of each, as many currents as places"
            )


def _phase_runs(current: ElementCurrent, *, floor: float) -> list[slice]:
    """Stretches where the phase means something and does not jump over the edge."""
    phase = np.degrees(np.angle(current.current))
    plain = np.abs(current.current) >= floor
    runs, start = [], None
    for i in range(len(phase)):
        broken = start is not None and (not plain[i] or abs(phase[i] - phase[i - 1]) > 180.0)
        if broken and start is not None:
            runs.append(slice(start, i))
            start = None
        if plain[i] and start is None:
            start = i
    if start is not None:
        runs.append(slice(start, len(phase)))
    return runs


def _phase(
    frame: Panel, /, *, current: ElementCurrent, x: np.ndarray, floor: float, palette: Palette,
    axis: bool,
) -> Iterator[str]:  # fmt: skip
    """Phase in degrees on a scale of its own at the right edge."""
    style = line_style(palette=palette, index=1)
    scale = LinearScale(low=-180.0, high=180.0, start=frame.y.start, end=frame.y.end)
    degrees = np.degrees(np.angle(current.current))
    places_x, places_y = frame.x.places(x), scale.places(degrees)
    lines = [
        tag("path", d=path_data(places_x[run], places_y[run]), fill="none",
            **pen(style.colour, "1.5", style.dash))
        for run in _phase_runs(current, floor=floor)
        if run.stop - run.start > 1
    ]  # fmt: skip
    yield tag(
        "g",
        "".join(lines),
        data_series=f"{current.label}: phase",
        data_along=number_list(current.along),
        data_value=number_list(degrees),
    )
    right = frame.x.end
    for value in _PHASE_TICKS if axis else ():
        yield line(right, scale(value), right + 4.0, scale(value), **pen(palette.ink, "0.8"))
        yield text(right + 7.0, scale(value), f"{signed(value, decimals=0)}°", fill=palette.quiet)


def _current_panel(
    *, current: ElementCurrent, box: Box, top_current: float, half_length: float,
    palette: Palette, system: UnitSystem, edges: tuple[bool, bool, bool],
) -> str:  # fmt: skip
    first, last, lowest = edges
    unit, name = (1.0, "m") if system == "metric" else (_FOOT, "ft")
    x = current.along / unit
    reach = half_length / unit
    frame = panel(
        left=box.left, top=box.top, right=box.right, bottom=box.bottom,
        x_range=(-reach, reach), y_range=(0.0, top_current),
        x_label=f"from the boom, {name}" if lowest else "",
        y_label="current, A" if first else "", x_count=5, y_count=4,
    )  # fmt: skip
    style = line_style(palette=palette, index=0)
    label = shortened(current.label, size=10.0, room=box.right - box.left)
    items = [
        *panel_frame(frame, palette=palette),
        text(box.left, box.top - 9.0, label, fill=palette.ink, bold=True),
        *_phase(frame, current=current, x=x, floor=_FAINT * top_current, palette=palette,
                axis=last),
        curve(frame, x=x, y=np.abs(current.current), label=f"{current.label}: magnitude",
              style=style, x_data=current.along, x_name="along", markers=False),
    ]  # fmt: skip
    return tag("g", "".join(items), data_place=number(current.place, decimals=6),
               data_label=current.label, **frame.data())  # fmt: skip


def current_chart(
    *,
    currents: Sequence[ElementCurrent],
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 760.0,
) -> str:
    """Draw magnitude and phase along each element, one small panel an element.

    All panels share their scales, so heights and lengths compare at a glance.
    """
    _check(currents)
    columns = min(3 if width > 600.0 else 1, len(currents))
    rows = math.ceil(len(currents) / columns)
    left, right, gap, top, high, below = 62.0, 50.0, 34.0, 76.0, 110.0, 46.0
    wide = (width - left - right - gap * (columns - 1)) / columns
    peak = max(float(np.abs(item.current).max()) for item in currents)
    top_current = nice_bounds(low=0.0, high=peak or 1.0, count=4)[1]
    reach = 1.04 * max(float(np.abs(item.along).max()) for item in currents)
    body = []
    for i, item in enumerate(currents):
        row, column = divmod(i, columns)
        x, y = left + column * (wide + gap), top + row * (high + below)
        ends_row = column == columns - 1 or i == len(currents) - 1
        body.append(
            _current_panel(
                current=item,
                box=Box(left=x, top=y, right=x + wide, bottom=y + high),
                top_current=top_current,
                half_length=reach,
                palette=palette,
                system=system,
                edges=(column == 0, ends_row, i + columns >= len(currents)),
            )
        )
    styles = [line_style(palette=palette, index=k) for k in (0, 1)]
    for k, name in enumerate(("magnitude, left scale", "phase, right scale")):
        x = left + min(190.0, 0.45 * width) * k
        body.append(line(x, 39.0, x + 24.0, 39.0, **pen(styles[k].colour, "1.8", styles[k].dash)))
        body.append(text(x + 30.0, 39.0, name, fill=palette.ink))
    return document(
        kind="current-chart", title="Element currents, 1 A at the feed",
        description=summary_sentence(currents), width=width,
        height=top + rows * (high + below) - 2.0, palette=palette, body=body,
    )  # fmt: skip


def _phasor_frame(
    *, x: float, y: float, radius: float, top: float, palette: Palette
) -> tuple[list[str], list[Box]]:
    """Rings of equal current, spokes of equal phase, and the rectangles of their labels."""
    made, boxes = [], []
    ticks = [tick for tick in nice_ticks(low=0.0, high=top, count=4) if tick > 0.0]
    for tick in ticks:
        r = radius * tick / top
        made.append(tag("circle", cx=x, cy=y, r=r, fill="none", **pen(palette.grid, "0.6")))
    for angle in range(0, 360, 30):
        dx, dy = math.cos(math.radians(angle)), -math.sin(math.radians(angle))
        made.append(line(x, y, x + radius * dx, y + radius * dy, **pen(palette.grid, "0.4")))
        content = f"{signed(angle if angle <= 180 else angle - 360, decimals=0)}°"
        anchor = "middle" if abs(dx) < 0.2 else "start" if dx > 0.0 else "end"
        place = (x + (radius + 7.0) * dx, y + (radius + 11.0) * dy)
        made.append(text(*place, content, fill=palette.quiet, anchor=anchor))
        boxes.append(text_box(*place, content, size=10.0, anchor=anchor))
    for tick in ticks:
        place = (x + radius * tick / top * math.cos(math.radians(-75.0)),
                 y - radius * tick / top * math.sin(math.radians(-75.0)))  # fmt: skip
        content = f"{tick_text(tick, step=ticks[0])} A"
        box = text_box(*place, content, size=10.0, anchor="middle")
        made.append(tag("rect", x=box.left - 2.0, y=box.top, width=box.right - box.left + 4.0,
                        height=box.bottom - box.top, fill=palette.paper))  # fmt: skip
        made.append(text(*place, content, fill=palette.quiet, anchor="middle"))
        boxes.append(box)
    return made, boxes


def current_phasors(
    *, currents: Sequence[ElementCurrent], palette: Palette = LIGHT, width: float = 600.0
) -> str:
    """Draw the centre currents as phasors; phase runs counter-clockwise, the feed points right."""
    _check(currents)
    notes = 230.0
    radius = 0.5 * (width - notes - 84.0)
    x, y = 42.0 + radius, 44.0 + 18.0 + radius
    height = max(y + radius + 30.0, 56.0 + 20.0 * len(currents) + 16.0)
    centres = [item.middle for item in currents]
    top = nice_bounds(low=0.0, high=max(abs(c) for c in centres) or 1.0, count=4)[1]
    body, taken = _phasor_frame(x=x, y=y, radius=radius, top=top, palette=palette)
    area = Box(left=2.0, top=26.0, right=width - notes, bottom=height)
    for i, (item, value) in enumerate(zip(currents, centres, strict=True)):
        style = line_style(palette=palette, index=i)
        scale, angle = radius / top, cmath.phase(value)
        tip = (x + scale * value.real, y - scale * value.imag)
        arrow = [
            line(x, y, *tip, **pen(style.colour, "1.6", style.dash)),
            arrow_head(*tip, angle=angle, fill=style.colour, size=9.0),
        ]
        tries = [
            (tip[0] + away * math.cos(angle + turn), tip[1] - away * math.sin(angle + turn),
             "middle")
            for away in (11.0, 18.0, 26.0)
            for turn in (0.0, 0.6, -0.6, 1.2, -1.2, 1.8, -1.8)
        ]  # fmt: skip
        # Bold figures need a little more room than their widths say.
        found = first_free(tries, str(i + 1), size=11.0, taken=taken, area=area)
        if found:
            arrow.append(text(found[0], found[1], str(i + 1), fill=style.colour,
                              anchor="middle", bold=True))  # fmt: skip
            taken.append(found[3])
        degrees = math.degrees(angle)
        body.append(
            tag(
                "g",
                "".join(arrow),
                data_label=item.label,
                data_magnitude=number(abs(value), decimals=6),
                data_phase=number(degrees, decimals=4),
            )
        )
        row = 56.0 + 20.0 * i
        left = width - notes + 14.0
        body += [
            text(left + 14.0, row, str(i + 1), fill=style.colour, bold=True,
                 anchor="end"),
            text(left + 22.0, row, shortened(item.label, size=10.0, room=82.0), fill=palette.ink),
            text(left + 150.0, row, f"{abs(value):.3f} A", fill=palette.quiet,
                 anchor="end"),
            text(left + 200.0, row, f"{signed(degrees, decimals=1)}°", fill=palette.quiet,
                 anchor="end"),
        ]  # fmt: skip
    return document(
        kind="current-phasors", title="Currents at the boom, 1 A at the feed",
        description=summary_sentence(currents), width=width,
        height=height, palette=palette, body=body,
        data={"centre-x": number(x), "centre-y": number(y),
              "scale": number(radius / top, decimals=6)},
    )  # fmt: skip
