"""Processes that climb, ended at once when the search is stopped and never left behind."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Iterator
from concurrent.futures import BrokenExecutor, Executor, ProcessPoolExecutor
from contextlib import contextmanager

from boomwright.study.starting import RequestError

#: more processes bring nothing for a dozen starts a round
_MOST_WORKERS = 16


def usual_workers() -> int:
    """Count the processes a search uses when nothing else is asked."""
    return min(os.cpu_count() or 1, _MOST_WORKERS)


@contextmanager
def climbers(workers: int) -> Iterator[Executor | None]:
    """Hold worker processes while a search runs; leaving ends them, whatever they are at.

    Parameters
    ----------
    workers
        number of processes; one means to climb in this process

    Yields
    ------
    Executor or None
        the workers, None for this process

    Raises
    ------
    RequestError
        when a worker ended by itself
    """
    if workers <= 1:
        yield None
        return
    # Fresh processes: a copy of one that runs threads, as the page does, may hang.
    pool = ProcessPoolExecutor(
        max_workers=workers,
        mp_context=multiprocessing.get_context("spawn"),
        initializer=_begin,
    )
    try:
        yield pool
    except BrokenExecutor:
        message = (
            "a worker process of the search ended by itself, for want of memory perhaps -> go on "
            "with the search, on fewer processes"
        )
        raise RequestError(message) from None
    finally:
        end_climbers(pool)


def end_climbers(executor: Executor | None) -> None:
    """End workers at once, whatever they are at."""
    if not isinstance(executor, ProcessPoolExecutor):
        return
    # A climb takes seconds; whoever cancels does not wait for it. Python 3.14 has a call for
    # this, before it the pool's own list of processes is the only way.
    for process in list((executor._processes or {}).values()):
        process.terminate()
    # Waited for, and nothing cancelled before: the pool stumbles over what was cancelled when it
    # cleans up after its processes, and then the program could not end.
    executor.shutdown(wait=True)


def _begin() -> None:
    """Prepare a worker: Ctrl-C is the parent's to hear, and no worker outlives the parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = multiprocessing.parent_process()
    if parent is None:
        return

    def follow() -> None:
        parent.join()
        os._exit(1)

    threading.Thread(target=follow, daemon=True).start()
