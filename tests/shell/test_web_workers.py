"""One blocked request holds no other: threads of the page are bounded in number and time."""

from __future__ import annotations

import asyncio
import json
import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from boomwright.base import BoomwrightError
from boomwright.web.guard import cookie_name
from boomwright.web.sheets import SHEETS
from boomwright.web.workers import BusyError, Workers
from fakes.client import client_of, live
from fakes.desk import fake_desk
from fakes.special_files import within

TESTS = Path(__file__).parents[1]


def test_work_is_done_and_what_it_raises_comes_back():
    async def go():
        workers = Workers(places=2, limit=10.0)
        assert await workers(divmod, 7, 3) == (2, 1)
        with pytest.raises(ZeroDivisionError):
            await workers(divmod, 1, 0)

    asyncio.run(go())


def test_more_than_the_places_wait_for_their_turn():
    running, most = [], []

    def work():
        running.append(1)
        most.append(len(running))
        threading.Event().wait(0.02)
        running.pop()

    async def go():
        workers = Workers(places=3, limit=10.0)
        await asyncio.gather(*(workers(work) for _ in range(12)))

    asyncio.run(go())
    assert len(most) == 12
    assert max(most) <= 3


def test_stuck_work_is_left_and_its_place_is_free_again():
    stuck = threading.Event()

    async def go():
        workers = Workers(places=1, limit=0.05)
        for _ in range(3):
            with pytest.raises(BusyError, match="-> try again"):
                await workers(stuck.wait)
        assert await workers(int) == 0

    with within(20.0):
        asyncio.run(go())
    stuck.set()


def test_too_many_stuck_threads_end_in_a_refusal_not_in_more_threads():
    stuck = threading.Event()
    before = threading.active_count()

    async def go():
        workers = Workers(places=100, limit=0.05)
        for _ in range(3):
            await asyncio.gather(*(workers(stuck.wait) for _ in range(40)), return_exceptions=True)
        with pytest.raises(BoomwrightError, match="Ctrl-C"):
            await workers(int)
        return threading.active_count() - before

    with within(20.0):
        assert asyncio.run(go()) <= 40
    stuck.set()


def test_work_nobody_waits_for_keeps_its_place_until_it_ends():
    stuck = threading.Event()

    async def go():
        workers = Workers(places=1, limit=0.2)
        given_up = asyncio.ensure_future(workers(stuck.wait))
        await asyncio.sleep(0.02)
        given_up.cancel()
        with pytest.raises(BusyError):
            await workers(int)
        stuck.set()
        assert await workers(int) == 0

    with within(20.0):
        asyncio.run(go())


def test_a_blocked_sheet_holds_up_no_other():
    desk = fake_desk()
    stuck, asked = threading.Event(), threading.Semaphore(0)

    def hang(*_args, **_named):
        asked.release()
        stuck.wait()

    for name in ("reach", "work", "feed", "tuning"):
        setattr(desk.session, name, hang)
    made = client_of(desk, raise_server_exceptions=False)
    asking = []
    with within(60.0), made as client:
        for number in range(100):
            sheet = ("reach", "cost", "feed", "tuning")[number % 4]
            asking.append(threading.Thread(target=client.get, args=(f"/{sheet}.json",)))
            asking[-1].start()
        assert asked.acquire(timeout=20.0)
        while asked.acquire(timeout=1.0):
            # As many hang as may.
            pass
        for sheet in SHEETS:
            assert client.get(f"/{sheet.slug}").status_code == 200
        with live(client) as socket:
            edit = {"kind": "raise", "beam": 0, "height": 20.0}
            socket.send_text(json.dumps({"seq": 7, "edit": edit}))
            while (said := socket.receive_json()).get("seq") != 7:
                pass
            assert said["height"]["text"] == "20.000 m"
        stuck.set()
        for each in asking:
            each.join()


SERVE = """
import sys, threading
sys.path.insert(0, {tests!r})
from fakes.desk import fake_desk
from boomwright.web import create_app, serve
from boomwright.web import workers
desk = fake_desk()
real = desk.session.save
def save(text, **given):
    if {hang!r} == "disk":
        threading.Event().wait()
    done = real(text, **given)
    print("written", "21 m" in text, flush=True)
    return done
desk.session.save = save
desk.session.reach = lambda *a, **n: threading.Event().wait()
app = create_app(desk, key="k")
try:
    serve(app, on_ready=lambda url: print(url, flush=True))
except KeyboardInterrupt:
    pass
print("unsaved:", app.state.unsaved(), flush=True)
"""


@pytest.mark.skipif(os.name != "posix", reason="signals as on POSIX")
@pytest.mark.parametrize("hang", ["reach", "disk"])
def test_ctrl_c_ends_the_server_with_the_edits_written_whatever_hangs(tmp_path, hang):
    from websockets.sync.client import connect

    script = SERVE.format(tests=str(TESTS), hang=hang)
    if hang == "disk":
        script = script.replace("desk = fake_desk()", "workers.DISK = 1.0; desk = fake_desk()")
    with subprocess.Popen(
        [sys.executable, "-c", script],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as server:
        try:
            home = server.stdout.readline().strip().partition("/?")[0]
            headers = {"cookie": f"{cookie_name('k')}=k"}
            address = home.replace("http", "ws")
            with connect(
                f"{address}/reach/live", origin=home, additional_headers=headers, close_timeout=1
            ) as window:
                edit = {"kind": "raise", "beam": 0, "height": 21.0}
                window.send(json.dumps({"seq": 5, "edit": edit}))
                while json.loads(window.recv(timeout=30.0)).get("seq") != 5:
                    pass
                server.send_signal(signal.SIGINT)
                server.send_signal(signal.SIGINT)
                out, errors = server.communicate(timeout=60.0)
        finally:
            server.kill()
    assert "Traceback" not in errors
    if hang == "reach":
        assert "written True" in out
        assert out.endswith("unsaved: \n")
    else:
        assert "unsaved: test.toml: not saved: the disk does not answer" in out
