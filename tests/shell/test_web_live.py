"""The socket: an edit is answered at once, the band follows, the latest wins, all is saved."""

from __future__ import annotations

import asyncio
import json
import threading
import time
from pathlib import Path
from types import SimpleNamespace
from urllib.parse import urlsplit

import pytest
from websockets.sync.client import connect

from boomwright.web import windows as windows_room
from boomwright.web.desk_plans import DeskPlans
from boomwright.web.edits import Act, Raise
from boomwright.web.guard import cookie_name
from boomwright.web.live import LiveWindow
from boomwright.web.sheets import SHEETS
from boomwright.web.start_window import StartWindow
from boomwright.web.stations import Stations
from boomwright.web.windows import Windows
from boomwright.web.workers import Crew
from boomwright.web.works import Works
from fakes.browser import served
from fakes.client import client_of, live
from fakes.desk import PLAN, fake_desk
from fakes.special_files import within


class Window:
    """One browser window's end of the socket."""

    def __init__(self, socket):
        self.socket = socket
        self.seq = 0
        self.passed = []

    def send(self, edit, gesture=0):
        self.seq += 1
        self.passed.clear()
        self.socket.send_text(json.dumps({"seq": self.seq, "gesture": gesture, "edit": edit}))
        return self.seq

    def next(self, kind, *, seq=0, limit=40):
        # Saving may overtake a slow answer: what was passed over then is heard now.
        if kind == "saving" and self.passed:
            return self.passed.pop(0)
        for _ in range(limit):
            message = json.loads(self.socket.receive_text())
            if message["kind"] == kind and message.get("seq", seq) >= seq:
                return message
            if message["kind"] == "saving":
                self.passed.append(message)
        pytest.fail(f"no {kind} for {seq}")

    def ask(self, edit, gesture=0):
        return self.next("quick", seq=self.send(edit, gesture))


@pytest.fixture
def desk():
    return fake_desk()


@pytest.fixture
def client(desk, monkeypatch):
    monkeypatch.setattr("boomwright.web.app.WATCH", 0.2)
    with client_of(desk) as made:
        yield made


def test_a_move_is_answered_in_two_stages_and_saved(client, desk):
    with live(client) as socket:
        window = Window(socket)
        first = window.next("quick")
        window.next("full")
        quick = window.ask({"kind": "move", "beam": 0, "element": 2, "position": 6.4}, gesture=1)
        assert quick["revision"] == 1
        assert quick["undo"] == "director moved"
        assert quick["saving"]["state"] == "changed"
        assert set(quick["figures"]) == {"azimuth"}
        assert quick["elements"][2]["at"]["text"] == "6.400 m"
        assert quick["numbers"][0]["value"] != first["numbers"][0]["value"]
        assert not quick["numbers"][2]["value"]
        full = window.next("full", seq=window.seq)
        assert full["revision"] == 1
        assert full["numbers"][2]["value"]
        assert {"elevation", "sweep", "currents", "lobes"} <= set(full["figures"])
        while (saving := window.next("saving", limit=80)["saving"])["state"] == "changed":
            pass
        assert saving["text"] == "saved 12:03:05"
    assert "6.4 m" in desk.session.file
    assert "# room for the clamp" in desk.session.file


def test_the_verdict_follows_once_the_plan_rests():
    station = next((Path(__file__).parents[2] / "examples" / "stations").glob("04*.toml"))
    desk = fake_desk(station.read_text(encoding="utf-8"))
    with client_of(desk) as client:
        nouns = [link["noun"] for link in client.get("/beam.json").json()["frame"]["sheets"]]
        with live(client) as socket:
            window = Window(socket)
            first = window.next("verdict")
            assert first["verdict"]["revision"] == 0
            assert first["verdict"]["word"] == "exceeded"
            assert "172 % of its limit" in first["verdict"]["exceeded"][0]["text"]
            mark = first["marks"][nouns.index("Structure")]
            assert (mark["state"], mark["tally"]) == ("exceeded", "3 exceeded")
            window.ask({"kind": "write", "place": "site.wind", "text": "25 m/s"})
            calm = window.next("verdict", seq=window.seq)
            assert calm["verdict"]["revision"] == 1
            assert len(calm["verdict"]["exceeded"]) < len(first["verdict"]["exceeded"])
            # Of the three only the soil is left: its loads are entered, whatever the wind.
            assert calm["marks"][nouns.index("Structure")]["tally"] == "1 exceeded"
            window.ask({"kind": "act", "action": "undo"})
            again = window.next("verdict", seq=window.seq)["verdict"]
            assert again | {"revision": 0} == first["verdict"]


def test_undo_and_redo(client):
    with live(client) as socket:
        window = Window(socket)
        window.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        back = window.ask({"kind": "act", "action": "undo"})
        assert (back["undo"], back["redo"]) == ("", "height of 20m changed")
        assert back["height"]["text"] == "16.000 m"
        assert window.ask({"kind": "act", "action": "redo"})["height"]["text"] == "20.000 m"


def test_a_bad_typed_value_is_answered_at_its_place(client, desk):
    with live(client) as socket:
        window = Window(socket)
        place = "beam[0].element[1].at"
        answer = window.ask({"kind": "write", "place": place, "text": "2.6"})
        refusal = answer["refusals"][0]
        assert refusal["place"] == place
        assert "unit" in refusal["faults"][0]["message"]
        assert refusal["faults"][0]["remedy"]
        answer = window.ask({"kind": "tune", "text": "quick"})
        assert answer["refusals"][0]["place"] == "frequency"
        assert desk.text == PLAN


def test_frequency_and_units_belong_to_the_window_not_the_plan(client, desk):
    with live(client) as one, live(client) as two:
        first, second = Window(one), Window(two)
        assert first.ask({"kind": "tune", "text": "14.05 MHz"})["frequency"]["value"] == 14.05e6
        assert first.ask({"kind": "show", "system": "us"})["system"] == "us"
        other = second.ask({"kind": "act", "action": "look"})
        assert other["system"] == "metric"
        assert other["frequency"]["value"] == 14.175e6
    assert desk.text == PLAN


def test_one_window_hears_of_the_others_edits(client):
    with live(client) as one, live(client) as two:
        first, second = Window(one), Window(two)
        second.next("full")
        first.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        assert second.next("quick")["height"]["text"] == "20.000 m"


def test_a_flood_of_one_drag_ends_at_its_last_place_with_little_work(client, desk):
    counted = []
    slow = desk.session.quick_look

    def quick_look(**given):
        counted.append(1)
        time.sleep(0.01)
        return slow(**given)

    desk.session.quick_look = quick_look
    with live(client) as socket:
        window = Window(socket)
        for i in range(200):
            window.send({"kind": "move", "beam": 0, "element": 2, "position": 5.0 + i / 100}, 1)
        last = window.next("quick", seq=200, limit=400)
        assert last["elements"][2]["at"]["text"] == "6.990 m"
        window.next("full", seq=200)
    assert len(counted) < 100
    assert desk.undo_label == "director moved"
    desk.apply(Act(action="undo"), gesture=0)
    assert desk.text == PLAN


def test_a_slow_band_does_not_hold_up_the_quick_answer_and_stale_bands_are_dropped(client, desk):
    let_go = threading.Event()
    real = desk.session.compute

    def compute(**given):
        let_go.wait(10.0)
        return real(**given)

    desk.session.compute = compute
    with live(client) as socket:
        window = Window(socket)
        window.next("quick")
        time.sleep(0.3)
        quick = window.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        assert quick["revision"] == 1
        let_go.set()
        assert window.next("full")["revision"] == 1


def test_a_band_that_a_hand_overtakes_is_broken_off(client, desk):
    begun, ended = [], []
    real = desk.session.compute

    def compute(**given):
        begun.append(1)
        # The first one would take ten seconds; as the solver, it asks before each solution.
        for _ in range(1000 if len(begun) == 1 else 1):
            desk.session.giving_way()
            time.sleep(0.01)
        ended.append(1)
        return real(**given)

    desk.session.compute = compute
    with live(client) as socket:
        window = Window(socket)
        window.next("quick")
        time.sleep(0.3)
        window.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        assert window.next("full")["revision"] == 1
    assert (len(begun), len(ended)) == (2, 1)


def test_odd_messages_are_refused_and_the_socket_lives_on(client):
    with live(client) as socket:
        window = Window(socket)
        socket.send_text("not json")
        assert "JSON" in window.next("refused")["message"]
        socket.send_text(json.dumps({"seq": 1, "edit": {"kind": "write", "place": "x"}}))
        window.next("refused")
        assert window.ask({"kind": "act", "action": "look"})


def test_bytes_are_refused_and_the_socket_lives_on(client):
    with live(client) as socket:
        window = Window(socket)
        socket.send_bytes(b"\x00\xff")
        assert "not bytes" in window.next("refused")["message"]
        assert window.ask({"kind": "act", "action": "look"})


def test_a_window_that_is_gone_is_told_nothing_more(desk):
    class Gone:
        """A socket whose browser has vanished while it was being written to."""

        sent = 0

        async def send_text(self, text):
            self.sent += 1
            raise RuntimeError('Cannot call "send" once a close message has been sent.')

    async def go():
        socket = Gone()
        windows, crew = Windows(), Crew()
        works = Works(windows)
        plans = DeskPlans(desk, library=None, crew=crew, windows=windows, works=works)
        window = LiveWindow(
            socket=socket, desk=desk, sheet=SHEETS[0], sheets=SHEETS, block=None,
            view=SimpleNamespace(system="metric"), windows=windows, plans=plans, crew=crew,
            works=works, autosave=None,
        )  # fmt: skip
        await window.tell_saving()
        await window.tell_saving()
        assert socket.sent == 1

    asyncio.run(go())


def test_a_start_window_asleep_is_given_up_and_holds_up_no_other(desk, monkeypatch):
    monkeypatch.setattr(windows_room, "TAKE", 0.05)

    class Asleep:
        """A socket whose browser takes nothing and says nothing."""

        code = 0

        async def send_text(self, text):
            await asyncio.sleep(60.0)

        async def receive(self):
            await asyncio.sleep(60.0)

        async def close(self, code):
            self.code = code

    async def go():
        socket = Asleep()
        windows, crew = Windows(), Crew()
        works = Works(windows)
        plans = DeskPlans(desk, library=None, crew=crew, windows=windows, works=works)
        window = StartWindow(
            socket=socket, plans=plans,
            stations=Stations(plans, crew=crew, windows=windows, works=works),
            stations_html=lambda system, narrow: "", works=works, windows=windows,
            system="metric", narrow=False,
        )  # fmt: skip
        await window.run()
        assert socket.code == 1013
        await windows.tell({"kind": "works", "works": []})

    with within(20.0):
        asyncio.run(go())


def test_a_file_that_is_gone_is_told_without_asking_and_can_be_written_again(client, desk):
    with live(client) as socket:
        window = Window(socket)
        window.next("quick")
        desk.session.file = None
        # Nobody asked: the page looks at its file by itself.
        assert window.next("saving", limit=80)["saving"]["state"] == "gone"
        window.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        window.ask({"kind": "act", "action": "keep-mine"})
        while window.next("saving", limit=80)["saving"]["state"] != "saved":
            pass
    assert "20 m" in desk.session.file


def test_edits_of_a_window_closed_at_once_are_applied_and_saved_all_the_same(desk):
    begun, go_on = threading.Event(), threading.Event()
    real = desk.session.quick_look

    def quick_look(**given):
        begun.set()
        go_on.wait(10.0)
        return real(**given)

    desk.session.quick_look = quick_look
    with served(desk) as address:
        home = urlsplit(address)
        key = home.query.removeprefix("key=")
        headers = {"cookie": f"{cookie_name(key)}={key}"}
        origin = f"http://{home.netloc}"
        with connect(
            f"ws://{home.netloc}/beam/live", origin=origin, additional_headers=headers
        ) as socket:
            assert begun.wait(10.0)
            for number, edit in enumerate(
                (
                    {"kind": "raise", "beam": 0, "height": 21.0},
                    {"kind": "write", "place": "title", "text": "last words"},
                )
            ):
                socket.send(json.dumps({"seq": number + 1, "edit": edit}))
        go_on.set()
        with within(20.0):
            while "21 m" not in desk.session.file or "last words" not in desk.session.file:
                time.sleep(0.05)


def test_an_edit_nobody_spoke_of_is_saved_by_the_next_look(client, desk):
    desk.apply(Raise(beam=0, height=21.0), gesture=1)
    with within(20.0):
        while "21 m" not in desk.session.file:
            time.sleep(0.05)


def test_what_is_not_yet_saved_is_saved_when_the_server_stops(desk):
    with client_of(desk) as client, live(client) as socket:
        Window(socket).ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
    assert "20 m" in desk.session.file


def test_a_conflict_is_told_and_settled_through_the_socket(client, desk):
    with live(client) as socket:
        window = Window(socket)
        desk.session.file = PLAN.replace("16 m", "11 m")
        window.ask({"kind": "raise", "beam": 0, "height": 20.0}, gesture=1)
        while (told := window.next("saving", limit=80))["saving"]["state"] == "changed":
            pass
        assert told["saving"]["state"] == "conflict"
        assert told["saving"]["remedy"]
        answer = window.ask({"kind": "act", "action": "take-file"})
        assert answer["height"]["text"] == "11.000 m"
        assert answer["saving"]["state"] == "saved"
    assert "11 m" in desk.session.file


def test_a_refused_geometry_keeps_the_page_and_can_be_undone(client, desk):
    desk.session.refuse_shorter_than = 9.0
    with live(client) as socket:
        window = Window(socket)
        answer = window.ask({"kind": "lengthen", "beam": 0, "element": 2, "length": 8.0}, 1)
        assert "feed gap" in answer["faults"][0]["message"]
        assert "numbers" not in answer
        back = window.ask({"kind": "act", "action": "undo"})
        assert back["faults"] == []
        assert back["numbers"]
