"""From the plan's feed to shapes in the field: as drawn, and as proposed."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any, Literal

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, listed, phrase
from boomwright.feed import (
    FeedLoad,
    FieldMatch,
    FieldSetting,
    Match,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    design_l_sections,
    design_quarter_wave,
    design_single_stub,
    design_split_with_balun,
    solve_behind_split,
    solve_folded,
    solve_gamma,
    solve_hairpin,
    solve_planned,
    solve_tee,
)
from boomwright.parts import Beam
from boomwright.plan.resolve.feed import balun_stages

# Rods where the plan gives none: about half as thick as the element, four of its diameters
# away; a hairpin three {common-practice-rod-spacing}.
_ROD_SHARE, _ROD_DIAMETERS, _HAIRPIN_DIAMETERS = 0.5, 4.0, 3.0
_USUAL_VELOCITY_FACTOR = 0.66

_COMPONENTS: dict[type, str] = {
    SeriesInductor: "series coil",
    SeriesCapacitor: "series capacitor",
    ShuntInductor: "shunt coil",
    ShuntCapacitor: "shunt capacitor",
}


def rod_sizes(beam: Beam) -> tuple[float, float]:
    """Diameter and spacing of the rods, the trade's usual ones where the plan gives none.

    Returns:
        diameter and distance of the axes [m]
    """
    feed = beam.feed
    tube = beam.elements[beam.driven_index].half[0].diameter
    times = _HAIRPIN_DIAMETERS if feed.kind == "hairpin" else _ROD_DIAMETERS
    usual = max(times * tube, 1.5 * feed.gap)
    return feed.rod_diameter or _ROD_SHARE * tube, feed.rod_spacing or usual


def assumed_notices(beam: Beam) -> tuple[Notice, ...]:
    """Say which sizes were taken because the plan gives none."""
    feed = beam.feed
    if feed.kind not in {"hairpin", "gamma", "tee", "folded"} or feed.inductance is not None:
        return ()
    diameter, spacing = rod_sizes(beam)
    said = []
    if feed.rod_diameter is None:
        said.append(phrase("rods of {size}", size=Quantity(diameter, "tube size")))
    if feed.rod_spacing is None:
        said.append(phrase("axes {length} apart", length=Quantity(spacing, "sawn length")))
    if not said:
        return ()
    return (
        Notice(
            code="feed.usual-sizes",
            text=phrase(
                f"The plan does not give every size of the {feed.kind}; taken for the proposal: "
                "{said}. Write rod_diameter and rod_spacing into the feed.",
                said=listed(said, between=" and "),
            ),
            source="common-practice-rod-spacing",
        ),
    )


def propose(
    beam: Beam, *, reference: float, velocity_factor: float | None, setting: FieldSetting
) -> FieldMatch:
    """Find dimensions of the plan's kind of feed that match in the field.

    Args:
        velocity_factor: of the plan's line, for sections and stubs without their own; None
            without a line
            [-]
    """
    feed = beam.feed
    diameter, spacing = rod_sizes(beam)
    balun = feed.balun or 1.0
    given: dict[str, Any] = {"beam": beam, "spacing": spacing, "setting": setting}
    if feed.kind == "gamma":
        return solve_gamma(**given, rod_diameter=diameter, reference=reference)
    if feed.kind == "tee":
        return solve_tee(**given, rod_diameter=diameter, gap=feed.gap, reference=reference)
    if feed.kind == "folded":
        return solve_folded(
            **given,
            conductor_diameter=diameter,
            gap=feed.gap,
            reference=reference,
            balun_ratio=balun,
        )
    if feed.kind == "hairpin":
        found = solve_hairpin(**given, rod_diameter=diameter, reference=reference * balun)
        return found if balun == 1.0 else _behind_balun(found, beam, reference, setting)
    speed = feed.velocity_factor or velocity_factor or _USUAL_VELOCITY_FACTOR
    return solve_behind_split(
        beam=beam, design=_designer(beam, reference=reference, speed=speed), setting=setting
    )


def _behind_balun(
    found: FieldMatch, beam: Beam, reference: float, setting: FieldSetting
) -> FieldMatch:
    """The same hairpin seen from the line's side of the balun."""
    seen = solve_planned(
        beam=found.beam,
        shape=found.shape,
        behind=balun_stages(beam.feed),
        reference=reference,
        setting=setting,
    )
    return replace(
        seen,
        comparisons=found.comparisons,
        swr_of_start=found.swr_of_start,
        evaluations=found.evaluations + seen.evaluations,
    )


def _designer(beam: Beam, *, reference: float, speed: float) -> Callable[[FeedLoad], Match]:
    feed = beam.feed
    given: dict[str, Any] = {"frequency": beam.design_frequency, "reference": reference}

    def design(load: FeedLoad) -> Match:
        if feed.kind == "quarter-wave":
            return design_quarter_wave(load=load, velocity_factor=speed, **given)
        if feed.kind == "stub":
            end: Literal["open", "short"] = "open" if feed.stub_end == "open" else "short"
            return design_single_stub(load=load, end=end, velocity_factor=speed, **given)[0]
        if feed.kind == "L-section":
            found = design_l_sections(load=load, **given)
            return next((each for each in found if at_antenna(each) == feed.at_antenna), found[0])
        return design_split_with_balun(load=load, ratio=feed.balun or 1.0, **given)

    return design


def at_antenna(match: Match) -> str:
    """Name the component that a match has at the antenna.

    Returns:
        ``series coil`` and its like; empty for other pieces
    """
    return _COMPONENTS.get(type(match.stages[0]), "") if match.stages else ""


def coil_for(*, reactance: float, frequency: float) -> float:
    """Coil in place of a hairpin [H].

    Args:
        reactance: reactance of the hairpin [ohm]
        frequency: design frequency [Hz]
    """
    return reactance / (2.0 * math.pi * frequency)
