"""What is read off the currents: impedance, gain, patterns, each with its error band."""

from __future__ import annotations

from typing import Literal

import numpy as np
from numpy.typing import NDArray

from boomwright.base import ReadOnlyArrays
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepPoint:
    """The figures of a beam in free space at one frequency, each with its error band."""

    frequency: float  #: frequency [Hz]
    impedance: complex  #: feed-point impedance [ohm]
    swr: float  #: standing wave ratio against the reference resistance [-]
    gain_dbi: float  #: gain towards the heading at elevation 0, losses included [dBi]
    front_to_back_db: float  #: forward gain over the gain exactly backwards [dB]
    front_to_rear_db: float  #: forward gain over the strongest gain in the rear half-plane [dB]
    efficiency: float  #: radiated power over accepted power [-]
    impedance_error: float  #: half width of the band of the impedance, as a modulus [ohm]
    swr_error: float  #: half width of the band of the standing wave ratio [-]
    gain_error_db: float  #: half width of the band of the gain [dB]
    front_to_back_error_db: float  #: half width of the band of the front-to-back ratio [dB]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PatternCut(ReadOnlyArrays):
    """Gain along one cut of the pattern, total of both polarisations."""

    #: ``azimuth`` (constant elevation) or ``elevation`` (through the heading)
    plane: Literal["azimuth", "elevation"]
    #: the constant angle of the cut: elevation of an azimuth cut, azimuth of an elevation cut [deg]
    at_deg: float
    #: running angle; azimuth counter-clockwise from the heading 0..360, elevation from the heading
    #: over the zenith, 0..180 over ground and 0..360 in free space [deg] (n,)
    angle_deg: NDArray[np.float64]
    gain_dbi: NDArray[np.float64]  #: gain, floored at -60 [dBi] (n,)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ElementCurrent(ReadOnlyArrays):
    """Current along one element, for 1 A at the feed."""

    label: str  #: role and number, e.g. ``reflector`` or ``director 2``
    place: float  #: position of the element along the boom [m]
    along: NDArray[np.float64]  #: coordinate along the element, from one tip to the other [m] (n,)
    #: complex current, e^(+jwt), relative to the feed current [A/A] (n,)
    current: NDArray[np.complex128]

    @property
    def middle(self) -> complex:
        """Current at coordinate 0, between the samples where need be [A/A]."""
        return complex(np.interp(0.0, self.along, self.current))
