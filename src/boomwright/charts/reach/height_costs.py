"""Gain at wanted angles against height, and below it what each height costs."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import UnitSystem
from boomwright.base.array_types import Floats
from boomwright.charts.axes import Panel, curve, error_strip, panel, panel_frame
from boomwright.charts.canvas import document, line, number, pen, tag
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.heights import gain_curves, height_axis
from boomwright.charts.scale import nice_bounds
from boomwright.reach import HeightScan

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_GAP, _COST_TALL = 34.0, 110.0


def height_cost_chart(
    *,
    scan: HeightScan,
    wanted_deg: Sequence[float],
    heights: Floats,
    likely: Floats,
    low: Floats,
    high: Floats,
    currency: str,
    description: str,
    title: str = "What more height gains, and what it costs",
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 420.0,
) -> str:
    """Draw gains at wanted angles over height, and the estimate with its band below.

    Args:
        wanted_deg: elevations [deg] (n,)
        heights: heights that are priced [m] (m,)
        likely, low, high: estimate at each with its band [currency] (m,)

    Returns:
        SVG text; both panels share the heights that are priced
    """
    per_metre, x_label = height_axis(system)
    inside = (scan.heights >= heights[0] - 1e-9) & (scan.heights <= heights[-1] + 1e-9)
    gains = [scan.gain_at(elevation_deg=angle)[inside] for angle in wanted_deg]
    x_range = (float(heights[0]) * per_metre, float(heights[-1]) * per_metre)
    top = max(float(g.max()) for g in gains)
    deepest = max(min(float(g.min()) for g in gains), top - 30.0)
    middle = height - 42.0 - _COST_TALL - _GAP
    upper = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=middle, x_range=x_range,
        y_range=nice_bounds(low=deepest, high=top + 1.0), x_label="", y_label="gain, dBi",
        x_count=9,
    )  # fmt: skip
    lower = panel(
        left=_LEFT, top=middle + _GAP, right=width - _RIGHT, bottom=height - 42.0,
        x_range=x_range,
        y_range=nice_bounds(low=float(low.min()), high=float(high.max())),
        x_label=x_label, y_label=f"estimate, {currency}", x_count=9,
        y_count=4,
    )  # fmt: skip
    x_name = "height" if system == "metric" else "feet"
    above = panel_frame(upper, palette=palette)
    above += gain_curves(upper, scan=scan, inside=inside, wanted_deg=wanted_deg, system=system,
                         palette=palette)  # fmt: skip
    below = _cost_panel(
        lower, heights=heights * per_metre, likely=likely, low=low, high=high, currency=currency,
        style=line_style(palette=palette, index=len(wanted_deg)), x_name=x_name, palette=palette,
        own=scan.beam.height * per_metre,
    )  # fmt: skip
    shared = {"data_x_unit": number(1.0 / per_metre, decimals=4)}
    return document(
        kind="height-costs", title=title,
        description=description,
        width=width, height=height, palette=palette,
        body=[
            tag("g", "".join(above), data_panel=0, **shared, **upper.data()),
            tag("g", "".join(below), data_panel=1, **shared, **lower.data()),
        ],
    )  # fmt: skip


def _cost_panel(
    frame: Panel, /, *, heights: Floats, likely: Floats, low: Floats, high: Floats, currency: str,
    style: LineStyle, x_name: str, palette: Palette, own: float,
) -> list[str]:  # fmt: skip
    made = panel_frame(frame, palette=palette)
    made.append(
        error_strip(frame, x=heights, middle=0.5 * (low + high), half_width=0.5 * (high - low),
                    style=style)
    )  # fmt: skip
    made.append(
        curve(frame, x=heights, y=likely, label=f"estimate, {currency}", style=style,
              x_name=f"cost_{x_name}")
    )  # fmt: skip
    place = frame.x(own)
    made.append(line(place, frame.y.end, place, frame.y.start, **pen(palette.accent, "1.2")))
    return made
