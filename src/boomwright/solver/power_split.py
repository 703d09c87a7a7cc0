"""Where the accepted power goes: sky, metal, loads and ground."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.solver.currents import Currents, conductor_loss
from boomwright.solver.far_field import moments, radiated_power
from boomwright.solver.ground import FREE_SPACE, Ground
from boomwright.solver.port_network import PortState

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PowerSplit:
    """Powers of an antenna with its loads."""

    supplied: Floats  #: given by the generators [W] (f,)
    radiated: Floats  #: carried away by the far field, the surface wave left out [W] (f,)
    conductor: Floats  #: heating the wires [W] (f,)
    load: Floats  #: heating loads and lines [W] (f,)
    #: the rest: lost in real ground, or the power balance's error without one [W] (f,)
    ground: Floats

    @property
    def efficiency(self) -> Floats:
        """Radiated over supplied power (f,)."""
        return self.radiated / self.supplied


def power_split(*, currents: Currents, state: PortState, ground: Ground = FREE_SPACE) -> PowerSplit:
    """Split the power of a driven antenna.

    Args:
        ground: ground below; real ground at the system's own height
    """
    unknowns = np.einsum("fnp,fp->fn", currents.unknowns, state.voltage)
    source = moments(
        assembly=currents.assembly, unknowns=unknowns, frequencies=currents.frequencies
    )
    height = currents.assembly.system.ground_height
    if np.isfinite(height):
        source = source.lifted(height=height)
    supplied = 0.5 * (state.voltage * state.generator_current.conj()).real.sum(axis=1)
    radiated = radiated_power(source=source, ground=ground)
    conductor = conductor_loss(currents=currents, weights=state.voltage)
    return PowerSplit(
        supplied=supplied,
        radiated=radiated,
        conductor=conductor,
        load=state.load_power,
        ground=supplied - radiated - conductor - state.load_power,
    )
