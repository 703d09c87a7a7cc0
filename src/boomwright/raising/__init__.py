"""Raising: how the beam gets up, who does what, and when work stops.

Describe the job as :class:`Raising`; :func:`plan_lift` gives the :class:`LiftPlan` with every
method weighed (go, no-go or ask, each with reasons and forces), hold points, roles, signals,
exclusion ground, weather limits, power lines, fall figures and the emergency list.

``rigging`` holds the statics (blocks, bridles, tram lines, gin poles); ``methods`` and
``machines`` weigh the ways up through ``weighing``; ``surroundings`` looks at power lines and
ground; ``falls`` and ``weather`` hold the limits; ``sheets`` the texts. Least distances to power
lines come in with the lines, from the permits room, so that there is one place for them.

Climbing and rigging are for people trained in them; whoever is not should get someone who is.
"""

from boomwright.raising.falls import FallFigures, fall_clearance, fall_figures
from boomwright.raising.job import (
    Crane,
    Crew,
    GinPole,
    HaulLine,
    LiftTruck,
    LineNear,
    Load,
    Raising,
    Tram,
)
from boomwright.raising.lift_plan import LiftPlan, plan_lift, rank_methods
from boomwright.raising.picks import PickPlan, pick_plan
from boomwright.raising.rigging import (
    BridleForces,
    GinPoleForces,
    TramForces,
    block_load,
    breaking_strength_needed,
    bridle_forces,
    centre_of_gravity,
    gin_pole_forces,
    hauling_tension,
    tag_force,
    tram_forces,
    wind_force,
)
from boomwright.raising.sheets import (
    CrewRole,
    HoldPoint,
    Signal,
    SwrExpectation,
    crew_roles,
    swr_expectation,
)
from boomwright.raising.surroundings import (
    LineCheck,
    dropped_tool_radius,
    exclusion_radius,
    line_check,
    line_checks,
)
from boomwright.raising.weather import Answer, WeatherAnswer, WeatherStops, weather_answer
from boomwright.raising.weighing import Force, MethodChoice, TowerTopLoad

__all__ = [
    "Answer",
    "BridleForces",
    "Crane",
    "Crew",
    "CrewRole",
    "FallFigures",
    "Force",
    "GinPole",
    "GinPoleForces",
    "HaulLine",
    "HoldPoint",
    "LiftPlan",
    "LiftTruck",
    "LineCheck",
    "LineNear",
    "Load",
    "MethodChoice",
    "PickPlan",
    "Raising",
    "Signal",
    "SwrExpectation",
    "TowerTopLoad",
    "Tram",
    "TramForces",
    "WeatherAnswer",
    "WeatherStops",
    "block_load",
    "breaking_strength_needed",
    "bridle_forces",
    "centre_of_gravity",
    "crew_roles",
    "dropped_tool_radius",
    "exclusion_radius",
    "fall_clearance",
    "fall_figures",
    "gin_pole_forces",
    "hauling_tension",
    "line_check",
    "line_checks",
    "pick_plan",
    "plan_lift",
    "rank_methods",
    "swr_expectation",
    "tag_force",
    "tram_forces",
    "weather_answer",
    "wind_force",
]
