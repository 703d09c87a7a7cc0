"""Texts for the raising sheet: roles, signals, hold points, sequence, emergency, first SWR check.

Common practice, except the hand signals, which follow {cfr-29-1926-1419} from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from boomwright.base import SPEED_OF_LIGHT
from boomwright.raising.wording import span

#: shown above every lift plan
TRAINED_PEOPLE: Final = (
    "Climbing and rigging are for people trained in them. Whoever is not should get someone who "
    "is: hire climbers or a machine with its operator. This sheet is a planning aid and trains "
    "nobody."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class CrewRole:
    """One role and its task.

    Parameters
    ----------
    role
        name of the role
    people
        how many
    task
        what they do
    """

    role: str
    people: int
    task: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Signal:
    """One hand signal with its spoken word.

    Parameters
    ----------
    word
        word on the radio
    hands
        what the hands do
    """

    word: str
    hands: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HoldPoint:
    """A point where work stops until somebody named says on.

    Parameters
    ----------
    name
        where in the job
    checks
        what must be true to go on
    who
        who says so
    """

    name: str
    checks: tuple[str, ...]
    who: str


SIGNALS: Final = (
    Signal(word="stop", hands="one arm straight out, palm down, swung back and forth"),
    Signal(word="emergency stop", hands="both arms straight out, palms down, swung back and forth"),
    Signal(word="up", hands="forearm upright, finger up, small circles"),
    Signal(word="down", hands="arm down, finger down, small circles"),
    Signal(word="slowly", hands="the signal with one hand, other hand held still before it"),
    Signal(word="hold everything", hands="hands clasped before the body"),
)

STOP_RULE: Final = (
    "Anybody may call stop, and everybody obeys it. All other words come from the lift director "
    "alone. No word for ten seconds means stop."
)

HOLD_POINTS: Final = (
    HoldPoint(
        name="before anybody climbs or anything is lifted",
        checks=(
            "transmitters off and locked, feed line unplugged",
            "power lines looked at again from the foot of the tower",
            "wind read, no thunder for 30 minutes, steps dry",
            "tower plumb, bolts, guys and anchors looked at",
            "harness, lanyards, ropes, blocks and shackles looked at and marked strengths read",
            "rescue kit at the foot, rescuer named, telephone works",
            "ground kept empty, everybody has a helmet and knows stop",
        ),
        who="lift director and climbers, both",
    ),
    HoldPoint(
        name="SWR check on stands",
        checks=("curve has the expected shape", "joints, boots and weep holes finished"),
        who="whoever measures",
    ),
    HoldPoint(
        name="load half a metre up",
        checks=(
            "hangs level and does not turn",
            "knots, shackles, blocks and anchors hold with the load on",
            "both tag lines free and manned",
        ),
        who="lift director",
    ),
    HoldPoint(
        name="below the first guy or obstacle",
        checks=("elements clear guys with the tag lines", "wind below the limit"),
        who="lift director",
    ),
    HoldPoint(
        name="before the rope is let off",
        checks=("mast clamp bolts through and tight", "safety sling on", "climbers say so"),
        who="climbers",
    ),
    HoldPoint(
        name="before leaving the tower",
        checks=(
            "torque list done and paint marks set",
            "pointed to true north, declination counted",
            "turned through the full range with the cable loop watched",
            "SWR measured from the station end",
            "photographs taken, tools counted",
        ),
        who="climbers and lift director",
    ),
)

SEQUENCE: Final = (
    "look over and torque the tower; inspect ropes and harness",
    "mark lines overhead and in the ground; rope off the ground",
    "dry run with an empty rope and all signals",
    "fit balun, cable and loop on the ground",
    "SWR check on stands",
    "lift with the hold points",
    "bolt to the mast, then align to true north",
    "turn the full range and watch the loop",
    "torque list, photographs, log",
)

EMERGENCY: Final = (
    "write the place as an ambulance needs it: address, gate, map position",
    "emergency number, nearest hospital, somebody to meet the ambulance at the road",
    "a trained rescuer with kit ready to climb; never a climb alone",
    "somebody hanging in a harness is brought down within minutes: hanging still can kill",
    "power line touched: stay away, jump clear only from fire, call the owner of the line",
    "load caught or rope jammed: stop, clear the ground, think, lower; nobody under it",
    "first-aid kit and a trained first aider on the ground",
)


def crew_roles(*, climbers: int, ground: int) -> tuple[CrewRole, ...]:
    """Give out the roles; the spotter and the lift director do nothing else.

    Parameters
    ----------
    climbers
        climbers of the method, 0 when nobody climbs
    """
    roles = [
        CrewRole(role="lift director", people=1, task="the one voice; hauls nothing"),
        CrewRole(role="spotter", people=1, task="watches power lines and the edge, calls stop"),
    ]
    if climbers:
        roles.append(
            CrewRole(
                role="climbers",
                people=climbers,
                task="always tied on, two lanyards, never both off; one can rescue the other",
            )
        )
    tags = min(2, max(1, ground - 2))
    roles.append(CrewRole(role="tag lines", people=tags, task="keep the beam off tower and guys"))
    if ground - 2 - tags > 0:
        roles.append(
            CrewRole(role="hauling rope", people=ground - 2 - tags, task="haul, belay, lower")
        )
    return tuple(roles)


@dataclass(frozen=True, slots=True, kw_only=True)
class SwrExpectation:
    """What to expect when the beam stands on stands before the lift.

    Parameters
    ----------
    frequency
        where the plan has its best SWR [Hz]
    swr
        SWR the plan computes there at full height [-]
    text
        how to do it and how to read it
    """

    frequency: float
    swr: float
    text: str


def swr_expectation(*, frequency: float, swr: float, stand_height: float) -> SwrExpectation:
    """Describe the SWR check before the lift.

    Parameters
    ----------
    frequency
        where the plan has its best SWR [Hz]
    swr
        SWR there at full height [-]
    stand_height
        boom above ground on its stands [m]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    text = (
        f"On stands {span(stand_height)} up ({stand_height / wavelength:.2f} wavelengths) the "
        "ground pulls the curve: look for a dip of the right shape within a few per cent of "
        f"{frequency / 1e6:.3f} MHz, usually lower, and for no jumps when elements are shaken. "
        "Point it up, reflector down, if it can be held there with nobody under it. No dip or a "
        "wandering one means a bad joint or feed: mend it before the lift. Low power, nobody "
        "touching the elements."
    )
    return SwrExpectation(frequency=frequency, swr=swr, text=text)
