"""Processes of this machine or machines of a cluster that search, ended as soon as it stops.

A cluster is a dask scheduler with its workers. Such a scheduler runs whatever is sent to it by
anybody who reaches it: it belongs on a network whose every machine is trusted, or behind TLS with
certificates that only its users hold (dask's own settings name them).
"""

from __future__ import annotations

import multiprocessing
import os
import re
import threading
import time
from collections.abc import Callable, Iterator
from concurrent.futures import BrokenExecutor, CancelledError, Executor, Future, ProcessPoolExecutor
from contextlib import contextmanager, suppress
from functools import partial
from importlib.metadata import version
from typing import Any

from boomwright.base.records import dataclass
from boomwright.session.worker_process import begin_worker
from boomwright.study.requests import RequestError

#: more processes bring nothing for a dozen starts a round
_MOST_WORKERS = 16
#: how long the scheduler of a cluster may take to answer [s]
_ANSWER_SECONDS = 5.0
#: how long a search waits without any worker, and how often it looks [s]
_PATIENCE_SECONDS, _LOOK_SECONDS = 60.0, 2.0
_ADDRESS = re.compile(r"(?:tcp|tls)://[^/\s]+:\d{1,5}")
_GO_ON = "go on with --resume when it is back, or leave out --cluster"


def usual_workers() -> int:
    """Count the processes a search uses when nothing else is asked."""
    return min(os.cpu_count() or 1, _MOST_WORKERS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Workers:
    """Who climbs for a search."""

    executor: Executor | None  #: takes the climbs; None to climb in this process
    end: Callable[[], None]  #: ends them at once, whatever they are at
    watch: Callable[[], None]  #: asked now and then; raises RequestError when all are lost


def _nothing() -> None:
    """Do nothing."""


#: this process alone
IN_PROCESS = Workers(executor=None, end=_nothing, watch=_nothing)


@contextmanager
def search_workers(workers: int | None, *, cluster: str = "") -> Iterator[Workers]:
    """Hold workers while a search runs; leaving ends them, and takes back what still waits.

    Args:
        workers: processes; None for one a core, one means to climb in this process
        cluster: address of a dask scheduler, ``tcp://192.0.2.7:8786`` or ``tls://...``, whose
            workers climb
            in place of processes; empty for none

    Raises:
        RequestError: when a process ended by itself, or the cluster does not answer, holds
            another version
            of this program, or is lost on the way
    """
    if cluster:
        with _connected(cluster) as client:
            yield from _cluster_workers(client, cluster)
        return
    with process_pool(usual_workers() if workers is None else workers) as pool:
        # The check of the best so far shall not share the machine with climbs nobody wants.
        yield Workers(executor=pool, end=partial(end_processes, pool), watch=_nothing)


@contextmanager
def process_pool(workers: int) -> Iterator[Executor | None]:
    """Hold worker processes; leaving ends them, whatever they are at.

    Args:
        workers: number of processes; one means this process

    Yields:
        the workers, None for this process

    Raises:
        RequestError: when a worker ended by itself
    """
    if workers <= 1:
        yield None
        return
    # Fresh processes: a copy of one that runs threads, as the page does, may hang.
    pool = ProcessPoolExecutor(
        max_workers=workers,
        mp_context=multiprocessing.get_context("spawn"),
        initializer=begin_worker,
    )
    try:
        yield pool
    except BrokenExecutor:
        raise RequestError(
            "a worker process of the search ended by itself, for want of memory perhaps",
            remedy="go on with the search, on fewer processes",
        ) from None
    finally:
        end_processes(pool)


def end_processes(executor: Executor | None) -> None:
    """End worker processes at once, whatever they are at."""
    if not isinstance(executor, ProcessPoolExecutor):
        return
    # A climb takes seconds; whoever cancels does not wait for it. Python 3.14 has a call for
    # this, before it the pool's own list of processes is the only way.
    for process in list((executor._processes or {}).values()):
        process.terminate()
    # Waited for, and nothing cancelled before: the pool stumbles over what was cancelled when it
    # cleans up after its processes, and then the program could not end.
    executor.shutdown(wait=True)


@contextmanager
def _connected(address: str) -> Iterator[Any]:
    """Hold a connection to a scheduler."""
    if _ADDRESS.fullmatch(address) is None:
        raise RequestError(
            f"this is no address of a scheduler ({address})",
            remedy="write it as the scheduler prints it, such as tcp://192.0.2.7:8786",
        )
    try:
        import dask

        # What goes wrong is said once, in our words.
        quiet = {"distributed": "critical", "distributed.client": "critical"}
        dask.config.set({"logging": quiet})
        from dask.distributed import Client, Security
    except ImportError:
        raise RequestError(
            "a search on a cluster needs the package distributed",
            remedy="install it with pip install 'boomwright[cluster]', or leave out --cluster",
        ) from None
    encrypted = address.startswith("tls://")
    security: Any = Security(require_encryption=encrypted)  # type: ignore[no-untyped-call]
    if encrypted and not (security.tls_ca_file and security.tls_client_cert):
        raise RequestError(
            f"no certificates are set for {address}",
            remedy=(
                "name them in dask's settings, "
                "distributed.comm.tls.ca-file, client.cert and client.key"
            ),
        )

    def connect() -> Any:
        return Client(  # type: ignore[no-untyped-call]
            address, timeout=_ANSWER_SECONDS, security=security, set_as_default=False
        )

    try:
        client = _within(_ANSWER_SECONDS + 1.0, connect)
    except OSError as error:
        raise RequestError(
            f"no scheduler answers at {address} ({_first_line(error)})",
            remedy=(
                "start one with "
                "dask scheduler, and check the address and, for tls://, the certificates"
            ),
        ) from None
    try:
        yield client
    finally:
        with suppress(Exception):
            client.close(timeout=_LOOK_SECONDS)


def _within(seconds: float, call: Callable[[], Any]) -> Any:
    """Call something that may wait for ever: dask does, for a server that takes and says nothing.

    Raises:
        TimeoutError: when it has not come back in time
    """
    answer: Future[Any] = Future()

    def run() -> None:
        try:
            answer.set_result(call())
        except BaseException as error:
            answer.set_exception(error)

    threading.Thread(target=run, daemon=True).start()
    return answer.result(seconds)


def _cluster_workers(client: Any, address: str) -> Iterator[Workers]:
    """Give the workers of a cluster.

    A start whose worker is lost is climbed again on another one, from the same numbers, so the
    result stays the same.
    """
    _check_workers(client, address)
    executor: Executor = client.get_executor(pure=False)
    end = partial(executor.shutdown, wait=False)
    try:
        yield Workers(executor=executor, end=end, watch=_Watch(client).look)
    except Exception as error:
        if not isinstance(error, CancelledError) and not _of_dask(error):
            raise
        if type(error).__name__ == "KilledWorker":
            raise RequestError(
                "one part of the work ended several workers one after the other, for want of "
                "memory perhaps",
                remedy="give the workers more, or leave out --cluster",
            ) from None
        raise RequestError(f"the scheduler at {address} is lost", remedy=_GO_ON) from None
    finally:
        # A scheduler that is gone has nothing left to take back.
        with suppress(Exception):
            end()


def _of_dask(error: Exception) -> bool:
    return type(error).__module__.split(".")[0] == "distributed"


def _first_line(error: Exception) -> str:
    return (str(error).strip() or type(error).__name__).splitlines()[0][:120]


def own_version() -> str:
    """Version of the program where this runs."""
    return version("boomwright")


def _check_workers(client: Any, address: str) -> None:
    """See that there are workers, and that they hold this version."""
    own = own_version()
    try:
        found = client.run(own_version)
    except Exception as error:
        raise RequestError(
            f"a worker of {address} cannot run this program ({_first_line(error)})",
            remedy=f"install boomwright {own} where the workers run",
        ) from None
    if not found:
        raise RequestError(
            f"the scheduler at {address} has no workers",
            remedy=f"start some with dask worker --nthreads 1 {address}",
        )
    other = {version for version in found.values() if version != own}
    if other:
        raise RequestError(
            f"workers of {address} hold boomwright {', '.join(sorted(other))}, this is {own}",
            remedy="install the same version everywhere",
        )


class _Watch:
    """Notices when a cluster has had no worker for long."""

    def __init__(self, client: Any) -> None:
        self._client = client
        self._looked = self._seen = time.monotonic()

    def look(self) -> None:
        """Look now and then.

        Raises:
            RequestError: when no worker has been there for a minute
        """
        now = time.monotonic()
        if now - self._looked < _LOOK_SECONDS:
            return
        self._looked = now
        if self._client.scheduler_info()["workers"]:
            self._seen = now
        elif now - self._seen > _PATIENCE_SECONDS:
            raise RequestError("every worker of the cluster is lost", remedy=_GO_ON)
