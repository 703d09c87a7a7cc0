"""The pictures of what the height gives and costs, as page and book both show them."""

from __future__ import annotations

from typing import Any

import numpy as np

from boomwright import charts
from boomwright.charts import ReadingTable, ShownPicture, ShownTable
from boomwright.report.reach.drawing import Drawing, front_gain
from boomwright.study.reach_results import BeamReach

_SHORT = {
    "half-wave dipole at the same height": "dipole, same height",
    "half-wave dipole at 10 m": "dipole at 10 m",
    "quarter-wave vertical": "vertical",
}


def short_name(name: str) -> str:
    """Shorten the name of a plain antenna for a legend."""
    return _SHORT.get(name, name)


def height_pictures(each: BeamReach, draw: Drawing) -> list[ShownPicture]:
    """Draw everything about height."""
    made = [_heights(each, draw), _height_map(each, draw), _steps(each, draw)]
    if each.costs.priced:
        made.append(_costs(each, draw))
    return [*made, _comparison(each, draw)]


def _heights(each: BeamReach, draw: Drawing) -> ShownPicture:
    svg = charts.height_chart(
        scan=each.scan,
        wanted_deg=each.wanted_deg,
        palette=draw.palette,
        system=draw.system,
        width=draw.width,
    )
    return draw.shown(
        "heights",
        "Gain at wanted angles against height",
        svg,
        caption=(
            "Gain towards the heading at wanted angles against the height of the boom. Dashed: "
            "from there up the pattern has one more lobe."
        ),
        table=charts.height_table(each.scan, each.wanted_deg, system=draw.system),
        about="Lobes, minima and gains against height",
    )


def _height_map(each: BeamReach, draw: Drawing) -> ShownPicture:
    svg = charts.height_map(
        scan=each.scan, palette=draw.palette, system=draw.system, width=draw.width
    )
    return draw.shown(
        "height-map",
        "Elevation pattern against height",
        svg,
        caption=(
            "Elevation patterns side by side, shaded by gain below the strongest. Dots trace "
            "the lobes, dashes the minima."
        ),
        table=charts.height_table(each.scan, each.wanted_deg, system=draw.system),
        about="Lobes, minima and gains against height",
    )


def _steps(each: BeamReach, draw: Drawing) -> ShownPicture:
    svg = charts.lobe_steps(
        scan=each.scan, palette=draw.palette, system=draw.system, width=draw.width
    )
    return draw.shown(
        "lobe-steps",
        "The lobes at some heights",
        svg,
        caption=(
            "The elevation pattern towards the heading as the beam goes up, all to one scale: "
            "the film of the page, for paper."
        ),
        table=charts.height_table(each.scan, each.wanted_deg, system=draw.system),
        about="Lobes, minima and gains against height",
    )


def _costs(each: BeamReach, draw: Drawing) -> ShownPicture:
    costs = each.costs
    priced: dict[str, Any] = {
        "heights": costs.heights,
        "likely": costs.likely,
        "low": costs.low,
        "high": costs.high,
        "currency": costs.currency,
    }
    svg = charts.height_cost_chart(
        scan=each.scan,
        wanted_deg=each.wanted_deg,
        palette=draw.palette,
        system=draw.system,
        width=draw.width,
        **priced,
    )
    sentence = charts.height_cost_sentence(
        each.scan,
        each.wanted_deg,
        heights=costs.heights,
        likely=costs.likely,
        currency=costs.currency,
        system=draw.system,
    )
    lacking = f" Without a price, so not in it: {', '.join(costs.unpriced)}." * bool(costs.unpriced)
    return draw.shown(
        "height-costs",
        "What height gains and costs",
        svg,
        caption=(
            f"{sentence} The estimate is that of the whole plan by the owner's price list, its "
            f"support, guys and line as much longer.{lacking}"
            + (f" {costs.lacks}" if costs.lacks else "")
            + " Whether a taller support stands is shown under Structure."
        ),
        table=charts.height_cost_table(each.scan, each.wanted_deg, system=draw.system, **priced),
        about="Gain and estimate against height",
    )


def unpriced_table(each: BeamReach) -> ShownTable:
    """Say why no height is priced."""
    scan = each.scan
    steps = (0.0, 1.0, 2.0, 5.0)
    rows = []
    for step in steps:
        height = scan.beam.height + step
        cells = [
            f"{float(np.interp(height, scan.heights, scan.gain_at(elevation_deg=angle))):.1f}"
            for angle in each.wanted_deg
        ]
        rows.append((f"{step:+.0f} m ({step / 0.3048:+.0f} ft)", *cells, "not priced"))
    return ShownTable(
        name="height-costs",
        caption="What height gains; what it costs is not priced",
        table=ReadingTable(
            header=("height", *(f"dBi at {angle:g}°" for angle in each.wanted_deg), "cost"),
            rows=tuple(rows),
        ),
        note=f"Not priced, because {each.costs.reason}.",
    )


def _comparison(each: BeamReach, draw: Drawing) -> ShownPicture:
    angle = each.scan.elevation_deg
    curves = [("beam", front_gain(each.cut, angle))]
    curves += [(plain.name, plain.cut.gain_dbi) for plain in each.plain]
    svg = charts.line_chart(
        kind="plain-antennas",
        title="Against plain antennas over the same ground",
        description="; ".join(
            f"over {a.over} at {a.elevation_deg:g} degrees {a.decibels:+.1f} dB"
            for a in each.advantages
        )
        + ".",
        x=angle,
        curves=[(short_name(name), y) for name, y in curves],
        x_label="elevation above the horizon, degrees",
        y_label="gain, dBi",
        x_name="elevation",
        deepest=35.0,
        palette=draw.palette,
        width=draw.width,
    )
    rows = tuple(
        (f"{a:.0f}", *(f"{np.interp(a, angle, y):.1f}" for _, y in curves)) for a in range(0, 91, 2)
    )
    return draw.shown(
        "plain-antennas",
        "Gain against plain antennas",
        svg,
        caption=(
            "The beam against a half-wave dipole at its height, one at 10 m (33 ft), and a "
            "quarter-wave vertical on a lossless radial system, all over the same ground."
        ),
        table=ReadingTable(
            header=("elevation, degrees", *(f"{name}, dBi" for name, _ in curves)), rows=rows
        ),
        about="Gain against elevation",
    )
