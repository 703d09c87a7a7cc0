"""What the tuning room needs of the readings on the air in a plan."""

from __future__ import annotations

import math

from boomwright.base import place_error
from boomwright.base.quantity import phrase
from boomwright.plan.faults import table_named, written
from boomwright.plan.model import Plan
from boomwright.plan.model_measured import AimPlan, HeadingRunPlan, LevelPlan, MomentPlan
from boomwright.tuning.aiming import USUAL_AIM, Aim
from boomwright.tuning.on_air import HeadingRun, heading_run, level_of_s_meter
from boomwright.tuning.sun import SunPlace, sun_place

#: a sun lower than this is refracted, and its noise mixed with that of the ground [rad]
_LOWEST_SUN = 0.0


def run_of(planned: HeadingRunPlan) -> HeadingRun:
    """Levels of a run over the headings, in decibels."""
    return heading_run(
        azimuth=[azimuth for azimuth, _ in planned.readings],
        level_db=[_decibels(level) for _, level in planned.readings],
    )


def signal_place(plan: Plan, planned: HeadingRunPlan, *, path: str) -> tuple[float, float]:
    """True bearing and elevation that the signal of a run comes from [rad] (2,)."""
    if planned.bearing is not None:
        return planned.bearing, planned.elevation or 0.0
    sun = _sun(plan, planned.sun, path)
    elevation = sun.elevation if planned.elevation is None else planned.elevation
    return sun.azimuth, elevation


def aim_of(plan: Plan, planned: AimPlan, *, path: str) -> Aim:
    """One aim at a known bearing or at the sun."""
    bearing = planned.bearing
    if bearing is None:
        bearing = _sun(plan, planned.sun, path).azimuth
    return Aim(shows=planned.shows, bearing=bearing, within=planned.within or USUAL_AIM)


def _decibels(level: LevelPlan) -> float:
    if level.s_units is None:
        return level.decibels
    return level_of_s_meter(s_units=level.s_units, over_db=level.decibels)


def _sun(plan: Plan, moment: MomentPlan | None, path: str) -> SunPlace:
    latitude, longitude = plan.site.latitude, plan.site.longitude
    if moment is None or latitude is None or longitude is None:
        message = "the place of the sun needs the position of the site"
        where = phrase(
            "add position or locator to {site}, or write {bearing}",
            site=table_named("site"), bearing=written("bearing", '"231 deg"'),
        )  # fmt: skip
        raise place_error(f"{path}.sun", message, remedy=where)
    found = sun_place(
        day=moment.day, utc_hours=moment.utc_hours, latitude=latitude, longitude=longitude
    )
    if found.elevation < _LOWEST_SUN:
        below = math.degrees(-found.elevation)
        message = f"the sun stands {below:.0f} degrees below the horizon then"
        remedy = "write the moment in universal time, not local time"
        raise place_error(f"{path}.sun", message, remedy=remedy)
    return found
