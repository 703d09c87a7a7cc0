"""The pictures of readings on the air, as page and book both show them."""

from __future__ import annotations

import math

import numpy as np

from boomwright import charts
from boomwright.charts import Palette, ReadingTable, ShownPicture, ShownTable
from boomwright.study.tuning_on_air import HeardRun

#: levels are drawn so far down [dB]
_DEEPEST = 45.0


def heard_pictures(
    heard: tuple[HeardRun, ...], *, palette: Palette, width: float
) -> list[ShownPicture]:
    """Draw each run over the headings against the computed pattern.

    Parameters
    ----------
    width
        width of the pictures [user units]
    """
    return [_picture(number, each, palette, width) for number, each in enumerate(heard, start=1)]


def _picture(number: int, each: HeardRun, palette: Palette, width: float) -> ShownPicture:
    turned = np.mod(each.run.azimuth + each.reading.offset, 2.0 * np.pi)
    order = np.argsort(turned)
    turned, level = turned[order], each.run.level_db[order]
    read = np.interp(each.headings, turned, level, period=2.0 * np.pi)
    words = f"Level of {each.name} while the beam turns"
    computed = np.interp(turned, each.headings, each.computed_db)
    rows = tuple(
        tuple(f"{value:.0f}".replace("-", "−") for value in row)
        for row in zip(
            np.degrees(turned - each.reading.offset) % 360.0,
            np.degrees(turned),
            level,
            computed,
            strict=True,
        )
    )
    off = f"{math.degrees(each.reading.offset):+.0f} degrees".replace("-", "−")
    bearing = math.degrees(each.bearing) % 360.0
    svg = charts.line_chart(
        kind="tuning-heard",
        title=words,
        description=f"Signal from {bearing:.0f} degrees; readings from {level.min():.0f} to "
        f"{level.max():.0f} dB, turned by {off}.".replace("-", "−"),
        x=np.degrees(each.headings),
        curves=[("read", read), ("computed", each.computed_db)],
        x_label="true heading of the beam, degrees",
        y_label="level, dB",
        x_name="heading",
        deepest=_DEEPEST,
        mark=(bearing, "signal"),
        palette=palette,
        width=width,
    )
    return ShownPicture(
        name=f"heard-{number}",
        words=words,
        svg=svg,
        caption=f"Read levels, joined by straight lines and turned by {off}, against the computed "
        "pattern of the antenna as the sweeps found it, put to the same mean level.",
        behind=ShownTable(
            name=f"heard-{number}",
            caption=words,
            table=ReadingTable(
                header=("rotator, deg", "true, deg", "read, dB", "computed, dB"), rows=rows
            ),
        ),
        units=width,
    )
