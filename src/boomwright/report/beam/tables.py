"""The tables of the book as rows of text: dimensions, tubes, wires."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np

from boomwright.base import UnitSystem
from boomwright.base.unit_text import METRES_PER_INCH
from boomwright.parts import Wire
from boomwright.report.build.dimensions import CutLength, ElementCut, SectionCut, cut_length
from boomwright.report.wording import clean, fixed

#: a table: header groups with their spans, units, column shares, alignments, rows of text
Table = dict[str, Any]


def _table(
    *,
    groups: Sequence[tuple[str, int]],
    units: Sequence[str],
    shares: Sequence[float],
    align: str,
    rows: Sequence[Sequence[str]],
) -> Table:
    return {
        "groups": [{"title": title, "span": span} for title, span in groups],
        "units": list(units),
        "shares": list(shares),
        "align": ["left" if letter == "l" else "right" for letter in align],
        "rows": [list(row) for row in rows],
    }


def _pair(length: CutLength | None, *, system: UnitSystem) -> list[str]:
    if length is None:
        return ["–", "–"]
    pair = [str(length.millimetres), length.us_text]
    return pair if system == "metric" else pair[::-1]


def _units(system: UnitSystem) -> list[str]:
    return ["mm", "ft, in"] if system == "metric" else ["ft, in", "mm"]


def _size_pair(size: float, *, system: UnitSystem) -> list[str]:
    if size == 0.0:
        return ["–", "–"]
    pair = [fixed(size * 1000.0, 2), fixed(size / METRES_PER_INCH, 3)]
    return pair if system == "metric" else pair[::-1]


def boom_table(*, cuts: Sequence[ElementCut], system: UnitSystem) -> Table:
    """Places of the elements along the boom.

    Args:
        cuts: shop dimensions, rear to front (n_elements,)
    """
    rows = [
        [
            str(cut.number),
            cut.label,
            *_pair(cut.from_rear, system=system),
            *_pair(cut.from_front, system=system),
            *_pair(cut.to_next, system=system),
        ]
        for cut in cuts
    ]
    return _table(
        groups=[("No.", 1), ("Element", 1), ("From rear", 2), ("From front", 2), ("To next", 2)],
        units=["", "", *_units(system) * 3],
        shares=[0.45, 1.25, *[1.0, 1.35] * 3]
        if system == "metric"
        else [0.45, 1.25, *[1.35, 1.0] * 3],
        align="llrrrrrr",
        rows=rows,
    )


def length_table(*, cuts: Sequence[ElementCut], system: UnitSystem) -> Table:
    """Half and full lengths of the elements.

    Args:
        cuts: shop dimensions, rear to front (n_elements,)
    """
    rows = [
        [
            str(cut.number),
            cut.label,
            *_pair(cut.half_length, system=system),
            *_pair(cut.full_length, system=system),
            str(len(cut.sections)),
        ]
        for cut in cuts
    ]
    return _table(
        groups=[
            ("No.", 1),
            ("Element", 1),
            ("Half length, boom to tip", 2),
            ("Full length, tip to tip", 2),
            ("Tubes per half", 1),
        ],
        units=["", "", *_units(system) * 2, ""],
        shares=[0.45, 1.25, *([1.0, 1.4] if system == "metric" else [1.4, 1.0]) * 2, 1.1],
        align="llrrrrr",
        rows=rows,
    )


def _tube_row(section: SectionCut, *, walls: bool, system: UnitSystem) -> list[str]:
    row = [str(section.number), *_size_pair(section.diameter, system=system)]
    if walls:
        row += _size_pair(section.wall, system=system)
    return row + _pair(section.exposed, system=system) + _pair(section.reaches, system=system)


def tube_table(*, cut: ElementCut, system: UnitSystem) -> Table:
    """Tubes of one element half, from the boom outwards."""
    walls = any(section.wall for section in cut.sections)
    sizes = ["mm", "in"] if system == "metric" else ["in", "mm"]
    count = 2 if walls else 1
    groups = [("Tube", 1), ("Outer diameter", 2), ("Wall", 2)][: count + 1]
    return _table(
        groups=[*groups, ("Exposed length", 2), ("Reaches from boom", 2)],
        units=["", *sizes * count, *_units(system) * 2],
        shares=[
            0.6,
            *[0.8, 0.8] * count,
            *([1.0, 1.45] if system == "metric" else [1.45, 1.0]) * 2,
        ],
        align="l" + "rr" * (count + 2),
        rows=[_tube_row(section, walls=walls, system=system) for section in cut.sections],
    )


def wire_table(*, wires: Sequence[Wire], system: UnitSystem) -> Table:
    """Corner points of the plan's further wires."""
    rows = []
    for wire in wires:
        reached = 0.0
        for number, point in enumerate(wire.points, start=1):
            if number > 1:
                reached += math.dist(point, wire.points[number - 2])
            first = number == 1
            rows.append(
                [
                    clean(wire.name) if first else "",
                    fixed(wire.diameter * 1000.0, 2) if first else "",
                    str(number),
                    *(fixed(float(c), 3) for c in np.asarray(point)),
                    *_pair(cut_length(reached), system=system),
                ]
            )
    return _table(
        groups=[("Wire", 1), ("Diameter", 1), ("Corner", 1), ("Place", 3), ("Along the wire", 2)],
        units=["", "mm", "", "x, m", "y, m", "z, m", *_units(system)],
        shares=[1.6, 0.9, 0.8, 0.9, 0.9, 0.9, 1.0, 1.3],
        align="lrrrrrrr",
        rows=rows,
    )
