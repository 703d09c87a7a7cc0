"""Foot and anchors from above, north up: where each peg goes."""

from __future__ import annotations

import math
from typing import Literal

from boomwright.base import UnitSystem
from boomwright.base.quantity import Quantity, write
from boomwright.charts.drawing import Drawing, Note, Ring, Shape, Stroke
from boomwright.structure import GuyLevel

#: lettering over the width drawn [-]
_LETTERS = 1.0 / 62.0


def setting_out_drawing(guys: tuple[GuyLevel, ...], *, system: UnitSystem) -> Drawing:
    """Draw the pegs of foot and anchors.

    Args:
        guys: rings of guys, one at least (n_levels,)
    """
    reach = 1000.0 * max(guy.anchor_radius for guy in guys)
    high = 5.8 * reach * _LETTERS
    half = 2.9 * reach
    shapes: list[Shape] = [
        Ring(layer="HOLES", centre=(0.0, 0.0), diameter=0.8 * high),
        _foot(guys[0], high),
        *_north(-half + high, reach, high),
        # Keeps the whole width free for what is written beside the pegs.
        Stroke(layer="CENTRE", points=((-half, 0.0), (-half, 0.0))),
        Stroke(layer="CENTRE", points=((half, 0.0), (half, 0.0))),
    ]
    words = []
    pegs = ((guy.anchor_radius, guy.count, guy.first_azimuth) for guy in guys)
    for radius, count, first in dict.fromkeys(pegs):
        made, said = _ring(radius, count, first, high=high, system=system)
        shapes += made
        words.append(said)
    return Drawing(
        name="setting-out",
        title="Foot and anchors from above",
        description=f"{'; '.join(words)}. North is up.",
        shapes=tuple(shapes),
        text_height=high,
    )


def _foot(guy: GuyLevel, high: float) -> Note:
    """Its name between two lines to the anchors."""
    angle = guy.first_azimuth + math.pi / guy.count
    x, y = 1.6 * high * math.sin(angle), 1.6 * high * math.cos(angle)
    return Note(at=(x, y), text="foot", anchor="start" if x >= 0.0 else "end")


def _north(x: float, reach: float, high: float) -> list[Shape]:
    top = reach
    return [
        Stroke(layer="DIMENSIONS", points=((x, top - 6.0 * high), (x, top))),
        Stroke(
            layer="DIMENSIONS",
            points=(
                (x - 0.6 * high, top - 1.6 * high),
                (x, top),
                (x + 0.6 * high, top - 1.6 * high),
            ),
        ),
        Note(at=(x + 1.0 * high, top - 3.0 * high), text="true north"),
    ]


def _ring(
    radius: float, count: int, first: float, *, high: float, system: UnitSystem
) -> tuple[list[Shape], str]:
    """Pegs of one ring, with the side between neighbours that checks them."""
    shapes: list[Shape] = []
    angles = [first + 2.0 * math.pi * number / count for number in range(count)]
    pegs = [(1e3 * radius * math.sin(a), 1e3 * radius * math.cos(a)) for a in angles]
    out = write(Quantity(radius, "span"), system=system)
    for angle, (x, y) in zip(angles, pegs, strict=True):
        left = math.sin(angle) < -1e-9
        beside = x + (-0.9 if left else 0.9) * high
        anchor: Literal["start", "end"] = "end" if left else "start"
        shapes += [
            Stroke(layer="OUTLINE", points=((0.0, 0.0), (x, y))),
            Ring(layer="HOLES", centre=(x, y), diameter=0.8 * high),
            Note(at=(beside, y + 0.9 * high), text=f"{math.degrees(angle) % 360.0:.0f}° true",
                 anchor=anchor),
            Note(at=(beside, y - 0.9 * high), text=out, size=0.9, anchor=anchor),
        ]  # fmt: skip
    side = write(Quantity(2.0 * radius * math.sin(math.pi / count), "span"), system=system)
    words = f"{count} anchors {out} from the foot"
    if count < 3:
        return shapes, words
    shapes.append(Stroke(layer="HIDDEN", points=tuple(pegs), closed=True))
    # Written on the lowest side, where no line from the foot passes.
    ends = min(
        zip(pegs, (*pegs[1:], pegs[0]), strict=True), key=lambda pair: pair[0][1] + pair[1][1]
    )
    middle = tuple(0.5 * (a + b) for a, b in zip(*ends, strict=True))
    shapes.append(
        Note(at=(middle[0], middle[1] - 1.2 * high), text=f"peg to peg {side}", size=0.9,
             anchor="middle")
    )  # fmt: skip
    return shapes, f"{words}, {side} from each to the next"
