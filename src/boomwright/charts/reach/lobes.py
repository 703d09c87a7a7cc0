"""Gain against elevation over the ground, lobes and minima marked with their values."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.axes import Panel, curve, panel, panel_frame
from boomwright.charts.beam.pattern_summary import check_cut
from boomwright.charts.canvas import document, line, number, pen, tag, text
from boomwright.charts.labels import Box, first_free, text_width
from boomwright.charts.legends import legend
from boomwright.charts.palette import LIGHT, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import signed
from boomwright.charts.sentences import summary_sentence
from boomwright.reach import OverGround

_LEFT, _RIGHT, _TOP = 62.0, 24.0, 62.0
_DEPTH_DB = 35.0


def _lobe_marks(
    frame: Panel,
    over_ground: OverGround,
    palette: Palette,
    taken: list[Box],
    area: Box,
    points: NDArray[np.float64],
) -> Iterator[str]:
    ranked = sorted(over_ground.lobes, key=lambda lobe: -lobe.gain_dbi)
    for lobe in ranked:
        x, y = frame.x(lobe.elevation_deg), float(frame.y.places([lobe.gain_dbi])[0])
        items = [tag("circle", cx=x, cy=y, r=3.4, fill=palette.paper, **pen(palette.accent, "1.6"))]
        gain = signed(lobe.gain_dbi, decimals=1)
        tried = (f"{gain} dBi at {lobe.elevation_deg:.0f}°", f"{gain} at {lobe.elevation_deg:.0f}°")
        tries = [
            (x + side, y - rise, anchor)
            for rise in (11.0, 23.0, 35.0, 47.0, 59.0)
            for side, anchor in ((0.0, "middle"), (-4.0, "start"), (4.0, "end"))
        ]
        places = (
            (content, first_free(tries, content, size=10.0, taken=taken, area=area, points=points))
            for content in tried
        )
        content, found = next((place for place in places if place[1]), ("", None))
        if found:
            place_x, place_y, anchor, box = found
            if y - place_y > 15.0:
                items.append(line(x, y - 4.0, x, place_y + 6.0, **pen(palette.grid, "0.6")))
            items.append(
                halo_text(place_x, place_y, content, fill=palette.accent, palette=palette,
                          anchor=anchor)
            )  # fmt: skip
            taken.append(box)
        yield tag(
            "g",
            "".join(items),
            data_part="lobe",
            data_elevation=number(lobe.elevation_deg, decimals=6),
            data_gain=number(lobe.gain_dbi, decimals=6),
        )


def _null_marks(
    frame: Panel,
    over_ground: OverGround,
    palette: Palette,
    taken: list[Box],
    area: Box,
    points: NDArray[np.float64],
) -> Iterator[str]:
    cut = over_ground.elevation_pattern
    for null in over_ground.nulls_deg:
        gain = float(np.interp(null, cut.angle_deg, cut.gain_dbi))
        x, y = frame.x(null), float(frame.y.places([gain])[0])
        content = f"{null:.0f}°"
        tries = [(x, y + drop, "middle") for drop in (12.0, 22.0, 32.0, 42.0)]
        items = [line(x - 4.5, y, x + 4.5, y, **pen(palette.quiet, "1.8"))]
        found = first_free(tries, content, size=10.0, taken=taken, area=area, points=points)
        if found:
            items.append(halo_text(found[0], found[1], content, fill=palette.quiet,
                                   palette=palette, anchor="middle"))  # fmt: skip
            taken.append(found[3])
        yield tag(
            "g",
            "".join(items),
            data_part="null",
            data_elevation=number(null, decimals=6),
            data_gain=number(gain, decimals=4),
        )


def _gain_range(over_ground: OverGround) -> tuple[float, float]:
    peak = max(over_ground.peak_gain_dbi, float(over_ground.elevation_pattern.gain_dbi.max()))
    high = 5.0 * math.ceil(peak / 5.0 + 0.5)
    low = high - _DEPTH_DB - 5.0
    # Many lobes need a second row of labels above the curve.
    return low, high + (5.0 if len(over_ground.lobes) > 4 else 0.0)


def _ground_note(over_ground: OverGround, *, system: UnitSystem, room: float) -> str:
    """Say height and ground in the fullest form that fits."""
    height = write(Quantity(over_ground.height, "height"), system=system)
    ground = over_ground.ground.name or over_ground.ground.kind
    forms = (f"{height} over {ground} ground", f"{height}, {ground}", height)
    return next((form for form in forms if text_width(form, size=10.0) <= room), "")


def lobe_chart(
    *,
    over_ground: OverGround,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 600.0,
    height: float = 340.0,
) -> str:
    """Draw the gain towards the heading, and backwards, from the horizon to the zenith.

    Args:
        system: ``metric`` or ``us``, for the height in the note

    Returns:
        SVG text; gains more than 35 dB below the peak are drawn at the lower edge
    """
    cut = over_ground.elevation_pattern
    check_cut(cut)
    frame = panel(
        left=_LEFT, top=_TOP, right=width - _RIGHT, bottom=height - 42.0, x_range=(0.0, 90.0),
        y_range=_gain_range(over_ground), x_label="elevation above the horizon, degrees",
        y_label="gain, dBi", x_ticks=tuple(float(v) for v in range(0, 91, 10)), y_count=8,
    )  # fmt: skip
    front, back = cut.angle_deg <= 90.0, cut.angle_deg >= 90.0
    names = ("towards the heading", "backwards")
    styles = [line_style(palette=palette, index=i) for i in (0, 1)]
    body = panel_frame(frame, palette=palette)
    if int(back.sum()) > 1:
        body.append(
            curve(
                frame,
                x=(180.0 - cut.angle_deg[back])[::-1],
                y=cut.gain_dbi[back][::-1],
                label=names[1],
                style=styles[1],
                x_name="elevation",
                markers=False,
            )
        )
    body.append(
        curve(
            frame,
            x=cut.angle_deg[front],
            y=cut.gain_dbi[front],
            label=names[0],
            style=styles[0],
            x_name="elevation",
            markers=False,
        )
    )
    # The clear strip above the curves is for labels; no label may leave the panel.
    area = Box(left=_LEFT + 2.0, top=_TOP + 1.0, right=width - 2.0, bottom=height - 44.0)
    taken: list[Box] = []
    angle = np.minimum(cut.angle_deg, 180.0 - cut.angle_deg)
    points = np.array((frame.x.places(angle), frame.y.places(cut.gain_dbi)))
    body += _lobe_marks(frame, over_ground, palette, taken, area, points)
    body += _null_marks(frame, over_ground, palette, taken, area, points)
    widths = [text_width(name, size=10.0) for name in names]
    body += legend(entries=list(zip(names, styles, strict=True)), x=_LEFT, y=38.0,
                   palette=palette, widths=widths, markers=False)  # fmt: skip
    room = width - _RIGHT - _LEFT - sum(widths) - 48.0 * len(widths) - 8.0
    note = _ground_note(over_ground, system=system, room=room)
    body.append(text(width - _RIGHT, 38.0, note, fill=palette.quiet, anchor="end"))
    return document(
        kind="lobe-chart", title="Gain against elevation over the ground",
        description=summary_sentence(over_ground), width=width,
        height=height, palette=palette,
        body=[tag("g", "".join(body), data_panel=0, **frame.data())],
    )  # fmt: skip
