"""How sure the ranking is: tried again with other prices, grounds and build errors."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.study.advice.judged import Candidate

Floats = NDArray[np.float64]

#: tries of the ranking
_TRIES = 400
#: three points of a price as a normal spread: low and high are about two deviations off
#: {common-practice-estimating}
_DEVIATIONS = 2.0
#: what two stations of one design differ by when built, one standard deviation
#: {common-practice-stations} [dB]
_BUILT_DB = 0.15


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Confidence:
    """The ranking tried many times with what is not known exactly."""

    gain_db: Floats  #: mean over bands and targets against the dipole [dB] (n_tries, n_candidates)
    cost: Floats  #: NaN while not known [currency] (n_tries, n_candidates)

    def stronger(self, one: int, other: int) -> float:
        """Share of the tries in which one candidate gives more than another [-]."""
        return float(np.mean(self.gain_db[:, one] > self.gain_db[:, other]))

    def cheaper(self, one: int, other: int) -> float | None:
        """Share of the tries in which one costs less than another; None while not known [-]."""
        pair = self.cost[:, [one, other]]
        if np.isnan(pair).any():
            return None
        return float(np.mean(pair[:, 0] < pair[:, 1]))

    def spread_db(self, one: int) -> float:
        """Standard deviation of what a candidate gives over the tries [dB]."""
        return float(np.std(self.gain_db[:, one]))


def weigh(candidates: Sequence[Candidate], *, seed: int = 0) -> Confidence:
    """Try the ranking again with other prices and build errors.

    A price that two stations share goes up and down for both of them together.

    Args:
        seed: seed of the chance
    """
    chance = np.random.default_rng(seed)
    gain = np.array([each.served.mean_db for each in candidates])
    built = chance.normal(0.0, _BUILT_DB, (_TRIES, len(candidates)))
    return Confidence(gain_db=gain + built, cost=_costs(candidates, chance))


def _costs(candidates: Sequence[Candidate], chance: np.random.Generator) -> Floats:
    cost = np.full((_TRIES, len(candidates)), math.nan)
    drawn: dict[tuple[str, str], Floats] = {}
    for number, each in enumerate(candidates):
        made = None if each.costing is None else each.costing.estimate
        if made is None or each.cost is None:
            continue
        spread = np.zeros(_TRIES)
        for line in made.lines:
            if line.amounts is None or line.price is None:
                continue
            key = line.price.item, line.price.unit
            if key not in drawn:
                drawn[key] = chance.normal(0.0, 1.0 / _DEVIATIONS, _TRIES)
            turn, amounts = drawn[key], line.amounts
            spread += np.where(
                turn < 0.0,
                turn * (amounts.likely - amounts.low),
                turn * (amounts.high - amounts.likely),
            )
        # Tax and the share for the unforeseen go with the likely sum.
        factor = made.total.likely / made.priced.likely if made.priced.likely else 1.0
        cost[:, number] = each.cost + factor * spread
    return cost
