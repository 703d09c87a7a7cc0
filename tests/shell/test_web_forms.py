"""The forms of the plan on the page: each key on one sheet, edits, faults, undo."""

from __future__ import annotations

import json
import re
from collections import Counter
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from boomwright.base import Finding, PlanError
from boomwright.plan import read_plan
from boomwright.plan.faults import split_path
from boomwright.plan.forms import Addition, fill
from boomwright.plan.lists import ListOf
from boomwright.plan.plan_text import PlanText
from boomwright.plan.spec import NameOrTable, Tables, TableSpec
from boomwright.plan.tables.root import ROOT
from boomwright.session.files import packaged_text
from boomwright.session.plan_session import PlanSession
from boomwright.study.verdict import judge_plan
from boomwright.web import PlanDesk, create_app
from boomwright.web.app import _Pages
from boomwright.web.edits import MessageError, read_message
from boomwright.web.form_edits import Fill, TakeOut
from boomwright.web.homes import home_of, roots_of
from boomwright.web.plan_forms import sheet_tables, table_form
from boomwright.web.refusing import told
from boomwright.web.sheets import SHEETS
from boomwright.web.view import View
from fakes.desk import PLAN, fake_desk
from full_plan import FULL
from written import metric

STATIONS = [
    path.read_text(encoding="utf-8")
    for path in sorted((Path(__file__).parents[2] / "examples" / "stations").glob("*.toml"))
]
SLUGS = [sheet.slug for sheet in SHEETS if roots_of(sheet.slug, beam=0)]


def client(text: str = PLAN) -> TestClient:
    made = TestClient(create_app(fake_desk(text), key="k"), base_url="http://127.0.0.1:8765")
    made.get("/beam?key=k")
    return made


def plain(place):
    """A place without its numbers."""
    return re.sub(r"\[\d+\]", "", place)


def declared(spec=ROOT, path=""):
    """Every key that a plan may have, without numbers; tables are not typed themselves."""
    for field in spec.fields:
        kind, place = field.kind, f"{path}.{field.key}".lstrip(".")
        inner = kind.spec if isinstance(kind, Tables) else kind
        if isinstance(kind, ListOf) and isinstance(kind.item, TableSpec):
            inner = kind.item
        if isinstance(inner, TableSpec):
            yield from declared(inner, place)
            continue
        yield place
        if isinstance(kind, NameOrTable):
            yield from declared(kind.table, place)


def keys_of(form):
    for key in form.keys:
        yield plain(key.place)
        if key.table is not None:
            yield from keys_of(key.table)


def places_of(branches, additions, slug):
    """What can be opened on a sheet: of tables there are, and of those that may be added."""
    for each in (*branches, *additions):
        if isinstance(each, Addition):
            yield each.place
            continue
        home = home_of(split_path(each.place) or ())
        if each.first:
            yield each.place if home == slug else each.first
        yield from places_of(each.below, each.additions, slug)


def tables_of(spec=ROOT, path=()):
    """Every table that a plan may have, the first of each list."""
    for field in spec.fields:
        kind, place = field.kind, (*path, field.key)
        inner = kind.spec if isinstance(kind, Tables) else kind
        if isinstance(kind, ListOf) and isinstance(kind.item, TableSpec):
            inner = kind.item
        if isinstance(inner, TableSpec):
            place = place if inner is kind else (*place, 0)
            yield place
            yield from tables_of(inner, place)


@pytest.fixture(scope="module")
def everything():
    """Every table there is, many of them empty: a plan nobody could build from."""
    work = PlanText(FULL)
    for place in tables_of():
        if work.at(place) is None:
            work.add_table(place, {})
    return work.text


def test_every_key_of_the_plan_is_typed_on_exactly_one_sheet(everything):
    """Walked from the buttons of every sheet: what is there, and what may be added."""
    found: dict[str, set[str]] = {}
    for slug in SLUGS:
        for place in places_of(*sheet_tables(everything, slug=slug, beam=0), slug):
            for key in keys_of(table_form(everything, place, system="metric")[0]):
                found.setdefault(key, set()).add(slug)
    # The version of the file is the program's own.
    assert set(found) == set(declared()) - {"boomwright"}
    assert {key: where for key, where in found.items() if len(where) > 1} == {}


def test_a_bare_plan_can_be_given_every_table(everything):
    """What is not there is offered, by the table around it."""
    offered = set()
    for text in (PLAN, everything):
        for slug in SLUGS:
            offered |= {plain(p) for p in places_of(*sheet_tables(text, slug=slug, beam=0), slug)}
    tables = {".".join(step for step in place if isinstance(step, str)) for place in tables_of()}
    # The site is there always, and is opened by one of its keys where another sheet is its home.
    assert tables - offered == set()


def test_every_branch_has_its_buttons_and_every_button_opens_a_form():
    page = client(FULL)
    for slug in SLUGS:
        html = page.get("/tables", params={"sheet": slug}).text
        places = re.findall(r'data-form="([^"]*)"', html)
        assert places, slug
        assert max(Counter(places).values()) == 1
        for place in places[:12]:
            answer = page.get("/form", params={"place": place})
            assert answer.status_code == 200, (slug, place, answer.text[:300])
            assert "<form" in answer.text


def test_buttons_of_what_is_lacking_open_their_forms():
    page = client()
    seen = set()
    for sheet in SHEETS:
        seen |= set(re.findall(r'data-form="([^"]+)"', page.get(f"/{sheet.slug}").text))
    assert {"line", "transmitter", "support.tower", "beam[0].boom", "prices", "raising",
            "raising.lift_truck", "measured", "support.mast"} <= seen  # fmt: skip
    for place in seen:
        assert page.get("/form", params={"place": place}).status_code == 200, place


#: words of the plan file: names of tables in brackets, keys of several words, lines to be written
FILE_WORDS = re.compile(
    r"\[\[?[a-z_]+(?:\.[a-z_]+)*\]|\b[a-z]+_[a-z_]+\b|\b[a-z]+ = [\"\[{\d]|<pre"
)
COMMANDS = re.compile(r"boomwright (?!computes)[a-z]+|(?<![\w-])--[a-z]+")


def page_plans():
    """Plans of every kind: bare, the demo, two beams, wire, and one whose checks are exceeded."""
    folder = Path(__file__).parents[2] / "examples" / "stations"
    named = {n: next(folder.glob(f"{n}-*.toml")).read_text("utf-8") for n in ("09", "10", "12")}
    return {
        "bare": PLAN,
        "demo": packaged_text("demo.toml"),
        "little known": named["09"],
        "two beams, failing": named["10"],
        "wire": named["12"],
    }


@pytest.fixture(scope="module")
def told_sheets(tmp_path_factory):
    """Every sheet of five plans as the page shows it once all of it is computed: its words."""
    found = {}
    for number, (name, text) in enumerate(page_plans().items()):
        folder = tmp_path_factory.mktemp(f"told-{number}")
        (folder / "prices.csv").write_text(packaged_text("demo_prices.csv"), encoding="utf-8")
        desk = PlanDesk(session=PlanSession(folder / "p.toml"), name="p.toml", text=text)
        pages = _Pages(desk=desk, library=None)
        for sheet in SHEETS:
            system = "us" if number % 2 else "metric"
            view = View(beam=0, system=system)
            if sheet.slug == "waves" and name != "demo":
                # What it computes is one picture, and its words are the same for every plan.
                html = pages._render(sheet, view, whole=False, scheme="")
            else:
                html = pages.block(sheet, view)
            found[name, sheet.slug] = html
    return found


def words_of(html):
    """What a reader reads of a page, titles and spoken names among it."""
    attributes = re.findall(r'(?:title|aria-label|placeholder|alt)="([^"]*)"', html)
    return unescape(" ".join((re.sub(r"<[^>]+>", " ", html), *attributes)))


def test_no_sheet_speaks_the_language_of_the_file(told_sheets):
    said = {
        (place, found[0])
        for place, html in told_sheets.items()
        for pattern in (FILE_WORDS, COMMANDS)
        for found in pattern.finditer(words_of(html))
    }
    assert said == set()


def test_what_settles_a_step_is_a_button_with_its_form(told_sheets):
    """Every button of every sheet opens a form of the plan that it stands on."""
    opened = set()
    for name, text in page_plans().items():
        htmls = [html for (plan, _), html in told_sheets.items() if plan == name]
        for place in {each for html in htmls for each in re.findall(r'data-form="([^"]+)"', html)}:
            form, key = table_form(text, place, system="metric")
            assert form.keys, place
            assert not key or key in keys_at(form), place
            opened.add(plain(place))
    assert {"beam.feed.kind", "prices.list", "prices.overlap"} <= opened
    assert {
        "prices.hire.deliveries",
        "support.tower.top_drift",
        "raising",
        "beam.boom.hardware.tip_plug",
    } <= opened


def test_every_proposal_of_a_sheet_is_one_that_the_page_takes(told_sheets):
    """A fix of the mast is among them: its wall is written as typed, and can be undone."""
    asked = set()
    for html in told_sheets.values():
        for found in re.findall(r'data-propose="([^"]+)"', html):
            edit = json.loads(unescape(found))
            read = read_message(json.dumps({"seq": 1, "edit": {"kind": "propose", "edit": edit}}))
            assert read.edit.edit is not None
            asked.add((edit["kind"], plain(edit.get("place", ""))))
    assert {("write", "support.mast.wall"), ("strengthen", "")} <= asked


def keys_at(form):
    for key in form.keys:
        yield key.place
        if key.table is not None:
            yield from keys_at(key.table)


def edit(**more):
    return read_message(json.dumps({"seq": 1, "edit": more})).edit


def test_a_form_is_one_step_of_undo():
    desk = fake_desk()
    asked = edit(kind="fill", place="line", values={"type": "RG-213", "length": "40 m"},
                 assumed=["type"])  # fmt: skip
    assert isinstance(asked, Fill)
    desk.apply(asked, gesture=0)
    assert desk.plan.line.length == 40.0
    assert desk.undo_label == "line written"
    desk.apply(edit(kind="confirm", place="line.type"), gesture=0)
    assert "assumed" not in desk.text
    desk.apply(edit(kind="take-out", place="beam[0].element[2]"), gesture=0)
    assert desk.undo_label == "director 1 taken out"
    desk.apply(edit(kind="act", action="undo"), gesture=0)
    desk.apply(edit(kind="act", action="undo"), gesture=0)
    desk.apply(edit(kind="act", action="undo"), gesture=0)
    assert desk.text == PLAN


def test_an_element_of_one_diameter_has_a_field_for_its_wall():
    desk = fake_desk()
    form, _ = table_form(desk.text, "beam[0].element[2]", system="metric")
    (half,) = (each for each in form.keys if each.key == "half")
    diameter, length, wall = half.first
    assert (diameter, length, wall) == ("22 mm", "4810 mm", "")
    rows = [[diameter, length, "1.5 mm"]]
    desk.apply(Fill(place="beam[0].element[2]", values={"half": rows}), gesture=0)
    director = desk.plan.beams[0].elements[2]
    assert director.half[0].wall == pytest.approx(0.0015)
    assert director.length == pytest.approx(9.62)


def test_what_the_plan_refuses_changes_nothing():
    desk = fake_desk()
    with pytest.raises(PlanError) as refused:
        desk.apply(Fill(place="line", values={"type": "RG-213", "length": "40"}), gesture=0)
    assert [fault.path for fault in refused.value.faults] == ["line.length"]
    with pytest.raises(PlanError):
        desk.apply(TakeOut(place="beam[0].feed"), gesture=0)
    assert desk.text == PLAN


def test_faults_come_with_their_place_in_words():
    page = client()
    with page.websocket_connect(
        "ws://127.0.0.1:8765/feed/live", headers={"origin": "http://127.0.0.1:8765"}
    ) as live:
        values = {"half": [["25.4 mm", "1.8 furlong"]]}
        ask = {"kind": "fill", "place": "beam[0].element[1]", "values": values}
        live.send_text(json.dumps({"seq": 1, "edit": ask}))
        for _ in range(10):
            answer = live.receive_json()
            if answer.get("refusals"):
                break
    (refusal,) = answer["refusals"]
    assert refusal["form"]
    assert refusal["faults"][0]["path"] == "beam[0].element[1].half[0][1]"
    assert refusal["faults"][0]["where"] == "driven element, tube 1, exposed length"


def test_a_remedy_names_tables_keys_and_values_in_words():
    text = packaged_text("demo.toml").replace(
        "[support.tube]", '[support.tower]\nsource = "maker"\n\n[support.tube]'
    )
    text = re.sub(r"ground_crew = \d", 'ground_crew = "three"', text)
    with pytest.raises(PlanError) as refused:
        read_plan(text)
    remedies = [metric(fault.remedy) for fault in refused.value.faults]
    assert "keep [support.tower] or [support.tube], not both" in remedies
    faults = told(refused.value, text).faults
    assert "keep the tower or the tube, not both" in [fault.remedy for fault in faults]
    (crew,) = (fault for fault in faults if fault.path == "raising.ground_crew")
    assert crew.message == "this is not a whole number"
    assert crew.remedy == "write a whole number from 0 to 100"


@pytest.mark.parametrize(
    "ask",
    [
        {"kind": "fill", "place": "boomwright", "values": {}},
        {"kind": "fill", "place": "beam[0", "values": {}},
        {"kind": "fill", "place": "line", "values": {"type": 3}},
        {"kind": "fill", "place": "line", "values": {"type": "x" * 201}},
        {"kind": "fill", "place": "line", "values": {"type": "a\nb"}},
        {"kind": "fill", "place": "line", "values": [[[[[[["deep"]]]]]]]},
        {"kind": "fill", "place": "line", "values": {"choke": [[[[[["deep"]]]]]]}},
        {"kind": "fill", "place": "line", "values": {"choke": ["1"] * 500}},
        {"kind": "fill", "place": "line", "values": {}, "assumed": "type"},
        {"kind": "shift", "place": "beam[0].element[0]", "by": 7},
        {"kind": "take-out", "place": 4},
    ],
)
def test_a_message_outside_the_pages_own_rules_is_refused(ask):
    with pytest.raises(MessageError):
        edit(**ask)


def test_a_key_that_no_plan_has_is_refused_with_its_name():
    desk = fake_desk()
    with pytest.raises(PlanError) as refused:
        desk.apply(Fill(place="line", values={"colour": "red"}), gesture=0)
    assert refused.value.faults[0].path == "line.colour"


def test_hostile_words_stay_text_in_forms_and_tables():
    hostile = PLAN.replace('"20m"', '"<img src=x onerror=alert(1)>"')
    page = client(hostile)
    for address in ("/tables?sheet=beam", "/form?place=beam[0]"):
        assert "<img src=x" not in page.get(address).text


def test_a_place_that_is_none_is_answered_as_bad_input():
    page = client()
    assert page.get("/form", params={"place": "nothing.at.all"}).status_code == 422
    for place in ("beam[0", "boomwright", "<b>"):
        answer = page.get("/form", params={"place": place})
        assert answer.status_code == 422, place
        assert "<b>" not in answer.text
    assert page.get("/tables", params={"sheet": "nowhere"}).text.strip() == "<ul>\n</ul>"


def test_what_is_assumed_is_asked_in_the_verdict():
    text = PLAN + '\n[line]\ntype = "RG-213"  # assumed\nlength = "40 m"\n'
    asked = [each for each in judge_plan(read_plan(text)).findings if _assumed(each)]
    assert [(each.subject, each.verdict) for each in asked] == [("build", "ask")]
    assert "line, type" in str(asked[0].reason)
    assert not [each for each in judge_plan(read_plan(PLAN)).findings if _assumed(each)]


def _assumed(finding: Finding) -> bool:
    return finding.name == "values that are assumed"


def test_the_beam_in_view_may_be_taken_out():
    second = PLAN[PLAN.index("[[beam]]") :].replace('"20m"', '"15m"')
    page = client(f"{PLAN}\n{second}")
    own = {"origin": "http://127.0.0.1:8765"}
    with page.websocket_connect("ws://127.0.0.1:8765/beam/live?of=1", headers=own) as live:
        live.send_text(json.dumps({"seq": 1, "edit": {"kind": "take-out", "place": "beam[1]"}}))
        for _ in range(10):
            answer = live.receive_json()
            if answer.get("refusals"):
                break
    assert answer["refusals"][0]["faults"] == []
    assert answer["beams"] == 1
    assert page.get("/tables", params={"sheet": "structure"}).status_code == 200


def values_of(form):
    """Everything that stands in a form, as its page would send it."""
    return {key.key: _value_of(key) for key in form.keys}


def _value_of(key):
    if key.table is not None and (key.table.written or key.input == "table"):
        return values_of(key.table)
    if key.input in {"row", "rows"}:
        rows = [list(row) for row in key.rows]
        return rows[0] if key.input == "row" else rows
    return key.text


@pytest.mark.parametrize("text", [FULL, *STATIONS], ids=lambda text: text.split('"')[1][:30])
def test_a_form_written_as_it_stands_changes_not_a_letter(text):
    """Every table of a station: remarks, units, order, inline tables, lists over several lines."""
    count = 0
    for slug in SLUGS:
        for place in places_of(*sheet_tables(text, slug=slug, beam=0), slug):
            form, _ = table_form(text, place, system="us")
            if form.written:
                path = split_path(form.place) if form.place else ()
                assert fill(text, path, values_of(form)) == text, place
                count += 1
    assert count > 8
