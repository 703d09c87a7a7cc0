"""Quantities as people write them, checked by hand and against a general units library."""

from __future__ import annotations

import math

import pint
import pytest

from boomwright.plan import QuantityError, parse_quantity
from boomwright.plan.quantity import examples_text, written_unit
from boomwright.plan.units import DIMENSIONS, EXAMPLES, UNITS, UNITS_OF

INCH = 0.0254


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("5.18 m", 5.18),
        ("5.18m", 5.18),
        (" 25.4 mm ", 0.0254),
        ("1/2 in", 0.5 * INCH),
        ("3-3/8 in", 3.375 * INCH),
        ("3 3/8 in", 3.375 * INCH),
        ('5/8"', 0.625 * INCH),
        ("17 ft 0 in", 17 * 12 * INCH),
        ("17 ft", 17 * 12 * INCH),
        ("17.5 ft", 17.5 * 12 * INCH),
        ("5 ft 6-1/2 in", 66.5 * INCH),
        ("5 ft 6 1/2 in", 66.5 * INCH),
        ("5' 6 1/2\"", 66.5 * INCH),
        ("5'6\"", 66 * INCH),
        ("5\u2032 6\u2033", 66 * INCH),
        ("5 feet 6 inches", 66 * INCH),
        ("5 ft - 6 in", 66 * INCH),
        ("-2 ft 3 in", -27 * INCH),
        ("\u22122.6 m", -2.6),
        ("1e-3 m", 1e-3),
        (".5 m", 0.5),
        ("2 cm", 0.02),
        (4, 4.0),
        (0.25, 0.25),
    ],
)
def test_lengths(text: str | float, metres: float) -> None:
    assert math.isclose(parse_quantity(text, "length"), metres, rel_tol=1e-15)


def test_wavelengths_need_a_wavelength() -> None:
    assert parse_quantity("0.2 wl", "length", wavelength=21.0) == pytest.approx(4.2, rel=1e-15)
    assert parse_quantity("1/4 wl", "length", wavelength=21.0) == 5.25
    with pytest.raises(QuantityError, match="no design frequency"):
        parse_quantity("0.2 wl", "length")


@pytest.mark.parametrize(
    ("text", "dimension", "value"),
    [
        ("14.175 MHz", "frequency", 14.175e6),
        ("7100 kHz", "frequency", 7.1e6),
        ("300 deg", "angle", math.radians(300)),
        ("45\u00b0", "angle", math.radians(45)),
        (0, "angle", 0.0),
        ("78 mph", "speed", 78 * 1609.344 / 3600),
        ("144 km/h", "speed", 40.0),
        ("78 kn", "speed", 78 * 1852 / 3600),
        ("1 mS/m", "conductivity", 1e-3),
        ("2 dB/100 m", "attenuation", 0.02),
        ("2 dB/100m", "attenuation", 0.02),
        ("0.7 dB / 100 ft", "attenuation", 0.7 / 30.48),
        ("35 ksi", "pressure", 35e3 * 6894.757293168),
        ("240 N/mm\u00b2", "pressure", 240e6),
        ("100 N\u00b7m", "torque", 100.0),
        ("88 lbf ft", "torque", 88 * 1.3558179483314),
        ("95 %", "ratio", 0.95),
        ("0.95", "ratio", 0.95),
        ("2.2 \u00b5H", "inductance", 2.2e-6),
        ("50 \u03a9", "resistance", 50.0),
        ("20 min", "time", 1200.0),
    ],
)
def test_other_dimensions(text: str | float, dimension: str, value: float) -> None:
    assert math.isclose(parse_quantity(text, dimension), value, rel_tol=1e-13)  # type: ignore[arg-type]


def test_decimal_text_is_read_to_the_nearest_float() -> None:
    for millimetres in range(1, 400):
        assert parse_quantity(f"{millimetres / 10} mm", "length") == millimetres / 10000


@pytest.mark.parametrize(
    ("text", "message", "remedy"),
    [
        ("5.18", "unit is missing", '"5.18 m"'),
        ("14 MHz", "makes this a frequency, but a length", "5.18 m"),
        ("12 lb", "makes this a mass", "5.18 m"),
        ("5,18 m", "comma", '"5.18 m"'),
        ("1,234,567 m", "comma", "1.234"),
        ("5.5 ft 6 in", "decimal part", "whole feet"),
        ("5 ft 14 in", "a foot or more", "carry"),
        ("5 ft 6", "no unit", '"5 ft 6 in"'),
        ("3 metre", "not a unit", "5.18 m"),
        ("3 MM", "not a unit", '"mm"'),
        ("1/0 in", "zero below the line", "3-3/8"),
        ("", "empty", "5.18 m"),
        ("m", "no number", "5.18 m"),
        ("5 m 6 m", "not a unit", "5.18 m"),
        ("\u0665 m", "U+0665", "0 to 9"),
        ("5\x07 m", "U+0007", "0 to 9"),
        ("1e999 m", "too large", "5.18 m"),
        ("9" * 70 + " m", "characters long", "5.18 m"),
        (math.nan, "not finite", "5.18 m"),
        (math.inf, "not finite", "5.18 m"),
        (10**400, "not finite", "5.18 m"),
        (True, "true or false", "5.18 m"),
    ],
)
def test_refusals_name_fault_and_remedy(text: str | float, message: str, remedy: str) -> None:
    with pytest.raises(QuantityError) as caught:
        parse_quantity(text, "length")
    assert message in caught.value.message
    assert remedy in caught.value.remedy


def test_bare_angle_is_refused_and_force_is_told_from_mass() -> None:
    with pytest.raises(QuantityError, match="degrees or radians"):
        parse_quantity(300, "angle")
    with pytest.raises(QuantityError) as caught:
        parse_quantity("12 lb", "force")
    assert '"112 lbf"' in caught.value.remedy


def test_unknown_dimension_is_a_programming_error() -> None:
    with pytest.raises(ValueError, match="no dimension"):
        parse_quantity("1 m", "colour")  # type: ignore[arg-type]


@pytest.mark.parametrize("dimension", DIMENSIONS)
def test_examples_shown_as_remedy_can_be_read(dimension: str) -> None:
    for example in EXAMPLES[dimension]:  # type: ignore[index]
        assert math.isfinite(parse_quantity(example, dimension, wavelength=20.0))  # type: ignore[arg-type]
        assert example in examples_text(dimension)  # type: ignore[arg-type]


# Spelling of the units library where it differs from ours; "" where it has none to compare.
PINT = {
    '"': "inch", "'": "foot", "in": "inch", "kn": "knot", "psf": "lbf/ft^2", "N m": "N*m",
    "Nm": "N*m", "kN m": "kN*m", "kNm": "kN*m", "lbf ft": "lbf*ft", "ft lbf": "lbf*ft",
    "lbf in": "lbf*inch", "in lbf": "lbf*inch", "kgf m": "kgf*m", "t": "tonne",
    "kg/100 m": "kg/m/100", "lb/100 ft": "lb/ft/100", "%": "percent", "kohm": "kiloohm",
    "Mohm": "megaohm", "h": "hour", "d": "day", "N/m2": "N/m^2", "N/mm2": "N/mm^2", "m2": "m^2",
    "cm2": "cm^2", "mm2": "mm^2", "ft2": "ft^2", "in2": "inch^2", "m3": "m^3", "ft3": "ft^3",
    "yd3": "yd^3", "dB": "", "dB/m": "", "dB/100 m": "", "dB/km": "", "dB/ft": "",
    "kg/m3": "kg/m^3", "g/cm3": "g/cm^3", "lb/ft3": "lb/ft^3", "N/m3": "N/m^3",
    "kN/m3": "kN/m^3", "lbf/ft3": "lbf/ft^3", "psf/ft": "lbf/ft^3", "N m2": "N*m^2",
    "kN m2": "kN*m^2", "lbf in2": "lbf*inch^2", "lbf ft2": "lbf*ft^2", "dBi": "",
    "dB/100 ft": "", "L": "liter", "l": "liter", "degrees": "degree",
}  # fmt: skip


def test_every_unit_agrees_with_the_units_library() -> None:
    registry = pint.UnitRegistry()
    compared = 0
    for unit, (_, factor) in UNITS.items():
        spelling = PINT.get(unit, unit)
        if not spelling:
            continue
        theirs = registry.parse_expression(f"1.0 {spelling}").to_base_units()
        expected = theirs.magnitude
        if "gram" in str(theirs.units) and "kilogram" not in str(theirs.units):
            expected /= 1000
        assert math.isclose(float(factor), expected, rel_tol=1e-12), unit
        compared += 1
    assert compared > 70


def test_a_unit_belongs_to_one_dimension_only() -> None:
    assert sum(len(units) for units in UNITS_OF.values()) == len(UNITS)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("5 ft 6 in", "ft in"),
        ("0.2 wl", "wl"),
        ("3-3/8 in", "in"),
        ("2 dB/100m", "dB/100 m"),
        ("x", ""),
    ],
)
def test_written_unit(text: str, unit: str) -> None:
    assert written_unit(text) == unit
