"""``[raising]``: who raises the beam, with what, and where."""

from __future__ import annotations

from boomwright.plan.fields import above_zero, count, flag, from_zero
from boomwright.plan.model_work import (
    CranePlan,
    GinPolePlan,
    HaulLinePlan,
    LiftTruckPlan,
    RaisingPlan,
    TramPlan,
)
from boomwright.plan.spec import Field, TableSpec

HAUL_LINE = TableSpec(
    noun="haul line",
    model=HaulLinePlan,
    fields=(
        above_zero("breaking_strength", "force", "Marked breaking strength of the rope.",
                   required=True, example="20 kN"),
        above_zero("block_breaking_strength", "force",
                   "Marked breaking strength of the weakest block, shackle or sling."),
    ),
)  # fmt: skip

GIN_POLE = TableSpec(
    noun="gin pole",
    model=GinPolePlan,
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
    model=TramPlan,
    fields=(
        above_zero("span", "length", "Horizontal distance from support to anchor.",
                   required=True, example="40 m"),
        above_zero("sag", "length", "Sag below the chord with the load at midspan.",
                   required=True, example="3 m"),
        above_zero("breaking_strength", "force", "Marked breaking strength of the carrier.",
                   required=True, example="30 kN"),
        from_zero("line_mass", "mass per length", "Mass of one metre of the carrier."),
        flag("back_guyed", "Whether the top is guyed against the pull."),
    ),
)  # fmt: skip

CRANE = TableSpec(
    noun="crane",
    model=CranePlan,
    fields=(
        above_zero("radius", "length", "Working radius.", high=200.0, required=True,
                   example="12 m"),
        above_zero("hook_height", "length", "Highest hook position at that radius.",
                   high=200.0, required=True, example="25 m"),
        above_zero("capacity", "mass", "Rated load at that radius, from its chart."),
    ),
)  # fmt: skip

LIFT_TRUCK = TableSpec(
    noun="lift truck",
    model=LiftTruckPlan,
    fields=(
        above_zero("platform_height", "length",
                   "Highest platform floor at the needed outreach.", high=200.0, required=True,
                   example="16 m"),
        above_zero("outreach", "length", "Largest horizontal reach at that height.",
                   high=200.0, required=True, example="8 m"),
        from_zero("needed_outreach", "length",
                  "Horizontal distance from where it can stand to the mast.", high=200.0,
                  required=True, example="5 m"),
        above_zero("platform_capacity", "mass", "Rated load of the platform."),
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
        flag("rescue_plan", "Whether a rescue plan is written and the kit is on site."),
        flag("trained_rigger", "Whether somebody trained in rigging leads."),
        flag("guys_in_the_way", "Whether the beam cannot go straight up past the guys."),
        flag("level_access", "Whether a truck can stand level and firm beside the support."),
        flag("tilt_over",
             "Whether the support tilts or cranks down and its maker allows it with this load."),
        above_zero("top_rating", "force",
                   "Horizontal load the maker or an engineer allows at the top."),
        from_zero("forecast_gust", "speed", "Highest gust forecast for the hours of the lift.",
                  high=150.0),
        above_zero("mass", "mass",
                   "Mass of the load as weighed, with balun, coax, clamp, bridle and hook.",
                   high=1e5),
        Field(key="haul_line", kind=HAUL_LINE, help="Rope and blocks for hauling."),
        Field(key="gin_pole", kind=GIN_POLE, help="Gin pole with its maker's figures."),
        Field(key="tram", kind=TRAM, help="Carrier line from the top to a ground anchor."),
        Field(key="crane", kind=CRANE, help="Hired crane, figures from its chart."),
        Field(key="lift_truck", kind=LIFT_TRUCK,
              help="Hired lift truck with a platform, figures from its chart."),
    ),
)  # fmt: skip
