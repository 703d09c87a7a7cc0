"""The PDF book, opened with pypdf: what is on paper, for plain and for hostile input."""

from __future__ import annotations

import functools
import hashlib
import io
import math
import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from boomwright.base import BoomwrightError, Notice, plan_verdict
from boomwright.parts import TubeSection, Wire
from boomwright.plan import Plan, Site
from boomwright.render.book.typesetting import make_book
from boomwright.solver import FREE_SPACE, GROUND_CLASSES
from fakes.readings import fake_beam, fake_beam_of, fake_readings, shop_of

SOURCES = {
    "itu-p527": "Recommendation ITU-R P.527-3, Electrical characteristics of the Earth, 1992.",
    "nist-sp-811": "NIST Special Publication 811, 2008.",
}
CAUTION = Notice(
    code="reach.field-at-window",
    text="Keep people away from the beam while it transmits; see the exposure rules in force.",
    severity="caution",
    value="31 V/m",
    limit="28 V/m",
    source="itu-p527",
)


def _book(*readings, part="annex", title="Three elements at the club hut", site=None, **more):
    """Set one part; a beam's figures stand in the annex."""
    site = site or Site(ground=GROUND_CLASSES["medium dry"], latitude=0.911, longitude=-0.0017)
    plan = Plan(title=title, site=site, beams=tuple(one.beam for one in readings))
    given = {
        "verdict": plan_verdict([]),
        "version": "0.1.0",
        "digest": "3f9a" * 16,
        "sources": SOURCES,
        **more,
    }
    return make_book(plan=plan, readings=readings, parts=(part,), **given)[part]


def _squeezed(text: str) -> str:
    return re.sub(r"[\s\u200b\u2060]", "", text)


@functools.cache
def _words(pdf: bytes) -> str:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def _text(pdf: bytes) -> str:
    return _squeezed(_words(pdf))


def _fonts(pdf: bytes) -> set[str]:
    names = set()
    for page in PdfReader(io.BytesIO(pdf)).pages:
        fonts = page["/Resources"].get_object().get("/Font", {})
        names |= {str(font.get_object()["/BaseFont"]).split("+")[-1] for font in fonts.values()}
        for form in page["/Resources"].get_object().get("/XObject", {}).values():
            inner = form.get_object().get("/Resources", {}).get("/Font", {})
            names |= {str(f.get_object()["/BaseFont"]).split("+")[-1] for f in inner.values()}
    return names


@pytest.fixture(scope="module")
def plain() -> bytes:
    readings = fake_readings()
    return _book(replace(readings, notices=(*readings.notices, CAUTION)), issued="issue B")


def test_pages_are_numbered_and_there_are_as_many_as_the_content_needs(plain):
    pages = PdfReader(io.BytesIO(plain)).pages
    assert 10 <= len(pages) <= 18
    for number, page in enumerate(pages, start=1):
        assert _squeezed(f"Page {number} of {len(pages)}") in _squeezed(page.extract_text())


def test_first_pages_name_site_beam_version_digest_issue_and_cautions():
    readings = fake_readings()
    readings = replace(readings, notices=(*readings.notices, CAUTION))
    pages = PdfReader(io.BytesIO(_book(readings, part="book", issued="issue B"))).pages
    first = _squeezed(pages[0].extract_text() + pages[1].extract_text())
    for text in (
        "Three elements at the club hut",
        "52.1965° N",
        "0.0974° W",
        "medium dry (relative permittivity 15, conductivity 1 mS/m)",
        "14.000 MHz to 14.350 MHz",
        "14.175 MHz",
        "16.00 m, 0.76 wavelengths",
        "300.0° from true north",
        "boomwright 0.1.0",
        "3f9a" * 16,
        "Issued issue B",
        CAUTION.text,
    ):
        assert _squeezed(text) in first


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_dimension_is_printed_in_the_readers_units_alone(system):
    beam = fake_beam_of(elements=12, design_frequency=28.5e6)
    text = _text(_book(fake_readings(beam=beam), system=system))
    for shop in shop_of(beam):
        cut = shop.cut
        lengths = [cut.from_rear, cut.from_front, cut.half_length, cut.full_length]
        lengths += [length for tube in shop.tubes for length in (tube.exposed, tube.reaches)]
        for length in lengths:
            metric, us = str(length.millimetres), _squeezed(length.us_text)
            assert (metric if system == "metric" else us) in text
    assert bool(re.search(r"\dft\d", text)) == (system == "us")


def test_a_row_of_the_tube_table_stands_together_in_the_readers_order(plain):
    metric, us = "125.4018301830", "11.0006ft1/16in6ft1/16in"
    assert metric in _text(plain)
    assert us in _text(_book(fake_readings(), system="us"))


def test_figures_and_tables_agree_where_rounding_tube_by_tube_would_not():
    half = tuple(TubeSection(diameter=0.02, length=0.3336) for _ in range(3))
    beam = fake_beam()
    driven = replace(beam.elements[1], half=tuple(replace(s, length=1.7106) for s in half))
    beam = replace(beam, elements=(beam.elements[0], driven, beam.elements[2]))
    text = _text(_book(fake_readings(beam=beam)))
    # 1710.6, 3421.2, 5131.8 mm from the boom: tubes of 1711, 1710, 1711 mm.
    assert "171117105132" not in text
    assert text.count("1710") >= 2
    assert "5132" in text


def test_summary_gives_each_figure_with_its_band():
    readings = fake_readings()
    text = _text(_book(readings, part="book"))
    point = readings.free_space
    assert _squeezed(f"{point.gain_dbi:.2f} ± 0.05 dBi") in text
    assert _squeezed(f"{point.front_to_back_db:.1f} ± 0.8 dB") in text
    worst = max(readings.sweep, key=lambda one: one.swr)
    assert (
        _squeezed(f"{worst.swr:.2f} ± {math.ceil(worst.swr_error * 100 - 1e-9) / 100:.2f}") in text
    )
    assert _squeezed(f"{readings.over_ground.peak_elevation_deg:.1f}°") in text


def test_every_frequency_of_the_sweep_is_printed(plain):
    text = _text(plain)
    for point in fake_readings().sweep:
        assert f"{point.frequency / 1e6:.3f}{point.impedance.real:.1f}" in text


def test_every_notice_is_printed_with_what_was_seen_and_its_source(plain):
    text = _text(plain)
    for notice in (*fake_readings().notices, CAUTION):
        assert _squeezed(notice.text) in text
        assert notice.code in text
    assert _squeezed("your value: 31 V/m") in text
    assert _squeezed("limit: 28 V/m") in text
    assert _squeezed("source [1]") in text
    assert _squeezed("[1] " + SOURCES["itu-p527"]) in text
    assert _squeezed("[2] " + SOURCES["nist-sp-811"]) in text


def test_doubts_about_the_plan_are_printed_once():
    site = Site(ground=GROUND_CLASSES["wet"], wind_speed=40.0)
    text = _text(_book(fake_readings(), site=site))
    assert text.count("plan.wind-kind-unsaid") == 1


def test_usual_cautions_defer_to_codes_and_no_part_says_safe(plain):
    book = _book(fake_readings(), part="book")
    text = _text(book)
    for subject in ("Power lines", "Work at height", "Radio-frequency exposure", "Lightning"):
        assert _squeezed(subject) in text
    assert _squeezed("Local codes") in text
    for part in (plain, book):
        assert not re.search(r"\bsafe\b", _words(part), re.IGNORECASE)


def test_the_same_input_gives_the_same_bytes_and_no_clock_is_read(plain):
    readings = fake_readings()
    again = _book(replace(readings, notices=(*readings.notices, CAUTION)), issued="issue B")
    assert again == plain
    about = PdfReader(io.BytesIO(plain)).metadata
    assert about.title == "Three elements at the club hut"
    assert about.creation_date is None or about.creation_date.year == 1970


def test_another_process_sets_the_same_bytes():
    program = (
        "import sys, hashlib; sys.path.insert(0, sys.argv[1])\n"
        "from shell.test_book_pdf import _book, fake_readings\n"
        "print(hashlib.sha256(_book(fake_readings())).hexdigest())"
    )
    tests = str(Path(__file__).parents[1])
    made = subprocess.run(
        [sys.executable, "-c", program, tests],
        env={**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo", "LANG": "C"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert made.stdout.strip() == hashlib.sha256(_book(fake_readings())).hexdigest()


def test_nothing_is_written_to_disk(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    _book(fake_readings(), part="book")
    assert list(tmp_path.iterdir()) == []


def test_only_packaged_fonts_are_used(plain):
    families = {re.split(r"[-]", name.lstrip("/"))[0] for name in _fonts(plain)}
    assert "Roboto" in families
    assert families <= {"Roboto", "DejaVuSansMono", "LibertinusSerif", "NewCMMath"}


@pytest.mark.parametrize(
    "title",
    [
        "#panic() #{1+1} $x^2$ ] [ } {",
        "\\ \\u{41} \"quoted\" 'single' `raw`",
        "*bold* _it_ = head <label> @ref // no /* comment */ ~ --- ...",
        '#image("/etc/passwd") #read("x") #import "@preview/x:1.0.0"',
        "&amp; <svg onload=x> %PDF-1.7 %s {0} ${HOME}",
        "Ørsted — Ålesund, Řež, Żółw; Ελλάδα; Москва; 50 Ω ± 2 °",
    ],
)
def test_owner_text_is_printed_literally(title):
    beam = replace(fake_beam(), name=title)
    notice = Notice(code="x.y", text=f"About {title}", value=title)
    readings = replace(fake_readings(beam=beam), notices=(notice,))
    pdf = _book(readings, part="book", title=title, digest=title, version=title, issued=title)
    text = _text(pdf)
    assert text.count(_squeezed(title)) >= 8
    assert PdfReader(io.BytesIO(pdf)).metadata.title == title


@settings(max_examples=15, deadline=None)
@given(st.text(max_size=60), st.sampled_from(("annex", "book", "book", "pocket")))
def test_any_text_at_all_makes_a_book(text, part):
    pdf = _book(fake_readings(beam=replace(fake_beam(), name=text)), title=text, part=part)
    least = {"annex": 10, "book": 4, "pocket": 1}[part]
    assert len(PdfReader(io.BytesIO(pdf)).pages) >= least


def test_the_file_claims_accessibility_and_is_tagged(plain):
    root = PdfReader(io.BytesIO(plain)).trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"]
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()


def test_control_characters_and_line_breaks_become_spaces():
    text = _text(_book(fake_readings(), part="book", title="one\r\ntwo\x00\x1bthree\u2028four"))
    assert "onetwothreefour" in text


def test_a_title_without_spaces_is_broken_not_cut():
    pdf = _book(fake_readings(), part="book", title="W" * 400)
    assert "W" * 400 in _text(pdf)
    assert 4 <= len(PdfReader(io.BytesIO(pdf)).pages) <= 8


def test_characters_beyond_the_fonts_are_owned_up_to():
    text = _text(_book(fake_readings(), title="東京 station"))
    assert "book.characters-outside-fonts" in text
    assert "book.characters-outside-fonts" not in _text(_book(fake_readings(), title="Zürich"))


def test_any_character_in_a_notice_or_a_reference_is_taken():
    odd = Notice(code="x.\u6771", text="about \u0301\U0001f4e1", source="k\u4eac")
    readings = replace(fake_readings(), notices=(odd,))
    text = _text(_book(readings, sources={"other": "\u2603 snow"}))
    assert "book.characters-outside-fonts" in text
    assert _squeezed("U+0301, U+2603") in text


def test_empty_title_still_makes_a_book():
    assert "Untitledplan" in _text(_book(fake_readings(), part="book", title="  "))


@pytest.mark.parametrize(
    ("paper", "size"), [("a4", (595.28, 841.89)), ("us-letter", (612.0, 792.0))]
)
def test_paper_sizes(paper, size):
    # ISO 216 A4 is 210 mm x 297 mm; US Letter is 8.5 in x 11 in; 72 points an inch.
    pages = PdfReader(io.BytesIO(_book(fake_readings(), part="book", paper=paper))).pages
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            size, abs=0.02
        )


def test_free_space_has_no_lobes_and_no_take_off_angle():
    text = _text(_book(fake_readings(over_ground=False), site=Site(ground=FREE_SPACE)))
    assert _squeezed("the plan says free space: no ground, no lobes") in text
    assert _squeezed("Over the ground") not in text


def test_further_wires_are_listed():
    wire = Wire(name="tail", diameter=0.002, points=[[0, 0, 0], [3.0, 4.0, 0.0]])
    text = _text(_book(fake_readings(beam=replace(fake_beam(), wires=(wire,)))))
    assert _squeezed("tail 2.00 mm 1 0.000 0.000 0.000") in text
    assert _squeezed("2 3.000 4.000 0.000 5000") in text


def test_walls_are_printed_when_the_plan_gives_them():
    beam = fake_beam()
    half = tuple(replace(section, wall=0.00147) for section in beam.elements[0].half)
    beam = replace(beam, elements=(replace(beam.elements[0], half=half), *beam.elements[1:]))
    text = _text(_book(fake_readings(beam=beam)))
    assert _squeezed("1 25.40 1.47 1830") in text


def test_several_beams_of_many_elements_make_one_book():
    beams = [
        fake_beam_of(elements=12, design_frequency=28.5e6, name="10m"),
        fake_beam_of(elements=5, design_frequency=21.2e6, name="15m"),
        fake_beam(),
    ]
    text = _text(pdf := _book(*(fake_readings(beam=beam) for beam in beams)))
    for name in ("10m", "15m", "20m"):
        assert f"Beam{name}" in text
    assert "director10" in text
    assert len(PdfReader(io.BytesIO(pdf)).pages) < 60


def test_figures_that_are_not_numbers_are_named_not_printed_as_nan():
    readings = fake_readings()
    odd = replace(
        readings.free_space,
        front_to_back_db=math.inf,
        front_to_rear_db=math.nan,
        gain_error_db=math.nan,
    )
    text = _text(pdf := _book(replace(readings, free_space=odd), part="book"))
    assert "Front-to-back,freespacenolimit" in text
    assert "Front-to-rear,freespacenone" in text
    assert "book.characters-outside-fonts" not in text
    assert not re.search(r"\bnan\b", _words(pdf))


def test_readings_of_another_plan_are_refused():
    plan = Plan(title="", site=Site(ground=FREE_SPACE), beams=(fake_beam(),))
    given = {"plan": plan, "verdict": plan_verdict([]), "version": "0", "digest": "", "sources": {}}
    with pytest.raises(BoomwrightError, match="at least one beam"):
        make_book(readings=(), **given)
    stranger = fake_readings(beam=replace(fake_beam(), name="other"))
    with pytest.raises(BoomwrightError, match=r"'other' do not belong.*'20m'"):
        make_book(readings=(stranger,), **given)
    with pytest.raises(BoomwrightError, match="no sweep"):
        make_book(readings=(replace(fake_readings(), sweep=()),), **given)
