"""``[raising]``: who raises the beam, with what, and where."""

from __future__ import annotations

from boomwright.base.quantity import phrase
from boomwright.plan.faults import Place, written
from boomwright.plan.fields import (
    above_zero,
    choice,
    count,
    entry,
    from_zero,
    question,
    tables,
    words,
)
from boomwright.plan.model_work import RaisingPlan
from boomwright.plan.spec import TableSpec, Values
from boomwright.plan.tables.heading import HEADING

_ENDS = choice("ends", ("eye", "knot"), "rope end",
               "How the rope is made fast; a knot costs half its strength and is taken when left "
               "out.").usually("knot", "the weaker end")  # fmt: skip

_STANDS = "Direction from the foot to where it stands; left out, midway between two guys."

CAPSTAN = TableSpec(
    noun="capstan winch",
    model="raising.job:Capstan",
    fields=(
        above_zero("rated_pull", "force", "Pull its maker allows.", example="4.5 kN"),
        above_zero("fastening", "force", "Pull that what it is fastened to may take."),
        count("turns", "Turns of rope on its drum.", least=1, most=12),
    ),
)

HAUL_LINE = TableSpec(
    noun="haul line",
    model="raising.job:HaulLine",
    fields=(
        above_zero("breaking_strength", "force", "Marked breaking strength of the rope.",
                   required=True, example="20 kN"),
        above_zero("block_breaking_strength", "force",
                   "Marked breaking strength of the weakest block, shackle or sling."),
        count("parts", "Rope parts that carry the load: 1 over a single top block, 2 or 3 with a "
              "tackle.", least=1, most=6),
        choice("bearing", ("ball", "bush", "plain"), "sheave bearing",
               "What the sheaves turn on; left out, a tenth of the load is lost at each."),
        _ENDS,
        entry("capstan", "Capstan winch for the hauling rope: for loads, never for people.",
              CAPSTAN),
    ),
)  # fmt: skip

GIN_POLE = TableSpec(
    noun="gin pole",
    model="raising.job:GinPole",
    fields=(
        above_zero("overhang", "length", "Pole above its upper grip as it will be used.",
                   high=20.0, required=True, example="2.5 m"),
        above_zero("rated_load", "force", "Rated load at this overhang."),
        above_zero("maximum_overhang", "length", "Maker's largest overhang.", high=20.0),
        from_zero("offset_angle", "angle", "Angle of the hoist rope from upright.", high=1.4,
                  example="6 deg"),
        from_zero("tag_slope", "angle", "Angle of the tag line below level.", high=1.5,
                  example="45 deg"),
    ),
)  # fmt: skip

TRAM = TableSpec(
    noun="tram line",
    model="raising.job:Tram",
    fields=(
        above_zero("span", "length", "Horizontal distance from support to anchor.",
                   required=True, example="40 m"),
        above_zero("sag", "length", "Sag below the chord with the load at midspan.",
                   required=True, example="3 m"),
        above_zero("breaking_strength", "force", "Marked breaking strength of the carrier.",
                   required=True, example="30 kN"),
        from_zero("line_mass", "mass per length", "Mass of one metre of the carrier."),
        above_zero("anchor", "force", "Pull its ground anchor may take."),
        question("back_guyed", "Whether the top is guyed against the pull."),
    ),
)  # fmt: skip

CRANE = TableSpec(
    noun="crane",
    model="raising.job:Crane",
    fields=(
        above_zero("radius", "length", "Working radius.", high=200.0, required=True,
                   example="12 m"),
        above_zero("hook_height", "length", "Highest hook position at that radius.",
                   high=200.0, required=True, example="25 m"),
        entry("bearing", _STANDS, HEADING),
        above_zero("capacity", "mass", "Rated load at that radius, from its chart."),
        above_zero("slings", "force",
                   "Marked breaking strength of the weakest sling or shackle of the bridle."),
        above_zero("wind_limit", "speed", "Gust at which it stops, from its papers.", high=150.0),
        question("operator", "Whether a trained operator runs it, not counted in the crew."),
    ),
)  # fmt: skip

LIFT_TRUCK = TableSpec(
    noun="lift truck",
    model="raising.job:LiftTruck",
    fields=(
        above_zero("platform_height", "length",
                   "Highest platform floor at the needed outreach.", high=200.0, required=True,
                   example="16 m"),
        above_zero("outreach", "length", "Largest horizontal reach at that height.",
                   high=200.0, required=True, example="8 m"),
        from_zero("needed_outreach", "length",
                  "Horizontal distance from where it can stand to the mast.", high=200.0,
                  required=True, example="5 m"),
        entry("bearing", _STANDS, HEADING),
        above_zero("platform_capacity", "mass", "Rated load of the platform."),
        above_zero("wind_limit", "speed", "Gust at which it stops, from its papers.", high=150.0),
        question("operator", "Whether a trained operator runs it, not counted in the crew."),
        question("carries_beam",
                 "Whether its maker or hirer allows the platform to carry the beam."),
    ),
)  # fmt: skip

BACK_LINE = TableSpec(
    noun="hold-back line",
    model="raising.job:BackLine",
    fields=(
        above_zero("breaking_strength", "force", "Marked breaking strength.", required=True,
                   example="15 kN"),
        above_zero("line_at", "length", "Where it takes hold of the support, from the hinge.",
                   high=200.0, required=True, example="8 m"),
        above_zero("distance", "length",
                   "Its anchor from the hinge, on the side where the support lies.", high=200.0,
                   required=True, example="9 m"),
        above_zero("anchor", "force", "Pull its anchor may take."),
    ),
)  # fmt: skip

TILT_PART = TableSpec(
    noun="part that turns with the support",
    model="raising.tilt_statics:Part",
    fields=(
        words("name", "What it is.", longest=64, required=True, example="lower section"),
        above_zero("mass", "mass", "Its mass.", high=1e5, required=True, example="14 kg"),
        above_zero("at", "length", "Its middle, along the support from the hinge.", high=200.0,
                   required=True, example="11.5 m"),
    ),
)  # fmt: skip


def _check_tilt(values: Values, at: Place) -> None:
    lifter, winch = values.get("lifter"), values.get("winch_distance")
    if lifter == "gin pole" and "winch_distance" not in values:
        message = "nothing says how far from the hinge the winch line is anchored"
        remedy = phrase("add {it}", it=written("winch_distance", '"9 m"'))
        at.child("winch_distance").fault(message, remedy=remedy)
    if lifter == "fixed sheave" and winch is not None:
        message = "a fixed sheave stands still: its place behind the hinge counts, not the winch's"
        remedy = phrase("write {it} in its place", it=written("sheave_behind"))
        at.child("winch_distance").fault(message, remedy=remedy)


TILT = TableSpec(
    noun="tilt",
    model="raising.job:Tilt",
    check=_check_tilt,
    fields=(
        choice("lifter", ("gin pole", "fixed sheave"), "lifter",
               "A gin pole square to the support at the hinge, or a sheave on something that "
               "stands still.", required=True).fills("lifter_kind"),
        above_zero("lifter_height", "length",
                   "Head of the gin pole from the hinge, or the sheave above the hinge.",
                   high=100.0, required=True, example="4 m"),
        above_zero("line_at", "length", "Where the line takes hold of the support, from the hinge.",
                   high=200.0, required=True, example="8 m"),
        above_zero("winch_distance", "length",
                   "Gin pole: ground anchor of the winch line from the hinge.", high=200.0,
                   example="9 m"),
        from_zero("sheave_behind", "length",
                  "Fixed sheave: from the hinge away from the lying support.", high=200.0),
        question("hinged", "Whether the foot turns in a hinge made to lay this support down."),
        question("side_guys",
                 "Whether side guys anchored on the hinge axis hold it from start to end."),
        above_zero("length", "length",
                   "Length of the support while it turns, when cranked in.", high=200.0),
        above_zero("allowed_moment", "torque",
                   "Bending moment that its maker allows in the lying support.",
                   example="3 kN m"),
        above_zero("hinge_rating", "force", "Force that the hinge may take."),
        above_zero("lifter_rating", "force",
                   "Force along the gin pole, or load on the sheave and what carries it, that "
                   "they may take."),
        above_zero("lift_line", "force",
                   "Marked breaking strength of the line from gin pole to support."),
        above_zero("winch", "force", "Pull that the winch's maker allows."),
        count("winch_parts", "Rope parts of a tackle in the winch line, 1 without.", least=1,
              most=6),
        above_zero("rope", "force", "Marked breaking strength of the winch rope."),
        _ENDS,
        above_zero("anchor", "force", "Pull that the ground anchor of the winch line may take."),
        above_zero("operator_out", "length", "Whoever works the winch, from the hinge.",
                   high=500.0),
        entry("back_line", "Line that keeps the upright support from going over towards the winch.",
              BACK_LINE),
        tables("part",
               "What else turns with the support: rotator, cage, further beams by their names.",
               TILT_PART, "raising.tilt").fills("parts"),
    ),
)  # fmt: skip

RAISING = TableSpec(
    noun="raising",
    model=RaisingPlan,
    fields=(
        count("trained_climbers", "People trained and equipped to climb and to rescue.",
              most=100),
        count("ground_crew", "People on the ground, lift director and spotter included.",
              most=100),
        question("training",
                 "Whether the climbers' training and equipment have been looked at."),
        question("rescue_plan", "Whether a rescue plan is written and the kit is on site."),
        question("climbable", "Whether the support tube is made to be climbed: rungs or steps, and "
                 "an anchor for the fall arrest."),
        question("trained_rigger", "Whether somebody trained in rigging leads."),
        question("guys_in_the_way",
                 "Whether guys or anchors keep the beam from going up past them."),
        question("support_stands", "Whether the support stands plumb, its guys at their tensions, "
                 "its concrete old enough; left out or no, its own raising is planned first."),
        question("level_access", "Whether a truck can stand level and firm beside the support."),
        question("ground_beyond", "Whether neighbours and ways beyond the boundary are kept empty "
                 "during the lift, where the work reaches beyond it."),
        question("pulleys_up", "Whether a pulley with its rope hangs at every high point of wire "
                 "on ropes."),
        question("holds_sound", "Whether every tree, roof hook and post that holds a rope is "
                 "sound, and its owner agrees."),
        question("ropes_clear", "Whether no rope or wire, thrown, fallen or broken, can come near "
                 "a power line."),
        above_zero("top_rating", "force",
                   "Horizontal load the maker or an engineer allows at the top."),
        from_zero("forecast_gust", "speed", "Highest gust forecast for the hours of the lift.",
                  high=150.0, example="4 m/s"),
        above_zero("mass", "mass",
                   "Mass of the load as weighed, with balun, coax, clamp, bridle and hook.",
                   high=1e5),
        entry("haul_line", "Rope and blocks for hauling.", HAUL_LINE),
        entry("gin_pole", "Gin pole with its maker's figures.", GIN_POLE),
        entry("tram", "Carrier line from the top to a ground anchor.", TRAM),
        entry("crane", "Hired crane, figures from its chart.", CRANE),
        entry("support_crane",
              "Hired crane that raises a pole in one piece, figures from its chart.", CRANE),
        entry("lift_truck", "Hired lift truck with a platform, figures from its chart.",
              LIFT_TRUCK),
        entry("tilt", "Hinge, winch, rope, lifter and lines for laying the support over.", TILT),
    ),
    gone=(
        (
            "tilt_over",
            "remove it, and where the support really tilts describe hinge, winch, rope, lifter "
            "and hold-back line in [raising.tilt]",
        ),
    ),
)  # fmt: skip
