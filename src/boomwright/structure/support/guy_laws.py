"""How the tension of a guy follows the way its upper end moves: as a bar, or as a hanging cable.

Both laws rise without a break, so a mast on such guys has one equilibrium only.
"""

from __future__ import annotations

from typing import Protocol

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GuyPull:
    """What guys do at one position of the mast."""

    tension: Floats  #: tension of every guy [N] (n_guys,)
    slope: Floats  #: its growth with the distance of the ends, above zero [N/m] (n_guys,)
    energy: float  #: energy of all together up to a constant, whose slope is the tension [J]


class GuyLaw(Protocol):
    """Pull of every guy from the growth of the distance between its ends."""

    def pull(self, growth: Floats) -> GuyPull:
        """Pull of every guy.

        Args:
            growth: growth of the distance between its ends [m] (n_guys,)
        """
        ...


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BarLaw(ReadOnlyArrays):
    """Straight weightless guys that only pull."""

    initial: Floats  #: tension with no wind [N] (n_guys,)
    stiffness: Floats  #: EA over length [N/m] (n_guys,)

    def pull(self, growth: Floats) -> GuyPull:
        """Pull of straight guys, none when slack; see ``GuyLaw``.

        Slack guys keep a thousandth of their stiffness for the next step, so that a mast held by
        one guy still has a way to go; the balance that ends the search knows nothing of it.

        Args:
            growth: growth of the distance between the ends [m] (n_guys,)
        """
        pull = self.initial + self.stiffness * growth
        taut = pull >= -1e-9 * (float(np.max(np.abs(pull))) + 1e-30)
        tension = np.maximum(pull, 0.0)
        return GuyPull(
            tension=tension,
            slope=np.where(taut, self.stiffness, 1e-3 * self.stiffness),
            energy=float(np.sum(tension**2 / (2.0 * self.stiffness))),
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CableLaw(ReadOnlyArrays):
    """Guys that hang through under weight, ice and wind (flat parabola) {irvine-cables}.

    A cable of unstretched length L0 on a chord c, under the even load q square to the chord,
    carries the tension T at which c = L0 (1 + T / EA) - q^2 c^3 / (24 T^2).
    """

    chord: Floats  #: distance of the ends with no wind [m] (n_guys,)
    axial_stiffness: Floats  #: EA [N] (n_guys,)
    unstretched: Floats  #: length with no load [m] (n_guys,)
    load: Floats  #: load on a metre, square to the chord [N/m] (n_guys,)

    def pull(self, growth: Floats) -> GuyPull:
        """Pull of hanging guys at mid guy, along the chord; see ``GuyLaw``.

        Args:
            growth: growth of the distance between the ends [m] (n_guys,)
        """
        stretch = self.unstretched / self.axial_stiffness
        hang = self.load**2 * self.chord**3 / 24.0
        wanted = growth + self.chord - self.unstretched
        # The curve bends one way, so steps from below never overshoot.
        at_length = np.cbrt(hang / stretch)
        tension = np.maximum(
            wanted / stretch, np.sqrt(hang / (stretch * at_length + np.maximum(-wanted, 0.0)))
        )
        for _ in range(60):
            droop = hang / tension**2
            step = (stretch * tension - droop - wanted) / (stretch + 2.0 * droop / tension)
            tension = tension - step
            if float(np.max(np.abs(step) / tension)) < 1e-10:
                break
        return GuyPull(
            tension=tension,
            slope=1.0 / (stretch + 2.0 * hang / tension**3),
            energy=float(np.sum(stretch * tension**2 / 2.0 - 2.0 * hang / tension)),
        )


def unstretched_length(
    *, chord: Floats, axial_stiffness: Floats, load: Floats, tension: Floats
) -> Floats:
    """Unstretched length of a guy that hangs at a wanted tension between its ends [m] (n_guys,).

    Args:
        chord: distance of the ends [m] (n_guys,)
        axial_stiffness: EA [N] (n_guys,)
        load: load on a metre, square to the chord [N/m] (n_guys,)
        tension: tension wanted, above zero [N] (n_guys,)
    """
    hang = load**2 * chord**3 / 24.0
    return (chord + hang / tension**2) / (1.0 + tension / axial_stiffness)
