"""A design of the frontier made of an owner's own tubes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from boomwright.design import FrontierPoint, Wish
from boomwright.design.frontier import DIAMETERS_WL, RESONANCES_WL, cell_targets
from boomwright.design.minimax import climb
from boomwright.design.setting_up import built, set_up
from boomwright.parts import Beam
from boomwright.study.starting import RequestError

#: places along the boom and dimensions are whole millimetres
_MILLIMETRE = 1e-3


def fit_point(
    beam: Beam, *, point: FrontierPoint, rear_db: float, boom: float, diameter: float
) -> Beam:
    """Make a design of the frontier of the tubes of a beam.

    Each element is scaled by its own resonance against that of the plain tube of the table;
    then one climb fits the design to the tubes, under the table's own demands.

    Parameters
    ----------
    rear_db
        front-to-rear ratio it was asked for, 0 for none [dB]
    boom
        longest boom [m]
    diameter
        diameter of plain elements that it was read for [m]

    Raises
    ------
    RequestError
        when the beam has no element behind its driven one
    WishError
        when its tubes cannot be pulled that far
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
