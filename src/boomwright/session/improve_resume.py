"""A search that was broken off, found again beside its plan."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from boomwright.base import BoomwrightError
from boomwright.plan import Plan
from boomwright.plan.resolve import design_wish, wished_beam
from boomwright.session.files import ClosedFolder
from boomwright.session.improve_checkpoint import checkpoint_path, load_checkpoint, search_name
from boomwright.study.frontier import frontier_bytes
from boomwright.study.improve_wishes import wish_prices


@dataclass(frozen=True, slots=True, kw_only=True)
class BrokenOff:
    """A search that did not come to its end."""

    seed: int  #: seed of its chance and starts in each round, to go on with the same
    starts: int
    climbed: int  #: starts it has finished
    #: worst gain in the band of its best design; None before the first [dBi]
    best_gain_dbi: float | None


def broken_off(plan: Plan, *, path: Path) -> BrokenOff | None:
    """Look whether a search for the plan as it stands was broken off.

    Parameters
    ----------
    path
        its file; the search lies beside it

    Returns
    -------
    BrokenOff or None
        None when there is none, it came to its end, or it was for another beam or wish
    """
    try:
        beam = wished_beam(plan)
        wish = design_wish(plan, prices=wish_prices(plan, folder=ClosedFolder(path.parent)))
        name = search_name(beam=beam, wish=wish, frontier=frontier_bytes())
        states = load_checkpoint(checkpoint_path(path), name=name)
    except (BoomwrightError, OSError):
        return None
    if not states:
        return None
    low, high = wish.elements or (len(beam.elements), len(beam.elements))
    ended = [states[n].finished for n in range(low, high + 1) if n in states]
    if len(ended) == high - low + 1 and all(ended):
        return None
    first, last = states[min(states)], states[max(states)]
    return BrokenOff(
        seed=first.seed,
        starts=first.starts,
        climbed=sum(len(each.climbed) for each in states.values()),
        best_gain_dbi=None if last.best is None else last.best.gain_dbi,
    )
