"""Dimensions on the shop's grid: searched among what can be cut, not merely rounded."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from boomwright.base import Notice
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, replace
from boomwright.design.figures_of import SAID_DB, SAID_SWR, BandFigures, shortfalls
from boomwright.design.minimax import climb, judged
from boomwright.design.setting_up import Setting, built
from boomwright.design.targets import Problem, asking_more, margins
from boomwright.parts import Beam

#: a tape measure's grid, and that of a calliper [m]
_TAPE, _CALLIPER = 1e-3, 1e-4
#: half a step of the tape may be this share of a wavelength at most
_COARSEST_WL = 1.0 / 4000.0
#: times each dimension is moved by a step either way, at most
_ROUNDS = 4
#: a move must gain this [dB], and limits on places count as kept within this [m]
_GAIN, _ROOM = 1e-6, 1e-9
#: climbed again with more demanded so often, unless more than this is missing [dB]
_CUTS, _TOO_SHORT = 3, 1.0

#: a beam as each of its bands uses it, with its figures there
Solved = tuple[tuple[Beam, BandFigures], ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cut:
    """A beam whose dimensions are all on the grid."""

    breach: float  #: how far the search finds limits broken, 0 when kept [dB]
    solved: Solved  #: by the full solver


def shop_grid(*, wavelength: float) -> float:
    """Step that dimensions are cut to: the shorter the wave, the finer [m].

    Args:
        wavelength: at the design frequency [m]
    """
    return _TAPE if _COARSEST_WL * wavelength >= 0.5 * _TAPE else _CALLIPER


def on_grid(*, setting: Setting, free: Floats, places: float) -> tuple[Beam, float]:
    """Find the best beam near a design whose dimensions are all on the grid.

    Args:
        free: free numbers of the design (m,)
        places: step of the grid [m]

    Returns:
        the beam, and how far it breaks the limits, 0 when kept [dB]
    """
    space = setting.problem.space

    def tried(wanted: Floats) -> tuple[float, float, float, Floats, Beam]:
        beam = built(setting=setting, free=wanted, places=places)
        at = _free_of(setting, beam)
        score, breach = _judged(setting, at)
        room = float(np.min(space.rows @ at - space.least, initial=0.0))
        return score, breach, room, at, beam

    score, breach, room, at, beam = tried(free)
    steps = places / np.max(np.abs(space.basis), axis=0)
    for _ in range(_ROUNDS):
        changed = False
        for number, step in enumerate(steps):
            for way in (step, -step):
                moved = at.copy()
                moved[number] += way
                if not space.lower[number] <= moved[number] <= space.upper[number]:
                    continue
                new = tried(moved)
                # Rounding may have left the boom or come too near to a neighbour: back first.
                within = new[2] >= -_ROOM and new[0] > score + _GAIN
                if new[2] > room + _ROOM if room < -_ROOM else within:
                    score, breach, room, at, beam = new
                    changed = True
        if not changed:
            break
    return beam, breach


def cut_to_grid(
    *, setting: Setting, free: Floats, places: float, solve: Callable[[Beam], Solved]
) -> Cut:
    """Cut a design to the grid; where the full solver finds limits missed, ask for more.

    Args:
        free: free numbers of the design (m,)
        places: step of the grid [m]
        solve: solves a beam in each band, full length
    """
    targets, climbed = setting.problem.targets, setting
    best, least, beyond = None, math.inf, np.zeros(3)
    for _ in range(_CUTS):
        beam, _ = on_grid(setting=climbed, free=free, places=places)
        breach, solved = _judged(setting, _free_of(setting, beam))[1], solve(beam)
        short = np.max([shortfalls(beam=b, figures=f, targets=targets) for b, f in solved], axis=0)
        missing = max(float(short.max()), breach)
        if best is None or missing < least:
            best, least = Cut(breach=breach, solved=solved), missing
        over = max(figures.worst[3] for _, figures in solved) > targets.most_swr + SAID_SWR
        if missing > _TOO_SHORT or not (over or missing > SAID_DB):
            break
        beyond = beyond + np.maximum(short[1:], 0.0) + SAID_DB
        asked = _asking_more(setting.problem, beyond)
        climbed = replace(setting, problem=asked)
        free = climb(problem=asked, start=free).free
    assert best is not None  # noqa: S101 - the loop runs at least once
    return best


def _asking_more(problem: Problem, beyond: Floats) -> Problem:
    """The same with more demanded in every band [dB] (3,)."""
    further = tuple(_asking_more(each, beyond) for each in problem.further)
    return replace(problem, targets=asking_more(problem.targets, beyond), further=further)


def _free_of(setting: Setting, beam: Beam) -> Floats:
    return setting.problem.space.nearest(
        positions=np.array([each.position for each in beam.elements]),
        half_lengths=np.array([each.half_length for each in beam.elements]),
    )


def _judged(setting: Setting, free: Floats) -> tuple[float, float]:
    """Score and breach of a design [dB]."""
    problem = setting.problem
    towards = problem.targets.directions()
    found = margins(problem=problem, towards=towards, free=free, slopes=False)
    score, breach, _ = judged(problem=problem, found=found)
    return score, breach


def missed_by_rounding(*, places: float, breach: float) -> Notice:
    """Say that a limit is missed because dimensions are cut to a grid.

    Args:
        places: step of the grid [m]
        breach: how far limits are broken [dB]
    """
    return Notice(
        code="design.limit-missed-by-rounding",
        text=phrase(
            "Cut in steps of {step} no beam near this one keeps all limits. Cut finer, or relax "
            "the limit that is missed.",
            step=Quantity(places, "small length"),
        ),
        severity="limit",
        value=f"{breach:.2f} dB short",
    )
