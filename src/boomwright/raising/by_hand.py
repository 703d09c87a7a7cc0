"""Light wire pulled up by hand on ropes over pulleys: the way up, and its day.

Wire that ropes hold weighs a few kilograms: what hurts people is the roof, the ladder, the tree and
the power line, not the load {common-practice-raising}.
"""

from __future__ import annotations

from typing import Final

from boomwright.raising.answers import HOLDS_SOUND, PULLEYS_UP, ROPES_CLEAR
from boomwright.raising.job import Raising
from boomwright.raising.methods import hauling
from boomwright.raising.rigging import weight
from boomwright.raising.sheets import POWER_CHECK, CrewRole, HoldPoint
from boomwright.raising.weighing import MethodChoice, TowerTopLoad, Weighing, need_people

#: lift director, one at each of two ropes
_GROUND: Final = 3

#: said of the way up, whatever else
_NOTES: Final = (
    "nobody climbs for a wire: pulleys go up while the pole lies down, by a line thrown over the "
    "branch from the ground, or with somebody trained and tied on",
    "look beyond the tree before a line is thrown: a power line may run behind it, and a wet line "
    "or wire across it kills",
    "ladder: footed by a second person, tied at its top, and never near a power line; roof: only "
    "with training and fall protection",
)

#: what has aged when it comes down
AGED: Final = (
    "rope where it runs over pulley, bark and edge: chafe, sunlight, a branch grown round it",
    "insulators, knots and crimps: cracks, green copper, broken strands",
    "trees, roof hooks and posts: dead wood, rot, loose bricks, rusty eyes",
)


def sequence(*, upright: bool) -> tuple[str, ...]:
    """Order of the day.

    Args:
        upright: whether it is upright wire, which no stand holds and which has one end to trim
    """
    ends = "the upper end" if upright else "both ends alike"
    return (
        "look over trees, roof hooks, posts, pulleys and ropes",
        "mark lines overhead; rope off the ground under wires and branches",
        "fit balun and cable on the ground, cable tied so that it pulls on nothing",
        *(() if upright else ("SWR check on stands",)),
        "unplug the feed line, lock the transmitters",
        "dry run with empty ropes and all signals",
        "lift with the hold points",
        f"SWR from the station; trim {ends} on the ground and lift again",
        "photographs, log",
    )


EMERGENCY: Final = (
    "rope jammed: nobody climbs after it; pull from the ground, or call a trained tree climber",
)

MIDDLE: Final = (
    HoldPoint(
        name="every end at waist height",
        checks=("insulators, knots and feed block hold with the pull on",
                "every rope runs free in its pulley"),
    ),
    HoldPoint(
        name="half way up",
        checks=("wire and cable clear of branches, gutters and people",
                "wind below the limit"),
    ),
)  # fmt: skip

LET_OFF: Final = HoldPoint(
    name="before the ropes are made fast",
    checks=("wire hangs with its planned sag: slack or a weight left for what sways",
            "every rope made fast with a turn to spare, its end out of reach of children"),
)  # fmt: skip

LEAVING: Final = HoldPoint(
    name="before leaving the ground under it",
    checks=("every wire end higher than anybody reaches, and marked",
            "cable with a drip loop, arrester and earth joined",
            "photographs taken, tools counted"),
)  # fmt: skip

BEFORE_POWER: Final = HoldPoint(
    name="before the first transmission",
    checks=("nobody under the wire or within reach of it", POWER_CHECK),
)

#: what is looked at before anything is lifted
GEAR: Final = (
    "ropes and pulleys looked at, marked strengths read",
    "trees, roof hooks and posts looked at: dead wood, rot, loose bricks",
    "gloves and eye protection on",
)


def roles(spare: int) -> tuple[CrewRole, ...]:
    """Who holds the ropes.

    Args:
        spare: people left besides lift director and spotter
    """
    task = "pull, hold and pay out, never with rope round hand or body, nobody under the wire"
    return (CrewRole(role="ropes", people=max(1, min(spare, 3)), task=task),)


def by_hand(job: Raising) -> MethodChoice:
    """Pull the wire up on ropes over pulleys, everybody on the ground."""
    weighing = Weighing()
    need_people(weighing, job, climbers=0, ground=_GROUND)
    weighing.ask(PULLEYS_UP, job.pulleys_up)
    weighing.ask(HOLDS_SOUND, job.holds_sound)
    weighing.ask(ROPES_CLEAR, job.ropes_clear)
    # The rope that lifts has the whole weight at the start, and the pull of the wire at the end.
    line = hauling(weighing, job, line_load=max(weight(mass=job.load.mass), job.load.pull))
    weighing.notes += _NOTES
    return MethodChoice(
        way="by hand",
        name="ropes over pulleys, by hand",
        verdict=weighing.verdict,
        reasons=weighing.reasons,
        deciding=weighing.deciding,
        forces=line.forces,
        tower_top=TowerTopLoad(vertical=line.top, horizontal=0.0, base_moment=0.0),
        people=(0, _GROUND),
        answers=tuple(weighing.answers),
    )
