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

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.raising.answers import Answered as Answered
    from boomwright.raising.answers import Said as Said
    from boomwright.raising.day import TakingDown as TakingDown
    from boomwright.raising.falls import FallFigures as FallFigures
    from boomwright.raising.falls import fall_clearance as fall_clearance
    from boomwright.raising.falls import fall_figures as fall_figures
    from boomwright.raising.job import BackLine as BackLine
    from boomwright.raising.job import Capstan as Capstan
    from boomwright.raising.job import Crane as Crane
    from boomwright.raising.job import Crew as Crew
    from boomwright.raising.job import GinPole as GinPole
    from boomwright.raising.job import GuyRing as GuyRing
    from boomwright.raising.job import HaulLine as HaulLine
    from boomwright.raising.job import LiftTruck as LiftTruck
    from boomwright.raising.job import LineNear as LineNear
    from boomwright.raising.job import Load as Load
    from boomwright.raising.job import Raising as Raising
    from boomwright.raising.job import Tilt as Tilt
    from boomwright.raising.job import Tram as Tram
    from boomwright.raising.lift_plan import LiftPlan as LiftPlan
    from boomwright.raising.lift_plan import plan_lift as plan_lift
    from boomwright.raising.picks import PickPlan as PickPlan
    from boomwright.raising.picks import pick_plan as pick_plan
    from boomwright.raising.rigging import block_load as block_load
    from boomwright.raising.rigging import breaking_strength_needed as breaking_strength_needed
    from boomwright.raising.rigging import bridle_forces as bridle_forces
    from boomwright.raising.rigging import gin_pole_forces as gin_pole_forces
    from boomwright.raising.rigging import tram_forces as tram_forces
    from boomwright.raising.rigging import wind_force as wind_force
    from boomwright.raising.sheets import CrewRole as CrewRole
    from boomwright.raising.sheets import HoldPoint as HoldPoint
    from boomwright.raising.sheets import Signal as Signal
    from boomwright.raising.sheets import SwrExpectation as SwrExpectation
    from boomwright.raising.sheets import swr_expectation as swr_expectation
    from boomwright.raising.surroundings import GroundCheck as GroundCheck
    from boomwright.raising.surroundings import LineCheck as LineCheck
    from boomwright.raising.tackle import capstan_ratio as capstan_ratio
    from boomwright.raising.tackle import tackle_pull as tackle_pull
    from boomwright.raising.tilt_statics import Lifter as Lifter
    from boomwright.raising.tilt_statics import Part as Part
    from boomwright.raising.tilt_statics import TiltState as TiltState
    from boomwright.raising.tilt_statics import hold_back_pull as hold_back_pull
    from boomwright.raising.tilt_statics import lying_moment as lying_moment
    from boomwright.raising.tilt_statics import tilt_state as tilt_state
    from boomwright.raising.tilt_statics import weight_moment as weight_moment
    from boomwright.raising.weather import WeatherStops as WeatherStops
    from boomwright.raising.weather import weather_answer as weather_answer
    from boomwright.raising.weighing import Force as Force
    from boomwright.raising.weighing import MethodChoice as MethodChoice

__getattr__ = on_demand(
    __name__,
    {
        "answers": "Answered Said",
        "day": "TakingDown",
        "falls": "FallFigures fall_clearance fall_figures",
        "job": "BackLine Capstan Crane Crew GinPole GuyRing HaulLine "
        "LiftTruck LineNear Load Raising Tilt Tram",
        "lift_plan": "LiftPlan plan_lift",
        "picks": "PickPlan pick_plan",
        "rigging": "block_load breaking_strength_needed bridle_forces "
        "gin_pole_forces tram_forces "
        "wind_force",
        "sheets": "CrewRole HoldPoint Signal SwrExpectation swr_expectation",
        "surroundings": "GroundCheck LineCheck",
        "tackle": "capstan_ratio tackle_pull",
        "tilt_statics": "Lifter Part TiltState hold_back_pull lying_moment tilt_state "
        "weight_moment",
        "weather": "WeatherStops weather_answer",
        "weighing": "Force MethodChoice",
    },
)
