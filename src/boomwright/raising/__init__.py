"""Raising: how the beam gets up, who does what, and when work stops.

Describe the job as :class:`Raising`; :func:`plan_lift` gives the :class:`LiftPlan` with every
method weighed (go, no-go or ask, each with reasons and forces), hold points, roles, signals,
exclusion ground, weather limits, power lines, fall figures and the emergency list.

``rigging``, ``tackle`` and ``tilt_statics`` hold the statics; ``methods`` (ropes), ``machines`` and
``tilting`` weigh the ways up through ``weighing``; ``answers`` holds the questions that they hang
on; ``surroundings`` looks at power lines and ground; ``falls`` and ``weather`` hold the limits;
``day`` the roles, holds and order of the method chosen, ``sheets`` the texts that no method
changes. Least distances to power lines come in with the lines, from the permits room, so that
there is one place for them; what holds the beam up comes in as findings of the structure room.

Climbing and rigging are for people trained in them; whoever is not should get someone who is.
"""

from boomwright.raising.answers import Answered, Said
from boomwright.raising.day import TakingDown
from boomwright.raising.falls import FallFigures, fall_clearance, fall_figures
from boomwright.raising.job import (
    BackLine,
    Capstan,
    Crane,
    Crew,
    GinPole,
    GuyRing,
    HaulLine,
    LiftTruck,
    LineNear,
    Load,
    Raising,
    Tilt,
    Tram,
)
from boomwright.raising.lift_plan import LiftPlan, plan_lift
from boomwright.raising.picks import PickPlan, pick_plan
from boomwright.raising.rigging import (
    block_load,
    breaking_strength_needed,
    bridle_forces,
    centre_of_gravity,
    gin_pole_forces,
    tag_force,
    tram_forces,
    wind_force,
)
from boomwright.raising.sheets import CrewRole, HoldPoint, Signal, SwrExpectation, swr_expectation
from boomwright.raising.surroundings import GroundCheck, LineCheck
from boomwright.raising.tackle import capstan_ratio, tackle_pull
from boomwright.raising.tilt_statics import (
    Lifter,
    Part,
    TiltState,
    hold_back_pull,
    lying_moment,
    tilt_state,
    weight_moment,
)
from boomwright.raising.weather import WeatherStops, weather_answer
from boomwright.raising.weighing import Force, MethodChoice

__all__ = [
    "Answered",
    "BackLine",
    "Capstan",
    "Crane",
    "Crew",
    "CrewRole",
    "FallFigures",
    "Force",
    "GinPole",
    "GroundCheck",
    "GuyRing",
    "HaulLine",
    "HoldPoint",
    "LiftPlan",
    "LiftTruck",
    "Lifter",
    "LineCheck",
    "LineNear",
    "Load",
    "MethodChoice",
    "Part",
    "PickPlan",
    "Raising",
    "Said",
    "Signal",
    "SwrExpectation",
    "TakingDown",
    "Tilt",
    "TiltState",
    "Tram",
    "WeatherStops",
    "block_load",
    "breaking_strength_needed",
    "bridle_forces",
    "capstan_ratio",
    "centre_of_gravity",
    "fall_clearance",
    "fall_figures",
    "gin_pole_forces",
    "hold_back_pull",
    "lying_moment",
    "pick_plan",
    "plan_lift",
    "swr_expectation",
    "tackle_pull",
    "tag_force",
    "tilt_state",
    "tram_forces",
    "weather_answer",
    "weight_moment",
    "wind_force",
]
