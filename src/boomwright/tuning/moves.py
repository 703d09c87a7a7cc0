"""What to move, as a decision: the move that most likely leaves the antenna best, or none.

Every draw of what may be true is carried through a move with the errors of making it. A move is
worth making when it betters the mean standing wave ratio by more than a hand can feel, and hardly
ever makes it worse.
"""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations
from typing import Literal

import numpy as np

from boomwright.base import ReadOnlyArrays
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.base.records import dataclass
from boomwright.feed import LineSection
from boomwright.tuning.causes import element_labels, stage_name, strap_name
from boomwright.tuning.installation import Installation, after_changes
from boomwright.tuning.posterior import Posterior
from boomwright.tuning.sweep_model import FEED_TERMS, HYPER, SweepModel, drift

#: standing wave ratio that a tuned antenna has at its design frequency
GOOD_SWR = 1.2
#: a ratio is not counted beyond this
_WORST = 4.0
#: mean gain below which nobody climbs, and what each further part must bring
_WORTH_IT, _BY_PART = 0.04, 0.015
#: largest chance of a ratio that is worse by more than the slack
_WORSE, _SLACK = 0.1, 0.01
#: chance of a good ratio below which it is said not to be had
_HARDLY = 0.4
#: most parts moved at once
_MOST_PARTS = 3
_ROUNDS = 8
#: lengths are moved by whole millimetres, by halves where the wavelength is below this [m]
_ROUNDED_TO, _FINE_BELOW, _SHARE = 1e-3, 5.0, 0.01
#: largest setting of a component from its planned value, as a share
_LEAST_SHARE, _MOST_SHARE = -0.6, 1.5
#: a parasitic element is put right when it is off by so many standard deviations, and by more
#: than this share of the wavelength
_CLEARLY_OFF, _WORTH_A_CLIMB = 3.0, 7e-4
#: shares of the draws below the ends and the middle of a band, in per cent
_BANDS = (2.5, 50.0, 97.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to move."""

    key: str  #: key of the change
    amount: float  #: by how much, mixed units [-]
    band: float  #: half width of the 95 % band of the best amount, mixed units [-]
    text: Value  #: what to do


@dataclass(frozen=True, slots=True, kw_only=True)
class Foretold:
    """Standing wave ratio at the design frequency, at the start of the line."""

    low: float  #: 2.5 % of the draws lie below [-]
    middle: float  #: half of the draws lie below [-]
    high: float  #: 97.5 % of the draws lie below [-]
    chance: float  #: probability that it is at most :data:`GOOD_SWR` [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Advice(ReadOnlyArrays):
    """What to do, and what to expect of it."""

    #: ``move``, ``leave it`` when no move is worth making, ``cannot tell`` when the sweep is not
    #: explained
    verdict: Literal["move", "leave it", "cannot tell"]
    steps: tuple[Step, ...]  #: things to move; none unless the verdict is to move
    now: Foretold  #: as it stands, and after the moves
    after: Foretold
    worse: float  #: probability that the moves make it worse [-]
    resistance: float  #: resistance at the start of the line after the best moves [ohm]
    reactance: float  #: reactance there [ohm]
    within_reach: bool  #: whether a good ratio can be had with what may be moved
    frequencies: Floats  #: frequencies of the expected sweep [Hz] (f,)
    expected: Complexes  #: reflection at the meter expected after the change (f,)

    def moves(self) -> dict[str, float]:
        """The steps as changes by key.

        Returns:
            amounts by key, mixed units [-]
        """
        return {step.key: step.amount for step in self.steps}


def adjustable_keys(model: SweepModel) -> tuple[str, ...]:
    """List what can be adjusted: all tips, and the pieces of the match that the antenna has.

    Elements driven together stay: one of them moved by the sweep of both turns their currents
    against each other, which the pattern rests on.
    """
    driven = model.installation.beam.driven_indices
    together = {f"tip.{number}" for number in driven if len(driven) > 1}
    return tuple(
        key
        for key in model.index
        if key.startswith(("tip.", "strap", "stage.")) and key not in together
    )


class Outlook:
    """Standing wave ratios of every draw after any move.

    Args:
        model: the antenna
        posterior: what may be true
        rng: source of the errors of making a move
    """

    def __init__(self, model: SweepModel, posterior: Posterior, rng: np.random.Generator) -> None:
        self.model = model
        self.last = len(model.readings) - 1
        self.amounts = model.standing(posterior.unknowns, self.last)
        if model.readings[self.last].rise and "height" in model.index:
            # The antenna goes back to where it is used.
            self.amounts[:, model.index["height"]] -= model.readings[self.last].rise
        self.design = np.array([model.installation.beam.design_frequency])
        self.weights = model.surrogate.weights(self.design)
        self.tie = model.ties[self.last]
        self.slack = rng.normal(size=self.amounts.shape)
        self.feed = self._feed(posterior)

    def _feed(self, posterior: Posterior) -> Complexes:
        """Factor of the impedance that the computation leaves out (n,)."""
        model, terms = self.model, posterior.linear[:, -FEED_TERMS:]
        place = model.size - len(HYPER) + list(HYPER).index("computed")
        size = np.exp(HYPER["computed"] * posterior.unknowns[:, place])
        shapes = drift(self.design, nodes=model.surrogate.nodes)[:, 0]
        size = size * model.installation.feed_error
        off = terms[:, ::2] @ shapes + 1j * (terms[:, 1::2] @ shapes)
        found: Complexes = np.asarray(1.0 + size * off, dtype=complex)
        return found

    def line_impedance(self, moves: Mapping[str, float]) -> Complexes:
        """Impedance at the start of the line at the design frequency (n,) [ohm].

        Args:
            moves: amounts by key, mixed units [-]
        """
        model = self.model
        amounts = self.amounts.copy()
        for key, amount in moves.items():
            if amount == 0.0:
                continue
            number = model.index[key]
            made = model.moved_within.get(key, 0.0)
            amounts[:, number] += amount + made * self.slack[:, number]
        count = len(model.surrogate.keys)
        at_nodes = model.surrogate.at_nodes(amounts[:, :count]) + self.tie
        port = model.surrogate.between(at_nodes, self.weights)
        seen, _ = model.through_feeder(amounts, port * self.feed[:, None], self.design)
        return seen[:, 0]

    def reflection(self, moves: Mapping[str, float]) -> Complexes:
        """Reflection against what the antenna is to be matched to (n,).

        Args:
            moves: amounts by key, mixed units [-]
        """
        seen, target = self.line_impedance(moves), self.model.installation.target
        found: Complexes = (seen - target) / (seen + target)
        return found

    def swr(self, moves: Mapping[str, float]) -> Floats:
        """Standing wave ratio at the start of the line (n,) [-].

        Args:
            moves: amounts by key, mixed units [-]
        """
        size = np.minimum(np.abs(self.reflection(moves)), 0.998)
        found: Floats = (1.0 + size) / (1.0 - size)
        return found

    def tie_at(self, moves: Mapping[str, float]) -> None:
        """Hold the antenna against a full solution where the moves lead.

        Args:
            moves: amounts by key, mixed units [-]
        """
        count = len(self.model.surrogate.keys)
        amounts = self.amounts[:, :count].mean(axis=0)
        for key, amount in moves.items():
            if self.model.index[key] < count:
                amounts[self.model.index[key]] += amount
        self.tie = self.model.surrogate.tie(amounts)


def advise(
    outlook: Outlook, *, adjustable: tuple[str, ...], frequencies: Floats, explained: bool = True
) -> Advice:
    """Find the best moves and weigh them against doing nothing.

    Args:
        adjustable: keys of what may be moved
        frequencies: frequencies of the sweep to expect [Hz] (f,)
        explained: whether the sweep is explained at all; no moves otherwise
    """
    before = outlook.swr({})
    moves = _best(outlook, adjustable) if explained and adjustable else {}
    if any(outlook.model.index[key] < len(outlook.model.surrogate.keys) for key in moves):
        outlook.tie_at(moves)
        tuned = _tuned(outlook, tuple(moves), moves)
        moves = _rounded(outlook, tuned)
        outlook.tie_at(moves)
    after = outlook.swr(moves)
    seen = outlook.line_impedance(moves)
    gain = float(np.mean(np.minimum(before, _WORST)) - np.mean(np.minimum(after, _WORST)))
    worse = float(np.mean(after > before + _SLACK))
    move = bool(moves) and gain > _WORTH_IT + _BY_PART * (len(moves) - 1) and worse < _WORSE
    best = _foretold(after if gain > 0.0 else before)
    now = _foretold(before)
    verdict: Literal["move", "leave it", "cannot tell"] = "move" if move else "leave it"
    if not explained:
        verdict = "cannot tell"
    taken = moves if move else {}
    return Advice(
        verdict=verdict,
        steps=_steps(outlook, taken),
        now=now,
        after=best if move else now,
        worse=worse if move else 0.0,
        resistance=float(np.median(seen.real)),
        reactance=float(np.median(seen.imag)),
        within_reach=not explained or max(best.chance, now.chance) >= _HARDLY,
        frequencies=frequencies,
        expected=expected_sweep(outlook, taken),
    )


def _foretold(swr: Floats) -> Foretold:
    low, middle, high = (float(each) for each in np.percentile(swr, _BANDS, method="weibull"))
    return Foretold(low=low, middle=middle, high=high, chance=float(np.mean(swr <= GOOD_SWR)))


def _best(outlook: Outlook, adjustable: tuple[str, ...]) -> dict[str, float]:
    """The fewest parts whose moves leave the least mean ratio."""
    driven = f"tip.{outlook.model.installation.beam.driven_index}"
    put_right = _put_right(outlook, adjustable, driven)
    willing = [key for key in adjustable if key == driven or not key.startswith("tip.")]
    others = [key for key in adjustable if key not in willing]
    best, least = dict(put_right), _cost(outlook, put_right)
    for count in range(1, min(_MOST_PARTS, len(willing)) + 1):
        for keys in combinations(willing, count):
            found = _rounded(outlook, _tuned(outlook, keys, put_right))
            cost = _cost(outlook, found)
            if cost < least:
                best, least = found, cost
    if np.mean(outlook.swr(best) <= GOOD_SWR) > _HARDLY:
        return best
    # What the driven element and the match cannot do, a parasitic element may.
    for other in others:
        keys = (*(key for key in best if key not in put_right), other)
        found = _rounded(outlook, _tuned(outlook, keys or (driven, other), put_right))
        cost = _cost(outlook, found) + _WORTH_IT
        if cost < least:
            best, least = found, cost
    return best


def _put_right(outlook: Outlook, adjustable: tuple[str, ...], driven: str) -> dict[str, float]:
    """Moves that put clearly wrong parasitic elements back, since they carry the pattern."""
    found = {}
    wavelength = outlook.model.installation.beam.wavelength
    for key in adjustable:
        if not key.startswith("tip.") or key == driven:
            continue
        off = outlook.amounts[:, outlook.model.index[key]]
        middle, spread = float(off.mean()), float(off.std())
        if abs(middle) > max(_CLEARLY_OFF * spread, _WORTH_A_CLIMB * wavelength):
            found[key] = -middle
    return _rounded(outlook, found)


def _cost(outlook: Outlook, moves: Mapping[str, float]) -> float:
    made = sum(amount != 0.0 for amount in moves.values())
    swr = np.minimum(outlook.swr(moves), _WORST)
    return float(np.mean(swr)) + _BY_PART * made


def _tuned(outlook: Outlook, keys: tuple[str, ...], start: Mapping[str, float]) -> dict[str, float]:
    """Amounts of some parts that leave the least mean square reflection."""
    at = dict(start) | {key: start.get(key, 0.0) for key in keys}
    steps = {key: _unit(outlook, key) for key in keys}
    for _ in range(_ROUNDS):
        base = outlook.reflection(at)
        columns = []
        for key in keys:
            ahead = outlook.reflection({**at, key: at[key] + 0.2 * steps[key]})
            columns.append((ahead - base) / 0.2)
        slope = np.array([np.concatenate([c.real, c.imag]) for c in columns]).T
        left = np.concatenate([base.real, base.imag])
        normal = slope.T @ slope + 1e-6 * len(base) * np.eye(len(keys))
        change = -np.linalg.solve(normal, slope.T @ left)
        change /= max(1.0, float(np.max(np.abs(change))) / 3.0)
        for key, part in zip(keys, change.tolist(), strict=True):
            at[key] = _within(outlook, key, at[key] + part * steps[key])
        if float(np.max(np.abs(change))) < 0.05:
            break
    return at


def _unit(outlook: Outlook, key: str) -> float:
    """An amount that is felt: a spread, or more of what is moved far."""
    cause = outlook.model.causes[outlook.model.index[key]]
    return float(max(cause.spread, 1e-9))


def _within(outlook: Outlook, key: str, amount: float) -> float:
    """Keep a part within what was solved and can be set."""
    number = outlook.model.index[key]
    off = float(outlook.amounts[:, number].mean())
    if number < len(outlook.model.surrogate.keys):
        reach = float(outlook.model.surrogate.reach[number])
        return float(np.clip(amount, -reach - off, reach - off))
    if outlook.model.causes[number].unit == "share":
        return float(np.clip(amount, _LEAST_SHARE - off, _MOST_SHARE - off))
    return amount


def _rounded(outlook: Outlook, moves: Mapping[str, float]) -> dict[str, float]:
    """Moves as a ruler shows them, without those that are nothing."""
    wavelength = outlook.model.installation.beam.wavelength
    grain = _ROUNDED_TO * (0.5 if wavelength < _FINE_BELOW else 1.0)
    found = {}
    for key, amount in moves.items():
        share = outlook.model.causes[outlook.model.index[key]].unit == "share"
        unit = _SHARE if share else grain
        made = round(amount / unit) * unit
        if made != 0.0:
            found[key] = made
    return found


def _steps(outlook: Outlook, moves: Mapping[str, float]) -> tuple[Step, ...]:
    model = outlook.model
    last = model.readings[-1].moves
    now = after_changes(
        installation=model.installation,
        changes={key: amount for key, amount in last.items() if amount},
    )
    bands = _bands(outlook, moves)
    return tuple(
        _step(model.installation, now, key, amount, bands[key]) for key, amount in moves.items()
    )


def _bands(outlook: Outlook, moves: Mapping[str, float]) -> dict[str, float]:
    """Half width of the 95 % band of the best amount of each part, others moved with it."""
    keys = tuple(moves)
    if not keys:
        return {}
    base = outlook.reflection(moves)
    columns = []
    for key in keys:
        step = 0.2 * _unit(outlook, key)
        ahead = outlook.reflection({**moves, key: moves[key] + step})
        columns.append((ahead - base) / step)
    slope = np.array([[c.real.mean() for c in columns], [c.imag.mean() for c in columns]])
    scale = np.array([_unit(outlook, key) for key in keys])
    needed = np.linalg.pinv(slope * scale, rcond=1e-3) @ np.array([base.real, base.imag])
    spread = np.std(needed, axis=1) * scale
    return {key: float(1.96 * each) for key, each in zip(keys, spread, strict=True)}


def _step(
    installation: Installation, now: Installation, key: str, amount: float, band: float
) -> Step:
    kind, _, number = key.partition(".")
    by = Quantity(abs(amount), "trim", band)
    if kind == "tip":
        label = element_labels(installation)[int(number)]
        verb = "lengthen" if amount > 0.0 else "shorten"
        element = installation.beam.elements[int(number)]
        what = "each {label} tip"
        if element.closed:
            what = "each half of the {label} loop"
        elif element.upright:
            what = "the {label} element at its top"
        text = phrase(f"{verb} {what} {{by}}", label=label, by=by)
        return Step(key=key, amount=amount, band=band, text=text)
    way = "outwards" if amount > 0.0 else "inwards"
    if kind == "strap":
        text = phrase(f"move the {{name}} {{by}} {way}", name=strap_name(installation), by=by)
        return Step(key=key, amount=amount, band=band, text=text)
    stage, planned = now.stages[int(number)], installation.stages[int(number)]
    for name in ("capacitance", "inductance"):
        if hasattr(stage, name):
            # The change is a share of the planned value, the piece as it stands may differ.
            whole = getattr(planned, name)
            value = Quantity(getattr(stage, name) + amount * whole, name, band * whole)
            text = phrase("{stage} to {value}", stage=stage_name(stage), value=value)
            return Step(key=key, amount=amount, band=band, text=text)
    made = f"move {{stage}} {{by}} {way}"
    if isinstance(stage, LineSection):
        made = f"{'lengthen' if amount > 0.0 else 'shorten'} the {{stage}} {{by}}"
    text = phrase(made, stage=stage_name(stage), by=by)
    return Step(key=key, amount=amount, band=band, text=text)


def expected_sweep(outlook: Outlook, moves: Mapping[str, float]) -> Complexes:
    """Reflection at the meter after some moves, the middle of all draws, without meter errors.

    Args:
        moves: amounts by key, mixed units [-]

    Returns:
        reflection (f,)
    """
    model, last = outlook.model, outlook.last
    amounts = outlook.amounts.mean(axis=0, keepdims=True)
    for key, amount in moves.items():
        amounts[0, model.index[key]] += amount
    count = len(model.surrogate.keys)
    prepared = model.prepared[last]
    at_nodes = model.surrogate.at_nodes(amounts[:, :count]) + outlook.tie
    impedance = model.surrogate.between(at_nodes, prepared.weights)
    seen, _ = prepared.reflection(model, amounts, impedance)
    found: Complexes = seen[0]
    return found
