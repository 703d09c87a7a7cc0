"""The ground around a foot from above, to scale: circles, guys and their key."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, factor_of, unit_of, write
from boomwright.base.records import dataclass
from boomwright.charts.canvas import document, group, line, number, pen, tag, text
from boomwright.charts.palette import Palette
from boomwright.charts.reach.shaded_field import halo_text
from boomwright.charts.scale import nice_step

if TYPE_CHECKING:
    from boomwright.structure import GuyLevel

#: width from which the key stands in single lines [user units]
_WIDE = 500.0


def distance_text(value: float, system: UnitSystem) -> str:
    """Write a distance on the ground as a key or label needs it.

    Args:
        value: the distance [m]
    """
    return write(Quantity(value, "span"), system=system)


def scale_bar(*, x: float, y: float, scale: float, palette: Palette, system: UnitSystem) -> str:
    """Draw a bar of a round length.

    Args:
        x: its left end [user units]
        y: its place from above [user units]
        scale: user units in a metre [1/m]
    """
    unit = 1.0 / factor_of("height", system=system)
    step = nice_step(span=110.0 / scale / unit, count=1)
    long = step * unit * scale
    name = f"{step:g} {unit_of('height', system=system)}"
    ink = pen(palette.ink, "1")
    return group(
        [
            line(x, y, x + long, y, **ink),
            line(x, y - 4.0, x, y + 4.0, **ink),
            line(x + long, y - 4.0, x + long, y + 4.0, **ink),
            text(x + long + 6.0, y, name, fill=palette.ink),
        ],
        data_part="scale",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle around the foot with its line in the key."""

    radius: float  #: its radius [m]
    words: str
    colour: str
    dash: str = ""
    opacity: float = 0.0  #: how much of its colour fills it, 0 for nothing [-]
    part: str | None = None
    shown: bool = True  #: whether it fits into the picture
    #: east and north of the foot: the other end of a line that it runs around [m] (2,)
    to: tuple[float, float] = (0.0, 0.0)

    def drawn(self, foot: tuple[float, float], scale: float) -> list[str]:
        """Draw it.

        Args:
            foot: the foot in the picture [user units] (2,)
            scale: user units in a metre [1/m]
        """
        if not self.shown:
            return []
        filled = {"fill": self.colour, "fill_opacity": str(self.opacity)}
        if any(self.to):
            return [self._around(foot, scale, filled)]
        return [
            tag("circle", cx=foot[0], cy=foot[1], r=self.radius * scale,
                **(filled if self.opacity else {"fill": "none"}),
                **pen(self.colour, "1.5", self.dash),
                data_radius=number(self.radius), data_part=self.part)
        ]  # fmt: skip

    def _around(self, foot: tuple[float, float], scale: float, filled: dict[str, str]) -> str:
        """Draw it around a line: two half circles and what touches both."""
        long = math.hypot(*self.to)
        east, north = (each / long * self.radius * scale for each in self.to)
        far = (foot[0] + self.to[0] * scale, foot[1] - self.to[1] * scale)
        reach = number(self.radius * scale)
        # Square to the line, on either side of it.
        ends = ((foot, -1.0), (foot, 1.0), (far, 1.0), (far, -1.0))
        at = [f"{number(x + side * north)} {number(y + side * east)}" for (x, y), side in ends]
        return tag("path", d=f"M {at[0]} A {reach} {reach} 0 0 0 {at[1]} L {at[2]} "
                   f"A {reach} {reach} 0 0 0 {at[3]} Z",
                   **(filled if self.opacity else {"fill": "none"}),
                   **pen(self.colour, "1.5", self.dash),
                   data_radius=number(self.radius), data_part=self.part)  # fmt: skip


def ground_view(
    circles: Sequence[Circle],
    *,
    guys: Sequence[GuyLevel],
    reach: float,
    kind: str,
    title: str,
    description: str,
    palette: Palette,
    system: UnitSystem,
    width: float,
    marks: Callable[[tuple[float, float], float], Sequence[str]] | None = None,
) -> str:
    """Draw circles and guys around the foot, north up, with their key.

    Args:
        marks: draws what else stands there, from the foot in the picture and its scale
        reach: half of what the picture shows [m]
    """
    # On a wide picture the key is one line each.
    wide = width >= _WIDE
    key, step = (284.0, 21.0) if wide else (206.0, 37.0)
    room = width - key - 24.0
    scale = room / (2.0 * reach)
    x, y = 14.0 + 0.5 * room, 34.0 + 0.5 * room
    height = max(room + 74.0, 70.0 + step * (len(circles) + bool(guys)))
    body, row = [], 70.0
    for circle in circles:
        body += circle.drawn((x, y), scale)
        told = (circle.words, distance_text(circle.radius, system), circle.colour, circle.dash)
        body += _key(width - key, row, *told, palette, beside=wide)
        row += step
    if guys:
        body += _guys_from_above(guys, (x, y), scale, palette)
        nearest = distance_text(min(ring.anchor_radius for ring in guys), system)
        told = ("guys to anchors", nearest, palette.quiet, "")
        body += _key(width - key, row, *told, palette, beside=wide)
    if marks is not None:
        body += marks((x, y), scale)
    body += _north(22.0, 40.0, palette)
    body.append(tag("circle", cx=x, cy=y, r=3.5, fill=palette.ink, data_part="foot"))
    body.append(halo_text(x, y + 12.0, "foot", fill=palette.ink, palette=palette, anchor="middle"))
    body.append(scale_bar(x=16.0, y=height - 14.0, scale=scale, palette=palette, system=system))
    return document(
        kind=kind, title=title, description=description, width=width, height=height,
        palette=palette, body=body,
        data={"scale": number(scale, decimals=6), "origin-x": number(x), "origin-y": number(y)},
    )  # fmt: skip


def _guys_from_above(
    guys: Sequence[GuyLevel], foot: tuple[float, float], scale: float, palette: Palette
) -> Iterator[str]:
    """Draw every guy to its anchor, north up."""
    for ring in guys:
        for number_ in range(ring.count):
            bearing = ring.first_azimuth + 2.0 * math.pi * number_ / ring.count
            x = foot[0] + ring.anchor_radius * scale * math.sin(bearing)
            y = foot[1] - ring.anchor_radius * scale * math.cos(bearing)
            yield line(*foot, x, y, **pen(palette.quiet, "1.3"), data_part="guy")
            yield tag("rect", x=x - 3.0, y=y - 3.0, width=6.0, height=6.0, fill=palette.quiet,
                      data_part="anchor", data_radius=number(ring.anchor_radius))  # fmt: skip


def _north(x: float, y: float, palette: Palette) -> list[str]:
    return [
        line(x, y, x, y + 12.0, **pen(palette.quiet, "1.2"), data_part="north"),
        line(x, y, x - 3.0, y + 5.0, **pen(palette.quiet, "1.2")),
        line(x, y, x + 3.0, y + 5.0, **pen(palette.quiet, "1.2")),
        text(x + 6.0, y + 6.0, "N", fill=palette.quiet),
    ]


def _key(
    x: float, y: float, words: str, value: str, colour: str, dash: str, palette: Palette, *,
    beside: bool,
) -> list[str]:  # fmt: skip
    at = (x + 100.0, y) if beside else (x, y + 15.0)
    return [
        line(x, y, x + 22.0, y, **pen(colour, "2", dash)),
        text(x + 28.0, y, value, fill=palette.ink, size=11.0, bold=True),
        text(*at, words, fill=palette.ink),
    ]
