"""What stands around and upon a picture of the wave: axes, elements, current dials, lobes.

The field itself moves and is painted by the page between the two; the marks that lie upon it are
one group, ``data-part="marks"``, so that a page can lift them above its painting.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.charts.axes import Panel, panel, panel_frame
from boomwright.charts.beam.wave_sentences import wave_sentence
from boomwright.charts.canvas import (
    arrow_head,
    document,
    group,
    line,
    number,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.palette import LIGHT, Palette
from boomwright.reach import WavePicture, WavePlane

_LEFT, _RIGHT, _TOP, _BOTTOM = 54.0, 14.0, 34.0, 92.0
#: one foot [m] {nist-sp-811}
_DIALS = 66.0
_DIAL = 15.0
#: share of the points that reach full colour
_FULL = 0.95
_BARS = 20


def full_colour(picture: WavePicture) -> float:
    """Choose the field strength that is painted with full colour, from the picture from above.

    Returns:
        a round field strength, peak [V/m]
    """
    strength = np.abs(picture.level.shares.sum(axis=0))
    value = float(np.quantile(strength, _FULL))
    power = 10.0 ** math.floor(math.log10(value))
    return next(step * power for step in (1.0, 2.0, 5.0, 10.0) if step * power >= value)


def wave_frame(
    picture: WavePicture,
    plane: WavePlane,
    *,
    palette: Palette = LIGHT,
    system: UnitSystem = "metric",
    width: float = 880.0,
) -> str:
    """Draw the frame of one picture of the wave."""
    level = plane.kind == "level"
    unit, word = 1.0 / factor_of("height", system=system), unit_of("height", system=system)
    span = plane.along[-1] - plane.along[0], plane.across[-1] - plane.across[0]
    scale = (width - _LEFT - _RIGHT) / span[0]
    top = _TOP + (_DIALS if level else 0.0)
    bottom = top + scale * span[1]
    up = "above the boom" if picture.ground.kind == "free space" else "above ground"
    axes = panel(
        left=_LEFT,
        top=top,
        right=width - _RIGHT,
        bottom=bottom,
        x_range=(float(plane.along[0]) / unit, float(plane.along[-1]) / unit),
        y_range=(float(plane.across[0]) / unit, float(plane.across[-1]) / unit),
        x_label=f"along the heading, {word}",
        y_label=f"{'to the left' if level else up}, {word}",
        x_count=9 if width > 600.0 else 6,
        y_count=6,
    )
    marks = [*_elements(picture, plane, axes, unit, palette)]
    dials: list[str] = []
    if level:
        dials = list(_dials(picture, axes, unit, palette, top))
    else:
        marks += _lobe_rays(picture, plane, axes, unit, palette)
    full = full_colour(picture)
    values = Quantity(picture.frequency, "frequency"), Quantity(picture.power, "average power")
    at = ", ".join(write(value, system=system) for value in values)
    title = f"Seen from above · {at}" if level else f"Cut along the boom · {at}"
    return document(
        kind=f"wave-{plane.kind}",
        title=title,
        description=wave_sentence(picture),
        width=width,
        height=bottom + _BOTTOM,
        palette=palette,
        body=[
            group(panel_frame(axes, palette=palette), **axes.data()),
            *dials,
            *_colour_key(full, x=_LEFT, y=bottom + 50.0, palette=palette),
            group(marks, data_part="marks"),
        ],
        data={
            "plot": " ".join(
                number(value) for value in (_LEFT, top, width - _RIGHT - _LEFT, bottom - top)
            ),
            "full-colour": number(full, decimals=6),
            "unit": number(unit, decimals=6),
            "unit-name": word,
        },
    )


def _written(value: float, kind: str) -> str:
    # Angles and gains are the same in both systems.
    return write(Quantity(float(value), kind), system="metric")


def _elements(
    picture: WavePicture, plane: WavePlane, axes: Panel, unit: float, palette: Palette
) -> Iterator[str]:
    level = plane.kind == "level"
    height = 0.0 if level else plane.height
    places = [element.position for element in picture.beam.elements]
    boom = axes.y(height / unit)
    yield line(
        axes.x(min(places) / unit),
        boom,
        axes.x(max(places) / unit),
        boom,
        **pen(palette.ink, "1.4"),
    )
    for index, element in enumerate(picture.beam.elements):
        x = axes.x(element.position / unit)
        colour = palette.accent if element.role == "driven" else palette.ink
        if level and element.bent:
            outline = [(axes.x(x / unit), axes.y(y / unit)) for x, y, _ in element.outline]
            way = path_data([x for x, _ in outline], [y for _, y in outline])
            drawn = tag("path", d=way, fill="none", **pen(colour, "2"))
        elif level:
            half = element.half_length / unit
            drawn = line(
                x, axes.y(-half), x, axes.y(half), **pen(colour, "2.6"), stroke_linecap="round"
            )
        else:
            drawn = tag("circle", cx=float(x), cy=float(boom), r=3.4, fill=colour)
        yield group([drawn], title=picture.shares[index].label, data_share=str(index))
    if not level and picture.ground.kind != "free space":
        mast = axes.x(0.5 * (min(places) + max(places)) / unit)
        yield line(mast, boom, mast, axes.y(0.0), **pen(palette.quiet, "1"))
    tip = axes.x.end - 8.0
    yield line(tip - 34.0, boom, tip - 4.0, boom, **pen(palette.accent, "1.4"))
    yield arrow_head(tip, boom, angle=0.0, fill=palette.accent)


def _spread(places: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Move places apart until each has its room, keeping their order."""
    moved = list(places)
    for i in range(1, len(moved)):
        moved[i] = max(moved[i], moved[i - 1] + gap)
    over = moved[-1] - high
    if over > 0.0:
        moved[-1] = high
        for i in range(len(moved) - 2, -1, -1):
            moved[i] = min(moved[i], moved[i + 1] - gap)
    return [max(value, low) for value in moved]


def _dials(
    picture: WavePicture, axes: Panel, unit: float, palette: Palette, top: float
) -> Iterator[str]:
    """One dial an element: length of the hand its current, its angle the phase."""
    shares = [share for share in picture.shares if share.role != "wires"]
    largest = max(abs(share.current) for share in shares)
    order = sorted(range(len(shares)), key=lambda i: shares[i].place)
    wanted = [axes.x(shares[i].place / unit) for i in order]
    gap = min(58.0, (axes.x.end - axes.x.start) / max(len(order), 1))
    centre = sum(wanted) / len(wanted)
    start = centre - 0.5 * gap * (len(order) - 1)
    spread = [start + gap * i for i in range(len(order))]
    # Where elements stand far apart already, each dial stands over its own.
    if all(b - a >= gap for a, b in pairwise(wanted)):
        spread = wanted
    places = _spread(spread, gap, axes.x.start + _DIAL, axes.x.end - _DIAL)
    y = top - 36.0
    for place, own, index in zip(places, wanted, order, strict=True):
        share = shares[index]
        colour = palette.accent if share.role == "driven" else palette.series[0]
        angle = cmath.phase(share.current)
        hand = _DIAL * abs(share.current) / largest
        tip = place + hand * math.cos(angle), y - hand * math.sin(angle)
        words = f"{abs(share.current):.2f}, {_written(math.degrees(angle), 'whole angle')}"
        yield group(
            [
                line(place, y + _DIAL + 12.0, own, top, **pen(palette.grid, "0.7")),
                tag("circle", cx=place, cy=y, r=_DIAL, fill="none", **pen(palette.grid, "0.8")),
                group(
                    [
                        line(place, y, *tip, **pen(colour, "1.8")),
                        arrow_head(*tip, angle=angle, fill=colour, size=6.0),
                    ],
                    data_hand=str(index),
                    data_x=number(place),
                    data_y=number(y),
                ),
                text(place, y + _DIAL + 8.0, words, fill=palette.quiet, size=10.5, anchor="middle"),
            ],
            title=f"{share.label}: current {words}",
        )


def _lobe_rays(
    picture: WavePicture, plane: WavePlane, axes: Panel, unit: float, palette: Palette
) -> Iterator[str]:
    """Where the lobes point, seen from the ground below the beam."""
    if picture.ground.kind == "free space":
        return
    places = [element.position for element in picture.beam.elements]
    foot = 0.5 * (min(places) + max(places))
    wide, tall = float(plane.along[-1]) - foot, float(plane.across[-1])
    for elevation, gain in picture.lobes:
        slope = math.tan(math.radians(elevation))
        reach = min(wide, tall / slope) if slope > 0.0 else wide
        end = axes.x((foot + reach) / unit), axes.y(reach * slope / unit)
        yield line(axes.x(foot / unit), axes.y(0.0), *end, **pen(palette.ink, "1", "5 4"))
        words = f"{_written(elevation, 'whole angle')}, {_written(gain, 'gain over ground')}"
        beside = reach * slope >= tall - 1e-9
        spot = (end[0] - 6.0, end[1] + 11.0) if beside else (end[0] - 6.0, end[1] - 9.0)
        yield from _haloed(*spot, words, palette)


def _haloed(x: float, y: float, words: str, palette: Palette) -> list[str]:
    return [
        text(
            x,
            y,
            words,
            fill=palette.paper,
            size=10.5,
            anchor="end",
            stroke=palette.paper,
            stroke_width="4",
            stroke_linejoin="round",
        ),
        text(x, y, words, fill=palette.ink, size=10.5, anchor="end"),
    ]


def _colour_key(full: float, *, x: float, y: float, palette: Palette) -> Iterator[str]:
    """The colours and their field strengths: the depth goes with the root of the strength."""
    wide, tall = 9.0, 9.0
    for i in range(-_BARS, _BARS):
        depth = (abs(i + 0.5)) / _BARS
        yield tag(
            "rect",
            x=x + wide * (i + _BARS) * 0.5,
            y=y,
            width=wide * 0.5,
            height=tall,
            fill=palette.series[0] if i >= 0 else palette.accent,
            fill_opacity=number(depth, decimals=3),
        )
    middle = x + 0.5 * wide * _BARS
    for place, words in (
        (x, f"−{_strength(full)}"),
        (middle, "0"),
        (x + wide * _BARS, f"{_strength(full)} V/m"),
    ):
        yield text(place, y + 18.0, words, fill=palette.quiet, size=10.5, anchor="middle")
    yield text(
        x,
        y + 33.0,
        "field along the elements; depth as its square root",
        fill=palette.quiet,
        size=10.5,
    )


def _strength(value: float) -> str:
    return f"{value:g}"
