"""How a search tells how far it is, by the clock, and how its state is kept as it goes."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from boomwright.base import Notice
from boomwright.design import Progress, SearchState
from boomwright.session.improve_checkpoint import load_checkpoint, save_checkpoint
from boomwright.study.starting import RequestError


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
OnSearch = Callable[[SearchProgress], bool]


class SearchClock:
    """Turns what a search tells into time left, and hears whether to stop.

    Parameters
    ----------
    on_progress
        told how far it is; False stops
    """

    def __init__(self, on_progress: OnSearch | None) -> None:
        self._on_progress = on_progress
        self._begun = time.monotonic()
        self.stopped = False
        #: done once, as soon as it is told to stop
        self.at_stop: Callable[[], None] = _nothing
        #: asked whenever it tells; raises what ends the search
        self.watch: Callable[[], None] = _nothing

    @property
    def seconds(self) -> float:
        """Time since it began [s]."""
        return time.monotonic() - self._begun

    def listen(
        self, doing: str, *, keeper: SearchKeeper | None = None, count: int = 0
    ) -> Callable[[Progress], bool]:
        """Make what one search reports to.

        Parameters
        ----------
        keeper
            keeps its state as it goes; None for none

        Returns
        -------
        callable
            told how far the search is; gives False to stop it
        """
        begun = time.monotonic()
        first: int | None = None

        def on_progress(progress: Progress) -> bool:
            nonlocal first
            # What an earlier run did says nothing about the pace of this one.
            first = progress.done - int(progress.new_state) if first is None else first
            if keeper is not None and progress.new_state:
                keeper.keep(count, progress.state)
            made, spent = progress.done - first, time.monotonic() - begun
            best = progress.best
            told = SearchProgress(
                doing=doing,
                done=progress.done,
                total=progress.total,
                best_gain_dbi=None if best is None else best.gain_dbi,
                seconds=self.seconds,
                seconds_left=spent / made * (progress.total - progress.done) if made else None,
            )
            return self._told(told)

        return on_progress

    def _told(self, told: SearchProgress) -> bool:
        """Tell how far it is, and hear whether to go on."""
        self.watch()
        if self._on_progress is not None and not self._on_progress(told) and not self.stopped:
            self.stopped = True
            self.at_stop()
        return not self.stopped

    def go_on(self, doing: str) -> Callable[[], bool]:
        """Make what other long work asks between its pieces.

        Returns
        -------
        callable
            gives False to stop it
        """

        def asked() -> bool:
            told = SearchProgress(
                doing=doing, done=0, total=0, best_gain_dbi=None, seconds=self.seconds,
                seconds_left=None,
            )  # fmt: skip
            return self._told(told)

        return asked


def _nothing() -> None:
    """Do nothing."""


class SearchKeeper:
    """Keeps the states of a search in its file; a full disk does not end the search.

    Parameters
    ----------
    path
        the file; None for none
    name
        what is searched
    """

    def __init__(self, path: Path | None, name: str) -> None:
        self._path = path
        self._name = name
        self.states: dict[int, SearchState] = {}
        self.notices: tuple[Notice, ...] = ()

    def load(self) -> None:
        """Take up what an earlier run kept.

        Raises
        ------
        RequestError
            when there is none, or it is of another search
        """
        if self._path is None:
            message = "a plan from standard input has no search to resume -> name the plan file"
            raise RequestError(message)
        self.states = load_checkpoint(self._path, name=self._name)

    def keep(self, count: int, state: SearchState) -> None:
        """Keep a state."""
        self.states[count] = state
        if self._path is None or self.notices:
            return
        try:
            save_checkpoint(self._path, name=self._name, states=self.states)
        except OSError as error:
            text = (
                f"The search could not be kept in {self._path.name} ({error.strerror}), so it "
                "cannot be resumed; the result itself is not affected."
            )
            self.notices = (Notice(code="design.not-kept", text=text),)
