"""Every kind of feed for a beam by its published circuit equations, side by side."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Any, Literal

import numpy as np

from boomwright.base import BoomwrightError
from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.feed import (
    ElementTrim,
    FeedLoad,
    LineSection,
    Match,
    RodGeometry,
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
from boomwright.study.feed_parts.results import CircuitTry
from boomwright.study.feed_parts.shapes import at_antenna

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

    Args:
        load: impedance of its driven element as if split
        rods: diameter of rods and distance of their axes [m]
        velocity_factor: of matching line [-]
    """
    at, diameter, spacing = beam.design_frequency, *rods
    driven = beam.elements[beam.driven_index]
    given: dict[str, Any] = {"load": load, "frequency": at, "reference": reference}

    def rods_beside() -> dict[str, Any]:
        tube = driven.half[0].diameter
        geometry = RodGeometry(element_diameter=tube, rod_diameter=diameter, spacing=spacing)
        return {**given, "geometry": geometry}

    def stub(end: Literal["short", "open"]) -> Match:
        found = design_single_stub(**given, end=end, velocity_factor=velocity_factor)
        return min(found, key=lambda match: _swr(beam, match, load)[1])

    designs: dict[str, Callable[[], Sequence[Match]]] = {
        "split element with balun 1:1": lambda: [design_split_with_balun(**given)],
        "split element with balun 4:1": lambda: [design_split_with_balun(**given, ratio=4.0)],
        "hairpin": lambda: [design_hairpin(**given, spacing=spacing, diameter=diameter).match],
        "gamma": lambda: [design_gamma(**rods_beside()).match],
        "tee": lambda: [design_tee(**rods_beside()).match],
        "folded element": lambda: [
            design_folded_element(**rods_beside(), half_length=driven.half_length)
        ],
        "quarter-wave section": lambda: [
            design_quarter_wave(**given, velocity_factor=velocity_factor)
        ],
        "stub": lambda: [stub("short"), stub("open")],
        "L-section": lambda: design_l_sections(**given),
    }
    found: list[CircuitTry] = []
    for kind, design in designs.items():
        try:
            found += [_tried(beam, kind, match, load) for match in design()]
        except BoomwrightError as refusal:
            found.append(CircuitTry(kind=kind, match=None, refusal=refusal.why))
    return tuple(found)


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


def _tried(beam: Beam, kind: str, match: Match, load: FeedLoad) -> CircuitTry:
    here, worst = _swr(beam, match, load)
    names = {"L-section": f"L-section, {at_antenna(match)} at the antenna", "stub": match.kind}
    return CircuitTry(kind=names.get(kind, kind), match=match, swr_design=here, swr_worst=worst)


def stage_phrase(stage: Stage) -> Value:
    """Say what one piece of a match is, with its value."""
    match stage:
        case SeriesCapacitor() | ShuntCapacitor():
            way = "series" if isinstance(stage, SeriesCapacitor) else "shunt"
            return phrase(way + " capacitor {c}", c=Quantity(stage.capacitance, "capacitance"))
        case SeriesInductor() | ShuntInductor():
            way = "series" if isinstance(stage, SeriesInductor) else "shunt"
            return phrase(way + " coil {l}", l=Quantity(stage.inductance, "inductance"))
        case LineSection():
            words, impedance = "{length} of {line} line", stage.impedance
        case ShuntStub():
            words = f"{'shorted' if stage.end == 'short' else 'open'} stub {{length}} of {{line}}"
            impedance = stage.impedance
        case ElementTrim():
            way = "shorter" if stage.reactance < 0.0 else "longer"
            by = Quantity(abs(stage.reactance), "resistance")
            return phrase(f"element {way} by {{by}}", by=by)
        case Transformer():
            ratio = stage.ratio if stage.ratio >= 1.0 else 1.0 / stage.ratio
            return stage.label if math.isclose(ratio, 1.0) else f"{stage.label} {ratio:.3g}:1"
    return phrase(
        words,
        length=Quantity(stage.length, "sawn length"),
        line=Quantity(impedance, "choke impedance"),
    )


def stages_phrase(stages: Sequence[Stage]) -> Value:
    """Say what all pieces of a match are, antenna first."""
    return listed([stage_phrase(stage) for stage in stages])
