"""From a place to whole stations side by side."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Executor
from functools import partial
from itertools import combinations
from typing import Any, Protocol

from boomwright.base import BoomwrightError, Notice, UnitSystem
from boomwright.base.files import STATION_TABLE, ReadFile, no_files
from boomwright.base.quantity import Quantity, listed, phrase
from boomwright.base.records import dataclass, field, replace
from boomwright.plan import Plan, write_plan
from boomwright.plan.resolve import target_places
from boomwright.solver import Ground, remembering
from boomwright.study.advice.antennas import Antenna, DesignKey, Refused, design_key
from boomwright.study.advice.confidence import Confidence, weigh
from boomwright.study.advice.judged import Asked, Candidate, Unmade
from boomwright.study.advice.keeping import Record, record_of, station_key
from boomwright.study.advice.ranking import (
    Compared,
    Pick,
    compared,
    least_of,
    near_front,
    put_forward,
    unbeaten,
)
from boomwright.study.advice.served import Wanted, serve_in_full, wanted_targets
from boomwright.study.advice.stations import Hung, Station, station_plan, stations
from boomwright.study.advice.table import ShapeRow, SupportRow, Table, extended_table, usual_table
from boomwright.study.advice.variations import Variations, other_grounds
from boomwright.study.advice.working import (
    Job,
    designed,
    each_done,
    judged,
    looked_at,
    taken_up,
    varied,
)
from boomwright.study.cost import listed_prices

#: height of the flat dipole that everything is held against [m]
DIPOLE_HEIGHT = 10.0

_FLAT = ShapeRow(name="flat dipole", wire="dipole", on=("trees",))

#: rounds of computing in full; each can bring others to the front
_ROUNDS = 8

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
    #: how far the estimate of those not computed in full was off where both were made; None where
    #: all or none were [dB]
    estimate_error_db: float | None
    front: tuple[int, ...]  #: numbers of those that no other beats, weakest first (n_unbeaten,)
    picks: tuple[Pick, ...]  #: up to three put forward, weakest first (n_picks,)
    #: each candidate beside the others (n_candidates,)
    compared: tuple[Compared, ...]
    confidence: Confidence  #: how sure the ranking is
    system: UnitSystem = "metric"  #: units that the lengths of the plans are rounded in
    told: tuple[Notice, ...] = ()  #: what whoever ran it has to say

    @property
    def least_db(self) -> float:
        """What a station must be worth against the dipole to serve [dB]."""
        return least_of(self.plan)

    def sure(self, number: int) -> float | None:
        """Share of the tries in which one beats the best cheaper; None without one [-]."""
        cheaper = self.compared[number].cheaper
        return None if cheaper is None else self.confidence.stronger(number, cheaper.number)

    @property
    def notices(self) -> tuple[Notice, ...]:
        """What was not looked at, each with how to settle it."""
        return (*self._overlooked(), *self.told, _ORDER)

    def _overlooked(self) -> Iterator[Notice]:
        doubt = partial(Notice, severity="doubt")
        if self.untried:
            text = f"Stopped: {self.untried} stations were not tried."
            yield doubt(code="advise.stopped", text=text)
        flat = [each.name for each in self.wanted if each.terrain is None]
        if flat:
            towards = f" towards {', '.join(flat)}" if len(flat) < len(self.wanted) else ""
            text = f"The ground was taken as flat{towards}."
            how = "Name a grid of heights as terrain in [reach]: it holds every direction."
            yield Notice(code="advise.flat-ground", text=text, how=how)
        counted = {each.name for each in self.wanted}
        here = ", ".join(name for name, _ in target_places(self.plan) if name not in counted)
        if self.wanted[0].bearing is None:
            text = "No targets count: place and targets are needed to judge an antenna by them."
            how = "Give position in [site] and target in [reach]."
            yield doubt(code="advise.no-targets", text=text, how=how)
        elif here:
            text = f"Not counted, because it lies at the place itself: {here}."
            yield doubt(code="advise.target-here", text=text)
        support = self.plan.support
        if support is not None and (support.tower or support.tube):
            text = "The tower or tube of the file is not tried by itself."
            how = "Name it under [[place.standing]] with its kind and height."
            yield doubt(code="advise.no-standing", text=text, how=how)
        if self.plan.beams:
            text = "Antennas that the file has already are not looked at: compare them yourself."
            yield doubt(code="advise.no-own-antennas", text=text)
        if self.plan.raising is None:
            text = "Nobody said who is there to raise it: the way up is not looked at."
            yield doubt(code="advise.no-crew", text=text, how="Give ground_crew in [raising].")


def advise(
    place: Plan,
    *,
    table: Table | None = None,
    files: ReadFile = no_files,
    system: UnitSystem = "metric",
    executor: Executor | None = None,
    in_full: bool = False,
    on_candidate: OnCandidate | None = None,
    stopped: Callable[[], bool] = lambda: False,
    keeper: Keeper | None = None,
) -> Advice:
    """Put whole stations together for a place and hold them side by side.

    Every station is estimated and asked of every room; those near the front are computed in full,
    with feeds, guys and mast, until none that is put forward is an estimate.

    Args:
        place: a plan with ``[place]``; its antennas, if it has any, are not looked at
        table: shapes and supports to try; None for the usual ones and those of the place's file
        files: reads the price list, the terrain and the place's table
        system: units that the lengths of the plans are rounded in
        executor: takes the work; None to do it in this process
        in_full: whether every station is computed in full, those far from the front too
        on_candidate: hears of each candidate as it is judged, and again once computed in full
        stopped: asked now and then; True ends it with what is done
        keeper: keeps what is done, and knows what an earlier run did; None for neither
    """
    asked = _asked(place, _table_of(place, files) if table is None else table, files, system)
    tried = _tried(asked)
    flat = _flat_dipoles(asked)
    asked = replace(asked, dipole=_dipoles(asked, flat, place.site.ground))
    run = _Run(
        asked=asked,
        executor=executor,
        in_full=in_full,
        on_candidate=on_candidate,
        stopped=stopped,
        tried=tried,
        flat=flat,
        keeper=keeper,
        kept={} if keeper is None else keeper.kept(asked.name),
    )
    run.judge()
    run.look_closer()
    made = [each for each in run.found if isinstance(each, Candidate)]
    front = unbeaten(made)
    return Advice(
        plan=place,
        bands=tuple(asked.dipole),
        wanted=asked.wanted,
        dipole_dbi=tuple(asked.dipole.values()),
        candidates=tuple(made),
        unmade=tuple(each for each in run.found if isinstance(each, Unmade)),
        untried=run.found.count(None),
        estimate_error_db=run.estimate_error_db,
        front=front,
        picks=put_forward(made, front, least_db=least_of(place)),
        compared=compared(made, front),
        confidence=weigh(made, run.vary(made)),
        system=system,
    )


class Keeper(Protocol):
    """Keeps what is done of a run, for one that goes on with it."""

    def kept(self, name: str) -> Mapping[str, Record]:
        """Records of an earlier run, by station.

        Args:
            name: of what was asked: the same for the same place, table and prices
        """

    def keep(self, station: str, record: Record) -> None:
        """Keep the record of a station."""


@dataclass(slots=True, kw_only=True)
class _Run:
    """One run of advice: what has been found so far, in the order of the stations."""

    asked: Asked
    executor: Executor | None
    in_full: bool
    on_candidate: OnCandidate | None
    stopped: Callable[[], bool]
    tried: tuple[Station, ...]
    flat: Mapping[str, Antenna]  #: flat dipoles that all is held against, by band
    keeper: Keeper | None
    kept: Mapping[str, Record]  #: records of an earlier run, by station
    found: list[Candidate | Unmade | None] = field(default_factory=list)
    done: int = 0  #: stations judged, and those computed in full
    total: int = 0  #: as far as is known
    off_db: list[float] = field(default_factory=list)  #: by what estimates were off [dB]

    @property
    def estimate_error_db(self) -> float | None:
        estimated = any(
            isinstance(each, Candidate) and not each.served.in_full for each in self.found
        )
        return max(self.off_db) if self.off_db and estimated else None

    def judge(self) -> None:
        """Judge every station: first those that wait for no design, beside the designs."""
        self.found = [None] * len(self.tried)
        self.total = len(self.tried)
        records = [self.kept.get(station_key(station)) for station in self.tried]
        needs = [
            {} if record is not None else _designs(station)
            for record, station in zip(records, self.tried, strict=True)
        ]
        designs = {key: hung for each in needs for key, hung in each.items()}
        at_once = [n for n, each in enumerate(needs) if not each]
        jobs: list[Job] = [
            (n, judged, self.asked, self.tried[n], {})
            if records[n] is None
            else (n, taken_up, self.asked, self.tried[n], records[n])
            for n in at_once
        ]
        # Designs take longest: they begin beside the first station.
        jobs[1:1] = [(key, designed, self.asked, hung) for key, hung in designs.items()]
        made: dict[DesignKey, Antenna | Refused] = {}
        for name, result in self._each(jobs):
            if name in designs:
                made[name] = result
            else:
                self._take(name, result)
        later = [n for n, each in enumerate(needs) if each]
        for name, result in self._each(
            [(n, judged, self.asked, self.tried[n], made) for n in later]
        ):
            self._take(name, result)

    def look_closer(self) -> None:
        """Compute those near the front in full until all of them are."""
        for _ in range(_ROUNDS):
            numbers = [n for n, each in enumerate(self.found) if isinstance(each, Candidate)]
            made = [each for each in self.found if isinstance(each, Candidate)]
            near = near_front(made, least_db=least_of(self.asked.place))
            if self.in_full:
                near = tuple(range(len(made)))
            wanted = [numbers[n] for n in near if not made[n].served.in_full]
            if not wanted or self.stopped():
                return
            self.total += len(wanted)
            jobs = [(number, looked_at, self.asked, self.found[number]) for number in wanted]
            for number, result in self._each(jobs):
                before = self.found[number]
                if isinstance(before, Candidate) and isinstance(result, Candidate):
                    self.off_db.append(abs(result.served.mean_db - before.served.mean_db))
                self._take(number, result)

    def vary(self, made: Sequence[Candidate]) -> dict[int, Variations]:
        """Try those computed in full for the front with what is not known, by their numbers."""
        front = near_front(made, least_db=least_of(self.asked.place)) if self.in_full else None
        numbers = [
            n
            for n, each in enumerate(made)
            if each.served.in_full and (front is None or n in front)
        ]
        if not numbers or self.stopped():
            return {}
        poorer, better = (
            _dipoles(self.asked, self.flat, ground)
            for ground in other_grounds(self.asked.place.site.ground)
        )
        jobs = [(n, varied, self.asked, made[n], (poorer, better)) for n in numbers]
        return dict(self._each(jobs))

    def _each(self, jobs: Sequence[Job]) -> Iterator[tuple[Any, Any]]:
        return each_done(jobs, executor=self.executor, stopped=self.stopped)

    def _take(self, number: int, result: Candidate | Unmade) -> None:
        self.found[number] = result
        self.done += 1
        if self.keeper is not None:
            self.keeper.keep(station_key(self.tried[number]), record_of(result))
        if self.on_candidate is not None:
            self.on_candidate(self.done, self.total, result)


def _designs(station: Station) -> dict[DesignKey, Hung]:
    """Antennas of a station that are designed once for every height."""
    keys = {design_key(each.shape, bands=each.bands): each for each in station.hung}
    return {key: hung for key, hung in keys.items() if key is not None}


def _table_of(place: Plan, files: ReadFile) -> Table:
    """The usual shapes and supports, and what the place's own file adds."""
    listed_table = "" if place.place is None else place.place.table
    if not listed_table:
        return usual_table()
    content = files(listed_table, "place.table", STATION_TABLE)
    text = content.decode("utf-8-sig", errors="replace")
    return extended_table(usual_table(), text, source=listed_table)


def _asked(place: Plan, table: Table, files: ReadFile, system: UnitSystem) -> Asked:
    """What is asked of every station of a place."""
    if place.place is None:
        raise BoomwrightError(
            "this file does not say what the place allows and wants",
            remedy=(
                "add [place] with bands = "
                '["20 m"], and highest, lot and standing where they are known'
            ),
        )
    if place.site.ground.kind == "free space":
        raise BoomwrightError(
            "site.ground: a station stands on a ground",
            remedy=('write the class of yours, such as "medium dry"'),
        )
    prices = listed_prices(place, files=files)
    wanted = wanted_targets(place, files=files)
    ground = [each.terrain and (each.terrain.distance.tobytes(), each.terrain.height.tobytes())
              for each in wanted]  # fmt: skip
    told = repr((write_plan(place), table, prices, system, ground))
    return Asked(
        name=hashlib.sha256(told.encode()).hexdigest(),
        place=place,
        table=table,
        wanted=wanted,
        dipole={},
        prices=prices,
        system=system,
    )


def _flat_dipoles(asked: Asked) -> dict[str, Antenna]:
    """The flat dipole at 10 m for each band, cut over the ground of the place."""
    limits, designer = asked.place.place, asked.designer(remembering())
    return {
        band: designer.design(_FLAT, bands=(band,), height=DIPOLE_HEIGHT)
        for band in (() if limits is None else limits.bands)
    }


def _dipoles(
    asked: Asked, flat: Mapping[str, Antenna], ground: Ground
) -> dict[str, tuple[float, ...]]:
    """What flat dipoles give over a ground on their bands [dBi] (n_targets,)."""
    place = replace(asked.place, site=replace(asked.place.site, ground=ground))
    row = SupportRow(kind="trees", at=DIPOLE_HEIGHT, heights=(DIPOLE_HEIGHT,))
    prepare, found = remembering(), {}
    for band, antenna in flat.items():
        hung = (Hung(shape=_FLAT, bands=(band,)),)
        station = Station(hung=hung, support=row, height=DIPOLE_HEIGHT)
        served = serve_in_full(
            station_plan(station, (antenna,), place=place, table=asked.table),
            asked.wanted,
            duties=[antenna.duties],
            turns=[True],
            dipole={band: (0.0,) * len(asked.wanted)},
            prepare=prepare,
        )
        found[band] = served.bands[0].gains_dbi
    return found


def _tried(asked: Asked) -> tuple[Station, ...]:
    """The stations worth trying at a place.

    Raises:
        BoomwrightError: when nothing in the table serves its bands together
    """
    limits = asked.place.place
    if limits is None:
        return ()
    tried = tuple(stations(asked.table, limits))
    if tried:
        return tried
    if limits.highest is not None and any(stations(asked.table, replace(limits, highest=None))):
        raise BoomwrightError(
            phrase(
                "place.highest: nothing that serves {bands} stands below {highest}",
                bands=listed(limits.bands),
                highest=Quantity(limits.highest, "height"),
            ),
            remedy="ask whether more is allowed, or ask for higher bands",
        )
    # Those wanted most are kept, as many as go together.
    kept: tuple[str, ...] = next(
        (
            some
            for count in range(len(limits.bands) - 1, 0, -1)
            for some in combinations(limits.bands, count)
            if any(stations(asked.table, replace(limits, bands=some)))
        ),
        (),
    )
    left = [band for band in limits.bands if band not in kept]
    why = phrase(
        "place.bands: no antenna of the table serves {bands} together, nor do two of them on one "
        "support here",
        bands=listed(limits.bands),
    )
    if not kept:
        raise BoomwrightError(why, remedy="ask for other bands")
    raise BoomwrightError(
        why,
        remedy=phrase(
            "keep {kept}, and leave {left} to a second place with a file of its own",
            kept=listed(kept),
            left=listed(left),
        ),
    )
