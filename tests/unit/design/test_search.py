"""The search: the same answer however it is run, broken off or resumed."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import pytest

from boomwright.design.minimax import climb
from boomwright.design.search import search
from boomwright.design.search_state import SearchState, state_from
from boomwright.design.space import WishError
from boomwright.design.starts import drawn_starts
from boomwright.design.stopping import StoppedError

STARTS = 4


@pytest.fixture(scope="module")
def whole(setting):
    return search(problem=setting.problem, ground=setting.ground, seed=3, starts=STARTS)


def test_same_seed_same_answer(setting, whole):
    again = search(problem=setting.problem, ground=setting.ground, seed=3, starts=STARTS)
    assert again == whole
    assert whole.finished


def test_threads_give_the_same(setting, whole):
    with ThreadPoolExecutor(2) as pool:
        found = search(
            problem=setting.problem, ground=setting.ground, seed=3, starts=STARTS, executor=pool
        )
    assert found == whole


@pytest.mark.slow
def test_processes_give_the_same(setting, whole):
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        found = search(
            problem=setting.problem, ground=setting.ground, seed=3, starts=STARTS, executor=pool
        )
    assert [one.number for one in found.climbed] == [one.number for one in whole.climbed]
    assert found.best.score == pytest.approx(whole.best.score, abs=1e-6)


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore")
def test_a_cluster_gives_the_same(setting, whole):
    distributed = pytest.importorskip("distributed")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None, processes=True
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        assert len(client.scheduler_info()["workers"]) == 2
        found = search(
            problem=setting.problem,
            ground=setting.ground,
            seed=3,
            starts=STARTS,
            executor=client.get_executor(),
        )
    assert found.best.score == pytest.approx(whole.best.score, abs=1e-6)
    assert len(found.climbed) == len(whole.climbed)


def test_progress_is_told_and_rises(setting):
    seen = []
    search(
        problem=setting.problem,
        ground=setting.ground,
        seed=3,
        starts=STARTS,
        on_progress=lambda progress: seen.append(progress) or True,
    )
    done = [progress.done for progress in seen]
    assert done == sorted(done)
    assert all(progress.done <= progress.total for progress in seen)
    assert seen[-1].best is not None
    fresh = sum(progress.new_state for progress in seen)
    assert fresh == len(seen[-1].state.climbed)


def test_stopping_keeps_the_best_so_far_and_asks_no_more(setting):
    asked = []

    def on_progress(progress):
        if progress.done >= 2:
            asked.append(progress.done)
            return False
        return True

    found = search(
        problem=setting.problem,
        ground=setting.ground,
        seed=3,
        starts=STARTS,
        on_progress=on_progress,
    )
    assert asked == [2]
    assert len(found.climbed) == 2
    assert found.best is not None
    assert not found.finished


def test_stopping_workers_asks_no_more(setting):
    asked = []

    def on_progress(progress):
        asked.append(progress.done)
        return False

    with ThreadPoolExecutor(1) as pool:
        found = search(
            problem=setting.problem,
            ground=setting.ground,
            seed=3,
            starts=STARTS,
            executor=pool,
            on_progress=on_progress,
        )
    assert len(asked) == 1
    assert not found.finished


def test_drawing_thousands_of_starts_asks_between_batches(setting):
    asked = []

    def drawn(stop_at):
        asked.clear()
        return drawn_starts(
            problem=setting.problem,
            resonances=setting.ground.resonances,
            boom=0.3,
            wanted=100,
            generator=np.random.default_rng(0),
            go_on=lambda: asked.append(len(asked)) or len(asked) < stop_at,
        )

    assert len(drawn(10_000)) == 100
    # 3000 designs are screened; none of the pieces between two questions holds more than 32.
    whole = len(asked)
    assert whole >= 3000 / 32
    for stop_at in (1, 7, whole):
        with pytest.raises(StoppedError):
            drawn(stop_at)
        assert len(asked) == stop_at


def test_a_search_stopped_while_drawing_climbs_nothing(setting):
    asked = []
    found = search(
        problem=setting.problem,
        ground=setting.ground,
        seed=3,
        starts=2000,
        on_progress=lambda progress: asked.append(progress) or len(asked) < 5,
    )
    assert len(asked) == 5
    assert found.climbed == ()
    assert not found.finished


@pytest.mark.parametrize("done", [1, 3, 5])
def test_resuming_gives_what_was_missing(setting, whole, done):
    part = replace(whole, climbed=whole.climbed[:done], finished=False)
    read = state_from(json.loads(json.dumps(part.document())))
    assert read == part
    counted = []
    found = search(
        problem=setting.problem,
        ground=setting.ground,
        seed=3,
        starts=STARTS,
        state=read,
        on_progress=lambda progress: counted.append(progress.new_state) or True,
    )
    assert found == whole
    assert sum(counted) == len(whole.climbed) - done


KILLED = """
import json, sys
from pathlib import Path
sys.path.insert(0, {tests!r})
sys.path.insert(0, {here!r})
import numpy as np
from design_beams import three_elements
from boomwright.design.search import search
from boomwright.design.setting_up import set_up
from boomwright.design.targets import Targets
from boomwright.design.wish import Wish

targets = Targets(rear_weight=0.2, resistance=(10.0, np.inf))
setting = set_up(beam=three_elements(), wish=Wish(targets=targets, boom_limit=0.3), count=3)
path = Path(sys.argv[1])

def save(progress):
    if progress.new_state:
        fresh = path.with_suffix(".new")
        fresh.write_text(json.dumps(progress.state.document()))
        fresh.replace(path)
    return True

search(problem=setting.problem, ground=setting.ground, seed=3, starts=4, on_progress=save)
"""


def test_a_kill_loses_only_the_start_in_hand(setting, whole, tmp_path):
    here = Path(__file__).parent
    script = KILLED.format(tests=str(here.parents[1]), here=str(here))
    saved = tmp_path / "search.json"
    environment = {**os.environ, "OMP_NUM_THREADS": "1"}
    running = subprocess.Popen([sys.executable, "-c", script, str(saved)], env=environment)
    try:
        limit = time.monotonic() + 60.0
        while time.monotonic() < limit and running.poll() is None:
            if saved.exists() and len(json.loads(saved.read_text())["climbed"]) >= 2:
                break
            time.sleep(0.005)
    finally:
        running.send_signal(signal.SIGKILL)
        running.wait()
    state = state_from(json.loads(saved.read_text()))
    assert len(state.climbed) >= 2
    counted = []
    found = search(
        problem=setting.problem,
        ground=setting.ground,
        seed=3,
        starts=STARTS,
        state=state,
        on_progress=lambda progress: counted.append(progress.new_state) or True,
    )
    assert sum(counted) == len(whole.climbed) - len(state.climbed)
    assert found.best.score == pytest.approx(whole.best.score, abs=1e-6)


def test_a_state_of_another_search_is_refused(setting):
    with pytest.raises(WishError, match="seed 9"):
        search(
            problem=setting.problem,
            ground=setting.ground,
            seed=3,
            starts=STARTS,
            state=SearchState(seed=9, starts=STARTS),
        )


@pytest.mark.parametrize("damage", [{}, {"seed": 1, "starts": 2, "climbed": [[1]]}])
def test_a_damaged_state_is_refused(damage):
    with pytest.raises(WishError, match="cannot be read"):
        state_from(damage)


def test_climbing_never_ends_worse_than_it_starts(setting):
    generator = np.random.default_rng(0)
    space = setting.problem.space
    for _ in range(5):
        start = generator.uniform(space.lower, space.upper)
        one = climb(problem=setting.problem, start=start, iterations=1)
        more = climb(problem=setting.problem, start=start)
        assert more.score >= one.score - 1e-9
