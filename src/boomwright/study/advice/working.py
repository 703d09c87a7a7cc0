"""The parts of the work, each of which a process of its own can do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from concurrent.futures import FIRST_COMPLETED, Executor, Future, wait
from typing import Any

from boomwright.base import BoomwrightError
from boomwright.solver import Preparer, remembering
from boomwright.study.advice.antennas import Antenna, Designer, DesignKey, Refused
from boomwright.study.advice.judged import Asked, Candidate, Unmade, judge_station, look_closer
from boomwright.study.advice.keeping import Record, restored
from boomwright.study.advice.stations import Hung, Station
from boomwright.study.advice.variations import Dipole, Variations, vary

#: height for a design that does not hang on it [m]
_ANY_HEIGHT = 10.0
#: how often it is looked whether to stop while processes work [s]
_LOOK = 0.2

#: name of a job, what is done, and its arguments
Job = tuple[Any, ...]
Designs = Mapping[DesignKey, Antenna | Refused]

#: designer and solver's memory of the place that this process works for, by its name
_held: dict[str, tuple[Designer, Preparer]] = {}


def _tools(asked: Asked, made: Designs) -> tuple[Designer, Preparer]:
    held = _held.get(asked.name)
    if held is None:
        prepare = remembering()
        held = asked.designer(prepare), prepare
        _held.clear()
        _held[asked.name] = held
    designer, prepare = held
    designer.made.update(made)
    return designer, prepare


def designed(asked: Asked, hung: Hung) -> Antenna | Refused:
    """Design an antenna that does not hang on its height, or say why it cannot be made."""
    designer, _ = _tools(asked, {})
    try:
        return designer.design(hung.shape, bands=hung.bands, height=_ANY_HEIGHT)
    except BoomwrightError as error:
        return Refused(said=error.said)


def judged(asked: Asked, station: Station, made: Designs) -> Candidate | Unmade:
    """Judge a station, given the antennas that were designed already."""
    designer, prepare = _tools(asked, made)
    return judge_station(station, asked=asked, designer=designer, prepare=prepare)


def taken_up(asked: Asked, station: Station, record: Record) -> Candidate | Unmade:
    """Take up a station that an earlier run kept."""
    _, prepare = _tools(asked, {})
    return restored(record, station, asked=asked, prepare=prepare)


def looked_at(asked: Asked, candidate: Candidate) -> Candidate | Unmade:
    """Compute a candidate with its feeds, guys and mast."""
    _, prepare = _tools(asked, {})
    return look_closer(candidate, asked=asked, prepare=prepare)


def varied(asked: Asked, candidate: Candidate, dipoles: tuple[Dipole, Dipole]) -> Variations:
    """Try a candidate over other grounds, with other cuts and in more wind."""
    _, prepare = _tools(asked, {})
    return vary(candidate, asked=asked, dipoles=dipoles, prepare=prepare)


def each_done(
    jobs: Iterable[Job], *, executor: Executor | None, stopped: Callable[[], bool]
) -> Iterator[tuple[Any, Any]]:
    """Do jobs, here in their order or on an executor, until told to stop.

    Args:
        executor: takes the work; None to do it here

    Yields:
        name of a job and what came of it, as they are done
    """
    if executor is None:
        for name, work, *given in jobs:
            if stopped():
                return
            yield name, work(*given)
        return
    waiting: dict[Future[Any], Any] = {
        executor.submit(work, *given): name for name, work, *given in jobs
    }
    while waiting:
        if stopped():
            for future in waiting:
                future.cancel()
            return
        done, _ = wait(waiting, timeout=_LOOK, return_when=FIRST_COMPLETED)
        for future in done:
            yield waiting.pop(future), future.result()
