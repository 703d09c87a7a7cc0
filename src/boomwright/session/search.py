"""Searches of a plan: told by the clock, kept beside it as they go, taken up after a break."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from boomwright.base import BoomwrightError, Notice
from boomwright.base.files import ReadFile
from boomwright.base.records import dataclass, replace
from boomwright.design import ComparedSpacing, Progress, SearchState, Tolerance, state_from
from boomwright.plan import Plan
from boomwright.session.files import OWN_RECORD, PlanFolder, read_file, save_bytes
from boomwright.session.search_workers import IN_PROCESS, Workers, search_workers
from boomwright.study.improve import (
    USUAL_STARTS,
    ImproveResult,
    Search,
    compare_plan,
    improve_plan,
    tolerate_plan,
    wished_search,
)
from boomwright.study.requests import RequestError
from boomwright.study.several_bands import USUAL_BAND_STARTS, BandsResult, improve_bands

_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchProgress:
    """How far a search is, by the clock."""

    doing: str  #: what is searched, in words
    done: int  #: starts finished
    total: int  #: starts planned so far; a round that finds something better adds more
    #: worst gain in the band of the best design so far; None before the first [dBi]
    best_gain_dbi: float | None
    seconds: float  #: time since this run began [s]
    #: time left if no further round is needed; None before it can be told [s]
    seconds_left: float | None


#: told how far the search is, several times a second; False stops it and keeps the best so far
OnProgress = Callable[[SearchProgress], bool]


class _Clock:
    """Tells how far a search is, by the clock, and ends its workers once it is to stop."""

    def __init__(self, on_progress: OnProgress | None, workers: Workers = IN_PROCESS) -> None:
        self._on_progress = on_progress
        self._workers = workers
        self._begun = self._part_begun = time.monotonic()
        self._doing = ""
        self._first = 0
        self._stopped = False

    @property
    def seconds(self) -> float:
        return time.monotonic() - self._begun

    def __call__(self, doing: str, progress: Progress | None) -> bool:
        self._workers.watch()
        if self._on_progress is None:
            return True
        if doing != self._doing:
            self._doing, self._part_begun = doing, time.monotonic()
            # What an earlier run did says nothing about the pace of this one.
            self._first = progress.done - int(progress.new_state) if progress else 0
        go_on = self._on_progress(self._told(progress))
        if not go_on and not self._stopped:
            self._stopped = True
            self._workers.end()
        return go_on

    def _told(self, progress: Progress | None) -> SearchProgress:
        done, total = (progress.done, progress.total) if progress else (0, 0)
        made, spent = done - self._first, time.monotonic() - self._part_begun
        best = progress.best if progress else None
        return SearchProgress(
            doing=self._doing,
            done=done,
            total=total,
            best_gain_dbi=None if best is None else best.gain_dbi,
            seconds=self.seconds,
            seconds_left=spent / made * (total - done) if made else None,
        )


def search_beam(
    plan: Plan,
    *,
    text: str,
    files: ReadFile,
    path: Path | None = None,
    seed: int = 0,
    starts: int = USUAL_STARTS,
    workers: int | None = None,
    cluster: str = "",
    resume: bool = False,
    compare: bool = False,
    tolerance: bool = False,
    on_progress: OnProgress | None = None,
) -> ImproveResult:
    """Search the best beam for the wishes of a plan.

    Args:
        path: the plan file, beside which the search is kept as it goes; None keeps nothing
        workers: processes to search on; None for one a core
        cluster: address of a dask scheduler whose workers search in their place; empty for none
        resume: whether to go on with the search that lies beside the plan

    Raises:
        RequestError: when the number of starts makes no sense, there is nothing to resume, the
            cost is
            limited without a price list, or the cluster does not answer or is lost
        WishError: when the wishes contradict themselves, or it was stopped before its first design
        PlanError: when the beam cannot be written into the plan
        OSError: when the search cannot be read
    """
    asked = replace(wished_search(plan, files=files), seed=seed, starts=starts)
    keeper = _Keeper(path, name=asked.name)
    if resume:
        keeper.load()
    with search_workers(workers, cluster=cluster) as climbers:
        clock = _Clock(on_progress, climbers)
        run = replace(
            asked,
            executor=climbers.executor,
            on_progress=clock,
            keep_state=keeper.keep,
            states=keeper.states.copy(),
        )
        result = improve_plan(run, text=text, compare=compare, tolerance=tolerance)
    notices = (*result.notices, *keeper.notices)
    return replace(result, seconds=clock.seconds, notices=notices)


def search_plan(
    plan: Plan,
    *,
    text: str,
    files: ReadFile,
    seed: int = 0,
    starts: int | None = None,
    workers: int | None = None,
    cluster: str = "",
    on_progress: OnProgress | None = None,
    **one_band: Any,
) -> ImproveResult | BandsResult:
    """Search the best beam for a plan's wish; with bands in it, the array that serves all best.

    Args:
        starts: starts in each round; None for the usual number
        one_band: what else :func:`search_beam` takes; of no account with several bands

    Raises:
        BoomwrightError: as :func:`search_beam` does
    """
    if plan.wish is None or not plan.wish.bands:
        return search_beam(
            plan, text=text, files=files, seed=seed, starts=starts or USUAL_STARTS,
            workers=workers, cluster=cluster, on_progress=on_progress, **one_band,
        )  # fmt: skip
    with search_workers(workers, cluster=cluster) as climbers:
        clock = _Clock(on_progress, climbers)
        result = improve_bands(
            plan,
            text=text,
            seed=seed,
            starts=starts or USUAL_BAND_STARTS,
            executor=climbers.executor,
            on_progress=clock,
        )
    return replace(result, seconds=clock.seconds)


def search_spacings(
    plan: Plan, *, files: ReadFile, workers: int | None, on_progress: OnProgress | None = None
) -> tuple[ComparedSpacing, ...]:
    """Search even and free spacing for the wishes of a plan, side by side.

    Returns:
        none when it was stopped

    Raises:
        BoomwrightError: when the wishes contradict themselves
    """
    asked = wished_search(plan, files=files)
    with search_workers(workers) as climbers:
        clock = _Clock(on_progress, climbers)
        return compare_plan(replace(asked, executor=climbers.executor, on_progress=clock))


def find_tolerance(
    plan: Plan, *, number: int, on_progress: OnProgress | None = None
) -> Tolerance | None:
    """Find out how far a beam of a plan may be off; None when it was stopped.

    Raises:
        WishError: when the beam cannot be computed so
    """
    return tolerate_plan(plan, number=number, on_progress=_Clock(on_progress))


def checkpoint_path(path: Path) -> Path:
    """Name the file that keeps a search."""
    return path.with_name(f"{path.stem}.search.json")


class _Keeper:
    """Keeps the states of a search in its file; a full disk does not end the search."""

    def __init__(self, path: Path | None, *, name: str) -> None:
        self._path = None if path is None else checkpoint_path(path)
        self._name = name
        self.states: dict[int, SearchState] = {}
        self.notices: tuple[Notice, ...] = ()

    def load(self) -> None:
        """Take up what an earlier run kept.

        Raises:
            RequestError: when there is none, or it is of another search
            WishError: when a state in it cannot be read
            FileRefusedError: when it is no regular file
            OSError: when it cannot be read
        """
        if self._path is None:
            raise RequestError(
                "a plan from standard input has no search to resume", remedy="name the plan file"
            )
        if not self._path.exists():
            raise RequestError(
                f"{self._path}: no search was broken off here", remedy="leave out --resume"
            )
        document = _document(self._path)
        if document.get("search") != self._name:
            raise RequestError(
                f"{self._path}: this search was for another beam or other wishes than the plan's "
                "now",
                remedy="undo the change, or search anew without --resume",
            )
        self.states = {int(n): state_from(state) for n, state in document["states"].items()}

    def keep(self, count: int, state: SearchState) -> None:
        """Keep a state."""
        self.states[count] = state
        if self._path is None or self.notices:
            return
        document = {
            "boomwright_search": _FORMAT,
            "search": self._name,
            "states": {str(n): state.document() for n, state in self.states.items()},
        }
        try:
            save_bytes(self._path, json.dumps(document).encode())
        except OSError as error:
            text = (
                f"The search could not be kept in {self._path.name} ({error.strerror}), so it "
                "cannot be resumed; the result itself is not affected."
            )
            self.notices = (Notice(code="design.not-kept", text=text),)


def _document(path: Path) -> dict[str, Any]:
    try:
        document = json.loads(read_file(path, kind=OWN_RECORD))
        known = document["boomwright_search"] == _FORMAT and all(
            count.isdecimal() for count in document["states"]
        )
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError):
        known = False
    if not known:
        raise RequestError(
            f"{path}: this is no search of this version", remedy="search anew without --resume"
        )
    return dict(document)


@dataclass(frozen=True, slots=True, kw_only=True)
class BrokenOff:
    """A search that did not come to its end."""

    seed: int  #: seed of its chance and starts in each round, to go on with the same
    starts: int
    climbed: int  #: starts it has finished
    #: worst gain in the band of its best design; None before the first [dBi]
    best_gain_dbi: float | None


def broken_off(plan: Plan, *, path: Path) -> BrokenOff | None:
    """Look whether a search for the plan as it stands was broken off.

    Args:
        path: its file; the search lies beside it

    Returns:
        None when there is none, it came to its end, or it was for another beam or wish
    """
    asked: Search | None = None
    keeper: _Keeper | None = None
    with suppress(BoomwrightError, OSError):
        asked = wished_search(plan, files=PlanFolder(path.parent, closed=True))
        keeper = _Keeper(path, name=asked.name)
        keeper.load()
    states = keeper.states if keeper is not None else {}
    if asked is None or not states:
        return None
    low, high = asked.wish.elements or (len(asked.beam.elements), len(asked.beam.elements))
    ended = [states[n].finished for n in range(low, high + 1) if n in states]
    if len(ended) == high - low + 1 and all(ended):
        return None
    first, last = states[min(states)], states[max(states)]
    return BrokenOff(
        seed=first.seed,
        starts=first.starts,
        climbed=sum(len(each.climbed) for each in states.values()),
        best_gain_dbi=None if last.best is None else last.best.gain_dbi,
    )
