"""The day of the lift and the day it comes down: roles, signals, holds and order by method.

Common practice {common-practice-raising}, except the hand signals, which follow
{cfr-29-1926-1419} from memory, and the rules for a platform {cfr-29-1926-453}.
"""

from __future__ import annotations

import math
from typing import Final

from boomwright.base.records import dataclass, replace
from boomwright.raising import by_hand
from boomwright.raising.job import Raising
from boomwright.raising.sheets import POWER_CHECK, CrewRole, HoldPoint, Signal
from boomwright.raising.standing import standing_place
from boomwright.raising.way import load_way
from boomwright.raising.weighing import MethodChoice, Way

_ROPES: Final[frozenset[Way]] = frozenset({"tram", "gin pole", "hand line"})

_STOPS: Final = (
    Signal(word="stop", hands="one arm straight out, palm down, swung back and forth"),
    Signal(word="emergency stop", hands="both arms straight out, palms down, swung back and forth"),
)
_SLOW: Final = Signal(
    word="slowly", hands="the signal with one hand, other hand held still before it"
)
_HOLD: Final = Signal(word="hold", hands="hands clasped before the body")
_UP: Final = "forearm upright, finger up, small circles"
_DOWN: Final = "arm down, finger down, small circles"
# The rule's words say "boom" for the arm of the machine; here a boom is the antenna's.
_ARM: Final = (
    Signal(word="arm up", hands="arm straight out, fist closed, thumb up"),
    Signal(word="arm down", hands="arm straight out, fist closed, thumb down"),
    Signal(word="swing the arm", hands="arm straight out, finger pointing where to"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TakingDown:
    """The sheet of the day on which it comes down."""

    order: tuple[str, ...]  #: beams of the support from the one to take down first
    look_at: tuple[str, ...]  #: what has aged since the lift, looked at before anything is loosened
    sequence: tuple[str, ...]  #: order of the day
    hold_points: tuple[HoldPoint, ...]  #: the holds of the lift, in reverse


def signals(way: Way) -> tuple[Signal, ...]:
    """Hand signals that the method needs, with their words."""
    up, down = {"tilt": ("winch in", "winch out")}.get(way, ("up", "down"))
    moves = (Signal(word=up, hands=_UP), Signal(word=down, hands=_DOWN))
    arm = _ARM if way in {"crane", "truck"} else ()
    return (*_STOPS, *moves, *arm, _SLOW, _HOLD)


def _climbers(people: int) -> CrewRole:
    return CrewRole(
        role="climbers",
        people=people,
        task="always tied on, two lanyards, never both off; one can rescue the other",
    )


def crew_roles(best: MethodChoice, job: Raising) -> tuple[CrewRole, ...]:
    """Give out the roles of the method; the spotter and the lift director do nothing else.

    Returns:
        hired operators, climbers, and everybody on the ground
    """
    climbers, needed = best.people
    spare = max(needed, job.crew.ground) - 2
    roles = [
        CrewRole(role="lift director", people=1, task="gives every command, hauls nothing"),
        CrewRole(
            role="spotter",
            people=1,
            task="watches power lines, wind meter and who comes near, calls stop",
        ),
    ]
    if best.way == "by hand":
        ropes = by_hand.roles(spare)
        spare -= ropes[0].people
        roles += ropes
    if best.way == "crane":
        task = "runs the crane by the lift director's signals; the crane's wind limit goes first"
        roles.append(CrewRole(role="crane operator", people=1, task=task))
    if best.platform:
        spare -= 1
        roles += [
            CrewRole(
                role="platform operator",
                people=1,
                task="drives the platform, clipped to it, feet on its floor",
            ),
            CrewRole(
                role="platform hand",
                people=1,
                task="clipped to the platform; bolts the mast clamp",
            ),
        ]
    if climbers:
        roles.append(_climbers(climbers))
    if best.way == "tilt":
        spare -= 2
        roles += [
            CrewRole(
                role="winch",
                people=1,
                task="works the winch beyond the reach of the support, out of line with the rope",
            ),
            CrewRole(
                role="hold-back line",
                people=1,
                task="takes up slack, tight before the support stands upright",
            ),
        ]
    elif best.way != "by hand":
        spare -= _rope_roles(roles, best, job, spare)
    if spare > 0:
        task = "keep everybody out of the empty ground"
        roles.append(CrewRole(role="wardens", people=spare, task=task))
    return tuple(replace(one, place=standing_place(one.role, best, job)) for one in roles)


def _rope_roles(roles: list[CrewRole], best: MethodChoice, job: Raising, spare: int) -> int:
    """Add hauling rope and tag lines; give the number of people they take."""
    haul = 0
    capstan = job.haul_line is not None and job.haul_line.capstan is not None
    if best.way in _ROPES:
        haul = 1 if capstan else max(2, spare - 2)
        task = "hauls, holds and lowers from outside the inner circle"
        if capstan:
            task = "tails the capstan from outside the inner circle; loads only, never people"
        name = "capstan winch" if capstan else "hauling rope"
        roles.append(CrewRole(role=name, people=haul, task=task))
    tags = min(2, spare - haul)
    off = (
        f"keep the beam off {job.support} and guys"
        if job.guys
        else (f"keep the beam off the {job.support}")
    )
    roles.append(CrewRole(role="tag lines", people=tags, task=off))
    return haul + tags


def hold_points(best: MethodChoice, job: Raising) -> tuple[HoldPoint, ...]:
    """Points of the lift where work stops until somebody named says "go on"."""
    tested = () if job.load.upright else (_ON_STANDS,)
    return (
        *tested,
        _before(best, job),
        *_middle(best, job),
        _let_off(best),
        *_leaving(best, job),
    )


_ON_STANDS: Final = HoldPoint(
    name="SWR check on stands",
    checks=(
        "curve has the expected shape",
        "then every joint fixed for good, the outermost too: nothing is moved up there",
        "boots and weep holes finished",
    ),
)


def _reads(best: MethodChoice, job: Raising) -> str:
    """What the rotator stands at while the beam is bolted on."""
    bearing = load_way(best.way, job).bearing
    if bearing is None:
        return "at the heading of the beam"
    return f"at {math.degrees(bearing) % 360.0:.0f}° true, as the boom comes in"


def _gear(best: MethodChoice) -> tuple[str, ...]:
    """What is looked at before anything is lifted, by what the method uses."""
    if best.way == "by hand":
        return by_hand.GEAR
    found = []
    if best.people[0]:
        found += [
            "harness and lanyards looked at, steps dry",
            "rescue kit at the foot, rescuer named",
        ]
    if best.platform:
        found.append("truck level on firm ground, controls tried, lowering from the ground tried")
    if best.way == "crane":
        found.append("crane level, outriggers out, chart read at this radius, slings marked")
    if best.way in _ROPES:
        found.append("ropes, blocks and shackles looked at, marked strengths read")
    if best.way == "tilt":
        found.append("hinge pin, winch, rope, lifter and anchors looked at, strengths read")
        found.append("side guys on the hinge axis tight, hold-back line laid out")
    return tuple(found)


def _support_looked_at(best: MethodChoice, job: Raising) -> tuple[str, ...]:
    """What is looked at of what stands, by the way up."""
    if best.way == "by hand":
        return ()
    guys = ", guys and anchors" if job.guys or best.way == "tilt" else ""
    if best.way == "tilt":
        return (f"bolts{guys} looked at",)
    foot = "foot" if job.foot_set else "bolts"
    return (
        f"{job.support} plumb, its {foot}{guys} looked at",
        "all concrete at least 28 days old, or as old as its engineer asks",
    )


def _before(best: MethodChoice, job: Raising) -> HoldPoint:
    ground = (
        "ground kept empty, telephone works, everybody wears a helmet and knows the stop signal"
    )
    if job.guys:
        ground += "; nobody at a guy or anchor while people work above"
    reports = ["spotter"]
    if best.people[0]:
        reports.append("climbers")
    if best.way == "crane":
        reports.append("crane operator")
    if best.platform:
        reports.append("platform operator")
    off = "transmitters off and locked, feed line unplugged"
    if job.turns:
        off += f"; rotator {_reads(best, job)}, its control unplugged"
    return HoldPoint(
        name="before anybody climbs or anything is lifted"
        if best.people[0]
        else "before anything is lifted",
        checks=(
            off,
            f"spotter has looked for power lines again, from the foot of the {job.support}"
            if best.way != "by hand"
            else "spotter has looked for power lines again, from every end and beyond the trees",
            "wind read, no thunder for 30 minutes",
            *_support_looked_at(best, job),
            *_gear(best),
            ground,
        ),
        reports=tuple(reports),
    )


def _middle(best: MethodChoice, job: Raising) -> tuple[HoldPoint, ...]:
    """Holds while the load hangs or the support leans."""
    if best.way == "by hand":
        return by_hand.MIDDLE
    if best.way == "tilt":
        return (
            HoldPoint(
                name="support a hand's breadth off its rest",
                checks=("rope, lifter, hinge and anchors hold with the load on",
                        "side guys slide straight, nothing twists"),
            ),
            HoldPoint(
                name="at 60 degrees, before the line loses its hold",
                checks=("hold-back line tight and manned", "nobody in line with the rope"),
            ),
        )  # fmt: skip
    load = "beam tied along a side rail with two slings, clamp outwards, and cannot slide"
    if best.way != "truck":
        load = "hangs level and does not turn; every fastening holds with the load on"
    found = [
        HoldPoint(
            name="load at knee height",
            checks=(load, "tag lines free and manned"),
            reports=(_at_the_mast(best), "tag lines"),
        )
    ]
    if job.guys or best.way in _ROPES:
        found.append(
            HoldPoint(
                name="below the first guy or obstacle",
                checks=("elements clear guys with the tag lines", "wind below the limit"),
                reports=("spotter", "tag lines"),
            )
        )
    if load_way(best.way, job).high > job.lift_height:
        found.append(replace(_OVER, reports=(_at_the_mast(best),)))
    return tuple(found)


#: elements behind the clamp pass over the mast
_OVER: Final = HoldPoint(
    name="before the beam comes in over the mast",
    checks=(
        "boom at the height of the sheet, every part of it above the mast's top",
        "then in until the mast stands at the clamp, and straight down; no hand between them",
    ),
)


def _at_the_mast(best: MethodChoice) -> str:
    return "climbers" if best.people[0] else "platform hand" if best.platform else "lift director"


def _let_off(best: MethodChoice) -> HoldPoint:
    if best.way == "by hand":
        return by_hand.LET_OFF
    if best.way == "tilt":
        return HoldPoint(
            name="before the winch line is let off",
            checks=("support plumb, every guy made fast and at its tension", "hinge locked"),
            reports=("winch", "hold-back line"),
        )
    what = {"truck": "beam is untied from the platform", "crane": "hook is let off"}
    return HoldPoint(
        name=f"before the {what.get(best.way, 'rope is let off')}",
        checks=("safety sling on, from the boom round the mast", "mast clamp bolts through, tight"),
        reports=(_at_the_mast(best),),
    )


def _leaving(best: MethodChoice, job: Raising) -> tuple[HoldPoint, ...]:
    """Holds of the end: before those at the mast leave it, anything turns, anybody transmits."""
    if best.way == "by hand":
        return (by_hand.LEAVING, by_hand.BEFORE_POWER)
    leaves = "crew leaves"
    if best.people[0]:
        leaves = "climbers leave"
    elif best.platform:
        leaves = "platform leaves"
    lines = () if best.way == "tilt" else ("safety sling and tag lines off, and brought down",)
    found = [
        HoldPoint(
            name=f"before the {leaves} the {job.support}",
            checks=(
                "every bolt of the clamp tightened in turn, paint marks set",
                "loop joined to the feed line on the support and booted, free for a full turn",
                *lines,
                "photographs taken, tools counted",
            ),
            reports=(_at_the_mast(best),) if best.way != "tilt" else (),
        )
    ]
    if job.turns:
        found.append(
            HoldPoint(
                name="before the beam is turned",
                checks=(
                    _all_down(best, job),
                    "nothing hangs from the beam but its cable",
                    "rotator control plugged in only now, one person at it",
                ),
                reports=("spotter",),
            )
        )
    down = _all_down(best, job)
    found.append(HoldPoint(name="before the first transmission", checks=(down, POWER_CHECK)))
    return tuple(found)


def _all_down(best: MethodChoice, job: Raising) -> str:
    """Nobody is where the beam turns."""
    away = ", platform down and driven away" if best.platform else ""
    return f"nobody up{away}, nobody on the {job.support} or near the beam"


def sequence(best: MethodChoice, job: Raising) -> tuple[str, ...]:
    """Order of the day of the lift."""
    if best.way == "by hand":
        return by_hand.sequence(upright=job.load.upright)
    people = "; inspect harness and ropes" if best.people[0] else ""
    guys = ", its guys and anchors" if job.guys else ""
    bolts = "" if job.on_tube else ", torque its bolts"
    past = "past the guys " if job.guys else ""
    tries = {
        "truck": f"drive the empty platform {past}to the clamp and back, with all signals",
        "crane": "swing the empty hook to the clamp and back, with all signals",
        "tilt": "raise the support without the beam once, with all signals",
    }
    middle: tuple[str, ...] = (
        "lift with the hold points",
        "safety sling on; bolt to the mast, boom pointing as the rotator reads",
        "tighten the clamp, paint marks, photographs; safety sling and tag lines off",
    )
    if best.way == "tilt":
        middle = (
            "lay the support down, bolt the beam to the mast, boom along its heading",
            "tighten the clamp, paint marks, photographs",
            "raise with the hold points",
            "guys to their tensions, support plumb",
        )
    return (
        "mark lines overhead and in the ground; rope off the ground",
        "fit balun, cable and loop to the beam, end of the loop booted",
        *(
            ()
            if job.load.upright
            else ("SWR check on stands, for faults only; then rivet the outermost joints",)
        ),
        "unplug the feed line, lock the transmitters",
        f"look over the {job.support}{guys}{bolts}{people}",
        tries.get(best.way, "dry run with an empty rope and all signals"),
        *middle,
        "everybody down and away",
        *(("turn the full range and watch the loop; then align",) if job.turns else ()),
        "SWR from the station, log: a tip to move means lowering the beam, not reaching for it",
    )


def emergency(best: MethodChoice) -> tuple[str, ...]:
    """What is written down and ready."""
    found = [
        "write the place as an ambulance needs it: address, gate, map position",
        "emergency number, nearest hospital, somebody to meet the ambulance at the road",
    ]
    if best.people[0]:
        found += [
            "a trained rescuer with kit ready to climb; never a climb alone",
            "somebody hanging in a harness is brought down within minutes: hanging still can kill",
        ]
    if best.platform:
        found.append("platform stuck: whoever knows its lowering from the ground is named")
    found.append(
        "power line touched: nobody near; whoever is on the machine stays on it, and jumps clear "
        "only if it burns; call the owner of the line"
    )
    stuck = "load caught or rope jammed: stop, clear the ground, think, lower; nobody under it"
    if best.way == "tilt":
        stuck = "support caught or line slips: everybody out of its reach, then think"
    if best.way == "by hand":
        found += by_hand.EMERGENCY
    else:
        found.append(stuck)
    found += ["first-aid kit and a trained first aider on the ground"]
    return tuple(found)


def _aged(best: MethodChoice, job: Raising) -> tuple[str, ...]:
    """What has aged since the lift, of what stands and of what lowers it."""
    if best.way == "by hand":
        return by_hand.AGED
    found = [
        "mast clamp, U-bolts, boom plates: rust, seized threads; oil them the day before",
        "a bolt that does not turn is cut: no long lever on it, nobody below it",
    ]
    if job.guys or best.way == "tilt":
        found.append(
            "guys, grips, turnbuckles and anchors at the ground line: rust, broken wires, earth "
            "moved"
        )
    found += [
        "the pole at its foot: rust, water inside, dents"
        if job.on_tube
        else "legs, welds and bolts of the tower, the foot above all: rust, water inside, dents",
        "elements and boom: water, ice, nests; weigh again what comes down first",
    ]
    harness = " and harness" if best.people[0] or best.platform else ""
    found.append(f"ropes, slings{harness} are the ones of today: marked strengths read again")
    return tuple(found)


def _last_first(best: MethodChoice, job: Raising) -> tuple[str, ...]:
    """Beams of the support, the one lifted last first.

    On ropes the highest goes up first, or those below would stand in its way; under a hook the
    lowest does.
    """
    beams = (*job.others, (job.load.name, job.lift_height))
    rising = sorted(beams, key=lambda beam: beam[1], reverse=best.way == "crane")
    return tuple(name for name, _ in rising)


def taking_down(best: MethodChoice, job: Raising) -> TakingDown:
    """The day it comes down: what was lifted last first, and the holds in reverse."""
    before = _before(best, job)
    first = HoldPoint(
        name=before.name.replace("lifted", "loosened"),
        checks=(*before.checks, "everything below looked at for rust"),
        reports=before.reports,
    )
    let_off = _let_off(best)
    back = [
        HoldPoint(
            name="before the mast clamp is opened",
            checks=("safety sling on, load taken by what lowers it",
                    "tag lines free and manned", "feed line and cables off"),
            reports=let_off.reports,
        ),
        HoldPoint(
            name="clear of the mast, a hand's breadth down",
            checks=("every fastening holds with the load on; then safety sling off",),
        ),
    ]  # fmt: skip
    if best.way == "by hand":
        back = [
            HoldPoint(
                name="before the first rope is let off",
                checks=("feed line off", "somebody at every rope, each with a turn round its hold"),
            )
        ]
    if best.way == "tilt":
        back = [
            HoldPoint(
                name="before the guys off the axis are let off",
                checks=("winch line and hold-back line tight", "side guys on the axis tight"),
            )
        ]
    over = load_way(best.way, job).high > job.lift_height
    if over:
        up = HoldPoint(name="straight up, clear of the top of the mast; then out",
                       checks=(*back[1].checks, "every part above the mast's top"))  # fmt: skip
        back[1] = up
    back += reversed([point for point in _middle(best, job) if point.name != _OVER.name])
    lower = "lower with the hold points"
    middle = ("loosen the mast clamp, take the beam off", lower)
    if best.way == "tilt":
        middle = (lower, "take the beam off the lying support")
    if best.way == "by hand":
        middle = (lower, "coil wire and ropes from their ends")
    return TakingDown(
        order=_last_first(best, job),
        look_at=_aged(best, job),
        sequence=(
            "note and unplug feed line, control cable and earth",
            "rope off the ground, dry run with all signals",
            *middle,
            "plug and cap what stays up; log what was found",
        ),
        hold_points=(first, *back),
    )
