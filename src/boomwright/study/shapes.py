"""A first plan of wire, trimmed with the solver to its own wire, height and ground."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from itertools import product
from typing import Final

import numpy as np
from scipy.optimize import least_squares

from boomwright.base import SPEED_OF_LIGHT, UnitSystem
from boomwright.base.array_types import Complexes, Floats
from boomwright.feed.iterate import iterate
from boomwright.parts import Beam
from boomwright.plan import Plan, QuantityError, read_plan
from boomwright.plan.model_wind import WindBasisPlan
from boomwright.plan.resolve.structure import structure_inputs
from boomwright.plan.shapes import POLES, Pole, nested_bands, shape_guess, shape_plan
from boomwright.plan.starter import PlanWriter
from boomwright.solver import (
    FREE_SPACE,
    Ground,
    Preparer,
    assemble,
    beam_wires,
    foot_resistance,
    remembering,
    solve_beam,
    solve_currents,
    working_detail,
)
from boomwright.structure import check_structure
from boomwright.study.requests import RequestError, Wishes

#: winds that a first plan's pole is tried in [m/s], their bases, ice [m], and how they are told
_TRIALS: Final[dict[UnitSystem, tuple[float, WindBasisPlan, float, str]]] = {
    "metric": (
        24.0,
        WindBasisPlan(
            kind="characteristic", edition="BS EN 1991-1-4", terrain="III", orography=1.0
        ),
        0.005,
        "24 m/s (EN 1991-1-4, terrain III) and in 5 mm of ice",
    ),
    "us": (
        47.0,
        WindBasisPlan(kind="ultimate", edition="ASCE 7-16", exposure="B", topography=1.0),
        0.00635,
        "105 mph (ultimate, ASCE 7-16, exposure B) and in 1/4 in of ice",
    ),
}
#: wind that comes with that ice [m/s]
_ICE_GUST: Final = 18.0
#: wire lower than this is within reach of people {common-practice-magnitudes} [m]
_WITHIN_REACH = 2.5
#: how far all lengths may be changed together
_RANGE = (0.9, 1.1)
#: voltages at the fed ends of two lines count as one within this share [-]
_SAME_VOLTAGE = 1e-4
#: reactances are met within this [ohm]
_TOLERANCE = 0.5


def shaped_text(wishes: Wishes, *, tried: bool = True) -> str:
    """Write a first plan of the wished shape.

    Args:
        tried: whether its pole is one that stands in a trial wind, which takes a second

    Raises:
        RequestError: when a wish cannot be read or met
    """
    given, prepare = wishes.for_writer, remembering()
    text = partial(shape_plan, wishes.shape, further=wishes.further_bands, **given)
    try:
        bands = nested_bands(wishes.shape, (wishes.band, *wishes.further_bands), wishes.region)
        count, first = len(bands), read_plan(text())
        _refuse_low(wishes, first)
        if len(first.beams[0].driven_indices) > 1:
            cut = phased_lengths(first.beams[0], first.site.ground, prepare=prepare)
            return text(phasing=cut)
        wanted = _wanted(wishes.shape, first, given["height"])
        found = iterate(
            residual=lambda at: _reactances(text(scales=at.tolist()), prepare) - wanted,
            start=np.ones(count),
            step=np.full(count, 0.005),
            low=np.full(count, _RANGE[0]),
            high=np.full(count, _RANGE[1]),
            tolerance=_TOLERANCE,
        )
    except QuantityError as error:
        raise RequestError(error.message, remedy=error.remedy) from None
    trimmed = partial(text, scales=found.values.tolist())
    if not tried or first.support is None:
        return trimmed()
    pole, words = _standing(lambda pole: read_plan(trimmed(pole=pole)), wishes.system)
    return trimmed(pole=pole, pole_words=words)


def _standing(plan_on: Callable[[Pole], Plan], units: UnitSystem) -> tuple[Pole, tuple[str, str]]:
    """The lightest pole on which nothing of a plan is exceeded in a trial wind, and what to say.

    Args:
        plan_on: the plan on a pole
    """
    wind, basis, ice, told = _TRIALS[units]
    for pole in POLES:
        plan = plan_on(pole)
        site = replace(
            plan.site,
            wind_speed=wind,
            wind_basis=basis,
            ice_thickness=ice,
            ice_gust=_ICE_GUST,
            ice_mapped=False,
        )
        report = check_structure(inputs=structure_inputs(replace(plan, site=site)))
        if not any(line.verdict == "exceeded" for line in report.ledger):
            return pole, (
                f"Tried in {told}: no limit exceeded.",
                "Write your own wind and ice under [site]; boomwright structure checks it anew.",
            )
    return POLES[-1], (
        f"None of the usual pipes keeps to its limits in {told}.",
        "Take a lower beam or a lighter shape, or a tower with its maker's figures.",
    )


def _refuse_low(wishes: Wishes, plan: Plan) -> None:
    """Refuse a height at which its wires hang within reach of people.

    Raises:
        RequestError: naming the least height
    """
    write = PlanWriter(wishes.system)
    for beam in plan.beams:
        if beam.stands_on_ground:
            continue
        low = min(z for element in beam.elements for _, _, z in element.corners)
        if beam.radials is not None:
            low -= beam.radials.length * math.sin(beam.radials.slope)
        if beam.height + low < _WITHIN_REACH:
            least = write.length(math.ceil(10.0 * (_WITHIN_REACH - low)) / 10.0)
            raise RequestError(
                f"{beam.name}: this low its wires hang within reach of people, who must not touch "
                "them",
                remedy=f"ask for --height {least} or more, or take a shape that hangs less deep",
            )


def phased_lengths(beam: Beam, ground: Ground, *, prepare: Preparer) -> tuple[float, float]:
    """Lengths of phasing lines that give two driven elements equal currents, 90 degrees apart.

    With the currents given, each line shows at its fed end a voltage that goes with its length;
    both ends must show the same {pozar-2012}. Of the lengths that do, those are taken that bring
    the feed nearest to 50 ohm.

    Args:
        beam: with lines of any length

    Returns:
        physical lengths [m] (2,)

    Raises:
        RequestError: when no two lengths do
    """
    system, at = beam_wires(beam=beam, ground=ground), np.array([beam.design_frequency])
    currents = solve_currents(
        assembly=assemble(
            system=replace(system, ports=system.fed_gaps, feeders=()),
            detail=working_detail(frequency=max(beam.band)),
            highest_frequency=max(beam.band),
            prepare=prepare,
        ),
        frequencies=at,
        series=foot_resistance(beam=beam, ground=ground, frequencies=at),
    )
    current = np.array([1.0, np.exp(-0.5j * math.pi)])
    volts = np.linalg.solve(currents.admittance[0], current)
    lines = [beam.elements[number].phasing_line for number in beam.driven_indices]
    ohms = np.array([line.impedance for line in lines if line is not None])
    speed = SPEED_OF_LIGHT * np.array([line.velocity_factor for line in lines if line is not None])

    def ends(turn: Floats) -> Complexes:
        seen: Complexes = np.cos(turn) * volts + 1j * ohms * np.sin(turn) * current
        return seen

    def apart(turn: Floats) -> Floats:
        first, second = ends(turn)
        return np.array([(first - second).real, (first - second).imag])

    best: tuple[float, Floats] | None = None
    for start in product(np.linspace(0.2, 1.2 * math.pi, 7), repeat=2):
        found = least_squares(apart, start, bounds=(0.05, 1.4 * math.pi))
        if math.sqrt(2.0 * found.cost) > _SAME_VOLTAGE * float(np.abs(volts).max()):
            continue
        taken = np.cos(found.x) * current + 1j * np.sin(found.x) / ohms * volts
        seen = ends(found.x)[0] / taken.sum()
        lost = float(abs((seen - 50.0) / (seen + 50.0)))
        if best is None or lost < best[0]:
            best = lost, found.x
    if best is None:
        raise RequestError(
            "no lengths of line give these verticals equal currents", remedy="move them apart"
        )
    first, second = best[1] / (2.0 * math.pi * beam.design_frequency) * speed
    return float(first), float(second)


def _wanted(shape: str, plan: Plan, height: float | None) -> Floats:
    """Reactance that each beam of a first plan shall have at its design frequency [ohm] (n,)."""
    return np.array(
        [
            shape_guess(
                shape,
                wavelength=beam.wavelength,
                height=height,
                frequencies=[each.design_frequency for each in plan.beams],
                number=number,
            )[0].reactance
            for number, beam in enumerate(plan.beams)
        ]
    )


def _reactances(text: str, prepare: Preparer) -> Floats:
    """Reactance at the feed of each beam at its design frequency [ohm] (n_beams,).

    One element is trimmed to its ground. Two keep the balance that was found for them by
    themselves in free space.
    """
    plan = read_plan(text)
    return np.array(
        [
            feed_reactance(beam, plan.site.ground, prepare)
            if len(beam.elements) == 1
            else feed_reactance(beam.alone, FREE_SPACE, prepare)
            for beam in plan.beams
        ]
    )


def feed_reactance(beam: Beam, ground: Ground, prepare: Preparer) -> float:
    """Reactance at the feed of a beam at its design frequency [ohm]."""
    solution = solve_beam(
        beam=beam,
        frequencies=np.array([beam.design_frequency]),
        detail=working_detail(frequency=max(beam.band)),
        ground=ground,
        prepare=prepare,
    )
    return float(solution.impedance[0].imag)
