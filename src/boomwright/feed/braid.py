"""The outside of the line as a wire down boom and mast, with a choke where it leaves the feed."""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import VACUUM_IMPEDANCE, BoomwrightError, ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.parts import Beam
from boomwright.solver import Generator, drive

#: the pattern is compared where it is this far below its peak at most; nulls say nothing
#: about service [dB]
MAIN_LOBE_DB = 10.0
#: a pattern that varies less all round has no direction [dB]
_ROUND_DB = 0.01
#: stands for a bypassed choke where an admittance is asked for [ohm]
_BYPASSED = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Braid:
    """Where the line runs."""

    diameter: float  #: diameter of the braid, or of the metal boom and mast it is bonded to [m]
    drop: float  #: from the driven element down to the line along the boom [m]
    mast_at: float  #: place of the mast along the boom, as the elements' positions are [m]
    #: length of the line down the mast; ignored over perfect ground when ``grounded`` [m]
    down: float
    grounded: bool = False  #: whether the lower end is bonded to perfect ground


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidReading(ReadOnlyArrays):
    """What a choke leaves of the current on the braid and of the harm it does.

    Changes are against the same beam without any braid.
    """

    choke: complex  #: common-mode impedance of the choke [ohm]
    impedance: complex  #: impedance in the feed [ohm]
    choke_current: float  #: modulus of the current through the choke over the feed current [-]
    #: greatest modulus of the current on the braid over the feed current [-]
    greatest_current: float
    choke_loss: float  #: power lost in the choke over the power accepted [-]
    gain_dbi: Floats  #: gain at each azimuth [dBi] (n_azimuths,)
    pattern_change_db: float  #: greatest change of the gain within the main lobe [dB]
    left_right_db: float  #: greatest difference between mirrored azimuths within the main lobe [dB]
    direction_shift: float  #: turn of the main lobe, counter-clockwise [rad]
    front_to_back_loss_db: float  #: front-to-back ratio lost [dB]

    @property
    def harm_db(self) -> float:
        """Greater of pattern change and left-right difference [dB]."""
        return max(self.pattern_change_db, self.left_right_db)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BraidSolution(ReadOnlyArrays):
    """A split beam with its braid, solved for any choke."""

    beam: Beam
    braid: Braid  #: the line
    frequency: float  #: frequency [Hz]
    #: elevation of the pattern: 0 in free space, the peak of the main lobe over ground [rad]
    elevation: float
    #: azimuths of the pattern, counter-clockwise from the heading [rad] (n_azimuths,)
    azimuth: Floats
    plain_gain_dbi: Floats  #: gain without the braid [dBi] (n_azimuths,)
    plain_impedance: complex  #: impedance in the feed without the braid [ohm]
    admittance: Complexes  #: of feed and choke gap [S] (2, 2)
    #: vertical and horizontal far field for one volt at feed and choke gap [1/m] (2, 2, n_azimuths)
    fields: Complexes
    braid_current: Complexes  #: current along the braid for one volt at each [S] (2, n_points)

    def reading(self, *, choke: complex) -> BraidReading:
        """Read current and pattern with a choke.

        Args:
            choke: its common-mode impedance, 0 when it is bypassed [ohm]

        Raises:
            BoomwrightError: when the choke's resistance is below 0
        """
        if choke.real < 0.0:
            raise BoomwrightError(f"choke: {choke:.4g} ohm; a choke's resistance cannot be below 0")
        load = choke if abs(choke) > _BYPASSED else complex(_BYPASSED)
        network = np.zeros((1, 2, 2), dtype=complex)
        network[0, 1, 1] = 1.0 / load
        state = drive(
            antenna=self.admittance[None],
            network=network,
            generators=(Generator(port=0, voltage=1.0),),
        )
        voltage = state.voltage[0]
        fed = complex(state.generator_current[0, 0])
        accepted = 0.5 * fed.real
        vertical, horizontal = np.einsum("p,pcd->cd", voltage, self.fields)
        gain = pattern_gain_dbi(vertical, horizontal, accepted)
        through = float(abs(state.antenna_current[0, 1]))
        change = gain - self.plain_gain_dbi
        mirrored = np.roll(gain[::-1], 1)
        lobe = self.plain_gain_dbi > self.plain_gain_dbi.max() - MAIN_LOBE_DB
        ahead = lobe & (np.cos(self.azimuth) > 0.0)
        # A beam out of tune may have its main lobe behind it alone.
        lobe = ahead if ahead.any() else lobe
        back = len(gain) // 2
        return BraidReading(
            choke=choke,
            impedance=1.0 / fed,
            choke_current=through / abs(fed),
            greatest_current=float(np.max(np.abs(voltage @ self.braid_current))) / abs(fed),
            choke_loss=0.5 * through**2 * load.real / accepted,
            gain_dbi=gain,
            pattern_change_db=float(np.max(np.abs(change[lobe]))),
            left_right_db=float(np.max(np.abs((gain - mirrored)[lobe]))),
            direction_shift=_peak(self.azimuth, gain),
            front_to_back_loss_db=float(
                (self.plain_gain_dbi[0] - self.plain_gain_dbi[back]) - (gain[0] - gain[back])
            ),
        )


def pattern_gain_dbi(vertical: Complexes, horizontal: Complexes, accepted: float) -> Floats:
    """Gain from the far field of both polarisations.

    Args:
        vertical, horizontal: far field times distance, peak [V] (n,)
        accepted: power accepted [W]

    Returns:
        gain, floored at -60 [dBi] (n,)
    """
    density = (np.abs(vertical) ** 2 + np.abs(horizontal) ** 2) / (2.0 * VACUUM_IMPEDANCE)
    gain: Floats = 10.0 * np.log10(np.maximum(4.0 * np.pi * density / accepted, 1e-6))
    return gain


def _peak(azimuth: Floats, gain: Floats) -> float:
    """Azimuth of the greatest gain, by the parabola through its three highest points [rad].

    What is heard all round alike has no lobe that could turn.
    """
    if float(np.ptp(gain)) < _ROUND_DB:
        return 0.0
    top = int(np.argmax(gain))
    left, middle, right = (float(gain[(top + step) % len(gain)]) for step in (-1, 0, 1))
    curve = left - 2.0 * middle + right
    shift = 0.5 * (left - right) / curve if curve < 0.0 else 0.0
    place = float(azimuth[top]) + shift * 2.0 * math.pi / len(gain)
    return (place + math.pi) % (2.0 * math.pi) - math.pi
