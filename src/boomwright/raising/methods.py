"""Ways to get the beam up with ropes, each with its verdict, reasons and forces."""

from __future__ import annotations

from typing import Final

from boomwright.raising.job import Raising
from boomwright.raising.rigging import (
    GUST_FACTOR,
    block_load,
    breaking_strength_needed,
    gin_pole_forces,
    hauling_tension,
    tram_forces,
    weight,
    wind_force,
)
from boomwright.raising.weather import WeatherStops
from boomwright.raising.weighing import (
    Force,
    MethodChoice,
    TowerTopLoad,
    Weighing,
    need_people,
    tower_top_load,
)
from boomwright.raising.wording import force, mass, span

#: heaviest load hauled by hand over one block [kg] {common-practice-raising}
HAND_LIMIT: Final = 35.0


def _hauling(weighing: Weighing, job: Raising, *, line_load: float) -> tuple[Force, ...]:
    """Check rope and block of a hauling line over a top block and a foot block."""
    pull = hauling_tension(load=line_load, sheaves=2)
    block = block_load(line_tension=pull, angle_between=0.0)
    rope_needs = breaking_strength_needed(static_load=pull)
    block_needs = breaking_strength_needed(static_load=block)
    line = job.haul_line
    rope_has = line.breaking_strength if line else None
    block_has = line.block_breaking_strength if line else None
    if weighing.known(rope_has is not None, "no hauling rope entered with its breaking strength"):
        weighing.need(
            (rope_has or 0.0) >= rope_needs,
            f"rope breaks at {force(rope_has or 0.0)} and {force(rope_needs)} is needed",
        )
    if weighing.known(block_has is not None, "blocks, shackles or slings without marked strength"):
        weighing.need(
            (block_has or 0.0) >= block_needs,
            f"weakest block or shackle breaks at {force(block_has or 0.0)} and "
            f"{force(block_needs)} is needed",
        )
    return (
        Force(name="hauling rope, least breaking strength", value=rope_needs, limit=rope_has),
        Force(name="top block, least breaking strength", value=block_needs, limit=block_has),
    )


def _sideways(job: Raising) -> float:
    """Wind on the hanging beam at the hoisting limit, gusts and swing included."""
    speed = WeatherStops().stop_hoist_at
    return wind_force(drag_area=job.load.drag_area, wind_speed=speed, factor=GUST_FACTOR)


def hand_line(job: Raising) -> MethodChoice:
    """Haul the beam up by hand with two climbers at the top."""
    weighing = Weighing()
    need_people(weighing, job, climbers=2, ground=4)
    load = weight(mass=job.load.mass)
    weighing.need(
        job.load.mass <= HAND_LIMIT,
        f"{mass(job.load.mass)} is over {mass(HAND_LIMIT)} by hand over one block",
    )
    weighing.need(not job.guys_in_the_way, "guys are in the way of a straight haul")
    forces = _hauling(weighing, job, line_load=load)
    pull = hauling_tension(load=load, sheaves=1)
    top = tower_top_load(weighing, job, vertical=2.0 * pull, horizontal=_sideways(job))
    weighing.notes.append("two tag lines, one at each end of the boom")
    return MethodChoice(
        name="climbers with a hauling line",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        forces=forces,
        tower_top=top,
        people=(2, 4),
    )


def gin_pole(job: Raising) -> MethodChoice:
    """Haul the beam over the top with a gin pole clamped to the tower."""
    weighing = Weighing()
    need_people(weighing, job, climbers=2, ground=4)
    weighing.need(job.crew.trained_rigger, "needs somebody trained in rigging to lead")
    load = weight(mass=job.load.mass)
    pole = job.gin_pole
    if pole is None:
        weighing.against.append("no gin pole entered")
        top = tower_top_load(Weighing(), job, vertical=0.0, horizontal=0.0)
        return _closed("gin pole", weighing, top, people=(2, 4))
    parts = gin_pole_forces(
        load=load,
        offset_angle=pole.offset_angle,
        tag_slope=pole.tag_slope,
        overhang=pole.overhang,
    )
    if weighing.known(pole.rated_load is not None, "gin pole without a marked rated load"):
        weighing.need(
            parts.gross_load <= (pole.rated_load or 0.0),
            f"load with tag pull {force(parts.gross_load)} is over the pole's "
            f"{force(pole.rated_load or 0.0)}",
        )
    if weighing.known(pole.maximum_overhang is not None, "maker's largest overhang not known"):
        weighing.need(
            pole.overhang <= (pole.maximum_overhang or 0.0),
            f"overhang {span(pole.overhang)} is over the maker's "
            f"{span(pole.maximum_overhang or 0.0)}",
        )
    forces = (
        *_hauling(weighing, job, line_load=parts.hoist_line),
        Force(name="gross load on the pole", value=parts.gross_load, limit=pole.rated_load),
        Force(name="pull of the tag line", value=parts.tag_pull),
        Force(name="heel block", value=parts.heel_block),
    )
    top = tower_top_load(
        weighing, job, vertical=parts.head_block, horizontal=parts.tag_pull + _sideways(job)
    )
    return MethodChoice(
        name="gin pole",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        forces=forces,
        tower_top=top,
        people=(2, 4),
    )


def _closed(
    name: str, weighing: Weighing, top: TowerTopLoad, *, people: tuple[int, int]
) -> MethodChoice:
    return MethodChoice(
        name=name,
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        forces=(),
        tower_top=top,
        people=people,
    )


def tram_line(job: Raising) -> MethodChoice:
    """Haul the beam along a tensioned line from a ground anchor, clear of the guys."""
    weighing = Weighing()
    need_people(weighing, job, climbers=2, ground=5)
    weighing.need(job.crew.trained_rigger, "needs somebody trained in rigging to lead")
    tram = job.tram
    if tram is None:
        weighing.against.append("no tram line entered")
        top = tower_top_load(Weighing(), job, vertical=0.0, horizontal=0.0)
        return _closed("tram line", weighing, top, people=(2, 5))
    load = weight(mass=job.load.mass)
    line = tram_forces(
        load=load,
        span=tram.span,
        drop=job.lift_height,
        sag=tram.sag,
        line_weight=tram.line_weight,
    )
    needs = breaking_strength_needed(static_load=line.tension_top)
    weighing.need(
        tram.breaking_strength >= needs,
        f"carrier breaks at {force(tram.breaking_strength)} and {force(needs)} is needed: "
        "allow more sag or take a stronger line",
    )
    weighing.need(tram.back_guyed, "tower top is not guyed against the pull of the tram line")
    # On the line the hauling rope pulls along a slope; near the top it comes close to the weight.
    forces = (
        *_hauling(weighing, job, line_load=load),
        Force(name="carrier, least breaking strength", value=needs, limit=tram.breaking_strength),
        Force(name="lift on the ground anchor", value=max(0.0, -line.vertical_anchor)),
        Force(name="sideways on the ground anchor", value=line.horizontal),
    )
    top = tower_top_load(
        weighing,
        job,
        vertical=line.vertical_top + 2.0 * hauling_tension(load=load, sheaves=1),
        horizontal=line.horizontal,
    )
    return MethodChoice(
        name="tram line",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        forces=forces,
        tower_top=top,
        people=(2, 5),
    )
