"""Whole stations side by side: decibels towards what is wanted against cost, or height."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from boomwright.base import VerdictWord
from boomwright.base.records import dataclass
from boomwright.charts.axes import Panel, panel, panel_frame
from boomwright.charts.canvas import (
    document,
    group,
    line,
    marker,
    number,
    path_data,
    pen,
    tag,
    text,
)
from boomwright.charts.labels import Box, first_free, shortened, text_width
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.shaded_field import halo_text

_LEFT, _RIGHT, _TOP, _FOOT = 62.0, 20.0, 44.0, 42.0
_ROW, _SIZE = 15.0, 10.0
#: half sizes of the marks of picks, of the unbeaten and of all others [user units]
_PICKED, _UNBEATEN, _OTHER = 5.0, 4.2, 3.2

#: what each mark says, in the order of the key
_WORDS: Final[dict[VerdictWord, str]] = {
    "within": "within",
    "ask": "to ask",
    "not checked": "not checked",
    "exceeded": "exceeded",
}
_JOINED: Final = "no other gives more for less"


@dataclass(frozen=True, slots=True, kw_only=True)
class StationPoint:
    """One station as a point."""

    number: int  #: its number in the table
    name: str  #: what it is, with its height
    gain_db: float  #: what it gives towards the targets against the reference [dB]
    along: float  #: its likely cost [currency], or its height in the reader's unit
    #: least and most it may cost [currency] (2,); None where nothing is known
    band: tuple[float, float] | None = None
    at_least: bool = False  #: whether something of it has no price, so that it costs more
    verdict: VerdictWord
    unbeaten: bool = False  #: whether no other gives more for less
    picked: str = ""  #: as what it is put forward, or empty


def advice_chart(
    *,
    points: Sequence[StationPoint],
    x_label: str,
    y_label: str,
    title: str,
    description: str,
    least_db: float | None = None,
    palette: Palette = LIGHT,
    width: float = 600.0,
    height: float = 380.0,
) -> str:
    """Draw every station as a point, those that no other beats joined.

    Args:
        x_label, y_label: quantity and unit of each axis
        least_db: what a station must give to serve; None leaves its line out [dB]

    Returns:
        SVG text; the verdict of each is told by the shape of its mark, its number and figures
        stand in ``data-`` attributes
    """
    key, rows = _key(points, width=width, palette=palette)
    gains = [each.gain_db for each in points]
    ends = [each.along for each in points]
    ends += [each.band[1] for each in points if each.picked and each.band]
    low, high = min(0.0, *gains, least_db or 0.0), max(0.0, *gains)
    frame = panel(
        left=_LEFT, top=_TOP + _ROW * rows, right=width - _RIGHT, bottom=height - _FOOT,
        x_range=(0.0, 1.05 * max(ends)),
        y_range=(math.floor(low - 0.4), math.ceil(high + 0.9)),
        x_label=x_label, y_label=y_label, x_count=7, y_count=7,
    )  # fmt: skip
    body = [*key, *panel_frame(frame, palette=palette), *_levels(frame, least_db, palette)]
    front = sorted((each for each in points if each.unbeaten), key=lambda each: each.along)
    if len(front) > 1:
        body.append(_joined(frame, front, palette))
    drawn = sorted(points, key=lambda each: (bool(each.picked), each.unbeaten))
    body += [_station(frame, each, palette) for each in drawn]
    body += _labels(frame, points, front, palette)
    return document(
        kind="advice", title=title, description=description, width=width, height=height,
        palette=palette, body=[tag("g", "".join(body), data_panel=0, **frame.data())],
    )  # fmt: skip


def _levels(frame: Panel, least_db: float | None, palette: Palette) -> Iterator[str]:
    """The reference itself, and what serves at least."""
    zero = frame.y(0.0)
    yield line(frame.x.start, zero, frame.x.end, zero, **pen(palette.ink, "0.9"),
               data_part="reference")  # fmt: skip
    if least_db is not None and frame.y.low <= least_db:
        y = frame.y(least_db)
        yield line(frame.x.start, y, frame.x.end, y, **pen(palette.quiet, "1", "6 4"),
                   data_part="least", data_least=number(least_db))  # fmt: skip
        yield halo_text(frame.x.end - 4.0, y + 8.0, "less does not serve", fill=palette.quiet,
                        palette=palette, anchor="end", size=_SIZE)  # fmt: skip


def _joined(frame: Panel, front: Sequence[StationPoint], palette: Palette) -> str:
    x = frame.x.places([each.along for each in front])
    y = frame.y.places([each.gain_db for each in front])
    return tag("path", d=path_data(x, y), fill="none", **pen(palette.series[0], "1.4"),
               data_part="unbeaten")  # fmt: skip


def _mark(verdict: VerdictWord, x: float, y: float, *, size: float, ink: str, paper: str) -> str:
    """The shape of a verdict: full disc, full diamond, ring, cross."""
    if verdict == "exceeded":
        arm, look = 0.9 * size, pen(ink, "1.8")
        return line(x - arm, y - arm, x + arm, y + arm, **look) + line(
            x - arm, y + arm, x + arm, y - arm, **look
        )
    if verdict == "not checked":
        return tag("circle", cx=x, cy=y, r=size - 0.7, fill=paper, **pen(ink, "1.6"))
    return marker("disc" if verdict == "within" else "diamond", x, y, fill=ink, size=size)


def _station(frame: Panel, one: StationPoint, palette: Palette) -> str:
    x, y = float(frame.x(one.along)), float(frame.y(one.gain_db))
    ink = palette.accent if one.picked else palette.series[0] if one.unbeaten else palette.quiet
    size = _PICKED if one.picked else _UNBEATEN if one.unbeaten else _OTHER
    made = []
    if one.picked and one.band is not None:
        low, high = (float(frame.x(edge)) for edge in one.band)
        made.append(line(low, y, high, y, **pen(ink, "1.2"), data_part="cost-band"))
        made += [line(edge, y - 3.0, edge, y + 3.0, **pen(ink, "1.2")) for edge in (low, high)]
    if one.at_least:
        made.append(tag("path", d=path_data([x + size, x + size + 6.0], [y, y]), fill="none",
                        **pen(ink, "1.2")))  # fmt: skip
        made.append(tag("path", d=path_data([x + size + 3.5, x + size + 7.0, x + size + 3.5],
                                            [y - 3.0, y, y + 3.0]),
                        fill="none", **pen(ink, "1.2")))  # fmt: skip
    made.append(_mark(one.verdict, x, y, size=size, ink=ink, paper=palette.paper))
    told = f"{one.number}: {one.name}, {one.gain_db:+.1f} dB, {_WORDS[one.verdict]}"
    return group(
        made,
        title=told,
        data_station=one.number,
        data_gain=number(one.gain_db),
        data_along=number(one.along),
        data_verdict=one.verdict,
        data_picked=one.picked or None,
    )


def _labels(
    frame: Panel, points: Sequence[StationPoint], front: Sequence[StationPoint], palette: Palette
) -> Iterator[str]:
    """Name the picks, number the rest of the unbeaten, each where there is room."""
    area = Box(left=frame.x.start + 2.0, top=frame.y.end - 10.0, right=frame.x.end + 16.0,
               bottom=frame.y.start - 2.0)  # fmt: skip
    places = {each.number: (float(frame.x(each.along)), float(frame.y(each.gain_db)))
              for each in points}  # fmt: skip
    taken = [Box(left=x - 5.0, top=y - 5.0, right=x + 5.0, bottom=y + 5.0)
             for x, y in places.values()]  # fmt: skip
    taken += [
        Box(left=float(frame.x(each.band[0])), top=places[each.number][1] - 3.0,
            right=float(frame.x(each.band[1])), bottom=places[each.number][1] + 3.0)
        for each in points if each.picked and each.band
    ]  # fmt: skip
    zero = float(frame.y(0.0))
    taken.append(Box(left=frame.x.start, top=zero - 0.5, right=frame.x.end, bottom=zero + 0.5))
    keep_off = _along_line([places[each.number] for each in front])
    for each in sorted(points, key=lambda one: not one.picked):
        if not (each.picked or each.unbeaten):
            continue
        x, y = places[each.number]
        full = f"{each.number} {each.name}"
        rooms = (1.0, 0.45, 0.3) if each.picked else ()
        cut = [shortened(full, size=_SIZE, room=part * (frame.x.end - frame.x.start))
               for part in rooms]  # fmt: skip
        tries = [(words, far) for far in (False, True) for words in cut]
        for words, far in (*tries, (str(each.number), False)):
            found = first_free(_around(x, y, far=far), words, size=_SIZE, taken=taken, area=area,
                               points=keep_off)  # fmt: skip
            if found is None:
                continue
            at_x, at_y, anchor, box = found
            taken.append(box)
            ink = palette.accent if each.picked else palette.quiet
            if far:
                end = box.top if at_y > y else box.bottom
                yield line(x, y, min(max(x, box.left), box.right), end, **pen(ink, "0.7"))
            yield halo_text(at_x, at_y, words, fill=ink, palette=palette, anchor=anchor,
                            size=_SIZE if each.picked else 8.5)  # fmt: skip
            break


def _around(x: float, y: float, *, far: bool) -> list[tuple[float, float, str]]:
    """Places to try for a label, the nearest first."""
    if far:
        moves = [(dx, dy, anchor) for dy in (-34.0, 34.0, -46.0, 46.0)
                 for dx, anchor in ((-9.0, "end"), (9.0, "start"), (0.0, "middle"))]  # fmt: skip
    else:
        moves = [(-9.0, -9.0, "end"), (0.0, -13.0, "middle"), (9.0, 9.0, "start"),
                 (9.0, -9.0, "start"), (-9.0, 9.0, "end"), (0.0, 13.0, "middle"),
                 (-9.0, -20.0, "end"), (9.0, 20.0, "start"), (9.0, -20.0, "start"),
                 (-9.0, 20.0, "end")]  # fmt: skip
    return [(x + dx, y + dy, anchor) for dx, dy, anchor in moves]


def _along_line(corners: Sequence[tuple[float, float]]) -> NDArray[np.float64] | None:
    """Points along a line through corners, close enough that no label lies between (2, n)."""
    if len(corners) < 2:
        return None
    ends = np.array(corners)
    share = np.linspace(0.0, 1.0, 40)[:, None]
    legs = [a + share * (b - a) for a, b in pairwise(ends)]
    return np.concatenate(legs).T


def _key(
    points: Sequence[StationPoint], *, width: float, palette: Palette
) -> tuple[list[str], int]:
    """Say what marks and line mean, in as many rows as there is room for.

    Returns:
        finished elements, and the rows beyond the first [-, rows]
    """
    used = {each.verdict for each in points}
    entries: list[tuple[VerdictWord | None, str]] = [
        (verdict, words) for verdict, words in _WORDS.items() if verdict in used
    ]
    if sum(each.unbeaten for each in points) > 1:
        entries.append((None, _JOINED))
    made, x, row = [], _LEFT, 0
    for verdict, words in entries:
        sample = 12.0 if verdict else 28.0
        wide = sample + 4.0 + text_width(words, size=_SIZE)
        if x > _LEFT and x + wide > width - 8.0:
            x, row = _LEFT, row + 1
        y = 36.0 + _ROW * row
        if verdict is None:
            made.append(line(x, y, x + sample, y, **pen(palette.series[0], "1.4")))
        else:
            made.append(_mark(verdict, x + 6.0, y, size=_UNBEATEN, ink=palette.ink,
                              paper=palette.paper))  # fmt: skip
        made.append(text(x + sample + 4.0, y, words, fill=palette.ink, size=_SIZE))
        x += wide + 16.0
    return made, row
