"""Other plans: nothing outside the folder, nothing overwritten, nothing lost on the way."""

from __future__ import annotations

import json
import math
import re
import time

import pytest

from boomwright.base.files import FileRefusedError
from boomwright.plan import read_place, read_plan
from boomwright.plan.shapes import shape_plan
from boomwright.session import plan_library
from boomwright.session.lessons import lessons
from boomwright.session.new_plan import make_starter
from boomwright.session.plan_library import PlanLibrary
from boomwright.session.plan_session import PlanSession
from boomwright.session.user_state import UserState
from boomwright.study.requests import RequestError, Wishes, with_further_beam
from boomwright.web import PlanDesk
from boomwright.web.guard import UPLOAD_LIMIT
from fakes.client import HOME, Window, client_of
from fakes.desk import PLAN, desk_on

OUTSIDE = [
    "../secret.toml",
    "..\\secret.toml",
    "/etc/passwd",
    "/etc/passwd.toml",
    "sub/plan.toml",
    ".hidden.toml",
    "..toml",
    "link.toml",
    "con\x00.toml",
    "plan.toml/",
    "plan.toml\n",
    "%2e%2e%2fsecret.toml",
    "",
    "a" * 120 + ".toml",
    "plan.html",
]


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "secret.toml").write_text('title = "not yours"')
    home = tmp_path / "plans"
    home.mkdir()
    make_starter(home / "club.toml", Wishes(band="20 m", elements=3, ground="free space"))
    make_starter(home / "hut.toml", Wishes(band="20 m", elements=2, ground="free space"))
    (home / "link.toml").symlink_to(tmp_path / "secret.toml")
    return home


@pytest.fixture
def client(folder):
    path = folder / "club.toml"
    desk = desk_on(path, library=PlanLibrary(folder))
    with client_of(desk) as client:
        yield client


def test_the_sheet_lists_the_plans_of_the_folder_and_nothing_else(client):
    document = client.get("/start.json").json()
    assert {row["name"] for row in document["plans"]} == {"club.toml", "hut.toml"}
    assert [row["here"] for row in document["plans"] if row["name"] == "club.toml"] == [True]
    assert len(document["lessons"]) == len(lessons())
    assert document["folder"] == "plans"
    assert str(client.get("/start").text).count("data-shelve") == len(lessons()) + 1


@pytest.mark.parametrize("name", OUTSIDE)
def test_no_name_leads_out_of_the_folder(folder, name):
    library = PlanLibrary(folder)
    for call in (library.open, library.read):
        with pytest.raises(Exception, match=r"no file name|outside the folder"):
            call(name)
    if not name.endswith("plan.html"):
        with pytest.raises(Exception, match=r"no file name|outside the folder"):
            library.save_as(name if name.endswith(".toml") else name + "/x.toml", "boomwright = 1")
    with pytest.raises(Exception, match=r"no file name|outside the folder"):
        library.keep_sweep(name, b"# Hz S RI R 50\n1 0 0\n")


@pytest.mark.parametrize("name", ["../secret.toml", "link.toml", "/etc/passwd"])
@pytest.mark.parametrize("action", ["open", "save-as", "lesson"])
def test_the_socket_refuses_such_names_and_lives_on(client, folder, name, action):
    with Window(client) as window:
        window.tell(kind="shelve", action=action, name=name)
        # What is wrong, then what to do.
        assert re.fullmatch(r"\S.+[.?] [A-Z].+[.?]", window.until("shelf")["refused"])
        window.tell(kind="act", action="look")
        assert window.until("quick")
    assert "not yours" in (folder.parent / "secret.toml").read_text()


def test_comparing_with_a_file_outside_shows_nothing_of_it(client):
    for name in ("../secret.toml", "link.toml", "/etc/passwd"):
        document = client.get("/compare.json", params={"with": name}).json()
        assert document["figures"] == {}
        assert "not yours" not in json.dumps(document)
        assert document["problem"]


def test_opening_another_plan_moves_every_window_and_keeps_the_first_saved(client, folder):
    with Window(client) as one, Window(client, "beam") as two:
        one.tell(kind="raise", beam=0, height=21.5)
        one.until("quick")
        one.tell(kind="shelve", action="open", name="hut.toml")
        assert one.until("moved")["address"] == "/beam"
        assert two.until("moved")["address"] == "/beam"
    assert "21.5 m" in (folder / "club.toml").read_text()
    assert client.get("/beam.json").json()["frame"]["file_name"] == "hut.toml"


def test_save_as_never_overwrites(client, folder):
    before = (folder / "hut.toml").read_text()
    with Window(client) as window:
        window.tell(kind="shelve", action="save-as", name="hut.toml")
        assert "exists" in window.until("shelf")["refused"]
        window.tell(kind="shelve", action="save-as", name="mine")
        window.until("moved")
    assert (folder / "hut.toml").read_text() == before
    assert (folder / "mine.toml").read_text() == (folder / "club.toml").read_text()


def test_a_conflict_must_be_settled_before_the_desk_is_changed(client, folder):
    with Window(client) as window:
        window.until("full")
        (folder / "club.toml").write_text((folder / "hut.toml").read_text())
        window.tell(kind="raise", beam=0, height=21.5)
        window.until("saving")
        window.tell(kind="shelve", action="open", name="hut.toml")
        assert "not in its file yet" in window.until("shelf")["refused"]
    # What could not go to the file lies beside it.
    assert "21.5 m" in (folder / "club.unsaved.toml").read_text()


def seek(window, action="start", **more):
    """Ask for stations and wait until they are there, or refused."""
    window.tell(kind="seek", action=action, **more)
    while True:
        message = window.until("stations", "shelf")
        if message["kind"] == "shelf" or message["ready"]:
            return message


GARDEN = {"bands": "10 m", "place": "53.10 N, 7.20 E", "highest": "7 m", "lot_length": "14 m",
          "lot_width": "11 m", "ground": "wet", "target_0": "Azores",
          "where_0": "38.5 N, 28.0 W"}  # fmt: skip


def test_a_place_is_kept_stations_are_put_together_and_the_chosen_one_is_opened(tmp_path):
    with client_of(None, library=PlanLibrary(tmp_path)) as client:
        assert client.get("/beam").url.path == "/start"
        with Window(client, "start") as window:
            refused = seek(window, name="garden", typed=GARDEN | {"highest": "seven"})
            assert [each["path"] for each in refused["faults"]] == ["place.highest"]
            assert not (tmp_path / "garden.toml").exists()
            found = seek(window, name="garden", typed=GARDEN)
            assert "hexagon-shaped wire beam on light pole" in found["html"]
            assert "it approves none" in found["html"]
            # What is missing is a field of the form here, never a key of a file.
            assert "Fill in People on the ground" in found["html"]
            assert not re.search(r"in \[|\[\[", found["html"])
            number = int(re.search(r"Choose station (\d+): hexagon", found["html"])[1])
            place = read_place((tmp_path / "garden.toml").read_text())
            assert place.place.highest == pytest.approx(7.0, rel=1e-12)
            assert place.reach.target[0].name == "Azores"
            window.tell(kind="seek", action="blank", name="prices.csv")
            assert "Fill in" in window.until("shelf")["said"]
            window.tell(kind="seek", action="choose", name="garden.toml", number=number)
            assert "exists" in window.until("shelf")["refused"]
            window.tell(kind="seek", action="choose", name="mine", number=number)
            assert window.until("moved")["address"] == "/beam"
        # Whoever comes later still finds them.
        with Window(client, "start") as window:
            assert window.until("stations")["html"] == found["html"]
    assert len(read_plan((tmp_path / "mine.toml").read_text()).beams[0].elements) == 2
    assert (tmp_path / "prices.csv").read_text().count("\nitem,unit,low,likely,high") == 1


def test_stations_for_a_place_in_feet_are_rounded_to_feet_and_inches(tmp_path, monkeypatch):
    heard = {}
    monkeypatch.setattr(plan_library, "advise_place", lambda place, **given: heard.update(given))
    library = PlanLibrary(tmp_path)
    feet = {"highest": "23 ft", "lot_length": "46 ft", "lot_width": "36 ft"}
    for name, typed, system in (("feet", feet, "us"), ("metres", {}, "metric")):
        bands = {"bands": "20 m, 15 m, 10 m"}
        library.advise(library.keep_place(name, GARDEN | typed | bands))
        assert heard["system"] == system


def test_a_place_somebody_else_changed_is_not_written_over(tmp_path):
    library = PlanLibrary(tmp_path)
    name = library.keep_place("garden", GARDEN)
    library.keep_place("garden", GARDEN | {"highest": "8 m"})
    path = tmp_path / name
    assert '"8 m"' in path.read_text()
    path.write_text(path.read_text() + "# mine\n")
    with pytest.raises(FileRefusedError, match="exists and is kept"):
        library.keep_place("garden", GARDEN)
    assert path.read_text().endswith("# mine\n")


def test_stations_under_way_are_seen_and_stopped_from_any_sheet(client, folder):
    everything = {"bands": "20 m", "place": "JO02be", "ground": "wet"}
    with Window(client, "start") as window, Window(client, "beam") as other:
        window.tell(kind="seek", action="start", name="big", typed=everything)
        while not (works := other.until("works")["works"]) or works[0]["share"] is None:
            pass
        assert works[0]["name"] == "Which station"
        other.tell(kind="raise", beam=0, height=18.0)
        assert other.until("quick")["height"]["text"] == "18.000 m"
        other.tell(kind="tend", action="stop", number=works[0]["number"])
        assert "stopped" in window.until("shelf")["refused"]
        while (works := other.until("works")["works"])[0]["state"] != "stopped":
            pass
        other.tell(kind="tend", action="close", number=works[0]["number"])
        while other.until("works")["works"]:
            pass


def test_a_new_plan_is_made_of_what_was_typed(client, folder):
    typed = {"band": "20 m", "shape": "", "count": "2", "boom": "3 m", "height": "12 m",
             "heading": "300", "ground": "wet", "place": "JO02be", "design": "guess"}  # fmt: skip
    with Window(client, "start") as window:
        for wrong, said in (("place", "latitude"), ("band", "band"), ("heading", "plain numbers")):
            window.tell(kind="begin", name="new", further=False, typed=typed | {wrong: "nowhere!"})
            refused = window.until("shelf")["refused"]
            assert said in refused
            assert re.fullmatch(r"[A-Z].+[.?] [A-Z].+[.?]", refused)
        # Without a name the file is called as its title says.
        window.tell(kind="begin", name="", further=False, typed=typed | {"title": "new!"})
        assert window.until("moved")["address"] == "/beam"
    plan = read_plan((folder / "new.toml").read_text())
    assert "JO02be" in (folder / "new.toml").read_text()
    assert plan.beams[0].height == pytest.approx(12.0, rel=1e-12)
    assert plan.beams[0].boom_length <= 3.0 + 1e-9
    assert math.degrees(plan.beams[0].heading) == pytest.approx(300.0, rel=1e-12)


def test_a_further_beam_goes_into_the_plan_on_the_desk_as_one_step_of_undo(client, folder):
    before = (folder / "club.toml").read_text()
    typed = {"band": "15 m", "shape": "hexagon", "height": "16 m"}
    with Window(client, "start") as window:
        window.tell(kind="begin", name="", further=True, typed=typed)
        assert window.until("moved")["address"] == "/beam?of=1"
    frame = client.get("/beam.json?of=1").json()["frame"]
    assert frame["beams"] == ["20 m", "15 m"]
    assert frame["undo_label"] == "further beam added"
    with Window(client, "beam") as window:
        window.tell(kind="act", action="undo")
        # What was added may be written first, and is told as saved too.
        while (folder / "club.toml").read_text() != before:
            window.until("saving")


def test_wishes_and_sweeps_stay_about_the_beam_that_they_were_about():
    text = PLAN + '[wish]\nboom = "8 m"\n[measured]\nsweep = "first.s1p"\n'
    plan = read_plan(with_further_beam(text, shape_plan("vee", band="10 m")))
    assert (plan.wish.beam, plan.measured.beam) == ("20m", "20m")
    assert len(plan.beams) == 2


def test_a_lesson_lives_in_memory_and_leaves_the_folder_as_it_was(client, folder):
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    with Window(client) as window:
        window.tell(kind="shelve", action="lesson", name="2-add-a-reflector")
        assert window.until("moved")["address"] == "/beam"
    with Window(client, "beam") as window:
        assert window.until("quick")["lesson"]["number"] == 1
        window.tell(kind="act", action="lesson-on")
        assert window.until("quick")["lesson"]["do"] == "Add the reflector"
        window.tell(kind="act", action="lesson-do")
        answer = window.until("quick")
        assert len(answer["elements"]) == 2
        assert answer["undo"] == "add the reflector"
        time.sleep(0.6)
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_the_comparison_gives_the_difference_of_both(client):
    document = client.get("/compare.json?with=hut.toml").json()
    rows = {row[0]: row[1:] for row in document["table"]["rows"]}
    mine, theirs, apart = rows["Gain, free space"]
    number = [float(cell.split()[0].replace("−", "-")) for cell in (mine, theirs, apart)]
    assert number[1] - number[0] == pytest.approx(number[2], abs=0.011)
    assert "azimuth" in document["figures"]


def test_the_shared_page_needs_nothing_from_anywhere(client):
    answer = client.get("/share.html")
    assert answer.headers["content-disposition"].endswith('.html"')
    text = answer.text
    assert "<script" not in text
    assert "src=" not in text
    assert "href=" not in text
    assert text.count("<svg") >= 7


def test_recent_plans_open_with_a_click_wherever_they_lie(tmp_path):
    memory = UserState(tmp_path / "state")
    folder, elsewhere = tmp_path / "plans", tmp_path / "the attic"
    for path in (folder / "club.toml", elsewhere / "old.toml"):
        path.parent.mkdir()
        make_starter(path, Wishes(band="20 m", elements=2, ground="free space"))
        memory.note(path)
    club = folder / "club.toml"
    desk = PlanDesk(
        session=PlanSession(club, state=memory),
        name=club.name,
        text=club.read_text(),
        library=PlanLibrary(folder, state=memory),
    )
    with client_of(desk) as client:
        rows = client.get("/start.json").json()["recent"]
        assert [(row["name"], row["here"]) for row in rows] == [
            ("old.toml", False),
            ("club.toml", True),
        ]
        assert rows[0]["folder"] == str(elsewhere)
        with Window(client, "start") as window:
            window.tell(kind="shelve", action="recent", number=7)
            assert "no longer there" in window.until("shelf")["refused"]
            window.tell(kind="shelve", action="recent", number=0)
            window.until("moved")
        document = client.get("/start.json").json()
        assert document["folder"] == "the attic"
        assert [plan["name"] for plan in document["plans"]] == ["old.toml"]
    hidden = PlanLibrary(folder, state=memory, elsewhere=False)
    assert [plan.name for plan in hidden.recent()] == ["club.toml"]
    with pytest.raises(RequestError):
        hidden.reopen(1)


S1P = b"# MHz S RI R 50\n14.0 0.1 0.2\n14.1 0.1 0.1\n14.2 0.05 0.1\n"


def post(client, content, name="beam.s1p", role="file", **headers):
    headers = {"origin": HOME, **headers}
    params = {"name": name, "as": role}
    return client.post("/measured.json", params=params, content=content, headers=headers)


def test_a_measured_sweep_is_taken_in_once(client, folder):
    answer = post(client, S1P)
    assert answer.status_code == 200, answer.text
    assert answer.json()["text"].startswith("3 points, 14.000 to 14.200 MHz")
    assert (folder / "beam.s1p").read_bytes() == S1P
    assert post(client, S1P).status_code == 422


def test_a_measured_sweep_is_named_in_the_plan_as_steps_of_undo(client, folder):
    with Window(client) as window:
        window.until("full")
        said = post(client, S1P, role="sweep").json()["said"]
        assert said == "the plan names it as its measured sweep"
        assert window.until("quick")["undo"] == "measured sweep beam.s1p taken in"
        said = post(client, S1P, "second run.s1p", role="trial").json()["said"]
        assert said.startswith("the plan names it as trial 1")
        window.until("quick")
        while window.until("saving")["saving"]["state"] != "saved":
            pass
        measured = read_plan((folder / "club.toml").read_text()).measured
        assert measured.sweep == "beam.s1p"
        assert [trial.sweep for trial in measured.trial] == ["second run.s1p"]
        window.tell(kind="act", action="undo")
        window.until("quick")
        window.tell(kind="act", action="undo")
        assert window.until("quick")["redo"] == "measured sweep beam.s1p taken in"
        while window.until("saving")["saving"]["state"] != "saved":
            pass
    assert read_plan((folder / "club.toml").read_text()).measured is None
    assert (folder / "beam.s1p").read_bytes() == S1P


def test_the_first_sweep_brings_its_line(client, folder):
    params = {"name": "beam.s1p", "as": "sweep", "line": "RG-213", "length": "60 ft"}
    origin = {"origin": HOME}
    with Window(client) as window:
        window.until("full")
        missing = params | {"length": ""}
        answer = client.post("/measured.json", params=missing, content=S1P, headers=origin)
        assert answer.status_code == 422
        assert "length" in answer.json()["error"]["message"]
        assert client.post("/measured.json", params=params, content=S1P, headers=origin).is_success
        while window.until("saving")["saving"]["state"] != "saved":
            pass
    line = read_plan((folder / "club.toml").read_text()).measured.line
    assert (line.line_type, line.length) == ("RG-213", pytest.approx(60 * 0.3048))


@pytest.mark.parametrize(
    ("role", "said"), [("trial", "follows a first sweep"), ("anything", "says nothing")]
)
def test_a_sweep_the_plan_cannot_take_is_refused_before_it_is_written(client, folder, role, said):
    answer = post(client, S1P, role=role)
    assert answer.status_code == 422
    assert said in answer.json()["error"]["message"]
    assert not (folder / "beam.s1p").exists()


def test_a_lesson_takes_no_measured_sweep(client, folder):
    with Window(client) as window:
        window.tell(kind="shelve", action="lesson", name="2-add-a-reflector")
        window.until("moved")
    answer = post(client, S1P, role="sweep")
    assert answer.status_code == 422
    assert "lesson" in answer.json()["error"]["message"]
    assert not (folder / "beam.s1p").exists()


@pytest.mark.parametrize(
    ("content", "name"),
    [
        (b"", "a.s1p"),
        (b"\x00\xff" * 500, "a.s1p"),
        (b"\x89PNG\r\n", "a.csv"),
        (b"# MHz S RI R 50\n14.0 nan 0\n", "a.s1p"),
        (b"<svg onload=alert(1)>", "a.csv"),
        (S1P, "../a.s1p"),
        (S1P, "a.toml"),
        (S1P, "a.html"),
    ],
)
def test_malformed_sweeps_are_refused_and_nothing_is_written(client, folder, content, name):
    before = sorted(path.name for path in folder.parent.rglob("*"))
    answer = post(client, content, name)
    assert answer.status_code == 422
    assert answer.json()["error"]["remedy"]
    assert sorted(path.name for path in folder.parent.rglob("*")) == before


def test_a_sweep_from_elsewhere_or_too_large_is_refused(client, folder):
    assert post(client, S1P, origin="http://evil.example").status_code == 403
    answer = client.post("/measured.json?name=a.s1p", content=S1P)
    assert answer.status_code == 403
    assert post(client, b"#" * (UPLOAD_LIMIT + 1)).status_code == 413
    assert client.get("/measured.json").status_code == 405
    assert client.post("/beam", content=b"x", headers={"origin": HOME}).status_code == 405
    assert not (folder / "a.s1p").exists()
