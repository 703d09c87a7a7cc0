"""Figures come in the reader's units, by factors of an independent library."""

from __future__ import annotations

import pytest

from boomwright.base import in_system, quantity_text, readers_order
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


@pytest.mark.parametrize(
    ("text", "us"),
    [
        ("pull 71 N (16 lbf), limit 5.00 kN (1124 lbf)",
         "pull 16 lbf (71 N), limit 1124 lbf (5.00 kN)"),
        ("bent with 2.70 kN m (1989 lbf ft) at 8.5 m (27.9 ft)",
         "bent with 1989 lbf ft (2.70 kN m) at 27.9 ft (8.5 m)"),
        ("pulled, -399 N (-90 lbf)", "pulled, -90 lbf (-399 N)"),
        ("worst at 0° (hinge), 4.5 m/s (10.0 mph)", "worst at 0° (hinge), 10.0 mph (4.5 m/s)"),
    ],
)  # fmt: skip
def test_the_readers_own_unit_comes_first(text, us):
    assert readers_order(text, system="metric") == text
    assert readers_order(text, system="us") == us
