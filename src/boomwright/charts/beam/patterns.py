"""Polar pictures of pattern cuts: azimuth and elevation."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.charts.beam.pattern_summary import (
    PatternSummary,
    check_cut,
    is_closed,
    pattern_summary,
)
from boomwright.charts.beam.polar import RINGS_DB, PolarFrame, arc, polar_frame
from boomwright.charts.canvas import (
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
from boomwright.charts.labels import Box, first_free, shortened
from boomwright.charts.palette import LIGHT, LineStyle, Palette, line_style
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import signed
from boomwright.charts.sentences import summary_sentence
from boomwright.solver import PatternCut

_NOTES_WIDTH = 186.0
_BLOCK_HEIGHT = 66.0


def azimuth_pattern(
    *,
    cuts: Sequence[PatternCut],
    labels: Sequence[str] = (),
    title: str = "Azimuth pattern",
    palette: Palette = LIGHT,
    width: float = 600.0,
    notes: bool = True,
) -> str:
    """Draw azimuth cuts as a polar picture, heading to the right, seen from above.

    Args:
        labels: their names, as many as there are cuts; given by their elevation when empty
        notes: whether the figures of each cut are written beside the circle
    """
    named = labels or [f"at {cut.at_deg:.0f}° elevation" for cut in cuts]
    return _pattern(cuts, named, palette, plane="azimuth", title=title, width=width, notes=notes)


def elevation_pattern(
    *,
    cuts: Sequence[PatternCut],
    labels: Sequence[str] = (),
    title: str = "Elevation pattern",
    palette: Palette = LIGHT,
    width: float = 600.0,
    notes: bool = True,
) -> str:
    """Draw elevation cuts as a polar picture: half a circle over ground, else a whole one.

    Args:
        labels: their names, as many as there are cuts; numbered when empty
        notes: whether the figures of each cut are written beside the circle
    """
    named = labels or [
        "through the heading" if len(cuts) == 1 else f"cut {i + 1}" for i in range(len(cuts))
    ]
    return _pattern(cuts, named, palette, plane="elevation", title=title, width=width, notes=notes)


def _check(*, plane: str, cuts: Sequence[PatternCut], labels: Sequence[str]) -> None:
    if not cuts:
        raise ValueError(f"an {plane} picture needs at least one cut")
    if len(labels) != len(cuts):
        raise ValueError(f"{len(labels)} labels for {len(cuts)} cuts; give one label per cut")
    for cut in cuts:
        check_cut(cut)
        if cut.plane != plane:
            msg = f"an {plane} picture cannot show an {cut.plane} cut; draw it on its own"
            raise ValueError(msg)


def _curve(*, frame: PolarFrame, cut: PatternCut, label: str, style: LineStyle) -> str:
    x, y = frame.places(angle_deg=cut.angle_deg, gain_dbi=cut.gain_dbi)
    return tag(
        "path",
        d=path_data(x, y, closed=is_closed(cut)),
        fill="none",
        **pen(style.colour, "1.8", style.dash),
        stroke_linejoin="round",
        data_series=label,
        data_plane=cut.plane,
        data_at=number(cut.at_deg, decimals=6),
        data_angle=number_list(cut.angle_deg),
        data_gain=number_list(cut.gain_dbi),
    )


def _width_marks(
    frame: PolarFrame, summary: PatternSummary, palette: Palette, taken: list[Box], area: Box
) -> Iterator[str]:
    ends = summary.half_power_deg
    if ends is None or ends[1] - ends[0] >= 359.0:
        return
    below = frame.top_dbi - summary.peak_gain_dbi
    radius = float(frame.radii(frame.top_dbi - below - RINGS_DB[1]))
    for end in ends:
        x, y = frame.at(angle_deg=end, radius=frame.radius + 5.0)
        yield line(frame.x, frame.y, x, y, **pen(palette.accent, "0.9", "5 3"))
    yield tag(
        "path",
        d=arc(frame=frame, radius=radius, start_deg=ends[0], end_deg=ends[1]),
        fill="none",
        **pen(palette.accent, "1.6"),
        data_from=number(ends[0], decimals=6),
        data_to=number(ends[1], decimals=6),
    )
    content = f"{ends[1] - ends[0]:.0f}° at −3 dB"
    tries = []
    for share in (0.0, 4.0, -4.0, 8.0, -8.0, 12.0, -12.0, 16.0, -16.0):
        x, y = frame.at(angle_deg=ends[1] + share, radius=frame.radius + 9.0)
        tries.append((x, y, "start" if x >= frame.x else "end"))
    found = first_free(tries, content, size=10.0, taken=taken, area=area)
    if found:
        x, y, anchor, box = found
        taken.append(box)
        yield halo_text(x, y, content, fill=palette.accent, palette=palette, anchor=anchor)


def _curve_points(frame: PolarFrame, cuts: Sequence[PatternCut]) -> NDArray[np.float64]:
    return np.hstack(
        [np.array(frame.places(angle_deg=c.angle_deg, gain_dbi=c.gain_dbi)) for c in cuts]
    )


def _back_mark(
    frame: PolarFrame,
    summary: PatternSummary,
    cuts: Sequence[PatternCut],
    palette: Palette,
    taken: Sequence[Box],
    area: Box,
    *,
    told: bool,
) -> list[str]:
    """Ring the point exactly backwards; where nothing beside the circle tells the ratio, write it.

    Args:
        told: whether the ratio stands beside the circle
    """
    back = 180.0 - summary.front_deg
    gain = float(np.interp(back, cuts[0].angle_deg, cuts[0].gain_dbi))
    xs, ys = frame.places(angle_deg=[back], gain_dbi=[gain])
    x, y = float(xs[0]), float(ys[0])
    content = f"F/B {signed(summary.front_to_back_db, decimals=1)} dB"
    made = [
        tag("circle", cx=x, cy=y, r=3.0, fill=palette.paper, **pen(palette.accent, "1.4"),
            data_angle=number(back), data_gain=number(gain, decimals=4))
    ]  # fmt: skip
    if told:
        return made
    points = _curve_points(frame, cuts)
    tries = [
        (*frame.at(angle_deg=angle, radius=share * frame.radius), anchor)
        for share in (0.87, 0.78, 0.65, 0.94, 1.02)
        for angle in ((170, 163, 156, 148) if frame.half else (188, 196, 172, 204, 212, 222))
        for anchor in ("middle", "start")
    ]
    found = first_free(tries, content, size=10.0, taken=taken, area=area, points=points)
    if found:
        label_x, label_y, anchor, _ = found
        made.append(
            halo_text(
                label_x, label_y, content, fill=palette.accent, palette=palette, anchor=anchor
            )
        )
    return made


def _note_block(
    summary: PatternSummary, style: LineStyle, palette: Palette, *, x: float, y: float, label: str
) -> Iterator[str]:
    width = summary.half_power_width_deg
    lines = (
        f"peak {signed(summary.peak_gain_dbi, decimals=1)} dBi at {summary.peak_angle_deg:.0f}°",
        "no −3 dB width" if width is None else f"−3 dB width {width:.0f}°",
        f"front-to-back {signed(summary.front_to_back_db, decimals=1)} dB",
    )
    short = shortened(label, size=10.5, room=_NOTES_WIDTH - 44.0)
    yield line(x, y, x + 26.0, y, **pen(style.colour, "1.8", style.dash))
    yield marker(style.marker, x + 13.0, y, fill=style.colour)
    yield text(x + 34.0, y, short, fill=palette.ink, bold=True, size=10.5)
    for i, content in enumerate(lines):
        yield text(x + 34.0, y + 15.0 * (i + 1), content, fill=palette.quiet)


def _notes(
    labels: Sequence[str],
    summaries: Sequence[PatternSummary],
    styles: Sequence[LineStyle],
    palette: Palette,
    *,
    left: float,
    foot: float,
) -> Iterator[str]:
    for i, (label, summary, style) in enumerate(zip(labels, summaries, styles, strict=True)):
        y = 46.0 + _BLOCK_HEIGHT * i
        yield from _note_block(summary, style, palette, x=left, y=y, label=label)
    rings = ("rings: dB below the outer ring", "small ring: exactly backwards")
    for i, words in enumerate(rings):
        yield text(left, foot - 30.0 + 14.0 * i, words, fill=palette.quiet)


def _peak_marker(frame: PolarFrame, summary: PatternSummary, style: LineStyle) -> str:
    xs, ys = frame.places(angle_deg=[summary.peak_angle_deg], gain_dbi=[summary.peak_gain_dbi])
    return marker(style.marker, float(xs[0]), float(ys[0]), fill=style.colour)


def _pattern(
    cuts: Sequence[PatternCut],
    labels: Sequence[str],
    palette: Palette,
    *,
    plane: str,
    title: str,
    width: float,
    notes: bool,
) -> str:
    _check(plane=plane, cuts=cuts, labels=labels)
    half = all(float(cut.angle_deg[-1]) <= 180.0 for cut in cuts)
    summaries = [pattern_summary(cut) for cut in cuts]
    column = _NOTES_WIDTH if notes else 0.0
    radius = (width - column - 34.0 - 92.0) / 2.0
    centre_y = 30.0 + 26.0 + radius
    foot = centre_y + (28.0 if half else radius + 30.0)
    height = max(foot, 108.0 + _BLOCK_HEIGHT * len(cuts)) if notes else foot
    frame = PolarFrame(
        x=34.0 + radius,
        y=centre_y,
        radius=radius,
        top_dbi=max(summary.peak_gain_dbi for summary in summaries),
        half=half,
    )
    area = Box(left=2.0, top=26.0, right=width - column - 4.0, bottom=height - 2.0)
    body, taken = polar_frame(frame=frame, palette=palette, curves=_curve_points(frame, cuts))
    styles = [line_style(palette=palette, index=i) for i in range(len(cuts))]
    body += _width_marks(frame, summaries[0], palette, taken, area)
    # Drawn last first, so that the cut named first lies on top.
    for i in reversed(range(len(cuts))):
        body.append(_curve(frame=frame, cut=cuts[i], label=labels[i], style=styles[i]))
        body.append(_peak_marker(frame, summaries[i], styles[i]))
    body += _back_mark(frame, summaries[0], cuts, palette, taken, area, told=notes)
    if notes:
        body += _notes(labels, summaries, styles, palette, left=width - column, foot=height)
    description = " ".join(
        f"{label}: {summary_sentence(cut)}" for label, cut in zip(labels, cuts, strict=True)
    )
    return document(
        kind=f"{plane}-pattern", title=title, description=description, width=width,
        height=height, palette=palette, body=body, data=frame.data(),
    )  # fmt: skip
