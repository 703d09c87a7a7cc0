"""One sentence that says the numbers of a picture, for those who hear it instead of seeing it."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence

from boomwright.base import UnitSystem, length_text
from boomwright.charts.beam.pattern_summary import pattern_summary
from boomwright.charts.scale import signed
from boomwright.parts import Beam
from boomwright.reach import OverGround
from boomwright.solver import ElementCurrent, PatternCut, SweepPoint


def summary_sentence(
    reading: Beam | PatternCut | OverGround | Sequence[SweepPoint] | Sequence[ElementCurrent],
    *,
    system: UnitSystem = "metric",
) -> str:
    """Say the numbers of a reading in one plain sentence.

    Raises:
        ValueError: an empty sweep or no currents
    """
    if isinstance(reading, Beam):
        return _beam_sentence(reading, system=system)
    if isinstance(reading, PatternCut):
        return _pattern_sentence(reading)
    if isinstance(reading, OverGround):
        return _lobe_sentence(reading)
    items = tuple(reading)
    points = [item for item in items if isinstance(item, SweepPoint)]
    currents = [item for item in items if isinstance(item, ElementCurrent)]
    if points:
        return _sweep_sentence(points)
    if currents:
        return _current_sentence(currents)
    raise ValueError("there is nothing to say about an empty reading; compute the beam first")


def listed(parts: Sequence[str]) -> str:
    """Join parts as a sentence does."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def _beam_sentence(beam: Beam, *, system: UnitSystem) -> str:
    origin = min((element.position for element in beam.elements), default=0.0)
    parts = [
        f"{label} {length_text(element.length, system=system)} long at "
        f"{length_text(element.position - origin, system=system)}"
        for label, element in zip(beam.element_labels, beam.elements, strict=True)
    ]
    count = len(beam.elements)
    boom = length_text(beam.boom_length, system=system)
    noun = "element" if count == 1 else "elements"
    return f"{count} {noun} on a boom of {boom}: {listed(parts)}."


def _pattern_sentence(cut: PatternCut) -> str:
    summary = pattern_summary(cut)
    width = summary.half_power_width_deg
    spread = "no half-power width" if width is None else f"half-power width {width:.0f} degrees"
    return (
        f"{cut.plane.capitalize()} cut: peak {signed(summary.peak_gain_dbi, decimals=1)} dBi at "
        f"{signed(summary.peak_angle_deg, decimals=0)} degrees, {spread}, "
        f"front-to-back {signed(summary.front_to_back_db, decimals=1)} dB."
    )


def _sweep_sentence(points: Sequence[SweepPoint]) -> str:
    best = min(points, key=lambda point: point.swr)
    worst = max(points, key=lambda point: point.swr)
    gains = [point.gain_dbi for point in points]
    ratios = [point.front_to_back_db for point in points]
    return (
        f"From {points[0].frequency / 1e6:.3f} to {points[-1].frequency / 1e6:.3f} MHz the SWR "
        f"runs from {best.swr:.2f} at {best.frequency / 1e6:.3f} MHz to {worst.swr:.2f} at "
        f"{worst.frequency / 1e6:.3f} MHz, the gain from {signed(min(gains), decimals=1)} to "
        f"{signed(max(gains), decimals=1)} dBi and the front-to-back ratio from "
        f"{signed(min(ratios), decimals=1)} to {signed(max(ratios), decimals=1)} dB."
    )


def _current_sentence(currents: Sequence[ElementCurrent]) -> str:
    parts = []
    for current in currents:
        centre = current.middle
        parts.append(
            f"{current.label} {abs(centre):.2f} A at "
            f"{signed(math.degrees(cmath.phase(centre)), decimals=0)} degrees"
        )
    return f"Centre currents for 1 A at the feed: {listed(parts)}."


def _lobe_sentence(over_ground: OverGround) -> str:
    lobes = [
        f"{signed(lobe.gain_dbi, decimals=1)} dBi at {lobe.elevation_deg:.0f} degrees"
        for lobe in over_ground.lobes
    ]
    nulls = [f"{null:.0f}" for null in over_ground.nulls_deg]
    tail = f", with minima at {listed(nulls)} degrees" if nulls else ""
    peak = (
        "Over the ground "
        f"{'the strongest lobe has' if lobes else 'no lobe points ahead; at most there are'} "
        f"{signed(over_ground.peak_gain_dbi, decimals=1)} dBi at "
        f"{over_ground.peak_elevation_deg:.0f} degrees"
    )
    return f"{peak}; lobes: {listed(lobes)}{tail}." if lobes else f"{peak}{tail}."
