"""What close conductors do that thin wires do not: the current gathers on the facing sides.

The solver couples wires from axis to axis, which leaves the uneven current out. The circuit
equations hold both limits, so their difference tells its share in the impedance.
"""

from __future__ import annotations

import cmath
import math

from boomwright.base import SPEED_OF_LIGHT, VACUUM_IMPEDANCE
from boomwright.feed.rod_matches import RodGeometry


def thin_wire_line(*, geometry: RodGeometry) -> tuple[float, float]:
    """Current division and line impedance of element and rod as thin wires.

    Returns:
        ln(s/b) / ln(s/a) [-] and (eta / 2 pi) ln(s^2 / ab) [ohm] with the radii a of the
        element and b of
            the rod: the limits of {balanis-2005, eqs. 9-49 and 9-51}
    """
    a, b = geometry.element_diameter / 2.0, geometry.rod_diameter / 2.0
    s = geometry.spacing
    division = math.log(s / b) / math.log(s / a)
    return division, VACUUM_IMPEDANCE / (2.0 * math.pi) * math.log(s * s / (a * b))


def rod_port_impedance(
    *, element: complex, step_up: float, line_impedance: float, angle: float, rods: int
) -> complex:
    """Impedance of a rod match before its capacitor, a whole element beside it.

    Two rods in series see the published tee. One rod drives the whole element too, so its
    step-up is that of the tee over a line of half the impedance: Z_T = (1 + alpha)^2 Z_a
    beside j Z_0 tan(kl). The published half-tee takes half of Z_a instead, which is right
    over a conducting plane only, where the other half of the element is an image.

    Args:
        element: impedance of the element as if split, :func:`thicker_middle` included [ohm]
        step_up: impedance step-up of a tee [-]
        line_impedance: characteristic impedance of element and rod as a line [ohm]
        angle: electrical length of a rod [rad]
        rods: 1 for a gamma, 2 for a tee

    Returns:
        impedance, {balanis-2005, section 9.7} for the tee [ohm]
    """
    stepped = element * step_up
    stub = 1j * line_impedance * rods * cmath.tan(angle)
    return stepped * stub / (stepped + stub)


def thicker_middle(
    *, geometry: RodGeometry, rod_length: float, frequency: float, rods: int
) -> float:
    """Reactance an element loses because rods make its middle a thicker conductor.

    The published equations leave this out; it is the main cause of the difference between
    them and the field, since the current is greatest in the middle.

    Args:
        rod_length: from the element's middle to the strap [m]
        rods: 1 for a gamma, 2 for a tee

    Returns:
        change of the reactance in the split, negative: minus the inductance that the equivalent
        radius
            {balanis-2005, eq. 9-20} saves, weighed with the cosine-squared current of a
            half-wave element
            [ohm]
    """
    a = geometry.element_diameter / 2.0
    division, _ = thin_wire_line(geometry=geometry)
    on_element, on_rod = division / (1.0 + division), 1.0 / (1.0 + division)
    equivalent = math.exp(on_element * math.log(a) + on_rod * math.log(geometry.spacing))
    wavenumber = 2.0 * math.pi * frequency / SPEED_OF_LIGHT
    weight = rod_length / 2.0 + math.sin(2.0 * wavenumber * rod_length) / (4.0 * wavenumber)
    line = VACUUM_IMPEDANCE / (2.0 * math.pi) * math.log(equivalent / a)
    return -rods * wavenumber * line * weight


def hairpin_proximity(
    *, element: complex, spacing: float, diameter: float, angle: float
) -> complex:
    """Change of a hairpin match's impedance from thin rods to round ones.

    Args:
        element: impedance in the split without the hairpin [ohm]
        spacing: distance between the axes of the rods [m]
        diameter: diameter of the rods [m]
        angle: electrical length of the hairpin [rad]

    Returns:
        change, with 120 arcosh(D/d) against 120 ln(2D/d) {pozar-2012, table 2.1} [ohm]
    """
    found = []
    for shape in (math.acosh(spacing / diameter), math.log(2.0 * spacing / diameter)):
        stub = 1j * VACUUM_IMPEDANCE / math.pi * shape * math.tan(angle)
        found.append(element * stub / (element + stub))
    return found[0] - found[1]
