"""What the design room needs of a plan: what is wanted, and what it must keep to."""

from __future__ import annotations

import math
from typing import Any

from boomwright.design.targets import Targets
from boomwright.parts import Beam
from boomwright.plan.faults import split_path
from boomwright.plan.layout import Path
from boomwright.plan.model import Plan
from boomwright.plan.model_wish import MattersPlan, WishPlan
from boomwright.plan.resolve.places import beam_named


def wished_beam(plan: Plan) -> Beam:
    """Beam that the wishes are about.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    Beam
        the beam [-]

    Raises
    ------
    PlanError
        when the plan has several and names none
    """
    return beam_named(plan, plan.wish.beam if plan.wish else "")


def design_targets(plan: Plan) -> Targets:
    """Turn wishes into targets; without weights only gain counts, as in the room itself.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    Targets
        what is wanted over the band [-]
    """
    wish = plan.wish or WishPlan()
    weights = wish.matters or MattersPlan(gain=1.0)
    given: dict[str, Any] = {
        "least_gain_dbi": wish.gain_dbi,
        "least_front_to_rear_db": wish.front_to_rear_db,
        "most_swr": wish.swr,
        "resistance": wish.resistance,
        "rear_from": None if wish.rear_angle is None else math.pi - wish.rear_angle,
        "take_off": wish.take_off,
    }
    return Targets(
        gain_weight=weights.gain,
        rear_weight=weights.front_to_rear,
        match_weight=weights.swr,
        match="matched" if wish.matched else "direct",
        **{key: value for key, value in given.items() if value is not None},
    )


def frozen_places(plan: Plan) -> tuple[Path, ...]:
    """Places of the plan that a search must leave alone.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    tuple
        keys and indices from the root, of each place [-] (n_places,)
    """
    texts = plan.wish.frozen if plan.wish else ()
    paths = (split_path(text) for text in texts)
    return tuple(path for path in paths if path is not None)
