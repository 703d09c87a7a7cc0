"""From readings to what may be true of the antenna, and what to move."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from boomwright.base import Notice
from boomwright.base.array_types import Complexes, Floats
from boomwright.base.quantity import Quantity, phrase
from boomwright.base.records import dataclass, field
from boomwright.tuning.antenna import Bench
from boomwright.tuning.causes import Cause, usual_causes
from boomwright.tuning.errors import MeasurementError
from boomwright.tuning.installation import Installation
from boomwright.tuning.moves import Advice, Outlook, adjustable_keys, advise
from boomwright.tuning.posterior import Mode, Posterior, draw_posterior, find_modes
from boomwright.tuning.readings import METERS, Meter, Reading, SideReading
from boomwright.tuning.side_readings import side_slopes
from boomwright.tuning.surrogate import Surrogate, build_surrogate
from boomwright.tuning.sweep import reading_noise
from boomwright.tuning.sweep_model import HYPER, SweepModel
from boomwright.tuning.tolerance import MovingCare, Tolerance

Progress = Callable[[float], None]

#: most points of a sweep that are fitted; more are averaged
MOST_POINTS = 31
#: half width of a 95 % band, in standard deviations: 1.96 and some more for what no model has
BAND = 2.08
#: full solutions that the antenna is tied to, one after the other; no further one where the
#: unknowns moved less than this since, in standard deviations
_TIES, _SETTLED = 2, 0.15
#: beyond so many standard deviations of its usual scatter a strain is not believed: that of a
#: first sweep, which may be of another antenna, and that of several together
LARGEST_STRAIN, _LARGEST_JOINED = 1.6, 2.2
#: what is left over may be so many times the meter's scatter, and no less than the least scatter
_LARGEST_MISFIT, _LEAST_SCATTER = 2.2, 0.0025
#: shares of the work that the surrogate and the draws take
_BUILDING, _SEARCHING = 0.75, 0.8


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Trimming:
    """What the readings say, and what to move."""

    causes: tuple[Cause, ...]  #: what may deviate (n,)
    model: SweepModel  #: predicts the readings
    posterior: Posterior  #: what may be true
    #: deviations from the plan of every draw, without what only acts like them, mixed units
    #: (draws, n)
    deviations: Floats
    predicted: tuple[Complexes, ...]  #: reflection that the middle explains, by sweep
    scatter: float  #: what is left over, standard deviation of either part [-]
    misfit: float  #: the same over the meter's own scatter [-]
    strain: float  #: how unlikely the sweep was beforehand, in standard deviations [-]
    explained: bool  #: whether to believe it
    advice: Advice  #: what to do
    notices: tuple[Notice, ...] = field(default=())

    @property
    def acting(self) -> Floats:
        """Deviations of every draw as they act, mixed units (draws, n)."""
        return self.model.amounts(self.posterior.unknowns)

    @property
    def before(self) -> Floats:
        """Standard deviation of the deviations before anything was read, mixed units (n,)."""
        care = np.where(self.model.cut, np.exp(HYPER["care"] ** 2), 1.0)
        found: Floats = care * np.array([cause.spread for cause in self.causes])
        return found

    @property
    def mean(self) -> Floats:
        """Middle of the deviations, mixed units (n,)."""
        found: Floats = self.deviations.mean(axis=0)
        return found

    @property
    def spread(self) -> Floats:
        """Their standard deviation, mixed units (n,)."""
        found: Floats = self.deviations.std(axis=0)
        return found


def antenna_surrogate(
    *,
    installation: Installation,
    lowest_frequency: float,
    highest_frequency: float,
    tolerance: Tolerance | None = None,
    progress: Progress | None = None,
) -> Surrogate:
    """Prepare what stands for the antenna; takes seconds.

    Args:
        lowest_frequency, highest_frequency: limits of the sweeps [Hz]
    """
    causes = usual_causes(installation=installation, tolerance=tolerance)
    mine = [cause for cause in causes if _of_antenna(cause)]
    design = installation.beam.design_frequency
    return build_surrogate(
        bench=Bench(installation),
        keys=tuple(cause.key for cause in mine),
        spreads=np.array([cause.spread for cause in mine]),
        lowest_frequency=min(lowest_frequency, 0.999 * design),
        highest_frequency=max(highest_frequency, 1.001 * design),
        progress=progress,
    )


def _of_antenna(cause: Cause) -> bool:
    return cause.key.startswith("tip.") or cause.key in (
        "strap",
        "height",
        "ground",
        "radials",
        "foot",
    )


def trim(
    *,
    surrogate: Surrogate,
    readings: tuple[Reading, ...],
    sides: tuple[SideReading, ...] = (),
    meter: Meter | None = None,
    tolerance: Tolerance | None = None,
    care: MovingCare | None = None,
    adjustable: tuple[str, ...] | None = None,
    seed: int = 1,
    progress: Progress | None = None,
) -> Trimming:
    """Fit all readings together and decide what to move.

    Args:
        readings: sweeps in their order; all explained by the same errors
        meter: the kind of meter; None for a hand-held one
        tolerance: how far off things usually are; None for the usual values
        care: how exactly moves are made; None for the usual care
        adjustable: keys of what may be moved; None for everything that can be
    """
    _same_reference(surrogate.bench.installation, readings)
    causes = usual_causes(installation=surrogate.bench.installation, tolerance=tolerance)
    model = SweepModel(
        surrogate=surrogate,
        causes=causes,
        readings=readings,
        meter=meter or METERS["hand-held"],
        moved_within=_within(causes, care or MovingCare()),
        sides=side_slopes(bench=surrogate.bench, readings=sides),
    )
    modes = find_modes(model)
    for _ in range(_TIES):
        tied = modes[0].place
        tie(model, modes[0])
        modes = find_modes(model, start=tied)
        if np.linalg.norm(modes[0].place - tied) < _SETTLED:
            break
    rng = np.random.default_rng(seed)
    posterior = draw_posterior(model, modes=modes, rng=rng, progress=progress)
    scatter = _scatter(model, modes[0])
    misfit, strain = misfit_of(model, modes[0], readings), strain_of(model, modes[0])
    explained = believed(model, modes[0], readings)
    keys = adjustable_keys(model) if adjustable is None else adjustable
    outlook = Outlook(model, posterior, rng)
    advice = advise(
        outlook,
        adjustable=keys,
        frequencies=readings[-1].sweep.frequencies,
        explained=explained,
    )
    return Trimming(
        causes=causes,
        model=model,
        posterior=posterior,
        deviations=model.deviations(posterior.unknowns, rng),
        predicted=predicted_sweeps(model, modes[0]),
        scatter=scatter,
        misfit=misfit,
        strain=strain,
        explained=explained,
        advice=advice,
        notices=_doubts(misfit, strain, explained, limit=largest_strain(len(readings))),
    )


def _same_reference(installation: Installation, readings: tuple[Reading, ...]) -> None:
    for each in readings:
        if each.sweep.reference != installation.reference:
            raise MeasurementError(
                f"the sweep is held against {each.sweep.reference:g} ohm, the installation against "
                f"{installation.reference:g} ohm; read both against one"
            )


def _within(causes: tuple[Cause, ...], care: MovingCare) -> dict[str, float]:
    return {
        cause.key: care.share if cause.unit == "share" else care.length
        for cause in causes
        if cause.adjusted
    }


def tie(model: SweepModel, mode: Mode) -> None:
    """Hold the antenna of every sweep against a full solution there."""
    count = len(model.surrogate.keys)
    done: dict[bytes, Complexes] = {}
    for number in range(len(model.readings)):
        amounts = model.standing(mode.place[None], number)[0, :count]
        key = amounts.tobytes()
        if key not in done:
            done[key] = model.surrogate.tie(amounts)
        model.ties[number] = done[key]


def believed(
    model: SweepModel,
    mode: Mode,
    readings: tuple[Reading, ...],
    *,
    most: float | None = None,
) -> bool:
    """Whether a mode explains the readings with errors that somebody makes.

    Args:
        most: largest strain; None for the usual one of so many sweeps [-]
    """
    misfit = misfit_of(model, mode, readings)
    limit = largest_strain(len(readings)) if most is None else most
    return misfit < _LARGEST_MISFIT and strain_of(model, mode) < limit


def largest_strain(sweeps: int) -> float:
    """Strain up to which so many sweeps are believed [-]."""
    return LARGEST_STRAIN if sweeps == 1 else _LARGEST_JOINED


def misfit_of(model: SweepModel, mode: Mode, readings: tuple[Reading, ...]) -> float:
    """What is left over, over the scatter that the sweeps show by themselves [-]."""
    return _scatter(model, mode) / max(_LEAST_SCATTER, _own_scatter(readings))


def strain_of(model: SweepModel, mode: Mode) -> float:
    """How far what is left and the unknowns are beyond their usual sum, in its deviations [-]."""
    sizes = mode.place[-len(HYPER) :]
    excess = (mode.strain - model.count) / np.sqrt(2.0 * model.count)
    return float(max(excess, np.max(sizes[:3])))


def _scatter(model: SweepModel, mode: Mode) -> float:
    """What the linear terms leave over [-]."""
    given = model.linear(mode.place[None])
    noise, basis, left = float(given.noise[0]), given.basis[0], given.left[0]
    inner = basis @ basis.T / noise**2 + np.eye(len(basis))
    terms = np.linalg.solve(inner, basis @ left / noise**2)
    rest = left - basis.T @ terms
    told = float(np.trace(np.linalg.solve(inner, basis @ basis.T / noise**2)))
    return float(np.sqrt(rest @ rest / max(1.0, len(left) - told)))


def predicted_sweeps(model: SweepModel, mode: Mode) -> tuple[Complexes, ...]:
    """Reflection at the meter that a mode explains, but for the meter's own errors."""
    found = []
    for number, prepared in enumerate(model.prepared):
        amounts = model.standing(mode.place[None], number)
        seen, _ = prepared.reflection(model, amounts, model.impedance(amounts, number))
        found.append(seen[0])
    return tuple(found)


def _own_scatter(readings: tuple[Reading, ...]) -> float:
    return max(reading_noise(sweep=each.sweep) for each in readings)


def _doubts(misfit: float, strain: float, explained: bool, *, limit: float) -> tuple[Notice, ...]:
    if explained:
        return ()
    return (
        Notice(
            code="tuning.not-explained",
            severity="doubt",
            text="Nothing that usually differs explains this sweep. Do not move anything yet: look "
            "for a fault, and check that sweep and plan are of the same antenna.",
            value=phrase(
                "{misfit} times the meter's scatter, strain {strain}",
                misfit=Quantity(misfit, "times"),
                strain=Quantity(strain, "times"),
            ),
            limit=phrase(
                "{misfit} and {strain}",
                misfit=Quantity(_LARGEST_MISFIT, "times"),
                strain=Quantity(limit, "times"),
            ),
        ),
    )
