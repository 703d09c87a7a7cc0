"""A candidate held against everything: what it serves, costs, asks, and where it fails."""

from __future__ import annotations

import math
from contextlib import suppress
from dataclasses import dataclass, replace

from boomwright.base import (
    BoomwrightError,
    Finding,
    PlanVerdict,
    plan_verdict,
)
from boomwright.base.files import ReadFile, no_files
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.plan import Plan, read_plan, write_plan
from boomwright.plan.resolve import structure_inputs
from boomwright.plan.resolve.assembly import antenna_top, swing_radius
from boomwright.plan.resolve.places import structure_top
from boomwright.solver import Preparer, prepare_run
from boomwright.structure import StructureReport, check_structure
from boomwright.study.advice.antennas import Designer
from boomwright.study.advice.served import Served, Wanted, serve
from boomwright.study.advice.stations import Station, station_plan
from boomwright.study.cost import Costing, price_plan
from boomwright.study.raising import raise_plan
from boomwright.study.verdict import judge_plan

#: heavier sets of tubes tried where the lightest do not stand
_SETS = 3
#: standing wave ratio at the radio that a transmitter bears {common-practice-stations} [-]
_MOST_SWR = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A whole station and what is known of it."""

    station: Station
    plan: Plan  #: the complete plan
    served: Served
    costing: Costing | None  #: what it costs; None when the place names no currency
    verdict: PlanVerdict
    #: trained climbers and people on the ground that the way up needs; None while it cannot be
    #: planned [-] (2,)
    people: tuple[int, int] | None

    @property
    def name(self) -> str:
        """Antenna and support in words."""
        return self.station.name

    @property
    def cost(self) -> float | None:
        """Likely sum of what is priced; None while no line has a price [currency]."""
        made = None if self.costing is None else self.costing.estimate
        return None if made is None or made.nothing_priced else made.total.likely

    @property
    def priced_in_full(self) -> bool:
        """Whether every line has a price and everything else is said, so that costs compare."""
        made = None if self.costing is None else self.costing.estimate
        return made is not None and not made.unpriced and not made.unsaid

    @property
    def allowed(self) -> bool:
        """Whether no check is exceeded and no limit broken."""
        return self.verdict.word != "exceeded"

    @property
    def checked(self) -> bool:
        """Whether nothing is left unchecked; questions to others may stand."""
        return self.verdict.word in {"within", "ask"}

    @property
    def questions(self) -> tuple[Finding, ...]:
        """What must be asked or settled before it is built, worst first."""
        return tuple(
            each for each in self.verdict.findings if each.verdict in {"not checked", "ask"}
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmade:
    """A station that could not be put together, and why."""

    station: Station
    reason: Value  #: in words


def judge_station(
    station: Station,
    *,
    place: Plan,
    wanted: tuple[Wanted, ...],
    designer: Designer,
    files: ReadFile = no_files,
    prepare: Preparer = prepare_run,
) -> Candidate | Unmade:
    """Design a station, write its plan, and ask every room about it.

    Args:
        wanted: what is to be reached (n_targets,)
        designer: designs the antennas of this place
        files: reads the price list
    """
    try:
        plan = _that_stands(station, place=place, designer=designer)
        served = serve(plan, wanted, turns=station.shape.turns, prepare=prepare)
    except BoomwrightError as error:
        return Unmade(station=station, reason=error.said)
    plan = _headed(plan, served.heading)
    # Anew: where the boom points decides how wind and guys meet it.
    report = check_structure(inputs=structure_inputs(plan))
    costing = None if plan.prices is None else price_plan(plan, files=files)
    raising = raise_plan(plan, structure=report)
    verdict = judge_plan(
        plan, files=files, structure=report, costing=costing, raising=raising, prepare=prepare
    )
    lift = raising.lifts[0].lift
    further = (*_limits(plan, station), *_feed(plan, served))
    return Candidate(
        station=station,
        plan=plan,
        served=served,
        costing=costing,
        verdict=plan_verdict((*verdict.findings, *further)),
        people=None if lift is None else lift.methods[0].people,
    )


def _that_stands(station: Station, *, place: Plan, designer: Designer) -> Plan:
    """The lightest plan of a station in which no part is overloaded; else the last that exists."""
    made = _station_with(station, 0, place=place, designer=designer)
    for heavier in range(1, _SETS):
        if plan_verdict(line.finding for line in made[1].ledger).word != "exceeded":
            break
        with suppress(BoomwrightError):
            made = _station_with(station, heavier, place=place, designer=designer)
    return made[0]


def _station_with(
    station: Station, heavier: int, *, place: Plan, designer: Designer
) -> tuple[Plan, StructureReport]:
    antenna = designer.design(station.shape, height=station.height, heavier=heavier)
    plan = station_plan(station, antenna, place=place, table=designer.table, heavier=heavier)
    return plan, check_structure(inputs=structure_inputs(plan))


def _headed(plan: Plan, heading: float) -> Plan:
    """The plan with its antenna on a heading to the degree, as it is read from its file."""
    heading = math.radians(round(math.degrees(heading)) % 360)
    beams = tuple(replace(beam, heading=heading) for beam in plan.beams)
    return read_plan(write_plan(replace(plan, beams=beams)))


def _limits(plan: Plan, station: Station) -> tuple[Finding, ...]:
    """What the place allows: height and room."""
    place = plan.place
    if place is None:
        return ()
    found = []
    if place.highest is not None:
        top = max(antenna_top(plan), structure_top(plan))
        found.append(_held("highest part", top, place.highest, "take less height"))
    if place.lot is not None:
        for name, needs, has in _room(plan, station, place.lot):
            found.append(_held(name, needs, has, "take a smaller antenna or another support"))
    return tuple(found)


def _room(plan: Plan, station: Station, lot: tuple[float, float]) -> list[tuple[str, float, float]]:
    """Name, length needed and length that is there, of what has to find room [m]."""
    short, long = sorted(lot)
    beam, found = plan.beams[0], []
    if station.shape.turns:
        found.append(("room to turn", 2.0 * swing_radius(plan, beam), short))
    else:
        across = max(abs(y) for element in beam.elements for _, y, _ in element.outline)
        found.append(("room for the wires", 2.0 * across, long))
    rings = () if plan.support is None else plan.support.guy
    if rings:
        found.append(("room for the guys", 2.0 * max(ring.anchor_radius for ring in rings), short))
    return found


def _held(name: str, demand: float, limit: float, change: str) -> Finding:
    over = demand > limit * (1.0 + 1e-9)
    return Finding(
        subject="place",
        name=name,
        verdict="exceeded" if over else "within",
        use=demand / limit,
        change=change if over else "",
        reason=phrase(
            "{demand} of {limit}",
            demand=Quantity(demand, "height"),
            limit=Quantity(limit, "height"),
        ),
    )


def _feed(plan: Plan, served: Served) -> tuple[Finding, ...]:
    """Whether the radio sees a load that it bears."""
    name = f"{plan.beams[0].name}: standing wave ratio at the radio"
    if served.swr is None:
        reason = "no match could be solved"
        return (Finding(subject="feed", name=name, verdict="not checked", reason=reason),)
    return (
        Finding(
            subject="feed",
            name=name,
            verdict="within" if served.swr <= _MOST_SWR else "exceeded",
            use=served.swr / _MOST_SWR,
        ),
    )
