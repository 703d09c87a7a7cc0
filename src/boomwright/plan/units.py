"""The units a plan may use, each with its exact factor to SI {nist-sp-811}."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final, Literal, get_args

Dimension = Literal[
    "length",
    "frequency",
    "angle",
    "speed",
    "conductivity",
    "pressure",
    "force",
    "torque",
    "mass",
    "mass per length",
    "attenuation",
    "ratio in dB",
    "ratio",
    "area",
    "volume",
    "time",
    "power",
    "resistance",
    "inductance",
    "capacitance",
    "voltage",
    "gain",
    "density",
    "weight per volume",
    "pressure per depth",
    "bending stiffness",
    "turning speed",
]

#: every dimension a field can ask for
DIMENSIONS: Final[tuple[Dimension, ...]] = get_args(Dimension)

_INCH = Fraction(254, 10000)
_FOOT = 12 * _INCH
_POUND = Fraction(45359237, 100000000)
_GRAVITY = Fraction(980665, 100000)
_LBF = _POUND * _GRAVITY
_KGF = _GRAVITY
_PI = Fraction(math.pi)
_THOUSAND = Fraction(1000)
_MILLI = Fraction(1, 1000)
_MICRO = Fraction(1, 10**6)
_PREFIXES = {
    "p": Fraction(1, 10**12), "n": Fraction(1, 10**9), "u": _MICRO, "m": _MILLI,
    "c": Fraction(1, 100), "k": _THOUSAND, "M": Fraction(10**6), "G": Fraction(10**9),
}  # fmt: skip


def _si(unit: str, prefixes: str) -> dict[str, Fraction]:
    return {unit: Fraction(1), **{each + unit: _PREFIXES[each] for each in prefixes}}


# All factors follow from the exact inch, pound, standard gravity and nautical mile
# {nist-sp-811}; only the degree carries the rounding of pi.
_TABLE: Final[dict[Dimension, dict[str, Fraction]]] = {
    "length": _si("m", "mcuk")
    | {
        "in": _INCH,
        "inch": _INCH,
        "inches": _INCH,
        '"': _INCH,
        "ft": _FOOT,
        "foot": _FOOT,
        "feet": _FOOT,
        "'": _FOOT,
        "yd": 3 * _FOOT,
        "mi": 5280 * _FOOT,
    },
    "frequency": _si("Hz", "kMG"),
    "angle": {"rad": Fraction(1), "deg": _PI / 180, "degrees": _PI / 180},
    "speed": {
        "m/s": Fraction(1),
        "km/h": Fraction(1000, 3600),
        "mph": 5280 * _FOOT / 3600,
        "kn": Fraction(1852, 3600),
        "ft/s": _FOOT,
    },
    "conductivity": _si("S/m", "muM"),
    "pressure": _si("Pa", "kMG")
    | {
        "N/m2": Fraction(1),
        "N/mm2": Fraction(10**6),
        "psi": _LBF / _INCH**2,
        "ksi": 1000 * _LBF / _INCH**2,
        "psf": _LBF / _FOOT**2,
    },
    "force": {"N": Fraction(1), "daN": Fraction(10), "kN": _THOUSAND, "lbf": _LBF, "kgf": _KGF},
    "torque": {
        "N m": Fraction(1),
        "Nm": Fraction(1),
        "kN m": _THOUSAND,
        "kNm": _THOUSAND,
        "lbf ft": _LBF * _FOOT,
        "ft lbf": _LBF * _FOOT,
        "lbf in": _LBF * _INCH,
        "in lbf": _LBF * _INCH,
        "kgf m": _KGF,
    },
    "mass": {"kg": Fraction(1), "g": _MILLI, "t": _THOUSAND, "lb": _POUND, "oz": _POUND / 16},
    "mass per length": {
        "kg/m": Fraction(1),
        "g/m": _MILLI,
        "kg/100 m": Fraction(1, 100),
        "lb/ft": _POUND / _FOOT,
        "lb/100 ft": _POUND / _FOOT / 100,
    },
    "attenuation": {
        "dB/m": Fraction(1),
        "dB/100 m": Fraction(1, 100),
        "dB/km": _MILLI,
        "dB/ft": 1 / _FOOT,
        "dB/100 ft": 1 / (100 * _FOOT),
    },
    "ratio in dB": {"dB": Fraction(1)},
    "ratio": {"%": Fraction(1, 100)},
    "area": {
        "m2": Fraction(1),
        "cm2": Fraction(1, 10**4),
        "mm2": _MICRO,
        "ft2": _FOOT**2,
        "in2": _INCH**2,
    },
    "volume": {
        "m3": Fraction(1),
        "l": _MILLI,
        "L": _MILLI,
        "ft3": _FOOT**3,
        "yd3": (3 * _FOOT) ** 3,
    },
    "time": _si("s", "mu") | {"min": Fraction(60), "h": Fraction(3600), "d": Fraction(86400)},
    "power": _si("W", "mk"),
    "resistance": _si("ohm", "kM"),
    "inductance": _si("H", "mun"),
    "capacitance": _si("F", "unp"),
    "voltage": _si("V", "mk"),
    "gain": {"dBi": Fraction(1)},
    "density": {"kg/m3": Fraction(1), "g/cm3": _THOUSAND, "lb/ft3": _POUND / _FOOT**3},
    "weight per volume": _si("N/m3", "k") | {"lbf/ft3": _LBF / _FOOT**3},
    "pressure per depth": _si("Pa/m", "k") | {"psf/ft": _LBF / _FOOT**3},
    "bending stiffness": {
        "N m2": Fraction(1),
        "kN m2": _THOUSAND,
        "lbf in2": _LBF * _INCH**2,
        "lbf ft2": _LBF * _FOOT**2,
    },
    "turning speed": {"rad/s": Fraction(1), "deg/s": _PI / 180, "rpm": 2 * _PI / 60},
}

#: unit as written -> (dimension, factor to SI); ``wl`` is not here, it needs a wavelength
UNITS: Final[dict[str, tuple[Dimension, Fraction]]] = {
    unit: (dimension, factor)
    for dimension, units in _TABLE.items()
    for unit, factor in units.items()
}

#: units of each dimension, as written
UNITS_OF: Final[dict[Dimension, tuple[str, ...]]] = {
    dimension: tuple(units) for dimension, units in _TABLE.items()
}

#: SI unit a plain number is taken in; empty for a pure number
SI_UNIT: Final[dict[Dimension, str]] = {
    **{dimension: next(iter(units)) for dimension, units in _TABLE.items()},
    "ratio": "",
}

#: smallest magnitude other than 0, and largest, of anything a plan can mean: beyond them a unit
#: or an exponent is mistyped {common-practice-magnitudes} [SI unit of the dimension]
PHYSICAL: Final[dict[Dimension, tuple[float, float]]] = {
    "length": (1e-6, 1e8),
    "frequency": (1.0, 1e12),
    "angle": (1e-9, 100.0),
    "speed": (1e-3, 1e3),
    "conductivity": (1e-9, 1e9),
    "pressure": (1e-3, 1e13),
    "force": (1e-6, 1e9),
    "torque": (1e-6, 1e9),
    "mass": (1e-6, 1e7),
    "mass per length": (1e-6, 1e4),
    "attenuation": (1e-9, 1e3),
    "ratio in dB": (1e-6, 1e3),
    "ratio": (1e-9, 1e9),
    "area": (1e-9, 1e9),
    "volume": (1e-9, 1e9),
    "time": (1e-9, 1e9),
    "power": (1e-9, 1e9),
    "resistance": (1e-6, 1e12),
    "inductance": (1e-15, 1e3),
    "capacitance": (1e-18, 1.0),
    "voltage": (1e-9, 1e9),
    "gain": (1e-6, 1e3),
    "density": (1e-3, 1e5),
    "weight per volume": (1e-2, 1e6),
    "pressure per depth": (1e-2, 1e9),
    "bending stiffness": (1e-6, 1e15),
    "turning speed": (1e-6, 1e3),
}

#: what to write, shown as the remedy of a fault
EXAMPLES: Final[dict[Dimension, tuple[str, ...]]] = {
    "length": ("5.18 m", "25.4 mm", "17 ft 0 in", "3-3/8 in", "0.2 wl"),
    "frequency": ("14.175 MHz", "7100 kHz"),
    "angle": ("300 deg", "5.2 rad"),
    "speed": ("40 m/s", "90 mph", "144 km/h", "78 kn"),
    "conductivity": ("1 mS/m", "0.005 S/m"),
    "pressure": ("240 MPa", "35 ksi", "1.2 kPa"),
    "force": ("500 N", "112 lbf"),
    "torque": ("120 N m", "88 lbf ft"),
    "mass": ("12.5 kg", "27 lb"),
    "mass per length": ("0.15 kg/m", "0.1 lb/ft"),
    "attenuation": ("2.1 dB/100 m", "0.7 dB/100 ft"),
    "ratio in dB": ("20 dB",),
    "ratio": ("95 %", "0.95"),
    "area": ("0.6 m2", "6.5 ft2"),
    "volume": ("1.2 m3", "1.5 yd3"),
    "time": ("20 min", "2 h"),
    "power": ("400 W", "1.5 kW"),
    "resistance": ("50 ohm",),
    "inductance": ("2.2 uH",),
    "capacitance": ("100 pF",),
    "voltage": ("11 kV", "400 V"),
    "gain": ("7 dBi",),
    "density": ("900 kg/m3", "56 lb/ft3"),
    "weight per volume": ("16 kN/m3", "100 lbf/ft3"),
    "pressure per depth": ("24 kPa/m", "150 psf/ft"),
    "bending stiffness": ("120 kN m2",),
    "turning speed": ("6 deg/s", "1 rpm"),
}
