"""What a sweep cannot tell apart, and which further measurement would."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from boomwright.base import Notice
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.tuning.causes import Cause, element_labels
from boomwright.tuning.fit import Fit
from boomwright.tuning.installation import after_changes
from boomwright.tuning.knowledge import as_changes, readings_of
from boomwright.tuning.predicting import Predictor
from boomwright.tuning.solving import front_to_back_db, middle_currents, solution_of

Floats = NDArray[np.float64]
Readings = Callable[[Mapping[str, float]], Floats]

#: correlation beyond which two causes are called alike
_ALIKE = 0.7
#: spread left over the spread before, beyond which a cause is called untold
_UNTOLD = 0.8
#: a pair is only named when knowing one would narrow the other's spread to below this share
_STEP = 0.25
#: what the further measurements are good for, as standard deviations
#: {common-practice-meter-accuracy}
_PROBE_NOISE = 0.05
_LEVEL_NOISE_DB = 1.0
#: a measurement is recommended when it leaves at most this share of the spread
_WORTHWHILE = 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikePair:
    """Two causes whose effects on the sweep nearly cancel or add."""

    first: Cause  #: the causes
    second: Cause
    correlation: float  #: correlation of what is known of them, -1 to 1 [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class FurtherMeasurement:
    """A measurement that would tell more."""

    name: Value  #: what to measure
    #: spread left over the present spread, of the worst known cause in question [-]
    remaining: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Identification:
    """What is told, what is not, and what would tell it."""

    untold: tuple[Cause, ...]  #: causes of which the sweep says next to nothing
    alike: tuple[AlikePair, ...]  #: pairs that the sweep cannot tell apart, strongest first
    measurements: tuple[FurtherMeasurement, ...]  #: measurements that would, best first
    notices: tuple[Notice, ...]  #: the same as sentences


def identify(
    *, predictor: Predictor, fit: Fit, moves: Mapping[str, float] | None = None
) -> Identification:
    """Judge what a fit could tell and look for a measurement that tells the rest.

    Args:
        predictor: predicts the installation; its frequencies should reach beyond the band
        moves: changes made on purpose since the plan, by key, mixed units [-]
    """
    causes = fit.after.causes
    spread = fit.after.spread
    share = spread / np.array(fit.before.spread)
    untold = tuple(cause for cause, left in zip(causes, share, strict=True) if left > _UNTOLD)
    correlation = fit.after.covariance / np.outer(spread, spread)
    pairs = [
        AlikePair(first=causes[i], second=causes[j], correlation=float(correlation[i, j]))
        for i, j in combinations(range(len(causes)), 2)
        if abs(correlation[i, j]) > _ALIKE
    ]
    pairs.sort(key=lambda pair: -abs(pair.correlation))
    asked = sorted(
        {causes.index(c) for pair in pairs for c in (pair.first, pair.second)}
        | {causes.index(c) for c in untold if c.key.startswith(("tip.", "stage."))}
    )
    measurements = (
        _further(predictor=predictor.fresh(), fit=fit, moves=dict(moves or {}), asked=asked)
        if asked
        else ()
    )
    return Identification(
        untold=untold,
        alike=tuple(pairs),
        measurements=measurements,
        notices=_notices(untold, pairs, measurements),
    )


def _notices(
    untold: tuple[Cause, ...],
    pairs: list[AlikePair],
    measurements: tuple[FurtherMeasurement, ...],
) -> tuple[Notice, ...]:
    name = measurements[0].name if measurements else ""
    would = phrase(" What would tell: {name}.", name=name) if measurements else ""
    found = [
        Notice(
            code="tuning.alike",
            severity="doubt",
            text=phrase(
                "The sweep cannot tell {one} and {other} apart.{would}",
                one=pair.first.label,
                other=pair.second.label,
                would=would,
            ),
            value=phrase("correlation {r}", r=Quantity(pair.correlation, "signed factor")),
        )
        for pair in pairs
    ]
    if untold:
        names = ", ".join(cause.label for cause in untold)
        found.append(
            Notice(
                code="tuning.untold",
                text=phrase(
                    "The sweep says next to nothing of: {names}.{would}", names=names, would=would
                ),
            )
        )
    return tuple(found)


def _further(
    *, predictor: Predictor, fit: Fit, moves: dict[str, float], asked: list[int]
) -> tuple[FurtherMeasurement, ...]:
    causes, mean = fit.after.causes, fit.after.mean
    root = np.linalg.cholesky(fit.after.covariance)
    found = []
    for name, readings in _candidates(predictor, fit):

        def at(values: Floats, readings: Readings = readings) -> Floats:
            changes = as_changes(causes, values)
            for key, amount in moves.items():
                changes[key] = changes.get(key, 0.0) + amount
            return readings(changes)

        base = at(mean)
        slope = np.stack([(at(mean + _STEP * column) - base) / _STEP for column in root.T], axis=1)
        inside = np.linalg.inv(slope.T @ slope + np.eye(len(mean)))
        left = np.sqrt(np.diag(root @ inside @ root.T)) / fit.after.spread
        remaining = float(np.min(left[asked]))
        if remaining < _WORTHWHILE:
            found.append(FurtherMeasurement(name=name, remaining=remaining))
    return tuple(sorted(found, key=lambda each: each.remaining))


def _candidates(predictor: Predictor, fit: Fit) -> list[tuple[Value, Readings]]:
    """Further measurements: their names, and their readings in units of their noise."""
    planned, frequencies = predictor.installation, fit.sweep.frequencies
    beam = planned.beam
    design = np.array([beam.design_frequency])
    half = 0.5 * (frequencies[-1] - frequencies[0])
    wider = np.linspace(frequencies[0] - half, frequencies[-1] + half, len(frequencies))
    rise = 0.125 * beam.wavelength

    def sweep(changes: Mapping[str, float], at: Floats) -> Floats:
        reflection = predictor.sweep(changes=changes, frequencies=at)
        return readings_of(reflection, phase_known=fit.sweep.phase_known) / fit.noise

    def higher(changes: Mapping[str, float]) -> Floats:
        raised = {**changes, "height": changes.get("height", 0.0) + rise}
        return sweep(raised, frequencies)

    def solved(changes: Mapping[str, float]) -> Floats:
        changed = after_changes(installation=planned, changes=changes)
        solution = solution_of(predictor=predictor, installation=changed, frequencies=design)
        return front_to_back_db(solution=solution) / _LEVEL_NOISE_DB

    def probe(changes: Mapping[str, float], number: int) -> Floats:
        changed = after_changes(installation=planned, changes=changes)
        solution = solution_of(predictor=predictor, installation=changed, frequencies=design)
        size = np.abs(middle_currents(solution=solution, at=0)[number])
        return np.array([np.log(size) / _PROBE_NOISE])

    found: list[tuple[Value, Readings]] = [
        (
            phrase(
                "a sweep from {low} to {high}, beyond both band edges",
                low=Quantity(float(wider[0]), "frequency"),
                high=Quantity(float(wider[-1]), "frequency"),
            ),
            lambda changes: sweep(changes, wider),
        ),
        ("a front-to-back reading with a distant signal at the design frequency", solved),
    ]
    if planned.ground.kind != "free space":
        found.append((phrase("a sweep {rise} higher", rise=Quantity(rise, "height")), higher))
    if not fit.sweep.phase_known:
        found.append(("a sweep of R and X instead of SWR alone", _with_phase(predictor, fit)))
    for number, label in enumerate(element_labels(planned)):
        if number != beam.driven_index:
            found.append(
                (
                    f"a current probe in the middle of the {label}, against the driven element",
                    lambda changes, number=number: probe(changes, number),  # type: ignore[misc]
                )
            )
    return found


def _with_phase(predictor: Predictor, fit: Fit) -> Readings:
    def readings(changes: Mapping[str, float]) -> Floats:
        found = predictor.sweep(changes=changes, frequencies=fit.sweep.frequencies)
        return readings_of(found, phase_known=True) / fit.noise

    return readings
