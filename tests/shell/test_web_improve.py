"""Improving from the page, in process: look, search, take, undo, cancel, stale and hostile asks."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from dataclasses import replace

import pytest

from boomwright.base import Notice, length_text
from boomwright.base.quantity import phrase
from boomwright.design import Targets, band_figures
from boomwright.plan import read_plan
from boomwright.session import plan_session, search
from boomwright.session.search_records import found_for_book
from boomwright.study.improve import compare_plan, improve_plan, wished_search
from boomwright.web.edits import MessageError, read_message
from fakes.client import Window, client_of
from fakes.desk import desk_on

PLAN = """boomwright = 1
title = "Two <b>elements</b> for 6 m"

[site]
ground = "free space"

[[beam]]
name = "6m & more"
band = ["50.0 MHz", "50.5 MHz"]
design = "50.2 MHz"
height = "10 m"
heading = "0 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0.1 m"  # behind the clamp
  diameter = "12 mm"
  length = "2.98 m"
  [[beam.element]]
  role = "driven"
  at = "1 m"
  diameter = "12 mm"
  length = "2.82 m"
"""


@pytest.fixture
def desk(tmp_path):
    return desk_on(tmp_path / "two.toml", PLAN)


@pytest.fixture
def client(desk):
    with client_of(desk) as client:
        yield client


class ImproveWindow(Window):
    def until(self, *states):
        """Wait for an answer of the Improve block."""
        for _ in range(2000):
            message = json.loads(self.socket.receive_text())
            if message["kind"] == "improve" and message["state"] in states:
                return message
        raise AssertionError(states)

    def answered(self):
        """Wait for the answer to the last edit."""
        for _ in range(2000):
            message = json.loads(self.socket.receive_text())
            if message["kind"] == "quick" and message["seq"] >= self.seq:
                return message
        raise AssertionError


def faults(message):
    told = [fault for each in message["refusals"] for fault in each["faults"]]
    return [f"{fault['message']} -> {fault['remedy']}" for fault in told]


def test_the_block_stands_on_the_beam_sheet(client):
    html = client.get("/beam").text
    assert 'id="improve"' in html
    assert "<b>elements</b>" not in html


def test_the_trade_off_is_drawn_and_a_point_of_it_loaded_and_undone(desk, client):
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="look")
        shown = window.until("trade-off")
        assert shown["svg"].count("data-choice=") == 5 * len(shown["table"]["rows"])
        assert "<b>" not in shown["svg"]
        assert "taken as usual: gain counts, and front-to-rear" in shown["wish_words"]
        window.tell(kind="take", beam=0, curve=0, number=1)
        assert faults(window.answered()) == []
        beam = read_plan(desk.text).beams[0]
        boom, promised = (float(cell) for cell in shown["table"]["rows"][1][:2])
        # The best beam on a boom may leave some of it unused; printed to 1 cm.
        assert beam.boom_length <= boom + 0.006
        figures = band_figures(beam=beam, targets=Targets(match="matched"))
        # The table is for perfect metal; this tube loses some hundredths.
        assert figures.worst[0] == pytest.approx(promised, abs=0.1)
        assert figures.worst[3] <= 2.02
        assert beam.elements[0].position == pytest.approx(0.1)
        assert "# behind the clamp" in desk.text
        assert desk.undo_label == "6m & more taken from the trade-off"
        window.tell(kind="act", action="undo")
        window.answered()
        assert desk.text == PLAN
        window.tell(kind="take", beam=0, curve=0, number=90)
        assert "has no point 91 -> choose one of" in faults(window.answered())[0]
        window.tell(kind="take", beam=7, curve=0, number=0)
        assert faults(window.answered())


@pytest.mark.slow
def test_a_search_runs_beside_the_edits_and_its_beam_is_one_step_of_undo(desk, client, monkeypatch):
    real = plan_session.search_beam

    def searched(*given, **named):
        found = real(*given, **named)
        short = Notice(code="design.short", text=phrase("{more} too long", more="a finger"))
        return replace(found, notices=(*found.notices, short))

    monkeypatch.setattr(plan_session, "search_beam", searched)
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="start")
        assert window.until("running")["stopping"] is False
        window.tell(kind="tune", frequency=50.1e6)
        window.answered()
        found = window.until("found")
        assert found["notices"][-1] == "note: a finger too long"
        # A wish is typed on the page, not written into the file.
        assert not [each for each in found["notices"] if "Write under" in each]
        before, after = found["figures"]["rows"]
        assert float(after[1]) > float(before[1])
        assert desk.text == PLAN
        window.tell(kind="take")
        assert faults(window.answered()) == []
        assert desk.undo_label == "better beam taken"
        taken = read_plan(desk.text).beams[0]
        rows = found["elements"]["rows"]
        assert [f"{each.position * 1e3:.0f} mm" for each in taken.elements] == [r[1] for r in rows]
        window.tell(kind="act", action="undo")
        window.answered()
        assert desk.text == PLAN


@pytest.mark.slow
def test_a_beam_found_for_another_state_of_the_plan_is_not_taken(desk, client):
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="start")
        window.until("running")
        window.tell(kind="move", beam=0, element=1, position=0.8)
        window.answered()
        window.until("found")
        moved = desk.text
        window.tell(kind="take")
        assert faults(window.answered()) == [
            "the plan was changed after the beam was found -> search again"
        ]
        assert desk.text == moved


@pytest.mark.slow
def test_cancel_keeps_the_best_and_another_search_may_begin(client, monkeypatch):
    # So many starts that it is not done before.
    monkeypatch.setattr(plan_session, "USUAL_STARTS", 100)
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="start")
        while "best" not in window.until("running")["text"]:
            pass
        window.tell(kind="improve", action="cancel")
        window.until("stopping")
        found = window.until("found")
        assert "stopped early, best so far" in found["text"]
        # Another search may begin at once.
        window.tell(kind="improve", action="start")
        window.until("running")
        window.tell(kind="improve", action="cancel")
        window.until("found", "refused")


@pytest.mark.slow
def test_a_search_outlives_its_window_and_its_beam_waits_for_the_next_one(client, desk):
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="start")
        window.until("running")
    with ImproveWindow(client) as window:
        found = window.until("found")
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="look")
        assert window.until("found") == found
        window.tell(kind="take")
        assert faults(window.answered()) == []
    assert desk.undo_label == "better beam taken"


KILLED = """
import sys
from pathlib import Path
from boomwright.session.plan_session import PlanSession

def told(progress):
    print(progress.done, flush=True)
    return True

# Workers begin by reading this file anew.
if __name__ == "__main__":
    path = Path(sys.argv[1])
    PlanSession(path).improve(path.read_text(), system="metric", resume=False, on_progress=told)
"""


@pytest.mark.slow
def test_a_search_of_the_page_survives_a_kill(desk, client, tmp_path):
    plan, script = tmp_path / "two.toml", tmp_path / "search.py"
    script.write_text(KILLED, encoding="utf-8")
    running = subprocess.Popen(
        [sys.executable, str(script), str(plan)], stdout=subprocess.PIPE, text=True
    )
    try:
        for line in running.stdout:
            if int(line) >= 3:
                break
    finally:
        running.kill()
        running.communicate()
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="look")
        known = window.until("known")
        told = re.search(r"broken off after (\d+) starts, the best with", known["unfinished"])
        assert int(told[1]) >= 3
        window.tell(kind="improve", action="resume")
        first = window.until("running")
        while "starts" not in first["text"]:
            first = window.until("running")
        assert int(re.search(r"(\d+) of", first["text"])[1]) >= int(told[1])
        found = window.until("found")
        assert window.until("known")["unfinished"] == ""
        # The very beam that a search in one go finds.
        whole = improve_plan(wished_search(read_plan(PLAN)), text=PLAN)
        placed = [length_text(each.position, system="metric") for each in whole.after.elements]
        assert [row[1] for row in found["elements"]["rows"]] == placed
        window.tell(kind="improve", action="resume")
        assert "No search for this beam" in window.until("refused")["text"]


@pytest.mark.slow
def test_comparison_and_tolerance_are_shown_and_kept(desk, client, monkeypatch, tmp_path):
    monkeypatch.setattr(
        search, "compare_plan", lambda asked: compare_plan(replace(asked, starts=2))
    )
    with ImproveWindow(client) as window:
        window.tell(kind="improve", action="tolerate")
        assert window.until("done")["text"].startswith("Done")
        (spread,) = window.until("known")["tables"]
        assert spread["note"].startswith("Cut every half to within ± ")
        causes = [row[0] for row in spread["rows"]]
        assert causes[:3] == ["lengths as cut", "places along the boom", "diameters of the tubes"]
        window.tell(kind="improve", action="compare")
        window.until("done")
        known = window.until("known")
        names = [each["name"] for each in known["pictures"]]
        assert names == ["spacing-pattern", "spacing-swr", "spacing-gain"]
        for each in known["pictures"]:
            assert "even, close" in each["svg"]
            assert each["table"]["rows"]
        ways, spread = known["tables"]
        assert [row[0] for row in ways["rows"]] == [
            "even, close",
            "even, wide",
            "even, best",
            "free",
        ]
        gains = [float(row[1]) for row in ways["rows"]]
        assert gains[3] >= max(gains[:3]) - 0.3
        # Another beam has none of it.
        window.tell(kind="move", beam=0, element=1, position=0.8)
        window.answered()
        window.tell(kind="improve", action="look")
        assert window.until("known")["tables"] == []
    (chapter,) = found_for_book(read_plan(PLAN), path=tmp_path / "two.toml", system="us")
    assert [each.name for each in chapter.tables] == ["spacings", "tolerance"]
    assert " in: " in chapter.tables[1].note


def test_wishes_typed_on_the_page_are_written_and_shown(desk, client):
    with ImproveWindow(client) as window:
        window.tell(kind="write", place="wish.front_to_rear", text="12 dB")
        assert faults(window.answered()) == []
        assert desk.plan.wish.front_to_rear_db == 12.0
        window.tell(kind="write", place="wish.boom", text="long")
        assert faults(window.answered())
        for place, text in (("mass", "26 lb"), ("wind_area", "0.6 m2"), ("element", "10 ft")):
            window.tell(kind="write", place=f"wish.{place}", text=text)
            assert faults(window.answered()) == []
        window.tell(kind="improve", action="look")
        shown = window.until("trade-off")
        assert shown["wishes"]["wish.front_to_rear"] == "12 dB"
        assert shown["wishes"]["wish.boom"] == ""
        assert shown["wishes"]["wish.mass"] == "11.79 kg"
        assert shown["wishes"]["wish.wind_area"] == "0.6 m²"
        assert shown["wishes"]["wish.element"] == "3048 mm"


@pytest.mark.parametrize(
    "edit",
    [
        {"kind": "improve", "action": "delete"},
        {"kind": "improve"},
        {"kind": "take", "beam": -1, "curve": 0, "number": 0},
        {"kind": "take", "beam": 0, "curve": 1e9, "number": 0},
        {"kind": "take", "curve": 0, "number": 0},
        {"kind": "take", "beam": 0, "curve": 0, "number": "1"},
        {"kind": "write", "place": "wish.frozen", "text": "x"},
    ],
)
def test_odd_asks_go_no_further(edit):
    with pytest.raises(MessageError):
        read_message(json.dumps({"seq": 1, "edit": edit}))
