"""From a place to whole stations side by side."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from boomwright.base import BoomwrightError, Notice
from boomwright.base.files import ReadFile, no_files
from boomwright.plan import Plan
from boomwright.plan.model_station import PlacePlan
from boomwright.solver import Preparer, remembering
from boomwright.study.advice.antennas import Designer
from boomwright.study.advice.judged import Candidate, Unmade, judge_station
from boomwright.study.advice.ranking import USUAL_LEAST_DB, Pick, put_forward, unbeaten
from boomwright.study.advice.served import Wanted, serve, wanted_targets
from boomwright.study.advice.stations import Station, station_plan, stations
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
    band: str  #: band the stations are for
    wanted: tuple[Wanted, ...]  #: what is to be reached (n_targets,)
    dipole_dbi: float  #: mean over the targets of a flat dipole at 10 m [dBi]
    candidates: tuple[Candidate, ...]  #: in the order they were tried (n_candidates,)
    unmade: tuple[Unmade, ...]  #: what could not be put together (n_unmade,)
    front: tuple[int, ...]  #: numbers of those that no other beats, weakest first (n_unbeaten,)
    picks: tuple[Pick, ...]  #: up to three put forward, weakest first (n_picks,)

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What was not looked at, each with how to settle it."""
        found = []
        limits, reach = self.plan.place, self.plan.reach
        if limits is not None and len(limits.bands) > 1:
            text = (
                f"Stations for {self.band} alone were tried; of {', '.join(limits.bands[1:])} "
                "nothing is said: put another band first and ask again."
            )
            found.append(Notice(code="advise.no-further-bands", text=text, severity="doubt"))
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
    band, wanted = limits.bands[0], wanted_targets(place)
    designer = Designer(
        table=table,
        ground=place.site.ground,
        band=band,
        region=limits.region,
        prepare=prepare,
    )
    tried = list(stations(table, limits))
    made: list[Candidate] = []
    unmade: list[Unmade] = []
    for number, station in enumerate(tried, 1):
        found = judge_station(
            station, place=place, wanted=wanted, designer=designer, files=files, prepare=prepare
        )
        if isinstance(found, Candidate):
            made.append(found)
        else:
            unmade.append(found)
        if on_candidate is not None:
            on_candidate(number, len(tried), found)
    dipole = _dipole(place, wanted, designer, prepare)
    front = unbeaten(made)
    least = USUAL_LEAST_DB if limits.least_db is None else limits.least_db
    return Advice(
        plan=place,
        band=band,
        wanted=wanted,
        dipole_dbi=dipole,
        candidates=tuple(made),
        unmade=tuple(unmade),
        front=front,
        picks=put_forward(made, front, dipole_dbi=dipole, least_db=least),
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
    place: Plan, wanted: tuple[Wanted, ...], designer: Designer, prepare: Preparer
) -> float:
    """Mean over the targets of a flat dipole at 10 m with the line of the table [dBi]."""
    shape = ShapeRow(name="flat dipole", wire="dipole", on=("trees",))
    row = SupportRow(kind="trees", at=DIPOLE_HEIGHT, heights=(DIPOLE_HEIGHT,))
    station = Station(shape=shape, support=row, height=DIPOLE_HEIGHT)
    antenna = designer.design(shape, height=DIPOLE_HEIGHT)
    plan = station_plan(station, antenna, place=place, table=designer.table)
    return serve(plan, wanted, turns=False, prepare=prepare).mean_dbi
