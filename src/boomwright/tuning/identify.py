"""What the sweeps cannot tell apart, and the one further reading that would.

A further reading is simulated for every draw; what it would leave of a spread follows from the
linear regression of the deviations on it {tarantola-2005, sec. 3.2}.
"""

from __future__ import annotations

import numpy as np

from boomwright.base import Notice
from boomwright.base.array_types import Floats
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.tuning.causes import Cause, element_labels
from boomwright.tuning.readings import SideReading
from boomwright.tuning.side_readings import side_slopes
from boomwright.tuning.sweep_model import FEED_TERMS
from boomwright.tuning.trimming import Trimming

#: correlation beyond which two causes are called alike
_ALIKE = 0.6
#: spread left over the spread before, beyond which a cause is called untold
_UNTOLD = 0.8
#: what further readings are good for, as standard deviations {common-practice-meter-accuracy}
_PROBE_NOISE, _LEVEL_NOISE_DB, _TAPE = 0.05, 1.5, 2e-3
_ENDS_LENGTH, _ENDS_SHARE, _CALIBRATED = 0.01, 0.02, 0.15
#: a reading is recommended when it leaves at most this share of the spread
_WORTHWHILE = 0.9


@dataclass(frozen=True, slots=True, kw_only=True)
class FurtherMeasurement:
    """A measurement that would tell more."""

    name: Value  #: what to measure
    remaining: float  #: spread left over the present spread, mean over what is in question [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class AlikeGroup:
    """Causes whose effects on the sweeps nearly cancel or add."""

    causes: tuple[Cause, ...]  #: the causes, two or more (n,)
    correlation: float  #: strongest correlation of two of them, -1 to 1 [-]
    further: FurtherMeasurement | None  #: the reading that tells them apart best; None for none


@dataclass(frozen=True, slots=True, kw_only=True)
class Identification:
    """What is told, what is not, and what would tell it."""

    untold: tuple[Cause, ...]  #: causes of which the sweeps say next to nothing
    alike: tuple[AlikeGroup, ...]  #: groups that the sweeps cannot tell apart, strongest first
    measurements: tuple[FurtherMeasurement, ...]  #: measurements that would, best first
    notices: tuple[Notice, ...]  #: the same as sentences


def identify(found: Trimming) -> Identification:
    """Judge what the readings could tell, and look for a reading that tells the rest."""
    spread = found.spread
    before = found.before
    untold = tuple(
        cause for cause, left in zip(found.causes, spread / before, strict=True) if left > _UNTOLD
    )
    correlation: Floats = np.atleast_2d(np.corrcoef(found.acting.T))
    readings = _candidates(found)
    groups = [_group(found, members, correlation, readings) for members in _joined(correlation)]
    groups.sort(key=lambda group: -abs(group.correlation))
    asked = [n for n, c in enumerate(found.causes) if c.adjusted]
    measurements = tuple(
        each for each in _ranked(found, readings, asked) if each.remaining < _WORTHWHILE
    )
    return Identification(
        untold=untold,
        alike=tuple(groups),
        measurements=measurements,
        notices=_notices(untold, groups),
    )


def _joined(correlation: Floats) -> list[list[int]]:
    """Groups of causes that hang together by strong correlations."""
    left, groups = set(range(len(correlation))), []
    while left:
        group = {left.pop()}
        while True:
            more = {n for n in left if any(abs(correlation[n, m]) > _ALIKE for m in group)}
            if not more:
                break
            group |= more
            left -= more
        if len(group) > 1:
            groups.append(sorted(group))
    return groups


def _group(
    found: Trimming,
    members: list[int],
    correlation: Floats,
    readings: list[tuple[Value, Floats, Floats]],
) -> AlikeGroup:
    pairs = [correlation[i, j] for i in members for j in members if i < j]
    best = _ranked(found, readings, members)
    further = best[0] if best and best[0].remaining < _WORTHWHILE else None
    return AlikeGroup(
        causes=tuple(found.causes[n] for n in members),
        correlation=float(max(pairs, key=abs)),
        further=further,
    )


def _ranked(
    found: Trimming, readings: list[tuple[Value, Floats, Floats]], asked: list[int]
) -> list[FurtherMeasurement]:
    measured = [
        FurtherMeasurement(name=name, remaining=_remaining(found, values, noise, asked))
        for name, values, noise in readings
    ]
    return sorted(measured, key=lambda each: each.remaining)


def _remaining(found: Trimming, values: Floats, noise: Floats, asked: list[int]) -> float:
    """Mean share of the spreads in question that a reading would leave."""
    wanted = found.deviations[:, asked]
    scaled = (wanted - wanted.mean(axis=0)) / np.maximum(wanted.std(axis=0), 1e-300)
    seen = (values - values.mean(axis=0)) / noise
    count = len(scaled)
    inner = seen.T @ seen / count + np.eye(seen.shape[1])
    cross = seen.T @ scaled / count
    told = np.einsum("ij,ij->j", cross, np.linalg.solve(inner, cross))
    return float(np.mean(np.sqrt(np.clip(1.0 - told, 0.0, 1.0))))


def _candidates(found: Trimming) -> list[tuple[Value, Floats, Floats]]:
    """Further readings: their names, their value for every draw and their scatter."""
    index, draws = found.model.index, found.deviations
    linear = found.posterior.linear[:, :-FEED_TERMS]
    readings: list[tuple[Value, Floats, Floats]] = [
        (
            "the meter calibrated anew, and open, short and load read back",
            linear,
            np.full(linear.shape[1], _CALIBRATED),
        )
    ]
    line = [index[key] for key in ("line.length", "line.loss", "line.impedance") if key in index]
    if line:
        noise = np.array([_ENDS_LENGTH, _ENDS_SHARE, _ENDS_SHARE])
        name = "the line alone, its far end open and shorted"
        readings.append((name, draws[:, line], noise))
        tips = [n for key, n in index.items() if key.startswith("line.")]
        both = np.concatenate([draws[:, tips], linear], axis=1)
        scatter = np.concatenate([noise, np.full(linear.shape[1], _CALIBRATED)])
        readings.append(("a sweep at the feed point, without the line", both, scatter))
    for number, label in enumerate(element_labels(found.model.installation)):
        column = draws[:, [index[f"tip.{number}"]]]
        noun = "driven element" if label == "driven" else label
        readings.append((f"the {noun} measured with a tape", column, np.array([_TAPE])))
    return readings + _from_currents(found)


def _from_currents(found: Trimming) -> list[tuple[Value, Floats, Floats]]:
    """Readings of probe and signal, by how they go with the tips."""
    installation = found.model.installation
    beam = installation.beam
    if len(beam.elements) < 2:
        return []
    asked = [
        SideReading(kind="front to back", value=0.0, spread=_LEVEL_NOISE_DB,
                    frequency=beam.design_frequency)
    ]  # fmt: skip
    names: list[Value] = ["front to back with a distant signal, at the design frequency"]
    for number, label in enumerate(element_labels(installation)):
        if number != beam.driven_index:
            asked.append(
                SideReading(kind="probe", value=0.0, spread=_PROBE_NOISE, element=number,
                            frequency=beam.design_frequency)
            )  # fmt: skip
            names.append(f"a current probe in the middle of the {label}, and of the driven element")
    slopes = side_slopes(bench=found.model.surrogate.bench, readings=tuple(asked))
    return [
        (name, each.predicted(found.acting, found.model.index)[:, None],
         np.array([each.reading.spread]))
        for name, each in zip(names, slopes, strict=True)
    ]  # fmt: skip


def _notices(untold: tuple[Cause, ...], groups: list[AlikeGroup]) -> tuple[Notice, ...]:
    found = []
    for group in groups:
        would: Value = ""
        if group.further is not None:
            would = phrase(" What would tell: {name}.", name=group.further.name)
        found.append(
            Notice(
                code="tuning.alike",
                severity="doubt",
                text=phrase(
                    "The sweep cannot tell apart: {names}.{would}",
                    names=", ".join(cause.label for cause in group.causes),
                    would=would,
                ),
                value=phrase("correlation {r}", r=Quantity(group.correlation, "signed factor")),
            )
        )
    if untold:
        names = ", ".join(cause.label for cause in untold)
        text = f"The sweep says next to nothing of: {names}."
        found.append(Notice(code="tuning.untold", text=text))
    return tuple(found)
