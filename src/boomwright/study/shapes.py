"""A first plan of wire, trimmed with the solver to its own wire, height and ground."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, cast

import numpy as np
from numpy.typing import NDArray

from boomwright.feed.iterate import iterate
from boomwright.parts import Beam
from boomwright.plan import Plan, QuantityError, read_plan
from boomwright.plan.shapes import nested_bands, shape_guess, shape_plan
from boomwright.solver import FREE_SPACE, Ground, Preparer, remembering, solve_beam, working_detail
from boomwright.study.requests import RequestError, Wishes, read_quantity

Floats = NDArray[np.float64]

#: how far all lengths may be changed together
_RANGE = (0.9, 1.1)
#: reactances are met within this [ohm]
_TOLERANCE = 0.5


def shaped_text(wishes: Wishes) -> str:
    """Write a first plan of the wished shape.

    Raises:
        RequestError: when a wish cannot be read or met
    """
    height = read_quantity(wishes.height, "length", noun="height") if wishes.height else None
    region = cast(Literal[1, 2, 3], wishes.region)
    prepare = remembering()

    def text(scales: Sequence[float]) -> str:
        return shape_plan(
            wishes.shape,
            band=wishes.band,
            further=wishes.further_bands,
            scales=scales,
            height=height,
            heading_deg=wishes.heading,
            ground=wishes.ground,
            position=wishes.position,
            title=wishes.title,
            units=wishes.system,
            region=region,
        )

    try:
        count = len(nested_bands(wishes.shape, (wishes.band, *wishes.further_bands), region))
        wanted = _wanted(wishes.shape, read_plan(text(())), height)
        found = iterate(
            residual=lambda at: _reactances(text(at.tolist()), prepare) - wanted,
            start=np.ones(count),
            step=np.full(count, 0.005),
            low=np.full(count, _RANGE[0]),
            high=np.full(count, _RANGE[1]),
            tolerance=_TOLERANCE,
        )
    except QuantityError as error:
        message = f"{error.message} -> {error.remedy}"
        raise RequestError(message) from None
    return text(found.values.tolist())


def _wanted(shape: str, plan: Plan, height: float | None) -> Floats:
    """Reactance that each beam of a first plan shall have at its design frequency [ohm] (n,)."""
    return np.array(
        [
            shape_guess(shape, wavelength=beam.wavelength, height=height)[0].reactance
            for beam in plan.beams
        ]
    )


def _reactances(text: str, prepare: Preparer) -> Floats:
    """Reactance at the feed of each beam at its design frequency [ohm] (n_beams,).

    One element is trimmed to its ground. Two keep the balance that was found for them by
    themselves in free space.
    """
    plan = read_plan(text)
    return np.array([_reactance(beam, plan.site.ground, prepare) for beam in plan.beams])


def _reactance(beam: Beam, ground: Ground, prepare: Preparer) -> float:
    alone = len(beam.elements) == 1
    solution = solve_beam(
        beam=beam if alone else beam.alone,
        frequencies=np.array([beam.design_frequency]),
        detail=working_detail(frequency=max(beam.band)),
        ground=ground if alone else FREE_SPACE,
        prepare=prepare,
    )
    return float(solution.impedance[0].imag)
