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
    from boomwright.raising.job import BackLine as BackLine
    from boomwright.raising.job import Crane as Crane
    from boomwright.raising.job import Crew as Crew
    from boomwright.raising.job import GinPole as GinPole
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
    from boomwright.raising.rigging import wind_force as wind_force
    from boomwright.raising.sheets import CrewRole as CrewRole
    from boomwright.raising.sheets import HoldPoint as HoldPoint
    from boomwright.raising.sheets import Signal as Signal
    from boomwright.raising.sheets import SwrExpectation as SwrExpectation
    from boomwright.raising.sheets import swr_expectation as swr_expectation
    from boomwright.raising.surroundings import GroundCheck as GroundCheck
    from boomwright.raising.surroundings import LineCheck as LineCheck
    from boomwright.raising.tilt_statics import Lifter as Lifter
    from boomwright.raising.tilt_statics import Part as Part
    from boomwright.raising.tilt_statics import TiltState as TiltState
    from boomwright.raising.weather import WeatherStops as WeatherStops
    from boomwright.raising.weighing import Force as Force
    from boomwright.raising.weighing import MethodChoice as MethodChoice

__getattr__ = on_demand(
    __name__,
    {
        "answers": "Answered Said",
        "day": "TakingDown",
        "falls": "FallFigures",
        "job": "BackLine Crane Crew GinPole HaulLine LiftTruck LineNear Load Raising Tilt Tram",
        "lift_plan": "LiftPlan plan_lift",
        "picks": "PickPlan pick_plan",
        "rigging": "wind_force",
        "sheets": "CrewRole HoldPoint Signal SwrExpectation swr_expectation",
        "surroundings": "GroundCheck LineCheck",
        "tilt_statics": "Lifter Part TiltState",
        "weather": "WeatherStops",
        "weighing": "Force MethodChoice",
    },
)
