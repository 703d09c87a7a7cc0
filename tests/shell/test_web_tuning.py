"""The Tuning sheet: says what to add, shows measured against computed, nothing injected."""

from __future__ import annotations

import dataclasses
import shutil

import pytest

from boomwright.base import BoomwrightError
from boomwright.plan import read_plan
from boomwright.plan.resolve.tuning import trial_moves
from boomwright.render.laid import lay_out
from boomwright.report.tuning import tuning_report
from boomwright.session import plan_session
from boomwright.session.plan_library import PlanLibrary
from boomwright.tuning import FaultReport
from boomwright.tuning.cautions import TUNING_CAUTIONS
from boomwright.tuning.faults import NamedFault
from boomwright.web.edits import Act, Message, Write, read_message
from boomwright.web.form_edits import Fill, TakeOut
from boomwright.web.live import apply_message
from boomwright.web.plan_forms import applied, table_form
from boomwright.web.sheets import tuning
from boomwright.web.sheets.tuning_context import TuningContext
from boomwright.web.view import View
from fakes.client import client_of
from fakes.desk import PLAN, desk_on, fake_desk
from fakes.tuned_example import PLAN as TUNED
from fakes.tuned_example import SWEEP, tuned_example


def _searched():
    """The result after a search that found the antenna sound."""
    named = NamedFault(
        kind="no fault", text="no fault", look="nothing", probability=0.9, strain=0.3
    )
    report = FaultReport(verdict="no fault", named=(named,), kinds=(("no fault", 0.9),), notices=())
    return dataclasses.replace(tuned_example(), faults=report)


def _client(text: str = PLAN):
    desk = fake_desk(text)
    desk.session.tuning = lambda plan, *, faults, canvas, progress: lay_out(
        tuning_report(_searched() if faults else tuned_example()), canvas=canvas
    )
    return client_of(desk)


def _tuned() -> str:
    return TUNED.read_text(encoding="utf-8")


def test_without_a_sweep_the_sheet_says_what_to_add_and_computes_nothing():
    page = _client().get("/tuning").text
    assert "There is no measured sweep yet" in page
    assert 'data-form="measured"' in page
    assert '<p class="waiting' not in page
    assert "no sweep was measured yet" in page
    for notice in TUNING_CAUTIONS:
        assert notice.text.replace("'", "&#39;") in page


def test_the_document_holds_the_context_field_by_field():
    client = _client(_tuned())
    document = client.get("/tuning.json").json()
    assert document["searching"]
    assert "Faults that could explain" not in client.get("/tuning").text
    fields = {field.name for field in dataclasses.fields(TuningContext)}
    assert set(document) == {"frame", *fields}
    assert set(document["figures"]) == {"swr", "r", "x", "heard-1"}
    groups = [group for group, *_ in document["groups"]]
    assert groups == ["advice", "compared", "told", "air", "trials"]
    lists = {"advice", "deviations", "alike", "further", "heard", "aims", "trials"}
    assert {each["name"] for each in document["lists"]} == lists
    # Asked again, the fault is looked for.
    again = client.get("/tuning.json").json()
    assert not again["searching"]
    assert {each["name"] for each in again["lists"]} == lists | {"faults"}
    assert "no fault, 90 %" in client.get("/tuning").text


def test_the_page_shows_advice_bands_and_what_cannot_be_told():
    client = _client(_tuned())
    assert "Fitting the measured sweep" in client.get("/tuning").text
    client.get("/tuning.json")
    page = client.get("/tuning").text
    (step,) = tuned_example().last.advice.steps
    moved = f"shorten each driven tip {-1e3 * step.amount:.0f} ±"
    for told in (moved, "cannot tell apart", "Record of trials",
                 "record the new sweep as a trial", "after the change",
                 "add +7 ±4° to what it shows",
                 "On the air against the computed pattern", "looking for a fault"):  # fmt: skip
        assert told in page


def test_a_search_that_cannot_be_made_leaves_the_advice():
    desk = fake_desk(_tuned())

    def tuning(plan, *, faults, canvas, progress):
        if faults:
            raise BoomwrightError("a wire hangs too low")
        return lay_out(tuning_report(tuned_example()), canvas=canvas)

    desk.session.tuning = tuning
    client = client_of(desk)
    for searching in (True, False):
        document = client.get("/tuning.json").json()
        assert document["searching"] is searching
        assert document["facts"]
    assert document["trouble"] == "No fault was looked for: A wire hangs too low."


def test_a_fit_is_heard_stopped_and_made_again():
    desk = fake_desk(_tuned())
    shares, stopped = [], [True]

    def tuning(plan, *, faults, canvas, progress):
        progress(0.25)
        shares.append(desk.fitting.share)
        if stopped[0]:
            # Somebody presses the button meanwhile.
            apply_message(desk, View(), Message(seq=1, gesture=0, edit=Act(action="stop")))
        progress(0.5)
        return lay_out(tuning_report(tuned_example()), canvas=canvas)

    desk.session.tuning = tuning
    client = client_of(desk)
    page = client.get("/tuning").text
    assert "Stop the fit" in page
    document = client.get("/tuning.json").json()
    assert "stopped before the sweep was fitted" in document["trouble"]
    assert shares == [0.25]
    assert desk.fitting.share is None
    stopped[0] = False
    assert client.get("/tuning.json").json()["facts"]


def _shelved(tmp_path, monkeypatch):
    """A page over a folder with the example in it; the fit is that of the neighbours."""
    path, made = tmp_path / "plan.toml", []
    path.write_text(_tuned(), encoding="utf-8")
    shutil.copy(SWEEP, tmp_path)

    def fitted(plan, *, files, progress):
        made.append(len(plan.measured.trial))
        return dataclasses.replace(tuned_example(), plan=plan)

    monkeypatch.setattr(plan_session, "tune_plan", fitted)
    monkeypatch.setattr(plan_session, "with_fault", lambda result, *, progress: result)
    desk = desk_on(path, library=PlanLibrary(tmp_path))
    client = client_of(desk)
    return client, desk, made


def test_the_sheet_takes_a_sweep_where_it_shows_it(tmp_path, monkeypatch):
    client, desk, made = _shelved(tmp_path, monkeypatch)
    page = client.get("/tuning").text
    for told in ('type="file"', '<textarea name="rows"', "Another sweep", "Read the sweep"):
        assert told in page
    assert "Moved as advised" not in page
    for _ in range(2):
        client.get("/tuning.json")
    # The search for a fault goes on from the fit that the advice rests on.
    assert made == [0]
    assert "Moved as advised" in client.get("/tuning").text
    # What the page sends for pasted rows, a comma for the point and kilohertz.
    rows = "kHz;R;X\n14000;38,2;-12,5\n14100;41,0;-4,5\n14200;44,1;3,5\n"
    asked = {"name": "sweep-2.csv", "as": "trial", "moved": "advised"}
    origin = {"origin": "http://127.0.0.1:8765"}
    answer = client.post("/measured.json", params=asked, content=rows, headers=origin)
    assert answer.status_code == 200, answer.text
    assert answer.json()["text"].startswith("3 points, 14.000 to 14.200 MHz")
    (trial,) = desk.plan.measured.trial
    assert trial.sweep == "sweep-2.csv"
    moves = trial_moves(trial, installation=tuned_example().installation, path="")
    assert moves == pytest.approx(tuned_example().last.advice.moves())
    # The advice was of the plan before: it is not offered as made again.
    assert "Moved as advised" not in client.get("/tuning").text


def test_a_trial_comes_with_its_height_and_what_is_refused_leaves_no_file(tmp_path, monkeypatch):
    client, desk, _ = _shelved(tmp_path, monkeypatch)
    origin = {"origin": "http://127.0.0.1:8765"}
    rows = "14.000 38.2 -12.5\n14.100 41.0 -4.5\n14.200 44.1 3.5\n"
    asked = {"name": "high.csv", "as": "trial", "rise": "two storeys"}
    answer = client.post("/measured.json", params=asked, content=rows, headers=origin)
    # What the plan refuses is said before a file is written.
    assert answer.status_code == 422
    assert "measured, trial 1, rise" in answer.json()["error"]["message"]
    assert not (tmp_path / "high.csv").exists()
    answer = client.post(
        "/measured.json", params=asked | {"rise": "2 m"}, content=rows, headers=origin
    )
    assert answer.status_code == 200, answer.text
    assert desk.plan.measured.trial[0].rise == 2.0
    assert desk.plan.measured.trial[0].moved == ()


def test_recorded_moves_are_proposed_and_taken_as_one_step_of_undo():
    trial = '\n[[measured.trial]]\nsweep = "b.s1p"\nmoved = [{ element = 1, tips = "-6 mm" }]\n'
    text = PLAN + '\n[measured]\nsweep = "a.s1p"\n' + trial
    desk = fake_desk(text)
    assert 'data-propose="{&#34;kind&#34;: &#34;take-moves&#34;}"' in (
        client_of(desk).get("/tuning").text
    )
    asked = read_message('{"seq": 1, "edit": {"kind": "propose", "edit": {"kind": "take-moves"}}}')
    before = desk.plan.beams[0].elements[1].length
    proposed, label = desk.preview(asked.edit.edit)
    assert desk.text == text  # shown, not yet done
    desk.apply(asked.edit.edit, gesture=0)
    assert (desk.text, desk.undo_label) == (proposed, label)
    assert desk.plan.beams[0].elements[1].length == pytest.approx(before - 0.012, abs=1e-6)
    desk.apply(Act(action="undo"), gesture=0)
    assert desk.text == text


def test_readings_beside_the_sweep_are_typed_on_the_sheet():
    client = _client(_tuned())
    page = client.get("/tuning").text
    for place in ("measured.probe[0]", "measured.front_to_back[0]"):
        assert f'data-form="{place}"' in page
    desk = fake_desk(_tuned())
    probe = {"element": "2", "ratio": "0,85", "within": "3 %"}
    desk.apply(Fill(place="measured.probe[0]", values=probe), gesture=0)
    ratio = {"ratio": "18 dB", "within": ""}
    desk.apply(Fill(place="measured.front_to_back[0]", values=ratio), gesture=0)
    (read,), (heard,) = desk.plan.measured.probe, desk.plan.measured.front_to_back
    assert (read.element, read.ratio, read.within) == (2, 0.85, pytest.approx(0.03))
    assert heard.ratio == 18.0
    lists = tuning.context(desk, View(), whole=False).beside
    texts = [entry.text for each in lists for entry in each.entries]
    assert texts == ["director 1: 0.85 of the driven element", "18 dB"]
    desk.apply(TakeOut(place="measured.probe[0]"), gesture=0)
    assert desk.plan.measured.probe == ()


def test_a_page_of_one_plan_takes_no_sweep():
    assert "Read the sweep" not in _client(_tuned()).get("/tuning").text


def test_scatter_and_tolerance_are_typed_on_the_sheet():
    page = _client(_tuned()).get("/tuning").text
    for place in (
        "measured.noise",
        "measured.meter",
        "measured.tolerance.cutting",
        "measured.line.length",
    ):
        assert f'data-place="{place}"' in page
    desk = fake_desk(_tuned())
    desk.apply(Write(place="measured.noise", text="0.4 %"), gesture=0)
    desk.apply(Write(place="measured.tolerance.cutting", text="1/8 in"), gesture=0)
    desk.apply(Write(place="measured.meter", text="careful kit"), gesture=0)
    measured = desk.plan.measured
    assert measured.meter == "careful kit"
    assert measured.noise == pytest.approx(0.004)
    assert measured.tolerance.cutting == pytest.approx(0.0254 / 8)


def test_the_forms_that_the_sheet_offers_settle_what_is_lacking():
    """Each form offered, filled in with what the declaration gives as its examples."""
    text = _tuned().split("[measured]")[0]
    typed = {
        "measured": {"sweep": "antenna.s1p", "day": "2026-05-02"},
        "measured.trial[0]": {"sweep": "antenna-2.s1p"},
        "measured.heading[0]": {
            "bearing": "315 deg",
            "readings": [[f"{bearing} deg", "S7"] for bearing in range(0, 360, 45)],
        },
        "measured.aim[0]": {"sun": "2026-05-03 11:00", "shows": "150 deg"},
    }
    for _ in range(2):
        lacks = tuning._lacks(read_plan(text))
        assert lacks
        for place, _words in [form for lack in lacks for form in lack.forms]:
            form, _ = table_form(text, place, system="metric")
            assert not form.written
            text, _label = applied(Fill(place=place, values=typed[place]), text)
    assert tuning._lacks(read_plan(text)) == ()


def test_every_field_of_the_context_has_its_help():
    assert all(field.metadata.get("help") for field in dataclasses.fields(TuningContext))


def test_a_hostile_file_name_stays_text():
    hostile = _tuned().replace("three-elements-20m-synthetic.s1p", "<img src=x onerror=alert(1)>")
    assert "<img src=x" not in _client(hostile).get("/tuning").text
