"""What the reader must know beside the figures of reach."""

from __future__ import annotations

from collections.abc import Sequence

from boomwright.base import Notice, PlanError
from boomwright.base.quantity import PerReader, phrase
from boomwright.permits import LimitCheck
from boomwright.plan import Plan
from boomwright.plan.resolve.further import in_further_bands
from boomwright.reach import fires_behind
from boomwright.study.reach_parts.results import BeamReach, StackResult

#: so many parts are named at most
_MOST_NAMED = 3


def reach_notices(
    plan: Plan, beams: tuple[BeamReach, ...], stack: StackResult | None
) -> tuple[Notice, ...]:
    """Collect doubts, cautions and exceeded limits.

    Args:
        stack: beams fed together, or None
    """
    bands = [band for each in beams for band in each.every_band]
    notices = [
        Notice(
            code="reach.ground-typical",
            severity="doubt",
            text="Ground constants are typical of a class; a real site lies within about a factor "
            "of three either way, which moves the lowest lobes by some decibels over poor "
            "ground. The ground is taken as flat unless a terrain profile is given.",
            source="itu-p527",
        ),
        Notice(
            code="reach.layers",
            text="Hop angles are mirror geometry for a range of layer heights. They do not say "
            "whether a layer reflects on that frequency at that hour.",
            source="itu-p533",
        ),
        *_missing(plan),
        *_unread(plan),
        *([_ALONE] if any(beam.neighbours or beam.conductors for beam in plan.beams) else ()),
        *dict.fromkeys(
            notice for each in bands for notice in fires_behind(beam=each.beam, cut=each.cut)
        ),
    ]
    notices += _zones(beams)
    terrain = [notice for each in bands if each.terrain for notice in each.terrain.notices]
    notices += dict.fromkeys(terrain)
    if stack is not None:
        notices += _stack(stack)
    notices += [
        _exceeded(check)
        for each in bands
        for check in (each.exposure.checks if each.exposure else ())
        if check.applies and check.governing > 1.0
    ]
    return (*notices, _CAUTION)


def _unread(plan: Plan) -> list[Notice]:
    """A wish whose further bands belong to no antenna."""
    try:
        for beam in plan.beams:
            in_further_bands(plan, beam)
    except PlanError as error:
        fault = error.faults[0]
        text = phrase("The further bands of the wish are not looked at: {why}.", why=fault.message)
        how = phrase("{at}{remedy}.", at=PerReader(file=f"{fault.path} in [wish]: ", forms=""),
                     remedy=fault.remedy)  # fmt: skip
        return [Notice(code="reach.further-bands", severity="doubt", text=text, how=how)]
    return []


def _stack(stack: StackResult) -> list[Notice]:
    others = [f"{each.name} ({each.idle_feed or 'open'})" for each in stack.beside]
    others += [each.name for each in stack.conductors]
    together = f" Solved together with {_first_named(others)}." if others else ""
    notices = [
        Notice(
            code="reach.stack-feeding",
            text="Fed together means equal feed currents. Lines, splitters and phasing lines must "
            "bring them about at the impedances stated; the idle feed of a stacked beam is open."
            + together,
        )
    ]
    if stack.without:
        notices.append(
            Notice(
                code="reach.stack-without",
                severity="doubt",
                text="As drawn these run into beams of the stack, whose figures leave them out: "
                f"{_first_named(stack.without)}. Correct heights, or places along the boom.",
            )
        )
    return notices


def _first_named(names: Sequence[str]) -> str:
    more = f" and {len(names) - _MOST_NAMED} more" * (len(names) > _MOST_NAMED)
    return ", ".join(names[:_MOST_NAMED]) + more


_ALONE = Notice(
    code="reach.heights-alone",
    text="Lobes against height are those of each beam by itself. Patterns at the planned heights "
    "have everything on the mast in them.",
)


def _zones(beams: tuple[BeamReach, ...]) -> list[Notice]:
    """Doubts about ground that changes with the distance."""
    zoned = [each for each in beams if each.scan.far_ground is not None]
    notices = [_ZONES] if zoned else []
    if any(each.terrain is not None for each in zoned):
        notices.append(_ONE_GROUND)
    return notices


_ZONES = Notice(
    code="reach.ground-zones",
    severity="doubt",
    text="Where the ground changes, each zone counts with its part of the Kirchhoff integral over "
    "the ground, averaged over borders up to 15 % nearer and farther because no border is a "
    "straight line. It is taken across the heading and at that distance in every direction; a step "
    "down at a border does not bend the wave. Near the elevation of a border allow about 1 dB.",
    source="itu-p526",
)
_ONE_GROUND = Notice(
    code="reach.terrain-one-ground",
    severity="doubt",
    text="Over the terrain profile the ground at the mast is taken everywhere; the grounds further "
    "out count only in the figures over flat ground.",
)


def _missing(plan: Plan) -> list[Notice]:
    lacking = []
    if plan.transmitter is None:
        lacking.append("transmitter")
    elif plan.permits is None or not plan.permits.exposure:
        lacking.append("place")
    if plan.site.latitude is None:
        lacking.append("position")
    elif plan.reach is None or not plan.reach.target:
        lacking.append("target")
    if plan.reach is not None and plan.reach.ring and len(plan.beams) < 2:
        lacking.append("ring")
    return [
        Notice(
            code=f"reach.no-{each}",
            text=f"Not computed, because the plan does not say: {_LACKING[each][0]}.",
            how=f"Add {_LACKING[each][1]}.",
        )
        for each in lacking
    ]


#: what is not computed without it, and what says it
_LACKING = {
    "transmitter": ("fields where people are", '[transmitter] power = "400 W"'),
    "place": (
        "places with people, whose fields are compared with the limits",
        "[[permits.exposure]] with place, distance and height",
    ),
    "position": ("map and paths", '[site] position = "52.2 N, 0.1 E"'),
    "target": ("paths", "[[reach.target]] with a name and a position or locator"),
    "ring": ("beams against each other on a ring", "a second beam"),
}


def _exceeded(check: LimitCheck) -> Notice:
    return Notice(
        code="reach.exposure-exceeded",
        severity="limit",
        text=f"Exposure at {check.place.place}: over {check.limit.standard}, {check.limit.group}, "
        f"by the {check.method}. Keep people further away, lower the power, raise the "
        "antenna or shorten the transmissions, then compute again.",
        value=f"{100.0 * check.governing:.0f} % of the limit",
        limit="100 %",
        source=check.limit.source,
    )


_CAUTION = Notice(
    code="reach.exposure-caution",
    severity="caution",
    text="Computed fields hold for the stated power, duty, height and heading over flat ground, "
    "without houses, fences, gutters and wiring, which can raise them; touching metal can "
    "burn below every limit. Line loss is not taken off. People with implants need more "
    "care. The rules of your country and its authority decide; measure where in doubt.",
    source="oet-65",
)
