"""``[support]``: tower or tube, mast, rotator, guys and footing."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base.quantity import Value, phrase
from boomwright.parts import SupportHardware
from boomwright.plan.faults import Place, table_named, written
from boomwright.plan.fields import (
    LONGEST,
    THINNEST_WALL,
    above_zero,
    choice,
    count,
    either_sign,
    entry,
    flag,
    from_zero,
    number,
    question,
    words,
)
from boomwright.plan.kinds import Choice
from boomwright.plan.lists import ListOf
from boomwright.plan.model_support import MastPlan, SupportPlan, TubePlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import Field, NameOrTable, Tables, TableSpec, Values
from boomwright.plan.tables.boom import check_wall, sides
from boomwright.plan.tables.element import WIDEST
from boomwright.plan.tables.ground_works import ANCHOR, BASE, BASE_LOADS, SOIL
from boomwright.plan.tables.heading import HEADING
from boomwright.plan.tables.tower import TOWER
from boomwright.plan.vocabulary import (
    AREA_RULES,
    METALS,
    METHODS,
    PLAIN_STEEL,
    ROTATOR_PLACES,
    SOILS,
    STEEL_GRADES,
    STRANDS,
)

TUBE_METALS = (PLAIN_STEEL, *STEEL_GRADES, *METALS)


def _tube_fields() -> tuple[Field, Field]:
    return (
        above_zero("diameter", "length", "Outer diameter.", high=WIDEST, required=True,
                   example="60.3 mm"),
        above_zero("wall", "length", "Wall thickness.", low=THINNEST_WALL, high=WIDEST,
                   required=True, example="5.5 mm"),
    )  # fmt: skip


def _metal_fields() -> tuple[Field, Field]:
    return (
        choice("material", TUBE_METALS, "metal",
               "Steel grade or alloy; steel when its grade is not known.",
               required=True).usually(PLAIN_STEEL, "the weakest steel, where nobody knows"),
        above_zero("yield_strength", "pressure",
                   "Minimum yield from a certificate, in place of the grade's.", high=3e9),
    )  # fmt: skip


_BRACKETS_EXAMPLE = 'heights = ["3.2 m", "4.7 m"]'
#: brackets closer than this to each other or to the foot hold as one [m]
_BRACKETS_APART = 0.05

BRACKETS = TableSpec(
    noun="house brackets",
    model="structure.support.house_brackets:HouseBrackets",
    fields=(
        entry("heights", "Where wall brackets or the rings of a roof mount hold the tube, above "
              "ground, upwards.",
              ListOf(item=Quantity(dimension="length", low=0.0, high=LONGEST, above_low=True),
                     most=12, example=_BRACKETS_EXAMPLE),
              required=True, example=_BRACKETS_EXAMPLE),
        from_zero("foot", "length", "Lower end of the tube above ground; 0 or left out where it "
                  "stands on the ground.", example="2.9 m"),
        above_zero("side_force", "force", "Force sideways that the wall fixings of one bracket "
                   "are rated for, with no factor on the wind.", example="4 kN"),
        above_zero("vertical_load", "force", "Load straight down that all brackets together are "
                   "rated for, where the tube hangs clear of the ground."),
        words("said_by", "Which licensed practitioner looked at the wall or roof, and when.",
              example="name of the engineer, 2026-03-01"),
    ),
)  # fmt: skip


def _check_tube(values: Values, at: Place) -> None:
    check_wall(values, at)
    brackets, top = values.get("brackets"), values.get("height")
    tall = (values.get("cage") or {}).get("height")
    if top is not None and tall is not None and tall >= top:
        at.child("cage", "height").fault(
            "the cage is as high as the whole support", remedy=f"write less than {at.far(top)}"
        )
    heights = (brackets or {}).get("heights")
    if brackets is None or not heights or None in heights or top is None:
        return
    place, foot = at.child("brackets"), brackets.get("foot") or 0.0
    if foot > 0.0 and values.get("hinged"):
        at.child("hinged").fault(
            "this tube ends above the ground, so it has no foot that tilts",
            remedy="take hinged out, or let the tube stand on the ground",
        )
    check_brackets(place.child("heights"), heights, foot=foot, top=top)


def check_brackets(at: Place, heights: Sequence[float], *, foot: float, top: float) -> None:
    """Report brackets that do not hold a tube.

    Args:
        heights: of the brackets above ground [m] (n_brackets,)
        foot: lower end of the tube, 0 on the ground [m]
        top: its upper end [m]
    """
    if foot > 0.0 and len(heights) == 1:
        at.fault(
            "one bracket alone does not hold a tube that ends above the ground",
            remedy="add the second bracket, or take foot out where the tube stands on the ground",
        )
    below = foot - _BRACKETS_APART if foot > 0.0 else 0.0
    for index, height in enumerate(heights):
        if height - below < _BRACKETS_APART * (1 - 1e-9) or height > top * (1 + 1e-9):
            at.child(index).fault(
                "this bracket does not lie on the tube above what holds it next below",
                remedy=f"list the brackets upwards, {at.wide(_BRACKETS_APART)} apart at least, "
                f"from {at.far(foot)} up to {at.far(top)}",
            )
        below = height


CAGE = TableSpec(
    noun="cage",
    model="structure.support.rotator:Cage",
    fields=(
        above_zero("height", "length", "From the end of the tube to the top bearing.", high=5.0,
                   required=True, example="0.9 m"),
        above_zero("side_force", "force", "Side force at the bearing that its maker allows.",
                   example="8 kN"),
    ),
)  # fmt: skip

TUBE = TableSpec(
    noun="support tube",
    model=TubePlan,
    check=_check_tube,
    fields=(
        *_tube_fields(),
        above_zero("height", "length", "Height above ground.", required=True, example="15 m"),
        *_metal_fields(),
        flag("hinged", "Whether its foot can tilt; a foot set in its footing cannot."),
        entry("cage", "Cage on its top that holds bearing and rotator, part of its height.", CAGE),
        question("whole", "Whether it comes in one piece, or an engineer or maker says that every "
                 "joint carries its full bending."),
        entry("brackets", "Brackets of a house that hold the tube, in place of guys.", BRACKETS),
    ),
)  # fmt: skip


def _check_mast(values: Values, at: Place) -> None:
    check_wall(values, at)
    bearing, top = values.get("bearing"), values.get("top")
    if bearing is not None and top is not None and top <= bearing:
        message = "the mast ends at its top bearing or below it"
        remedy = f"write a top above {at.far(bearing)}, from the ground"
        at.child("top").fault(message, remedy=remedy)


MAST = TableSpec(
    noun="mast",
    model=MastPlan,
    check=_check_mast,
    fields=(
        *_tube_fields(),
        from_zero("bearing", "length", "Top bearing above ground.", required=True,
                  example="15 m"),
        above_zero("top", "length", "Upper end above ground.", required=True, example="16.5 m"),
        above_zero("rotator_below", "length", "From the top bearing down to the rotator, or "
                   "to where a mast that never turns is held."),
        above_zero("bearing_mass", "mass", "Mass of the top bearing; left out, 1.5 kg.", high=1e3,
                   example="1.5 kg").usually("1.5 kg"),
        *_metal_fields(),
    ),
)  # fmt: skip

_TORQUES = (
    above_zero("turning_torque", "torque", "Torque while turning."),
    above_zero("holding_torque", "torque", "Brake or worm torque at rest."),
    above_zero("start_stop_torque", "torque", "Torque allowed while starting and stopping."),
    above_zero("vertical_load", "force", "Load it may carry."),
    above_zero("side_force", "force", "Side force it may carry."),
)
_TURNING = (
    above_zero("turning_speed", "turning speed", "Speed of turning.", high=10.0).fills(
        "turning_rate"
    ),
    above_zero("stop_angle", "angle", "Angle in which it comes to rest.", high=1.6,
               example="1 deg").usually("1 deg"),
    above_zero("turning_gust", "speed", "Nominal gust (3 s) in which it shall still turn.",
               high=150.0),
    from_zero("friction", "torque", "Torque lost in bearing and cable loop."),
)  # fmt: skip

ROTATOR = TableSpec(
    noun="rotator",
    model="structure.support.rotator:Rotator",
    fields=(
        choice("place", ROTATOR_PLACES, "place of a rotator",
               "Below a bearing inside the tower, or on the mast and carrying it alone.",
               required=True),
        *_TORQUES,
        above_zero("area_inside", "area", "Rated wind area inside a tower.", high=100.0),
        above_zero("area_on_mast", "area", "Rated wind area mast-mounted.", high=100.0),
        choice("area_rule", AREA_RULES, "convention of an area",
               "Whether those areas are projected, drag or flat-plate areas."),
        above_zero("least_mast", "length", "Smallest mast its clamp takes.", high=WIDEST,
                   example="38 mm"),
        above_zero("greatest_mast", "length", "Largest mast its clamp takes.", high=WIDEST,
                   example="63 mm"),
        above_zero("mass", "mass", "Mass of the rotator itself; left out, 8 kg.", high=1e3,
                   example="8 kg").usually("8 kg"),
        *_TURNING,
    ),
)  # fmt: skip

RING = TableSpec(
    noun="ring mount",
    model="structure.support.rotator:RingMount",
    fields=(
        words("beam", "Name of the beam that turns on it.", longest=64,
              required=True, example="10m").names("beam"),
        *_TORQUES,
        above_zero("area", "area", "Rated wind area.", high=100.0).fills("area_on_mast"),
        choice("area_rule", AREA_RULES, "convention of an area",
               "Whether that area is projected, drag or flat-plate area."),
        *_TURNING,
        above_zero("mass", "mass", "Mass of the ring mount itself.", high=1e4),
        above_zero("drag_area", "area", "Drag area of the ring mount itself.", high=100.0),
        words("said_by", "Who says that the support may carry it at this height, and when.",
              example="name of the engineer, 2026-03-01"),
    ),
)  # fmt: skip

STRAND = TableSpec(
    noun="guy strand",
    model="structure.support.guys:Strand",
    fields=(
        words("name", "Size and grade.", longest=64, required=True, example="3/16 in EHS"),
        above_zero("breaking_strength", "force", "Minimum breaking strength.", required=True),
        above_zero("mass", "mass per length", "Mass of one metre.", required=True).fills(
            "mass_per_length"
        ),
        above_zero("stiffness", "force", "EA: cross section times Young's modulus.",
                   required=True, example="2700 kN").fills("axial_stiffness"),
        above_zero("diameter", "length",
                   "Outer diameter, for wind and ice; that of seven steel wires when left out.",
                   high=0.1, example="6 mm"),
    ),
)  # fmt: skip


def _check_guy(values: Values, at: Place) -> None:
    height, anchor = values.get("height"), values.get("anchor_height")
    if height is not None and anchor is not None and anchor >= height:
        message = "the anchors lie as high as the guys' upper ends or higher"
        at.child("anchor_height").fault(message, remedy=f"write a height below {at.far(height)}")


GUY = TableSpec(
    noun="guy ring",
    model="structure.support.guys:GuyLevel",
    check=_check_guy,
    fields=(
        above_zero("height", "length", "Where the guys hold the support, above ground.",
                   required=True, example="14 m"),
        above_zero("radius", "length", "Anchors out from the support.", required=True,
                   example="11 m").fills("anchor_radius"),
        entry("strand", "Strand by its size and grade, or by its figures.",
              NameOrTable(name=Choice(options=STRANDS, noun="strand"), table=STRAND,
                          named="structure.support.guys:STRANDS"), required=True,
              example=f'strand = "{STRANDS[1]}"'),
        above_zero("tension", "force", "Tension with no wind.").fills("initial_tension"),
        count("count", "Guys in the ring, evenly spaced.", least=3, most=12).usually("3"),
        entry("first", "Direction of the first anchor, from true north.", HEADING,
              attribute="first_azimuth"),
        either_sign("anchor_height", "length", "Anchors above the foot of the support."),
        from_zero("longest_piece", "length",
                  "Longest piece of a guy between insulators; 0 m for guys that do not conduct.",
                  example="4 m"),
    ),
)  # fmt: skip


SUPPORT_HARDWARE = TableSpec(
    noun="hardware of the support",
    model=SupportHardware,
    fields=(
        from_zero("shelf_mass", "mass", "Rotator shelf or cage.", high=200.0, example="6 kg"),
        from_zero("guy_ring_mass", "mass", "Ring with its clamp that holds the guys of one level "
                  "to a pole.", high=50.0, example="3 kg"),
        from_zero("guy_grip_mass", "mass", "Grip with its thimble, one end of a guy.", high=10.0,
                  example="0.3 kg"),
        from_zero("turnbuckle_mass", "mass", "Turnbuckle with its shackles.", high=30.0,
                  example="1.4 kg"),
        from_zero("house_bracket_mass", "mass", "One house bracket with its fixings.", high=200.0,
                  example="4 kg"),
        from_zero("anchor_bolts_mass", "mass", "Anchor bolts of the footing with their template.",
                  high=1e3, example="12 kg"),
        from_zero("steel", "density", "Reinforcing steel in a volume of concrete, from the "
                  "drawing; left out, 75 kg/m3.", high=1e3, example="75 kg/m3"),
        above_zero("anchor_rod", "length", "Diameter of the rod of a guy anchor; left out, 20 mm.",
                   high=0.2, example="20 mm"),
        entry("bearing", "Top bearing: across, high; left out, 160 x 50 mm.",
              sides('["160 mm", "50 mm"]', "across", "high")),
        entry("rotator", "Rotator: across, high; left out, 190 x 300 mm.",
              sides('["190 mm", "300 mm"]', "across", "high")),
        entry("shelf", "Rotator shelf or plate of the cage: side, thickness; left out, 300 x 6 mm.",
              sides('["300 mm", "6 mm"]', "side", "thickness")),
        entry("guy_ring",
              "Ring that guys hold on to: beyond the pole, thickness; left out, 50 x 8 mm.",
              sides('["50 mm", "8 mm"]', "beyond the pole", "thickness")),
        entry("ring_mount",
              "Ring mount of a beam: beyond the support, high; left out, 200 x 120 mm.",
              sides('["200 mm", "120 mm"]', "beyond the support", "high")),
    ),
)  # fmt: skip


def _check(values: Values, at: Place) -> None:
    if values.get("tower") is not None and values.get("tube") is not None:
        message = "a tower and a tube stand here; the beams hang on one of them"
        remedy: Value = phrase("keep {one} or {other}, not both", one=table_named("support.tower"),
                        other=table_named("support.tube"))  # fmt: skip
        at.child("tube").fault(message, remedy=remedy)
    brackets = (values.get("tube") or {}).get("brackets") or {}
    if brackets.get("foot") and values.get("base") is not None:
        message = "brackets hold the tube clear of the ground, so no footing carries it"
        remedy = phrase("take {base} out, or {foot} under {brackets} where the tube stands on the "
                        "ground", base=table_named("support.base"), foot=written("foot"),
                        brackets=table_named("support.tube.brackets"))  # fmt: skip
        at.child("base").fault(message, remedy=remedy)
    height = (values.get("tower") or values.get("tube") or {}).get("height")
    for index, ring in enumerate(values.get("guy") or []):
        upper = ring.get("height")
        if height is not None and upper is not None and upper > height * (1 + 1e-9):
            message = "these guys hold above the top of the support"
            remedy = f"write a height up to {at.far(height)}"
            at.child("guy", index, "height").fault(message, remedy=remedy)


SUPPORT = TableSpec(
    noun="support",
    model=SupportPlan,
    check=_check,
    fields=(
        choice("method", METHODS, "method",
               "By an American edition, allowable stresses with nominal wind or strength with "
               "ultimate wind; other codes use partial factors in any case."),
        number("damping", "Damping ratio of the first sway, measured or from the maker; a usual "
               "one when left out.", low=0.001, high=0.2, example="0.005"),
        above_zero("sway", "frequency", "First frequency of the support with its beams: counted "
                   "in a calm, or from the maker. Computed when left out and the stiffness known.",
                   high=50.0, example="1.2 Hz"),
        from_zero("frost_depth", "length", "Local frost depth, 0 where there is none.",
                  high=10.0),
        entry("soil", "Soil by its class where nobody tested it, or by its figures.",
              NameOrTable(name=Choice(options=SOILS, noun="soil class"), table=SOIL,
                          named="structure.ground.soils:PRESUMPTIVE_SOILS")).usually(
                              "clay", "the weakest class, where nobody knows"),
        entry("tower", "Lattice tower.", TOWER),
        entry("tube", "Tube from the ground up, in place of a tower.", TUBE),
        entry("mast", "Mast that turns and carries the beams.", MAST),
        entry("rotator", "Rotator with its maker's figures.", ROTATOR),
        entry("ring", "Rings around the support, each with one beam that turns on it.",
              Tables(spec=RING, header="[[support.ring]]", least=0, most=8)),
        entry("guy", "Guy rings.", Tables(spec=GUY, header="[[support.guy]]", least=0, most=12)),
        entry("anchor", "Concrete block at each guy anchor.", ANCHOR),
        entry("base", "Footing of the support.", BASE),
        entry("base_loads", "Footing loads as the maker states them.", BASE_LOADS),
        entry("hardware", "Weights and sizes of its hardware; what is left out is taken from "
              "common practice.", SUPPORT_HARDWARE),
    ),
)  # fmt: skip
