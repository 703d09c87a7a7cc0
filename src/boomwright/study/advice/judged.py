"""A candidate held against everything: what it serves, costs, asks, and where it fails."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from contextlib import suppress

from boomwright.base import BoomwrightError, Finding, PlanVerdict, UnitSystem, plan_verdict
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass, replace
from boomwright.cost import Estimate
from boomwright.plan import Plan, read_plan, write_plan
from boomwright.plan.resolve import structure_inputs
from boomwright.plan.resolve.assembly import antenna_top, swing_radius
from boomwright.plan.resolve.places import structure_top
from boomwright.solver import Preparer, prepare_run
from boomwright.structure import StructureReport, check_structure
from boomwright.study.advice.antennas import Antenna, Designer, Duty
from boomwright.study.advice.served import BandServed, Served, Wanted, serve, serve_in_full
from boomwright.study.advice.stations import Station, station_plan
from boomwright.study.advice.table import Table
from boomwright.study.cost import Costing, PriceList, price_plan
from boomwright.study.raising import RaisingResult, raise_plan
from boomwright.study.verdict import judge_plan

#: heavier sets of tubes tried where the lightest do not stand
_SETS = 5
#: standing wave ratio at the radio that a transmitter bears {common-practice-stations} [-]
_MOST_SWR = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What every station of a place is judged by."""

    name: str  #: the same for the same place, table and prices
    place: Plan
    table: Table  #: shapes and supports
    wanted: tuple[Wanted, ...]  #: what is to be reached (n_targets,)
    #: for each band, what a flat dipole at 10 m gives towards each target [dBi] (n_targets,)
    dipole: Mapping[str, tuple[float, ...]]
    prices: PriceList | None  #: the place's price list; None without one
    system: UnitSystem  #: units that lengths are rounded in

    def designer(self, prepare: Preparer) -> Designer:
        """Who designs the antennas of the place."""
        return Designer(
            table=self.table,
            ground=self.place.site.ground,
            region=1 if self.place.place is None else self.place.place.region,
            prepare=prepare,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """Something to be asked or settled before it is built."""

    whom: str  #: who can answer it
    finding: Finding  #: the check that waits for the answer


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A whole station and what is known of it."""

    station: Station
    plan: Plan  #: the complete plan
    duties: tuple[tuple[Duty, ...], ...]  #: the bands of each of its antennas
    served: Served
    costing: Costing | None  #: what it costs; None when the place names no currency
    verdict: PlanVerdict
    #: trained climbers and people on the ground that the way up needs; None while it cannot be
    #: planned [-] (2,)
    people: tuple[int, int] | None
    #: usual work to build and raise it, all hands together; None when the table gives none [h]
    hours: float | None
    questions: tuple[Question, ...]  #: what must be asked or settled, worst first (n_questions,)
    assumed: tuple[str, ...]  #: what was taken as usual because the place does not say it (n,)

    @property
    def name(self) -> str:
        """Antenna and support in words."""
        return self.station.name

    @property
    def sums(self) -> Estimate | None:
        """Its bill with the prices that are known; None when the place names no currency."""
        return None if self.costing is None else self.costing.estimate

    @property
    def cost(self) -> float | None:
        """Likely sum of what is priced; None while no line has a price [currency]."""
        made = self.sums
        return None if made is None or made.nothing_priced else made.total.likely

    @property
    def priced_in_full(self) -> bool:
        """Whether every line has a price and everything else is said, so that costs compare."""
        made = self.sums
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
    def could_be_checked(self) -> bool:
        """Whether nothing is left unchecked but what computing it in full will check."""
        if self.served.in_full:
            return self.checked
        rooms = (each for each in self.verdict.findings if each.subject != "feed")
        return self.allowed and all(each.verdict != "not checked" for each in rooms)

    @property
    def unpriced(self) -> tuple[str, ...]:
        """What has no price, or of what nobody has said how much (n_lines,)."""
        made = self.sums
        return () if made is None else (*made.unpriced, *made.unsaid)

    @property
    def stops(self) -> Finding | None:
        """What stops it, or is closest to its limit where nothing does; None with no figures."""
        found = self.verdict.findings
        if found and found[0].verdict == "exceeded":
            return found[0]
        used = [each for each in found if each.use is not None and each.verdict == "within"]
        return max(used, key=lambda each: each.use or 0.0, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmade:
    """A station that could not be put together, and why."""

    station: Station
    reason: Value  #: in words


def judge_station(
    station: Station, *, asked: Asked, designer: Designer, prepare: Preparer = prepare_run
) -> Candidate | Unmade:
    """Design a station, write its plan, estimate what it serves, and ask every room about it."""
    try:
        plan, antennas = _that_stands(station, asked=asked, designer=designer)
        duties = tuple(antenna.duties for antenna in antennas)
        served = serve(
            plan,
            asked.wanted,
            duties=duties,
            turns=turns_of(station),
            dipole=asked.dipole,
            prepare=prepare,
        )
        plan = _headed(plan, served.headings)
    except BoomwrightError as error:
        return Unmade(station=station, reason=error.said)
    return judge_plan_of(
        station, plan=plan, duties=duties, served=served, asked=asked, prepare=prepare
    )


def judge_plan_of(
    station: Station,
    *,
    plan: Plan,
    duties: tuple[tuple[Duty, ...], ...],
    served: Served,
    asked: Asked,
    prepare: Preparer = prepare_run,
) -> Candidate:
    """Ask every room about the plan of a station.

    Args:
        duties: the bands of each of its antennas
    """
    # Anew: where the boom points decides how wind and guys meet it.
    costing = None if plan.prices is None else price_plan(plan, prices=asked.prices)
    raising = raise_plan(plan)
    verdict = judge_plan(plan, costing=costing, raising=raising, prepare=prepare)
    verdict = plan_verdict((*verdict.findings, *_limits(plan, station), *_feed(served)))
    return Candidate(
        station=station,
        plan=plan,
        duties=duties,
        served=served,
        costing=costing,
        verdict=verdict,
        people=_people(raising),
        hours=_hours(station),
        questions=_questions(verdict),
        assumed=_assumed(station, plan, asked.place),
    )


def look_closer(
    candidate: Candidate, *, asked: Asked, prepare: Preparer = prepare_run
) -> Candidate | Unmade:
    """Compute a candidate with its feeds, guys and mast; the rooms have been asked already."""
    try:
        served = serve_in_full(
            candidate.plan,
            asked.wanted,
            duties=candidate.duties,
            turns=turns_of(candidate.station),
            dipole=asked.dipole,
            prepare=prepare,
        )
    except BoomwrightError as error:
        return Unmade(station=candidate.station, reason=error.said)
    rooms = (each for each in candidate.verdict.findings if each.subject != "feed")
    verdict = plan_verdict((*rooms, *_feed(served)))
    return replace(candidate, served=served, verdict=verdict, questions=_questions(verdict))


def turns_of(station: Station) -> list[bool]:
    """Whether each antenna of a station is turned to every target (n_antennas,)."""
    return [each.shape.turns for each in station.hung]


#: who can usually answer what a room leaves open, where the check names nobody
_USUAL = {
    "structure": "maker, or a licensed engineer",
    "permits": "local planning and building office",
    "raising": "whoever leads the lift",
    "cost": "dealers",
}


def _questions(verdict: PlanVerdict) -> tuple[Question, ...]:
    """Say of whom each open check of a verdict is to be asked, worst first (n_questions,)."""
    return tuple(
        Question(whom=each.whom or _USUAL.get(each.subject, "station owner"), finding=each)
        for each in verdict.findings
        if each.verdict in {"not checked", "ask"}
    )


def _assumed(station: Station, plan: Plan, place: Plan) -> tuple[str, ...]:
    """What was taken as usual because the place does not say it, a line each (n_assumed,)."""
    standing = () if place.place is None else place.place.standing
    support = plan.support
    lines = {
        "flat ground all round: no terrain is given": (
            place.reach is None or not place.reach.terrain
        ),
        "sizes of the support, its guys and its footing": (
            support is not None and not station.owned
        ),
        "coil quality, mass and size of the traps": any(
            element.traps for beam in plan.beams for element in beam.elements
        ),
        "the pole ends a hand below its lowest bracket": any(
            each.name == station.owned and each.heights and each.foot is None for each in standing
        ),
        "tubes of elements and boom in usual sizes": bool(plan.booms),
        "size of the mast, and the gust in which the rotator shall turn": (
            support is not None and support.mast is not None
        ),
        "type and length of the feed line": place.line is None and plan.line is not None,
        "breaking strength of the ropes to buy": any(
            beam.frame is not None and beam.frame.held for beam in plan.beams
        ),
        "gear for the way up, without its ratings": (
            plan.raising is not None and place.raising != plan.raising
        ),
    }
    return tuple(line for line, taken in lines.items() if taken)


def _people(raising: RaisingResult) -> tuple[int, int] | None:
    """Most climbers and most people on the ground that any of the lifts needs (2,)."""
    needed = [lift.lift.methods[0].people for lift in raising.lifts if lift.lift is not None]
    if len(needed) < len(raising.lifts):
        return None
    return max(up for up, _ in needed), max(below for _, below in needed)


def _hours(station: Station) -> float | None:
    """Usual work on antennas and support; a support grows dearer in work with its height [h]."""
    row = station.support
    shares = [each.shape.work for each in station.hung if each.shape.work is not None]
    if row.work is None or len(shares) < len(station.hung):
        return None
    if row.plan is None:
        built = row.work
    else:
        built = 0.0 if station.owned else row.work * station.height / row.at
    return (built + sum(shares)) / 3600.0


def _that_stands(
    station: Station, *, asked: Asked, designer: Designer
) -> tuple[Plan, tuple[Antenna, ...]]:
    """The lightest plan of a station in which no part is overloaded; else the last that exists."""
    made, report = _station_with(station, 0, asked=asked, designer=designer)
    for heavier in range(1, _SETS):
        if plan_verdict(line.finding for line in report.ledger).word != "exceeded":
            break
        with suppress(BoomwrightError):
            made, report = _station_with(station, heavier, asked=asked, designer=designer)
    return made


def _station_with(
    station: Station, heavier: int, *, asked: Asked, designer: Designer
) -> tuple[tuple[Plan, tuple[Antenna, ...]], StructureReport]:
    antennas = tuple(
        designer.design(
            hung.shape, bands=hung.bands, height=station.height + hung.above, heavier=heavier
        )
        for hung in station.hung
    )
    plan = station_plan(
        station,
        antennas,
        place=asked.place,
        table=designer.table,
        heavier=heavier,
        system=asked.system,
    )
    return (plan, antennas), check_structure(inputs=structure_inputs(plan))


def _headed(plan: Plan, headings: Sequence[float]) -> Plan:
    """The plan with its antennas on headings to the degree, as it is read from its file."""
    beams = tuple(
        replace(beam, heading=math.radians(round(math.degrees(heading)) % 360))
        for beam, heading in zip(plan.beams, headings, strict=True)
    )
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
    found = []
    if station.turns:
        radius = max(swing_radius(plan, beam) for beam in plan.beams)
        found.append(("room to turn", 2.0 * radius, short))
    else:
        across = max(
            abs(y)
            for beam in plan.beams
            for element in beam.elements
            for _, y, _ in element.outline
        )
        found.append(("room for the wires", 2.0 * across, long))
    rings = () if plan.support is None else plan.support.guy
    if rings:
        found.append(("room for the guys", 2.0 * max(ring.anchor_radius for ring in rings), short))
    return found


def _held(name: str, demand: float, limit: float, change: str) -> Finding:
    over = demand > limit * (1.0 + 1e-9)
    sizes = {"demand": Quantity(demand, "height"), "limit": Quantity(limit, "height")}
    return Finding(
        subject="place",
        name=name,
        verdict="exceeded" if over else "within",
        use=demand / limit,
        change=change if over else "",
        reason=phrase("{demand} of {limit}", **sizes),
    )


def _feed(served: Served) -> tuple[Finding, ...]:
    """Whether the radio sees a load that it bears on every band; not checked in an estimate."""
    return tuple(_load(each, in_full=served.in_full) for each in served.bands)


def _load(served: BandServed, *, in_full: bool) -> Finding:
    name = f"{served.beam}: standing wave ratio at the radio"
    if served.swr is None:
        reason = "no match could be solved" if in_full else "the match is not computed yet"
        return Finding(subject="feed", name=name, verdict="not checked", reason=reason)
    return Finding(
        subject="feed",
        name=name,
        verdict="within" if served.swr <= _MOST_SWR else "exceeded",
        use=served.swr / _MOST_SWR,
    )
