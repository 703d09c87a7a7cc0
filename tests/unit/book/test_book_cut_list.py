"""The cut list, read back with the csv module of the standard library."""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from fractions import Fraction

import pytest

from boomwright.export.cut_list_table import cut_list_csv
from boomwright.parts import TubeSection
from fakes.readings import fake_beam, fake_beam_of


def _rows(beam):
    return list(csv.DictReader(io.StringIO(cut_list_csv(beam=beam).decode("utf-8"), newline="")))


def _fraction(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def test_one_row_per_tube_with_its_dimensions():
    beam = fake_beam()
    rows = _rows(beam)
    assert len(rows) == sum(len(element.half) for element in beam.elements)
    first = rows[0]
    assert first["element"] == "reflector"
    assert first["half_length [mm]"] == "5400"
    assert first["full_length [mm]"] == "10800"
    assert first["diameter [mm]"] == "25.40"
    assert first["diameter [in]"] == "1.000"
    assert first["exposed_length [mm]"] == "1830"
    assert first["exposed_length [in]"] == "72.047"
    assert first["exposed_length [in 1/16]"] == "72 1/16"


@pytest.mark.parametrize("count", [1, 3, 12])
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
    data = cut_list_csv(beam=fake_beam())
    assert data.endswith(b"\r\n")
    assert data.count(b"\n") == data.count(b"\r\n")
    widths = {len(row) for row in csv.reader(io.StringIO(data.decode(), newline=""), strict=True)}
    assert len(widths) == 1
    assert all("[" in name for name in data.decode().split("\r\n")[0].split(",")[4:])


def test_a_wall_that_the_plan_does_not_give_is_an_empty_cell():
    beam = fake_beam()
    walled = replace(
        beam.elements[0], half=(TubeSection(diameter=0.0254, length=5.0, wall=0.0014732),)
    )
    rows = _rows(replace(beam, elements=(walled, *beam.elements[1:])))
    assert rows[0]["wall [mm]"] == "1.47"
    assert rows[0]["wall [in]"] == "0.058"
    assert rows[1]["wall [mm]"] == ""
