"""What the owner's power does to the parts: voltage, current and heat."""

from __future__ import annotations

import math
from typing import Final

from boomwright.base import BoomwrightError, Notice
from boomwright.base.records import dataclass
from boomwright.feed.coax import CoaxType, LineReading
from boomwright.feed.matches import Match
from boomwright.feed.stages import Stage

#: mean over peak envelope power by kind of transmission {fcc-oet65b}
DUTY_FACTORS: Final[dict[str, float]] = {
    "voice, single sideband": 0.2,
    "voice, single sideband, processed": 0.5,
    "voice, frequency modulation": 1.0,
    "morse": 0.4,
    "data": 1.0,
    "carrier": 1.0,
}

#: rated voltage over computed peak voltage to ask of a capacitor {common-practice-margin}
VOLTAGE_MARGIN = 2.0

# Heat that a jacket in still air gives off, convection and radiation {common-practice-line-heat}.
_JACKET_W_PER_M2_K = 12.0
# Rise of the jacket above which solid polyethylene inside is near its limit
# {common-practice-line-heat} [K].
_JACKET_RISE_LIMIT = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StageRating:
    """What one piece of a match must stand."""

    stage: Stage  #: the piece
    #: crest voltage across a component, or to ground at the piece's antenna side, at the peak
    #: envelope power [V]
    peak_voltage: float
    current: float  #: effective current through it, at the peak envelope power [A]
    rated_voltage: float  #: voltage to ask of a capacitor, with margin [V]


def _power_fault(power: float) -> None:
    if not power > 0.0:
        msg = f"power {power:g} W: give the transmitter's peak envelope power, above 0 W"
        raise BoomwrightError(msg)


def rate_match(
    *, match: Match, impedance: complex, frequency: float, power: float
) -> tuple[StageRating, ...]:
    """Voltage and current of every piece of a match.

    Args:
        impedance: impedance of the antenna [ohm]
        power: peak envelope power into the match [W]
    """
    _power_fault(power)
    current = math.sqrt(power / impedance.real) + 0j
    voltage = current * impedance
    found = []
    for stage in match.stages:
        m = stage.chain(frequency)
        before = complex(m[0, 0] * voltage + m[0, 1] * current)
        into = complex(m[1, 0] * voltage + m[1, 1] * current)
        kind = type(stage).__name__
        if kind.startswith("Series"):
            across, through = abs(before - voltage), abs(current)
        elif kind.startswith("Shunt"):
            across, through = abs(voltage), abs(into - current)
        else:
            across, through = max(abs(voltage), abs(before)), max(abs(current), abs(into))
        peak = math.sqrt(2.0) * across
        found.append(
            StageRating(
                stage=stage,
                peak_voltage=peak,
                current=through,
                rated_voltage=VOLTAGE_MARGIN * peak,
            )
        )
        voltage, current = before, into
    return tuple(found)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineRating:
    """What a line must stand."""

    peak_voltage: float  #: crest voltage at the highest point, at the peak envelope power [V]
    current: float  #: effective current at its highest point, at the peak envelope power [A]
    heat: float  #: mean loss in the warmest metre [W/m]
    #: rough rise of the jacket above still air; 0 when the diameter is not known [K]
    jacket_rise: float
    notices: tuple[Notice, ...]  #: limits exceeded and cautions


def rate_line(
    *, line: CoaxType, reading: LineReading, power: float, duty_factor: float
) -> LineRating:
    """Voltage and heat of a line at the owner's power.

    Args:
        power: peak envelope power into the line [W]
        duty_factor: mean over peak envelope power while transmitting, above 0 and up to 1 [-]

    Raises:
        BoomwrightError: when power or duty factor cannot be
    """
    _power_fault(power)
    if not 0.0 < duty_factor <= 1.0:
        msg = f"duty factor {duty_factor:g}: give mean over peak power, above 0 and up to 1"
        raise BoomwrightError(msg)
    effective = reading.greatest_voltage * math.sqrt(power)
    heat = reading.greatest_heat * power * duty_factor
    surface = math.pi * line.outer_diameter
    rise = heat / (surface * _JACKET_W_PER_M2_K) if surface > 0.0 else 0.0
    return LineRating(
        peak_voltage=math.sqrt(2.0) * effective,
        current=reading.greatest_current * math.sqrt(power),
        heat=heat,
        jacket_rise=rise,
        notices=_line_notices(line=line, effective=effective, rise=rise),
    )


def _line_notices(*, line: CoaxType, effective: float, rise: float) -> tuple[Notice, ...]:
    notices = []
    if line.voltage_limit > 0.0 and effective > line.voltage_limit:
        notices.append(
            Notice(
                code="feed.line-voltage",
                text=(
                    f"The voltage on the {line.name} is above its limit: improve the match, "
                    "use less power or a larger line."
                ),
                severity="limit",
                value=f"{effective:.0f} V",
                limit=f"{line.voltage_limit:.0f} V",
                source="mil-c-17",
            )
        )
    if rise > _JACKET_RISE_LIMIT:
        notices.append(
            Notice(
                code="feed.line-heat",
                text=(
                    f"The {line.name} gets warm: its inner conductor may sink into the soft "
                    "dielectric and short. Use a larger line, less power or shorter overs."
                ),
                severity="doubt",
                value=f"{rise:.0f} K",
                limit=f"{_JACKET_RISE_LIMIT:.0f} K",
                source="common-practice-line-heat",
            )
        )
    return tuple(notices)
