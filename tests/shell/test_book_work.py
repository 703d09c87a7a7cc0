"""Work sheets in the book: every mark and station on paper, both systems, same bytes, 1:1."""

from __future__ import annotations

import functools
import io
import math
import re
from pathlib import Path

import pytest
from pypdf import PdfReader

from boomwright.base.quantity import on_paper, settled, write
from boomwright.charts.palette import PRINT_PALETTE
from boomwright.plan import read_plan
from boomwright.plan.resolve import station_assembly
from boomwright.render.book.typesetting import make_book
from boomwright.render.work_sheets import work_chapters
from boomwright.report.build.shop import shop_elements
from boomwright.report.chapter import PARTS
from boomwright.session.files import PlanFolder, packaged_text
from boomwright.study.as_measured import measure_plan
from boomwright.study.cost import price_plan
from boomwright.study.raising import raise_plan
from boomwright.study.verdict import judge_plan
from fakes.readings import fake_readings

PLAN = read_plan(packaged_text("demo.toml"))
DAY = "2026-11-25"
#: how tables of the plan file that hold others begin
TABLES = ("beam", "line", "permits", "prices", "raising", "reach", "site", "support", "transmitter")
POINTS_PER_MM = 72.0 / 25.4


def make(folder: Path, *, system="metric", paper="a4", parts=PARTS) -> dict[str, bytes]:
    prices = folder / "prices.csv"
    prices.write_text(packaged_text("demo_prices.csv"))
    readings = fake_readings(beam=PLAN.beams[0])
    return make_book(
        plan=PLAN,
        readings=(readings,),
        verdict=judge_plan(PLAN, files=PlanFolder(folder)),
        version="0.1.0",
        digest="3f9a" * 4,
        sources={},
        system=system,
        paper=paper,
        issued=DAY,
        parts=parts,
        work=work_chapters(
            price_plan(PLAN, files=PlanFolder(folder), today=DAY),
            raise_plan(PLAN, measured=measure_plan(PLAN), today=DAY),
            palette=PRINT_PALETTE,
            system=system,
        ),
    )


def squeezed(text: str) -> str:
    return re.sub(r"[\s\u200b\u2060\u202f]", "", text)


@pytest.fixture(scope="module")
def books(tmp_path_factory):
    folder = tmp_path_factory.mktemp("books")
    metric = make(folder)
    us = make(folder, system="us", paper="us-letter", parts=("book", "pocket"))
    return {
        "again": make(folder),
        "all metric": metric,
        "metric": metric["book"],
        "us": us["book"],
        "metric annex": metric["annex"],
        "metric pocket": metric["pocket"],
        "us pocket": us["pocket"],
    }


@functools.cache
def pages_of(pdf: bytes) -> tuple[str, ...]:
    return tuple(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


def text_of(pdf: bytes) -> str:
    return squeezed("".join(pages_of(pdf)))


def test_the_same_plan_version_and_day_give_the_same_bytes(books):
    assert books["all metric"] == books["again"]


@pytest.mark.parametrize("which", ["metric", "us"])
def test_every_mark_length_station_and_sheet_is_on_paper(books, which):
    text = text_of(books[which])
    parts = station_assembly(PLAN).of("20m")
    for element in shop_elements(parts, beam=PLAN.beams[0], boom=PLAN.boom_of("20m")):
        for tube in element.tubes:
            assert squeezed(", ".join(tube.marks)) in text
            sawn = {"metric": str(tube.cut.millimetres), "us": tube.cut.sixteenths_text}
            assert squeezed(sawn[which]) in text
    for words in (
        "Quantities and cost", "Build sheets of 20m", "Cutting plan", "Mast plate",
        "Polarity: inner conductor to the left half", "Raising of 20m", "Sign-off",
        "Inspection log", "Declination", "What beam 20m does",
    ):  # fmt: skip
        assert squeezed(words) in text
    assert squeezed("Appendix: each figure of the work sheets") in text_of(books["metric annex"])


def test_the_book_stays_short(books):
    """At most 26 pages for one beam; the page of the usual cautions is not counted."""
    for which in ("metric", "us"):
        assert len(pages_of(books[which])) <= 27


@pytest.mark.parametrize("which", ["metric pocket", "us pocket"])
def test_pocket_sheets_are_one_page_each_large_and_black(books, which):
    pages = pages_of(books[which])
    for text, words in zip(
        pages,
        ("Cut list", "Places on the boom", "Raising the pole", "Raising the pole: order",
         "Day of raising", "Lift director", "Spotter", "Platform operator", "Platform hand",
         "Tag lines"),
        strict=True,
    ):  # fmt: skip
        assert squeezed(words) in squeezed(text)
    sizes, colours = [], []

    def look(words, _user, matrix, _font, size):
        if words.strip():
            sizes.append(size * abs(matrix[3]))

    for page in PdfReader(io.BytesIO(books[which])).pages:
        page.extract_text(visitor_text=look)
        colours += re.findall(rb"([\d.]+ [\d.]+ [\d.]+) rg", page.get_contents().get_data())
    # 11 pt and more is read at arm's length; head and foot of the page are smaller.
    assert sorted(sizes)[len(sizes) // 3] >= 11.0


@pytest.mark.parametrize("which", ["metric", "us"])
def test_no_page_is_nearly_empty_and_no_font_of_the_machine_is_needed(books, which):
    for number, text in enumerate(pages_of(books[which]), start=1):
        assert len(text.split()) > 60 or "Printed at 1:1" in text, f"page {number}"
    assert squeezed("characters-outside-fonts") not in text_of(books[which])
    root = PdfReader(io.BytesIO(books[which])).trailer["/Root"]
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()


def test_paper_and_order_of_units_follow_the_reader(books):
    metric, us = (PdfReader(io.BytesIO(books[which])) for which in ("metric", "us"))
    assert float(metric.pages[0].mediabox.width) == pytest.approx(210 * POINTS_PER_MM, abs=0.1)
    assert float(us.pages[0].mediabox.width) == pytest.approx(8.5 * 72, abs=0.1)
    assert squeezed("Saw to, mm") in text_of(books["metric"])
    assert squeezed("Saw to, in") in text_of(books["us"])


def test_a_plate_is_drawn_at_true_size(books):
    """The check line of 100 mm, as the page's own numbers: a form scaled to millimetres."""
    from boomwright.charts.blocks import SheetPicture
    from boomwright.render.book.contents import chapter_data
    from boomwright.report.chapter import Chapter

    chapters = work_chapters(
        price_plan(PLAN, today=DAY), raise_plan(PLAN, today=DAY),
        palette=PRINT_PALETTE, system="metric",
    )  # fmt: skip
    build = next(chapter for chapter in chapters if chapter.title.startswith("Build"))
    plates = [b for b in build.blocks if isinstance(b, SheetPicture) and b.true_size]
    assert len(plates) == 2
    for block in plates:
        (data,) = chapter_data((Chapter(title="", blocks=(block,)),), place="body")[0]["blocks"]
        wide = float(re.search(r'viewBox="0 0 ([\d.]+)', block.svg).group(1))
        # One unit of the picture is one millimetre of paper, and the paper holds it.
        assert data["width"] == pytest.approx(wide * POINTS_PER_MM, abs=0.01)
        assert data["width"] <= 198.0 * POINTS_PER_MM
        assert 'data-scale="1"' in block.svg


@pytest.mark.parametrize("which", ["metric", "us", "metric annex", "us pocket"])
def test_no_letter_on_paper_is_smaller_than_seven_points(books, which):
    small = []

    def look(words, user, matrix, _font, size):
        across = (
            matrix[0] * user[0] + matrix[1] * user[2],
            matrix[0] * user[1] + matrix[1] * user[3],
        )
        # A power such as m2 in a formula stands raised and small, as everywhere in print.
        if len(words.strip()) > 3 and size * math.hypot(*across) < 6.99:
            small.append(words)

    for page in PdfReader(io.BytesIO(books[which])).pages:
        page.extract_text(visitor_text=look)
    assert not small


@pytest.mark.parametrize("which", ["metric", "us", "metric annex", "metric pocket", "us pocket"])
def test_no_paper_names_a_table_of_the_plan_file(books, which):
    assert [
        page for page in pages_of(books[which]) for table in TABLES if f"[{table}" in page
    ] == []


def test_who_writes_the_file_reads_the_key_and_who_holds_paper_does_not():
    said = settled("say how much", "prices.hire", "permits")
    assert write(said, system="metric") == "say how much (permits in [prices.hire])"
    with on_paper():
        assert write(said, system="metric") == "say how much"
    assert write(said, system="metric").endswith("[prices.hire])")
