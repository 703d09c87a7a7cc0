"""``[reach]``: places and angles wanted, terrain, layers, far grounds, stack and ring."""

from __future__ import annotations

import math

from boomwright.base.quantity import phrase
from boomwright.plan.directions import LOCATOR_EXAMPLE, checked_locator
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import above_zero, entry, from_zero, tables, words
from boomwright.plan.kinds import Parsed, Text
from boomwright.plan.lists import ListOf
from boomwright.plan.model_station import FarGroundPlan, ReachPlan, TargetPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import Field, Tables, TableSpec, Values
from boomwright.plan.tables.permits import POSITION
from boomwright.plan.tables.site import GROUND_FIELD


def _check_target(values: Values, at: Place) -> None:
    given = {"position", "locator"} & values.keys()
    if len(given) == 2:
        message = "position and locator both say where it is"
        at.child("locator").fault(message, remedy="keep the one that is right")
    elif not given:
        message = "nothing says where this target is"
        remedy = phrase("add {it}", it=written("locator", f'"{LOCATOR_EXAMPLE}"'))
        at.child("position").fault(message, remedy=remedy)


TARGET = TableSpec(
    noun="target",
    model=TargetPlan,
    check=_check_target,
    fields=(
        words("name", "Owner's name for the place.", longest=64, required=True, example="Azores"),
        entry("position", "Latitude and longitude.", POSITION),
        entry("locator", "Locator square, in place of the position.",
              Parsed(parse=checked_locator, example=LOCATOR_EXAMPLE)),
    ),
)  # fmt: skip


def _check_layer(values: Values, at: Place) -> None:
    low, high = values.get("lowest"), values.get("highest")
    if low is not None and high is not None and high < low:
        message = "the highest mirror height lies below the lowest"
        at.child("highest").fault(message, remedy="write the lower height first")


def _height(key: str, text: str) -> Field:
    kind = Quantity(dimension="length", low=50e3, high=1000e3)
    return Field(key=key, kind=kind, help=text, required=True, example=f'{key} = "250 km"')


LAYER = TableSpec(
    noun="layer",
    model="reach.hops:Layer",
    check=_check_layer,
    fields=(
        words("name", "Its letter.", longest=8, required=True, example="F2"),
        _height("lowest", "Lowest mirror height."),
        _height("highest", "Highest mirror height."),
    ),
)

FAR_GROUND = TableSpec(
    noun="far ground",
    model=FarGroundPlan,
    fields=(
        above_zero("distance", "length", "Where it begins, towards the heading.",
                   required=True, example="300 m"),
        GROUND_FIELD,
        from_zero("drop", "length", "How much lower it lies."),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    before = 0.0
    for index, zone in enumerate(values.get("far_ground") or ()):
        if zone.get("ground") == "free space":
            message = "a far ground cannot be free space"
            remedy = 'write a ground: "sea water"'
            at.child("far_ground", index, "ground").fault(message, remedy=remedy)
        begins = zone.get("distance")
        if begins is not None and begins <= before:
            message = "this zone does not begin beyond the one before it"
            remedy = f"write the zones outwards; this one from beyond {at.far(before)}"
            at.child("far_ground", index, "distance").fault(message, remedy=remedy)
        before = max(before, begins or 0.0)


REACH = TableSpec(
    noun="reach",
    model=ReachPlan,
    check=_check,
    fields=(
        tables("target", "Places to be reached.", TARGET, "reach"),
        words("terrain", "File with the terrain profile towards the heading.",
              example="terrain.csv"),
        entry("layer", "Layers to count with, in place of the usual ones.",
              Tables(spec=LAYER, header="[[reach.layer]]", least=0, most=8)),
        entry("far_ground", "Grounds that begin at some distance, nearest first.",
              Tables(spec=FAR_GROUND, header="[[reach.far_ground]]", least=0, most=4)),
        entry("wanted", "Elevations whose gain is followed against height and cost.",
              ListOf(item=Quantity(dimension="angle", low=0.0, high=math.pi / 2.0, above_low=True),
                     most=5, example='["10 deg", "20 deg"]')),
        words("ring", "Name of the beam that turns on a ring while the others stay.",
              example="20m").names("beam"),
        entry("stack", "Names of the beams that are fed together.",
              ListOf(item=Text(longest=64), least=2, most=8, example='["low", "high"]')),
    ),
)  # fmt: skip
