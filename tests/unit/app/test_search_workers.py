"""Stopping a search: its processes end first, then what they had not begun is dropped."""

from __future__ import annotations

import subprocess
import sys
from concurrent.futures import Executor, Future
from contextlib import contextmanager

import pytest

from boomwright.base import BoomwrightError
from boomwright.base.files import no_files
from boomwright.plan import read_plan
from boomwright.session import search_workers
from boomwright.session.files import packaged_text
from boomwright.session.search import search_beam, search_spacings
from boomwright.session.search_workers import end_processes, process_pool


class Noted(Future):
    """A piece of work that is never done, and notes when it is dropped."""

    def __init__(self, notes):
        super().__init__()
        self.notes = notes

    def cancel(self):
        self.notes.append("dropped")
        return super().cancel()


class Idle(Executor):
    """Takes work and does none."""

    def __init__(self, notes):
        self.notes = notes
        self.begun = False

    def submit(self, *_args, **_named):
        self.begun = True
        return Noted(self.notes)


@pytest.mark.parametrize("search", ["compare", "improve"])
def test_processes_end_before_anything_is_dropped(monkeypatch, search):
    # A pool whose processes end while some of its work is dropped may hang for ever
    # (CPython 3.11), and with it the program.
    notes = []
    pool = Idle(notes)

    @contextmanager
    def idle(_workers):
        yield pool

    def until_begun(_told):
        return not pool.begun

    monkeypatch.setattr(search_workers, "process_pool", idle)
    monkeypatch.setattr(search_workers, "end_processes", lambda _pool: notes.append("ended"))
    text = packaged_text("demo.toml")
    if search == "compare":
        search_spacings(read_plan(text), files=no_files, workers=2, on_progress=until_begun)
    else:
        with pytest.raises(BoomwrightError):
            search_beam(
                read_plan(text), text=text, files=no_files, workers=2, on_progress=until_begun
            )
    assert notes[0] == "ended"
    assert "dropped" in notes


def test_ended_workers_are_gone_when_it_is_said():
    with process_pool(2) as pool:
        pool.submit(int).result(60.0)
        processes = list(pool._processes.values())
        end_processes(pool)
        assert not any(process.is_alive() for process in processes)


def test_a_worker_begins_without_what_it_does_not_need():
    """It would have every search wait: what reads plans, and all that stands above it."""
    line = "import boomwright.session.worker_process, sys; print(*sys.modules)"
    said = subprocess.check_output([sys.executable, "-c", line], text=True).split()
    assert "boomwright.session.worker_process" in said
    assert not {"boomwright.plan", "boomwright.study", "scipy", "numpy"} & set(said)
