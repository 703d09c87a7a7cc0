"""Workers of a dask cluster that climb for a search, over plain connections or TLS.

A scheduler runs whatever is sent to it by anybody who reaches it: it belongs on a network whose
every machine is trusted, or behind TLS with certificates that only its users hold.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from concurrent.futures import CancelledError, Executor
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from boomwright.study.starting import RequestError

#: how long the scheduler may take to answer [s]
_ANSWER_SECONDS = 10.0
#: how long a search waits without any worker, and how often it looks [s]
_PATIENCE_SECONDS, _LOOK_SECONDS = 60.0, 2.0
_GO_ON = "go on with --resume when it is back, or leave out --cluster"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cluster:
    """Where a cluster's scheduler is, and how to reach it."""

    address: str  #: as dask writes it: ``tcp://192.0.2.7:8786`` or ``tls://...``
    authority: Path | None = None  #: certificates of those that the scheduler is believed by, PEM
    certificate: Path | None = None  #: certificate that this program shows, PEM
    key: Path | None = None  #: key of that certificate; None when it stands in the same file


def worker_version() -> str:
    """Version of the package where this runs."""
    from importlib.metadata import version

    return version("boomwright")


@contextmanager
def cluster_climbers(cluster: Cluster) -> Iterator[Executor]:
    """Hold the workers of a cluster while a search runs; leaving takes back what still waits.

    A start whose worker is lost is climbed again on another one, from the same numbers, so the
    result stays the same.

    Raises
    ------
    RequestError
        when dask is not installed, no scheduler or worker answers, a worker holds another version
        of this program, or the cluster is lost on the way
    """
    with _connected(cluster) as client:
        _check_workers(client, cluster)
        executor: Executor = client.get_executor(pure=False)
        try:
            yield executor
        except (CancelledError, OSError) as error:
            if not isinstance(error, CancelledError) and not _of_connection(error):
                raise
            message = f"the scheduler at {cluster.address} is lost -> {_GO_ON}"
            raise RequestError(message) from None
        except Exception as error:
            if type(error).__name__ != "KilledWorker":
                raise
            message = (
                "one start of the search ended several workers one after the other, for want of "
                "memory perhaps -> give the workers more, or leave out --cluster"
            )
            raise RequestError(message) from None
        finally:
            # A scheduler that is gone has nothing left to take back.
            with suppress(Exception):
                executor.shutdown(wait=False)


def _of_connection(error: OSError) -> bool:
    return type(error).__module__.split(".")[0] == "distributed"


@contextmanager
def _connected(cluster: Cluster) -> Iterator[Any]:
    try:
        from dask.distributed import Client, Security
    except ImportError:
        message = (
            "a search on a cluster needs the package distributed -> install it with "
            "pip install 'boomwright[cluster]', or leave out --cluster"
        )
        raise RequestError(message) from None
    encrypted = cluster.address.startswith("tls://")
    files = {
        "tls_ca_file": cluster.authority,
        "tls_client_cert": cluster.certificate,
        "tls_client_key": cluster.key,
    }
    given = {name: str(path) for name, path in files.items() if path is not None}
    if given and not encrypted:
        message = (
            f"certificates are given for an open connection ({cluster.address}) -> write the "
            "address as tls://..., or leave them out"
        )
        raise RequestError(message)
    try:
        # Without files of its own the settings of dask on this machine stand.
        security: Any = Security(require_encryption=encrypted, **given)  # type: ignore[no-untyped-call]
        client: Any = Client(  # type: ignore[no-untyped-call]
            cluster.address, timeout=_ANSWER_SECONDS, security=security, set_as_default=False
        )
    except (OSError, ValueError, TypeError) as error:
        message = (
            f"no scheduler answers at {cluster.address} ({_first_line(error)}) -> start one with "
            "dask scheduler, and check address and certificates"
        )
        raise RequestError(message) from None
    try:
        yield client
    finally:
        with suppress(Exception):
            client.close(timeout=_LOOK_SECONDS)


def _first_line(error: Exception) -> str:
    return (str(error).strip() or type(error).__name__).splitlines()[0][:120]


def _check_workers(client: Any, cluster: Cluster) -> None:
    """See that there are workers, and that they hold this version."""
    own = worker_version()
    try:
        found = client.run(worker_version)
    except Exception as error:
        message = (
            f"a worker of {cluster.address} cannot run this program ({_first_line(error)}) -> "
            f"install boomwright {own} where the workers run"
        )
        raise RequestError(message) from None
    if not found:
        message = (
            f"the scheduler at {cluster.address} has no workers -> start some with "
            f"dask worker --nthreads 1 {cluster.address}"
        )
        raise RequestError(message)
    other = {version for version in found.values() if version != own}
    if other:
        message = (
            f"workers of {cluster.address} hold boomwright {', '.join(sorted(other))}, this is "
            f"{own} -> install the same version everywhere"
        )
        raise RequestError(message)


class ClusterWatch:
    """Notices when a cluster has had no worker for long.

    Parameters
    ----------
    executor
        the cluster's executor
    """

    def __init__(self, executor: Executor) -> None:
        self._client: Any = executor._client  # type: ignore[attr-defined]
        self._looked = self._seen = time.monotonic()

    def look(self) -> None:
        """Look now and then.

        Raises
        ------
        RequestError
            when no worker has been there for a minute
        """
        now = time.monotonic()
        if now - self._looked < _LOOK_SECONDS:
            return
        self._looked = now
        if self._client.scheduler_info()["workers"]:
            self._seen = now
        elif now - self._seen > _PATIENCE_SECONDS:
            message = f"every worker of the cluster is lost -> {_GO_ON}"
            raise RequestError(message)
