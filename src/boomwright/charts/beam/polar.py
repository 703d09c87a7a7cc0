"""The polar frame that azimuth and elevation patterns stand on.

The radius is straight in decibels below the strongest gain drawn, from the outer ring down to
the centre. The heading always points to the right of the sheet, as in the plan view.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from boomwright.base.records import dataclass, replace
from boomwright.charts.canvas import arrow_head, line, number, path_data, pen, tag, text
from boomwright.charts.labels import Box, text_box, text_width
from boomwright.charts.palette import Palette
from boomwright.charts.scale import signed

#: level at the centre, below the outer ring [dB]
RANGE_DB = 40.0
#: rings drawn, below the outer ring [dB]
RINGS_DB = (0.0, 3.0, 10.0, 20.0, 30.0)
_RING_SIZE = 10.0
# Upwards first, where a reader looks for them; a spoke rather than between two.
_RING_SPOKES = (90.0, 120.0, 60.0, 150.0, 105.0, 75.0, 135.0)
_SPOKE_SIZE = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PolarFrame:
    """Where a polar picture stands and what its outer ring means."""

    x: float  #: centre [user units]
    y: float  #: centre [user units]
    radius: float  #: radius of the outer ring [user units]
    top_dbi: float  #: gain at the outer ring [dBi]
    half: bool  #: whether only the upper half is drawn

    def radii(self, gain_dbi: ArrayLike) -> NDArray[np.float64]:
        """Find the radius of gains.

        Args:
            gain_dbi: [dBi] (n,)

        Returns:
            radii, 0 for all below the centre's level [user units] (n,)
        """
        below = np.asarray(gain_dbi, dtype=float) - self.top_dbi
        return np.asarray(self.radius * np.clip(1.0 + below / RANGE_DB, 0.0, 1.0))

    def places(
        self, *, angle_deg: ArrayLike, gain_dbi: ArrayLike
    ) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Find the places of gains at angles.

        Args:
            angle_deg: angles, counter-clockwise from the heading [deg] (n,)
            gain_dbi: [dBi] (n,)

        Returns:
            horizontal and vertical places [user units] (n,)
        """
        angle = np.radians(np.asarray(angle_deg, dtype=float))
        radius = self.radii(gain_dbi)
        return self.x + radius * np.cos(angle), self.y - radius * np.sin(angle)

    def at(self, *, angle_deg: float, radius: float) -> tuple[float, float]:
        """Find the place at an angle and a radius.

        Args:
            angle_deg: angle, counter-clockwise from the heading [deg]
            radius: distance from the centre [user units]

        Returns:
            horizontal and vertical place [user units]
        """
        angle = math.radians(angle_deg)
        return self.x + radius * math.cos(angle), self.y - radius * math.sin(angle)

    def data(self) -> dict[str, str]:
        """Give the mapping from gain and angle to places, for the root of the picture."""
        return {
            "centre-x": number(self.x),
            "centre-y": number(self.y),
            "radius": number(self.radius),
            "range-db": number(RANGE_DB),
            "top-dbi": number(self.top_dbi, decimals=6),
        }


def arc(*, frame: PolarFrame, radius: float, start_deg: float, end_deg: float) -> str:
    """Path of an arc about the centre, counter-clockwise.

    Args:
        radius: [user units]
        start_deg: where it starts [deg]
        end_deg: where it ends, above the start by less than 360 [deg]
    """
    x1, y1 = frame.at(angle_deg=start_deg, radius=radius)
    x2, y2 = frame.at(angle_deg=end_deg, radius=radius)
    large = int(end_deg - start_deg > 180.0)
    r = number(radius)
    return f"M{number(x1)},{number(y1)}A{r},{r} 0 {large} 0 {number(x2)},{number(y2)}"


def _ring(*, frame: PolarFrame, level: float, palette: Palette) -> str:
    radius = frame.radius * (1.0 - level / RANGE_DB)
    stroke = pen(palette.grid, "1" if level == 0.0 else "0.6")
    if frame.half:
        d = arc(frame=frame, radius=radius, start_deg=0.0, end_deg=180.0)
        return tag("path", d=d, fill="none", **stroke)
    return tag("circle", cx=frame.x, cy=frame.y, r=radius, fill="none", **stroke)


def _spokes(*, half: bool) -> tuple[int, ...]:
    return tuple(range(0, 181 if half else 360, 30))


@lru_cache(maxsize=16)
def _grid(*, frame: PolarFrame, palette: Palette) -> tuple[str, ...]:
    """Rings and spokes; the same for every gain, so that a drag draws them once."""
    inner = frame.radius * (1.0 - RINGS_DB[-1] / RANGE_DB)
    made = [_ring(frame=frame, level=level, palette=palette) for level in RINGS_DB]
    for angle in _spokes(half=frame.half):
        x1, y1 = frame.at(angle_deg=angle, radius=inner)
        x2, y2 = frame.at(angle_deg=angle, radius=frame.radius)
        made.append(line(x1, y1, x2, y2, **pen(palette.grid, "0.6")))
    return tuple(made)


def _ring_places(
    *, frame: PolarFrame, curves: NDArray[np.float64] | None
) -> list[tuple[float, float, str]]:
    """Ring labels along the spoke where the fewest of them lie on a curve."""
    angles = _RING_SPOKES if frame.half else (*_RING_SPOKES, *(-a for a in _RING_SPOKES))
    names = [f"−{level:.0f}" for level in RINGS_DB[1:]]
    radii = frame.radius * (1.0 - np.array(RINGS_DB[1:]) / RANGE_DB)
    turned = np.radians(angles)[:, None]
    x, y = frame.x + radii * np.cos(turned), frame.y - radii * np.sin(turned)
    best = 0
    if curves is not None:
        boxes = [text_box(0.0, 0.0, name, size=_RING_SIZE, anchor="middle") for name in names]
        wide = np.array([box.right for box in boxes]) + 2.0
        high = np.array([box.bottom for box in boxes]) + 2.0
        beside = np.abs(curves[0] - x[..., None]) < wide[:, None]
        covered = (beside & (np.abs(curves[1] - y[..., None]) < high[:, None])).any(axis=2)
        best = int(covered.sum(axis=1).argmin())
    return [(float(x[best, i]), float(y[best, i]), name) for i, name in enumerate(names)]


def _ring_labels(
    frame: PolarFrame, palette: Palette, curves: NDArray[np.float64] | None
) -> Iterator[str]:
    for x, y, content in _ring_places(frame=frame, curves=curves):
        wide = text_width(content, size=_RING_SIZE) + 4.0
        yield tag("rect", x=x - wide / 2, y=y - 5.0, width=wide, height=10.0, fill=palette.paper)
        yield text(x, y, content, fill=palette.quiet, size=_RING_SIZE, anchor="middle")


def _rim_label(content: str, frame: PolarFrame, palette: Palette, *, angle: int) -> tuple[str, Box]:
    x, y = frame.at(angle_deg=angle, radius=frame.radius + 8.0)
    cosine = math.cos(math.radians(angle))
    anchor = "middle" if abs(cosine) < 0.2 else "start" if cosine > 0.0 else "end"
    y -= 5.0 * math.sin(math.radians(angle))
    made = text(x, y, content, fill=palette.quiet, size=_SPOKE_SIZE, anchor=anchor)
    return made, text_box(x, y, content, size=_SPOKE_SIZE, anchor=anchor)


@lru_cache(maxsize=16)
def _rim_labels(*, frame: PolarFrame, palette: Palette) -> tuple[tuple[str, Box], ...]:
    """Angles off the heading along the rim, to either side; the same for every gain."""
    return tuple(
        _rim_label(f"{min(angle, 360 - angle)}°", frame, palette, angle=angle)
        for angle in _spokes(half=frame.half)[1:]
    )


def polar_frame(
    *, frame: PolarFrame, palette: Palette, curves: NDArray[np.float64] | None = None
) -> tuple[list[str], list[Box]]:
    """Draw rings, spokes, their labels and the heading.

    Args:
        curves: points of curves that the labels of the rings keep clear of, x first [user
            units] (2, n)

    Returns:
        finished elements, and the rectangles their outer labels cover [user units]
    """
    any_gain = replace(frame, top_dbi=0.0)
    made = list(_grid(frame=any_gain, palette=palette))
    made += _ring_labels(frame, palette, curves)
    top = f"0 dB = {signed(frame.top_dbi, decimals=1)} dBi"
    rim = [*_rim_labels(frame=any_gain, palette=palette), _rim_label(top, frame, palette, angle=75)]
    made += [label for label, _ in rim]
    boxes = [box for _, box in rim]
    x, y = frame.x + frame.radius, frame.y
    made.append(line(x + 3.0, y, x + 22.0, y, **pen(palette.accent, "1.4")))
    made.append(arrow_head(x + 28.0, y, angle=0.0, fill=palette.accent))
    made.append(text(x + 32.0, y, "heading", fill=palette.ink, size=_SPOKE_SIZE))
    boxes.append(text_box(x + 3.0, y, "heading", size=_SPOKE_SIZE))
    boxes.append(text_box(x + 32.0, y, "heading", size=_SPOKE_SIZE))
    if frame.half:
        x1, x2 = frame.x - frame.radius - 6.0, frame.x + frame.radius
        made.append(tag("path", d=path_data([x1, x2], [y, y]), **pen(palette.ink, "1.6")))
        made.append(
            text(frame.x, y + 12.0, "ground", fill=palette.quiet, size=_SPOKE_SIZE, anchor="middle")
        )
    return made, boxes
