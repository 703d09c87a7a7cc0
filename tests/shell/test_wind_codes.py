"""Stations outside the United States: their own code in every command, in the book, on the page."""

from __future__ import annotations

import json

import pytest

from boomwright.base import PlanError
from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.report.site import wind_told
from boomwright.session.book import shown_structure
from boomwright.session.files import load_plan
from boomwright.study.structure import structure_plan
from boomwright.web.edits import read_message
from boomwright.web.sheets import STRUCTURE
from example_stations import STATIONS, station
from fakes.desk import fake_desk
from fakes.told import told

#: station -> words that name its wind everywhere
WORDS = {
    "01": ("basic speed 23.5 m/s 10 min mean", "terrain III", "BS EN 1991-1-4"),
    "02": ("basic speed 25.0 m/s 10 min mean", "terrain III", "DIN EN 1991-1-4"),
    "03": ("basic speed 24.0 m/s 10 min mean", "terrain II", "NF EN 1991-1-4"),
    "08": ("peak pressure 1.15 kPa at 5.0 m", "SIA 261", "the club's engineer"),
    "11": ("basic speed 22.5 m/s 10 min mean", "terrain III", "BS EN 1991-1-4"),
    "12": ("basic speed 22.5 m/s 10 min mean", "terrain III", "DIN EN 1991-1-4"),
    "10": ("basic speed 28.5 m/s 10 min mean", "terrain 0", "BS EN 1991-1-4"),
}
EVERY = pytest.mark.parametrize("start", list(WORDS))


def test_british_german_and_french_stations_take_their_own_code():
    # By position: what lies in Europe names no American edition.
    for path in STATIONS:
        plan = load_plan(path).plan
        site = plan.site
        if site.longitude is not None and -0.3 < site.longitude < 0.4:
            assert path.stem[:2] in WORDS
            assert not site.wind_basis.edition.startswith(("ASCE", "TIA"))


@EVERY
def test_structure_prints_and_documents_the_wind(shell, start):
    ran = shell("structure", station(start), "--full")
    printed = " ".join(ran.out.split())
    ran = shell("structure", station(start), "--json")
    document = json.loads(ran.out, parse_constant=lambda name: pytest.fail(name))
    assert document["gusts"]["factor"] >= 1.0
    assert document["method"] == "partial factors"
    told = [line["basis"] for line in document["ledger"] if "in wind" in line["name"]]
    assert told
    for word in WORDS[start]:
        assert word in printed
        assert word in document["basis"]
        assert all(word in basis for basis in told)
    assert not any("3 s gust" in basis for basis in told)


@EVERY
@pytest.mark.parametrize("command", ["raise", "cost", "permits"])
def test_the_other_commands_run_as_before(shell, start, command):
    ran = shell(command, station(start), "--json")
    assert ran.err == ""
    assert ran.status in {0, 3}
    assert json.loads(ran.out, parse_constant=lambda name: pytest.fail(name))


@EVERY
def test_the_book_names_the_wind_among_its_inputs_and_beside_its_margins(start):
    plan = load_plan(station(start)).plan
    text = write(wind_told(plan.site), system="metric")
    expected = WORDS[start][2] if start != "08" else "SIA 261"
    assert expected in text
    assert "3 s gust" not in text
    told = [table.note for subject in shown_structure(plan, system="metric")
            for table in subject.tables if table.name == "ledger"]  # fmt: skip
    assert told
    for word in WORDS[start]:
        assert all(word in note for note in told)


def _view():
    from boomwright.web.view import View

    return View()


def asked(desk):
    context = STRUCTURE.context(desk, _view(), whole=False)
    return {each.value.place: (each.value.text, each.hint) for each in context.asked}


def typed(desk, place, text):
    edit = {"kind": "write", "place": place, "text": text}
    desk.apply(read_message(json.dumps({"seq": 1, "edit": edit})).edit, gesture=0)


def test_the_page_asks_for_what_the_code_needs():
    european = asked(fake_desk(station("03").read_text(encoding="utf-8")))
    assert european["site.wind"][1].startswith("basic speed, 10 min mean")
    assert european["site.wind_basis.terrain"][0] == "II"
    assert european["site.wind_basis.orography"][0] == "1"
    assert "site.wind_basis.exposure" not in european
    stated = asked(fake_desk(station("08").read_text(encoding="utf-8")))
    assert stated["site.wind_basis.by"][0] == "the club's engineer, 2026-03-01"
    assert "site.wind" not in stated
    american = asked(fake_desk(station("05").read_text(encoding="utf-8")))
    assert american["site.wind_basis.exposure"][0] == "C"
    assert "site.wind_basis.terrain" not in american


def test_an_owner_changes_the_code_of_the_site_by_typing():
    desk = fake_desk(station("05").read_text(encoding="utf-8"))
    for place, text in (
        ("site.wind_basis.edition", "EN 1991-1-4"),
        ("site.wind_basis.kind", "characteristic"),
        ("site.wind_basis.terrain", "II"),
        ("site.wind_basis.orography", "1.1"),
        ("site.wind", "26 m/s"),
    ):
        typed(desk, place, text)
    rows = asked(desk)
    assert "empty it" in rows["site.wind_basis.exposure"][1]
    typed(desk, "site.wind_basis.exposure", "")
    assert "site.wind_basis.exposure" not in asked(desk)
    report = structure_plan(read_plan(desk.text), fixes=False).report
    assert "basic speed 26.0 m/s 10 min mean, terrain II, EN 1991-1-4, co 1.1" in told(report.basis)
    for place, text in (("site.wind_basis.terrain", "V"), ("site.wind_basis.orography", "much")):
        with pytest.raises(PlanError):
            typed(desk, place, text)
