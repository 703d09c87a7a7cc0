"""Naming a fault from its sweep.

Parts cut or set wrong come first: the antenna without a fault is fitted with the usual small
errors, and with twice as large ones. Every other suspect is an antenna with one fault and the
usual small errors besides. The evidence of the fits, not their misfit alone, ranks them, so that
a fault with more freedom does not win by it {mackay-2003, ch. 28}; a fault that would hardly
change the sweep is none. When even the best leaves more than noise, the sweep is not one of these.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.tuning.causes import Tolerance, usual_causes
from boomwright.tuning.fault_antennas import FaultAntennas
from boomwright.tuning.fit import LEAST_NOISE, MOST_POINTS, Fit, fit_sweep
from boomwright.tuning.installation import Installation
from boomwright.tuning.knowledge import first_knowledge, readings_of
from boomwright.tuning.suspects import FaultKind, Suspect, likely_braids, list_suspects
from boomwright.tuning.sweep import Sweep, reading_noise

#: error of the suspects' linear models, added to the noise of the meter; tried on the study
_MODEL_NOISE = 0.006
#: mean square left over, in noise, beyond which a sweep is not one of these
LARGEST_MISFIT = 1.9
#: strain of the small errors beyond which they are hardly believed; tried on the study
LARGEST_STRAIN = 2.3
#: parts cut or set wrong are off by so many times the usual tolerance
_MIS_CUT = 2.0
#: how much more often an antenna is sound than it has a fault of one kind; tried on the study
#: {common-practice-faults}
_SOUND_ODDS = 5.0
#: a fault that changes the reflection by less than this, root mean square, cannot be told from
#: none; tried on the study
LEAST_EFFECT = 0.04
#: suspects less probable than this against the best are not named
_LEAST_ODDS = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NamedFault:
    """One suspect after the fit."""

    kind: FaultKind
    text: Value  #: the fault in words
    probability: float  #: probability among all suspects [-]
    fit: Fit


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultReport:
    """Which fault a sweep shows."""

    #: kind of the most probable fault, or ``not one of these``
    verdict: FaultKind | Literal["not one of these"]
    named: tuple[NamedFault, ...]  #: suspects in question, most probable first
    kinds: tuple[tuple[FaultKind, float], ...]  #: probability of each kind, most probable first [-]
    notices: tuple[Notice, ...]  #: the same as sentences


def find_fault(
    *,
    installation: Installation,
    antennas: FaultAntennas,
    sweep: Sweep,
    tolerance: Tolerance | None = None,
    noise: float | None = None,
) -> FaultReport:
    """Match a sweep against every suspect.

    Args:
        tolerance: how far off things usually are; None for the usual values
        noise: standard deviation of one part of the reflection; None takes it from the scatter [-]
    """
    measured = max(LEAST_NOISE, reading_noise(sweep=sweep)) if noise is None else noise
    level = float(np.hypot(measured, _MODEL_NOISE))
    used = sweep.thinned(points=MOST_POINTS)
    level /= float(np.sqrt(-(-len(sweep.frequencies) // MOST_POINTS)))
    suspects = list_suspects(
        installation=installation, antennas=antennas, frequencies=used.frequencies
    )
    plain = _fitted(suspects[0], used, tolerance, level)
    # What noise and small errors do to the readings, from the beam without a fault.
    scatter = plain.slopes @ plain.before.covariance @ plain.slopes.T
    scatter = scatter + level**2 * np.eye(len(scatter))
    braids = likely_braids(
        suspect=suspects[-1],
        frequencies=used.frequencies,
        target=readings_of(used.reflection, phase_known=used.phase_known),
        covariance=scatter,
        phase_known=used.phase_known,
    )
    mis_cut = replace(suspects[0], text="no fault, but parts cut or set further off than usual")
    held = [(suspects[0], plain), (mis_cut, _fitted(mis_cut, used, _wider(tolerance), level))]
    for suspect in (*suspects[1:-1], *braids):
        fit = _fitted(suspect, used, tolerance, level)
        if _effect(suspects[0], suspect, fit) >= LEAST_EFFECT:
            held.append((suspect, fit))
    return _report(held)


def _wider(tolerance: Tolerance | None) -> Tolerance:
    usual = tolerance or Tolerance()
    return replace(
        usual,
        cutting=_MIS_CUT * usual.cutting,
        strap=_MIS_CUT * usual.strap,
        component=_MIS_CUT * usual.component,
    )


def _effect(plain: Suspect, suspect: Suspect, fit: Fit) -> float:
    """What the fault alone does to the reflection, root mean square."""
    if suspect.kind == "shorted match":
        # The match has other pieces then, and whatever it did before is gone.
        return math.inf
    small = {k: v for k, v in fit.after.changes().items() if not k.startswith("hidden.")}
    sound = plain.sweep(changes=small, frequencies=fit.sweep.frequencies)
    return float(np.sqrt(np.mean(np.abs(fit.predicted - sound) ** 2)))


def _fitted(suspect: Suspect, sweep: Sweep, tolerance: Tolerance | None, level: float) -> Fit:
    causes = usual_causes(installation=suspect.installation, tolerance=tolerance)
    # Ground constants hardly show; the suspects' slopes leave them out.
    kept = tuple(c for c in causes if c.key not in ("permittivity", "conductivity"))
    return fit_sweep(
        predictor=suspect,
        before=first_knowledge((*kept, *suspect.hidden)),
        sweep=sweep,
        noise=level,
    )


def _report(held: list[tuple[Suspect, Fit]]) -> FaultReport:
    named, ranked = _ranked(held)
    kind, share = ranked[0]
    misfit, strain = named[0].fit.misfit, named[0].fit.strain
    if misfit > LARGEST_MISFIT or strain > LARGEST_STRAIN:
        text = (
            "The sweep is not one of these: no fault, loose element, wet balun, wrong order, "
            "current on the braid, shorted match. Is the plan that of this antenna, and the meter "
            "calibrated?"
        )
        notice = Notice(
            code="tuning.unknown-fault",
            severity="doubt",
            text=text,
            value=f"misfit {misfit:.1f}, strain {strain:.1f}",
            limit=f"misfit {LARGEST_MISFIT:g}, strain {LARGEST_STRAIN:g}",
        )
        return FaultReport(verdict="not one of these", named=named, kinds=ranked, notices=(notice,))
    sound = kind == "no fault"
    said = next(each.text for each in named if each.kind == kind)
    words = "Most probable: {kind} ({said})."
    if sound:
        words = "Most probable: {said}. A fault that changes the reflection by less than {least} "
        words += "is not seen."
    least = Quantity(LEAST_EFFECT, "number")
    notice = Notice(
        code="tuning.fault",
        severity="note" if sound else "doubt",
        text=phrase(words, kind=kind, said=said, least=least),
        value=Quantity(share, "share"),
    )
    return FaultReport(verdict=kind, named=named, kinds=ranked, notices=(notice,))


def _ranked(
    held: list[tuple[Suspect, Fit]],
) -> tuple[tuple[NamedFault, ...], tuple[tuple[FaultKind, float], ...]]:
    """Suspects in question and all kinds, most probable first."""
    kinds = [suspect.kind for suspect, _ in held]
    # Beforehand every kind of fault is equally likely, and within a kind every suspect.
    log = np.array([fit.log_evidence - np.log(kinds.count(suspect.kind)) for suspect, fit in held])
    log += np.where([kind == "no fault" for kind in kinds], np.log(_SOUND_ODDS), 0.0)
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    order = np.argsort(-weight)
    named = tuple(
        NamedFault(
            kind=kinds[n], text=held[n][0].text, probability=float(weight[n]), fit=held[n][1]
        )
        for n in order
        if weight[n] >= _LEAST_ODDS * weight[order[0]]
    )
    shares: dict[FaultKind, float] = {}
    for kind, share in zip(kinds, weight.tolist(), strict=True):
        shares[kind] = shares.get(kind, 0.0) + share
    return named, tuple(sorted(shares.items(), key=lambda item: -item[1]))
