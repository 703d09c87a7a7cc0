"""Where labels go: the width of text, and keeping labels off one another."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass

# Advance widths of the printable ASCII characters of DejaVu Sans in 1/1000 em
# {dejavu-fonts-2-37}, from the font's hmtx table.
_ADVANCES = (
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361, 318, 337,
    636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531,
    1000, 684, 686, 698, 770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787,
    603, 787, 695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
    500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974, 634, 612,
    635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636, 337, 636, 838,
)  # fmt: skip
_OTHERS = {"−": 838, "°": 500, "·": 318, "×": 838, "Ø": 787, "∠": 896}
_UNKNOWN = 800
#: units that stay on the line of their figure
_UNITS = {"mm", "m", "in", "ft"}


def text_width(content: str, *, size: float) -> float:
    """Width of a line of text in DejaVu Sans.

    Returns:
        its advance width [user units]
    """
    total = sum(
        _ADVANCES[ord(c) - 32] if " " <= c <= "~" else _OTHERS.get(c, _UNKNOWN) for c in content
    )
    return total * size / 1000.0


def wrapped(content: str, *, size: float, room: float) -> list[str]:
    """Break a text into lines between its words, not within a length; nothing of it is lost.

    Args:
        room: width of a line [user units]
    """
    lines: list[str] = []
    for word in _unbroken(content.split()):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size=size) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _unbroken(words: list[str]) -> list[str]:
    """Join each figure with the fraction or unit that follows it."""
    found: list[str] = []
    for word in words:
        follows = word.rstrip(",;:.)") in _UNITS or (word[0].isdigit() and "/" in word)
        if follows and found and found[-1][-1].isdigit():
            found[-1] = f"{found[-1]} {word}"
        else:
            found.append(word)
    return found


def shortened(content: str, *, size: float, room: float) -> str:
    """Cut a text that is too long for its room, marking the cut.

    Args:
        room: width it may take [user units]
    """
    if text_width(content, size=size) <= room:
        return content
    kept = content
    while kept and text_width(kept + "...", size=size) > room:
        kept = kept[:-1]
    return kept.rstrip() + "..."


def spread(centres: Sequence[float], *, room: float) -> tuple[float, ...]:
    """Move places apart, as little as possible, until each has its room.

    Args:
        centres: wished places, rising [user units] (n,)
        room: least distance between two neighbours [user units]

    Returns:
        places in the same order, least squares of the moves [user units] (n,)
    """
    # Pool adjacent violators on centre - i * room, which must not fall.
    blocks: list[tuple[float, int]] = []
    for i, centre in enumerate(centres):
        mean, count = centre - i * room, 1
        while blocks and blocks[-1][0] > mean:
            other, weight = blocks.pop()
            mean = (mean * count + other * weight) / (count + weight)
            count += weight
        blocks.append((mean, count))
    flat = [mean for mean, count in blocks for _ in range(count)]
    return tuple(value + i * room for i, value in enumerate(flat))


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """An upright rectangle on the paper."""

    left: float  #: left edge [user units]
    top: float  #: upper edge [user units]
    right: float  #: right edge [user units]
    bottom: float  #: lower edge [user units]

    def meets(self, other: Box) -> bool:
        """Tell whether two rectangles share more than an edge; True when they overlap."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )

    def within(self, other: Box) -> bool:
        """Tell whether this rectangle lies inside another; True when it does, edges included."""
        return (
            self.left >= other.left
            and self.right <= other.right
            and self.top >= other.top
            and self.bottom <= other.bottom
        )

    def holds_any(self, points: NDArray[np.float64]) -> bool:
        """Tell whether a point lies in the rectangle or within 2 units of it; True when any does.

        Args:
            points: places, x first [user units] (2, n)
        """
        x, y = points
        inside = (x > self.left - 2.0) & (x < self.right + 2.0)
        return bool(np.any(inside & (y > self.top - 2.0) & (y < self.bottom + 2.0)))


def text_box(x: float, y: float, content: str, /, *, size: float, anchor: str = "start") -> Box:
    """Rectangle that a level line of text, centred on y, covers [user units].

    Args:
        anchor: ``start``, ``middle`` or ``end``
    """
    width = text_width(content, size=size)
    left = x - {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor] * width
    half = 0.55 * size
    return Box(left=left, top=y - half, right=left + width, bottom=y + half)


def first_free(
    candidates: Sequence[tuple[float, float, str]],
    content: str,
    /,
    *,
    size: float,
    taken: Sequence[Box],
    area: Box,
    points: NDArray[np.float64] | None = None,
) -> tuple[float, float, str, Box] | None:
    """Find the first place where a label fits without covering another.

    Args:
        candidates: places to try: x, y and anchor [user units]
        taken: rectangles already covered [user units]
        area: rectangle the label must stay in [user units]
        points: points of curves to keep clear of, x first; None for no curve [user units] (2, n)

    Returns:
        x, y, anchor and the rectangle covered, or None when nothing fits [user units]
    """
    for x, y, anchor in candidates:
        box = text_box(x, y, content, size=size, anchor=anchor)
        if (
            box.within(area)
            and not any(box.meets(other) for other in taken)
            and (points is None or not box.holds_any(points))
        ):
            return x, y, anchor, box
    return None
