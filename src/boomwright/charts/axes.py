"""A rectangular panel with labelled axes, and the curves and strips that stand in it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.records import dataclass
from boomwright.charts.canvas import line, marker, number, number_list, path_data, pen, tag, text
from boomwright.charts.palette import LineStyle, Palette
from boomwright.charts.scale import LinearScale, nice_ticks, tick_text

_TICK_SIZE, _LABEL_SIZE = 10.0, 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """Two straight scales and what they are called."""

    x: LinearScale  #: scale along the bottom
    y: LinearScale  #: scale up the side
    x_label: str  #: quantity and unit along the bottom, empty to leave the axis unnamed
    y_label: str  #: quantity and unit up the side
    x_ticks: tuple[float, ...]  #: marked values [unit of x] (n,)
    y_ticks: tuple[float, ...]  #: marked values [unit of y] (n,)

    def data(self) -> dict[str, str]:
        """Give the mapping from values to places, for a page that reads the curves."""
        return {
            "data_x_low": number(self.x.low, decimals=6),
            "data_x_high": number(self.x.high, decimals=6),
            "data_x_start": number(self.x.start),
            "data_x_end": number(self.x.end),
            "data_y_low": number(self.y.low, decimals=6),
            "data_y_high": number(self.y.high, decimals=6),
            "data_y_start": number(self.y.start),
            "data_y_end": number(self.y.end),
        }


def panel(
    *,
    left: float,
    top: float,
    right: float,
    bottom: float,
    x_range: tuple[float, float],
    y_range: tuple[float, float],
    x_label: str,
    y_label: str,
    x_count: int = 6,
    y_count: int = 5,
    x_ticks: tuple[float, ...] = (),
    y_ticks: tuple[float, ...] = (),
) -> Panel:
    """Lay out a panel with round ticks.

    Args:
        x_range: values at its left and right edge [unit of x] (2,)
        y_range: values at its lower and upper edge [unit of y] (2,)
        x_ticks, y_ticks: marked values, round ones when empty [unit of x, unit of y] (n,)
    """
    return Panel(
        x=LinearScale(low=x_range[0], high=x_range[1], start=left, end=right),
        y=LinearScale(low=y_range[0], high=y_range[1], start=bottom, end=top),
        x_label=x_label,
        y_label=y_label,
        x_ticks=x_ticks or nice_ticks(low=x_range[0], high=x_range[1], count=x_count),
        y_ticks=y_ticks or nice_ticks(low=y_range[0], high=y_range[1], count=y_count),
    )


def _step(ticks: tuple[float, ...]) -> float:
    return ticks[1] - ticks[0] if len(ticks) > 1 else abs(ticks[0]) or 1.0


def panel_frame(frame: Panel, /, *, palette: Palette) -> list[str]:
    """Draw the scale lines, tick labels and names of a panel."""
    x, y = frame.x, frame.y
    made = []
    for value in frame.y_ticks:
        place = y(value)
        content = tick_text(value, step=_step(frame.y_ticks))
        made.append(line(x.start, place, x.end, place, **pen(palette.grid, "0.4")))
        made.append(
            text(x.start - 6.0, place, content, fill=palette.quiet, size=_TICK_SIZE, anchor="end")
        )
    for value in frame.x_ticks:
        place = x(value)
        content = tick_text(value, step=_step(frame.x_ticks))
        made.append(line(place, y.start, place, y.start + 4.0, **pen(palette.ink, "0.8")))
        made.append(
            text(
                place, y.start + 12.0, content, fill=palette.quiet, size=_TICK_SIZE, anchor="middle"
            )
        )
    made.append(
        tag(
            "path",
            d=path_data([x.start, x.start, x.end], [y.end, y.start, y.start]),
            fill="none",
            **pen(palette.ink, "1"),
        )
    )
    middle = 0.5 * (x.start + x.end)
    if frame.x_label:
        made.append(
            text(
                middle,
                y.start + 27.0,
                frame.x_label,
                fill=palette.ink,
                size=_LABEL_SIZE,
                anchor="middle",
            )
        )
    if frame.y_label:
        made.append(
            text(
                x.start - 38.0,
                0.5 * (y.start + y.end),
                frame.y_label,
                fill=palette.ink,
                size=_LABEL_SIZE,
                anchor="middle",
                upright=True,
            )
        )
    return made


def error_strip(
    frame: Panel, /, *, x: ArrayLike, middle: ArrayLike, half_width: ArrayLike, style: LineStyle
) -> str:
    """Shade the error band of a curve.

    Args:
        x: values along the bottom [unit of x] (n,)
        middle: the curve [unit of y] (n,)
        half_width: half width of its band [unit of y] (n,)
    """
    places = frame.x.places(x)
    value, half = np.asarray(middle, dtype=float), np.asarray(half_width, dtype=float)
    upper, lower = frame.y.places(value + half), frame.y.places(value - half)
    if len(places) == 1:
        return line(float(places[0]), float(lower[0]), float(places[0]), float(upper[0]),
                    **pen(style.colour, "5"), stroke_opacity="0.3")  # fmt: skip
    return tag(
        "path",
        d=path_data(
            np.concatenate((places, places[::-1])),
            np.concatenate((upper, lower[::-1])),
            closed=True,
        ),
        fill=style.colour,
        fill_opacity="0.22",
        data_part="error-band",
        data_half_width=number_list(half, decimals=6),
    )


def _marked(count: int) -> NDArray[np.int_]:
    return np.unique(np.round(np.linspace(0, count - 1, min(count, 7))).astype(int))


def curve(
    frame: Panel,
    /,
    *,
    x: ArrayLike,
    y: ArrayLike,
    label: str,
    style: LineStyle,
    x_data: Sequence[float] | NDArray[np.float64] | None = None,
    x_name: str = "x",
    markers: bool = True,
) -> str:
    """Draw a curve with its data for exact reading; values beyond the panel stay at its edge.

    Args:
        x: values along the bottom [unit of x] (n,)
        y: the curve [unit of y] (n,)
        x_data: values written as data instead of ``x``, e.g. in hertz [any unit] (n,)
        x_name: name of that data attribute after ``data-``
    """
    places_x, places_y = frame.x.places(x), frame.y.places(y)
    drawn = tag(
        "path",
        d=path_data(places_x, places_y),
        fill="none",
        **pen(style.colour, "1.8", style.dash),
        stroke_linejoin="round",
    )
    points = [
        marker(style.marker, float(places_x[i]), float(places_y[i]), fill=style.colour)
        for i in (_marked(len(places_x)) if markers else ())
    ]
    attributes = {
        "data_series": label,
        f"data_{x_name}": number_list(x if x_data is None else x_data),
        "data_value": number_list(y),
    }
    return tag("g", drawn + "".join(points), **attributes)
