"""How good the common-mode choke at the feed must be."""

from __future__ import annotations

import math

from boomwright.base import BoomwrightError
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ChokeRequirement:
    """What a common-mode choke must do."""

    impedance: float  #: least modulus of its common-mode impedance at the frequencies of use [ohm]
    voltage: float  #: effective common-mode voltage across it at the peak envelope power [V]
    heat: float  #: mean power it turns to heat if that impedance is a pure resistance [W]


def choke_requirement(
    *,
    feed_impedance: complex,
    power: float,
    duty_factor: float,
    suppression_db: float = 30.0,
) -> ChokeRequirement:
    """Common-mode impedance that keeps the current on the line's outside small.

    With a line tied to a balanced feed, half the feed voltage drives the outside of the
    shield against the mast {common-practice-choke}.

    Args:
        feed_impedance: impedance at the feed on the line's side of the match [ohm]
        power: peak envelope power [W]
        duty_factor: mean over peak envelope power [-]
        suppression_db: wanted ratio of feed current to current on the outside [dB]

    Raises:
        BoomwrightError: when power or resistance is not above 0
    """
    if not (power > 0.0 and feed_impedance.real > 0.0):
        raise BoomwrightError(
            f"choke: power {power:g} W, feed impedance {feed_impedance:.4g} ohm; "
            "give a power and a feed resistance above 0"
        )
    feed_current = math.sqrt(power / feed_impedance.real)
    voltage = abs(feed_impedance) * feed_current / 2.0
    allowed = feed_current * 10.0 ** (-suppression_db / 20.0)
    impedance = voltage / allowed
    heat = allowed**2 * impedance * duty_factor
    return ChokeRequirement(impedance=impedance, voltage=voltage, heat=heat)
