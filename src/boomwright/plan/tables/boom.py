"""``[beam.boom]``: the boom of one beam, its tie and what sits on it."""

from __future__ import annotations

from itertools import pairwise

from boomwright.base.quantity import Value, phrase, settled
from boomwright.parts import SLEEVE_REACH, STOOD_FOR, BoomFitting, Hardware
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import (
    LONGEST,
    THINNEST_WALL,
    above_zero,
    choice,
    either_sign,
    entry,
    from_zero,
    tables,
    words,
)
from boomwright.plan.lists import ListOf, Row
from boomwright.plan.model_boom import BoomPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.vocabulary import METALS


def check_wall(values: Values, at: Place) -> None:
    """Report a wall that does not fit into its tube.

    Args:
        values: values with ``diameter`` and ``wall`` [m]
    """
    diameter, wall = values.get("diameter"), values.get("wall")
    if diameter is not None and wall is not None and wall >= diameter / 2:
        message = "the wall is as thick as the radius of the tube, or thicker"
        at.child("wall").fault(message, remedy=f"write a wall below {at.wide(diameter / 2.0)}")


#: thickest tie accepted [m^2]
_TIE = 1e-2

TIE = TableSpec(
    noun="boom tie",
    model="structure.beam.boom:BoomTie",
    fields=(
        above_zero("share", "ratio", "Place of the tie along each boom arm, from mast 0 to end 1.",
                   high=1.0, required=True, example="0.65"),
        above_zero("rise", "length", "Height of its upper end above the boom.", required=True),
        above_zero("area", "area", "Cross section of the tie.", high=_TIE, required=True,
                   example="12 mm2"),
        above_zero(
            "elastic_modulus",
            "pressure",
            "Young's modulus of the tie; rope is far below its fibre.",
            required=True,
            example="100 GPa",
        ),
    ),
)  # fmt: skip


#: longest side of a plate, largest clamp, heaviest box accepted [m, m, kg]
_SIDE, _CLAMP, _BOX = 2.0, 1.0, 50.0
#: thickest boom, thinnest and thickest U-bolt, widest strap accepted [m]
_BOOM, _U_BOLTS, _WIDE_STRAP = 0.5, (0.003, 0.02), 0.2


def sides(example: str, *names: str, most: float = _SIDE, least: int = 0) -> Row:
    """Sides of something, each with its name.

    Args:
        most: longest accepted [m]
        least: fewest that may stand there; 0 for all
    """
    long = Quantity(dimension="length", low=0.0, high=most, above_low=True)
    return Row(items=(long,) * len(names), least=least or len(names), example=example, names=names)


BOX_SIDES = sides('["160 mm", "100 mm", "80 mm"]', "along the boom", "across it", "high")


def _check_fitting(values: Values, at: Place) -> None:
    if values.get("at") is None and not values.get("stands_for"):
        message = "the fitting has no place along the boom"
        remedy = phrase("give {at}, or {sum} when its mass is that of plates and clamps along the "
                        "boom", at=written("at"), sum=written("stands_for"))  # fmt: skip
        at.child("at").fault(message, remedy=remedy)


FITTING = TableSpec(
    noun="fitting",
    model=BoomFitting,
    check=_check_fitting,
    fields=(
        words("name", "What it is.", longest=64, required=True, example="balun"),
        either_sign(
            "at", "length", "Place along the boom; not needed with stands_for.", attribute="place"
        ),
        from_zero("mass", "mass", "Its mass.", high=1e4, required=True),
        from_zero("span", "length", "Length across the boom over which it is spread."),
        entry(
            "size",
            "Along the boom, across it, high; left out, a cube of 50 mm as wide as its span.",
            BOX_SIDES,
            example='size = ["120 mm", "80 mm", "60 mm"]',
        ),
        choice(
            "stands_for",
            tuple(STOOD_FOR),
            "group of parts",
            "Parts whose whole mass this is: it is shared among them and not added.",
        ),
    ),
)


#: what a rounded size may be off; play that no shim fills [m]
_ROUNDED, _LOOSE = 1e-4, 0.004
_SIDES = sides('["170 mm", "120 mm", "6 mm"]', "one side", "other side", "thickness")
_SLEEVE = sides('["44 mm", "3 mm", "500 mm"]', "outer diameter", "wall", "whole length")
_EYE = sides('["30 mm", "5 mm"]', "along the boom", "thickness", most=_WIDE_STRAP)
_STRAP = sides('["20 mm", "3 mm"]', "width", "thickness", most=_WIDE_STRAP)
_COUPLING = sides('["120 mm", "2 mm"]', "whole length", "wall")
_SPACER = sides('["12 mm", "20 mm", "1 m"]', "along the element", "high", "to the next", most=10.0)


def _check_hardware(values: Values, at: Place) -> None:
    sleeve = values.get("sleeve")
    if sleeve and None not in sleeve and 2.0 * sleeve[1] > sleeve[0]:
        message = "the wall of the sleeve is thicker than its radius"
        remedy = f"write a wall of {at.wide(sleeve[0] / 2.0)} or less"
        at.child("sleeve", 1).fault(message, remedy=remedy)


_WIRE_HARDWARE = (
    above_zero("end_insulator", "length", "Side of the insulator at the end of a wire; left out, "
               "30 mm.", high=1.0, example="30 mm"),
    from_zero("end_insulator_mass", "mass", "That insulator; left out, 20 g.", high=10.0,
              example="20 g"),
    above_zero("cord", "length", "Diameter of the cord between ends of wire; left out, 3 mm.",
               high=0.05, example="3 mm"),
)  # fmt: skip

HARDWARE = TableSpec(
    noun="hardware",
    model=Hardware,
    check=_check_hardware,
    fields=(
        entry("element_plate",
              "Plate under each element: along the element, along the boom, thickness; left out, "
              "laid out by common practice.", _SIDES,
              example='element_plate = ["170 mm", "120 mm", "6 mm"]'),
        entry("mast_plate",
              "Plate between boom and mast: along the boom, along the mast, thickness; left out, "
              "laid out by common practice.", _SIDES,
              example='mast_plate = ["200 mm", "200 mm", "10 mm"]'),
        entry("sleeve",
              "Sleeve inside each joint of the boom: outer diameter, wall, whole length; left "
              "out, five boom diameters to either side, as thick as the bore takes.", _SLEEVE,
              example='sleeve = ["44 mm", "3 mm", "500 mm"]'),
        above_zero("element_sleeve", "length", "Wall of the sleeves where two tubes of one size "
                   "meet in an element; left out, as thick as those tubes.", high=0.05,
                   example="6 mm"),
        above_zero("boom_clamp", "length", "Tube that the boom's clamps are made for; left out, "
                   "the boom.", high=_CLAMP, example="51 mm"),
        above_zero("mast_clamp", "length", "Tube that the mast's clamps are made for; left out, "
                   "the mast.", high=_CLAMP, example="60.3 mm"),
        choice("rods", ("forward", "rearward"), "way of the rods",
               "Way the rods of a match run along the boom; left out, away from the clamp or, "
               "without one, from the middle of the elements."),
        from_zero("box_mass", "mass", "Choke or balun box at the feed; left out, 0.8 kg.",
                  high=_BOX, example="0.8 kg").usually("0.8 kg"),
        entry("box", "Sides of that box; left out, 160 x 100 x 80 mm.", BOX_SIDES,
              example='box = ["160 mm", "100 mm", "80 mm"]'),
        from_zero("capacitor_mass", "mass", "Capacitor of a match in its box; left out, 0.4 kg.",
                  high=_BOX, example="0.4 kg"),
        entry("capacitor_box", "Sides of the capacitor's box; left out, 120 x 80 x 60 mm.",
              BOX_SIDES, example='capacitor_box = ["120 mm", "80 mm", "60 mm"]'),
        above_zero("u_bolt", "length", "Thread of the U-bolts; left out, 8 mm round tubes up to "
                   "65 mm, 10 mm round thicker ones.", low=_U_BOLTS[0], high=_U_BOLTS[1],
                   example="8 mm"),
        above_zero("saddle", "length", "Saddle under a tube at each U-bolt, along the tube; left "
                   "out, 30 mm.", high=_WIDE_STRAP, example="30 mm"),
        above_zero("shell", "length", "Thickness of the insulating shell between tube and U-bolt; "
                   "left out, 3 mm.", high=0.05, example="3 mm"),
        above_zero("insulating_rod", "length", "Length of the rod that joins the halves of a cut "
                   "element; left out, four diameters into each half.", high=_SIDE,
                   example="240 mm"),
        above_zero("tip_plug", "length", "How deep a tip plug sits; left out, 30 mm.", high=0.5,
                   example="30 mm"),
        above_zero("boom_cap", "length", "Thickness of a boom cap; left out, 3 mm.", high=0.05,
                   example="3 mm"),
        choice("truss_material", METALS, "metal", "Metal of the boom truss; left out, stainless "
               "steel."),
        entry("truss_eye", "Strip on the boom with the eye of its truss: along the boom, "
              "thickness.", _EYE, example='truss_eye = ["30 mm", "5 mm"]'),
        entry("strap", "Strap that shorts the rods of a match or ties one to its element: width, "
              "thickness.", _STRAP, example='strap = ["20 mm", "3 mm"]'),
        entry("coupling", "Coupling over two rods of a second conductor: whole length, wall.",
              _COUPLING, example='coupling = ["120 mm", "2 mm"]'),
        entry("spacer", "Spacer of a second conductor: along the element, high, and how far one "
              "is from the next at most.", _SPACER, example='spacer = ["12 mm", "20 mm", "1 m"]'),
        *_WIRE_HARDWARE,
    ),
)  # fmt: skip


def _check_sleeve(values: Values, at: Place) -> None:
    diameter, wall = values.get("diameter"), values.get("wall")
    sleeve = (values.get("hardware") or {}).get("sleeve")
    if not sleeve or sleeve[0] is None or diameter is None or wall is None:
        return
    bore = diameter - 2.0 * wall
    if sleeve[0] > bore + _ROUNDED:
        message = f"the sleeve of {at.wide(sleeve[0])} does not go into the boom's bore"
        remedy = f"write a sleeve of {at.wide(bore)} or less"
        at.child("hardware").child("sleeve", 0).fault(message, remedy=remedy)
    elif sleeve[0] < bore - _LOOSE:
        message = f"the sleeve of {at.wide(sleeve[0])} is loose in the boom's bore"
        remedy = f"write one that fits {at.wide(bore)}, or its size with its shim"
        at.child("hardware").child("sleeve", 0).fault(message, remedy=remedy)


def _check_tie(values: Values, at: Place) -> None:
    diameter, rise = values.get("diameter"), (values.get("tie") or {}).get("rise")
    if diameter is not None and rise is not None and rise <= 0.5 * diameter:
        message = "the upper end of the tie lies inside the boom"
        remedy = f"write its height above the boom's axis, far above {at.wide(0.5 * diameter)}"
        at.child("tie", "rise").fault(message, remedy=remedy)


def _check_joints(values: Values, at: Place) -> None:
    joints, rear, length = values.get("joints"), values.get("rear_end"), values.get("length")
    if not joints or None in joints or rear is None or length is None:
        return
    for index, place in enumerate(joints):
        before = joints[index - 1] if index else rear
        if not before < place < rear + length:
            message = (
                f"the joint at {at.far(place)} does not lie between {at.far(before)} and the "
                f"front end at {at.far(rear + length)}"
            )
            remedy: Value = "write the places from the rear to the front, all on the boom"
            at.child("joints", index).fault(message, remedy=remedy)
            return
    diameter, sleeve = values.get("diameter"), (values.get("hardware") or {}).get("sleeve")
    if diameter is None or (sleeve and sleeve[2] is None):
        return
    reach = 0.5 * sleeve[2] if sleeve else SLEEVE_REACH * diameter
    ends = [rear, *joints, rear + length]
    for index, (low, high) in enumerate(pairwise(ends)):
        held = reach * (1 if index in {0, len(joints)} else 2)
        if high - low < held - _ROUNDED:
            message = (
                f"the tube from {at.far(low)} to {at.far(high)} is shorter than the sleeves in it, "
                f"{at.wide(held)}"
            )
            remedy = settled("move that joint, or take a shorter sleeve", "beam.boom.hardware")
            at.child("joints", max(0, index - 1)).fault(message, remedy=remedy)


def _check(values: Values, at: Place) -> None:
    check_wall(values, at)
    _check_sleeve(values, at)
    _check_joints(values, at)
    _check_tie(values, at)
    rear, length, clamp = values.get("rear_end"), values.get("length"), values.get("clamp")
    if rear is None or length is None or clamp is None:
        return
    if not rear <= clamp <= rear + length:
        message = f"the mast clamp is not on the boom ({at.far(rear)} to {at.far(rear + length)})"
        remedy = "move the clamp onto the boom, or leave it out to put it at the balance point"
        at.child("clamp").fault(message, remedy=remedy)


BOOM = TableSpec(
    noun="boom",
    model=BoomPlan,
    check=_check,
    fields=(
        above_zero("diameter", "length", "Outer diameter.", high=_BOOM, required=True,
                   example="51 mm"),
        above_zero("wall", "length", "Wall thickness.", low=THINNEST_WALL, high=_BOOM,
                   required=True, example="3.2 mm"),
        above_zero("length", "length", "Length of the boom.", required=True, example="6.2 m"),
        either_sign("rear_end", "length", "Rear end, where places along the boom are counted.",
                    required=True),
        choice("material", METALS, "metal", "Its metal.", required=True).usually("6061-T6"),
        either_sign("clamp", "length", "Mast clamp along the boom; left out, the balance point."),
        entry("joints", "Where its tubes meet along the boom, in rising order; left out, tubes "
              "that fit the stock and meet clear of the clamps; an empty list is one tube.",
              ListOf(item=Quantity(dimension="length", low=-LONGEST, high=LONGEST), least=0,
                     most=20, example='["2.4 m"]')),
        either_sign("offset", "length", "Boom axis to the left of the mast axis; left out, "
                    "as far as plate and tubes need.", size=10.0),
        from_zero("drag_area", "area", "Drag area of boxes, brackets and coils; what their parts "
                  "come to counts where it is larger.", high=100.0),
        entry("tie", "Tie from the mast down to both arms.", TIE),
        tables("fitting", "What sits on the boom.", FITTING, "beam.boom"),
        entry("hardware", "Its plates and clamps; what is left out is taken from common practice.",
              HARDWARE),
    ),
)  # fmt: skip
