"""Tackle and capstan: what has to be pulled, and what the top carries."""

from __future__ import annotations

import math
from typing import Final, Literal

Bearing = Literal["ball", "bush", "plain"]

#: pull behind a sheave over pull before it, by its bearing [-] {common-practice-tackle}
SHEAVE_FACTORS: Final[dict[Bearing, float]] = {"ball": 1.02, "bush": 1.05, "plain": 1.10}
#: share of the load lost at each sheave when its bearing is not known [-] {navy-tackle}
SHEAVE_SHARE: Final = 0.10
#: rubbing of dry rope on a capstan's drum, counted low [-] {common-practice-tackle}
DRUM_FRICTION: Final = 0.2
#: rubbing of wet or new rope [-] {common-practice-tackle}
WET_DRUM_FRICTION: Final = 0.1
#: times the steady pull in friction and jerks while a support is laid over [-]
#: {common-practice-tackle}
JERK: Final = 1.6


def tackle_pull(*, load: float, parts: int, lead: int = 0, bearing: Bearing | None = None) -> float:
    """Steady pull at the hauling end of a tackle [N].

    With a known bearing ``W K^n (K - 1) / (K^n - 1)`` and ``K`` more for each lead block; else
    a tenth of the load for every sheave, ``(W + 0.10 W n) / parts`` {navy-tackle}.

    Args:
        load: weight on the moving block [N]
        parts: rope parts that carry it; as many sheaves
        lead: blocks that only turn the hauling end

    Raises:
        ValueError: when there is no part
    """
    if parts < 1 or lead < 0:
        msg = f"a tackle of {parts} parts with {lead} lead blocks: give at least one part"
        raise ValueError(msg)
    if bearing is None:
        return load * (1.0 + SHEAVE_SHARE * (parts + lead)) / parts
    factor = SHEAVE_FACTORS[bearing]
    grown = factor**parts
    return load * grown * (factor - 1.0) / (grown - 1.0) * factor**lead


def capstan_ratio(*, turns: float, friction: float = DRUM_FRICTION) -> float:
    """Pull that the drum takes over the pull of the hand, ``exp(2 pi n mu)`` {belt-friction}.

    Args:
        turns: full turns of rope on the drum [-]
        friction: friction of rope on drum [-]

    Returns:
        ratio [-]
    """
    return math.exp(2.0 * math.pi * turns * friction)
