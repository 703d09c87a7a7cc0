"""Which candidates no other beats, and the three that are put forward."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from boomwright.base.constants import DECIBELS_PER_S_UNIT
from boomwright.base.records import dataclass
from boomwright.plan import Plan
from boomwright.study.advice.judged import Candidate

#: what a station must be worth against a flat dipole at 10 m to serve, where the place says
#: nothing else: half a step of the signal meter less [dB]
_USUAL_LEAST_DB = -3.0

#: estimates closer to the front than this are computed in full [dB]
_NEAR_DB = 0.5

#: share of the gain that one between keeps from both ends, and share of the cost that it saves of
#: what the strongest costs more [-]
_WELL, _SAVED = 0.15, 0.05

PickKind = Literal[
    "cheapest that serves", "knee", "between", "best that is allowed", "strongest, checks open"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """A candidate put forward."""

    kinds: tuple[PickKind, ...]  #: what it is put forward as (n_kinds,)
    number: int  #: which candidate
    #: whether nothing is left unchecked: otherwise it is never called best
    checked: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """From one candidate to another."""

    number: int  #: the other candidate
    gain_db: float  #: what the dearer, higher or longer one of the two gives more [dB]
    dearer_by: float | None  #: what it costs more; None while not known [currency]

    @property
    def s_units(self) -> float:
        """The same gain in S-units of 6 dB {iaru-r1-r1} [-]."""
        return self.gain_db / DECIBELS_PER_S_UNIT


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A candidate beside the others."""

    #: from the strongest of the cheaper ones that no other beats; None when there is none
    cheaper: Step | None
    metre_db: float | None  #: what a metre more height brings here; None with one height [dB/m]
    metre_cost: float | None  #: what it costs; None while not known [currency/m]
    #: to one element more at the same height on the same support; None without one
    element: Step | None


def least_of(place: Plan) -> float:
    """What a station must be worth against a flat dipole at 10 m to serve at a place [dB]."""
    least = None if place.place is None else place.place.least_db
    return _USUAL_LEAST_DB if least is None else least


def unbeaten(candidates: Sequence[Candidate]) -> tuple[int, ...]:
    """Find the candidates that no other beats, weakest first.

    Only allowed ones count. One beats another when it serves as well and is known to cost no
    more, and is better in one of them. Where costs are not known in full they do not compare,
    and none is beaten.

    Returns:
        their numbers (n_unbeaten,)
    """
    allowed = [n for n, each in enumerate(candidates) if each.allowed]
    kept = [
        n
        for n in allowed
        if not any(_beats(candidates[m], candidates[n]) for m in allowed if m != n)
    ]
    return tuple(sorted(kept, key=lambda n: candidates[n].served.mean_db))


def near_front(candidates: Sequence[Candidate], *, least_db: float) -> tuple[int, ...]:
    """Find the candidates that could be put forward, or come to the front, once known better.

    Args:
        least_db: what one must be worth against a flat dipole at 10 m to serve [dB]

    Returns:
        their numbers (n_near,)
    """
    front = unbeaten(candidates)
    picked = {pick.number for pick in put_forward(candidates, front, least_db=least_db)}
    allowed = [n for n, each in enumerate(candidates) if each.allowed]
    near = [n for n in allowed if not any(_beats_by_far(candidates, m, n) for m in allowed)]
    # What is still an estimate is called best only once it is computed.
    hoped = [n for n in allowed if candidates[n].could_be_checked]
    best = max(hoped, key=lambda n: candidates[n].served.mean_db, default=None)
    return tuple(sorted({*picked, *near, *(() if best is None else (best,))}))


def _beats_by_far(candidates: Sequence[Candidate], one: int, other: int) -> bool:
    """Whether one gives more than an estimate can be off, for no more.

    Where costs do not compare, it must be no less checked instead.
    """
    first, second = candidates[one], candidates[other]
    if first.served.mean_db - second.served.mean_db <= _NEAR_DB:
        return False
    if _compare(first, second):
        return (first.cost or 0.0) <= (second.cost or 0.0)
    return first.could_be_checked >= second.could_be_checked


def _compare(one: Candidate, other: Candidate) -> bool:
    """Whether the costs of two candidates are known in full, so that they compare."""
    return None not in {one.cost, other.cost} and one.priced_in_full and other.priced_in_full


def _beats(one: Candidate, other: Candidate) -> bool:
    if not _compare(one, other):
        return False
    gain = one.served.mean_db - other.served.mean_db
    saved = (other.cost or 0.0) - (one.cost or 0.0)
    return gain >= 0.0 and saved >= 0.0 and (gain > 0.0 or saved > 0.0)


def put_forward(
    candidates: Sequence[Candidate], front: Sequence[int], *, least_db: float
) -> tuple[Pick, ...]:
    """Choose up to three candidates that no other beats.

    Args:
        front: numbers of those that no other beats, weakest first (n_unbeaten,)
        least_db: what one must be worth against a flat dipole at 10 m to serve [dB]

    Returns:
        the picks, weakest first; one that is chosen for two reasons stands once (n_picks,)
    """
    if not front:
        return ()
    chosen: dict[int, list[PickKind]] = {}
    # Of what is not priced in full nobody knows whether it is cheaper.
    priced = [n for n in front if candidates[n].priced_in_full]
    serves = [n for n in priced if candidates[n].served.mean_db >= least_db]
    if serves:
        cheapest = min(serves, key=lambda n: candidates[n].cost or 0.0)
        chosen.setdefault(cheapest, []).append("cheapest that serves")
        knee, bends = _knee(candidates, priced)
        if not bends or knee not in serves:
            knee, bends = _knee(candidates, serves)
        if knee is not None and (bends or knee not in {cheapest, front[-1]}):
            chosen.setdefault(knee, []).append("knee" if bends else "between")
    # What is not checked throughout is never called best, however strong.
    checked = [n for n, each in enumerate(candidates) if each.allowed and each.checked]
    if checked:
        best = max(checked, key=lambda n: candidates[n].served.mean_db)
        chosen.setdefault(best, []).append("best that is allowed")
    else:
        chosen.setdefault(front[-1], []).append("strongest, checks open")
    ordered = sorted(chosen, key=lambda n: candidates[n].served.mean_db)
    return tuple(
        Pick(kinds=tuple(chosen[n]), number=n, checked=candidates[n].checked) for n in ordered
    )


def _knee(candidates: Sequence[Candidate], front: Sequence[int]) -> tuple[int | None, bool]:
    """Where the curve from the cheapest to the strongest bends most, and whether it bends there.

    Where money brings as much at its end as at its start there is no bend: then it is the one well
    between the two, in gain and in cost, that comes nearest to one. None without such a one.
    """
    points = {n: (candidates[n].cost or 0.0, candidates[n].served.mean_db) for n in front}
    (low, weak), (high, strong) = min(points.values()), max(points.values(), key=lambda p: p[1])
    if len(front) < 3 or high <= low or strong <= weak:
        return None, False
    shares = {
        n: ((gain - weak) / (strong - weak), (cost - low) / (high - low))
        for n, (cost, gain) in points.items()
        if (cost, gain) not in {(low, weak), (high, strong)}
    }
    bends = {n: gain - cost for n, (gain, cost) in shares.items()}
    bent = max(bends, key=bends.__getitem__, default=None)
    if bent is not None and bends[bent] > 0.0:
        return bent, True
    middle = [
        n
        for n, (gain, cost) in shares.items()
        if _WELL < gain < 1.0 - _WELL and cost < 1.0 - _SAVED
    ]
    return max(middle, key=bends.__getitem__, default=None), False


def compared(candidates: Sequence[Candidate], front: Sequence[int]) -> tuple[Compared, ...]:
    """Hold each candidate against the best cheaper one, a metre more, and an element more.

    Args:
        front: numbers of those that no other beats (n_unbeaten,)

    Returns:
        in the order of the candidates (n_candidates,)
    """
    return tuple(_compared(candidates, front, number) for number in range(len(candidates)))


def _compared(candidates: Sequence[Candidate], front: Sequence[int], number: int) -> Compared:
    one = candidates[number]
    below = [
        n
        for n in front
        if n != number and one.cost is not None and (candidates[n].cost or math.inf) < one.cost
    ]
    cheaper = max(below, key=lambda n: candidates[n].served.mean_db, default=None)
    longer = _longer(candidates, one)
    metre = _metre(candidates, one)
    return Compared(
        cheaper=None if cheaper is None else _step(candidates[cheaper], one, other=cheaper),
        metre_db=metre[0],
        metre_cost=metre[1],
        element=None if longer is None else _step(one, candidates[longer], other=longer),
    )


def _step(smaller: Candidate, larger: Candidate, *, other: int) -> Step:
    dearer = None
    if smaller.cost is not None and larger.cost is not None:
        dearer = larger.cost - smaller.cost
    return Step(
        number=other, gain_db=larger.served.mean_db - smaller.served.mean_db, dearer_by=dearer
    )


def _alike(one: Candidate, other: Candidate) -> bool:
    """Whether two candidates stand on the same support."""
    return (one.station.support.kind, one.station.owned) == (
        other.station.support.kind,
        other.station.owned,
    )


def _metre(candidates: Sequence[Candidate], one: Candidate) -> tuple[float | None, float | None]:
    """What a metre more brings and costs, towards the next height tried, else from the one below.

    Returns:
        gain [dB/m] and cost [currency/m], None while not known (2,)
    """
    heights = {
        each.station.height: each
        for each in candidates
        if _alike(one, each) and each.station.hung == one.station.hung
    }
    here = one.station.height
    above = min((height for height in heights if height > here), default=None)
    below = max((height for height in heights if height < here), default=None)
    if above is None and below is None:
        return None, None
    low, high = (here, above) if above is not None else (below or 0.0, here)
    step = _step(heights[low], heights[high], other=0)
    cost = None if step.dearer_by is None else step.dearer_by / (high - low)
    return step.gain_db / (high - low), cost


def _longer(candidates: Sequence[Candidate], one: Candidate) -> int | None:
    """The candidate that has one element more of tube on the same support, at the same height."""
    counts = [each.shape.elements for each in one.station.hung]
    if not all(counts):
        return None
    for number, other in enumerate(candidates):
        if (
            [each.shape.elements for each in other.station.hung] == [n + 1 for n in counts]
            and [each.bands for each in other.station.hung]
            == [each.bands for each in one.station.hung]
            and _alike(one, other)
            and other.station.height == one.station.height
        ):
            return number
    return None
