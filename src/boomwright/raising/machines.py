"""Ways to get the beam up with a hired machine."""

from __future__ import annotations

from typing import Final

from boomwright.base.quantity import listed, phrase, settled
from boomwright.raising.answers import (
    CARRIES_BEAM,
    CLEAR_OF_GUYS,
    CRANE_OPERATOR,
    LEVEL_ACCESS,
    TRUCK_OPERATOR,
)
from boomwright.raising.job import LiftTruck, Raising
from boomwright.raising.picks import pick_plan
from boomwright.raising.rigging import breaking_strength_needed, weight
from boomwright.raising.way import load_way, way_in, weigh_guys
from boomwright.raising.weighing import (
    Force,
    MethodChoice,
    TowerTopLoad,
    Way,
    Weighing,
    need_climbers,
    need_people,
)
from boomwright.raising.wording import mass, span

#: share of the crane's chart used when planning [-] {common-practice-raising}
CRANE_SHARE: Final = 0.75
#: two people with tools on a platform [kg] {common-practice-raising}
PLATFORM_CREW: Final = 2 * 110.0
#: highest work above the platform's floor [m] {common-practice-raising}
REACH_ABOVE_FLOOR: Final = 1.5
#: boom on the rails above the platform's floor [m] {common-practice-raising}
RAIL: Final = 1.1
#: hook above the boom for the bridle, over the boom length [-] {common-practice-raising}
BRIDLE_RISE: Final = 0.3

_NO_TOP_LOAD: Final = TowerTopLoad(vertical=0.0, horizontal=0.0, base_moment=0.0)


def _choice(
    way: Way,
    weighing: Weighing,
    *,
    people: tuple[int, int],
    forces: tuple[Force, ...] = (),
    wind_limit: float | None = None,
    platform: bool = False,
    planned: bool = True,
) -> MethodChoice:
    return MethodChoice(
        way=way,
        name="crane" if way == "crane" else "lift truck",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        deciding=weighing.deciding,
        forces=forces,
        tower_top=_NO_TOP_LOAD,
        people=people,
        answers=tuple(weighing.answers),
        wind_limit=wind_limit,
        platform=platform,
        planned=planned,
    )


def floor_needed(job: Raising) -> float:
    """Least height of a platform's floor that takes the beam over the mast and hands to the clamp.

    Returns:
        height above the foot of the support [m]
    """
    return max(way_in(job) - RAIL, job.lift_height - REACH_ABOVE_FLOOR)


def _lowest(*limits: float | None) -> float | None:
    """Lowest of the limits there are; None without any [unit]."""
    return min((limit for limit in limits if limit is not None), default=None)


def _own_wind(machine: str) -> str:
    return f"ask at what gust the {machine} stops: its papers say"


def _platform(job: Raising, machine: LiftTruck) -> Weighing:
    """Weigh the truck as a place to work from: two people with tools at the clamp."""
    weighing = Weighing()
    weighing.ask(LEVEL_ACCESS, job.level_access)
    weighing.ask(TRUCK_OPERATOR, machine.operator)
    reach = machine.platform_height + REACH_ABOVE_FLOOR
    weighing.need(
        reach >= job.lift_height,
        phrase(
            "hands reach {reach} and the clamp is at {lift_height}",
            reach=span(reach),
            lift_height=span(job.lift_height),
        ),
    )
    weighing.need(
        machine.outreach >= machine.needed_outreach,
        phrase(
            "reaches {outreach} sideways and {needed_outreach} is needed",
            outreach=span(machine.outreach),
            needed_outreach=span(machine.needed_outreach),
        ),
    )
    weighing.known(machine.wind_limit is not None, _own_wind("lift truck"))
    rated = machine.platform_capacity
    if weighing.known(rated is not None, "platform's rated load not read from its chart"):
        weighing.need(
            (rated or 0.0) >= PLATFORM_CREW,
            phrase(
                "two people with tools are {platform_crew}, the platform is rated for {mass}",
                platform_crew=mass(PLATFORM_CREW),
                mass=mass(rated or 0.0),
            ),
        )
    return weighing


def _reach_the_clamp(weighing: Weighing, job: Raising) -> bool:
    """Somebody trained must reach the clamp and bolt it: from a platform that will do, or climbing.

    Returns:
        whether it is done from the platform
    """
    truck = None if job.lift_truck is None else _platform(job, job.lift_truck)
    enough = job.crew.trained_climbers >= 2
    # A truck with open questions is taken only where nobody could climb in its place.
    if truck is None or truck.verdict == "no-go" or (truck.verdict == "ask" and enough):
        if truck is not None:
            weighing.notes.append(
                phrase("the lift truck will not do: {why}", why=listed(truck.reasons, between="; "))
            )
        need_climbers(weighing, job, climbers=2)
        return False
    weighing.unanswered += [
        phrase("lift truck: {reason}", reason=reason) for reason in truck.unanswered
    ]
    weighing.answers += truck.answers
    return True


def crane(job: Raising) -> MethodChoice:
    """Lift the beam with a hired crane and its operator; somebody at the mast bolts it."""
    weighing, machine = Weighing(), job.crane
    if machine is None:
        weighing.against.append(settled("no crane entered", "raising.crane"))
        return _choice("crane", weighing, people=(0, 4), planned=False)
    platform = _reach_the_clamp(weighing, job)
    people = (0, 5) if platform else (2, 4)
    need_people(weighing, job, climbers=0, ground=people[1])
    if not platform:
        weighing.ask(LEVEL_ACCESS, job.level_access)
    weighing.ask(CRANE_OPERATOR, machine.operator)
    weigh_guys(weighing, job, load_way("crane", job))
    weighing.known(machine.wind_limit is not None, _own_wind("crane"))
    allowed = None if machine.capacity is None else CRANE_SHARE * machine.capacity
    if weighing.known(
        allowed is not None, "crane's rated load at this radius not read from its chart"
    ):
        weighing.need(
            job.load.mass <= (allowed or 0.0),
            phrase(
                "{mass} is over {crane_share} of the chart, {mass2}", mass=mass(job.load.mass),
                crane_share=f"{CRANE_SHARE:.0%}", mass2=mass(allowed or 0.0),
            ),
        )  # fmt: skip
    hook = way_in(job) + max(BRIDLE_RISE * job.load.boom_length, job.load.rise)
    weighing.need(
        machine.hook_height >= hook,
        phrase(
            "hook reaches {hook_height} and {hook} is needed with the bridle",
            hook_height=span(machine.hook_height),
            hook=span(hook),
        ),
    )
    weighing.notes.append("pick at the balance point with a bridle and two tag lines")
    heavy, picks = weight(mass=job.load.mass), pick_plan(job.load)
    # One sling alone where the bridle is not laid out yet.
    leg = breaking_strength_needed(static_load=heavy) if picks is None else picks.least_strength
    weighing.least(
        has=machine.slings,
        needs=leg,
        unknown="slings of the crane without a marked strength",
        short="slings of the crane too weak",
    )
    forces = (
        Force(
            name="load on the hook",
            value=heavy,
            limit=None if allowed is None else weight(mass=allowed),
        ),
        Force(name="sling, least breaking strength", value=leg, limit=machine.slings),
    )
    truck = job.lift_truck if platform else None
    least = _lowest(machine.wind_limit, truck.wind_limit if truck else None)
    return _choice(
        "crane", weighing, people=people, forces=forces, wind_limit=least, platform=platform
    )


def lift_truck(job: Raising) -> MethodChoice:
    """Carry the beam up on a lift truck's platform and bolt it from there."""
    machine, people = job.lift_truck, (0, 5)
    if machine is None:
        weighing = Weighing(against=[settled("no lift truck entered", "raising.lift_truck")])
        return _choice("truck", weighing, people=people, planned=False)
    weighing = _platform(job, machine)
    need_people(weighing, job, climbers=0, ground=people[1])
    weighing.ask(CARRIES_BEAM, machine.carries_beam)
    if job.guys:
        weighing.ask(CLEAR_OF_GUYS, job.clear_of_guys)
        weigh_guys(weighing, job, load_way("truck", job))
    if machine.platform_capacity is not None:
        left = max(0.0, machine.platform_capacity - PLATFORM_CREW)
        weighing.need(
            left >= job.load.mass,
            phrase(
                "two people with tools leave {left} of the platform's rating and the beam "
                "has {mass}", left=mass(left), mass=mass(job.load.mass),
            ),
        )  # fmt: skip
    over, rails = way_in(job), machine.platform_height + RAIL
    weighing.need(
        rails >= over,
        phrase(
            "the beam on its rails gets to {rails} and passes over the mast at {over}",
            rails=span(rails), over=span(over),
        ),
    )  # fmt: skip
    weighing.notes.append(f"harness clipped to the platform, never to the {job.support}")
    if job.guys:
        weighing.notes.append("the arm comes in between two guys and stays clear of both")
    return _choice("truck", weighing, people=people, wind_limit=machine.wind_limit, platform=True)
