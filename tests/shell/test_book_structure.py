"""Structure and permits in the book: margins, ice, loads, reminders, findings, sources."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from boomwright.base.quantity import write
from boomwright.plan import read_plan
from boomwright.render.book.citations import Citations
from boomwright.render.book.typesetting import make_book
from boomwright.render.rows import text_table
from boomwright.report.structure.cases import load_cases
from boomwright.session.book import read_sources, shown_permits, shown_structure
from boomwright.study.permits import permit_plan
from boomwright.study.structure import structure_plan
from boomwright.study.verdict import judge_plan
from example_stations import station_text
from fakes.readings import fake_readings

PEOPLE = """
[[permits.exposure]]
place = "bench in the garden"
distance = "12 m"
height = "1.5 m"

[transmitter]
power = "400 W"
emission = "morse"
"""


def station(start):
    return read_plan(station_text(start) + PEOPLE)


def make(plan, *, system):
    citations = Citations()
    stood, allowed = (
        show(plan, system=system, cite=citations) for show in (shown_structure, shown_permits)
    )
    register = read_sources()
    sources = {key: register[key]["reference"] for key in citations.listed()}
    return make_book(
        plan=plan, readings=tuple(fake_readings(beam=beam) for beam in plan.beams),
        verdict=judge_plan(plan), version="0.1.0", digest="3f9a" * 4, sources=sources,
        citations=citations, system=system, structure=stood, permits=allowed, parts=("annex",),
    )["annex"]  # fmt: skip


def words_of(pdf):
    # From the structure chapter to the end: reading the beam's pages takes as long again.
    paper = PdfReader(io.BytesIO(pdf))
    chapters = [each for each in paper.outline if not isinstance(each, list)]
    (start,) = (each for each in chapters if each.title.endswith("Structure"))
    pages = paper.pages[paper.get_destination_page_number(start) :]
    return re.sub(r"[\s\u200b\u2060]", "", "".join(page.extract_text() for page in pages))


def squeezed(text):
    return re.sub(r"\s", "", text)


@pytest.fixture(scope="module")
def metric():
    return words_of(make(station("05"), system="metric"))


def told(book_text, *texts):
    missing = [text for text in texts if squeezed(text) not in book_text]
    assert missing == []


def test_the_ledger_is_whole_with_every_basis(metric):
    report = structure_plan(station("05"), fixes=False).report
    cases = load_cases(
        (line.basis for line in report.ledger), wind=report.basis, below=report.below
    )
    for line in report.ledger:
        told(metric, write(line.name, system="metric"))
        # What several lines rest on stands once, as a case; sources are numbers on paper.
        told(re.sub(r"\[\d+\]", "", metric), write(cases.name_in(line.basis), system="metric"))
    for _, said in text_table(cases.table(), system="metric").rows:
        told(re.sub(r"\[\d+\]", "", metric), said)
    for text in ("exposure C", "ASCE 7-16", "D + Di + Wi in full", "ice 12.0 mm",
                 "guys hang as cables"):  # fmt: skip
        told(metric, text)


def test_what_must_be_carried_bare_and_iced_is_on_paper(metric):
    told(
        metric, "Guys at 29.00 m, iced", "Footing, moment, iced", "moment of inertia",
        "Rotator, torque to stop", "within 0.5 s", "a vane of", "Rotator, side force",
        "wind area in the three conventions", "Flat plate, 2/3", "Older sum rule",
        "modes and the steady wind that excites each", "Mode 4",
    )  # fmt: skip


def test_the_reminders_are_on_paper(metric):
    told(
        metric, "Elements that sing in light wind", "loose synthetic rope",
        "Ice maps show freezing rain only", "Nobody stays under an iced beam",
        "Lightning and earthing", "Before buying or climbing a used tower",
        "Reject bent, cracked, re-drilled or welded members", "Stainless bolts in aluminium",
        "Drain every tube",
    )  # fmt: skip


def test_sources_are_numbered_and_those_from_memory_listed(metric):
    found = re.search(r"Kd0\.95\(frommemory\[(\d+)\]\)", metric)
    assert found
    told(metric, f"[{found.group(1)}] ANSI/TIA-222-G, table 2-2: directionality")
    told(metric, "Young's modulus of galvanized 7-wire strand")
    told(metric, "Values from memory")


def test_permits_carry_the_exposure_with_margin_and_the_picture(metric):
    findings = permit_plan(station("05")).sheet.findings
    exposure = [f for f in findings if "bench" in f.subject]
    assert len(exposure) >= 2
    told(metric, *(f.value for f in exposure), "Station from the side, to scale",
         "Notice surfaces of airports", "the Federal Communications Commission")  # fmt: skip


def test_us_units_are_first_class():
    plan = station("05")
    (chapter,) = shown_structure(plan, system="us")
    cells = [cell for each in chapter.tables for row in each.table.rows for cell in row]
    cells += [word for each in chapter.tables for word in each.table.header]
    text = squeezed(" ".join(cells))
    told(text, "ksi", "lbf ft", "2.000", "0.126", "With ice, worst at", "ft²", "psf", "mph")
    ledger = structure_plan(plan, fixes=False).report.ledger
    first = next(line for line in ledger if line.unit == "MPa")
    told(text, f"{first.demand / 6.894757293168361:.3g} ksi")
    assert "MPa" not in " ".join(each.table.header[3] for each in chapter.tables[:2])
