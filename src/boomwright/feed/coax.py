"""Coaxial lines: attenuation over frequency, and the full solution with any load."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence

import numpy as np

from boomwright.base import (
    SPEED_OF_LIGHT,
    BoomwrightError,
)
from boomwright.base.records import dataclass
from boomwright.feed.reflection import mismatch_loss_db, standing_wave_ratio

#: decibels in one neper
DECIBELS_PER_NEPER = 20.0 / math.log(10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class CoaxType:
    """A type of coaxial line."""

    name: str  #: military designation
    impedance: float  #: nominal characteristic impedance [ohm]
    velocity_factor: float  #: speed on the line over that of light [-]
    k1: float  #: conductor loss over the root of the frequency [dB/m/Hz^0.5]
    k2: float  #: dielectric loss over the frequency [dB/m/Hz]
    voltage_limit: float = 0.0  #: greatest effective voltage; 0 when not known [V]
    outer_diameter: float = 0.0  #: over the jacket; 0 when not known [m]

    def attenuation_db(self, *, frequency: float) -> float:
        """Attenuation of a matched metre.

        Returns:
            k1 sqrt(f) + k2 f {common-practice-line-loss} [dB/m]
        """
        return self.k1 * math.sqrt(frequency) + self.k2 * frequency

    def propagation(self, *, frequency: float) -> tuple[complex, complex]:
        """Propagation constant and characteristic impedance from R, L, G and C.

        Returns:
            propagation constant [1/m] and characteristic impedance {pozar-2012, eqs. 2.5 and
            2.7} [ohm]
        """
        speed = self.velocity_factor * SPEED_OF_LIGHT
        omega = 2.0 * math.pi * frequency
        series = 2.0 * self.k1 * math.sqrt(frequency) / DECIBELS_PER_NEPER * self.impedance
        shunt = 2.0 * self.k2 * frequency / DECIBELS_PER_NEPER / self.impedance
        z = complex(series, omega * self.impedance / speed)
        y = complex(shunt, omega / (self.impedance * speed))
        return cmath.sqrt(z * y), cmath.sqrt(z / y)


def fit_attenuation(
    *, frequency: Sequence[float], attenuation_db: Sequence[float]
) -> tuple[float, float]:
    """Fit conductor and dielectric loss to the points of a data sheet.

    Args:
        frequency: frequencies [Hz] (n,)
        attenuation_db: [dB/m] (n,)

    Returns:
        k1 [dB/m/Hz^0.5] and k2 [dB/m/Hz], neither below 0, least squares of the relative error
            {common-practice-line-loss}

    Raises:
        BoomwrightError: when there are fewer than two points or one is not above 0
    """
    f = np.asarray(frequency, dtype=float)
    a = np.asarray(attenuation_db, dtype=float)
    if f.shape != a.shape or f.size < 2 or np.any(f <= 0.0) or np.any(a <= 0.0):
        raise BoomwrightError(
            f"line attenuation: {f.size} frequencies and {a.size} losses; give two points or "
            "more, all above 0"
        )
    # Columns of like size, or the dielectric term drowns in rounding.
    top = f.max()
    columns = np.column_stack((np.sqrt(f / top), f / top)) / a[:, None]
    k1, k2 = np.linalg.lstsq(columns, np.ones(f.size), rcond=None)[0]
    # No line has a negative loss: with one of two terms at its limit the other fits alone.
    if min(k1, k2) < 0.0:
        kept = 0 if k2 < 0.0 else 1
        alone = columns[:, kept]
        only = float(alone.sum() / (alone @ alone))
        k1, k2 = (only, 0.0) if kept == 0 else (0.0, only)
    return float(k1 / math.sqrt(top)), float(k2 / top)


@dataclass(frozen=True, slots=True, kw_only=True)
class LineReading:
    """A line of given length with its load, for 1 W into the line."""

    input_impedance: complex  #: impedance at the radio [ohm]
    load_swr: float  #: standing wave ratio at the antenna, against the nominal impedance [-]
    input_swr: float  #: standing wave ratio at the radio, against the nominal impedance [-]
    matched_loss_db: float  #: loss if the load were matched [dB]
    loss_db: float  #: loss with this load [dB]
    #: power a radio without tuner leaves unused at that standing wave ratio [dB]
    mismatch_loss_db: float
    efficiency: float  #: power into the load over power into the line [-]
    greatest_voltage: float  #: effective voltage at its highest point, per root watt [V/W^0.5]
    greatest_current: float  #: effective current at its highest point, per root watt [A/W^0.5]
    greatest_heat: float  #: loss in the warmest metre over the power into the line [1/m]


def read_line(*, line: CoaxType, length: float, load: complex, frequency: float) -> LineReading:
    """Solve the telegrapher's equations for a line with a load.

    Args:
        length: its length, at least 0 [m]
        load: impedance at its far end, resistance above 0 [ohm]

    Returns:
        {pozar-2012, eqs. 2.14, 2.88 to 2.91} with complex characteristic impedance

    Raises:
        BoomwrightError: when the length is below 0 or the load takes no power
    """
    if length < 0.0 or load.real <= 0.0:
        raise BoomwrightError(
            f"line {line.name}: length {length:g} m, load {load:.4g} ohm; "
            "give a length of 0 or more and a load whose resistance is above 0"
        )
    gamma, z0 = line.propagation(frequency=frequency)
    # Points every fiftieth of a turn catch the crests to a thousandth.
    steps = max(2, math.ceil(abs(gamma.imag) * length / (2.0 * math.pi) * 50.0) + 1)
    way = gamma * np.linspace(0.0, length, steps)
    even, odd = np.cosh(way), np.sinh(way)
    voltage = load * even + z0 * odd
    current = even + load / z0 * odd
    power = np.real(voltage * np.conj(current))
    entering = float(power[-1])
    seen = complex(voltage[-1] / current[-1])
    ratio = float(standing_wave_ratio(seen, reference=line.impedance))
    series = 2.0 * line.k1 * math.sqrt(frequency) / DECIBELS_PER_NEPER * line.impedance
    shunt = 2.0 * line.k2 * frequency / DECIBELS_PER_NEPER / line.impedance
    heat = series * np.abs(current) ** 2 + shunt * np.abs(voltage) ** 2
    return LineReading(
        input_impedance=seen,
        load_swr=float(standing_wave_ratio(load, reference=line.impedance)),
        input_swr=ratio,
        matched_loss_db=line.attenuation_db(frequency=frequency) * length,
        loss_db=10.0 * math.log10(entering / load.real),
        mismatch_loss_db=mismatch_loss_db(ratio),
        efficiency=load.real / entering,
        greatest_voltage=float(np.abs(voltage).max() / math.sqrt(entering)),
        greatest_current=float(np.abs(current).max() / math.sqrt(entering)),
        greatest_heat=float(heat.max() / entering),
    )
