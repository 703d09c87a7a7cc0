"""Hairpin: circuit start, field-solved finish."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.feed.field_match import Comparison, FieldMatch, Finish, finish_match
from boomwright.feed.field_model import (
    FieldSetting,
    Floats,
    solve_wires,
    with_driven_tips,
)
from boomwright.feed.field_proximity import hairpin_proximity
from boomwright.feed.field_shapes import HairpinShape
from boomwright.feed.field_split import (
    TIP_STEP,
    circuit_tip_change,
    split_impedance,
    split_load,
    tip_bounds,
    tip_comparison,
)
from boomwright.feed.iterate import Iteration, iterate
from boomwright.feed.lumped_matches import design_hairpin
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.stages import ElementTrim
from boomwright.parts import Beam

#: impedances are met within this share of the wanted resistance
_TOLERANCE = 0.004
#: an SWR that comes no nearer than this is still taken: where the element shows almost what the
#: line wants, the hairpin for the rest would be longer than any [-]
_CLOSE = 1.1
#: longest hairpin in wavelengths
_LONGEST = 0.12


def solve_hairpin(
    *,
    beam: Beam,
    rod_diameter: float,
    spacing: float,
    reference: float = 50.0,
    forward: bool = True,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Match with a hairpin: circuit equations first, then its rods as wires.

    Length of the hairpin and tips of the split driven element are turned together until the
    split shows the line's resistance.

    Args:
        beam: the beam; its driven element is split by ``beam.feed.gap``
        rod_diameter: diameter of the hairpin's rods [m]
        spacing: distance between the axes of the rods [m]
        reference: resistance of the line [ohm]
        forward: whether the hairpin points towards the heading
        setting: ground and memory; None is free space

    Raises:
        BoomwrightError: when neither the circuit equations nor the field reach a match
    """
    setting = setting or FieldSetting()
    frequency = beam.design_frequency
    load = split_load(beam=beam, setting=setting)
    planned = design_hairpin(
        load=load, frequency=frequency, spacing=spacing, diameter=rod_diameter, reference=reference
    )
    trim = next(each for each in planned.match.stages if isinstance(each, ElementTrim))
    estimate = circuit_tip_change(
        element=beam.elements[beam.driven_index], frequency=frequency, reactance=trim.reactance
    )
    shape = HairpinShape(
        rod_diameter=rod_diameter,
        spacing=spacing,
        length=planned.length,
        gap=beam.feed.gap,
        forward=forward,
    )
    first, turned = _turn(beam, shape, estimate, reference, setting)
    length, tips = (float(value) for value in turned.values)
    final = with_driven_tips(beam=beam, change=tips)
    shape = replace(shape, length=length)
    found = Finish(
        kind="hairpin",
        beam=final,
        shape=shape,
        wires=shape.wires(beam=final, setting=setting),
        stages=lambda _: (),
        comparisons=(
            Comparison(
                name="hairpin from the element to its short",
                unit="m",
                circuit=planned.length,
                field=length,
            ),
            tip_comparison(beam=beam, circuit=estimate, field=tips),
        ),
        swr_of_start=float(standing_wave_ratio(first, reference=reference)),
        proximity=hairpin_proximity(
            element=split_impedance(beam=final, setting=setting),
            spacing=spacing,
            diameter=rod_diameter,
            angle=2.0 * math.pi * frequency * length / SPEED_OF_LIGHT,
        ),
        evaluations=turned.evaluations + 2,
        notices=(),
    )
    return finish_match(found=found, reference=reference, setting=setting)


def _turn(
    beam: Beam, shape: HairpinShape, tips: float, reference: float, setting: FieldSetting
) -> tuple[complex, Iteration]:
    """Impedance with the circuit's dimensions, and the dimensions that match in the field."""
    frequency = beam.design_frequency
    half = beam.elements[beam.driven_index].half_length
    shortest, longest = tip_bounds(beam=beam)
    seen: list[complex] = []

    def off(values: Floats) -> Floats:
        turned = replace(shape, length=float(values[0]))
        trimmed = with_driven_tips(beam=beam, change=float(values[1]))
        solution = solve_wires(
            beam=trimmed,
            system=turned.wires(beam=trimmed, setting=setting),
            frequencies=np.array([frequency]),
            setting=setting,
        )
        seen.append(complex(solution.impedance[0]))
        # The admittance is the straighter function: the hairpin adds to it.
        scaled = reference * reference / seen[-1] - reference
        return np.array([scaled.real, scaled.imag])

    found = iterate(
        residual=off,
        start=np.array([shape.length, tips]),
        step=np.array([0.02 * shape.length, -TIP_STEP * half]),
        low=np.array([shape.spacing, shortest]),
        high=np.array([_LONGEST * SPEED_OF_LIGHT / frequency, longest]),
        tolerance=_TOLERANCE * reference,
    )
    nearest = reference * reference / (reference + complex(*found.residual))
    near = float(standing_wave_ratio(nearest, reference=reference)) <= _CLOSE
    if not (found.converged or near):
        msg = (
            f"hairpin: the field solution comes no nearer than {nearest:.0f} ohm to "
            f"{reference:g} ohm; start from an element nearer to its resonance, or change the "
            "hairpin's spacing"
        )
        raise BoomwrightError(msg)
    return seen[0], found
