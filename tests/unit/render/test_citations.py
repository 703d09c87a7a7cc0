"""A source is data beside the words that rest on it: each reader says it in its own way."""

from __future__ import annotations

from boomwright.base.quantity import Quantity, cited, keyed, listed, phrase, write
from boomwright.charts.blocks import Grid
from boomwright.charts.palette import LIGHT
from boomwright.render.book.citations import Citations
from boomwright.render.field_sheet import part_blocks
from boomwright.render.rows import plain
from boomwright.report.model import Canvas, Table, column

TOLD = phrase(
    "{wind}; {memory}",
    wind=cited(phrase("gust {v}", v=Quantity(40.0, "gust")), "tia-222-g"),
    memory=cited("from memory", "astm-a53"),
)


def test_words_without_a_list_leave_the_source_out() -> None:
    assert write(TOLD, system="us") == "gust 89 mph; from memory"


def test_data_names_the_key() -> None:
    assert write(TOLD, system="metric", cite=keyed) == plain(TOLD)
    assert plain(TOLD) == "gust 40 m/s (tia-222-g); from memory (astm-a53)"


def test_the_book_numbers_sources_as_it_names_them() -> None:
    citations = Citations()
    rows = [listed([cited("a", "nist-sp-811"), cited("b", "tia-222-g")]), TOLD]
    table = Table(
        name="", caption="", columns=(column("x", str), column("from", lambda row: row)), items=rows
    )
    (grid,) = part_blocks([table], canvas=Canvas(palette=LIGHT, system="us", cite=citations))
    assert isinstance(grid, Grid)
    assert [row[1] for row in grid.rows] == ["a [1], b [2]", "gust 89 mph [2]; from memory [3]"]
    assert citations.listed(["si-brochure-9", "tia-222-g"]) == (
        "nist-sp-811", "tia-222-g", "astm-a53", "si-brochure-9",
    )  # fmt: skip
