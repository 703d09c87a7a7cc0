"""Exposure limits as functions of frequency: 47 CFR 1.1310 and ICNIRP 2020.

Fields are rms values, their squares averaged over the stated time. The tables are written in
megahertz because the published ones are.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final, Literal

from boomwright.base.records import dataclass

ExposureGroup = Literal["occupational", "general"]
BodyPart = Literal["whole", "local"]

_Level = Callable[[float], float] | None
#: upper end [MHz], E [V/m], H [A/m], S [W/m^2] as functions of f in MHz
_Row = tuple[float, _Level, _Level, _Level]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureLimit:
    """Limits at one frequency; None where the standard gives no level of that kind."""

    standard: str  #: rule or guideline with its table
    group: ExposureGroup  #: ``occupational`` or ``general``
    body: BodyPart  #: ``whole`` body or ``local`` exposure
    frequency: float  #: frequency [Hz]
    electric_field: float | None  #: rms electric field, or None [V/m]
    magnetic_field: float | None  #: rms magnetic field, or None [A/m]
    #: power density, below 300 MHz in the American table as plane-wave equivalent [W/m^2]
    power_density: float | None
    averaging_time: float  #: time over which squared fields and power density are averaged [s]
    dated: str  #: edition of the text
    seen: str  #: ``read`` or ``from memory``
    source: str  #: key in the register of sources


def _flat(value: float) -> _Level:
    return lambda _frequency_mhz: value


def _power(factor: float, exponent: float) -> _Level:
    return lambda frequency_mhz: factor * frequency_mhz**exponent


# {cfr-47-1-1310, Table 1}; power densities there are in mW/cm^2, here times 10.
_FCC: Final[dict[ExposureGroup, tuple[_Row, ...]]] = {
    "occupational": (
        (3.0, _flat(614.0), _flat(1.63), _flat(1000.0)),
        (30.0, _power(1842.0, -1), _power(4.89, -1), _power(9000.0, -2)),
        (300.0, _flat(61.4), _flat(0.163), _flat(10.0)),
        (1500.0, None, None, _power(10.0 / 300.0, 1)),
        (100_000.0, None, None, _flat(50.0)),
    ),
    "general": (
        (1.34, _flat(614.0), _flat(1.63), _flat(1000.0)),
        (30.0, _power(824.0, -1), _power(2.19, -1), _power(1800.0, -2)),
        (300.0, _flat(27.5), _flat(0.073), _flat(2.0)),
        (1500.0, None, None, _power(10.0 / 1500.0, 1)),
        (100_000.0, None, None, _flat(10.0)),
    ),
}
_FCC_LOWEST: Final = 0.3
_FCC_AVERAGING: Final[dict[ExposureGroup, float]] = {"occupational": 360.0, "general": 1800.0}

# {icnirp-2020, Table 5}: whole body, 30 min. The occupational rows are from memory.
_ICNIRP_WHOLE: Final[dict[ExposureGroup, tuple[_Row, ...]]] = {
    "occupational": (
        (30.0, _power(660.0, -0.7), _power(4.9, -1), None),
        (400.0, _flat(61.0), _flat(0.16), _flat(10.0)),
        (2000.0, _power(3.0, 0.5), _power(0.008, 0.5), _power(1 / 40.0, 1)),
        (300_000.0, None, None, _flat(50.0)),
    ),
    "general": (
        (30.0, _power(300.0, -0.7), _power(2.2, -1), None),
        (400.0, _flat(27.7), _flat(0.073), _flat(2.0)),
        (2000.0, _power(1.375, 0.5), _power(0.0037, 0.5), _power(1 / 200.0, 1)),
        (300_000.0, None, None, _flat(10.0)),
    ),
}
# {icnirp-2020, Table 6}: local, 6 min, held here up to 6 GHz only.
_ICNIRP_LOCAL: Final[dict[ExposureGroup, tuple[_Row, ...]]] = {
    "occupational": (
        (30.0, _power(1504.0, -0.7), _power(10.8, -1), None),
        (400.0, _flat(139.0), _flat(0.36), _flat(50.0)),
        (2000.0, _power(10.58, 0.43), _power(0.0274, 0.43), _power(0.29, 0.86)),
        (6000.0, None, None, _flat(200.0)),
    ),
    "general": (
        (30.0, _power(671.0, -0.7), _power(4.9, -1), None),
        (400.0, _flat(62.0), _flat(0.163), _flat(10.0)),
        (2000.0, _power(4.72, 0.43), _power(0.0123, 0.43), _power(0.058, 0.86)),
        (6000.0, None, None, _flat(40.0)),
    ),
}
_ICNIRP_LOWEST: Final = 0.1


def _levels(
    rows: tuple[_Row, ...], *, lowest: float, frequency: float, table: str
) -> tuple[float | None, float | None, float | None]:
    frequency_mhz = frequency / 1e6
    if frequency_mhz >= lowest:
        for upper, *levels in rows:
            if frequency_mhz <= upper:
                electric, magnetic, power = (
                    None if level is None else level(frequency_mhz) for level in levels
                )
                return electric, magnetic, power
    raise ValueError(
        f"{table} holds no level at {frequency_mhz:g} MHz; "
        f"it runs from {lowest:g} to {rows[-1][0]:g} MHz"
    )


def fcc_limit(*, frequency: float, group: ExposureGroup) -> ExposureLimit:
    """Maximum permissible exposure of 47 CFR 1.1310 {cfr-47-1-1310, Table 1}.

    Args:
        frequency: frequency, 0.3 MHz to 100 GHz [Hz]
        group: ``occupational`` (controlled) or ``general`` population (uncontrolled)

    Returns:
        the limits; averaging 6 min occupational, 30 min general
    """
    electric, magnetic, power = _levels(
        _FCC[group], lowest=_FCC_LOWEST, frequency=frequency, table="47 CFR 1.1310 Table 1"
    )
    return ExposureLimit(
        standard="47 CFR 1.1310(e)(1) Table 1",
        group=group,
        body="whole",
        frequency=frequency,
        electric_field=electric,
        magnetic_field=magnetic,
        power_density=power,
        averaging_time=_FCC_AVERAGING[group],
        dated="text as known in 2024",
        seen="read",
        source="cfr-47-1-1310",
    )


def icnirp_limit(
    *, frequency: float, group: ExposureGroup, body: BodyPart = "whole"
) -> ExposureLimit:
    """Reference levels of the 2020 international guidelines {icnirp-2020, Tables 5 and 6}.

    Args:
        frequency: frequency, 0.1 MHz to 300 GHz for the whole body, to 6 GHz for local exposure
            [Hz]
        group: ``occupational`` or ``general`` public
        body: ``whole`` body (30 min) or ``local`` (6 min)

    Returns:
        the reference levels; below 30 MHz there is no power density: E and H both count
    """
    whole = body == "whole"
    table = f"ICNIRP 2020 Table {5 if whole else 6}"
    electric, magnetic, power = _levels(
        (_ICNIRP_WHOLE if whole else _ICNIRP_LOCAL)[group],
        lowest=_ICNIRP_LOWEST,
        frequency=frequency,
        table=table,
    )
    return ExposureLimit(
        standard=table,
        group=group,
        body=body,
        frequency=frequency,
        electric_field=electric,
        magnetic_field=magnetic,
        power_density=power,
        averaging_time=1800.0 if whole else 360.0,
        dated="2020",
        seen="from memory" if whole and group == "occupational" else "read",
        source="icnirp-2020",
    )
