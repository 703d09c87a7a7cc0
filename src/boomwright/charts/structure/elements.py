"""One element half: stress along the tube, bare and iced, and the shape it droops to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, marker, pen, tag, text
from boomwright.charts.labels import text_width
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds

if TYPE_CHECKING:
    from boomwright.structure import ElementReport

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0


def _long(system: UnitSystem) -> tuple[float, str]:
    return 1.0 / factor_of("height", system=system), unit_of("height", system=system)


def _speed(speed: float, system: UnitSystem, *, unit: bool = True) -> str:
    return write(Quantity(speed, "yield speed"), system=system, unit=unit)


def _joints(frame: Panel, element: ElementReport, palette: Palette, *, unit: float) -> list[str]:
    return [
        line(frame.x(s.from_boom / unit), frame.y.end, frame.x(s.from_boom / unit), frame.y.start,
             **pen(palette.grid, "0.6", "2 2"), data_part="step")
        for s in element.strength.sections[1:]
    ]  # fmt: skip


def _limit_line(frame: Panel, /, *, value: float, palette: Palette) -> str:
    y = frame.y(value)
    return line(frame.x.start, y, frame.x.end, y, **pen(palette.accent, "1.4", "8 3"),
                data_part="limit")  # fmt: skip


def _speeds(
    frame: Panel, /, *, element: ElementReport, unit: float, iced: bool, system: UnitSystem,
    palette: Palette,
) -> Iterator[str]:  # fmt: skip
    """Yield speeds of each section, under the axis, as far as there is room."""
    sections = element.strength.sections
    ends = [*(s.from_boom for s in sections[1:]), float(element.course.place[-1])]
    heading = "yields at, bare" + (" / iced" if iced else "")
    yield halo_text(
        frame.x.start, frame.y.start + 44.0, heading, palette=palette, fill=palette.quiet
    )
    weak = element.strength.worst_bare.index
    for s, end in zip(sections, ends, strict=True):
        content = _speed(s.yield_speed_bare, system, unit=not iced)
        if iced:
            content += f" / {_speed(s.yield_speed_iced, system)}"
        left, right = frame.x(s.from_boom / unit), frame.x(end / unit)
        if text_width(content, size=10.0) > right - left:
            continue
        colour = palette.accent if s.index == weak else palette.ink
        yield halo_text(0.5 * (left + right), frame.y.start + 57.0, content, palette=palette,
                        fill=colour, anchor="middle")  # fmt: skip


def _stress(stress: float, system: UnitSystem) -> str:
    return write(Quantity(stress, "tube stress"), system=system)


def _sentence(element: ElementReport, *, iced: bool, system: UnitSystem) -> str:
    strength = element.strength
    weak = strength.worst_bare
    said = (
        f"{element.label}: highest stress {_stress(weak.bare_stress, system)} bare in "
        f"section {weak.index + 1}, which yields at {_speed(weak.yield_speed_bare, system)}"
    )
    if iced:
        heavy = strength.worst_iced
        said += (
            f"; with ice {_stress(heavy.iced_stress, system)} in section "
            f"{heavy.index + 1}, which yields at {_speed(heavy.yield_speed_iced, system)}"
        )
    if element.limit is not None:
        said += f"; limit {_stress(element.limit, system)}"
    return said + "."


def element_stress_chart(
    *,
    element: ElementReport,
    iced: bool,
    windy: bool = True,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 340.0,
) -> str:
    """Draw the stress along one element half, with the limit and each section's yield speed.

    Args:
        iced: whether the site has ice, so that the iced curve means something
        windy: whether the site's wind is known; otherwise the stress is that of the weight alone
    """
    unit, name = _long(system)
    force = 1.0 / factor_of("tube stress", system=system)
    force_name = unit_of("tube stress", system=system)
    course, limit = element.course, element.limit
    series = [("in wind, bare" if windy else "own weight, no wind given", course.bare_stress)]
    if iced:
        words = "with ice and its wind" if windy else "with ice, no wind given"
        series.append((words, course.iced_stress))
    highest = max(float(values.max()) for _, values in series)
    highest = max(highest, limit or 0.0, 1e3) / force
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 76.0,
        x_range=(0.0, float(course.place[-1]) / unit),
        y_range=(0.0, nice_bounds(low=0.0, high=1.08 * highest, count=5)[1]),
        x_label=f"distance from the boom, {name}", y_label=f"stress, {force_name}",
    )  # fmt: skip
    styles = [line_style(palette=palette, index=i) for i in range(len(series))]
    items = panel_frame(frame, palette=palette)
    items += _joints(frame, element, palette, unit=unit)
    if limit is not None:
        items.append(_limit_line(frame, value=limit / force, palette=palette))
    for (label, values), style in zip(series, styles, strict=True):
        items.append(curve(frame, x=course.place / unit, y=values / force, label=label,
                           style=style, markers=False))  # fmt: skip
    if limit is not None:
        items.append(
            halo_text(frame.x.end - 4.0, frame.y(limit / force) - 8.0,
                   f"limit {_stress(limit, system)}", palette=palette,
                   fill=palette.accent, anchor="end")
        )  # fmt: skip
    items += _weak_mark(frame, element=element, unit=unit, force=force, palette=palette)
    items += _speeds(frame, element=element, unit=unit, iced=iced, system=system, palette=palette)
    return _finished(
        kind="element-stress", title=f"{element.label}: stress along one half",
        description=_sentence(element, iced=iced, system=system), frame=frame, items=items,
        entries=[(label, style) for (label, _), style in zip(series, styles, strict=True)],
        palette=palette, width=width, height=height,
    )  # fmt: skip


def _weak_mark(
    frame: Panel, /, *, element: ElementReport, unit: float, force: float, palette: Palette
) -> list[str]:
    weak = element.strength.worst_bare
    x, y = frame.x(weak.from_boom / unit), frame.y(weak.bare_stress / force)
    return [
        marker("diamond", x, y, fill=palette.accent, size=4.5),
        halo_text(x + 8.0, y - 10.0, f"weakest: section {weak.index + 1}", palette=palette,
               fill=palette.accent),
    ]  # fmt: skip


def _finished(
    *, kind: str, title: str, description: str, frame: Panel, items: Sequence[str],
    entries: Sequence[tuple[str, LineStyle]], palette: Palette, width: float, height: float,
) -> str:  # fmt: skip
    named, _ = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0, palette=palette,
                           markers=False)  # fmt: skip
    body = [*named, tag("g", "".join(items), data_panel=0, **frame.data())]
    return document(kind=kind, title=title, description=description, width=width, height=height,
                    palette=palette, body=body)  # fmt: skip


def _tip_words(
    frame: Panel, words: str, /, *, place: NDArray[np.float64], drop: NDArray[np.float64],
    below: bool, colour: str, palette: Palette,
) -> str:  # fmt: skip
    """Name the droop of a tip: below the end of its curve, or above the curve over the words."""
    wide = text_width(words, size=10.0) + 8.0
    before = 1.0 - wide / (frame.x.end - frame.x.start)
    over = float(np.interp(before * place[-1], place, drop))
    end = frame.y(-float(drop[-1])) + 11.0
    # Not among the figures below the panel.
    y = end if below and end < frame.y.start - 6.0 else frame.y(-over) - 8.0
    return halo_text(frame.x.end - 4.0, y, words, palette=palette, fill=colour, anchor="end")


def droop_chart(
    *,
    element: ElementReport,
    iced: bool,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 270.0,
) -> str:
    """Draw the shape one element half droops to in still air.

    Returns:
        SVG text; the droop has a scale of its own, larger than that along the tube
    """
    unit, name = _long(system)
    small = 1.0 / factor_of("sag", system=system)
    small_name = unit_of("sag", system=system)
    course = element.course
    series = [("bare", course.dead_droop)] + ([("iced", course.iced_droop)] if iced else [])
    deepest = max(float(values.max()) for _, values in series) / small
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 46.0,
        x_range=(0.0, float(course.place[-1]) / unit),
        y_range=(-nice_bounds(low=0.0, high=max(deepest, 1.0), count=4)[1], 0.0),
        x_label=f"distance from the boom, {name}", y_label=f"below the boom, {small_name}",
        y_count=4,
    )  # fmt: skip
    styles = [line_style(palette=palette, index=i) for i in range(len(series))]
    items = panel_frame(frame, palette=palette)
    items += _joints(frame, element, palette, unit=unit)
    ends = []
    deep = max(range(len(series)), key=lambda number: float(series[number][1][-1]))
    for index, ((label, values), style) in enumerate(zip(series, styles, strict=True)):
        items.append(curve(frame, x=course.place / unit, y=-values / small, label=label,
                           style=style, markers=False))  # fmt: skip
        tip = write(Quantity(float(values[-1]), "sag"), system=system)
        ends.append(f"{label} {tip}")
        items.append(
            _tip_words(frame, f"tip {tip}", place=course.place,
                       drop=values / small, below=index == deep, colour=style.colour,
                       palette=palette)
        )  # fmt: skip
    across = (frame.y.start - frame.y.end) / (frame.y.high - frame.y.low) / small
    along = (frame.x.end - frame.x.start) / (frame.x.high - frame.x.low) / unit
    steeper = f"droop drawn {across / along:.1f} times as steep"
    items.append(text(frame.x.end, 40.0, steeper, fill=palette.quiet, anchor="end"))
    return _finished(
        kind="element-droop", title=f"{element.label}: droop in still air",
        description=f"{element.label} droops at the tip: {', '.join(ends)}.", frame=frame,
        items=items,
        entries=[(label, style) for (label, _), style in zip(series, styles, strict=True)],
        palette=palette, width=width, height=height,
    )  # fmt: skip
