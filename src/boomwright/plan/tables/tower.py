"""``[support.tower]``: a lattice tower with its maker's rating."""

from __future__ import annotations

from boomwright.plan.fields import LONGEST, above_zero, choice, count, entry, from_zero, words
from boomwright.plan.lists import ListOf
from boomwright.plan.numbers import Number, Quantity
from boomwright.plan.spec import TableSpec
from boomwright.plan.vocabulary import (
    AREA_RULES,
    AVERAGING,
    EDITIONS,
    EN_EDITION,
    EXPOSURES,
    JOINTS,
    SPEED_KINDS,
    TERRAINS,
    TOWER_KINDS,
)

_HIGH = Quantity(dimension="length", low=0.0, high=LONGEST, above_low=True)

RATING = TableSpec(
    noun="tower rating",
    model="structure.support.tower_rating:TowerRating",
    fields=(
        above_zero("area", "area", "Rated antenna area.", high=100.0),
        choice("area_rule", AREA_RULES, "convention of an area",
               "Whether that area is projected, drag or flat-plate area."),
        above_zero("area_height", "length", "Height above ground of that area."),
        above_zero("speed", "speed", "Wind speed of the rating.", high=150.0),
        choice("averaging", AVERAGING, "averaging",
               "Whether it is a gust, a fastest mile, or the 10 min mean of EN 1991-1-4."),
        choice("kind", SPEED_KINDS, "kind of wind speed",
               "Ultimate or nominal by an American edition; characteristic or design by others."),
        choice("exposure", (*EXPOSURES, *TERRAINS), "exposure category",
               "Exposure of the rating, or terrain category by EN 1991-1-4."),
        choice("edition", (*EDITIONS, EN_EDITION), "code edition", "Code edition of the rating."),
        above_zero("pressure", "pressure", "Peak pressure of the rating at that height, in place "
                   "of speed, averaging, exposure and edition.", high=20e3, example="0.9 kPa"),
        from_zero("ice", "length", "Radial ice included, 0 when rated without.", high=0.2,
                  example="10 mm"),
        above_zero("ice_gust", "speed", "Gust (3 s) rated together with that ice.", high=150.0,
                   example="18 m/s"),
        above_zero("mast_extension", "length", "Longest mast above the top bearing."),
        above_zero("base_moment", "torque", "Rated base moment, with no factor on the wind.",
                   example="40 kN m"),
        above_zero("base_shear", "force", "Rated base shear, with no factor on the wind."),
        above_zero("axial", "force", "Rated load straight down."),
        above_zero("section_moment", "torque",
                   "Bending moment its sections may carry, nominal loads.", example="20 kN m"),
        above_zero("section_shear", "force", "Shear its sections may carry, nominal loads."),
        above_zero("leg_load", "force", "Load one leg may carry, nominal loads.",
                   example="40 kN"),
    ),
)  # fmt: skip

DRAWING = TableSpec(
    noun="maker's drawing",
    model="structure.support.tower:TowerDrawing",
    fields=(
        above_zero("height", "length", "Height of the tower as drawn.", required=True,
                   example="18 m"),
        entry("guys", "Heights of the guy rings as drawn.",
              ListOf(item=_HIGH, most=12, example='guys = ["9 m", "17 m"]'),
              required=True, attribute="guy_levels", example='guys = ["9 m", "17 m"]'),
        above_zero("radius", "length", "Anchors of the top guys out from the tower, as drawn.",
                   required=True, example="14 m").fills("anchor_radius"),
        words("said_by", "Which drawing it is, who read it, and when.", required=True,
              example="maker's drawing 12, read by the owner, 2026-03-01"),
    ),
)  # fmt: skip

LATTICE = TableSpec(
    noun="lattice",
    model="structure.support.lattice:Lattice",
    fields=(
        count("faces", "Faces, and as many legs.", least=3, most=4, required=True),
        above_zero("face_width", "length", "From leg middle to leg middle.", high=20.0,
                   required=True, example="300 mm"),
        above_zero("leg", "length", "Outer diameter of a leg.", high=1.0, required=True,
                   example="32 mm"),
        above_zero("brace", "length", "Outer diameter of the braces.", high=1.0, required=True,
                   example="11 mm"),
        entry("braces",
              "Length of all braces of one face for each length of tower, metre per metre.",
              Number(low=0.01, high=50.0), attribute="brace_length", required=True,
              example="braces = 2.2"),
    ),
)  # fmt: skip

TOWER = TableSpec(
    noun="tower",
    model="structure.support.tower:Tower",
    fields=(
        choice("kind", TOWER_KINDS, "kind of tower", "How it stands.", required=True),
        above_zero("height", "length", "Height of the tower itself.", required=True,
                   example="15 m"),
        above_zero("section", "length", "Length of one section as bought."),
        count("legs", "Legs that stand in the ground.", least=1, most=8),
        above_zero("mass", "mass", "Mass of the whole tower."),
        above_zero("drag_width", "length",
                   "Drag area of one metre of tower, from its maker.",
                   high=20.0).fills("drag_area_per_length"),
        entry("lattice", "Its legs and braces, for the wind on them bare and iced.", LATTICE),
        above_zero("bending_stiffness", "bending stiffness",
                   "Bending stiffness EI of the tower as a beam, from its maker."),
        above_zero("top_drift", "length",
                   "Sideways movement of the top under full wind, from its maker."),
        above_zero("bracket", "length",
                   "Height of the house bracket.").fills("bracket_height"),
        choice("joints", JOINTS, "kind of joint",
               "How its steel is joined, for the damping of its sway."),
        entry("rating", "What its maker states.", RATING),
        entry("drawing", "Its guys as its maker drew them.", DRAWING),
    ),
)  # fmt: skip
