"""From a place to whole stations side by side."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from boomwright.base import BoomwrightError, Notice
from boomwright.base.files import ReadFile, no_files
from boomwright.base.quantity import listed, phrase
from boomwright.plan import Plan
from boomwright.plan.model_station import PlacePlan
from boomwright.solver import Preparer, remembering
from boomwright.study.advice.antennas import Designer
from boomwright.study.advice.confidence import Confidence, weigh
from boomwright.study.advice.judged import Candidate, Unmade, judge_station
from boomwright.study.advice.ranking import (
    USUAL_LEAST_DB,
    Compared,
    Pick,
    compared,
    put_forward,
    unbeaten,
)
from boomwright.study.advice.served import Wanted, serve, wanted_targets
from boomwright.study.advice.stations import Hung, Station, station_plan, stations
from boomwright.study.advice.table import ShapeRow, SupportRow, Table, usual_table

#: height of the flat dipole that everything is held against [m]
DIPOLE_HEIGHT = 10.0

_ORDER = Notice(
    code="advise.not-approved",
    text="This compares stations as computed; it approves none. Local codes and licensed "
    "practitioners decide what may be built.",
    severity="caution",
)

#: hears of each candidate: how many are done, how many there are, and the candidate
OnCandidate = Callable[[int, int, Candidate | Unmade], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """Whole stations for one place, side by side."""

    plan: Plan  #: the place
    bands: tuple[str, ...]  #: bands that every station serves, as wanted (n_bands,)
    wanted: tuple[Wanted, ...]  #: what is to be reached (n_targets,)
    #: what a flat dipole at 10 m gives towards each target on each band
    #: [dBi] (n_bands, n_targets)
    dipole_dbi: tuple[tuple[float, ...], ...]
    candidates: tuple[Candidate, ...]  #: in the order they were tried (n_candidates,)
    unmade: tuple[Unmade, ...]  #: what could not be put together (n_unmade,)
    untried: int  #: stations that were left when it was stopped
    front: tuple[int, ...]  #: numbers of those that no other beats, weakest first (n_unbeaten,)
    picks: tuple[Pick, ...]  #: up to three put forward, weakest first (n_picks,)
    #: each candidate beside the others (n_candidates,)
    compared: tuple[Compared, ...]
    confidence: Confidence  #: how sure the ranking is

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What was not looked at, each with how to settle it."""
        found = []
        reach = self.plan.reach
        if self.untried:
            text = f"Stopped: {self.untried} stations were not tried."
            found.append(Notice(code="advise.stopped", text=text, severity="doubt"))
        if reach is not None and reach.terrain:
            text = (
                "The ground was taken as flat; the terrain file is not counted in. Ask boomwright "
                "reach about the plan you choose."
            )
            found.append(Notice(code="advise.no-terrain", text=text, severity="doubt"))
        if self.wanted[0].bearing is None:
            text = (
                "No targets count: give position in [site] and target in [reach], and each "
                "antenna is judged towards them."
            )
            found.append(Notice(code="advise.no-targets", text=text, severity="doubt"))
        support = self.plan.support
        if support is not None and (support.tower or support.tube):
            text = (
                "The tower or tube in [support] is not tried by itself: name it under "
                "[[place.standing]] with its kind and height."
            )
            found.append(Notice(code="advise.no-standing", text=text, severity="doubt"))
        if self.plan.beams:
            text = "Antennas that the file has already are not looked at: compare them yourself."
            found.append(Notice(code="advise.no-own-antennas", text=text, severity="doubt"))
        if self.plan.raising is None:
            text = (
                "Nobody said who is there to raise it: give ground_crew in [raising], and the way "
                "up is looked at too."
            )
            found.append(Notice(code="advise.no-crew", text=text, severity="doubt"))
        return (*found, _ORDER)


def advise(
    place: Plan,
    *,
    table: Table | None = None,
    files: ReadFile = no_files,
    prepare: Preparer | None = None,
    on_candidate: OnCandidate | None = None,
) -> Advice:
    """Put whole stations together for a place and hold them side by side.

    Args:
        place: a plan with ``[place]``; its antennas, if it has any, are not looked at
        table: shapes and supports to try; None for the usual ones
        files: reads the price list
        prepare: prepares one run of wire; None for one that remembers
        on_candidate: hears of each candidate as it is judged

    Raises:
        BoomwrightError: when the place does not say what is wanted, or has no ground
    """
    limits = _asked(place)
    table = usual_table() if table is None else table
    prepare = remembering() if prepare is None else prepare
    wanted = wanted_targets(place)
    designer = Designer(
        table=table, ground=place.site.ground, region=limits.region, prepare=prepare
    )
    dipole = {band: _dipole(place, band, wanted, designer, prepare) for band in limits.bands}
    tried = list(stations(table, limits))
    if not tried:
        bands = listed(limits.bands)
        message = phrase(
            "place.bands: no antenna of the table serves {bands} together -> ask for fewer bands",
            bands=bands,
        )
        raise BoomwrightError(message)
    made: list[Candidate] = []
    unmade: list[Unmade] = []
    for number, station in enumerate(tried, 1):
        found = judge_station(
            station,
            place=place,
            wanted=wanted,
            dipole=dipole,
            designer=designer,
            files=files,
            prepare=prepare,
        )
        if isinstance(found, Candidate):
            made.append(found)
        else:
            unmade.append(found)
        if on_candidate is not None:
            on_candidate(number, len(tried), found)
    front = unbeaten(made)
    least = USUAL_LEAST_DB if limits.least_db is None else limits.least_db
    picks = put_forward(made, front, least_db=least)
    return Advice(
        plan=place,
        bands=limits.bands,
        wanted=wanted,
        dipole_dbi=tuple(dipole.values()),
        candidates=tuple(made),
        unmade=tuple(unmade),
        untried=0,
        front=front,
        picks=picks,
        compared=compared(made, front),
        confidence=weigh(made),
    )


def _asked(place: Plan) -> PlacePlan:
    if place.place is None:
        message = (
            "this file does not say what the place allows and wants -> add [place] with bands = "
            '["20 m"], and highest, lot and standing where they are known'
        )
        raise BoomwrightError(message)
    if place.site.ground.kind == "free space":
        message = (
            "site.ground: a station stands on a ground -> write the class of yours, such as "
            '"medium dry"'
        )
        raise BoomwrightError(message)
    return place.place


def _dipole(
    place: Plan, band: str, wanted: tuple[Wanted, ...], designer: Designer, prepare: Preparer
) -> tuple[float, ...]:
    """What a flat dipole at 10 m gives towards each target [dBi] (n_targets,)."""
    shape = ShapeRow(name="flat dipole", wire="dipole", on=("trees",))
    row = SupportRow(kind="trees", at=DIPOLE_HEIGHT, heights=(DIPOLE_HEIGHT,))
    hung = Hung(shape=shape, bands=(band,))
    station = Station(hung=(hung,), support=row, height=DIPOLE_HEIGHT)
    antennas = (designer.design(shape, bands=(band,), height=DIPOLE_HEIGHT),)
    plan = station_plan(station, antennas, place=place, table=designer.table)
    nothing = {band: (0.0,) * len(wanted)}
    served = serve(plan, wanted, antennas=antennas, turns=[True], dipole=nothing, prepare=prepare)
    return served.bands[0].gains_dbi
