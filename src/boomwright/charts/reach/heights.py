"""What the height gives: gain at wanted angles against height, and the height-angle map."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, factor_of, listed, phrase, unit_of, write
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.canvas import document, line, number, number_list, pen, tag
from boomwright.charts.labels import text_width
from boomwright.charts.legends import legend
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import classes_of, halo_text, shade, shade_key
from boomwright.charts.scale import nice_bounds
from boomwright.reach import HeightScan

Bools = NDArray[np.bool_]

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
#: classes of the map: so far below the strongest gain [dB]
_LEVELS = (-1.0, -3.0, -6.0, -10.0, -20.0)
_NAMES = ("−1 dB", "−3", "−6", "−10", "−20", "below")
_OPACITIES = (0.95, 0.7, 0.47, 0.28, 0.12, 0.0)
#: elevations drawn on the map [deg]
_MAP_STEP_DEG = 1.0


def height_axis(system: UnitSystem) -> tuple[float, str]:
    """Give what heights are drawn in.

    Returns:
        printed height of one metre, and the words of its axis [m or ft]
    """
    unit = unit_of("height", system=system)
    return factor_of("height", system=system), f"boom above ground, {unit}"


def own_height_mark(frame: Panel, /, *, scan: HeightScan, system: UnitSystem, palette: Palette
) -> str:  # fmt: skip
    """Mark the height of the plan; empty when it lies outside."""
    place = frame.x(scan.beam.height * factor_of("height", system=system))
    own = write(Quantity(scan.beam.height, "height"), system=system)
    if not frame.x.start <= place <= frame.x.end:
        return ""
    right = place < 0.8 * frame.x.end
    return line(
        place, frame.y.end, place, frame.y.start, **pen(palette.accent, "1.2"),
        data_part="own-height",
    ) + halo_text(
        place + (5.0 if right else -5.0), frame.y.end + 9.0, f"plan: {own}",
        fill=palette.accent, palette=palette, anchor="start" if right else "end",
    )  # fmt: skip


def _split_marks(
    frame: Panel, /, *, scan: HeightScan, per_metre: float, palette: Palette
) -> list[str]:
    made = []
    for split in scan.splits:
        place = frame.x(split.height * per_metre)
        made += [
            line(
                place, frame.y.end, place, frame.y.start, **pen(palette.quiet, "0.9", "3 3"),
                data_part="split",
                data_height=number(split.height), data_lobes=split.lobes,
            ),
            halo_text(
                place, frame.y.start - 9.0, f"{split.lobes} lobes", fill=palette.quiet,
                palette=palette, anchor="middle",
            ),
        ]  # fmt: skip
    return made


def gain_curves(
    frame: Panel, /, *, scan: HeightScan, inside: Bools, wanted_deg: Sequence[float],
    system: UnitSystem, palette: Palette,
) -> list[str]:  # fmt: skip
    """Draw the gain at each wanted elevation over the heights inside, with its key.

    Args:
        inside: which heights of the scan are drawn (h,)
        wanted_deg: elevations [deg] (n,)
    """
    bare = [write(Quantity(angle, "wanted angle"), system=system) for angle in wanted_deg]
    names = [f"at {name}" for name in bare]
    styles = [line_style(palette=palette, index=i) for i in range(len(names))]
    heights = scan.heights[inside] * factor_of("height", system=system)
    body = [
        curve(
            frame, x=heights, y=scan.gain_at(elevation_deg=angle)[inside], label=label,
            style=style, x_name="height" if system == "metric" else "feet",
        )
        for label, style, angle in reversed(list(zip(names, styles, wanted_deg, strict=True)))
    ]  # fmt: skip
    body.append(own_height_mark(frame, scan=scan, system=system, palette=palette))
    room = frame.x.end - frame.x.start
    if sum(text_width(each, size=10.0) + 48.0 for each in names) > room:
        names = bare
    half = len(names) if len(names) < 5 else (len(names) + 1) // 2
    for below, row in enumerate((slice(None, half), slice(half, None))):
        body += legend(
            entries=list(zip(names[row], styles[row], strict=True)), x=_LEFT,
            y=38.0 + 15.0 * below, palette=palette,
            widths=[text_width(each, size=10.0) for each in names[row]],
        )  # fmt: skip
    return body


def height_chart(
    *,
    scan: HeightScan,
    wanted_deg: Sequence[float],
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 340.0,
) -> str:
    """Draw the gain towards the heading at some elevations against the height of the boom.

    Args:
        wanted_deg: elevations [deg] (n,)

    Returns:
        SVG text; gains 30 dB below the strongest are drawn at the lower edge
    """
    per_metre, x_label = height_axis(system)
    heights = scan.heights * per_metre
    gains = [scan.gain_at(elevation_deg=angle) for angle in wanted_deg]
    top = max(float(g.max()) for g in gains)
    low = max(min(float(g.min()) for g in gains), top - 30.0)
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 42.0,
        x_range=(0.0, float(heights[-1])), y_range=nice_bounds(low=low, high=top + 1.0),
        x_label=x_label, y_label="gain, dBi", x_count=9,
    )  # fmt: skip
    body = panel_frame(frame, palette=palette)
    body += _split_marks(frame, scan=scan, per_metre=per_metre, palette=palette)
    body += gain_curves(frame, scan=scan, inside=np.full(len(heights), True),
                        wanted_deg=wanted_deg, system=system, palette=palette)  # fmt: skip
    return document(
        kind="height-chart", title="Gain at wanted angles against height",
        description=height_sentence(scan, wanted_deg, system=system),
        width=width, height=height, palette=palette,
        body=[tag("g", "".join(body), data_panel=0, data_x_unit=number(1.0 / per_metre, decimals=4),
                  **frame.data())],
    )  # fmt: skip


def height_sentence(
    scan: HeightScan, wanted_deg: Sequence[float], *, system: UnitSystem = "metric"
) -> str:
    """Say what the height gives.

    Args:
        wanted_deg: elevations [deg] (n,)
    """
    said = []
    for angle in wanted_deg:
        gain = scan.gain_at(elevation_deg=angle)
        own = float(np.interp(scan.beam.height, scan.heights, gain))
        best = int(np.argmax(gain))
        said.append(
            phrase(
                "at {angle} {own} from {height}, at most {most} from {best}",
                angle=Quantity(angle, "wanted angle"),
                own=Quantity(own, "gain over ground"),
                height=Quantity(scan.beam.height, "height"),
                most=Quantity(float(gain[best]), "gain over ground"),
                best=Quantity(float(scan.heights[best]), "height"),
            )
        )
    gains = write(listed(said, between="; "), system=system)
    splits = split_words(scan, system=system)
    return f"Gain towards the heading: {gains}." + (f" There are {splits}." if splits else "")


def split_words(scan: HeightScan, *, system: UnitSystem) -> str:
    """Say from which height there are how many lobes; empty where none comes in."""
    splits = [
        phrase("{lobes} lobes from {height}", lobes=each.lobes,
               height=Quantity(each.height, "height"))
        for each in scan.splits
    ]  # fmt: skip
    return write(listed(splits), system=system)


def height_map(
    *,
    scan: HeightScan,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 360.0,
) -> str:
    """Draw all elevation patterns side by side, shaded, with lobes and minima traced.

    Returns:
        SVG text; its root holds heights, elevations and gains
    """
    per_metre, x_label = height_axis(system)
    heights = scan.heights * per_metre
    half = 0.5 * (heights[1] - heights[0]) if len(heights) > 1 else 0.5
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 42.0,
        x_range=(float(heights[0] - half), float(heights[-1] + half)), y_range=(0.0, 90.0),
        x_label=x_label, y_label="elevation, degrees", x_count=9,
        y_ticks=tuple(float(v) for v in range(0, 91, 10)),
    )  # fmt: skip
    angle = np.arange(0.0, 90.0 + 1e-9, _MAP_STEP_DEG)
    gain = np.array([np.interp(angle, scan.elevation_deg, row) for row in scan.gain_dbi])
    top = float(gain.max())
    numbers = classes_of(gain.T - top, levels=_LEVELS)
    x_edges = frame.x.places(np.append(heights - half, heights[-1] + half))
    y_edges = frame.y.places(np.clip(np.append(angle - _MAP_STEP_DEG / 2, 90.0), 0.0, 90.0))
    colour = palette.series[0]
    body = panel_frame(frame, palette=palette)
    body += shade(numbers, x_edges=x_edges, y_edges=y_edges, opacities=_OPACITIES, colour=colour)
    body += _traces(frame, scan=scan, per_metre=per_metre, palette=palette)
    body.append(own_height_mark(frame, scan=scan, system=system, palette=palette))
    key = shade_key(names=_NAMES, opacities=_OPACITIES, colour=colour, x=_LEFT, y=38.0,
                    pitch=(width - _LEFT - _RIGHT) / len(_NAMES), palette=palette)  # fmt: skip
    strongest = write(Quantity(top, "gain over ground"), system=system)
    return document(
        kind="height-map", title="Elevation pattern against height",
        description=f"Gain by height and elevation, strongest {strongest}. "
        f"{split_words(scan, system=system)}.",
        width=width, height=height, palette=palette,
        body=[*key, tag("g", "".join(body), data_panel=0, **frame.data())],
        data={
            "heights": number_list(scan.heights, decimals=3),
            "elevations": number_list(angle, decimals=2),
            "gains": "[" + ",".join(number_list(row, decimals=1) for row in gain) + "]",
            "top-dbi": number(top),
            "x-unit": number(1.0 / per_metre, decimals=4),
        },
    )  # fmt: skip


def _traces(frame: Panel, /, *, scan: HeightScan, per_metre: float, palette: Palette) -> list[str]:
    lobes = [
        (frame.x(float(h) * per_metre), frame.y(lobe.elevation_deg))
        for h, row in zip(scan.heights, scan.lobes, strict=True)
        for lobe in row
    ]
    nulls = [
        (frame.x(float(h) * per_metre), frame.y(null))
        for h, row in zip(scan.heights, scan.nulls_deg, strict=True)
        for null in row
    ]
    made = [tag("circle", cx=x, cy=y, r=1.7, fill=palette.ink) for x, y in lobes]
    made += [line(x - 2.4, y, x + 2.4, y, **pen(palette.accent, "1.4")) for x, y in nulls]
    return made
