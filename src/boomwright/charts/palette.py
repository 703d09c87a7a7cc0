"""The two palettes, the line styles of the series, and the contrast they are held to.

Warm paper and cool ink by day, the reverse by night. Series differ by dash and by marker as
well as by colour, so a photocopy and a colour-blind reader lose nothing.
"""

from __future__ import annotations

from typing import Literal

from boomwright.base.records import dataclass, replace

Marker = Literal["disc", "square", "triangle", "diamond"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """The colours of one look, all as ``#rrggbb``."""

    name: str  #: ``light`` or ``dark``
    paper: str  #: background
    ink: str  #: titles, labels, outlines
    quiet: str  #: secondary text and dimension lines
    grid: str  #: scale lines and leaders
    metal: str  #: fill of tubes
    accent: str  #: the driven element, the heading and marks made upon a picture
    series: tuple[str, ...]  #: colours of data, in the order of the series (n_series,)


LIGHT = Palette(
    name="light",
    paper="#fbfaf6",
    ink="#1c2427",
    quiet="#55605f",
    grid="#8a9290",
    metal="#d3d6d2",
    accent="#a4421c",
    series=("#0b5f6b", "#7a3b8f", "#6e5a0c", "#2f4fa0"),
)
#: the day colours on white paper
PRINT_PALETTE = replace(LIGHT, name="print", paper="#ffffff")
DARK = Palette(
    name="dark",
    paper="#14191b",
    ink="#e8e6df",
    quiet="#a3aca9",
    grid="#66706d",
    metal="#4a5457",
    accent="#f09a72",
    series=("#6fc6cf", "#d0a5ea", "#d8bd62", "#9db4ff"),
)

#: dash pattern of each series, in user units; empty is a solid line
DASHES = ("", "7 3", "2 2.5", "9 3 2 3")
#: marker of each series
MARKERS: tuple[Marker, ...] = ("disc", "square", "triangle", "diamond")


@dataclass(frozen=True, slots=True, kw_only=True)
class LineStyle:
    """How one series is drawn."""

    colour: str  #: line colour
    dash: str  #: dash pattern in user units, empty for a solid line
    marker: Marker  #: shape that stands on the line


def line_style(*, palette: Palette, index: int) -> LineStyle:
    """Give the style of a series; dash and colour move on at different times past the fourth."""
    count = len(palette.series)
    turn, place = divmod(index, count)
    return LineStyle(
        colour=palette.series[place],
        dash=DASHES[(place + turn) % len(DASHES)],
        marker=MARKERS[(place + turn) % len(MARKERS)],
    )
