"""What to move and by how much, and the sweep to expect afterwards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from boomwright.base import read_only
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.solver import standing_wave_ratio
from boomwright.tuning.causes import element_labels, stage_name, usual_causes
from boomwright.tuning.fit import BAND
from boomwright.tuning.installation import Installation, after_changes, at_line
from boomwright.tuning.knowledge import Knowledge, as_changes
from boomwright.tuning.predicting import Predictor

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]

#: reflection at the design frequency that counts as done
_DONE = 0.01
#: how far things are moved willingly: tips as a share of the wavelength, straps likewise,
#: components as a share; parasitic tips only unwillingly, as they carry the pattern
_WILLING_TIP = 2.5e-3
_WILLING_STRAP = 5e-3
_WILLING_SHARE = 0.5
_UNWILLING_TIP = 2.5e-4
#: a parasitic element is put right when it is off by this many standard deviations
_CLEARLY_OFF = 2.0
#: and by more than this share of the wavelength
_WORTH_A_CLIMB = 2e-4
#: steps of the difference quotients: lengths as a share of the wavelength, others as such
_LENGTH_STEP = 2e-4
_SHARE_STEP = 0.01
_ROUNDS = 6
#: a component is set between these shares of its planned value more, a tip moved this share of the
#: wavelength at most at a time
_LEAST, _MOST = -0.6, 1.5
_FARTHEST_TIP = 0.01
#: lengths are moved by whole millimetres, by halves where the wavelength is below this [m]
_ROUNDED_TO = 1e-3
_FINE_BELOW = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to move."""

    key: str  #: key of the change
    amount: float  #: by how much, mixed units [-]
    band: float  #: half width of its 95 % band, mixed units [-]
    text: Value  #: what to do


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Advice:
    """What to do, and what to expect of it."""

    steps: tuple[Step, ...]  #: things to move; none when all is well
    frequencies: Floats  #: frequencies of the expected sweep [Hz] (f,)
    expected: Complexes  #: reflection at the meter expected after the change (f,)
    #: standing wave ratio at the design frequency, at the start of the line [-]
    expected_swr: float
    expected_swr_limit: float  #: what it stays below with 97.5 % probability [-]

    def __post_init__(self) -> None:
        object.__setattr__(self, "frequencies", read_only(self.frequencies))
        object.__setattr__(self, "expected", read_only(self.expected, complex))

    def moves(self) -> dict[str, float]:
        """The steps as changes by key.

        Returns:
            amounts by key, mixed units [-]
        """
        return {step.key: step.amount for step in self.steps}


def adjustable_keys(*, installation: Installation) -> tuple[str, ...]:
    """List what can be adjusted: all tips, and the pieces of the match that have a value."""
    causes = usual_causes(installation=installation)
    return tuple(c.key for c in causes if c.key.startswith(("tip.", "stage.")))


def advise(
    *,
    predictor: Predictor,
    knowledge: Knowledge,
    frequencies: Floats,
    moves: Mapping[str, float] | None = None,
    adjustable: tuple[str, ...] | None = None,
) -> Advice:
    """Find the smallest moves that match the antenna at its design frequency.

    Parasitic elements that are clearly off are put back to their planned lengths; the rest is
    done by the driven element and the match, and by small moves of parasitic tips only where
    those cannot.

    Args:
        frequencies: frequencies of the sweep to expect [Hz] (f,)
        moves: changes made on purpose since the plan, by key, mixed units [-]
        adjustable: keys of what may be moved; None for everything that can be
    """
    keys = (
        adjustable_keys(installation=predictor.installation) if adjustable is None else adjustable
    )
    search = _Moves(predictor.fresh(), knowledge, dict(moves or {}), keys)
    amounts = search.find()
    widths = search.bands(amounts)
    steps = tuple(
        _step(predictor.installation, search.standing(), key, float(amount), float(BAND * width))
        for key, amount, width in zip(keys, amounts, widths, strict=True)
        if amount != 0.0
    )
    made = {step.key: step.amount for step in steps}
    ahead = search.reflection(made)
    spread = float(np.sqrt(np.trace(search.scatter(made)) / 2.0))
    swr = [min(0.998, size) for size in (abs(ahead), abs(ahead) + BAND * spread)]
    return Advice(
        steps=steps,
        frequencies=frequencies,
        expected=predictor.sweep(changes=search.all_changes(made), frequencies=frequencies),
        expected_swr=(1.0 + swr[0]) / (1.0 - swr[0]),
        expected_swr_limit=(1.0 + swr[1]) / (1.0 - swr[1]),
    )


def swr_at_design(*, predictor: Predictor, changes: Mapping[str, float]) -> float:
    """Standing wave ratio at the start of the line, at the design frequency [-].

    Args:
        changes: all changes since the plan, by key, mixed units [-]
    """
    changed = after_changes(installation=predictor.installation, changes=changes)
    design = np.array([changed.beam.design_frequency])
    antenna = predictor.impedance(installation=changed, frequencies=design)
    start = at_line(installation=changed, impedance=antenna, frequencies=design)
    return float(standing_wave_ratio(impedance=start, reference=changed.reference)[0])


class _Moves:
    """Search for the moves."""

    def __init__(
        self,
        predictor: Predictor,
        knowledge: Knowledge,
        moves: dict[str, float],
        keys: tuple[str, ...],
    ) -> None:
        self.predictor, self.knowledge, self.moves, self.keys = predictor, knowledge, moves, keys
        self.wavelength = predictor.installation.beam.wavelength
        self.driven = f"tip.{predictor.installation.beam.driven_index}"
        self.is_length = np.array([self._unit(key) == "m" for key in keys], dtype=bool)
        self.willing = np.array([self._willing(key) for key in keys])
        self.restored = self._restored()

    def _unit(self, key: str) -> str:
        causes = usual_causes(installation=self.predictor.installation)
        return next(cause.unit for cause in causes if cause.key == key)

    def _willing(self, key: str) -> float:
        if key == self.driven:
            return _WILLING_TIP * self.wavelength
        if key.startswith("tip."):
            return _UNWILLING_TIP * self.wavelength
        return _WILLING_STRAP * self.wavelength if self._unit(key) == "m" else _WILLING_SHARE

    def _restored(self) -> Floats:
        """Moves that put clearly wrong parasitic elements back."""
        found = np.zeros(len(self.keys))
        known = [cause.key for cause in self.knowledge.causes]
        for number, key in enumerate(self.keys):
            if not key.startswith("tip.") or key == self.driven or key not in known:
                continue
            at = known.index(key)
            off = self.knowledge.mean[at] + self.moves.get(key, 0.0)
            clearly = abs(off) > _CLEARLY_OFF * self.knowledge.spread[at]
            if clearly and abs(off) > _WORTH_A_CLIMB * self.wavelength:
                found[number] = -off
        return found

    def all_changes(
        self, made: Mapping[str, float], errors: Floats | None = None
    ) -> dict[str, float]:
        """Errors, moves so far and new moves together."""
        values = self.knowledge.mean if errors is None else errors
        changes = as_changes(self.knowledge.causes, values)
        for more in (self.moves, made):
            for key, amount in more.items():
                changes[key] = changes.get(key, 0.0) + amount
        return changes

    def standing(self) -> Installation:
        """What the owner believes stands there now: the plan with the moves so far."""
        return after_changes(installation=self.predictor.installation, changes=self.moves)

    def reflection(self, made: Mapping[str, float], errors: Floats | None = None) -> complex:
        """Reflection at the start of the line, at the design frequency."""
        changed = after_changes(
            installation=self.predictor.installation, changes=self.all_changes(made, errors)
        )
        design = np.array([changed.beam.design_frequency])
        antenna = self.predictor.impedance(installation=changed, frequencies=design)
        start = at_line(installation=changed, impedance=antenna, frequencies=design)[0]
        return complex((start - changed.reference) / (start + changed.reference))

    def _parts(self, amounts: Floats, errors: Floats | None = None) -> Floats:
        made = dict(zip(self.keys, amounts.tolist(), strict=True))
        found = self.reflection(made, errors)
        return np.array([found.real, found.imag])

    def _slopes(self, amounts: Floats, base: Floats) -> Floats:
        steps = np.where(self.is_length, _LENGTH_STEP * self.wavelength, _SHARE_STEP)
        unit = np.eye(len(amounts))
        columns = [
            (self._parts(amounts + step * row) - base) / step
            for step, row in zip(steps, unit, strict=True)
        ]
        return np.stack(columns, axis=1)

    def find(self) -> Floats:
        """The moves, lengths rounded to what a ruler shows."""
        if not self.keys:
            return np.zeros(0)
        at = self.restored.copy()
        penalty = np.diag((_DONE / self.willing) ** 2)
        for _ in range(_ROUNDS):
            now = self._parts(at)
            slope = self._slopes(at, now)
            pull = penalty @ (at - self.restored)
            step = -np.linalg.solve(slope.T @ slope + penalty, slope.T @ now + pull)
            # Far from the match the reflection is not linear in anything.
            longest = float(np.max(np.abs(step) / self.willing))
            at = self._within_reach(at + step / max(1.0, longest))
            if longest < 0.01:
                break
        grain = _ROUNDED_TO * (0.5 if self.wavelength < _FINE_BELOW else 1.0)
        rounded = np.where(self.is_length, np.round(at / grain) * grain, at)
        negligible = ~self.is_length & (np.abs(rounded) < 0.5 * _SHARE_STEP)
        return np.where(negligible, 0.0, rounded)

    def _within_reach(self, amounts: Floats) -> Floats:
        """Keep every part within what can be set, counted from the plan with the moves so far."""
        found = amounts.copy()
        for number, key in enumerate(self.keys):
            if not self.is_length[number]:
                so_far = self.moves.get(key, 0.0)
                found[number] = np.clip(amounts[number], _LEAST - so_far, _MOST - so_far)
            elif key.startswith("tip."):
                reach = _FARTHEST_TIP * self.wavelength
                found[number] = np.clip(amounts[number], -reach, reach)
        return found

    def _error_slopes(self, amounts: Floats) -> Floats:
        base = self._parts(amounts)
        mean, spread = self.knowledge.mean, self.knowledge.spread
        columns = []
        for number, width in enumerate(spread):
            ahead = mean.copy()
            ahead[number] += 0.5 * width
            columns.append((self._parts(amounts, ahead) - base) / (0.5 * width))
        return np.stack(columns, axis=1)

    def scatter(self, made: Mapping[str, float]) -> Floats:
        """Covariance of the parts of the reflection after the moves."""
        amounts = np.array([made.get(key, 0.0) for key in self.keys])
        slope = self._error_slopes(amounts)
        found: Floats = slope @ self.knowledge.covariance @ slope.T
        return found

    def bands(self, amounts: Floats) -> Floats:
        """Standard deviation of each move, from that of the errors."""
        if not self.keys:
            return np.zeros(0)
        slope = self._slopes(amounts, self._parts(amounts))
        penalty = np.diag((_DONE / self.willing) ** 2)
        response = -np.linalg.solve(
            slope.T @ slope + penalty, slope.T @ self._error_slopes(amounts)
        )
        known = [cause.key for cause in self.knowledge.causes]
        for number, key in enumerate(self.keys):
            if self.restored[number] != 0.0:
                response[number, known.index(key)] -= 1.0
        variance = np.einsum("ij,jk,ik->i", response, self.knowledge.covariance, response)
        found: Floats = np.sqrt(variance)
        return found


def _step(
    installation: Installation, now: Installation, key: str, amount: float, band: float
) -> Step:
    kind, _, number = key.partition(".")
    by = Quantity(abs(amount), "trim", band)
    if kind == "tip":
        label = element_labels(installation)[int(number)]
        verb = "lengthen" if amount > 0.0 else "shorten"
        text = phrase(f"{verb} each {{label}} tip {{by}}", label=label, by=by)
        return Step(key=key, amount=amount, band=band, text=text)
    stage, planned = now.stages[int(number)], installation.stages[int(number)]
    for name in ("capacitance", "inductance"):
        if hasattr(stage, name):
            # The change is a share of the planned value, the piece as it stands may differ.
            whole = getattr(planned, name)
            value = Quantity(getattr(stage, name) + amount * whole, name, band * whole)
            text = phrase("{stage} to {value}", stage=stage_name(stage), value=value)
            return Step(key=key, amount=amount, band=band, text=text)
    way = "outwards" if amount > 0.0 else "inwards"
    text = phrase(f"move {{stage}} {{by}} {way}", stage=stage_name(stage), by=by)
    return Step(key=key, amount=amount, band=band, text=text)
