"""Drag area of a whole beam against the direction of the wind, by two rules."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.canvas import (
    arrow_head,
    document,
    line,
    marker,
    number,
    number_list,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import wrapped
from boomwright.charts.legends import legend_rows
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_bounds, nice_ticks, tick_text

if TYPE_CHECKING:
    from boomwright.base import UnitSystem
    from boomwright.structure import AreaConventions, BeamReport

_TOP = 64.0
_CURRENT, _OLDER, _ICED = "square to the wind", "older sum rule", "with ice"


def _xy(
    angles_deg: ArrayLike, radii: ArrayLike, *, x: float, y: float
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    angles = np.radians(np.asarray(angles_deg, dtype=float))
    reach = np.asarray(radii, dtype=float)
    return x + reach * np.cos(angles), y - reach * np.sin(angles)


def _rings(*, x: float, y: float, radius: float, most: float, palette: Palette) -> list[str]:
    made = []
    ticks = [value for value in nice_ticks(low=0.0, high=most, count=4) if value > 0.0]
    step = ticks[1] - ticks[0] if len(ticks) > 1 else most
    made += [
        tag("circle", cx=x, cy=y, r=radius * value / most, fill="none", **pen(palette.grid, "0.5"))
        for value in ticks
    ]
    for angle in range(0, 360, 30):
        ends = _xy([angle, angle], [0.0, radius], x=x, y=y)
        made.append(line(float(ends[0][0]), float(ends[1][0]), float(ends[0][1]),
                         float(ends[1][1]), **pen(palette.grid, "0.4")))  # fmt: skip
        place = _xy([angle], [radius + 14.0], x=x, y=y)
        if angle:
            made.append(text(float(place[0][0]), float(place[1][0]), f"{angle}°",
                             fill=palette.quiet, anchor="middle"))  # fmt: skip
    for value in ticks:
        spot = _xy([75.0], [radius * value / most], x=x, y=y)
        made.append(halo_text(float(spot[0][0]), float(spot[1][0]), tick_text(value, step=step),
                              fill=palette.quiet, palette=palette,
                              anchor="middle"))  # fmt: skip
    return made


def _course(
    angles: NDArray[np.float64],
    areas: NDArray[np.float64],
    *,
    label: str,
    style: LineStyle,
    scale: float,
    x: float,
    y: float,
) -> str:
    places = _xy(angles, areas * scale, x=x, y=y)
    drawn = tag("path", d=path_data(*places, closed=True), fill="none",
                **pen(style.colour, "1.8", style.dash))  # fmt: skip
    return tag("g", drawn, data_series=label, data_angle=number_list(angles),
               data_value=number_list(areas))  # fmt: skip


def wind_sentences(beam: BeamReport, *, system: UnitSystem = "metric") -> tuple[str, ...]:
    """Say the worst areas in all three conventions, by both rules.

    Returns:
        one sentence for each rule, and for ice when there is some
    """
    wind = beam.wind
    said = [
        _worst(_CURRENT, wind.worst, wind.worst_angle_deg, system),
        _worst(_OLDER, wind.older_worst, wind.older_worst_angle_deg, system),
    ]
    if beam.iced_wind is not None:
        said.append(_worst(_ICED, beam.iced_wind.worst, beam.iced_wind.worst_angle_deg, system))
    return tuple(said)


def _worst(label: str, areas: AreaConventions, angle_deg: float, system: UnitSystem) -> str:
    said = {
        name: write(Quantity(getattr(areas, name), "wind area"), system=system)
        for name in ("projected", "drag", "flat")
    }
    return (
        f"{label}: worst at {angle_deg:.0f}°, projected {said['projected']}, "
        f"drag {said['drag']}, flat plate {said['flat']}"
    )


def wind_polar(
    *,
    beam: BeamReport,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 520.0,
) -> str:
    """Draw the drag area against the direction of the wind, 0° along the boom.

    Returns:
        SVG text; the radius is straight in square metres or square feet
    """
    wind, unit_name = beam.wind, unit_of("wind area", system=system)
    unit = 1.0 / factor_of("wind area", system=system)
    sets = [(_CURRENT, wind.drag_area / unit), (_OLDER, wind.older_drag_area / unit)]
    if beam.iced_wind is not None:
        sets.append((_ICED, beam.iced_wind.drag_area / unit))
    most = nice_bounds(low=0.0, high=max(float(v.max()) for _, v in sets) or 1.0, count=4)[1]
    radius = min(0.5 * width - 62.0, 190.0)
    x, y = 0.5 * width, _TOP + radius + 28.0
    body = _rings(x=x, y=y, radius=radius, most=most, palette=palette)
    entries = []
    for i, (label, areas) in enumerate(sets):
        style = line_style(palette=palette, index=i)
        entries.append((label, style))
        body.append(_course(wind.angles_deg, areas, label=label, style=style,
                            scale=radius / most, x=x, y=y))  # fmt: skip
    worst = _xy([wind.worst_angle_deg], [wind.worst.drag / unit * radius / most], x=x, y=y)
    body.append(marker("diamond", float(worst[0][0]), float(worst[1][0]), fill=palette.accent,
                       size=4.5))  # fmt: skip
    body += [
        line(x + radius + 4.0, y, x + radius + 18.0, y, **pen(palette.accent, "1.4")),
        arrow_head(x + radius + 24.0, y, angle=0.0, fill=palette.accent),
        text(x + radius + 27.0, y - 12.0, "boom", fill=palette.ink, anchor="middle"),
    ]
    foot = y + radius + 36.0
    said = wind_sentences(beam, system=system)
    rows = [row for each in said for row in wrapped(each, size=10.0, room=width - 28.0)]
    body += [text(14.0, foot + 15.0 * i, row, fill=palette.ink) for i, row in enumerate(rows)]
    named, lower = legend_rows(entries=entries, x=14.0, y=36.0, room=width - 28.0,
                               palette=palette, markers=False)  # fmt: skip
    told = f"drag area, {unit_name}; angle of the wind from the boom"
    body += [*named, text(14.0, 52.0 + lower, told, fill=palette.quiet)]
    return document(
        kind="wind-polar",
        title=f"{beam.name}: wind area from every side",
        description=". ".join(said) + ".",
        width=width,
        height=foot + 15.0 * len(rows),
        palette=palette,
        body=body,
        data={
            "centre-x": number(x),
            "centre-y": number(y),
            "radius": number(radius),
            "value-at-ring": number(most, decimals=6),
            "unit": unit_name,
            "where": "wind from the boom",
        },
    )
