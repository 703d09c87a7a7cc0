"""A lift in which everything is in order, to spoil one thing at a time. People are made up."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

from boomwright.raising import (
    BackLine,
    Crane,
    Crew,
    GinPole,
    HaulLine,
    LiftTruck,
    LineNear,
    Load,
    MethodChoice,
    Part,
    Raising,
    Said,
    Tilt,
    Tram,
    plan_lift,
)
from boomwright.raising.job import Capstan
from boomwright.structure import GuyLevel
from boomwright.structure.support.guys import STRANDS

YES = Said(yes=True, by="station owner", on="2026-05-01")
NO = Said(yes=False, by="station owner", on="2026-05-01")
BARE = Said(yes=True)

LOAD = Load(
    name="20 m beam",
    mass=20.0,
    drag_area=0.6,
    element_span=10.8,
    boom_length=6.0,
    reach=math.hypot(10.8, 6.0) / 2.0,
    balance_place=2.9,
)
CREW = Crew(trained_climbers=2, ground=6, training=YES, rescue_plan=YES, trained_rigger=YES)
STRONG = HaulLine(breaking_strength=20e3, block_breaking_strength=40e3, ends="eye")
CAPSTAN = Capstan(rated_pull=4e3, fastening=4e3)
#: hauled by hand with two climbers, no guys, wide ground
JOB = Raising(
    load=LOAD,
    tower_height=15.0,
    lift_height=16.0,
    crew=CREW,
    lines_surveyed=YES,
    support_stands=YES,
    haul_line=STRONG,
    tower_top_horizontal_rating=2000.0,
    forecast_gust=3.0,
    boundary=30.0,
)
GUYS = tuple(
    GuyLevel(height=high, anchor_radius=11.0, strand=STRANDS["1/4 in EHS"]) for high in (14.0, 7.5)
)
STREET = LineNear(
    name="street", distance=60.0, height=8.0, required_clearance=3.05, basis="Table A"
)
TRUCK = LiftTruck(
    platform_height=16.0,
    outreach=6.0,
    needed_outreach=4.0,
    platform_capacity=250.0,
    wind_limit=12.5,
    operator=YES,
    carries_beam=YES,
)
CRANE = Crane(
    capacity=200.0, radius=8.0, hook_height=20.0, slings=2e3, wind_limit=9.0, operator=YES
)
TRAM = Tram(span=25.0, sag=2.0, breaking_strength=20e3, anchor=5e3, back_guyed=YES)
POLE = GinPole(overhang=2.0, rated_load=600.0, maximum_overhang=2.5)
#: 60 kg at 5.5 m and 25 kg at 12 m: the second case of data/raising_checks.toml
TILT = Tilt(
    parts=(
        Part(name="mast", mass=60.0, at=5.5),
        Part(name="beam", mass=25.0, at=12.0, wind=49.4),
    ),
    lifter_kind="gin pole",
    lifter_height=4.0,
    line_at=8.0,
    winch_distance=9.0,
    hinged=YES,
    side_guys=YES,
    winch=4e3,
    rope=20e3,
    ends="eye",
    lift_line=20e3,
    lifter_rating=4e3,
    anchor=4e3,
    hinge_rating=5e3,
    allowed_moment=3e3,
    back_line=BackLine(breaking_strength=8e3, line_at=8.0, distance=9.0, anchor=2e3),
    operator_out=14.0,
)


def changed(job: Raising = JOB, **more: Any) -> Raising:
    """The same job with something else."""
    return dataclasses.replace(job, **more)


def method(job: Raising, way: str) -> MethodChoice:
    """One method of the job's lift plan."""
    return next(choice for choice in plan_lift(job).methods if choice.way == way)
