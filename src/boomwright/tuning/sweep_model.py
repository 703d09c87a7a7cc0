"""What a meter shows of an antenna with errors, for many sets of errors at once.

Unknowns are counted in standard deviations. Cutting errors, the meter's own and what the
computation leaves out are known by size only roughly, so the sizes are unknown too. Directivity,
source match and tracking {pozar-2012, sec. 4.5}, each a straight line over frequency, and the
error of the computed impedance act linearly; they are integrated out {rasmussen-williams-2006,
sec. 2.7}. A calibration kit errs alike every time, so most of the meter's errors stay from one
sweep to the next.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np

from boomwright.base import SPEED_OF_LIGHT
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.records import dataclass
from boomwright.tuning.braid_family import BraidFamily
from boomwright.tuning.causes import Cause
from boomwright.tuning.installation import Installation
from boomwright.tuning.readings import Meter, Reading
from boomwright.tuning.side_readings import SideSlopes
from boomwright.tuning.surrogate import Surrogate

#: sizes that are unknown: care of the builder, residuals of the meter, error of the computation,
#: scatter of the meter; spread of the natural logarithm of each
HYPER: Final[dict[str, float]] = {"care": 0.5, "residual": 0.5, "computed": 0.4, "scatter": 0.7}
_SCATTER_KNOWN: Final = 0.2
#: how far a linear term changes from the middle to the edges of the sweep, as a share; directivity
#: and the error of the computed impedance also bend
_TILT, _BEND = 0.4, 0.25
#: share of the variance of the meter's errors that stays from sweep to sweep
_KEPT: Final = 0.8
#: linear terms of one sweep, real and imaginary parts apart, and of the antenna
_METER_TERMS, FEED_TERMS = 14, 6
#: what stands for the field solution is no finer than this, however quiet the sweep [-]
_LEAST_NOISE: Final = 2e-4
#: reflection below which a size alone is not linear in its parts
_SOFT: Final = 0.01


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Linear:
    """What is left of the readings at some unknowns, and what could still explain it."""

    #: effect of each linear term, for one standard deviation, and below them what is left
    #: (n, t + 1, m)
    rows: Floats
    noise: Floats  #: standard deviation of the scatter (n,)

    @property
    def basis(self) -> Floats:
        """Effect of each linear term, for one standard deviation (n, t, m)."""
        return self.rows[:, :-1]

    @property
    def left(self) -> Floats:
        """Readings less the prediction (n, m)."""
        return self.rows[:, -1]


class SweepModel:
    """Predicts readings of one installation from its unknowns.

    Args:
        surrogate: the antenna
        causes: what may deviate, those of the surrogate first
        readings: the sweeps, first to last
        meter: the kind of meter
        moved_within: standard deviation of a move, by key, mixed units [-]
        sides: figures read beside the sweeps
        braid: what the outside of the line adds; None with a choke that works
    """

    def __init__(
        self,
        *,
        surrogate: Surrogate,
        causes: tuple[Cause, ...],
        readings: tuple[Reading, ...],
        meter: Meter,
        moved_within: dict[str, float],
        sides: tuple[SideSlopes, ...] = (),
        braid: BraidFamily | None = None,
    ) -> None:
        self.surrogate, self.causes, self.readings = surrogate, causes, readings
        self.installation: Installation = surrogate.bench.installation
        self.meter = meter
        #: share of what acts that is the cause itself, in variance; the rest only acts alike
        self.own = np.array([1.0 / (1.0 + cause.acts_alike**2) for cause in causes])
        self.spreads = np.array([cause.spread for cause in causes]) / np.sqrt(self.own)
        self.means = np.array([cause.mean for cause in causes])
        self.cut = np.array([cause.adjusted for cause in causes])
        self.index = {cause.key: number for number, cause in enumerate(causes)}
        self.moved_within = moved_within
        self.moved = _move_errors(readings, moved_within)
        self.size = len(causes) + len(self.moved) + len(HYPER)
        self.ties: list[Complexes] = [np.zeros(len(surrogate.nodes), complex) for _ in readings]
        self.prepared = [_Prepared(self.installation, surrogate, each) for each in readings]
        self.sides, self.braid = sides, braid
        self.count = sum(len(each.target) for each in self.prepared) + len(sides)

    def amounts(self, unknowns: Floats) -> Floats:
        """Deviations from the plan as they act, mixed units (n, causes).

        Args:
            unknowns: in standard deviations (n, size)
        """
        count = len(self.causes)
        scaled = unknowns[:, :count] * self.spreads
        care = self._hyper(unknowns, "care")[:, None]
        found: Floats = self.means + np.where(self.cut, care * scaled, scaled)
        return found

    def deviations(self, unknowns: Floats, rng: np.random.Generator) -> Floats:
        """Deviations themselves, without what only acts like them, mixed units (n, causes).

        Args:
            unknowns: in standard deviations (n, size)
            rng: source of what only acts alike
        """
        own = unknowns[:, : len(self.causes)] * self.own
        own += np.sqrt(self.own * (1.0 - self.own)) * rng.normal(size=own.shape)
        return self.amounts(np.concatenate([own, unknowns[:, len(self.causes) :]], axis=1))

    def _hyper(self, unknowns: Floats, name: str) -> Floats:
        place = self.size - len(HYPER) + list(HYPER).index(name)
        spread = HYPER[name]
        if name == "scatter" and self.meter.noise_known:
            spread = _SCATTER_KNOWN
        found: Floats = np.exp(spread * unknowns[:, place])
        return found

    def standing(self, unknowns: Floats, number: int) -> Floats:
        """Deviations from the plan, moves and their errors among them, at one sweep (n, causes)."""
        found = self.amounts(unknowns)
        reading = self.readings[number]
        for key, amount in reading.moves.items():
            found[:, self.index[key]] += amount
        for place, (since, key) in enumerate(self.moved):
            if since <= number:
                error = unknowns[:, len(self.causes) + place] * self.moved_within[key]
                found[:, self.index[key]] += error
        if reading.rise and "height" in self.index:
            found[:, self.index["height"]] += reading.rise
        return found

    def linear(self, unknowns: Floats) -> Linear:
        """Residuals and linear terms of all sweeps.

        Args:
            unknowns: in standard deviations (n, size)
        """
        many = len(self.readings) > 1
        common = _METER_TERMS * len(self.readings)
        total = common + _METER_TERMS * many + FEED_TERMS
        rows = np.zeros((len(unknowns), total + 1, self.count))
        feed = self.installation.feed_error * self._hyper(unknowns, "computed")
        residual = self.meter.residual * self._hyper(unknowns, "residual")
        at = 0
        for number, prepared in enumerate(self.prepared):
            amounts = self.standing(unknowns, number)
            impedance = self.impedance(amounts, number)
            seen, slope = prepared.reflection(self, amounts, impedance)
            span = slice(at, at + len(prepared.target))
            first = _METER_TERMS * number
            meter = rows[:, first : first + _METER_TERMS, span]
            rows[:, -1, span] = prepared.left(seen)
            prepared.tell(seen, _meter_terms(prepared.shapes, seen, residual), meter)
            if many:
                rows[:, common : common + _METER_TERMS, span] = np.sqrt(_KEPT) * meter
                meter *= np.sqrt(1.0 - _KEPT)
            shift = (feed[:, None] * slope) * impedance
            prepared.tell(
                seen,
                [shape * shift for shape in prepared.shapes],
                rows[:, -1 - FEED_TERMS : -1, span],
            )
            at += len(prepared.target)
        noise = np.hypot(self.meter.noise * self._hyper(unknowns, "scatter"), _LEAST_NOISE)
        for number, side in enumerate(self.sides, start=at):
            # Counted in scatter of the meter, like the readings of the sweeps.
            amounts = self.standing(unknowns, len(self.readings) - 1)
            off = (side.reading.value - side.predicted(amounts, self.index)) / side.reading.spread
            rows[:, -1, number] = noise * off
        return Linear(rows=rows, noise=noise)

    def impedance(self, amounts: Floats, number: int) -> Complexes:
        """Impedance at the wires' port at the frequencies of a sweep [ohm] (n, f)."""
        count = len(self.surrogate.keys)
        at_nodes = self.surrogate.at_nodes(amounts[:, :count]) + self.ties[number]
        found = self.surrogate.between(at_nodes, self.prepared[number].weights)
        if self.braid is not None:
            lengths = amounts[:, self.index["hidden.braid"]]
            added = self.braid.added(lengths, self.prepared[number].weights)
            found = 1.0 / (1.0 / found + added)
        return found

    def through_feeder(
        self, amounts: Floats, impedance: Complexes, frequencies: Floats
    ) -> tuple[Complexes, Complexes]:
        """Impedance behind stray parts and match, and its slope with the one at the port.

        Args:
            amounts: deviations from the plan, mixed units (n, causes)
            impedance: at the wires' port [ohm] (n, f)
            frequencies: [Hz] (f,)

        Returns:
            impedance where the line begins [ohm] (n, f)
            slope [-] (n, f)
        """
        turn: Complexes = np.asarray(2j * np.pi * frequencies, dtype=complex)

        def value(key: str) -> Floats:
            return amounts[:, self.index[key]][:, None]

        seen: Complexes = 1.0 / (1.0 / impedance + turn * value("stray"))
        slope: Complexes = (seen / impedance) ** 2
        seen = seen + turn * value("lead")
        for number, stage in enumerate(self.installation.stages):
            key = f"stage.{number}"
            piece: Any = _changed(stage, value(key)) if key in self.index else stage
            if getattr(stage, "inductance", 1.0) == 0.0:
                # A short, whose own reactance is not known.
                reactance = np.exp(value("hidden.stray"))
                angular = 2.0 * np.pi * self.installation.beam.design_frequency
                piece = type(piece)(inductance=reactance / angular)
            seen, below = piece.behind(load=seen, frequency=frequencies)
            slope = slope / below**2
        if "hidden.leak" in self.index:
            ratio = frequencies / self.installation.beam.design_frequency
            leak = np.exp(-value("hidden.leak")) + 1j * ratio * np.exp(-value("hidden.water"))
            wet = 1.0 / (1.0 / seen + leak)
            seen, slope = wet, slope * (wet / seen) ** 2
        return seen, slope


class _Prepared:
    """What of a sweep stays the same whatever the unknowns."""

    def __init__(self, planned: Installation, surrogate: Surrogate, reading: Reading) -> None:
        self.frequencies = reading.sweep.frequencies
        self.weights = surrogate.weights(self.frequencies)
        self.phase = reading.phase
        self.shapes = drift(self.frequencies, nodes=surrogate.nodes)
        self.measured = reading.sweep.reflection
        parts = (self.measured.real, self.measured.imag)
        self.target = np.abs(self.measured) if self.phase == "none" else np.concatenate(parts)
        if planned.line is not None:
            pairs = [planned.line.propagation(frequency=float(f)) for f in self.frequencies]
            self.gamma, self.z0 = np.array(pairs, dtype=complex).T

    def reflection(
        self, model: SweepModel, amounts: Floats, impedance: Complexes
    ) -> tuple[Complexes, Complexes]:
        """Reflection at the meter, but for its own errors, and its slope with the impedance.

        Args:
            amounts: deviations from the plan, mixed units (n, causes)
            impedance: at the wires' port [ohm] (n, f)

        Returns:
            reflection [-] (n, f)
            slope [1/ohm] (n, f)
        """
        planned = model.installation
        seen, slope = model.through_feeder(amounts, impedance, self.frequencies)
        if planned.line is not None:
            z0 = self.z0 * (1.0 + amounts[:, model.index["line.impedance"]][:, None])
            length = planned.line_length + amounts[:, model.index["line.length"]][:, None]
            loss = planned.line_loss_factor + amounts[:, model.index["line.loss"]][:, None]
            way = (self.gamma.real * np.maximum(loss, 0.0) + 1j * self.gamma.imag) * length
            through = np.exp(-2.0 * way)
            back = (seen - z0) / (seen + z0) * through
            slope = slope * through * (2.0 * z0 / ((seen + z0) * (1.0 - back))) ** 2
            seen = z0 * (1.0 + back) / (1.0 - back)
        above = seen + planned.reference
        found = (seen - planned.reference) / above
        slope = slope * 2.0 * planned.reference / above**2
        if "plane" in model.index:
            turn = 4.0 * np.pi * self.frequencies / SPEED_OF_LIGHT
            shift = np.exp(-1j * turn * amounts[:, model.index["plane"]][:, None])
            found, slope = found * shift, slope * shift
        return found, slope

    def left(self, seen: Complexes) -> Floats:
        """What is left of the readings (n, m)."""
        if self.phase == "none":
            return self.target - np.abs(seen)
        if self.phase == "unsigned":
            # The meter shows the size of the reactance: what is below the axis is folded up.
            seen = np.where(seen.imag < 0.0, seen.conj(), seen)
        left = self.measured - seen
        return np.concatenate([left.real, left.imag], axis=1)

    def tell(self, seen: Complexes, terms: Sequence[Complexes], rows: Floats) -> None:
        """Write terms as real readings, each by a real and an imaginary amount (n, 2 t, m)."""
        count = len(self.frequencies)
        if self.phase == "none":
            along = seen.conj() / np.sqrt(np.abs(seen) ** 2 + _SOFT**2)
            for number, term in enumerate(terms):
                turned = along * term
                rows[:, 2 * number] = turned.real
                np.negative(turned.imag, out=rows[:, 2 * number + 1])
            return
        for number, term in enumerate(terms):
            rows[:, 2 * number, :count] = rows[:, 2 * number + 1, count:] = term.real
            rows[:, 2 * number, count:] = term.imag
            np.negative(term.imag, out=rows[:, 2 * number + 1, :count])
        if self.phase == "unsigned":
            rows[:, :, count:] *= np.where(seen.imag < 0.0, -1.0, 1.0)[:, None]


def _meter_terms(shapes: Floats, seen: Complexes, residual: Floats) -> list[Complexes]:
    """Effects of directivity, tracking and source match on the reflection, each (n, f)."""
    steady = residual[:, None]
    tracked = steady * seen
    matched = tracked * seen
    return [
        *(steady * shape.astype(complex) for shape in shapes),
        *(shape * effect for effect in (tracked, matched) for shape in shapes[:2]),
    ]


def drift(frequencies: Floats, *, nodes: Floats) -> Floats:
    """Shapes over the band of the nodes of what drifts: constant, sloping, bent (3, f).

    Args:
        frequencies: [Hz] (f,)
        nodes: frequencies solved, lowest first [Hz] (k,)
    """
    tilt = (2.0 * frequencies - nodes[0] - nodes[-1]) / (nodes[-1] - nodes[0])
    found: Floats = np.array([np.ones_like(tilt), _TILT * tilt, _BEND * (2.0 * tilt**2 - 1.0)])
    return found


def _changed(stage: Any, amount: Floats) -> Any:
    """A piece of the match with as many values as there are sets of unknowns."""
    kept = {name: getattr(stage, name) for name in stage.__dataclass_fields__}
    for name in ("capacitance", "inductance"):
        if name in kept:
            kept[name] = kept[name] * np.maximum(0.02, 1.0 + amount)
    if "length" in kept:
        kept["length"] = np.maximum(1e-4, kept["length"] + amount)
    return type(stage)(**kept)


def _move_errors(
    readings: tuple[Reading, ...], within: dict[str, float]
) -> tuple[tuple[int, str], ...]:
    """Every move that was made with an error of its own: first sweep after it, and key."""
    found, before = [], dict[str, float]()
    for number, reading in enumerate(readings):
        for key, amount in reading.moves.items():
            if amount != before.get(key, 0.0) and within.get(key, 0.0) > 0.0:
                found.append((number, key))
        before = dict(reading.moves)
    return tuple(found)
