"""The cut list, read back with the csv module of the standard library."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from fractions import Fraction

import pytest

from boomwright.export.cut_list_table import cut_list_csv
from boomwright.parts import TubeSection
from boomwright.plan import read_plan
from boomwright.plan.resolve import plan_bill, station_assembly
from boomwright.session.files import packaged_text
from fakes.readings import fake_beam, fake_beam_of

DEMO = read_plan(packaged_text("demo.toml"))


def _plan(beam):
    return replace(DEMO, beams=(beam,), booms=())


def _read(data):
    lines = data.decode("utf-8").split("\r\n")
    # What is missing before anything is cut stands alone above the heads.
    start = 1 if lines[0].lstrip('"').startswith("Not to be cut from") else 0
    return list(csv.DictReader(io.StringIO("\r\n".join(lines[start:]), newline="")))


def _rows(beam):
    rows = _read(cut_list_csv(_plan(beam), beam))
    return [row for row in rows if row["element_number"]]


def _fraction(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def test_one_row_per_tube_with_its_dimensions():
    beam = fake_beam()
    rows = _rows(beam)
    assert len(rows) == sum(len(element.half) for element in beam.elements)
    assert [row["marks"] for row in rows[:3]] == ["1.1C", "1.2L 1.2R", "1.3L 1.3R"]
    assert [row["count"] for row in rows[:3]] == ["1", "2", "2"]
    first = rows[0]
    assert first["element"] == "reflector"
    assert first["half_length [mm]"] == "5400"
    assert first["full_length [mm]"] == "10800"
    assert first["diameter [mm]"] == "25.40"
    assert first["diameter [in]"] == "1.000"
    assert first["exposed_length [mm]"] == "1830"
    assert first["exposed_length [in]"] == "72.047"
    assert first["exposed_length [in 1/16]"] == "72 1/16"


@pytest.mark.parametrize("count", [1, 3, 6])
def test_sums_hold_in_every_unit(count):
    beam = fake_beam_of(elements=max(count, 2), design_frequency=50.1e6)
    rows = _rows(beam)
    for number in {row["element_number"] for row in rows}:
        mine = [row for row in rows if row["element_number"] == number]
        for unit, read in (("mm", int), ("in", Fraction), ("in 1/16", _fraction)):
            total = sum(read(row[f"exposed_length [{unit}]"]) for row in mine)
            assert total == read(mine[0][f"half_length [{unit}]"])
            assert total == read(mine[-1][f"reaches_from_boom [{unit}]"])


def test_form_follows_rfc_4180():
    # {rfc-4180}: CR LF ends every line, all lines have the same number of fields.
    data = cut_list_csv(_plan(fake_beam()), fake_beam())
    assert data.endswith(b"\r\n")
    assert data.count(b"\n") == data.count(b"\r\n")
    widths = {len(row) for row in csv.reader(io.StringIO(data.decode(), newline=""), strict=True)}
    assert len(widths) == 1
    assert all("[" in name for name in data.decode().split("\r\n")[1].split(",")[7:])


def test_a_wall_that_the_plan_does_not_give_is_an_empty_cell():
    beam = fake_beam()
    walled = replace(
        beam.elements[0], half=(TubeSection(diameter=0.0254, length=5.0, wall=0.0014732),)
    )
    rows = _rows(replace(beam, elements=(walled, *beam.elements[1:])))
    assert rows[0]["wall [mm]"] == "1.47"
    assert rows[0]["wall [in]"] == "0.058"
    assert rows[1]["wall [mm]"] == ""


def test_every_sawn_piece_of_the_demo_is_listed_with_its_length_stock_and_holes():
    (beam,) = DEMO.beams
    rows = _read(cut_list_csv(DEMO, beam))
    told = {mark: row for row in rows for mark in row["marks"].split()}
    sawn = {part.mark: part for part in station_assembly(DEMO).of("20m") if part.cut is not None}
    assert set(told) == set(sawn)
    assert sum(int(row["count"]) for row in rows) == len(sawn)
    for mark, part in sawn.items():
        assert int(told[mark]["sawn_length [mm]"]) == pytest.approx(1e3 * part.cut.sawn, abs=2.0)
        assert int(told[mark]["overlap [mm]"]) == pytest.approx(1e3 * part.cut.overlap, abs=1.0)
        assert bool(told[mark]["holes from inner end [mm]"]) == bool(part.holes)
    # 1.50 m show and 100 mm are hidden: whoever saws 1500 mm ruins the tube.
    assert told["1.2L"]["exposed_length [mm]"] == "1500"
    assert told["1.2L"]["sawn_length [mm]"] == "1600"
    assert told["1.2L"]["holes from inner end [mm]"] == "4.9 mm at 25 75; 4.9 mm at 1525 1575"
    bars = {
        piece.mark: bar.stock_length
        for order in plan_bill(DEMO).tubes
        for bar, pieces in order.marked_bars()
        for piece in pieces
    }
    assert set(bars) == set(told)
    for mark, length in bars.items():
        row = told[mark]
        each = row["from_stock [mm]"].split(" / ")
        mine = each[row["marks"].split().index(mark)] if len(each) > 1 else each[0]
        assert int(mine) == round(1e3 * length)
