"""The S-meter scale: what a gain or a received power is worth in S-units {iaru-r1-r1}."""

from __future__ import annotations

import math

#: one S-unit [dB] {iaru-r1-r1}
DECIBELS_PER_S_UNIT = 6.0
#: power of S9 below 30 MHz [dBm] {iaru-r1-r1}
S9_DBM_BELOW_30_MHZ = -73.0
#: power of S9 above 30 MHz [dBm] {iaru-r1-r1}
S9_DBM_ABOVE_30_MHZ = -93.0


def s9_dbm(*, frequency: float) -> float:
    """Power at the receiver that reads S9.

    Args:
        frequency: [Hz]

    Returns:
        power {iaru-r1-r1} [dBm]
    """
    return S9_DBM_ABOVE_30_MHZ if frequency > 30e6 else S9_DBM_BELOW_30_MHZ


def s_units(*, power_dbm: float, frequency: float) -> float:
    """Reading on the S scale, 9 at S9, in steps of 6 dB.

    Args:
        power_dbm: power at the receiver [dBm]
        frequency: [Hz]

    Returns:
        S-units, above 9 continued at the same step {iaru-r1-r1} [-]
    """
    return 9.0 + (power_dbm - s9_dbm(frequency=frequency)) / DECIBELS_PER_S_UNIT


def power_of_s_units(*, units: float, frequency: float) -> float:
    """Power at the receiver that gives a reading on the S scale.

    Args:
        units: S-units [-]
        frequency: [Hz]

    Returns:
        power {iaru-r1-r1} [dBm]
    """
    return s9_dbm(frequency=frequency) + (units - 9.0) * DECIBELS_PER_S_UNIT


def signal_report(*, power_dbm: float, frequency: float) -> str:
    """Write a reading as the meter shows it: ``S7``, ``S9`` or ``S9 + 12 dB``.

    Args:
        power_dbm: power at the receiver [dBm]
        frequency: [Hz]
    """
    over = power_dbm - s9_dbm(frequency=frequency)
    if over >= DECIBELS_PER_S_UNIT / 2:
        return f"S9 + {round(over)} dB"
    units = math.floor(s_units(power_dbm=power_dbm, frequency=frequency) + 0.5)
    return f"S{units}" if units >= 1 else "below S1"


def microvolts(*, power_dbm: float, resistance: float = 50.0) -> float:
    """Voltage across the receiver input for a power.

    Args:
        power_dbm: power at the receiver [dBm]
        resistance: input resistance [ohm]

    Returns:
        voltage, effective value [uV]
    """
    return 1e6 * math.sqrt(10.0 ** ((power_dbm - 30.0) / 10.0) * resistance)
