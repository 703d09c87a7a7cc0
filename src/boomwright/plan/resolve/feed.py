"""What the feed room needs of a plan: line, duty and the pieces of a match."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, cast

from boomwright.base import made_at
from boomwright.feed import (
    COAX_TYPES,
    DUTY_FACTORS,
    HAIRPIN_SHARE,
    CoaxType,
    FeedShape,
    FoldedShape,
    GammaShape,
    HairpinShape,
    LineSection,
    RodGeometry,
    SeriesCapacitor,
    SeriesInductor,
    ShuntCapacitor,
    ShuntInductor,
    ShuntStub,
    SplitShape,
    Stage,
    TeeShape,
    Transformer,
    fit_attenuation,
    hairpin_stages,
    matched_sweep,
)
from boomwright.parts import Beam, Feed
from boomwright.plan.model import Plan
from boomwright.plan.model_station import CoaxPlan
from boomwright.solver import SweepPoint

# The plan has one list of emissions; this room's words for the same.
_DUTY_WORD = {
    "carrier": "carrier",
    "frequency modulation": "voice, frequency modulation",
    "data, keyed tones": "data",
    "morse": "morse",
    "single sideband, unprocessed": "voice, single sideband",
    "single sideband, processed": "voice, single sideband, processed",
}


def coax_type(line: str | CoaxPlan) -> CoaxType:
    """Find or make a type of line."""
    if isinstance(line, str):
        return COAX_TYPES[line]
    k1, k2 = fit_attenuation(
        frequency=[point[0] for point in line.attenuation],
        attenuation_db=[point[1] for point in line.attenuation],
    )
    return CoaxType(
        name=line.name,
        impedance=line.impedance,
        velocity_factor=line.velocity_factor,
        k1=k1,
        k2=k2,
        voltage_limit=line.voltage_limit or 0.0,
        outer_diameter=line.diameter or 0.0,
    )


def feed_line(plan: Plan) -> tuple[CoaxType, float] | None:
    """Type [-] and length [m] of the feed line; None when the plan has no line."""
    return None if plan.line is None else (coax_type(plan.line.line_type), plan.line.length)


def duty_factor(plan: Plan) -> float:
    """Mean over peak envelope power while transmitting; 1 when the emission is not said [-]."""
    emission = plan.transmitter.emission if plan.transmitter else ""
    return DUTY_FACTORS[_DUTY_WORD[emission]] if emission else 1.0


_SHAPE_KINDS = {
    "split": "split element",
    "quarter-wave": "quarter-wave section",
    "stub": "stub",
    "L-section": "L-section",
    "hairpin": "hairpin",
}

#: component of an L-section on the side of the line, by that at the antenna
_BESIDE = {
    "series coil": "shunt capacitor",
    "shunt capacitor": "series coil",
    "series capacitor": "shunt coil",
    "shunt coil": "series capacitor",
}
#: feeds whose circuit equations are good enough for a figure beside the bare feed point
QUICK_MATCHES = ("hairpin", "quarter-wave", "stub", "L-section")


def match_label(beam: Beam) -> str:
    """Say in two words what the standing wave ratio under a moving hand stands for."""
    kind = beam.feed.kind
    if kind == "split":
        return "" if beam.feed.balun is None else "with balun"
    if kind not in QUICK_MATCHES or feed_stages(beam) is None:
        return "bare split"
    return f"with {kind}"


def matched_points(
    beam: Beam, points: Sequence[SweepPoint], *, reference: float
) -> tuple[SweepPoint, ...]:
    """Put the ratio behind the match, by its circuit, in place of that of the bare split.

    Only a moving hand sees it: at rest the match is solved in the field.

    Args:
        points: figures of the beam at rising frequencies (n,)

    Returns:
        the same figures with the other ratio and its band, where the circuit equations are good
        enough; else all as it was (n,)
    """
    quick = beam.feed.kind in QUICK_MATCHES or beam.feed.balun is not None
    stages = feed_stages(beam) if quick and beam.feed.kind != "folded" else None
    if not stages or not points:
        return tuple(points)
    seen = matched_sweep(
        stages=stages,
        frequency=[point.frequency for point in points],
        impedance=[point.impedance for point in points],
        impedance_error=[point.impedance_error for point in points],
        circuit_share=HAIRPIN_SHARE if beam.feed.kind == "hairpin" else 0.0,
        reference=reference,
    )
    return tuple(
        replace(point, swr=float(swr), swr_error=float(error))
        for point, swr, error in zip(points, seen.swr, seen.swr_error, strict=True)
    )


def rod_geometry(beam: Beam) -> RodGeometry | None:
    """Driven element and the rod beside it; None without diameter or spacing of the rod."""
    feed = beam.feed
    diameter, spacing = feed.rod_diameter, feed.rod_spacing
    if diameter is None or spacing is None:
        return None
    return made_at(
        "beam.feed.rod_spacing",
        lambda: RodGeometry(
            element_diameter=beam.elements[beam.driven_index].half[0].diameter,
            rod_diameter=diameter,
            spacing=spacing,
        ),
        remedy=f"move the rod of beam {beam.name} away from the element",
    )


def feed_stages(beam: Beam) -> tuple[Stage, ...] | None:
    """Pieces of the match as the plan gives them, from the antenna to the line.

    Returns:
        pieces, none for a plain split feed; None when a dimension of the match is missing, which
        the feed room can then propose
    """
    of_kind: dict[str, Callable[[Beam], tuple[Stage, ...] | None]] = {
        "split": lambda beam: balun_stages(beam.feed),
        "hairpin": _hairpin,
        "gamma": _rods,
        "tee": _rods,
        "folded": _folded,
        "L-section": _l_section,
    }
    return of_kind.get(beam.feed.kind, _sections)(beam)


def balun_stages(feed: Feed) -> tuple[Stage, ...]:
    """The balun of a feed as a piece of its match, none without one."""
    return () if feed.balun is None else (Transformer(ratio=1.0 / feed.balun, label="balun"),)


def _hairpin(beam: Beam) -> tuple[Stage, ...] | None:
    feed = beam.feed
    if feed.inductance is not None:
        return (ShuntInductor(inductance=feed.inductance), *balun_stages(feed))
    diameter, spacing, length = feed.rod_diameter, feed.rod_spacing, feed.rod_length
    if diameter is None or spacing is None or length is None:
        return None
    stages = made_at(
        "beam.feed.rod_spacing",
        lambda: hairpin_stages(
            element=beam.elements[beam.driven_index],
            gap=feed.gap,
            spacing=spacing,
            diameter=diameter,
            length=length,
            frequency=beam.design_frequency,
        ),
        remedy=f"move the rods of beam {beam.name} apart",
    )
    return (*stages, *balun_stages(feed))


def _rods(beam: Beam) -> tuple[Stage, ...] | None:
    feed, geometry = beam.feed, rod_geometry(beam)
    if geometry is None or feed.rod_length is None or feed.capacitance is None:
        return None
    # The same circuits as the feed room designs: {balanis-2005, section 9.7}.
    rods = 1 if feed.kind == "gamma" else 2
    step = geometry.step_up / 2.0 if rods == 1 else geometry.step_up
    stages: tuple[Stage, ...] = (
        Transformer(ratio=step, label="rods beside the element"),
        ShuntStub(impedance=geometry.line_impedance * rods, length=feed.rod_length, end="short"),
        SeriesCapacitor(capacitance=feed.capacitance / rods),
    )
    return stages if rods == 1 else (*stages, Transformer(ratio=0.25, label="half-wave balun"))


def _folded(beam: Beam) -> tuple[Stage, ...] | None:
    geometry = rod_geometry(beam)
    if geometry is None:
        return None
    return (
        Transformer(ratio=geometry.step_up, label="folded element"),
        ShuntStub(
            impedance=2.0 * geometry.line_impedance,
            length=beam.elements[beam.driven_index].half_length,
            end="short",
        ),
        *balun_stages(beam.feed),
    )


def _l_section(beam: Beam) -> tuple[Stage, ...] | None:
    feed = beam.feed
    coil, capacitor = feed.inductance, feed.capacitance
    if coil is None or capacitor is None or not feed.at_antenna:
        return None
    stages: dict[str, Stage] = {
        "series coil": SeriesInductor(inductance=coil),
        "shunt capacitor": ShuntCapacitor(capacitance=capacitor),
        "series capacitor": SeriesCapacitor(capacitance=capacitor),
        "shunt coil": ShuntInductor(inductance=coil),
    }
    return stages[feed.at_antenna], stages[_BESIDE[feed.at_antenna]]


def _sections(beam: Beam) -> tuple[Stage, ...] | None:
    feed = beam.feed
    impedance, length, speed = feed.section_impedance, feed.section_length, feed.velocity_factor
    if impedance is None or length is None or speed is None:
        return None
    section = LineSection(impedance=impedance, length=length, velocity_factor=speed)
    if feed.kind == "quarter-wave":
        return (section,)
    if feed.stub_length is None or not feed.stub_end:
        return None
    stub = ShuntStub(
        impedance=impedance,
        length=feed.stub_length,
        end=cast(Any, feed.stub_end),
        velocity_factor=speed,
    )
    return (section, stub)


def drawn_shape(beam: Beam) -> tuple[FeedShape, tuple[Stage, ...], str] | None:
    """The feed as dimensioned: shape, lumped pieces behind it, name; None while a size lacks."""
    feed = beam.feed
    diameter, spacing, length = feed.rod_diameter, feed.rod_spacing, feed.rod_length
    coil = feed.kind == "hairpin" and feed.inductance is not None
    if coil or feed.kind not in {"hairpin", "gamma", "tee", "folded"}:
        stages = feed_stages(beam)
        name = _SHAPE_KINDS[feed.kind] + (" with coil" if coil else "")
        return None if stages is None else (SplitShape(gap=feed.gap), stages, name)
    if diameter is None or spacing is None:
        return None
    if feed.kind == "folded":
        folded = FoldedShape(conductor_diameter=diameter, spacing=spacing, gap=feed.gap)
        return folded, balun_stages(feed), "folded element"
    if length is None:
        return None
    if feed.kind == "hairpin":
        rods = HairpinShape(
            rod_diameter=diameter,
            spacing=spacing,
            length=length,
            gap=feed.gap,
            forward=beam.rods_forward,
        )
        return rods, balun_stages(feed), "hairpin"
    if feed.capacitance is None:
        return None
    match: dict[str, float] = {
        "rod_diameter": diameter,
        "spacing": spacing,
        "rod_length": length,
        "capacitance": feed.capacitance,
    }
    if feed.kind == "gamma":
        return GammaShape(**match), (), "gamma"
    return TeeShape(**match, gap=feed.gap), (), "tee with half-wave balun"
