"""``--cluster`` of improve and advise: a scheduler with two workers, killed on the way."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import pytest
from pypdf import PdfReader
from test_cli_advise import PLACE
from test_cli_improve import PLAN, WISH, begun, wait_for_starts

from boomwright.base.files import no_files
from boomwright.plan import read_plan
from boomwright.session import search_workers
from boomwright.session.search import search_beam
from boomwright.study.requests import RequestError

pytest.importorskip("distributed")
#: what waits for another process gives up after this [s]
PATIENCE = 120.0


@dataclass(kw_only=True)
class Cluster:
    """A scheduler and its workers, each a process of its own."""

    address: str
    scheduler: subprocess.Popen[bytes]
    workers: list[subprocess.Popen[bytes]]


def started(module: str, *words: str, folder: Path, **env: str) -> subprocess.Popen[bytes]:
    with (folder / f"{module}.log").open("ab") as log:
        return subprocess.Popen(
            [sys.executable, "-m", f"distributed.cli.{module}", "--no-dashboard", *words],
            stdout=log, stderr=log, cwd=folder,
            env={**os.environ, "OPENBLAS_NUM_THREADS": "1", **env},
        )  # fmt: skip


def awaited(folder: Path, pattern: str, *, module: str, count: int = 1) -> list[str]:
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        path = folder / f"{module}.log"
        found = re.findall(pattern, path.read_text() if path.exists() else "")
        if len(found) >= count:
            return found
        time.sleep(0.05)
    return pytest.fail(f"{module}: {path.read_text()}")


@contextmanager
def running(folder: Path, *, workers: int, protocol: str = "tcp", **env: str) -> Iterator[Cluster]:
    begun_here = [
        started(
            "dask_scheduler", "--protocol", protocol, "--host", "127.0.0.1", "--port", "0",
            folder=folder, **env,
        )
    ]  # fmt: skip
    try:
        (address, *_) = awaited(
            folder, rf"Scheduler at:\s+({protocol}:\S+)", module="dask_scheduler"
        )
        hands = [
            started("dask_worker", address, "--nthreads", "1", "--no-nanny", folder=folder, **env)
            for _ in range(workers)
        ]
        begun_here += hands
        if workers:
            awaited(folder, "Registered to:", module="dask_worker", count=workers)
        yield Cluster(address=address, scheduler=begun_here[0], workers=hands)
    finally:
        for process in begun_here:
            process.kill()
            process.wait()


@pytest.fixture(scope="module")
def cluster(tmp_path_factory):
    with running(tmp_path_factory.mktemp("cluster"), workers=2) as made:
        yield made


@pytest.fixture
def plan(tmp_path):
    path = tmp_path / "two.toml"
    path.write_text(PLAN + WISH, encoding="utf-8")
    return path


def searched(process) -> dict:
    out, err = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, err
    assert "Traceback" not in err
    return json.loads(out)


@pytest.fixture(scope="module")
def by_processes(tmp_path_factory):
    path = tmp_path_factory.mktemp("pool") / "two.toml"
    path.write_text(PLAN + WISH, encoding="utf-8")
    return searched(begun(path, "--workers", "2", "--seed", "3", "--json"))


def test_progress_rises_and_a_stopped_search_keeps_its_best(cluster, plan):
    seen = []

    def until_three(told):
        seen.append(told.done)
        return told.done < 3

    text = plan.read_text()
    found = search_beam(
        read_plan(text),
        text=text,
        files=no_files,
        seed=3,
        cluster=cluster.address,
        on_progress=until_three,
    )
    assert seen == sorted(seen)
    assert seen[-1] >= 3
    assert not found.finished
    assert found.best.state.best is not None
    assert seen.count(seen[-1]) <= 2, "it went on after it was stopped"


def test_ctrl_c_ends_it_and_it_goes_on_to_the_same_beam(cluster, plan, by_processes):
    words = ("--cluster", cluster.address, "--seed", "3", "--json")
    process = begun(plan, *words)
    wait_for_starts(plan, process, least=2)
    process.send_signal(signal.SIGINT)
    assert not searched(process)["finished"]
    resumed = searched(begun(plan, *words, "--resume"))
    assert resumed["finished"]
    assert resumed["after"]["elements"] == by_processes["after"]["elements"]


def test_a_killed_worker_loses_no_result(cluster, plan, by_processes):
    process = begun(plan, "--cluster", cluster.address, "--seed", "3", "--json")
    wait_for_starts(plan, process, least=1)
    lost = cluster.workers.pop()
    lost.kill()
    lost.wait()
    assert process.poll() is None, "it was over before the worker was killed"
    found = searched(process)
    assert found["finished"]
    assert found["chosen"] == by_processes["chosen"]
    told = ("elements", "kept", "starts", "agreeing")
    assert [[one[name] for name in told] for one in found["searches"]] == [
        [one[name] for name in told] for one in by_processes["searches"]
    ]
    assert found["after"]["elements"] == by_processes["after"]["elements"]


@pytest.fixture
def refused(shell, plan):
    """Give what the command says against a scheduler."""

    def ask(address: str, *more: str) -> str:
        ran = shell("improve", plan, "--cluster", address, *more)
        assert ran.status == 2, ran.err
        return ran.err

    return ask


@pytest.mark.parametrize("kind", ["closed", "silent"])
def test_no_scheduler_there_is_said(refused, monkeypatch, kind):
    monkeypatch.setattr(search_workers, "_ANSWER_SECONDS", 0.5)
    with socket.create_server(("127.0.0.1", 0)) as listening:
        address = f"tcp://127.0.0.1:{listening.getsockname()[1]}"
        if kind == "closed":
            listening.close()
        err = refused(address)
    assert f"no scheduler answers at {address}" in err
    assert "->" in err


def test_an_address_that_is_none_is_said(refused):
    assert "this is no address of a scheduler (somewhere) -> write it" in refused("somewhere")


def test_a_scheduler_without_workers_is_said(refused, tmp_path):
    with running(tmp_path, workers=0) as bare:
        assert "has no workers -> start some" in refused(bare.address)


def test_workers_of_another_version_are_refused(cluster, plan, monkeypatch):
    monkeypatch.setattr(search_workers, "version", lambda _name: "0.0.1")
    text = plan.read_text()
    with pytest.raises(RequestError, match=r"this is 0\.0\.1 -> install the same version"):
        search_beam(read_plan(text), text=text, files=no_files, cluster=cluster.address)


@pytest.mark.skipif(shutil.which("openssl") is None, reason="certificates are made by openssl")
def test_a_search_behind_tls(refused, plan, tmp_path, monkeypatch):
    made = (
        "req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=cluster -keyout key.pem -out cert.pem"
    )
    subprocess.run(["openssl", *made.split()], cwd=tmp_path, check=True, capture_output=True)
    env = {"DASK_DISTRIBUTED__COMM__TLS__CA_FILE": str(tmp_path / "cert.pem")}
    for role in ("SCHEDULER", "WORKER", "CLIENT"):
        env[f"DASK_DISTRIBUTED__COMM__TLS__{role}__CERT"] = str(tmp_path / "cert.pem")
        env[f"DASK_DISTRIBUTED__COMM__TLS__{role}__KEY"] = str(tmp_path / "key.pem")
    with running(tmp_path, workers=1, protocol="tls", **env) as behind:
        assert "no certificates are set for tls://" in refused(behind.address)
        for name, value in env.items():
            monkeypatch.setenv(name, value)
        words = ("--cluster", behind.address, "--starts", "2", "--json")
        assert searched(begun(plan, *words))["finished"]


def test_processes_and_a_cluster_together_make_no_sense(refused):
    said = refused("tcp://127.0.0.1:1", "--workers", "2")
    assert "--workers and --cluster are both given" in said


slow = pytest.mark.skipif("BOOMWRIGHT_PLANS" not in os.environ, reason="takes half a minute")


def advised(*words: object) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-m", "boomwright", "advise", *map(str, words)],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        env={**os.environ, "OPENBLAS_NUM_THREADS": "1"},
    )  # fmt: skip


@slow
def test_the_places_of_a_club_are_advised_on_a_cluster(cluster, tmp_path):
    """So low that a vertical alone is left: the proposal is drawn about that, too."""
    for name, highest in (("dike", "4.6 m"), ("mill", "4.5 m")):
        text = PLACE.replace('"5 m"', f'"{highest}"').replace("Terraced house", name.title())
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    places, folder = (tmp_path / "dike.toml", tmp_path / "mill.toml"), tmp_path / "folder"
    process = advised(*places, "--out", folder, "--cluster", cluster.address)
    _, err = process.communicate(timeout=PATIENCE)
    assert process.returncode == 0, err
    for name in ("dike", "mill"):
        assert name.title() in PdfReader(folder / f"{name}-proposal.pdf").pages[0].extract_text()
        plan = read_plan((folder / f"{name}-station.toml").read_text(encoding="utf-8"))
        assert plan.beams[0].upright


def on_the_way(process: subprocess.Popen[str], place: Path) -> None:
    """Wait until a station of a place is kept."""
    kept, deadline = place.with_name(f"{place.stem}.advice.json"), time.monotonic() + PATIENCE
    while not kept.exists():
        assert process.poll() is None, process.communicate()
        assert time.monotonic() < deadline
        time.sleep(0.02)


@slow
@pytest.mark.parametrize("lost", ["worker", "scheduler"])
def test_what_is_lost_of_a_cluster_is_done_again_or_said(tmp_path, lost):
    place, folder = tmp_path / "place.toml", tmp_path / "folder"
    place.write_text(PLACE, encoding="utf-8")
    with running(tmp_path, workers=2) as made:
        process = advised(place, "--out", folder, "--cluster", made.address)
        on_the_way(process, place)
        gone = made.scheduler if lost == "scheduler" else made.workers[0]
        gone.kill()
        _, err = process.communicate(timeout=PATIENCE)
        if lost == "worker":
            assert process.returncode == 0, err
            assert (folder / "place-proposal.pdf").exists()
            return
        assert process.returncode == 2, err
        assert f"the scheduler at {made.address} is lost -> go on with --resume" in err
        assert "ERROR" not in err
        again = advised(place, "--out", folder, "--cluster", made.address)
        _, err = again.communicate(timeout=PATIENCE)
        assert again.returncode == 2, err
        assert f"no scheduler answers at {made.address}" in err
