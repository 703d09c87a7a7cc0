"""How sure the ranking is: tried again with other prices, grounds, winds and cuts."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass
from boomwright.study.advice.judged import Candidate
from boomwright.study.advice.variations import Variations

#: tries of the ranking
_TRIES = 400
#: low and high of a price, a factor of three of the ground, and the largest error of a cut are
#: about two standard deviations off {common-practice-estimating}
_DEVIATIONS = 2.0
#: what two stations of one design differ by where that was not computed, one standard deviation
#: {common-practice-stations} [dB]
_BUILT_DB = 0.15
#: how often the land turns out one class more open than said {common-practice-stations} [-]
_OPEN = 0.2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Confidence:
    """The ranking tried many times with what is not known exactly."""

    gain_db: Floats  #: mean over bands and targets against the dipole [dB] (n_tries, n_candidates)
    cost: Floats  #: NaN while not known [currency] (n_tries, n_candidates)
    stands: NDArray[np.bool_]  #: whether each stands in the wind tried [-] (n_tries, n_candidates)

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

    def strongest(self, one: int) -> float:
        """Share of the tries in which none that costs no more and stands gives more [-].

        Where costs are not known, none that stands.
        """
        gain, cost, mine = self.gain_db, self.cost, self.cost[:, [one]]
        rivals = self.stands & ~(cost > mine) & (gain > gain[:, [one]])
        return float(np.mean(self.stands[:, one] & ~rivals.any(axis=1)))


def weigh(
    candidates: Sequence[Candidate], varied: Mapping[int, Variations] | None = None
) -> Confidence:
    """Try the ranking again with other prices, grounds, winds and cuts.

    What two stations share goes up and down for both of them together: a price, the ground, the
    wind. How well each antenna is cut goes by itself; one antenna is cut once for every support.

    Args:
        varied: how far candidates move, by their numbers; others move as is usual, None for all
    """
    chance = np.random.default_rng(0)
    gain = np.tile([each.served.mean_db for each in candidates], (_TRIES, 1))
    ground, opened = chance.normal(0.0, 1.0, _TRIES), chance.random(_TRIES) < _OPEN
    stands = np.tile([each.allowed for each in candidates], (_TRIES, 1))
    cut: dict[tuple[str, ...], Floats] = {}
    for number, each in enumerate(candidates):
        antenna = tuple(hung.shape.name for hung in each.station.hung)
        if antenna not in cut:
            cut[antenna] = chance.normal(0.0, 1.0, _TRIES)
        found = (varied or {}).get(number)
        if found is None:
            gain[:, number] += _BUILT_DB * cut[antenna]
            continue
        poorer, better = found.ground_db
        gain[:, number] += np.where(ground < 0.0, -ground * poorer, ground * better) / _DEVIATIONS
        gain[:, number] += found.built_db * cut[antenna] / _DEVIATIONS
        stands[:, number] &= ~opened | found.stands_open
    return Confidence(gain_db=gain, cost=_costs(candidates, chance), stands=stands)


def _costs(candidates: Sequence[Candidate], chance: np.random.Generator) -> Floats:
    cost = np.full((_TRIES, len(candidates)), math.nan)
    drawn: dict[tuple[str, str], Floats] = {}
    for number, each in enumerate(candidates):
        made = each.sums
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
