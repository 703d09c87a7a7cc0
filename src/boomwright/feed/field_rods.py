"""Gamma and tee: circuit start, field-solved finish."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

import numpy as np

from boomwright.base import BoomwrightError, Notice
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.feed.field_match import Comparison, FieldMatch, Finish, finish_match
from boomwright.feed.field_model import (
    USUAL_DIAMETERS,
    FieldSetting,
    check_spacing,
    solve_wires,
    with_driven_tips,
)
from boomwright.feed.field_rod_start import (
    FieldStart,
    PublishedStart,
    RodJob,
    field_start,
    published_start,
    rod_proximity,
)
from boomwright.feed.field_shapes import GammaShape, TeeShape
from boomwright.feed.field_split import TIP_STEP, split_load, tip_bounds, tip_comparison
from boomwright.feed.iterate import Iteration, iterate
from boomwright.feed.reflection import standing_wave_ratio
from boomwright.feed.rod_matches import HALF_WAVE_BALUN_RATIO
from boomwright.feed.stages import SeriesCapacitor, Stage, Transformer
from boomwright.parts import Beam

#: range of capacitors that builders have at hand {common-practice-gamma-capacitor} [F]
CAPACITOR_RANGE = (10e-12, 500e-12)
#: impedances are met within this share of the wanted resistance
_TOLERANCE = 0.004
#: and a match that comes no nearer than this is still taken
_CLOSE = 0.02


def solve_gamma(
    *,
    beam: Beam,
    rod_diameter: float,
    spacing: float,
    reference: float = 50.0,
    capacitors: tuple[float, float] = CAPACITOR_RANGE,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Match with a gamma: circuit equations first, then rod, strap and gap as wires.

    The rod is slid until the port shows the line's resistance, all elements coupled; the
    capacitor takes out the reactance left. Where no rod does that, or the capacitor cannot be
    had, the tips of the driven element are trimmed too.

    Args:
        beam: the beam; its driven element is not split
        rod_diameter: diameter of rod and strap [m]
        spacing: distance between the axes of element and rod [m]
        capacitors: least and greatest capacitor that can be had [F]
    """
    shape = GammaShape(rod_diameter=rod_diameter, spacing=spacing, rod_length=0.0, capacitance=0.0)
    return _solve_rods(
        RodJob(
            beam=beam,
            shape=shape,
            reference=reference,
            capacitors=capacitors,
            setting=setting or FieldSetting(),
        ),
    )


def solve_tee(
    *,
    beam: Beam,
    rod_diameter: float,
    spacing: float,
    gap: float = 0.04,
    reference: float = 50.0,
    setting: FieldSetting | None = None,
) -> FieldMatch:
    """Match with a tee through a half-wave balun, as :func:`solve_gamma` does with one rod.

    Args:
        beam: the beam; its driven element is not split
        rod_diameter: diameter of rods and straps [m]
        spacing: distance between the axes of element and rods [m]
        gap: distance of the rods' inner ends [m]
    """
    shape = TeeShape(
        rod_diameter=rod_diameter, spacing=spacing, rod_length=0.0, capacitance=0.0, gap=gap
    )
    return _solve_rods(
        RodJob(
            beam=beam,
            shape=shape,
            reference=reference,
            capacitors=CAPACITOR_RANGE,
            setting=setting or FieldSetting(),
        )
    )


def _solve_rods(job: RodJob) -> FieldMatch:
    element = job.beam.elements[job.beam.driven_index]
    check_spacing(
        kind=job.kind,
        spacing=job.shape.spacing,
        diameters=(job.shape.rod_diameter, element.half[0].diameter),
    )
    load = split_load(beam=job.beam, setting=job.setting)
    notices: list[Notice] = []
    published: PublishedStart | None = None
    try:
        published = published_start(job=job, load=load)
    except BoomwrightError as fault:
        notices.append(_no_published_start(fault))
    begun = field_start(job=job, element=complex(load.at(job.beam.design_frequency)))
    rod, tips, evaluations = _finish_in_field(job, begun or _as_start(job, published))
    beam = with_driven_tips(beam=job.beam, change=tips)
    capacitance = job.rods / (job.angular * _port(job, beam, rod).imag)
    shape = replace(job.shape, rod_length=rod, capacitance=capacitance)
    found = Finish(
        kind="tee with half-wave balun" if job.rods == 2 else "gamma",
        beam=beam,
        shape=shape,
        wires=shape.wires(beam=beam, setting=job.setting),
        stages=lambda _: _stages(job, capacitance),
        comparisons=_comparisons(job, published, rod, capacitance, tips),
        swr_of_start=_swr_of_published(job, published),
        proximity=partial(rod_proximity, job=job, beam=beam, rod_length=rod),
        evaluations=evaluations + 4,
        notices=(*notices, *_notices(job, tips, capacitance)),
    )
    return finish_match(found=found, reference=job.reference, setting=job.setting)


def _as_start(job: RodJob, published: PublishedStart | None) -> FieldStart:
    """The published design as a start, or the middle of what can be built."""
    least, greatest = job.reactances
    if published is None:
        return FieldStart(
            rod_length=0.3 * job.half_length,
            tip_change=0.0,
            reactance=math.sqrt(least * greatest),
        )
    return FieldStart(
        rod_length=published.rod.rod_length,
        tip_change=published.tip_change,
        reactance=job.rods / (job.angular * published.rod.capacitance),
    )


def _comparisons(
    job: RodJob,
    published: PublishedStart | None,
    rod_length: float,
    capacitance: float,
    tips: float,
) -> tuple[Comparison, ...]:
    unknown = math.nan
    return (
        Comparison(
            name="rod length from the middle to the strap",
            unit="m",
            circuit=published.rod.rod_length if published else unknown,
            field=rod_length,
        ),
        Comparison(
            name="series capacitor",
            unit="F",
            circuit=published.rod.capacitance if published else unknown,
            field=capacitance,
        ),
        tip_comparison(
            beam=job.beam, circuit=published.tip_change if published else unknown, field=tips
        ),
    )


def _swr_of_published(job: RodJob, published: PublishedStart | None) -> float:
    """What the published dimensions give in the field."""
    if published is None or not published.rod.rod_length < job.rod_bounds[1]:
        return math.inf
    beam = with_driven_tips(beam=job.beam, change=published.tip_change)
    port = _port(job, beam, published.rod.rod_length)
    seen = port - 1j * job.rods / (job.angular * published.rod.capacitance)
    return float(standing_wave_ratio(seen, reference=job.target))


def _port(job: RodJob, beam: Beam, rod_length: float) -> complex:
    shape = replace(job.shape, rod_length=rod_length)
    solution = solve_wires(
        beam=beam,
        system=shape.wires(beam=beam, setting=job.setting),
        frequencies=np.array([beam.design_frequency]),
        setting=job.setting,
    )
    return complex(solution.impedance[0])


def _stages(job: RodJob, capacitance: float) -> tuple[Stage, ...]:
    stages: tuple[Stage, ...] = (SeriesCapacitor(capacitance=capacitance / job.rods),)
    if job.rods == 2:
        stages += (Transformer(ratio=1.0 / HALF_WAVE_BALUN_RATIO, label="half-wave balun"),)
    return stages


def _finish_in_field(job: RodJob, start: FieldStart) -> tuple[float, float, int]:
    """Rod length and change of tips that match in the field, and the solutions taken."""
    low, high = job.rod_bounds
    length = min(max(start.rod_length, low), high)
    seen = 0j

    def resistance_off(values: Floats) -> Floats:
        nonlocal seen
        seen = _port(job, job.beam, float(values[0]))
        return np.array([seen.real - job.target])

    tolerance = _TOLERANCE * job.target
    slid = iterate(
        residual=resistance_off,
        start=np.array([length]),
        step=np.array([0.01 * length]),
        low=np.array([low]),
        high=np.array([high]),
        tolerance=tolerance,
    )
    least, greatest = job.reactances
    if slid.converged and least <= seen.imag <= greatest:
        return float(slid.values[0]), 0.0, slid.evaluations
    wanted = min(max(start.reactance, 1.2 * least), greatest / 1.2)

    def both_off(values: Floats) -> Floats:
        nonlocal seen
        beam = with_driven_tips(beam=job.beam, change=float(values[1]))
        seen = _port(job, beam, float(values[0]))
        # The capacitor takes up what is left of the reactance.
        return np.array([seen.real - job.target, 0.1 * (seen.imag - wanted)])

    shortest, longest = tip_bounds(beam=job.beam)
    trimmed = iterate(
        residual=both_off,
        start=np.array([length, start.tip_change]),
        step=np.array([0.01 * length, -TIP_STEP * job.half_length]),
        low=np.array([low, shortest]),
        high=np.array([high, longest]),
        tolerance=tolerance,
    )
    # A strap beside a change of diameter makes the resistance jump by some tenths of an ohm.
    close = abs(float(trimmed.residual[0])) <= _CLOSE * job.target
    best = complex(job.target + trimmed.residual[0], wanted + 10.0 * trimmed.residual[1])
    if not (close and least <= best.imag <= greatest):
        raise BoomwrightError(_out_of_reach(job, trimmed, best))
    used = slid.evaluations + trimmed.evaluations
    return float(trimmed.values[0]), float(trimmed.values[1]), used


def _out_of_reach(job: RodJob, tried: Iteration, seen: complex) -> Value:
    return phrase(
        "{kind}: the field solution comes to {seen} with a rod of {length} and no nearer to "
        "{target} with a capacitor of {least} to {most}; shorten the driven element, take a "
        "thinner rod, or change the spacing",
        kind=job.kind,
        seen=Quantity(seen, "impedance"),
        length=Quantity(float(tried.values[0]), "sawn length"),
        target=Quantity(job.target, "nominal resistance"),
        least=Quantity(job.capacitors[0], "capacitance"),
        most=Quantity(job.capacitors[1], "capacitance"),
    )


def _no_published_start(fault: BoomwrightError) -> Notice:
    return Notice(
        code="feed.no-circuit-start",
        text=phrase("The published equations give no dimensions here ({why}).", why=fault.said),
        severity="doubt",
        source="balanis-2005",
    )


def _notices(job: RodJob, tips: float, capacitance: float) -> tuple[Notice, ...]:
    notices = []
    element = job.beam.elements[job.beam.driven_index]
    thick = max(job.shape.rod_diameter, element.half[0].diameter)
    if job.shape.spacing < USUAL_DIAMETERS * thick:
        notices.append(
            Notice(
                code="feed.rod-close",
                text=(
                    "The rod is nearer to the element than builders keep it; the thin-wire model "
                    "is less sure there, and water and insulators count more. Set it further off."
                ),
                severity="doubt",
                value=Quantity(job.shape.spacing, "whole millimetres"),
                limit=Quantity(USUAL_DIAMETERS * thick, "whole millimetres"),
                source="common-practice-rod-spacing",
            )
        )
    least, greatest = job.capacitors
    if not least <= capacitance <= greatest:
        notices.append(
            Notice(
                code="feed.capacitor-range",
                text=(
                    "The series capacitor is outside the range that can be had: trim the driven "
                    "element, or change rod or spacing."
                ),
                severity="limit",
                value=f"{capacitance * 1e12:.0f} pF",
                limit=f"{least * 1e12:g} to {greatest * 1e12:g} pF",
                source="common-practice-gamma-capacitor",
            )
        )
    if tips != 0.0:
        notices.append(
            Notice(
                code="feed.element-trimmed",
                text=phrase(
                    "Each half of the driven element is {change} {way} than in the plan, so that "
                    "rod and capacitor come to a match.",
                    change=Quantity(abs(tips), "sawn length"),
                    way="shorter" if tips < 0.0 else "longer",
                ),
                value=Quantity(tips, "sawn length"),
            )
        )
    notices.append(
        Notice(
            code="feed.rod-in-the-field",
            text=(
                "Rod, strap and gap are solved as wires with all elements; clamps and insulators "
                "of the rods and the capacitor's housing are not. Keep the strap sliding and the "
                "capacitor variable, and trim by measurement."
            ),
            severity="note",
            source="common-practice-trim",
        )
    )
    return tuple(notices)
