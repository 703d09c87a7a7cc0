"""A first plan of wire, trimmed with the solver to its own wire, height and ground."""

from __future__ import annotations

from typing import Literal, cast

import numpy as np

from boomwright.feed.iterate import iterate
from boomwright.plan import QuantityError, read_plan
from boomwright.plan.shapes import shape_guess, shape_plan
from boomwright.solver import FREE_SPACE, Preparer, remembering, solve_beam, working_detail
from boomwright.study.requests import RequestError, Wishes, read_quantity

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
    prepare = remembering()

    def text(scale: float) -> str:
        return shape_plan(
            wishes.shape,
            band=wishes.band,
            scale=scale,
            height=height,
            heading_deg=wishes.heading,
            ground=wishes.ground,
            position=wishes.position,
            title=wishes.title,
            units=wishes.system,
            region=cast(Literal[1, 2, 3], wishes.region),
        )

    try:
        first = read_plan(text(1.0)).beams[0]
        wanted = shape_guess(wishes.shape, wavelength=first.wavelength, height=height)[0].reactance
        found = iterate(
            residual=lambda at: np.array([_reactance(text(float(at[0])), prepare) - wanted]),
            start=np.ones(1),
            step=np.array([0.005]),
            low=np.array(_RANGE[:1]),
            high=np.array(_RANGE[1:]),
            tolerance=_TOLERANCE,
        )
    except QuantityError as error:
        message = f"{error.message} -> {error.remedy}"
        raise RequestError(message) from None
    return text(float(found.values[0]))


def _reactance(text: str, prepare: Preparer) -> float:
    """Reactance at the feed at the design frequency [ohm].

    One element is trimmed to its ground. Two keep the balance that was found in free space.
    """
    plan = read_plan(text)
    beam = plan.beams[0]
    alone = len(beam.elements) == 1
    solution = solve_beam(
        beam=beam,
        frequencies=np.array([beam.design_frequency]),
        detail=working_detail(frequency=max(beam.band)),
        ground=plan.site.ground if alone else FREE_SPACE,
        prepare=prepare,
    )
    return float(solution.impedance[0].imag)
