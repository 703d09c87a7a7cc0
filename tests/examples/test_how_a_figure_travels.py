"""The page about a figure's way: its files are there, and the figure arrives as it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import boomwright as bw
from boomwright.__main__ import open_page
from boomwright.cli import run
from boomwright.render.json.computation import computation_document

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "how_a_figure_travels.md").read_text(encoding="utf-8")
DEMO = ROOT / "src/boomwright/session/data/demo.toml"
#: readers of the table that the page follows the figure through
READERS = re.findall(
    r"`(src/boomwright/(?:report/beam/computed|web/sheets|render/book)[^`]*)`", PAGE
)


@pytest.fixture(scope="module")
def computed():
    return bw.compute(bw.load(DEMO))


def test_every_file_named_is_there() -> None:
    named = re.findall(r"`(src/[^`]+)`", PAGE)
    assert len(set(named)) > 15
    assert [name for name in named if not (ROOT / name).exists()] == []


def test_the_readers_named_read_that_table() -> None:
    assert len(READERS) == 3
    for name in READERS:
        assert "sweep_table" in (ROOT / name).read_text(encoding="utf-8"), name


def test_the_figure_arrives_as_the_page_says(computed, capsys) -> None:
    point = next(one for one in computed.beams[0].sweep if one.frequency == 14.175e6)
    said, number, error = re.search(r"`(\S+ ±\S+)`", PAGE)[1], "7.90538", "0.00046"
    assert f"{point.gain_dbi:.5f}" == number
    assert f"{point.gain_error_db:.5f}" == error
    assert number in PAGE
    assert error in PAGE
    report = bw.report_on(computed)
    assert run(["compute", str(DEMO), "--full"], open_page=open_page) == 0
    for text in (capsys.readouterr().out, str(report), report._repr_html_()):
        assert said in text
        assert "gain, dBi" in text
    document = computation_document(computed)["beams"][0]["sweep"]
    row = next(one for one in document if one["frequency_hz"] == 14.175e6)
    assert row["gain_dbi"] == point.gain_dbi
