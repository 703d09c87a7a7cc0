"""Loss of a vertical in the ground at its foot, with radial wires in it.

The compensation theorem: the magnetic field that the antenna would have over perfect ground drives
currents in the surface impedance that is there {wait-pope-1954}. Within the radials that is the
grid of wires beside the soil, beyond them the soil alone; the field is that of a sinusoidal
current. It holds for radials that lie closer than a skin depth, 15 or more; with fewer the figure
is a guide. Soil is known to a factor of two at best, so the loss carries a band.
"""

from __future__ import annotations

import math

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.base.array_types import Floats
from boomwright.parts import Beam, Element
from boomwright.solver.ground import Ground

#: radials from which on the model was held against measurement {wait-pope-1954}
LEAST_RADIALS = 15
#: the ground is followed from here, where the foot ends, to half a wave out [m] and [wavelengths]
_FROM, _TO_WL = 0.15, 0.5
_STEPS = 2000
#: a current that all but vanishes at the foot is held here, share of its largest
_LEAST_SINE = 0.1
#: this near its resonance no current passes a trap, as a share of its frequency
_BLOCKS = 1e-6


def screen_resistance(
    *,
    count: int,
    length: float,
    wire_radius: float,
    height: float,
    permittivity: complex,
    frequency: float,
) -> float:
    """Loss resistance at the foot of a vertical over radials {wait-pope-1954}.

    Args:
        count: radials; 0 for none
        length: of each [m]
        wire_radius: of their metal [m]
        height: of the vertical [m]
        permittivity: complex, of the ground, relative [-]

    Returns:
        loss referred to the current at the foot [ohm]
    """
    wavelength = SPEED_OF_LIGHT / frequency
    wavenumber = 2.0 * math.pi / wavelength
    out = np.geomspace(_FROM, _TO_WL * wavelength, _STEPS)
    ground = VACUUM_IMPEDANCE * np.sqrt(1.0 - 1.0 / permittivity) / np.sqrt(permittivity)
    surface = np.full(_STEPS, ground)
    if count:
        apart = 2.0 * math.pi * out / count
        wires = (
            1j
            * VACUUM_IMPEDANCE
            * apart
            / wavelength
            * np.log(apart / (2.0 * math.pi * wire_radius))
        )
        inside = (out < length) & (apart > 2.0 * math.pi * wire_radius)
        surface[inside] = (wires * ground / (wires + ground))[inside]
    sine = max(abs(math.sin(wavenumber * height)), _LEAST_SINE)
    slant = np.hypot(out, height)
    field = np.abs(
        np.exp(-1j * wavenumber * slant)
        - math.cos(wavenumber * height) * np.exp(-1j * wavenumber * out)
    ) / (2.0 * math.pi * out * sine)
    return float(np.trapezoid(surface.real * field**2 * 2.0 * math.pi * out, out))


def current_end(element: Element, *, frequency: float) -> float:
    """Where the sinusoidal current below the traps of an upright wire would end.

    What lies above a trap is an open line of impedance 60 (ln(2h/a) - 1), half that of a dipole
    {common-practice-open-line}; with the trap in series it acts as one of another length.

    Returns:
        along the wire from its foot; its own end without traps [m]
    """
    wavenumber = 2.0 * math.pi * frequency / SPEED_OF_LIGHT
    top = element.half_length
    line = 60.0 * (math.log(4.0 * top / element.half[0].diameter) - 1.0)
    for trap in reversed(element.traps):
        detuned = 1.0 - (frequency / trap.resonance) ** 2
        if abs(detuned) < _BLOCKS:
            top = trap.place
            continue
        reactance = 2.0 * math.pi * frequency * trap.inductance / detuned
        onward = 1.0 / math.tan(wavenumber * (top - trap.place)) - reactance / line
        # Within a quarter wave of the trap, on either side of it.
        top = trap.place + math.atan(1.0 / onward) / wavenumber
    return top


def foot_resistance(*, beam: Beam, ground: Ground, frequencies: Floats) -> Floats:
    """What the ground adds to the feed of a vertical that stands on it.

    Args:
        frequencies: [Hz] (f,)

    Returns:
        loss at the foot, 0 for all that does not stand on real ground [ohm] (f,)
    """
    if not beam.stands_on_ground or beam.radials is None or ground.kind != "real":
        return np.zeros(len(frequencies))
    element = beam.elements[beam.driven_index]
    corners = element.corners
    rise = (max(z for _, _, z in corners) - corners[0][2]) / element.half_length
    found: Floats = beam.radials.loss_factor * np.array(
        [
            screen_resistance(
                count=beam.radials.count,
                length=beam.radials.length,
                wire_radius=beam.radials.diameter / 2.0,
                height=rise * current_end(element, frequency=float(frequency)),
                permittivity=ground.complex_permittivity(frequency=float(frequency)),
                frequency=float(frequency),
            )
            for frequency in frequencies
        ]
    )
    return found
