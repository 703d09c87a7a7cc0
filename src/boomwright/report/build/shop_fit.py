"""Whether each tube sits close in the next larger one; too tight ones the plan is told of."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, phrase
from boomwright.report.build.shop import ShopElement

#: more play than this wants a shim [m] {common-practice-tubing}
_MOST_PLAY: Final = 0.0009


def fit_notices(elements: tuple[ShopElement, ...]) -> tuple[Notice, ...]:
    """Hold the bore of every tube against the tube that goes into it."""
    found: dict[tuple[float, float, float], list[str]] = {}
    for element in elements:
        for outer, inner in pairwise(element.tubes):
            large, small = outer.kind, inner.kind
            if small.diameter < large.diameter:
                key = (large.diameter, large.wall, small.diameter)
                found.setdefault(key, []).append(f"{element.cut.number}.{inner.section}")
    notices = [_judge(key, joints) for key, joints in found.items()]
    return tuple(notice for notice in notices if notice is not None)


def _judge(key: tuple[float, float, float], joints: list[str]) -> Notice | None:
    outer, wall, inner = key
    where = phrase("tubes {}, Ø {:wire size} into Ø {:wire size}", ", ".join(joints), inner, outer)
    if wall == 0.0:
        return Notice(
            code="book.fit-unknown",
            text=phrase(
                "Whether the tubes slide into each other is not known ({where}): give walls, or "
                "try it before buying all of them.",
                where=where,
            ),
            severity="doubt",
        )
    play = outer - 2.0 * wall - inner
    value = Quantity(play, "wire size")
    if play > _MOST_PLAY:
        return Notice(
            code="book.tube-fits-loosely",
            text=phrase(
                "Loose joint: {where}. Fill it with a shim or sleeve of the same metal, or it "
                "rattles and loses contact.",
                where=where,
            ),
            severity="caution",
            value=value,
            limit=phrase("{play:wire size} play", play=_MOST_PLAY),
            source="common-practice-tubing",
        )
    return None
