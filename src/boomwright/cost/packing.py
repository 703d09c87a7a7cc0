"""Packing tube pieces into stock lengths with a proven lower bound {gilmore-gomory-1961}.

1. Column generation solves the linear relaxation; its value is a lower bound on any cutting plan.
2. The patterns found, with first-fit-decreasing bars, give a good whole-number plan.
3. If a gap is left, every pattern that a better plan could use (reduced cost below the gap) is
   listed and the whole-number problem over them is solved, which closes the gap or proves it.

Few pieces need none of that: every way to cut them is gone through.

Lengths are whole tenths of a millimetre inside: pieces and saw cuts rounded up, stock down.
The bound is proven for lengths so rounded.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from itertools import product
from typing import Final

import numpy as np
from numpy.typing import NDArray

from boomwright.base.records import dataclass

Pattern = tuple[int, tuple[int, ...]]  # index of the stock length, count of each piece length

#: most choices among the pieces that are all gone through
_FEW: Final = 100
#: most patterns listed when closing the gap
_PATTERN_CAP: Final = 30_000
#: lengths are counted in tenths of a millimetre
_STEPS: Final = 10_000.0
#: gap at which the whole-number search may stop; the bound reported stays the proven one
_STOP_GAP: Final = 2e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bought length and what is cut from it."""

    stock_length: float  #: bought length [m]
    cuts: tuple[float, ...]  #: pieces cut from it, longest first [m] (n_cuts,)
    rest: float  #: what is left over after the saw cuts [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """A cutting plan with its proof."""

    bars: tuple[Bar, ...]  #: bars to buy and cut (n_bars,)
    bought: float  #: total length bought [m]
    needed: float  #: total length of the pieces [m]
    lower_bound: float  #: proven: no cutting plan buys less [m]

    @property
    def over_bound(self) -> float:
        """How far the plan lies above the proven bound, 0 when proven best [-]."""
        return self.bought / self.lower_bound - 1.0 if self.lower_bound > 0.0 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Problem:
    sizes: tuple[int, ...]  # piece with its saw cut [0.1 mm], longest first
    demand: tuple[int, ...]
    capacity: tuple[int, ...]  # stock with one saw cut more: the last needs none [0.1 mm]
    lengths: tuple[float, ...]  # of the stock [0.1 mm]
    grain: float  # all that can be bought is a multiple of this [0.1 mm]


def _sizes(pieces: tuple[float, ...], stock_lengths: tuple[float, ...], kerf: float) -> list[int]:
    """Pieces with their saw cut in whole steps; one as long as the stock still fits."""
    longest = math.floor(max(stock_lengths) * _STEPS + 1e-6)
    cut = math.ceil(kerf * _STEPS - 1e-6)
    return [min(longest, math.ceil(piece * _STEPS - 1e-6)) + cut for piece in pieces]


def _problem(
    pieces: tuple[float, ...],
    stock_lengths: tuple[float, ...],
    kerf: float,
) -> _Problem:
    if not stock_lengths or min(stock_lengths) <= 0.0 or kerf < 0.0:
        msg = f"stock lengths {stock_lengths} must be above 0 and the saw cut {kerf} m not below"
        raise ValueError(msg)
    longest = max(stock_lengths)
    for piece in pieces:
        if not 0.0 < piece <= longest:
            msg = f"a piece of {piece:.3f} m does not fit in stock of {longest:.3f} m: join it"
            raise ValueError(msg)
    cut = math.ceil(kerf * _STEPS - 1e-6)
    stock = [math.floor(length * _STEPS + 1e-6) for length in stock_lengths]
    rounded = _sizes(pieces, stock_lengths, kerf)
    sizes = tuple(sorted(set(rounded), reverse=True))
    return _Problem(
        sizes=sizes,
        demand=tuple(rounded.count(size) for size in sizes),
        capacity=tuple(length + cut for length in stock),
        lengths=tuple(float(length) for length in stock),
        grain=float(math.gcd(*stock)),
    )


def _best_pattern(
    problem: _Problem, stock: int, values: NDArray[np.float64]
) -> tuple[float, tuple[int, ...]]:
    """Most valuable pattern of one stock length: bounded knapsack by dynamic programming."""
    capacity = problem.capacity[stock]
    best = np.zeros(capacity + 1)
    taken: list[tuple[int, int, NDArray[np.bool_]]] = []
    for index, (size, demand) in enumerate(zip(problem.sizes, problem.demand, strict=True)):
        left, lot = min(demand, capacity // size), 1
        while left > 0:
            count = min(lot, left)
            span = count * size
            if span <= capacity:
                with_lot = best[: capacity + 1 - span] + count * values[index]
                better = np.zeros(capacity + 1, dtype=bool)
                better[span:] = with_lot > best[span:] + 1e-12
                best[span:] = np.where(better[span:], with_lot, best[span:])
                taken.append((index, count, better))
            left, lot = left - count, lot * 2
    counts, room = [0] * len(problem.sizes), capacity
    for index, count, better in reversed(taken):
        if better[room]:
            counts[index] += count
            room -= count * problem.sizes[index]
    return float(best[capacity]), tuple(counts)


def _first_fit(problem: _Problem) -> list[Pattern]:
    """First-fit-decreasing bars in the cheapest stock by length, then trimmed to fit."""
    roomy = [s for s in range(len(problem.capacity)) if problem.capacity[s] >= problem.sizes[0]]
    stock = min(roomy, key=lambda s: problem.lengths[s] / problem.capacity[s])
    bars: list[list[int]] = []
    rooms: list[int] = []
    for index, (size, demand) in enumerate(zip(problem.sizes, problem.demand, strict=True)):
        for _ in range(demand):
            place = next((b for b, room in enumerate(rooms) if room >= size), len(bars))
            if place == len(bars):
                bars.append([0] * len(problem.sizes))
                rooms.append(problem.capacity[stock])
            bars[place][index] += 1
            rooms[place] -= size
    patterns: list[Pattern] = []
    for counts in bars:
        used = sum(c * s for c, s in zip(counts, problem.sizes, strict=True))
        fits = [s for s, capacity in enumerate(problem.capacity) if capacity >= used]
        patterns.append((min(fits, key=lambda s: problem.lengths[s]), tuple(counts)))
    return patterns


def _cheapest(problem: _Problem) -> list[Pattern]:
    """Least weight of all: each bar takes one of the longest pieces left, and any others."""

    @cache
    def cut(left: tuple[int, ...]) -> tuple[float, tuple[Pattern, ...]]:
        found: tuple[float, tuple[Pattern, ...]] = (math.inf if any(left) else 0.0, ())
        longest = next((index for index, count in enumerate(left) if count), 0)
        for counts in product(*(range(count, -1, -1) for count in left)):
            if not counts[longest]:
                break
            used = sum(c * s for c, s in zip(counts, problem.sizes, strict=True))
            fits = [s for s, capacity in enumerate(problem.capacity) if capacity >= used]
            if fits:
                stock = min(fits, key=lambda s: problem.lengths[s])
                rest = cut(tuple(n - c for n, c in zip(left, counts, strict=True)))
                weight = problem.lengths[stock] + rest[0]
                if weight < found[0] * (1.0 - 1e-12):
                    found = weight, ((stock, counts), *rest[1])
        return found

    return list(cut(problem.demand)[1])


def _relaxation(problem: _Problem) -> tuple[list[Pattern], float, NDArray[np.float64]]:
    """Columns, lower bound and piece values of the linear relaxation."""
    # The optimisers take long to load and only packing needs them.
    from scipy.optimize import linprog

    patterns = list(dict.fromkeys(_first_fit(problem)))
    demand = np.array(problem.demand, dtype=float)
    while True:
        columns = np.array([counts for _, counts in patterns], dtype=float).T
        costs = np.array([problem.lengths[stock] for stock, _ in patterns])
        solved = linprog(costs, A_ub=-columns, b_ub=-demand, method="highs")
        values = np.maximum(0.0, -np.asarray(solved.ineqlin.marginals))
        worst, found = 1.0, False
        for stock, cost in enumerate(problem.lengths):
            value, counts = _best_pattern(problem, stock, values)
            worst = max(worst, value / cost)
            if value > cost * (1.0 + 1e-9) and (stock, counts) not in patterns:
                patterns.append((stock, counts))
                found = True
        if not found:
            # Values scaled down until no pattern is worth more than its stock are feasible for
            # the dual problem, so their total is a bound whatever the solver's tolerance.
            values = values / worst
            return patterns, float(values @ demand), values


def _lift(bound: float, grain: float) -> float:
    return math.ceil(bound / grain - 1e-6) * grain if grain > 0.0 else bound


def _patterns_within(
    problem: _Problem, values: NDArray[np.float64], gap: float
) -> list[Pattern] | None:
    """All patterns whose cost exceeds their value by less than the gap; None when too many."""
    found: list[Pattern] = []
    density = [v / s for v, s in zip(values, problem.sizes, strict=True)]
    reach = [max(density[i:], default=0.0) for i in range(len(density) + 1)]
    visited = 0

    def search(stock: int, index: int, room: int, value: float, counts: tuple[int, ...]) -> bool:
        nonlocal visited
        visited += 1
        if visited > 40 * _PATTERN_CAP or len(found) > _PATTERN_CAP:
            return False
        short = problem.lengths[stock] - gap
        if value + room * reach[index] < short - 1e-9:
            return True
        if index == len(problem.sizes):
            found.append((stock, counts))
            return True
        most = min(problem.demand[index], room // problem.sizes[index])
        return all(
            search(
                stock,
                index + 1,
                room - count * problem.sizes[index],
                value + count * values[index],
                (*counts, count),
            )
            for count in range(most, -1, -1)
        )

    for stock, capacity in enumerate(problem.capacity):
        if not search(stock, 0, capacity, 0.0, ()):
            return None
    return found


def _whole(problem: _Problem, patterns: list[Pattern]) -> tuple[list[Pattern], float, float]:
    """Best whole-number choice among patterns: bars, weight and the solver's own bound."""
    from scipy.optimize import Bounds, LinearConstraint, milp

    columns = np.array([counts for _, counts in patterns], dtype=float).T
    costs = np.array([problem.lengths[stock] for stock, _ in patterns])
    solved = milp(
        costs,
        constraints=LinearConstraint(columns, lb=np.array(problem.demand, dtype=float)),
        integrality=np.ones(len(patterns)),
        bounds=Bounds(lb=0.0),
        options={"mip_rel_gap": _STOP_GAP, "node_limit": 20_000},
    )
    if solved.x is None:
        return [], math.inf, 0.0
    chosen: list[Pattern] = []
    for pattern, count in zip(patterns, np.rint(solved.x).astype(int), strict=True):
        chosen += [pattern] * int(count)
    return chosen, _weight(problem, chosen), float(solved.mip_dual_bound)


def _weight(problem: _Problem, plan: list[Pattern]) -> float:
    return sum(problem.lengths[stock] for stock, _ in plan)


def _solve(problem: _Problem) -> tuple[list[Pattern], float]:
    plan = _first_fit(problem)
    weight = _weight(problem, plan)
    if math.prod(count + 1 for count in problem.demand) <= _FEW:
        best = _cheapest(problem)
        least = _weight(problem, best)
        return (best, least) if least < weight * (1.0 - 1e-9) else (plan, weight)
    columns, relaxed, values = _relaxation(problem)
    bound = _lift(relaxed, problem.grain)
    trial, trial_weight, _ = _whole(problem, columns)
    if trial_weight < weight:
        plan, weight = trial, trial_weight
    if weight > bound * (1.0 + 1e-9):
        useful = _patterns_within(problem, values, weight - relaxed)
        if useful:
            # Any plan with a pattern left out weighs at least as much as the one in hand.
            trial, trial_weight, trial_bound = _whole(problem, useful)
            if trial_weight < weight:
                plan, weight = trial, trial_weight
            bound = max(bound, _lift(min(weight, trial_bound), problem.grain))
    return plan, min(bound, weight)


def _bars(
    problem: _Problem,
    plan: list[Pattern],
    pieces: tuple[float, ...],
    *,
    kerf: float,
    stock_lengths: tuple[float, ...],
) -> tuple[Bar, ...]:
    """Hand the real pieces out to the pattern bars; patterns may promise a few too many."""
    waiting: dict[int, list[float]] = {size: [] for size in problem.sizes}
    for piece, size in zip(pieces, _sizes(pieces, stock_lengths, kerf), strict=True):
        waiting[size].append(piece)
    bars: list[Bar] = []
    for stock, counts in sorted(plan, key=lambda pattern: -problem.capacity[pattern[0]]):
        cuts: list[float] = []
        for size, count in zip(problem.sizes, counts, strict=True):
            given = min(count, len(waiting[size]))
            cuts.extend(waiting[size].pop() for _ in range(given))
        if cuts:
            length = stock_lengths[stock]
            rest = max(0.0, length - sum(cuts) - len(cuts) * kerf)
            bars.append(Bar(stock_length=length, cuts=tuple(cuts), rest=rest))
    return tuple(bars)


def _join_short(
    bars: tuple[Bar, ...], *, kerf: float, stock_lengths: tuple[float, ...]
) -> tuple[Bar, ...]:
    """Take one long bar for two short ones of the same total: same length bought, less handling."""
    kept = sorted(bars, key=lambda bar: bar.stock_length)
    for long in sorted(stock_lengths):
        joined: list[Bar] = []
        while kept:
            first = kept.pop(0)
            for other in kept:
                cuts = tuple(sorted((*first.cuts, *other.cuts), reverse=True))
                rest = long - sum(cuts) - len(cuts) * kerf
                if abs(first.stock_length + other.stock_length - long) < 1e-9 and rest >= -kerf:
                    kept.remove(other)
                    first = Bar(stock_length=long, cuts=cuts, rest=max(0.0, rest))
                    break
            joined.append(first)
        kept = sorted(joined, key=lambda bar: bar.stock_length)
    return tuple(reversed(kept))


def pack(
    pieces: tuple[float, ...],
    *,
    stock_lengths: tuple[float, ...],
    kerf: float = 0.003,
) -> Packing:
    """Cut pieces from stock lengths, buying as little as can be found, with a proven bound.

    Args:
        pieces: lengths to cut [m] (n_pieces,)
        stock_lengths: lengths that can be bought, each as often as wanted [m] (n_stock,)
        kerf: length lost in each saw cut [m]
    """
    return _packed(tuple(pieces), tuple(stock_lengths), kerf)


# A taller or costlier plan is billed many times over with the same tubes in it.
@lru_cache(maxsize=256)
def _packed(
    pieces: tuple[float, ...],
    stock_lengths: tuple[float, ...],
    kerf: float,
) -> Packing:
    if not pieces:
        return Packing(bars=(), bought=0.0, needed=0.0, lower_bound=0.0)
    problem = _problem(pieces, stock_lengths, kerf)
    plan, bound = _solve(problem)
    bars = _bars(problem, plan, pieces, kerf=kerf, stock_lengths=stock_lengths)
    bars = _join_short(bars, kerf=kerf, stock_lengths=stock_lengths)
    bought = sum(bar.stock_length for bar in bars)
    return Packing(
        bars=bars,
        bought=bought,
        needed=sum(pieces),
        lower_bound=min(bought, bound / _STEPS),
    )
