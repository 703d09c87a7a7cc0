"""Dimensions on the shop's grid: searched among what can be cut, not merely rounded."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, phrase
from boomwright.design.minimax import judged
from boomwright.design.setting_up import Setting, built
from boomwright.design.targets import margins
from boomwright.parts import Beam

Floats = NDArray[np.float64]

#: a tape measure's grid, and that of a calliper [m]
_TAPE, _CALLIPER = 1e-3, 1e-4
#: half a step of the tape may be this share of a wavelength at most
_COARSEST_WL = 1.0 / 4000.0
#: times each dimension is moved by a step either way, at most
_ROUNDS = 4
#: a move must gain this [dB]
_GAIN = 1e-6


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
    least = min(room, 0.0)
    steps = places / np.max(np.abs(space.basis), axis=0)
    for _ in range(_ROUNDS):
        before = score
        for number, step in enumerate(steps):
            for way in (step, -step):
                moved = at.copy()
                moved[number] += way
                if not space.lower[number] <= moved[number] <= space.upper[number]:
                    continue
                new = tried(moved)
                if new[0] > score + _GAIN and new[2] >= least - 1e-12:
                    score, breach, _, at, beam = new
        if score <= before + _GAIN:
            break
    return beam, breach


def breach_of(*, setting: Setting, beam: Beam) -> float:
    """How far a beam of the setting breaks the limits, 0 when kept [dB]."""
    return _judged(setting, _free_of(setting, beam))[1]


def _free_of(setting: Setting, beam: Beam) -> Floats:
    return setting.problem.space.nearest(
        positions=np.array([each.position for each in beam.elements]),
        half_lengths=np.array([each.half_length for each in beam.elements]),
    )


def _judged(setting: Setting, free: Floats) -> tuple[float, float]:
    """Score and breach of a design [dB]."""
    problem = setting.problem
    found = margins(problem=problem, towards=problem.targets.directions(), free=free)
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
