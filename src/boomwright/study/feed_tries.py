"""Every kind of feed for a beam by its published circuit equations, side by side."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Any

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.feed import (
    ElementTrim,
    FeedLoad,
    LineSection,
    Match,
    RodGeometry,
    RodMatch,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    Stage,
    Transformer,
    design_folded_element,
    design_gamma,
    design_hairpin,
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    design_split_with_balun,
    design_tee,
    standing_wave_ratio,
    swr_over_band,
)
from boomwright.parts import Beam
from boomwright.study.feed_results import CircuitTry
from boomwright.study.feed_shapes import at_antenna

#: frequencies over the band at which a try is read
_POINTS = 15


def circuit_tries(
    beam: Beam,
    *,
    load: FeedLoad,
    reference: float,
    rods: tuple[float, float],
    velocity_factor: float,
) -> tuple[CircuitTry, ...]:
    """Design every kind of feed.

    Parameters
    ----------
    load
        impedance of its driven element as if split
    reference
        resistance of the line [ohm]
    rods
        diameter of rods and distance of their axes [m]
    velocity_factor
        of matching line [-]
    """
    at, diameter, spacing = beam.design_frequency, *rods
    driven = beam.elements[beam.driven_index]
    given: dict[str, Any] = {"load": load, "frequency": at, "reference": reference}

    def geometry() -> RodGeometry:
        return RodGeometry(
            element_diameter=driven.half[0].diameter, rod_diameter=diameter, spacing=spacing
        )

    def stubs() -> tuple[Match, ...]:
        return tuple(
            min(
                design_single_stub(**given, end=end, velocity_factor=velocity_factor),
                key=lambda match: _worst(beam, match, load),
            )
            for end in ("short", "open")
        )

    designs: tuple[tuple[str, Callable[[], tuple[Match, ...]]], ...] = (
        ("split element with balun 1:1", lambda: (design_split_with_balun(**given),)),
        ("split element with balun 4:1", lambda: (design_split_with_balun(**given, ratio=4.0),)),
        (
            "hairpin",
            lambda: (design_hairpin(**given, spacing=spacing, diameter=diameter).match,),
        ),
        ("gamma", lambda: (_rods(design_gamma(**given, geometry=geometry())),)),
        ("tee", lambda: (_rods(design_tee(**given, geometry=geometry())),)),
        (
            "folded element",
            lambda: (
                design_folded_element(**given, geometry=geometry(), half_length=driven.half_length),
            ),
        ),
        (
            "quarter-wave section",
            lambda: (design_quarter_wave(**given, velocity_factor=velocity_factor),),
        ),
        ("stub", stubs),
        ("L-section", lambda: design_l_sections(**given)),
    )
    found: list[CircuitTry] = []
    for kind, design in designs:
        try:
            found += [_tried(beam, kind, match, load) for match in design()]
        except BoomwrightError as refusal:
            found.append(CircuitTry(kind=kind, match=None, refusal=str(refusal)))
    return tuple(found)


def _rods(design: RodMatch) -> Match:
    return design.match


def _swr(beam: Beam, match: Match, load: FeedLoad) -> tuple[float, float]:
    """At the design frequency, and the greatest over the band."""
    low = max(beam.band[0], float(load.frequency[0]))
    high = min(beam.band[1], float(load.frequency[-1]))
    over = swr_over_band(
        stages=match.stages,
        load=load,
        frequency=np.linspace(low, high, _POINTS),
        reference=match.reference,
    )
    seen = match.transform(
        impedance=load.at(beam.design_frequency), frequency=beam.design_frequency
    )
    here = float(standing_wave_ratio(seen, reference=match.reference))
    return here, float(max(over.max(), here))


def _worst(beam: Beam, match: Match, load: FeedLoad) -> float:
    return _swr(beam, match, load)[1]


def _tried(beam: Beam, kind: str, match: Match, load: FeedLoad) -> CircuitTry:
    here, worst = _swr(beam, match, load)
    component = at_antenna(match)
    name = f"L-section, {component} at the antenna" if kind == "L-section" else kind
    if kind == "stub":
        name = match.kind
    return CircuitTry(
        kind=name,
        match=match,
        swr_design=here,
        swr_worst=worst,
    )


def farads(value: float) -> str:
    """Write a capacitance.

    Parameters
    ----------
    value
        capacitance [F]

    Returns
    -------
    str
        picofarads [pF]
    """
    return f"{value * 1e12:.0f} pF"


def henries(value: float) -> str:
    """Write an inductance.

    Parameters
    ----------
    value
        inductance [H]

    Returns
    -------
    str
        microhenries [uH]
    """
    return f"{value * 1e6:.2f} µH"


def stage_text(stage: Stage, *, length: Callable[[float], str]) -> str:
    """Write one piece of a match with its value.

    Parameters
    ----------
    length
        how to write a length [-]
    """
    match stage:
        case SeriesCapacitor():
            return f"series capacitor {farads(stage.capacitance)}"
        case ShuntCapacitor():
            return f"shunt capacitor {farads(stage.capacitance)}"
        case SeriesInductor():
            return f"series coil {henries(stage.inductance)}"
        case ShuntInductor():
            return f"shunt coil {henries(stage.inductance)}"
        case LineSection():
            return f"{length(stage.length)} of {stage.impedance:.0f} ohm line"
        case ShuntStub():
            word = "shorted" if stage.end == "short" else "open"
            return f"{word} stub {length(stage.length)} of {stage.impedance:.0f} ohm"
        case ElementTrim():
            return (
                f"element {'shorter' if stage.reactance < 0.0 else 'longer'} by "
                f"{abs(stage.reactance):.1f} ohm"
            )
        case Transformer():
            ratio = stage.ratio if stage.ratio >= 1.0 else 1.0 / stage.ratio
            return stage.label if math.isclose(ratio, 1.0) else f"{stage.label} {ratio:.3g}:1"
