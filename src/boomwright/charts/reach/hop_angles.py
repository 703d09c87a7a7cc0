"""Elevations that reach the wanted places, below the gain the antennas have there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import ArrayLike

from boomwright.base.records import dataclass
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, number, pen, tag, text
from boomwright.charts.labels import shortened
from boomwright.charts.legends import LEGEND_ROW, legend_lines
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.scale import nice_bounds

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_CURVES, _ROW = 190.0, 17.0
#: elevations drawn at least and at most [deg]
_LEAST_DEG, _MOST_DEG = 30.0, 90.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HopBar:
    """Elevations at which one number of hops reaches a place."""

    label: str  #: place, layer and number of hops
    low_deg: float  #: lowest and highest elevation over the heights of the layer [deg]
    high_deg: float  #: lowest and highest elevation over the heights of the layer [deg]


def hop_angles(
    *,
    elevation_deg: ArrayLike,
    curves: Sequence[tuple[str, ArrayLike]],
    bars: Sequence[HopBar],
    palette: Palette = LIGHT,
    width: float = 600.0,
) -> str:
    """Draw gains over elevation, and below them a bar for every way to reach a place.

    Args:
        elevation_deg: elevations, rising [deg] (n,)
        curves: name and gain of each antenna [dBi] (n_curves,)

    Returns:
        SVG text; each bar carries its ends as data
    """
    angle = np.asarray(elevation_deg, dtype=float)
    furthest = min(_MOST_DEG, max([_LEAST_DEG, *(1.15 * bar.high_deg for bar in bars)]))
    inside = angle <= furthest + 1e-9
    values = [(name, np.asarray(y, dtype=float)[inside]) for name, y in curves]
    high = max(float(y.max()) for _, y in values)
    styles = [line_style(palette=palette, index=i) for i in range(len(values))]
    key, rows = legend_lines(
        list(zip([name for name, _ in values], styles, strict=True)),
        x=_LEFT, y=38.0, room=width - _LEFT - 8.0, palette=palette,
    )  # fmt: skip
    top = _TOP + LEGEND_ROW * (rows - 1)
    middle = top + _CURVES
    bottom = middle + 16.0 + _ROW * len(bars)
    frame = panel(
        left=_LEFT, top=top, right=width - _RIGHT, bottom=middle, x_range=(0.0, furthest),
        y_range=nice_bounds(low=high - 30.0, high=high), x_label="", y_label="gain, dBi",
        x_count=9,
    )  # fmt: skip
    body = panel_frame(frame, palette=palette)
    for (name, y), style in reversed(list(zip(values, styles, strict=True))):
        body.append(curve(frame, x=angle[inside], y=y, label=name, style=style, x_name="elevation"))
    made = list(_bars(frame, bars=bars, top=middle + 24.0, furthest=furthest, palette=palette))
    key.append(
        text(
            0.5 * (frame.x.start + frame.x.end), bottom + 24.0,
            "elevation above the horizon, degrees", fill=palette.ink, anchor="middle",
        )
    )  # fmt: skip
    said = "; ".join(f"{b.label} {b.low_deg:.1f} to {b.high_deg:.1f} degrees" for b in bars)
    return document(
        kind="hop-angles", title="Elevations that reach the wanted places",
        description=f"Elevations by mirror geometry: {said}.",
        width=width, height=bottom + 38.0, palette=palette,
        body=[*key, tag("g", "".join(body), data_panel=0, **frame.data()), *made],
    )  # fmt: skip


def _bars(
    frame: Panel, /, *, bars: Sequence[HopBar], top: float, furthest: float, palette: Palette
) -> Iterator[str]:
    for row, bar in enumerate(bars):
        y = top + _ROW * (row + 0.5)
        left, right = frame.x(bar.low_deg), frame.x(min(bar.high_deg, furthest))
        yield line(left, frame.y.end, left, y, **pen(palette.grid, "0.4", "1 3"))
        yield tag(
                "rect", x=left, y=y - 4.5, width=max(right - left, 2.5), height=9.0,
                fill=palette.accent, fill_opacity="0.75", data_hop=bar.label,
                data_low=number(bar.low_deg, decimals=3),
                data_high=number(bar.high_deg, decimals=3),
            )  # fmt: skip
        after = frame.x.end - right
        beyond = after > right - frame.x.start and after > 60.0
        room = (after if beyond else left - frame.x.start) - 10.0
        yield text(
                right + 6.0 if beyond else left - 6.0, y,
                shortened(bar.label, size=10.0, room=max(room, 40.0)),
                fill=palette.ink, anchor="start" if beyond else "end",
            )  # fmt: skip
