"""Ways to get the beam up with a machine, or by laying the tower down."""

from __future__ import annotations

from typing import Final

from boomwright.raising.job import Raising
from boomwright.raising.rigging import weight
from boomwright.raising.weighing import (
    Force,
    MethodChoice,
    TowerTopLoad,
    Weighing,
    need_people,
)
from boomwright.raising.wording import mass, span

#: share of the crane's chart used when planning [-] {common-practice-raising}
CRANE_SHARE: Final = 0.75
#: two people with tools on a platform [kg] {common-practice-raising}
PLATFORM_CREW: Final = 2 * 110.0
#: highest work above the platform's floor [m] {common-practice-raising}
REACH_ABOVE_FLOOR: Final = 1.5
#: hook above the boom for the bridle, over the boom length [-] {common-practice-raising}
BRIDLE_RISE: Final = 0.3

_NO_TOP_LOAD: Final = TowerTopLoad(vertical=0.0, horizontal=0.0, base_moment=0.0)


def _choice(
    name: str,
    weighing: Weighing,
    *,
    people: tuple[int, int],
    forces: tuple[Force, ...] = (),
) -> MethodChoice:
    return MethodChoice(
        name=name,
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        forces=forces,
        tower_top=_NO_TOP_LOAD,
        people=people,
    )


def crane(job: Raising) -> MethodChoice:
    """Lift the beam with a hired crane and its operator.

    Returns
    -------
    MethodChoice
        the method; somebody must still be at the mast to bolt it
    """
    weighing, machine = Weighing(), job.crane
    need_people(weighing, job, climbers=2 if job.lift_truck is None else 0, ground=4)
    weighing.need(job.level_access, "no level, firm place for the machine beside the tower")
    people = (2 if job.lift_truck is None else 0, 4)
    if machine is None:
        weighing.against.append("no crane entered")
        return _choice("crane", weighing, people=people)
    allowed = None if machine.capacity is None else CRANE_SHARE * machine.capacity
    if weighing.known(
        allowed is not None, "crane's rated load at this radius not read from its chart"
    ):
        weighing.need(
            job.load.mass <= (allowed or 0.0),
            f"{mass(job.load.mass)} is over {CRANE_SHARE:.0%} of the chart, {mass(allowed or 0.0)}",
        )
    hook = job.lift_height + BRIDLE_RISE * job.load.boom_length
    weighing.need(
        machine.hook_height >= hook,
        f"hook reaches {span(machine.hook_height)} and {span(hook)} is needed with the bridle",
    )
    weighing.notes.append(
        "pick at the balance point with a bridle and two tag lines; the operator's wind limit "
        "and word go first"
    )
    force = Force(
        name="load on the hook",
        value=weight(mass=job.load.mass),
        limit=None if allowed is None else weight(mass=allowed),
    )
    return _choice("crane", weighing, people=people, forces=(force,))


def lift_truck(job: Raising) -> MethodChoice:
    """Work from a lift truck's platform instead of climbing; the beam comes up on a rope."""
    weighing, machine = Weighing(), job.lift_truck
    need_people(weighing, job, climbers=0, ground=3)
    weighing.need(job.level_access, "no level, firm place for the machine beside the tower")
    if machine is None:
        weighing.against.append("no lift truck entered")
        return _choice("lift truck", weighing, people=(0, 3))
    reach = machine.platform_height + REACH_ABOVE_FLOOR
    weighing.need(
        reach >= job.lift_height,
        f"hands reach {span(reach)} and the clamp is at {span(job.lift_height)}",
    )
    weighing.need(
        machine.outreach >= machine.needed_outreach,
        f"reaches {span(machine.outreach)} sideways and {span(machine.needed_outreach)} is needed",
    )
    if weighing.known(
        machine.platform_capacity is not None, "platform's rated load not read from its chart"
    ):
        left = (machine.platform_capacity or 0.0) - PLATFORM_CREW
        weighing.need(
            left >= job.load.mass,
            f"two people with tools leave {mass(left)} of the platform's rating and the beam "
            f"has {mass(job.load.mass)}",
        )
    weighing.notes.append(
        "needs an operator trained for it, harness clipped to the platform, and the hirer's word "
        "that a beam may be carried"
    )
    return _choice("lift truck", weighing, people=(0, 3))


def tilt_over(job: Raising) -> MethodChoice:
    """Mount the beam with the tower laid down or cranked in."""
    weighing = Weighing()
    need_people(weighing, job, climbers=0, ground=3)
    weighing.need(
        job.tilt_over, "the tower does not tilt or crank down, or its maker forbids it loaded"
    )
    weighing.notes.append(
        "nobody under it or in line with the cable; look at cable, winch and hinge first"
    )
    return _choice("tilt over", weighing, people=(0, 3))
