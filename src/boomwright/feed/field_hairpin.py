"""Hairpin: circuit start, field-solved finish."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.feed.field_match import (
    HAIRPIN_LENGTH,
    Comparison,
    FieldMatch,
    Finish,
    finish_match,
)
from boomwright.feed.field_model import FieldSetting, solve_wires, with_driven_tips
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
#: where else the turning begins, between the shortest and the longest hairpin [-]
_FURTHER_STARTS = (0.4, 0.9)
#: longest hairpin in wavelengths
_LONGEST = 0.12


def solve_hairpin(
    *,
    beam: Beam,
    rod_diameter: float,
    spacing: float,
    reference: float = 50.0,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Match with a hairpin: circuit equations first, then its rods as wires.

    Length of the hairpin and tips of the split driven element are turned together until the
    split shows the line's resistance.

    Args:
        beam: the beam; its driven element is split by ``beam.feed.gap``, its rods run as it says
        rod_diameter: diameter of the hairpin's rods [m]
        spacing: distance between the axes of the rods [m]
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
        forward=beam.rods_forward,
    )
    at_split = complex(load.at(np.array([frequency]))[0])
    first, turned = _turn(beam, shape, estimate, reference, setting, at_split)
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
                name=HAIRPIN_LENGTH,
                unit="m",
                circuit=planned.length,
                field=length,
            ),
            tip_comparison(beam=beam, circuit=estimate, field=tips),
        ),
        swr_of_start=float(standing_wave_ratio(first, reference=reference)),
        proximity=partial(round_rods, beam=final, shape=shape, setting=setting),
        evaluations=turned.evaluations + 2,
        notices=(),
    )
    return finish_match(found=found, reference=reference, setting=setting)


def round_rods(*, beam: Beam, shape: HairpinShape, setting: FieldSetting) -> complex:
    """What round rods change over thin wires, by the circuit equations.

    Returns:
        change of the impedance at the port [ohm]
    """
    return hairpin_proximity(
        element=split_impedance(beam=beam, setting=setting),
        spacing=shape.spacing,
        diameter=shape.rod_diameter,
        angle=2.0 * math.pi * beam.design_frequency * shape.length / SPEED_OF_LIGHT,
    )


def _turn(
    beam: Beam,
    shape: HairpinShape,
    tips: float,
    reference: float,
    setting: FieldSetting,
    at_split: complex,
) -> tuple[complex, Iteration]:
    """Impedance with the circuit's dimensions, and the dimensions that match in the field."""
    frequency = beam.design_frequency
    driven = beam.elements[beam.driven_index]
    half = driven.half_length
    resonant = circuit_tip_change(element=driven, frequency=frequency, reactance=-at_split.imag)
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

    low, most = shape.spacing, _LONGEST * SPEED_OF_LIGHT / frequency

    def turned(start: tuple[float, float]) -> Iteration:
        return iterate(
            residual=off,
            start=np.array(start),
            step=np.array([0.02 * start[0], -TIP_STEP * half]),
            low=np.array([low, shortest]),
            high=np.array([most, longest]),
            tolerance=_TOLERANCE * reference,
        )

    found = turned((shape.length, tips))
    for share in _FURTHER_STARTS:
        if _matches(found, reference):
            break
        # Where rods are short against their distance, the circuit's start leads nowhere.
        again = turned((low + share * (most - low), resonant))
        if np.linalg.norm(again.residual) < np.linalg.norm(found.residual):
            found = replace(again, evaluations=found.evaluations + again.evaluations)
    _refuse_far(found, shape, reference, at_split)
    return seen[0], found


def _nearest(found: Iteration, reference: float) -> complex:
    return reference * reference / (reference + complex(*found.residual))


def _matches(found: Iteration, reference: float) -> bool:
    near = standing_wave_ratio(_nearest(found, reference), reference=reference)
    return found.converged or float(near) <= _CLOSE


def _refuse_far(found: Iteration, shape: HairpinShape, reference: float, at_split: complex) -> None:
    if _matches(found, reference):
        return
    if found.values[0] < 1.02 * shape.spacing:
        raise BoomwrightError(
            phrase(
                "hairpin: it would have to be shorter than its rods are apart ({spacing}), because "
                "the split element shows only {ohms}; set the rods closer together, aim at a "
                'higher resistance with resistance = ["30 ohm", "45 ohm"] in [wish], or choose '
                "another kind of match",
                spacing=Quantity(shape.spacing, "small length"),
                ohms=Quantity(at_split.real, "resistance"),
            )
        )
    raise BoomwrightError(
        f"hairpin: the field solution comes no nearer than {_nearest(found, reference):.0f} ohm to "
        f"{reference:g} ohm; start from an element nearer to its resonance, or change the "
        "hairpin's spacing"
    )
