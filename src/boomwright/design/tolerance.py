"""How far the finished beam may be off: cutting, tubes, droop, wet, ice, a neighbour."""

from __future__ import annotations

from itertools import product

import numpy as np
from numpy.typing import NDArray

from boomwright.base.array_types import Floats
from boomwright.base.records import dataclass, replace
from boomwright.design.bent_search import bent_problem, miscut
from boomwright.design.figures_of import BandFigures, band_figures
from boomwright.design.loading import (
    WET,
    coated_lengthening,
    droop_lengthening,
    ice,
    thicker_lengthening,
)
from boomwright.design.setting_up import Setting, set_up
from boomwright.design.space import WishError
from boomwright.design.stopping import GoOn, StoppedError, always, until_stopped
from boomwright.design.targets import Targets, front_to_rear, slopes_of
from boomwright.design.wish import Wish
from boomwright.parts import Beam, Insulation, Wire
from boomwright.solver import remembering, standing_wave_ratio

#: built beams drawn to learn the spread
_DRAWN = 400
#: share of them that must stay within what is allowed when a cutting error is answered
_SHARE = 0.95
#: beams computed in one batch
_AT_ONCE = 32
#: steps of the bisection for the cutting error: on slopes, and by the full solver for bent wire
_HALVINGS, _FEW_HALVINGS = 12, 5
#: largest cutting error that is asked about for bent wire [wavelengths]
_MOST_MISCUT = 0.004


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildErrors:
    """How accurately the beam is built and what befalls it."""

    cutting: float = 2e-3  #: largest error of each half length [m]
    placing: float = 5e-3  #: largest error of each place along the boom [m]
    tube: float = 0.01  #: largest error of the tube diameters over the diameter [-]
    droop: float | None = None  #: how far the tips hang down, None for unknown [m]
    ice_thickness: float | None = None  #: radial ice, None for none [m]
    neighbour: tuple[Wire, ...] = ()  #: wires of a second antenna, in this beam's axes


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """How much worse the worst in the band may become."""

    gain_db: float = 0.1  #: loss of gain [dB]
    front_to_back_db: float = 3.0  #: loss of front-to-back ratio [dB]
    swr: float = 0.2  #: rise of the standing wave ratio [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How the worst figures in the band move for one cause."""

    cause: str  #: ``cutting``, ``placing``, ``tube``, ``droop``, ``wet``, ``ice`` or ``neighbour``
    #: half lengths act as if longer by this on average; zero where it is not a length [m]
    lengthening: float
    #: change of the worst gain: least and greatest of 95 % of the beams [dB] (2,)
    gain_db: tuple[float, float]
    front_to_back_db: tuple[float, float]  #: same of the front-to-back ratio [dB] (2,)
    swr: tuple[float, float]  #: same of the standing wave ratio [-] (2,)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tolerance:
    """How sensitive a beam is."""

    #: worst gain [dBi], front-to-back ratio [dB] and standing wave ratio [-] as drawn (3,)
    nominal: tuple[float, float, float]
    spreads: tuple[Spread, ...]  #: one for each cause
    #: cut every half to within plus or minus this and 19 of 20 beams stay within the allowance [m]
    cut_within: float
    allowance: Allowance  #: what that rests on


def tolerance_of(
    *,
    beam: Beam,
    targets: Targets,
    errors: BuildErrors | None = None,
    allowance: Allowance | None = None,
    seed: int = 0,
    go_on: GoOn = always,
) -> Tolerance:
    """Find out how far the finished beam may be off.

    Args:
        errors: how accurately it is built; None for usual care
        allowance: what may be lost; None for 0.1 dB, 3 dB and 0.2

    Raises:
        WishError: when the beam cannot be searched, or it was stopped
    """
    try:
        return _tolerance(beam, targets, errors, allowance, seed, go_on)
    except StoppedError:
        raise WishError(
            "it was stopped before the tolerance was known", remedy="ask for it again"
        ) from None


def _tolerance(
    beam: Beam,
    targets: Targets,
    errors: BuildErrors | None,
    allowance: Allowance | None,
    seed: int,
    go_on: GoOn,
) -> Tolerance:
    """Do the work of :func:`tolerance_of`."""
    made = BuildErrors() if errors is None else errors
    allowed = Allowance() if allowance is None else allowance
    if beam.bent:
        return _bent_tolerance(beam, targets, made.cutting, allowed, go_on)
    wish = Wish(targets=targets, keep_roles=False, closest=_closest(beam))
    setting = set_up(beam=beam, wish=wish, count=len(beam.elements))
    generator = np.random.default_rng(seed)
    count = len(setting.beam.elements)
    unit = generator.uniform(-1.0, 1.0, (_DRAWN, count))
    nominal = _worst(setting, np.zeros((1, 2 * count)), go_on)[0]
    spreads = [
        _spread("cutting", setting, nominal, _lengths(made.cutting * unit), go_on),
        _spread("placing", setting, nominal, _places(made.placing * unit), go_on),
    ]
    spreads += _loads(setting, nominal, made, unit, go_on)
    if made.neighbour:
        spreads.append(_neighbour(setting.beam, targets, made.neighbour))
    return Tolerance(
        nominal=(float(nominal[0]), float(nominal[1]), float(nominal[2])),
        spreads=tuple(spreads),
        cut_within=_cut_within(setting, nominal, unit, allowed, go_on),
        allowance=allowed,
    )


def _bent_tolerance(
    beam: Beam, targets: Targets, cutting: float, allowed: Allowance, go_on: GoOn
) -> Tolerance:
    """The same for wire with corners: every wire off by as much, each long or short.

    All such beams are computed by the full solver, so that every beam cut better is within.
    """
    problem = bent_problem(beam=beam, wish=Wish(targets=targets))
    keep = remembering()

    def worst(error: float) -> Floats:
        found = []
        for signs in until_stopped(list(product((-1.0, 1.0), repeat=len(beam.elements))), go_on):
            figures = problem.figures(miscut(problem.beam, error * np.array(signs)), keep).worst
            found.append((figures[0], figures[1], figures[3]))
        return np.array(found)

    nominal = worst(0.0)[0]
    change = worst(cutting) - nominal
    limit = np.array([-allowed.gain_db, -allowed.front_to_back_db, allowed.swr])
    low, high = 0.0, _MOST_MISCUT * beam.wavelength
    for _ in range(_FEW_HALVINGS):
        middle = (low + high) / 2.0
        off = worst(middle) - nominal
        within = bool((off[:, :2] >= limit[:2]).all() and (off[:, 2] <= limit[2]).all())
        low, high = (middle, high) if within else (low, middle)
    gain, back, swr = ((float(each.min()), float(each.max())) for each in change.T)
    return Tolerance(
        nominal=(float(nominal[0]), float(nominal[1]), float(nominal[2])),
        spreads=(
            Spread(cause="cutting", lengthening=0.0, gain_db=gain, front_to_back_db=back, swr=swr),
        ),
        cut_within=low,
        allowance=allowed,
    )


def _closest(beam: Beam) -> float:
    places = np.sort([element.position for element in beam.elements])
    return float(np.diff(places).min()) * 0.98


def _lengths(changes: Floats) -> Floats:
    return np.hstack([np.zeros_like(changes), changes])


def _places(changes: Floats) -> Floats:
    return np.hstack([changes, np.zeros_like(changes)])


def _worst(setting: Setting, changes: Floats, go_on: GoOn) -> Floats:
    """Worst gain, front-to-back ratio and standing wave ratio of changed beams (b, 3)."""
    elements = setting.beam.elements
    start = elements[0].position
    base = np.array(
        [element.position - start for element in elements]
        + [element.half_length for element in elements]
    )
    targets = setting.problem.targets
    towards = replace(targets, rear_weight=0.0, least_front_to_rear_db=-np.inf).directions()
    design = setting.problem.design_number
    rows = []
    for begin in until_stopped(range(0, len(changes), _AT_ONCE), go_on):
        both = base + changes[begin : begin + _AT_ONCE]
        found = slopes_of(problem=setting.problem, both=both, towards=towards, slopes=False)
        impedance, reference = found.impedance, targets.reference_resistance
        if targets.match == "matched":
            # The match is made once, for the beam as drawn or as measured: for each beam its own.
            at = impedance[:, design, None]
            swr = _swr_against(impedance - 1j * at.imag, at.real)
        else:
            swr = standing_wave_ratio(impedance=impedance, reference=reference)
        rows.append(
            np.stack(
                [
                    found.gain_db[:, :, 0].min(axis=1),
                    front_to_rear(found=found)[0].min(axis=(1, 2)),
                    swr.max(axis=1),
                ],
                axis=1,
            )
        )
    return np.concatenate(rows)


def _swr_against(impedance: NDArray[np.complex128], reference: Floats) -> Floats:
    return standing_wave_ratio(impedance=impedance / reference, reference=1.0)


def _spread(
    cause: str,
    setting: Setting,
    nominal: Floats,
    changes: Floats,
    go_on: GoOn,
    lengthening: float = 0.0,
) -> Spread:
    change = _worst(setting, changes, go_on) - nominal
    low, high = np.quantile(change, [0.025, 0.975], axis=0)
    return Spread(
        cause=cause,
        lengthening=lengthening,
        gain_db=(float(low[0]), float(high[0])),
        front_to_back_db=(float(low[1]), float(high[1])),
        swr=(float(low[2]), float(high[2])),
    )


def _loads(
    setting: Setting, nominal: Floats, made: BuildErrors, unit: Floats, go_on: GoOn
) -> list[Spread]:
    """Causes that act like longer elements."""
    beam = setting.beam
    spreads = []
    tube = np.array(
        [thicker_lengthening(element=e, beam=beam, by=made.tube) for e in beam.elements]
    )
    # One batch of tube: all elements are off the same way.
    together = unit[:, :1] * tube[None, :]
    spreads.append(_spread("tube", setting, nominal, _lengths(together), go_on, float(tube.mean())))
    if made.droop is not None:
        droop = np.array(
            [droop_lengthening(element=e, beam=beam, droop=made.droop) for e in beam.elements]
        )
        spreads.append(
            _spread("droop", setting, nominal, _lengths(droop[None, :]), go_on, float(droop.mean()))
        )
    coatings: list[tuple[str, Insulation]] = [("wet", WET)]
    if made.ice_thickness is not None:
        coatings.append(("ice", ice(thickness=made.ice_thickness)))
    for cause, coating in coatings:
        longer = np.array(
            [coated_lengthening(element=e, beam=beam, coating=coating) for e in beam.elements]
        )
        spreads.append(
            _spread(cause, setting, nominal, _lengths(longer[None, :]), go_on, float(longer.mean()))
        )
    return spreads


def _neighbour(beam: Beam, targets: Targets, wires: tuple[Wire, ...]) -> Spread:
    """A second antenna nearby, by the full solver."""
    alone = band_figures(beam=beam, targets=targets)
    beside = band_figures(beam=replace(beam, wires=(*beam.wires, *wires)), targets=targets)

    def change(one: BandFigures, two: BandFigures) -> tuple[float, float, float]:
        before, after = one.worst, two.worst
        return after[0] - before[0], after[1] - before[1], after[3] - before[3]

    gain, back, swr = change(alone, beside)
    return Spread(
        cause="neighbour",
        lengthening=0.0,
        gain_db=(gain, gain),
        front_to_back_db=(back, back),
        swr=(swr, swr),
    )


def _cut_within(
    setting: Setting, nominal: Floats, unit: Floats, allowed: Allowance, go_on: GoOn
) -> float:
    """Largest cutting error at which 19 of 20 beams stay within the allowance."""
    limit = np.array([-allowed.gain_db, -allowed.front_to_back_db, allowed.swr])
    low, high = 0.0, 0.01 * setting.ground.wavelength
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        change = _worst(setting, _lengths(middle * unit), go_on) - nominal
        within = (change[:, :2] >= limit[:2]).all(axis=1) & (change[:, 2] <= limit[2])
        low, high = (middle, high) if within.mean() >= _SHARE else (low, middle)
    return low
