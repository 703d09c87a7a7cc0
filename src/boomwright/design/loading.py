"""What building does to an element, told as a change of its half length.

Wet or iced surfaces, other tube diameters and droop shift an element's reactance; near resonance
that acts like a little more or less length. The lengths come from the element's own reactance, so
they hold for stepped tubing as well.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.design.setting_up import gap_width
from boomwright.parts import Beam, Element, Insulation, TubeSection
from boomwright.solver import (
    GapPlace,
    Mirror,
    PlacedRun,
    Port,
    RunShape,
    WirePath,
    WireSystem,
    assemble,
    element_half,
    solve_currents,
    wire_network,
    working_detail,
)

#: relative permittivity of ice {evans-1965} and of water at HF {itu-p527}
ICE_PERMITTIVITY, WATER_PERMITTIVITY = 3.2, 80.0
#: thickness of the water film that rain keeps on a tube {common-practice-wet-film} [m]
_WATER_FILM = 2e-4
#: step of the length by which the slope of the reactance is found [wavelengths]
_STEP_WL = 1e-3
#: straight pieces that a drooping half is made of
_DROOP_PIECES = 8


WET = Insulation(thickness=_WATER_FILM, permittivity=WATER_PERMITTIVITY)


def ice(*, thickness: float) -> Insulation:
    """Clear ice of a thickness.

    Args:
        thickness: radial thickness [m]
    """
    return Insulation(thickness=thickness, permittivity=ICE_PERMITTIVITY)


def reactance_slope(*, element: Element, beam: Beam) -> float:
    """How the reactance of an element alone grows with its half length [ohm/m]."""
    step = _STEP_WL * beam.wavelength
    longer, shorter = (_reactance(_with_tip(element, sign * step), beam) for sign in (1.0, -1.0))
    return (longer - shorter) / (2.0 * step)


def coated_lengthening(*, element: Element, beam: Beam, coating: Insulation) -> float:
    """Change of half length that acts like a layer around the bare tubes.

    Returns:
        lengthening of one half [m]
    """
    bare, coated = (replace(element, insulation=layer) for layer in (None, coating))
    change = _reactance(coated, beam) - _reactance(bare, beam)
    return change / reactance_slope(element=element, beam=beam)


def thicker_lengthening(*, element: Element, beam: Beam, by: float) -> float:
    """Change of half length that acts like tubes of another diameter.

    Args:
        by: change of every diameter over the diameter [-]

    Returns:
        lengthening of one half [m]
    """
    thicker = replace(
        element,
        half=tuple(
            TubeSection(
                diameter=section.diameter * (1.0 + by), length=section.length, wall=section.wall
            )
            for section in element.half
        ),
    )
    change = _reactance(thicker, beam) - _reactance(element, beam)
    return change / reactance_slope(element=element, beam=beam)


def droop_lengthening(*, element: Element, beam: Beam, droop: float) -> float:
    """Change of half length that acts like tips hanging down, the tubes as long as before.

    Args:
        droop: how far the tips hang below the middle [m]

    Returns:
        lengthening of one half [m]
    """
    if droop == 0.0:
        return 0.0
    # The effect grows with the square of the droop. Half the droop as reference keeps the corners
    # of the model the same, which a straight element would not have.
    change = _bent_reactance(element, beam, droop) - _bent_reactance(element, beam, droop / 2.0)
    return 4.0 / 3.0 * change / reactance_slope(element=element, beam=beam)


def _with_tip(element: Element, more: float) -> Element:
    tip = element.half[-1]
    return replace(element, half=(*element.half[:-1], replace(tip, length=tip.length + more)))


def _reactance(element: Element, beam: Beam) -> float:
    """Reactance of an element alone, fed in its middle."""
    half = element_half(element=element)
    shape = RunShape(
        sections=half.sections,
        gaps=((0.0, gap_width(beam)),),
        start="mirror",
        end="closed tip",
    )
    run = PlacedRun(
        shape=shape,
        origin=(0.0, 0.0, 0.0),
        direction=(0.0, 1.0, 0.0),
        conductivity=half.metal(beam.material.conductivity),
        inductance=half.inductance,
    )
    system = WireSystem(runs=(run,), mirrors=(Mirror(axis=1),), ports=(Port(run=0),))
    return _port_reactance(system, beam.design_frequency)


def _bent_reactance(element: Element, beam: Beam, droop: float) -> float:
    """Reactance of an element whose halves hang in a parabola, in straight pieces."""
    half = element.half_length
    edges = np.cumsum([section.length for section in element.half])
    begins = np.concatenate([[0.0], edges[:-1]])
    pieces = np.ceil((edges - begins) / half * _DROOP_PIECES).astype(int)
    along = np.concatenate(
        [[0.0]]
        + [
            np.linspace(begin, end, count + 1)[1:]
            for begin, end, count in zip(begins, edges, pieces, strict=True)
        ]
    )
    slope = 2.0 * droop * along / half**2
    # Equal length along the tube: what goes down is missing sideways.
    middle = (slope[1:] + slope[:-1]) / 2.0
    lean = np.arctan(middle)
    steps = np.diff(along)
    sideways = np.concatenate([[0.0], np.cumsum(steps * np.cos(lean))])
    down = -np.concatenate([[0.0], np.cumsum(steps * np.sin(lean))])
    right = np.stack([0.0 * sideways, sideways, down], axis=1)
    # The gap needs a straight middle piece, so the middle is no corner.
    left = right[:0:-1] * np.array([1.0, -1.0, 1.0])
    radii = [
        next(s.diameter / 2.0 for s, edge in zip(element.half, edges, strict=True) if at < edge)
        for at in (along[1:] + along[:-1]) / 2.0
    ]
    path = WirePath(
        name="element",
        points=np.concatenate([left, right[1:]]),
        radii=np.array([*radii[:0:-1], *radii]),
        conductivity=beam.material.conductivity,
    )
    middle_at = float(steps[1:].sum() + sideways[1])
    gap = GapPlace(path=0, along=middle_at, width=gap_width(beam))
    return _port_reactance(
        wire_network(paths=(path,), gaps=(gap,), perfect_ground=False), beam.design_frequency
    )


def _port_reactance(system: WireSystem, frequency: float) -> float:
    assembly = assemble(
        system=system,
        detail=working_detail(frequency=frequency),
        highest_frequency=frequency,
    )
    currents = solve_currents(assembly=assembly, frequencies=np.array([frequency]))
    return float((1.0 / currents.admittance[0, 0, 0]).imag)
