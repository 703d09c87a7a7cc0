"""The frontier for an owner's own beam: what its tubes can reach, and a design made of them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.base import Fault, PlanError
from boomwright.design import FrontierPoint, Wish, WishError
from boomwright.design.frontier import DIAMETERS_WL, REARS_DB, RESONANCES_WL, cell_targets
from boomwright.design.minimax import climb
from boomwright.design.setting_up import built, set_up
from boomwright.parts import Beam
from boomwright.plan import read_plan
from boomwright.study.found_beam import put_found_beam
from boomwright.study.frontier import TradeOff, read_trade_off
from boomwright.study.requests import RequestError

#: places along the boom and dimensions are whole millimetres
_MILLIMETRE = 1e-3


def fit_point(
    beam: Beam, *, point: FrontierPoint, rear_db: float, boom: float, diameter: float
) -> Beam:
    """Make a design of the frontier of the tubes of a beam.

    Each element is scaled by its own resonance against that of the plain tube of the table;
    then one climb fits the design to the tubes, under the table's own demands.

    Args:
        rear_db: front-to-rear ratio it was asked for, 0 for none [dB]
        boom: longest boom [m]
        diameter: diameter of plain elements that it was read for [m]

    Raises:
        RequestError: when the beam has no element behind its driven one
        WishError: when its tubes cannot be pulled that far
    """
    low, high = beam.band
    targets = cell_targets(bandwidth=(high - low) / beam.design_frequency, rear_db=rear_db)
    wish = Wish(targets=targets, boom_limit=boom * (1.0 + 1e-6))
    setting = set_up(beam=beam, wish=wish, count=len(beam.elements))
    if setting.problem.tables.driven != 1:
        message = "the table's beams have one reflector behind the driven element, this beam "
        message += "has not -> search with improve instead"
        raise RequestError(message)
    wavelength = 2.0 * beam.wavelength * beam.design_frequency / (low + high)
    thick = np.clip(diameter / wavelength, DIAMETERS_WL[0], DIAMETERS_WL[-1])
    own = float(np.interp(np.log(thick), np.log(DIAMETERS_WL), RESONANCES_WL))
    free = setting.problem.space.nearest(
        positions=point.positions * wavelength,
        half_lengths=point.half_lengths / own * setting.ground.resonances,
    )
    # Scaling alone leaves the match up to 2 off in SWR; one climb fits it to these tubes.
    fitted = climb(problem=setting.problem, start=free)
    after = built(setting=setting, free=fitted.free, places=_MILLIMETRE)
    start = min(element.position for element in beam.elements)
    moved = (replace(each, position=each.position + start) for each in after.elements)
    return replace(after, elements=tuple(moved))


def beam_trade_off(beam: Beam) -> TradeOff:
    """Read what as many elements as a beam has can reach on its band.

    Raises:
        RequestError: when the frontier does not reach there
    """
    diameters = [section.diameter for element in beam.elements for section in element.half]
    # The curves span all booms; the one asked for must only be within them.
    return read_trade_off(
        elements=len(beam.elements),
        boom=max(beam.boom_length, 0.5 * beam.wavelength * len(beam.elements)),
        band=beam.band,
        diameter=sum(diameters) / len(diameters),
    )


def with_trade_off_point(text: str, *, beam: int, curve: int, number: int) -> str:
    """Put a design of the trade-off into a plan, for the owner's own tubing.

    Args:
        beam: number of the beam, from 0
        curve, number: curve of the trade-off and point along it, from 0

    Raises:
        PlanError: when there is no such point, or the tubes cannot be pulled that far
    """
    try:
        plan = read_plan(text)
        before = plan.beams[beam]
        made = beam_trade_off(before)
        rear = REARS_DB[min(curve, len(REARS_DB) - 1)]
        rows = [row for row in made.curve if row.rear_db == rear]
        if number >= len(rows):
            message = f"the trade-off has no point {number + 1} -> choose one of {len(rows)}"
            raise RequestError(message)
        row = rows[number]
        after = fit_point(
            before, point=row.point, rear_db=row.rear_db, boom=row.boom, diameter=made.diameter
        )
    except (RequestError, WishError) as error:
        message, _, remedy = str(error).partition(" -> ")
        fault = Fault(path=f"beam[{beam}]", message=message, remedy=remedy)
        raise PlanError((fault,)) from None
    return put_found_beam(text, plan, before=before, after=after)
