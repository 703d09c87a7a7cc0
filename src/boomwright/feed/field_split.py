"""The split element in the field, trimmed to a wanted reactance, and the matches behind it."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from boomwright.base import SPEED_OF_LIGHT, BoomwrightError
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, replace
from boomwright.feed.field_match import (
    HALF_LENGTH,
    Comparison,
    FieldMatch,
    Finish,
    band_frequencies,
    finish_match,
)
from boomwright.feed.field_model import (
    FieldSetting,
    mean_diameter,
    shortest_tip,
    solve_wires,
    with_driven_tips,
)
from boomwright.feed.field_shapes import SplitShape
from boomwright.feed.iterate import iterate
from boomwright.feed.matches import FeedLoad, Match, through_stages
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.stages import ElementTrim
from boomwright.parts import Beam, Element

#: most that each half of the driven element is trimmed, share of its length
MOST_TRIM = 0.2
#: reactances are met within this [ohm]
_TOLERANCE = 0.05
#: change of each tip that tells a slope, share of the half-length
TIP_STEP = 0.002


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TrimmedElement:
    """A driven element trimmed to a wanted reactance, as if it were split."""

    beam: Beam  #: the beam with the trimmed element
    tip_change: float  #: change of each half [m]
    impedance: complex  #: impedance in the split at the design frequency [ohm]
    evaluations: int  #: field solutions it took


def split_load(*, beam: Beam, setting: FieldSetting) -> FeedLoad:
    """Impedance of the driven element as if split, over the band, in the field; solved once."""
    if beam not in setting.split_loads:
        system = SplitShape(gap=beam.feed.gap).wires(beam=beam, setting=setting)
        at = band_frequencies(beam=beam, points=setting.band_points)
        solution = solve_wires(beam=beam, system=system, frequencies=at, setting=setting)
        setting.split_loads[beam] = FeedLoad(
            frequency=solution.frequencies, impedance=solution.impedance
        )
    return setting.split_loads[beam]


def split_impedance(*, beam: Beam, setting: FieldSetting) -> complex:
    """Impedance of the driven element as if split, at the design frequency, in the field [ohm]."""
    system = SplitShape(gap=beam.feed.gap).wires(beam=beam, setting=setting)
    solution = solve_wires(
        beam=beam,
        system=system,
        frequencies=np.array([beam.design_frequency]),
        setting=setting,
    )
    return complex(solution.impedance[0])


def circuit_tip_change(*, element: Element, frequency: float, reactance: float) -> float:
    """Change of each half of an element that changes its reactance, as of an open line.

    Args:
        frequency: design frequency [Hz]
        reactance: wanted change of the reactance [ohm]

    Returns:
        X sin^2(kh) / (k Zc), Zc = 120 (ln(2h/a) - 1) {common-practice-open-line} [m]
    """
    half = element.half_length
    radius = mean_diameter(element=element, length=half) / 2.0
    line = 120.0 * (math.log(2.0 * half / radius) - 1.0)
    wavenumber = 2.0 * math.pi * frequency / SPEED_OF_LIGHT
    return reactance * math.sin(wavenumber * half) ** 2 / (wavenumber * line)


def trim_to_reactance(*, beam: Beam, reactance: float, setting: FieldSetting) -> TrimmedElement:
    """Telescope the driven element's tips until the split has the wanted reactance.

    Args:
        reactance: wanted in the split at the design frequency [ohm]

    Raises:
        BoomwrightError: when no length within a fifth gives that reactance
    """
    half = beam.elements[beam.driven_index].half_length
    low, high = tip_bounds(beam=beam)
    seen = 0j

    def off(values: Floats) -> Floats:
        nonlocal seen
        trimmed = with_driven_tips(beam=beam, change=float(values[0]))
        seen = split_impedance(beam=trimmed, setting=setting)
        return np.array([seen.imag - reactance])

    found = iterate(
        residual=off,
        start=np.zeros(1),
        step=np.array([TIP_STEP * half]),
        low=np.array([low]),
        high=np.array([high]),
        tolerance=_TOLERANCE,
    )
    if not found.converged:
        raise BoomwrightError(
            phrase(
                "driven element: no change of its tips between {low} and {high} gives a reactance "
                "of {reactance}; check its length",
                low=Quantity(low, "sawn length"),
                high=Quantity(high, "sawn length"),
                reactance=Quantity(reactance, "reactance"),
            )
        )
    change = float(found.values[0])
    return TrimmedElement(
        beam=with_driven_tips(beam=beam, change=change),
        tip_change=change,
        impedance=complex(seen.real, reactance + float(found.residual[0])),
        evaluations=found.evaluations,
    )


def tip_bounds(*, beam: Beam) -> tuple[float, float]:
    """How far the tips of the driven element are trimmed at most.

    Returns:
        least and greatest change of each half [m]
    """
    element = beam.elements[beam.driven_index]
    most = MOST_TRIM * element.half_length
    return max(-most, min(0.0, shortest_tip(element) - element.half[-1].length)), most


def solve_behind_split(
    *,
    beam: Beam,
    design: Callable[[FeedLoad], Match],
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Solve a match of lumped pieces or line behind a split element.

    Where the circuit design trims the element, the tips are telescoped until the field agrees
    and the rest of the match is designed again for the load found: split element with balun,
    quarter-wave section, sections of coil and capacitor, stub.

    Args:
        design: circuit design for a load, such as ``design_quarter_wave`` with its settings

    Returns:
        the match; ``comparisons`` holds impedance and tips
    """
    setting = setting or FieldSetting()
    frequency = beam.design_frequency
    first = split_load(beam=beam, setting=setting)
    planned = design(first)
    reference = planned.reference
    untrimmed = complex(first.at(frequency))
    trim = sum(each.reactance for each in planned.stages if isinstance(each, ElementTrim))
    wanted = untrimmed.imag + trim
    element = beam.elements[beam.driven_index]
    estimate = circuit_tip_change(element=element, frequency=frequency, reactance=trim)
    swr_of_start = _swr_with_estimate(beam, planned, estimate, setting)
    trimmed = TrimmedElement(beam=beam, tip_change=0.0, impedance=untrimmed, evaluations=1)
    if trim != 0.0:
        trimmed = trim_to_reactance(beam=beam, reactance=wanted, setting=setting)
    shape = SplitShape(gap=beam.feed.gap)
    found = Finish(
        kind=planned.kind,
        beam=trimmed.beam,
        shape=shape,
        wires=shape.wires(beam=trimmed.beam, setting=setting),
        stages=lambda load: tuple(
            each for each in design(load).stages if not isinstance(each, ElementTrim)
        ),
        comparisons=(
            tip_comparison(beam=beam, circuit=estimate, field=trimmed.tip_change),
            Comparison(
                name="feed resistance",
                unit="ohm",
                circuit=untrimmed.real,
                field=trimmed.impedance.real,
            ),
        ),
        swr_of_start=swr_of_start,
        proximity=lambda: 0j,
        evaluations=trimmed.evaluations + 2,
        notices=tuple(each for each in planned.notices if each.code != "feed.trim-element"),
    )
    return finish_match(found=found, reference=reference, setting=setting)


def _swr_with_estimate(beam: Beam, planned: Match, estimate: float, setting: FieldSetting) -> float:
    seen = split_impedance(beam=with_driven_tips(beam=beam, change=estimate), setting=setting)
    stages = tuple(each for each in planned.stages if not isinstance(each, ElementTrim))
    return field_swr(stages_of=replace(planned, stages=stages), impedance=seen)


def field_swr(*, stages_of: Match, impedance: complex) -> float:
    """Standing wave ratio through a match at its design frequency.

    Args:
        impedance: impedance of the wires at their port [ohm]

    Returns:
        standing wave ratio on the line [-]
    """
    seen = through_stages(stages_of.stages, impedance=impedance, frequency=stages_of.frequency)
    return float(standing_wave_ratio(seen, reference=stages_of.reference))


def tip_comparison(*, beam: Beam, circuit: float, field: float) -> Comparison:
    """Half-length of the driven element from the circuit equations and from the field.

    Args:
        circuit, field: change of each half [m]
    """
    half = beam.elements[beam.driven_index].half_length
    return Comparison(
        name=HALF_LENGTH,
        unit="m",
        circuit=half + circuit,
        field=half + field,
    )
