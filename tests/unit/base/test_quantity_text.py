"""Figures come in the reader's units, by factors of an independent library."""

from __future__ import annotations

import pytest

from boomwright.base import in_system, quantity_text
from boomwright.plan import parse_quantity

CASES = [
    ("m", "length"), ("mm", "length"), ("km", "length"), ("m2", "area"), ("m3", "volume"),
    ("m/s", "speed"), ("kg", "mass"), ("N", "force"), ("kN", "force"), ("N m", "torque"),
    ("kN m", "torque"), ("kPa", "pressure"), ("MPa", "pressure"),
]  # fmt: skip


@pytest.mark.parametrize(("unit", "dimension"), CASES)
def test_what_is_written_reads_back_as_the_same(unit, dimension):
    """The plan's own table of units is exact, from the inch and the pound {nist-sp-811}."""
    value, name = in_system(123.4, unit=unit, system="us")
    assert name != unit
    typed = name.translate(str.maketrans("²³", "23"))
    back = parse_quantity(f"{value!r} {typed}", dimension)
    assert back == pytest.approx(parse_quantity(f"123.4 {unit}", dimension), rel=1e-12)


def test_inertia_by_the_printed_factor():
    """NIST SP 811, appendix B.8: one pound foot squared is 4.214011e-2 kg m2."""
    value, name = in_system(4.214011e-2, unit="kg m2", system="us")
    assert (value, name) == (pytest.approx(1.0, rel=1e-6), "lb ft²")


def test_text_in_both():
    assert quantity_text(107.3, unit="MPa", system="metric") == "107.3 MPa"
    assert quantity_text(107.3, unit="MPa", system="us") == "15.56 ksi"
    assert quantity_text(3.2, unit="", system="us") == "3.2"
