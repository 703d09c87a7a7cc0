"""``[[beam.wire]]``: a bent wire, loop or mast as straight pieces between points."""

from __future__ import annotations

import itertools

import numpy as np

from boomwright.parts import Wire
from boomwright.plan.building import build_given
from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, entry, words
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.element import LONGEST, WIDEST
from boomwright.plan.tables.mount import INSULATION

_COORDINATE = Quantity(dimension="length", low=-LONGEST, high=LONGEST)
_POINTS_EXAMPLE = "[[0, 0, 0], [1.2, 3.0, 0]]"


def _check(values: Values, at: Place) -> None:
    pairs = itertools.pairwise(values.get("points") or [])
    for index, (before, after) in enumerate(pairs, start=1):
        if before is None or after is None or None in before or None in after:
            continue
        if before == after:
            message = "this point is the same as the one before it"
            at.child("points", index).fault(message, remedy="remove one of the two")


WIRE = TableSpec(
    noun="wire",
    check=_check,
    fields=(
        words("name", "Owner's name for the wire.", longest=64, required=True, example="tail"),
        above_zero("diameter", "length", "Outer diameter of the metal, without its insulation.",
                   high=WIDEST, required=True, example="2 mm"),
        entry("points",
              "Corner points: x along the boom, y along the elements, z up from the boom.",
              ListOf(item=Row(items=(_COORDINATE,) * 3, least=3, example="[1.2, 3.0, 0]",
                              names=("along the boom", "along the elements", "up")), least=2,
                     most=2000, example=_POINTS_EXAMPLE), required=True),
        entry("insulation", "Layer around the wire.", INSULATION),
    ),
)  # fmt: skip


def build_wire(values: Values) -> Wire:
    """Make a wire out of fault-free values."""
    points = np.array(values["points"], dtype=float)
    return Wire(
        name=values["name"],
        diameter=values["diameter"],
        points=points,
        insulation=build_given(INSULATION, values.get("insulation")),
    )
