"""The coasts of the world on straight axes, to point at a place."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from boomwright.base.array_types import Floats
from boomwright.charts.canvas import document, line, number, path_data, pen, tag, text
from boomwright.charts.palette import LIGHT, Palette
from boomwright.charts.reach.station_map import thinned

#: longitudes and latitudes that are drawn and named [deg]
_MERIDIANS, _PARALLELS = range(-120, 121, 60), range(-60, 61, 30)
#: a line that leaps further than this goes round the edge of the map [deg]
_LEAP = 180.0
#: room for the title [user units]
_TOP = 28.0


def place_map(
    *, coastlines: Sequence[Floats], palette: Palette = LIGHT, width: float = 720.0
) -> str:
    """Draw the coasts with longitude to the right and latitude upwards.

    Args:
        coastlines: longitude and latitude along each line [rad] (n_points, 2)

    Returns:
        SVG text; its data give the length of a degree and the top edge of the map on paper
    """
    degree = width / 360.0
    height = 180.0 * degree
    middle = _TOP + 0.5 * height
    body = [tag("rect", x=0.0, y=_TOP, width=width, height=height, fill="none",
                **pen(palette.grid, "1"))]  # fmt: skip
    for longitude in _MERIDIANS:
        x = (longitude + 180.0) * degree
        body.append(line(x, _TOP, x, _TOP + height, **pen(palette.grid, "0.5")))
        name = f"{abs(longitude)}°{_side(longitude, 'EW')}"
        body.append(text(x + 3.0, _TOP + height - 9.0, name, fill=palette.quiet))
    for latitude in _PARALLELS:
        y = middle - latitude * degree
        body.append(line(0.0, y, width, y, **pen(palette.grid, "0.5")))
        name = f"{abs(latitude)}°{_side(latitude, 'NS')}"
        body.append(text(3.0, y - 8.0, name, fill=palette.quiet))
    drawn = []
    for each in coastlines:
        for piece in _pieces(np.degrees(each)):
            across, down = (piece[:, 0] + 180.0) * degree, middle - piece[:, 1] * degree
            kept = thinned(across, down)
            if len(kept) > 1:
                drawn.append(path_data(across[kept], down[kept]))
    coast = {"fill": "none", "stroke": palette.ink, "stroke_width": "0.7"}
    body.append(tag("path", d="".join(drawn), data_part="coastline", **coast))
    return document(
        kind="place-map",
        title="Coasts of the world",
        description="Longitude runs to the right, latitude upwards.",
        width=width,
        height=_TOP + height,
        palette=palette,
        body=body,
        data={"degree": number(degree, decimals=4), "top": number(_TOP)},
    )


def _side(angle: int, sides: str) -> str:
    return sides[0] if angle > 0 else sides[1] if angle < 0 else ""


def _pieces(coast: Floats) -> list[Floats]:
    """A coast [deg] cut where it goes round the edge of the map."""
    cuts = np.flatnonzero(np.abs(np.diff(coast[:, 0])) > _LEAP) + 1
    return [piece for piece in np.split(coast, cuts) if len(piece) > 1]
