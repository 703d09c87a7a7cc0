"""Power lines and the ground to keep clear, while the load is in the ropes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from boomwright.raising.job import LineNear, Raising
from boomwright.raising.weather import Answer


@dataclass(frozen=True, slots=True, kw_only=True)
class LineCheck:
    """One power line against everything that can come near it during the lift.

    Parameters
    ----------
    name
        owner's name for the line
    verdict
        ``go``, ``no-go`` or ``ask``
    gap
        smallest distance to the conductor over the fall arc, the load and the machine [m]
    required
        least distance [m]
    reason
        which of them comes nearest, and the rule
    """

    name: str
    verdict: Answer
    gap: float
    required: float
    reason: str


def _reaches(job: Raising, line: LineNear) -> dict[str, float]:
    """Distance from the conductor to each thing that moves or may fall."""
    away = math.hypot(line.distance, line.height)
    top = max(job.tower_height, job.lift_height)
    beside = {
        "tower and beam falling over": away - math.hypot(top, job.swing_radius),
        "beam turning in the ropes": line.distance - 2.0 * job.swing_radius,
    }
    if job.crane is not None:
        # The machine's place is not known, so it is put on the line's side of the tower.
        beside["crane arm"] = away - math.hypot(job.crane.radius, job.crane.hook_height)
        beside["crane arm lying towards the line"] = line.distance - 2.0 * job.crane.radius
    if job.lift_truck is not None:
        beside["lift truck arm"] = away - math.hypot(
            job.lift_truck.needed_outreach, job.lift_truck.platform_height
        )
    if job.tram is not None:
        beside["tram line and its load"] = line.distance - job.tram.span - job.swing_radius
    return {what: max(0.0, gap) for what, gap in beside.items()}


def line_check(job: Raising, line: LineNear) -> LineCheck:
    """Hold one power line against the whole job.

    Returns
    -------
    LineCheck
        ``no-go`` when anything can come nearer than required, ``ask`` when the required
        distance is only presumed, otherwise ``go``
    """
    reaches = _reaches(job, line)
    worst = min(reaches, key=lambda what: reaches[what])
    gap = reaches[worst]
    verdict: Answer = "go" if line.voltage_known else "ask"
    if gap < line.required_clearance:
        verdict = "no-go"
    reason = f"nearest: {worst}; {line.basis}"
    if verdict != "go":
        reason += "; call the owner of the line before anything is raised"
    return LineCheck(
        name=line.name, verdict=verdict, gap=gap, required=line.required_clearance, reason=reason
    )


def line_checks(job: Raising) -> tuple[LineCheck, ...]:
    """Hold every power line against the job; nobody having looked is an ``ask`` of its own."""
    if not job.lines_surveyed:
        survey = LineCheck(
            name="power lines",
            verdict="ask",
            gap=0.0,
            required=0.0,
            reason="nobody has looked for power lines yet: walk the place and enter what you find",
        )
        return (survey, *(line_check(job, line) for line in job.power_lines))
    return tuple(line_check(job, line) for line in job.power_lines)


def exclusion_radius(job: Raising) -> float:
    """Radius around the tower's foot that stays empty of anybody without a task.

    Returns
    -------
    float
        height of the tower or the lift, whichever is more, with the beam's reach beyond
        it [m] {common-practice-raising}
    """
    return max(job.tower_height, job.lift_height) + job.swing_radius


def dropped_tool_radius(job: Raising) -> float:
    """Radius nobody enters while people work above, hard hat or not.

    Returns
    -------
    float
        half the height of the work [m] {common-practice-raising}
    """
    return max(job.tower_height, job.lift_height) / 2.0
