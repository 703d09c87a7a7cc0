"""Folded element: circuit start, field-solved finish."""

from __future__ import annotations

import cmath
import math
from functools import partial

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.feed.field_match import Comparison, FieldMatch, Finish, finish_match
from boomwright.feed.field_model import FieldSetting, mean_diameter, solve_wires, with_driven_tips
from boomwright.feed.field_proximity import thin_wire_line
from boomwright.feed.field_shapes import FoldedShape
from boomwright.feed.field_split import (
    TIP_STEP,
    circuit_tip_change,
    split_impedance,
    split_load,
    tip_bounds,
    tip_comparison,
)
from boomwright.feed.iterate import iterate
from boomwright.feed.matches import FeedLoad
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.rod_matches import RodGeometry, design_folded_element
from boomwright.feed.stages import Transformer
from boomwright.parts import Beam

#: impedances are met within this share of the wanted resistance
_TOLERANCE = 0.004


def solve_folded(
    *,
    beam: Beam,
    conductor_diameter: float,
    spacing: float,
    gap: float = 0.04,
    reference: float = 50.0,
    balun_ratio: float = 1.0,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Fold the driven element: circuit equations first, then both conductors as wires.

    The tips are trimmed until the feed is resonant; the spacing stays.

    Args:
        beam: the beam; its driven element stays unbroken
        conductor_diameter: diameter of the second conductor, which is fed [m]
        spacing: distance between the axes of both conductors [m]
        gap: width of the split in the fed conductor [m]
        balun_ratio: impedance of the balun on the antenna side over that on the line side [-]
    """
    setting = setting or FieldSetting()
    shape = FoldedShape(conductor_diameter=conductor_diameter, spacing=spacing, gap=gap)
    load = split_load(beam=beam, setting=setting)
    tips, planned = _circuit_tips(beam, shape, load)
    target = reference * balun_ratio
    added, seen, used = _trimmed(beam, shape, tips, setting)
    final = with_driven_tips(beam=beam, change=added)
    found = Finish(
        kind="folded element",
        beam=final,
        shape=shape,
        wires=shape.wires(beam=final, setting=setting),
        stages=lambda _: (Transformer(ratio=1.0 / balun_ratio, label="balun"),),
        comparisons=(
            tip_comparison(beam=beam, circuit=tips, field=added),
            Comparison(name="spacing of the conductors", unit="m", circuit=spacing, field=spacing),
            Comparison(name="feed resistance", unit="ohm", circuit=planned, field=seen[-1].real),
        ),
        swr_of_start=float(standing_wave_ratio(seen[0], reference=target)),
        proximity=partial(folded_proximity, beam=final, shape=shape, setting=setting),
        evaluations=used + 2,
        notices=(),
    )
    return finish_match(found=found, reference=reference, setting=setting)


def _geometry(beam: Beam, shape: FoldedShape) -> RodGeometry:
    element = beam.elements[beam.driven_index]
    return RodGeometry(
        element_diameter=mean_diameter(element=element, length=element.half_length),
        rod_diameter=shape.conductor_diameter,
        spacing=shape.spacing,
    )


def _circuit_tips(beam: Beam, shape: FoldedShape, load: FeedLoad) -> tuple[float, float]:
    """Change of the tips and resistance at resonance by the circuit equations."""
    frequency = beam.design_frequency
    element = beam.elements[beam.driven_index]
    plain = complex(load.at(frequency))
    low, high = tip_bounds(beam=beam)
    off, trim = 0j, 0.0
    # The line mode is so far from resonance that a few corrections of the element settle it.
    for _ in range(8):
        shifted = FeedLoad(frequency=load.frequency, impedance=load.impedance + 1j * trim)
        match = design_folded_element(
            load=shifted,
            frequency=frequency,
            geometry=_geometry(beam, shape),
            half_length=element.half_length,
        )
        off = complex(match.transform(impedance=plain + 1j * trim, frequency=frequency))
        trim -= off.imag / _geometry(beam, shape).step_up
    tips = circuit_tip_change(element=element, frequency=frequency, reactance=trim)
    return min(max(tips, low), high), off.real


def _trimmed(
    beam: Beam, shape: FoldedShape, tips: float, setting: FieldSetting
) -> tuple[float, list[complex], int]:
    """Tips found, the impedances on the way, and the solutions taken."""
    half = beam.elements[beam.driven_index].half_length
    shortest, longest = tip_bounds(beam=beam)
    seen: list[complex] = []

    def off(values: Floats) -> Floats:
        trimmed = with_driven_tips(beam=beam, change=float(values[0]))
        solution = solve_wires(
            beam=trimmed,
            system=shape.wires(beam=trimmed, setting=setting),
            frequencies=np.array([beam.design_frequency]),
            setting=setting,
        )
        seen.append(complex(solution.impedance[0]))
        return np.array([seen[-1].imag])

    found = iterate(
        residual=off,
        start=np.array([tips]),
        step=np.array([-TIP_STEP * half]),
        low=np.array([shortest]),
        high=np.array([longest]),
        tolerance=_TOLERANCE * 50.0,
    )
    if not found.converged:
        raise BoomwrightError(
            phrase(
                "folded element: the field solution ends at {end} with {tips} added to each tip "
                "and does not reach resonance; change the second conductor's diameter or the balun",
                end=Quantity(seen[-1], "impedance"),
                tips=Quantity(float(found.values[0]), "sawn length"),
            )
        )
    return float(found.values[0]), seen, found.evaluations


def folded_proximity(*, beam: Beam, shape: FoldedShape, setting: FieldSetting) -> complex:
    """What round conductors change over thin wires, by the circuit equations.

    Returns:
        change of the impedance at the port [ohm]
    """
    geometry = _geometry(beam, shape)
    element = split_impedance(beam=beam, setting=setting)
    half = beam.elements[beam.driven_index].half_length
    tangent = cmath.tan(2.0 * math.pi * beam.design_frequency * half / SPEED_OF_LIGHT)
    division, line = thin_wire_line(geometry=geometry)
    found = []
    for step, impedance in (
        (geometry.step_up, geometry.line_impedance),
        ((1.0 + division) ** 2, line),
    ):
        stub = 2j * impedance * tangent
        found.append(step * element * stub / (step * element + stub))
    return found[0] - found[1]
