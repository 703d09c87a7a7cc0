"""The S-meter scale: what a gain or a received power is worth in S-units {iaru-r1-r1}."""

from __future__ import annotations

#: one S-unit [dB] {iaru-r1-r1}
DECIBELS_PER_S_UNIT = 6.0
#: power of S9 below 30 MHz [dBm] {iaru-r1-r1}
S9_DBM_BELOW_30_MHZ = -73.0
#: power of S9 above 30 MHz [dBm] {iaru-r1-r1}
S9_DBM_ABOVE_30_MHZ = -93.0


def s9_dbm(*, frequency: float) -> float:
    """Power at the receiver that reads S9 {iaru-r1-r1} [dBm]."""
    return S9_DBM_ABOVE_30_MHZ if frequency > 30e6 else S9_DBM_BELOW_30_MHZ


def s_units(*, power_dbm: float, frequency: float) -> float:
    """Reading on the S scale, 9 at S9, in steps of 6 dB.

    Args:
        power_dbm: power at the receiver [dBm]

    Returns:
        S-units, above 9 continued at the same step {iaru-r1-r1} [-]
    """
    return 9.0 + (power_dbm - s9_dbm(frequency=frequency)) / DECIBELS_PER_S_UNIT
