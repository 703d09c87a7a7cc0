"""What is read off the currents: impedance, gain, patterns, each with its error band."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepPoint:
    """The figures of a beam in free space at one frequency, each with its error band.

    Parameters
    ----------
    frequency
        frequency [Hz]
    impedance
        feed-point impedance [ohm]
    swr
        standing wave ratio against the reference resistance [-]
    gain_dbi
        gain towards the heading at elevation 0, losses included [dBi]
    front_to_back_db
        forward gain over the gain exactly backwards [dB]
    front_to_rear_db
        forward gain over the strongest gain in the rear half-plane [dB]
    efficiency
        radiated power over accepted power [-]
    impedance_error
        half width of the band of the impedance, as a modulus [ohm]
    swr_error
        half width of the band of the standing wave ratio [-]
    gain_error_db
        half width of the band of the gain [dB]
    front_to_back_error_db
        half width of the band of the front-to-back ratio [dB]
    """

    frequency: float
    impedance: complex
    swr: float
    gain_dbi: float
    front_to_back_db: float
    front_to_rear_db: float
    efficiency: float
    impedance_error: float
    swr_error: float
    gain_error_db: float
    front_to_back_error_db: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PatternCut:
    """Gain along one cut of the pattern, total of both polarisations.

    Parameters
    ----------
    plane
        ``azimuth`` (constant elevation) or ``elevation`` (through the heading)
    at_deg
        the constant angle of the cut: elevation of an azimuth cut, azimuth of an
        elevation cut [deg]
    angle_deg
        running angle; azimuth counter-clockwise from the heading 0..360, elevation from the
        heading over the zenith, 0..180 over ground and 0..360 in free space [deg] (n,)
    gain_dbi
        gain, floored at -60 [dBi] (n,)
    """

    plane: Literal["azimuth", "elevation"]
    at_deg: float
    angle_deg: NDArray[np.float64]
    gain_dbi: NDArray[np.float64]

    def __post_init__(self) -> None:
        object.__setattr__(self, "angle_deg", read_only(self.angle_deg))
        object.__setattr__(self, "gain_dbi", read_only(self.gain_dbi))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ElementCurrent:
    """Current along one element, for 1 A at the feed.

    Parameters
    ----------
    label
        role and number, e.g. ``reflector`` or ``director 2``
    place
        position of the element along the boom [m]
    along
        coordinate along the element, from one tip to the other [m] (n,)
    current
        complex current, e^(+jwt), relative to the feed current [A/A] (n,)
    """

    label: str
    place: float
    along: NDArray[np.float64]
    current: NDArray[np.complex128]

    def __post_init__(self) -> None:
        object.__setattr__(self, "along", read_only(self.along))
        object.__setattr__(self, "current", read_only(self.current, complex))
