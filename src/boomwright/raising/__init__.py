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
    from boomwright.raising.answers import Answered, Said
    from boomwright.raising.day import TakingDown
    from boomwright.raising.falls import FallFigures
    from boomwright.raising.job import (
        BackLine,
        Crane,
        Crew,
        GinPole,
        HaulLine,
        LiftTruck,
        LineNear,
        Load,
        Raising,
        SupportLift,
        Tilt,
        Tram,
    )
    from boomwright.raising.lift_plan import LiftPlan, plan_lift
    from boomwright.raising.picks import PickPlan, pick_plan
    from boomwright.raising.rigging import wind_force
    from boomwright.raising.sheets import (
        CrewRole,
        HoldPoint,
        Signal,
        SwrExpectation,
        swr_expectation,
    )
    from boomwright.raising.support_lift import SupportRaising
    from boomwright.raising.surroundings import GroundCheck, LineCheck
    from boomwright.raising.tilt_statics import Lifter, Part, TiltState
    from boomwright.raising.weather import WeatherStops
    from boomwright.raising.weighing import Force, MethodChoice

__getattr__ = on_demand(__name__)
