"""Naming a fault from its sweep.

Every suspect is an antenna with one fault and the usual small errors besides. Each is fitted to
the sweep; the evidence of the fits, not their misfit alone, ranks them, so that a fault with
more freedom does not win by it {mackay-2003, ch. 28}. When even the best leaves more than noise,
the sweep is not one of these.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from boomwright.base import Notice
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
#: strain of the small errors beyond which nobody would call them small
LARGEST_STRAIN = 5.0
#: suspects less probable than this against the best are not named
_LEAST_ODDS = 0.02


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NamedFault:
    """One suspect after the fit.

    Parameters
    ----------
    kind
        kind of fault [-]
    text
        the fault in words [-]
    probability
        probability among all suspects [-]
    fit
        its fit [-]
    """

    kind: FaultKind
    text: str
    probability: float
    fit: Fit


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FaultReport:
    """Which fault a sweep shows.

    Parameters
    ----------
    verdict
        kind of the most probable fault, or ``not one of these`` [-]
    named
        suspects in question, most probable first [-]
    kinds
        probability of each kind, most probable first [-]
    notices
        the same as sentences [-]
    """

    verdict: FaultKind | Literal["not one of these"]
    named: tuple[NamedFault, ...]
    kinds: tuple[tuple[FaultKind, float], ...]
    notices: tuple[Notice, ...]


def find_fault(
    *,
    installation: Installation,
    antennas: FaultAntennas,
    sweep: Sweep,
    tolerance: Tolerance | None = None,
    noise: float | None = None,
) -> FaultReport:
    """Match a sweep against every suspect.

    Parameters
    ----------
    installation
        the installation as planned [-]
    antennas
        its antennas with faults, over the sweep's frequencies [-]
    sweep
        the sweep at the meter [-]
    tolerance
        how far off things usually are; None for the usual values [-]
    noise
        standard deviation of one part of the reflection; None takes it from the scatter [-]

    Returns
    -------
    FaultReport
        the verdict [-]
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
    others = (*suspects[1:-1], *braids)
    fits = [plain, *(_fitted(suspect, used, tolerance, level) for suspect in others)]
    return _report((suspects[0], *others), fits)


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


def _report(suspects: tuple[Suspect, ...], fits: list[Fit]) -> FaultReport:
    kinds = [suspect.kind for suspect in suspects]
    # Every kind is equally likely beforehand, and within a kind every suspect.
    log = np.array(
        [
            fit.log_evidence - np.log(kinds.count(kind))
            for kind, fit in zip(kinds, fits, strict=True)
        ]
    )
    weight = np.exp(log - log.max())
    weight /= weight.sum()
    order = np.argsort(-weight)
    best = weight[order[0]]
    named = tuple(
        NamedFault(kind=kinds[n], text=suspects[n].text, probability=float(weight[n]), fit=fits[n])
        for n in order
        if weight[n] >= _LEAST_ODDS * best
    )
    shares: dict[FaultKind, float] = {}
    for kind, share in zip(kinds, weight.tolist(), strict=True):
        shares[kind] = shares.get(kind, 0.0) + share
    ranked = tuple(sorted(shares.items(), key=lambda item: -item[1]))
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
    notice = Notice(
        code="tuning.fault",
        severity="note" if ranked[0][0] == "no fault" else "doubt",
        text=f"Most probable: {ranked[0][0]} ({named[0].text}).",
        value=f"{100.0 * ranked[0][1]:.0f} %",
    )
    return FaultReport(verdict=ranked[0][0], named=named, kinds=ranked, notices=(notice,))
