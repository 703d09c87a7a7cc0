"""What the design room needs of a plan: what is wanted, and what it must keep to."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

from boomwright.base import Fault, PlanError
from boomwright.design import Targets, Wish
from boomwright.design.frontier import LEAST_RESISTANCE, MOST_SWR
from boomwright.design.wish import USUAL_LEAST_RESISTANCE
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


def design_wish(plan: Plan) -> Wish:
    """Turn a plan's wishes into the wish of a search.

    Without ``[wish]`` it is gain with a standing wave ratio of 2 at most after a match and 12.5 ohm
    or more, as in the shipped frontier; with one that names no resistance, 10 ohm or more.

    Parameters
    ----------
    plan
        the plan [-]

    Returns
    -------
    Wish
        what is wanted and what stays; its numbers of elements count along the boom [-]

    Raises
    ------
    PlanError
        no such beam, or a frozen element that it does not have
    """
    kept_places, kept_lengths = _kept(plan)
    wish = plan.wish
    if wish is None:
        targets = Targets(
            most_swr=MOST_SWR, match="matched", resistance=(LEAST_RESISTANCE, math.inf)
        )
        return Wish(targets=targets)
    targets = design_targets(plan)
    if wish.resistance is None:
        targets = replace(targets, resistance=(USUAL_LEAST_RESISTANCE, math.inf))
    return Wish(
        targets=targets,
        elements=wish.elements,
        boom_limit=wish.boom_length,
        closest=wish.closest,
        longest_element=wish.element_length,
        even=wish.even_spacing,
        even_directors=wish.equal_directors,
        keep_positions=kept_places,
        keep_lengths=kept_lengths,
    )


def boom_order(beam: Beam) -> tuple[int, ...]:
    """Plan's element numbers in the order along the boom, which searches count by.

    Parameters
    ----------
    beam
        the beam [-]

    Returns
    -------
    tuple of int
        number in the plan of each element along the boom [-] (n_elements,)
    """
    places = [element.position for element in beam.elements]
    return tuple(sorted(range(len(places)), key=places.__getitem__))


def _kept(plan: Plan) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Elements, counted along the boom, that keep place and length."""
    beam = wished_beam(plan)
    number, order = plan.beams.index(beam), boom_order(beam)
    places: set[int] = set()
    lengths: set[int] = set()
    for text, path in zip(plan.wish.frozen if plan.wish else (), frozen_places(plan), strict=True):
        # What lies outside the elements of this beam no search touches anyway.
        if path not in {("beam",), ("beam", number)} and path[:3] != ("beam", number, "element"):
            continue
        if len(path) > 3 and path[3] not in order:
            fault = Fault(
                path="wish.frozen",
                message=f"beam {beam.name} has no such element",
                value=text,
                remedy=f"count its elements from 0 to {len(order) - 1}",
            )
            raise PlanError((fault,))
        found = set(range(len(order))) if len(path) < 4 else {order.index(int(path[3]))}
        part = path[4] if len(path) > 4 else None
        places |= found if part in {None, "at"} else set()
        lengths |= found if part in {None, "length", "half"} else set()
    return tuple(sorted(places)), tuple(sorted(lengths))
