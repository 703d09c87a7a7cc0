"""One verdict, said the same by terminal, JSON, page header and book; strict; stamps on files."""

from __future__ import annotations

import csv
import html
import io
import json
import os
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from boomwright.base import exceeded_texts, verdict_text
from boomwright.base.quantity import write
from boomwright.base.verdict_text import use_text
from boomwright.base.verdicts import NOT_AN_APPROVAL
from boomwright.render.book.contents import book_contents
from boomwright.render.book.typesetting import make_book
from boomwright.session.files import PlanFolder, load_plan, packaged_text
from boomwright.study.verdict import judge_plan
from example_stations import STATIONS, station
from fakes.client import client_of
from fakes.desk import PLAN, desk_on
from fakes.readings import fake_readings

#: every other one; ``BOOMWRIGHT_PLANS`` takes all
SOME = STATIONS if "BOOMWRIGHT_PLANS" in os.environ else STATIONS[1::2]
DEMO = packaged_text("demo.toml")
COMMANDS = ("structure", "permits", "cost", "raise")


def client(path):
    return client_of(desk_on(path))


def squeezed(text):
    return re.sub(r"[\s\u200b\u2060]", "", text)


def told_of(verdict):
    """Say a verdict from its JSON alone, in the words that every reader must use."""
    counts, word = verdict["counts"], verdict["word"]
    parts = [f"{counts[name]} {said}" for name, said in (
        ("exceeded", "exceeded"), ("not checked", "not checked"), ("ask", "to ask")) if counts[name]
    ]  # fmt: skip
    if not parts:
        return f"Verdict: within. {NOT_AN_APPROVAL.capitalize()}."
    number, _, rest = parts[0].partition(" ")
    noun = ("check" if counts["exceeded"] else "point") + ("" if number == "1" else "s")
    word = "not fully checked" if word == "not checked" else word
    return f"Verdict: {word}. {', '.join([f'{number} {noun} {rest}', *parts[1:]])}."


def shares_of(verdict):
    """Give name, share and remedy of every exceeded check that has a share, from JSON alone."""
    return [
        f"{line['name']}, {use_text(line['use'])} of its limit. Next: {line['change']}."
        for line in verdict["worst"]
        if line["verdict"] == "exceeded" and line["use"] is not None
    ]


@pytest.mark.parametrize("path", SOME, ids=lambda path: path.stem)
def test_terminal_json_page_and_book_say_the_same(shell, path):
    documents = {name: json.loads(shell(name, path, "--json").out) for name in COMMANDS}
    assert [next(iter(document)) for document in documents.values()] == ["verdict"] * 4
    verdict = documents["structure"]["verdict"]
    assert all(document["verdict"] == verdict for document in documents.values())
    assert set(verdict) == {"word", "counts", "worst"}
    assert all(set(line) == {"name", "verdict", "use", "change"} for line in verdict["worst"])
    said, shares = told_of(verdict), shares_of(verdict)
    exceeded = [line for line in verdict["worst"] if line["verdict"] == "exceeded"]

    for name in COMMANDS:
        out = shell(name, path).out
        assert out.splitlines()[0].strip() == said, name
        head = squeezed(out[: out.index(documents_title(path))])
        assert [share for share in shares if squeezed(share) not in head] == [], name
        assert all(squeezed(line["name"]) in head for line in exceeded)

    page = client(path)
    frame = page.get("/beam.json").json()["frame"]
    shown = page.get("/structure").text
    assert frame["verdict"]["text"] == said
    assert said in html.unescape(shown)
    assert frame["verdict"]["word"] == verdict["word"]
    assert len(frame["verdict"]["exceeded"]) == verdict["counts"]["exceeded"]
    texts = [line["text"] for line in frame["verdict"]["exceeded"]]
    plan = load_plan(path).plan
    judged = judge_plan(plan, files=PlanFolder(path.parent))
    # The page has a button where others read the name of a key.
    assert texts == list(exceeded_texts(judged, system="metric", forms=True))
    first = book_contents(
        plan=plan, readings=[fake_readings(beam=beam) for beam in plan.beams],
        verdict=judged, system="metric", paper="a4", issued="",
        version="0", digest="", sources={},
    )["verdict"]  # fmt: skip
    assert (first["word"], first["text"]) == (verdict["word"], said)
    assert first["exceeded"] == list(exceeded_texts(judged, system="metric"))
    assert [share for share in shares if share not in first["exceeded"]] == []


def documents_title(path):
    return load_plan(path).plan.title


@pytest.mark.parametrize("start", ["06", "10"])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_page_one_of_the_book_and_the_head_of_every_sheet(start, system):
    path = station(start)
    plan = load_plan(path).plan
    verdict = judge_plan(plan)
    parts = make_book(
        plan=plan, readings=[fake_readings(beam=beam) for beam in plan.beams], verdict=verdict,
        version="0", digest="3f9a" * 4, sources={}, system=system, parts=("book", "annex"),
    )  # fmt: skip
    read = {part: PdfReader(io.BytesIO(pdf)).pages for part, pdf in parts.items()}
    first, annex = (squeezed(pages[0].extract_text()) for pages in read.values())
    others = [squeezed(page.extract_text()) for pages in read.values() for page in pages[1:]]
    assert squeezed("Verdict: exceeded.") in annex
    over = [one for one in verdict.worst if one.verdict == "exceeded"]
    assert len(over) >= 5
    assert squeezed(f"Verdict: exceeded. {len(over)} checks exceeded") in first
    for one in over:
        name, change = (write(each, system=system) for each in (one.name, one.change))
        assert squeezed(name) in first
        assert one.use is None or squeezed(f"{use_text(one.use)} of its limit") in first
        assert squeezed(f"Next: {change.split(' (')[0]}") in first
    # Sizes stand in the reader's own unit alone.
    assert bool(re.search(r"section\d\([\d.]+mm,", first)) is (system == "metric")
    assert bool(re.search(r"section\d\([\d.]+in,", first)) is (system == "us")
    assert others
    assert all("Nottobebuiltfrom:" in page for page in others)
    share = squeezed(f"{use_text(verdict.beam_may_fall[0].use)} of its limit")
    assert all(share in page for page in others)


def test_a_book_of_a_plan_that_holds_has_no_stamp():
    plan = load_plan(STATIONS[0]).plan
    pdf = make_book(
        plan=plan, readings=[fake_readings(beam=plan.beams[0])], verdict=judge_plan(plan),
        version="0", digest="3f9a" * 4, sources={}, parts=("book",),
    )["book"]  # fmt: skip
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    assert not [page for page in pages if "Not to be built from" in page]


@pytest.mark.parametrize(
    ("command", "start", "status"),
    [
        # Nothing can be checked with what station 09 says; station 08 has two open lines.
        ("structure", "09", 3), ("structure", "08", 3), ("structure", "01", 0),
        ("raise", "09", 3), ("raise", "06", 3), ("raise", "01", 0),
    ],
)  # fmt: skip
def test_strict_ends_with_three_while_the_beam_may_come_down(shell, command, start, status):
    path = station(start)
    ran = shell(command, path, "--strict")
    assert ran.status == status
    assert bool(ran.err) is (status == 3)
    if start == "09":
        assert "not checked, because" in ran.err
        assert "limit exceeded" not in ran.err
    if start == "06":
        assert "289 % of its limit" in ran.err


def test_the_demo_without_its_wind_is_no_lift_under_strict(shell, tmp_path):
    path = tmp_path / "plan.toml"
    still = re.sub(r"^wind = .*\n", "", DEMO, flags=re.M)
    path.write_text(re.sub(r"\[site\.wind_basis\](\n\S.*)+", "", still), encoding="utf-8")
    for command in ("structure", "raise"):
        ran = shell(command, path, "--strict", *(("--date", "2026-11-25") * (command == "raise")))
        assert ran.status == 3
        assert "no wind speed" in ran.err


def test_a_strict_book_ends_with_three_and_its_files_are_stamped(shell, tmp_path):
    path = tmp_path / "plan.toml"
    path.write_text(PLAN, encoding="utf-8")
    ran = shell(
        "book", path, "--points", 3, "--drawings", tmp_path, "--figures", tmp_path, "--json",
        "--strict",
    )  # fmt: skip
    assert ran.status == 3
    assert "not checked, because" in ran.err
    made = json.loads(ran.out)
    assert made["verdict"] == json.loads(shell("structure", path, "--json").out)["verdict"]
    stamp = "Not to be built from: "
    written = {Path(name).name: Path(name) for name in made["files"]}
    assert all(each.is_file() for each in written.values())
    rows = list(
        csv.reader(io.StringIO(written["20m-cut-list.csv"].read_text("utf-8")), strict=True)
    )
    # Its tubes have no walls: that stands first.
    assert rows[0][0].startswith("Not to be cut from: the wall is not given (1.1L")
    assert stamp in rows[0][0]
    assert set(rows[0][1:]) == {""}
    assert rows[1][0] == "element_number"
    assert len({len(row) for row in rows}) == 1
    drawings = [name for name in written if name.endswith(".dxf")]
    assert {"20m-plan-view.dxf", "20m-boom.dxf", "20m-element-1.dxf"} <= set(drawings)
    build = [name for name in written if name.endswith(".svg") and (
        f"{name[:-4]}.dxf" in drawings or "-element-" in name or "plan-view" in name)]  # fmt: skip
    for name in (*drawings, *build, "reminders.ics"):
        assert stamp[:-2] in written[name].read_text("utf-8").replace("\r\n ", ""), name
    for name in ("book.pdf", "book-annex.pdf", "book-pocket.pdf"):
        last = PdfReader(written[name]).pages[-1]
        assert squeezed(stamp) in squeezed(last.extract_text()), name


def test_files_of_a_plan_that_holds_have_no_stamp(tmp_path):
    asked = client(STATIONS[0])
    for address in ("/cut-list.csv", "/plan-view.dxf"):
        assert "Not to be built" not in asked.get(address).text
    stamped = client(STATIONS[3])
    for address in ("/cut-list.csv", "/plan-view.dxf"):
        assert "Not to be built from: base: pressure on the soil, 172 %" in (
            stamped.get(address).text
        )


@pytest.mark.parametrize("sheet", ["build", "raising"])
def test_build_and_raising_sheets_of_the_page_begin_with_the_stamp(sheet):
    stamp = "Not to be built from: base: pressure on the soil, 172 % of its limit (3 exceeded"
    first = client(STATIONS[3]).get(f"/{sheet}.json").json()["blocks"][0]
    assert (first["kind"], first["tone"]) == ("words", "stamp")
    assert first["text"].startswith(stamp)
    other = client(STATIONS[0]).get(f"/{sheet}.json").json()["blocks"][0]
    assert "Not to be built" not in other["text"]


@pytest.mark.parametrize("path", SOME, ids=lambda path: path.stem)
def test_no_tab_looks_neutral_while_its_subject_is_not_within(shell, path):
    page = client(path)
    before = page.get("/beam").text
    # Not judged yet: no tab of the four may look done.
    for slug in ("structure", "permits", "cost", "raising"):
        assert re.search(rf'href="/{slug}"[^>]*data-mark="doubtful"', before)
    assert 'data-word=""' in before
    links = page.get("/beam.json").json()["frame"]["sheets"]
    marks = {link["address"][1:]: link["mark"] for link in links}
    verdict = judge_plan(load_plan(path).plan, files=PlanFolder(path.parent))
    after = page.get("/beam").text
    for subject in ("structure", "permits", "raising"):
        part = verdict.of(subject)
        if part.word == "within":
            continue
        assert marks[subject]["state"] == part.word
        assert marks[subject]["tally"].split()[0] == str(part.counts[part.word])
        assert re.search(rf'href="/{subject}"[^>]*data-mark="{part.word}"', after)
        assert f">{marks[subject]['tally']}</span>" in after
    assert (marks["build"]["state"] == "done") <= (not verdict.beam_may_fall)


def test_the_page_to_show_others_carries_the_verdict():
    shown = client(STATIONS[9]).get("/share.html").text
    verdict = judge_plan(load_plan(STATIONS[9]).plan)
    assert verdict_text(verdict) in shown
    for line in exceeded_texts(verdict, system="metric", forms=True):
        assert html.escape(line, quote=False).replace("'", "&#39;") in shown
