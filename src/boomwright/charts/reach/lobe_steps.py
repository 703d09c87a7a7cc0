"""The lobes as the beam goes up, for paper: the elevation pattern at some heights side by side."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, UnitSystem
from boomwright.base.quantity import Quantity, factor_of, write
from boomwright.charts.canvas import document, line, number, number_list, path_data, pen, tag, text
from boomwright.charts.palette import LIGHT, Palette
from boomwright.reach import HeightScan

#: heights shown when nothing else is asked [wavelengths]
_WAVELENGTHS = (0.25, 0.5, 0.75, 1.0, 1.5, 2.0)
#: gain below the strongest of all heights that lies in the middle [dB]
_RANGE_DB = 30.0
_TOP, _BELOW, _GAP = 40.0, 46.0, 22.0


def _rows_of(scan: HeightScan) -> list[int]:
    """Numbers of the heights nearest to the usual ones, the plan's own among them."""
    wavelength = SPEED_OF_LIGHT / scan.beam.design_frequency
    wanted = [each * wavelength for each in _WAVELENGTHS]
    nearest = int(np.argmin([abs(each - scan.beam.height) for each in wanted]))
    wanted[nearest] = scan.beam.height
    return sorted({int(np.argmin(np.abs(scan.heights - each))) for each in wanted})


def lobe_steps(
    *,
    scan: HeightScan,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
) -> str:
    """Draw the elevation pattern towards the heading at some heights, all to one scale.

    Returns:
        SVG text; its root holds heights, elevations and gains
    """
    rows = _rows_of(scan)
    columns = 3 if width > 450.0 else 2
    pitch = (width - 28.0 - 16.0) / columns
    radius = pitch - _GAP
    tall = radius + _BELOW
    top = float(scan.gain_dbi[rows].max())
    wavelength = SPEED_OF_LIGHT / scan.beam.design_frequency
    body, corners = list[str](), []
    for place, row in enumerate(rows):
        x = 28.0 + pitch * (place % columns)
        y = _TOP + radius + 8.0 + tall * (place // columns)
        height = float(scan.heights[row])
        own = abs(height - scan.beam.height) <= 0.51 * float(np.diff(scan.heights).max(initial=0.0))
        body += _panel(x, y, radius, palette)
        body.append(_pattern(scan, row, x=x, y=y, radius=radius, top=top, palette=palette))
        body.append(
            text(
                x + 0.5 * radius, y + 17.0,
                f"{write(Quantity(height, 'height'), system=system)}, "
                f"{height / wavelength:.2f} wl"
                + (" (near the plan's)" if own else ""),
                fill=palette.accent if own else palette.ink, anchor="middle",
            )
        )  # fmt: skip
        corners.append((x, y))
    high = _TOP + tall * math.ceil(len(rows) / columns) + 4.0
    strongest = [int(np.argmax(scan.gain_dbi[row])) for row in rows]
    said = "; ".join(
        f"from {write(Quantity(float(scan.heights[row]), 'height'), system=system)} "
        f"{write(Quantity(float(scan.gain_dbi[row][best]), 'gain over ground'), system=system)} "
        f"at {scan.elevation_deg[best]:.0f}°, {len(scan.lobes[row])} lobes"
        for row, best in zip(rows, strongest, strict=True)
    )
    body.append(
        text(
            width - 16.0, 24.0 + 14.0, f"rim {top:.1f} dBi, rings 3, 10, 20 dB below",
            fill=palette.quiet, anchor="end",
        )
    )  # fmt: skip
    return document(
        kind="lobe-steps", title="The lobes as the beam goes up",
        description=f"Strongest {said}.", width=width,
        height=high, palette=palette, body=["".join(body)],
        data={
            "step-heights": number_list(scan.heights[rows], decimals=3),
            "elevations": number_list(scan.elevation_deg, decimals=2),
            "gains": "["
            + ",".join(number_list(scan.gain_dbi[row], decimals=1) for row in rows)
            + "]",
            "corners": "[" + ",".join(number_list(each, decimals=1) for each in corners) + "]",
            "radius": number(radius),
            "range": number(_RANGE_DB),
            "top-dbi": number(top),
            "x-unit": number(1.0 / factor_of("height", system=system), decimals=4),
        },
    )  # fmt: skip


def _panel(x: float, y: float, radius: float, palette: Palette) -> Iterator[str]:
    for below in (0.0, 3.0, 10.0, 20.0):
        r = radius * (1.0 - below / _RANGE_DB)
        yield tag(
                "path", d=f"M{x + r:.2f},{y:.2f}A{r:.2f},{r:.2f} 0 0 0 {x:.2f},{y - r:.2f}",
                fill="none", **pen(palette.grid, "0.9" if below == 0.0 else "0.5"),
            )  # fmt: skip
    for angle in (30, 60):
        cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        yield line(x, y, x + radius * cos, y - radius * sin, **pen(palette.grid, "0.4"))
        yield text(
                x + (radius + 9.0) * cos, y - (radius + 7.0) * sin, f"{angle}°",
                fill=palette.quiet, anchor="middle",
            )  # fmt: skip
    yield line(x, y, x + radius, y, **pen(palette.ink, "1"))
    yield line(x, y, x, y - radius, **pen(palette.grid, "0.5"))


def _pattern(
    scan: HeightScan, row: int, *, x: float, y: float, radius: float, top: float, palette: Palette
) -> str:
    below = np.clip(top - scan.gain_dbi[row], 0.0, _RANGE_DB)
    r = radius * (1.0 - below / _RANGE_DB)
    angle = np.radians(scan.elevation_deg)
    return tag(
        "path",
        d=path_data(
            np.concatenate(([x], x + r * np.cos(angle))),
            np.concatenate(([y], y - r * np.sin(angle))),
            closed=True,
        ),
        fill=palette.series[0], fill_opacity="0.18", **pen(palette.series[0], "1.4"),
        stroke_linejoin="round",
    )  # fmt: skip
