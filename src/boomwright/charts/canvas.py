"""SVG as text: elements, numbers and escaping. Every character that reaches a picture passes here.

Only presentation attributes are written, no style sheet, script or variable, so that a browser
and a PDF engine show the same picture.
"""

from __future__ import annotations

import json
import math
import re
import zlib
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from textwrap import wrap

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.charts.labels import shortened
from boomwright.charts.palette import Marker, Palette

FONT_FAMILY = "'DejaVu Sans', 'Noto Sans', sans-serif"
#: shift that centres a line of text on its y, as a share of the font size (half a capital)
HALF_CAPITAL = 0.365

#: room for a letter of a stamp [user units]
_STAMP_LETTER = 8.5
_ESCAPES = {"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"}
# What must be written otherwise, and what XML 1.0 forbids even as a character reference
# {xml-1-0, production 2}.
_SPECIAL = re.compile('[&<>"]|[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]')


@lru_cache(maxsize=4096)
def escape(content: str) -> str:
    """Make any text fit for XML content and attribute values."""
    return _SPECIAL.sub(lambda match: _ESCAPES.get(match.group(), "\ufffd"), content)


def number(value: float, *, decimals: int = 3) -> str:
    """Write a number with at most so many decimals, the same on every machine.

    Args:
        value: the number [any unit]

    Returns:
        decimal notation without trailing zeros, never ``-0`` [same unit]

    Raises:
        ValueError: the number is not finite
    """
    if not math.isfinite(value):
        msg = f"a picture cannot hold the number {value}; check the reading it comes from"
        raise ValueError(msg)
    digits = f"{value:.{decimals}f}"
    if decimals:
        digits = digits.rstrip("0").rstrip(".")
    return "0" if digits == "-0" else digits


def number_list(values: ArrayLike, *, decimals: int = 4) -> str:
    """Write an array as compact JSON for a data attribute [same unit].

    Args:
        values: the numbers [any unit] (n,)
    """
    rounded = np.round(np.asarray(values, dtype=float), decimals) + 0.0
    return json.dumps(rounded.tolist(), separators=(",", ":"), allow_nan=False)


def _value(value: object) -> str:
    if isinstance(value, float):
        return number(value)
    return escape(str(value))


@lru_cache(maxsize=512)
def _attribute(key: str) -> str:
    return key.rstrip("_").replace("_", "-")


def tag(name: str, content: str = "", /, **attributes: object) -> str:
    """Write one element. ``stroke_width`` becomes ``stroke-width``; None leaves out.

    Args:
        attributes: attribute values; floats are written with three decimals, text is escaped
    """
    parts = [
        f' {_attribute(key)}="{_value(value)}"'
        for key, value in attributes.items()
        if value is not None
    ]
    opened = f"<{name}{''.join(parts)}"
    return f"{opened}>{content}</{name}>" if content else f"{opened}/>"


def group(items: Iterable[str], /, *, title: str = "", **attributes: object) -> str:
    """Write a group, with a title that a pointer shows and a screen reader speaks.

    Args:
        title: text of its title, empty for none
    """
    head = tag("title", escape(title)) if title else ""
    return tag("g", head + "".join(items), **attributes)


def text(
    x: float,
    y: float,
    content: str,
    /,
    *,
    fill: str,
    size: float = 10.0,
    anchor: str = "start",
    bold: bool = False,
    upright: bool = False,
    **attributes: object,
) -> str:
    """Write one line of text centred vertically on y, or reading upwards and centred on x.

    Args:
        anchor: ``start``, ``middle`` or ``end``
        upright: whether the line reads upwards
    """
    drop = HALF_CAPITAL * size
    turned = f"rotate(-90 {number(x + drop)} {number(y)})" if upright else None
    return tag(
        "text",
        escape(content),
        x=x + drop if upright else float(x),
        y=float(y) if upright else y + drop,
        font_size=float(size),
        font_weight="bold" if bold else None,
        text_anchor=None if anchor == "start" else anchor,
        fill=fill,
        transform=turned,
        **attributes,
    )


def pen(colour: str, width: object, dash: str | None = None) -> dict[str, object]:
    """Attributes of a drawn line.

    Args:
        width: of the line, a number or its text [user units]
        dash: lengths of dashes and gaps; nothing for a solid line [user units]
    """
    drawn: dict[str, object] = {"stroke": colour, "stroke_width": width}
    return drawn | {"stroke_dasharray": dash} if dash else drawn


def line(x1: float, y1: float, x2: float, y2: float, /, **attributes: object) -> str:
    """Write a straight line.

    Args:
        attributes: further attributes, ``stroke`` among them
    """
    return tag("line", x1=float(x1), y1=float(y1), x2=float(x2), y2=float(y2), **attributes)


def path_data(x: ArrayLike, y: ArrayLike, *, closed: bool = False) -> str:
    """Write the path through points, two decimals each.

    Args:
        x: horizontal places [user units] (n,)
        y: vertical places [user units] (n,)

    Raises:
        ValueError: a coordinate is not finite
    """
    pairs: NDArray[np.float64] = np.round(np.column_stack((x, y)), 2) + 0.0
    if not np.isfinite(pairs).all():
        msg = "a picture cannot hold a curve with numbers that are not finite; check the readings"
        raise ValueError(msg)
    if len(pairs) == 0:
        return ""
    body = ("%.2f,%.2f " * len(pairs) % tuple(pairs.ravel().tolist())).rstrip()
    return f"M{body}Z" if closed else f"M{body}"


def marker(shape: Marker, x: float, y: float, /, *, fill: str, size: float = 3.2) -> str:
    """Write a marker centred on a point.

    Args:
        size: half its size [user units]
    """
    if shape == "disc":
        return tag("circle", cx=float(x), cy=float(y), r=float(size), fill=fill)
    corners: dict[str, Sequence[tuple[float, float]]] = {
        "square": ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
        "triangle": ((0.0, -1.25), (1.15, 0.85), (-1.15, 0.85)),
        "diamond": ((0.0, -1.3), (1.1, 0.0), (0.0, 1.3), (-1.1, 0.0)),
    }
    places = np.array(corners[shape]) * size + (x, y)
    return tag("path", d=path_data(places[:, 0], places[:, 1], closed=True), fill=fill)


def arrow_head(x: float, y: float, /, *, angle: float, fill: str, size: float = 7.0) -> str:
    """Write a slim arrow head with its point at a place.

    Args:
        x: horizontal place of the point [user units]
        y: vertical place of the point [user units]
        angle: direction it points to, counter-clockwise from rightwards [rad]
        size: its length [user units]
    """
    along = np.array((math.cos(angle), -math.sin(angle)))
    across = np.array((-along[1], along[0]))
    tip = np.array((x, y))
    places = np.array([tip, tip - size * along + 0.32 * size * across,
                       tip - 0.75 * size * along,
                       tip - size * along - 0.32 * size * across])  # fmt: skip
    return tag("path", d=path_data(places[:, 0], places[:, 1], closed=True), fill=fill)


def document(
    *,
    kind: str,
    title: str,
    description: str,
    width: float,
    height: float,
    palette: Palette,
    body: Iterable[str],
    data: Mapping[str, str] | None = None,
    stamp: str = "",
    unit: str = "",
) -> str:
    """Write a whole picture, named and described for those who do not see it.

    Args:
        kind: kind of picture, e.g. ``plan-view``; becomes ``data-figure``
        data: further ``data-`` attributes of the root, by name without the prefix
        stamp: what stands against building from the picture, written below it; empty when
            nothing does
        unit: length on paper of one user unit, ``mm``; empty leaves that to the reader
    """
    inside = "".join(body)
    for stamped in wrap(stamp, int(width / _STAMP_LETTER)):
        height += 16.0
        inside += text(14.0, height - 10.0, stamped, fill=palette.accent, size=11.0, bold=True)
    # Several pictures share a page, so the ids carry a digest of what is drawn.
    mark = f"{kind}-{zlib.crc32((title + inside).encode('utf-8', 'replace')):08x}"
    paper = tag("rect", x=0, y=0, width=width, height=height, fill=palette.paper)
    # Bold letters are about a tenth wider than those the widths are known of.
    drawn = shortened(title, size=12.5 * 1.1, room=width - 28.0)
    head = text(14.0, 17.0, drawn, fill=palette.ink, size=12.5, bold=True)
    extra = {f"data_{key.replace('-', '_')}": value for key, value in (data or {}).items()}
    return tag(
        "svg",
        tag("title", escape(title), id=f"{mark}-title")
        + tag("desc", escape(description), id=f"{mark}-desc")
        + paper
        + head
        + inside,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(width)} {number(height)}",
        width=f"{number(width)}{unit}",
        height=f"{number(height)}{unit}",
        role="img",
        aria_labelledby=f"{mark}-title {mark}-desc",
        font_family=FONT_FAMILY,
        data_figure=kind,
        data_palette=palette.name,
        **extra,
    )
