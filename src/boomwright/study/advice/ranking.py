"""Which candidates no other beats, and the three that are put forward."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from boomwright.study.advice.judged import Candidate

#: what a station must be worth against a flat dipole at 10 m to serve, where the place says
#: nothing else: half a step of the signal meter less [dB]
USUAL_LEAST_DB = -3.0

PickKind = Literal["cheapest that serves", "knee", "best that is allowed", "strongest, checks open"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pick:
    """A candidate put forward, and the figures of its reason."""

    kinds: tuple[PickKind, ...]  #: what it is put forward as (n_kinds,)
    number: int  #: which candidate
    over_dipole_db: float  #: mean over the targets against a flat dipole at 10 m [dB]
    #: the next cheaper one that no other beats; None when there is none
    cheaper: int | None
    over_cheaper_db: float | None  #: what it gives more than that one [dB]
    dearer_by: float | None  #: what it costs more; None while not known [currency]
    #: whether nothing is left unchecked: otherwise it is never called best
    checked: bool


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
    return tuple(sorted(kept, key=lambda n: candidates[n].served.mean_dbi))


def _beats(one: Candidate, other: Candidate) -> bool:
    if one.cost is None or other.cost is None:
        return False
    if not (one.priced_in_full and other.priced_in_full):
        return False
    gain = one.served.mean_dbi - other.served.mean_dbi
    saved = other.cost - one.cost
    return gain >= 0.0 and saved >= 0.0 and (gain > 0.0 or saved > 0.0)


def put_forward(
    candidates: Sequence[Candidate], front: Sequence[int], *, dipole_dbi: float, least_db: float
) -> tuple[Pick, ...]:
    """Choose up to three candidates that no other beats.

    Args:
        front: numbers of those that no other beats, weakest first (n_unbeaten,)
        dipole_dbi: mean over the targets of a flat dipole at 10 m [dBi]
        least_db: what one must be worth against that dipole to serve [dB]

    Returns:
        the picks, weakest first; one that is chosen for two reasons stands once (n_picks,)
    """
    if not front:
        return ()
    chosen: dict[int, list[PickKind]] = {}
    serves = [n for n in front if candidates[n].served.mean_dbi - dipole_dbi >= least_db]
    if serves and all(candidates[n].cost is not None for n in front):
        cheapest = min(serves, key=lambda n: candidates[n].cost or 0.0)
        chosen.setdefault(cheapest, []).append("cheapest that serves")
        knee = _knee(candidates, front)
        if knee is not None:
            chosen.setdefault(knee, []).append("knee")
    # What is not checked throughout is never called best, however strong.
    checked = [n for n, each in enumerate(candidates) if each.allowed and each.checked]
    if checked:
        best = max(checked, key=lambda n: candidates[n].served.mean_dbi)
        chosen.setdefault(best, []).append("best that is allowed")
    else:
        chosen.setdefault(front[-1], []).append("strongest, checks open")
    ordered = sorted(chosen, key=lambda n: candidates[n].served.mean_dbi)
    return tuple(_pick(candidates, front, n, tuple(chosen[n]), dipole_dbi) for n in ordered)


def _knee(candidates: Sequence[Candidate], front: Sequence[int]) -> int | None:
    """Where the curve from the cheapest to the strongest bends most; None with fewer than three."""
    points = [(candidates[n].cost or 0.0, candidates[n].served.mean_dbi) for n in front]
    (low, weak), (high, strong) = min(points), max(points, key=lambda point: point[1])
    if len(front) < 3 or high <= low or strong <= weak:
        return None
    bends = [(gain - weak) / (strong - weak) - (cost - low) / (high - low) for cost, gain in points]
    most = max(range(len(bends)), key=bends.__getitem__)
    return front[most] if bends[most] > 0.0 else None


def _pick(
    candidates: Sequence[Candidate],
    front: Sequence[int],
    number: int,
    kinds: tuple[PickKind, ...],
    dipole_dbi: float,
) -> Pick:
    one = candidates[number]
    cost = math.inf if one.cost is None else one.cost
    below = [n for n in front if n != number and (candidates[n].cost or math.inf) < cost]
    cheaper = max(below, key=lambda n: candidates[n].served.mean_dbi, default=None)
    other = None if cheaper is None else candidates[cheaper]
    return Pick(
        kinds=kinds,
        number=number,
        over_dipole_db=one.served.mean_dbi - dipole_dbi,
        cheaper=cheaper,
        over_cheaper_db=None if other is None else one.served.mean_dbi - other.served.mean_dbi,
        dearer_by=None if other is None else cost - (other.cost or 0.0),
        checked=one.checked,
    )
