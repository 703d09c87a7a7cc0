"""Power lines and the ground to keep clear, while the load is in the ropes."""

from __future__ import annotations

import math
from typing import Final

from boomwright.base.quantity import Value, listed, phrase
from boomwright.base.records import dataclass
from boomwright.raising.answers import CLEAR_OF_GUYS, GROUND_BEYOND, POWER_LINES, Answered
from boomwright.raising.job import LineNear, Raising
from boomwright.raising.way import LoadWay, exclusion_radius
from boomwright.raising.weather import Answer
from boomwright.raising.weighing import Weighing
from boomwright.raising.wording import span

#: name of the check against guys and anchors
GUYS: Final = "guys and anchors"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineCheck:
    """One power line against everything that can come near it during the lift."""

    name: str  #: owner's name for the line
    verdict: Answer  #: ``go``, ``no-go`` or ``ask``
    #: smallest distance to the conductor over the fall arc, the load and the machine [m]
    gap: float
    required: float  #: least distance [m]
    reason: Value  #: which of them comes nearest, and the rule


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundCheck:
    """The ground kept empty, held against what stands or ends in it."""

    name: str  #: what it was held against
    verdict: Answer  #: ``go``, ``no-go`` or ``ask``
    reach: float  #: how far the work reaches from the foot [m]
    distance: float | None  #: where that begins, from the foot; None when not known [m]
    reason: Value  #: what was found
    answers: tuple[Answered, ...] = ()  #: questions that it hangs on


def _reaches(job: Raising, line: LineNear) -> dict[str, float]:
    """Distance from the conductor to each thing that moves or may fall."""
    away = math.hypot(line.distance, line.height)
    falls, turns = "tower and beam falling over", "beam turning in the ropes"
    if job.load.hung:
        falls, turns = "support and wire falling over", "wire swinging on one rope"
    top = job.top
    beside = {
        falls: away - math.hypot(top, job.swing_radius),
        turns: line.distance - 2.0 * job.swing_radius,
    }
    if job.crane is not None:
        # The machine's place is not known, so it is put on the line's side of the tower.
        beside["crane arm"] = away - math.hypot(job.crane.radius, job.crane.hook_height)
        beside["crane arm lying towards the line"] = line.distance - 2.0 * job.crane.radius
    if job.lift_truck is not None:
        arm = math.hypot(job.lift_truck.needed_outreach, job.lift_truck.platform_height)
        beside["lift truck arm with the beam"] = away - arm - job.swing_radius
    if job.tram is not None:
        beside["tram line and its load"] = line.distance - job.tram.span - job.swing_radius
    return {what: max(0.0, gap) for what, gap in beside.items()}


def line_check(job: Raising, line: LineNear) -> LineCheck:
    """Hold one power line against the whole job.

    Returns:
        ``no-go`` when anything can come nearer than required, ``ask`` when the required
        distance is only
            presumed, otherwise ``go``
    """
    reaches = _reaches(job, line)
    worst = min(reaches, key=lambda what: reaches[what])
    gap = reaches[worst]
    verdict: Answer = "go" if line.voltage_known else "ask"
    if gap < line.required_clearance:
        verdict = "no-go"
    reason = phrase("nearest: {worst}; {basis}", worst=worst, basis=line.basis)
    if verdict != "go":
        reason = phrase(
            "{reason}; call the owner of the line before anything is raised", reason=reason
        )
    return LineCheck(
        name=line.name, verdict=verdict, gap=gap, required=line.required_clearance, reason=reason
    )


def line_checks(job: Raising) -> tuple[LineCheck, ...]:
    """Hold every power line against the job; nobody having looked is an ``ask`` of its own."""
    said, lines = job.lines_surveyed, tuple(line_check(job, line) for line in job.power_lines)
    if said is not None and said.yes and said.signed:
        return lines
    reason = f"{POWER_LINES.matter}: who says so, and when?"
    if said is None or not said.yes:
        reason = POWER_LINES.denied
    survey = LineCheck(name="power lines", verdict="ask", gap=0.0, required=0.0, reason=reason)
    return (survey, *lines)


def ground_checks(job: Raising, way: LoadWay) -> tuple[GroundCheck, ...]:
    """Hold the ground kept empty against boundary, public way, guys and anchors."""
    reach = exclusion_radius(job, way)
    if way.machine and way.bearing is not None:
        # The plan does not say on which side a boundary lies nearest.
        reach += way.out
    found = [_beyond(job, "boundary", job.boundary, reach)]
    if job.walkway is not None:
        found.append(_beyond(job, "public way", job.walkway, reach))
    if job.guys:
        found.append(_guys(job, reach, way))
    return tuple(found)


def _beyond(job: Raising, name: str, distance: float | None, reach: float) -> GroundCheck:
    """Hold the ground kept empty against where the owner's ground ends."""
    weighing = Weighing()
    if distance is None:
        weighing.unanswered.append(f"distance from the foot to the {name} not entered")
    elif reach > distance:
        weighing.ask(GROUND_BEYOND, job.ground_beyond)
    told: list[Value] = []
    if distance is not None and reach <= distance:
        told.append(phrase("ends {left} before the {name}", left=span(distance - reach), name=name))
    elif distance is not None:
        told.append(
            phrase("reaches {over} past the {name}", over=span(reach - distance), name=name)
        )
        said = job.ground_beyond
        if said is not None and said.signed and said.yes:
            told.append(f"{GROUND_BEYOND.matter} ({said.whose})")
    return GroundCheck(
        name=name,
        verdict=weighing.verdict,
        reach=reach,
        distance=distance,
        reason=listed((*told, *weighing.reasons), between="; "),
        answers=tuple(weighing.answers),
    )


def guys_in_reach(job: Raising) -> tuple[float, float] | None:
    """Heights between which a guy crosses the circle in which the hanging beam turns.

    Returns:
        lowest and highest height; None when the circle stays clear of every guy [m] (2,)
    """
    crossed = [
        (ring.height * max(0.0, 1.0 - job.swing_radius / ring.anchor_radius), ring.height)
        for ring in job.guys
    ]
    # Above the clamp nothing of the beam passes.
    within = [(low, min(high, job.lift_height)) for low, high in crossed if low < job.lift_height]
    if not within:
        return None
    return min(low for low, _ in within), max(high for _, high in within)


def _guys(job: Raising, reach: float, way: LoadWay) -> GroundCheck:
    """Hold the ground and the hanging beam against guys and anchors: somebody must have looked."""
    weighing, nearest = Weighing(), min(ring.anchor_radius for ring in job.guys)
    said = job.clear_of_guys
    # A no is an answer too: the methods that go past the guys are weighed with it.
    if said is None or (said.yes and not said.signed):
        weighing.ask(CLEAR_OF_GUYS, said)
        open_ = ["nobody has signed for a way past them"]
    else:
        open_ = []
    told = [
        phrase("anchors from {nearest} out stand in the ground kept empty", nearest=span(nearest))
    ]
    if nearest > reach:
        told = [phrase("anchors from {nearest} out stand beyond it", nearest=span(nearest))]
    crossed = guys_in_reach(job)
    if way.gap is not None:
        told.append(
            phrase(
                "going up {out} out the beam passes them by {gap}, at the clamp by {over}",
                out=span(way.out), gap=span(max(0.0, way.gap)), over=span(way.over or 0.0),
            )
        )  # fmt: skip
    elif crossed is not None:
        low, high = (span(height) for height in crossed)
        told.append(
            phrase(
                "guys cross the circle of the turning beam from {low} to {high} up",
                low=low,
                high=high,
            )
        )
        if said is not None and said.yes and said.signed:
            told.append(
                phrase(
                    "a go rests on one signed answer, that {matter} ({whose}): try that way first, "
                    "and steer the beam past every guy",
                    matter=CLEAR_OF_GUYS.matter,
                    whose=said.whose,
                )
            )
    return GroundCheck(
        name=GUYS,
        verdict=weighing.verdict,
        reach=reach,
        distance=nearest,
        reason=listed((*told, *open_), between="; "),
        answers=tuple(weighing.answers),
    )
